"""A jig or a guide is not where it is needed.

What: What holds a part, or what a mark is taken from, is in its place.

Why: The step leans on something that is not there.

Bad:
    - {attach: fin, onto: tube, at: root, angle: evenly, held by: jig}   # the jig lies on the table

Good:
    - {slide: jig, over: tube, from: rear, to: 1 in from rear, fit: sliding}
    - {attach: fin, onto: tube, at: root, angle: evenly, held by: jig}
"""

from __future__ import annotations

from builder.checks.base import Check, Look
from builder.dryrun import needs as n
from builder.dryrun.run import Frame
from builder.findings import Finding, Severity


def find(need: n.InPlace, frame: Frame, look: Look) -> Finding | None:
    """What holds a part, or what a mark is taken from, is in its place."""
    if need.met:
        return None
    return CHECK.finding(
        need.at,
        f"the {look.name(need.tool)} is not on the {look.name(need.host)}, where it is needed",
        suspects={f"seat:{need.tool}"},
        rests_on={f"item:{need.tool}"},
    )


CHECK = Check(
    "in-place", Severity.ERROR, "need",
    why="The step leans on something that is not there.",
    mend="Put it on in an earlier step.",
    find=find, need=n.InPlace, source="common practice",
)  # fmt: skip
