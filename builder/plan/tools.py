"""Tools for a class: by how they are shared, who handles them, protective gear for every person."""

from __future__ import annotations

import msgspec

from builder.dryrun.run import DryRun
from builder.guide.model import Guide, Thing
from builder.plan.settings import Class
from builder.plan.used import Used


class ToolNeed(msgspec.Struct, frozen=True):
    """How many of a tool a class needs. `builders` share one (1: one each; 0: one for the class). `made_by`
    names who makes it beforehand, `who` who handles it; `printed` is cut out of the printed pattern."""

    thing: str
    builders: int
    count: int
    who: str = ""
    made_by: str = ""
    printed: bool = False


class GearNeed(msgspec.Struct, frozen=True):
    """Protective gear: one for every builder and every adult in the room."""

    thing: str
    count: int


def tools(guide: Guide, run: DryRun, group: Class, used: Used) -> tuple[ToolNeed, ...]:
    """Every tool that the route uses, without gear: one each first, the class's last, else as written.

    A tool that nobody says how to share is one for each builder; but one that only the preparation takes, or
    that the teacher handles, is one for the class.
    """
    prepared = {step.id for step in run.route.steps if step.stage.per_class}
    rows = []
    for thing in guide.things.values():
        if thing.sort != "tool" or thing.form == "gear" or thing.id not in used:
            continue
        builders = sharing(thing, only_prepared=set(used[thing.id]) <= prepared)
        rows.append(ToolNeed(
            thing.id, builders, thing.count * group.groups(builders), thing.words.get("who", ""),
            thing.words.get("made_by", ""), thing.words.get("printed") == "yes",
        ))  # fmt: skip
    return tuple(sorted(rows, key=lambda row: (row.builders == 0, row.builders)))


def sharing(thing: Thing, *, only_prepared: bool) -> int:
    """How many builders share one of a tool; 0 for the whole class."""
    if thing.share is not None:
        return thing.share.builders
    return 0 if only_prepared or thing.words.get("who") == "teacher" else 1


def gear(guide: Guide, group: Class, used: Used) -> tuple[GearNeed, ...]:
    """The protective gear that the route's cautions ask for."""
    return tuple(
        GearNeed(thing.id, thing.count * (group.builders + group.adults))
        for thing in guide.things.values()
        if thing.sort == "tool" and thing.form == "gear" and thing.id in used
    )
