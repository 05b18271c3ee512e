"""The way to its place is blocked.

What: Nothing stands in the way of what slides, and no glue for another part lies on it.

Why: The part cannot pass, or wipes away the glue that another part needs.

Bad:
    - {insert: plug, into: tube, from: rear, to: front_seat, fit: tight}   # a ring fills the rear

Good:
    - {insert: plug, into: tube, from: front, to: front_seat, fit: tight}
"""

from __future__ import annotations

from builder.checks.base import Check, Look, see
from builder.dryrun import needs as n
from builder.dryrun.run import Frame
from builder.findings import Finding, Severity


def find(need: n.Way, frame: Frame, look: Look) -> Finding | None:
    """Nothing stands in the way of what slides, and no glue for another part lies on it."""
    if need.met:
        return None
    child, host = look.name(need.child), look.name(need.host)
    if need.swept is not None:
        return SWEPT.finding(
            need.at,
            f"the {child} would wipe off the glue that lies in the {host} for another part",
            also=see(need.swept.where, "the glue"),
            suspects={f"seat:{need.child}", f"glue:{need.swept.cause.action}"}
            | {f"glue-for:{item}" for item in need.swept.meets},
            rests_on={f"seat:{need.child}"},
        )
    return CHECK.finding(
        need.at,
        f"the {child} cannot pass the {look.name(need.blocker)} on its way from the {need.end} of the {host}",
        also=see(need.blocker_at, f"the {look.name(need.blocker)} was placed here"),
        suspects={f"seat:{need.child}", f"stops:{need.blocker}:{need.child}"},
        rests_on={f"seat:{need.blocker}", f"seat:{need.child}", f"stops:{need.blocker}:{need.child}"},
    )


CHECK = Check(
    "way-blocked", Severity.ERROR, "need",
    why="The part cannot pass, or wipes away the glue that another part needs.",
    mend="Place it before the other one, or let it come from the other end.",
    find=find, need=n.Way, source="common practice",
)  # fmt: skip

SWEPT = Check(
    "glue-swept", Severity.ERROR, "need",
    why="What is wiped off does not glue, and where it goes it glues what should move.",
    mend="Glue and place the inner part first, or let this one come from the other end.",
    find=find, need=n.Way,
)  # fmt: skip
