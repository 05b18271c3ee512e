"""How a name in a guide is recognised: by the last words of its first noun phrase, longest match first.

"junior hacksaw" ends in "hacksaw"; "1/16 in bit in a pin vice" is a bit; "hand drill with a 6 mm bit" is a
hand drill. A name that ends in no known words is not known, and is better asked about than guessed.

Tables hold their phrases as `plain` writes them, the last word in the singular unless it is only used in the
plural, so that loading a table is no work.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import TypeVar

from builder.trade.words import UNIT_WORDS, singular

# A noun phrase ends where one of these begins; "in" only when it is not the inch after a number.
_CLOSERS = frozenset((
    "at", "by", "for", "from", "in", "inside", "into", "of", "on", "over", "that", "to", "under", "with",
    "without",
))  # fmt: skip
# "brush no. 4", "brush size 4": a size after the noun.
_SIZERS = frozenset(("grade", "no", "nr", "number", "size"))
# "pair of scissors", "roll of tape": the noun is what follows.
_MEASURES = frozenset((
    "bit", "box", "length", "pack", "packet", "pair", "piece", "pot", "reel", "roll", "set", "sheet", "strip",
    "tube",
))  # fmt: skip

Row = TypeVar("Row")


def plain(text: str) -> str:
    """A key or name as tables hold it, lower case with single spaces: "Hot-melt" to "hot melt"."""
    return " ".join(text.lower().replace("-", " ").replace("_", " ").split())


def _numeric(word: str) -> bool:
    return any(letter.isdigit() for letter in word)


def head_words(name: str) -> tuple[str, ...]:
    """The words of the first noun phrase of a name, lower case, without a size that follows the noun."""
    text = name.lower()
    for opener in "(,;:":
        text = text.split(opener, 1)[0]
    before, of, after = text.partition(" of ")
    if of and before.split() and singular(before.split()[-1]) in _MEASURES:
        text = after
    words: list[str] = []
    for part in plain(text).split():
        word = part.strip(".'\"")
        if word in _CLOSERS and words and not (word == "in" and _numeric(words[-1])):
            break
        if word:
            words.append(word)
    while len(words) > 1 and _is_size(words):
        words.pop()
    return tuple(words)


def _is_size(words: list[str]) -> bool:
    last = words[-1]
    return _numeric(last) or last in _SIZERS or (last in UNIT_WORDS and _numeric(words[-2]))


def longest(table: Mapping[str, Row], words: tuple[str, ...]) -> tuple[Row, int] | None:
    """The row whose phrase is the longest ending of these words, and how many words come before it."""
    if not words:
        return None
    one = (*words[:-1], singular(words[-1]))
    for start in range(len(words)):
        row = table.get(" ".join(words[start:])) or table.get(" ".join(one[start:]))
        if row is not None:
            return row, start
    return None
