"""Every way that a guide may write a quantity, and every refusal with its advice."""

from __future__ import annotations

import unicodedata
from fractions import Fraction as F

import pytest

from builder.quantities.quantity import (
    Dimension,
    Quantity,
    Range,
    Refusal,
    Size,
    Window,
    below_zero,
    read_quantity,
    read_range,
    read_size,
    read_window,
)

INCH = F(254, 10)
HOUR = 3600

READ = [
    # text, amount in base units, dimension, unit, as written
    ("12 1/2 in", F(25, 2) * INCH, Dimension.LENGTH, "in", "12 1/2 in"),
    ('12-1/2"', F(25, 2) * INCH, Dimension.LENGTH, "in", "12 1/2 in"),
    ("12-1/2 inches", F(25, 2) * INCH, Dimension.LENGTH, "in", "12 1/2 in"),
    ("1/4 in", INCH / 4, Dimension.LENGTH, "in", "1/4 in"),
    ("1/4″", INCH / 4, Dimension.LENGTH, "in", "1/4 in"),
    ("1⁄4 in", INCH / 4, Dimension.LENGTH, "in", "1/4 in"),
    ("¾ in", INCH * 3 / 4, Dimension.LENGTH, "in", "3/4 in"),
    ("2 ¾ in", INCH * 11 / 4, Dimension.LENGTH, "in", "2 3/4 in"),
    ("2¾in", INCH * 11 / 4, Dimension.LENGTH, "in", "2 3/4 in"),
    ("2-¾ in", INCH * 11 / 4, Dimension.LENGTH, "in", "2 3/4 in"),
    ("1 ft 2 in", 14 * INCH, Dimension.LENGTH, "in", "1 ft 2 in"),
    ("1' 2\"", 14 * INCH, Dimension.LENGTH, "in", "1 ft 2 in"),
    ("1 ft 2 1/2 in", F(29, 2) * INCH, Dimension.LENGTH, "in", "1 ft 2 1/2 in"),
    ("11.5 in", F(23, 2) * INCH, Dimension.LENGTH, "in", "11.5 in"),
    ("0.010 in", INCH / 100, Dimension.LENGTH, "in", "0.010 in"),
    (".5 in", INCH / 2, Dimension.LENGTH, "in", "0.5 in"),
    ("11 ft", 132 * INCH, Dimension.LENGTH, "ft", "11 ft"),
    ("2 yd", 72 * INCH, Dimension.LENGTH, "yd", "2 yd"),
    ("5 mil", INCH / 200, Dimension.LENGTH, "mil", "5 mils"),
    ("318 mm", F(318), Dimension.LENGTH, "mm", "318 mm"),
    ("318mm", F(318), Dimension.LENGTH, "mm", "318 mm"),
    ("31.8 cm", F(318), Dimension.LENGTH, "cm", "31.8 cm"),
    ("0.5 m", F(500), Dimension.LENGTH, "m", "0.5 m"),
    ("1 m 20 cm", F(1200), Dimension.LENGTH, "cm", "1 m 20 cm"),
    ("0 in", F(0), Dimension.LENGTH, "in", "0 in"),
    ("  7 MM ", F(7), Dimension.LENGTH, "mm", "7 mm"),
    ("+7 mm", F(7), Dimension.LENGTH, "mm", "7 mm"),
    ("30 min", F(1800), Dimension.TIME, "min", "30 min"),
    ("1 h 30 min", F(5400), Dimension.TIME, "min", "1 h 30 min"),
    ("1 1/2 h", F(5400), Dimension.TIME, "h", "1 1/2 h"),
    ("45 s", F(45), Dimension.TIME, "s", "45 s"),
    ("24 hours", F(86400), Dimension.TIME, "h", "24 h"),
    ("2 days", F(172800), Dimension.TIME, "day", "2 days"),
    ("1 week", F(604800), Dimension.TIME, "week", "1 week"),
    ("1 week 2 days 3 h", F(604800 + 2 * 86400 + 3 * 3600), Dimension.TIME, "h", "1 week 2 days 3 h"),
    ("45 deg", F(45), Dimension.ANGLE, "deg", "45°"),
    ("45°", F(45), Dimension.ANGLE, "deg", "45°"),
    ("22.5 degrees", F(45, 2), Dimension.ANGLE, "deg", "22.5°"),
    ("12 mL", F(12), Dimension.VOLUME, "mL", "12 mL"),
    ("12 ml", F(12), Dimension.VOLUME, "mL", "12 mL"),
    ("1.5 L", F(1500), Dimension.VOLUME, "L", "1.5 L"),
    ("2 fl oz", F(473176473, 8000000), Dimension.VOLUME, "fl oz", "2 fl oz"),
    ("2 fl. oz.", F(473176473, 8000000), Dimension.VOLUME, "fl oz", "2 fl oz"),
    ("1/2 cup", F(473176473, 4000000), Dimension.VOLUME, "cup", "1/2 cup"),
    ("1 1/2 oz", F(45359237, 1600000) * 3 / 2, Dimension.MASS, "oz", "1 1/2 oz"),
    ("1 lb 4 oz", F(45359237, 1600000) * 20, Dimension.MASS, "oz", "1 lb 4 oz"),
    ("40 g", F(40), Dimension.MASS, "g", "40 g"),
    ("0 pieces", F(0), Dimension.COUNT, "piece", "0 pieces"),
    ("3 pieces", F(3), Dimension.COUNT, "piece", "3 pieces"),
    ("1 piece", F(1), Dimension.COUNT, "piece", "1 piece"),
    ("21.00 USD", F(21), Dimension.MONEY, "USD", "21.00 USD"),
    ("9.50 EUR", F(19, 2), Dimension.MONEY, "EUR", "9.50 EUR"),
    ("12 sq in", 12 * INCH**2, Dimension.AREA, "sq in", "12 sq in"),
    ("5 cm²", F(500), Dimension.AREA, "cm2", "5 cm2"),
    ("10 %", F(1, 10), Dimension.NUMBER, "%", "10 %"),
    ("10%", F(1, 10), Dimension.NUMBER, "%", "10 %"),
    ("4", F(4), Dimension.NUMBER, "", "4"),
    ("1 1/2", F(3, 2), Dimension.NUMBER, "", "1 1/2"),
    ("22/7", F(22, 7), Dimension.NUMBER, "", "22/7"),
]


