"""What a reader sees: own unit first, the other in brackets, rounded once by the stated rule."""

from __future__ import annotations

from fractions import Fraction as F

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.quantities.exact import PI, Exact
from builder.quantities.quantity import Dimension, Quantity, length, read_quantity
from builder.quantities.show import (
    Units,
    as_decimal_text,
    as_fraction_text,
    round_half_even,
    round_up,
    show,
    show_angle,
    show_count,
    show_money,
    show_number,
    show_time,
    show_toleranced,
    shown,
    tell,
)
from builder.quantities.sums import evaluate, read_sum

INCH = F(254, 10)


def quantity(text: str) -> Quantity:
    total = read_sum(text)
    assert not hasattr(total, "hint"), total
    q = evaluate(total, lambda _name: None)
    assert isinstance(q, Quantity)
    return q


IN = Units("in", "mm", quantity("1/16 in"))
MM = Units("mm", "in", quantity("1 mm"))
CM = Units("in", "cm", quantity("1/16 in"))

TYPED = [
    # as typed, as shown; each number in brackets is the product or quotient with 25.4, rounded by the rule
    ("2 1/2 in", "2 1/2 in (63.5 mm)"),
    ("2 3/4 in", "2 3/4 in (69.8 mm)"),  # 69.85, to the even digit
    ("1/4 in", "1/4 in (6.4 mm)"),  # 6.35
    ("3/4 in", "3/4 in (19.0 mm)"),  # 19.05
    ('12-1/2"', "12 1/2 in (318 mm)"),  # 317.5
    ("11 1/2 in", "11 1/2 in (292 mm)"),  # 292.1
    ("11.5 in", "11.5 in (292 mm)"),
    ("3 15/16 in", "3 15/16 in (100 mm)"),  # 100.0125
    ("3.935 in", "3.935 in (99.9 mm)"),  # 99.949
    ("3.936 in", "3.936 in (100 mm)"),  # 99.9744: to 0.1 mm it would be 100.0, which is told as 100
    ("0.010 in", "0.010 in (0.25 mm)"),  # 0.254
    ("0.020 in", "0.020 in (0.51 mm)"),  # 0.508
    ("0.002 in", "0.002 in (0.051 mm)"),  # 0.0508
    ("0.0039 in", "0.0039 in (0.099 mm)"),  # 0.09906
    ("0.00392 in", "0.00392 in (0.10 mm)"),  # 0.099568: to 0.001 mm it would be 0.100
    ("0.004 in", "0.004 in (0.10 mm)"),  # 0.1016
    ("0.039 in", "0.039 in (0.99 mm)"),  # 0.9906
    ("0.0393 in", "0.0393 in (1.0 mm)"),  # 0.99822: to 0.01 mm it would be 1.00
    ("1/32 in", "1/32 in (0.79 mm)"),  # 0.79375
    ("1/16 in", "1/16 in (1.6 mm)"),  # 1.5875
    ("0.710 in", "0.710 in (18.0 mm)"),  # 18.034
    ("23/32 in", "23/32 in (18.3 mm)"),  # 18.25625
    ("11 ft", "11 ft (3353 mm)"),  # 3352.8
    ("1 ft 2 in", "1 ft 2 in (356 mm)"),  # 355.6
    ("0 in", "0 in (0 mm)"),
    ("140 mm", "140 mm (5 1/2 in)"),  # 5.5118, 0.0118 off
    ("18 mm", "18 mm (about 11/16 in)"),  # 0.70866, 0.021 off
    ("30 mm", "30 mm (1 3/16 in)"),  # 1.1811
    ("6 mm", "6 mm (1/4 in)"),  # 0.23622, 0.0138 off
    ("31.8 cm", "31.8 cm (about 12 1/2 in)"),  # 12.5197, 0.0197 off
    ("3 mm", "3 mm (0.118 in)"),
    ("1 mm", "1 mm (0.039 in)"),
    ("0.3 mm", "0.3 mm (0.012 in)"),
    ("0.0001 mm", "0.0001 mm (0.000004 in)"),  # never shown as nothing
]


@pytest.mark.parametrize(("text", "told"), TYPED, ids=[t[0] for t in TYPED])
@pytest.mark.parametrize("units", [IN, MM], ids=["in first", "mm first"])
def test_what_is_typed_shows_as_typed(text: str, told: str, units: Units) -> None:
    assert show(quantity(text), units) == told


