"""There is nothing to fasten to.

What: A screw has its hole, a cord its eye.

Why: The builder finds no hole, and makes one where it should not be.

Bad:
    - {screw: eye, into: nose, at: centre}

Good:
    - {drill: nose, at: centre, with: bit, depth: 1/2 in}
    - {screw: eye, into: nose, at: centre}
"""

from __future__ import annotations

from builder.checks.base import Check, Look
from builder.dryrun import needs as n
from builder.dryrun.run import Frame
from builder.findings import Finding, Severity


def find(need: n.Attachable, frame: Frame, look: Look) -> Finding | None:
    """A screw has its hole, a cord its eye."""
    if need.met:
        return None
    return CHECK.finding(
        need.at,
        f"the {look.name(need.item)} has no {need.what} for it yet",
        suspects={f"hole:{need.item}", "done:drill"},
    )


CHECK = Check(
    "attachable", Severity.ERROR, "need",
    why="The builder finds no hole, and makes one where it should not be.",
    mend="Drill or punch the hole in an earlier step, or name what has one.",
    find=find, need=n.Attachable, source="common practice",
)  # fmt: skip
