"""What the trade said of a guide when it was sealed: the cautions before each step, what each thing can do to
a person, and the rows of the tables that they came from.

The tool's own tables may change after a revision is sealed; the revision keeps what was printed then.
"""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

import msgspec

from builder.guide.model import Caution
from builder.revisions.edition import Edition
from builder.trade.adhesives import adhesive
from builder.trade.hazards import hazard
from builder.trade.materials import material_kind
from builder.trade.paints import paint
from builder.trade.tools import tool_kind


class Told(msgspec.Struct, frozen=True):
    """A caution as it was printed. `own` tells whether the guide wrote it, and not the trade."""

    id: str
    level: str
    hazard: str
    consequence: str
    avoidance: str
    gear: tuple[str, ...] = ()
    source: str = ""
    own: bool = False


class Record(msgspec.Struct, frozen=True):
    """`cautions` by step, `hazards` by thing, `rows` of the trade's tables by table and key."""

    cautions: Mapping[str, tuple[Told, ...]]
    hazards: Mapping[str, tuple[str, ...]]
    rows: Mapping[str, Mapping[str, object]]


def record_of(edition: Edition) -> Record:
    """What the trade says of an edition now."""
    cautions = {
        step: tuple(
            Told(c.id, c.level, c.hazard, c.consequence, c.avoidance, c.gear, c.source, c.at is not None)
            for c in row
        )
        for step, row in edition.cautions.items()
        if row
    }
    hazards = {thing: keys for thing, keys in edition.hazards.items() if keys}
    return Record(cautions, hazards, _rows(edition))


def _rows(edition: Edition) -> dict[str, dict[str, object]]:
    """The rows of the tables that the guide's things and cautions use."""
    found: dict[str, dict[str, object]] = {}

    def enter(table: str, key: str, row: object) -> None:
        if row is not None:
            found.setdefault(table, {})[key] = msgspec.to_builtins(row, enc_hook=_plain)

    for thing in edition.guide.things.values():
        if thing.sort == "tool":
            enter("tools", thing.name, tool_kind(thing.name))
        elif thing.form == "adhesive":
            kind = thing.words.get("adhesive", "")
            enter("adhesives", kind, adhesive(kind))
        elif thing.form == "paint":
            kind = thing.words.get("paint", "")
            enter("paints", kind, paint(kind))
        elif thing.sort == "material":
            enter("materials", thing.name, material_kind(thing.name))
    for row in edition.cautions.values():
        for caution in row:
            if caution.at is None:
                enter("hazards", caution.id, hazard(caution.id))
    return {table: dict(sorted(rows.items())) for table, rows in sorted(found.items())}


def _plain(value: object) -> object:
    """Numbers of the tables as text, since JSON has no fractions."""
    return str(value) if isinstance(value, Fraction) else repr(value)


def encode(record: Record) -> bytes:
    """The record as JSON."""
    return msgspec.json.format(msgspec.json.encode(record), indent=1) + b"\n"


def decode(data: bytes) -> Record:
    """The record of a sealed revision. Errors: ValueError."""
    return msgspec.json.decode(data, type=Record)


def cautions_then(record: Record, edition: Edition) -> dict[str, tuple[Caution, ...]]:
    """The cautions of every step as they were printed then; those of the guide's own keep their place."""
    found = {}
    for step, now in edition.cautions.items():
        own = {caution.id: caution for caution in now if caution.at is not None}
        row = record.cautions.get(step, ())
        found[step] = tuple(own[told.id] if told.own and told.id in own else _caution(told) for told in row)
    return found


def _caution(told: Told) -> Caution:
    return Caution(
        told.id, told.level, told.hazard, told.consequence, told.avoidance, None, told.gear, told.source
    )
