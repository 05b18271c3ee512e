"""glue: adhesive is laid on a surface for a part that will meet it; a fillet closes by itself."""

from __future__ import annotations

from builder.guide.fields import Field, Holds
from builder.guide.model import Verb

FIELDS = (
    Field("glue", Holds.THINGS, "What the glue is laid on.", "motor_tube", sort="part|tool", required=True, told=True),
    Field("inside", Holds.PLACE, "Where inside.", "thrust_seat", told=True),
    Field("outside", Holds.PLACE, "Where outside.", "rear_seat", told=True),
    Field("top", Holds.PLACE, "Where on the top.", "spot", told=True),
    Field("under", Holds.PLACE, "Where on the underside.", "its mark", told=True),
    Field("edge", Holds.TEXT, "Which edge.", "root", told=True),
    Field("face", Holds.TEXT, "Which face.", "under", told=True),
    Field("with", Holds.THINGS, "The adhesive, and what spreads it.", "pva", sort="material|tool", required=True, told=True),
    Field("for", Holds.THINGS, "The part that will meet it.", "thrust_ring", sort="part", told=True),
    Field("fillet to", Holds.THING, "The part that a bead in the corner joins it to.", "body", sort="part", told=True),
)  # fmt: skip

VERBS = (
    Verb("glue", "glue", "put {with} {where} {tools}", ("glue", "run", "put", "spread", "brush", "dab", "squeeze", "lay", "smear", "coat"), "carry",
         "Adhesive is laid for one part; it must be met within its working time, and covered by the joint."),
)  # fmt: skip
