"""Cords: smooth, each stretch one line, hidden by what lies before them, led to where they are seen."""

from __future__ import annotations

from itertools import pairwise
from math import atan2, cos, degrees, hypot, pi, sin

import pytest

from builder.drawings.bodies import camera_for
from builder.drawings.compose import anchors_of
from builder.drawings.geometry import distance
from builder.drawings.merge import merged
from builder.drawings.of_cord import along, between, smooth
from builder.drawings.project import Viewer, visible_lines
from builder.drawings.scene import Placed, Scene
from builder.drawings.shapes import Arc, Point, Polyline
from builder.drawings.solids import Cord, rectangle
from builder.drawings.svg import write
from builder.drawings.vectors import Vec, pose
from tests.drawings.guides import drawings

WAVE: tuple[Vec, ...] = tuple((5.0 * i, 3.0 * sin(2 * pi * i / 6), 0.5) for i in range(13))


def turns(points: tuple[Point, ...]) -> list[float]:
    """By how many degrees a way turns at each of its corners."""
    ways = [atan2(b[1] - a[1], b[0] - a[0]) for a, b in pairwise(points)]
    return [abs((degrees(v - u) + 180) % 360 - 180) for u, v in pairwise(ways)]


def seen(*parts: Placed, view: str = "plan", scale: float = 2.5) -> list[Polyline | Arc]:
    return merged(visible_lines(Viewer(Scene("t", parts), camera_for(view, scale))))


def cord_of(lines: list[Polyline | Arc]) -> list[Polyline]:
    return [s for s in lines if isinstance(s, Polyline) and s.part == "cord"]


def test_a_bent_cord_is_one_line_without_corners() -> None:
    (line,) = cord_of(seen(Placed("cord", "cord", Cord(WAVE))))
    camera = camera_for("plan", 2.5)
    own = [camera.paper(p) for p in WAVE]
    assert max(turns(tuple(own))) > 25  # as it was given
    assert max(turns(line.points)) < 12
    # it runs through every point that it was given, and nearly on the sine between them
    assert all(min(hypot(p[0] - q[0], p[1] - q[1]) for q in line.points) < 1e-6 for p in own)
    sine = [camera.paper((5.0 * i / 20, 3.0 * sin(2 * pi * i / 120), 0.5)) for i in range(241)]
    for p in line.points:
        assert min(distance(p, a, b) for a, b in pairwise(sine)) < 0.5


def test_a_straight_cord_gets_no_points_in_addition() -> None:
    camera = camera_for("plan", 2.5)
    assert len(smooth(((0.0, 0.0, 0.0), (60.0, 10.0, 0.0)), camera)) == 2
    assert len(smooth(tuple((10.0 * i, 5.0 * i, 0.0) for i in range(5)), camera)) == 5


@pytest.mark.parametrize("scale", [0.3, 1.0, 2.5])
def test_a_curve_has_as_many_points_as_its_scale_asks_for(scale: float) -> None:
    """No straight piece leaves a much finer curve by 0.1 mm on paper."""
    camera = camera_for("plan", scale)
    made = [camera.paper(p) for p in smooth(WAVE, camera)]
    fine = [camera.paper(p) for p in smooth(WAVE, camera_for("plan", 40.0))]
    assert all(min(distance(p, a, b) for a, b in pairwise(made)) < 0.1 for p in fine)
    assert len(made) < (30 if scale < 1 else 90)


def test_the_spline_of_a_straight_way_is_straight() -> None:
    """At half of the way between 1 and 2, with 0 and 3 beyond them, is 1.5; at its ends are its ends.
    Where a square is sampled at 0, 1, 4, 9 it is 2.25 at 1.5 (the spline is exact for squares)."""
    assert between(0, 1, 2, 3, 0.5) == 1.5
    assert (between(5, 1, 2, 7, 0.0), between(5, 1, 2, 7, 1.0)) == (1, 2)
    assert between(0, 1, 4, 9, 0.5) == 2.25


def test_a_cord_under_a_board_is_dashed_there_in_one_line() -> None:
    """A board of 20 mm over the start of the wave: 20 of its 60 mm are hidden."""
    board = Placed("board", "board", rectangle(20, 40, 1.0), pose((0, -20, 2), (1, 0, 0), (0, 1, 0)))
    lines = cord_of(seen(board, Placed("cord", "cord", Cord(WAVE))))
    assert sorted(s.line for s in lines) == ["hidden", "outline"]
    hidden, shown = sorted(lines, key=lambda s: s.line)
    xs = [x / 2.5 for x, _ in hidden.points], [x / 2.5 for x, _ in shown.points]
    assert (min(xs[0]), max(xs[0])) == pytest.approx((0.0, 20.0), abs=0.1)
    assert (min(xs[1]), max(xs[1])) == pytest.approx((20.0, 60.0), abs=0.1)
    # a leader ends first where it is seen
    first = anchors_of(lines)["cord"][0]
    assert first[0] / 2.5 > 20.0
    # over the board it is seen, and all of it is one line
    below = board._replace(pose=pose((0, -20, -9), (1, 0, 0), (0, 1, 0)))
    (above,) = cord_of(seen(below, Placed("cord", "cord", Cord(WAVE))))
    assert above.line == "outline"


def test_a_share_of_a_way_is_a_share_of_its_length() -> None:
    way = ((0.0, 0.0), (10.0, 0.0), (10.0, 30.0))
    assert [along(way, s) for s in (0.0, 0.125, 0.25, 0.5, 1.0)] == [
        (0.0, 0.0), (5.0, 0.0), (10.0, 0.0), (10.0, 10.0), (10.0, 30.0),
    ]  # fmt: skip


@pytest.mark.parametrize(("step", "part"), [("anchor_cure", "shock_cord"), ("anchor_in", "shock_cord")])
def test_loose_cords_of_the_rocket_have_no_corners(step: str, part: str) -> None:
    made = drawings("rolled-rocket", 0)[step]
    own = [s for s in made.shapes if isinstance(s, Polyline) and s.part == part and len(s.points) > 4]
    assert own
    assert max(t for s in own for t in turns(s.points)) < 12
    assert len(write(made).encode()) < 15_000


def test_the_bend_of_a_circle_is_followed() -> None:
    """A quarter of a circle of 20 mm through four points: no point of the curve is off by 0.1 mm."""
    points = tuple((20 * cos(a), 20 * sin(a), 0.0) for a in (0.0, pi / 6, pi / 3, pi / 2))
    made = smooth(points, camera_for("plan", 1.0))
    inner = [p for p in made if p[1] > 20 * sin(pi / 6) - 1e-9 and p[0] > 20 * cos(pi / 3) - 1e-9]
    assert len(inner) > 2
    assert all(abs(hypot(x, y) - 20) < 0.1 for x, y, _ in inner)
