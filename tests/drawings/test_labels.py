"""Dimension lanes and callouts: the habits of the trade, and nothing on top of anything."""

from __future__ import annotations

from itertools import combinations, pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.drawings.callouts import Callout, flags
from builder.drawings.columns import column
from builder.drawings.dimensions import Linear, angular, below, beside, crossings, stacked
from builder.drawings.shapes import Arrow, Box, Polyline, Shape, Text
from tests.drawings.labels import overlaps, struck

OUTLINE = Box(0, 0, 100, 30)


def lines(shapes: tuple[Shape, ...], kind: str) -> list[Polyline]:
    return [s for s in shapes if isinstance(s, Polyline) and s.line == kind]


def test_lanes_follow_the_habits_of_the_trade() -> None:
    """ASME Y14.5M: first lane 10 mm off, lanes 6 mm apart, extension lines 1.5 mm off and 3 mm beyond."""
    made = below(
        [
            Linear("100 mm", (0, 30), (100, 30)),
            Linear("40 mm", (0, 30), (40, 30)),
            Linear("70 mm", (0, 30), (70, 30)),
        ],
        OUTLINE,
    )
    levels = {t.text: t.at[1] - 1.5 for t in made.shapes if isinstance(t, Text)}
    assert levels["40 mm"] - OUTLINE.bottom == pytest.approx(10)  # the shortest is nearest
    assert levels["70 mm"] - levels["40 mm"] == pytest.approx(6)
    assert levels["100 mm"] - levels["70 mm"] == pytest.approx(6)
    extensions = lines(made.shapes, "extension")
    assert min(p.points[0][1] for p in extensions) - OUTLINE.bottom == pytest.approx(1.5)
    deepest = max(p.points[1][1] for p in extensions)
    assert deepest - levels["100 mm"] == pytest.approx(3)
    arrows = [s for s in made.shapes if isinstance(s, Arrow)]
    assert len(arrows) == 6
    assert sorted(a.heading for a in arrows if a.tip[0] in (0, 100)) == [0, 180, 180, 180]


def test_a_number_breaks_its_line() -> None:
    made = below([Linear("100 mm", (0, 30), (100, 30))], OUTLINE)
    (text,) = (s for s in made.shapes if isinstance(s, Text))
    halves = sorted(lines(made.shapes, "dimension"), key=lambda s: s.points[0])
    assert len(halves) == 2
    assert halves[0].points[1][0] < text.box().left < text.box().right < halves[1].points[0][0]


def test_a_number_that_does_not_fit_stands_outside() -> None:
    made = below([Linear("1/8 in (3.2 mm)", (40, 30), (44, 30))], OUTLINE)
    (text,) = (s for s in made.shapes if isinstance(s, Text))
    assert text.box().left > 44 or text.box().right < 40
    arrows = {s.tip[0]: s.heading for s in made.shapes if isinstance(s, Arrow)}
    assert arrows == {40: 0, 44: 180}  # both point inwards


stations = st.integers(0, 100).map(float)
words = st.sampled_from(
    ["1/8 in (3.2 mm)", "2 3/4 in (69.8 mm)", "12 1/2 in (317.5 mm)", "5 mm", "90 mm (3 1/2 in)"]
)
level_dims = st.lists(
    st.tuples(stations, stations, words).filter(lambda t: t[0] != t[1]), max_size=7, unique_by=lambda t: t[:2]
)


@given(level_dims)
def test_level_dimensions_never_meet(wanted: list[tuple[float, float, str]]) -> None:
    made = below([Linear(w, (a, 30), (b, 30)) for a, b, w in wanted], OUTLINE)
    assert overlaps(made.shapes) == []
    assert struck(made.shapes) == []
    assert len([s for s in made.shapes if isinstance(s, Text)]) == len(wanted)


