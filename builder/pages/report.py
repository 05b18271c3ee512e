"""Findings -> the check report of a guide."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from builder.findings import Finding, Severity, Sources
from builder.pages.contexts import Fact
from builder.pages.prose import line
from builder.pages.reference import CheckRow, FindingView, ReportView
from builder.pages.website import way

WORD = {Severity.ERROR: "Error", Severity.WARNING: "Warning", Severity.NOTE: "Note"}

UNCOVERED = (
    "Whether a picture that a writer brought shows what its words say.",
    "Whether hands of this age can do a step, and in the minutes that are written.",
    "Whether a label's times, as they are written in the guide, are those on the product in the room.",
    "Whether the room, the class and the adults fit the hazards: that is judged by the adult in charge.",
)
"""What no check can see, for the reviewer to look at by eye."""


def check_path(check: str) -> str:
    """Where the page of a check lies in the site."""
    return f"checks/{check}.html"


def finding_view(finding: Finding, sources: Sources, page: str, pages_of: frozenset[str]) -> FindingView:
    """One finding as a page shows it. `pages_of` are the checks that have a page of their own."""
    source = sources.line(finding.place) or ""
    caret = " " * (finding.place.column - 1) + "^" * max(1, finding.place.length) if source else ""
    return FindingView(
        severity=finding.severity.value,
        severity_word=WORD[finding.severity],
        check=finding.check,
        check_href=way(check_path(finding.check), page) if finding.check in pages_of else "",
        place=str(finding.place),
        message=sentence(finding.message),
        source=source,
        caret=caret[: len(source) + 1],
        reason=finding.why,
        mend=finding.mend,
        routes=f"on the route {' and '.join(finding.routes)}" if finding.routes else "",
        others=tuple(f"{other.place}: {other.text}" for other in finding.also),
        follows=tuple(f"{inner.place}: {inner.message}" for inner in flat(finding.follows)),
    )


def flat(findings: Iterable[Finding]) -> Iterable[Finding]:
    """Findings and, after each, those that may follow from it."""
    for finding in findings:
        yield finding
        yield from flat(finding.follows)


def sentence(text: str) -> str:
    """A finding's message as a sentence of its own."""
    return text[:1].upper() + text[1:] + ("" if text.endswith((".", "?", "!")) else ".")


def counted(number: int, noun: str) -> str:
    """`1 error`, `2 errors`, `no error`."""
    return f"{number or 'no'} {noun}{'s' if number > 1 else ''}"


def verdict(findings: Iterable[Finding]) -> str:
    """What the findings come to, in one line that claims no more than was checked."""
    by = dict.fromkeys(Severity, 0)
    for finding in findings:
        by[finding.severity] += 1
    told = [counted(n, WORD[s].lower()) for s, n in by.items() if n]
    if not told:
        return "The dry run and the checks found nothing wrong."
    return f"The dry run and the checks found {listed(told)}."


def listed(words: Sequence[str], last: str = "and") -> str:
    """`a`, `a and b`, `a, b and c`."""
    return f" {last} ".join([", ".join(words[:-1]), words[-1]] if len(words) > 1 else words)


def report(
    findings: tuple[Finding, ...],
    sources: Sources,
    page: str,
    checks: Iterable[tuple[str, str, Severity]],
    ran: tuple[Fact, ...],
    dropped: tuple[Fact, ...] = (),
) -> ReportView:
    """The report of one guide: `checks` are (id, title, severity) of all that ran, in report order."""
    known = tuple(checks)
    ids = frozenset(check for check, _, _ in known)
    found = [each.check for each in flat(findings)]
    return ReportView(
        verdict=verdict(findings),
        findings=tuple(finding_view(each, sources, page, ids) for each in findings),
        dropped=dropped,
        checked=tuple(
            CheckRow(
                id=check,
                title=line(title),
                href=way(check_path(check), page),
                severity_word=WORD[severity],
                found=f"found {found.count(check)} times"
                if found.count(check) > 1
                else "found once" * (check in found),
            )
            for check, title, severity in known
        ),
        ran=ran,
        uncovered=UNCOVERED,
    )
