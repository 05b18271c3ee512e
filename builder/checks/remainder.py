"""The stated remainder is not what remains.

What: What `leaves` states is what the cut leaves.

Why: A wrong remainder means that a length is wrong, or that the next cut will not fit.

Bad:
    - {cut: line, from: thread, with: scissors, leaves: 6 in}   # 132 - 8 x 16 = 4

Good:
    - {cut: line, from: thread, with: scissors, leaves: 4 in}
"""

from __future__ import annotations

from builder.checks.base import Check, Look, numbers
from builder.dryrun import needs as n
from builder.dryrun.run import Frame
from builder.findings import Finding, Severity


def find(need: n.Leaves, frame: Frame, look: Look) -> Finding | None:
    """What `leaves` states is what the cut leaves."""
    if need.met:
        return None
    facts = numbers(need.reads)
    told = " and ".join(look.size(s) for s in need.stated) or "nothing"
    found = " and ".join(look.size(s) for s in need.found) or "nothing"
    return CHECK.finding(
        need.at,
        f"the cut is said to leave {told} of the {look.name(need.material)}, but it leaves {found}",
        mend=_mend(need, look),
        suspects=facts,
        rests_on=facts | {f"done:{frame.action.verb.word}"},  # with a saw that was not found, say
    )


def _mend(need: n.Leaves, look: Look) -> str:
    """What to write, as a guide has it: `nothing`, one size, or a list; "" if the first unit is not exact."""
    sizes = [look.size(size) if size[1] is not None else look.one(size[0]) for size in need.found]
    text = sizes[0] if len(sizes) == 1 else f"[{', '.join(sizes)}]" if sizes else "nothing"
    return "" if "about" in text else f"Write `leaves: {text}` if the lengths are right."


CHECK = Check(
    "remainder", Severity.ERROR, "need",
    why="A wrong remainder means that a length is wrong, or that the next cut will not fit.",
    mend="Correct the remainder, or the length that it follows from.",
    find=find, need=n.Leaves, source="common practice",
)  # fmt: skip
