"""Every number of a guide by name, written or worked out, and which of them a writer means."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction
from typing import cast

from builder.guide.model import Action, Angle, Guide, SizeValue, Spot, Thing, Value
from builder.quantities.exact import Exact
from builder.quantities.show import Units, show, shown
from builder.quantities.sums import Sum, read_sum
from builder.quantities.units import Dimension
from builder.quantities.values import Quantity


def numbers_of(guide: Guide) -> dict[str, Value]:
    """Name -> value, in the order of the guide; a number that could not be worked out is left out.

    `body.length` is a field of a thing, `body.tail` a zone, `body.tail.end` where it ends (measured from
    where its chain begins), `mark_tube.1.at` a number in the first action of a step.
    """
    found: dict[str, Value] = dict(guide.dimensions)
    for thing in guide.things.values():
        found.update((f"{thing.id}.{field}", value) for field, value in thing.values.items())
        found.update(_of_shape(thing))
    for step in guide.every_step():
        times = (("time", step.time), ("time.set_up", step.set_up))
        found.update((f"{step.id}.{name}", value) for name, value in times if value is not None)
        for action in step.each_action():
            found.update(_of_action(action))
    return {name: value for name, value in found.items() if value.quantity is not None}


def _of_shape(thing: Thing) -> Iterator[tuple[str, Value]]:
    for chain in thing.chains:
        along = Fraction(0)
        reads: frozenset[str] = frozenset()
        for zone in chain.zones:
            yield f"{thing.id}.{zone.name}", zone.length
            unit = zone.length.quantity.unit if zone.length.quantity else "mm"
            yield f"{thing.id}.{zone.name}.start", _station(along, unit, zone.length, reads)
            if zone.length.base is None:
                break
            along, reads = along + zone.length.base, reads | zone.length.reads
            yield f"{thing.id}.{zone.name}.end", _station(along, unit, zone.length, reads)
    for taper in thing.tapers:
        yield taper.first.path, taper.first
        yield taper.second.path, taper.second
    for pair in thing.outline.points if thing.outline is not None else ():
        yield from ((value.path, value) for value in pair)


def _station(along: Fraction, unit: str, zone: Value, reads: frozenset[str]) -> Value:
    return Value(Quantity(Exact.of(along), Dimension.LENGTH, unit), zone.path, zone.at, "", reads)


def _of_action(action: Action) -> Iterator[tuple[str, Value]]:
    if action.takes is not None:
        yield action.takes.path, action.takes
    for held in action.fields.values():
        for each in held if isinstance(held, tuple) else (held,):
            yield from ((value.path, value) for value in _inside(each))


def _inside(held: object) -> tuple[Value, ...]:
    if isinstance(held, Value):
        return (held,)
    if isinstance(held, Spot):
        return held.lengths
    if isinstance(held, SizeValue):
        return held.first, held.second
    return (held.value,) if isinstance(held, Angle) and held.value is not None else ()


def told(value: Value, guide: Guide) -> str:
    """A number in both units."""
    return "unknown" if value.quantity is None else show(value.quantity, cast(Units, guide.units))


def meant(asked: str, numbers: Mapping[str, Value], guide: Guide) -> list[str]:
    """The names of the numbers that a writer may mean: by name, or by the value as it is printed."""
    asked = " ".join(asked.split())
    name = ".".join(part.strip().replace(" ", "_") for part in asked.split("."))
    if name in numbers:
        return [name]
    plain = _read(asked)
    units = cast(Units, guide.units)
    return [
        name
        for name, value in numbers.items()
        if value.quantity is not None and (_same(plain, value.quantity) or asked in _printed(value, units))
    ]


def printed(value: Value, guide: Guide) -> set[str]:
    """The texts by which a number is printed in its first and second unit; none if it is unknown."""
    return _printed(value, cast(Units, guide.units))


def _read(asked: str) -> Quantity | None:
    read = read_sum(asked)
    return read.plain if isinstance(read, Sum) else None


def _same(plain: Quantity | None, quantity: Quantity) -> bool:
    return plain is not None and plain.dimension is quantity.dimension and plain.base == quantity.base


def _printed(value: Value, units: Units) -> set[str]:
    """The texts by which a number is printed: each half, and both; what was worked out may be rounded."""
    quantity = value.quantity
    if quantity is None or quantity.dimension is not Dimension.LENGTH:
        return set() if quantity is None else {show(quantity, units)}
    ways = (True,) if value.text else (True, False)
    found = [shown(quantity, units, typed=typed) for typed in ways]
    return {text for each in found for text in (each.text, each.first, each.second) if text}
