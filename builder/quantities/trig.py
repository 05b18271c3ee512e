"""Sines, cosines and square roots as Fractions, to forty significant digits.

The same on every machine, and exact where the answer is rational.
"""

from __future__ import annotations

from fractions import Fraction
from functools import lru_cache
from math import isqrt

from builder.quantities.exact import PI_RATIONAL

DIGITS = 40  # significant digits of what is not exact
_SCALE = 10 ** (DIGITS + 10)


@lru_cache(maxsize=1024)
def sine(deg: Fraction | int) -> Fraction:
    """Return the sine of an angle in degrees; relative error below 1e-30."""
    deg = Fraction(deg) % 360
    if deg >= 180:
        return -sine(deg - 180)
    if deg > 90:
        deg = 180 - deg
    if deg in _EXACT_SINES:  # by Niven's theorem there is no other rational pair
        return _EXACT_SINES[deg]
    if deg > 45:
        return _significant(_cosine_series(_radians(90 - deg)))
    return _significant(_sine_series(_radians(deg)))


_EXACT_SINES = {Fraction(0): Fraction(0), Fraction(30): Fraction(1, 2), Fraction(90): Fraction(1)}


def _radians(deg: Fraction) -> Fraction:
    return deg * PI_RATIONAL / 180


def cosine(deg: Fraction | int) -> Fraction:
    """Return the cosine of an angle in degrees; relative error below 1e-30."""
    return sine(Fraction(deg) + 90)


def tangent(deg: Fraction | int) -> Fraction:
    """Return the tangent of an angle in degrees; ZeroDivisionError at a right angle."""
    return sine(deg) / cosine(deg)


@lru_cache(maxsize=1024)
def square_root(x: Fraction | int) -> Fraction:
    """Return the square root; relative error below 1e-30.  ValueError below zero."""
    x = Fraction(x)
    if x < 0:
        raise ValueError("the square root of a number below zero")
    top, bottom = isqrt(x.numerator), isqrt(x.denominator)
    if top * top == x.numerator and bottom * bottom == x.denominator:
        return Fraction(top, bottom)
    # sqrt(n / d) = sqrt(n * d * s * s) / (d * s); s makes the integer root long enough
    product = x.numerator * x.denominator
    scale = 10 ** max(0, DIGITS + 2 - len(str(isqrt(product))))
    return _significant(Fraction(isqrt(product * scale * scale), x.denominator * scale))


def _sine_series(x: Fraction) -> Fraction:
    """x - x^3/3! + ... as x times a series in fixed point, so that small angles keep their digits."""
    return x * _series(round(x * x * _SCALE), 1)


def _cosine_series(x: Fraction) -> Fraction:
    return _series(round(x * x * _SCALE), 0)


def _series(square: int, odd: int) -> Fraction:
    """1 - s/((1+odd)(2+odd)) + ...: the sine's series over x (odd = 1) or the cosine's (odd = 0)."""
    total, term, k = _SCALE, _SCALE, 0
    while term:
        term = term * square // (_SCALE * (2 * k + 1 + odd) * (2 * k + 2 + odd))
        k += 1
        total += -term if k % 2 else term
    return Fraction(total, _SCALE)


def _significant(x: Fraction) -> Fraction:
    """Round to DIGITS significant decimal digits, so that later sums stay short."""
    if not x:
        return x
    size = len(str(abs(x.numerator))) - len(str(x.denominator))
    places = DIGITS - size
    if places >= 0:
        return Fraction(round(x * 10**places), 10**places)
    return Fraction(round(x / 10**-places) * 10**-places)
