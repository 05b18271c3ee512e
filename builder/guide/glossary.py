"""The glossary of a guide: the terms that its texts use, each with its meaning, and no others.

Meanings come from the guide's own `terms` first, then from the trade's table. Pure functions.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator

import msgspec

from builder.guide.model import Guide, Repeat, Step
from builder.guide.wording import Book, lead, otherwise, render, sentence, title
from builder.trade.terms import TERMS
from builder.trade.words import plural


class Entry(msgspec.Struct, frozen=True):
    """A term and what it means. `own` is true where the guide itself explains it."""

    word: str
    means: str
    own: bool = False


def glossary(guide: Guide, texts: Iterable[str] | None = None) -> tuple[Entry, ...]:
    """The terms that these texts use, in the order of the alphabet; by default all that the steps of the
    guide tell on all routes. A page hands in what it prints, so that it explains nothing else."""
    whole = _plain(" . ".join(spoken(guide) if texts is None else texts))
    found = {
        term.word.lower(): Entry(term.word, term.means, True)
        for term in guide.terms
        if term.means and _holds(whole, (term.word, plural(term.word)))
    }
    for term in TERMS:
        if term.word not in found and _holds(whole, term.shapes):
            found[term.word] = Entry(term.word, term.means)
    return tuple(found[word] for word in sorted(found))


def _plain(text: str) -> str:
    """The words of a text in small letters, with one space round each; a stop stays, so that no term runs
    over one."""
    spaced = re.sub(r"[.,;:!?()]", " . ", text.lower())
    return f" {' '.join(word for word in re.split(r'[^a-z.’]+', spaced) if word)} "


def _holds(whole: str, shapes: Iterable[str]) -> bool:
    return any(f" {shape.lower().replace('-', ' ')} " in whole for shape in shapes)


def spoken(guide: Guide) -> Iterator[str]:
    """All that the steps tell: titles, sentences, notes, reasons, what to do otherwise, names of stages."""
    book = Book(guide)
    yield from dict.fromkeys(stage.name for stage in guide.stages)
    for step in guide.every_step():
        yield from _of_step(step, book)


def _of_step(step: Step, book: Book) -> Iterator[str]:
    yield title(step, book).text
    if step.why is not None:
        yield render(step.why, book).text
    notes = [*step.notes]
    for entry in step.actions:
        notes += entry.notes
        if isinstance(entry, Repeat):
            yield lead(entry, book).text
        for action in entry.actions if isinstance(entry, Repeat) else (entry,):
            if isinstance(entry, Repeat):
                notes += action.notes
            yield sentence(action, book).text
            other = otherwise(action, book)
            if other is not None:
                yield other.text
    for note in notes:
        yield render(note.text, book).text
    if step.picture is not None:
        yield step.picture.alt
