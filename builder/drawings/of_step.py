"""The drawing of a step: from its frames to one or several pictures, chosen from what the step does.

Into something: half section.  Round a tube, at angles: end and side.  Marks round a tube: developed.
Onto a face: plan.  Cut: flat lay.  Roll, fold, tie, pack: a sequence.  Glue that a part then covers is shown
first.  A wait shows what lies drying.  No step is without a drawing.
"""

from __future__ import annotations

from collections.abc import Collection, Sequence

from builder.drawings.acts import acts_of, with_acts
from builder.drawings.alternative import ON, alternative, listed
from builder.drawings.assembly import Assembly, assemblies, changed, names_of, taken_away
from builder.drawings.captions import face_before, is_under, ordered, turned_over, with_legend
from builder.drawings.changes import Changes, changes, items_of
from builder.drawings.compose import HEIGHT, SIZE
from builder.drawings.detail import close_of, detail, framed
from builder.drawings.developed import On, Skin, Span, developed
from builder.drawings.foot_detail import foot_details
from builder.drawings.half_section import half_section
from builder.drawings.joint_detail import joint_details
from builder.drawings.of_bench import bundled, thing_of
from builder.drawings.of_cut import cuttings, drawn
from builder.drawings.of_ghost import parted_from
from builder.drawings.of_part import ends_of
from builder.drawings.of_scene import scene_of
from builder.drawings.of_table import loose_ones, nothing
from builder.drawings.of_ways import way_in
from builder.drawings.panels import in_rows, panels_of
from builder.drawings.pencil import GHOST
from builder.drawings.pending import placed_glue
from builder.drawings.scene import Scene
from builder.drawings.sequences import LOW, glue_first, open_glue, packed, sequences
from builder.drawings.shapes import Drawing, stacked
from builder.drawings.solids import Turned
from builder.drawings.ticks import is_tick, on_skin
from builder.drawings.views import axonometric, end, outside_view, plan, seen, side
from builder.drawings.which_view import face_marked, view_for
from builder.drawings.words import told_angle, told_mm
from builder.dryrun.run import DryRun, Frame
from builder.guide.model import Guide
from builder.guide.wording import title as wording_title
from builder.plan.used import used


def drawings_of(guide: Guide, run: DryRun, size: tuple[float, float] = SIZE) -> dict[str, Drawing]:
    """A drawing for every step of a dry run, by step id, in order; `size` as `drawing_of` takes it."""
    frames: dict[str, list[Frame]] = {}
    for frame in run.frames:
        frames.setdefault(frame.step.id, []).append(frame)
    things = used(guide, run)
    return {step: drawing_of(guide, own, size, things) for step, own in frames.items()}


def drawing_of(
    guide: Guide,
    frames: Sequence[Frame],
    size: tuple[float, float] = SIZE,
    things: Collection[str] | None = None,
    row: float = 0.0,
) -> Drawing:
    """The drawing of one step from all its frames.  ValueError if there are none.

    `size` is the width and height on paper, mm, that it is made for: letters and lines keep their size.
    `things` are those that the route uses, if only some of the guide's are to be shown.  `row` is the width
    of a row of pictures, mm, where it is more than that of one.
    """
    frames = placed_glue(guide, frames)
    step = changes(guide, frames)
    title = wording_title(frames[0].step, guide).text
    made = pictures(guide, step, title, size)
    wide = max(size[0], row)
    whole = in_rows(made, title, wide) if made else nothing(guide, step, title, size[0], things)
    return with_legend(with_acts(whole, acts_of(guide, frames), wide), wide)


