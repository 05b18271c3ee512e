"""Faults planted in a good guide, and what reading it must find: which check, at which line and column.

A case is written as edits of a guide: (old text, new text). In the new text a ▸ stands just before every
place where a finding is expected; it is taken out before the text is read. The old text stands once in
the guide. So the table shows the fault as a writer would see it, and no line is counted by hand.
"""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import NamedTuple

from builder.dryrun.kinds import VERBS
from builder.findings import Finding
from builder.guide.model import Guide
from builder.guide.reader import load, read

GUIDES = Path(__file__).resolve().parents[1] / "fixtures" / "guides"
MARKED = "▸"

Edits = tuple[tuple[str, str], ...]
Spot = tuple[str, str, int, int]  # check, file, line, column


class Case(NamedTuple):
    """A fault: what it is, the edits, the checks in the order of their marks."""

    name: str
    edits: Edits
    checks: tuple[str, ...]


def case(name: str, old: str, new: str, *checks: str) -> Case:
    """A case of one edit."""
    return Case(name, ((old, new),), checks)


def texts_of(name: str) -> tuple[dict[str, str], str]:
    """The texts of a guide of the fixtures by file name without folders, and the name of its own."""
    texts, main, findings = load(GUIDES / name)
    assert findings == []
    return {Path(file).name: text for file, text in texts.items()}, Path(main).name


def planted(texts: Mapping[str, str], main: str, edits: Edits,
            checks: tuple[str, ...]) -> tuple[dict[str, str], list[Spot]]:
    """The texts with the edits made, and the expected findings."""
    out = dict(texts)
    for old, new in edits:
        holding = [file for file, text in out.items() if text.count(old) == 1] if len(old) else [main]
        assert len(holding) == 1, f"{old!r} must stand once in one file"
        out[holding[0]] = out[holding[0]].replace(old, new) if old else new
    places = []
    for file, text in out.items():
        pieces = text.split(MARKED)
        for i in range(1, len(pieces)):
            before = "".join(pieces[:i])
            places.append((file, before.count("\n") + 1, len(before) - before.rfind("\n")))
        out[file] = "".join(pieces)
    assert len(places) == len(checks), "each mark needs its check"
    return out, [(check, *place) for check, place in zip(checks, places, strict=True)]


def spots(findings: tuple[Finding, ...] | list[Finding]) -> list[Spot]:
    """Where findings stand."""
    return [(f.check, f.place.file, f.place.line, f.place.column) for f in findings]


def reading(texts: Mapping[str, str], main: str) -> Guide:
    """A guide from its texts, with the verbs that the dry run knows."""
    return read(texts, main, VERBS, "planted")


def misplaced(findings: tuple[Finding, ...] | list[Finding], texts: Mapping[str, str]) -> list[str]:
    """The findings (and the other places that they name) that stand outside their file."""
    lines = {file: text.replace("\r\n", "\n").replace("\r", "\n").split("\n") for file, text in texts.items()}
    wrong = []
    for finding in findings:
        for place in (finding.place, *(other.place for other in finding.also)):
            own = lines.get(place.file, [""])
            if not (1 <= place.line <= len(own) and 1 <= place.column <= len(own[place.line - 1]) + 1):
                wrong.append(f"{place} [{finding.check}] {finding.message}")
    return wrong
