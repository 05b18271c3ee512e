"""The sign of a revised place: a scalloped line with a triangle, which hides no letter."""

from __future__ import annotations

import re

import pytest

from builder.drawings.shapes import Box
from builder.pages.differing import BESIDE, SIGN, cloud


@pytest.mark.parametrize(
    ("right", "left_of_sign"),
    [
        (50.0, 50.0 - BESIDE),  # beside the last letter, which ends so far before the line
        (97.8, 100.0 - 2 * SIGN),  # near the edge of a drawing of 100 mm: it stays inside
        (99.9, 99.9 - SIGN),  # and never stands further in than the corner
    ],
)
def test_the_triangle_stands_beside_the_words_within_the_drawing(right: float, left_of_sign: float) -> None:
    sign = cloud(Box(20.0, 10.0, right, 15.0), 100.0).split("<path")[2]
    found = re.search(r'd="M(\S+) (\S+)h(\S+)L(\S+) (\S+)Z"', sign)
    assert found is not None
    left, _, wide, tip, _ = (float(each) for each in found.groups())
    assert left == pytest.approx(left_of_sign, abs=0.01)
    assert wide == pytest.approx(2 * SIGN) and tip == pytest.approx(left + SIGN, abs=0.01)
