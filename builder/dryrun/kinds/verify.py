"""verify: the builder looks or measures, and knows what to do if it is off."""

from __future__ import annotations

from builder.guide.fields import Field, Holds
from builder.guide.model import Verb
from builder.quantities.units import Dimension

L = Dimension.LENGTH

FIELDS = (
    Field("verify", Holds.THINGS, "What is looked at.", "dummy", sort="part|tool", required=True, told=True),
    Field("sticks out", Holds.TEXT, "Over which end it stands out.", "rear", told=True),
    Field("by", Holds.NUMBER, "By how much, with a tolerance.", "6.5 mm ± 1 mm", L, told=True),
    Field("angle", Holds.ANGLE, "At what angle it stands, with a tolerance.", "90 deg ± 3 deg", told=True),
    Field("turns in", Holds.THING, "What it turns in.", "bearing", sort="part|tool", told=True),
    Field("slides out of", Holds.THING, "What it slides out of.", "body", sort="part|tool", told=True),
    Field("length", Holds.NUMBER, "How long it is, with a tolerance.", "12 in ± 1/16 in", L, told=True),
    Field("shows", Holds.PROSE, "What is seen when it is right.", "a sharp picture of a far tree", told=True),
    Field("else", Holds.PROSE, "What to do if it is off.", "Make the mount again."),
)  # fmt: skip

VERBS = (
    Verb("verify", "verify", "check {with} that {what} {sticks_out} {angle} {turns_in} {slides_out_of} {length} {shows}",
         ("verify", "check", "measure", "try", "see", "look", "make sure", "test"), "carry",
         "What was built is compared with what it should be."),
)  # fmt: skip
