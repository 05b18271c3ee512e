"""Sines, cosines and roots: exact where they are rational, to forty digits elsewhere."""

from __future__ import annotations

import math
from fractions import Fraction as F

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.quantities.trig import cosine, sine, square_root, tangent

CLOSE = F(1, 10**38)
ANGLES = st.fractions(min_value=-720, max_value=720, max_denominator=10**6)


@pytest.mark.parametrize(
    ("deg", "sin", "cos"),
    [
        (0, 0, 1),
        (30, F(1, 2), None),
        (60, None, F(1, 2)),
        (90, 1, 0),
        (120, None, F(-1, 2)),
        (150, F(1, 2), None),
        (180, 0, -1),
        (210, F(-1, 2), None),
        (270, -1, 0),
        (-30, F(-1, 2), None),
        (360, 0, 1),
        (390, F(1, 2), None),
    ],
)
def test_rational_values_are_exact(deg: int, sin: F | None, cos: F | None) -> None:
    if sin is not None:
        assert sine(deg) == sin
    if cos is not None:
        assert cosine(deg) == cos


def test_whole_degrees_against_the_platform() -> None:
    for deg in range(-360, 721):
        assert math.isclose(sine(deg), math.sin(math.radians(deg)), rel_tol=1e-12, abs_tol=1e-12)


# sin 18 deg = (sqrt 5 - 1) / 4, sin 45 deg = sqrt 2 / 2, sin 60 deg = sqrt 3 / 2 (elementary geometry)
@pytest.mark.parametrize(
    ("deg", "exact"),
    [
        (18, (square_root(5) - 1) / 4),
        (45, square_root(2) / 2),
        (60, square_root(3) / 2),
        (15, (square_root(6) - square_root(2)) / 4),
        (75, (square_root(6) + square_root(2)) / 4),
    ],
)
def test_values_of_elementary_geometry(deg: int, exact: F) -> None:
    assert abs(sine(deg) / exact - 1) < CLOSE
    assert abs(cosine(90 - deg) / exact - 1) < CLOSE


def test_tangents() -> None:
    assert tangent(45) == 1
    assert tangent(135) == -1
    assert tangent(-45) == -1
    assert tangent(225) == 1
    assert abs(tangent(60) / square_root(3) - 1) < CLOSE
    with pytest.raises(ZeroDivisionError):
        tangent(90)


@given(ANGLES)
def test_against_the_square_sum_and_the_platform(deg: F) -> None:
    assert abs(sine(deg) ** 2 + cosine(deg) ** 2 - 1) < CLOSE
    assert math.isclose(sine(deg), math.sin(math.radians(deg)), rel_tol=1e-12, abs_tol=1e-12)
    assert math.isclose(cosine(deg), math.cos(math.radians(deg)), rel_tol=1e-12, abs_tol=1e-12)


@given(st.fractions(min_value=0, max_value=44, max_denominator=10**6))
def test_the_double_angle(deg: F) -> None:
    assert abs(sine(2 * deg) - 2 * sine(deg) * cosine(deg)) <= CLOSE * sine(2 * deg)


def test_small_angles_keep_their_digits() -> None:
    # sin x = x (1 - x^2 / 6 + ...): at 1e-12 deg the second term is below 1e-28 of the first
    tiny = sine(F(1, 10**12))
    assert abs(tiny / (sine(F(1, 2 * 10**12)) * 2) - 1) < F(1, 10**27)
    assert abs(float(tiny) / (math.pi / 180e12) - 1) < 1e-15


@given(st.fractions(min_value=0, max_value=10**9, max_denominator=10**9))
def test_a_root_squared_is_the_number(x: F) -> None:
    assert abs(square_root(x) ** 2 - x) <= CLOSE * x
    assert square_root(x * x) == x


def test_roots() -> None:
    assert square_root(F(9, 4)) == F(3, 2)
    assert square_root(0) == 0
    # sqrt 2 = 1.41421 35623 73095 04880 16887 24209 69807 85696 ... (any table)
    assert abs(square_root(2) - F(141421356237309504880168872420969807857, 10**38)) < F(1, 10**37)
    for x in (F(1, 10**60 + 7), F(10**60 + 7), F(10**120 + 7), F(1, 10**120 + 7)):
        assert abs(square_root(x) ** 2 / x - 1) < CLOSE
    with pytest.raises(ValueError, match="below zero"):
        square_root(-1)
