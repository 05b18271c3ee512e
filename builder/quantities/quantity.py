"""Read what a guide's writer types as a quantity, a range, a window or a size.

No text raises: what cannot be read comes back as a Refusal that says what to type.
"""

from __future__ import annotations

import re
from fractions import Fraction
from functools import lru_cache

from builder.quantities.exact import ZERO
from builder.quantities.scan import VULGAR, diagnose, scan, wrong_dimension
from builder.quantities.units import Dimension
from builder.quantities.values import (
    DimensionError,
    Quantity,
    Range,
    Refusal,
    Size,
    Window,
    a_dimension,
    length,
    number,
)

__all__ = [
    "Dimension",
    "DimensionError",
    "Quantity",
    "Range",
    "Refusal",
    "Size",
    "Window",
    "a_dimension",
    "below_zero",
    "fitted",
    "length",
    "number",
    "read_quantity",
    "read_range",
    "read_size",
    "read_window",
]

LONGEST = 400  # characters of one quantity, range or sum
MINUS = "-−"
BARE = "0123456789" + "".join(VULGAR)  # what a number without a unit ends with


def read_quantity(
    text: str, expect: Dimension | None = None, *, negative: bool = False
) -> Quantity | Refusal:
    """Read one quantity: `12 1/2 in`, `12-1/2"`, `¾ in`, `1 ft 2 in`, `30 min`, `45°`, `21.00 USD`.

    `expect` is what belongs here; a bare number then needs a unit, unless a NUMBER or COUNT is
    expected.  An amount below zero is refused unless `negative` is set.
    """
    if len(text) > LONGEST:
        return too_long(len(text), LONGEST)
    return _read(text, expect, negative)


@lru_cache(maxsize=4096)
def _read(text: str, expect: Dimension | None, negative: bool) -> Quantity | Refusal:
    start = len(text) - len(text.lstrip())
    end = len(text.rstrip())
    minus = start < end and text[start] in MINUS
    at = start
    if minus or (start < end and text[start] == "+"):
        at = end - len(text[start + 1 : end].lstrip())
    found = scan(text, at, end)
    if found is None:
        return diagnose(text, start, expect)
    if isinstance(found, Refusal):
        return _better(text, found, expect)
    q, stop = found
    if stop < end:
        return diagnose(text, stop, expect)
    if minus:
        q = Quantity(-q.amount, q.dimension, q.unit, f"-{q.written}")
        if not negative and q.amount < 0:
            return below_zero(q, start, end - start) or q
    return fitted(q, expect, start, end - start)


def _better(text: str, refusal: Refusal, expect: Dimension | None) -> Refusal:
    """Prefer "this is a range" to "to is no unit" where that is what the writer did."""
    if "is not a unit" in refusal.message:
        other = diagnose(text, refusal.start, expect)
        if "cannot be read" not in other.message:
            return other
    return refusal


def fitted(q: Quantity, expect: Dimension | None, start: int, length: int) -> Quantity | Refusal:
    """Return the quantity as the expected dimension, or say why it is not one."""
    if expect is None or q.dimension is expect:
        if expect is Dimension.COUNT and q.base.denominator != 1:
            return _not_whole(q, start, length)
        return q
    if q.dimension is Dimension.NUMBER and expect is Dimension.COUNT and q.unit != "%":
        if q.base.denominator != 1:
            return _not_whole(q, start, length)
        return Quantity(q.amount, Dimension.COUNT, "piece", q.written)
    if q.dimension is Dimension.COUNT and expect is Dimension.NUMBER:
        return q
    return wrong_dimension(q, expect, start, length)


def _not_whole(q: Quantity, start: int, length: int) -> Refusal:
    shown = q.written or "this count"
    return Refusal(f"{shown} is not a whole number", "Write a whole number of pieces.", start, length)


def below_zero(q: Quantity, start: int = 0, length: int = 0) -> Refusal | None:
    """Refuse an amount below zero, for stock, sizes and times; None if it is not below."""
    if q.amount >= 0:
        return None
    shown = f"{q.written} is" if q.written else f"this {q.dimension.value} comes out"
    return Refusal(f"{shown} below zero", "Write an amount of zero or more.", start, length)


def too_long(given: int, limit: int) -> Refusal:
    return Refusal(
        f"this is {given} characters long; the limit is {limit}",
        "Give parts of it a name under dimensions.",
        limit,
        given - limit,
    )


