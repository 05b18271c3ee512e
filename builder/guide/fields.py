"""The one declaration of a field, and the kinds of value that a field may hold.

Reader, JSON Schema, the manual's field tables and the editor's hover text all come from these rows.
"""

from __future__ import annotations

import enum

import msgspec

from builder.quantities.units import Dimension


class Holds(enum.Enum):
    """What a field holds, as its writer types it."""

    TEXT = "text"
    PROSE = "prose"  # text with references in single braces
    WORD = "one of the listed words"
    YES = "yes or no"
    COUNT = "a whole number"
    NUMBER = "a sum"  # of the field's dimension
    SIZE = "a size"  # `14 in x 22 in`
    SIZES = "a size or a list of sizes, or `nothing`"  # what a cut leaves
    TOLERANCE = "a tolerance"  # `± 0.005 in`
    THING = "an id"
    THINGS = "an id or a list of ids"
    NEW = "a new id"
    PLACE = "a place"
    PLACES = "a place or a list of places"
    AROUND = "an id, or `yes`"  # `around: body`, `around: canopy corners`, `around: yes`
    ANGLE = "an angle"  # `45 deg`, `evenly`, `evenly for fin`
    WINDOW = "allowed times"  # `up to 1 h or from 48 h`
    TIME = "a time, or the parts of one"  # `10 min`, `{set up: 10 min, each: 2 min}`
    PER = "builder, class, or a number of builders"
    WORDS = "a list of words"
    NESTED = "fields of its own"
    SPECIAL = "a form of its own"  # zones, outline, diameters: read by their own function


class Field(msgspec.Struct, frozen=True):
    """One field of one kind of entry.

    `sort` names what an id may stand for ("material", "tool", "part", or "" for any), `words` the
    allowed words, `inner` the fields of a nested mapping. `told` is false for a field that a sentence
    about the action need not mention. `key` is the name as an attribute: `working time` is asked for as
    `working_time`.
    """

    name: str
    holds: Holds
    about: str
    example: str
    dimension: Dimension | None = None
    words: tuple[str, ...] = ()
    sort: str = ""
    inner: tuple[Field, ...] = ()
    required: bool = False
    told: bool = False
    key: str = ""

    def __post_init__(self) -> None:
        msgspec.structs.force_setattr(self, "key", self.name.replace(" ", "_"))


class Fields(dict[str, Field]):
    """Fields by the name that a writer types; `needed` are those that must be there."""

    __slots__ = ("needed",)

    def __init__(self, fields: tuple[Field, ...]) -> None:
        super().__init__((field.name, field) for field in fields)
        self.needed = tuple(field for field in fields if field.required)


def by_name(fields: tuple[Field, ...]) -> Fields:
    """Fields by the name that a writer types."""
    return Fields(fields)


def type_words(field: Field) -> str:
    """What a writer may type in a field."""
    if field.holds is Holds.WORD and field.words:
        return ", ".join(field.words)
    if field.holds is Holds.NUMBER and field.dimension is not None:
        return f"{field.dimension.value}, or a sum"
    if field.holds in (Holds.THING, Holds.THINGS) and field.sort:
        return f"{field.holds.value} ({field.sort.replace('|', ' or ')})"
    return field.holds.value
