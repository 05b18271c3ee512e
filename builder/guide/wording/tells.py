"""What a sentence does beside its words: waits, conditions behind the action, references, repeats, amounts.

Pure functions of a plain text (references blanked); each gives what it found with its offset. They go by the
shape of a sentence and are meant to be silent when in doubt.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from builder.guide.wording.scan import Typed, Word, clause_starts, sentences, words_of
from builder.trade.words import IMPERATIVES

_IMPERATIVES = frozenset(IMPERATIVES)


def commands_in(text: str) -> list[Word]:
    """The verbs in the form of a command that begin a clause of the text."""
    return [word for word in clause_starts(text) if word.text in _IMPERATIVES]


def _first_command(words: Sequence[Word], told: bool = False) -> int | None:
    """The index of the command that a sentence begins with, adverbs passed over; where it is `told` that the
    text begins with one, whatever word that is."""
    for i, word in enumerate(words):
        if word.text in _IMPERATIVES:
            return i
        if told and not word.text.endswith("ly") and word.text not in _OPENERS:
            return i
        if not (word.text.endswith("ly") or word.text in _OPENERS):
            return None
    return None


_OPENERS = frozenset(("now", "then", "next", "again", "first", "please", "finally"))

# -- waits ----------------------------------------------------------------------------------------

WAIT_SIGNS = frozenset((
    "cure", "cured", "cures", "curing", "dried", "dries", "dry", "drying", "harden", "hardened",
    "hardens", "hours", "overnight", "set", "sets", "tacky", "wait",
))  # fmt: skip
_LETS = frozenset(("let", "allow", "leave", "wait"))
_DRIES = frozenset((
    "cure", "cured", "cures", "dried", "dries", "dry", "harden", "hardened", "hardens", "set", "sets",
    "tacky",
))  # fmt: skip
_UNTIL = frozenset(("until", "till", "to"))


def waits(text: str, *, commands: bool = False) -> Iterator[Typed]:
    """A wait told in words: "Let it dry", "Leave it overnight", "Hold it until it sets". `commands` says that
    every sentence begins with a command, known or not, as what is to be done does."""
    for start, sentence in sentences(text):
        words = words_of(sentence)
        told = [word.text for word in words]
        at = _first_command(words, commands)
        if at is None:
            continue
        if _is_wait(words[at].text, told[at + 1 :]):
            yield Typed(sentence, start)


def _is_wait(command: str, rest: list[str]) -> bool:
    if "overnight" in rest:
        return True
    if command == "wait" and {"minute", "minutes", "hour", "hours"} & set(rest):
        return True
    if command in _LETS and not _DRIES.isdisjoint(rest):
        return True
    behind = (i for i, word in enumerate(rest[1:], 1) if word in _LETS and rest[i - 1] in ("and", "then"))
    if any(not _DRIES.isdisjoint(rest[i + 1 : i + 6]) for i in behind):  # "Press it on, and let it dry"
        return True
    if command == "set" and "until" not in rest:  # "Set it to dry side up"
        return False
    return any(word in _UNTIL and not _DRIES.isdisjoint(rest[i + 1 : i + 6]) for i, word in enumerate(rest))


# -- conditions -----------------------------------------------------------------------------------

CONDITION_SIGNS = frozenset(("if", "unless", "when", "whenever", "except", "provided"))
# Behind one of these the condition is what is looked for: "Check if it turns", "as if", "even when".
_ASKED = frozenset((
    "as", "ask", "check", "even", "feel", "find", "know", "look", "note", "only", "remember", "say",
    "see", "tell", "test", "try", "watch",
))  # fmt: skip


def conditions_behind(text: str, *, commands: bool = False) -> Iterator[Typed]:
    """A condition that comes after its action: "Cut it, unless it is wet"; `commands` as for `waits`."""
    for start, sentence in sentences(text):
        words = words_of(sentence)
        at = _first_command(words, commands)
        if at is None:
            continue
        for i in range(at + 2, len(words)):
            word = words[i]
            if word.text in CONDITION_SIGNS and not _ASKED.intersection((words[i - 1].text, words[at].text)):
                if word.text == "except" and (i + 1 == len(words) or words[i + 1].text not in ("if", "when")):
                    continue
                if word.text == "provided" and (i + 1 == len(words) or words[i + 1].text != "that"):
                    continue
                yield Typed(sentence[word.start :], start + word.start)
                break


# -- references to other places of the guide --------------------------------------------------------

REFERENCE_SIGNS = frozenset((
    "above", "before", "below", "diagram", "diagrams", "drawing", "drawings", "earlier", "fig", "figure",
    "figures", "item", "label", "letter", "opposite", "overleaf", "page", "pages", "part", "photo",
    "picture", "pictures", "piece", "previously", "section", "stage", "step", "steps", "table",
))  # fmt: skip
_THINGS = frozenset((
    "diagram", "diagrams", "drawing", "drawings", "fig", "figure", "figures", "page", "pages", "photo",
    "photos",
    "picture", "pictures", "section", "sections", "stage", "stages", "step", "steps", "table", "tables",
))  # fmt: skip
_LETTERED = _THINGS | {"part", "piece", "item", "label", "letter"}
_COUNTS = frozenset(("one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten"))
_POINTS = frozenset((
    "as", "described", "explained", "given", "listed", "mentioned", "noted", "see", "shown", "told",
))  # fmt: skip
_PLACES = frozenset(("above", "before", "below", "earlier", "opposite", "overleaf", "previously"))
_BESIDE = frozenset(("above", "below", "before", "overleaf"))
_FIRST = frozenset((
    "above", "earlier", "following", "foregoing", "last", "next", "preceding", "previous",
))  # fmt: skip
# Behind "below" one of these begins what it is below of.
_NOUN_BEGINS = frozenset(("a", "an", "each", "it", "its", "the", "they", "you", "your"))


def references(text: str) -> Iterator[Typed]:
    """A reference by words to a place that may move: "step 7", "see above", "the next page", "part B"."""
    words = words_of(text)
    last = -1
    for i in range(len(words) - 1):
        end = _reference_end(text, words, i) if i > last else i
        if end > i:
            last = end
            start = words[i].start
            yield Typed(text[start : words[end].end], start)


def _reference_end(text: str, words: Sequence[Word], i: int) -> int:
    """The index of the last word of a reference that begins here; i itself if none does."""
    word, after = words[i].text, words[i + 1]
    close = not text[words[i].end : after.start].strip(" .")
    if word in _THINGS and close and (after.digits or after.text in _COUNTS):
        return i + 1
    if word in _LETTERED and close and _is_letter(text, words, i + 1):
        return i + 1
    if word in _THINGS and after.text in _BESIDE and not _begins(text, words, i + 2):
        return i + 1
    if word in _FIRST and after.text in _THINGS:
        return i + 1
    if word in _POINTS:
        at = i + 2 if after.text in ("it", "them") else i + 1
        if at < len(words) and words[at].text in _PLACES and not _begins(text, words, at + 1):
            return at
    return i


def _is_letter(text: str, words: Sequence[Word], i: int) -> bool:
    """Whether a word is a letter that something is called by, and no article."""
    then = words[i + 1].text if i + 1 < len(words) else ""
    return text[words[i].start : words[i].end] in _NAMED and then not in ("is", "are", "and")


_NAMED = frozenset("ABCDEFGH")


def _begins(text: str, words: Sequence[Word], i: int) -> bool:
    """Whether a noun begins here, close to what stands before it."""
    return i < len(words) and words[i].text in _NOUN_BEGINS and text[words[i - 1].end : words[i].start] == " "


# -- repeats --------------------------------------------------------------------------------------

REPEAT_SIGNS = frozenset(("repeat", "redo", "same", "likewise", "again"))
_EACH = frozenset(("all", "both", "each", "every", "the"))
_AGAIN_FOR = frozenset(("for", "on", "with"))


def repeats(text: str) -> Iterator[Typed]:
    """A repeat told in words: "Repeat for the other side", "Do the same with the rest"."""
    words = words_of(text)
    told = [word.text for word in words]
    last = -1
    for i, word in enumerate(told):
        rest = told[i + 1 : i + 5]
        end = i + _repeat_length(word, rest) - 1
        if i > last and end >= i:
            last = end
            yield Typed(text[words[i].start : words[end].end], words[i].start)


def _repeat_length(word: str, rest: list[str]) -> int:
    """How many words a repeat that begins with this one has; 0 if none does."""
    if word == "repeat":
        return 0 if rest[:1] == ["until"] else 1
    if word in ("redo", "likewise"):
        return 1
    if word == "do":
        if rest[:2] == ["the", "same"]:
            return 3
        if rest[:3] == ["it", "the", "same"]:
            return 4
        rest = rest[:1] + rest[2:] if rest[1:2] == ["again"] else rest
        return 2 if rest[:1] and rest[0] in ("it", "so", "this") and _for_each(rest[1:]) else 0
    if word == "the" and rest[:1] == ["same"] and rest[1:2] and rest[1] in (*_AGAIN_FOR, "to"):
        return 3
    if word == "again" and rest[:1] and rest[0] in _AGAIN_FOR:
        return 4 if rest[1:3] == ["the", "other"] else 3 if rest[1:2] and rest[1] in ("each", "every") else 0
    return 0


def _for_each(rest: list[str]) -> bool:
    return len(rest) > 1 and rest[0] in _AGAIN_FOR and rest[1] in _EACH


# -- amounts --------------------------------------------------------------------------------------

_VAGUE = (
    "a bit", "a dab", "a dollop", "a drop of", "a few", "a little", "a lot", "a moment",
    "a while", "almost", "approximately", "as necessary", "as needed", "as required", "enough", "firmly",
    "generous", "generously", "liberally", "lots", "more or less", "nearly", "plenty", "roughly", "several",
    "slightly", "small amount", "some", "somewhat", "sparingly", "until ready", "various",
)  # fmt: skip
"""Those of the trade's vague amounts that have no second meaning, and "firmly"."""
VAGUE_SIGNS = frozenset(phrase.rpartition(" ")[2] for phrase in _VAGUE) | {"drop"}
# What makes an amount plain after all: a measure to go by, or a test.
_TESTS = (" until ", " that ", " to let ", " no more than ")
_AS = frozenset(("big", "deep", "large", "long", "small", "thick", "thin", "wide"))


