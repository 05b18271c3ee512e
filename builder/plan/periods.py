"""The steps of a route in the periods of a class, with drying between and inside the periods.

The class works in the written order. While it waits, the next step is done that touches nothing of what is
waited for, nor of any step that was passed over. Every step is carried out on the bench as it really is by
then, with its nights: a step whose needs that bench does not meet (paint that may be coated again only after
two days) is not begun. At a shared tool all builders have their turns before the class goes on. Nothing here
promises the least number of periods; the plan says how many the work alone needs.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction

import msgspec

from builder.checks.notices import touched_by
from builder.dryrun.bench import Bench, Cause
from builder.dryrun.effects import Pass, apply
from builder.dryrun.needs import Dries
from builder.dryrun.run import DryRun, carry_out
from builder.guide.model import Guide, Step
from builder.plan.settings import Class
from builder.plan.times import Queue, Times
from builder.plan.timetable import Timetable

ZERO = Fraction(0)
ALWAYS = Fraction(10**9)  # seconds: more than any guide takes
MOST = 120  # periods; a plan that is longer is none
IDLE_NIGHTS = 14  # periods without any progress, after which something is in the way for good


class Entry(msgspec.Struct, frozen=True):
    """A step in a period: how many seconds the class needs for it there, how many `turns` at a shared tool
    those are, of how many (`of`; 1 if all work at once), and seconds of waiting inside the period. Where a
    tool stays on the work through a wait, a turn leads from the step to `last`."""

    step: str
    seconds: Fraction
    turns: int = 1
    of: int = 1
    waited: Fraction = ZERO
    last: str = ""


class Round(msgspec.Struct):
    """The turns of the others at a tool that stays on the work through a wait: seconds of work in one turn
    and of waiting after it, how many turns are left of how many, and when the tool is free again."""

    last: str
    work: Fraction
    wait: Fraction
    left: int
    of: int
    free: Fraction = ZERO


class Resting(msgspec.Struct, frozen=True):
    """A wait that is under way when a period ends, with the seconds that it still takes."""

    step: str
    seconds: Fraction


class Period(msgspec.Struct, frozen=True):
    """One period: its number (from 1), its day, what is done in it, what rests at its end."""

    number: int
    day: str
    entries: tuple[Entry, ...]
    resting: tuple[Resting, ...]

    @property
    def seconds(self) -> Fraction:
        """How much of the period is used, by work and by waiting."""
        return sum((each.seconds + each.waited for each in self.entries), ZERO)


class Periods(msgspec.Struct, frozen=True):
    """A plan. `least` is how many periods the work alone needs. `trouble` names the step for which there is
    no plan: it takes longer than a period (`too_long`); with the steps up to `last` before which the work
    cannot be put away it does (`together`, seconds); or its needs are never met."""

    timetable: Timetable
    periods: tuple[Period, ...]
    least: int
    trouble: str = ""
    too_long: bool = False
    last: str = ""
    together: Fraction = ZERO

    @property
    def proven(self) -> bool:
        """Whether fewer periods are impossible, since the work alone fills them."""
        return not self.trouble and len(self.periods) == self.least


def periods_for(guide: Guide, run: DryRun, group: Class, times: Times) -> Periods | None:
    """The plan of a route; None if the class has no timetable."""
    if group.timetable is None:
        return None
    return _Planning(guide, run, group.timetable, times).plan()


class _Planning:
    """The state of a plan in the making."""

    def __init__(self, guide: Guide, run: DryRun, timetable: Timetable, times: Times) -> None:
        self.guide, self.timetable = guide, timetable
        self.steps = [step for step in run.route.steps if not step.stage.per_class]
        self.touched = _touched(guide, run)
        self.rounds = dict(_rounds(run, times.queues, self.steps))
        self.turns = _turns(times.queues, self.steps, self.rounds)
        self.had: dict[str, int] = {}  # turns that others have had, by step
        frames = {step.id: run.of_step(step.id) for step in self.steps}
        self.own = {
            step: own[-1].after.active - own[0].before.active if own else ZERO for step, own in frames.items()
        }
        first = next((frame for frame in run.frames if not frame.prep), None)
        self.bench: Bench = first.before if first is not None else run.start
        self.start = self.bench.clock
        self.pending = list(self.steps)

    def plan(self) -> Periods:
        """Period after period, until nothing is left to do."""
        work = sum((self._seconds(step) for step in self.steps), ZERO)
        work += sum((turn.work * turn.left for turn in self.rounds.values()), ZERO)
        least = max(1, -(-work // self.timetable.usable))
        found: list[Period] = []
        idle = 0
        for step in self.steps:
            longest = max(self.own[step.id], self.rounds[step.id].work if step.id in self.rounds else ZERO)
            if longest > self.timetable.usable:
                return Periods(self.timetable, (), least, step.id, too_long=True)
        for number in range(MOST):
            self._pass(self.start + self.timetable.opening(number) - self.bench.clock)
            entries = tuple(self._filled())
            idle = 0 if entries else idle + 1
            found.append(
                Period(
                    number + 1,
                    self.timetable.day(number),
                    entries,
                    tuple(self._resting()) if self.pending else (),
                )
            )
            if not self.pending:
                return Periods(self.timetable, tuple(found), least)
            if idle >= IDLE_NIGHTS:
                break
        steps, used, _ = self._unit(0, ALWAYS) or ([], ZERO, ZERO)
        bound = used > self.timetable.usable
        return Periods(
            self.timetable,
            tuple(found[: len(found) - idle]),
            least,
            self.pending[0].id,
            last=steps[-1].id if bound else "",
            together=used if bound else ZERO,
        )

    def _filled(self) -> Iterator[Entry]:
        """What is done in a period, in order."""
        left = self.timetable.usable
        begun = ""  # the step of which not every builder could have a turn in this period
        while self.pending:
            chosen = next(self._possible(left, begun), None)
            if chosen is None:
                return
            if (turn := self.rounds.get(chosen[0].id)) is not None and turn.left:
                self._pass(turn.work)
                left -= turn.work
                turn.left, turn.free = turn.left - 1, self.bench.clock + turn.wait
                yield Entry(chosen[0].id, turn.work, 1, turn.of, last=turn.last)
                continue
            for step in chosen:
                own, number = self.own[step.id], self.turns.get(step.id, 1)
                others = number - 1 - self.had.get(step.id, 0)
                fitting = min(others, int(left // own)) if own else others
                self._pass(own * fitting)
                left -= own * fitting
                self.had[step.id] = self.had.get(step.id, 0) + fitting
                if fitting < others or own > left:
                    begun = step.id
                    if fitting:
                        yield Entry(step.id, own * fitting, fitting, number)
                    break
                frames, _ = carry_out(self.guide, [step], self.bench)
                before, self.bench = self.bench, frames[-1].after if frames else self.bench
                rest = max(self.bench.clock - before.clock - own, ZERO)
                left -= own + rest
                self.pending.remove(step)
                yield Entry(step.id, own * (fitting + 1), fitting + 1, number, rest)

    def _possible(self, left: Fraction, begun: str) -> Iterator[list[Step]]:
        """Steps that may be done now, the best first: work before waiting, in the written order."""
        waits: list[list[Step]] = []
        passed: frozenset[str] = frozenset()
        for number, step in enumerate(self.pending):
            own = self.touched[step.id]
            if not passed & own and step.id != begun and self._free(step, left):
                tried = self._tried(number, left)
                if tried is not None and tried[1]:
                    waits.append(tried[0])
                elif tried is not None:
                    yield tried[0]
            passed |= own
        yield from waits[:1]

    def _free(self, step: Step, left: Fraction) -> bool:
        """Whether the tool for a step is not on others' work, and there is time for a turn of theirs."""
        turn = self.rounds.get(step.id)
        return turn is None or (self.bench.clock >= turn.free and (not turn.left or turn.work <= left))

    def _tried(self, number: int, left: Fraction) -> tuple[list[Step], Fraction] | None:
        """The step at this place of the list, with those after it without which the work cannot be put away,
        if they fit into what is left; with the seconds that they wait. Of a step that builders take in turns,
        one turn has to fit."""
        found = self._unit(number, left)
        return (found[0], found[2]) if found is not None and found[1] <= left else None

    def _unit(self, number: int, left: Fraction) -> tuple[list[Step], Fraction, Fraction] | None:
        """The same, until it takes more than is left, with all its seconds and those that it waits; None if
        something is lacking for it. After a night nothing may be left to wait for, and nothing lacks then."""
        bench, used, waited = self.bench, ZERO, ZERO
        steps: list[Step] = []
        for step in self.pending[number:]:
            frames, _ = carry_out(self.guide, [step], bench)
            if any(not need.met and not isinstance(need, Dries) for frame in frames for need in frame.needs):
                return None
            after = frames[-1].after if frames else bench
            rest = max(after.clock - bench.clock - self.own[step.id], ZERO)
            bench, used, waited = after, used + self.own[step.id] + rest, waited + rest
            steps.append(step)
            if used > left:
                break
            following = self.pending[number + len(steps)] if number + len(steps) < len(self.pending) else None
            if _keeps(bench, leans=following is not None and _waits_only(following)):
                break
        return steps, used, waited

    def _resting(self) -> Iterator[Resting]:
        """The waits that are under way: the next steps of which nothing that is passed over is touched."""
        passed: frozenset[str] = frozenset()
        for step in self.pending:
            own = self.touched[step.id]
            if not passed & own and not self.own[step.id]:
                frames, _ = carry_out(self.guide, [step], self.bench)
                rest = frames[-1].after.clock - self.bench.clock if frames else ZERO
                if rest:
                    yield Resting(step.id, rest)
            passed |= own

    def _seconds(self, step: Step) -> Fraction:
        """What the class needs for a step until every builder has had a turn."""
        return self.own[step.id] * self.turns.get(step.id, 1)

    def _pass(self, seconds: Fraction) -> None:
        if seconds > 0:
            cause = (
                Cause("", self.steps[0].at, self.steps[0].id) if self.steps else Cause("", self.guide.at, "")
            )
            self.bench = apply(self.bench, Pass(seconds, ZERO, cause))


