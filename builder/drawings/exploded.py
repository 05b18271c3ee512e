"""Parts pulled apart along the way that they came in: each against its own way, what sits on it with it.

The dry run knows the seats and the ends.  What was put together earlier stays together.  Taking apart is
the order of placing turned round: what was placed last comes to lie outermost.
"""

from __future__ import annotations

from typing import NamedTuple

from builder.drawings.bodies import bounds
from builder.drawings.of_bench import Sitting, thing_of
from builder.drawings.of_part import solid_of
from builder.drawings.solids import Cord, Slab, Turned
from builder.drawings.vectors import Pose, Vec, X, Y, Z, add, dot, pose, round_axis, times
from builder.dryrun.bench import Bench, Seat
from builder.guide.model import Guide
from builder.trade.ends import is_origin

GAP = 8.0
"""What is pulled apart clears what is laid already by so much at least, mm of the thing."""

SHARE = 0.06
"""The same as a share of the longest side of what stays."""

STEP = 5.0
"""Distances are multiples of this, mm of the thing."""

FACE = 0.55
"""Two round faces this share of their size apart hide little of one another at the angle of view."""


class Group(NamedTuple):
    """What moves as one: its head, all items in it, what it hangs on, and the way that it is pulled."""

    head: str
    items: tuple[str, ...]
    on: str
    """What its head sat on."""
    host: str
    """The head of the group that it moves along with."""
    way: Vec
    said: str
    """The way in words."""


class Trail(NamedTuple):
    """From where a part sat to where it is drawn, in the world."""

    part: str
    start: Vec
    end: Vec


class Apart(NamedTuple):
    """Items where an exploded view draws them, the trails that lead back, and the ways in words."""

    settled: dict[str, Sitting]
    trails: tuple[Trail, ...]
    ways: dict[str, str]
    """Each head with the way that it was pulled, in words; the first is the root, which stays."""


def pulled_apart(
    guide: Guide, bench: Bench, settled: dict[str, Sitting], root: str, before: Bench | None = None
) -> Apart:
    """Everything that was seated since `before` (all, if None) drawn off what it sits on."""
    settled = {i: _flat_again(guide, bench, i, s) for i, s in settled.items()}
    groups = _groups(bench, settled, root, before)
    corners = {i: _corners(s) for i, s in settled.items()}
    whole = [c for i in groups[root].items for c in corners[i]]
    gap = max(GAP, SHARE * max(_span(whole, way) for way in (X, Y, Z)))
    places: dict[str, Vec] = {}
    trails: dict[str, Trail] = {}

    def lay(head: str) -> list[str]:
        """Lay out what sits on a head, and say which items are then there; what it carries comes first."""
        own = groups[head]
        laid = list(own.items)
        places.update(dict.fromkeys(own.items, (0.0, 0.0, 0.0)))
        for child in (g for g in groups.values() if g.host == head and g.head != head):
            items = lay(child.head)
            by = times(child.way, _clear(items, laid, child, corners, places, gap))
            for item in items:
                places[item] = add(places[item], by)
                if item in trails:
                    trails[item] = Trail(item, add(trails[item].start, by), add(trails[item].end, by))
            start = _near_face(settled[child.head], child.way)
            trails[child.head] = Trail(child.head, start, add(start, by))
            laid += items
        return laid

    lay(root)
    moved_on = {
        i: s._replace(pose=s.pose._replace(origin=add(s.pose.origin, places[i])))
        for i, s in settled.items()
        if i in places
    }
    return Apart(moved_on, tuple(trails.values()), {g.head: g.said for g in groups.values()})


def _groups(bench: Bench, settled: dict[str, Sitting], root: str, before: Bench | None) -> dict[str, Group]:
    """The groups, each after what it moves along with, and in the order of placing."""
    order = {item: i for i, item in enumerate(bench.seats)}
    heads: dict[str, str] = {root: root}

    def loose(item: str) -> bool:
        seat = bench.seats.get(item)
        if seat is None or isinstance(settled[item].solid, Cord):
            return False
        old = before.seats.get(item) if before is not None else None
        return before is None or old is None or (old.host, old.stretch) != (seat.host, seat.stretch)

    # a host stands before what sits on it, since settling went down from the root
    for item in settled:
        seat = bench.seats.get(item)
        if item != root:
            above = seat.host if seat is not None and seat.host in heads else root
            heads[item] = item if loose(item) else heads[above]
    members: dict[str, list[str]] = {}
    for item, head in heads.items():
        members.setdefault(head, []).append(item)
    found = {root: Group(root, tuple(members[root]), "", "", (0.0, 0.0, 0.0), "")}
    waiting = sorted((h for h in members if h != root), key=lambda h: order[h])
    while waiting:
        head = next(h for h in waiting if heads[bench.seats[h].host] in found)
        waiting.remove(head)
        seat = bench.seats[head]
        way, said = _way(seat, settled)
        host = heads[seat.host]
        # what came later from the other side is taken off before its host moves, and so stays behind
        if host != root and order[head] > order[host] and dot(way, found[host].way) < -0.99:
            host = found[host].host
        found[head] = Group(head, tuple(members[head]), seat.host, host, way, said)
    return found


