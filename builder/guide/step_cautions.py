"""Cautions as a writer adds them to a step or a shared file, and leaves them out."""

from __future__ import annotations

from collections.abc import Mapping

from builder.guide.cautions import of_trade
from builder.guide.declared import CAUTION, STEP
from builder.guide.desk import Pairs, cut
from builder.guide.fields import by_name
from builder.guide.model import Caution, Dropped
from builder.guide.nodes import MappingNode, Node, SequenceNode
from builder.guide.reading import Reading

_CAUTION = by_name(CAUTION)
_WITHOUT = by_name(by_name(STEP)["without caution"].inner)


def cautions_named(pairs: Pairs, reading: Reading, known: Mapping[str, Caution]) -> list[Caution]:
    """The cautions of a step: named from those that are known, or written whole."""
    if "cautions" not in pairs:
        return []
    node = pairs["cautions"][1]
    out = []
    for each in node.value if isinstance(node, SequenceNode) else [node]:
        found: Caution | None = None
        if isinstance(each, MappingNode):
            found = read_caution("", each, reading)
        elif name := reading.word_text(each, "a caution"):
            found = known.get(name) or of_trade(name)
            if found is None:
                guess = reading.unknown(each, name, f'there is no caution "{cut(name)}"',
                                        "The builder would not be warned.", known,
                                        "Write it whole: level, hazard, consequence, avoidance.")
                found = known[guess] if guess else None
        if found is not None:
            out.append(found)
    return out


def dropped_in(pairs: Pairs, reading: Reading) -> list[Dropped]:
    """The hazards of a step that its writer leaves without a caution, with the reason."""
    if "without caution" not in pairs:
        return []
    node = pairs["without caution"][1]
    at = reading.place(node)
    if isinstance(node, MappingNode):
        inner = reading.known(reading.pairs(node, "`without caution`"), _WITHOUT, "`without caution`")
        reading.required(inner, _WITHOUT, node, "`without caution`")
        hazard = reading.word_text(inner["caution"][1], "`caution`") if "caution" in inner else ""
        return [Dropped(hazard, reading.text(inner["why"][1], "why") if "why" in inner else "", at)]
    return [Dropped(h, "", at) for h in reading.words(node, "`without caution`")]


def read_caution(id: str, node: Node, reading: Reading) -> Caution | None:
    """A caution written whole; a part that is missing is a finding."""
    pairs = reading.known(reading.pairs(node, "a caution"), _CAUTION, "a caution")
    missing = [f for f in CAUTION if f.required and f.name not in pairs and f.name not in pairs.spoiled]
    for field in missing:
        if pairs.whole and len(missing) > pairs.strays:
            reading.fault("caution-part", node,
                          f'the caution{f" {id!r}" if id else ""} does not say its {field.name}',
                          "A caution tells what it is, what it does, and how to keep out of its way; with "
                          "one part "
                          "missing it is not heeded.", f"Write `{field.name}: {field.example}`.")  # fmt: skip
    read = {n: reading.field(_CAUTION[n], p[1], f"caution.{n}") for n, p in pairs.items()}
    gear = read.get("gear")
    return Caution(
        id or str(read.get("covers") or "own"), str(read.get("level") or "caution"),
        str(read.get("hazard") or ""),
        str(read.get("consequence") or ""), str(read.get("avoidance") or ""), reading.place(node),
        gear if isinstance(gear, tuple) else (), str(read.get("source") or "the guide"),
        str(read.get("covers") or ""))  # fmt: skip
