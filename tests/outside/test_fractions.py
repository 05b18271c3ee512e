"""Inch fractions, and the rounding of what they are in millimetres.

The table is n/64 x 25.4, as in any handbook's table of decimal equivalents (NIST Handbook 44,
Appendix C marks the inch as exactly 25.4 mm).  The tie rule is that of NIST SP 811, B.7.1 and ASTM
E29: a bare trailing 5 goes to the even digit (clause numbers from memory).
"""

from __future__ import annotations

from fractions import Fraction as F

import pytest

from builder.quantities.quantity import Dimension, Quantity, length, read_quantity
from builder.quantities.show import (
    Units,
    as_decimal_text,
    as_fraction_text,
    round_half_even,
    show,
    show_toleranced,
    shown,
)
from builder.quantities.sums import Sum, evaluate, read_sum


def quantity(text: str) -> Quantity:
    total = read_sum(text)
    assert isinstance(total, Sum), total
    q = evaluate(total, lambda _name: None)
    assert isinstance(q, Quantity), q
    return q


IN = Units("in", "mm", quantity("1/16 in"))

# inch fraction, decimal inch, exact mm
TABLE = """
1/64 .015625 0.396875 | 3/8   .375    9.525
1/32 .03125  0.79375  | 7/16  .4375   11.1125
3/64 .046875 1.190625 | 1/2   .5      12.7
1/16 .0625   1.5875   | 9/16  .5625   14.2875
5/64 .078125 1.984375 | 5/8   .625    15.875
3/32 .09375  2.38125  | 11/16 .6875   17.4625
7/64 .109375 2.778125 | 3/4   .75     19.05
1/8  .125    3.175    | 13/16 .8125   20.6375
3/16 .1875   4.7625   | 7/8   .875    22.225
1/4  .25     6.35     | 15/16 .9375   23.8125
5/16 .3125   7.9375   | 63/64 .984375 25.003125
"""
ROWS = [tuple(cell.split()) for line in TABLE.strip().splitlines() for cell in line.split("|")]


@pytest.mark.parametrize(("fraction", "decimal", "mm"), ROWS, ids=[r[0] for r in ROWS])
def test_the_table_of_decimal_equivalents(fraction: str, decimal: str, mm: str) -> None:
    q = quantity(f"{fraction} in")
    assert q.base == F(mm)
    assert quantity(f"{decimal} in") == q
    assert quantity(f"{mm} mm") == q
    assert shown(length(F(mm), "in"), IN).first == f"{fraction} in"
    assert as_fraction_text(F(decimal)) == fraction


def test_every_sixty_fourth_is_reduced() -> None:
    for n in range(1, 64 * 3):
        text = shown(length(F(254, 10) * F(n, 64), "in"), IN).first
        q = read_quantity(text, Dimension.LENGTH)
        assert isinstance(q, Quantity), q  # a fraction that is not reduced would be refused
        assert q.base == F(254, 10) * F(n, 64)


# inch, exact mm, half to even at 0.1 mm (with floats, round(6.35, 1) is 6.3)
TRAPS = [
    ("1/4 in", "6.35", "6.4"),
    ("3/4 in", "19.05", "19.0"),
    ("1 1/4 in", "31.75", "31.8"),
    ("1 3/4 in", "44.45", "44.4"),
    ("2 1/4 in", "57.15", "57.2"),
    ("2 3/4 in", "69.85", "69.8"),
    ("3 1/4 in", "82.55", "82.6"),
    ("3 3/4 in", "95.25", "95.2"),
]


@pytest.mark.parametrize(("inch", "exact", "rounded"), TRAPS, ids=[t[0] for t in TRAPS])
def test_the_rounding_traps(inch: str, exact: str, rounded: str) -> None:
    q = quantity(inch)
    assert q.base == F(exact)
    assert round_half_even(q.base, F(1, 10)) == F(rounded)
    assert show(q, IN) == f"{inch} ({rounded} mm)"


# Halves to the even digit, as the examples of SP 811 B.7.1 do it (values of that kind, from memory).
TIES = [
    ("6.974 950", 3, "6.975"),
    ("6.974 951", 4, "6.9750"),
    ("6.974 950 5", 6, "6.974950"),
    ("6.974 951 5", 6, "6.974952"),
]
BARE_FIVES = [("0.5", 0, "0"), ("1.5", 0, "2"), ("2.5", 0, "2"), ("0.25", 1, "0.2"), ("0.35", 1, "0.4")]


@pytest.mark.parametrize(("value", "places", "rounded"), [*TIES, *BARE_FIVES])
def test_a_bare_five_goes_to_the_even_digit(value: str, places: int, rounded: str) -> None:
    assert as_decimal_text(F(value.replace(" ", "")), places) == rounded


def test_rounding_once_at_the_end() -> None:
    # 5 x 3/16 in: exactly 23.8125 mm, 23.8; rounding each first gives 5 x 4.8 = 24.0, which is wrong
    q = quantity("5 * 3/16 in")
    assert q.base == F("23.8125")
    assert show(q, IN) == "15/16 in (23.8 mm)"
    assert 5 * round_half_even(quantity("3/16 in").base, F(1, 10)) == 24


def test_a_converted_tolerance_moves_no_limit_by_more_than_the_last_digit() -> None:
    # The regular method of SP 811 B.7.2: 12 1/2 in +- 1/32 in lies from 316.70625 to 318.29375 mm
    told = show_toleranced(quantity("12 1/2 in"), quantity("1/32 in"), IN)
    assert told == "12 1/2 in ± 1/32 in (317.5 mm ± 0.8 mm)"
    assert abs(F("317.5") - F("0.8") - F("316.70625")) <= F(1, 10)
    assert abs(F("317.5") + F("0.8") - F("318.29375")) <= F(1, 10)
