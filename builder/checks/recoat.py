"""The next coat comes at the wrong time.

What: The next coat goes on when the label of the paint allows it.

Why: Between the two times the fresh paint lifts the old; a wet coat runs.

Bad:
    - {paint: body, with: spray}
    - {wait for: body, for: 5 h}
    - {paint: body, with: spray}   # up to 1 h or from 48 h

Good:
    - {paint: body, with: spray}
    - {wait for: body, until: dry}
    - {paint: body, with: spray}
"""

from __future__ import annotations

from builder.checks.base import Check, Look
from builder.dryrun import needs as n
from builder.dryrun.run import Frame
from builder.findings import Finding, Severity


def find(need: n.Recoat, frame: Frame, look: Look) -> Finding | None:
    """The next coat goes on when the label of the paint allows it."""
    if need.met:
        return None
    when = f"after {look.time(need.since)}" if need.since else "at once"
    if need.state == "early" and need.dry is not None and need.since < need.dry:
        dry = look.time(need.dry)
        text = f"the next coat of {look.name(need.paint)} goes on {when}, before the last is dry ({dry})"
    else:
        text = f"the next coat of {look.name(need.paint)} goes on {when}, in the time that its label forbids"
    return CHECK.finding(need.at, text, suspects={f"coat:{need.item}"})


CHECK = Check(
    "recoat", Severity.ERROR, "need",
    why="Between the two times the fresh paint lifts the old; a wet coat runs.",
    mend="Wait as the label says.",
    find=find, need=n.Recoat, source="common practice",
)  # fmt: skip