def vague(text: str) -> Iterator[Typed]:
    """An amount that gives nothing to measure and no test: "some glue", "a bit", "firmly"."""
    for start, sentence in sentences(text):
        words = words_of(sentence)
        plain = f" {' '.join(word.text for word in words)} "
        if any(test in plain for test in _TESTS):
            continue
        if any(a.text == "as" and b.text in _AS for a, b in zip(words, words[1:], strict=False)):
            continue
        found = [(plain.index(f" {phrase} "), phrase) for phrase in _VAGUE if f" {phrase} " in plain]
        if not found:
            continue
        at, phrase = min(found, key=lambda f: (f[0], -len(f[1])))
        first = plain[1 : at + 1].count(" ")
        last = first + phrase.count(" ")
        then = words[last + 1].text if last + 1 < len(words) else ""
        if phrase == "some" and then in ("of", "other", "more"):
            continue
        begin = words[first].start
        yield Typed(sentence[begin : words[last].end], start + begin)


# -- length ---------------------------------------------------------------------------------------

_STOP = r"[.!?]+(?=\s|$)"


def whole_sentences(text: str) -> Iterator[tuple[int, str]]:
    """Sentences up to their full stop, with their offsets."""
    last = 0
    for match in re.finditer(_STOP, text):
        yield last, text[last : match.start()]
        last = match.end()
    if text[last:].strip():
        yield last, text[last:]


def too_long(text: str, most: int) -> Iterator[tuple[int, int, str]]:
    """(offset, words, sentence) of every sentence of more than so many words."""
    if len(text.split()) <= most:
        return
    for start, sentence in whole_sentences(text):
        count = sum(not word.digits for word in words_of(sentence))
        if count > most:
            lead = len(sentence) - len(sentence.lstrip())
            yield start + lead, count, sentence.strip()
