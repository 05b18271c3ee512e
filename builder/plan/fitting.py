"""How many pieces of stock a class needs, by how the pieces fit and not by their total length or area.

Rods and cords: first fit, longest first, each cut turning its kerf to dust. Sheets: guillotine cuts in
grids, largest kind first, what is left of one kind serving the next. Both are good ways to cut, not proven
the least; `at_least` is the bound that no way can beat.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

import msgspec

from builder.dryrun.cutting import cell_of, from_sheet, on_stock, ways_from_sheet, ways_round
from builder.guide.model import Thing

ZERO = Fraction(0)
MOST_STOCK = 20_000
"""Pieces of stock that a plan counts at most; beyond it the answer is None."""

Rect = tuple[Fraction, Fraction, str]
"""Along, across, and which way the grain runs on it: "along", "across", or "" if nothing is said."""


class Wanted(msgspec.Struct, frozen=True):
    """So many copies of a thing, cut with a tool that turns `kerf` mm of each cut to dust."""

    thing: Thing
    count: int
    kerf: Fraction = ZERO


class Fitted(msgspec.Struct, frozen=True):
    """So many pieces of stock hold what is wanted. `at_least`: no way of cutting needs fewer than this.
    `from_first` tells, by thing id, how many copies the first piece of stock gives."""

    pieces: int
    at_least: int
    from_first: tuple[tuple[str, int], ...]


def fit(stock: Thing, wanted: Sequence[Wanted]) -> Fitted | None:
    """How much stock is needed; None if a size is unknown or a piece is larger than the stock."""
    wanted = [each for each in wanted if each.count > 0]
    length, width = stock.mm("length"), stock.mm("width")
    if length is None or not wanted or sum(each.count for each in wanted) > MOST_STOCK:
        return None
    if stock.form == "sheet":
        return _sheets((length, width, on_stock(stock)), wanted) if width is not None else None
    return _sticks(length, wanted) if stock.form in ("strip", "cord", "rod", "tube") else None


def _sticks(stock: Fraction, wanted: Sequence[Wanted]) -> Fitted | None:
    lengths = []
    for each in wanted:
        length = each.thing.mm("length")
        if length is None or length > stock:
            return None
        lengths += [(length, each.kerf, each.thing.id)] * each.count
    lengths.sort(key=lambda piece: -piece[0])
    left: list[Fraction] = []
    first: dict[str, int] = {}
    for length, kerf, name in lengths:
        number = next((i for i, room in enumerate(left) if length <= room), len(left))
        if number == len(left):
            left.append(stock)
        left[number] = max(left[number] - length - kerf, ZERO)
        if number == 0:
            first[name] = first.get(name, 0) + 1
    total = sum((length for length, _, _ in lengths), ZERO)
    return Fitted(len(left), -(-total // stock), tuple(first.items()))


def _sheets(stock: Rect, wanted: Sequence[Wanted]) -> Fitted | None:
    sized = []
    for each in wanted:
        cell = cell_of(each.thing)
        if cell is None or not capacity(stock, each, each.count):
            return None
        sized.append((cell[0] * cell[1], each))
    sized.sort(key=lambda pair: -pair[0])
    free: list[tuple[Rect, int]] = []  # a rectangle that is left, and the sheet that it is on
    sheets = 0
    first: dict[str, int] = {}
    for _, each in sized:
        left = each.count
        while left > 0:
            spot = next(
                ((i, n) for i, (rect, _) in enumerate(free) if (n := capacity(rect, each, left))), None
            )
            if spot is None:
                free.append((stock, sheets))
                sheets += 1
                continue
            index, number = spot
            rect, sheet = free.pop(index)
            left -= number
            if sheet == 0:
                first[each.thing.id] = first.get(each.thing.id, 0) + number
            offcuts = _best(rect, each, number)
            free += [(offcut, sheet) for offcut in offcuts]
            # the tightest place first, so that whole offcuts stay for what is larger
            free.sort(key=lambda pair: (pair[1], pair[0][0] * pair[0][1], pair[0]))
    area = sum((_area(each.thing, box) * each.count for box, each in sized), ZERO)
    return Fitted(sheets, -(-area // (stock[0] * stock[1])), tuple(first.items()))


def _area(thing: Thing, box: Fraction) -> Fraction:
    """An area that a piece surely takes: its box, or for what is no rectangle no more than half of it."""
    shaped = thing.form in ("ring", "disc", "regular polygon") or (
        thing.outline is not None and thing.outline.shape != "rectangle"
    )
    return box / 2 if shaped else box


def capacity(rect: Rect, wanted: Wanted, most: int) -> int:
    """How many copies come out of a rectangle in one grid, at most `most`."""
    cell = cell_of(wanted.thing)
    if cell is None:
        return 0
    along, across, pair = cell
    kerf = wanted.kerf
    found = 0
    for turned in ways_round(wanted.thing, rect[2]):
        found = max(found, _grid(rect, (along, across), turned, kerf))
        if pair is not None:
            found = max(found, 2 * _grid(rect, (pair, across), turned, kerf))
    found = min(found, most)
    while found < most:
        more = from_sheet(rect[0], rect[1], wanted.thing, found + 1, kerf, rect[2])
        if next(iter(more), None) is None:
            break
        found += 1
    return found


def _grid(rect: Rect, cell: tuple[Fraction, Fraction], turned: bool, kerf: Fraction) -> int:
    a, b = cell[::-1] if turned else cell
    if a <= 0 or b <= 0:
        return 0
    return int((rect[0] + kerf) // (a + kerf)) * int((rect[1] + kerf) // (b + kerf))


def _best(rect: Rect, wanted: Wanted, number: int) -> list[Rect]:
    """The remainders of the way of cutting that leaves the largest piece whole."""
    ways = ways_from_sheet(rect[0], rect[1], wanted.thing, number, wanted.kerf, rect[2])
    best = max(
        ways,
        key=lambda way: (max((a * (b or ZERO) for a, b in way.left), default=ZERO), way.left),
        default=None,
    )
    if best is None:
        return []
    offcuts = zip(best.left, best.grains, strict=True)
    return [(a, b, grain) for (a, b), grain in offcuts if b is not None]
