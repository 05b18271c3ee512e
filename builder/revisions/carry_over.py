"""A half-made kit of one revision, to be finished by another: what to do to it, where to go on, or that it
must be begun again.

The two benches are compared, and the plan is proved by a dry run: what is left to do is carried out on the
bench in hand, and must end with the kit that the newer guide ends with. What is glued cannot be taken apart.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from fractions import Fraction

import msgspec
from msgspec.structs import replace

from builder.dryrun.bench import Bench, Cause, Mark, Seat
from builder.dryrun.effects import Effect, Lay, Make, Pass, Place, apply
from builder.dryrun.needs import Bears, Dries, Need
from builder.dryrun.run import DryRun, Frame, carry_out, opening
from builder.dryrun.work import thing_id
from builder.guide.model import Action, Repeat, Route, Step, Thing
from builder.revisions.desk import Desk
from builder.revisions.edition import Edition
from builder.revisions.in_hand import FITS, differs, hosts, item_name, same_seat, translated
from builder.revisions.match import matched

MOST_TRIES = 12


class Unclear(Exception):
    """The question cannot be answered as it was put; the text says why."""


class Again(msgspec.Struct, frozen=True):
    """A part in hand that cannot be used, and why."""

    item: str
    why: str


class Todo(msgspec.Struct, frozen=True):
    """A step to do before going on. `again` tells that it was done before, for a part that is lost."""

    step: str
    again: bool


class Plan(msgspec.Struct, frozen=True):
    """What to do with the kit in hand. All ids are those of the newer guide.

    `begin_again` says that nothing that was made can be kept. `apart` are parts that come off and stay good,
    or that the newer kit does not have; `again` those to make or buy anew, `todo` the steps to do first,
    `wait` the seconds that its joints must still stand, `skip` steps that are done already though they come
    later, `go_on` the step to go on with (empty: the kit is finished).
    """

    begin_again: bool
    apart: tuple[str, ...] = ()
    again: tuple[Again, ...] = ()
    todo: tuple[Todo, ...] = ()
    wait: Fraction = Fraction(0)
    skip: tuple[str, ...] = ()
    go_on: str = ""


def carry_over(old: Edition, new: Edition, step: str, route: Mapping[str, str]) -> Plan:
    """The plan for a kit that was made by `old` until `step` (an id of its) was done, on the route of these
    options. Errors: Unclear."""
    desk = Desk(old, new, matched(old.facts, new.facts))
    before = _run(old, route, step)
    after = _run_of(new, before.route)
    frames = [frame for frame in before.frames if not frame.prep]
    last = max((i for i, frame in enumerate(frames) if frame.step.id == step), default=None)
    if last is None:
        raise Unclear(f"nothing is done by the builder in the step {step}")
    done = {desk.name("step", frame.step.id) for frame in frames[: last + 1]}
    return _Carrier(desk, after, translated(frames[last].after, desk), done).plan()


def _run(edition: Edition, options: Mapping[str, str], step: str) -> DryRun:
    """The dry run of a route of these options that leads through the step."""
    for run in edition.runs:
        fits = all(run.route.options.get(choice, option) == option for choice, option in options.items())
        if fits and any(each.id == step for each in run.route.steps):
            return run
    raise Unclear(f"{edition.label} has no step {step} on that route")


def _run_of(edition: Edition, route: Route) -> DryRun:
    """The newer dry run of the same options, as far as there are such."""
    for run in edition.runs:
        options = run.route.options
        if all(options.get(choice, option) == option for choice, option in route.options.items()):
            return run
    raise Unclear(f'{edition.label} no longer has the route "{route.name}": begin again on another one')


class _Carrier:
    """Looks for a plan that a dry run proves: first with all that is good, then with less and less of it."""

    def __init__(self, desk: Desk, run: DryRun, hand: Bench, done: set[str]) -> None:
        self.desk, self.run, self.hand, self.done = desk, run, hand, done
        self.guide = desk.new.guide
        self.steps = [step for step in run.route.steps if not step.stage.per_class]
        self.order = {step.id: number for number, step in enumerate(self.steps)}
        self.reached = self._frontier()
        self.usual = {_fault(need) for need in _unmet(run.frames)}
        self.lost: dict[str, str] = {}
        self.apart: dict[str, None] = {}
        self.marks: dict[str, None] = {}  # to be drawn anew

    def _frontier(self) -> int:
        """The step up to which the kit counts as done, so that the fewest steps are to be caught up before it
        or passed over after it; the latest of several."""
        done = [step.id in self.done for step in self.steps]
        best, fewest = -1, sum(done)
        for number in range(len(done)):
            missing = done[: number + 1].count(False) + done[number + 1 :].count(True)
            if missing <= fewest:
                best, fewest = number, missing
        return best

    def plan(self) -> Plan:
        """The plan."""
        self._look()
        for _ in range(MOST_TRIES):
            if self._all_lost():
                break
            steps = self._left()
            bench, wait = self._bench(), Fraction(0)
            frames, _ = carry_out(self.guide, steps, bench)
            faults = [need for need in _unmet(frames) if _fault(need) not in self.usual]
            wait = max((n.missing or Fraction(0) for n in faults if isinstance(n, Bears)), default=wait)
            if wait:
                bench = apply(bench, Pass(wait, Fraction(0), Cause("", self.guide.at, "")))
                frames, _ = carry_out(self.guide, steps, bench)
            trouble = self._trouble(frames, bench)
            if not trouble:
                return self._told(steps, wait)
            if not self._give_up(trouble):
                break
        return Plan(True, again=self._lost())

    def _lost(self) -> tuple[Again, ...]:
        """What cannot be kept; a blank goes with the tube that was rolled from it."""
        things = self.guide.things
        return tuple(
            Again(item, why)
            for item, why in self.lost.items()
            if (thing := things.get(item)) is None or thing.blank_of not in self.lost
        )

    # -- what cannot be kept ----------------------------------------------------------------------

    def _look(self) -> None:
        """Parts in hand whose measures are others now; parts that sit elsewhere now, or belong to no kit."""
        for key, item in self.hand.items.items():
            thing = self.guide.things.get(item.thing)
            older = self.desk.old.guide.things.get(self.desk.back.get(("thing", item.thing), item.thing))
            if thing is not None and older is not None and thing.sort == "part":
                why = differs(older, thing, self.desk)
                if why and not self._fits_as_it_is(key, older, thing):
                    self.lost[key] = why
        wanted = {effect.item.key for frame in self.run.frames for effect in frame.effects
                  if isinstance(effect, Make)} | set(self.run.start.items)  # fmt: skip
        for key in self.hand.items:
            if key not in wanted and not self._is_tool(key):
                self.apart[key] = None
        placed = {e.seat.child for frame in self.run.frames for e in frame.effects if isinstance(e, Place)}
        for key, seat in self.hand.seats.items():
            if key in self.lost or self._is_tool(key):
                continue
            then = self._seat_then(key)
            glued = self._glued(key, seat.host)
            if key not in placed:
                self.apart[key] = None
            if key in self.apart and glued:
                self.lost.setdefault(
                    seat.host, f"the {self._name(key)} is glued to it, and belongs there no more"
                )
            elif then is not None and not same_seat(seat, then) and glued:
                self.lost[key] = f"it sits elsewhere on the {self._name(seat.host)} now"
            elif then is not None and not same_seat(seat, then):
                self.apart[key] = None
        self._spread()
        for key, seat in self.hand.seats.items():
            if seat.host in self.lost and key not in self.lost and not self._is_tool(key):
                self.apart[key] = None
        for effect in self._effects_then():
            mark = effect.mark if isinstance(effect, Lay) else None
            drawn = self.hand.marks.get(mark.id) if mark is not None else None
            if mark is not None and drawn is not None and not _same_mark(drawn, mark):
                self.marks[mark.id] = None

    def _fits_as_it_is(self, item: str, older: Thing, newer: Thing) -> bool:
        """Whether a ring or a disc may stay though it was cut to another fit: it is glued in where it
        belongs, and nothing that is left to do rests on its fit."""
        seat, then = self.hand.seats.get(item), self._seat_then(item)
        if newer.form not in ("ring", "disc") or differs(older, newer, self.desk, FITS):
            return False
        if seat is None or then is None or not same_seat(seat, then) or not self._glued(item, seat.host):
            return False
        numbers = {newer.values[field].path for field in FITS if field in newer.values}
        left = [frame for frame in self.run.frames if not frame.prep and frame.step.id not in self.done]
        return not any(numbers & frame.reads for frame in left)

    def _effects_then(self) -> Iterator[Effect]:
        """What the newer guide has done when the step that was reached is done."""
        for frame in self.run.frames:
            if self.order.get(frame.step.id, -1) <= self.reached or frame.step.id in self.done:
                yield from frame.effects

    def _seat_then(self, item: str) -> Seat | None:
        """Where the item sits in the newer guide when the step that was reached is done."""
        seats = [e.seat for e in self._effects_then() if isinstance(e, Place) and e.seat.child == item]
        return seats[-1] if seats else None

    def _glued(self, item: str, host: str) -> bool:
        """Whether a joint that cannot be undone holds the item to its host."""
        return any(j.adhesive and j.touches(item) and j.touches(host) for j in self.hand.joints)

    def _spread(self) -> None:
        """What is glued to a lost part is lost with it."""
        growing = True
        while growing:
            growing = False
            for joint in self.hand.joints:
                for one, other in ((joint.a, joint.b), (joint.b, joint.a)):
                    kept = other not in self.lost and other in self.hand.items and not self._is_tool(other)
                    if one in self.lost and joint.adhesive and kept:
                        self.lost[other] = f"it is glued to the {self._name(one)}"
                        growing = True

    def _give_up(self, trouble: Sequence[str]) -> bool:
        """Give up the parts that stand in the way; false if that gives up nothing more."""
        before = len(self.lost)
        for item in trouble:
            if item in self.hand.items and item not in self.run.start.items and not self._is_tool(item):
                self.lost.setdefault(item, "what is left to do cannot be done on it any more")
        self._spread()
        return len(self.lost) > before

    def _all_lost(self) -> bool:
        """Whether nothing that was made is left."""
        made = [
            key
            for key in self.hand.items
            if key not in self.run.start.items and not self._is_tool(key) and not self._is_rolled(key)
        ]
        return bool(made) and all(key in self.lost for key in made)

    def _is_rolled(self, item: str) -> bool:
        """Whether it is a blank of which the tube is there."""
        thing = self.guide.things.get(item)
        return thing is not None and thing.blank_of in self.hand.items

    def _is_tool(self, item: str) -> bool:
        thing = self.guide.things.get(thing_id(item, self.guide))
        return thing is not None and thing.sort == "tool"

    def _name(self, item: str) -> str:
        return item_name(self.guide, item)

    # -- the bench to go on with ------------------------------------------------------------------

    def _bench(self) -> Bench:
        """The bench in hand without what is lost, with stock and bought parts for what is made again."""
        gone = set(self.lost)
        off = gone | set(self.apart)
        start = opening(self.guide)
        items = {key: item for key, item in self.hand.items.items() if key not in gone}
        prepared = {effect.item.key: effect.item for frame in self.run.frames if frame.prep
                    for effect in frame.effects if isinstance(effect, Make)}  # fmt: skip
        for key, item in {**start.items, **prepared}.items():
            items.setdefault(key, item)
        hand = self.hand
        seats = {key: seat for key, seat in hand.seats.items() if key not in off and seat.host not in gone}
        return replace(
            hand, items=items, stock=start.stock, used=frozenset(), seats=seats, on=hosts(seats),
            joints=tuple(joint for joint in hand.joints if not {joint.a, joint.b} & off),
            marks={k: m for k, m in hand.marks.items() if m.host not in gone and k not in self.marks},
            coats=tuple(coat for coat in hand.coats if coat.item not in gone),
            holes=tuple(hole for hole in hand.holes if hole.item not in gone),
        )  # fmt: skip

    def _left(self) -> list[Step]:
        """The steps that are left, in the newer order: those never done whole, and of those that were done
        what makes, marks, glues and seats the parts that are made or set on again."""
        wanted = set(self.lost) | set(self.apart)
        again: dict[str, dict[str, set[int]]] = {}
        for frame in self.run.frames:
            if frame.step.id in self.done and not frame.prep and self._serves(frame, wanted):
                again.setdefault(frame.step.id, {}).setdefault(frame.action.path, set()).add(frame.copy)
        steps = []
        for step in self.steps:
            if step.id not in self.done:
                steps.append(step)
            elif step.id in again:
                steps.append(_trimmed(step, again[step.id]))
        return steps

    def _serves(self, frame: Frame, wanted: set[str]) -> bool:
        """Whether an action must be done again for parts that are made or set on again."""
        for effect in frame.effects:
            if isinstance(effect, Make) and effect.item.key in self.lost:
                return True
            if isinstance(effect, Place) and effect.seat.child in wanted:
                return True
            wet, joint = getattr(effect, "wet", None), getattr(effect, "joint", None)
            if wet is not None and (wet.host in self.lost or wet.meets & wanted):
                return True
            if joint is not None and {joint.a, joint.b} & wanted:
                return True
            if isinstance(effect, Lay) and effect.mark.id in self.marks:
                return True
            for name, of in (("mark", "host"), ("coat", "item"), ("hole", "item")):
                on = getattr(effect, name, None)
                if on is not None and getattr(on, of) in self.lost:
                    return True
        looks = frame.action.verb.kind in ("wait", "verify", "remove", "sand", "fold")
        return looks and bool(self._meant(frame.action) & {thing_id(item, self.guide) for item in wanted})

    def _meant(self, action: Action) -> set[str]:
        """The things that an action is about; of a sub-assembly its base."""
        found = set()
        for ref in (*action.refs("what"), *(action.refs("from") if action.verb.kind == "remove" else ())):
            thing = self.guide.things.get(ref.id)
            base = thing.refs.get("base") if thing is not None and thing.form == "assembly" else None
            found.add(base.id if base is not None else ref.id)
        return found

    # -- proof ------------------------------------------------------------------------------------

    def _trouble(self, frames: Sequence[Frame], bench: Bench) -> list[str]:
        """The parts that stand in the way of what is left, or that are not as they must be in the end."""
        for frame in frames:
            for need in frame.needs:
                if not need.met and _fault(need) not in self.usual and not isinstance(need, Dries):
                    return _items_of(need) or ["?"]
        end, final = (frames[-1].after if frames else bench), self.run.end
        found = [key for key in final.items if key not in end.items]
        for key, seat in final.seats.items():
            there = end.seats.get(key)
            if there is None or not same_seat(there, seat):
                found += [key, seat.host]
        pairs = {frozenset((joint.a, joint.b)) for joint in end.joints}
        for joint in final.joints:
            if joint.adhesive and frozenset((joint.a, joint.b)) not in pairs:
                found += [joint.a, joint.b]
        coated = {coat.item for coat in end.coats}
        return found + [coat.item for coat in final.coats if coat.item not in coated]

    def _told(self, steps: Sequence[Step], wait: Fraction) -> Plan:
        first = [step.id for step in steps if self.order[step.id] <= self.reached]
        rest = [step.id for step in steps if self.order[step.id] > self.reached]
        return Plan(
            False,
            tuple(item for item in self.apart if item not in self.lost),
            self._lost(),
            tuple(Todo(id, id in self.done) for id in first),
            wait,
            tuple(step.id for step in self.steps[self.reached + 1 :] if step.id in self.done),
            rest[0] if rest else "",
        )


def _trimmed(step: Step, kept: Mapping[str, set[int]]) -> Step:
    """A step with only some of its actions, and a repeat with only some of its copies."""
    entries: list[Action | Repeat] = []
    for entry in step.actions:
        if isinstance(entry, Action):
            if entry.path in kept:
                entries.append(entry)
            continue
        actions = tuple(action for action in entry.actions if action.path in kept)
        copies = sorted(set().union(*(kept[action.path] for action in actions)))
        if actions:
            entries.append(replace(entry, of=replace(entry.of, copies=tuple(copies)), actions=actions))
    return replace(step, actions=tuple(entries))


def _same_mark(one: Mark, other: Mark) -> bool:
    ours = (one.host, one.side, one.stretch, one.across, one.angles)
    return ours == (other.host, other.side, other.stretch, other.across, other.angles)


def _unmet(frames: Iterable[Frame]) -> list[Need]:
    return [need for frame in frames for need in frame.needs if not need.met]


def _fault(need: Need) -> tuple[object, ...]:
    """What a need lacks, whoever asks for it: a fault of the newer guide is none of the kit's."""
    return (type(need), need.at)


def _items_of(need: Need) -> list[str]:
    """The items that a need speaks of."""
    found = [getattr(need, name, "") for name in ("child", "host", "item", "other", "blocker")]
    joint = getattr(need, "joint", None)
    return [item for item in (*found, *((joint.a, joint.b) if joint is not None else ())) if item]
