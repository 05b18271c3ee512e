"""Cutting: does it fit, and what is left. The arithmetic stands beside each number.

The lengths of the guides are those of the format's own sums; the rows with a kerf are plain arithmetic;
rows "common practice, no source" are facts of the trade.
"""

from __future__ import annotations

import time
from fractions import Fraction as F

import pytest

from builder.dryrun import needs as n
from builder.dryrun.cutting import cell_of, from_length, from_sheet
from builder.dryrun.kinds import VERBS
from builder.dryrun.run import DryRun, run_all
from builder.guide.reader import read
from tests.checks.examples_of import whole
from tests.dryrun.built import INCH, built, fixture, guide_of, inches, needs, of, steps, unmet


@pytest.mark.parametrize(
    ("stock", "length", "count", "kerf", "left"),
    [
        # 36 in of stock, pieces of 9 in, a saw of 1/8 in: four take 36 + 3 x 1/8 = 36 3/8, three leave
        # 36 - 27 - 3 x 1/8 = 8 5/8
        (F(36), F(9), 4, F(1, 8), None),
        (F(36), F(9), 3, F(1, 8), F(69, 8)),
        # without a kerf all four come out of it, and nothing is left
        (F(36), F(9), 4, F(0), F(0)),
        # 18 - 11 1/2 - 1/16 = 6 7/16; 6 1/2 does not come out of that, 6 3/8 does, and its cut is the rest
        (F(18), F(23, 2), 1, F(1, 16), F(103, 16)),
        (F(103, 16), F(13, 2), 1, F(1, 16), None),
        (F(103, 16), F(51, 8), 1, F(1, 16), F(0)),
        # a piece as long as the stock needs no cut
        (F(9), F(9), 1, F(1, 8), F(0)),
        # less than a kerf is left: dust
        (F(9), F(143, 16), 1, F(1, 8), F(0)),
        # common practice, no source: 11 in cut off a strip of 29 leave 18; six lines of 14 in need 84
        (F(29), F(11), 1, F(0), F(18)),
        (F(84), F(14), 6, F(0), F(0)),
        (F(83), F(14), 6, F(0), None),
    ],
)
def test_pieces_of_a_rod_or_a_cord(stock: F, length: F, count: int, kerf: F, left: F | None) -> None:
    assert from_length(stock, length, count, kerf) == left


def left_after(run: DryRun, step: str, material: str) -> object:
    """The pieces of a material after a step."""
    return [(p.along, p.across) for p in run.of_step(step)[-1].after.stock[material]]


@pytest.mark.parametrize(
    ("guide", "step", "material", "left"),
    [
        # thread 132 - 8 x 16 = 4 in; tape 14 - 8 x 1 1/2 = 2 in; elastic 24 - 24 = nothing
        ("rolled-rocket", "canopy_cut", "line", [("4",)]),
        ("rolled-rocket", "canopy_cut", "tape", [("2",)]),
        # two pairs of fins, head to tail, each 2 1/4 + 1 1/4 = 3 1/2 by 2, in 4 x 4: 1/2 x 4 is left
        ("rolled-rocket", "cut_fins", "board", [("4", "1/2")]),
        # a blank of 12 1/2 x 16 1/2 out of 14 x 22: 22 - 16 1/2 = 5 1/2 and 14 - 12 1/2 = 1 1/2; the motor's
        # blank, 2 3/4 x 7 5/16, then comes out of the smaller piece that holds it (5 1/2 x 14)
        ("rolled-rocket", "cut_paper", "paper", None),
    ],
)
def test_what_the_rocket_leaves(
    guide: str, step: str, material: str, left: list[tuple[str, ...]] | None
) -> None:
    run = fixture(guide)[1][0]
    if left is None:
        stated = next(need for need in needs(run.of_step(step)[0], n.Leaves))
        assert stated.met
        assert sorted(stated.stated) == sorted(((inches("14", "5 1/2")), (inches("16 1/2", "1 1/2"))))
        return
    found = left_after(run, step, material)
    assert found == [(*inches(*sizes), *([None] if len(sizes) == 1 else [])) for sizes in left]


def test_what_the_cart_leaves() -> None:
    run = fixture("wind-cart")[1][0]
    # thin rod 300 - 2 x 140 - 2 x 1 (two saw cuts) = 18; thick rod 300 - 250 - 1 = 49;
    # straw 250 - 2 x 120 = 10
    assert left_after(run, "rods", "thin_rod") == [(18, None)]
    assert left_after(run, "rods", "thick_rod") == [(49, None)]
    assert left_after(run, "rods", "straw") == [(10, None)]
    # board 297 - 120 = 177 by 210, and 210 - 200 = 10 by 120; the block of 30 x 30 comes out of the larger
    deck = run.frames[0].after.stock["greyboard"]
    assert of([(p.along, p.across) for p in deck]) == [(210, 177), (120, 10)]


