"""A repeat is told in words.

What: What is done again is written as actions again, or stands in a `repeat` or a shared step.

Why: On paper it is done once, and a hand, a count or a wait that differs the second time is never seen.

Bad:
    - do: Do the same for the other end

Good:
    - repeat: ring
      actions:
        - {slide: ring, over: tube, from: front, fit: tight}
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.checks.base import Check, Look
from builder.findings import Finding, Severity
from builder.guide.wording.saying import place_in
from builder.guide.wording.tells import REPEAT_SIGNS, repeats
from builder.guide.wording.written import TOLD, written


def find(look: Look) -> Iterator[Finding]:
    """One finding for each text that tells to repeat."""
    for text in written(look.book).with_any(REPEAT_SIGNS):
        if text.kind not in TOLD:
            continue
        for typed in repeats(text.plain):
            place = place_in(text.prose, typed.start, len(typed.text))
            yield CHECK.finding(place, f'the builder is told in words to repeat something: "{typed.text}"')


CHECK = Check(
    "repeat-in-words", Severity.ERROR, "guide",
    why="On paper it is done once, and a hand, a count or a wait that differs the second time is never seen.",
    mend="Write the actions out, put them in a `repeat`, or use a shared step twice.",
    find=find, source="US Department of Energy, DOE-STD-1029-92: repeated steps",
)  # fmt: skip
