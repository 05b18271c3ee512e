"""Every page has the size of the paper that the packet is made for."""

from __future__ import annotations

from collections.abc import Iterator

from builder.drawings.sheets import PAPERS
from builder.packet.proofs.base import Fault, Known, Proof, Row, many
from builder.packet.reading import Read

NEAR = 0.05  # mm


def look(known: Known, read: Read) -> Iterator[Row | Fault]:
    """A fault for each page of another size."""
    width, height = PAPERS[known.paper]
    worst = 0.0
    for page in read.pages:
        off = max(abs(page.width - width), abs(page.height - height))
        worst = max(worst, off)
        if off > NEAR:
            yield Fault(
                page.number,
                f"the page is {page.width:.1f} by {page.height:.1f} mm;"
                f" {known.paper} paper is {width} by {height} mm",
            )
    measured = f"off by {worst:.3f} mm at most"
    yield Row(f"size of {many(len(read.pages), 'page')}", f"{width} x {height} mm", measured)


PROOF = Proof(
    "paper", "The paper", "A page of another size is scaled by the printer, and its patterns with it.",
    "Print the packet again for the paper that you have.", look,
)  # fmt: skip
