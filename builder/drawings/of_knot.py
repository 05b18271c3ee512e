"""Knots as schematics: the cord as one line, with a gap where it runs behind itself.

They show how the cord runs, not how large the knot is.  Round a solid thing, which is seen end on, the cord
goes outside it; through an eye it goes before and behind the wire.
"""

from __future__ import annotations

from math import atan2, degrees, hypot
from typing import NamedTuple

from builder.drawings.callouts import Callout
from builder.drawings.columns import column
from builder.drawings.fills import SECTION_PITCH, polygon_hatch
from builder.drawings.of_cord import between
from builder.drawings.shapes import Arc, Drawing, Hatch, Point, Polyline, Shape, circle, finished
from builder.drawings.solids import round_outline

GAP = 1.6
"""Blank on both sides of a crossing on the strand that runs behind, mm on paper."""

EYE = 6.0
"""Outer radius of the eye as drawn, mm on paper; its wire is WIRE thick."""

WIRE = 1.8

OVER = (0.0, -7.5)
"""The middle of the eye, mm on paper; the loop hangs below it."""

ROD = 5.2
"""Radius of something solid that a cord is tied round, mm on paper; its middle is at the origin."""

SMOOTH = 7
"""So many straight pieces make the curve between two of its points."""

LONG: tuple[Point, ...] = ((-5.5, 37.0), (-4.6, 29.0), (0.0, 21.0), (5.4, 13.5))
"""The long part of the cord, from below through the first crossing to the right side of the loop, mm on
paper, y down."""

ROUND: tuple[Point, ...] = ((7.0, 3.0), (5.4, -4.2), (0.0, -6.9), (-5.4, -4.2), (-7.0, 3.0))
"""The loop over something solid."""

THROUGH: tuple[Point, ...] = ((4.4, 4.5), (3.1, -1.0), (0.0, -5.6), (-3.1, -1.0), (-4.4, 4.5))
"""The same through an eye."""

END: tuple[Point, ...] = (
    (-5.4, 13.5), (0.0, 21.0), (4.8, 25.6), (10.0, 24.6), (11.2, 18.5), (6.5, 12.6),
    (0.0, 10.6), (-6.6, 11.2), (-13.0, 14.5),
)  # fmt: skip
"""The end: down the left side, across the long part, round it, and through the loop to the left."""


class Knot(NamedTuple):
    """The way of a cord as points, mm on paper, y down, from end to end; and what it does, in words."""

    points: tuple[Point, ...]
    said: str


def overhand(solid: bool = False) -> Knot:
    """A cord that is closed with an overhand knot round something solid, or through an eye.

    The end is laid across the long part, which makes a loop, goes round behind it and out through the loop:
    three crossings, over and under in turn, are the trefoil, which is the overhand knot (knot tables, from
    memory).
    """
    way = (*LONG, *(ROUND if solid else THROUGH), *END)
    points: list[Point] = []
    for i in range(len(way) - 1):
        a, b = way[i], way[i + 1]
        before, after = way[max(i - 1, 0)], way[min(i + 2, len(way) - 1)]
        for n in range(SMOOTH):
            x, y = (between(*own, n / SMOOTH) for own in zip(before, a, b, after, strict=True))
            points.append((x, y))
    start = "It goes once round the outside of it" if solid else "It runs through the eye"
    end = "the end crosses over the long part, goes back behind that, and comes out through the loop."
    return Knot((*points, way[-1]), f"{start}; {end}")


KNOTS = {"overhand": overhand}
"""The knots that can be drawn, by their names in a guide."""


