"""Exact numbers: pi kept as a symbol through sums, products and quotients."""

from __future__ import annotations

import copy
import pickle
from fractions import Fraction as F

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from builder.quantities.exact import PI, PI_RATIONAL, Exact

PI_POWERS = [Exact.of(1), PI, PI * PI, PI * PI * PI]
FRACTIONS = st.fractions(min_value=-1000, max_value=1000, max_denominator=1000)


def combined(coefficients: list[F]) -> Exact:
    return sum((power * c for power, c in zip(PI_POWERS, coefficients, strict=False)), Exact.of(0))


NUMBERS = st.lists(FRACTIONS, min_size=1, max_size=4).map(combined)


def test_pi_to_sixty_decimals() -> None:
    # The digits are those of any handbook (from memory, and Machin's formula below agrees):
    # 3.14159 26535 89793 23846 26433 83279 50288 41971 69399 37510 58209 74944 (59230 ...)
    scale = 10**70

    def arctan_of_inverse(n: int) -> int:
        total, term, k = 0, scale // n, 0
        while term:
            total += term // (2 * k + 1) * (-1) ** k
            term //= n * n
            k += 1
        return total

    machin = 4 * (4 * arctan_of_inverse(5) - arctan_of_inverse(239))  # pi/4 = 4 atan 1/5 - atan 1/239
    assert F(machin // 10**10, 10**60) == PI_RATIONAL


def test_the_terms_are_the_powers_of_pi() -> None:
    number = (PI + F(1, 4)) * PI * 2
    assert number.terms == (F(0), F(1, 2), F(2))
    assert not number.is_rational
    assert number.rational == PI_RATIONAL / 2 + 2 * PI_RATIONAL**2


def test_pi_can_go_away_again() -> None:
    assert (PI * 3 - PI * 3) == 0
    assert (PI * 3 - PI * 3).is_rational
    assert PI * 3 / PI == 3
    assert 1 / PI * PI == 1
    assert hash(PI * 3 / PI) == hash(F(3))
    assert (1 / PI).rational == 1 / PI_RATIONAL
    assert 1 / PI * (1 / PI) * PI * PI == 1
    assert (1 / PI / PI).shift == -2
    assert (1 / PI - 1 / PI).is_rational
    assert 1 / (1 / PI) == PI
    assert (1 / PI + PI).shift == -1
    assert (1 / PI + PI - 1 / PI) == PI


def test_division_needs_one_term() -> None:
    with pytest.raises(ValueError, match="beside something else"):
        Exact.of(1) / (PI + 1)
    with pytest.raises(ZeroDivisionError):
        PI / 0
    with pytest.raises(ZeroDivisionError):
        Exact.of(1) / (PI - PI)
    with pytest.raises(ZeroDivisionError):
        Exact.of(1) / 0


def test_order_and_sign() -> None:
    assert F(314, 100) < PI < F(315, 100)
    assert PI > 3
    assert PI >= PI
    assert PI <= PI
    assert not PI < PI
    assert 2 * PI > PI + 3
    assert abs(3 - PI) == PI - 3
    assert -PI < 0
    assert 0 - (-PI) == PI
    assert sorted([PI, Exact.of(4), Exact.of(3)]) == [3, PI, 4]
    assert Exact.of(3) != PI
    assert Exact.of(3) != "3"
    assert bool(PI) and not Exact.of(0)


def test_it_is_a_value() -> None:
    number = PI / 3 + F(1, 7)
    assert copy.deepcopy(number) == number
    assert pickle.loads(pickle.dumps(number)) == number
    assert repr(number) == "Exact(1/7 + 1/3*pi)"
    assert repr(Exact.of(0)) == "Exact(0)"
    assert Exact.of(number) is number
    assert Exact(F(1, 2)) == F(1, 2)


@settings(max_examples=40)
@given(NUMBERS, NUMBERS, NUMBERS)
def test_the_laws_of_numbers(a: Exact, b: Exact, c: Exact) -> None:
    assert a + b == b + a
    assert a * b == b * a
    assert (a + b) + c == a + (b + c)
    assert a * (b + c) == a * b + a * c
    assert a - b == -(b - a)
    assert (a + b).rational == a.rational + b.rational
    assert (a * b).rational == a.rational * b.rational


@settings(max_examples=40)
@given(NUMBERS, FRACTIONS.filter(bool), st.integers(0, 3))
def test_a_quotient_undoes_a_product(a: Exact, c: F, k: int) -> None:
    divisor = PI_POWERS[k] * c
    assert a * divisor / divisor == a
    assert a / divisor * divisor == a