@pytest.mark.parametrize(("text", "amount", "dimension", "unit", "written"), READ, ids=[r[0] for r in READ])
def test_a_quantity_is_read(text: str, amount: F, dimension: Dimension, unit: str, written: str) -> None:
    q = read_quantity(text)
    assert isinstance(q, Quantity), q
    assert (q.base, q.dimension, q.unit, q.written) == (amount, dimension, unit, written)


REFUSED = [
    # text, expected dimension, what is wrong, what to type, the piece of the text that is pointed at
    ("31/4 in", None, "31/4 in is more than a whole", "3 1/4 in if that is meant, or 7 3/4 in.", "31/4"),
    ("113/16 in", None, "more than a whole", "Write 1 13/16 in if that is meant, or 7 1/16 in.", "113/16"),
    ("5/4 in", None, "a whole or more", "Write 1 1/4 in.", "5/4"),
    ("1 5/4 in", None, "a whole or more", "Write 2 1/4 in.", "1 5/4"),
    ("4/4 in", None, "a whole or more", "Write 1 in.", "4/4"),
    ("2/4 in", None, "2/4 in is not reduced", "Write 1/2 in.", "2/4"),
    ("12 2/4 in", None, "12 2/4 in is not reduced", "Write 12 1/2 in.", "12 2/4"),
    ("0/4 in", None, "not reduced", "Write 0 in.", "0/4"),
    ("1/0 in", None, "1/0 in divides by zero", "other than 0", "1/0"),
    ("1/0", None, "1/0 divides by zero", "other than 0", "1/0"),
    ("1:30", Dimension.TIME, "1:30 may be hours or minutes", "Write 1 h 30 min, or 1 min 30 s.", "1:30"),
    ("1,5 mm", None, "a comma stands in the number 1,5", "Write 1.5", "1,5"),
    ("1,000 mm", None, "a comma stands", "1000, without a comma", "1,000"),
    ("12", Dimension.LENGTH, "12 has no unit", "Write 12 in or 12 mm.", "12"),
    ("30", Dimension.TIME, "30 has no unit", "Write 30 min or 30 h.", "30"),
    ("30 min", Dimension.LENGTH, "30 min is a time, but a length belongs here", "12 1/2 in", "30 min"),
    ("3 in", Dimension.TIME, "3 in is a length, but a time belongs here", "30 min", "3 in"),
    ("1 oz", Dimension.VOLUME, "1 oz is a mass, but a volume", "12 mL", "1 oz"),
    ("45 deg", Dimension.LENGTH, "45° is an angle, but a length", "318 mm", "45 deg"),
    ("10 %", Dimension.LENGTH, "10 % is a percentage, but a length", "318 mm", "10 %"),
    ("4 mm", Dimension.COUNT, "4 mm is a length, but a count", "4 pieces", "4 mm"),
    ("2 1/2", Dimension.COUNT, "2 1/2 is not a whole number", "whole number", "2 1/2"),
    ("2.5 pieces", Dimension.COUNT, "2.5 pieces is not a whole number", "whole number", "2.5 pieces"),
    ("-3 in", None, "-3 in is below zero", "zero or more", "-3 in"),
    ("−3 in", None, "-3 in is below zero", "zero or more", "−3 in"),
    ("3 inchs", None, '"inchs" is not a unit', 'Did you mean "inches"?', "inchs"),
    ("3 mn", None, '"mn" is not a unit', 'Did you mean "min"?', "mn"),
    ("3 zork", None, '"zork" is not a unit', "Units are in, ft, mm", "zork"),
    ("21 usd", None, '"usd" is not a unit', 'Did you mean "USD"?', "usd"),
    ("21 XYZ", None, '"XYZ" is not a unit', "Units are", "XYZ"),
    ("$21", None, "several currencies", "21 USD", "$21"),
    ("2 in 3 mm", None, "3 mm cannot follow 2 in", "add them with +", "3 mm"),
    ("2 in 1 ft", None, "1 ft cannot follow 2 in", "larger unit first", "1 ft"),
    ("2 in 3 in", None, "3 in cannot follow 2 in", "larger unit first", "3 in"),
    ("1 ft 20 min", None, "20 min\" cannot follow 1 ft", "1 ft 2 in", "20 min"),
    ("1 h 30", None, '"30" cannot follow 1 h', "1 h 30 min", "30"),
    ("20-30 min", None, "this is a range", "one value", "-"),
    ("20 to 30 min", None, "this is a range", "one value", " to "),
    ("14 in x 22 in", None, "this is a size", "one value", " x "),
    ("1/2 in ± 1/32 in", None, "a tolerance does not belong", "value alone", "±"),
    ("8-1/2", None, "8-1/2 may be 8 1/2 or a subtraction", "Write 8 1/2", "8-1/2"),
    ("", Dimension.LENGTH, "nothing is written", "such as 12 1/2 in", ""),
    ("   ", None, "nothing is written", "such as", ""),
    ("in", None, '"in" cannot be read', "such as", "in"),
    ("a bit", Dimension.LENGTH, '"a bit" cannot be read', "a length with its unit", "a bit"),
    (".", None, "cannot be read", "such as", "."),
    ("/4 in", None, "cannot be read", "such as", "/4 in"),
    ("12 in of tape!", None, "not a unit", "", "in of tape"),
    ("1234567890123456789 mm", None, "more than 18 digits", "", "1234567890123456789 "),
    ("9" * 401, None, "401 characters long; the limit is 400", "", "9"),
]  # fmt: skip


