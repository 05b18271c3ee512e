"""Small signs for what hands, eyes and clocks do, for which a picture of parts has no line.

Each sign is drawn within SIDE by SIDE mm round the origin, y downwards, in the line class `sign`. One row in
the table of `builder/drawings/acts.py` says when it is used.
"""

from __future__ import annotations

from collections.abc import Callable
from math import cos, radians, sin

from builder.drawings.shapes import Arc, Arrow, Point, Polyline, Shape, circle, segment

SIDE = 10.0
"""Width and height of a sign, mm."""

LINE = "sign"

HEAD = 3.0
"""Length of an arrowhead of a sign, mm."""


def _lines(*points: Point, closed: bool = False, filled: bool = False) -> Polyline:
    return Polyline(points, LINE, None, closed, filled)


def clock() -> list[Shape]:
    """A dial with its two hands."""
    ticks = [segment(_on(0.0, 0.0, 4.4, a), _on(0.0, 0.0, 3.6, a), LINE) for a in (0, 90, 180)]
    return [circle((0, 0), 4.4, LINE), *ticks, _lines((0.0, -3.4), (0.0, 0.0), (2.0, 1.4))]


def night() -> list[Shape]:
    """A dial, and the moon beside it: the wait goes over a night."""
    outer = [_on(4.5, 0.0, 4.4, a) for a in range(60, 301, 15)]
    inner = [_on(6.9, 0.0, 3.82, a) for a in range(273, 86, -17)]
    return [*(_shifted(s, -5.5) for s in clock()), _lines(*outer, *inner, closed=True)]


def _on(x: float, y: float, r: float, angle: int) -> Point:
    return x + r * cos(radians(angle)), y + r * sin(radians(angle))


def _shifted(shape: Shape, dx: float) -> Shape:
    if isinstance(shape, Polyline):
        return shape._replace(points=tuple((x + dx, y) for x, y in shape.points))
    assert isinstance(shape, Arc)
    return shape._replace(centre=(shape.centre[0] + dx, shape.centre[1]))


def eye() -> list[Shape]:
    """An eye: look."""
    over = Arc((0, 3.4), 5.8, 5.8, LINE, None, 0.0, 216.0, 108.0)
    under = Arc((0, -3.4), 5.8, 5.8, LINE, None, 0.0, 36.0, 108.0)
    return [over, under, circle((0, 0), 1.9, LINE), circle((0, 0), 0.5, LINE)]


def ruler() -> list[Shape]:
    """A ruler: measure."""
    ticks = [
        segment((x, -1.8), (x, 0.0 if i % 2 else -0.6), LINE)
        for i, x in enumerate((-3.2, -1.6, 0.0, 1.6, 3.2))
    ]
    return [_lines((-4.8, -1.8), (4.8, -1.8), (4.8, 2.2), (-4.8, 2.2), closed=True), *ticks]


def square() -> list[Shape]:
    """A try square: see whether the angle is right."""
    return [
        _lines((-4.2, 4.2), (4.2, 4.2), (4.2, 2.6), (-2.6, 2.6), (-2.6, -4.2), (-4.2, -4.2), closed=True),
        _lines((-1.0, 2.6), (-1.0, 1.0), (-2.6, 1.0)),
    ]


def turns() -> list[Shape]:
    """An arrow round a middle: it turns."""
    arc = Arc((0, 0), 4.0, 4.0, LINE, None, 0.0, -80.0, 280.0)
    tip = arc.at(1.0)
    return [circle((0, 0), 0.5, LINE), arc, Arrow((tip[0] + 0.3, tip[1] - 1.9), 281.0, LINE, None, HEAD)]


def slides() -> list[Shape]:
    """A tube in a tube, and an arrow to either side: it slides."""
    return [
        _lines((-4.8, -4.2), (0.4, -4.2), (0.4, 0.6), (-4.8, 0.6), closed=True),
        _lines((0.4, -3.2), (4.8, -3.2), (4.8, -0.4), (0.4, -0.4)),
        segment((-4.8 + HEAD, 3.4), (4.8 - HEAD, 3.4), LINE),
        Arrow((-4.8, 3.4), 180.0, LINE, None, HEAD),
        Arrow((4.8, 3.4), 0.0, LINE, None, HEAD),
    ]


