"""A reference in a text means nothing here.

What: A reference in braces names something of the guide; in a `say`, something that its action names.

Why: The page would print the braces, or tell of a thing that the action does not touch.

Bad:
    - {insert: ring, into: tube, from: front, say: "Push the {ring} into the {body} from the front end."}

Good:
    - {insert: ring, into: tube, from: front, say: "Push the {ring} into the {tube} from the front end."}
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from builder.checks.base import Check, Look
from builder.findings import Finding, Severity
from builder.guide.model import Action
from builder.guide.reading import nearest
from builder.guide.wording.saying import Stranger, names_told, says_of, strangers, texts_of


def find(look: Look) -> Iterator[Finding]:
    """One finding for each reference that means nothing."""
    book = look.book
    for say in says_of(book):
        told = names_told(book, say.actions)
        for stranger in strangers(book, say.prose, say.actions, strict=True):
            if not _unread(stranger, say.actions):
                yield _finding(look, stranger, told)
    for text in texts_of(book):
        if text.kind != "say":
            actions = (text.action,) if text.action is not None else ()
            for stranger in strangers(book, text.prose, actions, strict=False):
                yield _finding(look, stranger, set())


def _unread(stranger: Stranger, actions: Sequence[Action]) -> bool:
    """Whether it is a field that is written, but could not be read; that has been told."""
    key = stranger.name.partition(".")[0].replace(" ", "_")
    return any(key in action.where and key not in action.fields for action in actions)


def _finding(look: Look, stranger: Stranger, told: set[str]) -> Finding:
    facts = {f"name:{stranger.name.partition('.')[0]}"}
    if stranger.known:
        mend = "Name it in a field of the action, or leave it out of the sentence."
        return CHECK.finding(
            stranger.at, f"the action does not name {{{stranger.name}}}", mend=mend, rests_on=facts
        )
    guess = nearest(stranger.name, told or look.guide.things)
    mend = f"Did you mean {{{guess}}}?" if guess else "Write the id of a thing, or a field of the action."
    return CHECK.finding(
        stranger.at, f"nothing here is called {{{stranger.name}}}", mend=mend, rests_on=facts
    )


CHECK = Check(
    "say-reference", Severity.ERROR, "guide",
    why="The page would print the braces, or tell of a thing that the action does not touch.",
    mend="Refer only to what the action names.",
    find=find, source="guide format",
)  # fmt: skip
