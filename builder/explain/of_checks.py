"""What each name in the brackets of a finding means: the checks of guide and dry run, those of reading, of
drawings, of sealed revisions, and the proofs of a packet. Every one is told from its own table."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from builder.checks.base import Check
from builder.checks.every import ALL
from builder.findings import Severity
from builder.guide.slips import SLIPS, Slip


class Meant(NamedTuple):
    """A name, its severity, why it is looked at, and the page about it."""

    name: str
    severity: str
    why: str
    page: str


READING = "Reading the guide"
BENCH = "Guide and dry run"
DRAWN = "Drawings, when the site is built or a revision is sealed"
SEALED = "Sealed revisions"
PRINTED = "The packet, read back"


def groups() -> Iterator[tuple[str, tuple[Meant, ...]]]:
    """All names in groups, by what is looked at. What reads pages and print is loaded when it is come to."""
    yield READING, tuple(_of_slip(each) for each in SLIPS)
    yield BENCH, tuple(of_check(each) for each in ALL)
    from builder.drawings.checks import CHECKS as DRAWING_CHECKS
    from builder.revisions.checks import ALL as REVISION_CHECKS

    yield DRAWN, tuple(of_check(each) for each in DRAWING_CHECKS)
    yield SEALED, tuple(of_check(each) for each in REVISION_CHECKS)
    from builder.packet.proofs import PROOFS

    error = Severity.ERROR.value
    yield (
        PRINTED,
        tuple(
            Meant(each.id, error, each.why, f"{each.title}\n\nWhy: {each.why}\n\nMend: {each.mend}")
            for each in PROOFS
        ),
    )


def of_check(check: Check) -> Meant:
    """A check, told from the head of its file; one that shares its file, from its own words."""
    from builder.pages.checks import words_of

    manual = words_of(check)
    page = f"{manual.title}.\n\nWhat: {manual.what}\n\nWhy: {manual.why or check.why}"
    for word, example in (("Bad", manual.bad), ("Good", manual.good)):
        page += f"\n\n{word}:\n{_indented(example)}" if example else ""
    reason = "" if " ".join(manual.why.split()) in ("", check.why) else f"Reason: {check.why}\n"
    page += f"\n\n{reason}Mend: {check.mend}\nSource: {check.source}"
    return Meant(check.name, check.severity.value, check.why, page)


def _of_slip(slip: Slip) -> Meant:
    page = (
        f"{slip.what}\n\nWhy: {slip.why}\n\nBad:\n{_indented(slip.example)}\n\nGood:\n{_indented(slip.mend)}"
    )
    return Meant(slip.name, Severity.ERROR.value, slip.why, page)


def _indented(text: str) -> str:
    return "\n".join(f"    {line}".rstrip() for line in text.splitlines())
