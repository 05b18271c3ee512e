"""The glue is met too late.

What: Glue is met within the working time on its label.

Why: Glue that has skinned over does not stick to the second part.

Bad:
    - {glue: tube, outside: seat, with: pva, for: ring}
    - {do: Tidy the bench, takes: 20 min}
    - {slide: ring, over: tube, from: rear, to: seat}

Good:
    - {glue: tube, outside: seat, with: pva, for: ring}
    - {slide: ring, over: tube, from: rear, to: seat}
"""

from __future__ import annotations

from builder.checks.base import Check, Look, numbers, see
from builder.dryrun import needs as n
from builder.dryrun.run import Frame
from builder.findings import Finding, Severity


def find(need: n.Open, frame: Frame, look: Look) -> Finding | None:
    """Glue is met within the working time on its label."""
    if need.met:
        return None
    glue = look.name(need.wet.adhesive)
    facts = numbers(need.reads)
    rests_on = {f"lines:{frame.step.id}"}  # with a line less, the others are given more of the time
    if need.wet.cause.step == frame.step.id:
        rests_on.add(f"time:{frame.step.id}")  # the time of a step is that of each glue in it
    return CHECK.finding(
        need.at,
        f"the {glue} has been open for {look.time(need.age)} when the parts meet; its working time is "
        f"{look.time(need.limit)}",
        also=see(need.wet.where, "the glue was laid here"),
        suspects={f"glue:{need.wet.cause.action}", f"time:{frame.step.id}"} | facts,
        rests_on=rests_on,
    )


CHECK = Check(
    "working-time", Severity.ERROR, "need",
    why="Glue that has skinned over does not stick to the second part.",
    mend="Lay the glue just before the part goes on, or choose a glue with a longer working time.",
    find=find, need=n.Open, source="common practice",
)  # fmt: skip
