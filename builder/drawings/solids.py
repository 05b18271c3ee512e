"""The three solids that every part is drawn as, each in its own frame, millimetres.

Turned: a profile of radius along the x axis, with a bore (tube, rod, ring, nose, wheel, screw).
Slab: an outline in the x-y plane with holes, from z = 0 up to its thickness (fin, deck, ring board).
Cord: a line through points, with a width (cord, thread, tape seen as a line).

Each answers two questions exactly: what lies in its material, and which lines of it could be seen.  Where
a ray meets its skin is in `meeting.py`.
"""

from __future__ import annotations

from functools import cache
from math import cos, hypot, pi, sin, sqrt
from typing import NamedTuple

from builder.drawings.shapes import Point
from builder.drawings.vectors import Vec

NEARLY = 1e-9


class Stretch(NamedTuple):
    """From x0 to x1 the radius goes from r0 to r1 in a straight line; x0 < x1."""

    x0: float
    x1: float
    r0: float
    r1: float

    def at(self, x: float) -> float:
        return self.r0 + (self.r1 - self.r0) * (x - self.x0) / (self.x1 - self.x0)


class Turned(NamedTuple):
    """Outer stretches from one end to the other without a gap, and bore stretches inside them."""

    outer: tuple[Stretch, ...]
    bore: tuple[Stretch, ...] = ()

    @property
    def start(self) -> float:
        return self.outer[0].x0

    @property
    def end(self) -> float:
        return self.outer[-1].x1

    @property
    def largest(self) -> float:
        return max(max(s.r0, s.r1) for s in self.outer)


class Slab(NamedTuple):
    """An outline (points in order, not repeated) with holes of the same kind, and a thickness."""

    outline: tuple[Point, ...]
    thickness: float
    holes: tuple[tuple[Point, ...], ...] = ()


class Cord(NamedTuple):
    """A line through points, drawn as one line; it hides nothing."""

    points: tuple[Vec, ...]
    width: float = 0.5


Solid = Turned | Slab | Cord


# -- making them -------------------------------------------------------------------------------------


def tube(length: float, outside: float, inside: float) -> Turned:
    """A tube by its length and its two diameters."""
    return Turned(
        (Stretch(0, length, outside / 2, outside / 2),), (Stretch(0, length, inside / 2, inside / 2),)
    )


def rod(length: float, diameter: float) -> Turned:
    """A solid rod by its length and diameter."""
    return Turned((Stretch(0, length, diameter / 2, diameter / 2),))


def rectangle(width: float, height: float, thickness: float) -> Slab:
    """A slab with its corner at the origin."""
    return Slab(((0, 0), (width, 0), (width, height), (0, height)), thickness)


def round_outline(centre: Point, diameter: float, sides: int = 48) -> tuple[Point, ...]:
    """A circle as a polygon of so many sides, for outlines and holes of slabs."""
    r = diameter / 2
    return tuple(
        (centre[0] + r * cos(2 * pi * i / sides), centre[1] + r * sin(2 * pi * i / sides))
        for i in range(sides)
    )


# -- what lies in a solid ----------------------------------------------------------------------------


def inside_polygon(p: Point, polygon: tuple[Point, ...]) -> bool:
    """True if a point lies in a polygon (counting crossings to the right)."""
    x, y = p
    inside = False
    x0, y0 = polygon[-1]
    for x1, y1 in polygon:
        if (y1 > y) != (y0 > y) and x < (x0 - x1) * (y - y1) / (y0 - y1) + x1:
            inside = not inside
        x0, y0 = x1, y1
    return inside


def _radius(stretches: tuple[Stretch, ...], x: float, after: bool) -> float:
    """Radius just after (or just before) a station; 0 where there is no stretch."""
    for s in stretches:
        if (s.x0 <= x < s.x1) if after else (s.x0 < x <= s.x1):
            return s.at(x)
    return 0.0


class Face(NamedTuple):
    """A flat ring across the axis: station, inner and outer radius, and where it looks (+1 or -1 along x)."""

    x: float
    low: float
    high: float
    out: float


@cache
def end_faces(solid: Turned) -> tuple[Face, ...]:
    """Every flat face across the axis: where there is material on one side of a station only."""
    faces: list[Face] = []
    for x in sorted({x for s in solid.outer + solid.bore for x in (s.x0, s.x1)}):
        before = (_radius(solid.bore, x, False), _radius(solid.outer, x, False))
        after = (_radius(solid.bore, x, True), _radius(solid.outer, x, True))
        for out, rings in ((-1.0, _difference(after, before)), (1.0, _difference(before, after))):
            faces += [Face(x, low, high, out) for low, high in rings if high - low > NEARLY]
    return tuple(faces)


def _difference(a: tuple[float, float], b: tuple[float, float]) -> list[tuple[float, float]]:
    """What of the interval a lies outside the interval b."""
    if b[1] - b[0] <= NEARLY:
        return [a]
    return [(a[0], min(a[1], b[0])), (max(a[0], b[1]), a[1])]


