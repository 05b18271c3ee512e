"""A number that was refused is one finding, and is then read as what it was probably meant for."""

from __future__ import annotations

from fractions import Fraction

import pytest

from builder.dryrun.kinds import VERBS
from builder.guide.model import Guide
from builder.guide.reader import read

GUIDE = """\
title: A peg
units: {first: mm, second: in, finest: 1 mm}
dimensions: {gap: 2 mm, wide: 5 * gap}
parts:
  peg:
    form: rod
    source: bought
    diameter: wide
    length: 40 mm
    zones:
      outside from left: [head: 10 mm, shank: 30 mm]
steps:
  - {id: look, title: Look at it, actions: [{verify: peg, shows: a straight peg, else: Take another one.}]}
finished: {is: peg, holds: all}
"""


def guide(old: str, new: str) -> Guide:
    assert GUIDE.count(old) == 1
    return read({"guide.yml": GUIDE.replace(old, new)}, "guide.yml", VERBS, "peg")


@pytest.mark.parametrize(
    ("old", "new", "check", "field", "mm"),
    [
        ("length: 40 mm", "length: 40", "number", "length", 40),  # in the guide's first unit
        ("length: 40 mm", "length: 40 mmm", "number", "length", 40),
        ("length: 40 mm", 'length: "40,5 mm"', "number", "length", Fraction(81, 2)),
        ("length: 40 mm", "length: -40 mm", "number", "length", 40),
        ("length: 40 mm", "length: (40 mm) / 0", "number", "length", 40),
        ("length: 40 mm", "length: 40 mm + 5 min", "number", "length", 40),
        ("length: 40 mm", "length: 5 min", "number", "length", 40),  # 10 + 30, the sum of its zones
        ("gap: 2 mm", "gap: gap + 2 mm", "sum-cycle", "diameter", 10),  # 5 * 2
        ("gap: 2 mm", "gap: 2 mm + 5 min", "number", "diameter", 10),
    ],
)
def test_a_slip_in_a_number_is_told_once_and_the_rest_is_known(
    old: str, new: str, check: str, field: str, mm: Fraction
) -> None:
    made = guide(old, new)
    assert [finding.check for finding in made.findings] == [check]
    assert made.things["peg"].mm(field) == mm


@pytest.mark.parametrize(
    ("old", "new", "field"),
    [
        ("diameter: wide", "diameter: 5 min", "diameter"),  # no zone tells how thick it is
        ("gap: 2 mm", "gap: wide / 5", "diameter"),  # two sums that wait for each other
        ("gap: 2 mm", "gap: 5 min", "diameter"),
    ],
)
def test_where_nothing_is_near_it_stays_unknown(old: str, new: str, field: str) -> None:
    made = guide(old, new)
    assert len(made.findings) == 1
    assert made.things["peg"].mm(field) is None


def test_what_rests_on_a_guess_doubts_the_number() -> None:
    """A guess is no better ground than a typed number: what is concluded from it folds beneath."""
    made = guide("length: 40 mm", "length: 44")
    assert "number:peg.length" in made.findings[0].suspects
    assert "peg.length" in made.things["peg"].values["length"].reads
