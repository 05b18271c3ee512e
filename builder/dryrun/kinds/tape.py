"""tape: one thing is fixed to another with tape, or with pieces cut from it."""

from __future__ import annotations

from builder.guide.fields import Field, Holds
from builder.guide.model import Verb

FIELDS = (
    Field("tape", Holds.THINGS, "What is taped.", "shroud", sort="part|tool", required=True, told=True),
    Field("to", Holds.THING, "What it is taped to.", "canopy", sort="part|tool", required=True, told=True),
    Field("at", Holds.PLACE, "Where.", "corner", told=True),
    Field("with", Holds.THINGS, "The tape, or the pieces cut from it.", "tab", sort="material|part", required=True, told=True),
)  # fmt: skip

VERBS = (
    Verb("tape", "tape", "tape {what} {to} {at} {with}", ("tape", "stick", "fix", "fasten"), "work",
         "Tape holds at once; it covers what lies under it."),
)  # fmt: skip
