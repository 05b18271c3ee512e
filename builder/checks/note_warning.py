"""A warning is hidden in a note.

What: What can hurt someone is a caution, which stands before the step with its signal word.

Why: A note is read after the work, if at all.

Bad:
    - note: Be careful, the blade is sharp.

Good:
    cautions:
      - {level: warning, hazard: The blade is sharp., consequence: It cuts., avoidance: Cut away from you.}
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.checks.base import Check, Look
from builder.findings import Finding, Severity
from builder.guide.wording.saying import NOTES, hazards_in, literal, place_in, texts_of
from builder.guide.wording.scan import warnings


def find(look: Look) -> Iterator[Finding]:
    """One finding for each note that warns."""
    book = look.book
    hazardous = hazards_in(book)
    for text in texts_of(book):
        if text.kind not in NOTES:
            continue
        found = warnings(literal(text.prose), hazardous)
        if found:
            place = place_in(text.prose, found[0].start, len(found[0].text))
            yield CHECK.finding(place, f'a warning hidden in a {text.kind}: "{found[0].text}"')


CHECK = Check(
    "note-warning", Severity.ERROR, "guide",
    why="A note is read after the work, if at all; a caution stands before the step, with its signal word.",
    mend="Write it under `cautions`: level, hazard, consequence, avoidance.",
    find=find, source="ANSI Z535.6 keeps safety messages apart from other text (from memory)", safety=True,
)  # fmt: skip
