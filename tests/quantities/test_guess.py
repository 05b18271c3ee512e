"""What a refused number was probably meant to be. The expected values are what stands in the text."""

from __future__ import annotations

from fractions import Fraction

import pytest

from builder.quantities.guess import meant, without_faults
from builder.quantities.sums import Sum, read_sum
from builder.quantities.units import Dimension
from builder.quantities.values import Quantity

L, T = Dimension.LENGTH, Dimension.TIME
INCH = Fraction(254, 10)  # mm, by definition since 1959


@pytest.mark.parametrize(
    ("text", "dimension", "unit", "base"),
    [
        ("140", L, "mm", Fraction(140)),
        ("3", L, "in", 3 * INCH),
        ("140 mmq", L, "mm", Fraction(140)),
        ("5 minn", T, "mm", Fraction(300)),
        ("3,5 mm", L, "mm", Fraction(7, 2)),
        ("(1 mm) / 0", L, "mm", Fraction(1)),
        ("4 mm + 5 min", L, "mm", Fraction(4)),
        ("2 mm + 3 mm + 1 h", L, "in", Fraction(5)),
        ("-(3 mm + 5 min)", L, "mm", Fraction(-3)),
    ],
)
def test_what_is_near_is_guessed(text: str, dimension: Dimension, unit: str, base: Fraction) -> None:
    found = meant(text, dimension, unit)
    assert found is not None
    assert (found.base, found.dimension) == (base, dimension)


@pytest.mark.parametrize(
    ("text", "dimension", "unit"),
    [
        ("5 min", L, "mm"),  # a time tells nothing of a length
        ("140", T, "mm"),  # a bare time may be minutes or hours
        ("140", L, ""),
        ("140 xylophones", L, "mm"),
        ("31/4 in", L, "in"),
        ("1,250 mm", L, "mm"),  # one and a quarter, or more than a thousand
        ("50 %", L, "mm"),
        ("(1 mm", L, "mm"),
        ("", L, "mm"),
        ("a" * 500, L, "mm"),
    ],
)
def test_where_nothing_is_near_nothing_is_guessed(text: str, dimension: Dimension, unit: str) -> None:
    assert meant(text, dimension, unit) is None


def _sum(text: str) -> Sum:
    found = read_sum(text)
    assert isinstance(found, Sum)
    return found


def _mm(number: int) -> Quantity:
    found = _sum(f"{number} mm").plain
    assert found is not None
    return found


@pytest.mark.parametrize(
    ("text", "base"),
    [
        ("gap + 1 mm", 1),
        ("wide + gap - 2 mm", 8),
        ("(gap * 2) + wide", 10),
        ("-gap + wide", 10),
        ("wide - gap / 2", 10),
    ],
)
def test_what_is_not_known_is_left_out_of_its_sum(text: str, base: int) -> None:
    found = without_faults(_sum(text), {"wide": _mm(10), "gap": None})
    assert found is not None and found.base == base


@pytest.mark.parametrize("text", ["gap", "gap * 2", "gap + gap", "wide * gap", "wide / (gap - gap)"])
def test_a_factor_that_is_left_is_no_guess(text: str) -> None:
    assert without_faults(_sum(text), {"wide": _mm(10), "gap": None}) is None
