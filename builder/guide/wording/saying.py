"""A writer's `say` compared with its action: what it refers to, what it leaves out, which ends it names.

Pure functions of a book; the checks turn what is found here into findings.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from functools import lru_cache
from typing import cast

import msgspec

from builder.findings import Place
from builder.guide.fields import Field
from builder.guide.model import Action, Angle, Prose, Ref, Spot, Value
from builder.guide.wording.desk import Book, Desk
from builder.guide.wording.prose import field_of, knows
from builder.guide.wording.scan import Typed, clause_starts, typed_numbers, words_of
from builder.trade.ends import ENDS
from builder.trade.words import singular

NOTES = ("note", "tip", "why")


class Text(msgspec.Struct, frozen=True):
    """A writer's text in a guide, the action that it belongs to, and what it is: say, title, note, tip, why,
    else, if missed, do."""

    kind: str
    prose: Prose
    action: Action | None = None


class Say(msgspec.Struct, frozen=True):
    """A `say` with the action that it tells, and the next one if it tells that too."""

    prose: Prose
    actions: tuple[Action, ...]


def texts_of(book: Book) -> tuple[Text, ...]:
    """Every text of a guide's steps that informs or tells; a shared step used twice is read once."""
    if book.texts is None:
        seen: dict[tuple[Place, str], Text] = {}
        for text in _texts(book):
            if text.prose.text:
                seen.setdefault((text.prose.at, text.kind), text)
        book.texts = tuple(seen.values())
    return cast("tuple[Text, ...]", book.texts)


def _texts(book: Book) -> Iterator[Text]:
    for step in book.steps.values():
        yield Text("title", step.title)
        if step.why is not None:
            yield Text("why", step.why)
        for note in step.notes:
            yield Text(note.kind, note.text)
    for repeat in book.repeats.values():
        for note in repeat.notes:
            yield Text(note.kind, note.text)
    for action, _ in book.actions:
        if action.say is not None:
            yield Text("say", action.say, action)
        for note in action.notes:
            yield Text(note.kind, note.text, action)
        for key, kind in (("else", "else"), ("if_missed", "if missed"), ("shows", "shows")):
            prose = action.prose(key)
            if prose is not None:
                yield Text(kind, prose, action)
        if action.verb.kind == "do":
            prose = action.prose("what")
            if prose is not None:
                yield Text("do", prose, action)


def says_of(book: Book) -> tuple[Say, ...]:
    """Every `say`, with one or two actions."""
    if book.says is None:
        book.says = tuple(_says(book))
    return cast("tuple[Say, ...]", book.says)


def _says(book: Book) -> Iterator[Say]:
    for i, (action, repeat) in enumerate(book.actions):
        if action.say is None:
            continue
        after = book.actions[i + 1] if i + 1 < len(book.actions) else None
        same = (
            after is not None
            and after[1] is repeat
            and after[0].path.partition(".")[0] == action.path.partition(".")[0]
        )
        both = (action, after[0]) if after is not None and same and after[0].told_above else (action,)
        yield Say(action.say, both)


# -- plain words and their places -----------------------------------------------------------------


def literal(prose: Prose) -> str:
    """The text with its references blanked, so that offsets stay."""
    return _blanked(prose.text) if "{" in prose.text else prose.text


@lru_cache(maxsize=1024)
def _blanked(text: str) -> str:
    return re.sub(r"\{[^{}]*\}", lambda match: " " * len(match.group()), text)


