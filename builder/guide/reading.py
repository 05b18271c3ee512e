"""The reading desk: where nodes become typed values, and where every fault of a value is written down."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping

from builder.findings import Place
from builder.guide.desk import Pairs, cut, is_id, nearest
from builder.guide.fields import Field, Holds
from builder.guide.measures import Measures
from builder.guide.model import Prose, Ref, Spot, Value
from builder.guide.nodes import MappingNode, Node, ScalarNode, SequenceNode, place_of
from builder.quantities.units import Dimension

__all__ = ["Pairs", "Reading", "nearest"]

_REFERENCE = re.compile(r"\{([^{}]*)\}")
_HEADS = (
    ("start of ", "start"), ("end of ", "end"), ("middle of ", "middle"),
    ("flush with ", "flush"), ("meets ", "meets"),
)  # fmt: skip


class Reading(Measures):
    """Typed values out of nodes."""

    def for_shared(self, file: str, bind: Mapping[str, str], lost: frozenset[str], source: str) -> Reading:
        """Another desk, for a shared file: the same numbers and findings, other names."""
        return Reading(file, self.numbers, self.findings, self.paths, bind, lost, source)

    # -- names ------------------------------------------------------------------------------------

    def ref(self, node: Node, what: str) -> Ref | None:
        """A thing's id, with copies (`wheel 1 and 3`) or a zone (`nose.shoulder`)."""
        plain = isinstance(node, ScalarNode) and len(node.value) < 80
        text = node.value.strip() if plain else self.braces(node) if isinstance(node, MappingNode) else (
            self.word_text(node, what))  # fmt: skip
        if not text:
            return None
        at = place_of(node, self.file)
        if " " in text:
            name, _, copies = text.partition(" ")
            numbers = copies.replace(",", " ").replace(" and ", " ").split()
            if is_id(name) and numbers and all(n.isascii() and n.isdigit() for n in numbers):
                return Ref(self.bound(name), at, tuple(int(n[:6]) for n in numbers))
        head, _, tail = self.bound(text).partition(".")
        return Ref(head, at, (), tail)

    def refs(self, node: Node, what: str) -> tuple[Ref, ...]:
        """One id or a list of ids."""
        if not isinstance(node, SequenceNode):
            one = self.ref(node, what)
            return () if one is None else (one,)
        found = [self.ref(n, what) for n in node.value]
        return tuple(r for r in found if r is not None)

    # -- places -----------------------------------------------------------------------------------

    def spots(self, node: Node, path: str) -> tuple[Spot, ...]:
        """One place or a list of places."""
        if isinstance(node, SequenceNode):
            return tuple(self.spot(n, f"{path}.{i}") for i, n in enumerate(node.value, 1))
        return (self.spot(node, path),)

    def spot(self, node: Node, path: str) -> Spot:
        """A place, in the place grammar."""
        at = place_of(node, self.file)
        if not isinstance(node, ScalarNode):
            self.braces(node) if isinstance(node, MappingNode) else self.text(node, f'"{path}"')
            return Spot("nothing", at, "")
        text = self.word_text(node, f'"{path}"')
        if not text:
            return Spot("nothing", at, "")
        if " " in text:
            for head, kind in _HEADS:
                if text.startswith(head):
                    return Spot(kind, at, text, (self.bound(text[len(head) :].strip()),))
            if text.startswith("where ") and text.endswith(" will sit"):
                name = text[len("where ") : -len(" will sit")].strip()
                return Spot("will sit", at, text, (self.bound(name),))
            if text == "its mark":
                return Spot(text, at, text)
            if " from " in text:
                return self._measured(node, text, at, path)
        if text == "corner":
            return Spot(text, at, text)
        return Spot("named", at, text, (self.bound(text),))

    def _measured(self, node: ScalarNode, text: str, at: Place, path: str) -> Spot:
        """A length from an end, a stretch, or two lengths from two edges."""
        shift = len(node.value) - len(node.value.lstrip())

        def length(start: int, end: int, name: str) -> Value:
            return self.piece(node, shift + start, shift + end, name, Dimension.LENGTH)

        first, end, *others = text.split(" from ")
        if not others and " " not in end.strip():
            low, to, _ = first.partition(" to ")
            if to:
                lengths = (length(0, len(low), f"{path}.lo"), length(len(low) + 4, len(first), f"{path}.hi"))
                return Spot("stretch", at, text, (end.strip(),), lengths)
            return Spot("from", at, text, (end.strip(),), (length(0, len(first), path),))
        end, _, second = end.partition(" and ")
        if len(others) == 1 and second and not {" "} & {*end, *others[0]}:
            begin = len(first) + len(end) + len(" from  and ")
            lengths = (length(0, len(first), f"{path}.along"),
                       length(begin, begin + len(second), f"{path}.across"))  # fmt: skip
            return Spot("two", at, text, (end, others[0]), lengths)
        self.fault("place", node, f'"{cut(text)}" is not a place', "A builder could not find it.",
                   "Write a length and an end, as in `1 in from rear`.")  # fmt: skip
        return Spot("nothing", at, text)

    # -- prose ------------------------------------------------------------------------------------

    def prose(self, node: Node, what: str) -> Prose:
        """Text with references in single braces."""
        at = place_of(node, self.file)
        if isinstance(node, MappingNode):
            self.braces(node)
            return Prose("", at, ())
        text = self.text(node, what)
        if "{" not in text and "}" not in text:
            return Prose(text, at, (text,) if text else ())
        assert isinstance(node, ScalarNode)
        if "{{" in text or "}}" in text:
            start = text.index("{{" if "{{" in text else "}}")
            self.fault("braces", self.inside(node, start, 2), "a reference has doubled braces",
                       "Only single braces are references.", "Write `{body.length}`.")  # fmt: skip
        pieces: list[str | tuple[str, Place]] = []
        last = 0
        for match in _REFERENCE.finditer(text):
            name = match[1].strip()
            if self.lost and name.partition(".")[0] in self.lost:
                continue  # why it means nothing has been told
            if match.start() > last:
                pieces.append(text[last : match.start()])
            pieces.append((self.bound(name), self.inside(node, match.start(), len(match[0]))))
            last = match.end()
        if last < len(text):
            pieces.append(text[last:])
        return Prose(text, at, tuple(pieces))

    # -- any field --------------------------------------------------------------------------------

    def field(self, field: Field, node: Node, path: str) -> object | None:
        """The value of a field as its declaration says; None if it could not be read."""
        read = READERS.get(field.holds)
        return None if read is None else read(self, field, node, path)


