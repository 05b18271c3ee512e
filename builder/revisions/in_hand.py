"""The kit in hand: an older bench in the newer guide's names, and what of it differs from what is wanted."""

from __future__ import annotations

from collections.abc import Mapping

from msgspec.structs import replace

from builder.dryrun.bench import Bench, Joint, Seat
from builder.dryrun.work import thing_id
from builder.guide.model import Guide, Thing
from builder.revisions.desk import Desk, show

# Measures by which a thing in hand is another thing; zones and marks are places on it.
_SOLID = (
    "length", "width", "thickness", "outside", "inside", "diameter", "wall", "root", "tip", "span", "sweep",
    "across_flats", "across_corners",
)  # fmt: skip


FITS = ("outside", "inside", "diameter", "wall")
"""Measures of a ring or a disc that serve its fit alone."""


def translated(bench: Bench, desk: Desk) -> Bench:
    """The bench in the newer guide's names, with the times of the newer labels."""
    names = item_names(desk)

    def name(item: str) -> str:
        return names.get(item, item)

    def seat_of(seat: Seat) -> Seat:
        return replace(seat, child=name(seat.child), host=name(seat.host))

    def joint_of(joint: Joint) -> Joint:
        adhesive = desk.name("thing", joint.adhesive) if joint.adhesive else ""
        label = desk.new.guide.things.get(adhesive)
        times = [label.mm(field) if label is not None else None for field in ("set", "full_cure")]
        return replace(
            joint, a=name(joint.a), b=name(joint.b), adhesive=adhesive, held_by=name(joint.held_by),
            set_at=joint.closed + times[0] if times[0] is not None else joint.set_at,
            cured_at=joint.closed + times[1] if times[1] is not None else joint.cured_at,
        )  # fmt: skip

    things = {name(key): replace(item, key=name(key), thing=desk.name("thing", item.thing))
              for key, item in bench.items.items()}  # fmt: skip
    seats = {name(key): seat_of(seat) for key, seat in bench.seats.items()}
    return replace(
        bench,
        items={key: item for key, item in things.items() if item.thing in desk.new.guide.things},
        seats=seats,
        on=hosts(seats),
        joints=tuple(joint_of(joint) for joint in bench.joints),
        wets=(),
        marks={desk.pairs.tokens.get(key, key): replace(mark, id=desk.pairs.tokens.get(mark.id, mark.id),
               host=name(mark.host)) for key, mark in bench.marks.items()},
        coats=tuple(replace(coat, item=name(coat.item), paint=desk.name("thing", coat.paint))
                    for coat in bench.coats),
        holes=tuple(replace(hole, item=name(hole.item)) for hole in bench.holes),
    )  # fmt: skip


def hosts(seats: Mapping[str, Seat]) -> dict[str, tuple[str, ...]]:
    """What sits on each host, in the order of the seats."""
    found: dict[str, tuple[str, ...]] = {}
    for seat in seats.values():
        found[seat.host] = (*found.get(seat.host, ()), seat.child)
    return found


def item_names(desk: Desk) -> dict[str, str]:
    """Older item -> newer item, for renamed things and their copies, and where one becomes several."""
    found = {}
    for id, thing in desk.old.guide.things.items():
        name = desk.name("thing", id)
        after = desk.new.guide.things.get(name)
        if after is None:
            continue
        for copy in range(1, thing.count + 1):
            older = id if thing.count == 1 else f"{id} {copy}"
            found[older] = name if after.count == 1 else f"{name} {copy}"
    return found


def item_name(guide: Guide, item: str) -> str:
    """What a reader calls an item."""
    thing = guide.things.get(thing_id(item, guide))
    if thing is None:
        return item
    return f"{thing.name} {item.rpartition(' ')[2]}" if thing.count > 1 and item != thing.id else thing.name


def differs(older: Thing, newer: Thing, desk: Desk, apart: tuple[str, ...] = ()) -> str:
    """How a part in hand differs from the one that is wanted now, apart from some measures; empty if it does
    not."""
    for field in _SOLID:
        if field in apart:
            continue
        before, after = older.values.get(field), newer.values.get(field)
        if before is None or after is None or before.base == after.base:
            continue
        return (
            f"its {field.replace('_', ' ')} is {show(after, desk.new)} now, it was {show(before, desk.old)}"
        )
    if _shape(older) != _shape(newer):
        return "its outline is another now"
    if (older.refs.get("of") is None) != (newer.refs.get("of") is None):
        return "it is made of something else now"
    of = [thing.refs["of"].id if "of" in thing.refs else "" for thing in (older, newer)]
    if desk.name("thing", of[0]) != of[1]:
        return f"it is made of {desk.called(of[1]) if of[1] in desk.old.guide.things else of[1]} now"
    return ""


def _shape(thing: Thing) -> tuple[object, ...]:
    """What tells the outline of a flat part besides its measures."""
    outline = thing.outline
    if outline is None:
        return ()
    sweep = outline.values["sweep"].base if "sweep" in outline.values else None
    square = outline.words.get("square_edge", "")
    return (outline.shape, square, sweep, tuple((a.base, b.base) for a, b in outline.points))


def same_seat(one: Seat, other: Seat) -> bool:
    return (one.host, one.side, one.stretch, one.across, one.angle, one.flipped, one.home) == (
        other.host, other.side, other.stretch, other.across, other.angle, other.flipped, other.home,
    )  # fmt: skip
