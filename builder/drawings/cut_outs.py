"""What is cut inside a piece (a bore, slots, a notch): left white, and drawn so that the white is seen."""

from __future__ import annotations

from itertools import pairwise
from math import hypot

from builder.drawings.geometry import distance
from builder.drawings.project import THICK
from builder.drawings.shapes import Arc, Point, Polyline, Shape
from builder.drawings.style import LINES

TOGETHER = 0.01
"""Lines whose ends are so near one another, mm, go on into one another."""

STEP = 7.5
"""An arc is hatched round at corners so many degrees apart."""


def with_holes(polygon: tuple[Point, ...], inner: tuple[Shape, ...]) -> tuple[Point, ...]:
    """An outline and what is cut out of it as one closed way (even-odd), so that a hatch leaves that out.

    Lines of a hole that open into one another (a bore and its notch) follow each other, in order.
    """
    way = [*polygon, polygon[0]]
    for hole in _loops(inner):
        # there and back along one line, which bounds nothing
        way += [*hole, hole[0], polygon[0]]
    return tuple(way)


def _loops(inner: tuple[Shape, ...]) -> list[list[Point]]:
    """The closed ways that lines make, each as its corners."""
    found: list[list[Point]] = []
    ended = True
    for shape in inner:
        if not isinstance(shape, Polyline | Arc):
            continue
        points = _corners(shape)
        if ended or not _meet(found[-1][-1], points[0]):
            found.append([])
        found[-1] += points
        ended = isinstance(shape, Polyline) and shape.closed or _meet(found[-1][-1], found[-1][0])
    return [loop for loop in found if len(loop) > 2]


def _corners(shape: Polyline | Arc) -> list[Point]:
    if isinstance(shape, Polyline):
        return list(shape.points)
    count = max(2, round(abs(shape.sweep) / STEP))
    return [shape.at(i / count) for i in range(count + 1)]


def _meet(a: Point, b: Point) -> bool:
    return hypot(a[0] - b[0], a[1] - b[1]) < TOGETHER


def cut_line(shape: Shape) -> str:
    """The class of the edges of a hole, by how wide it is on paper: two heavy edges close together would hide
    the white between them."""
    wide = _width(shape.points, shape.closed) if isinstance(shape, Polyline) else THICK
    return next((line for line in ("new", "new_thin") if wide >= 3 * LINES[line].width), "thin")


def _width(points: tuple[Point, ...], closed: bool) -> float:
    """How near to one another two sides come that do not meet, mm on paper."""
    sides = list(pairwise([*points, points[0]] if closed else points))
    near = [
        distance(((a[0] + b[0]) / 2, (a[1] + b[1]) / 2), *other)
        for i, (a, b) in enumerate(sides)
        for j, other in enumerate(sides)
        if abs(i - j) > 1 and {a, b}.isdisjoint(other)
    ]
    return min(near, default=THICK)
