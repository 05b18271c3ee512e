"""A part is placed where no mark is.

What: What is set at marks that stand at angles round a part goes to the angle of a mark; there are as many as
copies.

Why: Three lines are drawn, and the fourth fin is placed by eye.

Bad:
    - {mark: fin_lines, onto: tube, at: root, angle: evenly for leg}  # there are three legs, and four fins
    - {repeat: fin, around: tube, actions: [{attach: fin, onto: tube, at: fin_lines, angle: evenly}]}

Good:
    - {mark: fin_lines, onto: tube, at: root, angle: evenly for fin}
    - {repeat: fin, around: tube, actions: [{attach: fin, onto: tube, at: fin_lines, angle: evenly}]}
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from builder.checks.base import Check, Look, see
from builder.dryrun.effects import Place
from builder.findings import Finding, Severity


def find(look: Look) -> Iterator[Finding]:
    """One finding for each placing beside its marks."""
    run = look.run
    assert run is not None
    for frame in run.frames:
        action = frame.action
        if action.verb.kind != "attach":
            continue
        spot = action.spot("at") or action.spot("outside")
        mark = frame.before.marks.get(spot.names[0]) if spot is not None and spot.names else None
        if spot is None or mark is None or not mark.angles or mark.cause.supposed:
            continue
        for effect in frame.effects:
            angle = effect.seat.angle if isinstance(effect, Place) else None
            if not isinstance(effect, Place) or angle is None or angle % 360 in mark.angles:
                continue
            where = ", ".join(_deg(a) for a in mark.angles)
            yield CHECK.finding(
                spot.at,
                f"the {look.name(effect.seat.child)} goes to {_deg(angle % 360)}, "
                f"but the marks stand at {where}",
                also=see(mark.cause.at, "they are drawn here"),
                suspects={f"seat:{effect.seat.child}", f"angle:{mark.id}"},
            )


def _deg(angle: Fraction) -> str:
    whole = round(angle * 10)
    return f"{whole // 10}{f'.{whole % 10}' if whole % 10 else ''} deg"


CHECK = Check(
    "marks-count", Severity.ERROR, "run",
    why="Some marks are left over, and a part is placed by eye.",
    mend="Mark `evenly for` the part that goes there, or place it at the angle of the mark.",
    find=find,
)  # fmt: skip
