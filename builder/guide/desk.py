"""The reading desk's ground: where faults are written down, and how mappings, words and ids are read.

One desk serves one file of a guide. It holds the findings so far, and the names that may be missed
without a word because their own fault has been told already.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from typing import Protocol

from builder.findings import Finding, Place, Related, Severity
from builder.guide.fields import Field, Fields
from builder.guide.model import Value
from builder.guide.nodes import MappingNode, Node, ScalarNode, SequenceNode, inside, is_null, place_of
from builder.guide.suspects import blame, of_thing

LONGEST_TEXT = 20_000  # characters of one text
LONGEST_WORD = 400  # of an id, a reference, a place
MOST_FINDINGS = 500
MOST_GUESSED = 50  # findings after which no near name is looked for any more


class KnownNumbers(Protocol):
    """What a desk asks of a guide's numbers. `first` is the unit that a bare length was meant in."""

    first: str

    def lookup(self, name: str) -> Value | None:
        """A number by name; None if there is no such name; a value without a quantity if unknown."""

    def names(self) -> Iterator[str]:
        """Every name that a sum may use."""

    def is_missed(self, name: str) -> bool:
        """Whether a number is not there because of a fault that is told elsewhere."""


class Pairs(dict[str, tuple[ScalarNode, Node]]):
    """The pairs of a mapping by key, in order.

    `spoiled` are keys whose fault has been told, so that they are not missed as well; `strays` counts
    unknown keys that resemble no known one, `whole` is false if the mapping itself is at fault.
    """

    __slots__ = ("spoiled", "strays", "whole")

    def __init__(self) -> None:
        self.spoiled: set[str] = set()
        self.strays = 0
        self.whole = True

    @property
    def sound(self) -> bool:
        """Whether nothing is missing because of a fault that has been told."""
        return self.whole and not self.strays and not self.spoiled


_NULLS = ("", "~")


def plain_pairs(nodes: list[tuple[Node, Node]]) -> Pairs | None:
    """The pairs of a mapping without a fault, as they are; None if a key is doubled or no name."""
    out = Pairs()
    try:
        for pair in nodes:
            out[pair[0].value] = pair  # type: ignore[assignment]  # what is no scalar cannot be a key
    except TypeError:
        return None
    return out if len(out) == len(nodes) and "<<" not in out else None


def nearest(word: str, known: Iterable[str]) -> str | None:
    """The known word that was probably meant, or None."""
    import difflib  # only a fault pays for it
    import itertools

    if len(word) > 60:
        return None
    near = difflib.get_close_matches(word, list(itertools.islice(known, 500)), n=3, cutoff=0.6)
    return next((other for other in near if slips(word, other) <= (2 if len(word) > 4 else 1)), None)


def slips(word: str, other: str) -> int:
    """How many letters were left out, doubled, changed or exchanged with the next between two words."""
    before: list[int] = []
    row = list(range(len(other) + 1))
    for i, a in enumerate(word, 1):
        before, above, row = row, before, [i]
        for j, b in enumerate(other, 1):
            best = min(before[j] + 1, row[j - 1] + 1, before[j - 1] + (a != b))
            if i > 1 and j > 1 and a == other[j - 2] and b == word[i - 2]:
                best = min(best, above[j - 2] + 1)
            row.append(best)
    return row[-1]


def is_id(text: str) -> bool:
    """Small letters, digits and underscores, beginning with a letter."""
    return text.isidentifier() and text.isascii() and text == text.lower() and text[0] != "_"


def cut(text: str, most: int = 60) -> str:
    """A text as a message quotes it: on one line, not too long."""
    text = " ".join(text.split())
    return text if len(text) <= most else f"{text[:most].rstrip()} ..."


