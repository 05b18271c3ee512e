"""Every page says at its foot which guide, route and revision it is from, its mark and its number."""

from __future__ import annotations

from collections.abc import Iterator

from builder.packet.proofs.base import Fault, Known, Proof, Row
from builder.packet.reading import Read


def look(known: Known, read: Read) -> Iterator[Row | Fault]:
    """A fault for each page whose foot says anything else."""
    count = len(read.pages)
    right = 0
    if len(known.marks) != count:
        yield Fault(1, f"{len(known.marks)} marks were worked out for {count} pages")
    for page, mark in zip(read.pages, known.marks, strict=False):
        wanted = " ".join(f"{known.identity} {mark} page {page.number} of {count}".split())
        if page.foot == wanted:
            right += 1
        else:
            yield Fault(page.number, f"its foot says “{page.foot}” and ought to say “{wanted}”")
    yield Row("feet with guide, route, revision, mark and number", f"{count}", f"{right}")


PROOF = Proof(
    "feet", "The feet of the pages", "A loose sheet is known by its foot, and is told apart by its mark.",
    "A name that is longer than the foot has room for is cut off: shorten the guide's title.", look,
)  # fmt: skip
