"""Which hole of a board a part goes into, and how deep. Places and depths by hand."""

from __future__ import annotations

import pytest

from builder.checks.judge import check
from builder.drawings.of_bench import settle
from builder.dryrun.kinds import VERBS
from builder.dryrun.run import DryRun, run_all
from builder.guide.model import Guide
from builder.guide.reader import read
from tests.dryrun.built import of, unmet

KIT = """\
title: Pegs
units: {first: mm, second: in, finest: 1 mm}
tools: {drill: {name: hand drill, who: adult helps}}
parts:
  board:
    form: slab
    source: bought
    thickness: 9 mm
    outline: {rectangle: 200 mm x 120 mm, edges: [left, front, right, back], along: left to right}
    holes: {low: 20 mm from left and 30 mm from front, high: 20 mm from right and 50 mm from back}
  peg: {form: rod, source: bought, count: 2, diameter: 6 mm, length: 80 mm}
steps:
  - id: work
    title: Do the work
    time: 20 min
    actions:
      - {drill: board, at: [low, high], with: drill, size: 6 mm, depth: through}
"""
EACH = """\
      - repeat: peg
        at: [{}]
        actions:
          - {{insert: peg, into: board, from: top, to: {}, fit: tight}}
"""
ONE = "      - {{insert: {}, into: board, from: top, to: {}, fit: tight}}\n"
TIGHT = KIT.replace("size: 6 mm", "size: 5.9 mm")


def run(text: str) -> tuple[Guide, DryRun]:
    guide = read({"guide.yml": text}, "guide.yml", VERBS, "pegs")
    assert [f.message for f in guide.findings] == []
    return guide, run_all(guide)[0]


def holes(text: str) -> list[object]:
    seats = run(text)[1].frames[-1].after.seats
    return [of((peg, seats[peg].hole, seats[peg].stretch)) for peg in ("peg 1", "peg 2")]


@pytest.mark.parametrize(
    ("text", "first", "second"),
    [
        # the places of the repeat name the holes, in their order
        (KIT + EACH.format("low, high", "flush with under"), "low", "high"),
        (KIT + EACH.format("high, low", "flush with under"), "high", "low"),
        (KIT + EACH.format("low, high", "its mark"), "low", "high"),
        # `to` may name the hole itself
        (KIT + ONE.format("peg 1", "low") + ONE.format("peg 2", "high"), "low", "high"),
        # nothing names one: the last that was made, then what is left
        (KIT + "".join(ONE.format(f"peg {i}", "flush with under") for i in (1, 2)), "high", "low"),
    ],
)
def test_each_peg_goes_into_its_own_hole(text: str, first: str, second: str) -> None:
    assert holes(text) == [("peg 1", first, (0, 80)), ("peg 2", second, (0, 80))]


def test_a_peg_that_is_flush_with_the_top_reaches_down() -> None:
    """9 - 80 = -71: the board is 9 mm thick, and the peg's other end stands out below."""
    both = ONE.format("peg 1", "flush with top") + ONE.format("peg 2", "flush with top")
    assert holes(KIT + both) == [("peg 1", "high", (-71, 9)), ("peg 2", "low", (-71, 9))]


def test_they_are_drawn_where_their_holes_are() -> None:
    """low: 20 from left, 30 from front. high: 200 - 20 = 180 from left, 120 - 50 = 70 from front."""
    guide, done = run(KIT + EACH.format("low, high", "flush with under"))
    found = settle(guide, done.frames[-1].after, "board")
    assert [found[peg].pose.origin for peg in ("peg 1", "peg 2")] == [(20, 30, 0), (180, 70, 0)]


def messages(text: str) -> list[str]:
    guide, done = run(text)
    return [finding.message for finding in check(guide, (done,))]


def test_two_in_one_hole_are_told() -> None:
    text = TIGHT + ONE.format("peg 1", "low") + ONE.format("peg 2", "low")
    assert "the peg 2 would be where the peg 1 is on the board" in messages(text)
    apart = TIGHT + ONE.format("peg 1", "low") + ONE.format("peg 2", "high")
    assert not [m for m in messages(apart) if "would be where" in m]


def test_a_hole_that_nobody_drilled_is_told_by_its_name() -> None:
    text = KIT.replace("at: [low, high]", "at: low") + EACH.format("low, high", "flush with under")
    assert "Attachable" in unmet(run(text)[1])
    assert [m for m in messages(text) if "high hole" in m]
