"""The composed views of hand-made scenes: what is drawn, how it is told apart, and no word covered."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path

import pytest

from builder.drawings.compose import WIDTH
from builder.drawings.developed import On, Skin, Span, developed
from builder.drawings.fills import polygon_hatch
from builder.drawings.flat_lay import Blank, flat_lay
from builder.drawings.half_section import cut_face, half_section
from builder.drawings.nesting import Left, Piece, rectangle_piece
from builder.drawings.patterns import fin_points
from builder.drawings.scene import Placed, Scene
from builder.drawings.shapes import Arc, Drawing, Hatch, Polyline, points_of
from builder.drawings.solids import Slab, Stretch, Turned, tube
from builder.drawings.views import axonometric, end, plan, side
from builder.drawings.window import window_for, windowed
from tests.drawings import scenes
from tests.drawings.labels import outside, overlaps, struck

IN = 25.4
FIN = fin_points(2.25 * IN, 1.25 * IN, 2 * IN)


def fins_on_board() -> Drawing:
    pieces = tuple(
        Piece(f"fin {i}", "fin", FIN, ("2 1/4 in (57.2 mm)", "2 in (50.8 mm)")) for i in range(1, 5)
    )
    return flat_lay(
        "Cut the fins", Blank("fin board", 4 * IN, 4 * IN), pieces, (Left(0.5 * IN, 4 * IN, "1/2 in"),)
    )


def lines_from_thread() -> Drawing:
    pieces = tuple(
        rectangle_piece(f"line {i}", "shroud line", 16 * IN, 0, ("16 in (406 mm)", "")) for i in range(1, 9)
    )
    return flat_lay("Cut the lines", Blank("thread", 132 * IN), pieces, (Left(4 * IN, 0, "4 in"),))


def unrolled() -> Drawing:
    things = tuple(On(f"l {i}", "fin line", "mark", 6, 63, 90 * i, 90 * i, True) for i in range(4))
    skin = Skin("body", "body", 317.5, 33.8, ("rear", "front"))
    return developed("Mark the fin lines", skin, things, (Span("6 mm", 0, 6), Span("90°", 0, 0, 90, 180)))


VIEWS: dict[str, Callable[[], Drawing]] = {
    "mount": lambda: half_section(scenes.motor_mount()),
    "mount in body": lambda: half_section(scenes.mount_in_body()),
    "fins side": lambda: side(scenes.finned()),
    "fins end": lambda: end(scenes.finned()),
    "fins front end": lambda: end(scenes.finned(), front=True),
    "fins, three": lambda: end(scenes.finned(3)),
    "fins at an angle": lambda: axonometric(scenes.finned()),
    "deck": lambda: plan(scenes.deck()),
    "fins on their board": fins_on_board,
    "lines on their thread": lines_from_thread,
    "unrolled": unrolled,
}


@pytest.fixture(scope="module", params=list(VIEWS))
def view(request: pytest.FixtureRequest) -> Drawing:
    return VIEWS[request.param]()


def test_no_label_meets_another_or_a_line_of_labels(view: Drawing) -> None:
    assert overlaps(view.shapes) == []
    assert struck(view.shapes) == []
    assert outside(view) == []


def test_fits_a_page(view: Drawing) -> None:
    assert view.width <= 184.6  # the printable width common to letter and A4
    assert view.height <= 160


def test_every_shape_lies_in_the_frame(view: Drawing) -> None:
    for shape in view.shapes:
        for x, y in points_of(shape):
            assert -0.5 <= x <= view.width + 0.5
            assert -0.5 <= y <= view.height + 0.5


def test_has_words(view: Drawing) -> None:
    assert view.title
    assert view.alt.endswith(".")
    assert "  " not in view.alt


@pytest.mark.parametrize(
    ("name", "drawn", "unseen"),
    [
        ("mount", {"motor_tube", "thrust_ring", "rear_ring", "front_ring", "middle_line"}, set()),
        ("fins side", {"body", "fin 1", "fin 2", "fin 3", "lug"}, {"thrust ring", "motor tube"}),
        ("deck", {"deck", "bearing 1", "bearing 2", "back_axle"}, set()),
    ],
)
def test_what_is_drawn_is_what_can_be_seen(name: str, drawn: set[str], unseen: set[str]) -> None:
    made = VIEWS[name]()
    assert drawn <= set(made.parts())
    hidden = made.alt.partition("Not to be seen in this picture:")[2]
    for thing in unseen:
        assert thing in hidden
    assert bool(hidden) is bool(unseen)


def test_what_is_new_is_heavier_and_hatched() -> None:
    made = VIEWS["mount"]()
    classes = {p: {s.line for s in made.shapes if s.part == p} for p in made.parts()}
    assert {"new", "new_section", "new_hatch"} <= classes["front_ring"]
    assert classes["rear_ring"] <= {"outline", "section", "hatch"}
    assert "glue" in classes["motor_tube"]
    assert classes["middle_line"] == {"new_mark"}


def test_neighbours_are_hatched_at_different_angles() -> None:
    made = VIEWS["mount"]()
    slopes = {}
    for s in made.shapes:
        # the cut faces come after the faces seen outside, so the last hatch of a part is its cut face's
        if isinstance(s, Hatch) and s.line in {"hatch", "new_hatch"}:
            (x0, y0), (x1, y1) = s.runs[0]
            slopes[s.part] = round((y1 - y0) / (x1 - x0), 2)
    assert len(slopes) == len(set(slopes.values())) == 4


def test_the_text_alternative_names_parts_places_and_dimensions() -> None:
    alt = VIEWS["mount"]().alt
    for words in (
        "Half section",
        "The rear end is on the left, the front end on the right.",
        "Already there: rear ring, motor tube and thrust ring.",
        "New in this step: front ring.",
        "Front ring: it stands 1/4 in from the front end.",
        "Drawn in this step: middle line.",
        "White glue on the outside of the motor tube.",
        "1/8 in (3.2 mm), 2 3/4 in (69.8 mm) and 2 3/8 in (60.3 mm)",
    ):
        assert words in alt


def test_cut_face_of_a_stepped_tube() -> None:
    solid = Turned((Stretch(0, 30, 10, 10),), (Stretch(0, 20, 6, 6),))
    assert cut_face(solid) == ((0, 10), (30, 10), (30, 0), (20, 0), (20, 6), (0, 6))


def test_thin_walls_are_filled_and_thick_ones_hatched() -> None:
    thin = Scene("t", (Placed("a", "a", tube(300, 30, 29.5)),))
    thick = Scene("t", (Placed("a", "a", tube(300, 30, 20)),))
    filled = [s for s in half_section(thin).shapes if isinstance(s, Polyline) and s.filled]
    assert len(filled) == 1
    assert not any(isinstance(s, Hatch) for s in half_section(thin).shapes)
    assert any(isinstance(s, Hatch) for s in half_section(thick).shapes)


def test_hatch_stays_inside() -> None:
    """Runs over a triangle of area 50 at a pitch of 0.1 sum to its area over the pitch, 500."""
    runs = polygon_hatch(((0, 0), (10, 0), (0, 10)), 30.0, 0.1)
    total = sum(((b[0] - a[0]) ** 2 + (b[1] - a[1]) ** 2) ** 0.5 for a, b in runs)
    assert total == pytest.approx(500, rel=0.01)
    for run in runs:
        for x, y in run:
            assert x >= -1e-9 and y >= -1e-9 and x + y <= 10 + 1e-9


def test_a_long_thing_is_shown_where_it_matters() -> None:
    scene = scenes.mount_in_body()
    window = window_for(scene)
    assert window is not None
    assert window.breaks == (False, True)
    assert window.x0 == pytest.approx(0)
    assert window.x1 > 2.75 * IN
    shown = windowed(scene, window)
    assert shown.ends == ("rear", "to front")
    body = shown.part("body").solid
    assert isinstance(body, Turned) and body.end == pytest.approx(window.x1)
    breaks = [s for s in VIEWS["mount in body"]().shapes if s.line == "break"]
    assert len(breaks) == 1


def test_no_window_where_the_whole_is_new() -> None:
    scene = scenes.mount_in_body()
    whole = scene._replace(parts=tuple(p._replace(new=True) for p in scene.parts))
    assert window_for(whole) is None
    assert (
        window_for(scene._replace(parts=tuple(p._replace(new=False) for p in scene.parts), bands=())) is None
    )


def test_four_fins_lie_head_to_tail_on_their_board() -> None:
    """Two fins take root + tip = 3 1/2 in, so four take 3 1/2 x 4 in of a 4 x 4 in board."""
    made = VIEWS["fins on their board"]()
    fins = {f"fin {i}" for i in range(1, 5)}
    xs = [x for s in made.shapes if s.part and s.part in fins for x, _ in points_of(s)]
    ys = [y for s in made.shapes if s.part and s.part in fins for _, y in points_of(s)]
    board = [x for s in made.shapes if s.part == "fin board" for x, _ in points_of(s)]
    scale = (max(board) - min(board)) / (4 * IN)
    assert (max(xs) - min(xs)) / scale == pytest.approx(3.5 * IN, abs=0.1)
    assert (max(ys) - min(ys)) / scale == pytest.approx(4 * IN, abs=0.1)


def test_a_piece_that_finds_no_room_lies_beside_its_stock() -> None:
    piece = rectangle_piece("p", "plate", 60, 60, ("60 mm", "60 mm"))
    made = flat_lay("t", Blank("card", 50, 50), (piece,))
    stock = max(x for s in made.shapes if s.part == "card" for x, _ in points_of(s))
    assert min(x for s in made.shapes if s.part == "p" for x, _ in points_of(s)) > stock


def test_drawings_are_made_to_the_width() -> None:
    made = VIEWS["mount in body"]()
    drawn = [x for s in made.shapes if s.part for x, _ in points_of(s)]
    assert 90 < max(drawn) - min(drawn) <= WIDTH


def test_order_of_parts_does_not_change_what_is_drawn() -> None:
    """Placing the same fins in another order gives the same lines, part by part."""
    scene = scenes.finned()
    scene = scene._replace(parts=tuple(p for p in scene.parts if p.id != "lug"))
    one = side(scene)
    other = side(scene._replace(parts=tuple(reversed(scene.parts))))
    for part in ("body", "fin 1", "fin 3"):
        assert _geometry(one, part) == _geometry(other, part)


def _geometry(drawing: Drawing, part: str) -> set[tuple[float, ...]]:
    found = set()
    for s in drawing.shapes:
        if s.part == part and isinstance(s, Polyline) and not s.closed:
            ends = sorted((round(x, 1), round(y, 1)) for x, y in s.points)
            found.add(tuple(n for p in ends for n in p))
    return found


GOLDEN = Path(__file__).parent / "golden.json"


def _numbers(drawing: Drawing) -> dict[str, list[float]]:
    """Every coordinate of the lines of parts, by part and class, in order."""
    found: dict[str, list[float]] = {}
    for s in drawing.shapes:
        if s.part and isinstance(s, Polyline | Arc):
            row = found.setdefault(f"{s.part} {s.line}", [])
            if isinstance(s, Polyline):
                row += [n for p in s.points for n in p]
            else:
                row += [*s.centre, s.rx, s.ry]
    return found


@pytest.mark.parametrize("name", ["mount", "fins end", "deck", "fins at an angle"])
def test_geometry_stays_what_was_looked_at(name: str) -> None:
    """Coordinates within 0.02 mm of those of the drawings that were looked at.

    After looking at a changed drawing, write the file anew:
    python -c "from tests.drawings.test_views import write_golden; write_golden()"
    """
    expected = json.loads(GOLDEN.read_text())[name]
    made = _numbers(VIEWS[name]())
    assert list(made) == list(expected)
    for key, row in made.items():
        assert row == pytest.approx(expected[key], abs=0.02), key


def write_golden() -> None:
    names = ("mount", "fins end", "deck", "fins at an angle")
    rows = {n: {k: [round(x, 2) for x in v] for k, v in _numbers(VIEWS[n]()).items()} for n in names}
    text = json.dumps(rows).replace("], ", "],\n ").replace("}, ", "},\n")
    GOLDEN.write_text(text + "\n")


def test_end_view_shows_fins_at_their_angles() -> None:
    """Four fins of span 50.8 on a radius of 16.9: the outermost points lie at 90 degree steps."""
    made = VIEWS["fins end"]()
    middles = {}
    circles = [s for s in made.shapes if s.part == "body" and isinstance(s, Arc)]
    centre = circles[0].centre
    for i in range(1, 5):
        points = [
            p for s in made.shapes if s.part == f"fin {i}" and isinstance(s, Polyline) for p in s.points
        ]
        far = max(points, key=lambda p: (p[0] - centre[0]) ** 2 + (p[1] - centre[1]) ** 2)
        middles[i] = (far[0] - centre[0], far[1] - centre[1])
    assert middles[1][1] < -20 and abs(middles[1][0]) < 2  # fin 1 up
    assert middles[2][0] > 20 and abs(middles[2][1]) < 2  # fin 2 to the right: clockwise from the rear
    assert middles[3][1] > 20
    assert middles[4][0] < -20


def test_slab_with_curved_outline_draws_its_outline_once() -> None:
    from builder.drawings.solids import round_outline

    made = plan(Scene("t", (Placed("d", "d", Slab(round_outline((0, 0), 40), 2)),)))
    length = sum(
        ((s.points[1][0] - s.points[0][0]) ** 2 + (s.points[1][1] - s.points[0][1]) ** 2) ** 0.5
        for s in made.shapes
        if s.part == "d" and isinstance(s, Polyline)
    )
    assert length == pytest.approx(3.14159 * 40 * 2.375, rel=0.01)  # drawn once, at the scale that fits 95 mm
