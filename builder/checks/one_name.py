"""One name for two things.

What: No two materials, tools or parts have the same name.

Why: The step says "the ring", and there are two on the table.

Bad:
    parts: {front_ring: {name: ring, ...}, rear_ring: {name: ring, ...}}

Good:
    parts: {front_ring: {name: front ring, ...}, rear_ring: {name: rear ring, ...}}
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.checks.base import Check, Look
from builder.findings import Finding, Related, Severity
from builder.guide.model import Thing


def find(look: Look) -> Iterator[Finding]:
    """One finding for each thing whose name another one has."""
    first: dict[str, Thing] = {}
    for thing in look.guide.things.values():
        if thing.blank_of:
            continue
        other = first.setdefault(" ".join(thing.name.lower().split()), thing)
        if other is not thing:
            yield CHECK.finding(
                thing.place("name"),
                f'"{thing.name}" is the name of two things',
                also=(Related(other.place("name"), "the other one"),),
                suspects={f"names:{thing.sort}", f"name:{thing.id}", f"name:{other.id}"},
            )


CHECK = Check(
    "one-name", Severity.ERROR, "guide",
    why="The step names it, and there are two on the table.",
    mend="Give each a name of its own.",
    find=find, source="ASD-STE100, as a summary quotes it: one name for one thing",
)  # fmt: skip
