"""Quantities: an exact amount of something, in base units, with the unit that it was typed in."""

from __future__ import annotations

from fractions import Fraction

import msgspec

from builder.quantities.exact import Exact
from builder.quantities.units import INCH_UNITS, Dimension


class DimensionError(ValueError):
    """Two quantities that cannot be put together; the text is fit for a finding."""


class Quantity(msgspec.Struct, frozen=True, eq=False):
    """An exact amount in base units (mm, mm2, mL, g, s, deg, piece).

    `unit` is the unit as typed ("in", "min"); for money its ISO 4217 code.  `written` is how the
    value was typed, tidied ("12 1/2 in"); it is empty for what was computed.  Quantities are equal
    when they measure the same amount of the same thing, however they were typed.
    """

    amount: Exact
    dimension: Dimension
    unit: str
    written: str = ""

    @property
    def base(self) -> Fraction:
        """The amount in base units, with pi as a number."""
        return self.amount.rational

    def __eq__(self, other: object) -> bool:
        if not isinstance(other, Quantity):
            return NotImplemented
        return self.amount == other.amount and _comparable(self, other)

    def __hash__(self) -> int:
        return hash(self.amount)

    def __lt__(self, other: Quantity) -> bool:
        return _checked(self, other).amount > self.amount

    def __le__(self, other: Quantity) -> bool:
        return _checked(self, other).amount >= self.amount

    def __gt__(self, other: Quantity) -> bool:
        return _checked(self, other).amount < self.amount

    def __ge__(self, other: Quantity) -> bool:
        return _checked(self, other).amount <= self.amount

    def __add__(self, other: Quantity) -> Quantity:
        """Add a quantity of the same dimension.  Errors: DimensionError."""
        return self._joined(other, self.amount + other.amount, "be added to")

    def __sub__(self, other: Quantity) -> Quantity:
        """Subtract a quantity of the same dimension.  Errors: DimensionError."""
        return self._joined(other, self.amount - other.amount, "be taken from")

    def _joined(self, other: Quantity, amount: Exact, verb: str) -> Quantity:
        ours, theirs = self.dimension, other.dimension
        if ours is theirs:
            if ours is Dimension.MONEY and self.unit != other.unit:
                raise DimensionError(f"{other.unit} cannot {verb} {self.unit}")
            return Quantity(amount, ours, _common_unit(self.unit, other.unit))
        if {ours, theirs} == {Dimension.NUMBER, Dimension.COUNT}:
            return Quantity(amount, Dimension.COUNT, "piece")
        raise DimensionError(f"{_a(theirs)} cannot {verb} {_a(ours)}")

    def __mul__(self, other: Quantity | Exact | Fraction | int) -> Quantity:
        """Multiply; a length by a length is an area, an area by a length a volume.

        Errors: DimensionError where the product is none of our dimensions.
        """
        if not isinstance(other, Quantity):
            return self.scaled(other)
        ours, theirs = self.dimension, other.dimension
        if theirs in _COUNTING:
            return _scaled(self, other, self.amount * other.amount)
        if ours in _COUNTING:
            return _scaled(other, self, self.amount * other.amount)
        inch = _is_inch(self.unit) and _is_inch(other.unit)
        if ours is theirs is Dimension.LENGTH:
            return Quantity(self.amount * other.amount, Dimension.AREA, "sq in" if inch else "mm2")
        if {ours, theirs} == {Dimension.AREA, Dimension.LENGTH}:
            volume = self.amount * other.amount * Fraction(1, 1000)
            return Quantity(volume, Dimension.VOLUME, "cu in" if inch else "mL")
        raise DimensionError(f"{_a(ours)} cannot be multiplied by {_a(theirs)}")

    def __truediv__(self, other: Quantity | Exact | Fraction | int) -> Quantity:
        """Divide; like by like is a number.

        Errors: DimensionError; ZeroDivisionError; ValueError for a divisor with pi beside something else.
        """
        if not isinstance(other, Quantity):
            return Quantity(self.amount / Exact.of(other), self.dimension, self.unit)
        ours, theirs = self.dimension, other.dimension
        quotient = self.amount / other.amount
        if theirs in _COUNTING and ours not in _COUNTING:
            return Quantity(quotient, ours, self.unit)
        if theirs is Dimension.NUMBER:
            return Quantity(quotient, ours, "" if self.unit == "%" else self.unit)
        if ours is theirs and (ours is not Dimension.MONEY or self.unit == other.unit):
            return Quantity(quotient, Dimension.NUMBER, "")
        if ours is Dimension.NUMBER and theirs is Dimension.COUNT:
            return Quantity(quotient, Dimension.NUMBER, "")
        inch = _is_inch(self.unit) and _is_inch(other.unit)
        if (ours, theirs) == (Dimension.AREA, Dimension.LENGTH):
            return Quantity(quotient, Dimension.LENGTH, "in" if inch else "mm")
        if (ours, theirs) == (Dimension.VOLUME, Dimension.AREA):
            return Quantity(quotient * 1000, Dimension.LENGTH, "in" if inch else "mm")
        if (ours, theirs) == (Dimension.VOLUME, Dimension.LENGTH):
            return Quantity(quotient * 1000, Dimension.AREA, "sq in" if inch else "mm2")
        raise DimensionError(f"{_a(ours)} cannot be divided by {_a(theirs)}")

    def __neg__(self) -> Quantity:
        return Quantity(-self.amount, self.dimension, self.unit)

    def __abs__(self) -> Quantity:
        return -self if self.amount < 0 else self

    def scaled(self, n: Exact | Fraction | int) -> Quantity:
        """Return `n` times this quantity."""
        return Quantity(self.amount * n, self.dimension, self.unit)


