"""Signal words of cautions, by ANSI Z535.4.

DANGER will, WARNING could cause death or serious injury; CAUTION could cause minor or moderate injury; NOTICE
is for property alone and carries no alert symbol.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import Literal

Level = Literal["danger", "warning", "caution", "notice"]

LEVELS: tuple[Level, ...] = ("danger", "warning", "caution", "notice")
"""Most severe first."""

SIGNAL_WORD: dict[Level, str] = {
    "danger": "DANGER",
    "warning": "WARNING",
    "caution": "CAUTION",
    "notice": "NOTICE",
}

SIGNAL_COLOUR: dict[Level, str] = {
    "danger": "red",
    "warning": "orange",
    "caution": "yellow",
    "notice": "blue",
}
"""Panel colours of ANSI Z535.4, by name; the colour never stands without the word."""

SIGNAL_SOURCES = ("z535_4", "z535_6", "procedure_writing")


def worst(levels: Iterable[Level]) -> Level | None:
    """The most severe of these levels: the signal word of a block that groups several; None of none."""
    given = tuple(levels)
    return next((level for level in LEVELS if level in given), None)


def alert_symbol(level: Level) -> bool:
    """Whether the alert symbol stands beside the word: with every level of injury, never with NOTICE."""
    return level != "notice"
