"""What is measured is not what was built.

What: A stated measure agrees with the kit, within its tolerance.

Why: The builder throws away a good piece of work, or keeps a bad one.

Bad:
    - {verify: motor, sticks out: rear, by: 8 mm ± 1 mm, else: Make it again.}   # it sticks out 6.5 mm

Good:
    - {verify: motor, sticks out: rear, by: 6.5 mm ± 1 mm, else: Make it again.}
"""

from __future__ import annotations

from builder.checks.base import Check, Look, numbers
from builder.dryrun import needs as n
from builder.dryrun.run import Frame
from builder.findings import Finding, Severity


def find(need: n.Measures, frame: Frame, look: Look) -> Finding | None:
    """A stated measure agrees with the kit, within its tolerance."""
    if need.met:
        return None
    facts = numbers(need.reads)
    angle = "angle" in need.what
    told = f"{need.stated} deg" if angle else look.mm(need.stated)
    found = f"{need.found} deg" if angle else look.mm(need.found)
    return CHECK.finding(
        need.at,
        f"{need.what} of the {look.name(need.item)} is stated as {told}, but it comes out at {found}",
        suspects=facts,
        rests_on=facts,
    )


CHECK = Check(
    "measure", Severity.ERROR, "need",
    why="The builder throws away a good piece of work, or keeps a bad one.",
    mend="Correct the stated measure, or the lengths that it follows from.",
    find=find, need=n.Measures, source="common practice",
)  # fmt: skip
