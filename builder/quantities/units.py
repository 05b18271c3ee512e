"""The units that a guide may use, and what a number of each is in base units.

Base units: mm, mm2, mL, g, s, deg, piece.  Factors: 16 CFR 500.19 (inch, foot, yard, mil, ounce,
pound, US fluid measures; all of them exact), the SI prefixes, and ISO 4217 for money.
"""

from __future__ import annotations

import enum
from fractions import Fraction

import msgspec


class Dimension(enum.Enum):
    """What a quantity measures; the value is the word that findings use."""

    NUMBER = "number"
    COUNT = "count"
    LENGTH = "length"
    AREA = "area"
    VOLUME = "volume"
    MASS = "mass"
    TIME = "time"
    ANGLE = "angle"
    MONEY = "sum of money"


class Unit(msgspec.Struct, frozen=True, gc=False):
    """One unit: the symbol that is printed, what it measures, and its size in base units."""

    symbol: str
    dimension: Dimension
    factor: Fraction
    words: tuple[str, ...] = ()  # other ways to type it


_INCH = Fraction(254, 10)  # mm, exact
_OUNCE = Fraction(45359237, 1600000)  # g: a pound is 453.592 37 g exactly
_FLUID_OUNCE = Fraction(473176473, 16000000)  # mL: a US gallon is 231 cubic inches
_F = Fraction
_D = Dimension

UNITS: tuple[Unit, ...] = (
    Unit("mm", _D.LENGTH, _F(1), ("millimetre", "millimetres", "millimeter", "millimeters")),
    Unit("cm", _D.LENGTH, _F(10), ("centimetre", "centimetres", "centimeter", "centimeters")),
    Unit("m", _D.LENGTH, _F(1000), ("metre", "metres", "meter", "meters")),
    Unit("in", _D.LENGTH, _INCH, ("inch", "inches", '"', "″", "”", "''")),
    Unit("ft", _D.LENGTH, _INCH * 12, ("foot", "feet", "'", "′", "’")),
    Unit("yd", _D.LENGTH, _INCH * 36, ("yard", "yards", "yds")),
    Unit("mil", _D.LENGTH, _INCH / 1000, ("mils", "thou")),
    Unit("mm2", _D.AREA, _F(1), ("mm²", "sq mm", "square millimetres", "square millimeters")),
    Unit("cm2", _D.AREA, _F(100), ("cm²", "sq cm", "square centimetres", "square centimeters")),
    Unit("m2", _D.AREA, _F(10**6), ("m²", "sq m", "square metres", "square meters")),
    Unit("sq in", _D.AREA, _INCH**2, ("in2", "in²", "square inch", "square inches")),
    Unit("sq ft", _D.AREA, (_INCH * 12) ** 2, ("ft2", "ft²", "square foot", "square feet")),
    Unit("mL", _D.VOLUME, _F(1), ("ml", "millilitre", "millilitres", "milliliter", "milliliters")),
    Unit("L", _D.VOLUME, _F(1000), ("l", "litre", "litres", "liter", "liters")),
    Unit("cm3", _D.VOLUME, _F(1), ("cm³", "cc", "cu cm", "cubic centimetres", "cubic centimeters")),
    Unit("mm3", _D.VOLUME, _F(1, 1000), ("mm³", "cu mm", "cubic millimetres", "cubic millimeters")),
    Unit("cu in", _D.VOLUME, _INCH**3 / 1000, ("in3", "in³", "cubic inch", "cubic inches")),
    Unit("fl oz", _D.VOLUME, _FLUID_OUNCE, ("floz", "fluid ounce", "fluid ounces")),
    Unit("tsp", _D.VOLUME, _FLUID_OUNCE / 6, ("teaspoon", "teaspoons")),
    Unit("tbsp", _D.VOLUME, _FLUID_OUNCE / 2, ("tablespoon", "tablespoons")),
    Unit("cup", _D.VOLUME, _FLUID_OUNCE * 8, ("cups",)),
    Unit("pint", _D.VOLUME, _FLUID_OUNCE * 16, ("pints", "pt")),
    Unit("quart", _D.VOLUME, _FLUID_OUNCE * 32, ("quarts", "qt")),
    Unit("gallon", _D.VOLUME, _FLUID_OUNCE * 128, ("gallons", "gal")),
    Unit("g", _D.MASS, _F(1), ("gram", "grams")),
    Unit("kg", _D.MASS, _F(1000), ("kilogram", "kilograms", "kilo", "kilos")),
    Unit("mg", _D.MASS, _F(1, 1000), ("milligram", "milligrams")),
    Unit("oz", _D.MASS, _OUNCE, ("ounce", "ounces", "oz avdp")),
    Unit("lb", _D.MASS, _OUNCE * 16, ("lbs", "pound", "pounds", "lb avdp")),
    Unit("s", _D.TIME, _F(1), ("sec", "secs", "second", "seconds")),
    Unit("min", _D.TIME, _F(60), ("mins", "minute", "minutes")),
    Unit("h", _D.TIME, _F(3600), ("hr", "hrs", "hour", "hours")),
    Unit("day", _D.TIME, _F(86400), ("days", "d")),
    Unit("week", _D.TIME, _F(604800), ("weeks", "wk", "wks")),
    Unit("deg", _D.ANGLE, _F(1), ("°", "degree", "degrees", "degs")),
    Unit("piece", _D.COUNT, _F(1), ("pieces", "pc", "pcs")),
    Unit("%", _D.NUMBER, _F(1, 100), ("percent", "per cent")),
)

