"""Tolerance stacks against published worked examples."""

from __future__ import annotations

from fractions import Fraction as F
from itertools import product

import pytest

from builder.quantities.stack import Link, Stack, root, stack


def links(*rows: tuple[str, str, int]) -> list[Link]:
    """(nominal, plus-minus, times), the lengths as decimals."""
    return [Link(str(i), F(n), F(t), F(times)) for i, (n, t, times) in enumerate(rows)]


# Published: ficientdesign.com, tolerance stack-up analysis (housing and three blocks): gap .020, worst case
# .005 to .035, root-sum-square .012 to .028. sqrt(25 + 25 + 9 + 4) = sqrt 63 = 7.937 thousandths.
HOUSING = links(("4.020", ".005", 1), ("2.000", ".005", -1), ("1.500", ".003", -1), (".500", ".002", -1))
# Published: metricmech.com, worked example: gap 3.00. By hand: .10 + .05 + .03 + .05 = .23;
# sqrt(100 + 25 + 9 + 25) = sqrt 159 = 12.61 hundredths.
BORE = links(("40.00", ".10", 1), ("25.00", ".05", -1), ("2.00", ".03", -1), ("10.00", ".05", -1))
# Common teaching case: ten parts each +-0.1: 1.0 and sqrt(10)/10 = 0.316.
TEN = links(*[("5", ".1", 1)] * 10)


@pytest.mark.parametrize(
    ("given", "nominal", "worst", "rss"),
    [
        (HOUSING, F(".020"), F(".015"), F(".0079373")),
        (BORE, F("3.00"), F(".23"), F(".1260952")),
        (TEN, F(50), F(1), F(".3162278")),
    ],
)
def test_published_stacks(given: list[Link], nominal: F, worst: F, rss: F) -> None:
    found = stack(given)
    assert (found.nominal, found.worst) == (nominal, worst)
    assert abs(found.rss - rss) < F(1, 10**6)


def test_the_housing_as_it_is_printed() -> None:
    """.005 to .035 at worst, .012 to .028 by root-sum-square, to three decimals."""
    found = stack(HOUSING)
    assert (found.nominal - found.worst, found.nominal + found.worst) == (F(".005"), F(".035"))
    assert round(found.nominal - found.rss, 3) == F(".012")
    assert round(found.nominal + found.rss, 3) == F(".028")


def test_four_cuts_of_a_thirty_second() -> None:
    """4 x 1/32 = 1/8; sqrt(4 / 1024) = 2/32 = 1/16, exactly."""
    found = stack([Link("cut", F(3), F(1, 32))] * 4)
    assert found == Stack(F(12), F(1, 8), F(4, 1024))
    assert found.rss == F(1, 16)


@pytest.mark.parametrize("given", [HOUSING, BORE])
def test_worst_case_is_the_worst_of_all_corners(given: list[Link]) -> None:
    found = stack(given)
    sums = [
        sum((k.times * (k.nominal + sign * k.plus_minus) for k, sign in zip(given, signs, strict=True)), F(0))
        for signs in product((-1, 1), repeat=len(given))
    ]
    assert (min(sums), max(sums)) == (found.nominal - found.worst, found.nominal + found.worst)


def test_a_link_that_counts_twice_is_off_twice() -> None:
    """A wall counts twice in a diameter: 2 x 0.1, and the square of 0.2."""
    assert stack([Link("wall", F(1), F(1, 10), F(2))]) == Stack(F(2), F(1, 5), F(1, 25))


@pytest.mark.parametrize(("square", "found"), [(F(0), F(0)), (F(9, 16), F(3, 4)), (F(2), F(1414213, 10**6))])
def test_roots(square: F, found: F) -> None:
    """sqrt 2 = 1.414 213 56..."""
    assert root(square) == found


def test_no_root_of_what_is_negative() -> None:
    with pytest.raises(ValueError, match="not negative"):
        root(F(-1))


def test_no_link_no_stack() -> None:
    assert stack([]) == Stack(F(0), F(0), F(0))
