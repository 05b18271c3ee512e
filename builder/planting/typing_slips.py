"""Slips of the text itself: keys, brackets, dashes, tabs, comments, and what YAML would let pass."""

from __future__ import annotations

from collections.abc import Iterator

from builder.planting.ground import Ground, Spot
from builder.planting.kind import Kind, Plant
from builder.planting.sheet import Edit, MappingNode, ScalarNode, SequenceNode, pair_of, value_of


def _things_in_braces(ground: Ground) -> Iterator[tuple[str, MappingNode]]:
    for thing, _, node in ground.thing_nodes("tools", "parts"):
        if node.flow_style and len(node.value) > 1:
            yield thing.id, node


def _actions_in_braces(ground: Ground) -> Iterator[Spot]:
    return (s for s in ground.spots if s.node.flow_style and not s.step.shared and len(s.node.value) > 1)


def key_twice(ground: Ground) -> Iterator[Plant]:
    """A key stands twice in one mapping."""
    for id, node in _things_in_braces(ground):
        key, value = node.value[0]
        text = f"{key.value}: {ground.main.source(value)}"
        yield Plant(f"{key.value} of {id}", (id,), (ground.main.with_pair(node, text),))


def key_unknown(ground: Ground) -> Iterator[Plant]:
    """A key that there is not."""
    for id, node in _things_in_braces(ground):
        yield Plant(id, (id,), (ground.main.with_pair(node, "favourite colour: blue"),))


def value_left_out(ground: Ground) -> Iterator[Plant]:
    """A key without a value, as a comma in braces makes one."""
    for id, node in _things_in_braces(ground):
        free = next((name for name in ("name", "hazards", "count") if pair_of(node, name) is None), None)
        if free is not None:
            yield Plant(id, (id,), (ground.main.with_pair(node, free),))


def alias(ground: Ground) -> Iterator[Plant]:
    """A value is written once and pointed at from elsewhere."""
    shares = [
        (thing.id, value)
        for thing, _, node in ground.thing_nodes("tools")
        if isinstance(value := value_of(node, "one per"), ScalarNode)
    ]
    for (one, first), (two, second) in zip(shares, shares[1:], strict=False):
        edits = (
            ground.main.insert(first.start_mark.index, "&share "),
            ground.main.replace(second, "*share"),
        )
        yield Plant(f"one per of {two}", (one, two), edits)


def merge_key(ground: Ground) -> Iterator[Plant]:
    """A thing takes over the fields of another by YAML's own means."""
    nodes = list(_things_in_braces(ground))
    for (one, first), (two, second) in zip(nodes, nodes[1:], strict=False):
        edits = (
            ground.main.insert(first.start_mark.index, "&whole "),
            ground.main.with_pair(second, "<<: *whole"),
        )
        yield Plant(two, (one, two), edits)


def tag(ground: Ground) -> Iterator[Plant]:
    """A value with a YAML tag."""
    for id, node in _things_in_braces(ground):
        value = node.value[0][1]
        yield Plant(id, (id,), (ground.main.insert(value.start_mark.index, "!!str "),))


def brace_open(ground: Ground) -> Iterator[Plant]:
    """A brace is not closed."""
    for spot in _actions_in_braces(ground):
        end = spot.sheet.span(spot.node)[1]
        yield Plant(spot.name, spot.things, (Edit(spot.sheet.file, end - 1, end, ""),))


def bracket_open(ground: Ground) -> Iterator[Plant]:
    """A bracket is not closed."""
    for spot in _actions_in_braces(ground):
        for _, value in spot.node.value:
            if isinstance(value, SequenceNode) and value.flow_style:
                end = spot.sheet.span(value)[1]
                yield Plant(spot.name, spot.things, (Edit(spot.sheet.file, end - 1, end, ""),))
                break


def quote_open(ground: Ground) -> Iterator[Plant]:
    """A quoted text is not closed."""
    for spot in ground.spots:
        for _, value in spot.node.value:
            if isinstance(value, ScalarNode) and value.style == '"' and not spot.step.shared:
                end = spot.sheet.span(value)[1]
                yield Plant(spot.name, spot.things, (Edit(spot.sheet.file, end - 1, end, ""),))


def tab(ground: Ground) -> Iterator[Plant]:
    """A line begins with a tab."""
    for step, node in ground.own_steps():
        key = pair_of(node, "time") or pair_of(node, "actions")
        if key is not None:
            start = ground.main.text.rfind("\n", 0, key[0].start_mark.index) + 1
            edit = Edit(ground.main.file, start, key[0].start_mark.index, "\t")
            yield Plant(f"a line of {step.id}", (f"step {step.id}",), (edit,))


def indented_wrong(ground: Ground) -> Iterator[Plant]:
    """A line is indented by one sign too many."""
    for step, node in ground.own_steps():
        key = pair_of(node, "time") or pair_of(node, "actions")
        if key is not None:
            edit = ground.main.insert(key[0].start_mark.index, " ")
            yield Plant(f"a line of {step.id}", (f"step {step.id}",), (edit,))


