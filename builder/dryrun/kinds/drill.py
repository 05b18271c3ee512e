"""drill: a hole through, or into, one thing or several that lie on one another."""

from __future__ import annotations

from builder.guide.fields import Field, Holds
from builder.guide.model import Verb
from builder.quantities.units import Dimension

L = Dimension.LENGTH

FIELDS = (
    Field("drill", Holds.THINGS, "What is drilled.", "[step_block, deck]", sort="part|tool", required=True, told=True),
    Field("at", Holds.PLACES, "Where: marks, holes, places.", "[low, high]", required=True, told=True),
    Field("with", Holds.THINGS, "The drill, bit, awl or punch; it gives the size.", "punch", sort="tool", told=True),
    Field("size", Holds.NUMBER, "The diameter, if the tool does not give it.", "6 mm", L),
    Field("depth", Holds.TEXT, "`through`, or how deep.", "1/2 in", told=True),
)  # fmt: skip

VERBS = (
    Verb("drill", "drill", "drill {what} {at} {with}", ("drill", "bore", "punch", "pierce", "make"), "load",
         "A hole is made; joints on the way must bear it."),
    Verb("punch", "drill", "punch {what} {at} {with}", ("punch", "pierce", "make"), "load",
         "A hole is punched; joints on the way must bear it."),
)  # fmt: skip
