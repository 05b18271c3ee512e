"""Findings as SARIF 2.1.0, the exchange format for results of static analysis (OASIS Standard, 2020).

One finding is one result. Its other places, and what may follow from it, are related locations; an
acceptance is a suppression in the source. Columns count characters, as `columnKind` says.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from urllib.parse import quote

import msgspec

from builder.findings import Finding, Place, Severity, on_routes

SCHEMA = "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json"


class Rule(msgspec.Struct, frozen=True):
    """What a reader of results wants to know of a check: its name, how bad it is, why, the mend."""

    id: str
    severity: Severity
    why: str
    mend: str


def as_sarif(findings: Iterable[Finding], rules: Sequence[Rule], version: str) -> str:
    """One SARIF log with one run. `version` is the program's own; a check without a rule gets a bare one."""
    found = list(findings)
    known = {rule.id: rule for rule in rules}
    for finding in found:
        known.setdefault(finding.check, Rule(finding.check, finding.severity, finding.why, finding.mend))
    index = {id: number for number, id in enumerate(known)}
    log = {
        "$schema": SCHEMA,
        "version": "2.1.0",
        "runs": [
            {
                "tool": {
                    "driver": {
                        "name": "Kitwright",
                        "version": version,
                        "rules": [_rule(rule) for rule in known.values()],
                    }
                },
                "columnKind": "unicodeCodePoints",
                "results": [_result(finding, index[finding.check]) for finding in found],
            }
        ],
    }
    return msgspec.json.format(msgspec.json.encode(log), indent=2).decode()


def _rule(rule: Rule) -> dict[str, object]:
    out: dict[str, object] = {
        "id": rule.id,
        "defaultConfiguration": {"level": rule.severity.value},
        "shortDescription": {"text": rule.why or rule.id},
    }
    if rule.mend:
        out["help"] = {"text": rule.mend}
    return out


def _result(finding: Finding, rule: int) -> dict[str, object]:
    told = [_told(finding), finding.why and f"Why: {finding.why}", finding.mend and f"Mend: {finding.mend}"]
    out: dict[str, object] = {
        "ruleId": finding.check,
        "ruleIndex": rule,
        "level": finding.severity.value,
        "message": {"text": "\n".join(filter(None, told))},
        "locations": [_location(finding.place)],
    }
    others = [(other.place, other.text) for other in finding.also] + list(_consequences(finding))
    if others:
        out["relatedLocations"] = [
            {"id": number, "message": {"text": text}, **_location(place)}
            for number, (place, text) in enumerate(others, 1)
        ]
    if finding.accepted is not None:
        out["suppressions"] = [
            {
                "kind": "inSource",
                "status": "accepted",
                "justification": finding.accepted.why,
                "location": _location(finding.accepted.place),
            }
        ]
    return out


def _told(finding: Finding) -> str:
    routes = f" ({on_routes(finding.routes)})" if finding.routes else ""
    return finding.message + routes


def _consequences(finding: Finding) -> Iterable[tuple[Place, str]]:
    for inner in finding.follows:
        yield inner.place, f"may follow from it: {_told(inner)} [{inner.check}]"
        yield from _consequences(inner)


def _location(place: Place) -> dict[str, object]:
    region = {
        "startLine": place.line,
        "startColumn": place.column,
        "endColumn": place.column + place.length,
    }
    return {"physicalLocation": {"artifactLocation": {"uri": quote(place.file, safe="/")}, "region": region}}
