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


def _first_command(words: Sequence[Word]) -> int | None:
    """The index of the command that a sentence begins with, adverbs passed over."""
    for i, word in enumerate(words):
        if word.text in _IMPERATIVES:
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


def waits(text: str) -> Iterator[Typed]:
    """A wait told in words: "Let it dry", "Leave it overnight", "Hold it until it sets"."""
    for start, sentence in sentences(text):
        words = words_of(sentence)
        told = [word.text for word in words]
        at = _first_command(words)
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


def conditions_behind(text: str) -> Iterator[Typed]:
    """A condition that comes after its action: "Cut it, unless it is wet"."""
    for start, sentence in sentences(text):
        words = words_of(sentence)
        at = _first_command(words)
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
_THINGS = r"(?:steps?|stages?|pages?|figures?|fig|pictures?|drawings?|diagrams?|photos?|sections?|tables?)"
_LETTER = r"(?-i:[A-H]\b(?!\s+(?:is|and|are)\b))"
_REFERENCES = re.compile(
    rf"\b{_THINGS}\.?\s+(?:no\.?\s*)?(?:\d+[a-z]?\b|{_LETTER}|(?:one|two|three|four|five|six|seven|eight|nine|ten)\b)"
    r"|\b(?:see|as|shown|described|told|listed|given|noted|mentioned|explained)\s+(?:it\s+|them\s+)?"
    r"(?:above|below|earlier|before|previously|overleaf|opposite)\b(?!\s+(?:the|a|an|it|its|your|each|you|they)\b)"
    rf"|\b(?:previous|preceding|foregoing|earlier|following|next|last|above)\s+{_THINGS}\b"
    rf"|\b(?:steps?|stage|pages?|pictures?|drawings?|figures?|sections?|tables?)\s+(?:above|below|before|overleaf)\b"
    rf"|\b(?:part|piece|item|label|letter)\s+{_LETTER}",
    re.IGNORECASE,
)


def references(text: str) -> Iterator[Typed]:
    """A reference by words to a place that may move: "step 7", "see above", "the next page", "part B"."""
    for match in _REFERENCES.finditer(text):
        yield Typed(match.group(), match.start())


# -- repeats --------------------------------------------------------------------------------------

REPEAT_SIGNS = frozenset(("repeat", "redo", "same", "likewise", "again"))
_REPEATS = re.compile(
    r"\brepeat\b(?!\s+until)|\bredo\b|\bdo\s+(?:it\s+)?the\s+same\b|\bthe\s+same\s+(?:for|with|on|to)\b"
    r"|\bdo\s+(?:this|it|so)\s+(?:again\s+)?(?:for|with|on)\s+(?:the|each|every|both|all)\b|\blikewise\b"
    r"|\bagain\s+(?:for|with|on)\s+(?:the\s+other|each|every)\b",
    re.IGNORECASE,
)


def repeats(text: str) -> Iterator[Typed]:
    """A repeat told in words: "Repeat for the other side", "Do the same with the rest"."""
    for match in _REPEATS.finditer(text):
        yield Typed(match.group(), match.start())


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
_TEST = re.compile(
    r"\b(?:until|so that|that|to let|as (?:wide|thick|long|deep|thin|large|big|small) as|no more than)\b",
    re.IGNORECASE,
)
_VAGUE_RE = re.compile(
    r"\b(?:" + "|".join(re.escape(v) for v in sorted(_VAGUE, key=len, reverse=True)) + r")\b", re.IGNORECASE
)


def vague(text: str) -> Iterator[Typed]:
    """An amount that gives nothing to measure and no test: "some glue", "a bit", "firmly"."""
    for start, sentence in sentences(text):
        match = _VAGUE_RE.search(sentence)
        if match is None or _TEST.search(sentence) is not None:
            continue
        after = sentence[match.end() :].lstrip().lower()
        if match.group().lower() == "some" and after.startswith(("of ", "other", "more ")):
            continue
        yield Typed(match.group(), start + match.start())


# -- length ---------------------------------------------------------------------------------------

_STOP = re.compile(r"[.!?]+(?=\s|$)")


def whole_sentences(text: str) -> Iterator[tuple[int, str]]:
    """Sentences up to their full stop, with their offsets."""
    last = 0
    for match in _STOP.finditer(text):
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
