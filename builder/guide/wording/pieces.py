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
    out: list[Piece] = []
    last = " "  # the last character so far
    for piece in words:
        text = piece.text
        if piece.kind == TEXT:
            while "  " in text:
                text = text.replace("  ", " ")
            text = text.replace(" ,", ",").replace(",,", ",").replace(" :", ":").replace(",:", ":")
        if last == " ":
            text = text.lstrip(" ")
        if not text:
            continue
        if text[0] in ",.:" and out and out[-1].kind == TEXT:
            shorter = out[-1].text.rstrip(" ")
            if text[0] in ".:" or shorter.endswith(","):
                shorter = shorter.rstrip(",")
            out[-1] = Piece(shorter)
            if not shorter:
                out.pop()
        if piece.kind == TEXT and out and out[-1].kind == TEXT:
            out[-1] = Piece(out[-1].text + text)
        else:
            out.append(Piece(text, piece.kind, piece.of))
        last = text[-1]
    while out and out[-1].kind == TEXT and not out[-1].text.strip(" ,"):
        out.pop()
    if out and out[-1].kind == TEXT:
        out[-1] = Piece(out[-1].text.rstrip(" ,"))
    return tuple(out)


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