class Desk:
    """Faults, mappings, words. `bind` maps the parameters of a shared step to ids; `lost` are names
    that nobody need find; `source` is the text that the nodes point into."""

    def __init__(self, file: str, numbers: KnownNumbers, findings: list[Finding], paths: dict[str, Place],
                 bind: Mapping[str, str] | None = None,
                 lost: frozenset[str] = frozenset(), source: str = "") -> None:  # fmt: skip
        self.file = file
        self.numbers = numbers
        self.findings = findings
        self.paths = paths
        self.bind = dict(bind or {})
        self.lost = lost
        self.source = source

    # -- faults -----------------------------------------------------------------------------------

    def fault(self, check: str, node: Node | Place, message: str, why: str, mend: str,
              also: tuple[Related, ...] = (), severity: Severity = Severity.ERROR) -> None:  # fmt: skip
        """Write a finding down at a node."""
        if len(self.findings) < MOST_FINDINGS:
            place = node if isinstance(node, Place) else place_of(node, self.file)
            self.findings.append(Finding(check, severity, place, message, why, mend, also))

    def place(self, node: Node) -> Place:
        """Where a node stands."""
        return place_of(node, self.file)

    def inside(self, node: ScalarNode, start: int, length: int) -> Place:
        """Where a stretch of a scalar's text stands."""
        return inside(node, self.file, start, length, self.source)

    @property
    def guessing(self) -> bool:
        """Whether near names are looked for; a text full of faults is not guessed at."""
        return len(self.findings) < MOST_GUESSED

    def nearest(self, word: str, known: Iterable[str]) -> str | None:
        """The known word that was probably meant, or None."""
        return nearest(word, known) if self.guessing else None

    def unknown(self, node: Node | Place, name: str, message: str, why: str, known: Iterable[str],
                mend: str) -> str | None:  # fmt: skip
        """The finding for a name that nothing has, with the nearest known one, which is returned."""
        if name in self.lost:
            return None
        guess = self.nearest(name, known)
        self.fault("unknown-name", node, message, why, f"Did you mean `{guess}`?" if guess else mend)
        doubts = frozenset((f"name:{name}", *(of_thing(guess) if guess else ())))
        blame(self.findings, len(self.findings) - 1, doubts)
        return guess

    # -- mappings ---------------------------------------------------------------------------------

    def pairs(self, node: Node, what: str) -> Pairs:
        """The pairs of a mapping by key, in order; a doubled key is a finding and the first one counts."""
        if isinstance(node, MappingNode):
            return self.pairs_of(node.value)
        self.fault("shape", node, f"{cut(what)} must be a list of `name: value` pairs",
                   "Nothing here can be used otherwise.", "Write `name: value`, one to a line.")  # fmt: skip
        out = Pairs()
        out.whole = False
        return out

    def pairs_of(self, nodes: list[tuple[Node, Node]]) -> Pairs:
        """The same for the bare pairs of a mapping."""
        out = plain_pairs(nodes)
        if out is not None:
            return out
        out = Pairs()
        for key, value in nodes:
            if not isinstance(key, ScalarNode):
                self.braces(key)
                out.whole = False
            elif key.value in out:
                self.fault("duplicate-key", key, f'"{cut(key.value)}" is written twice here',
                           "YAML would silently keep one of the two.", "Delete one of them.",
                           (Related(self.place(out[key.value][0]), "the first one"),))  # fmt: skip
            elif key.value == "<<":
                out.whole = False  # a finding of the text
            else:
                out[key.value] = (key, value)
        return out

    def known(self, pairs: Pairs, fields: Mapping[str, object], what: str, also: Iterable[str] = ()) -> Pairs:
        """The pairs whose key is a known field; an unknown key or a missing value is a finding.

        A misspelt key is read as the nearest known one.
        """
        if pairs.keys() <= fields.keys() and not [1 for _, value in pairs.values() if value.value in _NULLS]:
            return pairs
        out = Pairs()
        out.whole = pairs.whole
        last: tuple[str, Node] | None = None
        broken = False  # the pair before was a piece of a text that a comma broke off
        for name, (key, value) in pairs.items():
            null = is_null(value)
            if name in fields or name in also:
                broken = False
                if null:
                    out.spoiled.add(name)
                    self._no_value(key, value)
                else:
                    out[name] = last_pair = (key, value)
                    last = (name, last_pair[1])
                continue
            if null:
                if not broken:
                    self._broken_off(key, last)
                broken = True
                continue
            broken = False
            guess = self.nearest(name, [*fields, *also])
            hint = f"Did you mean `{guess}`?" if guess else f"{what} may have: {', '.join(fields)}."
            self.fault("unknown-key", key, f'{what} has no field "{cut(name)}"',
                       "What is written there would be ignored.", hint)  # fmt: skip
            if guess is None:
                out.strays += 1
            elif guess not in pairs:
                out[guess] = (key, value)
        return out

    def _no_value(self, key: ScalarNode, value: Node) -> None:
        self.fault("missing-value", key, f'"{cut(key.value)}" has no value',
                   "Nothing stands behind it, or a comma inside braces ended it.",
                   "Write a value, or put quotes round the text that holds the comma.")  # fmt: skip

    def _broken_off(self, key: ScalarNode, last: tuple[str, Node] | None) -> None:
        mend = "Put quotes round the text that holds the comma, or write a value."
        if last is not None and isinstance(last[1], ScalarNode):
            whole = f"{cut(last[1].value, 40)}, {cut(key.value, 40)}"
            mend = f'Put quotes round the whole text: `{last[0]}: "{whole}"`.'
        self.fault("missing-value", key, f'"{cut(key.value)}" has no value',
                   "Inside braces a comma ends a value; what follows became a name of its own.",
                   mend)  # fmt: skip

    def required(self, pairs: Pairs, fields: Fields, node: Node, what: str) -> None:
        """A finding for each required field that is missing, and whose absence has no fault of its own."""
        missing = [f for f in fields.needed if f.name not in pairs and f.name not in pairs.spoiled]
        if missing:
            self.missing(missing, pairs, node, what)

    def missing(self, fields: list[Field], pairs: Pairs, node: Node, what: str) -> None:
        """The finding for fields that are missing, one for all of them."""
        if not fields or not pairs.whole or len(fields) <= pairs.strays:
            return
        lacking = [f for f in fields if not (self.lost and self.lost.issuperset(f.name.split()))]
        if lacking:
            names = " and no ".join(f'"{field.name}"' for field in lacking)
            write = ", ".join(f"`{field.name}: {field.example}`" for field in lacking)
            self.fault("missing-field", node, f"{cut(what)} has no {names}", lacking[0].about,
                       f"Write {write}.")  # fmt: skip

    def braces(self, node: Node) -> str:
        """The finding for braces in a field; what stands in them, if it is one word."""
        self.fault("braces", node, "braces in a field mean something else to YAML",
                   "The value is read as a list of pairs, not as a reference.",
                   "Write the bare id or the sum without braces.")  # fmt: skip
        while isinstance(node, MappingNode) and len(node.value) == 1 and is_null(node.value[0][1]):
            node = node.value[0][0]
        return str(node.value).strip() if isinstance(node, ScalarNode) else ""

    # -- words ------------------------------------------------------------------------------------

    def text(self, node: Node, what: str = "this", most: int = LONGEST_TEXT) -> str:
        """Plain text; empty (and a finding) for anything else."""
        if isinstance(node, ScalarNode):
            if len(node.value) <= most:
                return node.value  # type: ignore[no-any-return]
            self.fault("too-large", node, f"{cut(what)} has more than {most:,} characters",
                       "A text of that length can hardly be meant here.", "Write it shorter.")  # fmt: skip
        elif isinstance(node, MappingNode) and all(is_null(value) for _, value in node.value):
            return self.braces(node)
        else:
            self.fault("shape", node, f"{cut(what)} must be plain text",
                       "A list or a mapping means nothing here.",
                       "Write the text on one line; quote it if it holds a colon, a brace or a bracket.")
        return ""

    def word_text(self, node: Node, what: str) -> str:
        """A short text: an id, a reference, a place."""
        return self.text(node, what, LONGEST_WORD).strip()

    def new_id(self, node: Node, what: str) -> str:
        """A new id, in the form that ids have."""
        text = self.text(node, what, LONGEST_WORD)
        if text and not is_id(text):
            better = re.sub(r"[^a-z0-9]+", "_", text.lower()).strip("_")
            better = better if is_id(better) else f"a_{better}" if better else "a_name"
            self.fault("bad-id", node, f'"{cut(text)}" is not an id',
                       "An id is small letters, digits and underscores, and begins with a letter.",
                       f"Write `{cut(better)}`, and the words for the reader under `name`.")  # fmt: skip
        return text

    def word(self, node: Node, field: Field) -> str:
        """One of the field's words; a misspelt one is read as the nearest."""
        text = self.text(node, f'"{field.name}"')
        if not field.words or text in field.words or not text:
            return text
        guess = self.nearest(text, field.words)
        self.fault("word", node, f'"{cut(text)}" is not one of the words for "{field.name}"',
                   f"Known are: {', '.join(field.words)}.",
                   f"Did you mean `{guess}`?" if guess else f"Write one of: {', '.join(field.words)}.")
        return guess or ""

    def yes(self, node: Node, what: str) -> bool:
        """yes or no."""
        text = self.text(node, what).lower()
        if text in ("yes", "true"):
            return True
        if text not in ("no", "false", ""):
            self.fault("word", node, f'"{cut(text)}" is neither yes nor no',
                       "Only these two mean anything here.",
                       "Write `yes` or leave the field out.")  # fmt: skip
        return False

    def words(self, node: Node, what: str) -> tuple[str, ...]:
        """One word or a list of words."""
        nodes = node.value if isinstance(node, SequenceNode) else [node]
        return tuple(t for t in (self.word_text(n, what) for n in nodes) if t)

    def bound(self, name: str) -> str:
        """A name with a shared step's parameter replaced by what it stands for."""
        if not self.bind:
            return name
        head, dot, tail = name.partition(".")
        return self.bind.get(head, head) + dot + tail
