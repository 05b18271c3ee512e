"""Find one quantity at a place in a text: a number with its unit, or several (`1 ft 2 in`)."""

from __future__ import annotations

import re
from fractions import Fraction
from math import gcd

from builder.quantities.exact import Exact
from builder.quantities.units import BY_WORD, INCH_UNITS, Dimension, Unit, find_unit, near_unit
from builder.quantities.values import Quantity, Refusal, a_dimension

MOST_DIGITS = 18  # of one number; more is a slip of the keyboard

# Single characters that stand for a fraction: (top, bottom).
_NAMES = "¼½¾⅓⅔⅙⅚⅛⅜⅝⅞⅕⅖⅗⅘"
_TOPS, _BOTTOMS = (1, 1, 3, 1, 2, 1, 5, 1, 3, 5, 7, 1, 2, 3, 4), (4, 2, 4, 3, 3, 6, 6, 8, 8, 8, 8, 5, 5, 5, 5)
VULGAR = dict(zip(_NAMES, zip(_TOPS, _BOTTOMS, strict=True), strict=True))

# Digits, then decimals, or a fraction (gap, top, bottom: the digits are its top if there is no gap),
# or a vulgar fraction; then a unit: a sign or a run of words. The signs stand in small sets: one set of many
# stretches beyond the first 256 characters would take longer to compile than all the rest.
_PIECE = re.compile(
    r"([0-9]*)(?:(\.[0-9]*)|(?:(\s+|-)([0-9]+))?[/⁄]([0-9]+)|[-\s]?([¼-¾⅓-⅞]))?"
    r"(?:\s*([%°\"]|[”′″]|’|''?|[^\W\d_]+[23²³]?\.?(?:\s+[^\W\d_]+[23²³]?\.?)*))?"
)

EXAMPLES = {
    Dimension.NUMBER: "a plain number, such as 4",
    Dimension.COUNT: "a whole number, such as 4, or 4 pieces",
    Dimension.LENGTH: "a length with its unit, such as 12 1/2 in or 318 mm",
    Dimension.AREA: "an area with its unit, such as 12 sq in",
    Dimension.VOLUME: "a volume with its unit, such as 12 mL",
    Dimension.MASS: "a mass with its unit, such as 1 1/2 oz or 40 g",
    Dimension.TIME: "a time with its unit, such as 30 min or 1 h 30 min",
    Dimension.ANGLE: "an angle with its unit, such as 45 deg",
    Dimension.MONEY: "a sum of money with its code, such as 21.00 USD",
}


def scan(text: str, start: int, end: int) -> tuple[Quantity, int] | Refusal | None:
    """Read the quantity that begins at `start`, without a sign.

    Returns the quantity and the offset behind it; a Refusal if it is badly written; None if no
    number stands there.  A number without a unit is a NUMBER.
    """
    match = _PIECE.match(text, start, end)
    if match is None:
        return None
    digits, decimals, gap, top, bottom, vulgar, word = match.groups()
    if not (digits or vulgar or (decimals and len(decimals) > 1)):
        return None
    unit: Unit | None = None
    if word is not None:
        unit = BY_WORD.get(word) or find_unit(word)
        if unit is None:
            return _unknown_unit(word, match.start(7))
    if len(digits) + len(decimals or "") > MOST_DIGITS or len(top or "") + len(bottom or "") > MOST_DIGITS:
        return _too_long(start, (match.start(7) if word is not None else match.end()) - start)
    if bottom is not None:
        whole, over, under = (int(digits), int(top), int(bottom)) if gap else (0, int(digits), int(bottom))
        proper = over < under and (unit is None or gcd(over, under) == 1)
        if not under or not (proper or (unit is None and not gap)):
            return _bad_fraction(whole if gap else None, over, under, unit, start, match.end(5) - start)
        written = f"{whole} {over}/{under}" if gap else f"{over}/{under}"
        if gap == "-" and unit is None:
            return Refusal(
                f"{whole}-{over}/{under} may be {written} or a subtraction",
                f"Write {written}, or {whole} - {over}/{under} with spaces.",
                start,
                match.end(5) - start,
            )
        value = Fraction(whole * under + over, under)
    elif vulgar is not None:
        over, under = VULGAR[vulgar]
        value = Fraction(int(digits or 0) * under + over, under)
        written = f"{int(digits)} {over}/{under}" if digits else f"{over}/{under}"
    elif decimals is not None and len(decimals) > 1:
        value = Fraction(int(digits + decimals[1:]), 10 ** (len(decimals) - 1))
        written = f"{int(digits or 0)}{decimals}"
    else:
        value = Fraction(int(digits))
        written = str(int(digits))
    if unit is None:
        return Quantity(Exact.of(value), Dimension.NUMBER, "", written), match.end()
    if unit.dimension is Dimension.NUMBER:
        return Quantity(Exact.of(value * unit.factor), Dimension.NUMBER, "%", f"{written} %"), match.end()
    amount = value if unit.factor == 1 else value * unit.factor
    written = with_unit(written, unit.symbol, 0 < value <= 1)
    if unit.dimension in _COMPOUND and match.end() < end:
        return _further(text, match.end(), end, unit, unit.symbol, amount, written)
    return Quantity(Exact.of(amount), unit.dimension, unit.symbol, written), match.end()


