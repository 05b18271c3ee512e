"""Where everything sits: seats of a bench as poses in one world, whose x axis is the host's own.

Placing lays the child's seat on the host's.  Stations stay exact up to here; floats begin at the pose.
What a seat does not fix (the side of a tube that a clip lies on) is put where it can be seen.
"""

from __future__ import annotations

from collections.abc import Mapping
from itertools import pairwise
from math import cos, pi, sin, sqrt
from typing import NamedTuple

from builder.drawings.lying import HERE
from builder.drawings.of_holes import hole_middle, hole_used, holes_of, over_all
from builder.drawings.of_part import CORD, SHANK, hole_at, mm, solid_of
from builder.drawings.of_sheet import WRAPPED, bowed_on, holes_up, hung
from builder.drawings.of_usual import UNKNOWN, from_place, usual, usual_round
from builder.drawings.on_edge import on_edge
from builder.drawings.scene import Placed
from builder.drawings.shapes import Point
from builder.drawings.solids import Cord, Slab, Solid, Stretch, Turned, tube
from builder.drawings.vectors import Pose, Vec, pose, round_axis
from builder.dryrun.bench import Bench, Seat
from builder.dryrun.holes import SLOTS
from builder.dryrun.shape import is_axial, length_of
from builder.guide.model import Guide, Thing

DOWN = 10.0
"""A cord on something upright is drawn this far below its top where no place is known, mm."""

IN = 0.97
"""How much of a screw's shank is in its host: all but where its ring begins."""


FAN = 0.73
"""The ends of cords that are tied to one eye lean so far to either side, radians: equally long, so that their
tips lie on a bow, and a leader comes to each without crossing another."""

APART = 3
"""Between two kinds of cord in such a fan there is room for so many strands less one."""


class Sitting(NamedTuple):
    """A solid, its pose in the world, and whether a section leaves it whole."""

    solid: Solid
    pose: Pose
    whole: bool


def thing_of(guide: Guide, item: str) -> Thing | None:
    """The thing that an item is a copy of: `fin 2` is a fin."""
    found = guide.things.get(item)
    return found if found is not None else guide.things.get(item.rpartition(" ")[0])


def composed_pose(host: Pose, child: Pose) -> Pose:
    """The pose in the world of what has the pose `child` in the frame of `host`."""
    return Pose(host.world(child.origin), host.turned(child.ex), host.turned(child.ey), host.turned(child.ez))


def settle(
    guide: Guide, bench: Bench, root: str, at: Pose = HERE, *, rough: bool = False
) -> dict[str, Sitting]:
    """Every item on a root, the root first; what has no known place is left out, and what has no known size
    too, unless it may be drawn `rough`."""
    found: dict[str, Sitting] = {}
    thing = thing_of(guide, root)
    if thing is None:
        return found
    folded = root in bench.items and bench.items[root].folded
    solid = solid_of(thing, folded=folded, holes=holes_of(guide, bench, root))
    if solid is None:
        return found
    found[root] = Sitting(solid, at, not _hollow(solid))
    for item in bench.below(root):
        seat = bench.seats.get(item)
        if item == root or seat is None or seat.host not in found or bundled(bench, seat.host):
            continue
        sitting = _seated(guide, bench, seat, found, rough)
        if sitting is not None:
            found[item] = sitting
    return found


def bundled(bench: Bench, item: str) -> bool:
    """True if an item is packed away in a bundle, with all that hangs on it."""
    seat = bench.seats.get(item)
    return seat is not None and seat.side == "loose" and seat.stretch is not None


def _hollow(solid: Solid) -> bool:
    return isinstance(solid, Turned) and bool(solid.bore)


def _seated(
    guide: Guide, bench: Bench, seat: Seat, found: Mapping[str, Sitting], rough: bool
) -> Sitting | None:
    """Where a child is, from its seat and its host's place."""
    child, host = thing_of(guide, seat.child), thing_of(guide, seat.host)
    if child is None or host is None:
        return None
    on = found[seat.host]
    folded = seat.child in bench.items and bench.items[seat.child].folded
    solid = solid_of(child, folded=folded, holes=holes_of(guide, bench, seat.child))
    if solid is None:
        if not rough:
            return None
        if block := usual(child, seat, on.solid):
            return Sitting(block[0], composed_pose(on.pose, block[1]), True)
        if ring := usual_round(guide, bench, seat, child, on.solid):
            return Sitting(ring[0], composed_pose(on.pose, ring[1]), False)
        return None
    if isinstance(solid, Cord):
        return _hanging(guide, bench, seat, on)
    local = _local(guide, bench, seat, child, host, solid, on)
    if local is None:
        return None
    solid, own = local
    return Sitting(solid, composed_pose(on.pose, own), not _hollow(solid))


