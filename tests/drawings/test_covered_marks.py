"""An earlier line under an edge is not drawn, and not told of in the legend."""

from __future__ import annotations

import pytest

from builder.drawings.covered_marks import uncovered
from builder.drawings.shapes import Hatch, Shape, segment
from tests.drawings import guides

RING: list[Shape] = [
    segment((40, 0), (40, 12), "section", "ring"),
    segment((40, 12), (40, 30), "outline", "ring"),
]


@pytest.mark.parametrize(
    ("mark", "stays"),
    [
        (((40, 0), (40, 30)), False),  # under both edges, one after the other
        (((40.1, 1), (40.1, 29)), False),
        (((40, 0), (40, 31)), True),  # 1 mm of it is to be seen
        (((41, 0), (41, 30)), True),  # beside them
        (((30, 5), (50, 5)), True),  # across
    ],
)
def test_only_a_line_that_is_covered_from_end_to_end_goes(
    mark: tuple[tuple[float, float], ...], stays: bool
) -> None:
    line = segment(mark[0], mark[1], "mark", "back_line")
    assert (line in uncovered([*RING, line])) is stays
    new = segment(mark[0], mark[1], "new_mark", "back_line")
    assert new in uncovered([*RING, new])  # what the step draws is always drawn


def test_dashes_close_beside_an_edge_are_lost_in_it() -> None:
    """An axle in a straw on paper: 0.6 mm off its edge the dashes melt, 1 mm off they are read."""
    straw: list[Shape] = [segment((0, 0), (80, 0), "outline", "straw")]
    for off, stays in ((0.6, False), (1.0, True)):
        line = segment((5, off), (75, off), "hidden", "axle")
        assert (line in uncovered([*straw, line])) is stays
    end = segment((5, 0), (5, 3), "hidden", "axle")
    assert end in uncovered([*straw, end])  # it stands across the edge


def test_a_line_that_is_not_drawn_has_no_name() -> None:
    """The inner ring covers its line: only before, where the glue is laid beside it, is a line to be seen."""
    words = [t.text for t in guides.drawings("card-telescope", 0)["inner_ring_in"].texts()]
    assert "inner ring" in words and "inner line" not in words


@pytest.mark.parametrize(
    ("name", "step", "told"),
    [
        # the face of each ring sits on its line
        ("card-telescope", "front_ring_set", False),
        ("card-telescope", "carrier_in", False),
        # the glue stops at the back line, which is still open
        ("card-telescope", "back_ring_in", True),
        ("rolled-rocket", "clip_on", True),
    ],
)
def test_the_legend_tells_of_earlier_lines_only_where_one_is_seen(name: str, step: str, told: bool) -> None:
    said = [t.text for t in guides.drawings(name, 0)[step].texts()]
    assert ("earlier line" in said) is told


@pytest.mark.parametrize("step", ["back_ring_in", "eye_ring_in", "eye_cap_in"])
def test_open_glue_in_a_tube_is_one_field_of_dots(step: str) -> None:
    """No row along the cut wall beside it, which would stand out of the field like the bar of a T."""
    drawing = guides.drawings("card-telescope", 0)[step]
    then = next(t.at[1] for t in drawing.texts() if t.text == "then")
    glue = [s for s in drawing.shapes if isinstance(s, Hatch) and s.line == "glue" and s.runs[0][0][1] < then]
    assert len(glue) == 1