@pytest.mark.parametrize(("text", "expect", "wrong", "hint", "at"), REFUSED, ids=[r[0][:30] for r in REFUSED])
def test_a_refusal_says_what_to_type(
    text: str, expect: Dimension | None, wrong: str, hint: str, at: str
) -> None:
    refusal = read_quantity(text, expect)
    assert isinstance(refusal, Refusal), refusal
    assert wrong in refusal.message
    assert hint in refusal.hint
    assert text[refusal.start : refusal.start + refusal.length].strip() == at.strip()


# The value of each character, by its name in Unicode (VULGAR FRACTION ONE QUARTER ...).
NUMERALS = {"ONE": 1, "TWO": 2, "THREE": 3, "FOUR": 4, "FIVE": 5, "SEVEN": 7}
PARTS = {"HALF": 2, "THIRD": 3, "QUARTER": 4, "FIFTH": 5, "SIXTH": 6, "EIGHTH": 8}


@pytest.mark.parametrize("character", "¼½¾⅓⅔⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞")
def test_fraction_characters(character: str) -> None:
    top, bottom = unicodedata.name(character).removeprefix("VULGAR FRACTION ").split()
    q = read_quantity(f"{character} mm")
    assert isinstance(q, Quantity)
    assert q.base == F(NUMERALS[top], PARTS[bottom.rstrip("S")])


