"""Pictures of an act rather than of a result: rolling, folding, tying, packing, glue that is then covered."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from builder.drawings.alternative import listed
from builder.drawings.assembly import Assembly
from builder.drawings.changes import Changes, changes
from builder.drawings.half_section import half_section
from builder.drawings.lying import FACE_DOWN, lies
from builder.drawings.of_bench import Sitting, settle, thing_of
from builder.drawings.of_canopy import canopy
from builder.drawings.of_end import end_of, folded_end
from builder.drawings.of_fold import folding, folding_of
from builder.drawings.of_knot import knot_drawing
from builder.drawings.of_marks import beside, edge_of
from builder.drawings.of_scene import scene_of
from builder.drawings.of_wrap import helix, helix_of, rolled, rolled_of
from builder.drawings.pencil import GHOST
from builder.drawings.scene import Mark, Placed, Scene
from builder.drawings.shapes import Drawing
from builder.drawings.solids import Slab, Stretch, Turned
from builder.drawings.vectors import Pose
from builder.drawings.views import plan, side
from builder.drawings.which_view import packed_before, packed_of, view_for
from builder.dryrun.bench import Mark as Drawn
from builder.dryrun.bench import Wet
from builder.dryrun.effects import Place, Wetten
from builder.dryrun.run import Frame
from builder.guide.model import Guide

LOW = 40.0
"""Height on paper that a small picture is made for, mm."""


def sequences(
    guide: Guide, step: Changes, title: str, size: tuple[float, float]
) -> tuple[list[Drawing], set[str]]:
    """The pictures of the step's acts, and the roots that they show so fully that no other is needed."""
    found: list[Drawing] = []
    told: set[str] = set()
    knots: set[str] = set()
    for frame in step.frames:
        kind, action = frame.action.verb.kind, frame.action
        if kind == "roll":
            wound = helix_of(guide, frame)
            roll = rolled_of(guide, frame)
            if wound is not None:
                found.append(helix(wound, title, size))
            elif roll is not None:
                found.append(rolled(roll, title, (size[0], 60.0)))
                found += _drawn_out(guide, step, roll.tube.id, title, size)
            if action.ref("makes") is None and not any(i in step.bench.seats for i in _placed(frame)):
                found += _tried(guide, frame, title, size)
            if wound is not None or roll is not None:
                told |= {wound.id if wound is not None else roll.tube.id if roll is not None else ""}
        elif kind == "fold":
            glue = next((guide.things[w.adhesive].name for w in frame.before.wets if _folds(frame, w)), "")
            fold = folding_of(guide, frame, glue)
            if fold is not None:
                found.append(folding(fold, title, (size[0], 45.0)))
                told.add(fold.id)
        elif kind == "tape":
            end = end_of(guide, frame, size)
            if end is not None and end.cord not in knots:
                knots.add(end.cord)
                found.append(folded_end(end, title, size[0]))
        elif kind == "tie":
            knot, what, to = action.word("knot"), action.refs("what"), action.refs("to")
            cord = thing_of(guide, what[0].id) if what else None
            eye = thing_of(guide, to[0].id) if to else None
            if cord is None or eye is None or f"{knot} {cord.id}" in knots:
                continue
            tied = len({j.a for j in step.joints if j.kind == "tie" and thing_of(guide, j.a) is cord})
            name = f"{tied} {cord.name}s" if tied > 1 else cord.name
            solid = eye.form == "rod" and not eye.mm("inside")
            made = knot_drawing(knot, name, eye.name, title, item=_copy(step, cord.id), solid=solid)
            if made is not None:
                knots.add(f"{knot} {cord.id}")
                found.append(made)
        elif kind == "do":
            for ref in action.refs("puts"):
                thing = guide.things.get(ref.id)
                if thing is not None and thing.form == "regular polygon":
                    lines = next((n for n in _lines(guide, step, ref.id)), "")
                    made = canopy(thing, lines, title, size[0])
                    found += [made] if made is not None else []
    return found, told


