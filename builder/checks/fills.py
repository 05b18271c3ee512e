"""A part does not fill the zone that it is placed at.

What: What is placed at a zone has the length of the zone.

Why: The zone was made for another length; a gap or an overlap follows.

Bad:
    zones: {outside from rear: [seat: 1/2 in, rest: 5 1/2 in]}   # for a ring 1/4 in long

Good:
    zones: {outside from rear: [seat: ring.length, rest: 5 3/4 in]}
"""

from __future__ import annotations

from builder.checks.base import Check, Look, numbers
from builder.dryrun import needs as n
from builder.dryrun.run import Frame
from builder.findings import Finding, Severity


def find(need: n.Fills, frame: Frame, look: Look) -> Finding | None:
    """What is placed at a zone has the length of the zone."""
    if need.met:
        return None
    facts = numbers(need.reads)
    return CHECK.finding(
        need.at,
        f'the {look.name(need.child)} is {look.mm(need.child_mm)} long, but the zone "{need.zone}" of the '
        f"{look.name(need.host)} is {look.mm(need.zone_mm)}",
        suspects={f"seat:{need.child}", *facts},
        rests_on=facts,
    )


CHECK = Check(
    "zone-filled", Severity.ERROR, "need",
    why="The zone was made for another length; a gap or an overlap follows.",
    mend="Let the zone take its length from the part (`seat: ring.length`), or name a station instead.",
    find=find, need=n.Fills, source="common practice",
)  # fmt: skip
