"""What people answer for in a guide: the findings that stay, the signatures."""

from __future__ import annotations

from collections.abc import Iterator

from builder.guide.declared import GUIDE
from builder.guide.desk import Pairs
from builder.guide.fields import by_name
from builder.guide.model import Acceptance, Signature
from builder.guide.nodes import SequenceNode
from builder.guide.reading import Reading

_GUIDE = by_name(GUIDE)
_ACCEPTED, _SIGNED = by_name(_GUIDE["accepted"].inner), by_name(_GUIDE["signed"].inner)


def accepted_in(top: Pairs, desk: Reading) -> Iterator[Acceptance]:
    """The findings that the writer lets stay; one that lacks a part of it lets nothing stay."""
    if "accepted" not in top:
        return
    node = top["accepted"][1]
    if not isinstance(node, SequenceNode):
        desk.fault("shape", node, "what is accepted is a list", "Each finding is accepted by itself.",
                   "Begin each with a dash.")  # fmt: skip
        return
    for entry in node.value:
        pairs = desk.known(desk.pairs(entry, "an acceptance"), _ACCEPTED, "an acceptance")
        desk.required(pairs, _ACCEPTED, entry, "an acceptance")
        told = {name: desk.text(value, f'"{name}"') for name, (_, value) in pairs.items()}
        if told.get("check") and told.get("at") and told.get("why"):
            yield Acceptance(told["check"], told["at"], told["why"], told.get("facts", ""), desk.place(entry))


def signed_in(top: Pairs, desk: Reading) -> Iterator[Signature]:
    """The signatures; one that lacks a part signs nothing."""
    if "signed" not in top:
        return
    node = top["signed"][1]
    if not isinstance(node, SequenceNode):
        desk.fault("shape", node, "signatures are a list", "Each person signs alone.",
                   "Begin each with a dash.")  # fmt: skip
        return
    for entry in node.value:
        pairs = desk.known(desk.pairs(entry, "a signature"), _SIGNED, "a signature")
        desk.required(pairs, _SIGNED, entry, "a signature")
        told = {name: desk.text(value, f'"{name}"') for name, (_, value) in pairs.items()}
        if all(told.get(name) for name in _SIGNED):
            yield Signature(told["name"], told["role"], told["reason"], told["content"], desk.place(entry))