def place_in(prose: Prose, start: int, length: int) -> Place:
    """The place of a stretch of a text; the whole text's place where it runs over several lines."""
    shift = prose.at.length - len(prose.text)  # a quoted text is longer by its two quotes
    if shift not in (0, 2):
        return prose.at
    return Place(prose.at.file, prose.at.line, prose.at.column + shift // 2 + start, max(1, length))


def numbers_in(book: Book, prose: Prose) -> list[Typed]:
    """Numbers and units that were typed, names apart."""
    text = literal(prose)
    lower = text.lower()

    def is_name(start: int, end: int) -> bool:
        return any(covers(lower, name, start, end) for name in book.names) or _is_copy(book, lower, start)

    def counted(word: str) -> bool:
        one = singular(word)
        return any(thing.name.rpartition(" ")[2] == one for thing in book.guide.things.values())

    return typed_numbers(text, is_name, counted)


def covers(text: str, name: str, start: int, end: int) -> bool:
    """Whether a name stands in the text over this stretch."""
    at = text.find(name)
    while at >= 0:
        if at <= start and end <= at + len(name):
            return True
        at = text.find(name, at + 1)
    return False


BEFORE = 100  # characters before a number in which the name of what is counted stands


def _is_copy(book: Book, text: str, start: int) -> bool:
    """ "fin 2", "wheels 1 and 3": a number behind the name of what has copies."""
    front = text[max(0, start - BEFORE) : start]  # a text of many numbers is not read anew for each
    before = list(words_of(front))
    while before and (before[-1].digits or before[-1].text == "and"):
        before.pop()
    if not before or front[before[-1].end :].strip(" 0123456789,and"):
        return False
    last = singular(before[-1].text)
    return any(t.count > 1 and t.name.lower().rpartition(" ")[2] == last for t in book.guide.things.values())


def hazards_in(book: Book) -> Callable[[str], bool]:
    """Whether a sentence names a tool or a material of the guide that has a hazard."""
    names = [
        t.name.lower() for t in book.guide.things.values() if t.hazards and t.sort in ("tool", "material")
    ]
    return lambda sentence: any(name in sentence.lower() for name in names)


# -- references -----------------------------------------------------------------------------------


def names_told(book: Book, actions: tuple[Action, ...]) -> set[str]:
    """Every name that a `say` of these actions may refer to."""
    out: set[str] = set()
    for action in actions:
        out |= {action.verb.word, "what", "place"}
        for key, v in action.fields.items():
            out |= {key, key.replace("_", " ")}
            out |= _names_in(v)
        repeat = book.repeats.get(action.path.rpartition(".")[0])
        if repeat is not None:
            out |= {repeat.of.id, repeat.around.partition(" ")[0]}
            for spot in repeat.spots:
                out |= set(spot.names)
    return out


def _names_in(v: object) -> set[str]:
    if isinstance(v, Ref):
        return {v.id, v.text}
    if isinstance(v, Spot):
        return {name for full in v.names for name in (full, full.partition(".")[0], full.partition(" ")[0])}
    if isinstance(v, Angle):
        return {v.of}
    if isinstance(v, str):
        return {v}
    if isinstance(v, tuple):
        return {name for each in v for name in _names_in(each)}
    return set()


class Stranger(msgspec.Struct, frozen=True):
    """A reference that a text may not make; `known` tells whether the guide knows the name at all."""

    name: str
    at: Place
    known: bool


def strangers(book: Book, prose: Prose, actions: tuple[Action, ...], *, strict: bool) -> list[Stranger]:
    """References to what nothing is known by, and (if strict) to what the actions do not name."""
    out: list[Stranger] = []
    told = names_told(book, actions) if strict else set()
    for piece in prose.pieces:
        if isinstance(piece, str):
            continue
        name, at = piece
        known = any(knows(Desk(book, action), name) for action in actions or (None,))
        head = name.partition(".")[0].partition(" ")[0]
        if not known or (strict and name not in told and head not in told):
            out.append(Stranger(name, at, known))
    return out


# -- what must be told ----------------------------------------------------------------------------

_ROUND = {"around": ("round", "around", "ring"), "across": ("across", "over", "side")}
_UNTIL = {"set": ("set", "sets"), "dry": ("dry", "dries"), "cured": ("cure", "cured", "cures")}


def left_out(book: Book, say: Say) -> list[tuple[Action, Field]]:
    """The fields that must be told and that the `say` does not refer to."""
    refs = {piece[0] for piece in say.prose.pieces if not isinstance(piece, str)}
    words = {w.text for w in words_of(literal(say.prose))}
    out: list[tuple[Action, Field]] = []
    for action in say.actions:
        keys = {key for name in refs if (key := field_of(action, name)) is not None}
        for field in action.spec:
            key = "what" if field.name in ("*", action.verb.word) else field.key
            if (
                field.told
                and key in action.fields
                and key not in keys
                and not _told(book, action, key, refs, words)
            ):
                out.append((action, field))
    return out


def _told(book: Book, action: Action, key: str, refs: set[str], words: set[str]) -> bool:
    v = action.fields[key]
    if v is True or v is False:
        return not v or bool(words & set(_ROUND.get(key, (key,))))
    if isinstance(v, Angle):
        repeat = book.repeats.get(action.path.rpartition(".")[0])
        return v.evenly and ((repeat is not None and bool(repeat.around)) or "evenly" in words)
    if isinstance(v, Value):
        return False
    if isinstance(v, Ref):
        return bool({v.id, v.text} & refs)
    if isinstance(v, str):
        return v in refs or bool(words & set(_UNTIL.get(v, ()))) or set(v.replace("_", " ").split()) <= words
    if isinstance(v, Prose):
        return False
    if isinstance(v, tuple) and v:
        return all(_item_told(book, each, refs, words) for each in v)
    return True


def _item_told(book: Book, v: object, refs: set[str], words: set[str]) -> bool:
    if isinstance(v, Ref):
        return bool({v.id, v.text} & refs)
    if isinstance(v, str):
        return v in refs or set(v.replace("_", " ").split()) <= words
    if isinstance(v, Spot):
        if v.lengths:
            return False
        names = {name for full in v.names for name in (full, full.partition(".")[0])}
        if names & refs:
            return True
        if v.kind in ("its mark", "corner"):
            return bool(words & {"mark", "line", "corner", "place"})
        if any(name in book.marks and _line_word(name) & words for name in names):
            return True
        return v.kind in ("flush", "meets", "middle", "named") and any(
            name in ENDS and name in words for name in names
        )
    return True


def _line_word(mark: str) -> set[str]:
    last = mark.rpartition("_")[2]
    return {last, singular(last)}


# -- verbs ----------------------------------------------------------------------------------------


def has_verb(say: Say) -> bool:
    """Whether a clause of the text begins with one of the verbs of its action."""
    starts = {w.text for w in clause_starts(literal(say.prose))}
    text = literal(say.prose).lower()
    for action in say.actions:
        if not action.verb.says:
            return True
        if any(
            verb in starts or (" " in verb and verb in text) for verb in (*action.verb.says, action.verb.word)
        ):
            return True
    return False
