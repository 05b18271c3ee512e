"""Where rays of one direction meet a solid's skin.

All rays of a view are parallel, so what hangs on their direction alone is worked out once for each solid:
most of the time of a drawing is spent in what is left.
"""

from __future__ import annotations

from collections.abc import Callable
from math import hypot, inf, sqrt

from builder.drawings.shapes import Point
from builder.drawings.solids import NEARLY, Slab, Solid, Turned, end_faces, inside_polygon
from builder.drawings.vectors import Vec

Meets = Callable[[Vec, float, bool], list[float]]
"""Origin of a ray, a least distance, whether one is enough -> every distance beyond the least at which the
ray meets the skin; not sorted; one of them, if that is enough."""


def meets_of(solid: Solid, d: Vec) -> Meets:
    """The function for rays of direction `d` in the solid's own frame, a unit vector."""
    if isinstance(solid, Turned):
        return _turned(solid, d)
    if isinstance(solid, Slab):
        return _level(solid, d) if abs(d[2]) <= NEARLY else _slanting(solid, d)
    return lambda o, least, one: []


def hits(solid: Solid, o: Vec, d: Vec) -> list[float]:
    """Every distance t > 0 at which the ray o + t d meets the skin of a solid; not sorted."""
    return meets_of(solid, d)(o, 0.0, False)


def _turned(solid: Turned, d: Vec) -> Meets:
    dx, dy, dz = d
    across = hypot(dy, dz)
    most = solid.largest * across
    walls = []
    for s in (*solid.outer, *solid.bore):
        # (y^2 + z^2) = (a + k x)^2 along the ray
        k = (s.r1 - s.r0) / (s.x1 - s.x0)
        b = k * dx
        walls.append((s.x0, s.x1, s.r0 - k * s.x0, k, b, dy * dy + dz * dz - b * b))
    faces = [(x, low, high) for x, low, high, _ in end_faces(solid)] if abs(dx) > NEARLY else []

    def meets(o: Vec, least: float, one: bool) -> list[float]:
        found: list[float] = []
        ox, oy, oz = o
        if abs(oy * dz - oz * dy) > most:
            return found  # it passes the axis farther off than the largest radius
        for x, low, high in faces:
            t = (x - ox) / dx
            if t > least and low <= hypot(oy + t * dy, oz + t * dz) <= high:
                found.append(t)
                if one:
                    return found
        for x0, x1, r0, k, b, qa in walls:
            a = r0 + k * ox
            qb = oy * dy + oz * dz - a * b
            qc = oy * oy + oz * oz - a * a
            if abs(qa) < NEARLY:
                roots: tuple[float, ...] = () if abs(qb) < NEARLY else (-qc / (2 * qb),)
            else:
                under = qb * qb - qa * qc
                if under < 0:
                    continue
                root = sqrt(under)
                roots = ((-qb - root) / qa, (-qb + root) / qa)
            for t in roots:
                if t > least and x0 <= ox + t * dx <= x1 and a + b * t >= 0:
                    found.append(t)
                    if one:
                        return found
        return found

    return meets


def _edges(solid: Slab, d: Vec) -> list[tuple[float, float, float, float, float, float, float, float, float]]:
    """The walls over a slab's edges that are not parallel to a ray: the box of each, where it begins, its
    way, and the determinant of way and ray."""
    found = []
    for ring in (solid.outline, *solid.holes):
        x0, y0 = ring[-1]
        for x1, y1 in ring:
            ex, ey = x1 - x0, y1 - y0
            det = d[1] * ex - d[0] * ey
            if abs(det) > NEARLY:
                low, high = (y0, y1) if y0 < y1 else (y1, y0)
                left, right = (x0, x1) if x0 < x1 else (x1, x0)
                found.append((left, right, low, high, x0, y0, ex, ey, det))
            x0, y0 = x1, y1
    return found


def _level(solid: Slab, d: Vec) -> Meets:
    """Rays along the faces of a slab: they meet its walls only."""
    edges, thickness = _edges(solid, d), solid.thickness

    def meets(o: Vec, least: float, one: bool) -> list[float]:
        if not 0 <= o[2] <= thickness:
            return []
        return _walls(edges, o, d, thickness, (-inf, inf, -inf, inf), least, one)

    return meets


def _slanting(solid: Slab, d: Vec) -> Meets:
    """Rays that pass both faces of a slab."""
    dx, dy, dz = d
    edges, thickness = _edges(solid, d), solid.thickness
    outline, holes = solid.outline, solid.holes
    xs, ys = zip(*outline, strict=True)
    left, right, low, high = min(xs), max(xs), min(ys), max(ys)
    boxes = [
        (min(x for x, _ in h), max(x for x, _ in h), min(y for _, y in h), max(y for _, y in h))
        for h in holes
    ]

    def material(p: Point) -> bool:
        x, y = p
        if not (left <= x <= right and low <= y <= high) or not inside_polygon(p, outline):
            return False
        return not any(
            x0 <= x <= x1 and y0 <= y <= y1 and inside_polygon(p, hole)
            for hole, (x0, x1, y0, y1) in zip(holes, boxes, strict=True)
        )

    def meets(o: Vec, least: float, one: bool) -> list[float]:
        ox, oy, oz = o
        t0, t1 = -oz / dz, (thickness - oz) / dz
        if t0 <= least and t1 <= least:
            return []
        # between its two faces the ray is over this stretch only: most edges are passed by at a glance
        x0, x1, y0, y1 = ox + t0 * dx, ox + t1 * dx, oy + t0 * dy, oy + t1 * dy
        box = (
            (x0 if x0 < x1 else x1) - NEARLY,
            (x1 if x0 < x1 else x0) + NEARLY,
            (y0 if y0 < y1 else y1) - NEARLY,
            (y1 if y0 < y1 else y0) + NEARLY,
        )
        if box[1] < left or box[0] > right or box[3] < low or box[2] > high:
            return []
        found: list[float] = []
        if t0 > least and material((x0, y0)):
            found.append(t0)
            if one:
                return found
        if t1 > least and material((x1, y1)):
            found.append(t1)
            if one:
                return found
        return found + _walls(edges, o, d, thickness, box, least, one)

    return meets


def _walls(
    edges: list[tuple[float, float, float, float, float, float, float, float, float]],
    o: Vec,
    d: Vec,
    thickness: float,
    box: tuple[float, float, float, float],
    least: float,
    one: bool,
) -> list[float]:
    """Where a ray meets the walls over some edges, of those that reach into a box only."""
    found: list[float] = []
    (ox, oy, oz), (dx, dy, dz) = o, d
    left, right, low, high = box
    for x_low, x_high, y_low, y_high, x0, y0, ex, ey, det in edges:
        if x_high < left or x_low > right or y_high < low or y_low > high:
            continue
        # o + t d on the wall over the edge: solve for t and the share u of the edge
        wx, wy = x0 - ox, y0 - oy
        t = (wy * ex - wx * ey) / det
        if t > least and 0 <= (dx * wy - dy * wx) / det <= 1 and 0 <= oz + t * dz <= thickness:
            found.append(t)
            if one:
                break
    return found
