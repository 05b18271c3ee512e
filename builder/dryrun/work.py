"""The worker at the bench: carries out one action, recording needs, effects and suppositions.

A kind of action is a function of (action, work). `Work` starts from the bench before; every effect is
applied at once to its own bench, so that a later need of the same action sees it. Nothing is judged:
an unmet need is recorded, and the least that would meet it is supposed.
"""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction

from msgspec.structs import replace

from builder.dryrun import needs as n
from builder.dryrun.bench import Bench, Cause, Item, Joint
from builder.dryrun.effects import Close, Effect, Make, apply
from builder.dryrun.labels import label_times
from builder.findings import Place
from builder.guide.model import Action, Guide, Ref, Repeat, Spot, Step, Thing, Value

_ZERO = Fraction(0)
_NOTHING: frozenset[str] = frozenset()


class Fresh:
    """The joints that may not bear everything yet; one that has cured is not looked at again."""

    def __init__(self) -> None:
        self._all: tuple[Joint, ...] = ()
        self._left: list[Joint] = []
        self._done: set[int] = set()  # the frames keep every joint alive, so an id stays its own

    def joints(self, bench: Bench, now: Fraction) -> list[Joint]:
        """Those of the bench that are not cured now. Time must not go back between two calls."""
        if bench.joints is not self._all:
            self._all, done = bench.joints, self._done
            self._left = [j for j in bench.joints if id(j) not in done]
        top, bottom = now.numerator, now.denominator  # compared by hand, as `later` does
        found = [
            j
            for j in self._left
            if j.adhesive
            and (cured := j.cured_at) is not None
            and cured.numerator * bottom > top * cured.denominator
        ]
        if len(found) < len(self._left):
            self._done |= {id(j) for j in self._left} - {id(j) for j in found}
            self._left = found
        return found


