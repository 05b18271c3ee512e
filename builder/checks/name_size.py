"""The size in a name is not the size.

What: A length in the name of a thing ("4 mm dowel") is one of its lengths, to 5 %, since trade names are
rounded; two lengths in a name, one in brackets, are the same length.

Why: The class buys by the name and builds by the number.

Bad:
    tools: {former: {name: 20 mm dowel, form: rod, diameter: 22 mm, length: 120 mm}}

Good:
    tools: {former: {name: 22 mm dowel, form: rod, diameter: 22 mm, length: 120 mm}}
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction

from builder.checks.base import Check, Look, numbers
from builder.findings import Finding, Severity
from builder.guide.model import Thing
from builder.quantities.quantity import read_quantity
from builder.quantities.units import Dimension
from builder.quantities.values import Quantity

NEAR = Fraction(1, 20)
_LENGTH = r"(?:(?:\d+ )?\d+/\d+|\d+(?:\.\d+)?)[ -]?(?:in|inch|inches|mm|cm|ft|m)\b(?!\d)"


def find(look: Look) -> Iterator[Finding]:
    """One finding for each thing whose name says another size."""
    for thing in look.guide.things.values():
        if thing.blank_of or not any(c.isdigit() for c in thing.name):
            continue
        if any(value.quantity is None for value in thing.values.values()):
            continue  # the size that is meant may be the one that could not be read
        told = [length for text in re.findall(_LENGTH, thing.name) if (length := _length(text)) is not None]
        real = _lengths(thing) or (told[:1] if "(" in thing.name else [])
        for length in told if real else ():
            if not any(abs(length - r) <= r * NEAR for r in real):
                facts = numbers(
                    value.path for value in thing.values.values() if value.base in real and value.typed
                )
                yield CHECK.finding(
                    thing.place("name"),
                    f'"{thing.name}" says {look.one(length)}, but none of its sizes is: it has '
                    f"{', '.join(look.one(r) for r in real[:3])}",
                    suspects=facts,
                    rests_on=facts | {f"name:{thing.id}"},
                )
                break


def _lengths(thing: Thing) -> list[Fraction]:
    found = []
    for value in thing.values.values():
        quantity = value.quantity
        if quantity is not None and quantity.dimension is Dimension.LENGTH and quantity.base > 0:
            found.append(quantity.base)
    return found


def _length(text: str) -> Fraction | None:
    read = read_quantity(text.replace("-", " "), Dimension.LENGTH)
    return read.base if isinstance(read, Quantity) else None


CHECK = Check(
    "name-size", Severity.WARNING, "guide",
    why="The class buys by the name and builds by the number.",
    mend="Correct the name or the number.",
    find=find,
)  # fmt: skip