def _way(seat: Seat, settled: dict[str, Sitting]) -> tuple[Vec, str]:
    """The way in which a part is pulled off its host, as a unit vector of the world, and in words."""
    on, own = settled[seat.host], settled[seat.child]
    frame = on.pose
    if isinstance(on.solid, Slab):
        if seat.side == "under" or (seat.side == "hole" and seat.came_from == "under"):
            return times(frame.ez, -1.0), "off the under face"
        return frame.ez, "off the top" if seat.side != "hole" else "out of its hole"
    if not isinstance(on.solid, Turned):
        return frame.ez, "off"
    if seat.angle is not None:
        return frame.turned(round_axis(0.0, 1.0, float(seat.angle))), "outwards"
    flat = isinstance(own.solid, Slab)
    if seat.side in ("taped", "tied") and not (
        isinstance(own.solid, Turned) and own.solid.end - own.solid.start < 2.0
    ):
        return frame.ez, "off the outside"
    if flat and not seat.came_from and seat.side not in ("inside", "loose", "end"):
        return frame.ez, "off the outside"
    end = seat.came_from or seat.spot
    back = is_origin(end) if end else False
    if not seat.came_from and seat.side in ("end", "loose"):
        back = False
    elif not seat.came_from and seat.stretch is not None and not end:
        back = float(sum(seat.stretch)) < on.solid.start + on.solid.end
    words = f"off over the {end} end" if seat.side == "outside" else f"out of the {end} end"
    return times(frame.ex, -1.0 if back else 1.0), words if seat.came_from else "out of the end"


def _flat_again(guide: Guide, bench: Bench, item: str, sitting: Sitting) -> Sitting:
    """A strip that was wound round something lies flat again where an exploded view draws it."""
    seat, thing = bench.seats.get(item), thing_of(guide, item)
    if seat is None or thing is None or thing.form not in ("strip", "sheet"):
        return sitting
    solid = solid_of(thing)
    if not isinstance(sitting.solid, Turned) or not isinstance(solid, Slab):
        return sitting
    xs, ys = zip(*solid.outline, strict=True)
    along, frame = max(xs) - min(xs), sitting.pose
    up = frame.ez
    wide = sitting.solid.end - sitting.solid.start
    # its width lies along the tube, its length across it
    origin = add(frame.origin, add(times(up, sitting.solid.largest), times(frame.ey, -along / 2)))
    origin = add(origin, times(frame.ex, wide))
    return Sitting(solid, pose(origin, frame.ey, times(frame.ex, -1.0)), True)


def _corners(sitting: Sitting) -> list[Vec]:
    (x0, y0, z0), (x1, y1, z1) = bounds(sitting.solid)
    return [sitting.pose.world((x, y, z)) for x in (x0, x1) for y in (y0, y1) for z in (z0, z1)]


def _near_face(sitting: Sitting, way: Vec) -> Vec:
    """The middle of the face that a part turns towards what it sat on."""
    eight = _corners(sitting)
    middle = times(
        (sum(c[0] for c in eight), sum(c[1] for c in eight), sum(c[2] for c in eight)), 1 / len(eight)
    )
    low = min(dot(c, way) for c in eight)
    return add(middle, times(way, low - dot(middle, way)))


def _clear(
    items: list[str],
    laid: list[str],
    group: Group,
    corners: dict[str, list[Vec]],
    places: dict[str, Vec],
    gap: float,
) -> float:
    """The smallest distance at which some items, moved as one, are clear of all that is laid in their way."""
    way = group.way
    side, up = _square_to(way)
    least = 0.0

    def box(item: str) -> _Box:
        at = [add(c, places[item]) for c in corners[item]]
        return _Box(_range(at, way), _range(at, side), _range(at, up))

    others = [(box(i), i == group.on) for i in laid]
    for item in items:
        mine = box(item)
        for other, host in others:
            # what it sat on is cleared even where it only touches that
            if not (host and item == group.head) and (
                _apart(mine.side, other.side) or _apart(mine.up, other.up)
            ):
                continue
            face = min(_size(mine.side), _size(mine.up), _size(other.side), _size(other.up))
            least = max(least, other.way[1] - mine.way[0] + max(gap, FACE * face))
    return float(max(1, -(-least // STEP)) * STEP)


class _Box(NamedTuple):
    """What a part takes along its way and square to it."""

    way: tuple[float, float]
    side: tuple[float, float]
    up: tuple[float, float]


def _range(corners: list[Vec], way: Vec) -> tuple[float, float]:
    along = [dot(c, way) for c in corners]
    return min(along), max(along)


def _size(span: tuple[float, float]) -> float:
    return span[1] - span[0]


def _span(corners: list[Vec], way: Vec) -> float:
    return _size(_range(corners, way))


def _apart(a: tuple[float, float], b: tuple[float, float]) -> bool:
    return a[1] <= b[0] + 0.01 or b[1] <= a[0] + 0.01


def _square_to(way: Vec) -> tuple[Vec, Vec]:
    """Two directions square to one."""
    helper: Vec = (0.0, 0.0, 1.0) if abs(way[2]) < 0.9 else (1.0, 0.0, 0.0)
    frame: Pose = pose((0.0, 0.0, 0.0), way, helper)
    return frame.ey, frame.ez
