"""How a cut tells which way the grain lies."""

from __future__ import annotations

import pytest

from builder.guide.wording import sentence
from tests.dryrun.built import guide_of

KIT = """\
# takes: tube, scissors, former
materials:
  board: {form: sheet, size: 100 mm x 60 mm, thickness: 2 mm, grain: along length}
parts:
  long:   {form: slab, of: board, outline: {rectangle: 50 mm x 20 mm}, grain: along length}
  short:  {form: strip, of: board, size: 50 mm x 20 mm, grain: along width}
  square: {form: slab, of: board, outline: {rectangle: 20 mm x 20 mm}, grain: along width}
  plain:  {form: slab, of: board, outline: {rectangle: 50 mm x 20 mm}}
  fin:    {form: slab, of: board, count: 2, grain: root to tip, pattern: fin,
           outline: {root: 50 mm, tip: 30 mm, span: 20 mm}}
  flag:   {form: slab, of: board, grain: along length,
           outline: {points: [[0 mm, 0 mm], [40 mm, 0 mm], [0 mm, 9 mm]]}}
  sleeve: {name: paper sleeve, form: tube, rolled: {of: board, around: former, turns: 1}, length: 50 mm,
           grain: along length}
steps:
  - id: work
    title: Cut it
    actions:
      - {cut: THING, from: board, with: scissors}
"""


@pytest.mark.parametrize(
    ("things", "told"),
    [
        ("long", "with the scissors, with the grain along its long side."),
        ("short", "with the scissors, with the grain along its short side."),
        ("square", "with the scissors."),  # either side will do
        ("plain", "with the scissors."),
        ("fin", "with the scissors, with the grain from root to tip."),
        ("flag", "with the scissors, with the grain along its length."),
        ("sleeve.blank", "with the scissors, with the grain along the paper sleeve."),
        ("[plain, long]", "with the scissors, with the grain of the long along its long side."),
        (
            "[short, long]",
            "the grain of the short along its short side, and the grain of the long along its long side.",
        ),
    ],
)
def test_the_grain_is_told(things: str, told: str) -> None:
    guide = guide_of(KIT.replace("THING", things))
    (step,) = guide.every_step()
    (action,) = step.each_action()
    text = sentence(action, guide).text
    assert text.endswith(told), text
    assert ("grain" in text) is ("grain" in told)
