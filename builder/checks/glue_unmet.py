"""Glue that nothing meets.

What: All glue that is laid is met by the part that it is for.

Why: It dries in the open, and the part that it was for is not held.

Bad:
    - {glue: tube, outside: seat, with: pva, for: ring}   # and the ring goes elsewhere

Good:
    - {glue: tube, outside: seat, with: pva, for: ring}
    - {slide: ring, over: tube, from: rear, to: seat}
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.checks.base import Check, Look
from builder.dryrun.bench import Wet
from builder.dryrun.effects import Place
from builder.dryrun.work import thing_id
from builder.findings import Finding, Severity


def find(look: Look) -> Iterator[Finding]:
    """All glue that is laid is met by the part that it is for."""
    run = look.run
    assert run is not None
    seated = {e.seat.child for f in run.frames for e in f.effects if isinstance(e, Place)}
    for wet in run.end.wets:
        if wet.cause.supposed:
            continue
        target = look.guide.things.get(wet.target)
        what = f"the {target.name}" if target is not None else "a part"
        grounds = {
            *(f"held:{item}" for item in wet.meets),
            *(f"seat:{item}" for item in wet.meets),
            *(f"item:{item}" for item in wet.meets),
            f"held:{wet.host}",
        }
        missing = _never_placed(look, wet, seated)
        if missing:
            yield NEVER_PLACED.finding(
                wet.where,
                f"glue is laid here for {what}, but no step puts the {look.name(missing)} in its place",
                rests_on=grounds,
                suspects={f"glue:{wet.cause.action}"}
                | {f"{fact}:{item}" for item in run.end.below(missing) for fact in OF_A_PLACING}
                | {f"loose:{item}" for item in (wet.host, *wet.meets)},
            )
            continue
        yield CHECK.finding(
            wet.where,
            f"the glue that is laid here for {what} is never met",
            rests_on=grounds,
            suspects={f"glue:{wet.cause.action}"},
        )


def _never_placed(look: Look, wet: Wet, seated: set[str]) -> str:
    """The one of the two that no step places, or else that stays part of the way; not what the kit is built
    on, which is whatever carries others where nobody names the finished kit."""
    run, finished = look.run, look.guide.finished
    assert run is not None
    bench = run.end
    base = bench.root(look.guide.carrier(finished.what.id)) if finished is not None else ""
    carries = finished is None and any(bench.children(wet.host)) and wet.host not in bench.seats
    base = wet.host if carries else base
    meant = [item for item in sorted(wet.meets) if thing_id(item, look.guide) == wet.target]
    both = [i for i in (*meant, wet.host, *sorted(wet.meets)) if i != base and i in bench.items]
    never = [i for i in both if i not in seated]
    halfway = [i for i in both if i in bench.seats and not bench.seats[i].home]
    return next(iter([*never, *halfway]), "")


OF_A_PLACING = ("placed", "seat", "held", "there", "left")  # what a missing placing makes doubtful


CHECK = Check(
    "glue-unmet", Severity.ERROR, "run",
    why="It dries in the open, and the part that it was for is not held.",
    mend="Place the part while the glue is wet, or delete the glue.",
    find=find, source="common practice",
)  # fmt: skip

NEVER_PLACED = Check(
    "never-placed", Severity.ERROR, "run",
    why="A step seems to have been lost: the part lies on the table when all is done.",
    mend="Place the part in the step that lays the glue, or delete the glue.",
    find=find,
)  # fmt: skip