def _local(
    guide: Guide, bench: Bench, seat: Seat, child: Thing, host: Thing, solid: Solid, on: Sitting
) -> tuple[Solid, Pose] | None:
    """(solid, pose in the host's frame); the solid changes where a thing bends round its host."""
    if isinstance(on.solid, Turned):
        if seat.side in ("taped", "tied"):
            return _along_outside(seat, host, solid, on.solid)
        if seat.side == "end":
            return solid, _in_end(solid, on.solid)
        if seat.side == "loose":
            return _packed(seat, solid, on.solid)
        if seat.stretch is None:
            return None
        if isinstance(solid, Turned):
            here = _coaxial(seat, solid, on.solid)
            x, y, z = here.origin
            by = from_place(guide, bench, seat, solid.end - solid.start)
            return solid, here._replace(origin=(x + by, y, z))
        if seat.hole == SLOTS and isinstance(solid, Slab):
            return solid, over_all(guide, bench, seat, solid)
        if seat.side == "inside":
            return _on_wall(seat, solid, on.solid)
        return _outside_slab(seat, child, solid, on.solid)
    if isinstance(on.solid, Slab):
        if seat.side == "hole":
            at = hole_middle(guide, bench, seat.host, hole_used(bench, seat))
            start = float(seat.stretch[0]) if seat.stretch else 0.0
            return (solid, pose((*at, start), (0, 0, 1), (1, 0, 0))) if at else None
        if seat.side == "end" and seat.stretch and seat.across and isinstance(solid, Turned):
            at = (float(sum(seat.stretch)) / 2, float(sum(seat.across)) / 2)
            deep = on.solid.thickness - IN * (solid.end - solid.start)
            return solid, pose((*at, deep), (0, 0, 1), (1, 0, 0))
        if seat.edge and isinstance(solid, Slab):
            edge = on_edge(seat, child, solid, on.solid)
            return (solid, edge) if edge is not None else None
        return _on_face(seat, solid, on.solid)
    return None


def _coaxial(seat: Seat, solid: Turned, host: Turned) -> Pose:
    assert seat.stretch is not None
    lo, hi = float(seat.stretch[0]), float(seat.stretch[1])
    if seat.angle is not None:
        radius = host.largest + solid.largest
        return Pose(round_axis(lo, radius, float(seat.angle)))
    if seat.flipped:
        return pose((hi, 0.0, 0.0), (-1.0, 0.0, 0.0), (0.0, -1.0, 0.0))
    return Pose((lo, 0.0, 0.0))


def _outside_slab(seat: Seat, child: Thing, solid: Solid, host: Turned) -> tuple[Solid, Pose] | None:
    """A fin stands on the skin; a strip without an angle goes round it; a sail hangs along it."""
    assert seat.stretch is not None and isinstance(solid, Slab)
    lo, hi = float(seat.stretch[0]), float(seat.stretch[1])
    if seat.angle is not None:
        out = round_axis(0.0, 1.0, float(seat.angle))
        normal = pose((0, 0, 0), (1, 0, 0), out).ez
        foot = round_axis(lo, host.largest, float(seat.angle))
        half = solid.thickness / 2
        origin: Vec = (foot[0] - normal[0] * half, foot[1] - normal[1] * half, foot[2] - normal[2] * half)
        return solid, pose(origin, (1, 0, 0), out)
    own = next((hole_at(child, hole) for hole in child.holes if hole.name == seat.hole), None)
    if own is not None:  # a board that the rod goes square through
        return solid, pose((lo, -own[0], -own[1]), (0, 1, 0), (0, 0, 1))
    if child.form in ("strip", "sheet"):
        r = host.largest
        ring = tube(hi - lo, 2 * (r + max(solid.thickness, WRAPPED)), 2 * r)
        return ring, Pose((lo, 0.0, 0.0))
    return hung((lo, hi), holes_up(child), solid, host.largest)


def _on_wall(seat: Seat, solid: Solid, host: Turned) -> tuple[Solid, Pose]:
    """A flat thing on the inside of a tube: at the top of the bore, where a half section shows it.

    It bends to the wall; it is drawn flat, and no wider than lies near the wall without bending.
    """
    assert seat.stretch is not None and isinstance(solid, Slab)
    radius = host.bore[0].r0 if host.bore else host.largest
    ys = [p[1] for p in solid.outline]
    half = min((max(ys) - min(ys)) / 2, radius * 0.3)
    length = float(seat.stretch[1] - seat.stretch[0])
    z = sqrt(radius * radius - half * half) - solid.thickness
    strip = Slab(((0.0, -half), (length, -half), (length, half), (0.0, half)), solid.thickness)
    return strip, Pose((float(seat.stretch[0]), 0.0, z))


