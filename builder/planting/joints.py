"""Glue and placings in the wrong order, twice, never, or in another place."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from builder.dryrun.bench import Bench, Seat
from builder.dryrun.effects import Close, Place
from builder.dryrun.run import Frame
from builder.dryrun.shape import length_of
from builder.dryrun.work import thing_id
from builder.guide.model import Thing
from builder.planting.ground import Ground, Spot, number_text
from builder.planting.kind import Kind, Plant
from builder.planting.sheet import ScalarNode, SequenceNode, value_of
from builder.trade.ends import is_origin

# -- glue ----------------------------------------------------------------------------------------


def glue_after(ground: Ground) -> Iterator[Plant]:
    """The glue and the part that it is for change places."""
    for glue, placing, _ in ground.beads():
        home = placing.action.value("leaving_out") is None
        if glue.items is placing.items and placing.number == glue.number + 1 and home:
            edits = glue.sheet.swapped(glue.items, glue.number, placing.number)
            yield Plant(f"{glue.name} and {placing.action.verb.word}", glue.things, edits)


def glue_gone(ground: Ground) -> Iterator[Plant]:
    """A bead of glue is left out."""
    for glue, placing, _ in ground.beads():
        if _only_bead(ground, glue, placing):
            yield Plant(glue.name, glue.things, glue.sheet.without_item(glue.items, glue.number))


def glue_later(ground: Ground) -> Iterator[Plant]:
    """A bead of glue is laid only in the next step."""
    for glue, placing, _ in ground.beads():
        after = _next_actions(ground, glue)
        if after is None or glue.step.id != placing.step.id or not _only_bead(ground, glue, placing):
            continue
        edits = glue.sheet.moved(glue.items, glue.number, after, 0)
        yield Plant(f"{glue.name}, moved one step on", glue.things, edits)


def _only_bead(ground: Ground, glue: Spot, placing: Spot) -> bool:
    """Whether nothing but this bead holds what is placed, all the way home."""
    home = placing.action.value("leaving_out") is None
    if placing.action.word("fit") or placing.action.verb.kind not in ("seat", "attach") or not home:
        return False
    for _, _, frame in ground.frames(placing):
        beads = {e.wet.cause.action for e in frame.effects if isinstance(e, Close) and e.wet is not None}
        moving = {e.seat.child for e in frame.effects if isinstance(e, Place)}
        if beads != {glue.action.path} or any(item in frame.before.seats for item in moving):
            return False
    return True


def _next_actions(ground: Ground, spot: Spot) -> SequenceNode | None:
    """The actions of the step that follows in the same list of the same file."""
    for items in ground.sheets[spot.sheet.file].nodes():
        if not isinstance(items, SequenceNode):
            continue
        for index, entry in enumerate(items.value[:-1]):
            if value_of(entry, "actions") is not spot.items:
                continue
            found = value_of(items.value[index + 1], "actions")
            return found if isinstance(found, SequenceNode) and not found.flow_style else None
    return None


def glue_for_other(ground: Ground) -> Iterator[Plant]:
    """The glue is said to be for another part than the one that meets it."""
    for glue, placing, _ in ground.beads():
        node = glue.value("for")
        if not isinstance(node, ScalarNode) or glue.step.id != placing.step.id or glue.step.shared:
            continue
        other = _other_part(ground, glue, placing)
        if other is not None and _only_bead(ground, glue, placing):
            edits = (glue.sheet.replace(node, other.id),)
            yield Plant(f"what {glue.name} is for", glue.things, edits)


def _other_part(ground: Ground, glue: Spot, placing: Spot) -> Thing | None:
    """A part that is there and sits nowhere when the glue is laid."""
    frame = next((f for _, _, f in ground.frames(glue)), None)
    own = {ref.id for f in glue.action.fields for ref in glue.action.refs(f)}
    own |= {ref.id for f in placing.action.fields for ref in placing.action.refs(f)}
    say = glue.action.say
    for thing in ground.guide.things.values():
        there = frame is not None and thing.id in frame.before.items
        whole = thing.sort == "part" and thing.count == 1 and not thing.blank_of
        if whole and thing.id not in own and there and say is None:
            assert frame is not None
            if thing.id not in frame.before.seats and not frame.before.children(thing.id):
                return thing
    return None


def glue_elsewhere(ground: Ground) -> Iterator[Plant]:
    """The glue is laid in the zone beside the one that the joint covers."""
    for glue, placing, wet in ground.beads():
        if not _only_bead(ground, glue, placing) or glue.step.shared:
            continue
        for side in ("outside", "inside"):
            node, spot = glue.value(side), glue.action.spot(side)
            thing = ground.guide.things.get(thing_id(wet.host, ground.guide))
            if not isinstance(node, ScalarNode) or spot is None or spot.kind != "named" or thing is None:
                continue
            chain = thing.chain_of(spot.names[0], side)
            names = [z.name for z in chain.zones] if chain is not None else []
            if spot.names[0] in names:
                for other in _beside(names, names.index(spot.names[0])):
                    if _bare(ground, glue, wet.host, thing, other, side):
                        edits = (glue.sheet.replace(node, other),)
                        yield Plant(f"where {glue.name} lays it", (*glue.things, thing.id), edits)
                        break


def _beside(names: list[str], at: int) -> Iterator[str]:
    yield from names[at + 1 : at + 2]
    yield from names[max(at - 1, 0) : at]


def _bare(ground: Ground, glue: Spot, host: str, thing: Thing, zone: str, side: str) -> bool:
    """Whether nothing sits in that zone when the glue is laid."""
    found = thing.zone(zone, side)
    frame = next((f for _, _, f in ground.frames(glue)), None)
    if found is None or found.lo is None or found.hi is None or frame is None:
        return False
    return not any(
        s.stretch is not None and s.stretch[0] < found.hi and found.lo < s.stretch[1] and s.side == side
        for s in frame.before.children(host)
    )


def glue_shut_in(ground: Ground) -> Iterator[Plant]:
    """Glue is to be laid on a surface that is inside another part by then."""
    glue = next((s for s in ground.of("glue")), None)
    adhesive = glue.action.refs("with")[0].id if glue is not None and glue.action.refs("with") else ""
    for placing in ground.of("seat"):
        after = _next_actions(ground, placing)
        frame = next((f for _, _, f in ground.frames(placing)), None)
        if frame is None or not adhesive or placing.step.shared:
            continue
        for seat in _shut_in(ground, frame):
            thing = ground.guide.things[thing_id(seat.child, ground.guide)]
            zone = _hidden_zone(ground, frame.after, seat, thing)
            other = _free_part(ground, frame.after)
            if zone and other is not None and thing.count == 1:
                line = f"{{glue: {thing.id}, outside: {zone}, with: {adhesive}, for: {other.id}}}"
                items, index = (after, 0) if after is not None else (placing.items, placing.number + 1)
                edits = placing.sheet.with_item(items, index, line)
                yield Plant(f"the {zone} of {thing.id} after {placing.name}", placing.things, edits)


def _shut_in(ground: Ground, frame: Frame) -> Iterator[Seat]:
    for effect in frame.effects:
        if isinstance(effect, Place) and effect.seat.side == "inside" and effect.seat.home:
            host = ground.guide.things[thing_id(effect.seat.host, ground.guide)]
            total, stretch = length_of(host), effect.seat.stretch
            if total is not None and stretch is not None and stretch[0] >= 0 and stretch[1] <= total:
                yield effect.seat


def _hidden_zone(ground: Ground, bench: Bench, seat: Seat, thing: Thing) -> str:
    for chain in thing.chains:
        for zone in chain.zones if chain.side == "outside" else ():
            if zone.lo is None or zone.hi is None:
                continue
            taken = [s.stretch for s in bench.children(seat.child) if s.side == "outside"]
            if not any(t is not None and t[0] < zone.hi and zone.lo < t[1] for t in taken):
                return zone.name
    return ""


def _free_part(ground: Ground, bench: Bench) -> Thing | None:
    for thing in ground.guide.things.values():
        free = thing.id in bench.items and thing.id not in bench.seats and not bench.children(thing.id)
        if thing.sort == "part" and thing.count == 1 and free and not thing.blank_of:
            return thing
    return None


# -- placings ------------------------------------------------------------------------------------


def placing_gone(ground: Ground) -> Iterator[Plant]:
    """The glue is laid, and the part is never put there."""
    for glue, placing, _ in ground.beads():
        if _only_bead(ground, glue, placing) and not placing.step.shared:
            edits = placing.sheet.without_item(placing.items, placing.number)
            yield Plant(placing.name, (*placing.things, *(r.id for r in placing.action.refs("what"))), edits)


def placing_twice(ground: Ground) -> Iterator[Plant]:
    """A part is put in its place a second time."""
    for placing in ground.of("attach", "seat"):
        if placing.step.shared or placing.action.value("leaving_out") is not None:
            continue
        if placing.action.takes is not None or placing.action.value("hold") is not None:
            continue  # twice the time is another fault
        home = all(
            e.seat.home and e.seat.child not in f.before.seats
            for _, _, f in ground.frames(placing)
            for e in f.effects
            if isinstance(e, Place)
        )
        if home and all(r.id in ground.guide.things for r in placing.action.refs("what")):
            edits = placing.sheet.with_item(
                placing.items, placing.number + 1, placing.sheet.item(placing.items, placing.number)
            )
            yield Plant(placing.name, placing.things, edits)


def two_in_one_place(ground: Ground) -> Iterator[Plant]:
    """A part is put where another already sits."""
    for placing in ground.of("seat", "attach"):
        field = next(
            (f for f in ("to", "at", "top", "under") if isinstance(placing.value(f), ScalarNode)), ""
        )
        frame = next((f for _, _, f in ground.frames(placing)), None)
        node = placing.value(field)
        if not field or frame is None or not isinstance(node, ScalarNode) or placing.step.shared:
            continue
        seat = next((e.seat for e in frame.effects if isinstance(e, Place)), None)
        if seat is None or seat.stretch is None or len(placing.action.refs("what")) > 1:
            continue
        size = seat.stretch[1] - seat.stretch[0]
        thing = ground.guide.things[thing_id(seat.host, ground.guide)]
        for other in _nearest_first(frame.before.children(seat.host), seat.came_from):
            sits = other.stretch
            if (
                other.child == seat.child
                or other.side != seat.side
                or sits is None
                or other.angle is not None
                or other.across is not None
            ):
                continue
            own = ground.guide.things[thing_id(other.child, ground.guide)]
            total = length_of(thing)
            if own.sort != "part" or own.form in ("clip", "strip", "cord") or total is None:
                continue
            lo = max(min(sits[0], total - size), Fraction(0))
            end = next((c.origin for c in thing.chains if c.forward), "")
            if end and lo < sits[1] and sits[0] < lo + size and other.came_from == seat.came_from:
                text = f"{number_text(lo, str(getattr(ground.guide.units, 'first', 'mm')))} from {end}"
                yield Plant(
                    f"the place of {placing.name}",
                    (*placing.things, own.id),
                    (placing.sheet.replace(node, text),),
                )
                break


def _nearest_first(seats: list[Seat], entry: str) -> list[Seat]:
    """Those in the way last: from the end that a part comes from, the first that it meets."""
    known = [s for s in seats if s.stretch is not None]
    return sorted(known, key=lambda s: s.stretch or (Fraction(0), Fraction(0)), reverse=not is_origin(entry))


def wrong_zone(ground: Ground) -> Iterator[Plant]:
    """A part is put at a zone that has another length than it has."""
    for placing in ground.of("seat", "attach"):
        for field in ("to", "at"):
            node, spot = placing.value(field), placing.action.spot(field)
            way = placing.action.ref("into") or placing.action.ref("over") or placing.action.ref("onto")
            host = ground.guide.things.get(way.id) if way is not None else None
            if not isinstance(node, ScalarNode) or spot is None or spot.kind != "named" or host is None:
                continue
            side = "inside" if placing.action.refs("into") else "outside"
            chain = host.chain_of(spot.names[0], side)
            zone = host.zone(spot.names[0], side)
            if chain is None or zone is None or zone.name != spot.names[0] or len(chain.zones) < 2:
                continue
            index = [z.name for z in chain.zones].index(zone.name)
            for other in _beside([z.name for z in chain.zones], index):
                room = host.zone(other, side)
                same = room is not None and room.length.base == zone.length.base
                if not same and _bare(ground, placing, host.id, host, other, side):
                    edits = (placing.sheet.replace(node, other),)
                    yield Plant(f"the place of {placing.name}", (*placing.things, host.id), edits)
                    break


KINDS = (
    Kind("part placed before its glue", ("glue-order",), glue_after),
    Kind("glue left out", ("held",), glue_gone),
    Kind("glue laid one step later", ("glue-order",), glue_later),
    Kind("glue for another part", ("glue-for-other",), glue_for_other),
    Kind("glue beside the joint", ("glue-covered",), glue_elsewhere),
    Kind("glue on a surface shut in", ("surface",), glue_shut_in),
    Kind("part never placed", ("never-placed",), placing_gone),
    Kind("part placed twice", ("placed-twice",), placing_twice),
    Kind("two things in one place", ("same-place",), two_in_one_place),
    Kind("zone of another length", ("zone-filled",), wrong_zone),
)
