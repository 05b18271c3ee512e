"""The typed guide: immutable, and every value knows where it was written.

Lengths are exact `Quantity` values in millimetres; a value that could not be computed is `None`
(unknown), and whatever reads it stays silent, since the fault has its own finding.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

import msgspec

from builder.findings import Finding, Place
from builder.guide.fields import Field
from builder.guide.records import Acceptance, Revision, Signature
from builder.guide.values import (
    Angle,
    Chain,
    Hole,
    Outline,
    Prose,
    Ref,
    Share,
    SizeValue,
    Spot,
    Taper,
    Thing,
    Value,
    Zone,
)

__all__ = [
    "Acceptance", "Action", "Angle", "Caution", "Chain", "Choice", "Choose", "Dropped", "Finished", "Guide",
    "GuideUnits", "Hole", "Note", "Outline", "Picture", "Prose", "Ref", "Repeat", "Revision", "Route",
    "Share", "Signature", "SizeValue", "Spot", "Stage", "Step", "Taper", "Term", "Thing", "Value", "Verb",
    "Zone",
]  # fmt: skip


class Verb(msgspec.Struct, frozen=True):
    """A verb that a guide may use: a word of a kind of action.

    `phrase` is the sentence's skeleton, read by `wording`; `says` are the other words by which a
    writer's own `say` may tell it; `demand` is what it asks of the joints on the way (carry, work,
    load, coat). A verb of a writer's own `stands_for` one of the tool's; `doing` is its participle, and
    `file` the shared file that it is written in.
    """

    word: str
    kind: str
    phrase: str
    says: tuple[str, ...]
    demand: str
    about: str
    source: str = "common practice"
    stands_for: str = ""
    doing: str = ""
    file: str = ""

    @property
    def root(self) -> str:
        """The verb of the tool that it is."""
        return self.stands_for or self.word


class Action(msgspec.Struct, frozen=True):
    """One action: a verb and its fields. `path` is its name for the findings, the same on all routes."""

    verb: Verb
    at: Place
    path: str
    fields: Mapping[str, object]
    where: Mapping[str, Place]
    spec: tuple[Field, ...]
    say: Prose | None = None
    takes: Value | None = None
    told_above: bool = False
    notes: tuple[Note, ...] = ()

    def field_place(self, field: str) -> Place:
        """Where a field of the action was written."""
        return self.where.get(field, self.at)

    def ref(self, field: str) -> Ref | None:
        """The one thing that a field names, or None."""
        found = self.refs(field)
        return found[0] if found else None

    def refs(self, field: str) -> tuple[Ref, ...]:
        """The things that a field names."""
        value = self.fields.get(field)
        if isinstance(value, Ref):
            return (value,)
        if isinstance(value, tuple) and value and isinstance(value[0], Ref):
            return value  # the values of a field are of one kind, so the first one tells
        return ()

    def spot(self, field: str) -> Spot | None:
        """A place."""
        found = self.spots(field)
        return found[0] if found else None

    def spots(self, field: str) -> tuple[Spot, ...]:
        """The places that a field names."""
        value = self.fields.get(field)
        if isinstance(value, Spot):
            return (value,)
        if isinstance(value, tuple) and value and isinstance(value[0], Spot):
            return value
        return ()

    def value(self, field: str) -> Value | None:
        """A number."""
        value = self.fields.get(field)
        return value if isinstance(value, Value) else None

    def angle(self, field: str) -> Angle | None:
        """An angle."""
        value = self.fields.get(field)
        return value if isinstance(value, Angle) else None

    def word(self, field: str) -> str:
        """A word or text; empty if absent."""
        value = self.fields.get(field)
        if isinstance(value, Prose):
            return value.text
        return value if isinstance(value, str) else ""

    def prose(self, field: str) -> Prose | None:
        """Text with references."""
        value = self.fields.get(field)
        return value if isinstance(value, Prose) else None

    def words(self, field: str) -> tuple[str, ...]:
        """A list of words."""
        value = self.fields.get(field)
        return value if isinstance(value, tuple) and all(isinstance(v, str) for v in value) else ()

    def yes(self, field: str) -> bool:
        """A yes-or-no field; no by default."""
        return self.fields.get(field) is True

    def sizes(self, field: str) -> tuple[SizeValue | Value, ...] | None:
        """What a cut leaves; an empty tuple for `nothing`, None if unstated."""
        value = self.fields.get(field)
        return value if isinstance(value, tuple) else None


class Note(msgspec.Struct, frozen=True):
    """A note, a tip or a why: informs, never instructs."""

    kind: str
    text: Prose
    at: Place


class Repeat(msgspec.Struct, frozen=True):
    """Actions done once for each copy of a part, evenly `around` a host or at a mark each (`spots`)."""

    of: Ref
    at: Place
    path: str
    actions: tuple[Action, ...]
    around: str = ""
    spots: tuple[Spot, ...] = ()
    notes: tuple[Note, ...] = ()


class Caution(msgspec.Struct, frozen=True):
    """A safety message: signal level and its three parts, with the hazard key that it covers."""

    id: str
    level: str
    hazard: str
    consequence: str
    avoidance: str
    at: Place | None
    gear: tuple[str, ...] = ()
    source: str = ""
    covers: str = ""


class Dropped(msgspec.Struct, frozen=True):
    """A caution that a writer leaves out of a step, and why."""

    hazard: str
    why: str
    at: Place


class Picture(msgspec.Struct, frozen=True):
    """A writer's own picture, for what no drawing shows."""

    file: str
    alt: str
    at: Place


