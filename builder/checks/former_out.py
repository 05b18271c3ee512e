"""A former is left inside.

What: What must come out is out before the wait begins.

Why: The tube shrinks as it dries and grips the former for good.

Bad:
    - {roll: tube.blank, around: dowel, with: pva, makes: tube}
    - {wait for: tube, until: set}

Good:
    - {roll: tube.blank, around: dowel, with: pva, makes: tube}
    - {remove: dowel, from: tube, before: set}
    - {wait for: tube, until: set}
"""

from __future__ import annotations

from builder.checks.base import Check, Look, see
from builder.dryrun import needs as n
from builder.dryrun.run import Frame
from builder.findings import Finding, Severity


def find(need: n.Out, frame: Frame, look: Look) -> Finding | None:
    """What must come out is out before the wait begins."""
    if need.met:
        return None
    return CHECK.finding(
        need.at,
        f"the {look.name(need.tool)} is still inside the {look.name(need.host)} while it dries",
        also=see(need.since, "it went in here"),
        suspects={f"placed:{need.tool}"},
    )


CHECK = Check(
    "former-out", Severity.ERROR, "need",
    why="The tube shrinks as it dries and grips the former for good.",
    mend="Add `remove` before the wait.",
    find=find, need=n.Out, source="common practice",
)  # fmt: skip
