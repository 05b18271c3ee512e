"""A clear way: a rod passes through the part, and past all else that stands on its host.

The tube is 22 mm thick, the lug 5 mm (bore 4), so that its axis lies 11 + 2.5 = 13.5 mm from the tube's. The
rod is 3 mm, a fin 2 mm thick and 20 mm high. Seen along the tube, a fin at an angle a beside the lug stands
13.5 sin a from the rod's axis, and the rod passes from 3/2 + 2/2 = 2.5 mm on.
"""

from __future__ import annotations

import pytest

from builder.checks.judge import check
from tests.dryrun.built import guide_of, steps

GLUE = "{glue: lug, edge: side, with: pva, for: tube}"


def blocked(text: str) -> bool:
    """Whether the way is told to be blocked; nothing else is told."""
    told = [finding.check for finding in check(guide_of(text))]
    assert told in ([], ["clear-way"]), told
    return bool(told)


def beside_a_fin(angle: str) -> str:
    return steps(
        "tube, fin, lug, pva, brush",
        "{attach: fin, onto: tube, at: 10 mm from rear, angle: 0 deg, fit: tight}",
        GLUE,
        f"{{attach: lug, onto: tube, at: 60 mm from rear, angle: {angle}, hold: 2 min}}",
        time="5 min",
    )


@pytest.mark.parametrize(
    ("angle", "stands"),
    [
        ("0 deg", True),
        ("10 deg", True),  # 13.5 sin 10 = 2.344
        ("11 deg", False),  # 13.5 sin 11 = 2.576
        ("45 deg", False),
        ("90 deg", False),
        ("180 deg", False),
        ("349 deg", False),  # 11 the other way round
        ("350 deg", True),
    ],
)
def test_a_lug_beside_a_fin(angle: str, stands: bool) -> None:
    assert blocked(beside_a_fin(angle)) is stands


@pytest.mark.parametrize(
    ("height", "stands"),
    [
        # the rod's lower side is 13.5 - 1.5 = 12 mm from the tube's axis, that is 1 mm above its surface
        ("0.9 mm", False),
        ("1 mm", False),
        ("1.1 mm", True),
    ],
)
def test_a_rod_passes_over_what_is_low(height: str, stands: bool) -> None:
    outline = f"outline: {{rectangle: 20 mm x {height}}}"
    rib = f"parts:\n  rib: {{form: slab, source: bought, thickness: 2 mm, {outline}}}\n"
    text = steps(
        "tube, lug, pva, brush",
        "{attach: rib, onto: tube, at: 10 mm from rear, angle: 0 deg, fit: tight}",
        GLUE,
        "{attach: lug, onto: tube, at: 60 mm from rear, angle: 0 deg, hold: 2 min}",
        time="5 min",
        own=rib,
    )
    assert blocked(text) is stands


@pytest.mark.parametrize(
    ("outside", "stands"),
    [
        # a ring all round blocks where it reaches beyond 12 mm from the axis: from 24 mm on
        ("24 mm", False),
        ("24.2 mm", True),
    ],
)
def test_a_ring_round_the_tube(outside: str, stands: bool) -> None:
    own = (
        f"parts:\n  band: {{form: ring, source: bought, outside: {outside}, inside: 22.4 mm, length: 5 mm}}\n"
    )
    text = steps(
        "tube, lug, pva, brush",
        "{slide: band, over: tube, from: rear, to: 10 mm from rear, fit: sliding}",
        GLUE,
        "{attach: lug, onto: tube, at: 60 mm from rear, angle: 0 deg, hold: 2 min}",
        time="5 min",
        own=own,
    )
    assert blocked(text) is stands


@pytest.mark.parametrize(("bore", "stands"), [("3 mm", False), ("2.9 mm", True)])
def test_the_bore_itself(bore: str, stands: bool) -> None:
    size = f"length: 20 mm, inside: {bore}, wall: 1 mm"
    own = f"parts:\n  eyelet: {{form: tube, source: bought, {size}, clear way: 3 mm}}\n"
    text = steps(
        "tube, pva, brush",
        "{glue: eyelet, edge: side, with: pva, for: tube}",
        "{attach: eyelet, onto: tube, at: 60 mm from rear, angle: 0 deg, hold: 2 min}",
        time="5 min",
        own=own,
    )
    assert blocked(text) is stands


def test_two_lugs_in_one_line_let_the_rod_pass() -> None:
    """A rod that goes through one goes through the other too: their bores are in line."""
    text = steps(
        "tube, lug",
        "{attach: lug, onto: tube, at: 60 mm from rear, angle: 0 deg, fit: tight}",
        "{attach: second, onto: tube, at: 10 mm from rear, angle: ANGLE, fit: tight}",
        time="5 min",
        own="parts:\n  second: {like: lug}\n",
    )
    assert blocked(text.replace("ANGLE", "0 deg")) is False
    # a little off, the wall of one stands before the bore of the other: 13.5 x 5 deg in rad = 1.18 mm aside,
    # and the rod has only (4 - 3) / 2 = 0.5 mm of play to either side
    assert blocked(text.replace("ANGLE", "5 deg")) is True
    assert blocked(text.replace("ANGLE", "45 deg")) is False


@pytest.mark.parametrize(
    ("across", "thick", "stands"),
    [
        # the straw lies along the deck with its middle 30 mm from the front; a block 10 mm wide beside it
        ("30 mm", "4 mm", True),
        ("36 mm", "4 mm", True),  # from 31 to 41: the rod, 3 mm, reaches to 31.5
        ("37 mm", "4 mm", False),  # from 32
        ("30 mm", "1 mm", False),  # the rod's lower side is 5/2 - 3/2 = 1 mm above the deck
        ("30 mm", "1.1 mm", True),
    ],
)
def test_a_bearing_on_a_deck(across: str, thick: str, stands: bool) -> None:
    own = f"""
    parts:
      tube:
        form: slab
        source: bought
        thickness: 3 mm
        outline: {{rectangle: 100 mm x 60 mm, edges: [left, front, right, back]}}
      straw: {{form: tube, source: bought, length: 40 mm, inside: 4 mm, wall: 0.5 mm, clear way: 3 mm}}
      stop: {{form: slab, source: bought, thickness: {thick}, outline: {{rectangle: 10 mm x 10 mm}}}}
    """
    text = steps(
        "nothing",
        "{attach: straw, onto: tube, top: 30 mm from left and 30 mm from front, by: middle, fit: tight}",
        f"{{attach: stop, onto: tube, top: 80 mm from left and {across} from front, by: middle, fit: tight}}",
        own=own,
        time="2 min",
    )
    assert blocked(text) is stands


@pytest.mark.parametrize(
    ("fin", "lug", "stands"),
    [
        ("80 deg", "90 deg", True),  # 10 between them, not the 170 of both
        ("300 deg", "60 deg", False),  # 240, that is 120 the other way round; both make a whole turn
    ],
)
def test_what_counts_is_the_angle_between_them(fin: str, lug: str, stands: bool) -> None:
    assert blocked(beside_a_fin(lug).replace("angle: 0 deg", f"angle: {fin}")) is stands
