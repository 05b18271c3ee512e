"""paint: a coat goes on; what must stay bare is covered or inside."""

from __future__ import annotations

from builder.guide.fields import Field, Holds
from builder.guide.model import Verb

FIELDS = (
    Field("paint", Holds.THINGS, "What is painted.", "[body, fin]", sort="part|tool", required=True, told=True),
    Field("with", Holds.THINGS, "The paint, and what spreads it.", "spray", sort="material|tool", required=True, told=True),
    Field("not", Holds.THINGS, "What must stay bare.", "[motor_tube, nose.shoulder]"),
    Field("coats", Holds.COUNT, "How many coats, one after the other.", "1"),
)  # fmt: skip

VERBS = (
    Verb("paint", "paint", "paint {what} {with} {coats}", ("paint", "spray", "coat", "brush", "colour"), "coat",
         "A coat goes on; the joints under it must be cured, and the label says when the next may follow."),
)  # fmt: skip
