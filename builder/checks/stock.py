"""The stock is too small.

What: A cut fits the piece of stock that it comes from.

Why: The class runs out of it in the middle of the step.

Bad:
    line: {form: cord, length: 2 ft}   # eight lines of 16 in

Good:
    line: {form: cord, length: 11 ft}
"""

from __future__ import annotations

from builder.checks.base import Check, Look, numbers
from builder.dryrun import needs as n
from builder.dryrun.run import Frame
from builder.findings import Finding, Severity


def find(need: n.Stock, frame: Frame, look: Look) -> Finding | None:
    """A cut fits the piece of stock that it comes from."""
    if need.met:
        return None
    thing = look.guide.things[need.thing]
    asked = look.size((need.along, need.across))
    what = (
        f"{need.count} of the {thing.name}, {asked} each,"
        if need.count > 1
        else f"the {thing.name} of {asked}"
    )
    left = ", ".join(look.size(s) for s in need.left) or "nothing"
    facts = numbers(need.reads)
    if need.wide is not None:
        least = min(v for v in (thing.mm("length"), thing.mm("width")) if v is not None)
        return CHECK.finding(
            need.at,
            f"the {thing.name} is {look.mm(least)} wide, but the {look.name(need.material)} only "
            f"{look.mm(need.wide)}",
            mend="Choose wider stock, or a narrower piece.",
            suspects=facts | {f"stock:{need.material}"},
            rests_on=facts,
        )
    return CHECK.finding(
        need.at,
        f"{what} cannot be cut from what is left of the {look.name(need.material)} ({left})",
        suspects=facts | {f"stock:{need.material}"},
        rests_on=facts,
    )


CHECK = Check(
    "stock", Severity.ERROR, "need",
    why="The class runs out of it in the middle of the step.",
    mend="Choose larger stock, fewer or smaller pieces, or cut in another order.",
    find=find, need=n.Stock, source="common practice",
)  # fmt: skip
