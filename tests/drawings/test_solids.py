from __future__ import annotations

import random
from math import cos, hypot, pi, sin, sqrt

import pytest

from builder.drawings.meeting import hits
from builder.drawings.solids import (
    Cord,
    Face,
    Slab,
    Solid,
    Stretch,
    Turned,
    end_faces,
    lines_of,
    rectangle,
    rod,
    round_outline,
    solid_at,
    tube,
)
from builder.drawings.vectors import Pose, Vec, add, dot, pose, round_axis, times, unit

CONE = Turned((Stretch(0, 40, 0, 20),))
STEPPED = Turned((Stretch(0, 30, 10, 10), Stretch(30, 50, 6, 6)), (Stretch(0, 50, 4, 4),))
PLATE = Slab(((0, 0), (20, 0), (20, 10), (0, 10)), 3, (round_outline((10, 5), 4),))


@pytest.mark.parametrize(
    ("solid", "origin", "way", "expected"),
    [
        # a rod of radius 5 across: in at 5, out at 15
        (rod(20, 10), (10, -10, 0), (0, 1, 0), [5, 15]),
        # the same along its axis: the two end faces
        (rod(20, 10), (-5, 0, 0), (1, 0, 0), [5, 25]),
        # through a tube's wall twice: 10 - 5, 10 - 4, 10 + 4, 10 + 5
        (tube(20, 10, 8), (10, -10, 0), (0, 1, 0), [5, 6, 14, 15]),
        # straight down the bore: nothing
        (tube(20, 10, 8), (-5, 0, 0), (1, 0, 0), []),
        # a ray beside it
        (rod(20, 10), (25, -10, 0), (0, 1, 0), []),
        # a cone of radius x / 2 at x = 20 is 10: in at 20, out at 40
        (CONE, (20, -30, 0), (0, 1, 0), [20, 40]),
        # along the axis at radius 8: through the cone at x = 16, out at the base, 40
        (CONE, (-10, 8, 0), (1, 0, 0), [26, 50]),
        (PLATE, (5, 5, -4), (0, 0, 1), [4, 7]),
        (PLATE, (10, 5, -4), (0, 0, 1), []),  # through the hole
        (PLATE, (-5, 5.1, 1), (1, 0, 0), [5, 13, 17, 25]),  # edge, hole of diameter 4, edge
        (Cord(((0, 0, 0), (5, 0, 0))), (2, -5, 0), (0, 1, 0), []),
    ],
)
def test_rays(solid: Solid, origin: Vec, way: Vec, expected: list[float]) -> None:
    assert sorted(hits(solid, origin, way)) == pytest.approx(expected, abs=0.02)


@pytest.mark.parametrize("solid", [rod(30, 12), tube(30, 12, 8), CONE, STEPPED, PLATE])
def test_rays_cross_the_skin_where_material_begins_and_ends(solid: Solid) -> None:
    """Brute force: along random rays, the skin is met as often as a walk of 0.02 mm changes in and out."""
    chance = random.Random(7)
    for _ in range(60):
        origin = (chance.uniform(-60, -40), chance.uniform(-30, 30), chance.uniform(-30, 30))
        aim = (chance.uniform(0, 25), chance.uniform(-8, 8), chance.uniform(-8, 8))
        way = unit((aim[0] - origin[0], aim[1] - origin[1], aim[2] - origin[2]))
        found = sorted(hits(solid, origin, way))
        middles = [(a + b) / 2 for a, b in zip([0.0, *found], [*found, 200.0], strict=True)]
        for i, t in enumerate(middles):
            gap = ([*found, 200.0])[i] - ([0.0, *found])[i]
            if gap > 0.01:
                assert solid_at(solid, add(origin, times(way, t))) is (i % 2 == 1)


def test_end_faces() -> None:
    assert end_faces(STEPPED) == (
        Face(0, 4, 10, -1.0),
        Face(30, 6, 10, 1.0),
        Face(50, 4, 6, 1.0),
    )


def test_silhouettes_are_square_to_the_view() -> None:
    for view in ((0.0, -1.0, 0.0), unit((0.3, -1.0, 0.5))):
        edges, _ = lines_of(CONE, view)
        assert len(edges) == 2
        for edge in edges:
            assert dot(edge.out, view) == pytest.approx(0, abs=1e-9)
            for x, y, z in (edge.a, edge.b):
                assert hypot(y, z) == pytest.approx(x / 2, abs=1e-9)


def test_a_cone_seen_from_its_tip_has_no_silhouette() -> None:
    edges, rims = lines_of(CONE, (-1.0, 0.0, 0.0))
    assert edges == []
    assert [r.radius for r in rims] == [20]


def test_round_slab_shows_no_chords_from_the_side() -> None:
    disc = Slab(round_outline((0, 0), 30), 3)
    edges, _ = lines_of(disc, (0.0, -1.0, 0.0))
    upright = [e for e in edges if e.a[2] != e.b[2]]
    assert len(upright) == 2  # only where the curve turns away from the viewer


def test_plate_has_twelve_edges() -> None:
    edges, rims = lines_of(rectangle(20, 10, 3), unit((1.0, -1.0, 1.0)))
    assert len(edges) == 12 and rims == []


@pytest.mark.parametrize(
    ("angle", "expected"),
    [(0, (5, 0, 2)), (90, (5, -2, 0)), (180, (5, 0, -2)), (45, (5, -sqrt(2), sqrt(2)))],
)
def test_angles_run_clockwise_seen_from_the_rear(angle: float, expected: Vec) -> None:
    assert round_axis(5, 2, angle) == pytest.approx(expected, abs=1e-12)


def test_pose_goes_there_and_back() -> None:
    frame = pose((3, -2, 5), (1, 1, 0), (0, 1, 1))
    for p in ((0.0, 0.0, 0.0), (1.0, 2.0, 3.0)):
        assert frame.local(frame.world(p)) == pytest.approx(p)
    for axis in (frame.ex, frame.ey, frame.ez):
        assert dot(axis, axis) == pytest.approx(1)
    assert dot(frame.ex, frame.ey) == pytest.approx(0)
    assert Pose().world((1, 2, 3)) == (1, 2, 3)


def test_round_outline() -> None:
    points = round_outline((1, 2), 10, 8)
    assert points[0] == pytest.approx((6, 2))
    assert points[1] == pytest.approx((1 + 5 * cos(pi / 4), 2 + 5 * sin(pi / 4)))
