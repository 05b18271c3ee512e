"""A thing as it was read, before anything is worked out."""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import Place
from builder.guide.declared import MATERIAL, OUTLINE, PART, TOOL
from builder.guide.desk import Pairs
from builder.guide.fields import Fields, by_name
from builder.guide.nodes import MappingNode, Node, ScalarNode, SequenceNode
from builder.guide.reading import Reading

SECTIONS = (
    ("materials", "material", by_name(MATERIAL)),
    ("tools", "tool", by_name(TOOL)),
    ("parts", "part", by_name(PART)),
)

# The fields of the fields that have fields of their own.
INNER = {
    **{(sort, outer): by_name(fields[outer].inner) for _, sort, fields in SECTIONS
       for outer in ("label", "rolled", "sold") if outer in fields},
    ("part", "outline"): by_name(OUTLINE),
}  # fmt: skip


class Raw:
    """A thing as read but not yet worked out: its pairs by field, its form, and where the pairs come
    from (`like` borrows another's)."""

    __slots__ = ("at", "fields", "form", "id", "inner", "key", "node", "owners", "pairs", "sort", "zones")

    def __init__(self, id: str, sort: str, key: ScalarNode, node: Node, pairs: Pairs,
                 fields: Fields, at: Place) -> None:  # fmt: skip
        self.id, self.sort, self.key, self.node, self.pairs, self.fields, self.at = (
            id, sort, key, node, pairs, fields, at)  # fmt: skip
        self.owners: dict[str, str] = dict.fromkeys(pairs, id)
        form = pairs.get("form")
        self.form: str = form[1].value if form and isinstance(form[1], ScalarNode) else ""
        self.inner: dict[str, Pairs] = {}
        self.zones: dict[str, tuple[str, ScalarNode, Node]] | None = None


def zone_nodes(chain: Node) -> Iterator[tuple[ScalarNode, Node]]:
    """The (name, length) nodes of a chain: a list of one-pair mappings, or (a fault) one mapping.

    A name that stands alone has an empty length.
    """
    entries = chain.value if isinstance(chain, SequenceNode) else [chain] * isinstance(chain, MappingNode)
    for entry in entries:
        if isinstance(entry, ScalarNode):
            yield entry, ScalarNode("", "", entry.end_mark, entry.end_mark)
        elif isinstance(entry, MappingNode):
            for key, value in entry.value:
                if isinstance(key, ScalarNode):
                    yield key, value


def taper_nodes(node: Node, reading: Reading) -> list[Node]:
    """`0 in to 1.33 in` as two nodes, a single diameter as one."""
    if not isinstance(node, ScalarNode) or " to " not in node.value:
        return [node]
    to = node.value.index(" to ")
    return [reading.stretch(node, 0, to), reading.stretch(node, to + 4, len(node.value))]
