"""Lines that cannot be seen for an edge that runs over them or close beside them: an earlier line under the
face of a ring, the dashes of an axle that melt into the straw round it.  They are not drawn, and the legend
does not tell of them."""

from __future__ import annotations

from collections.abc import Collection, Iterable
from itertools import pairwise

from builder.drawings.shapes import Point, Polyline, Shape

SEEN = ("outline", "new", "new_thin", "thin")
"""The lines of what is seen of parts from outside."""

EDGES = (*SEEN, "section", "new_section")
"""These, and those of what is cut open."""

OVER = {"mark": 0.2, "hidden": 0.8}
"""A line of these classes is lost so near an edge, mm: an earlier line under it, dashes beside it."""

SPECK = 0.5
"""What stands out at an end by no more than this is no line, mm: the gap that a ring leaves in its tube."""

Run = tuple[Point, Point]


def uncovered(shapes: Iterable[Shape]) -> list[Shape]:
    """The shapes without the straight lines that are lost by an edge for all of their length."""
    every = list(shapes)
    if not any(s.line in OVER for s in every if isinstance(s, Polyline)):
        return every
    edges = runs_of(every, EDGES)
    return [s for s in every if not (isinstance(s, Polyline) and _is_lost(s, edges))]


def runs_of(shapes: Iterable[Shape], lines: Collection[str]) -> list[Run]:
    """The straight pieces of lines of these classes."""
    return [
        run
        for s in shapes
        if isinstance(s, Polyline) and s.line in lines
        for run in pairwise((*s.points, s.points[0]) if s.closed else s.points)
    ]


def _is_lost(shape: Polyline, edges: list[Run]) -> bool:
    """True if edges along it run by a level or upright line from end to end."""
    near = OVER.get(shape.line)
    if near is None or len(shape.points) != 2:
        return False
    a, b = shape.points
    for off, on in ((0, 1), (1, 0)):
        if abs(a[off] - b[off]) > 1e-3:
            continue
        low, high = sorted((a[on], b[on]))
        spans = sorted(
            sorted((p[on], q[on]))
            for p, q in edges
            if abs(p[off] - a[off]) <= near and abs(q[off] - a[off]) <= near
        )
        reach = low
        for start, end in spans:
            if start <= reach + SPECK:
                reach = max(reach, end)
        if high > low and reach >= high - SPECK:
            return True
    return False
