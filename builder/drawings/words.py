"""Numbers as a drawing writes them: both units, each held to its unit by a no-break space."""

from __future__ import annotations

from fractions import Fraction

from builder.guide.model import Guide, Thing, Value
from builder.guide.wording.pieces import NUMBER, Sentence
from builder.quantities.exact import Exact
from builder.quantities.quantity import read_quantity
from builder.quantities.show import Units, show_toleranced, shown, tell
from builder.quantities.units import Dimension
from builder.quantities.values import Quantity, length

NO_BREAK = "\N{NO-BREAK SPACE}"

OWN_FINENESS = ("outside", "inside", "diameter", "thickness", "wall", "over_seam")
"""Measures that no ruler takes: they are shown as finely as they are."""


def _held(text: str) -> str:
    return text.replace(" ", NO_BREAK).replace(f"{NO_BREAK}(", " (").replace(f"about{NO_BREAK}", "about ")


def held(said: Sentence) -> str:
    """A sentence in which no line ends between a number and its unit."""
    return "".join(_held(p.text) if p.kind == NUMBER else p.text for p in said.pieces)


def told_value(guide: Guide, value: Value, *, own: bool = False) -> str:
    """A number of the guide: as typed if it was typed, else to the guide's finest."""
    if value.quantity is None or not isinstance(guide.units, Units):
        return ""
    return _held(tell(value.quantity, guide.units, typed=value.typed or own))


def told_toleranced(guide: Guide, value: Value) -> str:
    """A number of the guide with its tolerance, if it has one."""
    q, off = value.quantity, value.plus_minus
    if q is None or not off or not isinstance(guide.units, Units):
        return told_value(guide, value)
    way = Quantity(Exact.of(off), q.dimension, q.unit)
    return _held(show_toleranced(q, way, guide.units, typed=value.typed))


def told_length(guide: Guide, text: str) -> tuple[str, float] | None:
    """A length that is written as text: in words, and in mm; None if it is no length."""
    read = read_quantity(text, Dimension.LENGTH)
    if not isinstance(read, Quantity) or not isinstance(guide.units, Units):
        return None
    return _held(tell(read, guide.units, typed=True)), float(read.base)


def told(guide: Guide, thing: Thing, field: str) -> str:
    """A number of a thing by field; empty if unknown."""
    value = thing.values.get(field)
    return "" if value is None else told_value(guide, value, own=field in OWN_FINENESS)


def told_mm(guide: Guide, mm: Fraction, both: bool = True) -> str:
    """A length that was worked out, to the guide's finest; without `both` in the first unit alone."""
    if not isinstance(guide.units, Units):
        return ""
    said = shown(length(mm, guide.units.first), guide.units, typed=False)
    if both:
        return _held(said.text)
    return _held(f"about {said.first}" if said.marked else said.first)


def told_angle(degrees: Fraction) -> str:
    """An angle to a tenth of a degree."""
    tenths = round(degrees * 10)
    return f"{tenths // 10}°" if tenths % 10 == 0 else f"{tenths // 10}.{tenths % 10}°"


def told_angle_of(degrees: float) -> str:
    """An angle that geometry gave, to a tenth of a degree."""
    return told_angle(Fraction(round(degrees * 10), 10))
