"""Chains of lengths that close, and that do not: exact sums, worked by hand beside each case.

Cases marked "common practice, no source" are measures that the trade uses when these kits are built.
"""

from __future__ import annotations

from fractions import Fraction as F

import pytest

from builder.quantities.quantity import Quantity, length
from builder.quantities.show import Units, chain_closes_as_shown, shown, shown_value
from builder.quantities.sums import Sum, evaluate, read_sum


def quantity(text: str) -> Quantity:
    total = read_sum(text)
    assert isinstance(total, Sum), total
    q = evaluate(total, lambda _name: None)
    assert isinstance(q, Quantity), q
    return q


IN = Units("in", "mm", quantity("1/16 in"))
MM = Units("mm", "in", quantity("1 mm"))

CLOSES = [
    # 2 12/16 + 8/16 + 9 4/16 + 5 8/16 = 18
    (["2 3/4 in", "1/2 in", "9 1/4 in", "5 1/2 in"], "18 in", F(0)),
    # the same with 9 3/16: 17 15/16, which is 1/16 in or 1.5875 mm short
    (["2 3/4 in", "1/2 in", "9 3/16 in", "5 1/2 in"], "18 in", F("-1.5875")),
    # outside of a body: 1/4 + 9/4 + 6/4 + 6/4 + 7 = 50/4
    (["1/4 in", "2 1/4 in", "1 1/2 in", "1 1/2 in", "7 in"], "12 1/2 in", F(0)),
    (["2 3/4 in", "7 in", "1 in", "1/4 in", "1 1/2 in"], "12 1/2 in", F(0)),
    (["1/4 in", "1/8 in", "2 in", "1/8 in", "1/4 in"], "2 3/4 in", F(0)),
    (["30 mm", "140 mm", "30 mm"], "200 mm", F(0)),
    (["6 mm", "4 mm", "120 mm", "4 mm", "6 mm"], "140 mm", F(0)),
    # common practice, no source: a strip from which 11 in is cut and 18 in remains was 29 in
    (["11 in", "18 in"], "29 in", F(0)),
    # common practice, no source: six lines of 14 in need 84 in
    (["14 in"] * 6, "84 in", F(0)),
    # common practice, no source: a 3 1/4 in lug placed 3 in from the end ends at 6 1/4 in
    (["3 in", "3 1/4 in"], "6 1/4 in", F(0)),
]


@pytest.mark.parametrize(("parts", "total", "off"), CLOSES, ids=[c[1] for c in CLOSES])
def test_a_chain_sums_exactly(parts: list[str], total: str, off: F) -> None:
    lengths = [quantity(part) for part in parts]
    joined = lengths[0]
    for part in lengths[1:]:
        joined += part
    assert joined.base - quantity(total).base == off
    assert chain_closes_as_shown(lengths, quantity(total), IN) == (off == 0)


def test_a_lug_lies_inside_its_body() -> None:
    # common practice, no source: an 11 in body, the lug from 3 in to 6 1/4 in
    assert quantity("3 in + 3 1/4 in") < quantity("11 in")


def test_only_the_first_unit_is_judged() -> None:
    """1/4 + 3/4 = 1 in, though the brackets say 6.4 + 19.0 = 25.4 mm, and 1/4 + 1/4 say 12.8 for 12.7."""
    quarter, half = quantity("1/4 in"), quantity("1/2 in")
    assert [shown(q, IN).second for q in (quarter, half)] == ["6.4 mm", "12.7 mm"]
    assert chain_closes_as_shown([quarter, quarter], half, IN)


