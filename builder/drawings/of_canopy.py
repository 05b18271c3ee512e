"""Packing a canopy: laid flat, drawn out into a spike, rolled up.  A sequence of three schematics."""

from __future__ import annotations

from math import cos, pi, sin

from builder.drawings.callouts import Callout, flags
from builder.drawings.columns import column
from builder.drawings.developments import regular_polygon
from builder.drawings.of_part import mm
from builder.drawings.shapes import (
    Arrow,
    Box,
    Drawing,
    Point,
    Polyline,
    Shape,
    circle,
    finished,
    in_a_row,
    segment,
)
from builder.guide.model import Thing

RADIUS = 20.0
"""Half of the canopy's width across flats as drawn, mm on paper."""

APART = 1.6
"""Creases are drawn where they are so far apart, mm on paper."""

TURN = 2.0
"""The turns of the roll lie so far apart, mm on paper."""

LINES = 12.0
"""How long the lines are drawn, mm on paper."""


def canopy(thing: Thing, lines: str, title: str, width: float) -> Drawing | None:
    """Three pictures, in a row if they fit a width in mm; None if the number of sides is unknown."""
    sides = int(mm(thing.mm("sides")))
    if sides < 3:
        return None
    three = [_flat(thing, sides), _spike(thing, sides, lines), _roll(thing)]
    row = in_a_row(three, title, width)
    said = (
        f"First: the {thing.name} lies flat; an arrow shows that it is taken by its middle. "
        f"Then: it hangs from its middle as a narrow spike{f', the {lines} below' if lines else ''}. "
        "Last: the spike is rolled up loosely. The pictures are not to scale."
    )
    return row._replace(alt=said)


def _flat(thing: Thing, sides: int) -> Drawing:
    corners = regular_polygon(sides, 2 * RADIUS)
    points = tuple((x, -y) for x, y in corners)
    shapes: list[Shape] = [Polyline(points, "outline", thing.id, closed=True)]
    for x, y in points:
        out = (x * 1.22, y * 1.22)
        shapes.append(segment((x, y), out, "outline", thing.id))
    shapes += [circle((0, 0), 1.2, "new", thing.id), segment((0, -2.0), (0, -11.0), "way")]
    shapes.append(Arrow((0, -14.5), 270.0, "way", None, 4.5))
    box = Box(-RADIUS, -RADIUS * 1.25, RADIUS, RADIUS * 1.25)
    corner = max(points, key=lambda p: (p[0] - p[1], p[0]))
    called = [Callout(thing.name, thing.id, ((corner[0] * 0.9, corner[1] * 0.995),))]
    names = flags(called, box, box.top, shapes)
    return finished("", "", [*shapes, *names.shapes])


def _spike(thing: Thing, sides: int, lines: str) -> Drawing:
    high, half = RADIUS * 1.9, 4.8
    outline: tuple[Point, ...] = ((0.0, 0.0), (half, high), (-half, high))
    shapes: list[Shape] = [Polyline(outline, "new", thing.id, closed=True)]
    gores = min(max(sides // 2, 2), 3)
    # creases begin where there is white between them: towards the tip they would run together
    start = min(APART * gores / (2 * half), 0.9)
    for i in range(1, gores):
        x = -half + 2 * half * i / gores
        shapes.append(segment((x * start, high * start), (x, high), "thin", thing.id))
    foot = (0.0, high + LINES)
    shapes += [segment((x, high), foot, "outline", thing.id) for x in (-half, -half / 3, half / 3, half)]
    box = Box(-half, 0.0, half, foot[1])
    called = [Callout("spike", thing.id, ((0.0, 0.0),))]
    if lines:
        called.append(Callout(lines, thing.id, ((half * 0.5, high + LINES * 0.5),)))
    return finished("", "", [*shapes, *column(called, box.right + 7, shapes=shapes).shapes])


def _roll(thing: Thing) -> Drawing:
    n = 40
    turns = 3
    points = []
    for i in range(turns * n + 1):
        r = 1.2 + TURN * i / n
        a = 2 * pi * i / n
        points.append((r * cos(a), r * sin(a)))
    end = points[-1]
    shapes: list[Shape] = [Polyline(tuple(points), "new", thing.id)]
    shapes.append(segment(end, (end[0] + 0.6, end[1] + 14.0), "outline", thing.id))
    reach = abs(end[0])
    called = [Callout("rolled up", thing.id, ((0.0, -reach + 0.9),))]
    box = Box(-reach, -reach, reach, end[1] + 14.0)
    return finished("", "", [*shapes, *flags(called, box, box.top, shapes).shapes])
