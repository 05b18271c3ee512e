"""Sentences that a beginner stumbles over: vague, long, conditional, with second names or hidden waits."""

from __future__ import annotations

from collections.abc import Iterator

from builder.planting.ground import Ground, Spot, quoted
from builder.planting.kind import Kind, Plant
from builder.planting.sheet import MappingNode, ScalarNode, SequenceNode, pair_of, value_of
from builder.trade.terms import TERMS


def _noted(ground: Ground, text: str) -> Iterator[Plant]:
    """The text as one more note of a step, last among its actions."""
    for step, node in ground.own_steps():
        actions = value_of(node, "actions")
        if isinstance(actions, SequenceNode) and not actions.flow_style and not step.stage.per_class:
            edits = ground.main.with_item(actions, len(actions.value), f"note: {quoted(text)}")
            yield Plant(f"a note of {step.id}", (f"step {step.id}",), edits)


def _free_texts(ground: Ground) -> Iterator[tuple[Spot, ScalarNode]]:
    for spot in ground.of("do"):
        node = spot.value("do")
        if isinstance(node, ScalarNode) and not spot.step.shared:
            yield spot, node


def _with_tail(ground: Ground, tail: str) -> Iterator[Plant]:
    """A free text with more behind it; short ones, since too long a sentence is another fault."""
    for spot, node in _free_texts(ground):
        if len(node.value.split()) + len(tail.split()) <= 20:
            edit = spot.sheet.replace(node, quoted(node.value.rstrip(".") + tail))
            yield Plant(spot.name, spot.things, (edit,))


def wait_in_words(ground: Ground) -> Iterator[Plant]:
    """A wait is told at the end of a sentence."""
    return _with_tail(ground, ", and let it dry")


def condition_late(ground: Ground) -> Iterator[Plant]:
    """A condition comes after what is to be done."""
    return _with_tail(ground, ", unless it is wet")


def vague(ground: Ground) -> Iterator[Plant]:
    """An amount that says nothing."""
    return _with_tail(ground, ", with a bit of glue")


def repeat_in_words(ground: Ground) -> Iterator[Plant]:
    """A repeat is told in words."""
    return _with_tail(ground, ", and repeat this for the other side")


def several_at_once(ground: Ground) -> Iterator[Plant]:
    """A sentence of the writer's own tells a second action."""
    for spot in ground.spots:
        node = spot.value("say")
        if isinstance(node, ScalarNode) and not spot.step.shared and len(node.value.split()) <= 14:
            edit = spot.sheet.replace(node, quoted(node.value.rstrip(".") + ", and paint it."))
            yield Plant(f"the say of {spot.name}", spot.things, (edit,))


def too_long(ground: Ground) -> Iterator[Plant]:
    """A sentence of thirty words."""
    return _noted(
        ground,
        "Work that was done by many pairs of hands on a flat table by a window, with all the tools in a row"
        " and the glue at the far end of it, looks neat for years.",
    )


def typed_reference(ground: Ground) -> Iterator[Plant]:
    """A text points to another by where it stands on the page."""
    return _noted(ground, "The picture on the next page shows how it looks.")


def claims_safe(ground: Ground) -> Iterator[Plant]:
    """A text claims that something is without risk."""
    return _noted(ground, "The glue is perfectly safe.")


def second_name(ground: Ground) -> Iterator[Plant]:
    """A thing is called by another name than the list of parts gives it."""
    for thing in ground.guide.things.values():
        for term in TERMS:
            ends = thing.name.lower() == term.word or thing.name.lower().endswith(f" {term.word}")
            if ends and term.never:
                yield from _noted(ground, f"The {term.never[0]} stays dry.")


def one_name(ground: Ground) -> Iterator[Plant]:
    """Two tools have the same name."""
    named = [
        (thing, value)
        for thing, _, node in ground.thing_nodes("tools")
        if isinstance(value := value_of(node, "name"), ScalarNode) and thing.form != "gear"
    ]
    for (one, first), (two, second) in zip(named, named[1:], strict=False):
        if one.form == two.form == "tool" and one.hazards == two.hazards is None:
            edit = ground.main.replace(second, first.value)
            yield Plant(f"the name of {two.id}", (one.id, two.id), (edit,))


