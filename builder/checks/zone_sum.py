"""Zones do not sum to the length.

What: The zones of a chain sum to the length of their part.

Why: One of the numbers is wrong, and everything measured after it is off.

Bad:
    body: {form: tube, length: 12 in, zones: {outside from rear: [tail: 1/4 in, rest: 11 1/2 in]}}

Good:
    body: {form: tube, length: 12 in, zones: {outside from rear: [tail: 1/4 in, rest: 11 3/4 in]}}
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from builder.checks.base import Check, Look, numbers, see
from builder.findings import Finding, Severity


def find(look: Look) -> Iterator[Finding]:
    """The zones of a chain sum to the length of their part."""
    for thing in look.guide.things.values():
        if thing.sort not in ("part", "tool") or thing.blank_of:
            continue
        for chain in thing.chains:
            whole = thing.values.get("width" if chain.side == "crosswise" else "length")
            lengths = [zone.length.base for zone in chain.zones]
            if whole is None or whole.base is None or any(x is None for x in lengths):
                continue
            if not chain.path.startswith(f"{thing.id}."):
                continue
            total = sum((x for x in lengths if x is not None), Fraction(0))
            if total == whole.base:
                continue
            off = whole.base - total
            way = "short" if off > 0 else "too long"
            measure = "width" if chain.side == "crosswise" else "length"
            facts = numbers(whole.reads.union(*(z.length.reads for z in chain.zones)))
            yield CHECK.finding(
                chain.at,
                f'the zones {chain.side} of "{thing.name}" sum to {look.mm(total)}, but its '
                f"{measure} is {look.mm(whole.base)} ({look.mm(abs(off))} {way})",
                also=see(whole.at, "the length"),
                suspects=facts,
                rests_on=facts,
            )


CHECK = Check(
    "zone-sum", Severity.ERROR, "guide",
    why="One of the numbers is wrong, and everything measured after it is off.",
    mend="Correct the zone, or the length.",
    find=find, source="common practice",
)  # fmt: skip
