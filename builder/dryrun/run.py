"""The dry run of a route: every action carried out on a bench, frame by frame.

`run(guide, route)` is pure. A frame holds the bench before, what was needed, what changed, what had to
be supposed, and the bench after. Preparation stages are run first; the builder's clock starts after them.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction

import msgspec

from builder.dryrun.bench import Bench, Cause, Item, Piece
from builder.dryrun.cutting import on_stock
from builder.dryrun.effects import Effect, Pass, apply
from builder.dryrun.kinds import BY_NAME, Kind
from builder.dryrun.needs import Need
from builder.dryrun.work import Fresh, Work, key_of
from builder.guide.model import Action, Guide, Repeat, Route, Step, Thing

MOST_FRAMES = 5_000
MOST_NEEDS = 60_000  # of one run: each of many copies may ask each of many wet joints
DAY = Fraction(24 * 3600)
_ZERO = Fraction(0)

# One action to be done: its repeat if it stands in one, the copy in hand (0 outside), and its seconds.
Turn = tuple[Action, Repeat | None, int, Fraction]


class Frame(msgspec.Struct, frozen=True):
    """One action carried out, for one copy. `start` and `end` are seconds of the clock; `prep` is true in
    a preparation stage."""

    step: Step
    action: Action
    copy: int
    before: Bench
    needs: tuple[Need, ...]
    effects: tuple[Effect, ...]
    supposed: tuple[Effect, ...]
    after: Bench
    prep: bool
    repeat: Repeat | None = None

    @property
    def seconds(self) -> Fraction:
        """How long it took by the clock."""
        return self.after.clock - self.before.clock

    @property
    def reads(self) -> frozenset[str]:
        """The written numbers that the needs and effects rest on."""
        found = frozenset().union(*(need.reads for need in self.needs))
        return found.union(*(e.cause.reads for e in self.effects))


class DryRun(msgspec.Struct, frozen=True):
    """A route carried out from beginning to end."""

    route: Route
    start: Bench
    frames: tuple[Frame, ...]
    cut_short: bool = False

    @property
    def end(self) -> Bench:
        """The bench at the end."""
        return self.frames[-1].after if self.frames else self.start

    def of_step(self, step: str) -> list[Frame]:
        """The frames of a step."""
        return [frame for frame in self.frames if frame.step.id == step]


def opening(guide: Guide) -> Bench:
    """The bench before the first step: stock, tools that are not made here, bought parts."""
    items: dict[str, Item] = {}
    stock: dict[str, tuple[Piece, ...]] = {}
    for thing in guide.things.values():
        if thing.sort == "material":
            stock[thing.id] = _pieces(thing)
        elif thing.sort == "assembly" or thing.blank_of:
            continue
        elif _is_there(thing):
            cause = Cause("", thing.at, "")
            for copy in range(1, thing.count + 1):
                key = key_of(thing, copy)
                items[key] = Item(key, thing.id, copy, cause)
    return Bench(items=items, stock=stock)


def _is_there(thing: Thing) -> bool:
    if thing.sort == "tool":
        return thing.words.get("printed") != "yes" and not thing.words.get("made_by")
    return bool(thing.words.get("source"))


def _pieces(material: Thing) -> tuple[Piece, ...]:
    length, width = material.mm("length"), material.mm("width")
    if not material.counted:
        return ()
    grain = on_stock(material)
    if material.form == "sheet" and length is not None and width is not None:
        return (Piece(material.id, length, width, grain=grain),) * material.count
    if material.form in ("strip", "cord", "rod", "tube") and length is not None:
        return (Piece(material.id, length, None, grain=grain),) * material.count
    return ()


def marks_of(guide: Guide) -> frozenset[str]:
    """Every mark that some action of the guide draws."""
    return frozenset(
        a.word("what") for step in guide.every_step() for a in step.each_action() if a.verb.kind == "mark"
    )


class Unfolded:
    """The steps of a guide with their repeats unfolded: worked out once, whatever routes take a step."""

    def __init__(self, guide: Guide) -> None:
        self.guide = guide
        self.marks = marks_of(guide)
        self._steps: dict[int, list[Turn]] = {}

    def turns(self, step: Step) -> list[Turn]:
        """What is done in a step, in its order."""
        found = self._steps.get(id(step))  # the guide keeps the step, so the id stays its own
        if found is None:
            found = self._steps[id(step)] = list(_turns(self.guide, step))
        return found


def run(
    guide: Guide, route: Route, kinds: Mapping[str, Kind] = BY_NAME, unfolded: Unfolded | None = None
) -> DryRun:
    """Carry a route out. Errors: none; whatever is missing is supposed."""
    steps = [s for s in route.steps if s.stage.per_class] + [s for s in route.steps if not s.stage.per_class]
    start = opening(guide)
    frames, cut_short = carry_out(guide, steps, start, kinds, unfolded)
    return DryRun(route, start, frames, cut_short)


def carry_out(
    guide: Guide,
    steps: Sequence[Step],
    bench: Bench,
    kinds: Mapping[str, Kind] = BY_NAME,
    unfolded: Unfolded | None = None,
) -> tuple[tuple[Frame, ...], bool]:
    """Carry steps out in their order, on whatever bench -> the frames, and whether it was broken off."""
    if unfolded is None:
        unfolded = Unfolded(guide)
    frames: list[Frame] = []
    fresh = Fresh()
    cut_short = False
    asked = 0
    was_prep = bool(steps and steps[0].stage.per_class)
    for step in steps:
        if was_prep and not step.stage.per_class:
            was_prep = False  # the class begins on another day: what the teacher made is long dry
            bench = apply(bench, Pass(7 * DAY, -bench.active, Cause("", step.at, step.id)))
        for action, repeat, copy, seconds in unfolded.turns(step):
            if len(frames) >= MOST_FRAMES or asked >= MOST_NEEDS:
                cut_short = True
                break
            kind = kinds.get(action.verb.kind)
            if kind is None:
                continue
            work = Work(guide, bench, action, step, repeat, copy, seconds, unfolded.marks, fresh)
            kind.run(work)
            if work.seconds:
                work.effect(Pass(work.seconds, work.active, work.cause()))
            frames.append(
                Frame(
                    step,
                    action,
                    copy,
                    bench,
                    tuple(work.needs),
                    tuple(work.effects),
                    tuple(work.supposed),
                    work.bench,
                    step.stage.per_class,
                    repeat,
                )
            )
            bench = work.bench
            asked += len(work.needs)
    return tuple(frames), cut_short


def _expanded(guide: Guide, step: Step) -> Iterator[tuple[Action, Repeat | None, int]]:
    """The actions of a step, those of a repeat once for each copy."""
    for entry in step.actions:
        if isinstance(entry, Action):
            yield entry, None, 0
            continue
        copies = entry.of.copies or tuple(range(1, guide.things[entry.of.id].count + 1))
        for copy in copies:
            for action in entry.actions:
                yield action, entry, copy


def _turns(guide: Guide, step: Step) -> Iterator[Turn]:
    """How the step's time is spread: `takes` and `hold` first, the rest equally over the others; waits take
    none of it."""
    entries = list(_expanded(guide, step))
    total = step.time.base if step.time is not None and step.time.base is not None else _ZERO
    fixed: dict[int, Fraction] = {}
    others = 0
    for i, (action, _, _) in enumerate(entries):
        if action.verb.kind == "wait":
            continue
        hold = action.value("hold")
        own = action.takes.base if action.takes is not None else hold.base if hold is not None else None
        if own is None:
            others += 1
        else:
            fixed[i] = own
    left = max(total - sum(fixed.values(), _ZERO) if fixed else total, _ZERO)
    share = left / others if others else _ZERO
    for i, (action, repeat, copy) in enumerate(entries):
        yield action, repeat, copy, _ZERO if action.verb.kind == "wait" else fixed.get(i, share)


def run_all(guide: Guide, kinds: Mapping[str, Kind] = BY_NAME) -> tuple[DryRun, ...]:
    """Every route, in the order of the choices."""
    unfolded = Unfolded(guide)
    return tuple(run(guide, route, kinds, unfolded) for route in guide.routes)
