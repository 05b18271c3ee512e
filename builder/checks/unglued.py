"""What is to come off is glued on.

What: What comes off again is not glued on.

Why: Pulling it off tears the kit.

Bad:
    - {glue: tube, outside: seat, with: pva, for: guide}
    - {wrap: guide, around: tube, at: seat}
    - {remove: guide, from: tube}

Good:
    - {wrap: guide, around: tube, at: seat, fit: tight}
    - {remove: guide, from: tube}
"""

from __future__ import annotations

from builder.checks.base import Check, Look, see
from builder.dryrun import needs as n
from builder.dryrun.run import Frame
from builder.findings import Finding, Severity

OF_A_PLACING = ("placed", "seat", "held", "there", "left", "off")  # doubtful, if it comes off


def find(need: n.Unglued, frame: Frame, look: Look) -> Finding | None:
    """What comes off again is not glued on."""
    if need.met:
        return None
    return CHECK.finding(
        need.at,
        f"the {look.name(need.child)} is glued to the {look.name(need.host)}",
        also=see(need.joint.cause.at, "the joint was closed here"),
        suspects={need.joint.fact, *(f"{fact}:{need.child}" for fact in OF_A_PLACING)},
    )


CHECK = Check(
    "glued-on", Severity.ERROR, "need",
    why="Pulling it off tears the kit.",
    mend="Leave the glue out, or leave the part on.",
    find=find, need=n.Unglued, source="common practice",
)  # fmt: skip
