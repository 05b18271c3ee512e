"""A part is placed, and nothing holds it.

What: Every placing is held by glue laid for it, or states its fit.

Why: It falls off, or stays only as long as nobody moves it.

Bad:
    - {slide: ring, over: tube, from: rear, to: seat}

Good:
    - {glue: tube, outside: seat, with: pva, for: ring}
    - {slide: ring, over: tube, from: rear, to: seat}
"""

from __future__ import annotations

from builder.checks.base import Check, Look, see
from builder.dryrun import needs as n
from builder.dryrun.bench import Wet
from builder.dryrun.run import Frame
from builder.findings import Finding, Severity


def find(need: n.Held, frame: Frame, look: Look) -> Finding | None:
    """Every placing is held by glue laid for it, or states its fit."""
    if need.met:
        return None
    child, host = look.name(need.child), look.name(need.host)
    if need.other is not None:
        meant = look.guide.things.get(need.other.target)
        other = f"the {meant.name}" if meant is not None else "another part"
        return FOR_OTHER.finding(
            need.other.for_at,
            f"the glue is laid for {other}, but it is the {child} that is placed there",
            also=see(frame.action.at, f"the {child} is placed here"),
            suspects={f"glue:{need.other.cause.action}", f"seat:{need.child}"},
        )
    wet = next((wet for wet in frame.before.wets if _between(wet, need.child, need.host)), None)
    if wet is not None and wet.side in ("inside", "outside"):
        place = f"it is on the {wet.side} of the {look.name(wet.host)}"
        return CHECK.finding(
            need.at,
            f"the glue for the {child} and the {host} does not lie where they meet: {place}",
            also=see(wet.where, "the glue was laid here"),
            mend="Lay it on the face that meets the other part.",
            suspects={f"held:{need.child}", f"glue:{wet.cause.action}"},
            rests_on={f"glue-for:{need.child}"},
        )
    return CHECK.finding(
        need.at,
        f"nothing holds the {child} on the {host}: no glue was laid for it, and no fit is stated",
        suspects={f"held:{need.child}", "done:glue"},
        rests_on={f"glue-for:{need.child}"},
    )


def _between(wet: Wet, child: str, host: str) -> bool:
    """Whether glue lies on one of the two for the other."""
    return (wet.host == host and child in wet.meets) or (wet.host == child and host in wet.meets)


CHECK = Check(
    "held", Severity.ERROR, "need",
    why="It falls off, or stays only as long as nobody moves it.",
    mend="Lay glue for it first, or state how it sits: `fit: tight`, `sliding`, `running` or `loose`.",
    find=find, need=n.Held, source="common practice",
)  # fmt: skip

FOR_OTHER = Check(
    "glue-for-other", Severity.ERROR, "need",
    why="Either the wrong part is placed, or the glue is meant for the wrong one.",
    mend="Name the same part in both lines.",
    find=find, need=n.Held,
)  # fmt: skip
