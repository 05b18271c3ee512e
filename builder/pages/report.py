"""Findings -> the check report of a guide."""

from __future__ import annotations

from collections.abc import Iterable

from builder.findings import Finding, Severity, Sources, on_routes
from builder.guide import wording
from builder.guide.model import Action, Guide, Ref
from builder.pages.bench_words import listed
from builder.pages.contexts import Fact
from builder.pages.prose import line
from builder.pages.reference import CheckRow, FindingView, ReportView
from builder.pages.website import way

WORD = {Severity.ERROR: "Error", Severity.WARNING: "Warning", Severity.NOTE: "Note"}

UNCOVERED = (
    "Whether a picture that a writer brought shows what its words say.",
    "Whether an action that only words describe can be done, and what it does to the kit.",
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
        accepted=finding.accepted.why if finding.accepted is not None else "",
        routes=on_routes(finding.routes) if finding.routes else "",
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
    accepted = 0
    for finding in findings:
        if finding.accepted is None:
            by[finding.severity] += 1
        else:
            accepted += 1
    told = [counted(n, WORD[s].lower()) for s, n in by.items() if n]
    found = f"found {listed(told)}" if told else "found nothing wrong"
    more = f", apart from {counted(accepted, 'finding')} that the guide accepts" if accepted else ""
    return f"The dry run and the checks {found}{more}."


def judged(guide: Guide) -> tuple[Fact, ...]:
    """What the writer decided: cautions left out, joints handled gently, optional steps, what only words
    describe."""
    book = wording.Book(guide)
    steps = list(dict.fromkeys(step.id for step in guide.every_step()))
    by_id = {step.id: step for step in guide.every_step()}
    cautions, gentle, optional, loose = [], [], [], []
    count = 0
    for step in (by_id[id] for id in steps):
        title = wording.title(step, book).text
        cautions += [f"{title}: {each.hazard} ({each.why})" for each in step.dropped]
        optional += [title] if step.optional else []
        for action in step.each_action():
            count += 1
            joints, why = _gently(action)
            if joints:
                gentle.append(f"{title}: {listed([guide.things[id].name for id in joints])} ({why})")
            if action.verb.kind == "do":
                loose.append(wording.sentence(action, book).text)
    share = f"{len(loose)} of {count} actions" if loose else "None."
    lists = {
        "Cautions left out": cautions,
        "Joints handled gently before their time": gentle,
        "Steps that may be left out": optional,
    }
    facts = (
        Fact(label=name, value="" if rows else "None.", rows=tuple(rows)) for name, rows in lists.items()
    )
    return (
        *facts,
        Fact(label="Actions that only words describe", value=share, rows=tuple(loose)),
    )


def _gently(action: Action) -> tuple[tuple[str, ...], str]:
    """The things whose joints bear an action by its writer's word, and why."""
    stated = action.fields.get("gently")
    if not isinstance(stated, tuple) or len(stated) != 2:
        return (), ""
    return tuple(ref.id for ref in stated[0] if isinstance(ref, Ref)), str(stated[1])


def report(
    findings: tuple[Finding, ...],
    sources: Sources,
    page: str,
    checks: Iterable[tuple[str, str, Severity]],
    ran: tuple[Fact, ...],
    judged: tuple[Fact, ...] = (),
) -> ReportView:
    """The report of one guide: `checks` are (id, title, severity) of all that ran, in report order, and
    `judged` is what its writer decided and no check can weigh."""
    known = tuple(checks)
    standing = [each for each in findings if each.accepted is None]
    ids = frozenset(check for check, _, _ in known)
    found = [each.check for each in flat(findings)]
    return ReportView(
        verdict=verdict(findings),
        findings=tuple(finding_view(each, sources, page, ids) for each in standing),
        accepted=tuple(finding_view(each, sources, page, ids) for each in findings if each.accepted),
        judged=judged,
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
