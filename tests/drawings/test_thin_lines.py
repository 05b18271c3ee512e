"""What is small on paper stays legible: white between its edges, creases lighter than outlines."""

from __future__ import annotations

from math import dist

import pytest

from builder.drawings.bodies import camera_for
from builder.drawings.developed import On, Skin, developed
from builder.drawings.fills import GLUE_PITCH, new_hatch
from builder.drawings.half_section import half_section, left_white, sections
from builder.drawings.merge import merged
from builder.drawings.of_canopy import canopy
from builder.drawings.project import WHITE, Viewer, old_line, visible_lines
from builder.drawings.scene import Placed, Scene, on_axis
from builder.drawings.shapes import Hatch, Polyline, box_of, box_round, points_of
from builder.drawings.solids import Cord, Stretch, Turned, rectangle, rod, tube
from builder.drawings.style import LINES
from builder.drawings.vectors import pose
from tests.drawings.guides import drawings, guide


@pytest.mark.parametrize(
    ("thickness", "line"),
    [(0.3, "outline"), (0.7, "outline"), (0.8, "thin"), (1.6, "thin"), (1.7, "outline"), (10.0, "outline")],
)
def test_two_outlines_do_not_run_together(thickness: float, line: str) -> None:
    """0.38 mm and 0.4 mm of white are 0.78; three times 0.55 are 1.65."""
    assert old_line(thickness) == line


@pytest.mark.parametrize("new", [False, True])
def test_a_narrow_part_has_thin_edges_and_what_is_new_heavy_ones(new: bool) -> None:
    plate = Placed("p", "p", rectangle(30, 20, 1.2), new=new)
    lines = {s.line for s in visible_lines(Viewer(Scene("t", (plate,)), camera_for("side", 1.0)))}
    assert lines == ({"new_thin"} if new else {"thin"})


def test_a_cord_is_a_line_however_straight_it_lies() -> None:
    cord = Placed("c", "c", Cord(((0.0, 0.0, 0.0), (30.0, 0.0, 1.0))))
    (line,) = visible_lines(Viewer(Scene("t", (cord,)), camera_for("side", 1.0)))
    assert line.line == "outline"


BENT = Turned((Stretch(0, 10, 5, 9), Stretch(10, 30, 9, 9), Stretch(30, 40, 9, 5)))


@pytest.mark.parametrize("new", [False, True])
def test_a_crease_of_something_new_is_thin(new: bool) -> None:
    """A bundle that is bent at 10 and 30 mm: only its outline is heavy."""
    made = visible_lines(Viewer(Scene("t", (Placed("b", "b", BENT, new=new),)), camera_for("side", 1.0)))
    at = {x: {s.line for s in made if {p[0] for p in points_of(s)} == {x}} for x in (0.0, 10.0, 30.0, 40.0)}
    heavy, crease = ("new", "thin") if new else ("outline", "outline")
    assert at == {0.0: {heavy}, 10.0: {crease}, 30.0: {crease}, 40.0: {heavy}}


@pytest.mark.parametrize(
    ("solid", "white"),
    [
        (tube(3, 50, 20), False),  # thick enough to be hatched
        (tube(1, 50, 20), True),  # a ring: 1 x 15
        (tube(6, 18, 15.6), True),  # a short ring: 6 x 1.2
        (tube(60, 18, 15.6), False),  # a tube of the same wall
        (tube(0.3, 50, 20), False),  # no room for white
    ],
)
def test_a_small_cut_face_is_white_and_a_wall_is_filled(solid: Turned, white: bool) -> None:
    assert left_white(solid, 1.0) is white
    shapes, _ = sections(Scene("t", (Placed("p", "p", solid),)), camera_for("side", 1.0))
    (face,) = (s for s in shapes if isinstance(s, Polyline))
    hatched = any(isinstance(s, Hatch) for s in shapes)
    assert face.line == ("thin" if white else "section")
    assert not (white and (hatched or face.filled))
    assert white or face.filled or hatched