def crossings_of(points: tuple[Point, ...]) -> list[tuple[int, int, Point]]:
    """Where a way meets itself: the numbers of its two pieces, and the place."""
    found: list[tuple[int, int, Point]] = []
    pairs = list(zip(points, points[1:], strict=False))
    for i, (a, b) in enumerate(pairs):
        for j in range(i + 2, len(pairs)):
            c, d = pairs[j]
            det = (b[0] - a[0]) * (d[1] - c[1]) - (b[1] - a[1]) * (d[0] - c[0])
            if abs(det) < 1e-12:
                continue
            s = ((c[0] - a[0]) * (d[1] - c[1]) - (c[1] - a[1]) * (d[0] - c[0])) / det
            t = ((c[0] - a[0]) * (b[1] - a[1]) - (c[1] - a[1]) * (b[0] - a[0])) / det
            if 0 <= s < 1 and 0 <= t < 1:
                found.append((i, j, (a[0] + (b[0] - a[0]) * s, a[1] + (b[1] - a[1]) * s)))
    return found


def strands(points: tuple[Point, ...], eye: Point | None) -> list[tuple[Point, ...]]:
    """The way in pieces: over and under in turn, as every knot of three crossings runs, and behind the wire
    of an eye on its left."""
    passed = sorted((piece, at) for i, j, at in crossings_of(points) for piece in (i, j))
    behind = [passed[k] for k in range(0, len(passed), 2)]
    pieces: list[tuple[Point, ...]] = []
    run: list[Point] = []
    for i, p in enumerate(points):
        here = [at for piece, at in behind if abs(i - piece) < SMOOTH]
        near = any(hypot(p[0] - at[0], p[1] - at[1]) < GAP for at in here)
        if near or (eye is not None and p[0] < 0 and _off_wire(p, eye) < WIRE):
            if len(run) > 1:
                pieces.append(tuple(run))
            run = []
        else:
            run.append(p)
    if len(run) > 1:
        pieces.append(tuple(run))
    return pieces


def _off_wire(p: Point, eye: Point) -> float:
    """How far a point is from the middle of an eye's wire, mm on paper."""
    return abs(hypot(p[0] - eye[0], p[1] - eye[1]) - EYE + WIRE / 2)


def knot_drawing(
    name: str, cord: str, eye: str, title: str, *, item: str, solid: bool = False
) -> Drawing | None:
    """How a cord is tied through an eye or round something solid, enlarged; None for a knot that has no
    schematic.

    `item` is the cord's id on the bench.
    """
    make = KNOTS.get(name.strip().lower().removesuffix(" knot"))
    if make is None:
        return None
    knot = make(solid)
    pieces = strands(knot.points, None if solid else OVER)
    shapes: list[Shape] = [Polyline(piece, "new", item) for piece in pieces]
    shapes += _rod() if solid else _eye(knot.points)
    at = (ROD * 0.7, -ROD * 0.7) if solid else (OVER[0] + EYE * 0.7, OVER[1] - EYE * 0.7)
    callouts = [
        Callout(eye, "eye", (at,)),
        Callout(f"{name} knot", item, ((11.2, 18.5), (10.0, 24.6))),
        Callout(cord, item, (LONG[0],)),
    ]
    reach = max(p[0] for p in knot.points)
    shapes += column(callouts, reach + 7, shapes=shapes).shapes
    to = f"{eye}, which is seen from its end," if solid else eye
    are = "are" if cord[0].isdigit() else "is"
    said = f"Enlarged, not to scale: how the {cord} {are} tied to the {to} with an {name} knot. {knot.said}"
    return finished(title, said, shapes)


def _rod() -> list[Shape]:
    """The end of something solid: a disc, hatched as what is cut through."""
    runs = tuple(polygon_hatch(round_outline((0.0, 0.0), 2 * ROD), 45.0, SECTION_PITCH))
    return [circle((0.0, 0.0), ROD, "outline"), Hatch(runs, "hatch")]


def _eye(points: tuple[Point, ...]) -> list[Shape]:
    """The wire of an eye, open where the right strand runs in front of it."""
    right = [p for p in points if p[0] > 0 and p[1] < 3.0]
    at = min(right, key=lambda p: _off_wire(p, OVER))
    lean = degrees(atan2(at[1] - OVER[1], at[0] - OVER[0]))
    found: list[Shape] = []
    for radius in (EYE, EYE - WIRE):
        spread = degrees(1.3 / radius)
        found.append(Arc(OVER, radius, radius, "outline", None, 0.0, lean + spread, 360 - 2 * spread))
    return found
