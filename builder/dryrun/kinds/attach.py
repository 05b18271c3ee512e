"""attach: a part is set onto a surface."""

from __future__ import annotations

from builder.guide.fields import Field, Holds
from builder.guide.model import Verb
from builder.quantities.units import Dimension

T = Dimension.TIME
FITS = ("tight", "running", "sliding", "loose")

FIELDS = (
    Field("attach", Holds.THINGS, "What is set on.", "fin", sort="part|tool", required=True, told=True),
    Field("onto", Holds.THING, "What it is set onto.", "body", sort="part|tool", required=True, told=True),
    Field("at", Holds.PLACE, "Where.", "fin_root", told=True),
    Field("top", Holds.PLACE, "Where on the top.", "mast_spot", told=True),
    Field("under", Holds.PLACE, "Where on the underside.", "its mark", told=True),
    Field("inside", Holds.PLACE, "Where inside.", "anchor_seat", told=True),
    Field("outside", Holds.PLACE, "Where outside.", "fin_root", told=True),
    Field("from", Holds.TEXT, "The end that it comes from.", "front", told=True),
    Field("angle", Holds.ANGLE, "Where round it.", "evenly", told=True),
    Field("by", Holds.TEXT, "Which point of it stands at the place.", "middle"),
    Field("fit", Holds.WORD, "How it sits, if no glue holds it.", "tight", words=FITS),
    Field("hold", Holds.NUMBER, "How long it is held.", "3 min", T, told=True),
    Field("held by", Holds.THING, "What holds it.", "fin_jig", sort="part|tool", told=True),
    Field("with", Holds.THINGS, "What helps.", "stick", sort="tool", told=True),
)  # fmt: skip

VERBS = (
    Verb("attach", "attach", "set {what} {onto} {from} {at} {angle} {held_by} {with} {hold}", ("attach", "set", "press", "stick", "put", "lay", "stand", "push", "place"), "work",
         "A part is set onto a surface where glue lies for it."),
)  # fmt: skip
