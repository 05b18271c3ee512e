"""A condition comes after its action.

What: In an instruction the condition comes first: "If it is wet, wait".

Why: The builder has done it before reading that it should not have been done.

Bad:
    - do: Push the nose off, unless the cord is wet

Good:
    - do: Unless the cord is wet, push the nose off
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.checks.base import Check, Look
from builder.findings import Finding, Severity
from builder.guide.wording.saying import place_in
from builder.guide.wording.tells import CONDITION_SIGNS, conditions_behind
from builder.guide.wording.written import TOLD, written

KINDS = (*TOLD, "else", "if missed")


def find(look: Look) -> Iterator[Finding]:
    """One finding for each instruction whose condition comes last."""
    for text in written(look.book).with_any(CONDITION_SIGNS):
        if text.kind not in KINDS:
            continue
        for typed in conditions_behind(text.plain, commands=text.kind == "do"):
            place = place_in(text.prose, typed.start, len(typed.text))
            yield CHECK.finding(place, f'the condition "{typed.text}" comes after what it decides')


CHECK = Check(
    "say-condition", Severity.WARNING, "guide",
    why="The builder has done it before reading that it should not have been done.",
    mend="Begin the sentence with the condition.",
    find=find, source="plain-language guidance for editors",
)  # fmt: skip
