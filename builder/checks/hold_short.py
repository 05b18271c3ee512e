"""A part is let go before its glue tacks.

What: A part that is held while its glue grabs is held for at least the `tack` of the label.

Why: It slides down as soon as the hand lets go.

Bad:
    - {attach: fin, onto: tube, at: root, hold: 1 min}  # the label: tack 2 min

Good:
    - {attach: fin, onto: tube, at: root, hold: 2 min}
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.checks.base import Check, Look, numbers
from builder.dryrun import needs as n
from builder.dryrun.effects import Close
from builder.dryrun.run import DryRun
from builder.findings import Finding, Severity


def find(look: Look) -> Iterator[Finding]:
    """One finding for each hold that is too short, if no later step told that its joint is not steady."""
    run = look.run
    assert run is not None
    told: set[str] | None = None
    for frame in run.frames:
        hold = frame.action.value("hold") if "hold" in frame.action.fields else None
        if hold is None or hold.base is None:
            continue
        for effect in frame.effects:
            glue = look.guide.things.get(effect.joint.adhesive) if isinstance(effect, Close) else None
            tack = glue.mm("tack") if glue is not None else None
            if glue is None or tack is None or hold.base >= tack:
                continue
            told = _unsteady(run) if told is None else told
            if frame.action.path not in told:
                yield CHECK.finding(
                    hold.at,
                    f"it is held for {look.time(hold.base)}, but the {glue.name} holds by itself only after "
                    f"{look.time(tack)}",
                    suspects=numbers(hold.reads),
                )
            break


def _unsteady(run: DryRun) -> set[str]:
    """The actions that made a joint which a later step found not to be steady."""
    return {
        need.joint.cause.action
        for frame in run.frames
        for need in frame.needs
        if not need.met and isinstance(need, n.Bears) and need.level == "steady"
    }


CHECK = Check(
    "hold-short", Severity.WARNING, "run",
    why="It slides down as soon as the hand lets go.",
    mend="Hold it as long as the label's tack, or put it in a jig.",
    find=find,
)  # fmt: skip
