"""Annotations: one line each, escaped as workflow commands ask for it."""

from __future__ import annotations

import re
from urllib.parse import unquote

import pytest

from builder.findings import Finding, Place, Severity
from builder.findings.annotations import as_annotations
from tests.findings.made import ACCEPTED, ALL, ALONE, LEADER, NOTE

LINE = re.compile(r"::(?P<command>error|warning|notice) (?P<properties>[^:]*)::(?P<message>.*)")


def parts(line: str) -> tuple[str, dict[str, str], str]:
    """What a service reads from a command. The three escapes of a message and five of a property are the
    percent-encoding of those characters, so a general decoder undoes them."""
    match = LINE.fullmatch(line)
    assert match, line
    pairs = (each.partition("=") for each in match["properties"].split(","))
    properties = {name: unquote(value) for name, _, value in pairs}
    return match["command"], properties, unquote(match["message"])


def test_a_command_for_each_finding_that_counts() -> None:
    lines = as_annotations(ALL).split("\n")
    assert [parts(line)[0] for line in lines] == ["error", "warning", "notice"]
    assert as_annotations([ACCEPTED]) == ""


def test_place_and_check_are_properties() -> None:
    _, properties, message = parts(as_annotations([ALONE]))
    assert properties == {
        "file": "guides/a cart/guide.yml",
        "line": "3",
        "col": "5",
        "endColumn": "9",  # column 5, four characters long
        "title": "zone-sum",
    }
    assert message == "the zones sum to 9, not 10\nwhy: It gapes.\nmend: Mend it."


def test_what_belongs_to_a_finding_is_told_with_it() -> None:
    _, _, message = parts(as_annotations([LEADER]))
    assert "100 % of the time" in message and "(on the routes one and two)" in message
    assert "see guides/common/glue.yml:2:1: the label" in message
    assert "may follow from it: guides/a cart/guide.yml:9:2: 1 in lies past its end [station]" in message


@pytest.mark.parametrize(
    ("text", "written"),
    # The escapes of the workflow commands: %25, %0D, %0A, and in a property %3A and %2C too (from memory).
    [("50 %", "50 %25"), ("a\nb", "a%0Ab"), ("a\r\nb", "a%0D%0Ab"), ("a: b, c", "a: b, c"), ("%0A", "%250A")],
)
def test_a_message_is_escaped(text: str, written: str) -> None:
    finding = Finding("x", Severity.ERROR, Place("f.yml", 1, 1), text)
    assert as_annotations([finding]).partition(",title=x::")[2] == written


@pytest.mark.parametrize(("file", "written"), [("a,b.yml", "a%2Cb.yml"), ("c:b.yml", "c%3Ab.yml"),
                                               ("50%.yml", "50%25.yml")])  # fmt: skip
def test_a_property_is_escaped(file: str, written: str) -> None:
    finding = Finding("x", Severity.ERROR, Place(file, 1, 1), "a")
    assert as_annotations([finding]).startswith(f"::error file={written},line=1,")


def test_one_line_each() -> None:
    assert len(as_annotations([LEADER, NOTE]).splitlines()) == 2
