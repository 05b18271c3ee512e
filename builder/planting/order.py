"""Work done in the wrong order, twice or never: glue, placings, cuts, marks, waits, jigs."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from builder.dryrun.bench import Bench, Seat
from builder.dryrun.effects import Close, Make, Place
from builder.dryrun.needs import Marked
from builder.dryrun.run import Frame
from builder.dryrun.shape import length_of
from builder.dryrun.work import thing_id
from builder.findings import Place as FilePlace
from builder.guide.model import Action, Thing
from builder.planting.ground import Ground, Spot, number_text
from builder.planting.kind import Kind, Plant
from builder.planting.sheet import Edit, MappingNode, ScalarNode, SequenceNode, value_of
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
                        yield Plant(f"where {glue.name} lays it", glue.things, edits)
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
        if thing.sort == "part" and thing.count == 1 and free:
            return thing
    return None


# -- placings ------------------------------------------------------------------------------------


def placing_gone(ground: Ground) -> Iterator[Plant]:
    """The glue is laid, and the part is never put there."""
    for glue, placing, _ in ground.beads():
        if _only_bead(ground, glue, placing) and not placing.step.shared:
            edits = placing.sheet.without_item(placing.items, placing.number)
            yield Plant(placing.name, placing.things, edits)


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
                    f"the place of {placing.name}", placing.things, (placing.sheet.replace(node, text),)
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
                    yield Plant(f"the place of {placing.name}", placing.things, edits)
                    break


# -- cuts and marks ------------------------------------------------------------------------------


def cut_gone(ground: Ground) -> Iterator[Plant]:
    """A part is never cut out."""
    for cut in ground.of("cut"):
        refs = cut.action.refs("what")
        if (
            len(refs) == 1
            and not _prepared(ground, cut)
            and _used_later(ground, cut)
            and cut.action.sizes("leaves") is None
        ):
            yield Plant(cut.name, (*cut.things, refs[0].id), cut.sheet.without_item(cut.items, cut.number))


def _prepared(ground: Ground, cut: Spot) -> bool:
    """Whether it is the teacher's to make, so that its preparation is what is missed."""
    return any(ground.guide.things[r.id].words.get("made_by") for r in cut.action.refs("what"))


def _used_later(ground: Ground, cut: Spot) -> bool:
    made = {r.id for r in cut.action.refs("what")}
    frames = list(ground.frames(cut))
    return bool(frames) and all(
        any(r.id in made for later in run.frames[number + 1 :] for f in later.action.fields
            for r in later.action.refs(f))
        for run, number, _ in frames
    )  # fmt: skip


def cut_later(ground: Ground) -> Iterator[Plant]:
    """A part is cut out only after its first use."""
    for cut in ground.of("cut"):
        made = {r.id for r in cut.action.refs("what")}
        if len(made) != 1 or cut.action.sizes("leaves") is not None or _prepared(ground, cut):
            continue
        run, number, _ = next(ground.frames(cut), (None, 0, None))
        if run is None:
            continue
        for later in run.frames[number + 1 :]:
            if made & {r.id for f in later.action.fields for r in later.action.refs(f)}:
                target = ground.by_path.get(later.action.path)
                if target is None or target.sheet is not cut.sheet:
                    break
                items, index = (
                    (target.items, target.number + 1)
                    if target.repeat is None
                    else (_outer(ground, target.items), -1)
                )
                if items is None:
                    break
                place = index if index >= 0 else _outer_index(items, target.items) + 1
                edits = (
                    cut.sheet.moved(cut.items, cut.number, items, place)
                    if cut.items is not items
                    else _within(cut, items, place)
                )
                yield Plant(f"{cut.name}, after {target.name}", (*cut.things, *target.things, *made), edits)
                break


def _within(cut: Spot, items: SequenceNode, place: int) -> tuple[Edit, ...]:
    text = cut.sheet.item(items, cut.number)
    return (*cut.sheet.without_item(items, cut.number), *cut.sheet.with_item(items, place, text))


