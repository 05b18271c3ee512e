"""What the teacher makes before the class: how many of each, and how long it takes."""

from __future__ import annotations

from fractions import Fraction

import msgspec

from builder.dryrun.effects import Make
from builder.dryrun.run import DryRun
from builder.guide.model import Guide
from builder.plan.materials import made_for
from builder.plan.settings import Class

ZERO = Fraction(0)


class Made(msgspec.Struct, frozen=True):
    """So many of a thing are made."""

    thing: str
    count: int


class Preparing(msgspec.Struct, frozen=True):
    """One step of preparation. `seconds` = set_up + each x number; `number` is what is made in it, or the
    kits where nothing is made."""

    step: str
    set_up: Fraction
    each: Fraction
    number: int
    made: tuple[Made, ...]

    @property
    def seconds(self) -> Fraction:
        """All of it."""
        return self.set_up + self.each * self.number


def preparation(guide: Guide, run: DryRun, group: Class) -> tuple[Preparing, ...]:
    """The steps of preparation of a route, in the order in which they are done.

    A part is made once for each kit, spares among them; a tool once for each group that shares it.
    """
    rows = []
    for step in run.route.steps:
        if not step.stage.per_class:
            continue
        counts: dict[str, int] = {}
        for frame in run.of_step(step.id):
            for effect in frame.effects:
                if isinstance(effect, Make):
                    counts[effect.item.thing] = counts.get(effect.item.thing, 0) + 1
        made = tuple(
            Made(name, number * made_for(guide.things[name], group, group.kits))
            for name, number in counts.items()
        )
        number = sum(each.count for each in made) or group.kits
        rows.append(Preparing(step.id, _seconds(step.set_up), _seconds(step.time), number, made))
    return tuple(rows)


def _seconds(value: object) -> Fraction:
    base = getattr(value, "base", None)
    return base if isinstance(base, Fraction) else ZERO
