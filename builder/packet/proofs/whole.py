"""Every step stands on one page, whole: heading, lines and ticks together."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from builder.packet.proofs.base import Fault, Known, Proof, Row, places
from builder.packet.proofs.words_of import Told, some, words
from builder.packet.reading import Read


def look(known: Known, read: Read) -> Iterator[Row | Fault]:
    """A fault for each step that is missing, printed twice, or goes on over the end of its page."""
    found = places(read)
    told = Told(known.html).steps
    right = 0
    for step in known.steps:
        own = found.get(step.number, [])
        if len(own) != 1:
            often = "is not printed" if not own else f"begins on {len(own)} pages"
            said = f"step {step.number} ({step.title}) {often}"
            yield Fault(own[0].page.number if own else 1, said, step.anchor)
            continue
        here = Counter(words(own[0].page.text(own[0].block)))
        lost = told.get(step.anchor, Counter()) - here
        page = own[0].page.number
        after = read.pages[page] if page < len(read.pages) else None
        if lost and after is not None and not lost - Counter(words(" ".join(after.texts.values()))):
            said = f"step {step.number} ({step.title}) is split: {some(lost)} stand on the next page"
            yield Fault(page, said, step.anchor)
        else:
            right += 1
    yield Row("steps whole on one page", f"{len(known.steps)}", f"{right}")


PROOF = Proof(
    "whole", "Steps on one page", "At the bench only one page lies open.",
    "The step is taller than a page: make two of it, or shorten its words.", look,
)  # fmt: skip