@given(level_dims, st.sampled_from(["left", "right"]))
def test_upright_dimensions_never_meet(wanted: list[tuple[float, float, str]], side: str) -> None:
    outline = Box(0, 0, 30, 100)
    x = 0.0 if side == "left" else 30.0
    made = beside([Linear(w, (x, a), (x, b), "across") for a, b, w in wanted], outline, side=side)
    assert overlaps(made.shapes) == []
    assert struck(made.shapes) == []


def test_units_are_stacked_on_upright_dimensions() -> None:
    assert stacked("2 in (50.8 mm)") == ("2 in", "(50.8 mm)")
    assert stacked("90°") == ("90°",)


@pytest.mark.parametrize("ends", [((10, 0), (0, 10)), ((0, -10), (10, 0)), ((-10, 0), (0, -10))])
def test_angles(ends: tuple[tuple[float, float], tuple[float, float]]) -> None:
    made = angular("90°", (0, 0), 20, *ends)
    arc = made.shapes[0]
    assert arc.sweep == pytest.approx(90)  # type: ignore[union-attr]  # the first shape is the arc
    (box,) = made.boxes
    corners = [(box.left, box.top), (box.right, box.top), (box.left, box.bottom), (box.right, box.bottom)]
    assert min(x * x + y * y for x, y in corners) ** 0.5 > 20


points = st.tuples(st.floats(0, 100), st.floats(0, 30))
names = st.sampled_from(["fin", "motor tube", "front ring", "a part with quite a long name", "lug line"])


def _leaders(shapes: tuple[Shape, ...]) -> list[Polyline]:
    return lines(shapes, "leader")


def _cross(a: Polyline, b: Polyline) -> bool:
    (p, q), (r, s) = a.points, b.points

    def side(u: tuple[float, float], v: tuple[float, float], w: tuple[float, float]) -> float:
        return (v[0] - u[0]) * (w[1] - u[1]) - (v[1] - u[1]) * (w[0] - u[0])

    return side(p, q, r) * side(p, q, s) < -1e-6 and side(r, s, p) * side(r, s, q) < -1e-6


@given(st.lists(st.tuples(points, names), max_size=9))
def test_flags_neither_meet_nor_cross(wanted: list[tuple[tuple[float, float], str]]) -> None:
    made = flags([Callout(n, str(i), (p,)) for i, (p, n) in enumerate(wanted)], OUTLINE, 0)
    assert overlaps(made.shapes) == []
    assert not any(_cross(a, b) for a, b in combinations(_leaders(made.shapes), 2))
    assert all(t.box().bottom < 0 for t in made.shapes if isinstance(t, Text))
    for leader in _leaders(made.shapes):
        for text in (t for t in made.shapes if isinstance(t, Text)):
            assert crossings([leader], text.box()) == []


@given(st.lists(st.tuples(points, names), max_size=9), st.sampled_from(["left", "right"]))
def test_columns_neither_meet_nor_cross(wanted: list[tuple[tuple[float, float], str]], side: str) -> None:
    x = 110.0 if side == "right" else -10.0
    made = column([Callout(n, str(i), (p,)) for i, (p, n) in enumerate(wanted)], x, side=side)
    assert overlaps(made.shapes) == []
    assert not any(_cross(a, b) for a, b in combinations(_leaders(made.shapes), 2))
    assert [b for b in made.boxes if b.left < 105 and side == "right"] == []
    assert len(_leaders(made.shapes)) == len(wanted)


def test_flags_fan_outwards() -> None:
    made = flags([Callout("a", "a", ((20, 5),)), Callout("b", "b", ((80, 5),))], OUTLINE, 0)
    anchors = {s.text: s.anchor for s in made.shapes if isinstance(s, Text)}
    assert anchors == {"a": "end", "b": "start"}


def test_anchors_that_stand_close_spread_out() -> None:
    choice = ((50.0, 5.0), (60.0, 5.0), (70.0, 5.0))
    made = flags([Callout(n, n, choice) for n in ("a", "b", "c")], OUTLINE, 0)
    xs = sorted(s.points[1][0] for s in _leaders(made.shapes))
    assert all(b - a >= 3 for a, b in pairwise(xs))