def pictures(guide: Guide, step: Changes, title: str, size: tuple[float, float]) -> list[Drawing]:
    """The pictures of a step in the order in which things are done; none if it handles nothing."""
    panels = panels_of(step.frames)
    if len(panels) < 2:
        all_of_it = at_once(guide, step, title, size)
        return [turned(guide, step, all_of_it[0]), *all_of_it[1:]] if all_of_it else []
    room = (size[0], max(LOW, 150.0 * size[1] / HEIGHT / len(panels)))
    found: list[tuple[Drawing, bool]] = []
    glued = False
    for number, panel in enumerate(panels):
        own = changes(guide, panel.frames)
        made: list[list[Drawing]] = []
        if panel.kind == "glue":
            made = [open_glue(guide, panel.frames, title, room)]
            glued = glued or bool(made[0])
        elif panel.kind == "tie":
            made = [[knot] for knot in sequences(guide, own, title, room)[0]]
            if "tie" not in (p.kind for p in panels[number + 1 :]):  # all that is tied, when it hangs there
                tied = own._replace(joints=tuple(j for j in step.joints if j.kind == "tie"))
                made.append([assembly_view(guide, tied, a, title, room) for a in assemblies(guide, tied)])
        else:
            close = joint_details(guide, own, title, room) if glued else []
            if glued:  # it is drawn already, before anything covered it
                own = own._replace(joints=tuple(j for j in own.joints if not j.adhesive))
            cut = panel.kind == "cut"
            made = [at_once(guide, own, title, room, cut=cut, glue=False, order=False, whole=step) + close]
        found += [(stacked(ones, title), panel.times > 1) for ones in made if ones]
    if found:
        found[0] = (turned(guide, step, found[0][0]), found[0][1])
    return ordered([d for d, _ in found], [again for _, again in found])


def at_once(
    guide: Guide,
    step: Changes,
    title: str,
    size: tuple[float, float],
    *,
    cut: bool = True,
    glue: bool = True,
    order: bool = True,
    whole: Changes | None = None,
) -> list[Drawing]:
    """The pictures of what is done in one go: what is cut on its stock (if `cut`), acts, glue that is then
    covered (if `glue`), and the assemblies as they are then, with words for their order (if `order`).
    `whole` is all that the step changes, where this is a part of it: it tells what a pattern is used for."""
    cut_from = cuttings(step.frames) if cut else []
    if not cut:
        step = step._replace(cut=())
    shown = assemblies(guide, step)
    if cut_from:
        # what was only cut lies on its stock; the assembly is drawn too if something else happened to it
        bare = step._replace(made=tuple(i for i in step.made if i not in step.cut))
        shown = [a for a in shown if changed(bare) & set(a.settled)]
    if not changed(step):
        refs = [ref for f in step.frames for ref in (*f.action.refs("with"), *f.action.refs("loads"))]
        tools = {i for ref in refs for i in items_of(guide, step.bench, ref)}
        shown = [a for a in shown if a.root not in tools] or shown
    parted = {root for root, host in parted_from(step) if host in {a.root for a in shown}}
    shown = [a for a in shown if a.root not in parted]  # it is drawn as it leaves the other
    acts, told = sequences(guide, step, title, size)
    shown = [a for a in shown if a.root not in told]
    glued = glue_first(guide, step, shown, title, size) if glue else []
    count = len(cut_from) + len(shown) + len(acts) + len(glued)
    width, height = size
    size = (width, height if count <= 1 else max(45.0, 150.0 * height / HEIGHT / count))
    found: list[Drawing] = []
    for one in cut_from:
        lay = drawn(guide, one, title, size)
        own = [i for i in one.items if i in step.cut]
        found += [lay] if lay is not None else loose_ones(guide, whole or step, own, title, size)
    found += [*acts, *glued]
    results = [assembly_view(guide, step, a, title, size) for a in shown]
    results += foot_details(guide, step)
    if order and found and (acts or glued or results):
        return [*ordered([*found, *results[:1]]), *results[1:]]
    return found + results


