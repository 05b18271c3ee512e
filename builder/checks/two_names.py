"""Two names for one thing.

What: A thing is called by its name everywhere. What the guide's `terms` or the trade's table of terms keep
out ("nosecone" where the part is the nose cone) stands in no text.

Why: A beginner looks for a second thing.

Bad:
    - note: The nosecone stays dry.  # parts: {nose: {name: nose cone, ...}}

Good:
    - note: The nose cone stays dry.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.checks.base import Check, Look
from builder.findings import Finding, Place, Severity
from builder.guide.wording.saying import place_in
from builder.guide.wording.scan import bag
from builder.guide.wording.written import Written, written
from builder.trade.terms import TERMS

_KEPT_OUT = tuple(
    (other, term.word, frozenset((last := other.rpartition(" ")[2], f"{last}s")))
    for term in TERMS
    for other in term.never
)


def find(look: Look) -> Iterator[Finding]:
    """One finding for each word that is a second name."""
    writing = written(look.book)
    refused = [(other, word) for other, word, ends in _KEPT_OUT if not ends.isdisjoint(writing.words)]
    called = _called(look) if refused else set()
    refused = [(other, word) for other, word in refused if word in called]
    refused += [(other.lower(), term.word) for term in look.guide.terms for other in term.never]
    for other, word in refused:
        if any(other in thing.name.lower() for thing in look.guide.things.values()):
            continue
        words = bag(other)
        for text in writing.with_any(frozenset(words | {f"{word}s" for word in words})):
            place = _stands_in(text, other)
            if place is not None:
                yield CHECK.finding(
                    place,
                    f'"{other}" is a second name for what this guide calls "{word}"',
                    mend=f'Write "{word}".',
                )


def _called(look: Look) -> set[str]:
    """The names of all things, and their last two words and last word."""
    found = set()
    for thing in look.guide.things.values():
        words = thing.name.lower().split()
        found |= {" ".join(words), " ".join(words[-2:]), *words[-1:]}
    return found


def _stands_in(text: Written, other: str) -> Place | None:
    lower = text.plain.lower()
    at = lower.find(other)
    while at >= 0:
        end = at + len(other)
        before, after = lower[at - 1 : at], lower[end : end + 2]
        if (
            not before.isalpha()
            and not after[:1].isalpha()
            or after.startswith("s")
            and not after[1:].isalpha()
        ):
            return place_in(text.prose, at, len(other))
        at = lower.find(other, at + 1)
    return None


CHECK = Check(
    "two-names", Severity.WARNING, "guide",
    why="A beginner looks for a second thing.",
    mend="Use the name that the list of parts uses.",
    find=find, source="ASD-STE100, as a summary quotes it: one name for one thing",
)  # fmt: skip
