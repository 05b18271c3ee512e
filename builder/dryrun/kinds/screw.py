"""screw: a screw goes into a hole."""

from __future__ import annotations

from builder.guide.fields import Field, Holds
from builder.guide.model import Verb

FIELDS = (
    Field("screw", Holds.THINGS, "What is screwed in.", "eye", sort="part", required=True, told=True),
    Field("into", Holds.THING, "What it goes into.", "nose", sort="part|tool", required=True, told=True),
    Field("at", Holds.PLACE, "The hole or its mark.", "nose_centre", told=True),
    Field("with", Holds.THINGS, "What turns it.", "driver", sort="tool", told=True),
)  # fmt: skip

VERBS = (
    Verb("screw", "screw", "screw {what} {into} {at} {with}", ("screw", "turn", "twist"), "load",
         "A screw goes into a hole that has been made for it."),
)  # fmt: skip