class Work:
    """One action in hand. `copy` is the number of the copy in a repeat (0 outside one)."""

    def __init__(
        self,
        guide: Guide,
        bench: Bench,
        action: Action,
        step: Step,
        repeat: Repeat | None,
        copy: int,
        seconds: Fraction,
        named_marks: frozenset[str],
        fresh: Fresh | None = None,
    ) -> None:
        self.guide = guide
        self.bench = bench
        self.action = action
        self.step = step
        self.repeat = repeat
        self.copy = copy
        self.seconds = seconds
        self.named_marks = named_marks
        self.fresh = Fresh() if fresh is None else fresh
        self.start = bench.clock
        self.needs: list[n.Need] = []
        self.effects: list[Effect] = []
        self.supposed: list[Effect] = []
        self.active = seconds
        self._given = seconds  # its share of the step
        self._end: Fraction | None = None
        self._spared: set[str] | None = None  # what it is gentle with, worked out when a joint asks

    @property
    def timed(self) -> bool:
        """Whether its share of the step is known: a repeat over nobody knows how many has none."""
        of = self.guide.things.get(self.repeat.of.id) if self.repeat is not None else None
        return of is None or bool(self.repeat and self.repeat.of.copies) or of.counted

    @property
    def end(self) -> Fraction:
        """When it is done, if it takes its share of the step: what it lays is as old as that."""
        if self._end is None:
            self._end = self.start + self._given
        return self._end

    # -- recording --------------------------------------------------------------------------------

    def need(self, need: n.Need) -> bool:
        """Record a need; whether it is met."""
        self.needs.append(need)
        return need.met

    def effect(self, effect: Effect) -> None:
        """Record an effect and apply it."""
        self.effects.append(effect)
        self.bench = apply(self.bench, effect)

    def suppose(self, effect: Effect) -> None:
        """Apply an effect that nobody carried out, so that the run can go on."""
        self.supposed.append(effect)
        self.bench = apply(self.bench, effect)

    def cause(self, *reads: frozenset[str], at: Place | None = None, supposed: bool = False) -> Cause:
        """Who makes a fact: this action."""
        return Cause(
            self.action.path,
            at or self.action.at,
            self.step.id,
            _NOTHING.union(*reads) if reads else _NOTHING,
            supposed,
            self.step.optional,
        )

    # -- things -----------------------------------------------------------------------------------

    def thing(self, item: str) -> Thing:
        """The thing that an item is a copy of."""
        return self.guide.things[thing_id(item, self.guide)]

    def folded(self, item: str) -> bool:
        """Whether the item has been folded."""
        there = self.bench.items.get(item)
        return there is not None and there.folded

    def items(self, ref: Ref) -> list[str]:
        """The items that a reference names here: the copy in hand, the stated copies, or all of them."""
        thing = self.guide.things.get(ref.id)
        if thing is None:
            return []
        if thing.form == "assembly":
            base = self._base_of(thing)
            return self.items(Ref(base.id, ref.at)) if base is not None else []
        if thing.blank_of:
            return [thing.id]
        if thing.count <= 1 and not ref.copies:
            return [thing.id]
        if ref.copies:
            return [key_of(thing, number) for number in ref.copies]
        if self.repeat is not None:
            return [key_of(thing, self.copy)]  # copies pair by index
        return [key_of(thing, number) for number in range(1, thing.count + 1)]

    def _base_of(self, assembly: Thing) -> Thing | None:
        """The part that a named sub-assembly is built on; one may be built on another."""
        seen = {assembly.id}
        thing: Thing | None = assembly
        while thing is not None and thing.form == "assembly":
            base = thing.refs.get("base")
            thing = self.guide.things.get(base.id) if base is not None and base.id not in seen else None
            seen.add(thing.id if thing is not None else "")
        return thing

    def items_named(self, name: str) -> list[str]:
        """The items of a name as it stands in a place (`thrust_ring`, `fin 2`)."""
        head, _, tail = name.partition(" ")
        copies = (int(tail),) if tail.isdigit() else ()
        return self.items(Ref(head, self.action.at, copies))

    def all_items(self, refs: Iterable[Ref]) -> list[str]:
        """The items of several references, each once."""
        return list(dict.fromkeys(item for ref in refs for item in self.items(ref)))

    def exists(self, item: str, at: Place) -> bool:
        """Need the item to be there; suppose it if it is not."""
        there = self.bench.items.get(item)
        thing = self.guide.things.get(thing_id(item, self.guide) if there is None else there.thing)
        if thing is None:
            return False
        copy = copy_of(item, thing) if there is None else there.copy
        state, reads = "here", _NOTHING
        if copy > thing.count and thing.counted:
            state, reads = "copy", thing.reads("count")
        elif there is None:
            state = "missing"
        elif there.cause.optional and not self.step.optional:
            state = "optional"
        if state == "here":
            self.needs.append(n.Exists(at=at, item=item, thing=thing.id))
            return True
        self.need(n.Exists(at=at, met=False, item=item, thing=thing.id, state=state, reads=reads))
        cause = self.cause(at=at, supposed=True)
        self.suppose(Make(Item(item, thing.id, copy, cause), cause))
        return False

    def field_items(self, field: str) -> list[str]:
        """The items that a field names, each needed to be there."""
        found = []
        for ref in self.action.refs(field):
            thing = self.guide.things.get(ref.id)
            if thing is None or thing.sort == "material":
                continue
            for item in self.items(ref):
                self.exists(item, ref.at)
                found.append(item)
        return list(dict.fromkeys(found)) if len(found) > 1 else found

    def materials(self, field: str) -> list[Thing]:
        """The materials that a field names."""
        things = (self.guide.things.get(ref.id) for ref in self.action.refs(field))
        return [t for t in things if t is not None and t.sort == "material"]

    def adhesive(self) -> Thing | None:
        """The adhesive that the action is done with."""
        return next((t for t in self.materials("with") if t.form == "adhesive"), None)

    def read(self, *values: Value | None) -> frozenset[str]:
        """The written numbers behind the values."""
        return frozenset().union(*(v.reads for v in values if v is not None))

    def side_spot(self, *sides: str) -> tuple[str, Spot] | None:
        """The first of the given place fields that the action has: (field, place)."""
        for side in sides:
            spot = self.action.spot(side)
            if spot is not None:
                return side, spot
        return None

    # -- joints -----------------------------------------------------------------------------------

    def joint(
        self, a: str, b: str, kind: str, cause: Cause, adhesive: str = "", steady: str = "", held_by: str = ""
    ) -> Joint:
        """A joint that closes at the end of this action, with the moments at which its label has it set and
        cured. Where a label does not say (a finding of its own), the least that the trade knows serves."""
        closed = self.end
        if not adhesive:
            return Joint(a, b, kind, closed, cause, "", steady, held_by, closed, closed)
        set_after, cured_after = label_times(self.guide.things[adhesive])
        return Joint(
            a,
            b,
            kind,
            closed,
            cause,
            adhesive,
            steady,
            held_by,
            None if set_after is None else closed + set_after,
            None if cured_after is None else closed + cured_after,
        )

    def maturity(self, joint: Joint, level: str) -> Fraction | None:
        """Seconds that are missing until a joint is set or cured; 0 when it is; None if the label does not
        say (which is a finding of its own)."""
        ready = joint.set_at if level == "set" else joint.cured_at
        if ready is None:
            return None
        return ready - self.start if later(ready, self.start) else _ZERO

    def demand(
        self, level: str, items: Iterable[str], doing: str, at: Place, others: Iterable[str] = ()
    ) -> None:
        """Ask the joints among `items` to bear `level`, and those among `others` to be carried."""
        doing = self.action.verb.doing or doing
        asked: dict[int, tuple[Joint, str]] = {}
        fresh = self.fresh.joints(self.bench, self.start)
        strong, weak = set(items), set(others)
        for joint in fresh:
            if joint.a in strong and joint.b in strong:
                asked[id(joint)] = (joint, level)
            elif joint.a in weak and joint.b in weak:
                asked[id(joint)] = (joint, "carry")
        unmet: list[tuple[Joint, str]] = []
        for joint, demand in asked.values():
            lacks, missing = self._lacks(joint, demand)
            met = not lacks
            self.need(
                n.Bears(at=at, met=met, demand=demand, joint=joint, doing=doing, level=lacks, missing=missing)
            )
            if not met:
                unmet.append((joint, demand))
        for joint, demand in unmet:
            self._suppose_mature(joint, demand)

    def _lacks(self, joint: Joint, demand: str) -> tuple[str, Fraction | None]:
        if not joint.adhesive or self._gentle(joint):
            return "", None
        level = "cured" if demand in ("load", "coat") else "set"
        missing = self.maturity(joint, level)
        if not missing:
            return "", None
        if demand == "carry" and self.is_steady(joint):
            return "", None
        return ("steady" if demand == "carry" else level), missing

    def is_steady(self, joint: Joint) -> bool:
        """Whether a joint that has not set keeps its place by itself."""
        return bool(joint.steady) and (joint.steady != "jig" or self._jig_there(joint))

    def _jig_there(self, joint: Joint) -> bool:
        return joint.held_by in self.bench.seats or not joint.held_by

    def _gentle(self, joint: Joint) -> bool:
        named = self._spared
        if named is None:
            gently = self.action.fields.get("gently")
            refs = gently[0] if isinstance(gently, tuple) and gently else ()
            named = self._spared = {item for r in refs if isinstance(r, Ref) for item in self.items(r)}
        return joint.a in named or joint.b in named

    def _suppose_mature(self, joint: Joint, demand: str) -> None:
        """The least that meets the demand: the wait that is missing before it."""
        level = "cured" if demand in ("load", "coat") else "set"
        for each in self.bench.joints_of(self.bench.assembly(joint.a)):
            if each.adhesive and self.maturity(each, level):
                ready = self.start
                ripened = replace(
                    each,
                    set_at=ready,
                    cured_at=ready if level == "cured" else each.cured_at,
                    steady=each.steady or ("supposed" if demand == "carry" else ""),
                )
                self.suppose(Close(ripened, self.cause(supposed=True), instead=each))


def key_of(thing: Thing, copy: int) -> str:
    """The key of a copy: `fin 2`, or the id of a thing with one copy."""
    return f"{thing.id} {copy}" if thing.count > 1 or copy > 1 else thing.id


def thing_id(item: str, guide: Guide) -> str:
    """The id of the thing that an item is a copy of."""
    if item in guide.things:
        return item
    return item.rpartition(" ")[0]


def copy_of(item: str, thing: Thing) -> int:
    """The number of a copy; 1 for a thing with one."""
    tail = item.rpartition(" ")[2]
    return int(tail) if item != thing.id and tail.isdigit() else 1


def later(a: Fraction, b: Fraction) -> bool:
    """a > b. Comparing across by hand spares the tests of type that a Fraction makes each time."""
    return a.numerator * b.denominator > b.numerator * a.denominator