def test_what_is_expected_is_taken_as_that() -> None:
    count = read_quantity("4", Dimension.COUNT)
    assert isinstance(count, Quantity)
    assert count.dimension is Dimension.COUNT
    number = read_quantity("4 pieces", Dimension.NUMBER)
    assert isinstance(number, Quantity)
    assert number.base == 4


def test_the_limit_of_length_is_not_one_too_small() -> None:
    assert isinstance(read_quantity("1 in" + " " * 396), Quantity)


def test_an_amount_below_zero_only_where_it_may_be() -> None:
    q = read_quantity("-1 1/2 in", negative=True)
    assert isinstance(q, Quantity)
    assert q.base == F(-3, 2) * INCH
    assert q.written == "-1 1/2 in"
    assert isinstance(below_zero(q), Refusal)
    assert below_zero(-q) is None


RANGES = [
    ("20-30 min", 1200, 1800, False),
    ("20–30 min", 1200, 1800, False),
    ("20 - 30 min", 1200, 1800, False),
    ("20 to 30 min", 1200, 1800, False),
    ("20 min to 1 h", 1200, 3600, False),
    ("1 h to 1 h 30 min", 3600, 5400, False),
    ("5 min", 300, 300, False),
    ("up to 1 h", 0, 3600, False),
    ("from 48 h", 48 * HOUR, 48 * HOUR, True),
    ("1/4-1/2 in", INCH / 4, INCH / 2, False),
    ("12-1/2 in", F(25, 2) * INCH, F(25, 2) * INCH, False),  # one length, as builders write it
    ("10-1/2-12 in", F(21, 2) * INCH, 12 * INCH, False),
    ("1-2 1/2 in", INCH, F(5, 2) * INCH, False),
    ("0 in to 1.33 in", 0, F(133, 100) * INCH, False),
    ("¼ to ½ in", INCH / 4, INCH / 2, False),
    ("5-10 %", F(1, 20), F(1, 10), False),
    ("12-15", 12, 15, False),
]


@pytest.mark.parametrize(("text", "low", "high", "unbounded"), RANGES, ids=[r[0] for r in RANGES])
def test_a_range_is_read(text: str, low: F, high: F, unbounded: bool) -> None:
    found = read_range(text)
    assert isinstance(found, Range), found
    assert (found.low.base, found.high.base, found.unbounded) == (low, high, unbounded)


@pytest.mark.parametrize(
    ("text", "expect", "wrong", "at"),
    [
        ("30-20 min", Dimension.TIME, "30 min is more than 20 min", "30-20 min"),
        ("20-30 mn", None, '"mn" is not a unit', "mn"),
        ("20-30", Dimension.TIME, "30 has no unit", "30"),
        ("20-30 in", Dimension.TIME, "30 in is a length", "30 in"),
        ("20 min to 3 in", None, "do not measure the same", "20 min to 3 in"),
        ("1-1 h 30 min", None, "do not measure the same", "1-1 h 30 min"),  # one hour or one minute?
        ("up to", Dimension.TIME, "nothing is written", ""),
        ("up to 31/4 in", None, "more than a whole", "31/4"),
        ("2/4 to 1 in", Dimension.LENGTH, "not reduced", "2/4"),
    ],
)
def test_a_range_is_refused(text: str, expect: Dimension | None, wrong: str, at: str) -> None:
    refusal = read_range(text, expect)
    assert isinstance(refusal, Refusal), refusal
    assert wrong in refusal.message
    assert text[refusal.start : refusal.start + refusal.length] == at


def test_a_taper_may_fall() -> None:
    taper = read_range("1.33 in to 0 in", Dimension.LENGTH, ordered=False)
    assert isinstance(taper, Range)
    assert taper.low > taper.high


