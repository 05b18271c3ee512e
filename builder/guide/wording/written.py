"""All that a writer wrote in words, looked through once: each text with its step, its plain words and the
set of them, so that whoever looks for a word knows at once whether it is there at all."""

from __future__ import annotations

from collections.abc import Iterator

import msgspec

from builder.findings import Place
from builder.guide.model import Action, Note, Prose, Repeat, Step
from builder.guide.wording.desk import Book
from builder.guide.wording.saying import literal
from builder.guide.wording.scan import bag

TOLD = ("say", "do", "title")
"""Kinds of text that tell the builder what to do."""


class Written(msgspec.Struct, frozen=True):
    """A text: its kind (say, do, title, note, tip, why, else, if missed, shows), what it says with its
    references blanked, and the words in it."""

    kind: str
    prose: Prose
    step: Step
    action: Action | None
    plain: str
    words: frozenset[str]


class Writing(msgspec.Struct, frozen=True):
    """The texts of a guide's steps in the order written, and all words of them."""

    texts: tuple[Written, ...]
    words: frozenset[str]

    def with_any(self, words: frozenset[str]) -> Iterator[Written]:
        """The texts that hold one of these words."""
        if words.isdisjoint(self.words):
            return
        for text in self.texts:
            if not words.isdisjoint(text.words):
                yield text


def written(book: Book) -> Writing:
    """The writing of a guide, made once for a book; a shared step used twice is read once."""
    if book.writing is None:
        texts: list[Written] = []
        seen: set[tuple[Place, str]] = set()
        for step in book.steps.values():
            for kind, prose, action in _of_step(step):
                key = (prose.at, kind)
                if prose.text and key not in seen:
                    seen.add(key)
                    plain = literal(prose)
                    texts.append(Written(kind, prose, step, action, plain, bag(plain)))
        book.writing = Writing(tuple(texts), frozenset().union(*(text.words for text in texts)))
    found = book.writing
    assert isinstance(found, Writing)
    return found


_Row = tuple[str, Prose, Action | None]


def _of_step(step: Step) -> Iterator[_Row]:
    yield "title", step.title, None
    if step.why is not None:
        yield "why", step.why, None
    yield from _notes(step.notes, None)
    for entry in step.actions:
        if isinstance(entry, Repeat):
            yield from _notes(entry.notes, None)
            for action in entry.actions:
                yield from _of_action(action)
        else:
            yield from _of_action(entry)


def _of_action(action: Action) -> Iterator[_Row]:
    if action.say is not None:
        yield "say", action.say, action
    yield from _notes(action.notes, action)
    for key, value in action.fields.items():
        if isinstance(value, Prose):
            kind = "do" if key == "what" else key.replace("_", " ")
            yield kind, value, action


def _notes(notes: tuple[Note, ...], action: Action | None) -> Iterator[_Row]:
    for note in notes:
        yield note.kind, note.text, action
