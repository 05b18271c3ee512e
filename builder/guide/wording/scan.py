"""What a writer typed in plain words: numbers and units, commands, warnings. Pure functions of a text.

Offsets are in characters of the text that was handed in.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Sequence
from functools import lru_cache

import msgspec

from builder.guide.wording.signs import (
    BEFORE_THAT,
    BEFORE_UNIT,
    CLAUSE_WORDS,
    CONDITIONS,
    COUNTED,
    HARMLESS_COUNTS,
    NOUNS_TOO,
    OBJECTS,
    OPENING_ADVERBS,
    PARTICLES,
    PERSONS,
    PRONOUN_BEFORE,
    RANGE_WORDS,
    SHARP_THINGS,
    STUFF,
    UNIT_NOT_ALONE,
    UNIT_SIGNS,
    WEAK_WARNINGS,
)
from builder.trade.words import IMPERATIVES, NUMBER_WORDS, PLURAL_ONLY, UNIT_WORDS, WARNING_WORDS


class Word(msgspec.Struct, frozen=True):
    """A word or a number as it stands in the text, in small letters."""

    text: str
    start: int
    end: int

    @property
    def digits(self) -> bool:
        """Whether it is a number in figures."""
        return not self.text[0].isalpha()


class Typed(msgspec.Struct, frozen=True):
    """A typed number or unit, with its place in the text."""

    text: str
    start: int


_VULGAR = "¼½¾⅓⅔⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞"
_WORD = re.compile(rf"[^\W\d_]+(?:['’][^\W\d_]+)?|\d+(?:[.,/:]\d+)*|[{_VULGAR}]")


@lru_cache(maxsize=1024)  # a sentence is looked at by many checks
def words_of(text: str) -> tuple[Word, ...]:
    """The words and numbers of a text; the target of a link is no text."""
    if "](" in text or "://" in text:
        link = r"\]\([^)]*\)|<?https?://[^\s>]+>?"
        text = re.sub(link, lambda match: " " * len(match.group()), text)
    return tuple([Word(m.group().lower(), m.start(), m.end()) for m in _WORD.finditer(text)])


_MARKS = {ord(c): " " for c in ",.;:!?()[]\"'’“”/±°%-–"} | {ord(c): " 0 " for c in f"0123456789{_VULGAR}"}


@lru_cache(maxsize=1024)  # many checks ask whether a text holds one of their words
def bag(text: str) -> frozenset[str]:
    """The words of a text without order, in small letters; a figure is "0". Quicker than `words_of`."""
    return frozenset(text.lower().translate(_MARKS).split())


# -- numbers --------------------------------------------------------------------------------------

# Counting words that also have a harmless meaning stand in their own rules below.
_COUNTING = frozenset(word for word in NUMBER_WORDS if word not in HARMLESS_COUNTS)
_SAID_UNITS = UNIT_WORDS - UNIT_NOT_ALONE
_NUMBER_SIGNS = (
    _COUNTING | UNIT_SIGNS | _SAID_UNITS | {"0", "one", "third", "pair", "couple", "second", "seconds"}
)


def typed_numbers(
    text: str,
    is_name: Callable[[int, int], bool] = lambda start, end: False,
    nouns: Callable[[str], bool] = lambda word: False,
) -> list[Typed]:
    """Digits, counting words and units that were typed; a run of them ("20 to 30 min") is one.

    `is_name` tells whether a stretch belongs to a name ("fin 2"), `nouns` if a word names a counted thing.
    """
    if _NUMBER_SIGNS.isdisjoint(bag(text)):
        return []
    words = words_of(text)
    hits = [i for i in range(len(words)) if _is_number(words, i, text, nouns)]
    out: list[Typed] = []
    last = -2
    for i in hits:
        word = words[i]
        if is_name(word.start, word.end):
            continue
        end = _unit_after(words, i, text)
        if out and i <= last or out and _joined(words, last, i, text):
            pass
        else:
            out.append(Typed("", word.start))
        last = max(end, last)
        start = out[-1].start
        out[-1] = Typed(text[start : words[last].end], start)
    return out


def _is_number(words: Sequence[Word], i: int, text: str, nouns: Callable[[str], bool]) -> bool:
    word = words[i]
    before = words[i - 1].text if i else ""
    after = words[i + 1].text if i + 1 < len(words) else ""
    if word.digits:
        return not (word.start and (text[word.start - 1].isalpha() or text[word.start - 1] == "_"))  # A4, M3
    if word.text in _COUNTING:
        return not (word.text == "half" and after == "way")
    if word.text == "one":
        counted = after in COUNTED or after in UNIT_WORDS - {"in"} or nouns(after)
        return counted and before not in PRONOUN_BEFORE
    if word.text == "third":
        return before in ("a", "one", "two") and after == "of"
    if word.text == "pair":
        return after == "of" and not (i + 2 < len(words) and words[i + 2].text in PLURAL_ONLY)
    if word.text == "couple":
        return after == "of"
    if word.text in UNIT_SIGNS:
        return True
    if word.text in ("second", "seconds"):
        alone = i + 1 == len(words) or not text[word.end : words[i + 1].start].isspace()
        return (before == "a" and alone) or before in ("few", "several")
    return word.text in _SAID_UNITS and (
        before in BEFORE_UNIT or (before == "of" and i > 1 and words[i - 2].text == "couple")
    )


def _unit_after(words: Sequence[Word], i: int, text: str) -> int:
    """The index of the unit that belongs to a number, or of the number itself."""
    if i + 1 < len(words) and words[i + 1].text in UNIT_WORDS and words[i].text not in UNIT_WORDS:
        between = text[words[i].end : words[i + 1].start]
        if between in ("", " ", "-"):
            return i + 1
    return i


def _joined(words: Sequence[Word], last: int, i: int, text: str) -> bool:
    """Whether two typed numbers are one value: `1 1/2`, `20 to 30 min`, `7 in ± 1/8 in`, `3 in x 1 in`."""
    between = text[words[last].end : words[i].start].strip()
    if i == last + 1:
        return between in ("", "-", "–", "±", "+/-", "×", "x", "/")
    return i == last + 2 and words[last + 1].text in RANGE_WORDS


# -- commands -------------------------------------------------------------------------------------

_COMMANDS = frozenset(IMPERATIVES) | {"don't", "never", "always", "please", "avoid"}
_OPENERS = _COMMANDS | CONDITIONS | OPENING_ADVERBS
_MUST = r"(?i)\byou (?:must|should|need to|have to|ought to)\b|\bmake sure\b|\bbe sure\b"
_MUST_WORDS = frozenset(("must", "should", "need", "have", "ought", "sure"))
_SENTENCE = re.compile(r"[^.!?;:]+")


def sentences(text: str) -> Iterator[tuple[int, str]]:
    """The sentences of a text with their offsets; a colon or a semicolon ends one too."""
    for match in _SENTENCE.finditer(text):
        start = match.start() + len(match.group()) - len(match.group().lstrip())
        if match.group().strip():
            yield start, match.group().strip()


def commands(text: str) -> list[Typed]:
    """What tells the builder to do something: "Press the ring", "If it leans, push it", "You should ..."."""
    out: list[Typed] = []
    told = bag(text)
    must = None if _MUST_WORDS.isdisjoint(told) else re.compile(_MUST)
    if _COMMANDS.isdisjoint(told) and (must is None or must.search(text) is None):
        return []
    for start, sentence in sentences(text):
        if sentence.partition(" ")[0].strip(",").lower() not in _OPENERS:
            match = must.search(sentence) if must is not None else None
            if match is not None:
                out.append(Typed(match.group(), start + match.start()))
            continue
        found = _command(words_of(sentence), sentence)
        if found is not None:
            out.append(Typed(sentence[found.start : found.end], start + found.start))
        elif must is not None and (match := must.search(sentence)) is not None:
            out.append(Typed(match.group(), start + match.start()))
    return out


def _command(words: Sequence[Word], text: str) -> Word | None:
    if not words or (text[0].islower() and (len(words) < 2 or words[1].text not in OBJECTS)):
        return None  # behind a colon: "two kinds: glue and paint"
    starts = [0]
    if words[0].text in CONDITIONS:
        starts = [i for i in range(1, len(words)) if "," in text[words[i - 1].end : words[i].start]]
    elif words[0].text in OPENING_ADVERBS:
        starts = [0, 1]
    for i in starts:
        if i < len(words) and _commands_at(words, i):
            return words[i]
    return None


def _commands_at(words: Sequence[Word], i: int) -> bool:
    word = words[i].text
    if word not in _COMMANDS:
        return False
    after = words[i + 1].text if i + 1 < len(words) else ""
    then = words[i + 2].text if i + 2 < len(words) else ""
    if after == "that":
        return word in BEFORE_THAT
    if word not in NOUNS_TOO:
        return bool(after)
    if after in OBJECTS or (after.endswith("ly") and not then):
        return True  # "Glue the fin" commands, "Glue on the lens wipes away" tells
    return word not in STUFF and after in PARTICLES and then in OBJECTS and then not in ("it", "its")


@lru_cache(maxsize=1024)
def clause_starts(text: str) -> tuple[Word, ...]:
    """The words that begin a clause, where a command stands; adverbs before it are passed over."""
    out: list[Word] = []
    last: Word | None = None
    begins = False
    for word in words_of(text):
        if last is not None:
            between = text[last.end : word.start]
            begins = (
                (between != " " and not _BREAKS.isdisjoint(between))
                or last.text in CLAUSE_WORDS
                or (begins and _adverb(last.text))
            )
        if begins or last is None:
            begins = True
            out.append(word)
        last = word
    return tuple(out)


_BREAKS = frozenset(",;:.!?()")


def _adverb(word: str) -> bool:
    return word.endswith("ly") or word in ("now", "then", "next", "again", "first", "carefully")


# -- warnings -------------------------------------------------------------------------------------

# "safety code" is a name, no warning
_STRONG = tuple(word for word in WARNING_WORDS if word not in WEAK_WARNINGS and word != "safety")
_WARNING_SIGNS = WEAK_WARNINGS | {word.partition(" ")[0] for word in _STRONG}


def warnings(text: str, hazardous: Callable[[str], bool] = lambda sentence: False) -> list[Typed]:
    """What warns of harm: a strong word by itself ("beware", "fumes"), a weaker one ("hot", "sharp") beside a
    person or a tool. `hazardous` tells whether a sentence names a tool or material with a hazard."""
    out: list[Typed] = []
    if _WARNING_SIGNS.isdisjoint(bag(text)):
        return out
    for start, sentence in sentences(text):
        words = words_of(sentence)
        plain = f" {' '.join(w.text for w in words)} "
        strong = next((s for s in _STRONG if f" {s} " in plain), None)
        if strong is not None:
            out.append(Typed(strong, start + words[plain[1:].split(f"{strong} ")[0].count(" ")].start))
            continue
        weak = next((w for w in words if w.text in WEAK_WARNINGS), None)
        if weak is not None and (
            any(w.text in PERSONS or w.text in SHARP_THINGS for w in words) or hazardous(sentence)
        ):
            out.append(Typed(weak.text, start + weak.start))
    return out
