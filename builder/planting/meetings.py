"""Glue that nothing meets, is wiped off or holds what should come off; marks that are covered or too few."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from builder.dryrun.effects import Place
from builder.dryrun.needs import Bare
from builder.dryrun.run import Frame
from builder.dryrun.work import thing_id
from builder.planting.cuts import mark_used
from builder.planting.ground import Ground, number_text
from builder.planting.kind import Kind, Plant
from builder.planting.sheet import MappingNode, ScalarNode, pair_of, value_of
from builder.trade.tools import tool_kind

DEEP = 60  # mm: farther than most fingers reach


def _seat_of(frame: Frame) -> Place | None:
    return next((e for e in frame.effects if isinstance(e, Place)), None)


def glued_and_off(ground: Ground) -> Iterator[Plant]:
    """What is glued on is taken off again in the same step."""
    for glue, placing, _ in ground.beads():
        frame = next((f for _, _, f in ground.frames(placing)), None)
        put = _seat_of(frame) if frame is not None else None
        host = placing.action.ref("into") or placing.action.ref("over")
        what, end = placing.action.refs("what"), placing.action.word("from")
        last = placing.number == len(placing.items.value) - 1
        if put is None or host is None or len(what) != 1 or not end or not last or glue.step.shared:
            continue
        line = f"{{remove: {what[0].id}, from: {host.id}, towards: {end}}}"
        edits = placing.sheet.with_item(placing.items, placing.number + 1, line)
        yield Plant(f"{what[0].id} after {placing.name}", (*placing.things, what[0].id), edits)


def glue_astray(ground: Ground) -> Iterator[Plant]:
    """Glue is laid on the body of the kit for a part that is placed somewhere else."""
    finished = ground.guide.finished
    body = ground.guide.things.get(ground.guide.carrier(finished.what.id)) if finished is not None else None
    if body is None:
        return
    for placing in ground.of("seat"):
        frame = next((f for _, _, f in ground.frames(placing)), None)
        what, glues = placing.action.refs("what"), [b for b in ground.beads() if b[1] is placing]
        if frame is None or len(what) != 1 or placing.step.shared or body.id not in frame.before.items:
            continue
        apart = body.id not in frame.after.assembly(ground.guide.carrier(what[0].id))
        place = _bare_place(ground, frame, body.id)
        if apart and place and glues and ground.guide.things[what[0].id].count == 1:
            adhesive = glues[0][2].adhesive
            line = f"{{glue: {body.id}, {place}, with: {adhesive}, for: {what[0].id}}}"
            edits = placing.sheet.with_item(placing.items, placing.number, line)
            yield Plant(f"before {placing.name}", placing.things, edits)


def glue_on_other_face(ground: Ground) -> Iterator[Plant]:
    """Glue is laid on the other face of the wall than the one that the part meets."""
    for glue, placing, wet in ground.beads():
        frame = next((f for _, _, f in ground.frames(placing)), None)
        put = _seat_of(frame) if frame is not None else None
        pair = pair_of(glue.node, wet.side)
        other = {"inside": "outside", "outside": "inside"}.get(wet.side)
        if put is None or pair is None or other is None or placing.action.verb.kind != "seat":
            continue
        if wet.host in (put.seat.host, put.seat.child) and not glue.step.shared and glue.action.say is None:
            edit = glue.sheet.replace(pair[0], other)
            yield Plant(f"the face of {glue.name}", (*glue.things, *placing.things), (edit,))


def _bare_place(ground: Ground, frame: Frame, host: str) -> str:
    """A zone of the outside on which nothing ever sits, as a field; empty if there is none."""
    thing = ground.guide.things[host]
    used = [s.stretch for run in ground.runs for s in run.end.children(host) if s.side == "outside"]
    for chain in thing.chains:
        for zone in chain.zones if chain.side == "outside" else ():
            free = zone.lo is not None and zone.hi is not None and frame.before.seats.get(host) is None
            lo, hi = zone.lo or 0, zone.hi or 0
            if free and not any(s is None or (s[0] < hi and lo < s[1]) for s in used):
                return f"outside: {zone.name}"
    if not thing.chains and thing.form == "tube" and not used:
        return "outside: middle"
    return ""


def glue_swept(ground: Ground) -> Iterator[Plant]:
    """The glue for a part is laid before another goes past that place."""
    beads = [b for b in ground.beads() if b[2].side == "inside" and not b[1].step.shared]
    for _, deeper, _ in beads:
        for glue, nearer, wet in beads:
            ways = [(s.action.refs("into"), s.action.word("from")) for s in (deeper, nearer)]
            hosts = [refs[0].id if refs else "" for refs, _ in ways]
            between = next((f for _, _, f in ground.frames(deeper)), None)
            put = _seat_of(between) if between is not None else None
            same = hosts[0] == hosts[1] and ways[0][1] == ways[1][1] and hosts[0]
            if not same or deeper is nearer or put is None or put.seat.stretch is None or wet.stretch is None:
                continue
            first = next((f for _, _, f in ground.frames(nearer)), None)
            later = first is not None and put.seat.child in first.before.seats
            low = ways[0][1] in ("rear", "left", "foot", "bottom", "tip")
            on_way = wet.stretch[1] <= put.seat.stretch[0] if low else put.seat.stretch[1] <= wet.stretch[0]
            if later and on_way and deeper.items is not glue.items and glue.sheet is deeper.sheet:
                edits = glue.sheet.moved(glue.items, glue.number, deeper.items, deeper.number)
                yield Plant(f"{glue.name}, before {deeper.name}", (*glue.things, *deeper.things), edits)
                break


def tool_short(ground: Ground) -> Iterator[Plant]:
    """What work is done with deep inside reaches less far than it has to."""
    deep = {
        ref.id
        for run in ground.runs for f in run.frames for x in f.needs
        if isinstance(x, Bare) and x.depth is not None and x.depth > DEEP for ref in f.action.refs("with")
    }  # fmt: skip
    for thing, _, node in ground.thing_nodes("tools"):
        reach = value_of(node, "reach")
        if isinstance(reach, ScalarNode) and thing.id in deep:
            text = number_text(ground.finest, getattr(ground.guide.units, "first", "mm"))
            yield Plant(f"the reach of {thing.id}", (thing.id,), (ground.main.replace(reach, text),))


def mark_covered(ground: Ground) -> Iterator[Plant]:
    """A mark is drawn where another part covers it before it is used."""
    for mark in ground.of("mark"):
        user = mark_used(ground, mark)
        node, host = mark.value("at"), mark.action.ref("onto")
        if user is None or not isinstance(node, ScalarNode) or host is None or mark.step.shared:
            continue
        drawn = next((f for _, _, f in ground.frames(mark)), None)
        used = next((f for _, _, f in ground.frames(user)), None)
        thing = ground.guide.things[host.id]
        if drawn is None or used is None:
            continue
        for seat in used.before.children(host.id):
            if seat.child in drawn.before.seats or seat.side != "outside" or seat.stretch is None:
                continue
            zone = next(
                (z.name for c in thing.chains for z in c.zones if c.side == "outside" and
                 (z.lo, z.hi) == seat.stretch), "",
            )  # fmt: skip
            if zone and ground.guide.things[thing_id(seat.child, ground.guide)].form in ("ring", "tube"):
                edit = mark.sheet.replace(node, f"middle of {zone}")
                covers = (s.things for s in ground.spots if s.action.path == seat.cause.action)
                things = (*mark.things, *user.things, mark.action.word("what"), *next(covers, ()))
                yield Plant(f"{mark.name}, under {seat.child}", things, (edit,))
                break


def marks_few(ground: Ground) -> Iterator[Plant]:
    """Lines round a part are drawn at one angle, where copies go to several."""
    for mark in ground.of("mark"):
        node, angle = mark.value("angle"), mark.action.angle("angle")
        if isinstance(node, ScalarNode) and angle is not None and angle.evenly and not mark.step.shared:
            yield Plant(f"the angle of {mark.name}", mark.things, (mark.sheet.replace(node, "10 deg"),))


def strip_long(ground: Ground) -> Iterator[Plant]:
    """A strip from which marks are taken is longer than its host is round."""
    taken = {s.action.word("from") or getattr(s.action.ref("from"), "id", "") for s in ground.of("mark")}
    for thing, _, node in ground.thing_nodes("tools", "parts"):
        length = value_of(node, "length")
        if thing.form == "strip" and thing.id in taken and isinstance(length, ScalarNode):
            more = number_text(4 * ground.finest, getattr(ground.guide.units, "first", "mm"))
            edit = ground.main.replace(length, f"{length.value} + {more}")
            yield Plant(f"the length of {thing.id}", (thing.id,), (edit,))


def band_short(ground: Ground) -> Iterator[Plant]:
    """A band that is glued round does not meet its own end."""
    for spot in ground.of("roll"):
        what = spot.action.refs("what")
        thing = ground.guide.things.get(what[0].id) if len(what) == 1 else None
        size = value_of(ground.thing_node(thing.id), "size") if thing is not None else None
        if thing is not None and thing.form == "strip" and isinstance(size, ScalarNode):
            head, cross, tail = size.value.partition(" x ")
            unit = head.rpartition(" ")[2]
            short = number_text((thing.mm("length") or Fraction(0)) / 2, unit)
            edit = ground.main.replace(size, f"{short}{cross}{tail}")
            yield Plant(f"the size of {thing.id}", (thing.id,), (edit,))


def three_hands(ground: Ground) -> Iterator[Plant]:
    """A part is held while a tool is used that takes both hands."""
    kinds = ((thing.id, tool_kind(thing.name)) for thing, _, _ in ground.thing_nodes("tools"))
    tool = next((id for id, kind in kinds if kind is not None and kind.key == "scissors"), "")
    for _, placing, wet in ground.beads():
        tack = ground.guide.things[wet.adhesive].mm("tack")
        time = placing.step.time
        free = all(placing.value(name) is None for name in ("hold", "held by", "with", "say"))
        if not tool or not free or tack is None or time is None or placing.step.shared:
            continue
        if (time.base or 0) >= 2 * tack:
            edit = placing.sheet.with_pair(placing.node, f"hold: {number_text(tack, 'min')}, with: {tool}")
            yield Plant(placing.name, (*placing.things, tool), (edit,))


def let_go_early(ground: Ground) -> Iterator[Plant]:
    """A part is held, and let go before its glue tacks."""
    for _, placing, wet in ground.beads():
        tack = ground.guide.things[wet.adhesive].mm("tack")
        free = placing.value("hold") is None and placing.value("say") is None
        if tack is not None and free and not placing.action.refs("held_by") and not placing.step.shared:
            edit = placing.sheet.with_pair(placing.node, f"hold: {number_text(tack / 4, 's')}")
            yield Plant(placing.name, placing.things, (edit,))


def wait_typed(ground: Ground) -> Iterator[Plant]:
    """A wait by the label is given minutes of its own."""
    for wait in ground.of("wait"):
        node = wait.value("until")
        key = next((k for k, v in wait.node.value if v is node), None)
        frame = next((f for _, _, f in ground.frames(wait)), None)
        if not isinstance(node, ScalarNode) or key is None or frame is None or wait.step.shared:
            continue
        if node.value == "set" and frame.seconds:
            text = number_text(frame.seconds * 3, "min")
            edits = (wait.sheet.replace(key, "for"), wait.sheet.replace(node, text))
            yield Plant(wait.name, wait.things, edits)


def left_over(ground: Ground) -> Iterator[Plant]:
    """A part is looked at, and never joined to the kit."""
    parts = value_of(ground.main.node, "parts")
    spot = next((s for s in reversed(ground.spots) if s.sheet is ground.main and not s.repeat), None)
    if spot is not None and isinstance(parts, MappingNode):
        size = "outside: 12 mm, inside: 3 mm, length: 1 mm"
        line = f"spare_washer: {{form: ring, source: bought, {size}}}"
        more = "{verify: spare_washer, shows: a round hole, else: Take another one.}"
        edits = (
            ground.main.with_pair(parts, line),
            *spot.sheet.with_item(spot.items, len(spot.items.value), more),
        )
        yield Plant("spare_washer", ("parts", *spot.things), edits)




KINDS = (
    Kind("glue on the other face of the wall", ("held", "glue-unmet"), glue_on_other_face),
    Kind("glued and taken off", ("glued-on",), glued_and_off),
    Kind("glue astray", ("glue-unmet",), glue_astray),
    Kind("glue wiped off", ("glue-swept",), glue_swept),
    Kind("tool too short", ("out-of-reach",), tool_short),
    Kind("mark covered before its use", ("mark-covered",), mark_covered),
    Kind("marks at one angle", ("marks-count",), marks_few),
    Kind("marking strip too long", ("wrap-closes",), strip_long),
    Kind("band too short", ("wrap-closes",), band_short),
    Kind("three hands", ("two-hands",), three_hands, "warning"),
    Kind("let go before it tacks", ("hold-short",), let_go_early, "warning"),
    Kind("minutes typed for a label", ("wait-differs",), wait_typed, "warning"),
    Kind("part left over", ("not-in-kit",), left_over),
)
