"""A class: how many builders, how many spare kits, which paper, how many adults."""

from __future__ import annotations

import re
from collections.abc import Mapping
from fractions import Fraction

import msgspec

from builder.plan.timetable import Timetable, timetable_of
from builder.quantities.quantity import read_quantity
from builder.quantities.units import Dimension
from builder.quantities.values import Quantity

MOST_BUILDERS = 24
"""Above this a plan prints a caution: what a science teachers' association advises for a class that does
laboratory work. It is advice, not a law; the place's own rules come first."""

MOST_BUILDERS_SOURCE = "guidance of a national science teachers' association on laboratory classes"

LARGEST = 10_000
"""More builders than this are taken for a slip of the finger."""

PAPERS = ("letter", "a4")

_PERCENT = re.compile(r"([0-9]{1,4}(?:\.[0-9]{1,3})?) ?%")
_KITS = re.compile(r"[0-9]{1,5}")


SETTINGS = ("builders", "spares", "paper", "adults", "period", "clearing", "days", "budget")
"""What a class's own file may say."""


class Spares(msgspec.Struct, frozen=True):
    """Spare kits: a share of the builders (1/10 for 10 %), rounded up, and so many kits on top."""

    share: Fraction = Fraction(0)
    kits: int = 0

    @property
    def typed(self) -> str:
        """As it would be typed: `10%`, `3`."""
        return self.text.replace(" ", "") if self.share else str(self.kits)

    @property
    def text(self) -> str:
        """`10 %`, `3 kits`, or nothing."""
        if self.share:
            percent = self.share * 100
            whole = str(percent.numerator) if percent.denominator == 1 else _decimal(percent)
            return f"{whole} %"
        return f"{self.kits} {'kit' if self.kits == 1 else 'kits'}" if self.kits else ""


class Class(msgspec.Struct, frozen=True):
    """The settings of a class. `builders` is at least 1; `paper` is a key of `PAPERS`; `adults` are the
    adults in the room, who wear the same protective gear. `timetable` says when it meets, `budget` what it
    may spend on materials; either may be unknown."""

    builders: int
    spares: Spares = Spares()
    paper: str = "letter"
    adults: int = 1
    timetable: Timetable | None = None
    budget: Quantity | None = None

    @property
    def sign(self) -> str:
        """All that it says, in one line."""
        budget = f"{self.budget.base} {self.budget.unit}" if self.budget is not None else ""
        return f"{self.builders} {self.spares.typed} {self.paper} {self.adults} {self.timetable} {budget}"

    @property
    def kits(self) -> int:
        """How many kits to buy and prepare for: the builders' and the spares, rounded up."""
        return rounded_up(self.builders * (1 + self.spares.share)) + self.spares.kits

    @property
    def crowded(self) -> bool:
        """Whether there are more builders than the advice allows."""
        return self.builders > MOST_BUILDERS

    def groups(self, size: int, of: int | None = None) -> int:
        """How many groups of `size` the builders (or `of`) make, the last one perhaps short; 1 for the
        whole class (`size` 0)."""
        number = self.builders if of is None else of
        return 1 if size == 0 else rounded_up(Fraction(number, size))


SHOWN = Class(24, Spares(share=Fraction(1, 10)))
"""The class that pages are counted for where nobody says for which."""


def rounded_up(x: Fraction | int) -> int:
    """The least whole number that is not below `x`. Exact: 50 + 10 % is 55, never 56."""
    exact = Fraction(x)
    return -(-exact.numerator // exact.denominator)


def _decimal(x: Fraction) -> str:
    """A fraction with at most three decimals, as typed."""
    thousandths = round(x * 1000)
    return f"{thousandths // 1000}.{thousandths % 1000:03d}".rstrip("0").rstrip(".")


def class_of(values: Mapping[str, str]) -> Class:
    """A class from the plain values of its file: `builders`, and perhaps the other `SETTINGS`.

    Errors: ValueError with words for a person.
    """
    unknown = [key for key in values if key not in SETTINGS]
    if unknown:
        raise ValueError(f'"{unknown[0]}" is no setting of a class: there are {", ".join(SETTINGS)}')
    builders = _number(values.get("builders", ""))
    if builders is None or not 1 <= builders <= LARGEST:
        raise ValueError(f"builders: write how many build, from 1 to {LARGEST}")
    spares = read_spares(values.get("spares", "0"))
    if spares is None:
        raise ValueError("spares: write a number of kits (3) or a share (10%)")
    paper = values.get("paper", "letter").lower()
    if paper not in PAPERS:
        raise ValueError(f"paper: write {' or '.join(PAPERS)}")
    adults = _number(values.get("adults", "1"))
    if adults is None or adults > LARGEST:
        raise ValueError("adults: write how many adults are in the room")
    timetable = timetable_of(*(values.get(key, "") for key in ("period", "clearing", "days")))
    return Class(builders, spares, paper, adults, timetable, _budget(values.get("budget", "")))


def _budget(text: str) -> Quantity | None:
    if not text.strip():
        return None
    read = read_quantity(text, Dimension.MONEY)
    if not isinstance(read, Quantity):
        raise ValueError("budget: write a sum with its currency, as in 150.00 USD")
    return read


def _number(text: str) -> int | None:
    return int(text) if _KITS.fullmatch(text.strip()) else None


def read_spares(text: str) -> Spares | None:
    """`10%`, `7.5 %` or `3` (kits) -> Spares; None for anything else, and for more than 1000 %."""
    text = text.strip()
    found = _PERCENT.fullmatch(text)
    if found:
        share = Fraction(found[1]) / 100
        return Spares(share=share) if share <= 10 else None
    return Spares(kits=int(text)) if _KITS.fullmatch(text) else None
