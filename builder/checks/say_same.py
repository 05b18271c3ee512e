"""A writer's sentence is the tool's own.

What: A `say` says something that the tool would not say by itself.

Why: The tool's sentence follows every change of the action; a copy of it has to be changed by hand.

Bad:
    - {fold: anchor, over: cord, say: "Fold the {anchor} over the {cord}."}

Good:
    - {fold: anchor, over: cord}
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.checks.base import Check, Look
from builder.findings import Finding, Severity
from builder.guide.wording import generated, opening_words, render
from builder.guide.wording.saying import says_of


def find(look: Look) -> Iterator[Finding]:
    """One finding for each `say` that equals the tool's sentence."""
    book = look.book
    for say in says_of(book):
        action = say.actions[0]
        if len(say.actions) > 1 or _first(say.prose.text) not in opening_words(action):
            continue
        if _plain(render(say.prose, book, action).text) == _plain(generated(action, book).text):
            yield CHECK.finding(say.prose.at, "the sentence is the one that the tool words by itself")


def _first(text: str) -> str:
    return text.lstrip().partition(" ")[0].lower()


def _plain(text: str) -> str:
    return " ".join(text.lower().replace(",", " ").replace(".", " ").split())


CHECK = Check(
    "say-same", Severity.NOTE, "guide",
    why="The tool's sentence follows every change of the action; a copy of it has to be changed by hand.",
    mend="Drop it.",
    find=find, source="guide format",
)  # fmt: skip