def pencil() -> list[Shape]:
    """A pencil over a line: write."""
    return [
        _lines((-3.4, 3.0), (-2.9, 0.9), (2.6, -4.6), (4.4, -2.8), (-1.3, 2.7), closed=True),
        segment((-2.9, 0.9), (-1.3, 2.7), LINE),
        segment((-4.8, 4.4), (3.0, 4.4), LINE),
    ]


def finger() -> list[Shape]:
    """A fingertip, and the arrow of its push."""
    return [
        _lines((-1.7, -4.8), (-1.7, -0.6)), _lines((1.7, -4.8), (1.7, -0.6)),
        Arc((0, -0.6), 1.7, 1.7, LINE, None, 0.0, 0.0, 180.0),
        segment((-3.9, 2.2), (3.9, 2.2), LINE),
        segment((0.0, 2.2), (0.0, 3.0), LINE), Arrow((0.0, 4.9), 90.0, LINE, None, 2.0),
    ]  # fmt: skip


def hand() -> list[Shape]:
    """An open hand: a thing is taken, moved or held."""
    outline = (
        (-2.4, 4.8), (-3.2, 1.6), (-4.7, -0.6), (-3.7, -1.5), (-2.2, 0.2), (-2.2, -3.6), (-0.9, -3.6),
        (-0.8, -0.6), (-0.6, -4.6), (0.8, -4.6), (0.8, -0.6), (1.1, -4.1), (2.4, -4.0), (2.2, -0.3),
        (2.7, -2.8), (3.9, -2.5), (3.5, 1.6), (2.4, 4.8),
    )  # fmt: skip
    return [_lines(*outline, closed=True)]


def cloth() -> list[Shape]:
    """A cloth and the way that it wipes."""
    over = ((-4.4, -3.8), (-1.5, -2.6), (1.2, -4.0), (4.2, -3.0))
    under = ((3.4, 0.9), (0.6, 0.2), (-2.0, 1.4), (-4.6, 0.4))
    return [
        _lines(*over, *under, closed=True),
        segment((-2.4, 3.8), (2.4, 3.8), LINE),
        Arrow((-4.8, 3.8), 180.0, LINE, None, HEAD), Arrow((4.8, 3.8), 0.0, LINE, None, HEAD),
    ]  # fmt: skip


def can() -> list[Shape]:
    """A can that sprays."""
    return [
        _lines((-4.6, -1.4), (-1.0, -1.4), (-1.0, 4.8), (-4.6, 4.8), closed=True),
        _lines((-3.8, -1.4), (-3.8, -3.4), (-1.8, -3.4), (-1.8, -1.4)),
        segment((-0.6, -3.0), (4.6, -4.8), LINE), segment((-0.6, -2.6), (4.8, -2.4), LINE),
        segment((-0.6, -2.2), (4.6, 0.2), LINE),
    ]  # fmt: skip


def brush() -> list[Shape]:
    """A brush with its stroke."""
    return [
        _lines((4.6, -4.0), (3.6, -4.8), (-0.8, -0.6), (0.4, 0.6), closed=True),
        _lines((-0.8, -0.6), (-3.4, 1.0), (-4.2, 3.6), (-1.4, 3.0), (0.4, 0.6)),
        segment((-4.8, 4.6), (4.0, 4.6), LINE),
    ]


SIGNS: dict[str, Callable[[], list[Shape]]] = {
    "brush": brush,
    "can": can,
    "clock": clock,
    "cloth": cloth,
    "eye": eye,
    "finger": finger,
    "hand": hand,
    "night": night,
    "pencil": pencil,
    "ruler": ruler,
    "slides": slides,
    "square": square,
    "turns": turns,
}
"""Every sign by its name."""

WIDE: dict[str, float] = {"night": 21.0}
"""The width of a sign that is not SIDE wide, mm."""
