"""Marks on the bench, and edges that are worked, as lines of a scene."""

from __future__ import annotations

from math import cos, hypot, pi, sin

from builder.drawings.alternative import listed
from builder.drawings.changes import Changes
from builder.drawings.of_bench import Sitting, ring_of, thing_of
from builder.drawings.of_dims import drilled_depth
from builder.drawings.of_holes import hole_middle
from builder.drawings.of_part import HOLE, mm
from builder.drawings.pencil import NAMED, THROUGH
from builder.drawings.scene import Mark
from builder.drawings.shapes import Point
from builder.drawings.solids import Slab, Solid, Turned, inside_polygon, round_outline
from builder.drawings.vectors import Vec, round_axis
from builder.drawings.words import held, told_value
from builder.dryrun.bench import Hole
from builder.dryrun.bench import Mark as Drawn
from builder.dryrun.effects import Place, Shape
from builder.dryrun.shape import axes_of
from builder.guide.model import Action, Guide, Thing
from builder.guide.wording import sentence
from builder.trade.ends import is_origin

Settled = dict[str, Sitting]

INSIDE = ", inside"
"""What the name of a line says that is drawn on the inside of something."""


def mark_lines(mark: Drawn, settled: Settled, new: bool, label: bool = True) -> list[Mark]:
    """A mark as lines on its host's skin; copies of it share its id and name."""
    return [line._replace(label=label) for line in _lines(mark, settled, new)]


def _lines(mark: Drawn, settled: Settled, new: bool) -> list[Mark]:
    solid = settled[mark.host].solid
    name = mark.id.replace("_", " ")
    if isinstance(solid, Turned):
        name += INSIDE if mark.side == "inside" and new else ""
        if mark.stretch is None:
            return []
        lo, hi = float(mark.stretch[0]), float(mark.stretch[1])
        r = _skin(solid, lo, mark.side)
        if mark.side == "end":
            return [Mark(mark.id, name, mark.host, ((lo, -2.0, 0.0), (lo, 2.0, 0.0)), new=new)]
        if not mark.angles:
            if hi > lo + 1e-6:
                return [Mark(mark.id, name, mark.host, ((lo, 0.0, r), (hi, 0.0, r)), new=new)]
            if lo in (solid.start, solid.end):
                # a spot in the middle of an end face: a cross there
                cross = (((lo, -3.0, 0.0), (lo, 3.0, 0.0)), ((lo, 0.0, -3.0), (lo, 0.0, 3.0)))
                return [Mark(mark.id, name, mark.host, arm, new=new) for arm in cross]
            return [Mark(mark.id, name, mark.host, ((lo, 0.0, r),), True, new)]
        if hi - lo < 1e-6:
            hi = lo + 6.0
        return [
            Mark(mark.id, name, mark.host, (round_axis(lo, r, a), round_axis(hi, r, a)), new=new)
            for a in (float(angle) for angle in mark.angles)
        ]
    if not isinstance(solid, Slab):
        return []
    xs, ys = zip(*solid.outline, strict=True)
    z = 0.0 if mark.side == "under" else solid.thickness
    if mark.stretch is None and mark.across is None:
        return []
    x0, x1 = (min(xs), max(xs)) if mark.stretch is None else (float(mark.stretch[0]), float(mark.stretch[1]))
    y0, y1 = (min(ys), max(ys)) if mark.across is None else (float(mark.across[0]), float(mark.across[1]))
    if x0 == x1 and y0 == y1:
        drilled = any(inside_polygon((x0, y0), hole) for hole in solid.holes)
        if drilled or _covered(mark, settled, (x0, y0, z)):
            return []
        arms = (((x0 - 3, y0, z), (x0 + 3, y0, z)), ((x0, y0 - 3, z), (x0, y0 + 3, z)))
        return [Mark(mark.id, name, mark.host, arm, new=new) for arm in arms]
    return [Mark(mark.id, name, mark.host, ((x0, y0, z), (x1, y1, z)), new=new)]


def _covered(mark: Drawn, settled: Settled, at: Vec) -> bool:
    """True if a flat thing lies on a point of a flat host's face: one as thin as paper hides it too."""
    world = settled[mark.host].pose.world(at)
    for item, sitting in settled.items():
        if item == mark.host or not isinstance(sitting.solid, Slab):
            continue
        x, y, z = sitting.pose.local(world)
        if -0.01 <= z <= sitting.solid.thickness + 0.01 and inside_polygon((x, y), sitting.solid.outline):
            return True
    return False


ROUND = 5.0
"""A cross under what is centred on it is drawn so far out beyond that, mm."""