def _along_outside(seat: Seat, host: Thing, solid: Solid, on: Turned) -> tuple[Solid, Pose] | None:
    """Something taped to a tube lies along the top of its outside, flush with the end it names."""
    if isinstance(solid, Slab):
        xs, ys = zip(*solid.outline, strict=True)
        length = max(xs) - min(xs)
        x = 0.0 if seat.spot in ("rear", "left", "foot", "tip", "bottom") else on.end - length
        return solid, Pose((x, -(min(ys) + max(ys)) / 2, on.largest))
    if isinstance(solid, Turned):
        if solid.end - solid.start < 2.0:  # a mask over an end
            x = -(solid.end - solid.start) if seat.spot != "front" else on.end
            return solid, Pose((x, 0.0, 0.0))
        return solid, Pose((0.0, 0.0, on.largest + solid.largest))
    return None


def _in_end(solid: Solid, host: Turned) -> Pose:
    """A screw in the host's far end, up to where its ring begins."""
    assert isinstance(solid, Turned)
    length = solid.end - solid.start
    return Pose((host.end - length * IN, 0.0, 0.0))


def _packed(seat: Seat, solid: Solid, host: Turned) -> tuple[Solid, Pose] | None:
    """What is packed loosely into a bore is drawn as a bundle that nearly fills it."""
    if seat.stretch is None or not host.bore:
        return None
    lo, hi = float(seat.stretch[0]), float(seat.stretch[1])
    room = (hi - lo) * 0.1
    r = host.bore[0].r0 * 0.85
    bundle = Turned(
        (
            Stretch(0.0, room, r * 0.6, r),
            Stretch(room, hi - lo - 2 * room, r, r),
            Stretch(hi - lo - 2 * room, hi - lo - room, r, r * 0.6),
        )
    )
    return bundle, Pose((lo + room / 2, 0.0, 0.0))


def _on_face(seat: Seat, solid: Solid, host: Slab) -> tuple[Solid, Pose] | None:
    """On the top or the under face of a slab, lying flat or on its side."""
    below = seat.side == "under"
    if seat.side in ("taped", "tied"):
        number = int(seat.spot.rpartition(" ")[2]) if seat.spot.startswith("corner ") else 0
        if not number or not isinstance(solid, Slab):
            return None
        corner, out = corner_of(host, number)
        xs, ys = zip(*solid.outline, strict=True)
        half = (max(ys) - min(ys)) / 2
        ex: Vec = (out[0], out[1], 0.0)
        length = max(xs) - min(xs)
        start = (corner[0] - out[0] * length * 0.6, corner[1] - out[1] * length * 0.6)
        return solid, pose(
            (start[0] + out[1] * half, start[1] - out[0] * half, host.thickness), ex, (-out[1], out[0], 0.0)
        )
    if seat.stretch is None:
        return None
    x = float(seat.stretch[0])
    y = float(seat.across[0]) if seat.across else 0.0
    if isinstance(solid, Turned):
        r = solid.largest
        z = -r if below else host.thickness + r
        middle = float(sum(seat.stretch)) / 2
        return solid, pose((middle, y, z), (0, 1, 0), (1, 0, 0))
    assert isinstance(solid, Slab)
    return solid, Pose((x, y, -solid.thickness if below else host.thickness))


