"""A small tree of an HTML page, so that tests can ask what a reader or a screen reader meets."""

from __future__ import annotations

from collections.abc import Iterator
from html.parser import HTMLParser

VOID = {"area", "base", "br", "col", "hr", "img", "input", "link", "meta", "wbr"}


class Node:
    """An element: its tag, attributes, children (nodes and text) and parent."""

    def __init__(self, tag: str, attributes: dict[str, str], parent: Node | None) -> None:
        self.tag, self.attributes, self.parent = tag, attributes, parent
        self.children: list[Node | str] = []

    def walk(self) -> Iterator[Node]:
        """This element and all below it, in document order."""
        yield self
        for child in self.children:
            if isinstance(child, Node):
                yield from child.walk()

    def text(self) -> str:
        """All text below that is read out, white space collapsed."""
        if self.attributes.get("aria-hidden") == "true":
            return ""
        parts = [child if isinstance(child, str) else child.text() for child in self.children]
        return " ".join(" ".join(parts).split())

    def all(self, tag: str = "", **attributes: str) -> list[Node]:
        """Elements of this tag that carry these attributes; `class_` asks for one class among several."""
        wanted = attributes.pop("class_", "")
        return [
            node for node in self.walk()
            if (not tag or node.tag == tag)
            and (not wanted or wanted in node.attributes.get("class", "").split())
            and all(node.attributes.get(name) == value for name, value in attributes.items())
        ]  # fmt: skip

    def above(self) -> Iterator[Node]:
        """Its parents, nearest first."""
        node = self.parent
        while node is not None:
            yield node
            node = node.parent


class Page(HTMLParser):
    """Parses a page; a tag that is closed out of turn raises AssertionError."""

    def __init__(self, html: str) -> None:
        super().__init__(convert_charrefs=True)
        self.root = Node("#page", {}, None)
        self.here = self.root
        self.feed(html)
        self.close()
        assert self.here is self.root, f"<{self.here.tag}> is not closed"

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        node = Node(tag, {name: value or "" for name, value in attrs}, self.here)
        self.here.children.append(node)
        if tag not in VOID:
            self.here = node

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.here.children.append(Node(tag, {name: value or "" for name, value in attrs}, self.here))

    def handle_endtag(self, tag: str) -> None:
        assert self.here.tag == tag, f"</{tag}> closes <{self.here.tag}>"
        assert self.here.parent is not None
        self.here = self.here.parent

    def handle_data(self, data: str) -> None:
        self.here.children.append(data)
