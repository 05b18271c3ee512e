"""fold: a flat part is folded, perhaps over another, which is then held between the folds."""

from __future__ import annotations

from builder.guide.fields import Field, Holds
from builder.guide.model import Verb

FIELDS = (
    Field("fold", Holds.THINGS, "What is folded.", "anchor", sort="part|tool", required=True, told=True),
    Field("over", Holds.THING, "What the folds hold between them.", "shock_cord", sort="part", told=True),
    Field("at", Holds.PLACES, "Where the folds lie.", "[1 in from left, 2 in from left]", told=True),
    Field("with", Holds.THINGS, "What helps.", "ruler", sort="tool", told=True),
)  # fmt: skip

VERBS = (
    Verb("fold", "fold", "fold {what} {over} {at} {with}", ("fold", "crease", "bend"), "carry",
         "A flat part is folded; what it is folded over is held once the glue on its inner face is set."),
)  # fmt: skip