class Stage(msgspec.Struct, frozen=True):
    """A group of steps. `makes` names the sub-assembly that it ends with, `base` the part that it is
    built on, `lying` how the work lies."""

    name: str
    at: Place
    makes: str = ""
    base: str = ""
    lying: str = ""
    who: str = ""
    per_class: bool = False
    time: Value | None = None


class Step(msgspec.Struct, frozen=True):
    """A step: what one heading, one drawing and one tick box stand for."""

    id: str
    title: Prose
    at: Place
    stage: Stage
    actions: tuple[Action | Repeat, ...]
    time: Value | None = None
    set_up: Value | None = None
    who: str = ""
    why: Prose | None = None
    notes: tuple[Note, ...] = ()
    optional: bool = False
    critical: bool = False
    cautions: tuple[Caution, ...] = ()
    dropped: tuple[Dropped, ...] = ()
    picture: Picture | None = None
    shared: str = ""  # the name of the shared step that it comes from
    use_at: Place | None = None  # where `use` was written
    where: Mapping[str, Place] = {}

    def each_action(self) -> Iterator[Action]:
        """Every action as written, those inside a repeat once."""
        for entry in self.actions:
            if isinstance(entry, Repeat):
                yield from entry.actions
            else:
                yield entry


class Choose(msgspec.Struct, frozen=True):
    """An alternative way: one list of steps per option of a choice."""

    choice: str
    options: Mapping[str, tuple[Step, ...]]
    at: Place


class Choice(msgspec.Struct, frozen=True):
    """A choice and its options, with the name that a reader sees."""

    id: str
    options: Mapping[str, str]
    at: Place


class Term(msgspec.Struct, frozen=True):
    """A word that the guide explains: what it means, and the words that stand for it nowhere."""

    word: str
    means: str
    never: tuple[str, ...]
    at: Place


class Finished(msgspec.Struct, frozen=True):
    """The one end product; `holds` is empty for "all"."""

    what: Ref
    holds: tuple[Ref, ...]
    left_over: tuple[Ref, ...]
    at: Place


class GuideUnits(msgspec.Struct, frozen=True):
    """The units of a guide, and how finely what is measured off is rounded."""

    units: object  # quantities.Units
    at: Place


class Route(msgspec.Struct, frozen=True):
    """One option for each choice, and the steps that it leads through."""

    name: str
    options: Mapping[str, str]
    steps: tuple[Step, ...]


class Guide(msgspec.Struct, frozen=True):
    """A whole guide. `findings` holds what reading it found; the rest is as complete as it could be."""

    id: str
    file: str
    title: str
    at: Place
    units: object
    revision: Revision | None
    audience: Mapping[str, str]
    things: Mapping[str, Thing]
    choices: Mapping[str, Choice]
    dimensions: Mapping[str, Value]
    entries: tuple[Step | Choose, ...]
    stages: tuple[Stage, ...]
    finished: Finished | None
    cautions: Mapping[str, Caution]
    prose: Mapping[str, str]
    where: Mapping[str, Place]
    paths: Mapping[str, Place]  # where each written number stands, by its path
    texts: Mapping[str, str]  # the sources, by file name
    findings: tuple[Finding, ...] = ()
    cut_tolerance: Value | None = None
    routes: tuple[Route, ...] = ()
    shared: tuple[str, ...] = ()
    terms: tuple[Term, ...] = ()
    accepted: tuple[Acceptance, ...] = ()
    signed: tuple[Signature, ...] = ()
    own_verbs: Mapping[str, tuple[Verb, tuple[Field, ...]]] = {}  # of the shared files beside it
    prose_files: Mapping[str, str] = {}  # the names of the files of overview and science, where stated

    def thing(self, name: str) -> Thing | None:
        """A material, tool, part or sub-assembly by id."""
        return self.things.get(name)

    def carrier(self, name: str) -> str:
        """The part that a sub-assembly is built on (one may be built on another); else the name."""
        seen: set[str] = set()
        while name not in seen and (thing := self.things.get(name)) and thing.form == "assembly":
            seen.add(name)
            name = thing.refs["base"].id if "base" in thing.refs else name
        return name

    def every_step(self) -> Iterator[Step]:
        """All steps of all options, in the order written."""
        for entry in self.entries:
            if isinstance(entry, Choose):
                for steps in entry.options.values():
                    yield from steps
            else:
                yield entry
