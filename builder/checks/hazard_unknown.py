"""A tool or a material whose hazards nobody knows.

What: A tool or a material that the trade tables do not know states its hazards, or `[]`.

Why: No caution can stand before a step whose hazards nobody has named.

Bad:
    tools: {whirler: {name: whirler}}

Good:
    tools: {whirler: {name: whirler, hazards: [machine]}}
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.checks.base import Check, Look
from builder.findings import Finding, Severity
from builder.guide.cautions import hazards_of
from builder.trade.hazards import hazard


def find(look: Look) -> Iterator[Finding]:
    """A tool or a material that the trade tables do not know states its hazards, or `[]`."""
    for thing in look.guide.things.values():
        if thing.sort in ("tool", "material") and thing.id in look.used and hazards_of(thing) is None:
            yield CHECK.finding(
                thing.at,
                f'nobody says what the {thing.sort} "{thing.name}" can do to a person',
                suspects={f"hazard:{thing.id}"},
            )
        for key in thing.hazards or ():
            if hazard(key) is None and key not in look.guide.cautions:
                yield CHECK.finding(
                    thing.place("hazards"),
                    f'there is no hazard "{key}"',
                    mend="Use a key of the hazard table, or write the caution under `cautions`.",
                )


CHECK = Check(
    "hazard-unknown", Severity.ERROR, "guide",
    why="No caution can stand before a step whose hazards nobody has named.",
    mend="Write `hazards: [...]` with the keys that apply, or `hazards: []` if it has none.",
    find=find, safety=True, source="common practice",
)  # fmt: skip
