"""Findings: what is wrong, where, why it matters at the bench, how to mend it.

A finding is an immutable record. Nothing here decides what is wrong (checks do) and nothing here knows
where it will be shown beyond plain printers: text and JSON are here, since every check prints one of
them; `sarif` and `annotations` are for machines that ask for theirs.
"""

from __future__ import annotations

import enum
from collections.abc import Iterable, Mapping, Sequence

import msgspec


class Place(msgspec.Struct, frozen=True, order=True):
    """Where something was written. Lines and columns count from 1; `length` is in characters."""

    file: str
    line: int
    column: int
    length: int = 1

    def __str__(self) -> str:
        return f"{self.file}:{self.line}:{self.column}"


class Severity(enum.Enum):
    """How much it matters: error (cannot be built, or someone can be hurt), warning (a builder will
    stumble), note."""

    ERROR = "error"
    WARNING = "warning"
    NOTE = "note"

    @property
    def rank(self) -> int:
        """0 for the worst."""
        return _RANK[self]


_RANK = {Severity.ERROR: 0, Severity.WARNING: 1, Severity.NOTE: 2}


class Related(msgspec.Struct, frozen=True):
    """Another place that the finding is about, and what stands there."""

    place: Place
    text: str


class Accepted(msgspec.Struct, frozen=True):
    """A writer's acceptance of a finding: the reason, and where it was written."""

    why: str
    place: Place


class Finding(msgspec.Struct, frozen=True):
    """One fault, in words for a person who is not a programmer.

    `suspects` are the facts that may be wrong, `rests_on` those that the finding was concluded from: a
    finding that rests on another's suspects is printed beneath it. A `safety` finding never folds. One
    that the writer has `accepted` is shown with the reason and never counts.
    """

    check: str
    severity: Severity
    place: Place
    message: str
    why: str = ""
    mend: str = ""
    also: tuple[Related, ...] = ()
    routes: tuple[str, ...] = ()
    suspects: frozenset[str] = frozenset()
    rests_on: frozenset[str] = frozenset()
    safety: bool = False
    order: int = 0
    follows: tuple[Finding, ...] = ()
    accepted: Accepted | None = None


class Sources:
    """The text of the files that findings point into, by the name that their places carry."""

    def __init__(self, texts: Mapping[str, str]) -> None:
        self._lines = {name: text.splitlines() for name, text in texts.items()}

    def line(self, place: Place) -> str | None:
        """The source line of a place, or None if the file or the line is not there."""
        lines = self._lines.get(place.file, [])
        return lines[place.line - 1] if 1 <= place.line <= len(lines) else None


def exit_status(findings: Iterable[Finding], *, strict: bool = False) -> int:
    """0 with no error, 1 with an error (a warning too when `strict`); what was accepted never counts."""
    bad = {Severity.ERROR, Severity.WARNING} if strict else {Severity.ERROR}
    return int(any(f.severity in bad and f.accepted is None for f in findings))


def in_order(findings: Iterable[Finding]) -> list[Finding]:
    """Findings in the order in which they are shown: severity, then file and line; the accepted last."""
    return sorted(
        findings, key=lambda f: (f.accepted is not None, f.severity.rank, f.place, f.check, f.message)
    )


def on_routes(routes: Sequence[str]) -> str:
    """`on the route with the jig`. Names made of several options are quoted, lest they run on."""
    quote = '"' if any(" and " in route for route in routes) else ""
    kind = "route" if len(routes) == 1 else "routes"
    return f"on the {kind} {' and '.join(f'{quote}{route}{quote}' for route in routes)}"


def as_text(findings: Iterable[Finding], sources: Sources) -> str:
    """For people: `file:line:column: error: what [check]`, the line, why, mend, what may follow."""
    out: list[str] = []
    for finding in findings:
        _tell(finding, sources, out, indent="")
    return "\n".join(out)


def _tell(finding: Finding, sources: Sources, out: list[str], indent: str) -> None:
    routes = f" ({on_routes(finding.routes)})" if finding.routes else ""
    kind = f"{'accepted ' if finding.accepted else ''}{finding.severity.value}"
    out.append(f"{indent}{finding.place}: {kind}: {finding.message}{routes} [{finding.check}]")
    if finding.accepted is not None:
        out.append(f"{indent}  accepted at {finding.accepted.place}: {finding.accepted.why}")
        out.append("")
        return
    line = None if indent else sources.line(finding.place)
    if line is not None:
        shown, column = _cut_to_width(line, finding.place.column)
        out.append(f"  | {shown}")
        width = max(1, min(finding.place.length, len(shown) - column + 1))
        out.append("  | " + " " * (column - 1) + "^" * width)
    if finding.why and not indent:
        out.append(f"  why: {finding.why}")
    if finding.mend and not indent:
        out.append(f"  mend: {finding.mend}")
    for other in finding.also:
        out.append(f"{indent}  see {other.place}: {other.text}")
    if finding.follows:
        out.append(f"{indent}  may follow from it:")
        for inner in finding.follows:
            _tell(inner, sources, out, indent + "    ")
    if not indent:
        out.append("")


def _cut_to_width(line: str, column: int, width: int = 110) -> tuple[str, int]:
    """The part of a long line that holds the column, so that the caret stays under its word."""
    if len(line) <= width:
        return line, column
    start = max(0, column - width // 2)
    return ("..." if start else "") + line[start : start + width], column - start + (3 if start else 0)


def as_data(finding: Finding) -> dict[str, object]:
    """A finding as plain data (strings, numbers, lists), for JSON."""
    return {
        "check": finding.check,
        "severity": finding.severity.value,
        "file": finding.place.file,
        "line": finding.place.line,
        "column": finding.place.column,
        "length": finding.place.length,
        "message": finding.message,
        "why": finding.why,
        "mend": finding.mend,
        "routes": list(finding.routes),
        "also": [
            {"file": o.place.file, "line": o.place.line, "column": o.place.column, "text": o.text}
            for o in finding.also
        ],
        "follows": [as_data(f) for f in finding.follows],
        "accepted": finding.accepted.why if finding.accepted is not None else None,
    }


def as_json(findings: Iterable[Finding]) -> str:
    """One JSON document: a list of findings, in the order given."""
    body = msgspec.json.encode([as_data(f) for f in findings])
    return msgspec.json.format(body, indent=2).decode()


def summary(findings: Iterable[Finding]) -> str:
    """`2 errors, 1 warning`, or `no finding`; how many were accepted comes after it."""
    counts = dict.fromkeys(Severity, 0)
    accepted = 0
    for finding in findings:
        if finding.accepted is None:
            counts[finding.severity] += 1
        else:
            accepted += 1
    told = [f"{n} {s.value}{'s' if n != 1 else ''}" for s, n in counts.items() if n] or ["no finding"]
    return ", ".join([*told, *([f"{accepted} accepted"] if accepted else [])])
