"""An earlier line under an edge is not drawn, and not told of in the legend."""

from __future__ import annotations

import pytest

from builder.drawings.covered_marks import uncovered
from builder.drawings.shapes import Shape, segment
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