def _outer(ground: Ground, inner: SequenceNode) -> SequenceNode | None:
    """The list of actions that a repeat stands in."""
    for sheet in ground.sheets.values():
        for node in sheet.nodes():
            if isinstance(node, SequenceNode) and any(value_of(i, "actions") is inner for i in node.value):
                return node
    return None


def _outer_index(items: SequenceNode, inner: SequenceNode) -> int:
    return next(i for i, item in enumerate(items.value) if value_of(item, "actions") is inner)


def cut_twice(ground: Ground) -> Iterator[Plant]:
    """A part is cut out twice."""
    for cut in ground.of("cut"):
        if cut.action.sizes("leaves") is None and len(cut.action.refs("what")) == 1:
            edits = cut.sheet.with_item(cut.items, cut.number + 1, cut.sheet.item(cut.items, cut.number))
            yield Plant(cut.name, (*cut.things, *(r.id for r in cut.action.refs("what"))), edits)


def mark_gone(ground: Ground) -> Iterator[Plant]:
    """A mark is never drawn."""
    for mark in ground.of("mark"):
        if _mark_used(ground, mark) is not None and not mark.step.shared:
            edits = mark.sheet.without_item(mark.items, mark.number)
            if edits:
                yield Plant(mark.name, mark.things, edits)


def mark_later(ground: Ground) -> Iterator[Plant]:
    """A mark is drawn only after it is used."""
    for mark in ground.of("mark"):
        user = _mark_used(ground, mark)
        taken = mark.action.ref("from") is not None  # the guide that it is taken from may be off by then
        if user is None or user.sheet is not mark.sheet or mark.step.shared or user.repeat or taken:
            continue
        if user.items is mark.items:
            edits = _within(mark, mark.items, user.number + 1)
        else:
            edits = mark.sheet.moved(mark.items, mark.number, user.items, user.number + 1)
        yield Plant(f"{mark.name}, after {user.name}", (*mark.things, *user.things), edits)


def _mark_used(ground: Ground, mark: Spot) -> Spot | None:
    """The first action that lines something up with a mark."""
    name = mark.action.word("what")
    for run in ground.runs:
        for frame in run.frames:
            if any(isinstance(need, Marked) and need.mark == name for need in frame.needs):
                return ground.by_path.get(frame.action.path)
    return None


# -- waits ---------------------------------------------------------------------------------------


def _needed_waits(ground: Ground) -> Iterator[tuple[Spot, str]]:
    """Waits that a later action rests on: a joint closed before it bears what it could not without it."""
    for wait in ground.of("wait"):
        if wait.step.shared:
            continue
        node = wait.value("until")
        if not isinstance(node, ScalarNode):
            continue
        for run, number, frame in ground.frames(wait):
            if _rests_on(run.frames, number, frame.seconds):
                yield wait, node.value
                break


def _rests_on(frames: tuple[Frame, ...], number: int, seconds: Fraction, *, load: bool = False) -> bool:
    """Whether a joint that dries in this wait is worked on sooner than it may be, once the wait is gone.

    With `load`, only work for which the joint has to be cured.
    """
    frame = frames[number]
    for joint in frame.before.joints:
        if not joint.adhesive or joint.cured_at is None or joint.cured_at <= frame.before.clock:
            continue
        for later in frames[number + 1 :]:
            groups, cured = _strained(later)
            ripe = joint.cured_at if cured else joint.set_at
            early = ripe is not None and later.before.clock - seconds < ripe
            if early and (cured or not load) and any(joint.a in g and joint.b in g for g in groups):
                return True
    return False


