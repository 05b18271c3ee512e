"""A mark is used before it is drawn, or after it was covered.

What: A mark is drawn before something is lined up with it, and not covered before it is used.

Why: The builder looks for a line that is not there, or no longer to be seen.

Bad:
    - {slide: ring, over: tube, from: rear, to: line, fit: tight}
    - {mark: line, onto: tube, at: start of seat, around: yes}

Good:
    - {mark: line, onto: tube, at: start of seat, around: yes}
    - {slide: ring, over: tube, from: rear, to: line, fit: tight}
"""

from __future__ import annotations

from builder.checks.base import Check, Look, numbers, seats_in, see
from builder.dryrun import needs as n
from builder.dryrun.run import Frame
from builder.findings import Finding, Severity


def find(need: n.Marked, frame: Frame, look: Look) -> Finding | None:
    """A mark is drawn before something is lined up with it, and not covered before it is used."""
    if need.met:
        return None
    fact = {f"mark-order:{need.mark}", "done:mark"} | seats_in(frame)
    if need.state == "covered":
        return COVERED.finding(
            need.at,
            f'the mark "{need.mark}" is covered by the {look.name(need.other)} by now',
            also=see(need.other_at, "it was covered here"),
            suspects=fact,
            rests_on={f"seat:{need.other}", *numbers(need.reads)},
        )
    later = (
        next(
            (
                f.action.at
                for f in look.run.frames
                if f.action.verb.kind == "mark" and f.action.word("what") == need.mark
            ),
            None,
        )
        if look.run
        else None
    )
    what = "is used before it is drawn" if later is not None else "is used, but nobody draws it on this route"
    return CHECK.finding(
        need.at, f'the mark "{need.mark}" {what}', also=see(later, "it is drawn only here"), suspects=fact
    )


CHECK = Check(
    "mark-order", Severity.ERROR, "need",
    why="The builder looks for a line that is not there, or no longer to be seen.",
    mend="Draw it in an earlier step, or carry it on beyond what covers it.",
    find=find, need=n.Marked, source="common practice",
)  # fmt: skip

COVERED = Check(
    "mark-covered", Severity.ERROR, "need",
    why="What cannot be seen cannot be lined up with.",
    mend="Use the mark before it is covered, or draw it where it stays to be seen.",
    find=find, need=n.Marked,
)  # fmt: skip
