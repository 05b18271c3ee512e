"""The words that a guide explains, with the words that it never uses for them."""

from __future__ import annotations

from collections.abc import Iterator

from builder.guide.declared import TERM
from builder.guide.desk import Pairs, cut
from builder.guide.fields import by_name
from builder.guide.model import Term
from builder.guide.reading import Reading

_TERM = by_name(TERM)


def read_terms(top: Pairs, desk: Reading) -> Iterator[Term]:
    """The entries under `terms` of a guide, in the order written."""
    if "terms" not in top:
        return
    for word, (key, node) in desk.pairs(top["terms"][1], "the terms").items():
        pairs = desk.known(desk.pairs(node, f'the term "{cut(word)}"'), _TERM, "a term")
        means = desk.text(pairs["means"][1], '"means"') if "means" in pairs else ""
        never = desk.words(pairs["never"][1], '"never"') if "never" in pairs else ()
        yield Term(word, means, never, desk.place(key))
