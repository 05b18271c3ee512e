"""Grain: which way pieces may lie on their stock, what is left of it, and which cuts go across it.

Every size is worked out beside its case. That a part lies along the grain of its stock is common practice, no
source.
"""

from __future__ import annotations

from fractions import Fraction as F

import pytest

from builder.checks.judge import check
from builder.dryrun.cutting import Way, ways_from_sheet
from builder.dryrun.kinds import VERBS
from builder.dryrun.needs import Grain
from builder.guide.axes import grain_of
from builder.guide.reader import read
from builder.plan.fitting import Wanted, fit
from tests.checks.examples_of import whole
from tests.dryrun.built import built, guide_of, needs, steps

PARTS = """\
# takes: tube, scissors, former, pva
materials:
  board: {form: sheet, size: 100 mm x 60 mm, thickness: 2 mm, grain: GRAIN}
  lath:  {form: strip, length: 200 mm, width: 30 mm, thickness: 5 mm, grain: along length}
parts:
  long:   {form: slab, of: board, outline: {rectangle: 50 mm x 20 mm}, grain: along length}
  wide:   {form: slab, of: board, outline: {rectangle: 50 mm x 20 mm}, grain: front to back}
  plain:  {form: slab, of: board, outline: {rectangle: 50 mm x 20 mm}}
  fin:    {form: slab, of: board, count: 2, grain: root to tip,
           outline: {root: 50 mm, tip: 30 mm, span: 20 mm}}
  back:   {form: slab, of: board, outline: {root: 50 mm, tip: 30 mm, span: 20 mm}, grain: front to rear}
  turned: {form: slab, of: board, grain: left to right,
           outline: {rectangle: 50 mm x 20 mm, edges: [left, front, right, back], along: front to back}}
  paper_tube: {form: tube, rolled: {of: board, around: former, turns: 1}, length: 50 mm, grain: along length}
  chip:   {form: slab, of: lath, outline: {rectangle: 40 mm x 30 mm}, grain: along width}
  tile:   {form: slab, of: lath, outline: {rectangle: 30 mm x 30 mm}, grain: along width}
"""

CUT = "{cut: THING, from: STOCK, with: scissors}"


def text(grain: str, thing: str, stock: str = "board", leaves: str = "") -> str:
    action = CUT.replace("THING", thing).replace("STOCK", stock)
    action = action.replace("}", f", leaves: {leaves}}}") if leaves else action
    return PARTS.replace("GRAIN", grain) + steps("", action).partition("\n")[2]


@pytest.mark.parametrize(
    ("thing", "axis"),
    [
        ("long", "length"),
        ("wide", "width"),  # 50 from left to right, 20 from front to back
        ("plain", ""),
        ("fin", "width"),  # a fin's length is its root
        ("back", "length"),
        ("turned", "width"),  # its length runs from front to back
        ("paper_tube", "length"),
        ("paper_tube.blank", "length"),
        ("board", "length"),
    ],
)
def test_the_axis_that_is_meant(thing: str, axis: str) -> None:
    assert grain_of(guide_of(text("along length", "plain")).things[thing]) == axis


# 50 x 20 on 100 x 60: 60 x 50 and 50 x 40 are left, or 100 x 40 and 50 x 20
AS_IT_IS: set[object] = {((60, 50), (50, 40)), ((100, 40), (50, 20))}
# turned, 20 x 50: 80 x 60 and 20 x 10 are left, or 80 x 50 and 100 x 10
TURNED: set[object] = {((80, 60), (20, 10)), ((100, 10), (80, 50))}


@pytest.mark.parametrize(
    ("thing", "grain", "ways"),
    [
        ("long", "along", AS_IT_IS),
        ("long", "across", TURNED),
        ("wide", "along", TURNED),
        ("wide", "across", AS_IT_IS),
        ("plain", "along", AS_IT_IS | TURNED),
        ("long", "", AS_IT_IS | TURNED),
    ],
)
def test_a_piece_lies_along_the_grain(thing: str, grain: str, ways: set[object]) -> None:
    part = guide_of(text("along length", "plain")).things[thing]
    found: set[object] = {way.left for way in ways_from_sheet(F(100), F(60), part, 1, F(0), grain)}
    assert found == ways