CUT = """\
parts:
  piece: {{form: rod, of: bar, count: {count}, length: {length}}}
materials:
  bar: {{name: 6 mm dowel, form: rod, diameter: 6 mm, length: {stock}, count: {bars}}}
"""


def sawn(stock: str, length: str, count: int, bars: int = 1) -> DryRun:
    own = CUT.format(stock=stock, length=length, count=count, bars=bars)
    return built(steps("saw, goggles", "{cut: piece, from: bar, with: saw}", own=own))


def test_a_saw_takes_its_kerf_from_every_piece() -> None:
    # 100 - 3 x 30 - 3 x 1 = 7
    run = sawn("100 mm", "30 mm", 3)
    assert unmet(run) == []
    assert left_after(run, "work", "bar") == [(7, None)]
    # 3 x 33 + 2 x 1 = 101 do not come out of 100, and 3 x 32 + 2 = 98 do, with 100 - 98 - 1 = 1 left
    assert unmet(sawn("100 mm", "33 mm", 3)) == ["Stock"]
    assert left_after(sawn("100 mm", "32 mm", 3), "work", "bar") == [(1, None)]


def test_what_does_not_come_out_of_one_bar_comes_out_of_two() -> None:
    # two of 140 out of the first: 300 - 280 - 2 = 18; the third out of the second: 300 - 140 - 1 = 159
    run = sawn("300 mm", "140 mm", 3, bars=2)
    assert unmet(run) == []
    assert left_after(run, "work", "bar") == [(159, None), (18, None)]
    assert unmet(sawn("300 mm", "140 mm", 5, bars=2)) == ["Stock"]


def test_stock_that_is_too_small_is_supposed_and_leaves_the_rest_alone() -> None:
    run = sawn("100 mm", "101 mm", 1)
    (frame,) = run.frames
    (stock,) = needs(frame, n.Stock)
    assert of((stock.along, stock.left)) == (101, ((F(100), None),))
    assert [type(effect).__name__ for effect in frame.supposed] == ["Take"]
    assert left_after(run, "work", "bar") == [(100, None)]
    assert "piece" in run.end.items


SHEETS = """\
# takes: card, scissors
parts:
  square: {form: slab, of: card, count: 4, outline: {rectangle: 40 mm x 30 mm}}
  fin: {form: slab, of: card, count: 4, outline: {root: 50 mm, tip: 30 mm, span: 20 mm, square edge: rear}}
  swept: {form: slab, of: card, outline: {root: 50 mm, tip: 30 mm, span: 20 mm, sweep: 35 mm}}
  leaning: {form: slab, of: card, outline: {root: 50 mm, tip: 30 mm, span: 20 mm, sweep: 12 mm}}
  ring: {form: ring, of: card, outside: 60 mm, inside: 20 mm}
  eight: {form: regular polygon, sides: 8, across flats: 100 mm, of: card}
  six: {form: regular polygon, sides: 6, across flats: 100 mm, of: card}
steps:
  - id: work
    title: Cut them
    actions:
      - {cut: [square, fin, swept, leaning, ring, eight, six], from: card, with: scissors}
"""


def test_the_box_that_a_piece_is_cut_from() -> None:
    things = guide_of(SHEETS).things
    assert of(cell_of(things["square"])) == (40, 30, None)
    # a fin: root by span; a pair lies head to tail in root + tip = 50 + 30 = 80
    assert of(cell_of(things["fin"])) == (50, 20, 80)
    # swept back beyond its root: 35 + 30 = 65 long, and no pair
    assert of(cell_of(things["swept"])) == (65, 20, None)
    # both edges lean: the front by 12, the rear by 50 - 30 - 12 = 8. A pair shares the front edge, and what
    # the rear leans by is between its corners: 50 + 30 + 8 = 88
    assert of(cell_of(things["leaning"])) == (50, 20, 88)
    assert of(cell_of(things["ring"])) == (60, 60, None)
    # a polygon with a number of sides that four divides stands on its flats; others reach to their corners:
    # 100 / cos 30 deg = 115.470 053 8...
    assert of(cell_of(things["eight"])) == (100, 100, None)
    six = cell_of(things["six"])
    assert six is not None
    assert abs(six[0] - F("115.4700538379")) < F(1, 10**9)


