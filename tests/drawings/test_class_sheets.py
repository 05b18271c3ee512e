"""Copies of a pattern for a class, single patterns for a machine, the card's outline: against shapely."""

from __future__ import annotations

from math import ceil, hypot, pi

import pytest
from shapely import LinearRing, LineString, Point, Polygon, set_precision
from shapely.affinity import rotate
from shapely.ops import polygonize, unary_union

from builder.drawings import patterns
from builder.drawings.class_sheets import BETWEEN, class_sheets, on_a_sheet, single
from builder.drawings.developments import regular_polygon
from builder.drawings.of_pattern import pattern_sheets, patterns_of
from builder.drawings.patterns import Pattern
from builder.drawings.shapes import Arc, Drawing, Polyline, Shape
from builder.drawings.sheets import COMMON, Origin, printable, tiles, working_area
from tests.drawings import guides

IN = 25.4
ORIGIN = Origin("Kit", "revision 1")
FIN = patterns.fin("fin", "fin", 2.25 * IN, 1.25 * IN, 2 * IN)
RING = patterns.ring("ring", "ring", 40.0, 20.0)
JIG = patterns.jig("jig", "fin jig", 6.5 * IN, 1.36 * IN, 4, 2.1, 2.02 * IN)


def faces(shapes: tuple[Shape, ...]) -> list[Polygon]:
    """All faces that the cut lines close, largest first; arcs are 720 chords a turn."""
    lines = []
    for s in shapes:
        if s.line != "cut":
            continue
        if isinstance(s, Polyline):
            lines.append(LineString((*s.points, s.points[0]) if s.closed else s.points))
        elif isinstance(s, Arc):
            n = ceil(abs(s.sweep) * 2)
            lines.append(LineString([s.at(i / n) for i in range(n + 1)]))
    joined = unary_union([set_precision(line, 1e-4) for line in lines])
    return sorted(polygonize(joined), key=lambda p: -p.area)


def areas(shapes: tuple[Shape, ...]) -> list[float]:
    return [p.area for p in faces(shapes)]


@pytest.mark.parametrize(
    ("pattern", "expected"),
    [
        # a trapezium: (2 1/4 + 1 1/4) / 2 x 2 in = 3.5 square inches
        (FIN, [3.5 * IN * IN]),
        # pi (20^2 - 10^2) and the hole, pi 10^2
        (RING, [pi * 300, pi * 100]),
        (patterns.disc("d", "d", 30), [pi * 225]),
        # an octagon 304.8 mm across flats: 2 (sqrt 2 - 1) a^2 = 0.8284271247 x 304.8^2
        (patterns.polygon("c", "c", 8, 304.8), [0.8284271247 * 304.8**2]),
        (patterns.rectangle("r", "r", 120, 50), [6000.0]),
    ],
)
def test_areas_are_those_of_shapely(pattern: Pattern, expected: list[float]) -> None:
    assert areas(pattern.shapes) == pytest.approx(expected, rel=2e-5)


def test_a_regular_polygon_has_the_vertices_of_a_circle_cut_in_eight() -> None:
    """Circumradius 152.4 / cos(22.5 deg) = 164.956 mm (0.9238795325); all sides 2 x 152.4 tan(22.5 deg)."""
    points = regular_polygon(8, 304.8)
    assert all(hypot(x, y) == pytest.approx(152.4 / 0.9238795325, abs=1e-6) for x, y in points)
    ring = LinearRing(points)
    assert ring.length / 8 == pytest.approx(2 * 152.4 * 0.4142135624, abs=1e-6)
    assert Polygon(points).minimum_clearance > 100


def test_a_jig_is_one_piece_with_its_bore_and_slots_open() -> None:
    """The outer disc less the bore less four slots; each slot starts inside the bore's own edge."""
    whole, hole = Point(0, 0).buffer(6.5 * IN / 2, 720), Point(0, 0).buffer(1.36 * IN / 2, 720)
    r, depth = 1.36 * IN / 2, 2.02 * IN
    slot = Polygon([(0, -1.05), (r + depth, -1.05), (r + depth, 1.05), (0, 1.05)])
    cut = unary_union([hole, *(rotate(slot, 90 * k, origin=(0, 0)) for k in range(4))])
    found = areas(JIG.shapes)
    assert found == pytest.approx([whole.area - cut.area, cut.area], rel=1e-4)


