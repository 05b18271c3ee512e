"""What every proof of a printed part shares: what ought to be there, what was measured, what was off."""

from __future__ import annotations

from collections.abc import Callable, Iterator

import msgspec

from builder.drawings.shapes import Drawing
from builder.packet.proofs.words_of import words
from builder.packet.reading import Element, Page, Read
from builder.pages.contexts import StepView


class Known(msgspec.Struct, frozen=True):
    """What ought to be in a part, worked out anew from the guide and not from what was laid out.

    `html` is what was laid out, `told` the same steps as the site's pages lay them out. `steps` have the
    pictures that the print shows. `sheets` are the gauges and patterns as they were drawn, in mm.
    """

    name: str
    part: str
    paper: str
    title: str
    identity: str
    marks: tuple[str, ...]
    html: str
    told: str
    steps: tuple[StepView, ...]
    sheets: tuple[Drawing, ...]


class Row(msgspec.Struct, frozen=True):
    """One measure: what, what it ought to be, what it was found to be."""

    what: str
    wanted: str
    found: str


class Fault(msgspec.Struct, frozen=True):
    """What is off on a page. `about` names the step; what a later proof says of the same step is not told
    again."""

    page: int
    message: str
    about: str = ""


class Proof(msgspec.Struct, frozen=True):
    """One proof: its name, what it looks at, why that matters, how to mend it."""

    id: str
    title: str
    why: str
    mend: str
    look: Callable[[Known, Read], Iterator[Row | Fault]]
    safety: bool = False


class Place(msgspec.Struct, frozen=True):
    """Where a step stands: its page, its block in the structure tree, its heading."""

    page: Page
    block: Element
    heading: Element


def places(read: Read) -> dict[str, list[Place]]:
    """Where each step stands, by its number: the innermost sections that have a heading `Step N: ...`."""
    found: dict[str, list[Place]] = {}
    for page in read.pages:
        for block in page.each():
            if block.kind != "Sect":
                continue
            heading = next((e for e in own(block) if e.kind == "H3"), None)
            told = words(page.text(heading)) if heading is not None else []
            if heading is not None and len(told) > 1 and told[0] == "Step":
                found.setdefault(told[1], []).append(Place(page, block, heading))
    return found


def own(block: Element) -> Iterator[Element]:
    """What is in a section and in no section within it."""
    for one in block.inner:
        if one.kind != "Sect":
            yield one
            yield from own(one)


def many(number: int, one: str, several: str = "") -> str:
    """`1 step`, `50 steps`."""
    return f"{number} {one if number == 1 else several or one + 's'}"
