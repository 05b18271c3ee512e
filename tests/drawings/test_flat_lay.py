"""The flat lay: borders of what is left over, cords as lines, and holes that stay white."""

from __future__ import annotations

from itertools import pairwise
from math import hypot

import pytest

from builder.drawings.captions import with_legend
from builder.drawings.cut_outs import cut_line, with_holes
from builder.drawings.fills import polygon_hatch
from builder.drawings.flat_lay import Blank, flat_lay
from builder.drawings.left_over import SHORT, borders, dashes, sides_of
from builder.drawings.nesting import Left, Piece, rectangle_piece
from builder.drawings.of_step import drawing_of
from builder.drawings.patterns import jig
from builder.drawings.shapes import Box, Drawing, Hatch, Point, Polyline, Shape, points_of
from builder.drawings.style import LINES
from builder.drawings.svg import write
from builder.dryrun.run import run_all
from tests.drawings.guides import drawings
from tests.overlaps.collect import in_units

DASH, GAP = LINES["spare"].dash


def of_class(shapes: tuple[Shape, ...] | list[Shape], line: str) -> list[Polyline]:
    return [s for s in shapes if isinstance(s, Polyline) and s.line == line]


def length(line: Polyline) -> float:
    (x0, y0), (x1, y1) = line.points[0], line.points[-1]
    return hypot(x1 - x0, y1 - y0)


@pytest.mark.parametrize("long", [7.0, 9.0, 11.5, 20.0, 20.6, 61.3, 160.0])
def test_a_border_begins_and_ends_with_a_dash(long: float) -> None:
    """Two dashes at least, all equally long, none longer than its class has them: each is drawn unbroken."""
    made = of_class(dashes((3.0, 5.0), (3.0, 5.0 + long)), "spare")
    assert len(made) >= 2
    assert made[0].points[0] == (3.0, 5.0)
    assert made[-1].points[1] == pytest.approx((3.0, 5.0 + long))
    assert all(length(d) == pytest.approx(length(made[0])) for d in made)
    assert length(made[0]) <= DASH + 1e-9
    gaps = [b.points[0][1] - a.points[1][1] for a, b in pairwise(made)]
    assert all(g == pytest.approx(gaps[0]) and 1.0 < g <= GAP + 1e-9 for g in gaps)


def test_a_short_border_is_one_thin_line() -> None:
    (line,) = dashes((0.0, 0.0), (0.0, SHORT - 0.1))
    assert line.line == "thin"


def test_no_edge_is_drawn_twice() -> None:
    """A sheet of 100 x 50 with a piece of 40 x 50 at its left: the rest ends at edges that are drawn, but for
    a saw cut of 1 mm at the right."""
    piece = ((0.0, 0.0), (40.0, 0.0), (40.0, 50.0), (0.0, 50.0))
    corners = ((0.0, 0.0), (100.0, 0.0), (100.0, 50.0), (0.0, 50.0))
    edges = [*sides_of(corners), *sides_of(piece)]
    assert borders([Box(40, 0, 99, 50)], edges) == []
    # a piece that is less high leaves two rests, which share one border of 60 mm
    lower = ((0.0, 20.0), (40.0, 20.0), (40.0, 50.0), (0.0, 50.0))
    found = borders([Box(0, 0, 40, 20), Box(40, 0, 100, 50)], [*sides_of(corners), *sides_of(lower)])
    assert {x for s in found for x, _ in points_of(s)} == {40.0}
    ys = [y for s in found for _, y in points_of(s)]
    assert (min(ys), max(ys)) == (0.0, 20.0)
    assert sum(length(d) for d in of_class(found, "spare")) < 20.0


def test_the_legend_names_left_over_only_where_a_line_of_it_is_drawn() -> None:
    piece = rectangle_piece("p", "plate", 60, 100, ("60 mm", "100 mm"))
    whole = flat_lay("t", Blank("card", 100, 100), (piece,), (Left(40, 100, "40 mm x 100 mm"),))
    assert not of_class(whole.shapes, "spare")
    assert "left over" not in [t.text for t in with_legend(whole, 160.0).texts()]
    low = rectangle_piece("p", "plate", 60, 80, ("60 mm", "80 mm"))
    rests = (Left(60, 20, "60 mm x 20 mm"), Left(40, 100, "40 mm x 100 mm"))
    two = flat_lay("t", Blank("card", 100, 100), (low,), rests)
    assert len(of_class(two.shapes, "spare")) >= 2
    assert "left over" in [t.text for t in with_legend(two, 160.0).texts()]


def thread(count: int, left: tuple[Left, ...]) -> Drawing:
    pieces = tuple(rectangle_piece(f"line {i}", "line", 400, 0, ("400 mm", "")) for i in range(count))
    long = 400 * count + sum(rest.width for rest in left)
    return flat_lay("t", Blank("thread", long, cord=True), pieces, left)


def test_a_cord_is_one_line_with_ticks_at_its_cuts() -> None:
    made = thread(3, (Left(100, 0, "100 mm"),))
    assert not [s for s in made.shapes if isinstance(s, Hatch)]
    own = of_class(made.shapes, "new")
    level = [s for s in own if s.points[0][1] == s.points[1][1]]
    upright = {round(s.points[0][0], 3) for s in own if s.points[0][0] == s.points[1][0]}
    assert len(level) == 3 and len(level) + 2 * 3 == len(own)
    assert len({s.points[0][1] for s in level}) == 1
    assert len(upright) == 4  # three pieces: two cuts between them, and the ends
    # the name stands outside, and nothing of it within the line
    (name,) = (t.box() for t in made.texts() if t.text == "line")
    assert name.bottom < level[0].points[0][1]
    assert "It is drawn as a line." in made.alt