def test_the_grain_of_an_offcut_goes_on() -> None:
    part = guide_of(text("along length", "plain")).things["long"]
    # left of 100 x 60, its grain along the 100: 50 along by 60 across, whose longer side lies across the
    # grain, and 50 along by 40 across, whose longer side lies along it
    assert Way(((F(60), F(50)), (F(50), F(40))), ("across", "along")) in ways_from_sheet(
        F(100), F(60), part, 1, F(0), "along"
    )


@pytest.mark.parametrize(
    ("thing", "stock", "grain", "leaves", "told"),
    [
        ("long", "board", "along length", "", ""),
        ("long", "board", "along width", "", ""),  # turned, it still fits: 50 on the 60 mm side
        ("long", "board", "along width", "[60 mm x 50 mm, 50 mm x 40 mm]", "leaves what is stated only if"),
        ("long", "board", "along width", "[80 mm x 60 mm, 20 mm x 10 mm]", ""),
        # the blank of the tube: 50 mm along it, and 65.97 mm round it (pi x (20 + 1 x 1) = 65.97, cut 66)
        ("paper_tube.blank", "board", "along width", "", ""),
        ("paper_tube.blank", "board", "along length", "", "the grain, which has to run along the paper tube"),
        ("fin", "board", "along length", "", ""),
        ("tile", "lath", "along length", "", ""),  # as long as it is wide
        ("chip", "lath", "along length", "", "only across the grain, which has to run along its width"),
    ],
)  # fmt: skip
def test_what_is_cut_across_the_grain_is_told(
    thing: str, stock: str, grain: str, leaves: str, told: str
) -> None:
    source = {"guide.yml": whole(text(grain, thing, stock, leaves)).text}
    guide = read(source, "guide.yml", VERBS, "grain")
    found = [f.message for f in check(guide) if f.check == "grain"]
    assert len(found) == bool(told) and all(told in message for message in found)


def test_a_part_without_a_grain_asks_nothing() -> None:
    assert needs(built(text("along length", "plain")), Grain) == []
    (need,) = needs(built(text("along length", "long")), Grain)
    assert need.met and need.material == "board"


@pytest.mark.parametrize(("second", "met"), [("long", False), ("wide", True)])
def test_what_is_left_is_cut_by_its_own_grain(second: str, met: bool) -> None:
    """Of 100 x 60 with its grain along the 100, 60 x 60 is cut off and 60 x 40 is left, 40 of it along the
    grain: a piece of 50 along its grain has no room in that, one of 50 across it has."""
    own = text("along length", "first, SECOND").replace("first, SECOND", f"[first, {second}]")
    first = "  first: {form: slab, of: board, outline: {rectangle: 60 mm x 60 mm}}"
    (need,) = needs(built(own.replace("parts:\n", f"parts:\n{first}\n")), Grain)
    assert need.met is met


@pytest.mark.parametrize("thing", ["fin", "long"])
@pytest.mark.parametrize("count", range(1, 7))
@pytest.mark.parametrize("size", [(100, 100), (120, 70), (65, 160)])
def test_a_grain_only_takes_ways_of_cutting_away(thing: str, count: int, size: tuple[int, int]) -> None:
    """What can be left where a piece may lie either way can be left by one of the two; on a square sheet,
    which looks the same from the side, by each of them."""
    part = guide_of(text("along length", "plain")).things[thing]
    left = {
        grain: {way.left for way in ways_from_sheet(F(size[0]), F(size[1]), part, count, F(1), grain)}
        for grain in ("", "along", "across")
    }
    assert left[""] <= left["along"] | left["across"]
    if size[0] == size[1]:
        assert left["along"] == left["across"] >= left[""]


def test_a_class_needs_more_stock_where_pieces_may_not_be_turned() -> None:
    things = guide_of(text("along length", "plain")).things
    # 50 x 20 on 100 x 60 along the grain: 2 x 3 = 6 to a sheet; across it 5 x 1 = 5, none in the 10 mm left
    for name, sheets in (("long", 2), ("wide", 3), ("plain", 2)):
        found = fit(things["board"], [Wanted(things[name], 12)])
        assert found is not None and found.pieces == sheets
