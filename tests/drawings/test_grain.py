"""The sign of the grain in flat lays and on patterns: where it lies, which way, and what is said of it."""

from __future__ import annotations

import pytest
from shapely import Polygon, box

from builder.drawings import grain, patterns
from builder.drawings.class_sheets import class_sheets
from builder.drawings.flat_lay import Blank, flat_lay
from builder.drawings.nesting import Piece, rectangle_piece
from builder.drawings.shapes import Arrow, Drawing, Polyline, Shape, Text, box_of
from builder.drawings.sheets import COMMON, Origin, sheets, working_area
from builder.drawings.sheets import tiles as tiles_of
from tests.drawings import guides

FIN = Piece("fin", "fin", ((0, 0), (60, 0), (40, 50), (10, 50)), grain="y")
ORIGIN = Origin("Kit", "revision 1")


def signs(shapes: tuple[Shape, ...], part: str | None) -> list[tuple[str, Polyline]]:
    """The lines of the signs of a part, each with the way that it runs."""
    lines = [s for s in shapes if isinstance(s, Polyline) and s.line == "grain" and s.part == part]
    return [("x" if s.points[0][1] == s.points[1][1] else "y", s) for s in lines]


def test_the_sign_has_a_head_at_each_end() -> None:
    line, first, last = grain.sign((10.0, 5.0), "x", 12.0)
    assert isinstance(first, Arrow) and isinstance(last, Arrow)
    assert (first.tip, last.tip) == ((4.0, 5.0), (16.0, 5.0))
    assert {first.heading, last.heading} == {180.0, 0.0}
    whole = box_of([line, first, last])
    assert whole is not None and (whole.left, whole.right) == (4.0, 16.0)


@pytest.mark.parametrize(
    ("stock", "piece", "way"), [("x", "x", "x"), ("x", "y", "x"), ("y", "x", "y"), ("y", "y", "y")]
)
def test_pieces_are_turned_until_their_grain_runs_with_that_of_the_stock(
    stock: str, piece: str, way: str
) -> None:
    part = rectangle_piece("rib", "rib", 40, 25, ("40 mm", "25 mm"))._replace(grain=piece)
    drawn = flat_lay("Cut", Blank("board", 100, 80, stock), (part,))
    assert [w for w, _ in signs(drawn.shapes, "rib")] == [way]
    assert [w for w, _ in signs(drawn.shapes, None)] == [way]
    ring = next(s for s in drawn.shapes if isinstance(s, Polyline) and s.part == "rib" and s.closed)
    xs, ys = zip(*ring.points, strict=True)
    lies = "x" if (max(xs) - min(xs) > max(ys) - min(ys)) == (piece == "x") else "y"
    assert lies == way  # the side along which the piece's own grain runs


def test_without_a_grain_there_is_no_sign() -> None:
    part = rectangle_piece("rib", "rib", 40, 25, ("40 mm", "25 mm"))
    drawn = flat_lay("Cut", Blank("board", 100, 80), (part,))
    assert not any(s.line == "grain" for s in drawn.shapes) and "grain" not in drawn.alt


def test_the_sign_lies_in_its_piece_and_clear_of_words_and_leaders() -> None:
    drawn = flat_lay("Cut", Blank("board", 130, 60, "y"), (FIN, FIN._replace(id="fin 2")))
    rings = {
        s.part: Polygon(s.points) for s in drawn.shapes if isinstance(s, Polyline) and s.closed and s.part
    }
    for part in ("fin", "fin 2"):
        ((_, line),) = signs(drawn.shapes, part)
        whole = box(*(box_of([line]) or (0, 0, 0, 0))).buffer(grain.ROOM * 0.9)
        assert rings[part].contains(whole)
        assert not any(box(*t.box()).intersects(whole) for t in drawn.texts())