def route_words(ground: Ground) -> Iterator[Plant]:
    """A step of all routes speaks of a tool that only one of them has."""
    if len(ground.runs) < 2:
        return
    used = [
        {r.id for f in run.frames for field in f.action.fields for r in f.action.refs(field)}
        for run in ground.runs
    ]
    for thing in ground.guide.things.values():
        somewhere = any(thing.id in u for u in used) and not all(thing.id in u for u in used)
        if thing.sort == "tool" and somewhere:
            text = f"The {thing.name} leaves its marks here."
            for plant in _noted(ground, text):
                step = plant.things[0].removeprefix("step ")
                if all(any(s.id == step for s in run.route.steps) for run in ground.runs):
                    yield plant._replace(things=(*plant.things, thing.id))


def caution_instructs(ground: Ground) -> Iterator[Plant]:
    """A caution holds a step of the work."""
    part = next((thing.name for thing, _, _ in ground.thing_nodes("parts")), "part")
    whole = (
        "level: caution, hazard: The edge is sharp., consequence: It can cut you., "
        f"avoidance: Glue the {part} down before you go on."
    )
    for step, node in ground.own_steps():
        if pair_of(node, "cautions") is None:
            edit = ground.main.with_pair(node, f"cautions: [{{{whole}}}]")
            yield Plant(f"a caution of {step.id}", (f"step {step.id}",), (edit,))


def prepared_in_name(ground: Ground) -> Iterator[Plant]:
    """Preparation hides in the name of a material."""
    for thing, _, node in ground.thing_nodes("materials"):
        name = value_of(node, "name")
        if (
            isinstance(name, ScalarNode)
            and "sold" not in thing.where
            and thing.form not in ("adhesive", "paint")
        ):
            edit = ground.main.replace(name, f"sanded {name.value}")
            yield Plant(f"the name of {thing.id}", (thing.id,), (edit,))


def size_in_name(ground: Ground) -> Iterator[Plant]:
    """The size in a name is not the size."""
    for thing, _, node in ground.thing_nodes("tools", "materials"):
        name, number = value_of(node, "name"), ground.written(thing, "diameter")
        if isinstance(name, ScalarNode) and number is not None and thing.form == "rod":
            sized = any(c.isdigit() for c in name.value)
            called = name.value.rpartition(" ")[2] if sized else name.value
            edit = ground.main.replace(name, f"{called} of 77 mm")
            yield Plant(f"the name of {thing.id}", (thing.id,), (edit,))


def picture_of_no_kind(ground: Ground) -> Iterator[Plant]:
    """A picture that no page can show."""
    for step, node in ground.own_steps():
        if pair_of(node, "picture") is None:
            edit = ground.main.with_pair(node, "picture: grip.psd")
            more = ground.main.with_pair(node, "alt: Two fingers hold it at its rim.")
            yield Plant(f"the picture of {step.id}", (f"step {step.id}",), (edit, more))


def picture_untold(ground: Ground) -> Iterator[Plant]:
    """A picture without words for who cannot see it."""
    for step, node in ground.own_steps():
        if pair_of(node, "picture") is not None and isinstance(node, MappingNode):
            yield Plant(
                f"the picture of {step.id}", (f"step {step.id}",), ground.main.without_pair(node, "alt")
            )


KINDS = (
    Kind("wait told in words", ("wait-in-words",), wait_in_words, "warning"),
    Kind("condition after the action", ("say-condition",), condition_late, "warning"),
    Kind("vague amount", ("say-vague",), vague, "warning"),
    Kind("repeat told in words", ("repeat-in-words",), repeat_in_words),
    Kind("two actions in one say", ("say-several",), several_at_once, "warning"),
    Kind("sentence too long", ("say-long",), too_long, "warning"),
    Kind("reference typed", ("typed-reference",), typed_reference),
    Kind("claim that all is well", ("claims-safe",), claims_safe),
    Kind("second name for a thing", ("two-names",), second_name, "warning"),
    Kind("one name for two things", ("one-name",), one_name),
    Kind("words of another route", ("route-words",), route_words),
    Kind("caution that instructs", ("caution-instruction",), caution_instructs, "warning"),
    Kind("preparation in a name", ("prep-in-name",), prepared_in_name, "warning"),
    Kind("wrong size in a name", ("name-size",), size_in_name, "warning"),
    Kind("picture that no page shows", ("picture-file",), picture_of_no_kind),
    Kind("picture without words", ("picture-alt",), picture_untold),
)
