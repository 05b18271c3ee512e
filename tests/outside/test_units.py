"""Unit factors against 16 CFR 500.19 (Fair Packaging and Labeling Act) and against pint.

Rows marked "from memory" are the exact legal definitions behind the factors that 16 CFR 500.19
prints rounded (international pound 0.453 592 37 kg; US gallon 231 cubic inches); pint, with Fractions
for its numbers, holds the same ones.
"""

from __future__ import annotations

from fractions import Fraction as F
from typing import Any

import pint
import pytest

from builder.quantities.quantity import Dimension, Quantity, read_quantity
from builder.quantities.show import as_decimal_text
from builder.quantities.sums import Sum, evaluate, read_sum
from builder.quantities.units import UNITS


def base(text: str) -> F:
    q = read_quantity(text)
    assert isinstance(q, Quantity), q
    return q.base


# 16 CFR 500.19, the factors marked there as exact.
CFR_EXACT = [
    ("1 in", "2.54 cm"),
    ("1 ft", "30.48 cm"),
    ("1 yd", "0.9144 m"),
    ("1 sq in", "6.4516 cm2"),
    ("1 sq ft", "929.0304 cm2"),
    ("1 mil", "0.0254 mm"),
    ("1 mm", "0.1 cm"),
    ("1 m", "100 cm"),
    ("1 kg", "1000 g"),
    ("1 L", "1000 mL"),
]


@pytest.mark.parametrize(("left", "right"), CFR_EXACT)
def test_exact_factors_of_16_cfr_500_19(left: str, right: str) -> None:
    assert base(left) == base(right)


# 16 CFR 500.19, the factors printed there to six digits: unit, factor as printed, its unit.
CFR_PRINTED = [
    ("1 mm", "0.039370", "in"),
    ("1 cm", "0.393701", "in"),
    ("1 m", "3.28084", "ft"),
    ("1 cm2", "0.155000", "sq in"),
    ("1 m2", "10.7639", "sq ft"),
    ("1 cu in", "16.3871", "cm3"),
    ("1 cm3", "0.0610237", "cu in"),
    ("1 fl oz", "29.5735", "mL"),
    ("1 mL", "0.0338140", "fl oz"),
    ("1 quart", "946.353", "mL"),
    ("1 L", "1.05669", "quart"),
    ("1 L", "0.264172", "gallon"),
    ("1 gallon", "3.78541", "L"),
    ("1 oz", "28.3495", "g"),
    ("1 g", "0.0352740", "oz"),
    ("1 lb", "453.592", "g"),
    ("1 kg", "2.20462", "lb"),
]


@pytest.mark.parametrize(("text", "printed", "unit"), CFR_PRINTED)
def test_rounded_factors_of_16_cfr_500_19(text: str, printed: str, unit: str) -> None:
    places = len(printed.partition(".")[2])
    assert as_decimal_text(base(text) / base(f"1 {unit}"), places) == printed


def test_the_pint_is_printed_as_half_of_the_printed_quart() -> None:
    """16 CFR 500.19 prints 473.177 mL; the definition gives 473.176 473, which is nearer to 473.176."""
    assert abs(base("1 pint") - F("473.177")) < F(1, 1000)
    assert base("1 pint") * 2 == base("1 quart")


# The exact definitions (from memory; pint agrees below).
DEFINED = [
    ("1 oz", F("28.349523125")),
    ("1 lb", F("453.59237")),
    ("1 fl oz", F("29.5735295625")),
    ("1 pint", F("473.176473")),
    ("1 quart", F("946.352946")),
    ("1 gallon", F("3785.411784")),
    ("1 cup", F("236.5882365")),
    ("1 tbsp", F("14.78676478125")),
    ("1 tsp", F("4.92892159375")),
    ("1 cu in", F("16.387064")),  # 2.54 ** 3
]


@pytest.mark.parametrize(("text", "amount"), DEFINED)
def test_exact_definitions(text: str, amount: F) -> None:
    assert base(text) == amount


# Our symbol and pint's name for the same unit; our base unit of each dimension in pint's names.
PINT_NAMES = {
    **{"in": "inch", "ft": "foot", "yd": "yard", "mil": "thou", "mm": "millimeter", "cm": "centimeter"},
    **{"m": "meter", "mm2": "millimeter**2", "cm2": "centimeter**2", "m2": "meter**2", "sq in": "inch**2"},
    **{"sq ft": "foot**2", "mL": "milliliter", "L": "liter", "cm3": "centimeter**3", "mm3": "millimeter**3"},
    **{"cu in": "inch**3", "fl oz": "fluid_ounce", "tsp": "teaspoon", "tbsp": "tablespoon", "cup": "cup"},
    **{"pint": "pint", "quart": "quart", "gallon": "gallon", "g": "gram", "kg": "kilogram", "oz": "ounce"},
    **{"mg": "milligram", "lb": "pound", "s": "second", "min": "minute", "h": "hour", "day": "day"},
    **{"week": "week"},
}
PINT_BASES = {
    Dimension.LENGTH: "millimeter",
    Dimension.AREA: "millimeter**2",
    Dimension.VOLUME: "milliliter",
    Dimension.MASS: "gram",
    Dimension.TIME: "second",
}


@pytest.fixture(scope="module")
def pint_registry() -> Any:
    # With floats a foot is 0.30479999999999996 m; with Fractions pint is exact.
    return pint.UnitRegistry(non_int_type=F)


def test_every_unit_is_pints(pint_registry: Any) -> None:
    unknown_to_pint = {"deg", "piece", "%"}  # an angle in radians, a count and a share
    for unit in UNITS:
        if unit.symbol in unknown_to_pint:
            continue
        theirs = pint_registry.Quantity(F(1), PINT_NAMES[unit.symbol]).to(PINT_BASES[unit.dimension])
        assert theirs.magnitude == unit.factor, unit


# Sums whose value pint works out as well: ours, then the same for pint.
SUMS = [
    ("12 1/2 in + 3 mm", [("inch", F(25, 2), 1), ("millimeter", F(3), 1)], "millimeter"),
    ("1 ft 2 in - 5 cm", [("inch", F(14), 1), ("centimeter", F(5), -1)], "millimeter"),
    ("1 h 30 min + 45 s", [("minute", F(90), 1), ("second", F(45), 1)], "second"),
    ("1 lb 4 oz - 100 g", [("ounce", F(20), 1), ("gram", F(100), -1)], "gram"),
    ("2 fl oz + 1 tsp", [("fluid_ounce", F(2), 1), ("teaspoon", F(1), 1)], "milliliter"),
]


@pytest.mark.parametrize(("text", "parts", "unit"), SUMS, ids=[s[0] for s in SUMS])
def test_sums_against_pint(text: str, parts: list[tuple[str, F, int]], unit: str, pint_registry: Any) -> None:
    total = read_sum(text)
    assert isinstance(total, Sum)
    ours = evaluate(total, lambda _name: None)
    assert isinstance(ours, Quantity)
    theirs = sum(sign * pint_registry.Quantity(value, name).to(unit) for name, value, sign in parts)
    assert ours.base == theirs.magnitude


def test_products_against_pint(pint_registry: Any) -> None:
    total = read_sum("14 in * 22 in * 0.010 in")
    assert isinstance(total, Sum)
    ours = evaluate(total, lambda _name: None)
    assert isinstance(ours, Quantity)
    inch = pint_registry.Quantity(F(1), "inch")
    theirs = (14 * inch * 22 * inch * F(1, 100) * inch).to("milliliter")
    assert (ours.base, ours.dimension) == (theirs.magnitude, Dimension.VOLUME)
