"""Sizes of materials, tools and parts in words, as a shopping list or a parts list says them."""

from __future__ import annotations

from builder.guide.model import Guide, Thing, Value
from builder.quantities.exact import Exact
from builder.quantities.show import Units, show, show_toleranced, shown, tell
from builder.quantities.units import Dimension
from builder.quantities.values import Quantity

_FLAT = ("sheet", "strip", "slab", "regular polygon")
_ROUND = ("rod", "tube", "ring", "disc", "turned", "screw")
MULTIPLY = " x "


def units_of(guide: Guide) -> Units:
    """The units that a guide shows."""
    assert isinstance(guide.units, Units)
    return guide.units


def value_text(value: Value, units: Units, *, ruler: bool = True) -> str:
    """A value with both units and its tolerance. `ruler` says that it is measured off with one."""
    quantity = value.quantity
    if quantity is None:
        return ""
    typed = value.typed or not ruler
    if value.plus_minus:
        off = Quantity(Exact.of(value.plus_minus), quantity.dimension, quantity.unit)
        return show_toleranced(quantity, off, units, typed=typed)
    return (
        show(quantity, units, typed=typed)
        if quantity.dimension is Dimension.LENGTH
        else tell(quantity, units)
    )


def by(first: Value, second: Value, units: Units, *, up: bool = False) -> str:
    """Two lengths of a flat piece: `14 in x 22 in (356 mm x 559 mm)`. With `up` it is a blank to be cut."""
    if first.quantity is None or second.quantity is None:
        return ""
    both = [
        shown(v.quantity, units, typed=v.typed, up=up and not v.typed) for v in (first, second) if v.quantity
    ]
    one = MULTIPLY.join(("about " if half.marked else "") + half.first for half in both)
    other = MULTIPLY.join(half.second for half in both if half.second)
    return f"{one} ({other})" if all(half.second for half in both) else one


def size_text(thing: Thing, units: Units) -> str:
    """The size of a thing: length and width of what is flat, diameters of what is round."""
    values = thing.values

    def told(field: str, word: str, *, ruler: bool = True) -> list[str]:
        value = values.get(field)
        text = value_text(value, units, ruler=ruler) if value is not None else ""
        return [f"{text} {word}"] if text else []

    if thing.form in _FLAT and "width" in values and "length" in values:
        if "across_flats" in values:
            size = told("across_flats", "across its flats")
        elif "root" in values:
            size = [*told("root", "at the root"), *told("span", "from root to tip")]
        else:
            text = by(values["length"], values["width"], units, up=bool(thing.blank_of))
            size = [text] if text else []
        return ", ".join([*size, *told("thickness", "thick", ruler=False)])
    if thing.form in _ROUND:
        size = told("length", "thick" if thing.form in ("ring", "disc") else "long")
        if "inside" in values:
            size += [*told("outside", "outside", ruler=False), *told("inside", "inside", ruler=False)]
        else:
            size += told("outside", "across", ruler=False)
        return ", ".join(size)
    return ", ".join(
        [*told("length", "long"), *told("width", "wide"), *told("thickness", "thick", ruler=False)]
    )