def remainders(along: int, across: int, thing: str, count: int, kerf: int = 0) -> set[object]:
    return set(from_sheet(F(along), F(across), guide_of(SHEETS).things[thing], count, F(kerf)))


def test_a_sheet_is_cut_either_way_first() -> None:
    # one of 40 x 30 out of 100 x 60, first across the length: 60 x 60 and 40 x 30; first across the width:
    # 60 x 30 and 100 x 30. Turned, 30 x 40: 70 x 60 and 30 x 20; 70 x 40 and 100 x 20
    assert remainders(100, 60, "square", 1) == {
        ((60, 60), (40, 30)),
        ((100, 30), (60, 30)),
        ((70, 60), (30, 20)),
        ((100, 20), (70, 40)),
    }
    # as large as the sheet: nothing is left; a sheet that is a hair smaller holds none
    assert remainders(40, 30, "square", 1) == {()}
    assert remainders(39, 30, "square", 1) == set()
    # the cut's own width: 100 - 40 - 1 = 59 by 60, and 60 - 30 - 1 = 29 by 40
    assert ((59, 60)[::-1], (40, 29)) in remainders(100, 60, "square", 1, kerf=1)


def test_fins_lie_in_pairs() -> None:
    # four fins as two pairs of 80 x 20 beside one another take 80 x 40; singly they would take 100 x 40
    assert () in remainders(80, 40, "fin", 4)
    assert remainders(79, 40, "fin", 4) == set()
    # three: a pair and a half, in the same box, with (80 - 50) x 20 = 30 x 20 beside the odd one
    assert ((30, 20),) in remainders(80, 40, "fin", 3)


def test_pieces_that_overlap_no_other() -> None:
    """What is left and what was cut are together as large as the sheet (no kerf, whole rows)."""
    for count in (1, 2, 4):
        square = guide_of(SHEETS).things["square"]
        for left in from_sheet(F(100), F(90), square, count, F(0)):
            area = sum((a * (b or 1) for a, b in left), F(0))
            assert area == 100 * 90 - count * 40 * 30


def test_thousands_of_pieces_are_asked_once_for_a_size() -> None:
    """A rod longer than any piece of a large stock is refused, and one of two sizes is found, in no time."""
    many = "materials:\n  dowel: {form: rod, diameter: 4 mm, length: 300 mm, count: 9999}\n"
    part = "parts:\n  pole: {form: rod, of: dowel, count: 70, length: %s}\n"
    begin = time.process_time()
    run = built(steps("saw, goggles", "{cut: pole, from: dowel, with: saw}", own=many + part % "301 mm"))
    assert unmet(run) == ["Stock"]
    # 150 + 150 + 1 mm of saw are more than 300 mm: one to a piece, 300 - 150 - 1 left of each of 70
    run = built(steps("saw, goggles", "{cut: pole, from: dowel, with: saw}", own=many + part % "150 mm"))
    assert unmet(run) == []
    left = [p.along for p in run.frames[-1].after.stock["dowel"]]
    assert (left.count(F(300)), left.count(F(149)), len(left)) == (9999 - 70, 70, 9999)
    assert time.process_time() - begin < 4


def test_sixty_come_from_one_piece_before_the_next_is_begun() -> None:
    """61 pieces of 1 mm from two cords of 60 mm: 60 of the first, one of the second, which leaves 59 mm."""
    own = ("materials:\n  string: {form: cord, length: 60 mm, count: 2}\n"
           "parts:\n  bit_of_it: {form: cord, of: string, count: 61, length: 1 mm}\n")  # fmt: skip
    run = built(steps("unfinished, scissors", "{cut: bit_of_it, from: string, with: scissors}", own=own))
    assert unmet(run) == []
    assert [p.along for p in run.frames[-1].after.stock["string"]] == [59]


def test_a_polygon_of_fewer_than_three_sides_is_told_and_takes_no_stock() -> None:
    for width in ("across flats", "across corners"):
        part = f"{{form: regular polygon, sides: 2, {width}: 50 mm, of: card, pattern: six}}"
        cut = "{cut: six, from: card, along: pattern, with: scissors}"
        text = whole(steps("card, scissors, unfinished", cut, own=f"parts:\n  six: {part}\n")).text
        guide = read({"guide.yml": text}, "guide.yml", VERBS, "built")
        assert [(f.check, f.message) for f in guide.findings] == [
            ("shape", "a regular polygon has at least three sides")
        ]
        assert unmet(run_all(guide)[0]) == []


def test_inches_are_exact() -> None:
    assert inches("1 1/2") == (F(381, 10),) == (INCH * F(3, 2),)
