"""Which face of a part is at its place; how large a part with a disc or with corners as its outline is."""

from __future__ import annotations

import pytest

from builder.drawings.of_part import outline_of
from builder.dryrun.kinds import VERBS
from builder.dryrun.run import run_all
from builder.dryrun.shape import length_of, width_of
from builder.guide.model import Guide
from builder.guide.reader import read
from tests.dryrun.built import of

KIT = """\
title: Faces
units: {first: mm, second: in, finest: 1 mm}
parts:
  deck:
    form: slab
    source: bought
    thickness: 2 mm
    outline: {rectangle: 200 mm x 120 mm, edges: [left, front, right, back], along: front to back}
  badge: {form: slab, source: bought, thickness: 1 mm, outline: {disc: 50 mm}}
  stripe:
    form: slab
    source: bought
    thickness: 1 mm
    outline: {points: [[0 mm, 0 mm], [80 mm, 0 mm], [80 mm, 15 mm], [15 mm, 15 mm]]}
  fin:
    form: slab
    source: bought
    thickness: 2 mm
    outline: {root: 50 mm, tip: 30 mm, span: 20 mm, sweep: 12 mm}
  pipe: {form: tube, source: bought, length: 100 mm, inside: 20 mm, wall: 1 mm}
  bar: {form: strip, source: bought, length: 30 mm, width: 5 mm, thickness: 1 mm}
steps:
  - id: work
    title: Do the work
    time: 4 min
    actions:
      - ACTION
finished: {is: deck, holds: all}
"""


def guide(action: str = "{attach: bar, onto: pipe, at: 10 mm from rear, fit: tight}") -> Guide:
    """The kit with one action."""
    return read({"guide.yml": KIT.replace("ACTION", action)}, "guide.yml", VERBS, "faces")


def seat(what: str, onto: str, at: str) -> tuple[object, object]:
    """The stretch along and across at which a part comes to sit."""
    run = run_all(guide(f"{{attach: {what}, onto: {onto}, {at}, fit: tight}}"))[0]
    found = run.end.seats[what]
    return found.stretch, found.across


@pytest.mark.parametrize(
    ("what", "at", "along", "across"),
    [
        # stations count from the front and from the left; the deck is 200 by 120
        ("stripe", "top: 60 mm from front and 5 mm from left", (60, 140), (5, 20)),
        # from the right: its right face stands 5 from the right edge, 120 - 5 = 115, the other at 115 - 15
        ("stripe", "top: 60 mm from front and 5 mm from right", (60, 140), (100, 115)),
        # from the back: 200 - 10 = 190 and 190 - 80 = 110
        ("stripe", "top: 10 mm from back and 5 mm from left", (110, 190), (5, 20)),
        ("badge", "top: 40 mm from back and 60 mm from left, by: middle", (135, 185), (35, 85)),
        ("badge", "top: 40 mm from back and 60 mm from left", (110, 160), (60, 110)),
    ],
)
def test_the_nearer_face_stands_at_its_place(what: str, at: str, along: object, across: object) -> None:
    assert seat(what, "deck", at) == (along, across)


@pytest.mark.parametrize(
    ("at", "along"),
    [
        ("at: 10 mm from rear", (10, 40)),
        ("at: 10 mm from front", (60, 90)),  # 100 - 10 = 90 is its front face, 90 - 30 its rear
        ("at: flush with front", (70, 100)),
        ("at: 10 mm from front, by: middle", (75, 105)),
    ],
)
def test_on_a_tube_too(at: str, along: object) -> None:
    assert seat("bar", "pipe", at)[0] == along


def test_the_size_of_an_outline() -> None:
    things = guide().things
    assert of((length_of(things["badge"]), width_of(things["badge"]))) == (50, 50)
    assert of((length_of(things["stripe"]), width_of(things["stripe"]))) == (80, 15)


def test_a_swept_fin_leans_back() -> None:
    """Its rear is at 0. The front of the tip lies the sweep behind the front of the root: 50 - 12 = 38; the
    tip is 30 long and ends at 38 - 30 = 8."""
    assert outline_of(guide().things["fin"]) == ((0, 0), (50, 0), (38, 20), (8, 20))
