"""Quantities put together: what each product and quotient measures, and what cannot be done."""

from __future__ import annotations

import operator
from collections.abc import Callable
from fractions import Fraction as F

import pytest

from builder.quantities.exact import Exact
from builder.quantities.quantity import (
    Dimension,
    DimensionError,
    Quantity,
    Refusal,
    a_dimension,
    length,
    number,
    read_quantity,
)


def quantity(text: str) -> Quantity:
    q = read_quantity(text, negative=True)
    assert isinstance(q, Quantity), q
    return q


DONE = [
    # left, operation, right, amount in base units (by hand), dimension, unit
    ("3 mm", operator.add, "4 mm", 7, Dimension.LENGTH, "mm"),
    ("3 mm", operator.sub, "4 mm", -1, Dimension.LENGTH, "mm"),
    ("3", operator.add, "4 pieces", 7, Dimension.COUNT, "piece"),
    ("4 pieces", operator.sub, "1", 3, Dimension.COUNT, "piece"),
    ("3 mm", operator.mul, "4", 12, Dimension.LENGTH, "mm"),
    ("4", operator.mul, "3 mm", 12, Dimension.LENGTH, "mm"),
    ("4 pieces", operator.mul, "3 mm", 12, Dimension.LENGTH, "mm"),
    ("3 mm", operator.mul, "4 pieces", 12, Dimension.LENGTH, "mm"),
    ("4 pieces", operator.mul, "3", 12, Dimension.COUNT, "piece"),
    ("3", operator.mul, "4 pieces", 12, Dimension.COUNT, "piece"),
    ("50", operator.mul, "10 %", 5, Dimension.NUMBER, ""),
    ("3 mm", operator.mul, "4 mm", 12, Dimension.AREA, "mm2"),
    ("5 in", operator.mul, "4 mm", 508, Dimension.AREA, "mm2"),
    ("5 in", operator.mul, "2 in", F("6451.6"), Dimension.AREA, "sq in"),  # 10 x 645.16
    ("12 mm2", operator.mul, "500 mm", 6, Dimension.VOLUME, "mL"),  # 6000 mm3
    ("500 mm", operator.mul, "12 mm2", 6, Dimension.VOLUME, "mL"),
    ("1 sq in", operator.mul, "1 in", F("16.387064"), Dimension.VOLUME, "cu in"),
    ("1 sq in", operator.mul, "1 mm", F("0.64516"), Dimension.VOLUME, "mL"),
    ("12 mm", operator.truediv, "4", 3, Dimension.LENGTH, "mm"),
    ("12 mm", operator.truediv, "4 pieces", 3, Dimension.LENGTH, "mm"),
    ("12 mm", operator.truediv, "4 mm", 3, Dimension.NUMBER, ""),
    ("12 pieces", operator.truediv, "4", 3, Dimension.COUNT, "piece"),
    ("12 pieces", operator.truediv, "4 pieces", 3, Dimension.NUMBER, ""),
    ("12", operator.truediv, "4 pieces", 3, Dimension.NUMBER, ""),
    ("10 %", operator.truediv, "2", F(1, 20), Dimension.NUMBER, ""),
    ("10 USD", operator.truediv, "4 USD", F(5, 2), Dimension.NUMBER, ""),
    ("12 mm2", operator.truediv, "4 mm", 3, Dimension.LENGTH, "mm"),
    ("12 sq in", operator.truediv, "4 in", F("76.2"), Dimension.LENGTH, "in"),
    ("12 mL", operator.truediv, "4 mm2", 3000, Dimension.LENGTH, "mm"),  # 12000 mm3 / 4 mm2
    ("12 cu in", operator.truediv, "4 sq in", F("76.2"), Dimension.LENGTH, "in"),
    ("12 mL", operator.truediv, "4 mm", 3000, Dimension.AREA, "mm2"),
    ("12 cu in", operator.truediv, "4 in", F("1935.48"), Dimension.AREA, "sq in"),  # 3 x 645.16
    ("1 h", operator.truediv, "20 min", 3, Dimension.NUMBER, ""),
]


@pytest.mark.parametrize(("left", "operation", "right", "amount", "dimension", "unit"), DONE)
def test_what_comes_out(
    left: str,
    operation: Callable[[Quantity, Quantity], Quantity],
    right: str,
    amount: F | int,
    dimension: Dimension,
    unit: str,
) -> None:
    q = operation(quantity(left), quantity(right))
    assert (q.base, q.dimension, q.unit, q.written) == (amount, dimension, unit, "")


@pytest.mark.parametrize(
    ("left", "operation", "right", "message"),
    [
        ("3 mm", operator.add, "4", "a number cannot be added to a length"),
        ("3", operator.sub, "4 sq in", "an area cannot be taken from a number"),
        ("1 USD", operator.add, "1 EUR", "EUR cannot be added to USD"),
        ("1 USD", operator.truediv, "1 EUR", "a sum of money cannot be divided by a sum of money"),
        ("3 mm2", operator.mul, "4 mm2", "an area cannot be multiplied by an area"),
        ("3 min", operator.mul, "4 mm", "a time cannot be multiplied by a length"),
        ("3", operator.truediv, "4 mm", "a number cannot be divided by a length"),
        ("3 mm", operator.truediv, "4 mm2", "a length cannot be divided by an area"),
        ("3 mm", operator.lt, "4 min", "a length cannot be compared with a time"),
        ("3 USD", operator.ge, "4 EUR", "a sum of money cannot be compared"),
    ],
)
def test_what_cannot_be_done(
    left: str, operation: Callable[[Quantity, Quantity], object], right: str, message: str
) -> None:
    with pytest.raises(DimensionError, match=message):
        operation(quantity(left), quantity(right))


def test_equal_however_typed() -> None:
    assert quantity("1 ft") == quantity("12 in") == quantity("304.8 mm")
    assert hash(quantity("1 ft")) == hash(quantity("304.8 mm"))
    assert quantity("4") == quantity("4 pieces")
    assert quantity("4 mm") != quantity("4")
    assert quantity("4 USD") != quantity("4 EUR")
    assert quantity("4 mm") != 4


def test_order() -> None:
    one, two = quantity("1 in"), quantity("30 mm")
    assert one < two and two > one and one <= two and two >= one
    assert not one > two and not two < one and not one >= two and not two <= one
    assert one <= quantity("25.4 mm") <= one
    assert not one < quantity("25.4 mm")


def test_scaling() -> None:
    assert quantity("3 mm").scaled(F(1, 2)) == length(F(3, 2))
    assert quantity("3 mm") * 2 == length(6)
    assert quantity("3 mm") / 2 == length(F(3, 2))
    assert abs(quantity("-3 mm")) == length(3)
    assert -length(3, "in") == length(-3)
    assert number(4).dimension is Dimension.NUMBER
    assert length(Exact.of(3), "in").unit == "in"


def test_articles() -> None:
    assert [a_dimension(d) for d in (Dimension.LENGTH, Dimension.ANGLE)] == ["a length", "an angle"]


def test_a_refusal_moves_with_its_text() -> None:
    assert Refusal("m", "h", 2, 3).moved(4) == Refusal("m", "h", 6, 3)