def test_a_range_holds_its_ends() -> None:
    twenty, thirty, forty = (read_quantity(t) for t in ("20 min", "30 min", "40 min"))
    bounded, unbounded = read_range("20-30 min"), read_range("from 20 min")
    assert isinstance(bounded, Range) and isinstance(unbounded, Range)
    assert isinstance(twenty, Quantity) and isinstance(thirty, Quantity) and isinstance(forty, Quantity)
    assert [bounded.holds(q) for q in (twenty, thirty, forty)] == [True, True, False]
    assert unbounded.holds(forty)
    assert not unbounded.holds(-forty)


def test_a_window_may_forbid_the_middle() -> None:
    window = read_window("up to 1 h or from 48 h")
    assert window == Window(((F(0), F(HOUR)), (F(48 * HOUR), None)))
    allowed = [h for h in (0, 1, 2, 47, 48, 1000) if window.allows(h * HOUR)]
    assert allowed == [0, 1, 48, 1000]
    assert [window.wait(h * HOUR) for h in (0, 2, 48)] == [0, 46 * HOUR, 0]


@pytest.mark.parametrize(
    ("text", "allowed"),
    [
        ("any time", ((0, None),)),
        ("up to 15 min", ((0, 900),)),
        ("after 24 h", ((86400, None),)),
        ("10-15 min", ((600, 900),)),
        ("within 5 min or 10 to 15 min or from 1 h", ((0, 300), (600, 900), (3600, None))),
    ],
)
def test_a_window_is_read(text: str, allowed: tuple[tuple[int, int | None], ...]) -> None:
    window = read_window(text)
    assert isinstance(window, Window), window
    assert list(window.allowed) == [(F(low), None if high is None else F(high)) for low, high in allowed]


def test_a_window_that_ends_is_never_open_again() -> None:
    window = read_window("up to 15 min")
    assert isinstance(window, Window)
    assert window.wait(900) == 0
    assert window.wait(901) is None


@pytest.mark.parametrize(
    ("text", "wrong", "at"),
    [
        ("5 min", "5 min alone does not say", "5 min"),
        ("from 2 h or up to 1 h", "overlap or stand in the wrong order", "up to 1 h"),
        ("up to 2 h or from 1 h", "overlap", "from 1 h"),
        ("up to 1 h or from 48 hh", '"hh" is not a unit', "hh"),
        ("up to 3 in", "3 in is a length", "3 in"),
        ("up to 1 h or ", "nothing is written", ""),
        ("", "nothing is written", ""),
    ],
)
def test_a_window_is_refused(text: str, wrong: str, at: str) -> None:
    refusal = read_window(text)
    assert isinstance(refusal, Refusal), refusal
    assert wrong in refusal.message
    assert text[refusal.start : refusal.start + refusal.length] == at


@pytest.mark.parametrize(
    ("text", "first", "second"),
    [
        ("14 in x 22 in", 14 * INCH, 22 * INCH),
        ("14x22 in", 14 * INCH, 22 * INCH),
        ('14" × 22"', 14 * INCH, 22 * INCH),
        ("210 mm x 297 mm", 210, 297),
        ("3 in by 1 in", 3 * INCH, INCH),
        ("1 1/2 in x 16 1/2 in", F(3, 2) * INCH, F(33, 2) * INCH),
        ("10 mm x 1 in", 10, INCH),
    ],
)
def test_a_size_is_read(text: str, first: F, second: F) -> None:
    size = read_size(text)
    assert isinstance(size, Size), size
    assert (size.first.base, size.second.base) == (first, second)


@pytest.mark.parametrize(
    ("text", "wrong", "at"),
    [
        ("14 in", "a size needs two lengths", "14 in"),
        ("14 in x", "nothing is written", ""),
        ("x 14 in", "a size needs two lengths", "x 14 in"),
        ("14 x 22", "22 has no unit", "22"),
        ("1 h x 2 in", "1 h is a time", "1 h"),
        ("14 in x 22 in x 3 in", "this is a size", " x "),
    ],
)
def test_a_size_is_refused(text: str, wrong: str, at: str) -> None:
    refusal = read_size(text)
    assert isinstance(refusal, Refusal), refusal
    assert wrong in refusal.message
    assert text[refusal.start : refusal.start + refusal.length] == at