def corner_of(slab: Slab, number: int) -> tuple[Point, Point]:
    """A corner of an outline (counted from 1) and the unit direction from the middle out through it."""
    points = slab.outline
    xs, ys = zip(*points, strict=True)
    middle = ((min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2)
    corner = points[(number - 1) % len(points)]
    dx, dy = corner[0] - middle[0], corner[1] - middle[1]
    length = (dx * dx + dy * dy) ** 0.5 or 1.0
    return corner, (dx / length, dy / length)


def tied_to(guide: Guide, bench: Bench, found: Mapping[str, Sitting]) -> dict[str, Sitting]:
    """The ends of cords that are tied to something here while they sit elsewhere."""
    wanted: list[tuple[str, Turned, Pose]] = []
    for joint in bench.joints:
        for cord, eye in ((joint.a, joint.b), (joint.b, joint.a)):
            thing = thing_of(guide, cord)
            if joint.kind != "tie" or thing is None or thing.form != "cord" or cord in found:
                continue
            on = found.get(eye)
            if on is not None and isinstance(on.solid, Turned) and not _inside(bench, eye):
                wanted.append((cord, on.solid, on.pose))
    ends: dict[str, Sitting] = {}
    kinds = [thing_of(guide, cord) for cord, _, _ in wanted]
    slots = [0]
    for before, kind in pairwise(kinds):  # another kind of cord lies apart
        slots.append(slots[-1] + (1 if kind == before else APART))
    most = max(kinds, key=kinds.count, default=None)  # these lie evenly to both sides of the axis
    own = [slot for slot, kind in zip(slots, kinds, strict=False) if kind == most]
    for slot, (cord, solid, at) in zip(slots, wanted, strict=False):
        lean = FAN * (2 * slot - own[0] - own[-1]) / slots[-1] if slots[-1] else 0.2
        x = solid.end + ring_of(solid)
        points = tuple(
            (x + u * cos(lean) - v * sin(lean), 0.0, u * sin(lean) + v * cos(lean))
            for u in (0.0, 6.0, 12.0, 18.0, 24.0)
            for v in (sin(u / 5),)
        )
        ends[cord] = Sitting(Cord(points), at, True)
    return ends


def ring_of(shank: Turned) -> float:
    """The radius of the ring at the end of a screw eye's shank, mm."""
    return shank.end * (1 - SHANK) / SHANK / 2


def _inside(bench: Bench, item: str) -> bool:
    """True if an item, or what it sits on, is inside something."""
    return any(seat.side == "inside" for seat in bench.upward(item))


def _hanging(guide: Guide, bench: Bench, seat: Seat, on: Sitting) -> Sitting | None:
    """A cord runs from where it is fastened, in a few gentle bends, and is drawn no longer than CORD."""
    thing = thing_of(guide, seat.child)
    length = min(mm(length_of(thing), CORD) if thing is not None else CORD, CORD)
    if isinstance(on.solid, Slab):
        xs, ys = zip(*on.solid.outline, strict=True)
        if seat.spot.startswith("corner "):
            corner, out = corner_of(on.solid, int(seat.spot.rpartition(" ")[2]))
        else:
            corner, out = ((min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2), (1.0, 0.0)
        z = on.solid.thickness / 2 if seat.side == "fold" else on.solid.thickness + 0.2
        start: Vec = (corner[0] - out[0] * 6, corner[1] - out[1] * 6, z)
        along, across = out, (-out[1], out[0])
    elif isinstance(on.solid, Turned) and abs(on.pose.ex[2]) > 0.9:
        # on something upright it hangs out to one side, a little below its top: before the wind, which blows
        # into the hollow side of a sail
        way = -1.0 if bowed_on(guide, bench, seat.host) else 1.0
        ways = (length * i / 12 for i in range(13))
        streaming = tuple((on.solid.end - DOWN - u * u / 240, way * u, 0.0) for u in ways)
        return Sitting(Cord(streaming), on.pose, True)
    elif isinstance(on.solid, Turned):
        start, along, across = (on.solid.end, 0.0, 0.0), (1.0, 0.0), (0.0, 1.0)
        if seat.side == "loose" and seat.stretch is not None:
            start = (float(seat.stretch[0]), 0.0, 0.0)
            length = min(length, float(seat.stretch[1] - seat.stretch[0]))
    else:
        start, along, across = (on.solid.points[-1][0], 0.0, 0.0), (1.0, 0.0), (0.0, 1.0)
    upright = isinstance(on.solid, Turned)
    hanging: list[Vec] = []
    for i in range(13):
        u = length * i / 12
        v = 3.0 * sin(2 * pi * i / 6) * (1 - cos(pi * i / 12)) / 2
        dx, dy = along[0] * u + across[0] * v, along[1] * u + across[1] * v
        hanging.append(
            (start[0] + dx, start[1], start[2] + dy) if upright else (start[0] + dx, start[1] + dy, start[2])
        )
    return Sitting(Cord(tuple(hanging)), on.pose, True)


def placed(guide: Guide, item: str, sitting: Sitting, *, new: bool, label: bool, sits: str = "") -> Placed:
    """A settled item as the views want it."""
    thing = thing_of(guide, item)
    name = thing.name if thing is not None else item
    if thing is not None and thing.sort == "tool" and solid_of(thing) is None:
        name += UNKNOWN
    return Placed(item, name, sitting.solid, sitting.pose, new, sitting.whole, sits, label)


def round_thing(guide: Guide, item: str) -> bool:
    """True for turned things."""
    thing = thing_of(guide, item)
    return thing is not None and is_axial(thing)
