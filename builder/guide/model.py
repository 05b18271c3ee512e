"""The typed guide: immutable, and every value knows where it was written.

Lengths are exact `Quantity` values in millimetres; a value that could not be computed is `None`
(unknown), and whatever reads it stays silent, since the fault has its own finding.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction

import msgspec

from builder.findings import Finding, Place
from builder.guide.fields import Field
from builder.quantities.values import Quantity


class Value(msgspec.Struct, frozen=True):
    """A number of a guide, written or derived.

    `path` names it for a person and for the findings (`body.length`); `reads` are the paths of the
    written numbers that it comes from. `plus_minus` is its stated tolerance in base units. `typed` is
    true when the writer typed this very number, so that it is shown as typed.
    """

    quantity: Quantity | None
    path: str
    at: Place
    text: str = ""
    reads: frozenset[str] = frozenset()
    plus_minus: Fraction | None = None
    typed: bool = False
    why: str = ""

    @property
    def base(self) -> Fraction | None:
        """In millimetres, seconds, degrees, pieces ... ; None when unknown."""
        return None if self.quantity is None else self.quantity.base


class Ref(msgspec.Struct, frozen=True):
    """A name of a thing, where it was written. `copies` is empty for all copies; `part` is the zone or
    field after the dot (`nose.shoulder`)."""

    id: str
    at: Place
    copies: tuple[int, ...] = ()
    part: str = ""

    @property
    def text(self) -> str:
        """As written, without copies."""
        return f"{self.id}.{self.part}" if self.part else self.id


class Spot(msgspec.Struct, frozen=True):
    """A place as written, in the place grammar. `kind` is one of: named, start, end, its mark, corner,
    middle, from, stretch, two, flush, meets, will sit, nothing."""

    kind: str
    at: Place
    text: str
    names: tuple[str, ...] = ()
    lengths: tuple[Value, ...] = ()


class Angle(msgspec.Struct, frozen=True):
    """`45 deg`, or `evenly` (for the copies of `of`, by default of the part in hand)."""

    at: Place
    value: Value | None = None
    evenly: bool = False
    of: str = ""


class SizeValue(msgspec.Struct, frozen=True):
    """A size of a flat piece: two lengths."""

    first: Value
    second: Value
    at: Place
    text: str


class Zone(msgspec.Struct, frozen=True):
    """A named stretch of a part. `lo` and `hi` are in the part's own frame, in millimetres from its
    zero end; None when unknown."""

    name: str
    length: Value
    at: Place
    lo: Fraction | None
    hi: Fraction | None
    reads: frozenset[str] = frozenset()


class Chain(msgspec.Struct, frozen=True):
    """Zones that follow one another from an end; they sum to the part's length."""

    side: str  # "outside", "inside", "lengthwise", "crosswise"
    origin: str  # the end that it is measured from
    zones: tuple[Zone, ...]
    at: Place
    path: str

    @property
    def forward(self) -> bool:
        """Whether it runs from the zero end of the part's own frame."""
        first = self.zones[0] if self.zones else None
        return first is None or first.lo == 0


class Outline(msgspec.Struct, frozen=True):
    """The outline of a flat part. `shape`: rectangle, fin, regular polygon, ring, disc or points.

    `edges` names the edges of a rectangle in turn; `values` holds the lengths that shape it.
    """

    shape: str
    at: Place
    values: Mapping[str, Value]
    edges: tuple[str, ...] = ()
    words: Mapping[str, str] = {}
    points: tuple[tuple[Value, Value], ...] = ()


class Hole(msgspec.Struct, frozen=True):
    """A named hole of a flat part: its middle, and its diameter if stated."""

    name: str
    spot: Spot
    at: Place


class Taper(msgspec.Struct, frozen=True):
    """A diameter, or two at the ends of a zone (in the order of the chain)."""

    zone: str
    first: Value
    second: Value
    at: Place


class Share(msgspec.Struct, frozen=True):
    """`per: builder`, `per: class`, `per: 3 builders`, `one per: 4 builders`."""

    builders: int  # 1 for each builder; 0 for the whole class
    at: Place


