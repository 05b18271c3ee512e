"""roll and wrap: a sheet goes round a former and becomes a tube, or round a host and stays there."""

from __future__ import annotations

from builder.guide.fields import Field, Holds
from builder.guide.model import Verb

FITS = ("tight", "running", "sliding", "loose")

FIELDS = (
    Field("*", Holds.THING, "The sheet or strip that goes round.", "body.blank", sort="part|tool", required=True, told=True),
    Field("around", Holds.THING, "What it goes round.", "body_dowel", sort="part|tool", required=True, told=True),
    Field("with", Holds.THINGS, "The glue, or what helps.", "pva", sort="material|tool", told=True),
    Field("from turn", Holds.COUNT, "The turn from which glue is laid; the first turns stay dry on the former.", "2", told=True),
    Field("makes", Holds.THING, "The tube that it becomes.", "body", sort="part", told=True),
    Field("at", Holds.PLACE, "Where on the host.", "flush with rear", told=True),
    Field("fit", Holds.WORD, "How it sits.", "tight", words=FITS),
)  # fmt: skip

VERBS = (
    Verb("roll", "roll", "roll {what} {around} {at} {makes} {with} {from_turn}", ("roll", "wind", "wrap"), "carry",
         "A blank is rolled round a former; the former must come out before the tube sets."),
    Verb("wrap", "roll", "wrap {what} {around} {at} {makes} {with} {from_turn}", ("wrap", "wind", "lay", "roll"), "carry",
         "A strip is wrapped round a host and stays there, or becomes a tube if it says what it makes."),
)  # fmt: skip
