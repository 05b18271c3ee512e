"""What may be missed because of a fault of the text, so that it is told beneath that fault.

A finding names the facts that may be wrong; what the checks conclude from such a fact folds under it.
A fault in an entry makes everything doubtful that the entry speaks of: its things, what it does to them,
and its verb.
"""

from __future__ import annotations

from collections.abc import Container, Iterable, Mapping
from functools import lru_cache

import msgspec

from builder.findings import Finding
from builder.guide.nodes import Node, ScalarNode
from builder.guide.values import Thing

# What an action can do to a thing, in the words by which the checks name their grounds.
OF_A_THING = ("glue-for", "held", "item", "kit", "left", "made", "mask", "mask-on", "off", "place", "placed",
              "preparation", "said", "seat", "steady", "there", "unused")  # fmt: skip
UNDONE = "undone"  # a step has no actions: what nobody does may have been one of them
MOST_COPIES = 60  # of one thing
MOST_WORDS = 400  # of one entry


def blame(findings: list[Finding], start: int, facts: frozenset[str]) -> None:
    """Let the findings from `start` on doubt these facts too."""
    for i in range(start, len(findings)):
        findings[i] = msgspec.structs.replace(findings[i], suspects=findings[i].suspects | facts)


@lru_cache(maxsize=1024)  # a faulty thing is spoken of in many places
def of_thing(id: str, count: int = 1) -> tuple[str, ...]:
    """Everything that may be wrong about a thing and its copies."""
    keys = (id, *(f"{id} {n}" for n in range(1, min(count, MOST_COPIES) + 1)))
    return tuple([f"{fact}:{key}" for key in keys for fact in OF_A_THING])


def of_words(words: Iterable[str], things: Mapping[str, Thing], verbs: Container[str]) -> frozenset[str]:
    """What is doubtful where these words stand: the things among them, what those are made of, the verbs."""
    facts: list[str] = []
    seen = dict.fromkeys(word.partition(".")[0] for word in words)
    for word in list(seen):
        if word in things:
            seen |= dict.fromkeys(ref.id for ref in things[word].refs.values())
    for word in seen:
        if word in things:
            facts += of_thing(word, things[word].count)
        if word in verbs:
            facts.append(f"done:{word}")
    return frozenset(facts)


def words_of(node: Node) -> list[str]:
    """The words of a node: names of fields, and single words of the values."""
    out: list[str] = []
    stack = [node]
    while stack and len(out) < MOST_WORDS:
        each = stack.pop()
        if isinstance(each, ScalarNode):
            out += (each.value, *each.value.split()) if len(each.value) < MOST_WORDS else ()
        else:
            for part in each.value:
                stack += part if isinstance(part, tuple) else (part,)
    return out