# Dimensions of which one value may be written in several units, largest first.
_COMPOUND = (Dimension.LENGTH, Dimension.TIME, Dimension.MASS)


def _further(
    text: str, at: int, end: int, unit: Unit, symbol: str, amount: Fraction, written: str
) -> tuple[Quantity, int] | Refusal:
    """Read the smaller units behind a first one: the `2 in` of `1 ft 2 in`."""
    while at < end:
        begin = at
        while begin < end and text[begin].isspace():
            begin += 1
        found = scan(text, begin, end) if begin < end and text[begin] not in "-+" else None
        if found is None:
            break
        if isinstance(found, Refusal):
            return found
        part, stop = found
        next_unit = BY_WORD.get(part.unit)
        if next_unit is None or next_unit.dimension is not unit.dimension:
            return Refusal(
                f'"{text[begin:stop].strip()}" cannot follow {written}',
                f"Write one value, such as {_compound_example(unit)}.",
                begin,
                stop - begin,
            )
        if next_unit.factor >= unit.factor or (next_unit.symbol in INCH_UNITS) != (unit.symbol in INCH_UNITS):
            return Refusal(
                f"{part.written} cannot follow {written} in one value",
                f"Write the larger unit first, as in {_compound_example(unit)}, or add them with +.",
                begin,
                stop - begin,
            )
        return (
            Quantity(part.amount + amount, unit.dimension, part.unit, f"{written} {part.written}"),
            stop,
        )
    return Quantity(Exact.of(amount), unit.dimension, symbol, written), at


def _compound_example(unit: Unit) -> str:
    return {Dimension.LENGTH: "1 ft 2 in", Dimension.TIME: "1 h 30 min"}.get(unit.dimension, "1 lb 4 oz")


def with_unit(number: str, symbol: str, one: bool) -> str:
    """Join a printed number and a unit: `12 in`, `45°`, `1/2 cup`, `3 pieces`."""
    if symbol == "deg":
        return f"{number}°"
    if not one and symbol in _PLURAL:
        return f"{number} {symbol}s"
    return f"{number} {symbol}"


_PLURAL = frozenset({"piece", "day", "week", "cup", "pint", "quart", "gallon", "mil"})


def _too_long(start: int, length: int) -> Refusal:
    return Refusal(
        f"this number has more than {MOST_DIGITS} digits",
        "Write no more digits than can be measured.",
        start,
        length,
    )


def _bad_fraction(
    whole: int | None, over: int, under: int, unit: Unit | None, start: int, length: int
) -> Refusal:
    """Say what is wrong with a fraction and how it is written."""
    tail = f" {unit.symbol}" if unit else ""
    shown = f"{over}/{under}{tail}" if whole is None else f"{whole} {over}/{under}{tail}"
    if not under:
        hint = "Write a number other than 0 below the line."
        return Refusal(f"{shown} divides by zero", hint, start, length)
    value = Fraction((whole or 0) * under + over, under)
    count, rest = divmod(value.numerator, value.denominator)
    reduced = f"{count}" if not rest else f"{count or ''} {rest}/{value.denominator}".strip()
    if over < under:
        return Refusal(f"{shown} is not reduced", f"Write {reduced}{tail}.", start, length)
    first, last = divmod(over, 10 ** len(str(under)))  # 31/4 is 3 and 1/4, 113/16 is 1 and 13/16
    if whole is None and first and 0 < last < under:
        return Refusal(
            f"{shown} is more than a whole: a space may be missing",
            f"Write {first} {last}/{under}{tail} if that is meant, or {reduced}{tail}.",
            start,
            length,
        )
    return Refusal(
        f"{shown} holds a fraction that is a whole or more", f"Write {reduced}{tail}.", start, length
    )


