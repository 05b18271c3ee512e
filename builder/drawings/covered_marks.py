"""Earlier lines that cannot be seen, since an edge of a part runs over them: they are not drawn, and the
legend does not tell of them."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import pairwise

from builder.drawings.shapes import Point, Polyline, Shape

EDGES = ("outline", "new", "new_thin", "thin", "section", "new_section")
"""The lines of parts, seen from outside and cut open."""

OVER = 0.2
"""A line so near an edge is under it, mm."""

SPECK = 0.5
"""What stands out at an end by no more than this is no line, mm: the gap that a ring leaves in its tube."""

Run = tuple[Point, Point]


def uncovered(shapes: Iterable[Shape]) -> list[Shape]:
    """The shapes without the straight earlier lines that lie under an edge for all of their length."""
    every = list(shapes)
    if not any(isinstance(s, Polyline) and s.line == "mark" for s in every):
        return every
    edges = [
        run
        for s in every
        if isinstance(s, Polyline) and s.line in EDGES
        for run in pairwise((*s.points, s.points[0]) if s.closed else s.points)
    ]
    return [s for s in every if not (_is_earlier(s) and _lies_under(s, edges))]


def _is_earlier(shape: Shape) -> bool:
    return isinstance(shape, Polyline) and shape.line == "mark" and len(shape.points) == 2


def _lies_under(shape: Shape, edges: list[Run]) -> bool:
    """True if edges on its way cover a level or upright line from end to end."""
    assert isinstance(shape, Polyline)
    a, b = shape.points
    for off, on in ((0, 1), (1, 0)):
        if abs(a[off] - b[off]) > OVER:
            continue
        low, high = sorted((a[on], b[on]))
        spans = sorted(
            sorted((p[on], q[on]))
            for p, q in edges
            if abs(p[off] - a[off]) <= OVER and abs(q[off] - a[off]) <= OVER
        )
        reach = low
        for start, end in spans:
            if start <= reach + SPECK:
                reach = max(reach, end)
        if high > low and reach >= high - SPECK:
            return True
    return False
