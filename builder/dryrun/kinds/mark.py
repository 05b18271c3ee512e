"""mark: a line or a point is laid on a surface, to be worked to later."""

from __future__ import annotations

from builder.guide.fields import Field, Holds
from builder.guide.model import Verb

FIELDS = (
    Field("mark", Holds.NEW, "The name of the mark.", "rear_line", required=True),
    Field("onto", Holds.THINGS, "What it is drawn on.", "motor_tube", sort="part|tool", required=True, told=True),
    Field("at", Holds.PLACE, "Where.", "start of rear_seat", told=True),
    Field("top", Holds.PLACE, "Where on the top.", "80 mm from front and 60 mm from left", told=True),
    Field("under", Holds.PLACE, "Where on the underside.", "end of overhang_front", told=True),
    Field("inside", Holds.PLACE, "Where inside.", "end of seat", told=True),
    Field("angle", Holds.ANGLE, "Where round it.", "45 deg", told=True),
    Field("along", Holds.TEXT, "The marks that it runs along.", "fin_ticks", told=True),
    Field("from", Holds.THING, "What it is taken from.", "fin_guide", sort="part|tool", told=True),
    Field("around", Holds.YES, "All the way round.", "yes", told=True),
    Field("across", Holds.YES, "All the way across.", "yes", told=True),
    Field("with", Holds.THINGS, "What it is drawn with.", "[pencil, angle]", sort="tool", told=True),
)  # fmt: skip

VERBS = (
    Verb("mark", "mark", "mark {what} {from} {onto} {along} {angle} {at} {with}", ("mark", "draw", "pencil", "prick"), "carry",
         "A line or a point is drawn where something will be lined up with it."),
)  # fmt: skip