def centred(step: Changes, settled: Settled) -> list[Mark]:
    """The crosses that the step centres something on, dashed where it covers them."""
    found: list[Mark] = []
    for frame in step.frames:
        names = [n for spot in frame.action.spots("top") for n in spot.names if n in step.bench.marks]
        for e in frame.effects if frame.action.word("by") == "middle" else ():
            if not isinstance(e, Place) or not names or e.seat.host not in settled:
                continue
            mark, solid = step.bench.marks[names[0]], settled[e.seat.host].solid
            if mark.host != e.seat.host or not isinstance(solid, Slab) or e.seat.stretch is None:
                continue
            if e.seat.across is None or e.seat.side != "top":
                continue
            (x0, x1), (y0, y1) = (tuple(map(float, s)) for s in (e.seat.stretch, e.seat.across))
            x, y, z = (x0 + x1) / 2, (y0 + y1) / 2, solid.thickness
            arms = (((x0 - ROUND, y, z), (x1 + ROUND, y, z)), ((x, y0 - ROUND, z), (x, y1 + ROUND, z)))
            name = f"centred on the {mark.id.replace('_', ' ')}"
            found += [Mark(f"{mark.id} below", name, mark.host, arm, line=THROUGH) for arm in arms]
    return found


def _skin(solid: Turned, x: float, side: str) -> float:
    stretches = solid.bore if side == "inside" and solid.bore else solid.outer
    for s in stretches:
        if s.x0 <= x <= s.x1:
            return s.at(x)
    return solid.largest


def worked_edges(guide: Guide, step: Changes, settled: Settled) -> list[Mark]:
    """The edges and ends that a sanding names, or leaves out, as lines on the first copy that is drawn."""
    found: dict[tuple[str, str], Mark] = {}
    for frame in step.frames:
        if frame.action.verb.kind != "sand":
            continue
        first = held(sentence(frame.action, guide)).partition(" ")[0].lower()
        said = first if first in frame.action.verb.says else "sand"
        for item, sitting in settled.items():
            thing = thing_of(guide, item)
            named = any(thing is not None and ref.id == thing.id for ref in frame.action.refs("what"))
            if not named or thing is None:
                continue
            words = [(w, True) for w in frame.action.words("edges")]
            words += [(w, False) for w in frame.action.words("not")]
            for word, worked in words:
                mark = _worked(thing, item, sitting.solid, word, said if worked else LEFT)
                if mark is not None:
                    found.setdefault((thing.id, word), mark)
    return list(found.values())


LEFT = "leave as it is"
"""What is said of an edge that is not worked on."""


def _worked(thing: Thing, item: str, solid: Solid, word: str, said: str) -> Mark | None:
    """One edge of a flat thing, or one end of a round one, with what is done to it."""
    worked = said != LEFT
    line = "worked" if worked else NAMED
    if isinstance(solid, Turned):
        x = solid.start if is_origin(word) else solid.end
        radius = solid.outer[0].r0 if is_origin(word) else solid.outer[-1].r1
        name = f"{word} end: {said}"
        return Mark(f"{word} end of {item}", name, item, ((x, 0.0, radius),), True, worked, line=line)
    if not isinstance(solid, Slab):
        return None
    x0, x1, y0, y1 = edge_of(thing, word, solid)
    ends = _edge_line(solid, word, axes_of(thing), ((x0, y0), (x1, y1)))
    points: tuple[Vec, ...] = tuple((x, y, solid.thickness) for x, y in ends)
    return Mark(f"{word} edge", f"{word} edge: {said}", item, points, new=worked, line=line)


def rings(guide: Guide, settled: Settled, new: set[str]) -> list[Mark]:
    """The rings of screw eyes, which no solid has: a circle of wire at the end of the shank."""
    found: list[Mark] = []
    for item, sitting in settled.items():
        thing = thing_of(guide, item)
        if thing is None or thing.form != "screw" or not isinstance(sitting.solid, Turned):
            continue
        outer = ring_of(sitting.solid)
        wire = min(2 * sitting.solid.largest, outer)
        x = sitting.solid.end + outer
        for r in (outer, outer - wire):
            if r > 0.1:
                turns = [2 * pi * i / 24 for i in range(25)]
                points = tuple((x + r * cos(a), 0.0, r * sin(a)) for a in turns)
                line = "new_thin" if item in new else "outline"
                found.append(Mark(item, thing.name, item, points, new=False, label=False, line=line))
    return found


def beside(ends: tuple[Point, Point], solid: Slab) -> tuple[Point, Point]:
    """An edge of a slab moved a little way towards its middle."""
    xs, ys = zip(*solid.outline, strict=True)
    off = 0.04 * min(max(xs) - min(xs), max(ys) - min(ys))
    (x0, y0), (x1, y1) = ends
    length = hypot(x1 - x0, y1 - y0) or 1.0
    nx, ny = -(y1 - y0) / length, (x1 - x0) / length
    inwards = (sum(xs) / len(xs) - x0) * nx + (sum(ys) / len(ys) - y0) * ny
    sign = off if inwards > 0 else -off
    return (x0 + nx * sign, y0 + ny * sign), (x1 + nx * sign, y1 + ny * sign)


