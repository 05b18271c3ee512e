"""A jig comes off too early.

What: What a jig held is set when the jig is taken off.

Why: Without the jig the part leans, and sets at the wrong angle.

Bad:
    - {attach: fin, onto: tube, at: root, angle: evenly, held by: jig}
    - {remove: jig, from: tube, towards: rear}

Good:
    - {attach: fin, onto: tube, at: root, angle: evenly, held by: jig}
    - {wait for: fin, until: set}
    - {remove: jig, from: tube, towards: rear}
"""

from __future__ import annotations

from builder.checks.base import Check, Look, see
from builder.dryrun import needs as n
from builder.dryrun.run import Frame
from builder.findings import Finding, Severity


def find(need: n.Steadied, frame: Frame, look: Look) -> Finding | None:
    """What a jig held is set when the jig is taken off."""
    if need.met:
        return None
    a, b = look.name(need.joint.a), look.name(need.joint.b)
    missing = f"; {look.time(need.missing)} are missing" if need.missing else ""
    return CHECK.finding(
        need.at,
        f"the {look.name(need.tool)} comes off before the joint of the {a} and the {b} has set{missing}",
        also=see(need.joint.cause.at, "the joint was closed here"),
        suspects={need.joint.fact},
        rests_on={need.joint.fact},
    )


CHECK = Check(
    "jig-off", Severity.ERROR, "need",
    why="Without the jig the part leans, and sets at the wrong angle.",
    mend="Wait until the joint has set: `wait for: fin, until: set`.",
    find=find, need=n.Steadied, safety=True, source="common practice",
)  # fmt: skip
