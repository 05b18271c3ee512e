"""Sums: what they come to, where their names stand, and what they refuse."""

from __future__ import annotations

from fractions import Fraction as F

import pytest

from builder.quantities.exact import PI, Exact
from builder.quantities.quantity import Dimension, Quantity, Refusal, length, read_quantity
from builder.quantities.sums import Sum, Toleranced, evaluate, read_sum, read_tolerance, read_toleranced

INCH = F(254, 10)


def quantity(text: str, expect: Dimension | None = None) -> Quantity:
    q = read_quantity(text, expect, negative=True)
    assert isinstance(q, Quantity), q
    return q


NAMES = {
    "body.outside": quantity("1.33 in"),
    "body.inside": quantity("1 1/4 in"),
    "play": quantity("0.020 in"),
    "spares": quantity("10 %"),
    "fin.count": quantity("4", Dimension.COUNT),
    "deck.width": quantity("120 mm"),
    "set": quantity("30 min"),
}


def worked(text: str, expect: Dimension | None = None) -> Quantity | Refusal | None:
    total = read_sum(text, expect)
    return total if isinstance(total, Refusal) else evaluate(total, NAMES.get)


SUMS = [
    # text, amount in base units (worked by hand), dimension, unit
    ("12 1/2 in", F(25, 2) * INCH, Dimension.LENGTH, "in"),
    ("1/4 in + 2 1/4 in + 1 1/2 in + 1 1/2 in + 7 in", F(25, 2) * INCH, Dimension.LENGTH, "in"),
    ("body.inside - play", F(123, 100) * INCH, Dimension.LENGTH, "in"),  # 1.25 - 0.02 = 1.23
    ("body.outside", F(133, 100) * INCH, Dimension.LENGTH, "in"),
    ("10 in - 2 in - 3 in", 5 * INCH, Dimension.LENGTH, "in"),  # from the left
    ("2 * 3 in + 4 in", 10 * INCH, Dimension.LENGTH, "in"),
    ("2 * (3 in + 4 in)", 14 * INCH, Dimension.LENGTH, "in"),
    ("12 in / 2 / 3", 2 * INCH, Dimension.LENGTH, "in"),
    ("12 in / 4 in", F(3), Dimension.NUMBER, ""),
    ("12 in × 2", 24 * INCH, Dimension.LENGTH, "in"),
    ("12 in ÷ 4", 3 * INCH, Dimension.LENGTH, "in"),
    ("-(3 in - 5 in)", 2 * INCH, Dimension.LENGTH, "in"),
    ("+3 in + +1 in", 4 * INCH, Dimension.LENGTH, "in"),
    ("3 in - -2 in", 5 * INCH, Dimension.LENGTH, "in"),
    ("297 mm - deck.width", F(177), Dimension.LENGTH, "mm"),
    ("1 in + 10 mm", F(354, 10), Dimension.LENGTH, "in"),
    ("10 mm + 1 in", F(354, 10), Dimension.LENGTH, "in"),  # the inch wins
    ("10 mm + 1 cm", F(20), Dimension.LENGTH, "mm"),
    ("1 ft 2 in * 2", 28 * INCH, Dimension.LENGTH, "in"),
    ("fin.count * 2 in", 8 * INCH, Dimension.LENGTH, "in"),
    ("fin.count + 1", F(5), Dimension.COUNT, "piece"),
    ("2 in * 3 in", 6 * INCH**2, Dimension.AREA, "sq in"),
    ("2 mm * 3 mm * 500 mm", F(3), Dimension.VOLUME, "mL"),  # 3000 mm3 = 3 mL
    ("12 sq in / 3 in", 4 * INCH, Dimension.LENGTH, "in"),
    ("set / 2 + 5 min", F(20 * 60), Dimension.TIME, "min"),
    ("360 deg / fin.count", F(90), Dimension.ANGLE, "deg"),
    ("1 lb / 16", F(45359237, 1600000), Dimension.MASS, "lb"),
    ("21.00 USD / 50", F(21, 50), Dimension.MONEY, "USD"),
    ("3/2 * 4 in", 6 * INCH, Dimension.LENGTH, "in"),
    ("8 - 1/2", F(15, 2), Dimension.NUMBER, ""),
    ("2 * 3-1/2 in", 7 * INCH, Dimension.LENGTH, "in"),  # unspaced, a mixed number as builders write it
    # a percentage added is a share of what stands left of it
    ("50 + 10 %", F(55), Dimension.NUMBER, ""),
    ("50 - 10 %", F(45), Dimension.NUMBER, ""),
    ("50 + -10 %", F(45), Dimension.NUMBER, ""),
    ("50 - -10 %", F(55), Dimension.NUMBER, ""),
    ("50 + spares", F(55), Dimension.NUMBER, ""),
    ("50 + (10 %)", F(55), Dimension.NUMBER, ""),
    ("40 + 10 + 10 %", F(55), Dimension.NUMBER, ""),
    ("100 + 10 % + 10 %", F(121), Dimension.NUMBER, ""),
    ("50 * 10 %", F(5), Dimension.NUMBER, ""),
    ("10 % * 50", F(5), Dimension.NUMBER, ""),
    ("10 % + 5 %", F(15, 100), Dimension.NUMBER, "%"),
    ("10 in + 10 %", 11 * INCH, Dimension.LENGTH, "in"),
    ("fin.count + 50 %", F(6), Dimension.COUNT, "piece"),
]


