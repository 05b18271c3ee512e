"""Class totals against worked examples whose arithmetic stands beside them.

The examples are common practice (no source): spares are rounded up, whole packs are bought, sticks are
counted by how the pieces fit. The exactness of 50 + 10 % is checked because binary floating point gives
55.00000000000001 (IEEE 754), and a plain ceiling of it 56.
"""

from __future__ import annotations

from fractions import Fraction
from math import ceil
from pathlib import Path

import pytest

from builder.plan.class_plan import plan_for
from builder.plan.settings import Class, Spares, read_spares
from builder.plan.times import turns
from tests.plan.guides import guide_of, sticks


@pytest.mark.parametrize(
    ("builders", "spares", "kits"),
    [
        (28, "10 %", 31),  # 28 x 11/10 = 30.8
        (50, "10 %", 55),  # 50 x 11/10 = 55 exactly
        (24, "10 %", 27),  # 24 x 11/10 = 26.4
        (30, "0 %", 30),
        (30, "2", 32),  # two kits on top
        (1, "10 %", 2),  # 1.1
        (20, "12.5 %", 23),  # 20 x 9/8 = 22.5
        (200, "0.5 %", 201),  # 200 x 201/200 = 201 exactly
    ],
)
def test_spares_are_rounded_up_exactly(builders: int, spares: str, kits: int) -> None:
    read = read_spares(spares)
    assert read is not None
    assert Class(builders, read).kits == kits


def test_floating_point_would_be_wrong() -> None:
    assert ceil(50 * 1.1) == 56  # the trap itself, so that the check above means something
    assert Class(50, Spares(Fraction(1, 10))).kits == 55


@pytest.mark.parametrize(
    ("builders", "size", "groups"),
    [
        (28, 4, 7),  # 28 / 4
        (30, 4, 8),  # 7.5: the last group is short
        (28, 0, 1),  # the whole class
        (28, 1, 28),
    ],
)
def test_groups(builders: int, size: int, groups: int) -> None:
    assert Class(builders).groups(size) == groups


def test_pieces_are_counted_by_how_they_fit(tmp_path: Path) -> None:
    # 28 builders + 10 % = 31 pieces of 11 1/2 in from 36 in sticks, a saw cut of 1/16 in:
    # 3 x 11 1/2 + 2 x 1/16 = 34 5/8 in fit in one stick, a fourth would need 46 3/16 in; 31 / 3 -> 11 sticks.
    # By total length 31 x 11.5 / 36 = 9.90, which would order 10: one too few.
    guide, (run,) = guide_of(sticks("11 1/2 in"), tmp_path)
    assert not guide.findings
    (row,) = plan_for(guide, run, Class(28, Spares(Fraction(1, 10)))).materials
    assert row.fitted is not None
    assert row.units == 11
    assert row.fitted.from_first == (("spar", 3),)
    assert row.fitted.at_least == 10  # what total length alone gives: ceil(356.5 / 36)
    # packs of 5: 3 packs, 15 - 11 = 4 left over, 3 x 4.00 = 12.00
    assert (row.packs, row.left) == (3, 4)
    assert row.cost is not None and row.cost.base == 12


def test_whole_packs_and_what_is_left(tmp_path: Path) -> None:
    # 31 kits from packs of 25 (as 5 packs of 5 here would hide nothing): 31 / 5 -> 7 packs, 35 - 31 = 4 left
    guide, (run,) = guide_of(sticks("11 1/2 in", "builder"), tmp_path)
    (row,) = plan_for(guide, run, Class(28, Spares(Fraction(1, 10)))).materials
    assert (row.units, row.packs, row.left) == (31, 7, 4)
    # 31 from packs of 25: 2 packs, 50 - 31 = 19 left
    text = sticks("11 1/2 in", "builder").replace("pack: 5", "pack: 25")
    guide, (run,) = guide_of(text, tmp_path)
    (row,) = plan_for(guide, run, Class(28, Spares(Fraction(1, 10)))).materials
    assert (row.packs, row.left) == (2, 19)


@pytest.mark.parametrize(
    ("builders", "stations", "minutes_each", "minutes"),
    [
        (28, 2, 3, 42),  # 14 turns x 3
        (28, 3, 3, 30),  # 28 / 3 -> 10 turns x 3
    ],
)
def test_station_time(builders: int, stations: int, minutes_each: int, minutes: int) -> None:
    assert turns(builders, stations) * minutes_each == minutes
