"""An acceptance that accepts nothing, or no longer what it accepted.

What: A finding may stay if the guide accepts it: the check, the place, the reason, the sign of its facts.

Why: A finding that nobody looks at any more hides the next one.

Bad:
    accepted:
      - {check: working-time, at: ring_on, why: Two of us do it.}      # nothing is found there

Good:
    accepted: []
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from typing import TYPE_CHECKING

from msgspec.structs import replace

from builder.checks.base import Check, Look
from builder.findings import Accepted, Finding, Place, Related, Severity
from builder.guide.model import Acceptance, Guide

if TYPE_CHECKING:  # only a guide that accepts something pays for it
    from builder.guide.whereabouts import Whereabouts


def facts_of(finding: Finding, guide: Guide) -> str:
    """The sign of what a finding says: eight hexadecimal digits over its check, its words, its routes and
    the numbers that it names, as they are written. It does not change when the guide grows elsewhere."""
    from zlib import crc32

    said = [finding.check, finding.message, *finding.routes]
    for fact in sorted(finding.suspects | finding.rests_on):
        place = guide.paths.get(fact.removeprefix("number:"))
        if place is not None:
            said.append(f"{fact}={_text_at(guide, place)}")
    return f"{crc32(chr(10).join(said).encode()):08x}"


def _text_at(guide: Guide, place: Place) -> str:
    lines = guide.texts.get(place.file, "").splitlines()
    line = lines[place.line - 1] if place.line <= len(lines) else ""
    return line[place.column - 1 : place.column - 1 + place.length]


def accept(findings: Sequence[Finding], guide: Guide, names: Collection[str]) -> list[Finding]:
    """The findings, those that the guide accepts marked as such, and a finding for each acceptance that
    names nothing here. `names` are the checks of this stage; an acceptance of another is left alone."""
    if not guide.accepted:
        return list(findings)
    from builder.guide.whereabouts import Whereabouts

    where = Whereabouts(guide)
    out = list(findings)
    for acceptance in guide.accepted:
        if acceptance.check not in names:
            out.append(_unknown(acceptance, names))
            continue
        there = [
            number
            for number, finding in enumerate(out)
            if finding.check == acceptance.check and acceptance.spot in where.at(finding.place)
        ]
        if not there:
            out.append(_nothing(acceptance, out, where))
        meant = [number for number in there if facts_of(out[number], guide) == acceptance.facts]
        for number in meant:
            out[number] = replace(out[number], accepted=Accepted(acceptance.why, acceptance.at))
        if not meant:
            for number in there:
                out[number] = _beside(out[number], acceptance, facts_of(out[number], guide))
    return out


def _beside(finding: Finding, acceptance: Acceptance, facts: str) -> Finding:
    """A finding with the word that an acceptance of it does not count, and what would make it count."""
    message = f"the acceptance of [{finding.check}] does not say which facts it accepts"
    if acceptance.facts:
        message = (
            f"the acceptance of [{finding.check}] has lapsed: what was found is no longer what it accepts"
        )
    mend = f"If it may stay as it is now, write `facts: {facts}` in the acceptance."
    # What is told beneath another finding is told without its mend, and this sign stands nowhere else.
    told = CHECK.finding(
        acceptance.at, f"{message}; for it to count, write `facts: {facts}` there", mend=mend
    )
    return replace(finding, follows=(*finding.follows, told))


def _nothing(acceptance: Acceptance, findings: Sequence[Finding], where: Whereabouts) -> Finding:
    found = [f for f in findings if f.check == acceptance.check]
    also = tuple(Related(f.place, f"it finds this, at `{(*where.at(f.place), '')[0]}`") for f in found[:3])
    return CHECK.finding(
        acceptance.at, f'nothing is accepted: [{acceptance.check}] finds nothing at "{acceptance.spot}"',
        also=also,
        mend="Name the place where it finds something." if found else "Take the acceptance out.",
    )  # fmt: skip


def _unknown(acceptance: Acceptance, names: Collection[str]) -> Finding:
    from builder.guide.desk import nearest

    guess = nearest(acceptance.check, names)
    return CHECK.finding(
        acceptance.at, f'there is no check "{acceptance.check}" whose findings could be accepted',
        mend=f"Did you mean `{guess}`?" if guess else "Write the name that the finding shows in brackets.",
    )  # fmt: skip


def find(look: Look) -> Iterator[Finding]:
    """What is accepted where nothing is found. Asked by itself, no other check has found anything."""
    yield from accept([], look.guide, {each.check for each in look.guide.accepted})


CHECK = Check(
    "acceptance", Severity.WARNING, "guide",
    why="A finding that nobody looks at any more hides the next one.",
    mend="Take the acceptance out, or write down what it accepts now.",
    find=find,
)  # fmt: skip
