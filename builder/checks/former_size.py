"""The former is not the one that the tube was worked out for.

What: A sheet is rolled round the former whose diameter is the bore of the tube.

Why: Every diameter of the tube would be another.

Bad:
    - {roll: tube.blank, around: thin_dowel, with: pva, makes: tube}   # rolled: {around: thick_dowel}

Good:
    - {roll: tube.blank, around: thick_dowel, with: pva, makes: tube}
"""

from __future__ import annotations

from builder.checks.base import Check, Look, numbers
from builder.dryrun import needs as n
from builder.dryrun.run import Frame
from builder.findings import Finding, Severity


def find(need: n.Former, frame: Frame, look: Look) -> Finding | None:
    """A sheet is rolled round the former whose diameter is the bore of the tube."""
    if need.met:
        return None
    facts = numbers(need.reads)
    return CHECK.finding(
        need.at,
        f"the {look.name(need.former)} is {look.mm(need.former_mm)} thick, but the {look.name(need.tube)} "
        f"has a bore of {look.mm(need.bore_mm)}",
        suspects=facts,
        rests_on=facts,
    )


CHECK = Check(
    "former-size", Severity.ERROR, "need",
    why="Every diameter of the tube would be another.",
    mend="Roll it round the former that `rolled: {around: ...}` names.",
    find=find, need=n.Former, source="common practice",
)  # fmt: skip
