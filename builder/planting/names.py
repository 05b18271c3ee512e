"""Names that are misspelt, doubled, missing, or of the wrong sort."""

from __future__ import annotations

from collections.abc import Iterator

from builder.dryrun.needs import Marked
from builder.guide.fields import Holds
from builder.planting.ground import Ground, Spot, misspelt
from builder.planting.kind import Kind, Plant
from builder.planting.sheet import Edit, MappingNode, Node, ScalarNode, SequenceNode, pair_of, value_of
from builder.trade.tools import tool_kind
from builder.trade.usual import usual

_THINGS = (Holds.THING, Holds.THINGS)


def _references(ground: Ground, sort: str) -> Iterator[tuple[Spot, str, ScalarNode, str]]:
    """(action, field as typed, scalar, id) of each plain reference to a thing of a sort."""
    for spot in ground.spots:
        if spot.step.shared:
            continue
        for field in spot.action.spec:
            name = spot.action.verb.word if field.name in ("*", spot.action.verb.word) else field.name
            node = spot.value(name)
            for each in node.value if isinstance(node, SequenceNode) else [node]:
                if not isinstance(each, ScalarNode) or field.holds not in _THINGS:
                    continue
                thing = ground.guide.things.get(each.value)
                if thing is not None and thing.sort == sort:
                    yield spot, name, each, thing.id


def _misspelt_reference(ground: Ground, sort: str) -> Iterator[Plant]:
    known = list(ground.guide.things)
    for spot, name, node, id in _references(ground, sort):
        edit = spot.sheet.replace(node, misspelt(id, known))
        yield Plant(f"{id} in {name} of {spot.name}", spot.things, (edit,))


def part_misspelt(ground: Ground) -> Iterator[Plant]:
    """An action names a part that there is not."""
    return _misspelt_reference(ground, "part")


def tool_misspelt(ground: Ground) -> Iterator[Plant]:
    """An action names a tool that there is not."""
    return _misspelt_reference(ground, "tool")


def material_misspelt(ground: Ground) -> Iterator[Plant]:
    """An action names a material that there is not."""
    return _misspelt_reference(ground, "material")


def wrong_sort(ground: Ground) -> Iterator[Plant]:
    """A tool stands where a part belongs."""
    tool = next((t.id for t in ground.guide.things.values() if t.sort == "tool"), None)
    for spot, name, node, id in _references(ground, "part"):
        field = next(f for f in spot.action.spec if f.name in (name, "*"))
        if tool is not None and field.sort == "part" and spot.action.say is None:
            yield Plant(f"{id} in {name} of {spot.name}", spot.things, (spot.sheet.replace(node, tool),))


def copy_beyond(ground: Ground) -> Iterator[Plant]:
    """A copy with a number that there is not."""
    for spot, name, node, id in _references(ground, "part"):
        thing = ground.guide.things[id]
        edit = spot.sheet.replace(node, f"{id} {thing.count + 5}")
        yield Plant(f"{id} in {name} of {spot.name}", spot.things, (edit,))


def zone_misspelt(ground: Ground) -> Iterator[Plant]:
    """A place names a zone that there is not."""
    zones = [z.name for t in ground.guide.things.values() for c in t.chains for z in c.zones]
    marks = [s.action.word("what") for s in ground.of("mark")]
    for spot in ground.spots:
        for field in ("to", "at", "inside", "outside", "top", "under"):
            node, place = spot.value(field), spot.action.spot(field)
            if (
                isinstance(node, ScalarNode)
                and place is not None
                and place.names[:1]
                and not spot.step.shared
            ):
                name = place.names[0]
                if name in zones and name not in marks and "." not in name:
                    text = node.value.replace(name, misspelt(name, zones + marks))
                    hosts = (spot.action.ref(each) for each in ("onto", "into", "over", "what"))
                    things = (*spot.things, *(ref.id for ref in hosts if ref is not None))
                    yield Plant(f"{name} in {spot.name}", things, (spot.sheet.replace(node, text),))


def mark_misspelt(ground: Ground) -> Iterator[Plant]:
    """A mark is used by another name than it was drawn with."""
    marks = [s.action.word("what") for s in ground.of("mark")]
    for spot in ground.spots:
        for field in ("to", "at", "top", "under", "along"):
            node = spot.value(field)
            if isinstance(node, ScalarNode) and node.value in marks and not spot.step.shared:
                used = any(isinstance(n, Marked) for _, _, f in ground.frames(spot) for n in f.needs)
                if used:
                    edit = spot.sheet.replace(node, misspelt(node.value, marks))
                    yield Plant(f"{node.value} in {spot.name}", (*spot.things, node.value), (edit,))


