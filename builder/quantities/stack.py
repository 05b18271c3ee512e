"""Tolerance stacks: how far a gap, or any sum of lengths, can be off when each of its links is off.

Worst case: the sum of |a| T. Root-sum-square: the square root of the sum of (a T) squared, for links that
vary by themselves (F. Scholz, Tolerance Stack Analysis Methods, 1995). Lengths in millimetres, exact; only
the root is rounded.
"""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction
from math import isqrt

import msgspec


class Link(msgspec.Struct, frozen=True):
    """One length of a stack. `times` is how often it counts, negative where it is taken away."""

    name: str
    nominal: Fraction
    plus_minus: Fraction
    times: Fraction = Fraction(1)


class Stack(msgspec.Struct, frozen=True):
    """The sum of the links: its nominal value, and by how much it can be off."""

    nominal: Fraction
    worst: Fraction
    square: Fraction  # of the root-sum-square, exact

    @property
    def rss(self) -> Fraction:
        """The root-sum-square, to 0.000 001 mm."""
        return root(self.square)


def stack(links: Iterable[Link]) -> Stack:
    """The stack of these links."""
    nominal = worst = square = Fraction(0)
    for link in links:
        off = abs(link.times) * link.plus_minus
        nominal += link.times * link.nominal
        worst += off
        square += off * off
    return Stack(nominal, worst, square)


def root(square: Fraction, places: int = 6) -> Fraction:
    """The square root of a number that is not negative, rounded down to so many decimals; exact where it is
    rational. ValueError if it is negative."""
    if square < 0:
        raise ValueError("the square of a length is not negative")
    over, under = isqrt(square.numerator), isqrt(square.denominator)
    if over * over == square.numerator and under * under == square.denominator:
        return Fraction(over, under)
    scale = 10**places
    return Fraction(isqrt(square.numerator * scale * scale // square.denominator), scale)
