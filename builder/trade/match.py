"""How a name in a guide is recognised: by the last words of its first noun phrase, longest match first.

"junior hacksaw" ends in "hacksaw"; "1/16 in bit in a pin vice" is a bit; "hand drill with a 6 mm bit" is a
hand drill. A name that ends in no known words is not known, and is better asked about than guessed.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Protocol, TypeVar

from builder.trade.words import UNIT_WORDS, singular

# A noun phrase ends where one of these begins; "in" only when it is not the inch after a number.
_CLOSERS = frozenset(
    (
        "with",
        "of",
        "for",
        "from",
        "on",
        "at",
        "to",
        "by",
        "into",
        "inside",
        "without",
        "in",
        "that",
        "under",
        "over",
    )
)
# "brush no. 4", "brush size 4": a size after the noun.
_SIZERS = frozenset(("no", "nr", "size", "number", "grade"))
# "pair of scissors", "roll of tape": the noun is what follows.
_MEASURES = (
    "bit",
    "box",
    "length",
    "pack",
    "packet",
    "pair",
    "piece",
    "pot",
    "reel",
    "roll",
    "set",
    "sheet",
    "tube",
)


class _Named(Protocol):
    @property
    def match(self) -> tuple[str, ...]: ...


Row = TypeVar("Row", bound=_Named)


def key_of(text: str) -> str:
    """A table key from how a guide may write it: "Hot melt", "hot-melt" and "hot_melt" are one key."""
    return "_".join(text.lower().replace("-", " ").replace("_", " ").split())


def _numeric(word: str) -> bool:
    return any(letter.isdigit() for letter in word)


def head_words(name: str) -> tuple[str, ...]:
    """The words of the first noun phrase of a name, lower case, the last one in the singular."""
    text = name.lower()
    for opener in "(,;:":
        text = text.split(opener, 1)[0]
    before, of, after = text.partition(" of ")
    if of and singular(before.split()[-1] if before.split() else "") in _MEASURES:
        text = after
    words: list[str] = []
    for word in text.replace("-", " ").replace("_", " ").split():
        word = word.strip(".'\"")
        if not word:
            continue
        if word in _CLOSERS and words and not (word == "in" and _numeric(words[-1])):
            break
        words.append(word)
    while len(words) > 1 and (
        _numeric(words[-1]) or words[-1] in _SIZERS or (words[-1] in UNIT_WORDS and _numeric(words[-2]))
    ):
        words.pop()
    if words:
        words[-1] = singular(words[-1])
    return tuple(words)


def index(rows: Iterable[Row]) -> dict[tuple[str, ...], Row]:
    """Every match phrase of the rows, as words with the last one singular, to its row."""
    table: dict[tuple[str, ...], Row] = {}
    for row in rows:
        for phrase in row.match:
            words = phrase.split()
            words[-1] = singular(words[-1])
            table[tuple(words)] = row
    return table


def longest(table: Mapping[tuple[str, ...], Row], words: tuple[str, ...]) -> Row | None:
    """The row whose phrase is the longest ending of these words, or None."""
    for start in range(len(words)):
        row = table.get(words[start:])
        if row is not None:
            return row
    return None
