"""What a number that could not be read follows from, so that one slip does not hide another."""

from __future__ import annotations

from typing import Protocol

from msgspec.structs import replace

from builder.guide.model import Value
from builder.guide.nodes import Node, ScalarNode
from builder.guide.raw import Raw, zone_nodes


class Asked(Protocol):
    """What is asked of a guide's numbers. `told` are names of which it need not be told that they come
    back to themselves."""

    told: set[str]

    def of(self, thing: str, field: str) -> Value | None:
        """A number of a thing."""

    def zones_of(self, raw: Raw) -> dict[str, tuple[str, ScalarNode, Node]]:
        """Its zones."""


def of_chain(numbers: Asked, raw: Raw, unread: Value) -> Value:
    """A length that could not be read: the sum of its part's first chain of zones, if these are known."""
    if unread.path != f"{raw.id}.length" or unread.reads != {unread.path} or not numbers.zones_of(raw):
        return unread
    numbers.told.add(unread.path)  # a zone that is worked out from it is not known either
    _, chain = raw.pairs["zones"][1].value[0]
    found = [numbers.of(raw.id, name.value) for name, _ in zone_nodes(chain)]
    lengths = [zone.quantity for zone in found if zone is not None and zone.quantity is not None]
    if not lengths or len(lengths) < len(found):
        return unread
    return replace(unread, quantity=sum(lengths[1:], lengths[0]))
