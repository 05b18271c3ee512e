"""tie: a cord is knotted to an eye, a hole, or round a thing."""

from __future__ import annotations

from builder.guide.fields import Field, Holds
from builder.guide.model import Verb

FIELDS = (
    Field("tie", Holds.THINGS, "What is tied.", "shock_cord", sort="part", required=True, told=True),
    Field("to", Holds.THINGS, "What it is tied to.", "eye", sort="part|tool", required=True, told=True),
    Field("at", Holds.PLACE, "Where.", "end of cord", told=True),
    Field("knot", Holds.TEXT, "Which knot.", "overhand", told=True),
)  # fmt: skip

VERBS = (
    Verb("tie", "tie", "tie {what} {to} {at} {knot}", ("tie", "knot", "loop", "fasten"), "load",
         "A cord is knotted; what it is tied to must bear the pull."),
)  # fmt: skip
