"""Which view shows what a step did to an assembly: one literal table, the first row that holds."""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple

from builder.drawings.assembly import Assembly
from builder.drawings.changes import Changes
from builder.drawings.lying import turned_round
from builder.drawings.of_bench import Sitting
from builder.drawings.of_glue import drying
from builder.drawings.solids import Cord, Slab, Turned
from builder.drawings.vectors import dot
from builder.drawings.written import writes_inside
from builder.guide.model import Action, Guide


class Sight(NamedTuple):
    """What the choice of a view rests on."""

    flat: bool
    """The root is a slab or a cord."""
    hollow: bool
    upright: bool
    """Something round stands upright on a flat root, or something flat on its edge."""
    raised: bool
    """The step places something on what stands upright, at a height."""
    sides: frozenset[str]
    """How what the step places, or what dries, sits on its host."""
    angled: bool
    """One of these stands at an angle round the root."""
    busy: bool
    """The step places something."""
    inner: bool
    """The step works on an inside: glue or a mark there, or something is put there."""
    marks: bool
    turned_marks: bool
    """The step draws marks; some of them at angles round the root."""
    worked: bool
    """The step paints, glues or adds something else."""
    filled: bool
    """Something is inside already."""
    fins: bool
    """Something stands round the outside already."""
    fins_last: bool
    painted: bool
    faced: bool = False
    """The step marks a spot on an end of something round."""


class Row(NamedTuple):
    """A view, when it is taken, and in words why."""

    view: str
    when: Callable[[Sight], bool]
    why: str


VIEWS: tuple[Row, ...] = (
    Row("elevation", lambda s: s.flat and s.raised, "heights are measured up what stands on a flat root"),
    Row("axonometric", lambda s: s.flat and s.upright, "what stands on a flat root is seen at an angle"),
    Row("plan", lambda s: s.flat, "what lies on a flat root is seen from above"),
    Row("face", lambda s: s.faced and not s.busy, "a spot on an end is seen from that end"),
    Row("half section", lambda s: s.inner, "only a cut shows what goes inside"),
    Row("round", lambda s: s.angled, "angles are seen from the end, stations from the side"),
    Row("developed", lambda s: s.turned_marks and not s.busy, "marks round a tube lie on its skin laid flat"),
    Row("side", lambda s: s.marks and not s.busy, "rings and lines are seen from the side"),
    Row("half section", lambda s: "loose" in s.sides and s.hollow, "what is packed lies inside"),
    Row("side", lambda s: bool(s.sides & {"taped", "tied", "end", "loose"}), "it is fixed to the outside"),
    Row("half section", lambda s: "outside" in s.sides and s.hollow, "a cut shows where a sleeve sits"),
    Row("side", lambda s: "outside" in s.sides or s.worked, "the outside is worked on"),
    Row("side", lambda s: s.painted, "a finished outside is seen from the side"),
    Row("round", lambda s: s.fins and (not s.filled or s.fins_last), "what stands round it came last"),
    Row("side", lambda s: s.fins, "what stands round it is seen from the side"),
    Row("half section", lambda s: s.filled and s.hollow, "what is inside came last"),
    Row("side", lambda s: True, "nothing else is asked for"),
)


def view_for(guide: Guide, step: Changes, assembly: Assembly) -> str:
    """The name of the view of an assembly: the first row of VIEWS that holds."""
    sight = sight_of(guide, step, assembly)
    return next(row.view for row in VIEWS if row.when(sight))


def sight_of(guide: Guide, step: Changes, assembly: Assembly) -> Sight:
    """What there is to see of a step's work on an assembly."""
    settled, bench = assembly.settled, step.bench
    root = settled[assembly.root].solid
    placed = step.seated or drying(guide, step)
    seats = [bench.seats[i] for i in placed if i in settled and i in bench.seats]
    standing = [s for s in bench.seats.values() if s.child in settled]
    wets = {w.side for w in bench.wets if w.host in settled}
    marks = [m for m in step.marks if m.host in settled]
    sides = frozenset(s.side for s in seats)
    return Sight(
        flat=isinstance(root, Slab | Cord),
        hollow=isinstance(root, Turned) and bool(root.bore),
        upright=any(_upright(s) for s in settled.values()) or any(s.edge for s in standing),
        raised=any(s.host in settled and _upright(settled[s.host]) for s in seats if s.child in step.seated),
        sides=sides,
        angled=any(s.angle is not None for s in seats),
        busy=bool(seats),
        inner="inside" in sides
        or "inside" in wets
        or any(m.side == "inside" for m in marks)
        or packs(guide, step)
        or any(writes_inside(frame.action) for frame in step.frames),
        marks=bool(marks),
        turned_marks=any(m.angles for m in marks),
        worked=bool(step.coats or step.wets or step.new),
        filled=any(s.side == "inside" for s in standing),
        fins=any(s.angle is not None for s in standing),
        fins_last=bool(standing) and standing[-1].angle is not None,
        painted=any(c.item in settled for c in bench.coats),
        faced=face_marked(step, assembly) != "",
    )


def face_marked(step: Changes, assembly: Assembly) -> str:
    """From which end a spot is seen that the step marks on an end of the root: "rear end", "front end"; empty
    if it marks none."""
    solid = assembly.settled[assembly.root].solid
    for mark in step.marks:
        if mark.host == assembly.root and isinstance(solid, Turned) and mark.stretch and not mark.angles:
            lo, hi = (float(x) for x in mark.stretch)
            if lo == hi and lo in (solid.start, solid.end) and mark.side in ("end", "outside"):
                near = (lo == solid.start) != turned_round(assembly.settled[assembly.root].pose)
                return "rear end" if near else "front end"
    return ""


def _upright(s: Sitting) -> bool:
    return isinstance(s.solid, Turned) and abs(dot(s.pose.ex, (0.0, 0.0, 1.0))) > 0.9


def packs(guide: Guide, step: Changes) -> bool:
    """True if the step puts some material into a zone."""
    return any(packed_of(guide, step))


def packed_of(guide: Guide, step: Changes) -> list[tuple[str, str, str]]:
    """What material the step puts where: (material, host, zone)."""
    return [p for frame in step.frames for p in packing(guide, frame.action)]


def packed_before(guide: Guide, step: Changes) -> list[tuple[str, str, str]]:
    """The same for all steps of the route before this one: the bench does not hold material."""
    own = step.frames[0].step.id if step.frames else ""
    for route in guide.routes:
        ids = [s.id for s in route.steps]
        if own in ids:
            before = route.steps[: ids.index(own)]
            return [p for s in before for action in s.each_action() for p in packing(guide, action)]
    return []


def packing(guide: Guide, action: Action) -> list[tuple[str, str, str]]:
    """What material an action puts into which zone of what."""
    into = action.ref("into")
    if into is None or not into.part:
        return []
    things = [(ref.id, guide.things.get(ref.id)) for ref in action.refs("puts")]
    return [(id, into.id, into.part) for id, t in things if t is not None and t.sort == "material"]
