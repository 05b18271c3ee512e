"""Sheets: everything in the printable box, bars on both axes, tiles that meet."""

from __future__ import annotations

import pytest

from builder.drawings import patterns
from builder.drawings.patterns import Pattern
from builder.drawings.shapes import Arc, Box, Drawing, Polyline, Text, box_of, segment
from builder.drawings.sheets import (
    COMMON,
    OVERLAP,
    Origin,
    clipped_shape,
    printable,
    quarter_turned,
    sheets,
    working_area,
)
from tests.drawings.labels import outside, overlaps, struck

IN = 25.4
ORIGIN = Origin("Rolled-paper rocket", "revision 1")
ROUND = patterns.around(1.33 * IN)

ALL: list[Pattern] = [
    patterns.fin("fin", "fin", 2.25 * IN, 1.25 * IN, 2 * IN, note="cut 4"),
    patterns.marking_strip(
        "guide",
        "fin guide",
        ROUND,
        IN,
        patterns.even_lines(ROUND, 4, "fin") + patterns.even_lines(ROUND, 1, "lug", first=45),
    ),
    patterns.ring("ring", "rear ring", 1.23 * IN, 0.809 * IN, note="cut 2"),
    patterns.disc("mask", "rear mask", 1.33 * IN),
    patterns.jig("jig", "fin jig", 6.5 * IN, 1.36 * IN, 4, 2.1, 2.02 * IN),
    patterns.folded_strip("anchor", "anchor", 3 * IN, IN, (IN, 2 * IN), note="fold in three"),
    patterns.polygon("canopy", "canopy", 8, 12 * IN, note="cut 1 from film"),
]


@pytest.fixture(scope="module")
def made() -> list[Drawing]:
    return sheets(ALL, ORIGIN)


def test_every_pattern_is_there_whole(made: list[Drawing]) -> None:
    drawn = {p for sheet in made for p in sheet.parts()}
    assert drawn == {p.id for p in ALL}
    assert [s.title.split(":")[0] for s in made] == [
        f"Sheet {i} of {len(made)}" for i in range(1, len(made) + 1)
    ]


def test_everything_lies_in_the_printable_box(made: list[Drawing]) -> None:
    for sheet in made:
        assert (sheet.width, sheet.height) == COMMON
        assert sheet.true_size
        box = box_of(sheet.shapes)
        assert box is not None
        assert box.left >= -1e-6 and box.top >= -1e-6
        assert box.right <= COMMON[0] + 1e-6 and box.bottom <= COMMON[1] + 1e-6


def test_words_are_clear(made: list[Drawing]) -> None:
    for sheet in made:
        assert overlaps(sheet.shapes) == []
        assert struck(sheet.shapes, ("cut", "frame", "fold")) == []
        assert outside(sheet) == []


def test_every_sheet_says_where_it_comes_from(made: list[Drawing]) -> None:
    for number, sheet in enumerate(made, 1):
        words = " ".join(t.text for t in sheet.texts())
        for needed in (
            "Rolled-paper rocket, revision 1",
            f"sheet {number} of {len(made)}",
            "Made for letter or A4",
            "100 %",
            "cut here",
            "4 in",
        ):
            assert needed in words


@pytest.mark.parametrize("paper", ["letter", "a4"])
def test_calibration_bars_on_both_axes(paper: str) -> None:
    (sheet,) = sheets([ALL[0]], ORIGIN, printable(paper))
    bars = [s.points for s in sheet.shapes if isinstance(s, Polyline) and s.line == "frame"]
    level = {round(abs(b[0] - a[0]), 3) for a, b in bars if a[1] == b[1]}
    upright = {round(abs(b[1] - a[1]), 3) for a, b in bars if a[0] == b[0]}
    assert {100.0, 101.6} <= level
    assert {100.0, 101.6} <= upright


def test_patterns_keep_their_size(made: list[Drawing]) -> None:
    lines = [s for sheet in made for s in sheet.shapes if s.part == "fin" and s.line == "cut"]
    box = box_of(lines)
    assert box is not None
    assert (box.width, box.height) == pytest.approx((57.15, 50.8))
    jigs = [s for sheet in made for s in sheet.shapes if s.part == "jig" and isinstance(s, Arc)]
    assert max(s.rx for s in jigs) == pytest.approx(6.5 * IN / 2)


