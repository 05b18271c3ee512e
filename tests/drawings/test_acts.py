"""The signs below a picture: what cannot be seen in a thing is told by a sign and a few words."""

from __future__ import annotations

import pytest

from builder.drawings.acts import FIRST_WORDS, VERIFIES, acts_of
from builder.drawings.shapes import box_of
from builder.drawings.signs import SIDE, SIGNS, WIDE
from tests.drawings import guides


@pytest.mark.parametrize(
    ("name", "step", "expected"),
    [
        # the label of the white PVA glue says: set 30 min, full cure 24 h
        ("rolled-rocket", "body_dry", [("clock", "30 min, until the white PVA glue is set")]),
        ("rolled-rocket", "fins_cure", [("night", "24 h, until the white PVA glue is cured")]),
        # the label of the paint says: dry 30 min
        ("rolled-rocket", "coat_dry", [("clock", "30 min, until the acrylic spray paint is dry")]),
        ("rolled-rocket", "coat_1", [("can", "acrylic spray paint")]),
        ("rolled-rocket", "coat_2", [("can", "acrylic spray paint, 2 coats")]),
        # 6.5 mm / 25.4 = 0.256 in, 1 mm / 25.4 = 0.039 in
        (
            "rolled-rocket",
            "mount_check",
            [("hand", "Lift the clip aside"),
             ("ruler", "spent motor case: 6.5 mm ± 1 mm (0.256 in ± 0.039 in)")],
        ),
        # what a hand does before it pushes; a push itself is drawn
        ("card-telescope", "eye_lens_in", [
            ("cloth", "Wipe each face of the eye lens with the lens cloth"),
            ("hand", "Hold the eye lens by its rim"),
        ]),
        ("card-telescope", "settle", [("clock", "15 min")]),
        ("card-telescope", "try_slide", [("slides", "draw tube slides out of the outer tube")]),
        ("sail-cart", "last_wheels", [("turns", "axle turns in the straw bearing")]),
        ("sail-cart", "mast_in", [("square", "mast: 90° ± 3°")]),
        ("card-telescope", "back_ring_in", []),
    ],
)
def test_the_signs_of_a_step(name: str, step: str, expected: list[tuple[str, str]]) -> None:
    found = acts_of(guides.guide(name), guides.frames(name, 0)[step])
    told = [(act.sign, act.words.replace("\N{NO-BREAK SPACE}", " ")) for act in found]
    assert told == expected
    for sign, _ in expected:
        assert f"Sign: {sign}, " in guides.drawings(name, 0)[step].alt


def test_no_two_steps_that_follow_one_another_have_the_same_picture() -> None:
    """A builder who sees the same picture twice does not know that something is to be done."""
    for name, route in guides.ROUTES:
        made = list(guides.drawings(name, route).items())
        same = [step for (_, a), (step, b) in zip(made, made[1:], strict=False) if a.shapes == b.shapes]
        assert same == [], (name, route)


@pytest.mark.parametrize("sign", SIGNS)
def test_a_sign_keeps_to_its_room(sign: str) -> None:
    box = box_of(SIGNS[sign]())
    assert box is not None
    wide = WIDE.get(sign, SIDE)
    assert -wide / 2 <= box.left < 0 < box.right <= wide / 2
    assert -SIDE / 2 <= box.top < 0 < box.bottom <= SIDE / 2


def test_every_sign_is_used_by_a_row() -> None:
    rows = {*FIRST_WORDS.values(), *(sign for _, sign in VERIFIES), "hand", "clock", "night", "can", "brush"}
    assert rows == set(SIGNS)
