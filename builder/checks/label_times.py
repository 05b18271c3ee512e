"""An adhesive or a paint without the times of its label.

What: An adhesive states working time, set and full cure; a paint states dry and full cure.

Why: Nobody can say how long to wait, or how soon is too late.

Bad:
    pva: {name: white glue, form: adhesive, adhesive: pva, amount: 5 mL}

Good:
    pva: {name: white glue, form: adhesive, adhesive: pva, amount: 5 mL,
          label: {working time: 5 min, set: 30 min, full cure: 24 h}}
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.checks.base import Check, Look
from builder.findings import Finding, Severity
from builder.trade.adhesives import adhesive


def find(look: Look) -> Iterator[Finding]:
    """An adhesive states working time, set and full cure; a paint states dry and full cure."""
    wanted = {"adhesive": ("working_time", "set", "full_cure"), "paint": ("dry", "full_cure")}
    for thing in look.guide.things.values():
        if thing.sort != "material":
            continue
        lacking = [w.replace("_", " ") for w in wanted.get(thing.form, ()) if w not in thing.values]
        row = adhesive(thing.words.get("adhesive", "")) if thing.form == "adhesive" else None
        if row is not None and row.set is None and row.working is None:
            continue
        if lacking:
            yield CHECK.finding(
                thing.at,
                f"the label of the {thing.name} does not say: {', '.join(lacking)}",
                suspects={f"label:{thing.id}"},
            )


CHECK = Check(
    "label-times", Severity.ERROR, "guide",
    why="Nobody can say how long to wait, or how soon is too late.",
    mend="Copy the times from the label: `label: {working time: 5 min, set: 30 min, full cure: 24 h}`.",
    find=find, source="common practice",
)  # fmt: skip