def hole_size(guide: Guide, step: Changes, hole: Hole) -> str:
    """`, 6.2 mm (1/4 in), through` where the step says how wide and how deep it drills; else the tool's name
    says how wide."""
    said: list[str] = []
    for frame in step.frames:
        if any(isinstance(e, Shape) and e.hole == hole for e in frame.effects):
            size, deep = frame.action.value("size"), frame.action.word("depth")
            said += [told_value(guide, size)] if size is not None else []
            said += [through_what(guide, frame.action)] if deep == "through" else []
    return "".join(f", {words}" for words in said)


def through_what(guide: Guide, action: Action) -> str:
    """`through`, or `through the mast block and the deck` where a hole goes through several things."""
    things = [guide.things[ref.id] for ref in action.refs("what") if ref.id in guide.things]
    return "through" if len(things) < 2 else f"through {listed([f'the {t.name}' for t in things])}"


def new_holes(guide: Guide, step: Changes, settled: Settled) -> list[Mark]:
    """The rims of the holes that the step makes in flat things, and the depth of those in round ones."""
    found: list[Mark] = []
    for hole in step.holes:
        thing, sitting = thing_of(guide, hole.item), settled.get(hole.item)
        if thing is None or sitting is None:
            continue
        if isinstance(sitting.solid, Turned):
            found += _drilled(guide, step, hole.item, mm(hole.diameter, HOLE), sitting.solid)
            continue
        named = any(h.name == hole.spot for h in thing.holes)
        name = f"{hole.spot.replace('_', ' ')} hole" if named else "new hole"
        name += hole_size(guide, step, hole)
        size = mm(hole.diameter, HOLE)
        if isinstance(sitting.solid, Slab):
            at = hole_middle(guide, step.bench, hole.item, hole.spot)
            if at is None:
                continue
            rim = round_outline(at, size, 24)
            z = 0.0 if sitting.pose.ez[2] < 0 else sitting.solid.thickness
            points: tuple[Vec, ...] = tuple((x, y, z) for x, y in (*rim, rim[0]))
            found.append(
                Mark(f"hole {hole.spot} of {hole.item}", name, hole.item, points, new=True, line="new")
            )
    return found


def _drilled(guide: Guide, step: Changes, item: str, size: float, solid: Turned) -> list[Mark]:
    """A hole in the far end of something round, as deep as the step says: dashed, since it is inside."""
    deep = drilled_depth(guide, step, item)
    if deep is None:
        return []
    x0, x1, r = solid.end - deep[1], solid.end, size / 2
    way: tuple[Vec, ...] = ((x1, 0.0, r), (x0, 0.0, r), (x0, 0.0, -r), (x1, 0.0, -r))
    return [Mark(f"hole in {item}", "new hole", item, way, new=True, line=THROUGH)]


def _edge_line(
    solid: Slab, word: str, names: tuple[tuple[str, str], tuple[str, str]], plain: tuple[Point, Point]
) -> tuple[Point, Point]:
    """A named edge of a slab: the side of its outline that looks that way most."""
    along, across = names
    ways = {along[0]: (-1.0, 0.0), along[1]: (1.0, 0.0), across[0]: (0.0, -1.0), across[1]: (0.0, 1.0)}
    if word not in ways:
        return plain
    wx, wy = ways[word]
    ring = solid.outline
    area = sum(a[0] * b[1] - a[1] * b[0] for a, b in zip(ring, (*ring[1:], ring[0]), strict=True))
    sign = 1.0 if area > 0 else -1.0

    def looks(pair: tuple[Point, Point]) -> float:
        (x0, y0), (x1, y1) = pair
        length = ((x1 - x0) ** 2 + (y1 - y0) ** 2) ** 0.5 or 1.0
        return sign * ((y1 - y0) * wx - (x1 - x0) * wy) / length

    return max(zip(ring, (*ring[1:], ring[0]), strict=True), key=looks)


def edge_of(thing: Thing, word: str, solid: Slab) -> tuple[float, float, float, float]:
    """(x0, x1, y0, y1) of a named edge of a slab, from its one corner to its other."""
    along, across = axes_of(thing)
    xs, ys = zip(*solid.outline, strict=True)
    left, right, low, high = min(xs), max(xs), min(ys), max(ys)
    if word == across[1]:
        top = [p[0] for p in solid.outline if abs(p[1] - high) < 1e-6]
        return (min(top), max(top), high, high)
    if word == along[0]:
        return (left, left, low, high)
    if word == along[1]:
        return (right, right, low, high)
    bottom = [p[0] for p in solid.outline if abs(p[1] - low) < 1e-6]
    return (min(bottom), max(bottom), low, low)
