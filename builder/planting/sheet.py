"""The text of one file, and edits of it by its nodes: a value, a pair, a line of a list."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from builder.guide.nodes import MappingNode, Node, ScalarNode, SequenceNode, compose


class Edit(NamedTuple):
    """What stands from `start` to `end` (characters of the text) becomes `text`."""

    file: str
    start: int
    end: int
    text: str


Pair = tuple[ScalarNode, Node]


class Sheet:
    """A file's text and its node tree. Edits are made, never carried out, here."""

    def __init__(self, file: str, text: str) -> None:
        read = compose(text, file)
        self.file, self.text, self.node = file, read.text, read.node

    # -- looking ----------------------------------------------------------------------------------

    def nodes(self) -> Iterator[Node]:
        """Every node, as written."""
        stack = [self.node] if self.node is not None else []
        while stack:
            node = stack.pop()
            yield node
            if isinstance(node, MappingNode):
                stack += [part for pair in reversed(node.value) for part in reversed(pair)]
            elif isinstance(node, SequenceNode):
                stack += reversed(node.value)

    def span(self, node: Node) -> tuple[int, int]:
        """Where a node's own text begins and ends, without what only follows it."""
        return node.start_mark.index, _end(node)

    def source(self, node: Node) -> str:
        """A node's own text."""
        start, end = self.span(node)
        return self.text[start:end]

    def item_span(self, items: SequenceNode, index: int) -> tuple[int, int]:
        """An item of a list: whole lines with its dash, or its own text between brackets."""
        start, end = self.span(items.value[index])
        return (start, end) if items.flow_style else (self._line_start(start), self._line_end(end))

    def item(self, items: SequenceNode, index: int) -> str:
        """The text of an item of a list."""
        start, end = self.item_span(items, index)
        return self.text[start:end]

    def _line_start(self, at: int) -> int:
        return self.text.rfind("\n", 0, at) + 1

    def _line_end(self, at: int) -> int:
        end = self.text.find("\n", at)
        return len(self.text) if end < 0 else end + 1

    # -- editing ----------------------------------------------------------------------------------

    def replace(self, node: Node, text: str) -> Edit:
        """A node with another text."""
        return Edit(self.file, *self.span(node), text)

    def insert(self, at: int, text: str) -> Edit:
        """Text put in."""
        return Edit(self.file, at, at, text)

    def without_pair(self, pairs: MappingNode, name: str) -> tuple[Edit, ...]:
        """A mapping without one of its pairs; nothing if the mapping would begin with none."""
        index = next((i for i, (key, _) in enumerate(pairs.value) if key.value == name), None)
        if index is None or len(pairs.value) == 1:
            return ()
        key, value = pairs.value[index]
        if pairs.flow_style:
            return (self._out_of_brackets([(k, v) for k, v in pairs.value], index),)
        if index == 0:
            return ()
        start = self._line_start(key.start_mark.index)
        return (Edit(self.file, start, self._line_end(_end(value)), ""),)

    def _out_of_brackets(self, spans: Sequence[tuple[Node, Node]], index: int) -> Edit:
        if index + 1 < len(spans):
            return Edit(self.file, spans[index][0].start_mark.index, spans[index + 1][0].start_mark.index, "")
        before = _end(spans[index - 1][1]) if index else spans[index][0].start_mark.index
        return Edit(self.file, before, _end(spans[index][1]), "")

    def with_pair(self, pairs: MappingNode, text: str) -> Edit:
        """A mapping with one more pair, after its first."""
        key, value = pairs.value[0]
        if pairs.flow_style:
            return self.insert(_end(value), f", {text}")
        indent = " " * key.start_mark.column
        return self.insert(self._line_end(_end(value)), f"{indent}{text}\n")

    def without_item(self, items: SequenceNode, index: int) -> tuple[Edit, ...]:
        """A list without one of its items; nothing if it is the only one."""
        if len(items.value) == 1:
            return ()
        if items.flow_style:
            return (self._out_of_brackets([(item, item) for item in items.value], index),)
        return (Edit(self.file, *self.item_span(items, index), ""),)

    def with_item(self, items: SequenceNode, index: int, text: str) -> tuple[Edit, ...]:
        """A list of lines with one more before `index` (after the last if there is no such item).

        `text` is an item as `item` gives it, or what follows a dash.
        """
        if items.flow_style or not items.value:
            return ()
        at = (
            self.item_span(items, index)[0]
            if index < len(items.value)
            else self.item_span(items, len(items.value) - 1)[1]
        )
        if not text.endswith("\n"):
            indent = " " * (items.value[0].start_mark.column - 2)
            text = f"{indent}- {text}\n"
        return (self.insert(at, text),)

    def swapped(self, items: SequenceNode, a: int, b: int) -> tuple[Edit, ...]:
        """A list with two of its items in each other's place."""
        return (
            Edit(self.file, *self.item_span(items, a), self.item(items, b)),
            Edit(self.file, *self.item_span(items, b), self.item(items, a)),
        )

    def moved(self, items: SequenceNode, index: int, target: SequenceNode, before: int) -> tuple[Edit, ...]:
        """An item taken out of a list of lines and put into another (or the same), with its indentation."""
        if items.flow_style or target.flow_style or len(items.value) == 1 or not target.value:
            return ()
        old = items.value[0].start_mark.column
        new = target.value[0].start_mark.column
        lines = self.item(items, index).splitlines(keepends=True)
        text = "".join(" " * (new - 2) + line[old - 2 :] for line in lines)
        return (*self.without_item(items, index), *self.with_item(target, before, text))


def _end(node: Node) -> int:
    """Where a node's own text ends; a block ends with its last piece."""
    if isinstance(node, (MappingNode, SequenceNode)) and node.value and not node.flow_style:
        last = node.value[-1]
        return _end(last[1] if isinstance(node, MappingNode) else last)
    end: int = node.end_mark.index
    return end


def pair_of(node: Node | None, name: str) -> Pair | None:
    """A pair of a mapping by its key."""
    for key, value in node.value if isinstance(node, MappingNode) else ():
        if isinstance(key, ScalarNode) and key.value == name:
            return key, value
    return None


def value_of(node: Node | None, *names: str) -> Node | None:
    """A value by the keys that lead to it."""
    for name in names:
        pair = pair_of(node, name)
        node = pair[1] if pair is not None else None
    return node


def carried_out(texts: dict[str, str], edits: Sequence[Edit]) -> dict[str, str] | None:
    """The texts after the edits; None where two of them want the same stretch."""
    out = dict(texts)
    for file in dict.fromkeys(edit.file for edit in edits):
        own = sorted((e for e in edits if e.file == file), key=lambda e: (e.start, e.end))
        text, pieces, at = out[file], [], 0
        for edit in own:
            if edit.start < at:
                return None
            pieces += [text[at : edit.start], edit.text]
            at = edit.end
        out[file] = "".join([*pieces, text[at:]])
    return out


__all__ = ["Edit", "MappingNode", "Node", "Pair", "ScalarNode", "SequenceNode", "Sheet", "carried_out",
           "pair_of", "value_of"]  # fmt: skip
