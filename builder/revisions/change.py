"""A change between two revisions of a guide, as a value."""

from __future__ import annotations

import enum
from collections.abc import Iterable

import msgspec

from builder.revisions.edits import Edit


class Kind(enum.Enum):
    """What is changed."""

    MATERIAL = "material"
    TOOL = "tool"
    PART = "part"
    DIMENSION = "dimension"
    STOCK = "stock"
    STEP = "step"
    ORDER = "order"
    ACTION = "action"
    WAIT = "wait"
    ADHESIVE = "adhesive"
    CAUTION = "caution"
    ROUTE = "route"
    FINDING = "finding"
    AUDIENCE = "audience"
    WORDING = "wording"


class Rank(enum.Enum):
    """What it matters for at the bench, the gravest first."""

    SAFETY = "safety"
    FIT = "fit"
    SHOPPING = "shopping"
    TIMING = "timing"
    WORDING = "wording"


class Field(enum.Enum):
    """What a class that works from the older revision does about it."""

    STOP = "stop"
    SWAP = "swap a part"
    NOTHING = "nothing"


RANKS = tuple(Rank)
KINDS = tuple(Kind)
FIELDS = tuple(Field)

WEAKENED, STRENGTHENED = "weakened", "strengthened"
NOTHING = "nothing"


class Spread(msgspec.Struct, frozen=True):
    """One of the places at which a change shows: what stands there now. `step` is empty if it is no step."""

    text: str
    step: str = ""


class Change(msgspec.Struct, frozen=True):
    """One change.

    `text` is one plain sentence without a full stop; `mark` is "weakened", "strengthened" or empty. `about`
    names the thing or the step (`thing body`, `step jig_on`), `before` and `after` are what is shown of it.
    `places` are where else it shows. `edits` are what it does to the facts of the guide; there are none for
    what the trade's own tables changed.
    """

    kind: Kind
    rank: Rank
    text: str
    field: Field
    mark: str = ""
    about: str = ""
    before: str = ""
    after: str = ""
    places: tuple[Spread, ...] = ()
    edits: tuple[Edit, ...] = ()

    @property
    def weakened(self) -> bool:
        """Whether the newer revision guards less against harm."""
        return self.mark == WEAKENED

    @property
    def line(self) -> str:
        """The sentence with its mark: `Step 7, Glue the fins: wait 30 min, was 45 min: weakened`."""
        return f"{self.text}: {self.mark}" if self.mark else self.text

    @property
    def step(self) -> str:
        """The step that it is about; empty if it is about none."""
        kind, _, id = self.about.partition(" ")
        return id if kind == "step" else ""


def made(kind: Kind, rank: Rank, text: str, edits: tuple[Edit, ...], about: str, *, mark: str = "",
         field: Field = Field.NOTHING, before: str | None = "", after: str | None = "",
         places: tuple[Spread, ...] = ()) -> Change:  # fmt: skip
    """A change. Whatever weakens or strengthens is of safety, and stops a class that works from the older
    revision until it has been told; what is not there is shown as nothing."""
    return Change(
        kind, Rank.SAFETY if mark else rank, text, Field.STOP if mark else field, mark, about,
        NOTHING if before is None else before, NOTHING if after is None else after, places, edits,
    )  # fmt: skip


def in_order(changes: Iterable[Change]) -> tuple[Change, ...]:
    """By rank, within safety the weakened first and then the strengthened; else as they come."""
    marks = (WEAKENED, STRENGTHENED, "")
    return tuple(sorted(changes, key=lambda each: (RANKS.index(each.rank), marks.index(each.mark))))


def only(changes: Iterable[Change], ranks: Iterable[Rank] = (), kinds: Iterable[Kind] = (),
         fields: Iterable[Field] = ()) -> tuple[Change, ...]:  # fmt: skip
    """The changes of these ranks, kinds and field actions; an empty filter lets all through.

    Each of the three parts the list: every change has exactly one rank, one kind and one field action.
    """
    asked = tuple(ranks), tuple(kinds), tuple(fields)

    def passes(change: Change) -> bool:
        own = (change.rank, change.kind, change.field)
        return all(not wanted or mine in wanted for mine, wanted in zip(own, asked, strict=True))

    return tuple(each for each in changes if passes(each))


def counts(changes: Iterable[Change]) -> dict[Rank, int]:
    """How many changes there are of each rank."""
    found = dict.fromkeys(RANKS, 0)
    for each in changes:
        found[each.rank] += 1
    return found
