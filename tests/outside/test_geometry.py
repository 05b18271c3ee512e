"""Marks, wraps, polygons and developments against published tables and worked examples."""

from __future__ import annotations

from math import cos, pi, radians, sin

import pytest
from shapely import unary_union
from shapely.geometry import Polygon

from builder.drawings.developments import (
    chord,
    circumference_marks,
    cone,
    frustum,
    helical_wrap,
    polygon_area,
    regular_polygon,
    sagitta,
)
from builder.drawings.patterns import (
    Pattern,
    around,
    even_lines,
    fin,
    jig,
    marking_strip,
    polygon,
    ring,
)
from builder.drawings.shapes import Arc, Polyline

# Spacing pi D / N and chord D sin(pi / N), worked out by hand from the two formulas (plane geometry).
MARKS = [
    (1, 3, 1.0472, 0.8660),
    (1, 4, 0.7854, 0.7071),
    (1, 6, 0.5236, 0.5000),
    (2, 3, 2.0944, 1.7321),
    (2, 4, 1.5708, 1.4142),
    (0.976, 4, 0.7665, 0.6901),
]


@pytest.mark.parametrize(("diameter", "count", "spacing", "straight"), MARKS)
def test_fin_marks(diameter: float, count: int, spacing: float, straight: float) -> None:
    marks = circumference_marks(diameter, count)
    assert marks[0] == 0
    assert marks[1] == pytest.approx(spacing, abs=5e-5)
    assert chord(diameter, count) == pytest.approx(straight, abs=5e-5)


@pytest.mark.parametrize(
    ("diameter", "count", "rounded", "too_far"),
    # closing error of one rounded step taken N times: N x step - pi D, e.g. 6 x 17/32 - pi = +0.0459
    [(1, 6, 17 / 32, 0.0459), (2, 4, 1 + 37 / 64, 0.0293), (1, 3, 1 + 3 / 64, -0.0010)],
)
def test_marks_close_where_one_rounded_step_would_not(
    diameter: float, count: int, rounded: float, too_far: float
) -> None:
    assert count * rounded - pi * diameter == pytest.approx(too_far, abs=5e-5)
    last = circumference_marks(diameter, count)[-1]
    assert last + pi * diameter / count == pytest.approx(pi * diameter, abs=1e-12)


# sin(angle) = w / (pi D), pitch = w / cos(angle), uncut strip = pi D L / w + sqrt((pi D)^2 - w^2): the
# Math Forum's answer on wrapping a pipe; rows with an overlap use w - o in its place (geometry).
WRAPS = [
    (1, 1.5, 12, 0, 28.5200, 1.7072, 25.1327, 27.8931),
    (1, 1, 12, 0, 18.5607, 1.0549, 37.6991, 40.6773),
    (0.75, 1.5, 11, 0, 39.5402, 1.9451, 17.2788, 19.0958),
    (2, 3, 10, 0, 28.5200, 3.4143, 20.9440, 26.4647),
    (1, 1.5, 12, 0.25, 23.4462, 1.3625, 30.1593, 33.0415),
    (1, 1.5, 12, 0.75, 13.8117, 0.7723, 50.2655, 53.3162),
    (25.4, 38.1, 304.8, 0, 28.5200, 43.3619, 638.372, 708.485),
]


@pytest.mark.parametrize(("d", "w", "length", "overlap", "angle", "pitch", "trimmed", "uncut"), WRAPS)
def test_helical_wrap(
    d: float,
    w: float,
    length: float,
    overlap: float,
    angle: float,
    pitch: float,
    trimmed: float,
    uncut: float,
) -> None:
    wrap = helical_wrap(d, w, length, overlap)
    assert wrap.angle == pytest.approx(angle, abs=5e-5)
    printed = 5.1e-4 if length > 100 else 5.1e-5  # half of the last digit that the row gives
    assert wrap.pitch == pytest.approx(pitch, abs=5.1e-5)
    assert wrap.trimmed == pytest.approx(trimmed, abs=printed)
    assert wrap.uncut == pytest.approx(uncut, abs=printed)


