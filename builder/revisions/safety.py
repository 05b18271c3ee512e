"""Whether a change guards less or more against harm.

What weakens: a shorter wait, a lower signal word, gear taken away, a hotter or sharper tool, a younger age, a
caution that is taken away or no longer stands before its step, an adult who no longer helps, a joint that is
said to bear more than it is mature for. The opposite of each strengthens.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from fractions import Fraction

from builder.revisions.change import STRENGTHENED, WEAKENED
from builder.trade.hazards import hazard
from builder.trade.signals import LEVELS

UNTIL = ("dry", "set", "cured")  # what a wait may wait for, the shortest first


def of_hazards(old: Iterable[str], new: Iterable[str]) -> str:
    """The mark for what can hurt before and after: worse where a hazard is new that none of the old ones
    covers (a knife covers scissors), better where one is gone."""
    before, after = tuple(old), tuple(new)
    if uncovered_by(before, after):
        return WEAKENED
    return STRENGTHENED if uncovered_by(after, before) else ""


def uncovered_by(before: Iterable[str], after: Iterable[str]) -> tuple[str, ...]:
    """The hazards after that are not among those before, nor covered by one of them."""
    known = set(before)
    for key in tuple(known):
        row = hazard(key)
        known |= set(row.covers) if row is not None else set()
    return tuple(dict.fromkeys(key for key in after if key not in known))


def of_level(old: str, new: str) -> str:
    """The mark for a signal word: DANGER, WARNING, CAUTION, NOTICE."""
    ranks = [LEVELS.index(level) if level in LEVELS else len(LEVELS) for level in (old, new)]
    return of_amount(Fraction(-ranks[0]), Fraction(-ranks[1]))


def of_amount(old: Fraction | None, new: Fraction | None) -> str:
    """The mark for what guards the more, the more of it there is: a wait, an age."""
    if old is None or new is None or old == new:
        return ""
    return WEAKENED if new < old else STRENGTHENED


def of_list(old: str, new: str) -> str:
    """The mark for a list of what guards: gear."""
    before, after = _items(old), _items(new)
    if before - after:
        return WEAKENED
    return STRENGTHENED if after - before else ""


def _items(text: str) -> set[str]:
    return {item.strip() for item in text.split(",") if item.strip()}


def of_until(old: str, new: str) -> str:
    """The mark for what is waited for: cured is longer than set, and either longer than nothing."""
    ranks = [UNTIL.index(word) + 1 if word in UNTIL else 0 for word in (old, new)]
    return of_amount(Fraction(ranks[0]), Fraction(ranks[1]))


def of_who(old: str, new: str) -> str:
    """The mark for who does or helps with a step or handles a tool: nobody named is the builder alone."""
    ranks = [_hands(old), _hands(new)]
    return of_amount(Fraction(ranks[0]), Fraction(ranks[1]))


def _hands(who: str) -> int:
    """0 for the builder alone, 1 for an adult who helps, 2 for an adult or a teacher who does it."""
    words = set(re.findall("[a-z]+", who.lower()))
    if not words & {"adult", "teacher", "adults", "teachers", "helper"}:
        return 0
    return 1 if words & {"helps", "help", "helping", "watches", "beside", "helper"} else 2


def youngest(ages: str) -> Fraction | None:
    """The youngest age of `12-15`; None if none is told."""
    found = re.search("[0-9]+", ages)
    return Fraction(found[0]) if found else None


def of_window(old: object, new: object) -> str:
    """The mark for the times when the next coat may go on: allowed where it was not is the weaker."""
    before, after = _spans(old), _spans(new)
    if any(not _within(span, before) for span in after):
        return WEAKENED
    return STRENGTHENED if any(not _within(span, after) for span in before) else ""


Span = tuple[Fraction, Fraction | None]


def _spans(window: object) -> tuple[Span, ...]:
    return tuple(getattr(window, "allowed", ()))


def _within(span: Span, others: tuple[Span, ...]) -> bool:
    return any(
        low <= span[0] and (high is None or (span[1] is not None and span[1] <= high))
        for low, high in others
    )  # fmt: skip