def colon_lost(ground: Ground) -> Iterator[Plant]:
    """The colon after a key is left out."""
    for step, node in ground.own_steps():
        pair = pair_of(node, "title")
        if pair is not None:
            at = ground.main.text.index(":", pair[0].end_mark.index)
            yield Plant(
                f"the title of {step.id}", (f"step {step.id}",), (Edit(ground.main.file, at, at + 1, ""),)
            )


def dash_lost(ground: Ground) -> Iterator[Plant]:
    """The dash before an action is left out, so that two verbs stand in one."""
    for spot in ground.spots:
        before = spot.items.value[spot.number - 1] if spot.number else None
        if before is None or spot.node.flow_style or before.flow_style or spot.step.shared:
            continue
        start = spot.node.start_mark.index
        at = spot.sheet.text.rfind("-", 0, start)
        yield Plant(spot.name, spot.things, (Edit(spot.sheet.file, at, at + 1, " "),))


def two_in_one(ground: Ground) -> Iterator[Plant]:
    """A second verb is written into the same braces."""
    for spot in _actions_in_braces(ground):
        after = spot.items.value[spot.number + 1] if spot.number + 1 < len(spot.items.value) else None
        if not isinstance(after, MappingNode) or not after.flow_style or len(after.value) < 2:
            continue
        one, two = (spot.sheet.span(n) for n in (spot.node, after))
        names = {key.value for key, _ in spot.node.value} & {key.value for key, _ in after.value}
        if not names and "note" not in {key.value for key, _ in after.value}:
            edit = Edit(spot.sheet.file, one[1] - 1, two[0] + 1, ", ")
            yield Plant(spot.name, spot.things, (edit,))


def number_sign(ground: Ground) -> Iterator[Plant]:
    """A copy is numbered with a sign that begins a comment."""
    for spot in ground.spots:
        for _, value in spot.node.value:
            for each in value.value if isinstance(value, SequenceNode) else [value]:
                thing = ground.guide.things.get(each.value) if isinstance(each, ScalarNode) else None
                one = thing is not None and thing.sort == "part" and thing.count == 1 and not thing.blank_of
                if one and not spot.step.shared:
                    end = spot.sheet.span(each)[1]
                    yield Plant(spot.name, spot.things, (spot.sheet.insert(end, " #1"),))


def double_braces(ground: Ground) -> Iterator[Plant]:
    """A field refers to a name in doubled braces."""
    for spot in ground.spots:
        node = spot.value("into") or spot.value("over") or spot.value("onto")
        if isinstance(node, ScalarNode) and not spot.step.shared:
            edit = spot.sheet.replace(node, "{{ " + node.value + " }}")
            yield Plant(spot.name, spot.things, (edit,))


def title_left_out(ground: Ground) -> Iterator[Plant]:
    """A step without a title."""
    return _without(ground, "title")


def actions_left_out(ground: Ground) -> Iterator[Plant]:
    """A step without actions, though notes of it stand there."""
    for step, node in ground.own_steps():
        pair = pair_of(node, "actions")
        only = [v.value[0][0].value for v in pair[1].value] if pair is not None else []
        if only and all(word in ("do", "note") for word in only):
            yield Plant(
                f"the actions of {step.id}", (f"step {step.id}",), ground.main.without_pair(node, "actions")
            )


def _without(ground: Ground, name: str) -> Iterator[Plant]:
    for step, node in ground.own_steps():
        edits = ground.main.without_pair(node, name)
        if edits:
            yield Plant(f"the {name} of {step.id}", (f"step {step.id}",), edits)


def units_left_out(ground: Ground) -> Iterator[Plant]:
    """A guide without its smallest step of the ruler."""
    units = value_of(ground.main.node, "units")
    if isinstance(units, MappingNode):
        yield Plant("the units", ("units",), ground.main.without_pair(units, "finest"))


def form_left_out(ground: Ground) -> Iterator[Plant]:
    """A material without its form."""
    for thing, _, node in ground.thing_nodes("materials"):
        keys = [key.value for key, _ in node.value]
        if keys and keys[0] != "form" and thing.form in ("adhesive", "paint"):
            yield Plant(f"the form of {thing.id}", (thing.id,), ground.main.without_pair(node, "form"))


def bad_id(ground: Ground) -> Iterator[Plant]:
    """An id with a capital letter and a dash."""
    for step, node in ground.own_steps():
        value = value_of(node, "id")
        if isinstance(value, ScalarNode):
            edit = ground.main.replace(value, f"Step-{value.value}")
            yield Plant(f"the id of {step.id}", (f"step {step.id}",), (edit,))