def test_what_is_new_stands_out_among_small_white_faces() -> None:
    rings = tuple(
        Placed(f"ring {i}", "ring", tube(1, 50, 20), on_axis(10.0 + i), new=i == 1) for i in range(3)
    )
    shapes, _ = sections(Scene("t", rings), camera_for("side", 1.0))
    faces = {s.part: s for s in shapes if isinstance(s, Polyline)}
    assert [faces[f"ring {i}"].filled for i in range(3)] == [False, True, False]
    assert faces["ring 1"].line == "new_thin"


def test_lenses_and_rings_in_a_row_have_white_between_their_edges() -> None:
    """A lens of 2 mm between two rings of 2 mm in a tube of 300 mm: at the scale of the whole tube every two
    upright lines there are farther apart than they are thick."""
    parts = (
        Placed("tube", "tube", tube(300, 52, 50)),
        Placed("back", "back ring", tube(2, 50, 40), on_axis(200)),
        Placed("lens", "lens", rod(2, 50), on_axis(202)),
        Placed("front", "front ring", tube(2, 50, 40), on_axis(204)),
    )
    made = half_section(Scene("t", parts))
    inner = [s for s in made.shapes if isinstance(s, Polyline) and s.part in ("back", "lens", "front")]
    assert inner and not any(s.filled for s in inner)
    assert {s.line for s in inner} == {"thin"}
    xs = sorted({round(x, 1) for s in inner for x, _ in s.points})
    assert min(b - a for a, b in zip(xs, xs[1:], strict=False)) > 2 * LINES["thin"].width


def test_what_comes_in_within_something_new_is_told_apart() -> None:
    """The tube that is pushed in has heavy edges, the rings in it thin ones; a ring by itself is heavy."""
    old, new = (
        Placed("old", "old tube", tube(300, 56, 54)),
        Placed("own", "new tube", tube(200, 52, 50), new=True),
    )
    rings = tuple(
        Placed(f"ring {i}", "ring", tube(2, 50, 30), on_axis(50.0 + 2 * i), new=True) for i in range(2)
    )
    made = half_section(Scene("t", (old, new, *rings)))
    lines = {i: {s.line for s in made.shapes if s.part == i} for i in ("own", "ring 0", "ring 1")}
    assert lines["own"] & {"new", "new_section", "new_thin"}
    assert lines["ring 0"] == lines["ring 1"] == {"thin"}
    alone = half_section(Scene("t", (new._replace(new=False), rings[0])))
    assert "new_thin" in {s.line for s in alone.shapes if s.part == "ring 0"}


@pytest.mark.parametrize("step", ["join", "settle", "first_look"])
def test_no_ring_of_the_telescope_is_a_blot(step: str) -> None:
    made = drawings("card-telescope", 0)[step]
    filled = [s for s in made.shapes if isinstance(s, Polyline) and s.filled and s.part]
    boxes = {s.part: box_round(s.points) for s in filled if "tube" not in (s.part or "")}
    # only what has no room for white in either way
    assert not [p for p, b in boxes.items() if min(b.width, b.height) > LINES["thin"].width + WHITE]


@pytest.mark.parametrize("turn", [(0, 2), (88, 92), (178, 182), (358, 360)])
def test_a_foot_on_an_unrolled_skin_is_a_narrow_box_and_no_line(turn: tuple[int, int]) -> None:
    """The foot of a fin 1 mm wide: thin edges with white between them, within the skin; a new line heavy."""
    things = (
        On("fin", "fin", "part", 6, 63, *turn),
        On("line", "lug line", "mark", 100, 140, 45, 45, True),
    )
    made = developed("t", Skin("body", "body", 317.5, 33.8), things)
    (foot,) = (s for s in made.shapes if isinstance(s, Polyline) and s.part == "fin")
    box = box_round(foot.points)
    skin = box_of([s for s in made.shapes if s.part == "body"])
    assert foot.line == "thin" and foot.closed
    assert box.height >= 1.2
    assert skin is not None and skin.top - 1e-6 <= box.top and box.bottom <= skin.bottom + 1e-6
    assert {s.line for s in made.shapes if s.part == "line"} == {"new_mark"}