def _strained(frame: Frame) -> tuple[list[set[str]], bool]:
    """The groups of items whose joints an action strains, and whether these have to be cured for it."""
    bench, action = frame.before, frame.action
    items = _items_named(frame, "what", "handles", "loads")
    below = {x for i in items for x in bench.below(i)}
    kind = action.verb.kind
    if kind == "paint":
        return [below], True
    if kind == "do" and action.refs("loads"):
        return [{x for i in items for x in bench.assembly(i)}], True
    if kind in ("sand", "drill", "screw", "tie"):
        hosts = {bench.seats[i].host for i in items if i in bench.seats}
        return [below | hosts | set(_items_named(frame, "into", "to"))], True
    if kind in ("seat", "attach"):
        base = frame.step.stage.base
        paths = [
            bench.path(host, base if base in bench.items else bench.root(host))
            for host in _items_named(frame, "into", "over", "onto")
        ]
        return [below, *(set(path) for path in paths if path)], False
    return [], False


def _items_named(frame: Frame, *fields: str) -> list[str]:
    named = {r.id for field in fields for r in frame.action.refs(field)}
    items = [i for i in frame.before.items if i.partition(" ")[0] in named]
    return [i for i in items if i.partition(" ")[2] in ("", str(frame.copy))] if frame.copy else items


def wait_gone(ground: Ground) -> Iterator[Plant]:
    """A wait is left out, and what it was for is worked on at once."""
    yield from _uses_gone(ground)
    for wait, _ in _needed_waits(ground):
        node = ground.step_node(wait.step)
        edits = wait.sheet.without_item(wait.items, wait.number)
        if not edits and node is not None:
            edits = step_taken_out(ground, wait)
        yield Plant(wait.name, wait.things, edits)


def _waiting_uses(ground: Ground) -> Iterator[tuple[MappingNode, str, list[Action]]]:
    """Uses of shared steps that only wait: the entry, its prefix, its actions."""
    for node, _, _ in ground.entries("use"):
        prefix = value_of(node, "as")
        own = [s for s in ground.guide.every_step() if s.use_at is not None and _here(node, s.use_at)]
        actions = [a for s in own for a in s.each_action()]
        if isinstance(prefix, ScalarNode) and actions and all(a.verb.kind == "wait" for a in actions):
            yield node, prefix.value, actions


def _uses_gone(ground: Ground) -> Iterator[Plant]:
    """A shared step that only waits is left out."""
    for node, prefix, actions in _waiting_uses(ground):
        _, steps, index = next(e for e in ground.entries("use") if e[0] is node)
        needed = any(
            frame.action is actions[0] and _rests_on(run.frames, number, frame.seconds)
            for run in ground.runs
            for number, frame in enumerate(run.frames)
        )
        if needed:
            yield Plant(f"use {prefix}", (f"use {prefix}",), ground.main.without_item(steps, index))


def _here(node: MappingNode, place: FilePlace) -> bool:
    mark = node.start_mark
    return bool(mark.line + 1 == place.line and mark.column + 1 == place.column)


def step_taken_out(ground: Ground, spot: Spot) -> tuple[Edit, ...]:
    for items in spot.sheet.nodes():
        if isinstance(items, SequenceNode):
            for index, entry in enumerate(items.value):
                if value_of(entry, "actions") is spot.items:
                    return spot.sheet.without_item(items, index)
    return ()


def wait_short(ground: Ground) -> Iterator[Plant]:
    """A wait ends when the glue is set, where it has to be cured."""
    for wait in ground.of("wait"):
        node = wait.value("until")
        if not isinstance(node, ScalarNode) or node.value != "cured" or wait.step.shared:
            continue
        if any(_too_soon_if_set(run.frames, number) for run, number, _ in ground.frames(wait)):
            yield Plant(wait.name, wait.things, (wait.sheet.replace(node, "set"),))
    for node, prefix, actions in _waiting_uses(ground):
        number = next((i for i, f in enumerate(ground.runs[0].frames) if f.action is actions[0]), None)
        what = actions[0].ref("what")
        if number is not None and what is not None and _too_soon_if_set(ground.runs[0].frames, number):
            wait_for = f"{{wait for: {what.id}, until: set, if missed: No harm.}}"
            text = f"{{id: {prefix}_set, title: Let it set, actions: [{wait_for}]}}"
            yield Plant(f"use {prefix}", (f"use {prefix}",), (ground.main.replace(node, text),))


