"""What follows from a changed number or name: the derived numbers, the sentences, the steps that rest on it.

A change is told once, with all its places.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from functools import cached_property

from builder.guide.model import Action, Guide, Repeat, Step, Value
from builder.guide.wording import lead, sentence, title
from builder.guide.wording.pieces import Sentence
from builder.revisions.change import Spread
from builder.revisions.desk import Desk, show
from builder.revisions.edits import differences
from builder.revisions.texts import text_of

_UNSEEN = ("over_seam", "wrap", "widest")  # worked out on the way, printed nowhere
_MOST = 40  # places that are told of one change


class Consequences:
    """Looks up, for both editions, what changed without being written anew."""

    def __init__(self, desk: Desk) -> None:
        self.desk = desk

    # -- numbers ----------------------------------------------------------------------------------

    @cached_property
    def derived(self) -> list[tuple[str, frozenset[str], Spread]]:
        """(path, written numbers behind it, what is shown) of each number that follows and differs."""
        return list(self._derived())

    def _derived(self) -> Iterator[tuple[str, frozenset[str], Spread]]:
        old, new = self.desk.old, self.desk.new
        seen: set[str] = set()
        for thing in new.guide.things.values():
            id = self.desk.back.get(("thing", thing.id), thing.id)
            before = old.guide.things.get(id)
            if before is None or thing.sort == "assembly":
                continue
            for field, value in thing.values.items():
                earlier = before.values.get(field)
                if earlier is None or field in _UNSEEN or not _differ(earlier, value):
                    continue
                if field == "wall" and thing.form != "tube":
                    continue  # of a ring or a disc nobody measures it
                if earlier.text != value.text and value.path.partition(".")[0] == thing.id:
                    continue  # it was written anew, and is a change of its own
                shown = (show(value, new, value.text), show(earlier, old, earlier.text))
                name = f"{thing.name}, {_field(thing.blank_of, field)}"
                same = f"{thing.name} {shown}"
                if shown[0] != shown[1] and seen.isdisjoint((name, same)):
                    seen |= {name, same}
                    both = value.reads | self._forward(earlier.reads)
                    yield value.path, both, Spread(f"{name}: {shown[0]}, was {shown[1]}")
            for chain in thing.chains:
                for zone in chain.zones:
                    was = before.zone(zone.name, chain.side)
                    name = f"{thing.name}, {zone.name.replace('_', ' ')}"
                    if (
                        was is None
                        or was.length.text != zone.length.text
                        or not _differ(was.length, zone.length)
                    ):
                        continue
                    if name not in seen:
                        seen.add(name)
                        shown = (show(zone.length, new), show(was.length, old))
                        yield (
                            zone.length.path,
                            zone.length.reads,
                            Spread(f"{name}: {shown[0]}, was {shown[1]}"),
                        )

    def _forward(self, paths: frozenset[str]) -> frozenset[str]:
        """The newer paths of older ones."""
        found = set()
        for path in paths:
            head, dot, tail = path.partition(".")
            found.add(self.desk.name("thing", self.desk.name("dimension", head)) + dot + tail)
        return frozenset(found)

    # -- sentences --------------------------------------------------------------------------------

    @cached_property
    def told(self) -> list[tuple[Step, str, frozenset[str]]]:
        """(step of the newer guide, the sentence now, the names and numbers that differ in it) of each action
        and title whose facts are the same and whose words are not."""
        old, new = self.desk.old, self.desk.new
        found: list[tuple[Step, str, frozenset[str]]] = []
        changed = self._changed_steps
        for id, step in new.steps.items():
            before = old.steps.get(self.desk.back.get(("step", id), id))
            if before is None:
                continue
            pairs: list[tuple[Sentence, Sentence]] = []
            if "title" not in changed.get(id, ()):
                pairs.append((title(before, old.book), title(step, new.book)))
            for earlier, action in _actions(before, step, changed.get(id, frozenset())):
                pairs.append((sentence(earlier, old.book), sentence(action, new.book)))
            for told, telling in _repeats(before, step):
                pairs.append((lead(told, old.book), lead(telling, new.book)))
            for was, now in pairs:
                if was.text != now.text:
                    found.append((step, now.text, _named(was, now)))
        return found

    @cached_property
    def _changed_steps(self) -> Mapping[str, frozenset[str]]:
        """Newer step -> the keys of the actions that are written anew, and "title"."""
        found: dict[str, set[str]] = {}
        for put in differences(self.desk.old.facts, self.desk.pairs.new):
            if put.path[0] == "step" and len(put.path) > 2:
                name = self.desk.name("step", put.path[1])
                found.setdefault(name, set()).add(put.path[3] if put.path[2] == "action" else put.path[2])
        return {step: frozenset(keys) for step, keys in found.items()}

    # -- places -----------------------------------------------------------------------------------

    def of_number(self, before: Value | None, after: Value | None) -> tuple[Spread, ...]:
        """All places of a changed number."""
        path = after.path if after is not None else self._older(before)
        if not path:
            return ()
        spreads = [spread for _, reads, spread in self.derived if path in reads]
        roots = {path}
        reach = self._reach(self.desk.new.guide)
        told: dict[str, Spread] = {}
        for step, text, names in self.told:
            if any(name in roots or path in reach.get(name, ()) for name in names):
                told.setdefault(step.id, Spread(self._at(step.id, text), step.id))
        spreads += told.values()
        for step_id in self._resting.get(path, ()):
            if step_id not in told:
                spreads.append(Spread(f"{self.desk.at(self._back(step_id))} rests on it", step_id))
        return tuple(spreads[:_MOST])

    def of_name(self, id: str) -> tuple[Spread, ...]:
        """The steps in which a renamed thing is named; `id` is the newer id."""
        found: dict[str, Spread] = {}
        for step, text, names in self.told:
            if id in {name.partition(".")[0] for name in names}:
                found.setdefault(step.id, Spread(self._at(step.id, text), step.id))
        return tuple(found.values())[:_MOST]

    def _older(self, before: Value | None) -> str:
        return "" if before is None else next(iter(self._forward(frozenset((before.path,)))))

    def _back(self, step: str) -> str:
        return self.desk.back.get(("step", step), step)

    def _at(self, step: str, text: str) -> str:
        return f'{self.desk.at(self._back(step))}: "{text}"'

    @cached_property
    def _resting(self) -> Mapping[str, list[str]]:
        """Written number -> the steps whose needs and effects rest on it."""
        found: dict[str, dict[str, None]] = {}
        for run in self.desk.new.runs:
            for frame in run.frames:
                for path in frame.reads:
                    found.setdefault(path, {})[frame.step.id] = None
        order = {id: number for number, id in enumerate(self.desk.new.steps)}
        return {path: sorted(steps, key=lambda id: order[id]) for path, steps in found.items()}

    def _reach(self, guide: Guide) -> Mapping[str, frozenset[str]]:
        """Name or path of a number -> the written numbers behind it, where it lies among them."""
        if self._reaches is None:
            found: dict[str, frozenset[str]] = {name: value.reads for name, value in guide.dimensions.items()}
            for thing in guide.things.values():
                for field, value in thing.values.items():
                    found[f"{thing.id}.{field}"] = value.reads
                    found.setdefault(value.path, value.reads)
                for chain in thing.chains:
                    for zone in chain.zones:
                        name = f"{thing.id}.{zone.name}"
                        found[name] = found.get(name, frozenset()) | zone.reads | zone.length.reads
            self._reaches = found
        return self._reaches

    _reaches: dict[str, frozenset[str]] | None = None


def _differ(old: Value, new: Value) -> bool:
    return old.quantity is not None and new.quantity is not None and old.base != new.base


def _field(blank_of: str, field: str) -> str:
    return f"{field} to cut" if blank_of else field.replace("_", " ")


def _actions(old: Step, new: Step, changed: frozenset[str]) -> Iterator[tuple[Action, Action]]:
    """The actions of a step before and after whose facts are the same, by their order in both."""
    before, after = list(old.each_action()), list(new.each_action())
    if len(before) == len(after) and not changed:
        yield from zip(before, after, strict=True)
        return
    pool = {str(number): action for number, action in enumerate(before, 1)}
    for action in after:
        same = next((key for key, other in pool.items() if key not in changed and _same(other, action)), None)
        if same is not None:
            yield pool.pop(same), action


def _repeats(old: Step, new: Step) -> Iterator[tuple[Repeat, Repeat]]:
    """The repeats of a step before and after, as long as they are of the same parts."""
    before = [entry for entry in old.actions if isinstance(entry, Repeat)]
    after = [entry for entry in new.actions if isinstance(entry, Repeat)]
    for ours, theirs in zip(before, after, strict=False):
        if ours.of.text != theirs.of.text:
            return
        yield ours, theirs


def _same(old: Action, new: Action) -> bool:
    if old.verb.word != new.verb.word or old.fields.keys() != new.fields.keys():
        return False
    return all(text_of(value) == text_of(new.fields[key]) for key, value in old.fields.items())


def _named(old: Sentence, new: Sentence) -> frozenset[str]:
    """The names and numbers that are told in one sentence and not, or otherwise, in the other."""
    ours = {(piece.of, piece.text) for piece in old.pieces if piece.of}
    theirs = {(piece.of, piece.text) for piece in new.pieces if piece.of}
    return frozenset(of for of, _ in ours ^ theirs)
