"""Checks of the sealed revisions of a guide: that none was touched, and that the working guide says which
revision it is.
"""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from builder.checks.base import Check
from builder.findings import Finding, Place, Severity
from builder.guide.files import shown
from builder.guide.model import Guide
from builder.revisions.vault import FOLDER, Sealed, damage, sealed_revisions


def sealed_findings(guide: Guide, folder: str | Path) -> list[Finding]:
    """Everything that is wrong about the revisions in a guide's folder. Nothing if it has none."""
    place = Path(folder)
    place = place.parent if place.name == "guide.yml" else place
    if not (place / FOLDER).is_dir():
        return []
    return [*_touched(place), *_numbered(guide, place, sealed_revisions(place))]


def touched(folder: str | Path) -> list[str]:
    """What is not as it was sealed, in one line each."""
    return [
        f"{shown(each.path)}: {each.what} (revision {each.number} is sealed)" for each in damage(Path(folder))
    ]


def _touched(folder: Path) -> Iterator[Finding]:
    for each in damage(folder):
        yield TOUCHED.finding(
            Place(shown(each.path), 1, 1), f"{each.what} (revision {each.number} is sealed)"
        )


def _numbered(guide: Guide, folder: Path, there: list[Sealed]) -> Iterator[Finding]:
    """The working guide carries the number of the last sealed revision as long as it is the same, and the
    next one as soon as it is not."""
    if not there:
        return
    last = there[-1]
    revision = guide.revision
    at = revision.at if revision is not None else guide.at
    number = revision.number if revision is not None else ""
    if number == str(last.number + 1):
        return
    if number != str(last.number):
        said = f"revision {number}" if number else "no revision"
        yield NUMBER.finding(at, f"the guide says {said}, but {last.number} revisions of it are sealed")
    elif not _same(guide, folder, last):
        yield NUMBER.finding(at, f"the guide says revision {number}, which is sealed, and is not the same")


def _same(guide: Guide, folder: Path, last: Sealed) -> bool:
    """Whether the working guide's own text is still the sealed one."""
    sealed = last.folder / last.manifest.guide / "guide.yml"
    try:
        return sealed.read_bytes() == (folder / "guide.yml").read_bytes()
    except OSError:
        return False


TOUCHED = Check(
    "sealed",
    Severity.ERROR,
    "revisions",
    "Packets of a sealed revision are in use; whoever looks one up must find what was printed.",
    "Put the file back as it was sealed (your version control has it), and change the working guide instead.",
    sealed_findings,
)

NUMBER = Check(
    "revision-number",
    Severity.WARNING,
    "revisions",
    "Two different guides of the same number cannot be told apart once they are printed.",
    "Count the number up by one for the next revision, with its date and a summary of what changed.",
    sealed_findings,
)

ALL = (TOUCHED, NUMBER)
