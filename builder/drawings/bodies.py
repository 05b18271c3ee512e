"""A camera, and what it sees of placed solids at a glance: boxes and strips, to ask no ray in vain."""

from __future__ import annotations

from collections.abc import Iterable
from functools import cache
from math import hypot, sqrt
from typing import NamedTuple

from builder.drawings.meeting import Meets, meets_of
from builder.drawings.scene import Placed
from builder.drawings.shapes import Box, Point
from builder.drawings.solids import Slab, Solid, Turned
from builder.drawings.vectors import Vec, add, cross, dot, times, unit

ROOM = 0.01
"""Boxes and strips are so much larger than what they hold, mm on paper."""


class Camera(NamedTuple):
    """Unit vectors of the picture: to the right, up, and towards the viewer; scale in paper mm per mm."""

    right: Vec
    up: Vec
    toward: Vec
    scale: float

    def paper(self, p: Vec) -> Point:
        """Where a world point falls on paper; y runs down."""
        return (dot(p, self.right) * self.scale, -dot(p, self.up) * self.scale)


class Strip(NamedTuple):
    """All points p on paper with low <= p . (x, y) <= high; (x, y) is a unit vector."""

    x: float
    y: float
    low: float
    high: float

    def holds(self, p: Point) -> bool:
        return self.low <= p[0] * self.x + p[1] * self.y <= self.high

    def misses(self, points: Iterable[Point]) -> bool:
        """True if all of the points lie beyond the same side, so that what is between them does too."""
        along = [p[0] * self.x + p[1] * self.y for p in points]
        return max(along) < self.low or min(along) > self.high


def _nothing(o: Vec, least: float, one: bool) -> list[float]:
    return []


class Body(NamedTuple):
    """A placed solid with the box that it fills on paper and the depth of its nearest point."""

    placed: Placed
    box: Box
    nearest: float
    toward: Vec
    """The way to the viewer in the thing's own frame."""

    strips: tuple[Strip, ...] = ()
    """What lies aslant on paper fills little of its box; it lies in these strips too."""

    forth: Meets = _nothing
    """Where rays to the viewer meet it, in its own frame."""

    back: Meets = _nothing
    """Where rays from the viewer meet it, in its own frame."""

    def may_cover(self, p: Point) -> bool:
        """False if a point on paper is certainly clear of it."""
        left, top, right, bottom = self.box
        return left <= p[0] <= right and top <= p[1] <= bottom and self.in_strips(*p)

    def in_strips(self, x: float, y: float) -> bool:
        """True if a point on paper lies in all of its strips."""
        for nx, ny, low, high in self.strips:  # noqa: SIM110 (asked for every ray; a generator takes twice as long)
            if not low <= x * nx + y * ny <= high:
                return False
        return True


def bounds(solid: Solid) -> tuple[Vec, Vec]:
    """Two opposite corners of the box round a solid, in its own frame."""
    if isinstance(solid, Turned):
        r = solid.largest
        return (solid.start, -r, -r), (solid.end, r, r)
    if isinstance(solid, Slab):
        xs, ys = zip(*solid.outline, strict=True)
        return (min(xs), min(ys), 0.0), (max(xs), max(ys), solid.thickness)
    xs3, ys3, zs3 = zip(*solid.points, strict=True)
    return (min(xs3), min(ys3), min(zs3)), (max(xs3), max(ys3), max(zs3))


def corners(placed: Placed) -> list[Vec]:
    """The eight corners of the box round a placed solid, in the world."""
    (x0, y0, z0), (x1, y1, z1) = bounds(placed.solid)
    return [placed.pose.world((x, y, z)) for x in (x0, x1) for y in (y0, y1) for z in (z0, z1)]


def body_of(placed: Placed, camera: Camera) -> Body:
    eight = corners(placed)
    flat = [camera.paper(c) for c in eight]
    box = Box(
        min(p[0] for p in flat), min(p[1] for p in flat), max(p[0] for p in flat), max(p[1] for p in flat)
    )
    own = placed.pose.local_direction(camera.toward)
    nearest = max(dot(c, camera.toward) for c in eight)
    forth, back = meets_of(placed.solid, own), meets_of(placed.solid, times(own, -1.0))
    return Body(placed, box, nearest, own, strips_of(placed, camera), forth, back)


def strips_of(placed: Placed, camera: Camera) -> tuple[Strip, ...]:
    """Strips along and across a round part's axis, or along the two sides of a flat one; none for what lies
    square on paper, of which the box says as much."""
    found = []
    frame, solid = placed.pose, placed.solid
    if isinstance(solid, Turned):
        a, b = (camera.paper(frame.world((x, 0.0, 0.0))) for x in (solid.start, solid.end))
        way = _unit((b[0] - a[0], b[1] - a[1]))
        if way is None:
            return ()
        for x, y in ((-way[1], way[0]), way):
            world = add(times(camera.right, x), times(camera.up, -y))
            # how far a circle about the axis reaches along a direction
            reach = solid.largest * camera.scale * sqrt(max(0.0, 1 - dot(frame.ex, world) ** 2)) + ROOM
            ends = sorted(p[0] * x + p[1] * y for p in (a, b))
            found.append(Strip(x, y, ends[0] - reach, ends[1] + reach))
    elif isinstance(solid, Slab):
        points = [
            camera.paper(frame.world((x, y, z))) for x, y in solid.outline for z in (0.0, solid.thickness)
        ]
        for axis in (frame.ex, frame.ey):
            way = _unit(camera.paper(axis))
            if way is None:
                return ()
            along = [p[1] * way[0] - p[0] * way[1] for p in points]
            found.append(Strip(-way[1], way[0], min(along) - ROOM, max(along) + ROOM))
    return tuple(found)


def _unit(p: Point) -> Point | None:
    """The direction of a vector on paper; None if it has none, or runs level or upright."""
    length = hypot(*p)
    if length < 1e-6 or min(abs(p[0]), abs(p[1])) < 1e-6 * length:
        return None
    return (p[0] / length, p[1] / length)


@cache
def _directions(name: str) -> tuple[Vec, Vec, Vec]:
    """Right, up and toward of the named views."""
    if name == "side":
        return (1.0, 0.0, 0.0), (0.0, 0.0, 1.0), (0.0, -1.0, 0.0)
    if name == "rear end":  # from small x, looking along +x
        return (0.0, -1.0, 0.0), (0.0, 0.0, 1.0), (-1.0, 0.0, 0.0)
    if name == "front end":  # from large x, looking along -x
        return (0.0, 1.0, 0.0), (0.0, 0.0, 1.0), (1.0, 0.0, 0.0)
    if name == "plan":
        return (1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0)
    if name == "axonometric":
        toward = unit((0.75, -1.0, 0.62))
        right = unit(cross((0.0, 0.0, 1.0), toward))
        return right, cross(toward, right), toward
    raise KeyError(name)


def camera_for(name: str, scale: float) -> Camera:
    """One of the named views: side, rear end, front end, plan, axonometric."""
    return Camera(*_directions(name), scale)