def read_range(text: str, expect: Dimension | None = None, *, ordered: bool = True) -> Range | Refusal:
    """Read `20-30 min`, `20 to 30 min`, `20 min to 1 h`, `up to 1 h`, `from 48 h`, or a single value.

    A bare first number takes the unit of the second.  `up to` starts at zero; `from` has no upper
    end (`unbounded`).  With `ordered=False` the second value may be the smaller (a taper).
    """
    if len(text) > LONGEST:
        return too_long(len(text), LONGEST)
    begins = text.lstrip().startswith(("up to", "within", "from", "after"))
    opening = re.match(r"\s*(up to|within|from|after)\b\s*", text) if begins else None
    if opening:
        q = read_quantity(text[opening.end() :], expect)
        if isinstance(q, Refusal):
            return q.moved(opening.end())
        if opening[1] in ("up to", "within"):
            return Range(Quantity(ZERO, q.dimension, q.unit), q)
        return Range(q, q, unbounded=True)
    single = read_quantity(text, expect)
    if isinstance(single, Quantity):
        return Range(single, single)
    first: Refusal | None = None
    for split in re.finditer(r"\s+to\s+|\s*[-–—]\s*", text):
        if split.start() == 0:
            continue
        pair = _pair(text, split.start(), split.end(), expect)
        if not isinstance(pair, Refusal):
            low, high = pair
            if ordered and low > high:
                wrong = f"{low.written} is more than {high.written}"
                return Refusal(wrong, "Write the smaller value first.", 0, len(text))
            return Range(low, high)
        first = first or pair
    return first or single


def _pair(text: str, stop: int, start: int, expect: Dimension | None) -> tuple[Quantity, Quantity] | Refusal:
    """Read two quantities, of which the first may borrow the unit of the second."""
    right = read_quantity(text[start:], expect)
    if isinstance(right, Refusal):
        return right.moved(start)
    left_text = text[:stop]
    single = not any(c.isalpha() for c in right.written.rstrip("s").removesuffix(right.unit))
    lends = right.unit and single and left_text[-1:] in BARE
    left = read_quantity(f"{left_text} {right.unit}" if lends else left_text)
    if isinstance(left, Refusal) and left.start + left.length > stop:
        left = Refusal(left.message, left.hint, left.start, max(stop - left.start, 0))
    if isinstance(left, Quantity):
        left = fitted(left, expect, 0, stop)
    if isinstance(left, Refusal):
        return left
    if left.dimension is not right.dimension or (
        left.dimension is Dimension.MONEY and left.unit != right.unit
    ):
        return Refusal(
            f"{left.written} and {right.written} do not measure the same thing",
            "Write both in units of one kind.",
            0,
            len(text),
        )
    return left, right


def read_window(text: str) -> Window | Refusal:
    """Read when something is allowed, as a time since something else: `up to 1 h or from 48 h`.

    Pieces are joined by `or`; each is `up to T`, `from T` or `T to T`; `any time` allows all.
    """
    if len(text) > LONGEST:
        return too_long(len(text), LONGEST)
    if text.strip() in ("any time", "at any time"):
        return Window(((ZERO.rational, None),))
    pieces: list[tuple[Fraction, Fraction | None]] = []
    at = 0
    for piece in re.split(r"(\s+or\s+)", text) if "or" in text else (text,):
        begin, at = at, at + len(piece)
        if piece.strip() == "or" and piece != text:
            continue
        found = read_range(piece, Dimension.TIME)
        if isinstance(found, Refusal):
            return found.moved(begin)
        if found.low == found.high and not found.unbounded:
            return Refusal(
                f"{found.low.written} alone does not say whether it is the earliest or the latest",
                f"Write up to {found.low.written}, or from {found.low.written}.",
                begin,
                len(piece),
            )
        low, high = found.low.base, None if found.unbounded else found.high.base
        last = pieces[-1][1] if pieces else None
        if pieces and (last is None or low <= last):
            return Refusal(
                "the pieces of this window overlap or stand in the wrong order",
                "Write the earliest first, as in: up to 1 h or from 48 h.",
                begin,
                len(piece),
            )
        pieces.append((low, high))
    return Window(tuple(pieces))


def read_size(text: str) -> Size | Refusal:
    """Read two lengths: `14 in x 22 in`, `210 × 297 mm`, `3 in by 1 in`."""
    if len(text) > LONGEST:
        return too_long(len(text), LONGEST)
    split = re.search(r"\s*(?:[×xX]|\bby\b)\s*", text)
    if split is None or split.start() == 0:
        return Refusal("a size needs two lengths", "Write both with x between: 14 in x 22 in.", 0, len(text))
    pair = _pair(text, split.start(), split.end(), Dimension.LENGTH)
    return pair if isinstance(pair, Refusal) else Size(*pair)