def _drawn_out(
    guide: Guide, step: Changes, tube: str, title: str, size: tuple[float, float]
) -> list[Drawing]:
    """A rolled tube from which the step draws its former out again; none if it stays in."""
    settled = settle(guide, step.bench, tube)
    if tube not in settled:
        return []
    scene = scene_of(guide, step, tube, settled, title)._replace(ways=(), bands=())
    gone = [m.name for m in scene.marks if m.line == GHOST and m.label]
    if not gone:
        return []
    told = f"Dashed, beside an arrow: the {listed(gone)}."
    return [side(scene._replace(doing=told), (size[0], LOW))]


def _placed(frame: Frame) -> list[str]:
    return [e.seat.child for e in frame.effects if isinstance(e, Place)]


def _tried(guide: Guide, frame: Frame, title: str, size: tuple[float, float]) -> list[Drawing]:
    """What is wrapped round something and taken off again later in the step, as it sits meanwhile."""
    made = changes(guide, [frame])
    found: list[Drawing] = []
    for child in _placed(frame)[:1]:
        root = frame.after.root(child)
        settled = settle(guide, frame.after, root)
        if child in settled:
            scene = scene_of(guide, made, root, settled, title)._replace(ways=())
            found.append(side(scene, (size[0], LOW)))
    return found


def _folds(frame: Frame, wet: Wet) -> bool:
    return any(ref.id == wet.host for ref in frame.action.refs("what"))


def _copy(step: Changes, thing: str) -> str:
    """An item of a thing that is on the bench: its first copy."""
    return thing if thing in step.bench.items else f"{thing} 1"


def _lines(guide: Guide, step: Changes, host: str) -> list[str]:
    """The names of the cords that are fastened to a thing, in the plural where there are several."""
    found: dict[str, int] = {}
    for joint in step.bench.joints:
        for cord, other in ((joint.a, joint.b), (joint.b, joint.a)):
            thing = thing_of(guide, cord)
            if other == host and thing is not None and thing.form == "cord":
                found[thing.name] = found.get(thing.name, 0) + 1
    return [f"{name}s" if n > 1 else name for name, n in found.items()]


def glue_first(
    guide: Guide, step: Changes, shown: Sequence[Assembly], title: str, size: tuple[float, float]
) -> list[Drawing]:
    """Glue that the step lays on something loose, or on a face that is then covered, drawn open."""
    found: list[Drawing] = []
    done: set[tuple[str, str, str]] = set()
    cuts = {a.root for a in shown if view_for(guide, step, a) == "half section"}
    roots = {a.root for a in shown}
    for frame in step.frames:
        for e in frame.effects:
            if not isinstance(e, Wetten):
                continue
            wet = e.wet
            thing = thing_of(guide, wet.host)
            root = frame.after.root(wet.host)
            key = (thing.id if thing is not None else wet.host, wet.side, wet.spot)
            later = step.bench.root(wet.host) if wet.host in step.bench.items else root
            if key in done or wet in step.bench.wets or later not in roots:
                continue
            if root in cuts or (root == later and not _covered(step, wet)):
                continue
            done.add(key)
            made = _open_glue(guide, frame, wet, root, title, size, step.marks)
            if made is not None:
                found.append(made)
    return found


def open_glue(
    guide: Guide, frames: Sequence[Frame], title: str, size: tuple[float, float]
) -> list[Drawing]:
    """Glue as some frames lay it, before anything covers it: a picture for each thing that it is laid on."""
    last: dict[tuple[str, bool], tuple[Frame, Wet]] = {}
    for frame in frames:
        for e in frame.effects:
            if isinstance(e, Wetten):
                key = (frame.after.root(e.wet.host), _under(e.wet))
                last.pop(key, None)
                last[key] = (frame, e.wet)
    made = [
        _open_glue(guide, frame, wet, root, title, size, ()) for (root, _), (frame, wet) in last.items()
    ]
    return [m for m in made if m is not None]


def _under(wet: Wet) -> bool:
    return wet.side == "under" or wet.spot in ("under", "outside")


def _covered(step: Changes, wet: Wet) -> bool:
    """True if the glue is on a flat face on which the step then places something."""
    return wet.side in ("top", "under") and any(
        step.bench.seats[c].host == wet.host and step.bench.seats[c].side == wet.side for c in step.seated
    )


