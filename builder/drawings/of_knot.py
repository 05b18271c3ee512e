"""Knots as schematics: the cord as one line, with a gap where it runs behind itself.

They show how the cord runs, not how large the knot is.
"""

from __future__ import annotations

from math import acos, degrees, hypot
from typing import NamedTuple

from builder.drawings.callouts import Callout, column
from builder.drawings.shapes import Arc, Drawing, Point, Polyline, Shape, finished

GAP = 1.6
"""Blank on both sides of a crossing on the strand that runs behind, mm on paper."""

EYE = 5.0
"""Outer radius of the eye as drawn, mm on paper; its wire is WIRE thick."""

WIRE = 1.4

SCALE = 6.0
"""Size of the knot, mm on paper for one unit of its curve."""

PIECES = 80
"""So many straight pieces make the curve."""


class Knot(NamedTuple):
    """The way of a cord as points, mm on paper, y down, from the eye's inside; and what it does, in words."""

    points: tuple[Point, ...]
    said: str


def overhand() -> Knot:
    """A cord through an eye, its two strands closed with an overhand knot.

    The curve x = t^3 - 3t, y = t^4 - 4t^2 is the projection of a long trefoil, which is the overhand knot
    (polynomial trefoil, from memory); its middle, t = 0, hangs in the eye.
    """
    points = []
    for i in range(PIECES + 1):
        t = -2.14 + 4.28 * i / PIECES
        points.append((SCALE * (t**3 - 3 * t), -SCALE * (t**4 - 4 * t**2)))
    return Knot(tuple(points), "It runs through the eye, crosses itself, and goes out through its own loop.")


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


def strands(points: tuple[Point, ...], eye: Point) -> list[tuple[Point, ...]]:
    """The way in pieces: over and under in turn, as every knot of three crossings runs, and behind the eye's
    wire on its left."""
    passed = sorted((piece, at) for i, j, at in crossings_of(points) for piece in (i, j))
    behind = [passed[k] for k in range(0, len(passed), 2)]
    pieces: list[tuple[Point, ...]] = []
    run: list[Point] = []
    for i, p in enumerate(points):
        here = [at for piece, at in behind if abs(i - piece) < PIECES / 13]
        near = any(hypot(p[0] - at[0], p[1] - at[1]) < GAP for at in here)
        off = hypot(p[0] - eye[0], p[1] - eye[1])
        wire = p[0] < eye[0] and EYE - WIRE - 0.7 < off < EYE + 0.7 and abs(i - PIECES / 2) < PIECES / 4
        if near or wire:
            if len(run) > 1:
                pieces.append(tuple(run))
            run = []
        else:
            run.append(p)
    if len(run) > 1:
        pieces.append(tuple(run))
    return pieces


def knot_drawing(name: str, cord: str, eye: str, title: str, *, item: str) -> Drawing | None:
    """How a cord is tied to something, enlarged; None for a knot that has no schematic.

    `item` is the cord's id on the bench.
    """
    make = KNOTS.get(name.strip().lower().removesuffix(" knot"))
    if make is None:
        return None
    knot = make()
    centre = (0.0, -EYE * 0.45)
    shapes: list[Shape] = [Polyline(piece, "new", item) for piece in strands(knot.points, centre)]
    # the wire of the eye is open where the right strand runs in front of it
    right = tuple(p for p in knot.points[PIECES // 4 : 3 * PIECES // 4] if p[0] > 0)
    at = min(right, key=lambda p: abs(hypot(p[0] - centre[0], p[1] - centre[1]) - EYE + WIRE / 2))
    lean = degrees(acos((at[0] - centre[0]) / hypot(at[0] - centre[0], at[1] - centre[1])))
    for radius in (EYE, EYE - WIRE):
        spread = degrees(1.3 / radius)
        shapes.append(Arc(centre, radius, radius, "outline", None, 0.0, lean + spread, 360 - 2 * spread))
    callouts = [
        Callout(eye, "eye", ((centre[0] + EYE * 0.7, centre[1] - EYE * 0.7),)),
        Callout(f"{name} knot", item, (max(knot.points, key=lambda p: p[1] + p[0] * 0.4),)),
    ]
    reach = max(p[0] for p in knot.points)
    shapes += column(callouts, reach + 7).shapes
    said = f"Enlarged, not to scale: how the {cord} is tied to the {eye} with an {name} knot. {knot.said}"
    return finished(title, said, shapes)
