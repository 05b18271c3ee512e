"""Holes in flat parts: where they are, which one a part sits in, and a board that is slotted for rods."""

from __future__ import annotations

from builder.drawings.of_part import HOLE, hole_at, mm, outline_of
from builder.drawings.shapes import Point
from builder.drawings.solids import Slab
from builder.drawings.vectors import Pose, pose
from builder.dryrun.bench import Bench, Seat
from builder.dryrun.shape import is_flat
from builder.dryrun.work import thing_id
from builder.guide.model import Guide


def holes_of(guide: Guide, bench: Bench, item: str) -> tuple[tuple[Point, float], ...]:
    """Middles and diameters of the holes that a flat item has so far."""
    thing = guide.things.get(thing_id(item, guide))
    if thing is None or not is_flat(thing):
        return ()
    found: list[tuple[Point, float]] = []
    for hole in bench.holes:
        if hole.item == item:
            at = hole_middle(guide, bench, item, hole.spot)
            if at is not None:
                found.append((at, mm(hole.diameter, HOLE)))
    return tuple(found)


def hole_middle(guide: Guide, bench: Bench, item: str, spot: str) -> Point | None:
    """Where a hole is on a flat item: a named hole, or `middle of` something that sits there."""
    thing = guide.things.get(thing_id(item, guide))
    if thing is None:
        return None
    named = next((h for h in thing.holes if h.name == spot), None)
    if named is not None:
        return hole_at(thing, named)
    made = next((hole for hole in bench.holes if hole.item == item and hole.spot == spot), None)
    if made is not None and made.along is not None and made.across is not None:
        return float(made.along), float(made.across)
    other = spot.removeprefix("middle of ")
    seat = bench.seats.get(other)
    if seat is not None and seat.host == item and seat.stretch and seat.across:
        return (float(sum(seat.stretch)) / 2, float(sum(seat.across)) / 2)
    mark = bench.marks.get(spot)
    if mark is not None and mark.host == item and mark.stretch and mark.across:
        return (float(sum(mark.stretch)) / 2, float(sum(mark.across)) / 2)
    points = outline_of(thing)
    if points is None:
        return None
    xs, ys = zip(*points, strict=True)
    return ((min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2)


def hole_used(bench: Bench, seat: Seat) -> str:
    """The spot of the hole that a child sits in; where none was told, the last one made in its host."""
    if seat.hole:
        return seat.hole
    spots = [h.spot for h in bench.holes if h.item == seat.host]
    return spots[-1] if spots else ""


def over_all(guide: Guide, bench: Bench, seat: Seat, solid: Slab) -> Pose:
    """A board that is slotted for rods: square on them, with its middle between all that stand beside its
    host."""
    assert seat.stretch is not None
    down = bench.seats.get(seat.host)
    beside = [s for s in bench.children(down.host) if s.side == down.side] if down is not None else []
    same = [s for s in beside if thing_id(s.child, guide) == thing_id(seat.host, guide)]
    found = [at for s in same if (at := hole_middle(guide, bench, s.host, s.hole)) is not None]
    own = hole_middle(guide, bench, down.host, down.hole) if down is not None else None
    middle = [sum(at[i] for at in found) / len(found) - own[i] if found and own else 0.0 for i in (0, 1)]
    xs, ys = zip(*solid.outline, strict=True)
    half = ((min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2)
    origin = (float(seat.stretch[0]), middle[0] - half[0], middle[1] - half[1])
    return pose(origin, (0, 1, 0), (0, 0, 1))