def _open_glue(
    guide: Guide,
    frame: Frame,
    wet: Wet,
    root: str,
    title: str,
    size: tuple[float, float],
    marks: Sequence[Drawn],
) -> Drawing | None:
    under = _under(wet)
    settled = settle(guide, frame.after, root, FACE_DOWN if under else lies(guide, root))
    if wet.host not in settled:
        return None
    drawn = tuple(m for m in marks if m.host in settled and m.id in frame.after.marks)
    made = changes(guide, [frame])._replace(marks=drawn)
    scene = scene_of(guide, made, root, settled, title)
    scene = scene._replace(marks=tuple(m for m in scene.marks if not _drowned(scene, m)))
    room = (size[0], min(size[1], 50.0))
    thing = thing_of(guide, wet.host)
    solid = settled[wet.host].solid
    if wet.side == "edge" and isinstance(solid, Slab) and thing is not None:
        # an edge is seen edge on: the glue is drawn along it
        x0, x1, y0, y1 = edge_of(thing, wet.spot, solid)
        a, b = beside(((x0, y0), (x1, y1)), solid)
        bead = ((*a, solid.thickness), (*b, solid.thickness))
        name = guide.things[wet.adhesive].name
        line = Mark("glue", name, wet.host, bead, new=True, line="glue")
        scene = scene._replace(bands=(), marks=(*scene.marks, line))
    told = ""
    if scene.marks and scene.marks[-1].line == "glue":
        told = f" {scene.marks[-1].name[:1].upper()}{scene.marks[-1].name[1:]} along its {wet.spot} edge."
    if isinstance(settled[root].solid, Slab):
        said = plan(scene, room)
        said = said._replace(alt=said.alt + told)
    elif isinstance(settled[root].solid, Turned):
        said = (half_section if wet.side == "inside" else side)(scene._replace(ways=()), room)
    else:
        return None
    return said if any(s.line == "glue" for s in said.shapes) else None


def _drowned(scene: Scene, mark: Mark) -> bool:
    """True if a mark on a face lies in glue as a whole: the two would be one blot."""
    return any(
        b.part == mark.part
        and b.face in ("top", "under")
        and all(b.x0 <= x <= b.x1 and b.a0 <= y <= b.a1 for x, y, _ in mark.points)
        for b in scene.bands
    )


def packed(guide: Guide, step: Changes, assembly: Assembly) -> tuple[Placed, ...]:
    """Material that the step packs into a zone of the assembly's root, or has packed in a step before."""
    found: list[Placed] = []
    now = packed_of(guide, step)
    for material, host, zone_name in (*now, *packed_before(guide, step)):
        thing, sitting = guide.things.get(host), assembly.settled.get(host)
        zone = thing.zone(zone_name) if thing is not None else None
        if zone is None or zone.lo is None or zone.hi is None or sitting is None:
            continue
        if isinstance(sitting.solid, Turned) and sitting.solid.bore:
            made = _bundle(guide, material, sitting, float(zone.lo), float(zone.hi), zone_name)
            new = (material, host, zone_name) in now
            found.append(made._replace(new=new, sits=made.sits if new else ""))
    return tuple(found)


def _bundle(guide: Guide, material: str, sitting: Sitting, lo: float, hi: float, zone: str) -> Placed:
    """A bundle with an uneven skin: crumpled stuff touches the bore here and there."""
    assert isinstance(sitting.solid, Turned)
    r = sitting.solid.bore[0].r0
    sizes = [r * s for s in (0.6, 0.92, 0.84, 0.95, 0.88, 0.6)]
    shares = (0.0, 0.12, 0.35, 0.6, 0.86, 1.0)
    room = (hi - lo) * 0.03
    length = hi - lo - 2 * room
    skin = tuple(
        Stretch(a * length, b * length, p, q) for (a, p), (b, q) in pairwise(zip(shares, sizes, strict=True))
    )
    name = guide.things[material].name
    at = Pose(sitting.pose.world((lo + room, 0.0, 0.0)), *sitting.pose[1:])
    where = f"in the {zone.replace('_', ' ')} of the bore"
    return Placed(material, name, Turned(skin), at, True, True, where)
