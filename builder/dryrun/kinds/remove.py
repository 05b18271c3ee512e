"""remove: what served its turn comes out or off."""

from __future__ import annotations

from builder.guide.fields import Field, Holds
from builder.guide.model import Verb

FIELDS = (
    Field("remove", Holds.THINGS, "What comes off.", "fin_jig", sort="part|tool", required=True, told=True),
    Field("from", Holds.THING, "What it comes off.", "body", sort="part|tool", required=True, told=True),
    Field("towards", Holds.TEXT, "Over which end.", "rear", told=True),
    Field("before", Holds.WORD, "It must be out before the glue has set.", "set", words=("set",)),
)  # fmt: skip

VERBS = (
    Verb("remove", "remove", "take {what} {from} {towards} {before}", ("remove", "take", "pull", "slide", "lift", "peel", "draw", "slip"), "carry",
         "What was only there to help comes out, before the way is closed and when it may."),
)  # fmt: skip
