"""Something listed is never used.

What: Every material, tool and part on a list is used by some step, or is left over on purpose.

Why: A class buys what nobody needs, or a step that needed it has been lost.

Bad:
    materials: {string: {name: string, form: cord, length: 3 ft}}   # in no step

Good:
    - {cut: line, from: string, with: scissors}
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.checks.base import Check, Look
from builder.findings import Finding, Severity
from builder.guide.model import Thing
from builder.trade.tools import tool_kind
from builder.trade.usual import USUAL


def find(look: Look) -> Iterator[Finding]:
    """Every material, tool and part on a list is used by some step, or is left over on purpose."""
    left = {ref.id for ref in look.guide.finished.left_over} if look.guide.finished is not None else set()
    for thing in look.guide.things.values():
        if thing.sort == "assembly" or thing.blank_of or thing.id in look.used or thing.id in left:
            continue
        yield CHECK.finding(
            thing.at,
            f'the {thing.sort} "{thing.name}" is never used',
            rests_on={f"item:{thing.id}", f"placed:{thing.id}", *(f"done:{verb}" for verb in serves(thing))},
            suspects={f"unused:{thing.id}"},
        )


FOR = {"adhesive": "glue", "paint": "paint", "tape": "tape"}


def serves(thing: Thing) -> set[str]:
    """The verbs that a thing is usually there for: what nobody does, nothing is used for."""
    if thing.sort == "material":
        return {FOR[thing.form]} if thing.form in FOR else set()
    kind = tool_kind(thing.name)
    if thing.sort != "tool" or kind is None:
        return set()
    return {row.verb for row in USUAL if any(kind.key in group for group in row.tools)}


CHECK = Check(
    "never-used", Severity.ERROR, "guide",
    why="A class buys what nobody needs, or a step that needed it has been lost.",
    mend="Use it, delete it, or name it under `finished: {left over: [...]}`.",
    find=find, source="common practice",
)  # fmt: skip