@pytest.mark.parametrize(
    ("guide", "step"),
    [
        ("card-telescope", "outer_roll"),
        ("card-telescope", "draw_roll"),
        ("rolled-rocket", "body_roll"),
        ("rolled-rocket", "motor_roll"),
    ],
)
def test_the_border_of_the_glue_on_a_blank_is_told_as_no_line(guide: str, step: str) -> None:
    """Nobody has drawn a line where the first turn ends: the border is thin, and no legend speaks of it."""
    made = drawings(guide, 0)[step]
    (border,) = (s for s in made.shapes if s.line == "thin" and s.part is None)
    xs = {x for x, _ in points_of(border)}
    glue = [r for s in made.shapes if isinstance(s, Hatch) and s.line == "glue" for r in s.runs]
    first = min(a[0] for a, b in glue if abs(a[0] - b[0]) < 1e-9)  # rows on the blank run upright
    assert len(xs) == 1 and 0 <= first - min(xs) < 2 * GLUE_PITCH
    assert "earlier line" not in {t.text for t in made.texts()}


@pytest.mark.parametrize(
    ("bodied", "long", "high", "hatched"),
    [(True, 30, 2, True), (False, 30, 2, False), (True, 30, 1.2, False), (True, 1.6, 1.6, False)],
    ids=["on what is hatched", "by itself", "too narrow", "too short for two lines"],
)
def test_what_is_narrow_is_hatched_on_what_is_hatched(
    bodied: bool, long: float, high: float, hatched: bool
) -> None:
    """A lug on a body that is painted with it would be taken for bare, if it were white."""
    body = Placed("body", "body", tube(100, 34, 32), new=bodied)
    lug = Placed(
        "lug", "lug", tube(long, high, high / 2), pose((40, -18, 10), (1, 0, 0), (0, 1, 0)), new=True
    )
    made = new_hatch(Viewer(Scene("t", (body, lug)), camera_for("side", 1.0)))
    parts = {hatch.part for hatch in made}
    assert ("body" in parts) is bodied
    assert ("lug" in parts) is hatched
    assert all(len(hatch.runs) > 1 for hatch in made)


@pytest.mark.parametrize(("thickness", "stubs"), [(0.3, 0), (1.0, 2)])
@pytest.mark.parametrize("solid", ["plate", "wire"])
def test_what_is_no_thicker_than_its_line_has_no_stubs_at_its_ends(
    solid: str, thickness: float, stubs: int
) -> None:
    """A sheet of 0.3 mm seen edge on, and a wire, are lines: an end of 0.3 mm would look like a hook."""
    made = rectangle(30, 20, thickness) if solid == "plate" else rod(30, thickness)
    lines = merged(visible_lines(Viewer(Scene("t", (Placed("p", "p", made),)), camera_for("side", 1.0))))
    upright = [s for s in lines if len({round(x, 6) for x, _ in points_of(s)}) == 1]
    assert len(upright) == stubs
    level = [s for s in lines if s not in upright]
    assert {round(x, 6) for s in level for x, _ in points_of(s)} == {0.0, 30.0}


def test_a_canopy_drawn_out_into_a_spike_is_no_blot() -> None:
    """Creases are thin and lie apart, as the turns of the roll do; nobody folds along a crease."""
    made = canopy(guide("rolled-rocket").things["canopy"], "shroud lines", "t", 160.0)
    assert made is not None
    creases = [s for s in made.shapes if isinstance(s, Polyline) and s.line == "thin"]
    assert len(creases) == 2 and "fold" not in {s.line for s in made.shapes}
    starts = [s.points[0] for s in creases]
    assert dist(*starts) > LINES["new"].width + WHITE
    roll = max((s for s in made.shapes if isinstance(s, Polyline)), key=lambda s: len(s.points)).points
    turn = (len(roll) - 1) // 3
    assert all(dist(a, b) > LINES["new"].width + WHITE for a, b in zip(roll, roll[turn:], strict=False))