@pytest.mark.parametrize(
    ("guide", "step", "name", "bar"),
    [
        ("sail-cart", "telltale_on", "telltale", False),
        ("rolled-rocket", "canopy_cut", "shroud line", False),
        ("rolled-rocket", "canopy_cut", "corner tab", True),
        ("sail-cart", "axles_cut", "axle", True),
    ],
)
def test_threads_of_the_guides_are_lines_and_tapes_and_rods_are_bars(
    guide: str, step: str, name: str, bar: bool
) -> None:
    made = drawings(guide, 0)[step]
    ids = {"telltale": "telltale", "shroud line": "shroud 1", "corner tab": "tab 1", "axle": "axle 1"}
    own = [s for s in made.shapes if s.part == ids[name] and isinstance(s, Polyline) and s.closed]
    assert bool(own) is bar


RING = jig("j", "jig", 165.0, 34.5, 4, 2.1, 51.0)


def test_a_hatch_leaves_bore_and_slots_white() -> None:
    circle = tuple(points_of(RING.shapes[0]))
    runs = polygon_hatch(with_holes(circle, RING.shapes[1:]), 45.0, 0.5)
    middles: list[Point] = [((a[0] + b[0]) / 2, (a[1] + b[1]) / 2) for a, b in runs]
    near = [p for run in runs for p in run] + middles
    assert len(runs) > 300
    # the bore has a radius of 17.25; straight up a slot of 2.1 goes on to 17.25 + 51 = 68.25
    assert all(hypot(x, y) > 17.25 - 0.1 for x, y in near)
    assert not [p for p in near if abs(p[0]) < 1.0 and -68.2 < p[1] < -17.3]
    # and a run that crosses the slot is broken there
    for (x0, y0), (x1, y1) in runs:
        if x0 < 0 < x1:
            y = y0 + (y1 - y0) * -x0 / (x1 - x0)
            assert not -68.0 < y < -17.4


@pytest.mark.parametrize(
    ("scale", "line"), [(0.46, "thin"), (1.1, "new_thin"), (1.6, "new")], ids=["narrow", "middling", "wide"]
)
def test_white_is_seen_between_the_edges_of_a_slot(scale: float, line: str) -> None:
    """A slot of 2.1 mm: its lines take two thirds of it at most, or are thin."""
    half, far = 1.05 * scale, 51.0 * scale
    for turn in (((-half, 0.0), (-half, far), (half, far), (half, 0.0)), _leaning(half, far)):
        slot = Polyline(turn, "new")
        assert cut_line(slot) == line
        assert 2 * half > LINES[cut_line(slot)].width + 0.5


def _leaning(half: float, far: float) -> tuple[Point, ...]:
    """The same slot at 30 degrees."""
    c, s = 0.75**0.5, 0.5
    corners = ((-half, 0.0), (-half, far), (half, far), (half, 0.0))
    return tuple((x * c - y * s, x * s + y * c) for x, y in corners)


def test_a_bore_keeps_its_heavy_edge() -> None:
    made = drawings("rolled-rocket", 0)["jig_cut"]
    kinds = {s.line for s in made.shapes if s.part == "fin_jig"}
    assert {"new", "thin", "new_hatch"} <= kinds
    assert len(write(made).encode()) < 15_000


def test_a_notch_of_a_ring_is_not_hatched() -> None:
    notched = jig("r", "ring", 31.0, 20.0, 1, 4.0, 2.5).shapes[1:]
    piece = Piece("r", "ring", ((0, 0), (31, 0), (31, 31), (0, 31)), inner=notched)
    made = flat_lay("t", Blank("card", 31, 31), (piece,))
    (hatch,) = (s for s in made.shapes if isinstance(s, Hatch))
    slot = next(s for s in made.shapes if isinstance(s, Polyline) and not s.closed and len(s.points) == 4)
    left, right = slot.points[0][0], slot.points[2][0]
    top, foot = slot.points[1][1], slot.points[0][1]
    for (x0, y0), (x1, y1) in hatch.runs:
        for share in (0.0, 0.25, 0.5, 0.75, 1.0):
            x, y = x0 + (x1 - x0) * share, y0 + (y1 - y0) * share
            assert not (left + 0.1 < x < right - 0.1 and top + 0.1 < y < foot - 0.1)


@pytest.mark.parametrize(("name", "step"), [("sail-cart", "deck_cut"), ("sail-cart", "sail_cut")])
def test_a_strip_left_over_along_the_top_is_named_above_it(name: str, step: str) -> None:
    """From the side its leader would run along the edge of the sheet; from above it comes straight down."""
    drawing = drawings(name, 0)[step]
    word = next(t for t in drawing.texts() if t.text.startswith("left over") and "10" in t.text)
    leaders = [s for s in drawing.shapes if isinstance(s, Polyline) and s.line == "leader"]
    own = min(leaders, key=lambda s: abs(s.points[0][1] - word.at[1]))
    assert own.points[0][0] == own.points[-1][0] and own.points[0][1] < own.points[-1][1]


@pytest.mark.parametrize("size", [(104.0, 30.0), (158.0, 30.0)])
def test_names_above_a_sheet_and_beside_it_keep_clear_of_one_another(size: tuple[float, float]) -> None:
    """In metric first a strip and the rest beside the blank have long names, and the sheet is narrow."""
    guide = in_units("card-telescope", swapped=True)
    frames = [f for f in run_all(guide)[0].frames if f.step.id == "cut_outer"]
    boxes = [t.box() for t in drawing_of(guide, frames, size).texts()]
    assert len(boxes) > 4
    assert not [(a, b) for n, a in enumerate(boxes) for b in boxes[:n] if a.roomy(0).meets(b)]
