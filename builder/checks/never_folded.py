"""A part that is to be folded is never folded.

What: A part that states what it `folds to` is folded by some step of each route.

Why: The part goes on flat and is too large for its place, and what the fold would hold lies loose.

Bad:
    anchor: {form: strip, of: paper, size: 60 mm x 20 mm, folds to: 20 mm x 20 mm}   # and no step folds it

Good:
    - {fold: anchor, over: cord, at: [20 mm from left, 40 mm from left]}
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.checks.base import Check, Look
from builder.findings import Finding, Severity


def find(look: Look) -> Iterator[Finding]:
    """One finding for each part that has a folded size and is there unfolded at the end."""
    run = look.run
    assert run is not None
    flat: dict[str, list[str]] = {}
    for key, item in run.end.items.items():
        thing = look.guide.things[item.thing]
        if "folded_length" in thing.values and not item.folded and not item.cause.supposed:
            flat.setdefault(thing.id, []).append(key)
    for id, keys in flat.items():
        thing = look.guide.things[id]
        facts = {f"{fact}:{key}" for key in keys for fact in ("held", "seat", "placed")}
        yield CHECK.finding(
            thing.place("folds_to"),
            f"the {thing.name} is to be folded, but no step folds it",
            # placed flat it takes other places than its folded size would
            suspects={f"number:{value.path}" for value in thing.values.values()} | facts,
            rests_on={f"unused:{id}", f"item:{id}"},
        )


CHECK = Check(
    "never-folded", Severity.ERROR, "run",
    why="The part goes on flat and is too large for its place, and what the fold would hold lies loose.",
    mend="Add the `fold`, or leave out what the part folds to.",
    find=find, source="common practice",
)  # fmt: skip
