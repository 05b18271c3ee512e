"""The glue comes after the part.

What: Glue is laid before the parts meet.

Why: Once the part is in its place, glue no longer gets between the two.

Bad:
    - {slide: ring, over: tube, from: rear, to: seat}
    - {glue: tube, outside: seat, with: pva, for: ring}

Good:
    - {glue: tube, outside: seat, with: pva, for: ring}
    - {slide: ring, over: tube, from: rear, to: seat}
"""

from __future__ import annotations

from builder.checks.base import Check, Look, see
from builder.dryrun import needs as n
from builder.dryrun.run import Frame
from builder.findings import Finding, Severity


def find(need: n.NotYet, frame: Frame, look: Look) -> Finding | None:
    """Glue is laid before the parts meet."""
    if need.met:
        return None
    target, host = look.name(need.target), look.name(need.host)
    seat = frame.before.seats.get(need.host)
    if seat is not None and seat.host in need.items:  # the glue is on what was placed
        text = f"the glue on the {host} is laid after the {host} is already in place on the {target}"
        placed = see(seat.cause.at, f"the {host} was placed here")
    else:
        text = f"the glue for the {target} is laid after the {target} is already in place"
        placed = see(need.since, f"the {target} was placed here")
    return CHECK.finding(
        need.at,
        text,
        also=placed,
        suspects={f"glue-for:{item}" for item in (need.target, need.host, *need.items)}
        | {f"off:{item}" for item in need.items},
        rests_on={f"item:{need.target}"},
    )


CHECK = Check(
    "glue-order", Severity.ERROR, "need",
    why="Once the part is in its place, glue no longer gets between the two.",
    mend="Swap the two lines: glue first, then the part.",
    find=find, need=n.NotYet, source="common practice",
)  # fmt: skip
