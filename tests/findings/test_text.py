"""Text and JSON of findings, the exit status, the summary: what was accepted is shown and never counts."""

from __future__ import annotations

import json
import re

import pytest

from builder.findings import (
    Finding,
    Place,
    Severity,
    Sources,
    as_json,
    as_text,
    exit_status,
    in_order,
    summary,
)
from tests.findings.made import ACCEPTED, ALL, ALONE, FILE, LEADER, NOTE

SOURCES = Sources({FILE: "\n\n    zone: [a, b]\n"})

# The problem matcher of the manual: file, line, column, severity, message, check.
MATCHER = re.compile(r"^(.+?):(\d+):(\d+): (error|warning|note): (.+) \[([a-z-]+)\]$")


def test_the_caret_stands_under_the_word() -> None:
    lines = as_text([ALONE], SOURCES).splitlines()
    assert lines[0] == f"{FILE}:3:5: error: the zones sum to 9, not 10 [zone-sum]"
    assert lines[1:3] == ["  |     zone: [a, b]", "  |     ^^^^"]
    assert lines[3:5] == ["  why: It gapes.", "  mend: Mend it."]


def test_what_may_follow_is_told_beneath_in_one_line() -> None:
    text = as_text([LEADER], SOURCES)
    assert f"    {FILE}:9:2: error: 1 in lies past its end (on the route with the jig) [station]" in text
    assert "Its reason." not in text and "Its mend." not in text


def test_a_place_is_one_character_long_unless_it_is_said() -> None:
    assert Place(FILE, 1, 1).length == 1


def test_a_line_can_be_matched_by_an_editor() -> None:
    match = MATCHER.match(as_text([ALONE], SOURCES).splitlines()[0])
    assert match and match.groups() == (FILE, "3", "5", "error", "the zones sum to 9, not 10", "zone-sum")


def test_what_was_accepted_is_told_with_its_reason() -> None:
    assert as_text([ACCEPTED], SOURCES).splitlines()[:2] == [
        f"{FILE}:5:1: accepted error: ten [zone-sum]",
        f"  accepted at {FILE}:30:5: the gap is wanted",
    ]
    assert not MATCHER.match(as_text([ACCEPTED], SOURCES).splitlines()[0])
    assert json.loads(as_json([ACCEPTED, NOTE]))[0]["accepted"] == "the gap is wanted"
    assert json.loads(as_json([ACCEPTED, NOTE]))[1]["accepted"] is None


@pytest.mark.parametrize(
    ("findings", "plain", "strict"),
    [((), 0, 0), ((NOTE,), 0, 0), ((LEADER,), 0, 1), ((ALONE,), 1, 1), ((ACCEPTED,), 0, 0),
     ((ACCEPTED, LEADER), 0, 1), ((ACCEPTED, ALONE), 1, 1)],
)  # fmt: skip
def test_the_exit_status(findings: tuple[Finding, ...], plain: int, strict: int) -> None:
    assert exit_status(findings) == plain
    assert exit_status(findings, strict=True) == strict


@pytest.mark.parametrize(
    ("findings", "told"),
    [((), "no finding"), ((ACCEPTED,), "no finding, 1 accepted"),
     (ALL, "1 error, 1 warning, 1 note, 1 accepted"), ((ALONE, ALONE), "2 errors")],
)  # fmt: skip
def test_the_summary(findings: tuple[Finding, ...], told: str) -> None:
    assert summary(findings) == told


def test_the_accepted_come_last() -> None:
    assert in_order([ACCEPTED, NOTE, LEADER, ALONE]) == [ALONE, LEADER, NOTE, ACCEPTED]
    assert ALONE.severity is Severity.ERROR is ACCEPTED.severity
