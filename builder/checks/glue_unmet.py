"""Glue that nothing meets.

What: All glue that is laid is met by the part that it is for.

Why: It dries in the open, and the part that it was for is not held.

Bad:
    - {glue: tube, outside: seat, with: pva, for: ring}   # and the ring goes elsewhere

Good:
    - {glue: tube, outside: seat, with: pva, for: ring}
    - {slide: ring, over: tube, from: rear, to: seat}
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.checks.base import Check, Look
from builder.findings import Finding, Severity


def find(look: Look) -> Iterator[Finding]:
    """All glue that is laid is met by the part that it is for."""
    run = look.run
    assert run is not None
    for wet in run.end.wets:
        if wet.cause.supposed:
            continue
        target = look.guide.things.get(wet.target)
        what = f"the {target.name}" if target is not None else "a part"
        yield CHECK.finding(
            wet.where,
            f"the glue that is laid here for {what} is never met",
            rests_on={
                *(f"held:{item}" for item in wet.meets),
                *(f"seat:{item}" for item in wet.meets),
                *(f"item:{item}" for item in wet.meets),
                f"held:{wet.host}",
            },
            suspects={f"glue:{wet.cause.action}"},
        )


CHECK = Check(
    "glue-unmet", Severity.ERROR, "run",
    why="It dries in the open, and the part that it was for is not held.",
    mend="Place the part while the glue is wet, or delete the glue.",
    find=find, source="common practice",
)  # fmt: skip
