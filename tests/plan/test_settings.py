"""The settings of a class: spares as typed, rounding, groups."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.plan.settings import MOST_BUILDERS, Class, Spares, read_spares, rounded_up


@pytest.mark.parametrize(
    ("typed", "share", "kits", "told"),
    [
        ("10%", Fraction(1, 10), 0, "10 %"),
        ("10 %", Fraction(1, 10), 0, "10 %"),
        ("7.5%", Fraction(3, 40), 0, "7.5 %"),
        ("0.125 %", Fraction(1, 800), 0, "0.125 %"),
        ("3", Fraction(0), 3, "3 kits"),
        (" 1 ", Fraction(0), 1, "1 kit"),
        ("0", Fraction(0), 0, ""),
        ("0%", Fraction(0), 0, ""),
    ],
)
def test_spares_are_a_share_or_a_number(typed: str, share: Fraction, kits: int, told: str) -> None:
    read = read_spares(typed)
    assert read == Spares(share, kits)
    assert read is not None and read.text == told


@pytest.mark.parametrize("typed", ["", "many", "-1", "10 percent", "1/2", "1001%", "5 %%", "1e3", "٣"])
def test_anything_else_is_refused(typed: str) -> None:
    assert read_spares(typed) is None


@given(st.fractions(min_value=0, max_value=1000))
def test_rounding_up_is_exact(x: Fraction) -> None:
    up = rounded_up(x)
    assert x <= up < x + 1


@given(st.integers(1, 400), st.integers(0, 100))
def test_kits_are_never_fewer_than_asked_and_never_one_too_many(builders: int, percent: int) -> None:
    kits = Class(builders, Spares(Fraction(percent, 100))).kits
    assert 100 * builders + builders * percent <= 100 * kits < 100 * builders + builders * percent + 100


# 24 is the advice of a national science teachers' association for laboratory classes: 25 is too many
@pytest.mark.parametrize(("builders", "crowded"), [(24, False), (25, True)])
def test_a_crowded_class(builders: int, crowded: bool) -> None:
    assert MOST_BUILDERS == 24
    assert Class(builders).crowded is crowded
