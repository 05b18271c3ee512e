"""A former comes out too late.

What: What has to come out before the glue sets does so.

Why: Once the glue has set, the former no longer comes out.

Bad:
    - {do: Tidy up, takes: 45 min}
    - {remove: dowel, from: tube, before: set}

Good:
    - {remove: dowel, from: tube, before: set}
"""

from __future__ import annotations

from builder.checks.base import Check, Look
from builder.dryrun import needs as n
from builder.dryrun.run import Frame
from builder.findings import Finding, Severity


def find(need: n.Before, frame: Frame, look: Look) -> Finding | None:
    """What has to come out before the glue sets does so."""
    if need.met:
        return None
    return CHECK.finding(
        need.at,
        f"the {look.name(need.tool)} comes out of the {look.name(need.host)} after "
        f"{look.time(need.age)}; by then the glue has set ({look.time(need.limit)})",
        suspects={f"placed:{need.tool}", f"left:{need.host}"},
    )


CHECK = Check(
    "before-set", Severity.ERROR, "need",
    why="Once the glue has set, the former no longer comes out.",
    mend="Take it out straight after rolling.",
    find=find, need=n.Before, source="common practice",
)  # fmt: skip
