"""The pages of the checks, each written from the check itself."""

from __future__ import annotations

import inspect
import re
from collections.abc import Iterable
from inspect import cleandoc
from typing import NamedTuple

from builder.checks.base import Check
from builder.checks.every import ALL as CHECKS
from builder.drawings.checks import CHECKS as DRAWING_CHECKS
from builder.findings import Severity
from builder.guide.slips import SLIPS, Slip
from builder.pages.checks_also import ALSO
from builder.pages.prose import line, prose
from builder.pages.reference import CheckRow, ChecksView, CheckView
from builder.pages.report import WORD
from builder.revisions.checks import ALL as REVISION_CHECKS

_PART = re.compile(r"(?m)^(What|Why|Bad|Good):")

EVERY: tuple[Check, ...] = (*CHECKS, *DRAWING_CHECKS, *REVISION_CHECKS)
"""Every check that a report names besides those of reading, in report order."""

READS = {
    "text": "Found in the text while reading",
    "guide": "Read off the guide itself",
    "need": "Read off what each action needs of the bench",
    "run": "Read off the dry run of a route",
    "runs": "Read off the dry runs of all routes",
    "drawing": "Read off the drawings",
    "revisions": "Read off the sealed revisions",
}
"""Groups of the index: what a check looks at, in report order."""


class Manual(NamedTuple):
    """The words at the head of a check's own file."""

    title: str
    what: str
    why: str
    bad: str
    good: str


def manual_of(check: Check) -> Manual:
    """Read the head of the file that a check stands in. A part that is not there is empty."""
    text = inspect.getdoc(inspect.getmodule(check.find)) or ""
    title, _, rest = text.partition("\n")
    parts = dict(zip(*[iter(_PART.split(rest)[1:])] * 2, strict=False))
    plain = {name: cleandoc(body) for name, body in parts.items()}
    return Manual(
        title.rstrip("."),
        plain.get("What", ""),
        plain.get("Why", ""),
        plain.get("Bad", ""),
        plain.get("Good", ""),
    )


def words_of(check: Check) -> Manual:
    """The words about a check: those at the head of its file, or, if the file is another's, its own."""
    also = ALSO.get(check.name)
    if also is None:
        return manual_of(check)
    return Manual(also.title, f"{also.title}.", check.why, also.bad, also.good)


def title_of(check: Check) -> str:
    """The title of a check's page."""
    return words_of(check).title


def check_page(check: Check) -> CheckView:
    """The page of one check."""
    manual = words_of(check)
    return CheckView(
        id=check.name,
        title=manual.title,
        severity_word=WORD[check.severity],
        what=prose("" if check.name in ALSO else manual.what),  # its heading says it
        why=prose(manual.why or check.why),
        source=check.source,
        failing=manual.bad,
        mended=manual.good,
        mend=prose(check.mend),
    )


def slip_page(slip: Slip) -> CheckView:
    """The page of a check that reading itself makes."""
    return CheckView(
        id=slip.name,
        title=slip.what.rstrip("."),
        severity_word=WORD[Severity.ERROR],
        what=prose(""),
        why=prose(slip.why),
        source="guide format",
        failing=slip.example,
        mended=slip.mend,
        mend=prose(""),
    )


def named() -> tuple[tuple[str, str, Severity], ...]:
    """(name, title, severity) of all that a report may name and that has a page, those of reading first."""
    slips = ((slip.name, slip.what.rstrip("."), Severity.ERROR) for slip in SLIPS)
    return (*slips, *((check.name, title_of(check), check.severity) for check in EVERY))


def checks_index(checks: Iterable[Check]) -> ChecksView:
    """All checks by what they look at."""
    known = tuple(checks)
    groups = []
    for reads, heading in READS.items():
        rows = tuple(
            CheckRow(id=slip.name, title=line(slip.what.rstrip(".")), href=f"{slip.name}.html",
                     severity_word=WORD[Severity.ERROR])
            for slip in (SLIPS if reads == "text" else ())
        ) + tuple(
            CheckRow(id=each.name, title=line(words_of(each).what), href=f"{each.name}.html",
                     severity_word=WORD[each.severity])
            for each in known if each.reads == reads
        )  # fmt: skip
        if rows:
            groups.append((heading, rows))
    return ChecksView(groups=tuple(groups))
