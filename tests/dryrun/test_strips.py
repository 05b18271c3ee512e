"""Pieces sawn from a strip: which way round they lie, what is left, which are too wide. Sums beside them."""

from __future__ import annotations

import pytest

from builder.checks.judge import check
from builder.dryrun.kinds import VERBS
from builder.dryrun.run import run_all
from builder.guide.model import Action
from builder.guide.reader import read
from builder.guide.wording import sentence

KIT = """\
title: Laths
units: {{first: mm, second: in, finest: 1 mm}}
materials:
  lath: {{name: square lath, form: strip, length: 1000 mm, width: 12 mm, thickness: 10 mm{grain}}}
tools: {{saw: {{name: tenon saw, cuts away: 1 mm}}, goggles: {{name: eye protection, form: gear}}}}
parts:
  rim: {{form: slab, count: 2, of: lath, outline: {{rectangle: {size}}}{part}}}
steps:
  - id: work
    title: Saw the rims
    time: 5 min
    who: adult helps
    actions:
      - {{cut: rim, from: lath, with: saw, leaves: {leaves}}}
"""


def told(size: str, leaves: str, grain: str = "", part: str = "") -> tuple[list[tuple[str, str]], str]:
    """What is found of the cut, and how it is told."""
    text = KIT.format(size=size, leaves=leaves, grain=grain, part=part)
    guide = read({"guide.yml": text}, "guide.yml", VERBS, "laths")
    asked = ("stock", "remainder", "grain")
    found = [(f.check, f.message) for f in check(guide, run_all(guide)) if f.check in asked]
    action = guide.routes[0].steps[0].actions[0]
    assert isinstance(action, Action)
    return found, sentence(action, guide).text


@pytest.mark.parametrize("size", ["116 mm x 12 mm", "12 mm x 116 mm"])
def test_the_longer_side_lies_along_the_strip(size: str) -> None:
    """2 x 116 and two cuts of 1: 1000 - 234 = 766."""
    found, text = told(size, "766 mm")
    assert found == []
    assert "each 116 mm (4 9/16 in) long" in text


def test_a_piece_that_fits_both_ways_keeps_its_length() -> None:
    """2 x 8 and two cuts of 1: 1000 - 18 = 982."""
    assert told("8 mm x 10 mm", "982 mm")[0] == []


def test_a_piece_that_is_too_wide_both_ways_is_told() -> None:
    found, _ = told("116 mm x 20 mm", "766 mm")
    assert [message for name, message in found if name == "stock"] == [
        "the rim is 20 mm (about 13/16 in) wide, but the square lath only 12 mm (about 1/2 in)"
    ]


@pytest.mark.parametrize(("way", "right"), [("along width", True), ("along length", False)])
def test_the_grain_turns_with_the_piece(way: str, right: bool) -> None:
    """Sawn along the strip by its width, the grain of the strip runs along that width."""
    found, _ = told("12 mm x 116 mm", "766 mm", ", grain: along length", f", grain: {way}")
    assert (found == []) == right
