from __future__ import annotations

from math import hypot, pi, sqrt

import pytest

from builder.drawings.bodies import camera_for
from builder.drawings.merge import merged
from builder.drawings.project import Viewer, runs_of, visible_lines
from builder.drawings.scene import Placed, Scene, on_axis
from builder.drawings.shapes import Arc, Polyline, segment
from builder.drawings.solids import Cord, Slab, Stretch, Turned, rectangle, rod, round_outline, tube
from builder.drawings.vectors import dot, pose


def seen(*parts: Placed, view: str = "side", cut: bool = False) -> list[Polyline | Arc]:
    return merged(visible_lines(Viewer(Scene("t", parts), camera_for(view, 1.0), cut=cut)))


def length(lines: list[Polyline | Arc], part: str) -> float:
    total = 0.0
    for line in lines:
        if line.part == part:
            if isinstance(line, Arc):
                total += abs(line.sweep) / 360 * 2 * pi * line.rx
            else:
                (x0, y0), (x1, y1) = line.points
                total += hypot(x1 - x0, y1 - y0)
    return total


def test_a_rod_from_the_side_is_a_rectangle() -> None:
    assert length(seen(Placed("r", "r", rod(40, 10))), "r") == pytest.approx(100, abs=0.05)


def test_a_tube_hides_what_is_in_it() -> None:
    lines = seen(Placed("t", "t", tube(60, 20, 18)), Placed("r", "r", rod(80, 10), on_axis(-10)))
    # of the rod 10 mm stand out at either end: two sides of 10 mm and an end of 10 mm, twice
    assert length(lines, "r") == pytest.approx(60, abs=0.1)
    assert length(lines, "t") == pytest.approx(160, abs=0.1)


def test_a_ring_hides_the_tube_behind_it() -> None:
    lines = seen(Placed("t", "t", tube(60, 20, 18)), Placed("r", "r", tube(10, 40, 20.2), on_axis(20)))
    assert length(lines, "t") == pytest.approx(2 * 20 + 2 * (60 - 10), abs=0.1)
    assert length(lines, "r") == pytest.approx(2 * 10 + 2 * 40, abs=0.1)


def test_a_rod_through_a_wheel_has_no_right_order_for_painting() -> None:
    """Before and behind at once: 20 mm of rod before the wheel, 20 behind, 10 within it."""
    axle = Placed("axle", "axle", rod(50, 4), pose((0, -25, 0), (0, 1, 0), (1, 0, 0)))
    wheel = Placed("wheel", "wheel", tube(10, 30, 4.1), pose((0, -5, 0), (0, 1, 0), (1, 0, 0)))
    lines = seen(axle, wheel, view="axonometric")
    toward = camera_for("axonometric", 1.0).toward
    foreshortened = sqrt(1 - dot((0, 1, 0), toward) ** 2)
    straight = [s for s in lines if s.part == "axle" and isinstance(s, Polyline)]
    shown = sum(hypot(b[0] - a[0], b[1] - a[1]) for a, b in (s.points for s in straight))
    near_half = 2 * 20 * foreshortened
    assert near_half - 0.5 < shown < near_half + 2 * 20 * foreshortened


@pytest.mark.parametrize(("across", "sign"), [(4.0, 1), (0.0, 1)])
def test_a_plate_hides_a_cord_behind_it(across: float, sign: int) -> None:
    plate = Placed("p", "p", rectangle(20, 20, 1), pose((0, 0, 0), (1, 0, 0), (0, 0, 1)))
    cord = Placed("c", "c", Cord(((-10, 5, across), (30, 5, across))))
    assert length(seen(plate, cord), "c") == pytest.approx(20, abs=0.2)
    assert length(
        seen(plate, cord._replace(solid=Cord(((-10, -5, 4.0), (30, -5, 4.0))))), "c"
    ) == pytest.approx(40)


def test_a_hole_shows_what_is_behind() -> None:
    plate = Placed("p", "p", Slab(((0, 0), (20, 0), (20, 20), (0, 20)), 2, (round_outline((10, 10), 8),)))
    cord = Placed("c", "c", Cord(((0, 10, -5), (20, 10, -5))))
    lines = seen(plate, cord, view="plan")
    assert length([each for each in lines if each.line != "hidden"], "c") == pytest.approx(8, abs=0.1)
    assert length([each for each in lines if each.line == "hidden"], "c") == pytest.approx(12, abs=0.1)


def test_circles_stay_circles() -> None:
    lines = seen(Placed("t", "t", tube(60, 20, 12)), view="rear end")
    assert sorted(s.rx for s in lines if isinstance(s, Arc)) == pytest.approx([6, 10])
    assert all(abs(s.sweep) == pytest.approx(360) for s in lines if isinstance(s, Arc))


def test_a_disc_in_front_leaves_the_rest_of_a_circle() -> None:
    """Two discs of radius 10, middles 10 apart: 2 acos(1/2) = 120 degrees of the far one are hidden."""
    near = Placed("n", "n", rod(2, 20))
    far = Placed("f", "f", rod(2, 20), on_axis(5)._replace(origin=(5, 10, 0)))
    arcs = [s for s in seen(near, far, view="rear end") if s.part == "f" and isinstance(s, Arc)]
    assert len(arcs) == 1
    assert abs(arcs[0].sweep) == pytest.approx(240, abs=0.5)


def test_an_end_that_is_flush_has_no_line_of_its_own() -> None:
    lines = seen(Placed("t", "t", tube(60, 20, 18)), Placed("r", "r", rod(30, 10)))
    assert length(lines, "r") == 0


def test_half_section_opens_the_upper_half_only() -> None:
    parts = (Placed("t", "t", tube(60, 20, 18)), Placed("r", "r", rod(30, 10), on_axis(10), whole=True))
    lines = seen(*parts, cut=True)
    assert length(lines, "r") > 30  # its upper side and half of its ends
    below = [
        s for s in lines if s.part == "r" and isinstance(s, Polyline) and max(p[1] for p in s.points) > 0.01
    ]
    assert below == []


def test_drawn_twice_is_drawn_once() -> None:
    lines: list[Polyline | Arc] = [
        segment((0, 0), (10, 0), "outline", "a"),
        segment((12, 0), (4, 0), "new", "b"),
        segment((0, 5), (10, 5), "outline", "c"),
    ]
    made = merged(lines)
    assert [s.part for s in made] == ["a", "b", "c"]
    assert length(made, "b") == pytest.approx(8)  # what is new wins
    assert length(made, "a") == pytest.approx(4)


@pytest.mark.parametrize("edges", [(0.2, 0.7), (0.333, 0.334 + 0.2), (0.05, 0.95)])
def test_runs_are_found_to_a_hair(edges: tuple[float, float]) -> None:
    (run,) = runs_of(lambda s: edges[0] <= s <= edges[1], 20, 40.0)
    assert run == pytest.approx(edges, abs=1e-4)


def test_runs_that_nearly_meet_are_one() -> None:
    assert len(runs_of(lambda s: not 0.5 < s < 0.501, 1000, 40.0)) == 1
    assert len(runs_of(lambda s: not 0.5 < s < 0.6, 20, 40.0)) == 2


def test_nose_cone_has_its_edge_where_the_slope_changes() -> None:
    nose = Turned((Stretch(0, 40, 0, 12), Stretch(40, 60, 12, 12)))
    lines = seen(Placed("n", "n", nose))
    upright = [s for s in lines if isinstance(s, Polyline) and abs(s.points[0][0] - s.points[1][0]) < 1e-6]
    assert sorted(round(s.points[0][0]) for s in upright) == [40, 60]
