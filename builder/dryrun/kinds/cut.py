"""cut: pieces come out of stock; what is left is the remainder."""

from __future__ import annotations

from builder.guide.fields import Field, Holds
from builder.guide.model import Verb

FIELDS = (
    Field("cut", Holds.THINGS, "What is cut out.", "fin", sort="part|tool", required=True, told=True),
    Field("from", Holds.THING, "The stock that it comes from; by default the one that the part names.", "board",
          sort="material", told=True),
    Field("along", Holds.TEXT, "`pattern`, or the mark that is cut along.", "pattern", told=True),
    Field("with", Holds.THINGS, "What it is cut with.", "scissors", sort="tool", told=True),
    Field("leaves", Holds.SIZES, "What is left of the stock.", "[177 mm x 210 mm, 10 mm x 120 mm]"),
)  # fmt: skip

VERBS = (
    Verb("cut", "cut", "cut {what} {from} {along} {with}", ("cut", "saw", "snip", "trim", "slice"), "carry",
         "Pieces come out of stock. What is stated as left must be what is left."),
)  # fmt: skip
