"""A guide with errors is drawn as it is said, and the check tells what is wrong: no size stops a drawing."""

from __future__ import annotations

import pytest

from builder.drawings.of_step import drawing_of
from builder.dryrun.kinds import VERBS
from builder.dryrun.run import Frame, run_all
from builder.guide.reader import read
from tests.drawings import guides


@pytest.mark.parametrize(
    ("said", "wrong", "step"),
    [
        # a sail that is a line: nothing of it can be laid out on the card
        ("rectangle: 180 mm x 200 mm", "rectangle: 180 mm x 0 mm", "sail_cut"),
        # a hole for the mast that is wider than what the enlarged cut shows, or than the block
        ("size: 6.2 mm", "size: 80 mm", "mast_in"),
        ("size: 6.2 mm", "size: 300 mm", "mast_in"),
    ],
)
def test_a_wrong_size_stops_no_drawing(said: str, wrong: str, step: str) -> None:
    texts = dict(guides.guide("sail-cart").texts)
    main = guides.guide("sail-cart").file
    assert said in texts[main]
    texts[main] = texts[main].replace(said, wrong)
    guide = read(texts, main, VERBS, "sail-cart")
    steps: dict[str, list[Frame]] = {}
    for frame in run_all(guide)[0].frames:
        steps.setdefault(frame.step.id, []).append(frame)
    assert drawing_of(guide, steps[step]).shapes
