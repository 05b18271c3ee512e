"""A wait that can be too long does not say what then.

What: Where something has to follow a wait in time (a second coat inside the label's window, glue that waits
for its part), the wait says what to do `if missed`.

Why: The bell rings, the class comes back two days later, and nobody knows whether the work is spoilt.

Bad:
    - {wait for: body, until: dry}  # and the next coat goes on "up to 1 h or from 48 h"

Good:
    - {wait for: body, until: dry, if missed: Leave it until the label allows the next coat again.}
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.checks.base import Check, Look
from builder.checks.usage import waited_for
from builder.dryrun import needs as n
from builder.dryrun.effects import Close, Paint
from builder.dryrun.run import DryRun
from builder.findings import Finding, Severity
from builder.quantities.values import Window


def find(look: Look) -> Iterator[Finding]:
    """One finding for each such wait."""
    run = look.run
    assert run is not None
    for number, frame in enumerate(run.frames):
        if frame.action.verb.kind != "wait" or "if_missed" in frame.action.fields:
            continue
        below = set(waited_for(frame, look.guide))
        late = _coat_to_come(look, run, number, below) or _open_glue(run, number, below)
        if late:
            yield CHECK.finding(
                frame.action.at, f"this wait can be too long ({late}), and does not say what then"
            )


def _coat_to_come(look: Look, run: DryRun, number: int, below: set[str]) -> str:
    """Whether a later coat has to go on before a certain moment."""
    for coat in run.frames[number].before.coats:
        paint = look.guide.things.get(coat.paint)
        window = paint.window if paint is not None else None
        if coat.item not in below or not isinstance(window, Window) or window.allowed[0][1] is None:
            continue
        for frame in run.frames[number + 1 :]:
            if any(isinstance(need, n.Recoat) and not need.met for need in frame.needs):
                break  # told by itself
            if any(isinstance(e, Paint) and e.coat.item == coat.item for e in frame.effects):
                return "the next coat has to go on in time"
    return ""


def _open_glue(run: DryRun, number: int, below: set[str]) -> str:
    """Whether glue lies open there that a later part meets."""
    wets = [wet for wet in run.frames[number].before.wets if wet.host in below and not wet.cause.supposed]
    for frame in run.frames[number + 1 :] if wets else ():
        if any(isinstance(need, n.Open) and not need.met for need in frame.needs):
            return ""
        if any(isinstance(e, Close) and e.wet is not None and e.wet in wets for e in frame.effects):
            return "glue lies open"
    return ""


CHECK = Check(
    "missed-unsaid", Severity.WARNING, "run",
    why="The class comes back two days later, and nobody knows whether the work is spoilt.",
    mend="Write `if missed: ...`.",
    find=find, source="US Department of Energy, DOE-STD-1029-92: an action if the time cannot be kept",
)  # fmt: skip
