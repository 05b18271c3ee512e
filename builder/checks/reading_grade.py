"""The guide reads harder than its audience.

What: The reading grade of a guide's own texts is at most the grade that `audience` states. Names of things
are not counted. The formula is Flesch-Kincaid; syllables are counted by spelling, so a grade more is let
pass, and a guide of fewer than 100 words is not judged.

Why: Who cannot read the step guesses it from the picture, and skips what the picture does not show.

Bad:
    audience: {ages: 9-12, reading grade: 4}  # and whys that speak of longitudinal equilibrium

Good:
    audience: {ages: 9-12, reading grade: 4}  # and whys in short words
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from builder.checks.base import Check, Look
from builder.findings import Finding, Severity
from builder.guide.wording.desk import Book
from builder.guide.wording.tells import whole_sentences
from builder.guide.wording.written import written
from builder.quantities.show import as_decimal_text
from builder.trade.reading_grade import Counts, counted, grade

LEAST_WORDS = 100
MARGIN = 1


def find(look: Look) -> Iterator[Finding]:
    """One finding for a guide that reads too hard, with its hardest sentence."""
    stated = look.guide.audience.get("reading_grade", "")
    if not (stated.isascii() and stated.isdigit()):
        return
    texts = [text for text in written(look.book).texts if text.kind != "title"]
    if roughly(" ".join(text.plain for text in texts)) <= int(stated):
        return
    found, words, hardest = measured(look.book)
    if words >= LEAST_WORDS and found > int(stated) + MARGIN:
        yield CHECK.finding(
            look.guide.where["audience"],
            f"the texts read at grade {as_decimal_text(found, 1)}, but are meant for grade {stated}; "
            f'the hardest sentence is "{hardest}"',
        )


def measured(book: Book) -> tuple[Fraction, int, str]:
    """(grade of a guide's own texts, their words, the hardest sentence)."""
    names = [name for name in book.all_names if " " in name]
    hardest: tuple[Fraction, str] = (Fraction(0), "")
    total = Counts(0, 0, 0)
    for text in written(book).texts:
        if text.kind == "title":
            continue
        for _, sentence in whole_sentences(text.plain):
            own = counted((_without(sentence, names),))
            total = Counts(
                total.sentences + own.sentences, total.words + own.words, total.syllables + own.syllables
            )
            if own.words > 5:
                hardest = max(hardest, (grade(own), sentence.strip()))
    return grade(total) if total.words else Fraction(0), total.words, hardest[1]


_VOWELS = str.maketrans("aeiouyAEIOUY", "a" * 12)
_OTHERS = str.maketrans({chr(c): " " for c in range(32, 127) if chr(c) != "a"})


def roughly(text: str) -> Fraction:
    """A grade from the groups of vowels alone: quick, and seldom lower than the true one by more than a
    grade, so that only a text that may be too hard is counted word by word. 0 for a short one."""
    words = len(text.split())
    if words < LEAST_WORDS:
        return Fraction(0)
    stops = max(text.count(".") + text.count("?") + text.count("!"), 1)
    groups = len(text.translate(_VOWELS).translate(_OTHERS).split())
    silent = text.count("e ") + text.count("e.") + text.count("e,") - text.count("the ") - text.count("le ")
    return grade(Counts(stops, words, max(groups - silent, words)))


def _without(sentence: str, names: list[str]) -> str:
    lower = sentence.lower()
    for name in names:
        if name in lower:
            lower = lower.replace(name, "it")
    return lower


CHECK = Check(
    "reading-grade", Severity.WARNING, "guide",
    why="Who cannot read the step guesses it from the picture, and skips what the picture does not show.",
    mend="Use shorter sentences and shorter words, or state the grade that the guide is meant for.",
    find=find, source="Flesch-Kincaid grade, as a page of the US Department of Veterans Affairs gives it",
)  # fmt: skip
