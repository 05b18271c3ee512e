"""What stands under a cursor: the way to it through the nodes of a text, whether or not it can be read.

A half-written line is no YAML. So a word is put where the cursor is, with what may be missing after it
(a colon, closing brackets), until the whole can be composed; the word then tells where the cursor is.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import NamedTuple

from builder.editor.tables import Path
from builder.guide.nodes import MappingNode, Node, ScalarNode, SequenceNode, compose
from builder.guide.plain import strict

WORD = "zzcursor"
_TOKEN = re.compile(r"[A-Za-z0-9_.]*$")
_REST = re.compile(r"[A-Za-z0-9_]*")
_NAME = re.compile(r"[A-Za-z_][A-Za-z0-9_]*(?:\.[A-Za-z0-9_]+)*")


class Under(NamedTuple):
    """A scalar under the cursor: its way (the last step is its key, or the key that it is the value of),
    whether it is a key, the scalar, and the root of the tree."""

    path: Path
    is_key: bool
    node: ScalarNode
    root: Node


class Typing(NamedTuple):
    """What is being typed: as `Under`, with what stands before the cursor of it. `text` is the text as it
    could be read, with a word at the cursor."""

    path: Path
    is_key: bool
    typed: str
    root: Node
    text: str


def under(text: str, line: int, column: int) -> Under | None:
    """The scalar at a line and column (from 0); a text that is no YAML is mended first."""
    root = strict(text) or compose(text, "text").node
    for path, is_key, node in scalars(root):
        start, end = node.start_mark, node.end_mark
        if (start.line, start.column) <= (line, column) <= (end.line, end.column) and root is not None:
            return Under(path, is_key, node, root)
    return None


def scalars(root: Node | None) -> Iterator[tuple[Path, bool, ScalarNode]]:
    """Every scalar of a tree with its way, in the order written."""
    stack: list[tuple[Node | None, Path]] = [(root, ())]
    while stack:
        node, path = stack.pop()
        if isinstance(node, ScalarNode):
            yield path, False, node
        elif isinstance(node, SequenceNode):
            stack += [(each, (*path, number)) for number, each in enumerate(node.value)][::-1]
        elif isinstance(node, MappingNode):
            for key, _ in node.value:
                if isinstance(key, ScalarNode):
                    yield (*path, key.value), True, key
            stack += [(value, (*path, key.value if isinstance(key, ScalarNode) else ""))
                      for key, value in node.value][::-1]  # fmt: skip


def typing(text: str, offset: int) -> Typing | None:
    """What is being typed at an offset of a text; None inside a comment, or where no reading is found."""
    start = text.rfind("\n", 0, offset) + 1
    head = text[start:offset]
    if re.search(r"(^|\s)#", head) and head.count('"') % 2 == 0:
        return None
    token = _TOKEN.search(head)
    begun = token[0] if token is not None else ""
    rest = _REST.match(text, offset)
    after = text[rest.end() if rest is not None else offset :]
    before = text[: offset - len(begun)]
    for tail in _tails(before, head[: len(head) - len(begun)], after):
        whole = before + WORD + tail
        root = strict(whole)
        for path, is_key, node in scalars(root):
            if WORD in node.value and root is not None:
                typed = node.value.partition(WORD)[0] + begun
                steps = (*path[:-1], "") if is_key else path
                return Typing(steps, is_key, typed, root, whole)
    return None


def _tails(before: str, head: str, after: str) -> Iterator[str]:
    """What may stand after the word, the likeliest first: all that does, less and less of it, and what
    closes the brackets that are open."""
    closing = _closing(before)
    words = [": x", ""] if not head.strip(" -") else ["", ": x"]
    below = after[after.find("\n") :] if "\n" in after else ""
    for rest in (after, below, ""):
        for close in dict.fromkeys(("", closing)):
            yield from (word + close + rest for word in words)


def _closing(before: str) -> str:
    """What closes the quotation mark and the brackets that are open at the end of a text. What stands in
    quotation marks or in a comment opens nothing."""
    stack: list[str] = []
    quote = ""
    for line in before.split("\n"):
        quote = ""
        for number, sign in enumerate(line):
            if quote:
                quote = "" if sign == quote else quote
            elif sign in "\"'" and (number == 0 or line[number - 1] in " [{,:"):
                quote = sign
            elif sign == "#" and (number == 0 or line[number - 1] == " "):
                break
            elif sign in "[{":
                stack.append("]" if sign == "[" else "}")
            elif sign in "]}" and stack:
                stack.pop()
    return quote + "".join(reversed(stack))


def name_at(line: str, column: int) -> tuple[str, int, int] | None:
    """The name under a column of a line (`body.length`), and where it begins and ends."""
    for match in _NAME.finditer(line):
        if match.start() <= column <= match.end():
            return match[0], match.start(), match.end()
    return None
