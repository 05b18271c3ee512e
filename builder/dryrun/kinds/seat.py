"""insert and slide: a part goes into, or over, another, along a way, to a place."""

from __future__ import annotations

from builder.guide.fields import Field, Holds
from builder.guide.model import Verb
from builder.quantities.units import Dimension

L = Dimension.LENGTH
T = Dimension.TIME
FITS = ("tight", "running", "sliding", "loose")

FIELDS = (
    Field("*", Holds.THINGS, "What moves.", "thrust_ring", sort="part|tool", required=True, told=True),
    Field("into", Holds.THINGS, "What it goes into.", "motor_tube", sort="part|tool", told=True),
    Field("over", Holds.THINGS, "What it goes over.", "body", sort="part|tool", told=True),
    Field("from", Holds.TEXT, "The end that it comes from.", "front", told=True),
    Field("to", Holds.PLACES, "Where it ends up.", "thrust_seat", told=True),
    Field("through", Holds.WORDS, "What it passes through: parts, or its own holes.", "step_block", told=True),
    Field("leaving out", Holds.NUMBER, "How much of it is left standing out, for a part-way seat.", "1 1/2 in", L, told=True),
    Field("by", Holds.TEXT, "Which point of it stands at the place.", "middle"),
    Field("fit", Holds.WORD, "How it sits, if no glue holds it.", "sliding", words=FITS),
    Field("hold", Holds.NUMBER, "How long it is held.", "3 min", T, told=True),
    Field("held by", Holds.THING, "What holds it.", "fin_jig", sort="part|tool", told=True),
    Field("with", Holds.THINGS, "What helps.", "stick", sort="tool", told=True),
)  # fmt: skip

VERBS = (
    Verb("insert", "seat", "push {what} {through} {into} {over} {from} {with} {to} {held_by} {hold}", ("insert", "push", "slide", "press", "thread", "put", "drop", "slip", "ease", "lower", "let", "lay", "set", "fit"), "work",
         "A part goes into another, to a place."),
    Verb("slide", "seat", "slide {what} {through} {over} {into} {from} {with} {to} {held_by} {hold}", ("slide", "push", "slip", "press", "thread", "ease", "put", "fit"), "work",
         "A part goes over another, to a place."),
)  # fmt: skip
