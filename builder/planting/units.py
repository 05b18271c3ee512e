"""Units that are left out or wrong, and sums that do not come out."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from builder.dryrun.effects import Place
from builder.dryrun.work import thing_id
from builder.guide.model import Thing
from builder.planting.ground import Ground
from builder.planting.kind import Kind, Plant
from builder.planting.sheet import Edit, MappingNode, Node, ScalarNode, value_of

MM = Fraction(1)

def _first_numbers(ground: Ground) -> Iterator[tuple[Thing, ScalarNode]]:
    for thing, _, node in ground.thing_nodes("parts", "materials"):
        for name in ("length", "inside", "outside", "thickness", "diameter"):
            value = value_of(node, name)
            if ground.number(value, Fraction(1)) is not None:
                assert isinstance(value, ScalarNode)
                yield thing, value


def unit_left_out(ground: Ground) -> Iterator[Plant]:
    """A length without its unit."""
    for thing, value in _first_numbers(ground):
        bare = value.value.partition("±")[0].strip().rpartition(" ")[0]
        yield Plant(f"a length of {thing.id}", (thing.id,), (ground.main.replace(value, bare),))


def unit_misspelt(ground: Ground) -> Iterator[Plant]:
    """A unit that there is not."""
    for thing, value in _first_numbers(ground):
        text = value.value.partition("±")[0].strip() + "q"
        yield Plant(f"a length of {thing.id}", (thing.id,), (ground.main.replace(value, text),))


def wrong_dimension(ground: Ground) -> Iterator[Plant]:
    """A time where a length belongs."""
    for thing, value in _first_numbers(ground):
        things = (thing.id, *_worked_out(ground, thing))
        yield Plant(f"a length of {thing.id}", things, (ground.main.replace(value, "5 min"),))


def _worked_out(ground: Ground, thing: Thing) -> tuple[str, ...]:
    """What rests on a number that nobody can guess: things, and steps that ask for it or put something on
    such a thing, since places are counted from its ends."""
    paths = {
        value.path for name, value in thing.values.items()
        if name in ("length", "inside", "outside", "thickness", "diameter") and value.text
    }  # fmt: skip
    things = [
        t.id for t in ground.guide.things.values() if any(paths & value.reads for value in t.values.values())
    ]
    steps = [
        f"step {frame.step.id}"
        for run in ground.runs for frame in run.frames for need in frame.needs
        if paths & getattr(need, "reads", frozenset())
    ]  # fmt: skip
    steps += [
        f"step {frame.step.id}"
        for run in ground.runs for frame in run.frames for effect in frame.effects
        if isinstance(effect, Place) and thing_id(effect.seat.host, ground.guide) in things
    ]  # fmt: skip
    return tuple(dict.fromkeys((*things, *steps)))


def below_zero(ground: Ground) -> Iterator[Plant]:
    """A length below zero."""
    for thing, value in _first_numbers(ground):
        yield Plant(f"a length of {thing.id}", (thing.id,), (ground.main.replace(value, f"-{value.value}"),))


def count_broken(ground: Ground) -> Iterator[Plant]:
    """A count that is no whole number."""
    for thing, _, node in ground.thing_nodes("parts"):
        count = value_of(node, "count")
        if isinstance(count, ScalarNode):
            edit: Edit = ground.main.replace(count, f"{count.value}.5")
            yield Plant(f"the count of {thing.id}", (thing.id,), (edit,))


def sum_in_circle(ground: Ground) -> Iterator[Plant]:
    """A dimension that is worked out from itself."""
    for name, value in _dimensions(ground):
        yield Plant(
            f"the dimension {name}", (name,), (ground.main.replace(value, f"{name} + {value.value}"),)
        )


def sum_by_zero(ground: Ground) -> Iterator[Plant]:
    """A sum that divides by nothing."""
    for name, value in _dimensions(ground):
        yield Plant(f"the dimension {name}", (name,), (ground.main.replace(value, f"({value.value}) / 0"),))


def sum_unlike(ground: Ground) -> Iterator[Plant]:
    """A sum of a length and a time."""
    for name, value in _dimensions(ground):
        yield Plant(f"the dimension {name}", (name,), (ground.main.replace(value, f"{value.value} + 5 min"),))


def _dimensions(ground: Ground) -> Iterator[tuple[str, ScalarNode]]:
    section: Node | None = value_of(ground.main.node, "dimensions")
    for key, node in section.value if isinstance(section, MappingNode) else ():
        value = value_of(node, "is") if isinstance(node, MappingNode) else node
        written = ground.guide.dimensions.get(key.value)
        if isinstance(value, ScalarNode) and ground.number(value, written.base if written else None):
            yield key.value, value


KINDS = (
    Kind("unit left out", ("number",), unit_left_out),
    Kind("unit misspelt", ("number",), unit_misspelt),
    Kind("time where a length belongs", ("number",), wrong_dimension),
    Kind("length below zero", ("number",), below_zero),
    Kind("count that is not whole", ("number",), count_broken),
    Kind("dimension worked out from itself", ("sum-cycle",), sum_in_circle),
    Kind("division by zero", ("number",), sum_by_zero),
    Kind("length plus time", ("number",), sum_unlike),
)
