"""SARIF: the shape that the OASIS standard asks for, and everything that a finding says."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from jsonschema import Draft202012Validator, FormatChecker

from builder.checks.every import ALL as CHECKS
from builder.findings import Severity
from builder.findings.sarif import Rule, as_sarif
from tests.findings.made import ACCEPTED, ALL, ALONE, FOLLOWING, LEADER, NOTE

SHAPE = json.loads((Path(__file__).parents[1] / "fixtures/sarif-2.1.0-part.schema.json").read_text("utf-8"))
RULES = (Rule("zone-sum", Severity.ERROR, "A chain that does not close leaves a gap.", "Mend the chain."),)


def log(*findings: Any, rules: Any = RULES) -> Any:
    return json.loads(as_sarif(findings, rules, "1.2"))


def faults(data: Any) -> list[str]:
    validator = Draft202012Validator(SHAPE, format_checker=FormatChecker())
    return [f"{list(e.absolute_path)}: {e.message}" for e in validator.iter_errors(data)]


def test_the_shape_itself_is_a_schema() -> None:
    Draft202012Validator.check_schema(SHAPE)


@pytest.mark.parametrize("findings", [(), (ALONE,), ALL])
def test_a_log_has_the_shape_of_the_standard(findings: tuple[Any, ...]) -> None:
    assert faults(log(*findings)) == []


def test_the_rules_of_all_checks_have_the_shape() -> None:
    rules = [Rule(each.name, each.severity, each.why, each.mend) for each in CHECKS]
    made = log(*ALL, rules=rules)
    assert faults(made) == []
    ids = [rule["id"] for rule in made["runs"][0]["tool"]["driver"]["rules"]]
    assert ids == list(dict.fromkeys(ids)) and set(ids) >= {each.name for each in CHECKS}


@pytest.mark.parametrize(
    ("path", "value"),
    [
        (("version",), "2.0.0"),
        (("runs", 0, "results", 0, "level"), "fatal"),
        (("runs", 0, "results", 0, "locations", 0, "physicalLocation", "region", "startLine"), 0),
        (("runs", 0, "results", 0, "severity"), "error"),
        (("runs", 0, "tool", "driver", "name"), None),
        (("runs", 0, "columnKind"), "bytes"),
    ],
)
def test_the_shape_refuses_what_the_standard_refuses(path: tuple[Any, ...], value: Any) -> None:
    made = log(ALONE)
    inner = made
    for key in path[:-1]:
        inner = inner[key]
    inner[path[-1]] = value
    assert len(faults(made)) == 1


def test_a_result_says_what_the_finding_says() -> None:
    first, second, third, fourth = log(*ALL)["runs"][0]["results"]
    assert first["message"]["text"] == "the zones sum to 9, not 10\nWhy: It gapes.\nMend: Mend it."
    assert [each["level"] for each in (first, second, third, fourth)] == ["error", "warning", "note", "error"]
    place = first["locations"][0]["physicalLocation"]
    assert place["artifactLocation"]["uri"] == "guides/a%20cart/guide.yml"  # RFC 3986: a space is %20
    # the word is four characters long, so the column after it is 9
    assert place["region"] == {"startLine": 3, "startColumn": 5, "endColumn": 9}
    assert second["message"]["text"].startswith(f"{LEADER.message} (on the routes one and two)")
    told = [each["message"]["text"] for each in second["relatedLocations"]]
    assert told == [
        "the label",
        f"may follow from it: {FOLLOWING.message} (on the route with the jig) [station]",
    ]
    assert third["message"]["text"] == NOTE.message


def test_a_rule_is_named_by_its_number() -> None:
    run = log(*ALL)["runs"][0]
    rules = run["tool"]["driver"]["rules"]
    for result in run["results"]:
        assert rules[result["ruleIndex"]]["id"] == result["ruleId"]
    assert [rule["id"] for rule in rules] == ["zone-sum", "working-time", "say-same"]


def test_an_acceptance_is_a_suppression_in_the_source() -> None:
    results = log(*ALL)["runs"][0]["results"]
    assert ["suppressions" in result for result in results] == [False, False, False, True]
    (suppression,) = results[3]["suppressions"]
    assert ACCEPTED.accepted is not None
    assert suppression["kind"] == "inSource" and suppression["status"] == "accepted"
    assert suppression["justification"] == ACCEPTED.accepted.why
    assert suppression["location"]["physicalLocation"]["region"]["startLine"] == 30
