"""What is to come off is not there.

What: What is taken off, checked or run round sits where the step says.

Why: The builder looks for something that is not in its place.

Bad:
    - {remove: jig, from: tube, towards: rear}   # it was never put on

Good:
    - {slide: jig, over: tube, from: rear, to: 1 in from rear, fit: sliding}
    - {remove: jig, from: tube, towards: rear}
"""

from __future__ import annotations

from builder.checks.base import Check, Look
from builder.dryrun import needs as n
from builder.dryrun.run import Frame
from builder.findings import Finding, Severity

GROUNDS = ("item", "placed", "seat", "held", "mask", "there", "fit")


def find(need: n.There, frame: Frame, look: Look) -> Finding | None:
    """What is taken off, checked or run round sits where the step says."""
    if need.met:
        return None
    on = (
        f"; it is on the {look.name(need.seated_on)}"
        if need.seated_on and need.seated_on != need.host
        else ""
    )
    text = (
        f"the {look.name(need.child)} does not sit on the {look.name(need.host)} as this step takes it to{on}"
    )
    if frame.action.verb.kind == "verify":
        why = "as it was placed" if need.seated_on else "since no step has placed it there"
        text = f"the {look.name(need.child)} does not move in the {look.name(need.host)}, {why}"
    return CHECK.finding(
        need.at,
        text,
        suspects={f"there:{need.child}"},
        rests_on={f"{fact}:{need.child}" for fact in GROUNDS}
        | {f"mask-on:{need.host}"},
    )


CHECK = Check(
    "not-there", Severity.ERROR, "need",
    why="The builder looks for something that is not in its place.",
    mend="Name where it is, or place it in an earlier step.",
    find=find, need=n.There, source="common practice",
)  # fmt: skip
