"""Pieces of a sentence: plain words, names and numbers, so that a page can mark up what is named."""

from __future__ import annotations

import re
from collections.abc import Iterable
from typing import TypeAlias

import msgspec

TEXT, NAME, NUMBER = "", "name", "number"


class Piece(msgspec.Struct, frozen=True):
    """A run of words. `kind` is "" for plain words, "name" for what a thing, mark or zone is called, "number"
    for a value; `of` is then the id, or the path of the number, that it was taken from."""

    text: str
    kind: str = TEXT
    of: str = ""


Words: TypeAlias = tuple[Piece, ...]


class Sentence(msgspec.Struct, frozen=True):
    """What one action, title or note says; `text` is the same without the marks."""

    pieces: Words = ()

    @property
    def text(self) -> str:
        """Plain text."""
        return "".join(piece.text for piece in self.pieces)


def plain(text: str) -> Words:
    """Plain words."""
    return (Piece(text),) if text else ()


_SLOT = re.compile(r"\{([a-z_]+)\}")


def fill(template: str, slots: dict[str, Words]) -> Words:
    """A phrase with its slots filled; what has no slot is left empty."""
    out: list[Piece] = []
    for i, part in enumerate(_SLOT.split(template)):
        if i % 2:
            out += slots.get(part, ())
        elif part:
            out.append(Piece(part))
    return tuple(out)


def slots_of(template: str) -> list[str]:
    """The names of a phrase's slots, in order."""
    return _SLOT.findall(template)


def tidy(words: Iterable[Piece]) -> Words:
    """The same words with single spaces, none before a comma, and neighbouring plain pieces joined."""
    joined: list[Piece] = []
    for piece in words:
        if piece.kind == TEXT and joined and joined[-1].kind == TEXT:
            joined[-1] = Piece(joined[-1].text + piece.text)
        elif piece.text:
            joined.append(piece)
    out: list[Piece] = []
    last = " "  # the last character so far
    for piece in joined:
        text = piece.text
        if piece.kind == TEXT:
            text = _cleaned(text)
            if last == " ":
                text = text.lstrip(" ")
        if text:
            out.append(piece if text == piece.text else Piece(text))
            last = text[-1]
    while out and out[-1].kind == TEXT:
        shorter = out[-1].text.rstrip(" ,")
        if shorter == out[-1].text:
            break
        out.pop()
        if shorter:
            out.append(Piece(shorter))
    return tuple(out)


def _cleaned(text: str) -> str:
    while "  " in text:
        text = text.replace("  ", " ")
    if "," in text or "." in text or ":" in text:
        for wrong, right in ((" ,", ","), (",,", ","), (" .", "."), (",.", "."), (" :", ":"), (",:", ":")):
            if wrong in text:
                text = text.replace(wrong, right)
    return text


def capital(words: Words) -> Words:
    """The same words with a capital at the beginning."""
    if not words:
        return words
    first = words[0]
    return (Piece(first.text[:1].upper() + first.text[1:], first.kind, first.of), *words[1:])


def closed(words: Iterable[Piece]) -> Words:
    """Words as a sentence: tidied, with a capital and a full stop."""
    whole = capital(tidy(words))
    if whole and whole[-1].text[-1] not in ".:!?":
        return tidy((*whole, Piece(".")))
    return whole


def text_of(words: Iterable[Piece]) -> str:
    """Plain text of words."""
    return "".join(piece.text for piece in words)
