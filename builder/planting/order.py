"""What comes off too late, too early or never; holes; routes."""

from __future__ import annotations

from collections.abc import Iterator

from builder.dryrun.effects import Make, Place
from builder.dryrun.work import thing_id
from builder.planting.ground import Ground, number_text
from builder.planting.kind import Kind, Plant
from builder.planting.sheet import ScalarNode, SequenceNode, value_of
from builder.planting.waits import step_taken_out

# -- what comes off, holes -----------------------------------------------------------------------


def aid_left(ground: Ground) -> Iterator[Plant]:
    """A jig, a guide or a mask is never taken off."""
    for spot in ground.of("remove"):
        things = [ground.guide.things[r.id] for r in spot.action.refs("what") if r.id in ground.guide.things]
        on = any(
            item.startswith(tuple(t.id for t in things))
            for _, _, f in ground.frames(spot)
            for item in f.before.seats
        )
        if spot.shares_a_sentence or spot.step.shared:
            continue
        if things and on and all(t.sort == "tool" for t in things):
            alone = len(spot.items.value) == 1
            edits = (
                step_taken_out(ground, spot) if alone else spot.sheet.without_item(spot.items, spot.number)
            )
            yield Plant(spot.name, spot.things, edits)


def former_left(ground: Ground) -> Iterator[Plant]:
    """A former is left in a tube that sets."""
    for spot in ground.of("remove"):
        if spot.action.word("before") == "set":
            edits = spot.sheet.without_item(spot.items, spot.number)
            yield Plant(spot.name, spot.things, edits)


def jig_early(ground: Ground) -> Iterator[Plant]:
    """A jig is taken off before the glue that it holds together has set."""
    for spot in ground.of("remove"):
        held = {r.id for s in ground.spots for r in s.action.refs("held_by")} & {
            r.id for r in spot.action.refs("what")
        }
        if not held:
            continue
        for wait in ground.of("wait"):
            frames = [(run, i) for run, i, _ in ground.frames(spot)]
            before = [i for run, i, _ in ground.frames(wait) if frames and run is frames[0][0]]
            if frames and before and before[0] == frames[0][1] - 1:
                yield Plant(wait.name, (*wait.things, *spot.things), step_taken_out(ground, wait))


def remove_twice(ground: Ground) -> Iterator[Plant]:
    """Something is taken off that is off already."""
    for spot in ground.of("remove"):
        if spot.shares_a_sentence:
            continue
        edits = spot.sheet.with_item(spot.items, spot.number + 1, spot.sheet.item(spot.items, spot.number))
        yield Plant(spot.name, spot.things, edits)


def hole_gone(ground: Ground) -> Iterator[Plant]:
    """A hole that something goes into is never drilled."""
    for spot in ground.of("drill"):
        drilled = {r.id for r in spot.action.refs("what")}
        entered = any(
            e.seat.side == "hole" and thing_id(e.seat.host, ground.guide) in drilled
            for run in ground.runs
            for f in run.frames
            for e in f.effects
            if isinstance(e, Place)
        )
        what = spot.value(spot.action.verb.word)
        if entered and isinstance(what, SequenceNode) and len(what.value) > 1:
            last = what.value[-1].value
            yield Plant(
                f"the hole in {last}", spot.things, spot.sheet.without_item(what, len(what.value) - 1)
            )
        elif entered and not spot.action.refs("with"):
            alone = len([i for i in spot.items.value if value_of(i, "note") is None]) == 1
            edits = (
                step_taken_out(ground, spot) if alone else spot.sheet.without_item(spot.items, spot.number)
            )
            yield Plant(spot.name, spot.things, edits)


# -- routes --------------------------------------------------------------------------------------


def other_route(ground: Ground) -> Iterator[Plant]:
    """A later step asks for what only another route makes."""
    if len(ground.runs) < 2:
        return
    made = [
        {e.item.thing for f in run.frames for e in f.effects if isinstance(e, Make)} for run in ground.runs
    ]
    common = [
        s for s in ground.of("verify") if len({id(r) for r, _, _ in ground.frames(s)}) == len(ground.runs)
    ]
    for thing in ground.guide.things.values():
        somewhere = any(thing.id in m for m in made) and not all(thing.id in m for m in made)
        if somewhere and common:
            spot = common[-1]
            line = f"{{verify: {thing.id}, shows: no tear, else: Make another one.}}"
            edits = spot.sheet.with_item(spot.items, spot.number, line)
            yield Plant(f"{thing.id} in {spot.step.id}", (*spot.things, thing.id), edits)


def routes_apart(ground: Ground) -> Iterator[Plant]:
    """One route puts a part in another place than the other."""
    if len(ground.runs) < 2:
        return
    for spot in ground.of("attach", "seat"):
        frames = list(ground.frames(spot))
        node = spot.value("at") or spot.value("to") or spot.value("outside")
        if len({id(run) for run, _, _ in frames}) == len(ground.runs) or not isinstance(node, ScalarNode):
            continue
        seat = next((e.seat for e in frames[0][2].effects if isinstance(e, Place)), None) if frames else None
        if seat is None or seat.stretch is None or seat.fit:
            continue
        thing = ground.guide.things[thing_id(seat.host, ground.guide)]
        end = next((c.origin for c in thing.chains if c.forward), "")
        unit = str(getattr(ground.guide.units, "first", "mm"))
        lo, hi = (number_text(x + ground.finest, unit) for x in seat.stretch)
        named = spot.action.spot("at") or spot.action.spot("to") or spot.action.spot("outside")
        is_zone = named is not None and bool(named.names) and thing.zone(named.names[0]) is not None
        if end and is_zone:
            text = f"{lo} to {hi} from {end}"
            edits = (spot.sheet.replace(node, text),)
            yield Plant(f"the place of {spot.name}", (*spot.things, thing.id), edits)


KINDS = (
    Kind("jig, guide or mask left on", ("never-removed", "tool-left"), aid_left),
    Kind("former left in", ("former-out",), former_left),
    Kind("jig off too early", ("jig-off",), jig_early),
    Kind("taken off twice", ("not-there",), remove_twice),
    Kind("hole never drilled", ("attachable",), hole_gone),
    Kind("thing of another route", ("other-route",), other_route),
    Kind("routes that part for good", ("rejoin",), routes_apart),
)