def assembly_view(
    guide: Guide, step: Changes, assembly: Assembly, title: str, size: tuple[float, float]
) -> Drawing:
    """One assembly in the view that shows what the step did to it."""
    scene = scene_of(guide, step, assembly.root, assembly.settled, title)
    told = (assembly.alike, taken_away(guide, step), way_off(scene), way_in(scene))
    scene = scene._replace(
        parts=(*scene.parts, *packed(guide, step, assembly)),
        doing=" ".join(s for s in told if s),
        times=assembly.times,
    )
    made = _view(guide, step, assembly, scene, size)
    rest = [i for i in step.bench.below(assembly.root) if i not in assembly.settled]
    packed_away = [i for i in rest if bundled(step.bench, step.bench.seats[i].host)]
    for start, items in (
        ("Packed away and not to be seen", packed_away),
        ("Also there, and not drawn", [i for i in rest if i not in packed_away]),
    ):
        if names := names_of(guide, items):
            made = made._replace(alt=f"{made.alt} {start}: {names}.", unseen=(*made.unseen, *items))
    return made


def way_off(scene: Scene) -> str:
    """What is drawn as it comes off, in a sentence; empty if nothing is."""
    names = [m.name for m in scene.marks if m.line == GHOST and m.label]
    return f"Dashed, beside an arrow: the {listed(names)}." if names else ""


def turned(guide: Guide, step: Changes, drawing: Drawing) -> Drawing:
    """The first picture of a stage in which the work lies the other way up says so."""
    own = step.frames[0].step
    root, _, _ = own.stage.lying.partition(" ")
    before = face_before(guide, own, root) if root in step.bench.items else ""
    if before and is_under(before) != is_under(own.stage.lying):
        return turned_over(drawing, "underside" if is_under(own.stage.lying) else "top")
    return drawing


def _view(
    guide: Guide, step: Changes, assembly: Assembly, scene: Scene, size: tuple[float, float]
) -> Drawing:
    view = view_for(guide, step, assembly)
    if view == "developed":
        return _developed(guide, step, assembly, scene, size)
    if view == "half section":
        return half_section(scene, size)
    if view == "round":
        return _round(scene, size)
    if view == "face":
        return _faced(scene, face_marked(step, assembly), size)
    linear = scene._replace(dims=tuple(d for d in scene.dims if d.way != "angle"))
    if view == "plan":
        return plan(linear, size)
    if view == "axonometric":
        return axonometric(linear._replace(dims=()), size)
    if view == "elevation" and not any(d.way == "across" for d in linear.dims):
        return axonometric(linear._replace(dims=()), size)
    if view == "elevation":
        return _elevation(linear, size)
    return side(linear, size)


def _elevation(scene: Scene, size: tuple[float, float]) -> Drawing:
    """At an angle, and from the side with the heights, beside one another."""
    quiet = tuple(p._replace(label=False) for p in scene.parts)
    leaning = axonometric(
        scene._replace(parts=quiet, dims=(), bands=(), marks=(), ends=("", "")), (size[0] * 0.4, size[1])
    )
    along = side(scene, (size[0] * 0.75, size[1]))
    both = stacked([leaning, along], scene.title, level=True)
    told = alternative(scene, "side", both.unseen)
    return both._replace(alt=f"On the left at an angle from above, on the right the side. {told}")


def _faced(scene: Scene, view: str, size: tuple[float, float]) -> Drawing:
    """The end on which a spot is marked, and the side, beside one another."""
    quiet = tuple(p._replace(label=False) for p in scene.parts)
    room = (size[0] * 0.5, size[1])
    across = outside_view(scene._replace(parts=quiet, dims=(), bands=(), ends=("", "")), view, room)
    along = side(scene._replace(marks=()), room)
    first = view == "rear end"  # an end is seen on its own side of the picture
    both = stacked([across, along] if first else [along, across], scene.title, level=True)
    name = scene.ends[not first] or "near"
    told = f"On the left the side, on the right the view of the {name} end."
    if first:
        told = f"On the left the view of the {name} end, on the right the side."
    return both._replace(alt=f"{told} {alternative(scene, 'side', both.unseen)}")


