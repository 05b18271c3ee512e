"""An amount says nothing.

What: An instruction gives an amount that can be measured, seen or tested: not "some glue", "a bit", "firmly".

Why: Each builder takes another amount, and most beginners too much.

Bad:
    - {glue: fin, edge: root, with: pva, for: tube, say: "Put some {with} on the root edge of the {fin}."}

Good:
    - {glue: fin, edge: root, with: pva, for: tube, say: "Put {with} on ..., as thin as a line."}
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.checks.base import Check, Look
from builder.findings import Finding, Severity
from builder.guide.wording.saying import place_in
from builder.guide.wording.tells import VAGUE_SIGNS, vague
from builder.guide.wording.written import TOLD, written

KINDS = (*TOLD, "else", "if missed")


def find(look: Look) -> Iterator[Finding]:
    """One finding for each vague amount; a step with a picture of it has none."""
    for text in written(look.book).with_any(VAGUE_SIGNS):
        if text.kind not in KINDS or text.step.picture is not None:
            continue
        for typed in vague(text.plain):
            place = place_in(text.prose, typed.start, len(typed.text))
            yield CHECK.finding(place, f'"{typed.text}" gives nothing to go by')


CHECK = Check(
    "say-vague", Severity.WARNING, "guide",
    why="Each builder takes another amount, and most beginners too much.",
    mend='Refer to a number, or give something to compare with ("as wide as a pencil line") or a test '
         '("until it ...").',
    find=find,
)  # fmt: skip
