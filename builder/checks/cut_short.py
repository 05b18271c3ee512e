"""A dry run is broken off, because it would go on for too long.

What: A route is carried out in at most 5,000 actions, those of a repeat once for each copy, which ask the
bench at most 60,000 times.

Why: What is not carried out is not checked, and silence would look like praise.

Bad:
    - {repeat: brick, actions: [...]}      # 200 bricks, 26 actions: 5,200

Good:
    - {repeat: brick, actions: [...]}      # 200 bricks, 25 actions: 5,000
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.checks.base import Check, Look
from builder.findings import Finding, Severity


def find(look: Look) -> Iterator[Finding]:
    """One finding for a run that was broken off, at the last action that it carried out."""
    run = look.run
    assert run is not None
    if run.cut_short and run.frames:
        yield CHECK.finding(
            run.frames[-1].action.at,
            f"the dry run is broken off here, after {len(run.frames):,} actions: what follows is not checked",
        )


CHECK = Check(
    "cut-short", Severity.ERROR, "run",
    why="What is not carried out is not checked, and silence would look like praise.",
    mend="Repeat fewer actions for fewer copies, or split the guide into several.",
    find=find, source="a limit of this tool",
)  # fmt: skip
