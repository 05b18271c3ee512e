"""A part is made twice.

What: What is made is not there already.

Why: The stock would be used twice for one part.

Bad:
    - {cut: ring, from: board, with: scissors}
    - {cut: ring, from: board, with: scissors}

Good:
    - {cut: ring, from: board, with: scissors}
"""

from __future__ import annotations

from builder.checks.base import Check, Look, see
from builder.dryrun import needs as n
from builder.dryrun.run import Frame
from builder.findings import Finding, Severity


def find(need: n.Fresh, frame: Frame, look: Look) -> Finding | None:
    """What is made is not there already."""
    if need.met:
        return None
    return CHECK.finding(
        need.at,
        f"the {look.name(need.item)} is made a second time",
        also=see(need.since, "it was made here"),
        suspects={f"item:{need.item}", f"again:{frame.action.path}"},
        rests_on={f"again:{frame.action.path}"},
    )


CHECK = Check(
    "made-twice", Severity.ERROR, "need",
    why="The stock would be used twice for one part.",
    mend="Delete one of the two, or raise the count of the part.",
    find=find, need=n.Fresh, source="common practice",
)  # fmt: skip
