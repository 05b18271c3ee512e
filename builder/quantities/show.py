"""Show quantities to people: the value first, the other unit system in brackets.

The rules, each applied once, at the end, to the exact value:

- What was typed shows as typed, its own unit first.  What is computed and measured with a ruler
  shows in the guide's first unit, rounded half to even to the guide's `finest`, and is marked
  "about" when that is not exact.
- All other computed values, and those that would round to nothing, keep their own fineness: an
  inch fraction down to 1/64 in, else 0.001 in; a metric value to 0.01 mm.  They are marked alike.
- A value with a tolerance has both to the same decimals: see `show_toleranced`.
- Millimetres in brackets: to 1 mm from 100 mm on, to 0.1 mm from 1 mm on, to 0.01 mm from 0.1 mm on,
  else to 0.001 mm; half to even (1/4 in is 6.4 mm, 3/4 in is 19.0 mm, 11 1/2 in is 292 mm).  They
  carry no mark.  Centimetres go one place further.
- Inches in brackets: the nearest 1/16 in from 1/8 in on, marked "about" when that is off by more
  than 1/64 in, which a ruler shows; below 1/8 in to 0.001 in.
- A negative value carries a minus sign; zero has no decimals.
"""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction

import msgspec

from builder.quantities.scan import with_unit
from builder.quantities.units import BY_WORD, INCH_UNITS, NO_MINOR_UNIT, THREE_PLACES, Dimension
from builder.quantities.values import Quantity

_INCH = Fraction(254, 10)
_FINEST_FRACTION = 64  # of an inch, on any ruler
_MOST_PLACES = 9  # decimals of the smallest value that is still told from nothing
_MM_PER = {"mm": Fraction(1), "cm": Fraction(10), "m": Fraction(1000), "in": _INCH}


class Units(msgspec.Struct, frozen=True):
    """A guide's units: the first and second unit of length ("in", "mm" or "cm") and its finest step."""

    first: str
    second: str
    finest: Quantity


class Shown(msgspec.Struct, frozen=True):
    """A length as it is shown: `first` without a mark, `second` for the brackets or None.

    `exact` says whether `first` is the true value; `marked` whether "about" is printed.
    """

    first: str
    second: str | None
    exact: bool
    marked: bool

    @property
    def text(self) -> str:
        """The whole: `about 2 1/2 in (64.1 mm)`."""
        first = f"about {self.first}" if self.marked else self.first
        return f"{first} ({self.second})" if self.second else first


def round_half_even(x: Fraction, step: Fraction) -> Fraction:
    """Round to a multiple of `step`, a tie to the even multiple (SP 811 B.7.1, ASTM E29).

    A step of zero rounds nothing.
    """
    return round(x / step) * step if step else x


