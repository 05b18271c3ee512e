"""What must be right is never looked at.

What: What a step marked `critical` places is verified later, before it is out of reach, or shown in a picture
of the step.

Why: A ring a hair too deep is found when the motor does not fit, and by then it cannot be reached.

Bad:
    - {id: ring_on, critical: yes, ..., actions: [{insert: ring, into: tube, from: front, to: seat}]}

Good:
    - {id: ring_on, critical: yes, ..., actions: [{insert: ring, ...}, {verify: ring, ...}]}
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.checks.base import Check, Look
from builder.dryrun.effects import Place
from builder.dryrun.run import DryRun
from builder.findings import Finding, Severity


def find(look: Look) -> Iterator[Finding]:
    """One finding for each placing of a critical step that nothing verifies."""
    run = look.run
    assert run is not None
    for number, frame in enumerate(run.frames):
        if not frame.step.critical or frame.step.picture is not None:
            continue
        for effect in frame.effects:
            if not isinstance(effect, Place) or effect.cause.supposed:
                continue
            child, thing = effect.seat.child, look.thing(effect.seat.child)
            if thing is None or thing.sort != "part" or verified(run, number, child, effect.seat.host):
                continue
            yield CHECK.finding(
                frame.action.at,
                f"this step is critical, but nobody checks that the {look.name(child)} sits right",
                suspects={f"verify:{child}"},
            )


def verified(run: DryRun, number: int, child: str, host: str) -> bool:
    """Whether a later frame verifies the child, what it sits on, or what sits beside it there, while the
    child can still be reached."""
    for frame in run.frames[number + 1 :]:
        bench = frame.before
        if _buried(bench.seats[child].host if child in bench.seats else "", bench.seats, host):
            return False
        if frame.action.verb.kind != "verify":
            continue
        for field in ("what", "turns_in", "slides_out_of"):
            for ref in frame.action.refs(field):
                named = [key for key in bench.items if key == ref.id or key.rpartition(" ")[0] == ref.id]
                near = {
                    x for key in named for x in (key, bench.seats[key].host if key in bench.seats else key)
                }
                if child in near or host in near:
                    return True
    return False


def _buried(now: str, seats: object, host: str) -> bool:
    """Whether what carries it has gone inside something else since."""
    seat = seats.get(host) if isinstance(seats, dict) else None
    return bool(now) and now == host and seat is not None and seat.side == "inside" and seat.home


CHECK = Check(
    "critical-unverified", Severity.WARNING, "run",
    why="It is found out when something else does not fit, and by then it cannot be reached.",
    mend="Add a `verify` with a measure and a tolerance, or a picture of how it looks when it is right.",
    find=find,
)  # fmt: skip
