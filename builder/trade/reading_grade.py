"""The reading grade of a text by the Flesch-Kincaid formula, and the syllables that it counts.

grade = 0.39 words/sentences + 11.8 syllables/words - 15.59; ease = 206.835 - 1.015 words/sentences
- 84.6 syllables/words (a research page of the US Department of Veterans Affairs; the formula is public).
The formula is exact. The counter goes by spelling, so a grade from it is good to about a grade; published
counters differ by more than that among themselves.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from fractions import Fraction
from functools import lru_cache

import msgspec

GRADE_SOURCES = ("flesch_kincaid",)
"""Keys of `sources`."""


class Counts(msgspec.Struct, frozen=True):
    """How many sentences, words and syllables a text has."""

    sentences: int
    words: int
    syllables: int


def grade(counts: Counts) -> Fraction:
    """The school grade; 0 for a text without words."""
    if not counts.words or not counts.sentences:
        return Fraction(0)
    per_sentence, per_word = (
        Fraction(counts.words, counts.sentences),
        Fraction(counts.syllables, counts.words),
    )
    return Fraction(39, 100) * per_sentence + Fraction(118, 10) * per_word - Fraction(1559, 100)


def ease(counts: Counts) -> Fraction:
    """The reading ease: 100 is easy, 0 is hard; 0 for a text without words."""
    if not counts.words or not counts.sentences:
        return Fraction(0)
    per_sentence, per_word = (
        Fraction(counts.words, counts.sentences),
        Fraction(counts.syllables, counts.words),
    )
    return Fraction(206835, 1000) - Fraction(1015, 1000) * per_sentence - Fraction(846, 10) * per_word


# Patterns stay texts, compiled by the first look at a word: few guides are counted word by word.
_WORD = r"[a-z]+(?:'[a-z]+)?"
_GROUPS = r"[aeiouy]+"
# Vowels that are said apart: "di-al", "earli-er", "usu-al", "lay-er", "radi-us", "be-ing", "are-a".
_APART = (
    r"(?<![tcsgx])i[ao]|i(?:er|est|et|u)|(?<![gq])ua(?!r)|(?<![gq])ue[lnt]|eo(?!us|ple)|(?<=[a-df-z])y(?=[aeo])"
    r"|(?<=.)ey(?=[aeo])|[eoy]ing|(?<=[aeiouy][^aeiouy])ea(?=s?\b)|creat|[lr]ui[dn]|ism\b|[bt]re(?=s?\b)"
)
# An e that is not said: at the end, and where a longer word was made from one that ends so.
_SILENT = (
    r"(?<=[^aeiouy])(?<![^aeiouyrl]l)e\b|(?<![aeiouytd])(?<![^aeiouyrl]l)ed\b"
    r"|(?<![aeiouy])(?<!ch|sh)(?<![cgszx])(?<![^aeiouyrl]l)es\b|[gq]ues?\b"
    r"|(?<=[aeiouy][^aeiouywx])e(?=(?:ly|ment|ful|less|ness|some|ty|body|thing|where|one|hand|line|way|what)s?\b)"
)
_SAID = ((_GROUPS, 1), (_APART, 1), (_SILENT, -1))


@lru_cache(maxsize=4096)
def syllables(word: str) -> int:
    """The syllables of a word by its spelling; at least one. An apostrophe may stand in it."""
    text = word.lower().replace("'", "")
    said = sum(way * len(re.findall(pattern, text)) for pattern, way in _SAID)
    return max(said, 1)


def counted(sentences: Iterable[str]) -> Counts:
    """The counts of a text that is already parted into sentences; figures and signs are no words."""
    found = [words for text in sentences if (words := re.findall(_WORD, text.lower().replace("’", "'")))]
    return Counts(len(found), sum(map(len, found)), sum(syllables(w) for words in found for w in words))