def _too_soon_if_set(frames: tuple[Frame, ...], number: int) -> bool:
    """Whether something is loaded too soon if the wait lasts only until all is set."""
    frame = frames[number]
    set_at = [j.set_at for j in frame.before.joints if j.set_at is not None and j.adhesive]
    left = max((at - frame.before.clock for at in set_at), default=Fraction(0))
    return _rests_on(frames, number, frame.seconds - max(left, Fraction(0)), load=True)


def wait_minute(ground: Ground) -> Iterator[Plant]:
    """A wait is given a minute of the clock in place of the label's time."""
    for wait, _ in _needed_waits(ground):
        node = wait.value("until")
        key = next((k for k, v in wait.node.value if v is node), None)
        if isinstance(node, ScalarNode) and key is not None:
            edits = (wait.sheet.replace(key, "for"), wait.sheet.replace(node, "1 min"))
            yield Plant(wait.name, wait.things, edits)


def wait_twice(ground: Ground) -> Iterator[Plant]:
    """A wait for what is dry already."""
    for wait in ground.of("wait"):
        if isinstance(wait.value("until"), ScalarNode):
            edits = wait.sheet.with_item(
                wait.items, wait.number + 1, wait.sheet.item(wait.items, wait.number)
            )
            yield Plant(wait.name, wait.things, edits)


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
            yield Plant(f"{thing.id} in {spot.step.id}", spot.things, edits)


def routes_apart(ground: Ground) -> Iterator[Plant]:
    """One route puts a part in another place than the other."""
    if len(ground.runs) < 2:
        return
    for spot in ground.of("attach", "seat"):
        frames = list(ground.frames(spot))
        node = spot.value("at") or spot.value("to")
        if len({id(run) for run, _, _ in frames}) == len(ground.runs) or not isinstance(node, ScalarNode):
            continue
        seat = next((e.seat for e in frames[0][2].effects if isinstance(e, Place)), None) if frames else None
        if seat is None or seat.stretch is None or seat.fit:
            continue
        thing = ground.guide.things[thing_id(seat.host, ground.guide)]
        end = next((c.origin for c in thing.chains if c.forward), "")
        unit = str(getattr(ground.guide.units, "first", "mm"))
        lo, hi = (number_text(x + ground.finest, unit) for x in seat.stretch)
        named = spot.action.spot("at") or spot.action.spot("to")
        is_zone = named is not None and bool(named.names) and thing.zone(named.names[0]) is not None
        if end and is_zone:
            text = f"{lo} to {hi} from {end}"
            yield Plant(f"the place of {spot.name}", spot.things, (spot.sheet.replace(node, text),))


WAIT_CHECKS = ("joint-bears", "joint-set", "joint-steady", "coat-cured", "recoat")

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
    Kind("part never cut", ("used-before-made",), cut_gone),
    Kind("part cut after its use", ("used-before-made",), cut_later),
    Kind("part cut twice", ("made-twice",), cut_twice),
    Kind("mark never drawn", ("mark-order", "unknown-place"), mark_gone),
    Kind("mark drawn after its use", ("mark-order",), mark_later),
    Kind("wait left out", WAIT_CHECKS, wait_gone),
    Kind("cured wait cut to set", WAIT_CHECKS, wait_short),
    Kind("wait of a minute", WAIT_CHECKS, wait_minute),
    Kind("wait for what is dry", ("nothing-dries",), wait_twice, "warning"),
    Kind("jig, guide or mask left on", ("never-removed", "tool-left"), aid_left),
    Kind("former left in", ("former-out",), former_left),
    Kind("jig off too early", ("jig-off",), jig_early),
    Kind("taken off twice", ("not-there",), remove_twice),
    Kind("hole never drilled", ("attachable",), hole_gone),
    Kind("thing of another route", ("other-route",), other_route),
    Kind("routes that part for good", ("rejoin",), routes_apart),
)
