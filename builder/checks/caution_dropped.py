"""A caution is left out without a reason.

What: A computed caution is left out only with a written reason, and only where there is one.

Why: A reviewer has to see why nobody is warned.

Bad:
    - {id: cut, title: Cut it, without caution: blade, actions: [...]}

Good:
    - {id: cut, title: Cut it, without caution: {caution: blade, why: the blade is guarded}, actions: [...]}
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.checks.base import Check, Look
from builder.findings import Finding, Severity
from builder.guide.cautions import hazard_keys


def find(look: Look) -> Iterator[Finding]:
    """A computed caution is left out only with a written reason, and only where there is one."""
    for step in look.guide.every_step():
        if not step.dropped:
            continue
        present = hazard_keys(step, look.guide)
        for dropped in step.dropped:
            if not dropped.why:
                yield CHECK.finding(
                    dropped.at,
                    f'the caution "{dropped.hazard}" is left out without a reason',
                    suspects={f"caution:{step.id}"},
                )
            elif dropped.hazard not in present:
                yield CHECK.finding(
                    dropped.at,
                    f'the step has no caution "{dropped.hazard}" to leave out',
                    mend="Delete the line.",
                )


CHECK = Check(
    "caution-dropped", Severity.ERROR, "guide",
    why="A reviewer has to see why nobody is warned.",
    mend="Write `without caution: {caution: ID, why: ...}`, or let the caution stand.",
    find=find, safety=True, source="common practice",
)  # fmt: skip