COMPUTED = [
    # sum, guide's units, as shown where a ruler measures it
    ("2 in + 1/2 in", IN, "2 1/2 in (63.5 mm)"),
    ("1/4 in + 1/32 in", IN, "about 1/4 in (7.1 mm)"),  # 9/32 lies between 4/16 and 5/16: the even one
    ("1/4 in + 3/32 in", IN, "about 3/8 in (8.7 mm)"),  # 11/32: 5/16 or 6/16, the even one; 8.73125 mm
    ("1 in / 3", IN, "about 5/16 in (8.5 mm)"),  # 0.3333 = 5.33/16; 8.4667 mm
    ("pi * 1 in", IN, "about 3 1/8 in (79.8 mm)"),  # 3.14159 = 50.27/16; 79.796 mm
    ("1 in / 100", IN, "0.010 in (0.25 mm)"),  # would round to nothing
    ("1 in - 2 in", IN, "-1 in (-25.4 mm)"),
    ("100 mm / 3", MM, "about 33 mm (1 5/16 in)"),  # 33.33; 1.3123 in
    ("2 * 20 mm", MM, "40 mm (1 9/16 in)"),  # 1.5748
    ("5 mm / 2", MM, "about 2 mm (0.098 in)"),  # 2.5, to the even one; 0.0984
    ("1 in * 2", MM, "about 51 mm (2 in)"),  # 50.8
    ("1 in * 2", CM, "2 in (5.08 cm)"),
]


@pytest.mark.parametrize(("text", "units", "told"), COMPUTED, ids=[c[0] for c in COMPUTED])
def test_what_a_ruler_measures_is_rounded_to_the_finest(text: str, units: Units, told: str) -> None:
    assert show(quantity(text), units, typed=False) == told


FINE = [
    # sums that are no ruler's work: diameters, walls
    ("1.25 in + 8 * 0.010 in", "1.330 in (33.8 mm)"),  # 33.782
    ("1.25 in - 0.020 in", "1.230 in (31.2 mm)"),  # 31.242
    ("23/32 in + 9 * 0.010 in", "about 0.809 in (20.5 mm)"),  # 0.80875; 20.54225 mm
    ("1/2 in + 1/64 in", "33/64 in (13.1 mm)"),  # 13.096875
    ("1/64 in / 2", "about 0.008 in (0.20 mm)"),  # 0.0078125: finer than a sixty-fourth; 0.1984
    ("6 mm - 1.5 mm", "4.5 mm (3/16 in)"),  # 0.17717, 0.0103 off
    ("20 cm / 3", "about 6.667 cm (2 5/8 in)"),  # 2.62467
    ("20 mm / 3", "about 6.67 mm (1/4 in)"),  # 0.26247, 0.0125 off
    ("1 ft / 24", "1/2 in (12.7 mm)"),
    ("1 in / 100000", "0.00001 in (0.0003 mm)"),
]


@pytest.mark.parametrize(("text", "told"), FINE, ids=[f[0] for f in FINE])
def test_what_a_ruler_does_not_measure_keeps_its_fineness(text: str, told: str) -> None:
    assert show(quantity(text), IN) == told


def test_a_blank_is_rounded_up_and_both_units_say_so() -> None:
    # 4 pi (1.25 + 0.04) + 1/4 = 16.461 in: cut 16 1/2 in, which is 419.1 mm
    body = shown(quantity("4 * pi * (1.25 in + 4 * 0.010 in) + 1/4 in"), IN, up=True)
    assert (body.first, body.second, body.exact, body.marked) == ("16 1/2 in", "419 mm", False, False)
    # 3 pi (23/32 + 0.03) + 1/4 = 7.307 in: cut 7 5/16 in, which is 185.7 mm
    motor = quantity("3 * pi * (23/32 in + 3 * 0.010 in) + 1/4 in")
    assert show(motor, IN, up=True) == "7 5/16 in (186 mm)"
    assert show(quantity("7 5/16 in"), IN, up=True) == "7 5/16 in (186 mm)"


