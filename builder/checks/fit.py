"""A part does not fit.

What: What slides in is thinner than the hole by the play that its fit, or its glue, needs.

Why: Too thick, it does not go in; too thin, nothing holds it.

Bad:
    ring: {form: ring, outside: 2.1 in, inside: 1 in, length: 1/4 in}   # into a bore of 2 in

Good:
    ring: {form: ring, outside: 1.98 in, inside: 1 in, length: 1/4 in}
"""

from __future__ import annotations

from builder.checks.base import Check, Look, numbers
from builder.dryrun import needs as n
from builder.dryrun.run import Frame
from builder.findings import Finding, Severity


def find(need: n.Fits, frame: Frame, look: Look) -> Finding | None:
    """What slides in is thinner than the hole by the play that its fit, or its glue, needs."""
    if need.met:
        return None
    inner, outer = look.name(need.inner), look.name(need.outer)
    facts = numbers(need.reads)
    given = f"{look.one(need.inner_mm)} in {look.one(need.outer_mm)}"
    if need.play < need.low:
        what = f"the {inner} is too thick for the {outer}: {given}"
        short = need.low - need.play
        tail = (
            f", {look.mm(short)} too much"
            if need.kind == "glue"
            else f"; a {need.kind} fit needs a play of at least {look.mm(need.low)}"
        )
    else:
        what = f"the {inner} is too thin for the {outer}: {given}"
        tail = (
            f" leaves {look.mm(need.play / 2)} all round, and the glue bridges {look.mm(need.high / 2)}"
            if need.kind == "glue"
            else f"; a {need.kind} fit has a play of at most {look.mm(need.high)}"
        )
    moves = {f"fit:{need.inner}", f"fit:{need.outer}"}
    return CHECK.finding(need.at, what + tail, suspects=facts | moves, rests_on=facts)


CHECK = Check(
    "fit", Severity.ERROR, "need",
    why="Too thick, it does not go in; too thin, nothing holds it.",
    mend="Change one of the two diameters.",
    find=find, need=n.Fits, source="common practice",
)  # fmt: skip
