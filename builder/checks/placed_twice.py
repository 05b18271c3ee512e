"""A part is placed twice.

What: A part is placed once; a part-way seat may be pushed on.

Why: One part cannot be in two places; a second one would be missing from the shopping list.

Bad:
    - {attach: lug, onto: tube, at: seat, fit: tight}
    - {attach: lug, onto: tube, at: seat, fit: tight}

Good:
    - {attach: lug, onto: tube, at: seat, fit: tight}
"""

from __future__ import annotations

from builder.checks.base import Check, Look, see
from builder.dryrun import needs as n
from builder.dryrun.run import Frame
from builder.findings import Finding, Severity


def find(need: n.Free, frame: Frame, look: Look) -> Finding | None:
    """A part is placed once; a part-way seat may be pushed on."""
    if need.met:
        return None
    on = f" on the {look.name(need.seated_on)}" if need.seated_on else ""
    return CHECK.finding(
        need.at,
        f"the {look.name(need.child)} is already in its place{on}",
        also=see(need.since, "it was placed here"),
        suspects={f"placed:{need.child}", f"again:{frame.action.path}"},
        rests_on={f"off:{need.child}", f"again:{frame.action.path}"},
    )


CHECK = Check(
    "placed-twice", Severity.ERROR, "need",
    why="One part cannot be in two places; a second one would be missing from the shopping list.",
    mend="Delete one of the two, or take the part off in between.",
    find=find, need=n.Free, source="common practice",
)  # fmt: skip
