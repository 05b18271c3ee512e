"""A wait for nothing.

What: Something there dries while one waits.

Why: A wait that waits for nothing costs a class a whole period.

Bad:
    - {wait for: ring, until: cured}   # no glue has been laid

Good:
    - {glue: tube, outside: seat, with: pva, for: ring}
    - {slide: ring, over: tube, from: rear, to: seat}
    - {wait for: ring, until: cured}
"""

from __future__ import annotations

from builder.checks.base import Check, Look
from builder.dryrun import needs as n
from builder.dryrun.run import Frame
from builder.findings import Finding, Severity


def find(need: n.Dries, frame: Frame, look: Look) -> Finding | None:
    """Something there dries while one waits."""
    if need.met or any(
        f.step.id == frame.step.id and f.supposed for f in (look.run.frames if look.run else ())
    ):
        return None
    what = f"the {look.name(need.what)}" if need.what else "it"
    return CHECK.finding(
        need.at,
        f"nothing on {what} is wet, so there is nothing to wait for",
        rests_on={f"placed:{need.what}", f"glue-for:{need.what}"},
    )


CHECK = Check(
    "nothing-dries", Severity.WARNING, "need",
    why="A wait that waits for nothing costs a class a whole period.",
    mend="Delete it, or name what dries.",
    find=find, need=n.Dries, source="common practice",
)  # fmt: skip