def actions_not_listed(ground: Ground) -> Iterator[Plant]:
    """Actions that are a text."""
    for step, node in ground.own_steps():
        pair = pair_of(node, "actions")
        only = [v.value[0][0].value for v in pair[1].value] if pair is not None else []
        if pair is not None and only and all(word in ("do", "note") for word in only):
            start, end = ground.main.span(pair[1])
            start = ground.main.text.rfind("\n", 0, start)
            edit = Edit(ground.main.file, start, end, " Do it")
            yield Plant(f"the actions of {step.id}", (f"step {step.id}",), (edit,))


def unseen_sign(ground: Ground) -> Iterator[Plant]:
    """An invisible sign was pasted into the text."""
    title = value_of(ground.main.node, "title")
    if isinstance(title, ScalarNode):
        yield Plant("the title", ("title",), (ground.main.insert(title.end_mark.index, "\x07"),))


def step_dash_lost(ground: Ground) -> Iterator[Plant]:
    """The dash before a step is left out, so that the stage before it runs on."""
    steps = value_of(ground.main.node, "steps")
    entries = steps.value if isinstance(steps, SequenceNode) and not steps.flow_style else []
    for one, two in zip(entries, entries[1:], strict=False):
        id = value_of(two, "id")
        if pair_of(one, "stage") is None or not isinstance(id, ScalarNode) or one.flow_style:
            continue
        at = ground.main.text.rfind("-", 0, two.start_mark.index)
        yield Plant(f"before {id.value}", (f"step {id.value}",), (Edit(ground.main.file, at, at + 1, " "),))


def verb_behind(ground: Ground) -> Iterator[Plant]:
    """An action begins with another field than its verb."""
    for spot in _actions_in_braces(ground):
        (key, value), (other, behind) = spot.node.value[:2]
        a, b = key.start_mark.index, spot.sheet.span(value)[1]
        c, d = other.start_mark.index, spot.sheet.span(behind)[1]
        text = spot.sheet.text
        edits = (Edit(spot.sheet.file, a, b, text[c:d]), Edit(spot.sheet.file, c, d, text[a:b]))
        if other.value not in ("say", "note"):
            yield Plant(spot.name, spot.things, edits)


def like_in_circle(ground: Ground) -> Iterator[Plant]:
    """Two parts are said to be like each other."""
    nodes = [(id, node) for id, node in _things_in_braces(ground) if pair_of(node, "like") is None]
    parts = [(id, node) for id, node in nodes if ground.guide.things[id].sort == "part"]
    for (one, first), (two, second) in zip(parts, parts[1:], strict=False):
        if ground.guide.things[one].form == ground.guide.things[two].form:
            edits = (
                ground.main.with_pair(first, f"like: {two}"),
                ground.main.with_pair(second, f"like: {one}"),
            )
            yield Plant(two, (one, two), edits)


def place_untold(ground: Ground) -> Iterator[Plant]:
    """A place in more words than the tool knows."""
    for spot in ground.spots:
        for field in ("at", "to", "inside", "outside", "top"):
            node, place = spot.value(field), spot.action.spot(field)
            if isinstance(node, ScalarNode) and place is not None and place.kind == "from":
                edit = spot.sheet.replace(node, f"{node.value} edge and a little more")
                if not spot.step.shared:
                    yield Plant(f"the place of {spot.name}", spot.things, (edit,))


KINDS = (
    Kind("key twice", ("duplicate-key",), key_twice),
    Kind("unknown key", ("unknown-key",), key_unknown),
    Kind("key without a value", ("missing-value",), value_left_out),
    Kind("alias", ("alias",), alias),
    Kind("merge key", ("alias",), merge_key),
    Kind("tag", ("tag",), tag),
    Kind("brace not closed", ("yaml",), brace_open),
    Kind("bracket not closed", ("yaml",), bracket_open),
    Kind("quote not closed", ("yaml",), quote_open),
    Kind("tab", ("yaml",), tab),
    Kind("line indented wrong", ("yaml",), indented_wrong),
    Kind("colon left out", ("yaml",), colon_lost),
    Kind("dash left out", ("two-verbs",), dash_lost),
    Kind("two verbs in one action", ("two-verbs",), two_in_one),
    Kind("copy numbered by a comment", ("comment",), number_sign),
    Kind("doubled braces", ("braces",), double_braces),
    Kind("step without a title", ("missing-field",), title_left_out),
    Kind("step without actions", ("missing-field",), actions_left_out),
    Kind("units without the finest", ("missing-field",), units_left_out),
    Kind("material without a form", ("missing-field",), form_left_out),
    Kind("id that is none", ("bad-id",), bad_id),
    Kind("actions that are no list", ("shape",), actions_not_listed),
    Kind("dash before a step left out", ("missing-dash",), step_dash_lost),
    Kind("verb behind another field", ("verb-first",), verb_behind),
    Kind("parts like each other", ("like-cycle",), like_in_circle),
    Kind("place in too many words", ("place",), place_untold),
    Kind("invisible sign", ("control-character",), unseen_sign),
)
