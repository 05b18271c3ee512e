"""How long a wait is said to last: the label's whole time, not what the clock still lacks of it.

The dry run knows what is missing when a wait begins; a label says how long a joint or a coat takes from its
beginning. A builder is given the label's time: it is the one that stands on the bottle.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from builder.guide.model import Action, Guide

TIMES = {"set": ("set",), "dry": ("dry", "set"), "cured": ("full_cure",)}
"""The times of a label that a wait asks for, the first that is stated."""

ROUND = Fraction(5 * 60)
"""What no label says is rounded up to so many seconds."""


def told_wait(guide: Guide, action: Action, labels: Sequence[str], seconds: Fraction) -> Fraction:
    """The seconds that a reader is told: as typed, from the labels of what dries, or those of the clock
    rounded up."""
    if action.value("for") is not None:
        return seconds
    times = [_label_time(guide, label, action.word("until")) for label in labels]
    found = [time for time in times if time is not None]
    return max(found) if found else -(-seconds // ROUND) * ROUND


def _label_time(guide: Guide, label: str, until: str) -> Fraction | None:
    stated = (guide.things[label].mm(name) for name in TIMES.get(until, ()))
    return next((time for time in stated if time is not None), None)