def verb_misspelt(ground: Ground) -> Iterator[Plant]:
    """A verb that there is not."""
    for spot in ground.spots:
        key = spot.node.value[0][0]
        if not spot.step.shared and key.value == spot.action.verb.word:
            edit = spot.sheet.replace(key, misspelt(key.value, ()))
            yield Plant(spot.name, spot.things, (edit,))


def field_misspelt(ground: Ground) -> Iterator[Plant]:
    """A field that the verb does not have."""
    for spot in ground.spots:
        if spot.step.shared:
            continue
        for key, _ in spot.node.value[1:]:
            field = next((f for f in spot.action.spec if f.name == key.value), None)
            if field is not None and not field.required and key.value in ("from", "with", "to"):
                edit = spot.sheet.replace(key, misspelt(key.value, ()))
                yield Plant(f"{key.value} of {spot.name}", spot.things, (edit,))


def word_unknown(ground: Ground) -> Iterator[Plant]:
    """A fit or a form of which there is none."""
    for spot in ground.spots:
        node = spot.value("fit")
        if isinstance(node, ScalarNode) and not spot.step.shared:
            edit = spot.sheet.replace(node, misspelt(node.value, ()))
            yield Plant(f"the fit of {spot.name}", spot.things, (edit,))


def stock_misspelt(ground: Ground) -> Iterator[Plant]:
    """A part is made of a material that there is not."""
    known = list(ground.guide.things)
    for thing, _, node in ground.thing_nodes("parts"):
        stock = value_of(node, "of")
        if isinstance(stock, ScalarNode):
            edit = ground.main.replace(stock, misspelt(stock.value, known, 1))
            yield Plant(f"what {thing.id} is made of", (thing.id,), (edit,))


def number_misspelt(ground: Ground) -> Iterator[Plant]:
    """A sum names a number that there is not."""
    known = [*ground.guide.dimensions, *ground.guide.things]
    for thing, _, node in ground.thing_nodes("parts"):
        for _, value in node.value:
            for name in ground.guide.dimensions:
                if isinstance(value, ScalarNode) and name in value.value.split():
                    text = " ".join(
                        misspelt(name, known) if word == name else word for word in value.value.split()
                    )
                    yield Plant(
                        f"{name} in a sum of {thing.id}", (thing.id,), (ground.main.replace(value, text),)
                    )


def field_of_sum_misspelt(ground: Ground) -> Iterator[Plant]:
    """A sum names a size that the thing does not have."""
    for thing, _, node in ground.thing_nodes("parts"):
        for _, value in node.value:
            text = value.value if isinstance(value, ScalarNode) else ""
            head, dot, tail = text.partition(".")
            if dot and head in ground.guide.things and tail.replace("_", "").isalpha():
                edit = ground.main.replace(value, f"{head}.{misspelt(tail, ())}")
                yield Plant(f"{text} of {thing.id}", (thing.id,), (edit,))


# -- structure -----------------------------------------------------------------------------------


def shared_misspelt(ground: Ground) -> Iterator[Plant]:
    """A shared step that there is not."""
    for node, _, _ in ground.entries("use"):
        value = value_of(node, "use")
        if isinstance(value, ScalarNode):
            edit = ground.main.replace(value, misspelt(value.value, ()))
            yield Plant(f"use: {value.value}", (f"use {_prefix(node)}",), (edit,))


def _prefix(node: Node) -> str:
    value = value_of(node, "as")
    return value.value if isinstance(value, ScalarNode) else ""


def parameter_misspelt(ground: Ground) -> Iterator[Plant]:
    """A parameter that the shared step does not take."""
    for node, _, _ in ground.entries("use"):
        given = value_of(node, "with")
        for key, _ in given.value if isinstance(given, MappingNode) else ():
            edit = ground.main.replace(key, misspelt(key.value, ()))
            yield Plant(f"{key.value} of use {_prefix(node)}", (f"use {_prefix(node)}",), (edit,))


def option_misspelt(ground: Ground) -> Iterator[Plant]:
    """An option that the choice does not have."""
    for node, _, index in ground.entries("choose"):
        for key, value in node.value[1:]:
            if value.value:
                edit = ground.main.replace(key, misspelt(key.value, ()))
                yield Plant(f"the option {key.value}", (f"choose {index}",), (edit,))


