"""A time of a label is far from what such a product takes.

What: The times of an adhesive's or a paint's label lie in the range that the trade knows for its kind.

Why: A slip of the pen ("30 h" for "30 min") plans the class round a wait that does not exist, or skips one
that does.

Bad:
    label: {working time: 5 min, set: 3 min, full cure: 24 h}  # white glue

Good:
    label: {working time: 5 min, set: 30 min, full cure: 24 h}
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import Any

from builder.checks.base import Check, Look, numbers
from builder.findings import Finding, Severity
from builder.guide.model import Thing
from builder.trade.adhesives import Seconds, adhesive
from builder.trade.paints import paint


def find(look: Look) -> Iterator[Finding]:
    """One finding for each time that is out of range."""
    for thing in look.guide.things.values():
        if thing.sort != "material" or thing.form not in ("adhesive", "paint"):
            continue
        for key, name, low, high in _ranges(thing):
            value = thing.values.get(key)
            if value is None or value.base is None or low <= value.base <= high:
                continue
            facts = numbers(value.reads)
            usual = (
                look.time(Fraction(low))
                if low == high
                else f"{look.time(Fraction(low))} to {look.time(Fraction(high))}"
            )
            yield CHECK.finding(
                value.at,
                f"the {name} of the {thing.name} is {look.time(value.base)}; "
                f"for its kind it is usually {usual}",
                suspects={*facts, f"label:{thing.id}"},
                rests_on=facts,
            )


_Wanted = tuple[tuple[str, str, str], ...]  # field of the label, what it is called, column of the trade
_GLUE: _Wanted = (
    ("working_time", "working time", "working"),
    ("tack", "tack", "tack"),
    ("set", "set", "set"),
    ("full_cure", "full cure", "cure"),
)
_PAINT: _Wanted = (("dry", "time to dry", "dry"), ("full_cure", "full cure", "cure"))


def _ranges(thing: Thing) -> Iterator[tuple[str, str, int, int]]:
    row: Any
    if thing.form == "adhesive":
        row = adhesive(thing.words.get("adhesive", ""))
        wanted = _GLUE
    else:
        row = paint(thing.words.get("paint", ""))
        wanted = _PAINT
    for key, name, field in wanted if row is not None else ():
        found: Seconds | None = getattr(row, field)
        if found is not None:
            yield key, name, found[0], found[1]


CHECK = Check(
    "label-range", Severity.WARNING, "guide",
    why="A slip of the pen plans the class round a wait that does not exist, or skips one that does.",
    mend="Read the label again. If it says so, accept this finding with a reason.",
    find=find, source="the trade's tables of adhesives and paints, each row with its source",
)  # fmt: skip
