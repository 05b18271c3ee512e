"""Questions about straight lines and boxes on paper that several layouts ask."""

from __future__ import annotations

from math import hypot

from builder.drawings.shapes import Box, Point


def meets_box(a: Point, b: Point, box: Box) -> bool:
    """True if a straight line passes through the inside of a box."""
    # asked for every place that a name may take: most lines are clear of the box at a glance
    (x0, y0), (x1, y1), (left, top, right, bottom) = a, b, box
    if (x0 <= left and x1 <= left) or (x0 >= right and x1 >= right):
        return False
    if (y0 <= top and y1 <= top) or (y0 >= bottom and y1 >= bottom):
        return False
    low, high = 0.0, 1.0
    for start, step, least, most in ((x0, x1 - x0, left, right), (y0, y1 - y0, top, bottom)):
        if abs(step) < 1e-12:
            if not least < start < most:
                return False
            continue
        t0, t1 = (least - start) / step, (most - start) / step
        if t0 > t1:
            t0, t1 = t1, t0
        if t0 > low:
            low = t0
        if t1 < high:
            high = t1
    return high - low > 1e-9


def clipped(a: Point, b: Point, box: Box) -> tuple[Point, Point] | None:
    """The part of a line within a box; None if it misses it."""
    low, high = 0.0, 1.0
    dx, dy = b[0] - a[0], b[1] - a[1]
    for step, start, least, most in ((dx, a[0], box.left, box.right), (dy, a[1], box.top, box.bottom)):
        if abs(step) < 1e-12:
            if not least <= start <= most:
                return None
            continue
        t0, t1 = sorted(((least - start) / step, (most - start) / step))
        low, high = max(low, t0), min(high, t1)
    if high - low < 1e-9:
        return None
    return (a[0] + dx * low, a[1] + dy * low), (a[0] + dx * high, a[1] + dy * high)


def turned_half(outline: tuple[Point, ...], width: float, height: float) -> tuple[Point, ...]:
    """An outline turned half round within its own box."""
    return tuple((width - x, height - y) for x, y in outline)


def distance(p: Point, a: Point, b: Point) -> float:
    """How far a point is from a straight line between two points."""
    dx, dy = b[0] - a[0], b[1] - a[1]
    long = dx * dx + dy * dy
    share = max(0.0, min(1.0, ((p[0] - a[0]) * dx + (p[1] - a[1]) * dy) / long)) if long > 1e-12 else 0.0
    return hypot(p[0] - a[0] - share * dx, p[1] - a[1] - share * dy)


def cross(a: Point, b: Point, c: Point, d: Point) -> bool:
    """True if two straight lines cross."""

    def side(p: Point, q: Point, r: Point) -> float:
        return (q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0])

    return side(a, b, c) * side(a, b, d) < -1e-9 and side(c, d, a) * side(c, d, b) < -1e-9
