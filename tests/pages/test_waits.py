"""Waits as a builder reads them: the label's time, where it comes from, what may not happen meanwhile."""

from __future__ import annotations

from fractions import Fraction

import pytest

from builder.pages.waits import elapsed, lengths, rounded

MINUTE, HOUR = Fraction(60), Fraction(3600)


def test_lengths_are_counted_shortest_first() -> None:
    assert lengths([24 * HOUR, 30 * MINUTE, 24 * HOUR]) == "1 of 30 min, 2 of 24 h"
    assert lengths([]) == ""


@pytest.mark.parametrize(
    ("seconds", "told"),
    [
        (28 * MINUTE, "28 min"),
        (25 * HOUR, "25 h"),
        (48 * HOUR, "2 days"),
        (72 * HOUR + 58 * MINUTE, "3 days 1 h"),  # rounded up to the hour
        (199 * HOUR, "8 days 7 h"),  # 8 x 24 = 192
    ],
)
def test_a_long_time_is_told_in_days(seconds: Fraction, told: str) -> None:
    assert elapsed(seconds) == told


def test_a_plan_is_told_in_whole_minutes() -> None:
    # 2 turns of 96 s are 192 s, more than 3 min; what takes less than a minute is told in seconds
    assert [rounded(Fraction(seconds)) for seconds in (192, 60, 61, 45, 3601)] == [
        "4 min", "1 min", "2 min", "45 s", "1 h 1 min",
    ]  # fmt: skip
