"""Every caution stands on the page of its step, whole, and before it."""

from __future__ import annotations

from collections.abc import Iterator

from builder.packet.proofs.base import Fault, Known, Place, Proof, Row, places
from builder.packet.proofs.words_of import words
from builder.packet.reading import Read, numbers_of
from builder.pages.contexts import Caution


def look(known: Known, read: Read) -> Iterator[Row | Fault]:
    """A fault for each caution that is missing, elsewhere or after the heading of its step."""
    found = places(read)
    wanted = right = 0
    for step in known.steps:
        for caution in step.cautions:
            wanted += 1
            own = found.get(step.number, [])
            fault = _fault(caution, own[0]) if own else f"step {step.number} itself is not printed"
            if not fault:
                right += 1
                continue
            page = own[0].page.number if own else 1
            hazard = f"{caution.signal_word}: {caution.hazard.striptags()}"
            yield Fault(page, f"the caution of step {step.number} (“{hazard}”) {fault}", step.anchor)
    if wanted:
        yield Row("cautions on the page of their step and before it", f"{wanted}", f"{right}")


def _fault(caution: Caution, at: Place) -> str:
    """What is wrong with a caution at the place of its step; nothing if it stands there whole and before
    it."""
    numbers = list(numbers_of(at.block))
    heading = set(numbers_of(at.heading))
    first = next(n for n, number in enumerate(numbers) if number in heading)
    before = [number for number in numbers[:first] if number in at.page.texts]
    told = words(" ".join(at.page.texts[number] for number in before))
    texts = (caution.signal_word, *(str(t.striptags()) for t in (caution.hazard, caution.consequence,
             caution.avoidance)))  # fmt: skip
    missing = [text for text in texts if not _stands(words(text), told)]
    if len(missing) == len(texts):
        return "does not stand before it on its page"
    if missing:
        return f"is not whole: “{missing[0]}” is missing"
    lowest = max((at.page.tops[n] for n in before if n in at.page.tops), default=0.0)
    if lowest > min(at.page.tops[n] for n in heading if n in at.page.tops):
        return "reaches below the heading of its step"
    return ""


def _stands(wanted: list[str], told: list[str]) -> bool:
    """Whether words stand in a text, in one row."""
    return any(told[n : n + len(wanted)] == wanted for n in range(len(told) - len(wanted) + 1))


PROOF = Proof(
    "cautions", "Cautions before their steps",
    "A caution on another page, or after the step, is read too late.",
    "A step and its cautions are one block that is not broken: look at its page.", look, safety=True,
)  # fmt: skip
