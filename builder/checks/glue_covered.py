"""The joint does not cover the glue.

What: Glue lies where the two parts will meet, and nowhere else.

Why: Glue beside the joint holds nothing, and catches what should move.

Bad:
    - {glue: tube, outside: middle_zone, with: pva, for: ring}
    - {slide: ring, over: tube, from: rear, to: rear_seat}

Good:
    - {glue: tube, outside: rear_seat, with: pva, for: ring}
    - {slide: ring, over: tube, from: rear, to: rear_seat}
"""

from __future__ import annotations

from builder.checks.base import Check, Look, numbers, see
from builder.dryrun import needs as n
from builder.dryrun.run import Frame
from builder.findings import Finding, Severity


def find(need: n.Covered, frame: Frame, look: Look) -> Finding | None:
    """Glue lies where the two parts will meet, and nowhere else."""
    if need.met:
        return None
    lo, hi = need.wet.stretch or (None, None)
    place = ""
    if lo is not None and hi is not None and need.lo is not None and need.hi is not None:
        place = (
            f": it lies from {look.mm(lo)} to {look.mm(hi)}, the joint reaches from {look.mm(need.lo)} to "
            f"{look.mm(need.hi)}"
        )
    facts = {f"glue:{need.wet.cause.action}"}
    return CHECK.finding(
        need.at,
        f"the {look.name(need.child)} does not cover the glue that was laid for it on the "
        f"{look.name(need.host)}{place}",
        also=see(frame.action.at, "the part is placed here"),
        suspects=facts,
        rests_on={f"seat:{need.child}", *numbers(need.reads)},
    )


CHECK = Check(
    "glue-covered", Severity.ERROR, "need",
    why="Glue beside the joint holds nothing, and catches what should move.",
    mend="Name the place where the part will sit (`where ring will sit`, or its zone).",
    find=find, need=n.Covered, source="common practice",
)  # fmt: skip