@pytest.mark.parametrize("pattern", [FIN, RING, JIG])
@pytest.mark.parametrize(("copies", "page"), [(1, COMMON), (7, printable("letter")), (19, printable("a4"))])
def test_copies_are_all_there_inside_the_page_and_apart(
    pattern: Pattern, copies: int, page: tuple[float, float]
) -> None:
    made = class_sheets(pattern, copies, ORIGIN, page)
    own = areas(pattern.shapes)
    count = 0
    for sheet in made:
        found = faces(sheet.shapes)
        assert len(found) % len(own) == 0
        here = len(found) // len(own)
        count += here
        assert sum(p.area for p in found) == pytest.approx(sum(own) * here, rel=1e-4)
        for n, a in enumerate(found[:here]):
            x0, y0, x1, y1 = a.bounds
            assert x0 > 0 and y0 > 0 and x1 < page[0] and y1 < page[1]
            assert all(a.distance(b) >= BETWEEN - 0.01 for b in found[:n])
    assert count == copies


def test_skew_pieces_lie_head_to_tail_where_that_holds_more() -> None:
    """A right triangle of 80 by 60: upright a row holds two (2 x 83 < 170), pairs head to tail four."""
    triangle = patterns.outline("t", "t", ((0.0, 0.0), (80.0, 0.0), (0.0, 60.0)))
    (sheet,) = class_sheets(triangle, 7, ORIGIN)
    assert len(areas(sheet.shapes)) == 7


def test_what_is_larger_than_a_sheet_comes_in_tiles_copy_by_copy() -> None:
    canopy = patterns.polygon("c", "canopy", 8, 304.8)
    sheets = class_sheets(canopy, 3, ORIGIN)
    once = tiles(canopy, working_area(COMMON))
    # 304.8 mm is wider than 180 mm and higher than 210 mm: two by two tiles
    assert (len(once), len(sheets)) == (4, 12)
    assert not on_a_sheet(canopy) and on_a_sheet(FIN)
    assert [s.title.rpartition(", ")[2] for s in sheets] == [f"copy {n // 4 + 1} of 3" for n in range(12)]
    assert {s.title.split(" tile ")[1][:2] for s in sheets[4:8]} == {"A1", "A2", "B1", "B2"}
    whole = [s for sheet in sheets[:4] for s in sheet.shapes if s.line == "cut" and isinstance(s, Polyline)]
    sides = [pair for s in whole for pair in zip(s.points, s.points[1:], strict=False)]
    drawn = sum(hypot(b[0] - a[0], b[1] - a[1]) for a, b in sides)
    # the octagon's sides, 8 x 304.8 (sqrt 2 - 1), and no less: where tiles overlap a side is drawn twice
    assert drawn >= 8 * 304.8 * 0.4142135624


def test_a_single_pattern_is_lines_alone_at_true_size() -> None:
    made = single(FIN)
    assert made.true_size and made.texts() == ()
    assert (made.width, made.height) == pytest.approx((57.15 + 4, 50.8 + 4))
    assert {s.line for s in made.shapes} == {"cut"}


@pytest.mark.parametrize("name", ["rolled-rocket", "sail-cart"])
@pytest.mark.parametrize("paper", ["", "letter", "a4"])
def test_one_sheet_of_each_set_has_the_outline_of_a_standard_card(name: str, paper: str) -> None:
    """ISO/IEC 7810, ID-1: 85.60 x 53.98 mm."""
    made = pattern_sheets(guides.guide(name), guides.runs(name), paper=paper)
    carded = [s for s in made if any("bank card" in t.text for t in s.texts())]
    assert len(carded) == 1
    assert "85.60 by 53.98 mm" in carded[0].alt
    assert sorted(card_of(carded[0])) == pytest.approx([53.98, 85.60], abs=0.005)


def card_of(sheet: Drawing) -> tuple[float, float]:
    """Width and height of the box round the rounded corners on a sheet."""
    corners = [s for s in sheet.shapes if isinstance(s, Arc) and s.line == "frame" and s.sweep == 90.0]
    assert len(corners) == 4
    xs = [c.centre[0] for c in corners]
    ys = [c.centre[1] for c in corners]
    r = corners[0].rx
    return max(xs) - min(xs) + 2 * r, max(ys) - min(ys) + 2 * r


@pytest.mark.parametrize("name", ["rolled-rocket", "sail-cart"])
def test_patterns_of_the_guides_close(name: str) -> None:
    """Every pattern is made of closed faces, and the largest takes most of its box, unless it is a ring."""
    for pattern in patterns_of(guides.guide(name), guides.runs(name)):
        assert areas(pattern.shapes), pattern.id
