"""Waits as a reader meets them: how long, where that comes from, what may not happen meanwhile."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from fractions import Fraction

from builder.guide.model import Action, Guide
from builder.plan.times import Wait
from builder.plan.told_wait import told_wait
from builder.quantities.show import show_time

DAY = Fraction(24 * 3600)

MEANWHILE = {
    "set": "Until then, put nothing on the work, and do not push or pull it.",
    "cured": "Until then, do not sand, drill, pull or paint the work.",
    "dry": "Until then, put no other coat on the paint.",
}
"""What the work does not bear until then, in a builder's words."""


def told_seconds(wait: Wait, action: Action, guide: Guide) -> Fraction:
    """The seconds that a page prints for a wait."""
    return told_wait(guide, action, wait.labels, wait.seconds)


def source_text(wait: Wait, action: Action, guide: Guide) -> str:
    """Where the length of a wait comes from: the labels of what dries, or nothing if it was typed."""
    if action.value("for") is not None or not wait.labels:
        return ""
    names = " and the ".join(guide.things[label].name for label in wait.labels)
    return f"The time is from the label of the {names}. Your own label comes first."


def meanwhile(wait: Wait) -> str:
    """What may not be done meanwhile; empty if nothing is barred."""
    return MEANWHILE.get(wait.until, "") if wait.barred else ""


def lengths(seconds: Iterable[Fraction]) -> str:
    """`2 of 30 min, 1 of 24 h`: how many waits there are of each length, the shortest first."""
    counts = sorted(Counter(seconds).items())
    return ", ".join(f"{number} of {show_time(each)}" for each, number in counts)


def elapsed(seconds: Fraction) -> str:
    """A long time in days and hours, a short one to the minute, always rounded up."""
    if seconds < 2 * DAY:
        return rounded(seconds)
    hours = -(-seconds // 3600)
    days, rest = divmod(hours, 24)
    return f"{days} days {rest} h" if rest else f"{days} days"


def rounded(seconds: Fraction) -> str:
    """A time as a plan shows it: whole minutes, rounded up. What takes less than one is told in seconds."""
    return show_time(-(-seconds // 60) * 60 if seconds > 60 else seconds, up=True)
