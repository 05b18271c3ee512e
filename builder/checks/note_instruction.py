"""A note tells the builder to do something.

What: A note, a tip and a why inform; what is to be done is an action.

Why: The dry run does not read notes, so nothing of it is checked, timed or listed.

Bad:
    - note: Press the ring flat before the glue sets.

Good:
    - note: A skewed ring shows as a gap of light at its side.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.checks.base import Check, Look
from builder.findings import Finding, Severity
from builder.guide.wording.saying import NOTES, hazards_in, literal, place_in, texts_of
from builder.guide.wording.scan import commands, warnings


def find(look: Look) -> Iterator[Finding]:
    """One finding for each note that commands; one that warns has its own."""
    book = look.book
    for text in texts_of(book):
        if text.kind not in NOTES:
            continue
        plain = literal(text.prose)
        found = commands(plain)
        if found and not warnings(plain, hazards_in(book)):
            place = place_in(text.prose, found[0].start, len(found[0].text))
            yield CHECK.finding(
                place, f'the {text.kind} tells the builder to do something: "{found[0].text} ..."'
            )


CHECK = Check(
    "note-instruction", Severity.WARNING, "guide",
    why="The dry run does not read notes, so nothing of it is checked, timed or listed.",
    mend="Make it an action (with `do` if no verb has it), or say what is seen instead of what to do.",
    find=find, source="guide format",
)  # fmt: skip
