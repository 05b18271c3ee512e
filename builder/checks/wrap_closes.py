"""A strip does not close round its host.

What: A strip that marks are taken from is as long as its host is round, to half of the finest step; one that
is glued round is at least as long.

Why: The last mark falls short or runs over, and the fins stand unevenly; or the band leaves a gap.

Bad:
    guide_strip: {form: strip, printed: yes, length: 60 mm, width: 20 mm}  # round a tube of 22 mm: 69.1 mm

Good:
    guide_strip: {form: strip, printed: yes, length: pi * tube.outside, width: 20 mm}
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import Any

from builder.checks.base import Check, Look, numbers
from builder.dryrun.effects import Place
from builder.dryrun.shape import outside_of, outside_reads
from builder.findings import Finding, Severity
from builder.quantities.exact import PI


def find(look: Look) -> Iterator[Finding]:
    """One finding for each strip that is wrapped round something and does not close."""
    run = look.run
    assert run is not None
    units: Any = look.guide.units
    near = units.finest.base / 2
    taken_from = {f.action.word("from") or getattr(f.action.ref("from"), "id", "")
                  for f in run.frames if f.action.verb.kind == "mark"}  # fmt: skip
    for frame in run.frames:
        if frame.action.verb.kind != "roll" or frame.action.ref("makes") is not None:
            continue
        for effect in frame.effects:
            if not isinstance(effect, Place):
                continue
            strip, host = look.thing(effect.seat.child), look.thing(effect.seat.host)
            if strip is None or host is None or host.tapers or strip.form not in ("strip", "sheet"):
                continue
            length, outside = strip.mm("length"), outside_of(host)
            if length is None or outside is None:
                continue
            around = outside * Fraction(PI.rational)
            if abs(length - around) <= near or (strip.id not in taken_from and length > around):
                continue
            facts = numbers(strip.reads("length") | outside_reads(host))
            yield CHECK.finding(
                frame.action.at,
                f"the {strip.name} is {look.one(length)} long, but once round the {host.name} is "
                f"{look.one(around)}",
                suspects=facts,
                rests_on=facts,
            )


CHECK = Check(
    "wrap-closes", Severity.ERROR, "run",
    why="The last mark falls short or runs over and parts stand unevenly; or the band leaves a gap.",
    mend="Write its length as `pi * HOST.outside`, with an overlap where it is glued.",
    find=find, source="the circumference of a circle",
)  # fmt: skip
