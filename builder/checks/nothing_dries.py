"""A wait for nothing.

What: Something there dries while one waits.

Why: A wait that waits for nothing costs a class a whole period.

Bad:
    - {wait for: ring, until: cured}   # no glue has been laid

Good:
    - {glue: tube, outside: seat, with: pva, for: ring}
    - {slide: ring, over: tube, from: rear, to: seat}
    - {wait for: ring, until: cured}
"""

from __future__ import annotations

from builder.checks.base import Check, Look
from builder.dryrun import needs as n
from builder.dryrun.effects import Lift
from builder.dryrun.run import Frame
from builder.dryrun.work import key_of
from builder.findings import Finding, Severity


def find(need: n.Dries, frame: Frame, look: Look) -> Finding | None:
    """Something there dries while one waits."""
    if need.met or any(
        f.step.id == frame.step.id and not all(isinstance(each, Lift) for each in f.supposed)
        for f in (look.run.frames if look.run else ())
    ):
        return None  # what had to be supposed may be what dries; a former that was left in is not
    what = f"the {look.name(need.what)}" if need.what else "it"
    return CHECK.finding(
        need.at,
        f"nothing on {what} is wet, so there is nothing to wait for",
        rests_on=_grounds(frame, look),
    )


GROUNDS = ("placed", "held", "glue-for", "seat", "there", "left", "coat")


def _grounds(frame: Frame, look: Look) -> set[str]:
    """What would have dried: placings and glues of what is waited for, its joints that close later; the
    times of the steps that close them, by which they may have dried already."""
    items = _waited_for(frame, look)
    joints = look.run.end.joints if look.run is not None else ()
    later = {joint.fact for joint in joints if joint.adhesive and {joint.a, joint.b} & set(items)}
    labels = {f"label:{joint.adhesive}" for joint in joints if {joint.a, joint.b} & set(items)}
    labels |= {f"label:{coat.paint}" for coat in frame.before.coats if coat.item in items}
    times = {f"time:{joint.cause.step}" for joint in joints if {joint.a, joint.b} & set(items)}
    return later | labels | times | {f"{fact}:{item}" for item in items for fact in GROUNDS}


def _waited_for(frame: Frame, look: Look) -> list[str]:
    """The items that are waited for, with all that sits on them; those that are not there too."""
    found: list[str] = []
    for ref in frame.action.refs("what"):
        thing = look.guide.things.get(ref.id)
        base = thing.refs.get("base") if thing is not None and thing.form == "assembly" else ref
        if thing is None or base is None:
            continue
        found += [base.id, *(key_of(thing, copy) for copy in range(1, thing.count + 1))]
    return [each for item in found for each in frame.before.below(item)]


CHECK = Check(
    "nothing-dries", Severity.WARNING, "need",
    why="A wait that waits for nothing costs a class a whole period.",
    mend="Delete it, or name what dries.",
    find=find, need=n.Dries, source="common practice",
)  # fmt: skip
