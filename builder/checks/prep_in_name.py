"""Preparation is hidden in the name of a material.

What: A material is named as it is bought. What is done to it first (cut, sanded, folded ...) is a step, or it
is sold that way (`sold`).

Why: The teacher reads the list the evening before, and finds an hour of cutting in it.

Bad:
    materials: {strips: {name: cut balsa strips, form: strip, length: 100 mm, width: 10 mm}}

Good:
    materials: {strips: {name: balsa strip, form: strip, length: 900 mm, width: 10 mm}}
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.checks.base import Check, Look
from builder.findings import Finding, Severity

DONE = frozenset((
    "bent", "chopped", "crushed", "cut", "diluted", "drilled", "filed", "folded", "glued", "halved",
    "marked", "measured", "mixed", "notched", "painted", "peeled", "precut", "primed", "punched",
    "quartered", "sanded", "sawn", "scored", "sharpened", "shredded", "sliced", "soaked", "split",
    "stained", "stripped", "thinned", "torn", "trimmed", "varnished", "washed",
))  # fmt: skip


def find(look: Look) -> Iterator[Finding]:
    """One finding for each material whose name tells of work."""
    for thing in look.guide.things.values():
        if thing.sort != "material" or "sold" in thing.where:
            continue
        words = thing.name.lower().replace("-", " ").replace(",", " ").split()
        found = next((word for word in words if word in DONE), None)
        if found is not None:
            yield CHECK.finding(
                thing.place("name"),
                f'"{thing.name}" has to be {found} before anyone can use it, and no step does it',
            )


CHECK = Check(
    "prep-in-name", Severity.WARNING, "guide",
    why="The teacher reads the list the evening before, and finds an hour of work in it.",
    mend="Name the material as it is bought, and let a step do the rest; or say how it is `sold`.",
    find=find, source="published corrections of cookbooks: work hidden in the list of ingredients",
)  # fmt: skip
