"""drill: a hole through, or into, one thing or several that lie on one another."""

from __future__ import annotations

from builder.dryrun.bench import Hole
from builder.dryrun.effects import Shape
from builder.dryrun.joining import base_of
from builder.dryrun.placing import resolve
from builder.dryrun.work import Work
from builder.guide.fields import Field, Holds
from builder.guide.model import Verb
from builder.quantities.units import Dimension

L = Dimension.LENGTH

FIELDS = (
    Field(
        "*",
        Holds.THINGS,
        "What is drilled.",
        "[step_block, deck]",
        sort="part|tool",
        required=True,
        told=True,
    ),
    Field("at", Holds.PLACES, "Where: marks, holes, places.", "[low, high]", required=True, told=True),
    Field(
        "with",
        Holds.THINGS,
        "The drill, bit, awl or punch; it gives the size.",
        "punch",
        sort="tool",
        told=True,
    ),
    Field("size", Holds.NUMBER, "The diameter, if the tool does not give it.", "6 mm", L),
    Field("depth", Holds.TEXT, "`through`, or how deep.", "1/2 in", told=True),
)

VERBS = (
    Verb(
        "drill",
        "drill",
        "drill {what} {at} {with}",
        ("drill", "bore", "punch", "pierce", "make"),
        "load",
        "A hole is made; joints on the way must bear it.",
    ),
    Verb(
        "punch",
        "drill",
        "punch {what} {at} {with}",
        ("punch", "pierce", "make"),
        "load",
        "A hole is punched; joints on the way must bear it.",
    ),
)


def run(work: Work) -> None:
    """A hole is made in each thing at each place; the joints on the way bear it."""
    action = work.action
    items = work.field_items("what")
    tools = [work.guide.things[ref.id] for ref in action.refs("with")]
    work.field_items("with")
    size = action.value("size")
    diameter = (
        size.base
        if size is not None
        else next((t.mm("diameter") for t in tools if t.mm("diameter") is not None), None)
    )
    reads = work.read(size).union(*(t.reads("diameter") for t in tools))
    for item in items:
        work.demand(
            "load",
            [item, *base_of(work, item)] if item not in base_of(work, item) else base_of(work, item),
            "drilling",
            action.at,
            work.bench.assembly(item),
        )
        for spot in action.spots("at"):
            found = resolve(work, spot, item, "top") if spot.kind != "middle" or item == items[0] else None
            name = spot.text if found is None or not found.hole else found.hole
            cause = work.cause(reads)
            along, across = (found.stretch, found.across) if found is not None else (None, None)
            point = along and across and along[0] == along[1] and across[0] == across[1]
            x, y = (along[0], across[0]) if along and across and point else (None, None)
            work.effect(Shape(item, "hole", cause, Hole(item, name, diameter, cause, x, y)))
