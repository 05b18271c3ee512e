"""sand: edges or faces are smoothed or rounded."""

from __future__ import annotations

from builder.guide.fields import Field, Holds
from builder.guide.model import Verb

FIELDS = (
    Field("sand", Holds.THINGS, "What is sanded.", "fin", sort="part|tool", required=True, told=True),
    Field("edges", Holds.WORDS, "Which edges.", "[front, tip]", told=True),
    Field("not", Holds.WORDS, "Which edges stay as they are.", "[root]", told=True),
    Field("with", Holds.THINGS, "What it is sanded with.", "block", sort="tool", told=True),
)  # fmt: skip

VERBS = (
    Verb("sand", "sand", "sand {edges} {what} {with}", ("sand", "round", "smooth", "rub"), "load",
         "Edges are sanded; joints on the way must bear it."),
)  # fmt: skip