_COUNTING = (Dimension.NUMBER, Dimension.COUNT)


def _scaled(of: Quantity, by: Quantity, amount: Exact) -> Quantity:
    if of.dimension is Dimension.NUMBER and by.dimension is Dimension.COUNT:
        return Quantity(amount, Dimension.COUNT, "piece")
    return Quantity(amount, of.dimension, "" if of.unit == "%" else of.unit)


def _a(dimension: Dimension) -> str:
    word = dimension.value
    return f"an {word}" if word[0] in "aeiou" else f"a {word}"


def _is_inch(unit: str) -> bool:
    return unit in INCH_UNITS or unit.endswith((" in", " ft"))


def _common_unit(left: str, right: str) -> str:
    """The unit of a sum: the inch wins when inch and metric are mixed."""
    if left == right:
        return left
    if left in INCH_UNITS or right in INCH_UNITS:
        return "in"
    return left or right


def _comparable(left: Quantity, right: Quantity) -> bool:
    if left.dimension is right.dimension:
        return left.dimension is not Dimension.MONEY or left.unit == right.unit
    return left.dimension in _COUNTING and right.dimension in _COUNTING


def _checked(left: Quantity, right: Quantity) -> Quantity:
    if not _comparable(left, right):
        raise DimensionError(f"{_a(left.dimension)} cannot be compared with {_a(right.dimension)}")
    return right


def a_dimension(dimension: Dimension) -> str:
    """Return the dimension with its article: "a length", "an angle"."""
    return _a(dimension)


def length(mm: Exact | Fraction | int, unit: str = "mm") -> Quantity:
    """Return a length of so many millimetres, shown in `unit`."""
    return Quantity(Exact.of(mm), Dimension.LENGTH, unit)


def number(x: Exact | Fraction | int) -> Quantity:
    """Return a plain number."""
    return Quantity(Exact.of(x), Dimension.NUMBER, "")


class Refusal(msgspec.Struct, frozen=True):
    """Why a text could not be read, for a finding.

    `message` says what is wrong and `hint` what to type; `start` and `length` are offsets, in
    characters, in the text that was read.
    """

    message: str
    hint: str
    start: int
    length: int

    def moved(self, by: int) -> Refusal:
        """Return the same refusal for a text that starts `by` characters earlier."""
        return Refusal(self.message, self.hint, self.start + by, self.length) if by else self


class Range(msgspec.Struct, frozen=True):
    """From `low` to `high`; a single value has both alike.

    `unbounded` is set for "from 48 h", which has no upper end (`high` is then the same as `low`).
    """

    low: Quantity
    high: Quantity
    unbounded: bool = False

    def holds(self, q: Quantity) -> bool:
        """Whether a quantity lies in the range, ends included."""
        return self.low <= q and (self.unbounded or q <= self.high)


class Size(msgspec.Struct, frozen=True):
    """Two lengths, in the order written: `14 in x 22 in`."""

    first: Quantity
    second: Quantity


class Window(msgspec.Struct, frozen=True):
    """Allowed intervals of time in seconds, ascending; None for no upper end."""

    allowed: tuple[tuple[Fraction, Fraction | None], ...]

    def allows(self, seconds: Fraction | int) -> bool:
        """Whether so many seconds lie in one of the intervals, ends included."""
        return any(low <= seconds and (high is None or seconds <= high) for low, high in self.allowed)

    def wait(self, seconds: Fraction | int) -> Fraction | None:
        """Return the least wait from here until it is allowed (0 if it is now), or None if never again."""
        for low, high in self.allowed:
            if high is None or seconds <= high:
                return max(low - seconds, Fraction(0))
        return None
