"""A place has no such name.

What: A place names a zone, a mark, an end or a hole of the thing that it is on.

Why: The builder cannot find it.

Bad:
    - {mark: line, onto: tube, at: start of raer_seat}

Good:
    - {mark: line, onto: tube, at: start of rear_seat}
"""

from __future__ import annotations

from builder.checks.base import Check, Look, seats_in
from builder.dryrun.placing import Named
from builder.dryrun.run import Frame
from builder.findings import Finding, Severity

WHOLE = ("all", "everywhere", "face", "the whole", "whole")


def find(need: Named, frame: Frame, look: Look) -> Finding | None:
    """A place names a zone, a mark, an end or a hole of the thing that it is on."""
    if need.met:
        return None
    guess = f"Did you mean `{need.guess}`?" if need.guess else ""
    if need.name in WHOLE and frame.action.verb.root == "glue":
        guess = "For a whole face write `face: top`, `face: under`, `face: inside` or `face: outside`."
    kind = "edge" if frame.action.word("edge") == need.name else "zone, mark or end"
    return CHECK.finding(
        need.at,
        f'the {look.name(need.host)} has no {kind} "{need.name}"',
        mend=guess or ("Name one of its edges." if kind == "edge" else ""),
        suspects={f"place:{need.name}", "done:mark", f"lines:{frame.step.id}"} | seats_in(frame),
        rests_on={f"place:{need.name}"},
    )


CHECK = Check(
    "unknown-place", Severity.ERROR, "need",
    why="The builder cannot find it.",
    mend="Name one of its zones, marks or ends.",
    find=find, need=Named, source="common practice",
)  # fmt: skip
