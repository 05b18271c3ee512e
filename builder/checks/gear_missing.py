"""Protective gear is not on the tool list.

What: Gear that a caution asks for is on the tool list.

Why: The teacher finds out at the bench that there are no goggles.

Bad:
    tools: {saw: {name: junior hacksaw}}

Good:
    tools: {saw: {name: junior hacksaw}, goggles: {name: eye protection, form: gear}}
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.checks.base import Check, Look
from builder.findings import Finding, Related, Severity
from builder.guide.model import Step
from builder.trade.gear import gear_kind


def find(look: Look) -> Iterator[Finding]:
    """Gear that a caution asks for is on the tool list."""
    listed = {
        kind.key
        for thing in look.guide.things.values()
        if thing.sort == "tool" and (kind := gear_kind(thing.name)) is not None
    }
    asked: dict[str, list[Step]] = {}
    for step in look.guide.every_step():
        for caution in look.cautions[step.id]:
            for key in caution.gear:
                kind = gear_kind(key)
                asked.setdefault(kind.key if kind is not None else key, []).append(step)
    for key, steps in asked.items():
        if key not in listed:
            also = tuple(Related(s.at, f"asked for here too ({s.id})") for s in steps[1:4])
            yield CHECK.finding(
                steps[0].at,
                f"this step asks for {key}, which is not on the tool list",
                also=also,
                suspects={f"gear:{key}"},
            )


CHECK = Check(
    "gear-missing", Severity.ERROR, "guide",
    why="The teacher finds out at the bench that there are no goggles.",
    mend="Add it to the tools: `goggles: {name: eye protection, form: gear}`.",
    find=find, safety=True, source="common practice",
)  # fmt: skip
