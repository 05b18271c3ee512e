"""What a dry run shows that is no fault: time with nothing to do, and what goes out of sight unlooked at.

Notices are for the reviewer's report. They are no findings: a kit may well have to wait, and a ring that
cannot be measured any more may sit right.
"""

from __future__ import annotations

from fractions import Fraction

import msgspec

from builder.checks.critical_unverified import verified
from builder.checks.usage import waited_for
from builder.dryrun.effects import Place
from builder.dryrun.placing import frame_in
from builder.dryrun.run import DryRun, Frame
from builder.dryrun.shape import length_of
from builder.dryrun.work import thing_id
from builder.findings import Place as Written
from builder.guide.model import Guide, Step

SHORTEST = Fraction(10 * 60)  # seconds; a shorter wait is no time to begin something else
MOST = 6  # steps that are named; more help nobody


class Idle(msgspec.Struct, frozen=True):
    """A wait with nothing to do: the step that waits, for how many seconds, and the later steps that touch
    nothing which is wet, nor anything that a step between makes."""

    step: str
    at: Written
    seconds: Fraction
    could: tuple[str, ...]


class OutOfSight(msgspec.Struct, frozen=True):
    """A part that goes inside another for good, at a step, and was never verified since it was placed."""

    item: str
    placed: Written
    step: str
    at: Written


def idle(guide: Guide, run: DryRun) -> tuple[Idle, ...]:
    """The waits of a route that no work is planned into, in order."""
    steps = [step for step in run.route.steps if not step.stage.per_class]
    touched = {step.id: frozenset[str]() for step in steps}
    for frame in run.frames:
        if frame.step.id in touched:
            touched[frame.step.id] |= touched_by(guide, frame)
    order = {step.id: number for number, step in enumerate(steps)}
    out = []
    for frame in run.frames:
        if frame.prep or frame.action.verb.kind != "wait" or frame.seconds < SHORTEST:
            continue
        tied = {x for item in waited_for(frame, guide) for x in frame.before.assembly(item)}
        could = []
        for step in steps[order[frame.step.id] + 1 :]:
            own = touched[step.id]
            if tied.isdisjoint(own) and _is_work(step):
                could.append(step.id)
            else:
                tied |= own
        out.append(Idle(frame.step.id, frame.action.at, frame.seconds, tuple(could[:MOST])))
    return tuple(out)


def touched_by(guide: Guide, frame: Frame) -> frozenset[str]:
    """The parts that an action needs or changes, with what they hang together with. Tools lie ready for
    anyone; a material counts where the action says what it leaves of it."""
    found: set[str] = set()
    for need in frame.needs:
        for field in ("item", "child", "host", "inner", "outer", "target"):
            found.add(getattr(need, field, ""))
    for effect in frame.effects:
        held = (getattr(effect, name, None) for name in ("seat", "wet", "joint", "mark", "coat"))
        for holder in (effect, *held):
            for field in ("item", "child", "host", "a", "b"):
                value = getattr(holder, field, "")
                found.add(value if isinstance(value, str) else getattr(value, "key", ""))
    parts = {item for item in found if item and _is_part(guide, item)}
    whole = {x for item in parts for x in (item, *frame.before.assembly(item)) if _is_part(guide, x)}
    if "leaves" in frame.action.fields:
        whole |= {ref.id for ref in frame.action.refs("from")}
    return frozenset(whole)


def _is_part(guide: Guide, item: str) -> bool:
    thing = guide.things.get(thing_id(item, guide))
    return thing is not None and thing.sort != "tool"


def _is_work(step: Step) -> bool:
    return any(action.verb.kind != "wait" for action in step.each_action())


def out_of_sight(guide: Guide, run: DryRun) -> tuple[OutOfSight, ...]:
    """The parts that become out of reach for good and that no step has verified since they were placed."""
    out = []
    for number, frame in enumerate(run.frames):
        for effect in frame.effects:
            if not isinstance(effect, Place) or effect.seat.side != "inside" or not effect.seat.home:
                continue
            if not _is_part(guide, effect.seat.host):
                continue
            for item in frame.before.below(effect.seat.child):
                seat = frame.before.seats.get(item)
                if item == effect.seat.child or seat is None or not _is_part(guide, item):
                    continue
                if not _within(guide, frame, item, effect.seat.host):
                    continue
                start = next((i for i, f in enumerate(run.frames) if _places(f, item)), None)
                if (
                    start is not None
                    and start < number
                    and not _looked_at(run, start, number, item, seat.host)
                ):
                    out.append(OutOfSight(item, seat.cause.at, frame.step.id, frame.action.at))
    return tuple(dict.fromkeys(out))


def _within(guide: Guide, frame: Frame, item: str, host: str) -> bool:
    """Whether an item lies wholly inside the host's ends."""
    turned = frame_in(frame.after, item, host)
    thing, outer = guide.things[thing_id(item, guide)], guide.things[thing_id(host, guide)]
    size, total = length_of(thing), length_of(outer)
    if turned is None or size is None or total is None:
        return False
    offset, sign = turned
    lo, hi = sorted((offset, offset + sign * size))
    return lo >= 0 and hi <= total


def _places(frame: Frame, item: str) -> bool:
    return any(isinstance(e, Place) and e.seat.child == item and not e.cause.supposed for e in frame.effects)


def _looked_at(run: DryRun, start: int, end: int, item: str, host: str) -> bool:
    until = msgspec.structs.replace(run, frames=run.frames[: end + 1])
    return verified(until, start, item, host)