def choice_misspelt(ground: Ground) -> Iterator[Plant]:
    """A choice that there is not."""
    for node, _, index in ground.entries("choose"):
        value = value_of(node, "choose")
        if isinstance(value, ScalarNode):
            edit = ground.main.replace(value, misspelt(value.value, ()))
            yield Plant(f"choose: {value.value}", (f"choose {index}",), (edit,))


def finished_misspelt(ground: Ground) -> Iterator[Plant]:
    """The finished kit is a part that there is not."""
    value = value_of(ground.main.node, "finished", "is")
    if isinstance(value, ScalarNode):
        edit = ground.main.replace(value, misspelt(value.value, list(ground.guide.things), 1))
        yield Plant("finished", ("finished",), (edit,))


def base_misspelt(ground: Ground) -> Iterator[Plant]:
    """A stage is built on a part that there is not."""
    for node, _, index in ground.entries("stage"):
        value = value_of(node, "base")
        if isinstance(value, ScalarNode):
            edit = ground.main.replace(value, misspelt(value.value, list(ground.guide.things), 2))
            yield Plant(f"the base of stage {index}", (f"stage {index}",), (edit,))


def caution_misspelt(ground: Ground) -> Iterator[Plant]:
    """A step names a caution that there is not."""
    for step, node in ground.own_steps():
        listed = value_of(node, "cautions")
        for each in listed.value if isinstance(listed, SequenceNode) else ():
            if isinstance(each, ScalarNode):
                edit = ground.main.replace(each, misspelt(each.value, list(ground.guide.cautions)))
                yield Plant(f"a caution of {step.id}", (f"step {step.id}",), (edit,))


# -- twice and never -----------------------------------------------------------------------------


def thing_id_twice(ground: Ground) -> Iterator[Plant]:
    """A tool has the id of a part."""
    parts = [thing.id for thing, _, _ in ground.thing_nodes("parts")]
    tools = value_of(ground.main.node, "tools")
    if parts and isinstance(tools, MappingNode) and not tools.flow_style:
        edit = ground.main.with_pair(tools, f"{parts[0]}: {{name: pencil case, hazards: []}}")
        yield Plant(f"the id {parts[0]}", ("tools",), (edit,))


def step_id_twice(ground: Ground) -> Iterator[Plant]:
    """Two steps have one id."""
    before = None
    for step, node in ground.own_steps():
        value = value_of(node, "id")
        if before is not None and isinstance(value, ScalarNode):
            things = (f"step {step.id}", f"step {before}")
            yield Plant(f"the id of {step.id}", things, (ground.main.replace(value, before),))
        before = step.id


def prefix_twice(ground: Ground) -> Iterator[Plant]:
    """A shared step is used twice with one prefix."""
    seen: dict[str, str] = {}
    for node, _, _ in ground.entries("use"):
        name, value = value_of(node, "use"), value_of(node, "as")
        if isinstance(name, ScalarNode) and isinstance(value, ScalarNode):
            if name.value in seen:
                edit = ground.main.replace(value, seen[name.value])
                things = (f"use {value.value}", f"use {seen[name.value]}")
                yield Plant(f"the prefix {value.value}", things, (edit,))
            seen.setdefault(name.value, value.value)


def part_unused(ground: Ground) -> Iterator[Plant]:
    """A part is listed and never used."""
    line = "spare_washer: {form: ring, source: bought, outside: 12 mm, inside: 3 mm, length: 1 mm}"
    return _listed(ground, "parts", line)


def tool_unused(ground: Ground) -> Iterator[Plant]:
    """A tool is listed and never used."""
    return _listed(ground, "tools", "spare_clamp: {name: clamp}")


def material_unused(ground: Ground) -> Iterator[Plant]:
    """A material is listed and never used."""
    return _listed(ground, "materials", "ribbon: {name: ribbon, form: cord, length: 600 mm}")


def _listed(ground: Ground, section: str, line: str) -> Iterator[Plant]:
    pairs = value_of(ground.main.node, section)
    if isinstance(pairs, MappingNode) and not pairs.flow_style:
        yield Plant(section, (section,), (ground.main.with_pair(pairs, line),))


