"""A number is typed in a sentence.

What: A `say`, a step's title, a note, an `else` and an `if missed` hold no digits, counting words and units.
Names ("1/4 in dowel", "fin 2") and words of order ("the second ring") may stand.

Why: A number in words does not change when the model does, and then the page says two things.

Bad:
    - {glue: fin, edge: root, with: pva, for: body, say: "Put {with} on each of the four roots."}

Good:
    - {glue: fin, edge: root, with: pva, for: body, say: "Put {with} on each of the {fin.count} roots."}
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.checks.base import Check, Look, typed_at
from builder.findings import Finding, Severity
from builder.guide.wording.saying import numbers_in, place_in, texts_of


def find(look: Look) -> Iterator[Finding]:
    """One finding for each typed number."""
    book = look.book
    for text in texts_of(book):
        for typed in numbers_in(book, text.prose):
            place = place_in(text.prose, typed.start, len(typed.text))
            where = "the step's title" if text.kind == "title" else f'the "{text.kind}"'
            fact = {typed_at(place, 0)}
            yield CHECK.finding(place, f'{where} types "{typed.text}"', suspects=fact, rests_on=fact)


CHECK = Check(
    "say-number", Severity.ERROR, "guide",
    why="A number in words does not change when the model does, and then the page says two things.",
    mend="Refer to it in single braces, as in {fin.count} or {hold}: the tool prints the number.",
    find=find, source="guide format",
)  # fmt: skip