@pytest.mark.parametrize(("text", "amount", "dimension", "unit"), SUMS, ids=[s[0] for s in SUMS])
def test_a_sum_is_worked_out(text: str, amount: F, dimension: Dimension, unit: str) -> None:
    q = worked(text)
    assert isinstance(q, Quantity), q
    assert q.amount.is_rational
    assert (q.base, q.dimension, q.unit) == (amount, dimension, unit)


def test_pi_stays_a_symbol() -> None:
    # 4 pi (1.25 + 4 x 0.010) + 1/4 in = 5.16 pi + 0.25 in
    q = worked("4 * pi * (1.25 in + 4 * 0.010 in) + 1/4 in")
    assert isinstance(q, Quantity)
    assert q.amount == (PI * F(516, 100) + F(1, 4)) * INCH
    assert abs(q.base / INCH - F(16461, 1000)) < F(1, 2000)  # 16.461 in
    assert worked("pi * body.outside / pi") == NAMES["body.outside"]


def test_a_circumference_gives_its_diameter_back() -> None:
    q = worked("22 in / pi * pi")
    assert q == quantity("22 in")


def test_division_by_a_sum_with_pi_uses_sixty_digits() -> None:
    # 22 in / (pi in + 1/4 in) = 22 / 3.3915926535... = 6.486628...
    q = worked("22 in / (pi * 1 in + 1/4 in)")
    assert isinstance(q, Quantity)
    assert abs(q.base - 22 / (Exact.of(1) * PI + F(1, 4)).rational) == 0
    assert abs(q.base - F(6486628, 10**6)) < F(1, 10**6)


def test_a_plain_quantity_keeps_how_it_was_typed() -> None:
    total = read_sum(" 0.010 in ", Dimension.LENGTH)
    assert isinstance(total, Sum)
    assert total.plain is not None
    assert total.plain.written == "0.010 in"
    q = evaluate(total, NAMES.get)
    assert isinstance(q, Quantity)
    assert q.written == "0.010 in"
    computed = worked("0.010 in * 1")
    assert isinstance(computed, Quantity)
    assert computed.written == ""


def test_names_are_listed_with_their_places() -> None:
    text = "2 * (body.inside - play) + body.inside"
    total = read_sum(text)
    assert isinstance(total, Sum)
    assert total.names == (("body.inside", 5, 11), ("play", 19, 4), ("body.inside", 27, 11))
    assert all(text[start : start + length] == name for name, start, length in total.names)
    alone = read_sum("  fin.root ")
    assert isinstance(alone, Sum)
    assert alone.names == (("fin.root", 2, 8),)
    assert alone.plain is None


def test_an_unknown_name_gives_none() -> None:
    assert worked("nope") is None
    assert worked("body.inside - nope") is None


