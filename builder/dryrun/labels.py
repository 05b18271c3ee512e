"""The times of a label, as the bench needs them."""

from __future__ import annotations

from fractions import Fraction

from builder.guide.model import Thing
from builder.trade.adhesives import adhesive

Seconds = Fraction | None


def label_times(material: Thing) -> tuple[Seconds, Seconds]:
    """(set, cured) after closing, seconds. Where the label does not say, the least that the trade knows of
    the kind; where that is not known either, one of the two stands for both."""
    set_after, cured_after = material.mm("set"), material.mm("full_cure")
    if set_after is None or cured_after is None:
        row = adhesive(material.words.get("adhesive", ""))
        if cured_after is None and row is not None and row.cure is not None:
            cured_after = max(Fraction(row.cure[0]), set_after or Fraction(0))
        if set_after is None and row is not None and row.set is not None:
            set_after = Fraction(row.set[0])
            set_after = set_after if cured_after is None else min(set_after, cured_after)
    return (
        cured_after if set_after is None else set_after,
        set_after if cured_after is None else cured_after,
    )
