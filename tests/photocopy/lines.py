"""What a copy kept of the lines of a drawing: hairlines that are lost, dashes that ran together."""

from __future__ import annotations

from math import ceil, hypot
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from builder.drawings.shapes import Arc, Drawing, Hatch, Point, Polyline, Shape
from builder.drawings.style import LINES
from tests.photocopy.copying import Copy

NEAR = 1
"""A line may lie so many dots beside where it was drawn."""

KEPT = 0.97
"""A line is lost if less than this share of it is black."""

FILLS, SOME = ("hatch", "new_hatch"), 0.8
"""Lines that only fill a face, and rows of dots: so much of one must be there."""

SHORTEST = 1.0
"""Lines shorter than this are not looked at, mm: of a dot or an arrow's edge nothing can be said."""


class Fault(NamedTuple):
    """A line that a copy spoiled: its class, what happened to it, how much of it is as it was, and where."""

    line: str
    what: str
    share: float
    at: Point


def faults(drawing: Drawing, first: Copy, copy: Copy) -> list[Fault]:
    """Every line that a copy lost, and every dashed one whose gaps it filled; `first` is what was copied."""
    found: list[Fault] = []
    for shape in drawing.shapes:
        look = LINES.get(shape.line)
        if look is None or not isinstance(shape, Polyline | Arc | Hatch):
            continue
        for a, points in runs(shape):
            # on the very line: what was black there and is not near it any more, what was white and is black
            before = black_at(first, points, near=0)
            lost = before & ~black_at(copy, points)
            share = 1 - lost.sum() / max(1, before.sum())
            if share < (KEPT if not look.dots and shape.line not in FILLS else SOME):
                found.append(Fault(shape.line, "lost", float(share), a))
            elif look.dash:
                gaps, left = gaps_in(black_at(first, points)), gaps_in(black_at(copy, points))
                if gaps >= 3 and left < 0.7 * gaps:
                    found.append(Fault(shape.line, "merged", left / gaps, a))
    return found


def gaps_in(black: NDArray[np.bool_]) -> int:
    """How many gaps a line has: from black to white and back to black."""
    return max(0, int((np.diff(black.astype(int)) == 1).sum()) - int(not black[0]))


def runs(shape: Shape) -> list[tuple[Point, NDArray[np.float64]]]:
    """The lines of a shape as points a tenth of a millimetre apart, with where each begins."""
    pieces: list[list[Point]]
    if isinstance(shape, Arc):
        n = max(8, ceil(abs(shape.sweep) / 360 * 7 * max(shape.rx, shape.ry) / 0.1))
        pieces = [[shape.at(i / n) for i in range(n + 1)]]
    elif isinstance(shape, Polyline):
        ring = (*shape.points, shape.points[0]) if shape.closed else shape.points
        pieces = [_fine(list(ring))]
    elif isinstance(shape, Hatch):
        pieces = [_fine([a, b]) for a, b in shape.runs]
    else:
        pieces = []
    found = []
    for piece in pieces:
        points = np.array(piece)
        if len(points) > 4 and np.hypot(*(points[1:] - points[:-1]).T).sum() >= SHORTEST:
            found.append((piece[0], points))
    return found


def _fine(points: list[Point]) -> list[Point]:
    found: list[Point] = []
    for (x0, y0), (x1, y1) in zip(points, points[1:], strict=False):
        n = max(1, ceil(hypot(x1 - x0, y1 - y0) / 0.1))
        found += [(x0 + (x1 - x0) * i / n, y0 + (y1 - y0) * i / n) for i in range(n)]
    return [*found, points[-1]]


def black_at(copy: Copy, points: NDArray[np.float64], near: int = NEAR) -> NDArray[np.bool_]:
    """Whether the copy is black at points of the drawing, or within so many dots."""
    high, wide = copy.black.shape
    xs = np.floor(points[:, 0] * copy.dots_per_mm).astype(int)
    ys = np.floor(points[:, 1] * copy.down_per_mm).astype(int)
    found = np.zeros(len(points), bool)
    for dx in range(-near, near + 1):
        for dy in range(-near, near + 1):
            found |= copy.black[np.clip(ys + dy, 0, high - 1), np.clip(xs + dx, 0, wide - 1)]
    return found
