"""Values and things: numbers that know where they were written, references, places, zones, materials,
tools and parts. The first half of the model; steps and guides are in `model`.
"""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

import msgspec

from builder.findings import Place
from builder.quantities.values import Quantity

_NOTHING: frozenset[str] = frozenset()


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

    @property
    def counted(self) -> bool:
        """Whether it is known how many there are; `count` is 1 if not, and nothing may be judged by it."""
        return "count" not in self.values or self.values["count"].quantity is not None

    def reads(self, *fields: str) -> frozenset[str]:
        """The written numbers behind the given fields."""
        if len(fields) == 1:
            value = self.values.get(fields[0])
            return value.reads if value is not None else _NOTHING
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
