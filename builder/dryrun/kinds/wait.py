"""wait for: time passes until something is set, dry or cured."""

from __future__ import annotations

from builder.guide.fields import Field, Holds
from builder.guide.model import Verb
from builder.quantities.units import Dimension

T = Dimension.TIME

FIELDS = (
    Field("wait for", Holds.THINGS, "What dries.", "body", sort="part|tool", required=True, told=True),
    Field("until", Holds.WORD, "Set, dry or cured, by the label.", "set", words=("set", "dry", "cured"), told=True),
    Field("for", Holds.NUMBER, "Minutes, for what no clock knows.", "20 min", T, told=True),
    Field("if missed", Holds.PROSE, "What to do if the wait was too long.", "No harm. It may stand for days."),
)  # fmt: skip

VERBS = (
    Verb("wait for", "wait", "let {what} {until} {for}", ("wait", "let", "leave"), "carry",
         "Time passes. The minutes come from the label."),
)  # fmt: skip
