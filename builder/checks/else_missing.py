"""A check without a way out.

What: A verify says what to do if it is off.

Why: The builder finds the fault and stands there.

Bad:
    - {verify: motor, sticks out: rear, by: 1/4 in ± 1/16 in}

Good:
    - {verify: motor, sticks out: rear, by: 1/4 in ± 1/16 in, else: Make the mount again.}
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.checks.base import Check, Look
from builder.findings import Finding, Severity


def find(look: Look) -> Iterator[Finding]:
    """A verify says what to do if it is off."""
    for step in look.guide.every_step():
        for action in step.each_action():
            if action.verb.kind == "verify" and "else" not in action.fields:
                yield CHECK.finding(action.at, "the check does not say what to do if it is off")


CHECK = Check(
    "else-missing", Severity.WARNING, "guide",
    why="The builder finds the fault and stands there.",
    mend="Write `else: ...`.",
    find=find, source="common practice",
)  # fmt: skip
