"""Pieces laid on their stock: lowest and leftmost free corner first, largest piece first.

It finds one way to cut that works, not the best; two copies of a skew piece lie head to tail where that
saves room.  Everything is in mm of the stock, y up.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from builder.drawings.geometry import turned_half
from builder.drawings.shapes import Box, Point, Shape


class Piece(NamedTuple):
    """A piece to cut: its outline in its own frame, mm, its lower left corner at the origin.

    `size_text` is its size in words; copies share `name` and carry their own `id`.
    """

    id: str
    name: str
    outline: tuple[Point, ...]
    size_text: tuple[str, str] = ("", "")
    inner: tuple[Shape, ...] = ()
    """What else is cut in a round piece (a bore, slots): shapes about its middle, y down, mm."""
    grain: str = ""
    """Which way its grain has to run in its own frame: "x", "y", or "" if it is no matter."""

    @property
    def width(self) -> float:
        return max(p[0] for p in self.outline)

    @property
    def height(self) -> float:
        return max(p[1] for p in self.outline)


class Left(NamedTuple):
    """What remains of the stock: two sides (`height` 0 for a cord), its size in words, its grain."""

    width: float
    height: float
    text: str
    grain: str = ""


class Lay(NamedTuple):
    """Where something lies on the stock: lower left corner, the outline there, and its grain there."""

    box: Box
    outlines: tuple[tuple[Point, ...], ...]
    ids: tuple[str, ...]
    grain: str = ""


def rectangle_piece(id: str, name: str, width: float, height: float, size: tuple[str, str]) -> Piece:
    """A rectangular piece; of a cord or a rod with height 0 the flat lay draws a stretch."""
    return Piece(id, name, ((0, 0), (width, 0), (width, height), (0, height)), size)


def placed(
    width: float,
    height: float,
    pieces: list[Piece],
    left: tuple[Left, ...],
    line: bool,
    grain: str = "",
) -> tuple[list[Lay], list[tuple[Left, Box]]]:
    """Lay every piece (pairs of skew ones head to tail) and then the remainders, grain along `grain`."""
    units = _pairs(pieces)
    taken: list[Box] = []
    lays: list[Lay] = []
    beside_it = width * 1.04
    for unit in sorted(units, key=lambda u: -round(u.box.width * u.box.height, 3)):
        spot = _spot(unit.box.width, unit.box.height, width, height, taken, quarters(unit.grain, grain))
        if spot is None:
            # no room: beside the stock, so that the fault is plain to see
            spot = (beside_it, 0.0, quarters(unit.grain, grain)[0])
            beside_it += (unit.box.height if spot[2] else unit.box.width) * 1.1
        x, y, quarter = spot
        turned = _quarter(unit) if quarter else unit
        box = Box(x, y, x + turned.box.width, y + turned.box.height)
        taken.append(box)
        outlines = tuple(tuple((px + x, py + y) for px, py in o) for o in turned.outlines)
        lays.append(Lay(box, outlines, unit.ids, turned.grain))
    spare: list[tuple[Left, Box]] = []
    for rest in left:
        w, h = rest.width, height if line else rest.height
        found = _spot(w, h, width, height, taken, quarters(rest.grain, grain))
        if found is not None:
            x, y, quarter = found
            box = Box(x, y, x + (h if quarter else w), y + (w if quarter else h))
            taken.append(box)
            spare.append((rest, box))
    return lays, spare


def _pairs(pieces: Iterable[Piece]) -> list[Lay]:
    """Pieces as rectangles; two copies of a skew one lie head to tail where that saves room."""
    waiting: dict[tuple[Point, ...], Piece] = {}
    found: list[Lay] = []
    for piece in pieces:
        mate = waiting.pop(piece.outline, None)
        if mate is None:
            waiting[piece.outline] = piece
            continue
        single = piece.width
        half = turned_half(piece.outline, single, piece.height)
        # the turned one lies to the right of the first or to its left, whichever takes less
        right, left = _clear(piece.outline, half, piece.height), _clear(half, piece.outline, piece.height)
        shift = min(right, left)
        if shift + single >= 2 * single - 1e-6:
            found += [_alone(mate), _alone(piece)]
            continue
        one, other = (mate.outline, half) if right <= left else (half, mate.outline)
        moved = tuple((x + shift, y) for x, y in other)
        box = Box(0, 0, shift + single, piece.height)
        found.append(Lay(box, (one, moved), (mate.id, piece.id), piece.grain))
    return found + [_alone(p) for p in waiting.values()]


def _alone(p: Piece) -> Lay:
    return Lay(Box(0, 0, p.width, p.height), (p.outline,), (p.id,), p.grain)


def _clear(first: tuple[Point, ...], second: tuple[Point, ...], height: float) -> float:
    """How far right a second outline must lie to clear the first: widths at 40 heights."""
    shift = 0.0
    for i in range(41):
        y = height * min(max(i / 40, 1e-6), 1 - 1e-6)
        right = extent(first, y)
        left = extent(second, y)
        if right and left:
            shift = max(shift, right[1] - left[0])
    return shift


def extent(polygon: tuple[Point, ...], y: float) -> tuple[float, float] | None:
    xs: list[float] = []
    x0, y0 = polygon[-1]
    for x1, y1 in polygon:
        if (y0 > y) != (y1 > y):
            xs.append(x0 + (x1 - x0) * (y - y0) / (y1 - y0))
        x0, y0 = x1, y1
    return (min(xs), max(xs)) if xs else None


def _quarter(unit: Lay) -> Lay:
    high = unit.box.height
    return Lay(
        Box(0, 0, high, unit.box.width),
        tuple(tuple((high - y, x) for x, y in o) for o in unit.outlines),
        unit.ids,
        {"x": "y", "y": "x"}.get(unit.grain, ""),
    )


def quarters(own: str, stock: str) -> tuple[bool, ...]:
    """Whether what has a grain lies on its stock as it is (False), turned by a quarter (True), or either."""
    return (False, True) if not own or not stock else (own != stock,)


def _spot(
    w: float, h: float, width: float, height: float, taken: list[Box], turns: tuple[bool, ...]
) -> tuple[float, float, bool] | None:
    """Lowest, leftmost free corner for a rectangle, upright or turned; None if there is no room."""
    slack = 1e-6
    xs = sorted({0.0, *(b.right for b in taken)})
    ys = sorted({0.0, *(b.bottom for b in taken)})
    for quarter in turns:
        a, b = (h, w) if quarter else (w, h)
        for y in ys:
            for x in xs:
                box = Box(x + slack, y + slack, x + a - slack, y + b - slack)
                if x + a <= width + 0.02 and y + b <= height + 0.02 and not any(box.meets(t) for t in taken):
                    return x, y, quarter
    return None
