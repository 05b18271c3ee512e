"""A typed wait is not the wait of the label.

What: Where glue or paint dries by its label, the wait says `until`, or the very minutes of the label.

Why: The page says two times for the same thing, and the builder takes the shorter.

Bad:
    - {wait for: fin, for: 20 min}  # the label: set 30 min, full cure 24 h

Good:
    - {wait for: fin, until: set}
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from builder.checks.base import Check, Look, numbers
from builder.checks.usage import waited_for
from builder.dryrun import needs as n
from builder.dryrun.bench import Wet
from builder.dryrun.run import Frame
from builder.findings import Finding, Severity
from builder.guide.model import Thing

# What tells, where the wait was too short for what follows; one fault is told once.
_TOLD = (n.Bears, n.Recoat, n.Steadied)


def find(look: Look) -> Iterator[Finding]:
    """One finding for each wait of other minutes than a label that it waits by."""
    run = look.run
    assert run is not None
    for number, frame in enumerate(run.frames):
        stated = frame.action.value("for") if frame.action.verb.kind == "wait" else None
        if stated is None or stated.base is None or "until" in frame.action.fields:
            continue
        found = _labels(look, frame)
        if not found or any(stated.base == time for _, _, time in found):
            continue
        joints = frame.before.joints_of(waited_for(frame, look.guide))
        waited = {joint.fact for joint in joints}
        guessed = {f"held:{joint.a}" for joint in joints if joint.cause.supposed}
        guessed |= {f"held:{item}" for wet in _never_met(look, frame) for item in wet.meets}
        if not any(_tells(need, waited) for f in run.frames[number + 1 :] for need in f.needs):
            told = "; ".join(f"{thing.name}: {what} {look.time(time)}" for thing, what, time in found)
            yield CHECK.finding(
                stated.at,
                f"the wait is {look.time(stated.base)}, but the label says otherwise ({told})",
                suspects=numbers(stated.reads),
                rests_on=numbers(stated.reads) | guessed,
            )


def _never_met(look: Look, frame: Frame) -> list[Wet]:
    """The glue for what is waited for that nothing ever meets: its part was forgotten, and the wait is meant
    for it all the same."""
    assert look.run is not None
    left = {wet.cause.action for wet in look.run.end.wets}
    waited = waited_for(frame, look.guide)
    return [wet for wet in frame.before.wets if wet.cause.action in left and not wet.meets.isdisjoint(waited)]


def _tells(need: object, waited: set[str]) -> bool:
    """Whether a need says that the wait for these joints, or for a coat, was too short."""
    if not isinstance(need, _TOLD) or need.met:
        return False
    return need.joint.fact in waited if isinstance(need, n.Bears) else True


def _labels(look: Look, frame: Frame) -> list[tuple[Thing, str, Fraction]]:
    """What the labels say of all that dries there: (adhesive or paint, word, seconds)."""
    bench = frame.before
    below = waited_for(frame, look.guide)
    wanted: dict[str, tuple[str, ...]] = {}
    for joint in bench.joints_of(below):
        if joint.adhesive and joint.cured_at is not None and joint.cured_at > bench.clock:
            wanted[joint.adhesive] = ("set", "full_cure")
    for wet in _never_met(look, frame):
        wanted[wet.adhesive] = ("set", "full_cure")
    for coat in bench.coats:
        if coat.item in below:
            wanted[coat.paint] = ("dry", "full_cure")
    out = []
    for name, fields in wanted.items():
        thing = look.guide.things[name]
        if thing.window is not None:
            return []
        out += [(thing, f.replace("_", " "), time) for f in fields if (time := thing.mm(f)) is not None]
    return out


CHECK = Check(
    "wait-differs", Severity.WARNING, "run",
    why="The page says two times for the same thing, and the builder takes the shorter.",
    mend="Write `until: set` or `until: cured`; the minutes come from the label.",
    find=find,
)  # fmt: skip