def round_up(x: Fraction, step: Fraction) -> Fraction:
    """Round up to a multiple of `step`; a step of zero rounds nothing."""
    return -(-x // step) * step if step else x


def as_fraction_text(x: Fraction) -> str:
    """Return `2 1/2`, `3/4`, `5` or `-1/16`."""
    sign, x = ("-", -x) if x < 0 else ("", x)
    whole, rest = divmod(x.numerator, x.denominator)
    if not rest:
        return f"{sign}{whole}"
    fraction = f"{rest}/{x.denominator}"
    return f"{sign}{whole} {fraction}" if whole else f"{sign}{fraction}"


def as_decimal_text(x: Fraction, places: int) -> str:
    """Return `x` with so many decimals, rounded half to even: `19.0`."""
    units = round(x * 10**places)
    sign, units = ("-", -units) if units < 0 else ("", units)
    digits = str(units).rjust(places + 1, "0")
    return f"{sign}{digits[:-places]}.{digits[-places:]}" if places else f"{sign}{digits}"


def show(q: Quantity, units: Units, *, typed: bool = True, up: bool = False) -> str:
    """Return a length with both units: `2 1/2 in (63.5 mm)`.

    `typed` is for what is typed and for what a ruler does not measure; without it the value is
    rounded to the guide's finest, and with `up` (a blank to be cut) it is rounded up.  Another
    dimension is shown as `tell` shows it.
    """
    if q.dimension is Dimension.LENGTH:
        return shown(q, units, typed=typed, up=up).text
    return tell(q, units, typed=typed)


def shown(q: Quantity, units: Units, *, typed: bool = True, up: bool = False) -> Shown:
    """Return the two halves of a shown length.

    With `up` (a blank to be cut) the value is rounded up to the guide's finest; that is then the
    size, so both units say it and no mark is printed.
    """
    exact_mm = q.base
    step = units.finest.base
    if not step or (not up and (typed or (exact_mm and not round_half_even(exact_mm, step)))):
        if typed and q.written:
            first, exact, own = q.written, True, q.unit
        else:
            own = _own_unit(q.unit, units) if typed else units.first
            first, exact = _own_fineness(exact_mm, own)
            exact = exact and q.amount.is_rational
        other = next((u for u in (units.second, units.first) if _is_inch(u) != _is_inch(own)), None)
        return Shown(first, _bracket(exact_mm, other), exact, not exact)
    mm = round_up(exact_mm, step) if up else round_half_even(exact_mm, step)
    exact = mm == exact_mm and q.amount.is_rational
    first = _stepped(mm, units.first, step)
    other = units.second if units.second != units.first else None
    return Shown(first, _bracket(mm if up else exact_mm, other), exact, not exact and not up)


def show_toleranced(value: Quantity, plus_minus: Quantity, units: Units, *, typed: bool = True) -> str:
    """Return `12 1/2 in ± 1/32 in (317.5 mm ± 0.8 mm)`.

    In brackets the tolerance is told to 0.1 mm or 0.001 in, or finer where it is less than that, and
    the value to as many decimals, so that neither limit moves by more than the last
    decimal (the regular method of SP 811 B.7.2).
    """
    if value.dimension is not Dimension.LENGTH:
        return f"{tell(value, units, typed=typed)} ± {tell(plus_minus, units, typed=typed)}"
    first, off = shown(value, units, typed=typed), shown(plus_minus, units, typed=True)
    mark = "about " if first.marked else ""
    own = value.unit if typed else units.first
    other = next((u for u in (units.second, units.first) if _is_inch(u) != _is_inch(own)), None)
    if other is None:
        return f"{mark}{first.first} ± {off.first}"
    size = _MM_PER[other]
    places = {"in": 3, "mm": 1, "cm": 2, "m": 4}[other]
    while plus_minus.base and plus_minus.base * 10**places < size and places < _MOST_PLACES:
        places += 1
    second = " ± ".join(f"{as_decimal_text(q.base / size, places)} {other}" for q in (value, plus_minus))
    return f"{mark}{first.first} ± {off.first} ({second})"


def shown_value(q: Quantity, units: Units, *, typed: bool = True) -> Fraction:
    """Return, in mm, the number that a reader finds first where a length is shown.

    That is the exact value where it shows as typed, else the value rounded to the guide's finest.
    """
    if typed and q.written:
        return q.base
    return round_half_even(q.base, units.finest.base)


def chain_closes_as_shown(
    parts: Iterable[Quantity], total: Quantity, units: Units, *, typed: bool = True
) -> bool:
    """Whether the values of the parts, as they show before the brackets, sum to the total as it shows."""
    sum_shown = sum((shown_value(part, units, typed=typed) for part in parts), Fraction(0))
    return sum_shown == shown_value(total, units, typed=typed)


def _is_inch(unit: str) -> bool:
    return unit in INCH_UNITS


def _own_unit(unit: str, units: Units) -> str:
    """The unit that a computed length is shown in: its own, if that is one that rulers have."""
    if unit in _MM_PER:
        return unit
    if _is_inch(unit):
        return "in"
    return units.first


def _power_of_two(n: int) -> bool:
    return n & (n - 1) == 0


def _own_fineness(mm: Fraction, unit: str) -> tuple[str, bool]:
    """A computed length in its own unit and fineness; and whether that is exact."""
    x = mm / _MM_PER[unit]
    if unit == "in":
        if _power_of_two(x.denominator) and x.denominator <= _FINEST_FRACTION:
            return f"{as_fraction_text(x)} in", True
        places = 3
    else:
        places = _places(x, {"mm": 2, "cm": 3, "m": 5}[unit])
    places = _enough(x, places)
    return f"{as_decimal_text(x, places)} {unit}", x * 10**places == round(x * 10**places)


def _places(x: Fraction, most: int) -> int:
    """The fewest decimals that show x, up to `most`, after rounding it to so many."""
    units, places = round(x * 10**most), most
    while places and units % 10 == 0:
        units //= 10
        places -= 1
    return places


def _enough(x: Fraction, places: int) -> int:
    """So many decimals, or more where something would show as nothing."""
    while x and places < _MOST_PLACES and not round(x * 10**places):
        places += 1
    return places


def _stepped(mm: Fraction, unit: str, step: Fraction) -> str:
    """A multiple of the guide's finest, in the guide's first unit."""
    x, step = mm / _MM_PER[unit], step / _MM_PER[unit]
    if _power_of_two(step.denominator) and unit == "in":
        return f"{as_fraction_text(x)} in"
    return f"{as_decimal_text(x, _places(step, 4))} {unit}"


def _bracket(mm: Fraction, unit: str | None) -> str | None:
    """A length in the second unit, by the rules at the top of this module."""
    if unit is None:
        return None
    if not mm:
        return f"0 {unit}"
    return _bracket_inches(mm) if unit == "in" else _bracket_metric(mm, unit)


def _bracket_metric(mm: Fraction, unit: str) -> str:
    size = abs(mm)
    shift = {"mm": 0, "cm": 1, "m": 3}[unit]
    # a value that rounds up to the next bound is shown by the coarser rule: 99.96 mm is 100 mm
    if round(size * 10) >= 1000:
        places = 0
    elif round(size * 100) >= 100:
        places = 1
    elif round(size * 1000) >= 100:
        places = 2
    else:
        places = 3
    x = mm / 10**shift
    return f"{as_decimal_text(x, _enough(x, places + shift))} {unit}"


def _bracket_inches(mm: Fraction) -> str:
    x = mm / _INCH
    if abs(x) < Fraction(1, 8):
        return f"{as_decimal_text(x, _enough(x, 3))} in"
    near = round_half_even(x, Fraction(1, 16))
    mark = "about " if abs(near - x) > Fraction(1, 64) else ""
    return f"{mark}{as_fraction_text(near)} in"


def show_time(seconds: Quantity | Fraction | int, *, up: bool = False) -> str:
    """Return `1 h 30 min`, `45 s`, `24 h`, `3 days`.

    Rounded half to even (up, with `up`): to 1 s below 10 min, to 1 min from there on.  Whole days
    from 3 days on are told in days.
    """
    exact = seconds.base if isinstance(seconds, Quantity) else Fraction(seconds)
    sign, exact = ("-", -exact) if exact < 0 else ("", exact)
    rounding = round_up if up else round_half_even
    whole = int(rounding(exact, Fraction(1)))
    if whole >= 600:
        whole = int(rounding(exact, Fraction(60)))
    days, hours = divmod(whole, 86400)
    if days >= 3 and not hours:
        return f"{sign}{days} days"
    hours, rest = divmod(whole, 3600)
    minutes, rest = divmod(rest, 60)
    parts = [f"{n} {unit}" for n, unit in ((hours, "h"), (minutes, "min"), (rest, "s")) if n]
    return f"{sign}{' '.join(parts) or '0 min'}"


def show_angle(q: Quantity) -> str:
    """Return `45°`, `22.5°`, `51.4°`: to 0.1 of a degree, half to even."""
    return f"{as_decimal_text(q.base, _places(q.base, 1))}°"


def show_count(q: Quantity) -> str:
    """Return `1 piece`, `4 pieces`, `2 1/2 pieces`."""
    return with_unit(show_number(q), "piece", 0 < q.base <= 1)


def show_number(q: Quantity) -> str:
    """Return `4`, `1/2`, `0.35`, `10 %`: a plain fraction if it is one, else to three decimals."""
    x = q.base
    if q.unit == "%":
        return f"{as_decimal_text(x * 100, _places(x * 100, 2))} %"
    if x.denominator <= 16 and _power_of_two(x.denominator):
        return as_fraction_text(x)
    return as_decimal_text(x, _places(x, 3))


def show_money(q: Quantity) -> str:
    """Return `21.00 USD`, with the decimals that ISO 4217 gives the code."""
    code = f" {q.unit} "
    places = 0 if code in NO_MINOR_UNIT else 3 if code in THREE_PLACES else 2
    return f"{as_decimal_text(q.base, places)} {q.unit}"


def show_volume(q: Quantity, *, typed: bool = True) -> str:
    """Return `20 mL (0.68 fl oz)` or `1 fl oz (29.6 mL)`: metric to 3 digits, US to 2."""
    return _both(q, _METRIC_VOLUME, _US_VOLUME, typed)


def show_mass(q: Quantity, *, typed: bool = True) -> str:
    """Return `1 1/2 oz (42.5 g)` or `40 g (1.4 oz)`: metric to 3 digits, US to 2."""
    return _both(q, _METRIC_MASS, _US_MASS, typed)


def show_area(q: Quantity, *, typed: bool = True) -> str:
    """Return `12 sq in (77.4 cm2)` or `600 cm2 (93 sq in)`: metric to 3 digits, US to 2."""
    return _both(q, _METRIC_AREA, _US_AREA, typed)


# Units from which the largest that makes at least 1 is taken, largest first.
_METRIC_VOLUME, _US_VOLUME = ("L", "mL"), ("fl oz",)
_METRIC_MASS, _US_MASS = ("kg", "g", "mg"), ("lb", "oz")
_METRIC_AREA, _US_AREA = ("m2", "cm2", "mm2"), ("sq ft", "sq in")


def _both(q: Quantity, metric: tuple[str, ...], us: tuple[str, ...], typed: bool) -> str:
    own_metric = q.unit in metric or q.unit in ("cm3", "mm3")
    ours, theirs = (metric, us) if own_metric else (us, metric)
    digits = 3 if own_metric else 2
    first = q.written if typed and q.written else _digits(q.base, ours, digits)
    return f"{first} ({_digits(q.base, theirs, 5 - digits)})"


def _digits(base: Fraction, symbols: tuple[str, ...], digits: int) -> str:
    """The value in the largest fitting unit, to so many significant digits, at most 3 decimals."""
    symbol = next((s for s in symbols if abs(base) >= BY_WORD[s].factor), symbols[-1])
    x = base / BY_WORD[symbol].factor
    places = 0
    while places < 3 and round(abs(x) * 10**places) < 10 ** (digits - 1):
        places += 1
    return f"{as_decimal_text(x, _places(x, places))} {symbol}"


def tell(q: Quantity, units: Units, *, typed: bool = True) -> str:
    """Return any quantity as a reader should see it, both units where there are two."""
    dimension = q.dimension
    if dimension is Dimension.LENGTH:
        return shown(q, units, typed=typed).text
    if dimension is Dimension.AREA:
        return show_area(q, typed=typed)
    if dimension is Dimension.VOLUME:
        return show_volume(q, typed=typed)
    if dimension is Dimension.MASS:
        return show_mass(q, typed=typed)
    if typed and q.written:
        return q.written
    if dimension is Dimension.TIME:
        return show_time(q)
    if dimension is Dimension.ANGLE:
        return show_angle(q)
    if dimension is Dimension.COUNT:
        return show_number(q) if not q.unit else show_count(q)
    if dimension is Dimension.MONEY:
        return show_money(q)
    return show_number(q)
