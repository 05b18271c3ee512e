"""The blocks of laid-out pages: where each step stands, what it shows, and what stands round the steps."""

from __future__ import annotations

import hashlib
import re
from collections.abc import Iterator
from typing import Any
from xml.etree import ElementTree

import msgspec

from builder.packet.pdf import printed

MM = 25.4 / 96  # a CSS pixel


class Box(msgspec.Struct, frozen=True):
    """A rectangle on a page, in mm from the page's upper left corner."""

    x: float
    y: float
    width: float
    height: float


class Block(msgspec.Struct, frozen=True):
    """A step on a page: its anchor, its place, the sign of what it shows, its own HTML. `whole` is false
    for one that goes on over the page's end."""

    step: str
    page: int
    box: Box
    shows: str
    html: str
    whole: bool = True


class Laid(msgspec.Struct, frozen=True):
    """A part of a packet, laid out: its bytes, the mark of each page, its steps, and for each page the signs
    of what stands there besides. Pages count from 1."""

    data: bytes
    marks: tuple[str, ...]
    blocks: tuple[Block, ...]
    rest: tuple[frozenset[str], ...]

    def on(self, page: int) -> list[Block]:
        """The steps on a page."""
        return [block for block in self.blocks if block.page == page]

    def block(self, step: str) -> Block | None:
        """A step, by its anchor."""
        return next((block for block in self.blocks if block.step == step), None)


def lay_out(html: str) -> Laid:
    """Lay a part out. Errors: LayoutTrouble."""
    document, data, marks = printed(html)
    blocks: list[Block] = []
    rest: list[frozenset[str]] = []
    for number, each in enumerate(document.pages, 1):
        found: dict[str, Block] = {}
        around: set[str] = set()
        for box, inner in _outermost(each._page_box):
            if inner:
                block = _block(box, number)
                found.setdefault(block.step, block)
            else:
                around.add(_sign(box.element))
        blocks += found.values()
        rest.append(frozenset(around))
    return Laid(data, marks, tuple(_split(blocks)), tuple(rest))


def _outermost(page: Any) -> Iterator[tuple[Any, bool]]:
    """The boxes of a page that hold no step, as large as can be, and those of the steps: (box, is a step)."""
    for box in page.children:
        if type(box).__name__ != "MarginBox":
            yield from _within(box)


def _within(box: Any) -> Iterator[tuple[Any, bool]]:
    element = getattr(box, "element", None)
    if element is None:
        return
    if _is_step(element):
        yield box, True
    elif any(_is_step(inner) for inner in element.iter()):
        for child in getattr(box, "children", ()):
            yield from _within(child)
    else:
        yield box, False


def _is_step(element: Any) -> bool:
    return element.tag == "section" and "step" in (element.get("class") or "").split()


def _block(box: Any, page: int) -> Block:
    place = Box(
        box.border_box_x() * MM, box.border_box_y() * MM, box.border_width() * MM, box.border_height() * MM
    )
    html = _html(box.element)
    return Block(box.element.get("id"), page, place, _sign(box.element), html)


_PREFIX = re.compile(r"(</?)ns\d+:")
_SPACE = re.compile(r' xmlns:ns\d+="[^"]*"')


def _html(element: Any) -> str:
    """An element with all that is in it, and nothing of what follows it. Drawings in the text (the alert
    symbol) are named without a prefix, since none is read in HTML."""
    tail, element.tail = element.tail, None
    try:
        told = ElementTree.tostring(element, encoding="unicode", method="html")
    finally:
        element.tail = tail
    return _SPACE.sub("", _PREFIX.sub(r"\1", told))


def _sign(element: Any) -> str:
    return hashlib.sha256(_html(element).encode()).hexdigest()[:16]


def _split(blocks: list[Block]) -> Iterator[Block]:
    """The same blocks; a step that stands on two pages is whole on neither."""
    pages: dict[str, int] = {}
    for block in blocks:
        pages[block.step] = pages.get(block.step, 0) + 1
    for block in blocks:
        yield msgspec.structs.replace(block, whole=pages[block.step] == 1)
