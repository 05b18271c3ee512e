"""All that a class needs for one route, gathered."""

from __future__ import annotations

from fractions import Fraction

import msgspec

from builder.dryrun.run import DryRun
from builder.guide.model import Guide
from builder.plan.materials import StockNeed, costs, materials
from builder.plan.periods import Periods, periods_for
from builder.plan.preparation import Preparing, preparation
from builder.plan.settings import Class
from builder.plan.times import Times, times
from builder.plan.tools import GearNeed, ToolNeed, gear, tools
from builder.plan.used import Used, used
from builder.quantities.values import Quantity


class ClassPlan(msgspec.Struct, frozen=True):
    """What a class needs for a route. `used` tells in which steps each thing is used; `cost` is one sum for
    each currency, of what has a price; `periods` is None if nothing is known of when the class meets."""

    group: Class
    used: Used
    materials: tuple[StockNeed, ...]
    tools: tuple[ToolNeed, ...]
    gear: tuple[GearNeed, ...]
    preparation: tuple[Preparing, ...]
    times: Times
    periods: Periods | None = None

    @property
    def cost(self) -> tuple[Quantity, ...]:
        """The cost of all whole packs that have a price."""
        return costs(self.materials)

    @property
    def unpriced(self) -> tuple[str, ...]:
        """Ids of the materials and bought parts whose price the guide does not state."""
        return tuple(row.thing for row in self.materials if row.cost is None)

    @property
    def preparing(self) -> Fraction:
        """Seconds of preparation in all."""
        return sum((row.seconds for row in self.preparation), Fraction(0))


def plan_for(guide: Guide, run: DryRun, group: Class) -> ClassPlan:
    """The plan of a class for one route. Pure; a fault of the guide leaves a row unknown, never an error."""
    things = used(guide, run)
    span = times(guide, run, group, things)
    return ClassPlan(
        group,
        things,
        materials(guide, run, group, things),
        tools(guide, run, group, things),
        gear(guide, group, things),
        preparation(guide, run, group),
        span,
        periods_for(guide, run, group, span),
    )
