"""A place lies beyond the part.

What: Every station lies on the part that it is measured on.

Why: The builder would measure into the air.

Bad:
    - {mark: line, onto: tube, at: 9 in from rear}   # the tube is 6 in long

Good:
    - {mark: line, onto: tube, at: 5 in from rear}
"""

from __future__ import annotations

from builder.checks.base import Check, Look, numbers
from builder.dryrun import needs as n
from builder.dryrun.run import Frame
from builder.findings import Finding, Severity


def find(need: n.Station, frame: Frame, look: Look) -> Finding | None:
    """Every station lies on the part that it is measured on."""
    if need.met:
        return None
    low = need.lo < 0
    beyond = -need.lo if low else need.hi - need.length
    return CHECK.finding(
        need.at,
        f'"{need.what}" lies {look.mm(beyond)} beyond the {look.name(need.host)}, which is '
        f"{look.mm(need.length)} long",
        suspects=numbers(need.reads),
        rests_on=numbers(need.reads),
    )


CHECK = Check(
    "station", Severity.ERROR, "need",
    why="The builder would measure into the air.",
    mend="Check the length, and the end that it is measured from.",
    find=find, need=n.Station, source="common practice",
)  # fmt: skip