REFUSED = [
    # text, expected dimension, what is wrong, the piece of the text that is pointed at
    ("3 in + 2 min", None, "a time cannot be added to a length", "+"),
    ("3 in - 45 deg", None, "an angle cannot be taken from a length", "-"),
    ("3 in + 2", None, "a number cannot be added to a length", "+"),
    ("body.inside + set", None, "a time cannot be added to a length", "+"),
    ("3 min * 2 in", None, "a time cannot be multiplied by a length", "*"),
    ("3 / 2 in", None, "a number cannot be divided by a length", "/"),
    ("1 USD + 1 EUR", None, "EUR cannot be added to USD", "+"),
    ("1 in / 0", None, "divides by zero", "/"),
    ("body.inside / (play - play)", None, "divides by zero", "/"),
    ("12", Dimension.LENGTH, "12 has no unit", "12"),
    ("2 * 3", Dimension.LENGTH, "no unit", "2 * 3"),
    ("set", Dimension.LENGTH, "30 min is a time, but a length belongs here", "set"),
    ("set + 1 min", Dimension.LENGTH, "this is a time, but a length belongs here", "set + 1 min"),
    ("1 in + 31/4 in", None, "more than a whole", "31/4"),
    ("1 in + 2/4 in", None, "not reduced", "2/4"),
    ("1,5 mm + 1 mm", None, "a comma stands in the number 1,5", "1,5"),
    ("(1 in", None, "opened and never closed", "("),
    ("1 in)", None, "closed that was never opened", ")"),
    ("1 in +", None, "ends where a value should follow", "+"),
    ("", None, "nothing is written", ""),
    ("* 2", None, "cannot be read", "* 2"),
    ("3 in ** 2", None, "cannot be read", "* 2"),
    ("2 body.inside", None, "a number and body.inside stand side by side", "body.inside"),
    ("play play", None, "nothing between", "play"),
    ("2 (3 in)", None, "nothing between", "(3 in)"),
    ("Body + 1 in", None, "is no id", "Body + 1 in"),
    ("__import__", None, "cannot be read", "__import__"),
    ("1 in ± 1/8 in", None, "a tolerance does not belong", "±"),
    ("(" * 17 + "1 in" + ")" * 17, None, "more than 16 deep", "("),
    ("1" + "+1" * 65, None, "more than 64 operations", "+"),
    ("1 in" + " " * 400, None, "404 characters long; the limit is 400", "    "),
    ("-" * 70 + "1 in", None, "more than 64 operations", "-"),
]


@pytest.mark.parametrize(("text", "expect", "wrong", "at"), REFUSED, ids=[r[0][:30] for r in REFUSED])
def test_a_sum_is_refused(text: str, expect: Dimension | None, wrong: str, at: str) -> None:
    refusal = worked(text, expect)
    assert isinstance(refusal, Refusal), refusal
    assert wrong in refusal.message
    assert refusal.hint
    assert text[refusal.start : refusal.start + refusal.length] == at


@pytest.mark.parametrize(
    ("text", "hint"),
    [
        ("3 in + 2", "Give the bare number a unit, or multiply with it."),
        ("2 + 3 in", "Give the bare number a unit, or multiply with it."),
        ("3 in + 2 min", "Put together only what measures the same thing."),
        ("1 USD + 1 EUR", "Put together only what measures the same thing."),
        ("- ", "Write the missing value."),
        ("2 *", "Write the missing value."),
    ],
)
def test_a_refused_sum_says_how_to_mend_it(text: str, hint: str) -> None:
    refusal = worked(text)
    assert isinstance(refusal, Refusal)
    assert refusal.hint == hint


def test_the_limits_are_not_one_too_small() -> None:
    assert worked("(" * 16 + "1 in" + ")" * 16) == quantity("1 in")
    assert worked("1 in" + " + 1 in" * 56) == quantity("57 in")  # 396 characters
    assert worked("1" + "+1" * 64) == quantity("65")
    assert worked("1 in" + " " * 396) == quantity("1 in")
    assert worked("123456789012345678 mm") == length(123456789012345678)
    assert isinstance(read_tolerance("± 1 in" + " " * 394), Sum)
    assert isinstance(read_tolerance("± 1 in" + " " * 395), Refusal)
    assert isinstance(read_toleranced("1 in" + " " * 396 + "± 1 in" + " " * 394), Toleranced)
    assert isinstance(read_toleranced("1 in" + " " * 396 + "± 1 in" + " " * 395), Refusal)


