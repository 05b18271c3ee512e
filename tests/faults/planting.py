"""Plants faults in copies of the rocket guide. `python -m tests.faults.planting` runs all pairs."""

from __future__ import annotations

import itertools
from collections.abc import Iterator
from functools import cache
from pathlib import Path

from builder.checks.judge import check
from builder.dryrun.kinds import VERBS
from builder.findings import Finding, Severity
from builder.guide.reader import read
from tests.faults.table import FAULTS, Fault

FOLDER = Path(__file__).parents[1] / "fixtures" / "guides"
GUIDE = "guides/rocket/guide.yml"
SHARED = "guides/common/roll_tube.yml"


@cache
def clean() -> dict[str, str]:
    """The guide and its shared step, as they stand."""
    return {
        GUIDE: (FOLDER / "rolled-rocket.yml").read_text("utf-8"),
        SHARED: (FOLDER / "roll_tube.yml").read_text("utf-8"),
    }


def planted(faults: tuple[Fault, ...]) -> dict[str, str] | None:
    """The texts with the faults in them; None if one edit has taken away what another looks for."""
    texts = dict(clean())
    for fault in faults:
        name = SHARED if fault.file else GUIDE
        for old, new in fault.edits:
            if texts[name].count(old) != 1:
                return None
            texts[name] = texts[name].replace(old, new, 1)
    return texts


def findings_of(texts: dict[str, str]) -> list[Finding]:
    """All findings of the texts."""
    return check(read(texts, GUIDE, VERBS, "rocket"))


def errors_of(findings: list[Finding]) -> list[Finding]:
    """The leading errors."""
    return [f for f in findings if f.severity is Severity.ERROR]


def named(finding: Finding) -> Iterator[str]:
    """The check of a finding and of all that follows from it."""
    yield finding.check
    for each in finding.follows:
        yield from named(each)


def pairs() -> list[tuple[Fault, Fault]]:
    """All pairs whose edits lie in different things."""
    return [(a, b) for a, b in itertools.combinations(FAULTS, 2) if a.thing != b.thing]


def wrong_with(pair: tuple[Fault, Fault]) -> str:
    """What is wrong with a pair's findings: one of the two is not there, or there are too many leaders."""
    texts = planted(pair)
    if texts is None:
        return ""
    findings = findings_of(texts)
    there = [name for finding in findings for name in named(finding)]
    wanted = [fault.check for fault in pair]
    title = f"{pair[0].name} + {pair[1].name}"
    for name in wanted:
        if there.count(name) < wanted.count(name):
            return f"{title}: no {name} in {there}"
    leaders = errors_of(findings)
    return f"{title}: {len(leaders)} leaders" if len(leaders) > 3 else ""


if __name__ == "__main__":
    every = pairs()
    wrong = [text for pair in every if (text := wrong_with(pair))]
    print("\n".join(wrong))
    print(f"{len(every)} pairs, {len(wrong)} wrong")
