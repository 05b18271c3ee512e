"""The read-back proof: a printed part is opened again with another library, and measured against the guide.

One file for each proof, and one table. It is a stage of its own: it reads a finished file, and nothing is
written unless it holds.
"""

from __future__ import annotations

import msgspec

from builder.findings import Finding, Place, Severity
from builder.packet.proofs import (
    bars,
    cautions,
    duplex,
    feet,
    figures,
    file,
    in_words,
    paper,
    patterns,
    whole,
)
from builder.packet.proofs.base import Fault, Known, Proof
from builder.packet.reading import Read, read_pdf
from builder.pages.printing import Measure

PROOFS: tuple[Proof, ...] = (
    paper.PROOF,
    patterns.PROOF,
    bars.PROOF,
    duplex.PROOF,
    cautions.PROOF,
    whole.PROOF,
    figures.PROOF,
    in_words.PROOF,
    feet.PROOF,
    file.PROOF,
)
"""In this order: what a step was told of by one is not told again by those after it."""


class Proven(msgspec.Struct, frozen=True):
    """What the proof of a part came to: its table, and what is off."""

    measures: tuple[Measure, ...]
    findings: tuple[Finding, ...]


def prove(known: Known, data: bytes) -> Proven:
    """Open a part again and measure it. A part that cannot be opened is a finding too."""
    try:
        read = read_pdf(data, frozenset(drawing.alt for drawing in known.sheets))
    except ValueError as trouble:
        return Proven((), (finding(file.PROOF, known, Fault(1, str(trouble))),))
    return judged(known, read)


def judged(known: Known, read: Read) -> Proven:
    """What every proof says of a part that was read."""
    measures: list[Measure] = []
    findings: list[Finding] = []
    told: set[str] = set()
    for proof in PROOFS:
        found = list(proof.look(known, read))
        faults = [each for each in found if isinstance(each, Fault)]
        measures += [
            Measure(
                proof=proof.title,
                part=known.part,
                what=row.what,
                wanted=row.wanted,
                found=row.found,
                holds=not faults,
            )
            for row in found
            if not isinstance(row, Fault)
        ]
        findings += [finding(proof, known, each) for each in faults if each.about not in told]
        told |= {each.about for each in faults if each.about}
    return Proven(tuple(measures), tuple(findings))


def finding(proof: Proof, known: Known, fault: Fault) -> Finding:
    """A fault as a finding: its line is the page."""
    return Finding(
        f"packet-{proof.id}",
        Severity.ERROR,
        Place(known.name, fault.page, 1),
        f"on page {fault.page}: {fault.message}",
        why=proof.why,
        mend=proof.mend,
        safety=proof.safety,
    )
