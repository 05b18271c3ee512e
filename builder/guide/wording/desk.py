"""What a sentence needs to look up in a guide: its repeat, the marks, and where a thing was last put."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction

import msgspec

from builder.guide.model import Action, Guide, Ref, Repeat, Spot, Step, Thing
from builder.guide.phrases import LINE_WORDS, PHRASES, POINT_WORDS
from builder.guide.wording.pieces import NUMBER, Piece, Words, fill
from builder.quantities.show import Units, tell
from builder.quantities.values import Quantity

PLACE_FIELDS = ("inside", "outside", "top", "under", "at", "to")


class Known(msgspec.Struct, frozen=True):
    """A stretch that only the dry run knows: from `lo` to `hi` measured from an end."""

    lo: Quantity
    hi: Quantity
    end: str


class Mark(msgspec.Struct, frozen=True):
    """A mark of the guide: the action that draws it, and how many there are."""

    action: Action
    shape: str  # "round", "across", "line" or "point"
    count: int


class Put(msgspec.Struct, frozen=True):
    """Where a thing was last put: in, on or against which host."""

    way: str  # "in" or "on"
    host: Ref


class Book:
    """A guide with its steps, repeats and marks looked up once, for whoever words many actions of it."""

    __slots__ = ("actions", "guide", "marks", "order", "repeats", "says", "steps", "texts",
                 "units", "writing", "_names", "_numbered")  # fmt: skip

    def __init__(self, guide: Guide) -> None:
        self.guide = guide
        assert isinstance(guide.units, Units)
        self.units: Units = guide.units
        self.steps: dict[str, Step] = {}
        self.repeats: dict[str, Repeat] = {}
        self.actions: list[tuple[Action, Repeat | None]] = []
        self.order: dict[str, int] = {}
        self.marks: dict[str, Mark] = {}
        self.texts: tuple[object, ...] | None = None  # kept by `saying.texts_of`
        self.says: tuple[object, ...] | None = None  # kept by `saying.says_of`
        self.writing: object = None  # what `written` found, so that it looks through the texts once
        self._names: tuple[str, ...] | None = None
        self._numbered: tuple[str, ...] | None = None
        for step in guide.every_step():
            self.steps[step.id] = step
            for entry in step.actions:
                if isinstance(entry, Repeat):
                    self.repeats[entry.path] = entry
                    for action in entry.actions:
                        self._enter(action, entry)
                else:
                    self._enter(entry, None)

    def _enter(self, action: Action, repeat: Repeat | None) -> None:
        self.order[action.path] = len(self.actions)
        self.actions.append((action, repeat))
        name = action.word("what") if action.verb.kind == "mark" else ""
        if name:
            self.marks.setdefault(name, self._mark(action))

    def told_with(self, action: Action) -> Action | None:
        """The next action, if the sentence of this one tells it too."""
        place = self.order.get(action.path)
        after = self.actions[place + 1][0] if place is not None and place + 1 < len(self.actions) else None
        return after if after is not None and after.told_above else None

    @property
    def all_names(self) -> tuple[str, ...]:
        """Names of more than one word that a text may hold, in small letters: things, marks, zones ..."""
        if self._names is None:
            found = [thing.name.lower() for thing in self.guide.things.values()]
            found += [zone.name for t in self.guide.things.values() for c in t.chains for zone in c.zones]
            found += [hole.name for thing in self.guide.things.values() for hole in thing.holes]
            found += [name for choice in self.guide.choices.values() for name in choice.options.values()]
            found += [stage.name.lower() for stage in self.guide.stages]
            found += [self.guide.title.lower(), *self.marks]
            self._names = tuple(dict.fromkeys(n for f in found if " " in (n := f.replace("_", " "))))
        return self._names

    @property
    def names(self) -> tuple[str, ...]:
        """The names that hold a figure or a counting word."""
        if self._numbered is None:
            from builder.trade.words import NUMBER_WORDS

            def numbered(name: str) -> bool:
                words = name.replace("-", " ").split()
                return any(c.isdigit() for c in name) or not NUMBER_WORDS.keys().isdisjoint(words)

            self._numbered = tuple(name for name in self.all_names if numbered(name))
        return self._numbered

    def _mark(self, action: Action) -> Mark:
        angle = action.angle("angle")
        along = self.marks.get(action.word("along"))
        count = along.count if along is not None else 1
        if angle is not None and angle.evenly:
            of = self.guide.things.get(angle.of)
            count = of.count if of is not None else count
        return Mark(action, shape_of_mark(action), count)


class Desk:
    """A book, and the action of it that is being worded."""

    __slots__ = ("action", "book", "copy", "guide", "known", "marks", "repeat", "step", "units")

    def __init__(
        self,
        guide: Guide | Book,
        action: Action | None = None,
        copy: int | None = None,
        known: Mapping[str, Known] | None = None,
    ) -> None:
        self.book = guide if isinstance(guide, Book) else Book(guide)
        self.guide = self.book.guide
        self.units = self.book.units
        self.marks: Mapping[str, Mark] = self.book.marks
        self.action = action
        self.copy = copy
        self.known = known or {}
        self.step: Step | None = None
        self.repeat: Repeat | None = None
        if action is not None:
            self.step = self.book.steps.get(action.path.partition(".")[0])
            self.repeat = self.book.repeats.get(action.path.rpartition(".")[0])

    # -- things -----------------------------------------------------------------------------------

    def thing(self, id: str) -> Thing | None:
        """A thing by id."""
        return self.guide.things.get(id)

    def material_of(self, ref: Ref) -> Thing | None:
        """The thing, if it is a material."""
        thing = self.thing(ref.id)
        return thing if thing is not None and thing.sort == "material" else None

    def copies_in_hand(self, ref: Ref) -> bool:
        """Whether a repeat takes the copies of this thing one at a time: its own, or as many others."""
        if self.repeat is None or ref.copies:
            return False
        if ref.id == self.repeat.of.id:
            return True
        thing, own = self.thing(ref.id), self.thing(self.repeat.of.id)
        return thing is not None and own is not None and thing.count == own.count > 1

    def number_of(self, ref: Ref) -> int:
        """How many are spoken of."""
        if ref.copies:
            return len(ref.copies)
        if self.copies_in_hand(ref):
            return 1
        thing = self.thing(ref.id)
        return thing.count if thing is not None else 1

    # -- numbers ----------------------------------------------------------------------------------

    def number(self, quantity: Quantity, path: str, *, typed: bool) -> Words:
        """A value with both units."""
        return (Piece(tell(quantity, self.units, typed=typed), NUMBER, path),)

    def say(self, phrase: str, **slots: Words) -> Words:
        """A phrase of the table, filled."""
        return fill(PHRASES[phrase], slots)

    # -- steps ------------------------------------------------------------------------------------

    def earlier(self) -> Iterator[tuple[Action, Repeat | None]]:
        """Every action before this one, in the order written, with its repeat."""
        actions = self.book.actions
        end = self.book.order.get(self.action.path, len(actions)) if self.action is not None else len(actions)
        return iter(actions[:end])

    # -- where things are -------------------------------------------------------------------------

    def put(self, id: str) -> Put | None:
        """Where a thing was last put before this action; None if that is not written."""
        last: Put | None = None
        for action, _ in self.earlier():
            kind = action.verb.kind
            if kind == "roll":
                last = self._rolled(action, id) or last
            elif kind in _WAYS and any(r.id == id for r in action.refs("what")):
                for field, way in _WAYS[kind]:
                    host = action.ref(field)
                    if host is not None:
                        last = Put(way, host)
                        break
        return last

    def _rolled(self, action: Action, id: str) -> Put | None:
        around, what, makes = action.ref("around"), action.ref("what"), action.ref("makes")
        if around is not None and around.id == id and (makes or what):
            return Put("in", makes or what)  # type: ignore[arg-type]
        if what is not None and what.text == id and around is not None and makes is None:
            return Put("on", around)
        return None

    def pitch(self, host: str) -> tuple[Fraction, Ref] | None:
        """The angle between neighbours of what already stands evenly round a host, and what that is."""
        for action, repeat in self.earlier():
            angle = action.angle("angle")
            if angle is None or not angle.evenly:
                continue
            field = "onto" if action.verb.kind in ("attach", "mark") else ""
            on = action.ref(field) if field else None
            if on is None or on.id != host:
                continue
            ref = repeat.of if repeat is not None else Ref(angle.of, angle.at) if angle.of else None
            thing = self.thing(ref.id) if ref is not None else None
            if ref is not None and thing is not None and thing.count > 1:
                return Fraction(360, thing.count), ref
        return None


_WAYS = {
    "seat": (("into", "in"), ("over", "on")),
    "attach": (("onto", "on"),),
    "tape": (("to", "on"),),
    "screw": (("into", "in"),),
    "tie": (("to", "on"),),
}


def shape_of_mark(action: Action) -> str:
    """What is drawn: a line round or across, a line along, or a point."""
    if action.yes("around"):
        return "round"
    if action.yes("across"):
        return "across"
    last = action.word("what").rpartition("_")[2]
    if last in POINT_WORDS:
        return "point"
    spot = next((s for f in PLACE_FIELDS for s in action.spots(f)), None)
    long = spot is not None and spot.kind in ("named", "stretch", "will sit")
    return "line" if last in LINE_WORDS or action.word("along") or long else "point"


def first_spot(action: Action) -> tuple[str, tuple[Spot, ...]]:
    """The place field that an action has, and its places."""
    for field in PLACE_FIELDS:
        found = action.spots(field)
        if found:
            return field, found
    return "", ()