def _covered(length_of_strip: float) -> float:
    """Share of an unrolled tube (1 in round, 12 in long) that a 1 1/2 in strip of a length covers at best.

    The strip is a rectangle in the plane of which the tube is one period; shapely does the covering.
    It starts below the tube's end by half of what the skew end needs, and is tried at 40 places round it.
    """
    d, w, length = 1.0, 1.5, 12.0
    wrap = helical_wrap(d, w, length)
    slope = radians(wrap.angle)
    along, across = (cos(slope), sin(slope)), (-sin(slope), cos(slope))  # x round the tube, y along it
    back = (wrap.uncut - wrap.trimmed) / 2
    x0, y0 = -back * along[0], -back * along[1] - w * across[1] / 2
    corners = [(0.0, 0.0), (length_of_strip, 0.0), (length_of_strip, w), (0.0, w)]
    strip = [(x0 + u * along[0] + v * across[0], y0 + u * along[1] + v * across[1]) for u, v in corners]
    round_it = pi * d
    tube = Polygon([(0, 0), (round_it, 0), (round_it, length), (0, length)])
    best = 0.0
    for step in range(40):
        turns = [
            Polygon([(x + step / 40 * round_it - k * round_it, y) for x, y in strip]) for k in range(-2, 12)
        ]
        best = max(best, unary_union(turns).intersection(tube).area / tube.area)
    return best


def test_uncut_strip_covers_the_unrolled_tube() -> None:
    """27.8931 in is enough; 1 % less leaves a corner bare, and the trimmed length covers 94.5 %."""
    assert _covered(27.8931) == pytest.approx(1.0, abs=1e-5)
    assert _covered(27.8931 * 0.99) < 0.9999
    assert _covered(25.1327) == pytest.approx(0.945, abs=2e-2)


# Regular polygons 12 across flats: hexagon area sqrt(3)/2 f^2, octagon 2 (sqrt(2) - 1) f^2 (geometry).
CANOPIES = [
    (6, 12.0, 6.9282, 6.9282, 124.7077, (6, 3.4641)),
    (8, 12.0, 4.9706, 6.4944, 119.2935, (6, 2.4853)),
]


@pytest.mark.parametrize(("sides", "flats", "side", "radius", "area", "first"), CANOPIES)
def test_canopy(
    sides: int, flats: float, side: float, radius: float, area: float, first: tuple[float, float]
) -> None:
    points = regular_polygon(sides, flats)
    reference = Polygon(points)
    assert reference.area == pytest.approx(area, abs=5e-5)
    assert polygon_area(points) == pytest.approx(reference.area, rel=1e-12)
    assert reference.length == pytest.approx(sides * side, abs=5e-4)
    assert points[0] == pytest.approx(first, abs=5e-5)
    assert max(x * x + y * y for x, y in points) ** 0.5 == pytest.approx(radius, abs=5e-5)
    left, bottom, right, top = reference.bounds
    assert right - left == pytest.approx(flats, abs=1e-9)
    pattern = polygon("canopy", "canopy", sides, flats)
    outline = pattern.shapes[0]
    assert isinstance(outline, Polyline)
    assert Polygon(outline.points).area == pytest.approx(area, abs=5e-5)


@pytest.mark.parametrize(
    ("small", "large", "height", "inner", "outer", "angle"),
    # the first row is a published worked example (frustum 5 to 8 in diameter, 4 high: 7.12, 11.39, 126.4);
    # the others follow from s = sqrt((r2 - r1)^2 + h^2), R = r2 s / (r2 - r1), angle = 360 (r2 - r1) / s
    [(2.5, 4.0, 4.0, 7.1200, 11.3920, 126.404), (0.375, 0.5, 1.5, 4.5156, 6.0208, 29.896)],
)
def test_frustum(small: float, large: float, height: float, inner: float, outer: float, angle: float) -> None:
    flat = frustum(small, large, height)
    assert flat.inner == pytest.approx(inner, abs=5e-5)
    assert flat.outer == pytest.approx(outer, abs=5e-5)
    assert flat.angle == pytest.approx(angle, abs=5e-4)
    assert Polygon(flat.outline(0.1)).area == pytest.approx(flat.area, rel=1e-5)


