"""A sentence is too long.

What: A sentence that tells what to do has at most 20 words, one that explains at most 25; names and values
that it refers to are not counted.

Why: A reader of this age loses the beginning before the end is reached.

Bad:
    - note: >-
        A tube that was rolled by two pairs of hands on a flat table with its short side along the former
        and with the paper kept tight all the while has even ends.

Good:
    - note: A tube that was rolled by two pairs of hands has even ends.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.checks.base import Check, Look
from builder.findings import Finding, Severity
from builder.guide.wording.saying import place_in
from builder.guide.wording.tells import too_long
from builder.guide.wording.written import written

EXPLAINS = {"note": 25, "tip": 25, "why": 25}
TELLS = 20


def find(look: Look) -> Iterator[Finding]:
    """One finding for each sentence with too many words."""
    for text in written(look.book).texts:
        most = EXPLAINS.get(text.kind, TELLS)
        if len(text.plain) <= 3 * most:
            continue
        for start, count, sentence in too_long(text.plain, most):
            place = place_in(text.prose, start, len(sentence))
            yield CHECK.finding(place, f"the sentence has {count} words; at most {most} are read at one go")


CHECK = Check(
    "say-long", Severity.WARNING, "guide",
    why="A reader of this age loses the beginning before the end is reached.",
    mend="Make two sentences of it.",
    find=find, source="ASD-STE100, as a summary quotes it: 20 words in an instruction, 25 in a description",
)  # fmt: skip
