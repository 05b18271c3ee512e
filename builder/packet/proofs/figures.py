"""Every step has its pictures beside it, each drawn and each with its text alternative."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from builder.packet.proofs.base import Fault, Known, Proof, Row, places
from builder.packet.proofs.words_of import words
from builder.packet.reading import Read


def look(known: Known, read: Read) -> Iterator[Row | Fault]:
    """A fault for each picture that is missing, blank, or has no text alternative."""
    found = places(read)
    wanted = right = 0
    for step in known.steps:
        own = found.get(step.number, [])
        if len(own) != 1:
            continue
        page = own[0].page
        drawn = Counter(
            tuple(words(figure.alt))
            for figure in own[0].block.each()
            if figure.kind == "Figure" and any(page.drawn.get(number) for number in figure.numbers)
        )
        alts = Counter(tuple(words(picture.alt)) for picture in step.pictures)
        wanted += sum(alts.values())
        lost = sum((alts - drawn).values())
        right += sum(alts.values()) - lost
        if lost:
            pictures = "its picture" if lost == 1 else f"{lost} of its pictures"
            said = f"step {step.number} ({step.title}) is printed without {pictures}"
            yield Fault(page.number, said, step.anchor)
    for page in read.pages:
        for element in page.each():
            if element.kind == "Figure" and not element.alt.strip():
                yield Fault(page.number, "a picture has no text alternative")
    yield Row("pictures of steps, each beside its step", f"{wanted}", f"{right}")


PROOF = Proof(
    "figures", "Pictures beside their steps", "A step without its picture is built wrongly first.",
    "Look whether the picture's file is there and can be read.", look,
)  # fmt: skip