@pytest.mark.parametrize(
    ("radius", "height", "slant", "angle", "area"),
    # 3-4-5 and 8-15-17 triangles; angle 360 r / s, area pi r s
    [(3, 4, 5, 216.0, 47.124), (8, 15, 17, 169.412, 427.257), (0.5, 3, 3.0414, 59.184, 4.7774)],
)
def test_cone(radius: float, height: float, slant: float, angle: float, area: float) -> None:
    flat = cone(radius, height)
    assert flat.outer == pytest.approx(slant, abs=5e-5)
    assert flat.angle == pytest.approx(angle, abs=5e-4)
    assert flat.area == pytest.approx(area, rel=2e-5)
    assert flat.arc == pytest.approx(2 * pi * radius, rel=1e-12)  # the arc goes round the base


def test_arc_and_chord() -> None:
    # R 10, 60 degrees: chord 10, height 1.3397 = 10 - 10 cos 30; chord 8 and height 2 belong to R 5
    assert sagitta(10, 10) == pytest.approx(1.3397, abs=5e-5)
    assert sagitta(5, 8) == pytest.approx(2, abs=1e-12)


def test_marking_strip_is_the_true_circumference() -> None:
    """1.330 in across is 106.1293 mm round (pi x 33.782); fins stand a quarter of it apart, a lug between."""
    outside = 1.330 * 25.4
    lines = even_lines(around(outside), 4, "fin") + even_lines(around(outside), 1, "lug", first=45)
    strip = marking_strip("guide", "fin guide", around(outside), 25.4, lines)
    assert strip.box.width == pytest.approx(106.1293, abs=1e-3)
    drawn = sorted(s.points[0][0] for s in strip.shapes if isinstance(s, Polyline) and not s.closed)
    assert drawn == pytest.approx([0, 106.1293 / 8, 106.1293 / 4, 106.1293 / 2, 106.1293 * 3 / 4], abs=1e-3)
    assert sorted(lines)[1].label == "lug"


def test_fin_pattern_area() -> None:
    """A trapezium: (root + tip) / 2 x span = (57.15 + 31.75) / 2 x 50.8 = 2258.06 mm2."""
    shape = fin("fin", "fin", 57.15, 31.75, 50.8).shapes[0]
    assert isinstance(shape, Polyline)
    assert Polygon(shape.points).area == pytest.approx(2258.06, abs=1e-6)


def _radii(pattern: Pattern) -> list[float]:
    return sorted(s.rx for s in pattern.shapes if isinstance(s, Arc))


def test_ring_and_jig() -> None:
    assert _radii(ring("r", "ring", 31.242, 20.5486)) == pytest.approx([10.2743, 15.621])
    fins = jig("j", "jig", 165.1, 34.544, 4, 2.0, 51.3)
    assert _radii(fins) == pytest.approx([17.272] * 4 + [82.55])
    slots = [s for s in fins.shapes if isinstance(s, Polyline) and s.line == "cut"]
    assert len(slots) == 4
    for slot in slots:
        (x0, y0), (x1, y1), (x2, y2), _ = slot.points
        assert ((x1 - x2) ** 2 + (y1 - y2) ** 2) ** 0.5 == pytest.approx(2.0)
        assert (x0 * x0 + y0 * y0) ** 0.5 == pytest.approx(17.272)  # the slot begins on the bore
    swept = sum(s.sweep for s in fins.shapes if isinstance(s, Arc) and s.rx < 20)
    # what the slots leave of the bore: 360 - 4 x 2 asin(1 / 17.272) = 360 - 4 x 6.6384
    assert swept == pytest.approx(333.446, abs=1e-2)


@pytest.mark.parametrize("slot", [(2.0, 70.0), (40.0, 10.0)])
def test_impossible_jigs_are_refused(slot: tuple[float, float]) -> None:
    with pytest.raises(ValueError, match="slot"):
        jig("j", "jig", 165.1, 34.544, 4, *slot)
