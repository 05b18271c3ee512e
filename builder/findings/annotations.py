"""Findings as annotations of a continuous-integration run, one line each.

The workflow commands that such services read from a program's output:
`::error file=...,line=...,col=...,endColumn=...,title=...::message`. Per cent signs and line ends are
escaped as they ask for it, and in a property colons and commas too.
"""

from __future__ import annotations

from collections.abc import Iterable

from builder.findings import Finding, Severity, on_routes

COMMAND = {Severity.ERROR: "error", Severity.WARNING: "warning", Severity.NOTE: "notice"}


def as_annotations(findings: Iterable[Finding]) -> str:
    """A command for each finding that was not accepted; an accepted one asks nothing of anyone."""
    return "\n".join(_annotation(finding) for finding in findings if finding.accepted is None)


def _annotation(finding: Finding) -> str:
    place = finding.place
    routes = f" ({on_routes(finding.routes)})" if finding.routes else ""
    lines = [
        finding.message + routes,
        finding.why and f"why: {finding.why}",
        finding.mend and f"mend: {finding.mend}",
    ]
    lines += [f"see {other.place}: {other.text}" for other in finding.also]
    lines += [
        f"may follow from it: {inner.place}: {inner.message} [{inner.check}]" for inner in finding.follows
    ]
    properties = {
        "file": place.file,
        "line": place.line,
        "col": place.column,
        "endColumn": place.column + place.length,
        "title": finding.check,
    }
    told = ",".join(f"{name}={_property(str(value))}" for name, value in properties.items())
    return f"::{COMMAND[finding.severity]} {told}::{_data(chr(10).join(filter(None, lines)))}"


def _data(text: str) -> str:
    return text.replace("%", "%25").replace("\r", "%0D").replace("\n", "%0A")


def _property(text: str) -> str:
    return _data(text).replace(":", "%3A").replace(",", "%2C")
