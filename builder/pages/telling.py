"""The guide's sentences as HTML: values stand out, names do not; nothing is worded here."""

from __future__ import annotations

import re
from collections.abc import Mapping

from markupsafe import Markup, escape

from builder.dryrun.bench import Bench
from builder.dryrun.run import Frame
from builder.guide import wording
from builder.guide.model import Action, Guide, Prose, Repeat, Step
from builder.guide.wording.desk import Desk
from builder.guide.wording.pieces import NUMBER, Sentence
from builder.guide.wording.prose import reference
from builder.pages.contexts import NONE

_REFERENCE = re.compile(r"\{([^{}]*)\}")


def marked(sentence: Sentence) -> Markup:
    """A sentence with its values in bold, so that the eye finds them at the bench."""
    return Markup("").join(
        Markup("<b>{}</b>").format(piece.text) if piece.kind == NUMBER else escape(piece.text)
        for piece in sentence.pieces
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
    """What a guide says on one route. `frames` are the dry run's first frame of each action, by its path."""

    def __init__(self, guide: Guide, frames: Mapping[str, Frame]) -> None:
        self.guide = guide
        self.frames = frames
        self.book = wording.Book(guide)

    def title(self, step: Step) -> str:
        """A step's title with its references told."""
        return wording.title(step, self.book).text

    def action(self, action: Action) -> Markup:
        """What one action says; empty when the line above tells it."""
        if action.told_above:
            return NONE
        return marked(wording.sentence(action, self.book))

    def plain(self, action: Action) -> str:
        """What one action says, without marks."""
        return wording.sentence(action, self.book).text

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

    def wait_source(self, action: Action) -> str:
        """Where the length of a wait comes from: the labels of what dries, or nothing if it was typed."""
        frame = self.frames.get(action.path)
        if frame is None or action.value("for") is not None:
            return ""
        names = [self.guide.things[id].name for id in drying(frame, self.guide)]
        if not names:
            return ""
        return f"The time is from the label of the {' and the '.join(names)}. Your own label comes first."


def drying(frame: Frame, guide: Guide) -> tuple[str, ...]:
    """Ids of the adhesives and paints that a wait waits for: those still short of what it asks."""
    until = frame.action.word("until")
    bench = frame.before
    below = {item for ref in frame.action.refs("what") for item in _below(bench, ref.id, guide)}
    found: dict[str, None] = {}
    for joint in bench.joints:
        thing = guide.things.get(joint.adhesive)
        needed = thing.mm("full_cure" if until == "cured" else "set") if thing else None
        if thing and needed and {joint.a, joint.b} & below and joint.closed + needed > bench.clock:
            found[thing.id] = None
    for coat in bench.coats:
        thing = guide.things.get(coat.paint)
        needed = thing.mm("full_cure" if until == "cured" else "dry") if thing else None
        if thing and needed and coat.item in below and coat.at + needed > bench.clock:
            found[thing.id] = None
    return tuple(found)


def _below(bench: Bench, name: str, guide: Guide) -> set[str]:
    """All items that a name stands for, and what sits on them."""
    thing = guide.things.get(name)
    base = thing.refs.get("base") if thing and thing.form == "assembly" else None
    wanted = base.id if base else name
    keys = [key for key, item in bench.items.items() if item.thing == wanted]
    return {each for key in keys for each in bench.below(key)}
