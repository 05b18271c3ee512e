"""Two things are in one place.

What: Nothing else is where a part goes, and there is room for it.

Why: The second part cannot get to its place.

Bad:
    - {slide: ring 2, over: tube, from: front, to: seat_1, fit: tight}   # ring 1 sits there

Good:
    - {slide: ring 2, over: tube, from: front, to: seat_2, fit: tight}
"""

from __future__ import annotations

from builder.checks.base import Check, Look, numbers, see
from builder.dryrun import needs as n
from builder.dryrun.run import Frame
from builder.findings import Finding, Severity


def find(need: n.Apart, frame: Frame, look: Look) -> Finding | None:
    """Nothing else is where a part goes, and there is room for it."""
    if need.met:
        return None
    child, host = look.name(need.child), look.name(need.host)
    facts = numbers(need.reads)
    stopped = {f"stops:{need.other}:{need.child}"}  # what it cannot pass, it cannot share a place with either
    if need.room is not None and need.asked is not None and need.asked > need.room:
        return ROOM.finding(
            need.at,
            f"the {child} is {look.mm(need.asked)} long there, but the {host} has room for only "
            f"{look.mm(max(need.room, need.room * 0))}",
            also=see(need.other_at, f"the {look.name(need.other)} sits there") if need.other else (),
            suspects=facts | {f"seat:{need.child}"},
            rests_on=facts | stopped | {f"seat:{need.other}"},
        )
    return CHECK.finding(
        need.at,
        f"the {child} would be where the {look.name(need.other)} is on the {host}",
        also=see(need.other_at, f"the {look.name(need.other)} was placed here"),
        suspects={f"seat:{need.child}", *facts},
        rests_on={f"seat:{need.other}"} | stopped,
    )


CHECK = Check(
    "same-place", Severity.ERROR, "need",
    why="The second part cannot get to its place.",
    mend="Move one of the two, or take the first one out before.",
    find=find, need=n.Apart, source="common practice",
)  # fmt: skip

ROOM = Check(
    "room-left", Severity.ERROR, "need",
    why="It stops before it is home, or sticks out where nothing may stick out.",
    mend="Shorten the part, lengthen the host, or place it elsewhere.",
    find=find, need=n.Apart,
)  # fmt: skip
