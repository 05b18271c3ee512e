"""do: what no verb has; it changes only what its fields say."""

from __future__ import annotations

from builder.guide.fields import Field, Holds
from builder.guide.model import Verb

FIELDS = (
    Field("do", Holds.PROSE, "What is done, as a sentence.", "Let it run down a ramp", required=True, told=True),
    Field("handles", Holds.THINGS, "What is handled: its joints are set.", "[canopy, shroud]", told=True),
    Field("loads", Holds.THINGS, "What is loaded: its joints are cured. `all` for everything.", "all", told=True),
    Field("puts", Holds.THINGS, "What is put somewhere.", "canopy", sort="part|material|tool", told=True),
    Field("into", Holds.THING, "Where it is put.", "body.bay", sort="part|tool", told=True),
    Field("with", Holds.THINGS, "What helps, or is used up.", "wadding", sort="material|tool", told=True),
)  # fmt: skip

VERBS = (
    Verb("do", "do", "{what}", (), "carry", "An action that no verb has. It changes only what its fields say."),
)  # fmt: skip
