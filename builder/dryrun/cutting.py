"""Cutting pieces out of one piece of stock: does it fit, and what is left. Guillotine cuts, exact.

Flat pieces stand in a grid of equal cells; fins lie in pairs, head to tail along their steeper edge, so
that a pair takes root + tip and what the other edge leans by. All remainders that the cuts can leave are
given, since a writer may cut either way first. Where stock and piece have a grain, only the ways that lay
one along the other are given.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from functools import lru_cache
from typing import NamedTuple

from builder.guide.axes import LENGTH, WIDTH, grain_of
from builder.guide.model import Thing
from builder.quantities.trig import cosine

Size = tuple[Fraction, Fraction | None]
Left = tuple[Size, ...]
Cell = tuple[Fraction, Fraction, Fraction | None]
ZERO = Fraction(0)
ALONG, ACROSS = "along", "across"
_TURNED = {ALONG: ACROSS, ACROSS: ALONG, "": ""}


class Way(NamedTuple):
    """What one way of cutting leaves: offcuts, largest first, and which way the grain of each runs."""

    left: Left
    grains: tuple[str, ...]


def on_stock(material: Thing) -> str:
    """Which way the grain runs on a fresh piece of a material: along, across, or "" if it is not said."""
    return {LENGTH: ALONG, WIDTH: ACROSS}.get(grain_of(material), "")


def ways_round(thing: Thing, grain: str) -> tuple[bool, ...]:
    """How a piece may lie on stock whose grain runs so: as it is (False), turned by a quarter (True)."""
    own = grain_of(thing)
    if not own or not grain:
        return (False, True)
    return ((own == LENGTH) != (grain == ALONG),)


def cell_of(thing: Thing) -> tuple[Fraction, Fraction, Fraction | None] | None:
    """(along, across, along of a nested pair or None) of the box that a flat piece is cut from."""
    outline = thing.outline
    if outline is not None and outline.shape == "fin":
        root, tip, span = thing.mm("root"), thing.mm("tip"), thing.mm("span")
        if root is None or tip is None or span is None:
            return None
        sweep = thing.mm("sweep") or ZERO
        reach = max(root, sweep + tip)
        lean = min(sweep, root - tip - sweep)  # of the edge that is not shared; 0 for a fin square at one end
        return reach, span, root + tip + lean if sweep + tip <= root else None
    if thing.form in ("ring", "disc"):
        size = thing.mm("outside") or thing.mm("diameter")
        return (size, size, None) if size is not None else None
    if thing.form == "regular polygon":
        flats, sides = thing.mm("across_flats"), thing.mm("sides")
        if flats is None or sides is None:
            return None
        box = flats if sides % 4 == 0 else flats / cosine(Fraction(180) / sides)
        return box, box, None
    along, across = thing.mm("length"), thing.mm("width")
    return (along, across, None) if along is not None and across is not None else None


def from_length(stock: Fraction, length: Fraction, count: int, kerf: Fraction) -> Fraction | None:
    """What is left of a rod or a cord after `count` pieces; None if they do not fit.

    Every cut turns `kerf` to dust; the last needs none if it comes out at the end.
    """
    used = count * length + (count - 1) * kerf
    if used > stock:
        return None
    return max(stock - used - kerf, ZERO)


def from_sheet(
    along: Fraction, across: Fraction, thing: Thing, count: int, kerf: Fraction, grain: str = ""
) -> tuple[Left, ...]:
    """Every remainder (offcuts, largest first) that cutting `count` pieces out of a sheet can leave."""
    ways = ways_from_sheet(along, across, thing, count, kerf, grain)
    return tuple(dict.fromkeys(way.left for way in ways))


def ways_from_sheet(
    along: Fraction, across: Fraction, thing: Thing, count: int, kerf: Fraction, grain: str
) -> tuple[Way, ...]:
    """The same with the grain of each offcut; `grain` is how it runs on the sheet, "" to cut either way."""
    cell = cell_of(thing)
    if cell is None:
        return ()
    return _remainders(along, across, cell, count, kerf, grain, ways_round(thing, grain))


@lru_cache(maxsize=512)
def _remainders(
    along: Fraction,
    across: Fraction,
    cell: Cell,
    count: int,
    kerf: Fraction,
    grain: str,
    turns: tuple[bool, ...],
) -> tuple[Way, ...]:
    seen: dict[Way, None] = {}
    for left in _grids(along, across, cell, count, kerf, turns):
        longest_first = (
            ((a, b), grain) if a >= b else ((b, a), _TURNED[grain]) for a, b in left if a > 0 and b > 0
        )
        ordered = sorted(longest_first, reverse=True)
        seen[Way(tuple(size for size, _ in ordered), tuple(runs for _, runs in ordered))] = None
    return tuple(seen)


Rect = tuple[Fraction, Fraction]


def _grids(
    w: Fraction, h: Fraction, cell: Cell, count: int, kerf: Fraction, turns: tuple[bool, ...]
) -> Iterator[list[Rect]]:
    """The remainders of every grid. A grid is filled row by row; where a piece may lie one way only, it is
    filled column by column too, which for the others is a grid of turned pieces seen from the side."""
    for turned in turns:
        yield from _grid(w, h, cell, count, kerf, turned)
        if len(turns) == 1:
            for left in _grid(h, w, cell, count, kerf, not turned):
                yield [(b, a) for a, b in left]


def _grid(
    w: Fraction, h: Fraction, cell: Cell, count: int, kerf: Fraction, turned: bool
) -> Iterator[list[Rect]]:
    along, across, pair = cell
    a, b = (across, along) if turned else (along, across)
    if pair is not None and count > 1:
        pair_a, pair_b = (across, pair) if turned else (pair, across)
        yield from _filled(w, h, pair_a, pair_b, count // 2, kerf, (a, b) if count % 2 else None)
    yield from _filled(w, h, a, b, count, kerf, None)


def _filled(
    w: Fraction, h: Fraction, a: Fraction, b: Fraction, count: int, kerf: Fraction, odd: Rect | None
) -> Iterator[list[Rect]]:
    """`count` cells of a x b in columns and rows, and one odd piece after them."""
    total = count + (1 if odd else 0)
    for columns in range(1, total + 1):
        rows = -(-total // columns)
        if columns * a + (columns - 1) * kerf > w:
            break
        if rows * b + (rows - 1) * kerf > h:
            continue
        used_w = columns * a + (columns - 1) * kerf
        used_h = rows * b + (rows - 1) * kerf
        inside: list[Rect] = []
        in_last = total - (rows - 1) * columns
        if odd is not None:
            inside.append((a - odd[0] - kerf, b))
        if in_last < columns:
            inside.append(((columns - in_last) * (a + kerf) - kerf, b))
        right, top = w - used_w - kerf, h - used_h - kerf
        yield [*inside, (right, h), (used_w, top)]
        yield [*inside, (right, used_h), (w, top)]