def test_what_finds_no_room_along_the_grain_is_drawn_beside_the_stock() -> None:
    part = rectangle_piece("rib", "rib", 90, 50, ("90 mm", ""))._replace(grain="y")
    drawn = flat_lay("Cut", Blank("board", 100, 60, "x"), (part,))
    stock = next(s for s in drawn.shapes if isinstance(s, Polyline) and s.part == "board")
    fits = flat_lay("Cut", Blank("board", 100, 100, "x"), (part,))
    inside = next(s for s in fits.shapes if isinstance(s, Polyline) and s.part == "board")
    ring, within = (
        Polygon(next(s.points for s in d.shapes if isinstance(s, Polyline) and s.part == "rib" and s.closed))
        for d in (drawn, fits)
    )
    assert not Polygon(stock.points).buffer(0.1).contains(ring)
    assert Polygon(inside.points).buffer(0.1).contains(within)


def test_the_words_say_which_way_it_runs() -> None:
    drawn = flat_lay("Cut", Blank("balsa", 130, 60, "y"), (FIN,))
    assert (
        "The grain of the balsa runs up and down, and that of the fin with it; arrows show it." in drawn.alt
    )
    assert "grain of the balsa" in [t.text for t in drawn.texts()]


def words(drawing: Drawing) -> list[str]:
    return [t.text for t in drawing.texts()]


def test_a_pattern_bears_the_sign_and_the_word() -> None:
    fin = patterns.fin("fin", "fin", 57.15, 31.75, 50.8, sweep=19.05, note="cut 4")._replace(grain="y")
    (sheet,) = sheets((fin,), ORIGIN)
    assert words(sheet).count("grain") == 2  # beside the sign, and in the legend
    ((way, line),) = signs(sheet.shapes, "fin")
    ring = next(s for s in sheet.shapes if isinstance(s, Polyline) and s.line == "cut" and s.closed)
    assert way == "y" and Polygon(ring.points).contains(box(*(box_of([line]) or (0, 0, 0, 0))).buffer(1))


def test_a_pattern_that_is_turned_on_its_sheet_turns_its_sign() -> None:
    deck = patterns.rectangle("deck", "deck", 200, 120)._replace(grain="x")
    (sheet,) = sheets((deck,), ORIGIN)
    assert [way for way, _ in signs(sheet.shapes, "deck")] == ["y"]


def test_each_tile_bears_the_sign() -> None:
    sail = patterns.rectangle("sail", "sail", 250, 200)._replace(grain="x")
    made = tiles_of(sail, working_area(COMMON))
    assert len(made) > 1
    for tile in made:
        assert [way for way, _ in signs(tile.shapes, "sail")] == ["x"]


def test_the_copies_of_a_class_bear_it_each() -> None:
    fin = patterns.fin("fin", "fin", 57.15, 31.75, 50.8)._replace(grain="y")
    (sheet,) = class_sheets(fin, 6, ORIGIN)
    cuts = [s for s in sheet.shapes if isinstance(s, Polyline) and s.line == "cut" and s.closed]
    ways = signs(sheet.shapes, "fin")
    assert len(cuts) == len(ways) == 6
    for ring in cuts:
        assert sum(Polygon(ring.points).contains(box(*(box_of([s]) or (0, 0, 0, 0)))) for _, s in ways) == 1


@pytest.mark.parametrize(
    ("name", "step", "part", "way"),
    [
        ("rolled-rocket", "cut_fins", "fin 1", "y"),  # upright from root to tip, on a square board
        ("rolled-rocket", "cut_paper", "body.blank", "x"),  # 12 1/2 in along the 14 in side, which lies level
        ("card-telescope", "cut_draw", "draw.blank", "y"),  # 11 in along the 11 1/2 in of what was left
        ("sail-cart", "deck_cut", "deck", "y"),  # 200 mm along the 210 mm side
    ],
)
def test_the_guides_show_it(name: str, step: str, part: str, way: str) -> None:
    drawing = guides.drawings(name, 0)[step]
    assert [w for w, _ in signs(drawing.shapes, part)] == [way]
    assert "grain" in words(drawing) and "The grain of the" in drawing.alt
    assert isinstance(next(s for s in drawing.shapes if isinstance(s, Text) and s.text == "grain"), Text)
