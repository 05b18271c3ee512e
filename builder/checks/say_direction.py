"""A writer's sentence names another end or side than its action.

What: An end, a side or a direction in a `say` (front, rear, inside, outside, left, right, on, off) is the
action's own.

Why: The builder would work at the wrong end, and the dry run would have passed.

Bad:
    - {insert: ring, into: tube, from: front, say: "Push the {ring} into the {tube} from the rear end."}

Good:
    - {insert: ring, into: tube, from: front, say: "Push the {ring} into the {tube} from the front end."}
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.checks.base import Check, Look
from builder.findings import Finding, Severity
from builder.guide.wording.directions import turned
from builder.guide.wording.saying import place_in, says_of


def find(look: Look) -> Iterator[Finding]:
    """One finding for each `say` that names a wrong end."""
    book = look.book
    for say in says_of(book):
        for wrong in turned(book, say):
            place = place_in(say.prose, wrong.word.start, wrong.word.end - wrong.word.start)
            if wrong.own:
                what = f'the sentence says "{wrong.word.text}", but the action says "{wrong.own}"'
                mend = f'Write "{wrong.own}", or change the action.'
            else:
                what = f'the sentence says "{wrong.word.text}", which the action does not name'
                mend = "Name the end in a field of the action, or leave it out of the sentence."
            yield CHECK.finding(place, what, mend=mend)


CHECK = Check(
    "say-direction", Severity.ERROR, "guide",
    why="The builder would work at the wrong end, and the dry run would have passed.",
    mend="Write the end that the action names.",
    find=find, source="guide format",
)  # fmt: skip
