"""A caution holds a step of the work.

What: A writer's caution says how to keep out of harm's way; cutting, gluing or placing a part is an action.

Why: Who knows the danger skips the caution, and the step in it.

Bad:
    avoidance: Glue the fin before you spray.

Good:
    avoidance: Spray outdoors, with the wind behind you.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.checks.base import Check, Look
from builder.findings import Finding, Severity
from builder.guide.model import Caution
from builder.guide.wording.scan import bag
from builder.guide.wording.tells import commands_in

STEPS = frozenset(
    (
        "attach",
        "cut",
        "drill",
        "fold",
        "glue",
        "insert",
        "mark",
        "paint",
        "roll",
        "sand",
        "screw",
        "slide",
        "tape",
        "tie",
    )
)


def find(look: Look) -> Iterator[Finding]:
    """One finding for each caution that tells to do something with a part."""
    own: list[Caution] = [*look.guide.cautions.values()]
    own += [caution for step in look.guide.every_step() for caution in step.cautions]
    for caution in {id(c): c for c in own}.values():
        if caution.at is None or STEPS.isdisjoint(bag(caution.avoidance)):
            continue
        lower = caution.avoidance.lower()
        parts = [thing.name.lower() for thing in look.guide.things.values() if thing.sort == "part"]
        for word in commands_in(caution.avoidance):
            rest = lower[word.end :].lstrip()
            rest = rest.removeprefix("the ").removeprefix("a ").removeprefix("each ")
            if word.text in STEPS and any(rest.startswith(part) for part in parts):
                yield CHECK.finding(caution.at, f'the caution holds a step of the work: "{word.text} ..."')
                break


CHECK = Check(
    "caution-instruction", Severity.WARNING, "guide",
    why="Who knows the danger skips the caution, and the step in it.",
    mend="Make it an action of the step, and let the caution say how to keep out of harm's way.",
    find=find, source="Human factors procedure writing, part C: no action steps in a warning",
)  # fmt: skip
