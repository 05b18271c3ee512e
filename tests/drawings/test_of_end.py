"""The end of a line that is folded back under its tape is drawn as a loop, as long as the guide says."""

from __future__ import annotations

from math import atan2, degrees

import pytest

from builder.drawings.of_end import end_of, folded_end
from builder.drawings.shapes import Drawing, Polyline, box_of
from builder.dryrun.run import Frame
from tests.drawings import guides
from tests.dryrun.built import built, guide_of, steps

IN = 25.4


def taping() -> Frame:
    run = guides.runs("rolled-rocket")[0]
    return run.of_step("lines_on")[0]


def picture() -> Drawing:
    end = end_of(guides.guide("rolled-rocket"), taping(), (150.0, 80.0))
    assert end is not None
    return folded_end(end, "Tape", 150.0)


def test_the_loop_is_as_long_as_each_end_takes() -> None:
    drawing = picture()
    first, second = [
        s for s in drawing.shapes if isinstance(s, Polyline) and (s.part or "").startswith("shroud")
    ]
    for cord in (first, second):
        xs = [p[0] for p in cord.points]
        # it comes in from the right, turns, and its end lies back beside it
        assert xs[0] == max(xs) and cord.points.index(min(cord.points)) not in (0, len(xs) - 1)
        assert xs[-1] > min(xs) + 0.8 * IN
    # at full size: 1 in from the turn to the corner of the canopy
    corner = next(s for s in drawing.shapes if isinstance(s, Polyline) and s.part == "canopy").points[1]
    flat = [p[0] for p in first.points[1:-1]]
    assert corner[0] - max(flat) == pytest.approx(IN, abs=0.1)
    assert "1 in (25.4 mm)" in [t.text.replace("\N{NO-BREAK SPACE}", " ") for t in drawing.texts()]


def test_the_corner_is_that_of_the_canopy() -> None:
    """An octagon's corner has (8 - 2) x 180 / 8 = 135 degrees."""
    a, b, c = next(s for s in picture().shapes if isinstance(s, Polyline) and s.part == "canopy").points
    angle = degrees(atan2(c[1] - b[1], c[0] - b[0]) - atan2(a[1] - b[1], a[0] - b[0])) % 360
    assert min(angle, 360 - angle) == pytest.approx(135, abs=0.1)


def test_the_tab_lies_over_the_fold_and_is_told() -> None:
    drawing = picture()
    tab = next(s for s in drawing.shapes if isinstance(s, Polyline) and (s.part or "").startswith("tab"))
    whole = box_of([tab])
    assert (
        whole is not None
        and whole.width == pytest.approx(1.5 * IN)
        and whole.height == pytest.approx(0.75 * IN)
    )
    assert drawing.alt.startswith(
        "The end of the shroud line lies at the corner of the canopy, folded back on itself."
    )
    assert "Then the corner tab lies over the fold." in drawing.alt
    assert drawing.alt in guides.drawings("rolled-rocket", 0)["lines_on"].alt


def test_what_is_not_said_to_be_folded_is_not_drawn_folded() -> None:
    own = "materials:\n  tape: {name: clear tape, form: tape, amount: 20 mm}\n"
    text = steps("tube, cord", "{tape: cord, to: tube, at: rear, with: tape}", own=own)
    assert end_of(guide_of(text), built(text).frames[0], (150.0, 80.0)) is None