def test_tiles_overlap_and_carry_the_same_marks(made: list[Drawing]) -> None:
    tiles = [s for s in made if "tile" in s.title]
    assert len(tiles) == 4
    area = working_area(COMMON)
    rings = [
        sorted((round(s.centre[0], 3), round(s.centre[1], 3)) for s in tile.shapes if isinstance(s, Arc))
        for tile in tiles
    ]
    assert [len(r) for r in rings] == [4, 4, 4, 4]
    # a tile is (304.8 + 2 + 12) / 2 = 159.4 mm wide: its right-hand marks lie 147.4 mm right of the next
    width = (12 * IN + 2 + OVERLAP) / 2
    right = [(x - area.left, y) for x, y in rings[0] if x - area.left > width - OVERLAP]
    left = [(x - area.left, y) for x, y in rings[1] if x - area.left < OVERLAP]
    assert [(round(x - (width - OVERLAP), 3), y) for x, y in right] == left
    for tile in tiles:
        assert "Neighbouring tiles overlap by 12 mm" in tile.alt


@pytest.mark.parametrize(
    ("window", "left"),
    [
        (Box(0, 0, 10, 10), 4.0),
        (Box(6, 0, 10, 10), 0.0),
        (Box(2, 0, 3, 10), 1.0),
    ],
)
def test_lines_are_clipped(window: Box, left: float) -> None:
    pieces = clipped_shape(segment((1, 5), (5, 5), "cut"), window)
    length = sum(abs(p.points[1][0] - p.points[0][0]) for p in pieces if isinstance(p, Polyline))
    assert length == pytest.approx(left)


def test_arcs_are_clipped_finely() -> None:
    """A half circle of radius 150 in steps of a degree: within r (1 - cos 0.5 deg) = 0.006 mm of itself."""
    pieces = clipped_shape(Arc((0, 0), 150, 150, "cut"), Box(-200, 0, 200, 200))
    points = [p for piece in pieces if isinstance(piece, Polyline) for p in piece.points]
    for (x0, y0), (x1, y1) in zip(points, points[1:], strict=False):
        middle = (((x0 + x1) / 2) ** 2 + ((y0 + y1) / 2) ** 2) ** 0.5
        if abs(x1 - x0) < 5:
            assert middle == pytest.approx(150, abs=0.01)


def test_a_wide_pattern_is_turned_before_it_is_tiled() -> None:
    strip = patterns.rectangle("s", "strip", 205.0, 40.0)
    made = sheets([strip], ORIGIN)
    assert len(made) == 1
    box = box_of([s for s in made[0].shapes if s.part == "s"])
    assert box is not None and (box.width, box.height) == pytest.approx((40, 205))


def test_turning_keeps_lengths() -> None:
    turned = quarter_turned(ALL[0])
    before, after = ALL[0].box, turned.box
    assert after.height == pytest.approx(before.width, abs=3.1)  # its words stay upright
    cut = box_of([s for s in turned.shapes if s.line == "cut"])
    assert cut is not None and (cut.width, cut.height) == pytest.approx((50.8, 57.15))


def test_labels_of_a_strip_stand_beside_their_lines() -> None:
    strip = ALL[1]
    lines = {round(s.points[0][0], 3) for s in strip.shapes if isinstance(s, Polyline) and not s.closed}
    for text in (s for s in strip.shapes if isinstance(s, Text)):
        box = text.box()
        assert min(abs(box.left - x) for x in lines) <= 1.3 or min(abs(box.right - x) for x in lines) <= 1.3
    assert overlaps(strip.shapes) == []
    assert struck(strip.shapes, ("line_up",)) == []


def test_crowded_labels_go_to_further_rows() -> None:
    lines = tuple(patterns.Line(10.0 + i * 4, f"line number {i}") for i in range(4))
    strip = patterns.marking_strip("s", "s", 106, 40, lines)
    assert overlaps(strip.shapes) == []


@pytest.mark.parametrize(
    ("square", "tip"), [("rear", (0.0, 31.75)), ("front", (25.4, 57.15)), ("", (12.7, 44.45))]
)
def test_square_edge_of_a_fin(square: str, tip: tuple[float, float]) -> None:
    points = patterns.fin_points(57.15, 31.75, 50.8, square)
    assert sorted(x for x, y in points if y > 0) == pytest.approx(tip)
