"""What a step takes off: a thin dashed outline of it, moved along the arrow of its way.

It is drawn as it sat before, by its silhouette in the plane that a side view or a plan shows.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from builder.drawings.bodies import corners
from builder.drawings.changes import Changes
from builder.drawings.of_bench import Sitting, settle, thing_of
from builder.drawings.pencil import GHOST, WAS, WAY
from builder.drawings.scene import Mark, Placed
from builder.drawings.solids import Slab, Turned
from builder.drawings.vectors import Pose, Vec, cross
from builder.dryrun.effects import Lift
from builder.dryrun.run import Frame
from builder.guide.model import Guide
from builder.trade.ends import ENDS, is_origin

Settled = dict[str, Sitting]

LEAST = 14.0
"""Room between a thing and what comes off it at its end, mm; or SHARE of its length, if that is more."""

SHARE = 0.07


BROAD = 3.0
"""What is this many times as wide as a thing is a board to lay it down on beside where it lay."""


class Gone(NamedTuple):
    """A thing taken off, as it sat, which way it goes (-1 or 1 along the axis, 0 off a face) and off what."""

    item: str
    sitting: Sitting
    way: float
    host: str = ""


def ghosts(guide: Guide, step: Changes, root: str, settled: Settled) -> list[Mark]:
    """The outlines of what the step takes off a root, or takes the root off, with an arrow for each."""
    found: list[Mark] = []
    taken: dict[float, float] = {}
    for gone in _gone(guide, step, root, settled):
        thing = thing_of(guide, gone.item)
        if thing is None:
            continue
        id = f"ghost {gone.item}"
        found += _marks(id, thing.name, gone, root, settled, taken)
    return found


def parted_from(step: Changes) -> list[tuple[str, str]]:
    """What the step takes off and then lies by itself, and the root of what it was taken off."""
    found: list[tuple[str, str]] = []
    for frame in step.frames:
        for e in frame.effects:
            if isinstance(e, Lift) and e.child in frame.before.seats and e.child not in step.bench.seats:
                found.append((e.child, frame.before.root(e.child)))
    return found


def _gone(guide: Guide, step: Changes, root: str, settled: Settled) -> Iterator[Gone]:
    done: set[str] = set()
    for frame in step.frames:
        for e in frame.effects:
            seat = frame.before.seats.get(e.child) if isinstance(e, Lift) else None
            if seat is None or seat.child in step.bench.seats:
                continue
            own = frame.before.root(seat.child)
            towards = _towards(frame, seat.came_from or seat.spot)
            if own == root and seat.host in settled:
                before = settle(guide, frame.before, root, settled[root].pose, rough=True)
                item, way = seat.child, towards * _sense(settled[seat.host])
            elif root == seat.child:
                # what it is taken off stays behind
                before = settle(guide, frame.before, own)
                item = seat.host
                if root not in before or item not in before:
                    continue
                before = {item: _seen_from(before[item], before[root], settled[root])}
                way = -towards * _sense(before[item])
            else:
                continue
            thing = thing_of(guide, item)
            kind = thing.id if thing is not None else item
            round_one = isinstance(settled[root].solid, Turned)
            if round_one and not way:
                if seat.side != "inside":
                    continue  # it is peeled off, along no axis
                way = 1.0
            if item in before and kind not in done:
                done.add(kind)
                host = seat.host if item == seat.child else ""
                yield Gone(item, before[item], way if round_one else 0.0, host)


def _towards(frame: Frame, came_from: str) -> float:
    """Along which way of the axis something leaves: as it is said, or as it came."""
    end = frame.action.word("towards") or came_from
    return 0.0 if end not in ENDS else -1.0 if is_origin(end) else 1.0


def _sense(host: Sitting) -> float:
    """1 if a host's axis runs to the right, -1 if it is turned end for end."""
    return -1.0 if host.pose.ex[0] < 0 else 1.0


def _seen_from(other: Sitting, old: Sitting, new: Sitting) -> Sitting:
    """Where something is if what it was beside has moved from its old place to a new one."""

    def point(p: Vec) -> Vec:
        return new.pose.world(old.pose.local(p))

    def turned(d: Vec) -> Vec:
        return new.pose.turned(old.pose.local_direction(d))

    ex, ey = turned(other.pose.ex), turned(other.pose.ey)
    return other._replace(pose=Pose(point(other.pose.origin), ex, ey, cross(ex, ey)))


