"""Acceptances: what they mark, when they lapse, what they do not touch."""

from __future__ import annotations

import re

import pytest

from builder.checks.accept import facts_of
from builder.checks.judge import check
from builder.dryrun.kinds import VERBS
from builder.findings import Finding, Place, Severity, exit_status
from builder.guide.reader import read
from builder.guide.whereabouts import Whereabouts
from tests.checks.examples_of import example

WORKING = example("working-time", "bad").text
"""The ring is slid on for 5 min, after 1 min of gluing: 6 min, and the glue stays open for 5."""


def judged(text: str) -> list[Finding]:
    return check(read({"guide.yml": text}, "guide.yml", VERBS, "example"))


def accepting(text: str, at: str = "ring_on", facts: str = "", check: str = "working-time") -> str:
    written = f", facts: {facts}" if facts else ""
    return f"{text}accepted:\n  - {{check: {check}, at: {at}, why: Two of us do it.{written}}}\n"


def sign_of(text: str, **more: str) -> str:
    """The sign that the finding of an acceptance without one tells its writer to write."""
    finding = judged(accepting(text, **more))[0]
    told = finding.follows[0]
    found = re.search(r"`facts: ([0-9a-f]{8})`", told.mend)
    assert found and told.check == "acceptance" and "does not say which facts" in told.message
    assert f"`facts: {found[1]}`" in told.message  # beneath another finding no mend is printed
    return found[1]


@pytest.mark.parametrize("at", ["ring_on", "ring_on.2"])
def test_an_accepted_finding_is_marked_and_never_counts(at: str) -> None:
    (finding,) = judged(accepting(WORKING, at=at, facts=sign_of(WORKING)))
    assert finding.check == "working-time" and not finding.follows
    assert finding.accepted is not None and finding.accepted.why == "Two of us do it."
    lines = accepting(WORKING).splitlines()
    assert lines[finding.accepted.place.line - 1].startswith("  - {check: working-time")
    assert exit_status(judged(WORKING), strict=True) == 1
    assert exit_status([finding], strict=True) == 0


def test_without_its_sign_it_is_not_accepted() -> None:
    (finding,) = judged(accepting(WORKING))
    assert finding.accepted is None and exit_status([finding], strict=True) == 1


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("takes: 5 min", "takes: 5 1/2 min"),  # the words of the finding change
        ("working time: 5 min", "working time: 4 min"),
    ],
)
def test_it_lapses_when_the_facts_change(old: str, new: str) -> None:
    sign = sign_of(WORKING)
    changed = accepting(WORKING, facts=sign).replace(old, new)
    assert changed.count(new) == 1
    (finding,) = judged(changed)
    assert finding.accepted is None and exit_status([finding], strict=True) == 1
    (told,) = finding.follows
    assert told.check == "acceptance" and "has lapsed" in told.message
    again = changed.replace(sign, sign_of(WORKING.replace(old, new)))
    assert judged(again)[0].accepted is not None


def test_it_stays_when_the_guide_grows_elsewhere() -> None:
    grown = "# one more line at the head\n" + WORKING.replace(
        "title: Glue the ring on", "title: Put the ring on"
    )
    (finding,) = judged(accepting(grown, facts=sign_of(WORKING)))
    assert finding.accepted is not None


@pytest.mark.parametrize(
    ("at", "name", "told"),
    [
        ("rod", "working-time", 'finds nothing at "rod"'),
        ("ring_on", "held", 'finds nothing at "ring_on"'),
        ("ring_on", "working-tine", 'no check "working-tine"'),
        ("ring_on", "yaml", 'no check "yaml"'),  # what reading finds cannot stay
    ],
)
def test_what_matches_nothing_is_a_finding(at: str, name: str, told: str) -> None:
    found = {
        finding.check: finding for finding in judged(accepting(WORKING, at=at, check=name, facts="1a2b3c4d"))
    }
    assert set(found) == {"working-time", "acceptance"}
    assert found["working-time"].accepted is None
    assert told in found["acceptance"].message
    if name == "working-tine":
        assert "`working-time`" in found["acceptance"].mend
    if at == "rod":  # it says where the check does find something
        assert [other.text for other in found["acceptance"].also] == ["it finds this, at `ring_on.2`"]


@pytest.mark.parametrize(
    ("written", "told"),
    [
        ("accepted: no\n", "shape"),
        ("accepted:\n  - {check: working-time, at: ring_on}\n", "missing-field"),
        ("accepted:\n  - {check: working-time, why: So.}\n", "missing-field"),
        ("accepted:\n  - {check: working-time, at: ring_on, whi: So.}\n", "unknown-key"),
    ],
)
def test_an_acceptance_that_is_written_wrong_is_told(written: str, told: str) -> None:
    assert told in {finding.check for finding in judged(WORKING + written)}


def test_an_accepted_fault_hides_nothing_beneath_it() -> None:
    """Glue that is laid after its part was placed leads, and that nothing holds the part folds under it.
    Accepting the first accepts the first alone."""
    text = example("glue-order", "bad").text
    (before,) = judged(text)
    assert [f.check for f in before.follows] == ["held"]
    at = at_of(text)[0]
    after = judged(accepting(text, at=at, check="glue-order", facts=sign_of(text, at=at, check="glue-order")))
    assert [(f.check, f.accepted is not None) for f in after] == [("held", False), ("glue-order", True)]


def at_of(text: str) -> list[str]:
    """The names of the place of the only finding of a text."""
    guide = read({"guide.yml": text}, "guide.yml", VERBS, "example")
    (finding,) = check(guide)
    return list(Whereabouts(guide).at(finding.place))


@pytest.mark.parametrize(
    ("old", "new", "same"),
    [
        ("length: 10 mm}", "length: 10 cm}", False),
        ("length: 10 mm}", "length: 20 mm}", False),
        ("length: 10 mm}", "length: 10 mm, count: 1}", True),  # what stands beside the number
        (
            "outside: 30 mm, inside: 22.4 mm, length: 10 mm}",
            "length: 10 mm, outside: 30 mm, inside: 22.4 mm}",
            True,
        ),
        ("outside: 30 mm", "outside: 31 mm", True),  # a number that the finding does not name
    ],
)
def test_the_sign_follows_the_numbers_that_a_finding_names(old: str, new: str, same: bool) -> None:
    assert WORKING.count(old) == 1
    finding = Finding(
        "x", Severity.ERROR, Place("guide.yml", 1, 1), "the same", suspects=frozenset({"number:ring.length"})
    )
    before, after = (
        facts_of(finding, read({"guide.yml": text}, "guide.yml", VERBS, "example"))
        for text in (WORKING, WORKING.replace(old, new))
    )
    assert (before == after) is same


def test_the_names_of_a_place() -> None:
    guide = read({"guide.yml": WORKING}, "guide.yml", VERBS, "example")
    where = Whereabouts(guide)
    length = guide.paths["ring.length"]
    assert where.at(length)[0] == "ring.length" and "ring" in where.at(length)
    field = next(s for s in guide.every_step()).actions[0].where["with"]  # type: ignore[union-attr]
    assert where.at(field)[:3] == ("ring_on.1.with", "ring_on.1", "ring_on")
    action = next(a for step in guide.every_step() for a in step.each_action())
    assert where.at(action.at)[-1] == "ring_on"
    assert {"ring", "tube", "pva", "ring_on", "ring_on.2", "steps"} <= set(where.names())
