"""Fields that are left out, or say what is not so: labels, options, faces, jigs, masks, formers."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from builder.checks.not_in_kit import connected
from builder.dryrun.effects import Make, Place
from builder.dryrun.needs import Fits, InPlace, Masked
from builder.dryrun.shape import AXIAL
from builder.dryrun.work import thing_id
from builder.planting.ground import Ground, number_text
from builder.planting.kind import Kind, Plant
from builder.planting.sheet import MappingNode, ScalarNode, SequenceNode, pair_of, value_of
from builder.planting.waits import step_taken_out
from builder.trade.ends import opposite
from builder.trade.paints import paint as trade_paint


def label_short(ground: Ground) -> Iterator[Plant]:
    """A label without one of its times."""
    for thing, _, node in ground.thing_nodes("materials"):
        label = value_of(node, "label")
        if isinstance(label, MappingNode) and pair_of(label, "full cure") is not None:
            edits = ground.main.without_pair(label, "full cure")
            yield Plant(f"the label of {thing.id}", (thing.id,), edits)


def missed_unsaid(ground: Ground) -> Iterator[Plant]:
    """Nobody says what is done if a wait was too long for the next coat."""
    for wait in ground.of("wait"):
        if wait.value("if missed") is None or wait.step.shared:
            continue
        for run, number, frame in ground.frames(wait):
            coated = {coat.paint for coat in frame.before.coats}
            later = any(
                r.id in coated and ground.guide.things[r.id].window is not None
                for f in run.frames[number + 1 : number + 3]
                for r in f.action.refs("with")
            )
            if later and frame.action.word("until") == "dry":
                yield Plant(wait.name, wait.things, wait.sheet.without_pair(wait.node, "if missed"))


def step_short(ground: Ground) -> Iterator[Plant]:
    """A step is given less time than its actions take."""
    for spot in ground.spots:
        takes = spot.action.takes or spot.action.value("hold")
        time = value_of(ground.step_node(spot.step), "time")
        if takes is None or takes.base is None or not isinstance(time, ScalarNode) or spot.step.shared:
            continue
        text = number_text(takes.base / 2, "min")
        yield Plant(f"the time of {spot.step.id}", spot.things, (spot.sheet.replace(time, text),))


def rests_on_optional(ground: Ground) -> Iterator[Plant]:
    """A step that others rest on is said to be optional."""
    for step, node in ground.own_steps():
        for run in ground.runs:
            made = {e.item.thing for f in run.of_step(step.id) for e in f.effects if isinstance(e, Make)}
            after = [f for f in run.frames if f.step.id != step.id]
            used = {r.id for f in after for field in f.action.fields for r in f.action.refs(field)}
            prepared = any(ground.guide.things[m].words.get("made_by") for m in made)
            if made & used and not prepared:
                edit = ground.main.with_pair(node, "optional: yes")
                yield Plant(step.id, (f"step {step.id}", *sorted(made)), (edit,))
                break


def critical_unverified(ground: Ground) -> Iterator[Plant]:
    """A step that must be right places what nobody looks at later."""
    looked = {r.id for s in ground.of("verify") for f in s.action.fields for r in s.action.refs(f)}
    looked |= {
        thing_id(e.seat.host, ground.guide)
        for run in ground.runs
        for f in run.frames
        for e in f.effects
        if isinstance(e, Place) and thing_id(e.seat.child, ground.guide) in looked
    }
    for step, node in ground.own_steps():
        for run in ground.runs:
            placed = {
                thing_id(e.seat.child, ground.guide)
                for f in run.of_step(step.id)
                for e in f.effects
                if isinstance(e, Place)
                and ground.guide.things[thing_id(e.seat.child, ground.guide)].sort == "part"
            }
            hosts = {
                thing_id(e.seat.host, ground.guide)
                for f in run.of_step(step.id)
                for e in f.effects
                if isinstance(e, Place)
            }
            if placed and not (placed | hosts) & looked and pair_of(node, "critical") is None:
                yield Plant(step.id, (f"step {step.id}",), (ground.main.with_pair(node, "critical: yes"),))
                break


def way_round_untold(ground: Ground) -> Iterator[Plant]:
    """A part goes in one way round only, and its step does not say so."""
    for thing, _, node in ground.thing_nodes("parts"):
        placings = [
            s for s in ground.of("seat", "attach") if any(r.id == thing.id for r in s.action.refs("what"))
        ]
        if len(placings) == 1 and pair_of(node, "way round") is None:
            edit = ground.main.with_pair(node, "way round: the knurled collar towards the thumb")
            yield Plant(thing.id, (thing.id,), (edit,))


def face_down(ground: Ground) -> Iterator[Plant]:
    """A stage says that the work lies the other way up than its steps need."""
    for node, _, index in ground.entries("stage"):
        lying = value_of(node, "lying")
        if not isinstance(lying, ScalarNode):
            continue
        up = next((w for w in ("top", "under") if w in lying.value.split()), "")
        name = value_of(node, "stage")
        used = [
            s for s in ground.spots
            if isinstance(name, ScalarNode) and s.step.stage.name == name.value and s.action.spots(up)
            and s.action.verb.kind in ("mark", "attach", "glue")
        ]  # fmt: skip
        if up and used:
            text = lying.value.replace(up, {"top": "under", "under": "top"}[up])
            yield Plant(f"stage {index}", (f"stage {index}",), (ground.main.replace(lying, text),))


def former_other(ground: Ground) -> Iterator[Plant]:
    """A tube is rolled round another former than it was worked out for."""
    rods = [t.id for t in ground.guide.things.values() if t.sort == "tool" and t.form == "rod"]
    for node, _, _ in ground.entries("use"):
        given, prefix = value_of(node, "with"), value_of(node, "as")
        for _, value in given.value if isinstance(given, MappingNode) else ():
            other = next((r for r in rods if r != value.value), None)
            if (
                isinstance(value, ScalarNode)
                and isinstance(prefix, ScalarNode)
                and value.value in rods
                and other
            ):
                rolled = [t for t in ground.guide.things.values() if "around" in t.refs]
                if any(t.refs["around"].id == value.value for t in rolled):
                    edit = ground.main.replace(value, other)
                    yield Plant(f"use {prefix.value}", (f"use {prefix.value}",), (edit,))


def jig_not_on(ground: Ground) -> Iterator[Plant]:
    """What holds the parts, or what a mark is taken from, was never put on."""
    needed = {x.tool for run in ground.runs for f in run.frames for x in f.needs if isinstance(x, InPlace)}
    for spot in ground.of("seat", "roll"):
        names = {r.id for r in spot.action.refs("what")}
        if names & needed and not spot.step.shared:
            edits = spot.sheet.without_item(spot.items, spot.number) or step_taken_out(ground, spot)
            yield Plant(spot.name, (*spot.things, *sorted(names)), edits)


def mask_not_on(ground: Ground) -> Iterator[Plant]:
    """What keeps paint off was never put on."""
    masked = any(isinstance(x, Masked) for run in ground.runs for f in run.frames for x in f.needs)
    for spot in ground.of("tape"):
        tools = [r.id for r in spot.action.refs("what") if ground.guide.things[r.id].sort == "tool"]
        if masked and tools and not spot.step.shared:
            edits = spot.sheet.without_item(spot.items, spot.number)
            yield Plant(spot.name, (*spot.things, *tools), edits)


def former_late(ground: Ground) -> Iterator[Plant]:
    """A former comes out only when the glue has set."""
    for spot in ground.of("remove"):
        if spot.action.word("before") != "set" or spot.number == 0:
            continue
        time = value_of(ground.step_node(spot.step), "time")
        if isinstance(time, ScalarNode) and spot.action.takes is None:
            longest = max(t.mm("set") or Fraction(0) for t in ground.guide.things.values())
            edits = (
                spot.sheet.replace(time, number_text(longest * 3, "min")),
                spot.sheet.with_pair(spot.node, f"takes: {number_text(longest * 2, 'min')}"),
            )
            yield Plant(spot.name, spot.things, edits)


def wrong_end(ground: Ground) -> Iterator[Plant]:
    """A part comes from the end that is closed by what sits there."""
    for spot in ground.of("seat"):
        node, end = spot.value("from"), spot.action.word("from")
        frame = next((f for _, _, f in ground.frames(spot)), None)
        other = opposite(end) if end else None
        if not isinstance(node, ScalarNode) or frame is None or other is None or spot.step.shared:
            continue
        seat = next((e.seat for e in frame.effects if isinstance(e, Place)), None)
        if seat is None or seat.stretch is None or not seat.home or spot.action.say is not None:
            continue
        named = spot.action.spot("to")
        if named is None or named.kind != "named" or seat.side not in ("inside", "outside"):
            continue
        low = seat.came_from in ("rear", "left", "foot", "bottom", "tip")
        between = [
            s for s in frame.before.children(seat.host)
            if s.side == seat.side and s.stretch is not None
            and ground.guide.things[thing_id(s.child, ground.guide)].form in AXIAL
            and (s.stretch[0] >= seat.stretch[1] if low else s.stretch[1] <= seat.stretch[0])
        ]  # fmt: skip
        if between:
            yield Plant(f"the way of {spot.name}", spot.things, (spot.sheet.replace(node, other),))


def tolerance_wide(ground: Ground) -> Iterator[Plant]:
    """A size may be off by so much that what fits on paper may not fit at the bench."""
    for spot in ground.of("seat"):
        for _, _, frame in ground.frames(spot):
            for need in frame.needs:
                if not isinstance(need, Fits) or need.kind != "glue" and not spot.action.word("fit"):
                    continue
                for item, field in ((need.outer, "inside"), (need.inner, "outside")):
                    thing = ground.guide.things.get(thing_id(item, ground.guide))
                    number = ground.written(thing, field) if thing is not None else None
                    if thing is None or number is None or "±" in number.node.value:
                        continue
                    room = min(need.high, Fraction(50)) - need.low
                    text = f"{number.node.value} ± {number_text(room + 1, 'mm')}"
                    yield Plant(
                        f"the {field} of {thing.id}", (thing.id,), (ground.main.replace(number.node, text),)
                    )


def accepted_idly(ground: Ground) -> Iterator[Plant]:
    """An acceptance of a finding that there is not."""
    step = next((s.id for s, _ in ground.own_steps()), None)
    if step is not None and isinstance(ground.main.node, MappingNode):
        own = "{check: working-time, at: " + step + ", why: Two of us do it.}"
        listed = value_of(ground.main.node, "accepted")
        if isinstance(listed, SequenceNode):
            edits = ground.main.with_item(listed, len(listed.value), own)
        else:
            edits = (ground.main.with_pair(ground.main.node, f"accepted: [{own}]"),)
        yield Plant("accepted", ("accepted",), edits)


def paint_for_the_young(ground: Ground) -> Iterator[Plant]:
    """The builders are younger than their paint allows."""
    ages = value_of(ground.main.node, "audience", "ages")
    sprayed = any(
        thing.form == "paint" and trade_paint(thing.words.get("paint", "")) is not None
        for thing, _, _ in ground.thing_nodes("materials")
    )
    if isinstance(ages, ScalarNode) and sprayed:
        yield Plant("the ages", ("audience",), (ground.main.replace(ages, "9-12"),))


def fold_gone(ground: Ground) -> Iterator[Plant]:
    """A part that is to be folded goes on flat."""
    for spot in ground.of("fold"):
        for ref in spot.action.refs("what"):
            thing = ground.guide.things.get(ref.id)
            if thing is not None and thing.mm("folded_length") is not None and not spot.step.shared:
                edits = spot.sheet.without_item(spot.items, spot.number)
                yield Plant(spot.name, (*spot.things, thing.id), edits)


def kit_list_short(ground: Ground) -> Iterator[Plant]:
    """The list of what the finished kit holds lacks a part that is on it."""
    holds, finished = value_of(ground.main.node, "finished", "holds"), ground.guide.finished
    if not isinstance(holds, ScalarNode) or holds.value != "all" or finished is None:
        return
    carrier = ground.guide.carrier(finished.what.id)
    found: list[str] = []
    for run in ground.runs:
        for item in connected(run.end, carrier):
            thing = ground.guide.things.get(thing_id(item, ground.guide))
            if thing is not None and thing.sort == "part" and thing.id != carrier and not thing.blank_of:
                found.append(thing.id)
    ids = sorted(set(found))
    if len(ids) > 1:
        edit = ground.main.replace(holds, f"[{', '.join(ids[:-1])}]")
        yield Plant(f"without {ids[-1]}", ("finished", ids[-1]), (edit,))


KINDS = (
    Kind("fold left out", ("never-folded",), fold_gone),
    Kind("list of the kit too short", ("kit-unlisted",), kit_list_short, "warning"),
    Kind("label without a time", ("label-times",), label_short),
    Kind("missed wait not told", ("missed-unsaid",), missed_unsaid, "warning"),
    Kind("step shorter than its actions", ("step-time",), step_short),
    Kind("work that rests on an optional step", ("rests-on-optional",), rests_on_optional),
    Kind("critical and never looked at", ("critical-unverified",), critical_unverified, "warning"),
    Kind("way round not told", ("way-round",), way_round_untold, "warning"),
    Kind("work on the face that lies down", ("face-down",), face_down, "warning"),
    Kind("another former", ("former-size",), former_other),
    Kind("jig or guide never put on", ("in-place",), jig_not_on),
    Kind("mask never put on", ("masked", "not-there"), mask_not_on),
    Kind("former out too late", ("before-set",), former_late),
    Kind("way from the closed end", ("way-blocked",), wrong_end),
    Kind("tolerance too wide for the fit", ("tolerance-chain",), tolerance_wide, "warning"),
    Kind("acceptance of nothing", ("acceptance",), accepted_idly, "warning"),
    Kind("paint that is not for the young", ("young-audience",), paint_for_the_young),
)