def _touched(guide: Guide, run: DryRun) -> Mapping[str, frozenset[str]]:
    """The parts that each step needs or changes."""
    found: dict[str, frozenset[str]] = {step.id: frozenset() for step in run.route.steps}
    for frame in run.frames:
        found[frame.step.id] |= touched_by(guide, frame)
        if frame.action.verb.kind == "wait":
            found[frame.step.id] |= frozenset(
                item for ref in frame.action.refs("what") for item in frame.before.assembly(ref.id)
            )
    return found


def _span(queue: Queue, steps: Sequence[Step]) -> list[Step]:
    """The steps through which a tool is busy; none if it is not the builders' own work."""
    ids = [step.id for step in steps]
    if queue.step not in ids or queue.last not in ids:
        return []
    return list(steps[ids.index(queue.step) : ids.index(queue.last) + 1])


def _rounds(run: DryRun, queues: Sequence[Queue], steps: Sequence[Step]) -> Iterator[tuple[str, Round]]:
    """The tools that stay on the work through a wait, by the step that takes them."""
    for queue in queues:
        span = _span(queue, steps)
        frames = [frame for step in span for frame in run.of_step(step.id)]
        if queue.turns < 2 or not any(_waits_only(step) for step in span) or not frames:
            continue
        work = frames[-1].after.active - frames[0].before.active
        wait = frames[-1].after.clock - frames[0].before.clock - work
        yield queue.step, Round(queue.last, work, wait, queue.turns - 1, queue.turns)


def _turns(queues: Sequence[Queue], steps: Sequence[Step], rounds: Mapping[str, Round]) -> dict[str, int]:
    """How many turns a class takes at each step, for the other tools that builders share."""
    found: dict[str, int] = {}
    for queue in queues:
        if queue.step not in rounds:
            for step in _span(queue, steps):
                found[step.id] = max(found.get(step.id, 1), queue.turns)
    return found


def _waits_only(step: Step) -> bool:
    """Whether a step is nothing but a wait: after a night there may be nothing left to wait for."""
    return all(action.verb.kind == "wait" for action in step.each_action())


def _keeps(bench: Bench, *, leans: bool) -> bool:
    """Whether the work can be left as it is: no glue that is still to meet, and no joint that only leans,
    unless (`leans`) it waits next anyway and lies where it is until then."""
    leaning = any(
        joint.adhesive and not joint.steady and joint.set_at is not None and joint.set_at > bench.clock
        for joint in bench.joints
    )
    return not bench.wets and (leans or not leaning)