def tool_off_list(ground: Ground) -> Iterator[Plant]:
    """A tool that actions name is not listed."""
    named = [id for _, _, _, id in _references(ground, "tool")]
    tools = value_of(ground.main.node, "tools")
    for thing, key, _ in ground.thing_nodes("tools"):
        used = ground.main.text.count(thing.id)
        if thing.id in named and isinstance(tools, MappingNode) and thing.form != "gear" and used:
            edits = ground.main.without_pair(tools, key.value)
            yield Plant(thing.id, (thing.id, *_users(ground, thing.id)), edits)


def _users(ground: Ground, id: str) -> tuple[str, ...]:
    return tuple(dict.fromkeys(f"step {s.step.id}" for s, _, _, i in _references(ground, "tool") if i == id))


def usual_off_list(ground: Ground) -> Iterator[Plant]:
    """A tool that a verb takes without being named is not listed."""
    tools = value_of(ground.main.node, "tools")
    named = {id for _, _, _, id in _references(ground, "tool")}
    listed = [(thing.id, tool_kind(thing.name)) for thing, _, _ in ground.thing_nodes("tools")]
    for thing, key, _ in ground.thing_nodes("tools"):
        kind = tool_kind(thing.name)
        if kind is None or thing.id in named or not isinstance(tools, MappingNode):
            continue
        for verb in dict.fromkeys(spot.action.verb.root for spot in ground.spots):
            row = usual(verb)
            groups = [g for g in (row.tools if row is not None else ()) if kind.key in g]
            others = [k.key for id, k in listed if k is not None and id != thing.id]
            if groups and not any(key in groups[0] for key in others):
                edits: tuple[Edit, ...] = ground.main.without_pair(tools, key.value)
                takers = (x for spot in ground.spots if spot.action.verb.root == verb for x in spot.things)
                yield Plant(f"{thing.id}, that {verb} takes", (thing.id, *dict.fromkeys(takers)), edits)
                break


def finished_left_out(ground: Ground) -> Iterator[Plant]:
    """The guide does not say what the finished kit is."""
    pair = pair_of(ground.main.node, "finished")
    if pair is not None and isinstance(ground.main.node, MappingNode):
        yield Plant("finished", ("finished",), ground.main.without_pair(ground.main.node, "finished"))


KINDS = (
    Kind("part misspelt", ("unknown-name",), part_misspelt),
    Kind("tool misspelt", ("unknown-name",), tool_misspelt),
    Kind("material misspelt", ("unknown-name",), material_misspelt),
    Kind("tool in place of a part", ("wrong-sort",), wrong_sort),
    Kind("copy beyond the count", ("unknown-name",), copy_beyond),
    Kind("zone misspelt", ("unknown-place",), zone_misspelt),
    Kind("mark misspelt", ("unknown-place",), mark_misspelt),
    Kind("verb misspelt", ("unknown-verb",), verb_misspelt),
    Kind("field misspelt", ("unknown-key",), field_misspelt),
    Kind("fit misspelt", ("word",), word_unknown),
    Kind("stock misspelt", ("unknown-name",), stock_misspelt),
    Kind("number misspelt in a sum", ("unknown-name",), number_misspelt),
    Kind("size misspelt in a sum", ("unknown-name",), field_of_sum_misspelt),
    Kind("shared step misspelt", ("unknown-name",), shared_misspelt),
    Kind("parameter misspelt", ("unknown-name",), parameter_misspelt),
    Kind("option misspelt", ("unknown-name",), option_misspelt),
    Kind("choice misspelt", ("unknown-name",), choice_misspelt),
    Kind("finished part misspelt", ("unknown-name",), finished_misspelt),
    Kind("base of a stage misspelt", ("unknown-name",), base_misspelt),
    Kind("caution misspelt", ("unknown-name",), caution_misspelt),
    Kind("one id for two things", ("duplicate-id",), thing_id_twice),
    Kind("one id for two steps", ("duplicate-id",), step_id_twice),
    Kind("one prefix for two uses", ("duplicate-id",), prefix_twice),
    Kind("part listed and never used", ("never-used",), part_unused),
    Kind("tool listed and never used", ("never-used",), tool_unused),
    Kind("material listed and never used", ("never-used",), material_unused),
    Kind("tool not listed", ("unknown-name",), tool_off_list),
    Kind("usual tool not listed", ("tool-unlisted",), usual_off_list),
    Kind("finished kit not named", ("finished-unsaid",), finished_left_out, "warning"),
)