def test_rounded_pieces_may_not_make_the_rounded_whole() -> None:
    # thirds of 1 in are 0.3333 in and show as 5/16; three of them show 15/16, the whole shows 1
    third = quantity("1 in / 3")
    assert shown_value(third, IN) == F(5, 16) * F(254, 10)
    assert not chain_closes_as_shown([third] * 3, quantity("1 in"), IN)
    # quarters of 1 in are 1/4 in each: they close
    assert chain_closes_as_shown([quantity("1 in / 4")] * 4, quantity("1 in"), IN)
    # thirds of 100 mm show as 33 mm each: 99, not 100
    assert not chain_closes_as_shown([quantity("100 mm / 3")] * 3, quantity("100 mm"), MM)


def test_what_is_typed_finer_than_the_ruler_still_closes() -> None:
    """Typed values show as typed, so 1/32 + 31/32 = 1 closes though the finest is 1/16."""
    assert chain_closes_as_shown([quantity("1/32 in"), quantity("31/32 in")], quantity("1 in"), IN)
    # computed, each goes to its sixteenth: 1/32 to 0 and 31/32 to 16/16 (both ties, to the even one)
    computed = [length(F(254, 10) * F(n, 32), "in") for n in (1, 31)]
    assert [shown_value(q, IN) / F(254, 10) for q in computed] == [0, 1]
    # 3/32 + 3/32 = 3/16, but each shows 1/8 (a tie between 1/16 and 2/16, to the even one)
    threes = [length(F(254, 10) * F(3, 32), "in")] * 2
    assert not chain_closes_as_shown(threes, length(F(254, 10) * F(3, 16), "in"), IN)


def test_a_share_is_of_what_stands_left_of_it() -> None:
    # 50 and a tenth of 50
    assert quantity("50 + 10 %").base == 55


# Kerf: 36 in of stock, 9 in pieces, kerf 1/8: three fit, 36 - 27 - 3/8 = 8 5/8 in remain
def test_a_remainder_after_kerf() -> None:
    assert quantity("36 in - 3 * (9 in + 1/8 in)") == quantity("8 5/8 in")
    assert quantity("4 * 9 in + 3 * 1/8 in") > quantity("36 in")
    # 18 in, one 11 1/2 in cut, kerf 1/16: 18 - 11 8/16 - 1/16 = 6 7/16
    assert quantity("18 in - 11 1/2 in - 1/16 in") == quantity("6 7/16 in")
    assert quantity("6 1/2 in") > quantity("6 7/16 in") > quantity("6 3/8 in")


# Tolerances that add up: the worst case of a chain is the sum of its tolerances (Scholz 1995).
def test_the_worst_case_of_a_chain() -> None:
    # bore 40 +-.10, spacer 25 +-.05, ring 2 +-.03, shoulder 10 +-.05: gap 3.00 +- 0.23
    assert quantity("40.00 mm - 25.00 mm - 2.00 mm - 10.00 mm") == quantity("3 mm")
    assert quantity("0.10 mm + 0.05 mm + 0.03 mm + 0.05 mm") == quantity("0.23 mm")
    # four cuts of +- 1/32 in each: +- 1/8 in
    assert quantity("4 * 1/32 in") == quantity("1/8 in")


# Wraps: 4 pi (1.25 + 4 x 0.010) + 1/4 = 5.16 pi + 0.25 = 16.2106 + 0.25 = 16.461 (pi = 3.141593)
@pytest.mark.parametrize(
    ("wrap", "thousandths", "cut"),
    [
        ("4 * pi * (1 1/4 in + 4 * 0.010 in) + 1/4 in", "16.461", "16 1/2 in"),
        # 3 pi (0.71875 + 0.030) + 0.25 = 2.24625 pi + 0.25 = 7.0568 + 0.25
        ("3 * pi * (23/32 in + 3 * 0.010 in) + 1/4 in", "7.307", "7 5/16 in"),
    ],
)
def test_a_wrap_is_cut_to_the_next_sixteenth(wrap: str, thousandths: str, cut: str) -> None:
    q = quantity(wrap)
    assert abs(q.base / F(254, 10) - F(thousandths)) <= F(1, 2000)
    assert shown(q, IN, up=True).first == cut