def test_exactness_is_told() -> None:
    assert shown(quantity("2 in + 1/2 in"), IN, typed=False).exact
    assert not shown(quantity("1 in / 3"), IN, typed=False).exact
    assert not shown(quantity("pi * 1 in"), IN).exact
    assert shown(quantity("1/3 in"), IN).exact  # as typed


def test_a_guide_of_one_unit_has_no_brackets() -> None:
    only = Units("mm", "mm", quantity("1 mm"))
    assert show(quantity("30 mm"), only) == "30 mm"
    assert show(quantity("100 mm / 3"), only, typed=False) == "about 33 mm"
    assert show(quantity("1 in"), only) == "1 in (25.4 mm)"


def test_the_unit_in_brackets_is_of_the_exact_value() -> None:
    """Not of the rounded one: 5 x 3/16 in is 23.8125 mm, and 15/16 in either way."""
    assert show(quantity("5 * 3/16 in"), IN, typed=False) == "15/16 in (23.8 mm)"
    assert show(length(F(100), "in"), IN, typed=False) == "about 3 15/16 in (100 mm)"


@pytest.mark.parametrize(
    ("value", "off", "told"),
    [
        ("12 1/2 in", "1/32 in", "12 1/2 in ± 1/32 in (317.5 mm ± 0.8 mm)"),
        ("2 3/4 in", "1/32 in", "2 3/4 in ± 1/32 in (69.8 mm ± 0.8 mm)"),
        ("0.500 in", "0.005 in", "0.500 in ± 0.005 in (12.7 mm ± 0.1 mm)"),  # 0.127
        ("0.500 in", "0.002 in", "0.500 in ± 0.002 in (12.70 mm ± 0.05 mm)"),  # 0.0508
        ("0.500 in", "0.0002 in", "0.500 in ± 0.0002 in (12.700 mm ± 0.005 mm)"),  # 0.00508
        ("6.5 mm", "1 mm", "6.5 mm ± 1 mm (0.256 in ± 0.039 in)"),  # 0.25591, 0.03937
        ("90 deg", "3 deg", "90° ± 3°"),
    ],
)
def test_a_value_and_its_tolerance_have_the_same_decimals(value: str, off: str, told: str) -> None:
    assert show_toleranced(quantity(value), quantity(off), IN) == told


@pytest.mark.parametrize(
    ("seconds", "told"),
    [
        (5400, "1 h 30 min"),
        (1800, "30 min"),
        (45, "45 s"),
        (90, "1 min 30 s"),
        (0, "0 min"),
        (86400, "24 h"),
        (172800, "48 h"),
        (259200, "3 days"),
        (604800, "7 days"),
        (5430, "1 h 30 min"),  # a tie, to the even minute
        (5490, "1 h 32 min"),
        (F(5999, 10), "10 min"),
        (F(1199, 2), "10 min"),  # 599.5 s is 600 s, to the even second
        (F(599), "9 min 59 s"),
        (-90, "-1 min 30 s"),
    ],
)
def test_times(seconds: int | F, told: str) -> None:
    assert show_time(seconds) == told


def test_a_wait_may_be_rounded_up() -> None:
    assert show_time(1781, up=True) == "30 min"
    assert show_time(1781) == "30 min"  # 29.68
    assert show_time(1741, up=True) == "30 min"
    assert show_time(1741) == "29 min"


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("30 min", "30 min"),
        ("90 min", "90 min"),  # as typed
        ("90 min * 1", "1 h 30 min"),
        ("45 deg", "45°"),
        ("360 deg / 7", "51.4°"),  # 51.428
        ("45 deg / 2", "22.5°"),
        ("3 pieces", "3 pieces"),
        ("2 pieces / 2", "1 piece"),
        ("21.00 USD", "21.00 USD"),
        ("21.00 USD / 50", "0.42 USD"),
        ("1000 JPY / 3", "333 JPY"),
        ("1 KWD / 3", "0.333 KWD"),
        ("50 + 10 %", "55"),
        ("10 % + 5 %", "15 %"),
        ("20 mL", "20 mL (0.68 fl oz)"),  # 20 / 29.5735 = 0.67628
        ("1 fl oz", "1 fl oz (29.6 mL)"),
        ("1/2 cup", "1/2 cup (118 mL)"),  # 118.294
        ("1 1/2 oz", "1 1/2 oz (42.5 g)"),  # 42.5243
        ("2 * 3/4 oz", "1.5 oz (42.5 g)"),
        ("40 g", "40 g (1.4 oz)"),  # 1.41096
        ("2 lb", "2 lb (907 g)"),  # 907.185
        ("12 sq in", "12 sq in (77.4 cm2)"),  # 77.4192
        ("600 cm2", "600 cm2 (93 sq in)"),  # 93.0002
        ("2 1/2 in", "2 1/2 in (63.5 mm)"),
    ],
)
def test_any_quantity_is_told(text: str, told: str) -> None:
    assert tell(quantity(text), IN) == told