def test_sums_built_on_sums_stay_bounded() -> None:
    """Each dimension the square of the one before: the digits double, until that is refused."""
    square = read_sum("a * a")
    assert isinstance(square, Sum)
    value: Quantity | Refusal | None = quantity("1.1")
    for _ in range(40):
        assert isinstance(value, Quantity)
        value = evaluate(square, {"a": value}.get)
        if isinstance(value, Refusal):
            assert "grow beyond" in value.message
            return
    pytest.fail("40 squarings went through")


def test_powers_of_pi_stay_bounded() -> None:
    assert isinstance(worked("*".join(["pi"] * 15)), Quantity)
    refusal = worked("*".join(["pi"] * 16))
    assert isinstance(refusal, Refusal)
    assert "grow beyond" in refusal.message


@pytest.mark.parametrize(
    ("text", "value", "off"),
    [
        ("12 1/2 in ± 1/32 in", "12 1/2 in", "1/32 in"),
        ("12 1/2 in +/- 1/32 in", "12 1/2 in", "1/32 in"),
        ("12 1/2 in±1/32 in", "12 1/2 in", "1/32 in"),
        ("6.5 mm ± 1 mm", "6.5 mm", "1 mm"),
        ("90 deg ± 3 deg", "90 deg", "3 deg"),
        ("body.inside + play ± 2 * play", "1.27 in", "0.04 in"),
        ("12 in", "12 in", None),
    ],
)
def test_a_tolerance_is_read(text: str, value: str, off: str | None) -> None:
    found = read_toleranced(text)
    assert isinstance(found, Toleranced), found
    assert evaluate(found.value, NAMES.get) == quantity(value)
    if off is None:
        assert found.plus_minus is None
    else:
        assert found.plus_minus is not None
        assert evaluate(found.plus_minus, NAMES.get) == quantity(off)


def test_names_of_a_tolerance_keep_their_places() -> None:
    text = "body.inside ± play"
    found = read_toleranced(text)
    assert isinstance(found, Toleranced) and found.plus_minus is not None
    assert found.value.names == (("body.inside", 0, 11),)
    assert found.plus_minus.names == (("play", 14, 4),)


@pytest.mark.parametrize(
    ("text", "wrong", "at"),
    [
        ("12 in ± 1/32", "1/32 has no unit", "1/32"),
        ("12 in ± 1 min", "1 min is a time, but a length", "1 min"),
        ("12 in ± -1/32 in", "below zero", "-1/32 in"),
        ("12 in ± 1/32 in ± 1 in", "± stands twice", " ± "),
        ("± 1/32 in", "nothing is written", ""),
        ("12 in ±", "nothing is written", ""),
        ("12 in ± 2/4 in", "not reduced", "2/4"),
    ],
)
def test_a_tolerance_is_refused(text: str, wrong: str, at: str) -> None:
    refusal = read_toleranced(text)
    assert isinstance(refusal, Refusal), refusal
    assert wrong in refusal.message
    assert text[refusal.start : refusal.start + refusal.length] == at


def test_a_tolerance_may_stand_alone() -> None:
    alone = read_tolerance("± 0.005 in", Dimension.LENGTH)
    assert isinstance(alone, Sum)
    assert alone.plain == quantity("0.005 in")
    refusal = read_tolerance("0.005 in", Dimension.LENGTH)
    assert isinstance(refusal, Refusal)
    assert refusal.hint == "Write ± 0.005 in."


@pytest.mark.parametrize("text", ["1 mL", "(1 mL)", "((1 mL))", "( 1 mL )", "-(1 mL)", "(1 mL) * 2"])
def test_brackets_do_not_make_a_volume_a_length(text: str) -> None:
    refused = read_sum(text, Dimension.LENGTH)
    assert isinstance(refused, Refusal)
    assert "a volume, but a length belongs here" in refused.message


@pytest.mark.parametrize("text", ["(3 mm)", "((3 mm))", " ( 3 mm ) "])
def test_a_length_in_brackets_is_a_length(text: str) -> None:
    read = worked(text, Dimension.LENGTH)
    assert isinstance(read, Quantity)
    assert (read.base, read.unit) == (F(3), "mm")
