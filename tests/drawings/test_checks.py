"""The checks of drawings: silent on the guides, and told where a drawing is wrong."""

from __future__ import annotations

from pathlib import Path

import pytest

from builder.drawings.checks import (
    CHECKS,
    Drawn,
    by_name,
    check_drawings,
    look,
    real_size,
    told_size,
    wrong_lines,
    wrong_parts,
    wrong_size,
)
from builder.drawings.scene import Dim
from builder.drawings.shapes import Text, segment
from builder.dryrun.kinds import VERBS
from builder.dryrun.run import run_all
from builder.guide.reader import read_guide

ROOT = Path(__file__).parents[2]
GUIDES = sorted((ROOT / "guides").glob("*/guide.yml"))


def drawn(step: str) -> Drawn:
    """A step of the rocket, as it is drawn with the jig."""
    guide = read_guide(ROOT / "guides" / "rolled-rocket", VERBS)
    return next(d for d in look(guide, run_all(guide)[0]) if d.step.id == step)


@pytest.mark.parametrize("path", GUIDES, ids=lambda p: p.parent.name)
def test_the_drawings_of_a_guide_have_no_finding(path: Path) -> None:
    guide = read_guide(path, VERBS)
    assert check_drawings(guide, run_all(guide)) == []


def test_names_are_unique_and_explained() -> None:
    assert list(by_name()) == [check.name for check in CHECKS]
    assert len(by_name()) == len(CHECKS)
    assert all(check.why and check.mend and check.reads == "drawing" for check in CHECKS)


@pytest.mark.parametrize(
    ("dim", "said", "real"),
    [
        (Dim("1 1/2 in (38.1 mm)", (10, 0, 0), (48.1, 5, 5)), 38.1, 38.1),  # along: across does not count
        (Dim("about 12 mm", (0, 0, 0), (3, 4, 12), "across"), 12, 13),  # 3, 4, 12, 13: a box and its diagonal
        (Dim("6.5 mm ± 1 mm", (6.5, 0, 0), (0, 0, 0)), 6.5, 6.5),
        (Dim("90°", (0, 1, 0), (0, 0, 1), "angle"), 90, 90),
        (Dim("45°", (0, 1, 0), (0, 1, -1), "angle"), 45, 45),
        (Dim("as it comes", (0, 0, 0), (1, 0, 0)), None, 1),
    ],
)
def test_what_a_dimension_says_and_what_it_is(dim: Dim, said: float | None, real: float) -> None:
    told = told_size(dim)
    assert told == said if said is None else told is not None and abs(told - said) < 1e-9
    assert abs(real_size(dim) - real) < 1e-9


def test_a_dimension_that_lies_is_told() -> None:
    """Half of the finest step, 1/16 in, is 0.79 mm."""
    step = drawn("mark_tube")
    (scene,) = step.scenes
    first = scene.dims[0]
    assert list(wrong_size(step)) == []
    for more, told in ((0.7, 0), (0.9, 1)):
        moved = first._replace(end=(first.end[0] + more, *first.end[1:]))
        wrong = step._replace(scenes=(scene._replace(dims=(moved, *scene.dims[1:])),))
        found = list(wrong_size(wrong))
        assert [f.check for f in found] == ["drawing-size"] * told
        assert all(first.text in f.message for f in found)


def test_a_part_that_is_not_there_yet_is_told() -> None:
    step = drawn("thrust")
    line = segment((1, 1), (2, 2), "outline", "lug")
    assert list(wrong_parts(step)) == []  # the lug is bought, and lies on the table from the start
    bought = step.drawing._replace(shapes=(*step.drawing.shapes, line))
    assert list(wrong_parts(step._replace(drawing=bought))) == []
    fin = line._replace(part="fin 2")
    wrong = step.drawing._replace(shapes=(*step.drawing.shapes, fin))
    told = [f.message for f in wrong_parts(step._replace(drawing=wrong))]
    assert told == ["the drawing of this step shows the fin, which is not there yet"]


def test_a_new_part_that_is_left_out_is_told() -> None:
    step = drawn("rear_ring_on")
    without = tuple(s for s in step.drawing.shapes if s.part != "rear_ring")
    bare = step.drawing._replace(shapes=without)
    told = [f.message for f in wrong_parts(step._replace(drawing=bare))]
    assert told == ["the drawing of this step leaves out the rear ring, which it adds"]
    assert list(wrong_parts(step._replace(drawing=bare._replace(unseen=("rear_ring",))))) == []


def test_one_copy_stands_for_all() -> None:
    step = drawn("cut_fins")
    one = tuple(s for s in step.drawing.shapes if s.part not in ("fin 2", "fin 3", "fin 4"))
    assert list(wrong_parts(step._replace(drawing=step.drawing._replace(shapes=one)))) == []


@pytest.mark.parametrize(
    ("shape", "told"),
    [
        (Text((10.0, 10.0), "a word"), ""),
        (Text((10_000.0, 10.0), "a word"), "stands beyond the frame"),
        (Text((10.0, 1.0), "a word"), "stands beyond the frame"),  # capitals are 3 mm high
        (Text((10.0, 10.0), "a fin", part="fin 1"), "names what this step's drawing does not show"),
        (segment((1, 1), (2, 2), "wavy"), 'lines of the class "wavy"'),
    ],
)
def test_lines_and_words(shape: object, told: str) -> None:
    step = drawn("thrust")
    with_it = step.drawing._replace(shapes=(*step.drawing.shapes, shape))  # type: ignore[arg-type]
    found = [f.message for f in wrong_lines(step._replace(drawing=with_it))]
    assert bool(found) is bool(told)
    assert told in "".join(found)
