"""What is cut out has nothing on its back, when the packet is printed on both sides."""

from __future__ import annotations

from collections.abc import Iterator

from builder.drawings.gauges import is_cut
from builder.packet.proofs.base import Fault, Known, Proof, Row
from builder.packet.proofs.words_of import words
from builder.packet.reading import Read, pages_with

EMPTY = words("This side is left empty: what is on the other side is cut out.")


def look(known: Known, read: Read) -> Iterator[Row | Fault]:
    """A fault for each sheet on a left-hand page, and for each whose back is used."""
    backs = 0
    cut = [drawing for drawing in known.sheets if is_cut(drawing)]
    for drawing in cut:
        for page in pages_with(read, drawing.alt):
            if page.number % 2 == 0:
                yield Fault(page.number, f"{drawing.title} is on the back of page {page.number - 1}")
                continue
            if page.number == len(read.pages):
                backs += 1  # the last page has no back
                continue
            back = read.pages[page.number]
            told = words(back.text(*back.tree))
            if told not in ([], EMPTY) or back.drawn:
                said = f"it is the back of {drawing.title}, and is lost when that is cut out"
                yield Fault(back.number, said)
            else:
                backs += 1
    if cut:
        yield Row("sheets to cut with an empty back", f"{len(cut)}", f"{backs}")


PROOF = Proof(
    "duplex", "The backs of the patterns", "Cutting out a pattern destroys what is printed on its back.",
    "A pattern sheet begins on a right-hand page and is followed by an empty one.", look,
)  # fmt: skip
