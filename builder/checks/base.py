"""What a check is, and what a check may look at."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from fractions import Fraction
from typing import Any

import msgspec

from builder.dryrun.effects import Place as Put
from builder.dryrun.needs import Need
from builder.dryrun.run import DryRun, Frame
from builder.dryrun.work import copy_of, thing_id
from builder.findings import Finding, Place, Related, Severity
from builder.guide.model import Caution, Guide, Thing
from builder.guide.wording.desk import Book
from builder.quantities.exact import Exact
from builder.quantities.show import show, show_time
from builder.quantities.units import Dimension
from builder.quantities.values import Quantity


class Look(msgspec.Struct, frozen=True):
    """What a check may look at: the guide, the dry runs of all routes, and (for a need) its run."""

    guide: Guide
    runs: tuple[DryRun, ...]
    run: DryRun | None = None
    makers: Mapping[str, tuple[str, ...]] = {}  # thing -> the routes on which something makes it
    cautions: Mapping[str, tuple[Caution, ...]] = {}  # step -> what stands before it
    used: frozenset[str] = frozenset()  # the things that some step names or usually takes
    words: Book | None = None  # the guide as the wording reads it
    made: Mapping[tuple[str, str], Frame] = {}  # (route, item) -> the first frame that makes it

    @property
    def book(self) -> Book:
        """The guide's steps, actions and texts, looked up once for all checks of words."""
        return Book(self.guide) if self.words is None else self.words

    def thing(self, item: str) -> Thing | None:
        """The thing that an item is a copy of."""
        return self.guide.things.get(thing_id(item, self.guide))

    def name(self, item: str) -> str:
        """How an item is called: the name, with its number if there are several."""
        thing = self.thing(item)
        if thing is None:
            return item
        if thing.count > 1 and item != thing.id:
            return f"{thing.name} {copy_of(item, thing)}"
        return thing.name

    def mm(self, length: Fraction, typed: bool = True) -> str:
        """A length in both units of the guide."""
        units: Any = self.guide.units
        unit = units.first
        return show(Quantity(Exact.of(length), Dimension.LENGTH, unit), units, typed=typed)

    def size(self, size: tuple[Fraction, Fraction | None]) -> str:
        """A length, or a size `a x b`, in the guide's first unit."""
        return f"{self.one(size[0])} x {self.one(size[1])}" if size[1] is not None else self.mm(size[0])

    def one(self, length: Fraction) -> str:
        """A length in the first unit alone."""
        return self.mm(length).partition(" (")[0]

    def time(self, seconds: Fraction) -> str:
        """`1 h 30 min`."""
        return show_time(seconds)


class Check(msgspec.Struct, frozen=True):
    """A check. `name` is what findings carry and acceptances name; `reads` is what it looks at."""

    name: str
    severity: Severity
    reads: str  # "guide", "need", "run", "runs"
    why: str
    mend: str
    find: Callable[..., Any]
    source: str = "common practice"
    need: type[Need] | None = None
    safety: bool = False

    def finding(
        self,
        place: Place,
        message: str,
        *,
        also: tuple[Related, ...] = (),
        mend: str = "",
        why: str = "",
        suspects: Iterable[str] = (),
        rests_on: Iterable[str] = (),
    ) -> Finding:
        """A finding of this check."""
        return Finding(
            self.name,
            self.severity,
            place,
            message,
            why or self.why,
            mend or self.mend,
            also,
            (),
            frozenset(suspects),
            frozenset(rests_on),
            self.safety,
        )


def see(place: Place | None, text: str) -> tuple[Related, ...]:
    """The other place concerned, if it is known."""
    return (Related(place, text),) if place is not None else ()


def seats_in(frame: Frame) -> frozenset[str]:
    """The facts by which a finding names where the action in hand puts things."""
    every = (*frame.effects, *frame.supposed)
    return frozenset(f"seat:{effect.seat.child}" for effect in every if isinstance(effect, Put))


def typed_at(place: Place, shift: int) -> str:
    """The fact that something was typed at a place of a text, so many characters on."""
    return f"typed:{place.file}:{place.line}:{place.column + shift}"


def numbers(reads: Iterable[str]) -> frozenset[str]:
    """The facts by which a finding names the written numbers behind it."""
    return frozenset(f"number:{path}" for path in reads)
