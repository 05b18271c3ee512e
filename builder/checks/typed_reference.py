"""A text points to a place by words that do not move with it.

What: No text says "step 7", "see above", "the next page", "part B": steps are numbered when they are printed,
and drawings name their parts.

Why: A step is moved or a route left out, and the text sends the builder to the wrong place.

Bad:
    - note: The slot is the one from step B.

Good:
    - note: The slot is the one that the clip sits in.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.checks.base import Check, Look, typed_at
from builder.findings import Finding, Severity
from builder.guide.wording.saying import covers, place_in
from builder.guide.wording.tells import REFERENCE_SIGNS, references
from builder.guide.wording.written import written


def find(look: Look) -> Iterator[Finding]:
    """One finding for each reference by words; one that is part of a name is none."""
    book = look.book
    for text in written(book).with_any(REFERENCE_SIGNS):
        for typed in references(text.plain):
            start, end = typed.start, typed.start + len(typed.text)
            lower = text.plain.lower()
            if any(covers(lower, name, start, end) for name in book.all_names):
                continue
            place = place_in(text.prose, start, len(typed.text))
            yield CHECK.finding(
                place,
                f'"{typed.text}" points to a place that can move',
                suspects={typed_at(place, i) for i in range(len(typed.text))},
            )


CHECK = Check(
    "typed-reference", Severity.ERROR, "guide",
    why="A step is moved or a route left out, and the text sends the builder to the wrong place.",
    mend="Say what is meant by its name, or leave the reference out.",
    find=find, source="common practice",
)  # fmt: skip
