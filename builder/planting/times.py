"""Times that a writer gets wrong: of steps, of holding, of labels."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from builder.planting.ground import Ground, number_text
from builder.planting.kind import Kind, Plant
from builder.planting.sheet import MappingNode, ScalarNode, pair_of, value_of

MM = Fraction(1)

def step_slow(ground: Ground) -> Iterator[Plant]:
    """The step takes longer than its glue stays open."""
    for glue, placing, wet in ground.beads():
        limit = ground.guide.things[wet.adhesive].mm("working_time")
        node = ground.step_node(glue.step)
        time = value_of(node, "time")
        if glue.step.id != placing.step.id or limit is None or not isinstance(time, ScalarNode):
            continue
        text = number_text(limit * 20, "min")
        yield Plant(f"the time of {glue.step.id}", glue.things, (glue.sheet.replace(time, text),))


def glue_early(ground: Ground) -> Iterator[Plant]:
    """Laying the glue takes so long that it is no longer open when the parts meet."""
    for glue, placing, wet in ground.beads():
        limit = ground.guide.things[wet.adhesive].mm("working_time")
        time = value_of(ground.step_node(glue.step), "time")
        if limit is None or pair_of(glue.node, "takes") is not None or glue.items is not placing.items:
            continue
        if isinstance(time, ScalarNode) and glue.repeat is None:
            edits = (
                glue.sheet.with_pair(glue.node, f"takes: {number_text(limit * 3, 'min')}"),
                glue.sheet.replace(time, f"{number_text(limit * 4, 'min')}"),
            )
            yield Plant(f"the time of {glue.name}", glue.things, edits)


def hold_short(ground: Ground) -> Iterator[Plant]:
    """A part is held for less than the glue takes to tack."""
    for spot in ground.of("attach"):
        node, hold = spot.value("hold"), spot.action.value("hold")
        if isinstance(node, ScalarNode) and hold is not None and hold.base is not None:
            text = number_text(hold.base / 10, "s")
            edits = [spot.sheet.replace(node, text)]
            takes = spot.value("takes")
            if isinstance(takes, ScalarNode):
                edits.append(spot.sheet.replace(takes, text))
            yield Plant(f"the hold of {spot.name}", spot.things, tuple(edits))


def label_odd(ground: Ground) -> Iterator[Plant]:
    """A time is copied from the label with the wrong unit."""
    for thing, _, node in ground.thing_nodes("materials"):
        label = value_of(node, "label")
        for key, value in label.value if isinstance(label, MappingNode) else ():
            if key.value == "full cure" and value.value.endswith(" h"):
                text = value.value.replace(" h", " min")
                things = (thing.id, *_waits(ground))  # these take their minutes from the label
                yield Plant(f"the label of {thing.id}", things, (ground.main.replace(value, text),))


def _waits(ground: Ground) -> tuple[str, ...]:
    """The steps and the uses of shared steps that wait by a label."""
    steps = [f"step {spot.step.id}" for spot in ground.of("wait") if spot.action.word("until")]
    uses = [value_of(node, "as") for node, _, _ in ground.entries("use")]
    return (*steps, *(f"use {node.value}" for node in uses if isinstance(node, ScalarNode)))


KINDS = (
    Kind("step longer than the glue is open", ("working-time",), step_slow),
    Kind("glue laid too early", ("working-time",), glue_early),
    Kind("held for less than the tack", ("joint-steady",), hold_short),
    Kind("label time in the wrong unit", ("label-range",), label_odd, "warning"),
)
