"""Shown lengths do not add up.

What: What is shown of a chain, in the first unit, sums to the shown length.

Why: A careful builder adds the printed numbers, and finds the guide wrong.

Bad:
    units: {first: mm, second: in, finest: 1 mm}   # zones of 10.4, 10.4 and 10.4 mm in 31.2 mm

Good:
    zones of 10, 10 and 11 mm in 31 mm
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from builder.checks.base import Check, Look, numbers
from builder.findings import Finding, Severity
from builder.quantities.show import chain_closes_as_shown


def find(look: Look) -> Iterator[Finding]:
    """What is shown of a chain, in the first unit, sums to the shown length."""
    units: Any = look.guide.units
    for thing in look.guide.things.values():
        for chain in thing.chains:
            whole = thing.values.get("width" if chain.side == "crosswise" else "length")
            parts = [zone.length.quantity for zone in chain.zones]
            if whole is None or whole.quantity is None or any(p is None for p in parts):
                continue
            known = [p for p in parts if p is not None]
            if sum(p.base for p in known) != whole.quantity.base or not chain.path.startswith(f"{thing.id}."):
                continue
            if not chain_closes_as_shown(known, whole.quantity, units):
                facts = numbers(whole.reads.union(*(z.length.reads for z in chain.zones)))
                yield CHECK.finding(
                    chain.at,
                    f'the shown lengths of the zones {chain.side} of "{thing.name}" do not add '
                    "up to its shown length",
                    suspects=facts,
                    rests_on=facts,
                )


CHECK = Check(
    "chain-shown", Severity.WARNING, "guide",
    why="A careful builder adds the printed numbers, and finds the guide wrong.",
    mend="Use lengths that the finest step of the ruler can show, or a finer step.",
    find=find, source="common practice",
)  # fmt: skip