class Thing(msgspec.Struct, frozen=True):
    """A material, a tool, a part or a named sub-assembly.

    `values` holds every number by field name, written and derived (`length`, `outside`, `inside`,
    `over_seam`, `thickness`, `working_time` ...); `words` every word (`source`, `made_by`, `who` ...);
    `refs` every id (`of`, `around`, `base` ...).
    """

    id: str
    name: str
    sort: str  # "material", "tool", "part", "assembly", "dimension"
    form: str
    at: Place
    count: int = 1
    count_at: Place | None = None
    values: Mapping[str, Value] = {}
    words: Mapping[str, str] = {}
    refs: Mapping[str, Ref] = {}
    where: Mapping[str, Place] = {}
    chains: tuple[Chain, ...] = ()
    outline: Outline | None = None
    holes: tuple[Hole, ...] = ()
    tapers: tuple[Taper, ...] = ()
    hazards: tuple[str, ...] | None = None
    share: Share | None = None
    window: object | None = None  # quantities.Window: when the next coat may go on
    blank_of: str = ""  # set on the sheet from which a rolled tube is made

    def mm(self, field: str) -> Fraction | None:
        """A number by field name, in base units; None if it is not there or unknown."""
        value = self.values.get(field)
        return None if value is None else value.base

    def reads(self, *fields: str) -> frozenset[str]:
        """The written numbers behind the given fields."""
        return frozenset().union(*(self.values[f].reads for f in fields if f in self.values))

    def zone(self, name: str, side: str | None = None) -> Zone | None:
        """A zone by name; the chain of the given side first, since two chains may share a name."""
        for chain in sorted(self.chains, key=lambda c: c.side != side):
            for zone in chain.zones:
                if zone.name == name:
                    return zone
        return None

    def chain_of(self, zone: str, side: str | None = None) -> Chain | None:
        """The chain that a zone stands in."""
        for chain in sorted(self.chains, key=lambda c: c.side != side):
            if any(z.name == zone for z in chain.zones):
                return chain
        return None

    def place(self, field: str) -> Place:
        """Where a field was written; the thing's own place if it was not."""
        return self.where.get(field, self.at)


class Prose(msgspec.Struct, frozen=True):
    """Text with references in single braces. `pieces` alternates literal text and references; a
    reference is written `{body.length}` and stands here as the pair ("body.length", its place)."""

    text: str
    at: Place
    pieces: tuple[str | tuple[str, Place], ...]


class Verb(msgspec.Struct, frozen=True):
    """A verb that a guide may use: a word of a kind of action.

    `phrase` is the sentence's skeleton, read by `wording`; `says` are the other words by which a
    writer's own `say` may tell it; `demand` is what it asks of the joints on the way (carry, work,
    load, coat).
    """

    word: str
    kind: str
    phrase: str
    says: tuple[str, ...]
    demand: str
    about: str
    source: str = "common practice"


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
        return value if isinstance(value, tuple) and all(isinstance(v, Ref) for v in value) else ()

    def spot(self, field: str) -> Spot | None:
        """A place."""
        found = self.spots(field)
        return found[0] if found else None

    def spots(self, field: str) -> tuple[Spot, ...]:
        """The places that a field names."""
        value = self.fields.get(field)
        if isinstance(value, Spot):
            return (value,)
        return value if isinstance(value, tuple) and all(isinstance(v, Spot) for v in value) else ()

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


class Finished(msgspec.Struct, frozen=True):
    """The one end product; `holds` is empty for "all"."""

    what: Ref
    holds: tuple[Ref, ...]
    left_over: tuple[Ref, ...]
    at: Place


class Revision(msgspec.Struct, frozen=True):
    """Number, date, author and summary of a revision."""

    number: str
    dated: str
    by: str
    summary: str
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
    prose_files: Mapping[str, str] = {}  # the names of the files of overview and science, where stated

    def thing(self, name: str) -> Thing | None:
        """A material, tool, part or sub-assembly by id."""
        return self.things.get(name)

    def every_step(self) -> Iterator[Step]:
        """All steps of all options, in the order written."""
        for entry in self.entries:
            if isinstance(entry, Choose):
                for steps in entry.options.values():
                    yield from steps
            else:
                yield entry
