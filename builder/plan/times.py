"""Times of a route, from the clock of its dry run: hands-on, waiting, elapsed, by stage and in all; its
waits; where an adult helps; where builders queue for a shared tool."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

import msgspec

from builder.dryrun import needs as n
from builder.dryrun.bench import Coat, Joint
from builder.dryrun.run import DryRun, Frame
from builder.dryrun.work import thing_id
from builder.guide.cautions import cautions_of, hazard_keys
from builder.guide.model import Guide, Stage, Thing
from builder.plan.settings import Class
from builder.plan.tools import sharing
from builder.plan.used import Used, named, taken
from builder.trade.hazards import hazard

ZERO = Fraction(0)
BARRED = {"set": ("work", "load", "coat"), "cured": ("load", "coat"), "dry": ("coat",)}
"""What a joint does not bear until then, from the demands carry < work < load < coat; on wet paint, no
other coat."""


class Span(msgspec.Struct, frozen=True):
    """Seconds: `hands_on` of work, `elapsed` by the clock when every wait is as short as it may be."""

    hands_on: Fraction = ZERO
    elapsed: Fraction = ZERO

    @property
    def waiting(self) -> Fraction:
        """Seconds in which no hands are busy."""
        return self.elapsed - self.hands_on

    def __add__(self, other: Span) -> Span:
        return Span(self.hands_on + other.hands_on, self.elapsed + other.elapsed)


class StageTime(msgspec.Struct, frozen=True):
    """A stage of the builder with its span."""

    stage: Stage
    span: Span


class Wait(msgspec.Struct, frozen=True):
    """A wait. `seconds` is the least that it takes when all before it went by the clock; `until` is set, dry,
    cured or nothing. `barred` are the demands that may not be made meanwhile, `labels` the adhesives and
    paints that it waits for, `first` the step that first asks for what it gives (empty if none does)."""

    step: str
    action: str
    things: tuple[str, ...]
    until: str
    seconds: Fraction
    barred: tuple[str, ...]
    labels: tuple[str, ...] = ()
    first: str = ""


class Help(msgspec.Struct, frozen=True):
    """A step at which an adult stands by or works: because the guide says so (`who`), or its hazards do."""

    step: str
    who: str
    hazards: tuple[str, ...]


class Queue(msgspec.Struct, frozen=True):
    """A shared tool that is in use from `step` to `last`: `stations` builders have one at a time, so that the
    class takes `turns` turns and `seconds` in all, waits with the tool on the work among them."""

    step: str
    last: str
    tool: str
    builders: int
    stations: int
    turns: int
    seconds: Fraction


class Times(msgspec.Struct, frozen=True):
    """All times of a route; preparation apart."""

    whole: Span
    stages: tuple[StageTime, ...]
    waits: tuple[Wait, ...]
    help: tuple[Help, ...]
    queues: tuple[Queue, ...]


def turns(builders: int, stations: int) -> int:
    """How many turns a class takes at so many stations: 28 builders at 3 stations take 10."""
    return -(-builders // max(stations, 1))


def times(guide: Guide, run: DryRun, group: Class, used: Used) -> Times:
    """The times of a route for one builder, and the queues of the class."""
    frames = [frame for frame in run.frames if not frame.prep]
    stages: dict[tuple[str, object], StageTime] = {}
    whole = Span()
    for frame in frames:
        span = Span(frame.after.active - frame.before.active, frame.seconds)
        stage = frame.step.stage
        known = stages.get((stage.name, stage.at))
        stages[stage.name, stage.at] = StageTime(stage, known.span + span if known else span)
        whole += span
    return Times(whole, tuple(stages.values()), tuple(_waits(guide, run)), tuple(_help(guide, run)),
                 tuple(_queues(guide, run, group, used)))  # fmt: skip


def _waits(guide: Guide, run: DryRun) -> Iterator[Wait]:
    for number, frame in enumerate(run.frames):
        action = frame.action
        if frame.prep or action.verb.kind != "wait" or not frame.seconds:
            continue
        until = action.word("until")
        drying, coats = _drying(guide, frame), _coats(guide, frame)
        yield Wait(
            frame.step.id, action.path, tuple(ref.id for ref in action.refs("what")), until, frame.seconds,
            BARRED.get(until, ()) if drying or coats else (), waited_for(guide, frame),
            _first(run, number, drying, {coat.item for coat in coats}, until),
        )  # fmt: skip


def waited_for(guide: Guide, frame: Frame) -> tuple[str, ...]:
    """The ids of the adhesives and paints that a wait waits for, in the order of the bench."""
    paints = _coats(guide, frame) if frame.action.word("until") in ("dry", "cured") else []
    found = [*(joint.adhesive for joint in _drying(guide, frame)), *(coat.paint for coat in paints)]
    return tuple(dict.fromkeys(found))


def _coats(guide: Guide, frame: Frame) -> list[Coat]:
    below = _below(guide, frame) if frame.action.word("until") else set()
    return [coat for coat in frame.before.coats if coat.item in below]


def _below(guide: Guide, frame: Frame) -> set[str]:
    """The items that a wait names, with all that sits on them."""
    bench = frame.before
    found: set[str] = set()
    for ref in frame.action.refs("what"):
        thing = guide.things.get(ref.id)
        base = thing.refs.get("base") if thing is not None and thing.form == "assembly" else None
        wanted = base.id if base is not None else ref.id
        for key, item in bench.items.items():
            if item.thing == wanted:
                found.update(bench.below(key))
    return found


def _drying(guide: Guide, frame: Frame) -> list[Joint]:
    """The joints that a wait waits for: glued, and short of what it asks."""
    until = frame.action.word("until")
    below = _below(guide, frame)
    found: list[Joint] = []
    for joint in frame.before.joints:
        label = guide.things.get(joint.adhesive)
        if label is None or not until or not {joint.a, joint.b} & below:
            continue
        needed = label.mm("full_cure" if until == "cured" else "set")
        if needed is not None and joint.closed + needed > frame.before.clock:
            found.append(joint)
    return found


def _first(run: DryRun, number: int, drying: list[Joint], painted: set[str], until: str) -> str:
    """The step after a wait that first asks its joints for what they do not bear before, or paints again."""
    pairs = {frozenset((joint.a, joint.b)) for joint in drying}
    barred = BARRED.get(until, ())
    asks = (*barred, "carry") if until == "set" else barred  # what is not steady is not carried either
    for frame in run.frames[number + 1 :]:
        for need in frame.needs:
            if isinstance(need, n.Bears) and need.demand in asks:
                if frozenset((need.joint.a, need.joint.b)) in pairs:
                    return frame.step.id
            elif isinstance(need, n.Recoat) and need.item in painted:
                return frame.step.id
    return ""


def _help(guide: Guide, run: DryRun) -> Iterator[Help]:
    for step in run.route.steps:
        if step.stage.per_class:
            continue
        keys = [key for key in hazard_keys(step, guide) if (row := hazard(key)) is not None and row.adult]
        own = [
            each.id for each in cautions_of(step, guide) if (row := hazard(each.id)) is not None and row.adult
        ]
        who = step.who or step.stage.who
        handled = [
            guide.things[ref.id].words["who"]
            for action in step.each_action() for ref in action.refs("with")
            if ref.id in guide.things and guide.things[ref.id].words.get("who")
        ]  # fmt: skip
        who = who or next(iter(handled), "")
        if who or keys or own:
            yield Help(step.id, who, tuple(dict.fromkeys((*keys, *own))))


def _queues(guide: Guide, run: DryRun, group: Class, used: Used) -> Iterator[Queue]:
    """Where some builders wait for a tool that others have; of tools that are busy together, the scarcest."""
    found: dict[tuple[str, str], Queue] = {}
    for thing in guide.things.values():
        if thing.sort != "tool" or thing.form == "gear" or thing.id not in used:
            continue
        builders = sharing(thing, only_prepared=False)
        stations = thing.count * group.groups(builders)
        if builders == 1 or stations >= group.builders:
            continue
        for first, last, seconds in busy(guide, run, thing):
            number = turns(group.builders, stations)
            queue = Queue(first, last, thing.id, builders, stations, number, number * seconds)
            known = found.get((first, last))
            if known is None or known.seconds < queue.seconds:
                found[first, last] = queue
    order = {step.id: number for number, step in enumerate(run.route.steps)}
    yield from sorted(found.values(), key=lambda queue: (order[queue.step], order[queue.last]))


def busy(guide: Guide, run: DryRun, tool: Thing) -> Iterator[tuple[str, str, Fraction]]:
    """When one builder has a tool: (first step, last step, seconds by the clock).

    From the action that takes it in hand, through all the time for which it sits on the work, until it is
    free again.
    """
    first = last = ""
    seconds = ZERO
    held = False
    for frame in run.frames:
        if frame.prep:
            continue
        step = frame.step.id
        wanted = tool.id in (*named(frame.action, guide), *taken(frame.action, guide))
        if first and not held and not (wanted and step == last):
            if seconds:
                yield first, last, seconds
            first, seconds = "", ZERO
        if wanted or held:
            first, last = first or step, step
            seconds += frame.seconds
        held = any(thing_id(key, guide) == tool.id for key in frame.after.seats) or any(
            thing_id(seat.host, guide) == tool.id for seat in frame.after.seats.values()
        )
    if first and seconds:
        yield first, last, seconds