def _marks(
    id: str, name: str, gone: Gone, root: str, settled: Settled, taken: dict[float, float]
) -> list[Mark]:
    solid, pose = gone.sitting.solid, gone.sitting.pose
    if not isinstance(solid, Turned | Slab):
        return []
    local = settled[root].pose.local
    whole = [c for s in settled.values() for c in corners(Placed("", "", s.solid, s.pose))]
    own = corners(Placed("", "", solid, pose))
    low = [min(c[i] for c in own) for i in range(3)]
    high = [max(c[i] for c in own) for i in range(3)]

    def mark(points: list[Vec], line: str, label: bool = False) -> Mark:
        whose = f"way of {id}" if line == WAY else id  # its name does not point at the arrow
        return Mark(whose, name, root, tuple(local(p) for p in points), new=True, label=label, line=line)

    if gone.way:
        x0, x1 = min(c[0] for c in whole), max(c[0] for c in whole)
        gap = max(LEAST, SHARE * (x1 - x0))
        edge = taken.get(gone.way, x0 if gone.way < 0 else x1)
        shift = edge - gap - high[0] if gone.way < 0 else edge + gap - low[0]
        a, b = low[0] + shift, high[0] + shift
        taken[gone.way] = a if gone.way < 0 else b
        found = [mark(_rectangle(a, b, low[2], high[2]), GHOST, True)]
        found.append(mark([(low[0], 0.0, 0.0), (high[0], 0.0, 0.0)], WAS))
        if isinstance(solid, Turned) and solid.bore:
            r, z = solid.bore[0].r0, pose.origin[2]
            found += [mark([(a, 0.0, z + s * r), (b, 0.0, z + s * r)], GHOST) for s in (1.0, -1.0)]
        tail, tip = (edge - 2, b + 2) if gone.way < 0 else (edge + 2, a - 2)
        z = (low[2] + high[2]) / 2 if isinstance(solid, Slab) else pose.origin[2]
        return [*found, mark([(tail, 0.0, z), (tip, 0.0, z)], WAY)]
    # off a face: it is laid down beside what it lay on, so that its arrow starts clear of whatever is there,
    # such as a hole; along the sheet's height, away from the names at its side
    x0, y0, x1, y1 = _stood_on(gone, settled, (low[0], low[1], high[0], high[1]))
    way = max(LEAST, 0.5 * (y1 - y0))
    dy = y1 + way - low[1]
    top = high[2] + 1.0
    square: list[Vec] = [(x, y + dy, top) for x, y, _ in _face(solid, pose)]
    middle = (low[0] + high[0]) / 2
    arrow: list[Vec] = [(middle, y1 + 0.1 * way, top), (middle, y1 + 0.9 * way, top)]
    return [mark([*square, square[0]], GHOST, True), mark(arrow, WAY)]


def _stood_on(
    gone: Gone, settled: Settled, own: tuple[float, float, float, float]
) -> tuple[float, float, float, float]:
    """The outline in plan, as x0, y0, x1, y1, of what a thing lay on; its own, if that is a broad board."""
    host = settled.get(gone.host)
    if host is None:
        return own
    points = corners(Placed("", "", host.solid, host.pose))
    x0, x1 = min(p[0] for p in points), max(p[0] for p in points)
    y0, y1 = min(p[1] for p in points), max(p[1] for p in points)
    broad = BROAD * (own[3] - own[1])
    return own if y1 - y0 > broad else (min(x0, own[0]), min(y0, own[1]), max(x1, own[2]), max(y1, own[3]))


def _rectangle(a: float, b: float, low: float, high: float) -> list[Vec]:
    return [(a, 0.0, low), (b, 0.0, low), (b, 0.0, high), (a, 0.0, high), (a, 0.0, low)]


def _face(solid: Turned | Slab, pose: Pose) -> list[Vec]:
    """The outline of a thing from above."""
    if isinstance(solid, Slab):
        return [pose.world((x, y, solid.thickness)) for x, y in solid.outline]
    r = solid.largest
    return [pose.world(p) for p in ((solid.start, -r, 0.0), (solid.end, -r, 0.0), (solid.end, r, 0.0),
                                    (solid.start, r, 0.0))]  # fmt: skip
