"""What the steps of an older revision are worth by now: which may be worked from, which must stop a class."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

import msgspec

from builder.revisions.change import Change, Field
from builder.revisions.compare import compare
from builder.revisions.desk import Desk
from builder.revisions.edition import Edition
from builder.revisions.match import matched


class Standing(msgspec.Struct, frozen=True):
    """`stops` are the changes that stop a class, by the older id of each step that they touch; those under
    an empty id touch the whole guide. `names` is the newer id of each step that was renamed."""

    stops: Mapping[str, tuple[Change, ...]]
    names: Mapping[str, str]

    def of(self, steps: Sequence[str]) -> tuple[Change, ...]:
        """The changes that stop a class which works on these steps of the older revision."""
        found = [*self.stops.get("", ()), *(change for step in steps for change in self.stops.get(step, ()))]
        return tuple(change for number, change in enumerate(found) if change not in found[:number])


def standing(old: Edition, new: Edition) -> Standing:
    """How an older edition stands against a newer one."""
    desk = Desk(old, new, matched(old.facts, new.facts))
    stops: dict[str, list[Change]] = {}
    for change in compare(old, new):
        if change.field is not Field.STOP:
            continue
        touched = {change.step} if change.step else set()
        touched |= {desk.back.get(("step", place.step), place.step) for place in change.places if place.step}
        for step in sorted(touched & set(old.steps)) or [""]:
            stops.setdefault(step, []).append(change)
    names = {id: name for (kind, id), name in desk.forth.items() if kind == "step"}
    return Standing({step: tuple(changes) for step, changes in stops.items()}, names)
