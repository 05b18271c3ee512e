"""What keeps people from being hurt: hazards, cautions, gear, preparation."""

from __future__ import annotations

from collections.abc import Iterator

from builder.guide.cautions import hazard_keys
from builder.planting.ground import Ground
from builder.planting.kind import Kind, Plant
from builder.planting.sheet import MappingNode, ScalarNode, value_of


def tool_nobody_knows(ground: Ground) -> Iterator[Plant]:
    """A tool of a kind that the trade does not know, without its hazards."""
    for thing, _, node in ground.thing_nodes("tools"):
        name = value_of(node, "name")
        plain = thing.form not in ("gear", "rod", "ring", "strip", "tube", "disc", "slab")
        named = any(thing.id == r.id for s in ground.spots for r in s.action.refs("with"))
        if isinstance(name, ScalarNode) and plain and named and thing.hazards is None:
            edit = ground.main.replace(name, "whirligig")
            yield Plant(f"the name of {thing.id}", (thing.id, *_users(ground, thing.id)), (edit,))


def _users(ground: Ground, id: str) -> tuple[str, ...]:
    return tuple(dict.fromkeys(
        f"step {s.step.id}" for s in ground.spots if any(r.id == id for r in s.action.refs("with"))
    ))  # fmt: skip


def hazard_misspelt(ground: Ground) -> Iterator[Plant]:
    """A hazard of which there is none."""
    for thing, _, node in ground.thing_nodes("tools", "parts"):
        hazards = value_of(node, "hazards")
        first = hazards.value[0] if hazards is not None and hazards.value else None
        if isinstance(first, ScalarNode):
            edit = ground.main.replace(first, first.value + "q")
            yield Plant(f"the hazards of {thing.id}", (thing.id,), (edit,))


def caution_dropped(ground: Ground) -> Iterator[Plant]:
    """A caution is left out of a step without a reason."""
    for step, node in ground.own_steps():
        keys = sorted(hazard_keys(step, ground.guide))
        if keys and value_of(node, "without caution") is None:
            edit = ground.main.with_pair(node, f"without caution: {keys[0]}")
            yield Plant(f"a caution of {step.id}", (f"step {step.id}",), (edit,))


def caution_dropped_idly(ground: Ground) -> Iterator[Plant]:
    """A caution is left out that the step does not have."""
    for step, node in ground.own_steps():
        named = value_of(node, "without caution") is not None
        if not named and "flame" not in hazard_keys(step, ground.guide):
            line = "without caution: {caution: flame, why: nothing burns here}"
            yield Plant(f"a caution of {step.id}", (f"step {step.id}",), (ground.main.with_pair(node, line),))


def with_caution(ground: Ground, text: str) -> Iterator[Plant]:
    for step, node in ground.own_steps():
        if value_of(node, "cautions") is None:
            edit = ground.main.with_pair(node, f"cautions: [{{{text}}}]")
            yield Plant(f"a caution of {step.id}", (f"step {step.id}",), (edit,))


def caution_part_lost(ground: Ground) -> Iterator[Plant]:
    """A caution does not say what the hazard does."""
    return with_caution(ground, "level: warning, hazard: The edge is sharp., avoidance: Keep away from it.")


def caution_level_unknown(ground: Ground) -> Iterator[Plant]:
    """A caution with a signal word that there is not."""
    return with_caution(
        ground,
        "level: beware, hazard: The edge is sharp., consequence: It can cut you., avoidance: Keep away.",
    )


def gear_off_list(ground: Ground) -> Iterator[Plant]:
    """Protective gear that a hazard asks for is not on the tool list."""
    tools = value_of(ground.main.node, "tools")
    for thing, key, _ in ground.thing_nodes("tools"):
        asked = {g for s in ground.guide.every_step() for g in hazard_keys(s, ground.guide)}
        if thing.form == "gear" and isinstance(tools, MappingNode) and asked & {"eye", "spray", "machine"}:
            yield Plant(thing.id, (thing.id,), ground.main.without_pair(tools, key.value))


def preparation_lost(ground: Ground) -> Iterator[Plant]:
    """What the teacher makes is made in a stage that is no preparation."""
    made = [t for t, _, _ in ground.thing_nodes("tools", "parts") if t.words.get("made_by")]
    for node, _, index in ground.entries("stage"):
        if value_of(node, "per") is not None and made and isinstance(node, MappingNode):
            yield Plant(f"stage {index}", (f"stage {index}",), ground.main.without_pair(node, "per"))


def prepared_by_nobody(ground: Ground) -> Iterator[Plant]:
    """A part that the class makes is said to be made by the teacher."""
    cut = {r.id for s in ground.of("cut") if not s.step.stage.per_class for r in s.action.refs("what")}
    for thing, _, node in ground.thing_nodes("parts"):
        if thing.id in cut and not thing.words.get("made_by"):
            edit = ground.main.with_pair(node, "made by: teacher")
            yield Plant(thing.id, (thing.id,), (edit,))


KINDS = (
    Kind("tool that nobody knows", ("hazard-unknown",), tool_nobody_knows),
    Kind("hazard misspelt", ("hazard-unknown",), hazard_misspelt),
    Kind("caution dropped without a reason", ("caution-dropped",), caution_dropped),
    Kind("caution dropped that is none", ("caution-dropped",), caution_dropped_idly),
    Kind("caution without its consequence", ("caution-part",), caution_part_lost),
    Kind("caution with an unknown level", ("word",), caution_level_unknown),
    Kind("gear not on the list", ("gear-missing",), gear_off_list),
    Kind("preparation that is none", ("preparation",), preparation_lost),
    Kind("made by a teacher who does not", ("preparation",), prepared_by_nobody),
)
