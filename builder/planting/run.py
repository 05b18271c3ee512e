"""Faults planted one at a time, or two at a time, in copies of a guide; what the checks say of them."""

from __future__ import annotations

import itertools
from collections.abc import Iterator, Sequence
from typing import NamedTuple

from builder.checks.judge import check
from builder.dryrun.kinds import VERBS
from builder.findings import Finding
from builder.guide.model import Guide
from builder.guide.reader import read
from builder.planting.ground import Ground
from builder.planting.kind import Kind, Plant
from builder.planting.sheet import carried_out

MOST_LEADERS = 3  # of a pair


class Told(NamedTuple):
    """A leading finding: check, severity, place, message."""

    check: str
    severity: str
    place: str
    message: str


class Result(NamedTuple):
    """What became of one planted fault (or of two).

    verdict: caught; missed (no finding of the kind's checks); beneath (only as a consequence of another);
    extra (caught, and more that leads); weak (caught with another severity).
    """

    kinds: tuple[str, ...]
    expected: tuple[str, ...]
    at: str
    verdict: str
    leaders: tuple[Told, ...]

    @property
    def good(self) -> bool:
        """Whether the checks did what the row says."""
        return self.verdict == "caught"


class Harvest(NamedTuple):
    """All results for a guide, and the kinds that it has no place for."""

    guide: str
    title: str
    results: tuple[Result, ...]
    no_place: tuple[str, ...]
    own: int  # findings that the guide has without any planting, and did not accept

    @property
    def missed(self) -> tuple[Result, ...]:
        """What did not go as the row says."""
        return tuple(r for r in self.results if not r.good)


class Field:
    """A guide made ready for planting."""

    def __init__(self, guide: Guide) -> None:
        self.guide = guide
        self.ground = Ground(guide)
        self.texts = {**guide.texts, **{name: sheet.text for name, sheet in self.ground.sheets.items()}}
        found = check(guide, self.ground.runs)
        self.own = [_key(f) for f in found]
        self.faults = sum(f.accepted is None for f in found)

    def findings(self, plants: Sequence[Plant]) -> list[Finding] | None:
        """What the checks find beyond what the guide has anyway; None if the edits meet."""
        texts = carried_out(self.texts, [edit for plant in plants for edit in plant.edits])
        if texts is None:
            return None
        found = check(read(texts, self.guide.file, VERBS, self.guide.id))
        own = list(self.own)
        out = []
        for finding in found:
            if _key(finding) in own:
                own.remove(_key(finding))
            else:
                out.append(finding)
        return out


def _key(finding: Finding) -> tuple[str, str]:
    return finding.check, finding.message


def plant(guide: Guide, kinds: Sequence[Kind], *, every: bool = False) -> Harvest:
    """Plant each kind at the first place that the guide offers, or at every one, each in its own copy."""
    field = Field(guide)
    results: list[Result] = []
    no_place: list[str] = []
    for kind in kinds:
        places = list(offered(kind, field.ground, every))
        if not places:
            no_place.append(kind.name)
        for each in places:
            found = field.findings((each,))
            assert found is not None, f"the edits of {kind.name} meet each other"
            results.append(Result((kind.name,), kind.checks, each.at, _verdict(kind, found), _leaders(found)))
    return Harvest(guide.id, guide.title, tuple(results), tuple(no_place), field.faults)


def offered(kind: Kind, ground: Ground, every: bool) -> Iterator[Plant]:
    """The places of a kind: all, or the first."""
    found = (p for p in kind.find(ground) if p.edits)
    return found if every else itertools.islice(found, 1)


def pairs(guide: Guide, kinds: Sequence[Kind], step: int = 1) -> Harvest:
    """Plant every two kinds together whose edits lie in different things; `step` takes every so many-th."""
    field = Field(guide)
    placed = [(k, p) for k in kinds for p in offered(k, field.ground, False)]
    results = []
    apart = [(a, b) for a, b in itertools.combinations(placed, 2) if not set(a[1].things) & set(b[1].things)]
    for (one, first), (two, second) in apart[::step]:
        found = field.findings((first, second))
        if found is None:
            continue
        results.append(
            Result(
                (one.name, two.name),
                (*one.checks, *two.checks),
                f"{first.at}; {second.at}",
                _pair_verdict(one, two, found),
                _leaders(found),
            )
        )
    return Harvest(guide.id, guide.title, tuple(results), (), field.faults)


def _leaders(found: Sequence[Finding]) -> tuple[Told, ...]:
    return tuple(Told(f.check, f.severity.value, str(f.place), f.message) for f in found)


def _verdict(kind: Kind, found: Sequence[Finding]) -> str:
    leading = [f for f in found if f.check in kind.checks]
    if not leading:
        return "beneath" if set(kind.checks) & set(_all(found)) else "missed"
    if len(found) > 1:
        return "extra"
    return "caught" if leading[0].severity.value == kind.severity else "weak"


def _pair_verdict(one: Kind, two: Kind, found: Sequence[Finding]) -> str:
    """Both are told, each by a finding of its own where both have the same checks."""
    there = list(enumerate(_all(found)))
    both = any(
        a != b and first in one.checks and second in two.checks
        for (a, first), (b, second) in itertools.product(there, there)
    )
    if not both:
        return "missed"
    return "extra" if len(found) > MOST_LEADERS else "caught"


def _all(found: Sequence[Finding]) -> Iterator[str]:
    for finding in found:
        yield finding.check
        yield from _all(finding.follows)