def solid_at(solid: Solid, p: Vec) -> bool:
    """True if a point in the solid's own frame lies in its material."""
    if isinstance(solid, Turned):
        x, r = p[0], hypot(p[1], p[2])
        return any(s.x0 <= x <= s.x1 and r <= s.at(x) for s in solid.outer) and not any(
            s.x0 <= x <= s.x1 and r < s.at(x) for s in solid.bore
        )
    if isinstance(solid, Slab):
        return (
            0 <= p[2] <= solid.thickness
            and inside_polygon((p[0], p[1]), solid.outline)
            and not any(inside_polygon((p[0], p[1]), h) for h in solid.holes)
        )
    return False


# -- which lines of a solid could be seen ------------------------------------------------------------


class Edge(NamedTuple):
    """A straight line of a solid in its own frame; `out` leads off the solid's own skin."""

    a: Vec
    b: Vec
    out: Vec


class Rim(NamedTuple):
    """A circle across the x axis: station, radius; `out` is +1 or -1 along the axis, bore turns it in."""

    x: float
    radius: float
    out: float
    bore: bool = False


def lines_of(solid: Solid, view: Vec) -> tuple[list[Edge], list[Rim]]:
    """Edges and rims of a solid that may be seen from `view` (the way to the viewer, own frame)."""
    if isinstance(solid, Turned):
        return _turned_lines(solid, view)
    if isinstance(solid, Slab):
        return _slab_edges(solid, view), []
    pairs = zip(solid.points, solid.points[1:], strict=False)
    return [Edge(a, b, (0.0, 0.0, 0.0)) for a, b in pairs], []


def _turned_lines(solid: Turned, view: Vec) -> tuple[list[Edge], list[Rim]]:
    rims: list[Rim] = []
    for face in end_faces(solid):
        bores = (_radius(solid.bore, face.x, False), _radius(solid.bore, face.x, True))
        for radius in (face.high, face.low):
            if radius > NEARLY:
                in_bore = any(abs(radius - b) < NEARLY for b in bores)
                rims.append(Rim(face.x, radius, face.out, in_bore))
    for s, after in zip(solid.outer, solid.outer[1:], strict=False):
        bend = (after.r1 - after.r0) / (after.x1 - after.x0) - (s.r1 - s.r0) / (s.x1 - s.x0)
        if abs(after.r0 - s.r1) < NEARLY and abs(bend) > 0.15:
            rims.append(Rim(s.x1, s.r1, 0.0))
    edges: list[Edge] = []
    across = hypot(view[1], view[2])
    if across > 1e-6:
        for s in solid.outer:
            # a generator is a silhouette where the skin's normal is square to the view:
            # cos(a) across = k view_x, with k the slope of the radius
            k = (s.r1 - s.r0) / (s.x1 - s.x0)
            cosine = k * view[0] / across
            if abs(cosine) < 1:
                for sign in (1.0, -1.0):
                    sine = sign * sqrt(1 - cosine * cosine)
                    y = (view[1] * cosine - view[2] * sine) / across
                    z = (view[2] * cosine + view[1] * sine) / across
                    edges.append(Edge((s.x0, s.r0 * y, s.r0 * z), (s.x1, s.r1 * y, s.r1 * z), (-k, y, z)))
    return edges, rims


def _slab_edges(solid: Slab, view: Vec) -> list[Edge]:
    edges: list[Edge] = []
    t = solid.thickness
    for inner, ring in [(False, solid.outline), *((True, h) for h in solid.holes)]:
        area = sum(p[0] * q[1] - q[0] * p[1] for p, q in zip(ring, (*ring[1:], ring[0]), strict=True))
        way = 1.0 if (area > 0) != inner else -1.0
        n = len(ring)
        normals: list[Point] = []
        for i in range(n):
            (x0, y0), (x1, y1) = ring[i], ring[(i + 1) % n]
            length = hypot(x1 - x0, y1 - y0) or 1.0
            normals.append((way * (y1 - y0) / length, -way * (x1 - x0) / length))
        for i in range(n):
            (x0, y0), (x1, y1) = ring[i], ring[(i + 1) % n]
            nx, ny = normals[i]
            edges.append(Edge((x0, y0, 0), (x1, y1, 0), (nx, ny, -1)))
            edges.append(Edge((x0, y0, t), (x1, y1, t), (nx, ny, 1)))
            px, py = normals[i - 1]
            corner = nx * px + ny * py < 0.94  # sharper than 20 degrees: a real corner, not a curve's chord
            turned_away = (nx * view[0] + ny * view[1] > 0) != (px * view[0] + py * view[1] > 0)
            if corner or turned_away:
                edges.append(Edge((x0, y0, 0), (x0, y0, t), (nx + px, ny + py, 0)))
    return edges
