"""When a class meets: how long a period is, what handing out and putting away take of it, on which days."""

from __future__ import annotations

from fractions import Fraction

import msgspec

from builder.quantities.quantity import read_quantity
from builder.quantities.units import Dimension
from builder.quantities.values import Quantity

DAYS = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")
DAY = Fraction(24 * 3600)  # seconds
WEEK = 7


class Timetable(msgspec.Struct, frozen=True):
    """`period` and `clearing` are seconds; `days` the days of the week on which there is one period each,
    always at the same hour, by their places in the week."""

    period: Fraction
    clearing: Fraction
    days: tuple[int, ...]

    @property
    def usable(self) -> Fraction:
        """Seconds of a period in which the class works."""
        return self.period - self.clearing

    def opening(self, number: int) -> Fraction:
        """When a period begins (0 for the first), in seconds after the first one began."""
        weeks, place = divmod(number, len(self.days))
        return (weeks * WEEK + self.days[place] - self.days[0]) * DAY

    def day(self, number: int) -> str:
        """The day of a period: `Mon of week 2`."""
        weeks, place = divmod(number, len(self.days))
        return f"{DAYS[self.days[place]]}, week {weeks + 1}"


def timetable_of(period: str, clearing: str, days: str) -> Timetable | None:
    """A timetable from what was typed; None if no period is given. Errors: ValueError, with words."""
    if not period.strip():
        if clearing.strip() or days.strip():
            raise ValueError(
                "period: write how long a period is (45 min), or leave clearing and days out too"
            )
        return None
    long = _time("period", period)
    away = _time("clearing", clearing) if clearing.strip() else Fraction(0)
    if away >= long:
        raise ValueError(
            "clearing: it takes the whole period; write how long handing out and putting away take"
        )
    named = days.replace(",", " ").split() or list(DAYS[:5])
    places = []
    for word in named:
        place = next((n for n, day in enumerate(DAYS) if word.lower()[:3] == day.lower()), None)
        if place is None:
            raise ValueError(f'days: "{word}" is no day; write them as {" ".join(DAYS[:5])}')
        places.append(place)
    return Timetable(long, away, tuple(sorted(set(places))))


def _time(name: str, text: str) -> Fraction:
    read = read_quantity(text, Dimension.TIME)
    if not isinstance(read, Quantity) or read.base <= 0 or read.base > DAY:
        raise ValueError(f"{name}: write a time, as in 45 min")
    return Fraction(read.base)