def test_single_printers() -> None:
    assert show_count(Quantity(Exact.of(F(5, 2)), Dimension.COUNT, "piece")) == "2 1/2 pieces"
    assert show_count(quantity("2 pieces")) == "2 pieces"
    assert show_number(quantity("7 / 20")) == "0.35"
    assert show_number(quantity("1 / 3")) == "0.333"
    assert show_angle(length(F(90))) == "90°"
    assert show_money(quantity("9.5 USD")) == "9.50 USD"


@pytest.mark.parametrize(
    ("x", "text"),
    [
        (F(5, 2), "2 1/2"),
        (F(3, 4), "3/4"),
        (F(5), "5"),
        (F(0), "0"),
        (F(-1, 16), "-1/16"),
        (F(-17, 16), "-1 1/16"),
    ],
)
def test_fractions_as_text(x: F, text: str) -> None:
    assert as_fraction_text(x) == text


@pytest.mark.parametrize(
    ("x", "places", "text"),
    [
        (F(1905, 100), 1, "19.0"),
        (F(1, 3), 3, "0.333"),
        (F(-1, 20), 1, "0.0"),  # a tie to the even digit, and zero has no sign
        (F(-3, 20), 1, "-0.2"),
        (F(5, 2), 0, "2"),
        (F(1, 1000), 3, "0.001"),
    ],
)
def test_decimals_as_text(x: F, places: int, text: str) -> None:
    assert as_decimal_text(x, places) == text


@given(st.fractions(-1000, 1000), st.fractions(F(1, 64), 2))
def test_rounding_goes_to_the_nearest_and_up(x: F, step: F) -> None:
    near, up = round_half_even(x, step), round_up(x, step)
    assert (near / step).denominator == (up / step).denominator == 1
    assert abs(near - x) <= step / 2
    assert 0 <= up - x < step
    if abs(near - x) == step / 2:
        assert (near / step) % 2 == 0


def test_a_step_of_zero_rounds_nothing() -> None:
    assert round_half_even(F(1, 3), F(0)) == round_up(F(1, 3), F(0)) == F(1, 3)
    none = Units("mm", "in", length(0))
    assert show(quantity("7 mm / 2 + 0 mm"), none, typed=False) == "3.5 mm (1/8 in)"


@given(st.integers(-64 * 400, 64 * 400), st.sampled_from([IN, MM]), st.booleans())
def test_what_is_shown_reads_back_within_the_rounding(n: int, units: Units, typed: bool) -> None:
    """Both halves: the first within half the finest, the second within half its last place."""
    q = length(F(n, 64) * INCH, "in")
    told = shown(q, units, typed=typed)
    first = read_quantity(told.first, Dimension.LENGTH, negative=True)
    assert isinstance(first, Quantity)
    assert abs(first.base - q.base) <= (0 if typed or told.exact else units.finest.base / 2)
    assert told.exact == (first.base == q.base)
    assert told.second is not None
    second = read_quantity(told.second.removeprefix("about "), Dimension.LENGTH, negative=True)
    assert isinstance(second, Quantity)
    coarsest = F(1, 2) if second.unit == "mm" else INCH / 32
    assert abs(second.base - q.base) <= coarsest


@given(st.fractions(F(1, 1000), 4000))
def test_what_is_shown_is_never_nothing(mm: F) -> None:
    for units in (IN, MM):
        for typed in (True, False):
            told = shown(length(mm * PI), units, typed=typed)
            for text in (told.first, (told.second or "").removeprefix("about ")):
                q = read_quantity(text)
                assert isinstance(q, Quantity)
                assert q.base > 0
