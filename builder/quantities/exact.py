"""Exact numbers: rational numbers with pi kept as a symbol.

A wrap width such as `4 * pi * (1 1/4 in + 4 * 0.010 in)` stays exact through every sum; pi becomes
a number only when a value is compared or shown, so nothing is ever rounded twice.
"""

from __future__ import annotations

from fractions import Fraction

# Sixty decimals of pi, cut off (not rounded).  Far finer than anything that is shown or compared.
PI_RATIONAL = Fraction(3141592653589793238462643383279502884197169399375105820974944, 10**60)

_ZERO = Fraction(0)


class Exact:
    """The immutable number `sum(terms[k] * pi ** (k + shift))`, with `terms` a tuple of Fractions.

    `shift` is 0 except for numbers that were divided by pi; a number without pi has one term and
    shift 0.  Equality is exact; order is judged with PI_RATIONAL.
    """

    __slots__ = ("_rational", "_shift", "_terms")

    _terms: tuple[Fraction, ...]
    _shift: int
    _rational: Fraction | None

    def __new__(cls, value: int | Fraction = 0) -> Exact:
        return _plain(Fraction(value))

    @staticmethod
    def of(x: int | Fraction | Exact) -> Exact:
        """Return `x` as an exact number."""
        return x if isinstance(x, Exact) else _plain(Fraction(x))

    @property
    def terms(self) -> tuple[Fraction, ...]:
        return self._terms

    @property
    def shift(self) -> int:
        """The power of pi that the first term stands for (0, or less after a division by pi)."""
        return self._shift

    @property
    def is_rational(self) -> bool:
        """Whether the number holds no pi."""
        return len(self._terms) == 1 and self._shift == 0

    @property
    def rational(self) -> Fraction:
        """The number with pi replaced by PI_RATIONAL; exact where there is no pi."""
        found = self._rational
        if found is None:
            found = _ZERO
            for coefficient in reversed(self._terms):
                found = found * PI_RATIONAL + coefficient
            found *= PI_RATIONAL**self._shift
            self._rational = found
        return found

    def __add__(self, other: Exact | Fraction | int) -> Exact:
        other = other if isinstance(other, Exact) else _plain(Fraction(other))
        if self.is_rational and other.is_rational:
            return _plain(self._terms[0] + other._terms[0])
        low = min(self._shift, other._shift)
        high = max(self._shift + len(self._terms), other._shift + len(other._terms))
        terms = [_ZERO] * (high - low)
        for number in (self, other):
            for k, coefficient in enumerate(number._terms, number._shift - low):
                terms[k] += coefficient
        return _tidy(terms, low)

    def __sub__(self, other: Exact | Fraction | int) -> Exact:
        return self + (-Exact.of(other))

    def __mul__(self, other: Exact | Fraction | int) -> Exact:
        other = other if isinstance(other, Exact) else _plain(Fraction(other))
        if self.is_rational and other.is_rational:
            return _plain(self._terms[0] * other._terms[0])
        terms = [_ZERO] * (len(self._terms) + len(other._terms) - 1)
        for i, left in enumerate(self._terms):
            for j, right in enumerate(other._terms):
                terms[i + j] += left * right
        return _tidy(terms, self._shift + other._shift)

    def __truediv__(self, other: Exact | Fraction | int) -> Exact:
        """Divide by a number of one term.

        Errors: ZeroDivisionError for zero; ValueError for a divisor of several terms (`1 + pi`),
        whose reciprocal is not a sum of powers of pi.
        """
        other = other if isinstance(other, Exact) else _plain(Fraction(other))
        if self.is_rational and other.is_rational:
            return _plain(self._terms[0] / other._terms[0])
        filled = [(k, c) for k, c in enumerate(other._terms, other._shift) if c]
        if not filled:
            raise ZeroDivisionError("division by zero")
        if len(filled) > 1:
            raise ValueError("division by a sum that holds pi beside something else")
        power, divisor = filled[0]
        return _tidy([c / divisor for c in self._terms], self._shift - power)

    def __radd__(self, other: Fraction | int) -> Exact:
        return self + other

    def __rsub__(self, other: Fraction | int) -> Exact:
        return Exact.of(other) - self

    def __rmul__(self, other: Fraction | int) -> Exact:
        return self * other

    def __rtruediv__(self, other: Fraction | int) -> Exact:
        return Exact.of(other) / self

    def __neg__(self) -> Exact:
        if self.is_rational:
            return _plain(-self._terms[0])
        return _tidy([-c for c in self._terms], self._shift)

    def __abs__(self) -> Exact:
        return -self if self < 0 else self

    def __bool__(self) -> bool:
        return len(self._terms) > 1 or self._shift != 0 or bool(self._terms[0])

    def __eq__(self, other: object) -> bool:
        if isinstance(other, Exact):
            return self._terms == other._terms and self._shift == other._shift
        if isinstance(other, (int, Fraction)):
            return self.is_rational and self._terms[0] == other
        return NotImplemented

    def __hash__(self) -> int:
        return hash(self._terms[0]) if self.is_rational else hash((self._terms, self._shift))

    def __lt__(self, other: Exact | Fraction | int) -> bool:
        return self != other and self.rational < _rational_of(other)

    def __le__(self, other: Exact | Fraction | int) -> bool:
        return self == other or self.rational <= _rational_of(other)

    def __gt__(self, other: Exact | Fraction | int) -> bool:
        return self != other and self.rational > _rational_of(other)

    def __ge__(self, other: Exact | Fraction | int) -> bool:
        return self == other or self.rational >= _rational_of(other)

    def __repr__(self) -> str:
        parts = [
            str(c) if k == 0 else f"{c}*pi" if k == 1 else f"{c}*pi**{k}"
            for k, c in enumerate(self._terms, self._shift)
            if c
        ]
        return f"Exact({' + '.join(parts) or '0'})"

    def __reduce__(self) -> tuple[object, tuple[list[Fraction], int]]:
        return _tidy, (list(self._terms), self._shift)


def _rational_of(x: Exact | Fraction | int) -> Fraction | int:
    return x.rational if isinstance(x, Exact) else x


def _plain(value: Fraction) -> Exact:
    number = object.__new__(Exact)
    number._terms = (value,)
    number._shift = 0
    number._rational = value
    return number


def _tidy(terms: list[Fraction], shift: int) -> Exact:
    """Build the one normal form: no zero at the top, shift never above 0, and below 0 only if needed."""
    if shift > 0:
        terms = [_ZERO] * shift + terms
        shift = 0
    while len(terms) > 1 and not terms[-1]:
        terms.pop()
    drop = 0
    while shift + drop < 0 and drop < len(terms) - 1 and not terms[drop]:
        drop += 1
    terms = terms[drop:]
    shift += drop
    if len(terms) == 1 and not terms[0]:
        shift = 0
    if len(terms) == 1 and shift == 0:
        return _plain(terms[0])
    number = object.__new__(Exact)
    number._terms = tuple(terms)
    number._shift = shift
    number._rational = None
    return number


PI = _tidy([_ZERO, Fraction(1)], 0)
ZERO = _plain(_ZERO)
