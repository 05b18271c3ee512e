"""The file itself: tagged, with its language, title and bookmarks, its fonts within it, and no colour."""

from __future__ import annotations

from collections.abc import Iterator

from builder.packet.proofs.base import Fault, Known, Proof, Row
from builder.packet.reading import Read


def look(known: Known, read: Read) -> Iterator[Row | Fault]:
    """A fault for each thing that a screen reader or a printer would miss."""
    if not (read.tagged and all(page.tree for page in read.pages)):
        yield Fault(1, "the file is not tagged: a screen reader finds no order in it")
    if not read.language:
        yield Fault(1, "the file does not say its language")
    if known.title not in read.title:
        yield Fault(1, f"the file's title is “{read.title}”, which does not name “{known.title}”")
    if not read.bookmarks:
        yield Fault(1, "the file has no bookmarks")
    loose = {name: page.number for page in reversed(read.pages) for name in page.loose_fonts}
    for name, page in loose.items():
        yield Fault(page, f"the font {name} is not in the file; another printer sets other letters")
    coloured = [page.number for page in read.pages if page.colours]
    for page in coloured:
        yield Fault(page, "something is coloured: a grey printer may lose it")
    yield Row("language, title, bookmarks", "all there", f"{read.language}, “{read.title}”, {read.bookmarks}")
    yield Row("fonts that are not in the file", "0", f"{len(loose)}")
    yield Row("pages with a colour", "0", f"{len(coloured)}")


PROOF = Proof(
    "file", "The file", "It must be read by a screen reader and printed by any printer.",
    "Look at the print style and at the pictures that the guide brings.", look,
)  # fmt: skip