def _unknown_unit(word: str, start: int) -> Refusal:
    near = near_unit(word)
    known = "Units are in, ft, mm, cm, m, mL, fl oz, g, oz, min, h, deg and more."
    hint = f'Did you mean "{near}"?' if near else known
    return Refusal(f'"{word}" is not a unit that is known here', hint, start, len(word))


def wrong_dimension(q: Quantity, expect: Dimension, start: int, length: int) -> Refusal:
    """The refusal of a quantity that is not what belongs here."""
    if q.dimension is Dimension.NUMBER and q.unit != "%":
        what = q.written or "this number"
        if expect in _SUGGESTED and q.written:
            hint = f"Write {_SUGGESTED[expect].format(q.written)}."
        else:
            hint = f"Write {EXAMPLES[expect]}."
        return Refusal(f"{what} has no unit", hint, start, length)
    what = q.written or "this"
    kind = "a percentage" if q.unit == "%" else a_dimension(q.dimension)
    return Refusal(
        f"{what} is {kind}, but {a_dimension(expect)} belongs here",
        f"Write {EXAMPLES[expect]}.",
        start,
        length,
    )


_SUGGESTED = {
    Dimension.LENGTH: "{0} in or {0} mm",
    Dimension.TIME: "{0} min or {0} h",
    Dimension.ANGLE: "{0} deg",
    Dimension.MASS: "{0} g or {0} oz",
    Dimension.VOLUME: "{0} mL or {0} fl oz",
    Dimension.MONEY: "{0} USD, with the code of your money",
    Dimension.AREA: "{0} sq in or {0} cm2",
}


def diagnose(text: str, start: int, expect: Dimension | None) -> Refusal:
    """Say what is wrong with a text from `start` on, when no quantity could be read to its end."""
    rest = text[start:]
    example = EXAMPLES[expect] if expect else "a quantity, such as 12 1/2 in, 30 min or 45 deg"
    if not rest.strip():
        return Refusal("nothing is written here", f"Write {example}.", start, len(rest))
    for pattern, message, hint in _SLIPS:
        match = re.search(pattern, text)
        if match:
            found = match.groups()
            return Refusal(message.format(*found), hint.format(*found), match.start(), len(match[0]))
    word = rest.strip()
    shown = word if len(word) <= 40 else f"{word[:40]} ..."
    at = start + len(rest) - len(rest.lstrip())
    return Refusal(f'"{shown}" cannot be read here', f"Write {example}.", at, len(word))


_SLIPS = (
    (
        r"([0-9]+):([0-9]+)(?::[0-9]+)?",
        "{0}:{1} may be hours or minutes",
        "Write {0} h {1} min, or {0} min {1} s.",
    ),
    (
        r"([0-9]+),([0-9]+)",
        "a comma stands in the number {0},{1}",
        "Write {0}.{1} (or {0}{1}, without a comma).",
    ),
    (
        r"[$€£¥]\s*([0-9.]*)",
        "a sign of money can mean several currencies",
        "Write a code behind the amount: {0} USD.",
    ),
    (
        r"±|\+/-|\+-",
        "a tolerance does not belong here",
        "Write the value alone.",
    ),
    (
        r"(?<=[0-9a-z\"°%¼½¾])\s*(?:-|–|—|\bto\b)\s*(?=[0-9.¼½¾])",
        "this is a range, but one value belongs here",
        "Write one value.",
    ),
    (
        r"(?<=[0-9a-z\"¼½¾])\s*(?:x|×|\bby\b)\s*(?=[0-9.¼½¾])",
        "this is a size, but one value belongs here",
        "Write one value.",
    ),
)
