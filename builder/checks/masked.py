"""What must stay bare is not covered.

What: What `not` names is covered, or inside something whose end is closed, while paint flies.

Why: Paint gets where a part has to slide or a motor has to fit.

Bad:
    - {paint: body, with: spray, not: motor_tube}   # the rear is open

Good:
    - {tape: rear_mask, to: body, at: rear, with: masking}
    - {paint: body, with: spray, not: motor_tube}
"""

from __future__ import annotations

from builder.checks.base import Check, Look
from builder.dryrun import needs as n
from builder.dryrun.run import Frame
from builder.findings import Finding, Severity


def find(need: n.Masked, frame: Frame, look: Look) -> Finding | None:
    """What `not` names is covered, or inside something whose end is closed, while paint flies."""
    if need.met:
        return None
    way = "it lies open" if need.end == "outside" else f"paint gets in at the {need.end}"
    path = frame.before.path(need.item, frame.before.root(need.item)) or []
    facts = {f"mask:{need.item}", *(f"mask-on:{host}" for host in path[1:])}
    return CHECK.finding(
        need.at,
        f"the {look.name(need.item)} must stay bare, but {way}",
        suspects=facts | {"done:tape"},
        rests_on=facts | {"done:tape", *(f"placed:{item}" for item in path)},
    )


CHECK = Check(
    "masked", Severity.ERROR, "need",
    why="Paint gets where a part has to slide or a motor has to fit.",
    mend="Tape a mask over it, or close the end with a plug.",
    find=find, need=n.Masked, source="common practice",
)  # fmt: skip