BY_WORD: dict[str, Unit] = {word: unit for unit in UNITS for word in (unit.symbol, *unit.words)}

# The active currencies of ISO 4217 (from memory); a code is always three capitals.
CURRENCIES = (
    " AED AFN ALL AMD ANG AOA ARS AUD AWG AZN BAM BBD BDT BGN BHD BIF BMD BND BOB BRL BSD BTN BWP BYN BZD"
    " CAD CDF CHF CLP CNY COP CRC CUP CVE CZK DJF DKK DOP DZD EGP ERN ETB EUR FJD FKP GBP GEL GHS GIP GMD"
    " GNF GTQ GYD HKD HNL HTG HUF IDR ILS INR IQD IRR ISK JMD JOD JPY KES KGS KHR KMF KPW KRW KWD KYD KZT"
    " LAK LBP LKR LRD LSL LYD MAD MDL MGA MKD MMK MNT MOP MRU MUR MVR MWK MXN MYR MZN NAD NGN NIO NOK NPR"
    " NZD OMR PAB PEN PGK PHP PKR PLN PYG QAR RON RSD RUB RWF SAR SBD SCR SDG SEK SGD SHP SLE SOS SRD SSP"
    " STN SVC SYP SZL THB TJS TMT TND TOP TRY TTD TWD TZS UAH UGX USD UYU UZS VED VES VND VUV WST XAF XCD"
    " XOF XPF YER ZAR ZMW ZWG "
)
# ISO 4217 minor units where they are not two.
NO_MINOR_UNIT = " BIF CLP DJF GNF ISK JPY KMF KRW PYG RWF UGX VND VUV XAF XOF XPF "
THREE_PLACES = " BHD IQD JOD KWD LYD OMR TND "

INCH_UNITS = frozenset({"in", "ft", "yd", "mil"})


def find_unit(word: str) -> Unit | None:
    """Return the unit that a word names (`inches`, `mm`, `USD`), or None.

    Spaces and a full stop at the end do not matter; capitals do not where no other unit has them.
    """
    unit = BY_WORD.get(word)
    if unit is not None:
        return unit
    if len(word) == 3 and f" {word} " in CURRENCIES:
        return Unit(word, Dimension.MONEY, Fraction(1))
    plain = " ".join(word.rstrip(".").replace(". ", " ").split())
    return BY_WORD.get(plain) or (BY_WORD.get(plain.lower()) if len(plain) > 1 else None)


def near_unit(word: str) -> str | None:
    """Return the known unit word that `word` was probably meant to be, for a "did you mean"."""
    from difflib import get_close_matches  # only on the way to a finding

    plain = word.strip(" .").lower()
    if len(plain) == 3 and f" {plain.upper()} " in CURRENCIES:
        return plain.upper()
    near = get_close_matches(plain, [w for w in BY_WORD if len(w) > 1 and w.isascii()], 1, 0.6)
    return near[0] if near else None
