"""A number written a little otherwise: the same guide with one scalar changed, and what is then found.

The change is made in the text, and everything is read, run and checked again: what a slip of the ruler
or of a finger would do.
"""

from __future__ import annotations

from typing import cast

import msgspec

from builder.checks.judge import check
from builder.dryrun.kinds import VERBS
from builder.dryrun.run import DryRun, run_all
from builder.findings import Finding, Place
from builder.guide.model import Guide, Value
from builder.guide.reader import read
from builder.quantities.show import Units
from builder.quantities.units import Dimension

STEP = {Dimension.TIME: "1 min", Dimension.ANGLE: "1 deg"}
"""How far off a number is tried, where that is not the guide's finest length."""

_TOLERANCE = ("±", "+/-", "+-")


class Probe(msgspec.Struct, frozen=True):
    """The guide with one number changed. `written` is what then stands there; `found` what is new."""

    written: str
    guide: Guide
    runs: tuple[DryRun, ...]
    found: tuple[Finding, ...]


def step_of(value: Value, guide: Guide) -> str:
    """By how much a number is tried off: the guide's finest, a minute, a degree, one of what it counts;
    empty for a number that is not known."""
    if value.quantity is None:
        return ""
    dimension = value.quantity.dimension
    if dimension is Dimension.LENGTH:
        finest = cast(Units, guide.units).finest
        return finest.written or f"{finest.base} mm"
    if dimension in (Dimension.COUNT, Dimension.NUMBER):
        return "1"
    return STEP.get(dimension, f"1 {value.quantity.unit}")


def probe(guide: Guide, before: list[Finding], place: Place, value: Value, sign: str) -> Probe | None:
    """The guide with the scalar at a place changed by one step, `sign` being + or -.

    None if there is no step, if the scalar runs over several lines, or if nothing is left of it.
    """
    text = guide.texts.get(place.file, "")
    step = step_of(value, guide)
    line = _line(text, place)
    written = line[place.column - 1 : place.column - 1 + place.length]
    changed = _changed(written, step, sign, value)
    if not changed or not step:
        return None
    start = sum(len(each) for each in text.splitlines(keepends=True)[: place.line - 1]) + place.column - 1
    texts = {**guide.texts, place.file: text[:start] + changed + text[start + len(written) :]}
    after = read(texts, guide.file, VERBS, guide.id)
    runs = run_all(after)
    known = {_key(finding) for finding in _flat(before)}
    found = tuple(f for f in check(after, runs) if _key(f) not in known and f.accepted is None)
    return Probe(changed, after, runs, found)


def _line(text: str, place: Place) -> str:
    lines = text.splitlines()
    return lines[place.line - 1] if place.line <= len(lines) else ""


def _changed(written: str, step: str, sign: str, value: Value) -> str:
    """`12 1/2 in ± 1/32 in` and 1/16 in more -> `12 1/2 in + 1/16 in ± 1/32 in`."""
    quote = written[:1] if written[:1] in ("'", '"') and written[-1:] == written[:1] else ""
    bare = written[1:-1] if quote else written
    if not bare.strip() or not any(c.isalnum() for c in bare):
        return ""
    if value.quantity is not None and value.quantity.dimension is Dimension.COUNT:
        count = int(value.quantity.base) + (1 if sign == "+" else -1)
        return f"{quote}{count}{quote}" if count > 0 and bare.strip().isdigit() else ""
    at = min((bare.index(mark) for mark in _TOLERANCE if mark in bare), default=len(bare))
    head, tail = bare[:at].rstrip(), bare[at:]
    if head == "nothing":
        head = f"0 {step.rpartition(' ')[2]}"
    if not head or (value.base is not None and sign == "-" and value.base <= 0):
        return ""
    return f"{quote}{head} {sign} {step}{' ' if tail else ''}{tail}{quote}"


def _key(finding: Finding) -> tuple[str, str, int]:
    return finding.check, finding.place.file, finding.place.line


def _flat(findings: list[Finding]) -> list[Finding]:
    return [each for finding in findings for each in (finding, *_flat(list(finding.follows)))]
