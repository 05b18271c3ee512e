"""The words of the PDF are the words of the pages: of each step as the site tells it, and of all that was
laid out."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from builder.packet.proofs.base import Fault, Known, Proof, Row, places
from builder.packet.proofs.words_of import Told, but_added, some, words
from builder.packet.reading import Read


def look(known: Known, read: Read) -> Iterator[Row | Fault]:
    """A fault for each step that says less or more than the site, and for what was laid out and is not
    there."""
    found = places(read)
    site, laid = Told(known.told), Told(known.html)
    compared = 0
    faults: list[Fault] = []
    for step in known.steps:
        own = found.get(step.number, [])
        if len(own) != 1:
            continue
        wanted = site.steps.get(step.anchor, Counter())
        here = Counter(words(own[0].page.text(own[0].block)))
        compared += sum(wanted.values())
        if lost := wanted - here:
            faults.append(Fault(own[0].page.number, f"step {step.number} lacks {some(lost)}", step.anchor))
        elif more := but_added(here - wanted, laid.added.get(step.anchor, Counter())):
            said = f"step {step.number} says {some(more)}, which its page on the site does not"
            faults.append(Fault(own[0].page.number, said, step.anchor))
    yield Row("words of the steps, as the site's pages have them", f"{compared}", _off(faults))
    yield from faults
    told = " ".join(page.text(*page.tree, without=("Figure", "THead")) for page in read.pages)
    all_read = Counter(words(told))
    heads = [page.text(e) for page in read.pages for e in page.each() if e.kind == "THead"]
    lost = (laid.all - all_read) + (laid.heads - Counter(words(" ".join(heads))))
    more = all_read - laid.all
    turned = Counter({word: n for word, n in more.items() if word == "page" or word.isdecimal()})
    yield Row("words of the whole part", f"{sum(laid.all.values())}", f"{sum((laid.all - lost).values())}")
    if lost and not faults:
        yield Fault(1, f"what was laid out is not all in the file: {some(lost)}")
    if (more - turned or sum(turned.values()) > 2 * laid.turned) and not faults:
        yield Fault(1, f"the file says what was not laid out: {some(more)}")


def _off(faults: list[Fault]) -> str:
    return "the same" if not faults else f"{len(faults)} steps differ"


PROOF = Proof(
    "words", "The words of the pages",
    "A class has the paper on the bench and the site on the wall; both must say the same.",
    "Look at the templates of the step: what the page prints, the packet must print.", look,
)  # fmt: skip