Reader = Callable[[Reading, Field, Node, str], object | None]

READERS: dict[Holds, Reader] = {
    Holds.TEXT: lambda desk, field, node, path: desk.text(node, f'"{field.name}"'),
    Holds.PROSE: lambda desk, field, node, path: desk.prose(node, f'"{field.name}"'),
    Holds.WORD: lambda desk, field, node, path: desk.word(node, field) or None,
    Holds.YES: lambda desk, field, node, path: desk.yes(node, f'"{field.name}"'),
    Holds.COUNT: lambda desk, field, node, path: desk.count(node, path, f'"{field.name}"')[1],
    Holds.NUMBER: lambda desk, field, node, path: desk.number(node, path, field.dimension),
    Holds.SIZE: lambda desk, field, node, path: desk.size(node, path),
    Holds.SIZES: lambda desk, field, node, path: desk.sizes(node, path),
    Holds.TOLERANCE: lambda desk, field, node, path: desk.tolerance(node, path),
    Holds.THING: lambda desk, field, node, path: desk.ref(node, f'"{field.name}"'),
    Holds.THINGS: lambda desk, field, node, path: desk.refs(node, f'"{field.name}"'),
    Holds.NEW: lambda desk, field, node, path: desk.new_id(node, f'"{field.name}"'),
    Holds.PLACE: lambda desk, field, node, path: desk.spots(node, path),
    Holds.PLACES: lambda desk, field, node, path: desk.spots(node, path),
    Holds.ANGLE: lambda desk, field, node, path: desk.angle(node, path),
    Holds.AROUND: lambda desk, field, node, path: desk.word_text(node, f'"{field.name}"'),
    Holds.WORDS: lambda desk, field, node, path: desk.words(node, f'"{field.name}"'),
    Holds.PER: lambda desk, field, node, path: desk.share(node, path),
    Holds.WINDOW: lambda desk, field, node, path: desk.window(node, path),
}
