"""The guide's sentences as HTML: values stand out, names do not; nothing is worded here."""

from __future__ import annotations

import re

from markupsafe import Markup, escape

from builder.guide import wording
from builder.guide.model import Action, Guide, Prose, Repeat, Step
from builder.guide.wording.desk import Desk
from builder.guide.wording.pieces import NUMBER, Sentence
from builder.guide.wording.prose import reference
from builder.pages.contexts import NONE
from builder.pages.known import KnownPlaces
from builder.pages.spaces import together_in

_REFERENCE = re.compile(r"\{([^{}]*)\}")


def marked(sentence: Sentence) -> Markup:
    """A sentence with its values in bold, so that the eye finds them at the bench."""
    return together_in(
        Markup("").join(
            Markup("<b>{}</b>").format(piece.text) if piece.kind == NUMBER else escape(piece.text)
            for piece in sentence.pieces
        )
    )


def with_references(text: str, guide: Guide) -> str:
    """Markdown with its single-brace references told; one that nothing is known by stays as typed."""
    desk = Desk(guide)

    def told(found: re.Match[str]) -> str:
        before = text[: found.start()].split()
        words = reference(desk, found[1], before[-1].lower() if before else "")
        return found[0] if words is None else "".join(piece.text for piece in words)

    return _REFERENCE.sub(told, text)


class Telling:
    """What a guide says on one route. `known` are the places that only the dry run knows."""

    def __init__(self, guide: Guide, known: KnownPlaces) -> None:
        self.guide = guide
        self.known = known
        self.book = wording.Book(guide)

    def title(self, step: Step) -> str:
        """A step's title with its references told."""
        return wording.title(step, self.book).text

    def action(self, action: Action) -> Markup:
        """What one action says; empty when the line above tells it."""
        if action.told_above:
            return NONE
        return marked(self._sentence(action))

    def plain(self, action: Action) -> str:
        """What one action says, without marks."""
        return self._sentence(action).text

    def _sentence(self, action: Action) -> Sentence:
        return wording.sentence(action, self.book, known=self.known.get(action.path))

    def otherwise(self, action: Action) -> Markup:
        """What to do when a measure is off or a wait was too long; empty if nothing is written."""
        told = wording.otherwise(action, self.book)
        return marked(told) if told else NONE

    def prose(self, prose: Prose) -> Markup:
        """A note, a reason."""
        return marked(wording.render(prose, self.book))

    def repeat(self, repeat: Repeat) -> Markup:
        """The line above the actions of a repeat."""
        return marked(wording.lead(repeat, self.book))