def _round(scene: Scene, size: tuple[float, float]) -> Drawing:
    """End view with the angles, and side view with the stations, beside one another."""
    quiet = tuple(p._replace(label=False) for p in scene.parts)
    angles = tuple(d for d in scene.dims if d.way == "angle")
    linear = tuple(d for d in scene.dims if d.way != "angle")
    across = end(
        scene._replace(
            parts=quiet,
            dims=angles,
            bands=tuple(b for b in scene.bands if b.corner is not None),
            marks=(),
            ends=("", ""),
        ),
        (size[0] * 0.42, size[1] * 0.75),
    )
    room = (size[0] * 0.62, size[1] * 0.75)
    whole = scene._replace(dims=linear)
    close = close_of(whole, room)
    along = side(framed(whole, close) if close else whole, room)
    both = stacked([across, along], scene.title, level=True)
    told = f"On the left the view of the {scene.ends[0] or 'near'} end, on the right the side."
    broken = {t.text for t in along.texts() if t.text.startswith(ON)}
    ends = tuple(f"{ON}{e}" if f"{ON}{e}" in broken else e for e in scene.ends)
    shown = scene._replace(ends=(ends[0], ends[1]))
    if close is None:
        return both._replace(alt=f"{told} {alternative(shown, 'side', both.unseen)}")
    shown = shown._replace(dims=tuple(d for d in scene.dims if d not in close.dims))
    both = both._replace(alt=f"{told} {alternative(shown, 'side', both.unseen)}")
    large = detail(whole, close, lambda view: seen(view).shapes)
    return stacked([both, large], scene.title)._replace(unseen=both.unseen)


def _developed(
    guide: Guide, step: Changes, assembly: Assembly, scene: Scene, size: tuple[float, float]
) -> Drawing:
    """The host of the step's marks unrolled, with all its marks and what stands on its skin."""
    host = next(m.host for m in step.marks if m.host in assembly.settled and m.angles)
    thing = thing_of(guide, host)
    solid = assembly.settled[host].solid
    assert thing is not None and isinstance(solid, Turned)
    things: list[On] = []
    new = {m.id for m in step.marks}
    for seat in step.bench.children(host):
        child = thing_of(guide, seat.child)
        if (
            seat.side != "outside"
            or seat.stretch is None
            or child is None
            or seat.child not in assembly.settled
        ):
            continue
        lo, hi = float(seat.stretch[0]), float(seat.stretch[1])
        a0, a1 = (float(seat.angle) - 2, float(seat.angle) + 2) if seat.angle is not None else (0.0, 360.0)
        things.append(On(seat.child, child.name, "part", lo, hi, max(a0, 0.0), a1, seat.child in step.seated))
    things += on_skin(guide, step.bench, host, new)
    spans: list[Span] = []
    for mark in step.marks:
        if mark.host == host and mark.stretch is not None and mark.side == "outside":
            lo_, hi_ = mark.stretch
            tick = is_tick(guide, mark)  # the strip says where it is: nobody measures
            if lo_ > 0 and mark.origin and not tick:
                spans.append(Span(told_mm(guide, lo_), 0.0, float(lo_)))
            if hi_ > lo_ and not tick:
                spans.append(Span(told_mm(guide, hi_ - lo_), float(lo_), float(hi_)))
            if len(mark.angles) > 1:
                first, second = mark.angles[0], mark.angles[1]
                angle_text = told_angle(second - first)
                spans.append(Span(angle_text, float(lo_), float(lo_), float(first), float(second)))
            elif mark.angles and mark.angles[0] > 0:
                spans.append(
                    Span(told_angle(mark.angles[0]), float(lo_), float(lo_), 0.0, float(mark.angles[0]))
                )
    unique = {(s.text, s.a0 == s.a1): s for s in reversed(spans)}
    skin = Skin(host, thing.name, solid.end - solid.start, 2 * solid.largest, ends_of(thing))
    made = developed(scene.title, skin, tuple(things), tuple(reversed(unique.values())), size)
    drawn_ids = set(made.parts())
    return made._replace(unseen=tuple(i for i in assembly.settled if i not in drawn_ids))
