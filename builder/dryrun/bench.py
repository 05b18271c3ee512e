"""The bench: what lies on it, what sits where, what is wet, what has been marked, what stock is left.

Frozen values only. Lengths are Fractions in millimetres, times Fractions in seconds from the start,
angles Fractions in degrees. Stations are in the host's own frame, from its zero end (rear, left, tip,
foot, bottom); on a flat part `across` is the second coordinate.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction

import msgspec

from builder.findings import Place

Stretch = tuple[Fraction, Fraction]


class Cause(msgspec.Struct, frozen=True):
    """Who made a fact: the action (path and place), the copy in hand, and the written numbers behind it.

    `supposed` marks a fact that the run had to suppose, `optional` one that an optional step made.
    """

    action: str
    at: Place
    step: str
    reads: frozenset[str] = frozenset()
    supposed: bool = False
    optional: bool = False


class Item(msgspec.Struct, frozen=True):
    """One copy of a thing that is there. `key` is `fin 2`, or the id of a thing with one copy."""

    key: str
    thing: str
    copy: int
    cause: Cause
    folded: bool = False


class Seat(msgspec.Struct, frozen=True):
    """Where a thing sits on another. `stretch` is what it takes of the host's axis (its whole length,
    also what stands out); `side` is inside, outside, top, under, hole, end, tied, taped, fold or loose.

    `flipped` turns the child's axis against the host's. `home` is false for a part-way seat. `hole` is the
    hole of the host that it goes into, as `Hole.spot` has it, or the board's own that its host goes through;
    `edge` the one that a flat child stands on.
    """

    child: str
    host: str
    side: str
    cause: Cause
    stretch: Stretch | None = None
    across: Stretch | None = None
    angle: Fraction | None = None
    flipped: bool = False
    came_from: str = ""
    home: bool = True
    fit: str = ""
    spot: str = ""
    hole: str = ""
    edge: str = ""


class Wet(msgspec.Struct, frozen=True):
    """Wet glue on a surface, meant for `meets`. `pending` names the part whose future place it lies at."""

    host: str
    side: str
    adhesive: str
    meets: frozenset[str]
    at: Fraction
    cause: Cause
    where: Place
    for_at: Place
    stretch: Stretch | None = None
    across: Stretch | None = None
    angle: Fraction | None = None
    pending: str = ""
    spot: str = ""
    target: str = ""


class Joint(msgspec.Struct, frozen=True):
    """Two parts held together since `closed`; set from `set_at`, cured from `cured_at` (None: the label does
    not say). `steady` says why it stays as it is while it sets: nested,
    jig, flat, held, tied, taped, screwed, tight, joined; empty if it only leans."""

    a: str
    b: str
    kind: str  # glue, fit, tie, tape, screw, fold, fillet, seam, supposed
    closed: Fraction
    cause: Cause
    adhesive: str = ""
    steady: str = ""
    held_by: str = ""
    set_at: Fraction | None = None
    cured_at: Fraction | None = None

    def touches(self, item: str) -> bool:
        """Whether one of its parts is the item."""
        return item in (self.a, self.b)

    @property
    def fact(self) -> str:
        """Its name for the findings."""
        return f"joint:{min(self.a, self.b)}+{max(self.a, self.b)}"


class Mark(msgspec.Struct, frozen=True):
    """A line or a point on a surface. `stretch` is None for a mark supposed at no known place."""

    id: str
    host: str
    side: str
    cause: Cause
    stretch: Stretch | None = None
    across: Stretch | None = None
    angles: tuple[Fraction, ...] = ()
    origin: str = ""  # the end that it was measured from


class Coat(msgspec.Struct, frozen=True):
    """Paint on a thing since a time."""

    item: str
    paint: str
    at: Fraction
    cause: Cause


class Piece(msgspec.Struct, frozen=True):
    """A piece of stock or an offcut: along by across for a sheet, `across` None for a rod or a cord. `grain`
    says which way it runs on it: "along", "across", or "" if nothing is said."""

    material: str
    along: Fraction
    across: Fraction | None
    cause: Cause | None = None
    grain: str = ""


class Hole(msgspec.Struct, frozen=True):
    """A hole that was drilled or punched; where its middle is on a flat part, if the place is measured."""

    item: str
    spot: str
    diameter: Fraction | None
    cause: Cause
    along: Fraction | None = None
    across: Fraction | None = None


class Bench(msgspec.Struct, frozen=True):
    """The whole state. `clock` is the time of day of the build, `active` the minutes of work so far."""

    clock: Fraction = Fraction(0)
    active: Fraction = Fraction(0)
    items: Mapping[str, Item] = {}
    seats: Mapping[str, Seat] = {}
    on: Mapping[str, tuple[str, ...]] = {}  # host -> what sits on it, in the order in which it came
    joints: tuple[Joint, ...] = ()
    wets: tuple[Wet, ...] = ()
    marks: Mapping[str, Mark] = {}
    coats: tuple[Coat, ...] = ()
    holes: tuple[Hole, ...] = ()
    stock: Mapping[str, tuple[Piece, ...]] = {}
    used: frozenset[str] = frozenset()

    def children(self, host: str) -> list[Seat]:
        """The seats on a host, in the order in which they were taken."""
        return [self.seats[child] for child in self.on.get(host, ())]

    def below(self, item: str) -> list[str]:
        """The item and all that sits on it, directly or not: nearest first, then in the order they came."""
        found = [item]
        for each in found:
            children = self.on.get(each)
            if children:  # a thing sits on one host only, so nothing but the item itself can come twice
                found += children if item not in children else [c for c in children if c != item]
        return found

    def upward(self, item: str) -> Iterator[Seat]:
        """The seat of an item, of what it sits on, and so on: each once, should they be said to go round."""
        seen = {item}
        while item in self.seats:
            yield self.seats[item]
            item = self.seats[item].host
            if item in seen:
                return
            seen.add(item)

    def root(self, item: str) -> str:
        """The item that carries this one at the end."""
        seen = {item}
        while item in self.seats and self.seats[item].host not in seen:
            item = self.seats[item].host
            seen.add(item)
        return item

    def assembly(self, item: str) -> list[str]:
        """Everything that is connected with the item."""
        return self.below(self.root(item))

    def path(self, item: str, end: str) -> list[str] | None:
        """The items from one to another along the seats; None if they are not connected."""
        up, other = self._line(item), self._line(end)
        shared = next((x for x in up if x in other), None)
        if shared is None:
            return None
        return up[: up.index(shared) + 1] + list(reversed(other[: other.index(shared)]))

    def _line(self, item: str) -> list[str]:
        line = [item]
        while item in self.seats and self.seats[item].host not in line:
            item = self.seats[item].host
            line.append(item)
        return line

    def joints_of(self, items: list[str]) -> list[Joint]:
        """The joints one of whose parts is among the items."""
        among = set(items)
        return [j for j in self.joints if j.a in among or j.b in among]
