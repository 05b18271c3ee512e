"""The plan of a class as rows: what to buy, tools by sharing, preparation, waits, queues."""

from __future__ import annotations

from fractions import Fraction

from builder.guide.model import Caution as Written
from builder.guide.model import Guide, Thing
from builder.guide.wording import name_of
from builder.pages.bench_words import listed
from builder.pages.book import Chapter
from builder.pages.cautions import caution_view
from builder.pages.chapter import makers, named_links, step_link
from builder.pages.class_views import (
    ClassView,
    ClassWait,
    MaterialsPage,
    PreparingRow,
    QueueRow,
    SpanRow,
)
from builder.pages.contexts import Caution, Link, MaterialsView, StockRow, ToolGroup, ToolRow
from builder.pages.kit import Uses, materials_view, part_rows, sharing_text, step_links, tool_row
from builder.pages.numbering import Numbered
from builder.pages.period_rows import periods_view
from builder.pages.pictures import Album
from builder.pages.sizes import size_text, units_of
from builder.pages.waits import elapsed, lengths, meanwhile, rounded, told_seconds
from builder.plan.class_plan import ClassPlan
from builder.plan.materials import StockNeed
from builder.plan.preparation import Preparing
from builder.plan.settings import MOST_BUILDERS, MOST_BUILDERS_SOURCE, Class
from builder.quantities.exact import Exact
from builder.quantities.show import show_time, tell
from builder.quantities.units import Dimension
from builder.quantities.values import Quantity
from builder.trade.words import plural


def settings_text(group: Class) -> str:
    """For which class the numbers are counted."""
    adults = f" and {_counted(group.adults, 'adult')}" if group.adults else ""
    spares = f", with {_spares(group)}" if group.kits > group.builders else ""
    return f"Counted for a class of {_counted(group.builders, 'builder')}{adults}{spares}."


def _spares(group: Class) -> str:
    """`10 % spares: 27 kits`, `2 spare kits: 26 kits`."""
    told = f"{group.spares.text} spares" if group.spares.share else _counted(group.spares.kits, "spare kit")
    return f"{told}: {group.kits} kits"


def uses_of_plan(chapter: Chapter, plan: ClassPlan) -> Uses:
    """The steps that use each thing, as the plan has them."""
    steps = {each.step.id: each for each in chapter.steps}
    return {name: tuple(steps[id] for id in ids if id in steps) for name, ids in plan.used.items()}


def materials_page(chapter: Chapter, page: str) -> MaterialsPage:
    """What one builder needs on a route, and what is bought for the class that the site is counted for."""
    plan = chapter.plan
    return MaterialsPage(
        one=materials_view(chapter.guide, uses_of_plan(chapter, plan), page, makers(chapter)),
        shopping=class_materials(chapter, plan, page),
        settings=settings_text(plan.group),
        advice=advice(plan),
        unpriced=unpriced(chapter.guide, plan),
        apart=Album(chapter).exploded(),
    )


def class_materials(chapter: Chapter, plan: ClassPlan, page: str = "") -> MaterialsView:
    """What to buy for the class, in whole packs where the guide says how it is sold."""
    guide, used = chapter.guide, uses_of_plan(chapter, plan)
    group = plan.group
    spares = f" and {_spares(group)}" if group.kits > group.builders else ""
    cost = ", ".join(tell(each, units_of(guide)) for each in plan.cost)
    return MaterialsView(
        scale=f"for {_counted(group.builders, 'builder')}{spares}",
        materials=tuple(_stock_row(need, guide, used, page) for need in plan.materials),
        parts=part_rows(guide, used, page, makers(chapter)),
        tools=class_tools(guide, plan, used, page),
        gear=class_gear(guide, plan, used, page),
        show_packs=True,
        total=cost,
    )


def unpriced(guide: Guide, plan: ClassPlan) -> str:
    """What has no price in the guide, so that the total is read right."""
    names = [guide.things[id].name for id in plan.unpriced]
    return f"The guide states no price for: {listed(names)}." if names else ""


def _counted(number: int, noun: str) -> str:
    return f"{number} {noun if number == 1 else plural(noun)}"


def _unit(thing: Thing) -> str:
    return {"sheet": "sheet", "tape": "roll"}.get(thing.form, "piece")


def _stock_row(need: StockNeed, guide: Guide, used: Uses, page: str) -> StockRow:
    thing = guide.things[need.thing]
    units = units_of(guide)
    measured = "amount" in thing.values
    counted = need.total is not None and need.total.dimension is Dimension.COUNT
    if need.total is None:
        amount, one = "", ""
    elif measured and not counted:
        amount, one = tell(need.total, units, typed=False), tell(need.each, units) if need.each else ""
    else:
        amount = _counted(need.units or 0, _unit(thing))
        one = _counted(int(need.each.base), _unit(thing)) if need.each is not None else ""
    return StockRow(
        name=thing.name,
        size=size_text(thing, units),
        amount=amount,
        packs=_to_buy(need, thing) or amount,
        cost=tell(need.cost, units) if need.cost is not None else "",
        note=_share(need, guide, one),
        steps=step_links(used.get(thing.id, ()), page),
    )


def _share(need: StockNeed, guide: Guide, one: str) -> str:
    """Who shares it, and how the pieces fit."""
    if need.builders == 0:
        told = "for the whole class"
    else:
        told = f"{one} for each kit" if need.builders == 1 else f"{one} for {need.builders} builders"
    if guide.things[need.thing].sort == "part":
        told = "bought" if guide.things[need.thing].words.get("source") == "bought" else "found"
    if need.fitted is None:
        return told
    gives = [f"{count} {name_of(guide.things[id], count)}" for id, count in need.fitted.from_first]
    return f"{told}, by how the pieces fit: the first {_unit(guide.things[need.thing])} gives {listed(gives)}"


def _to_buy(need: StockNeed, thing: Thing) -> str:
    if need.packs is None or need.pack is None:
        return ""
    if need.pack == 1:
        return _counted(need.packs, _unit(thing))
    left = f", {need.left} left over" if need.left else ""
    return f"{_counted(need.packs, 'pack')} of {need.pack}{left}"


def class_tools(guide: Guide, plan: ClassPlan, used: Uses, page: str = "") -> tuple[ToolGroup, ...]:
    """Tools by how they are shared, counted for the class."""
    groups: dict[int, list[ToolRow]] = {}
    for need in plan.tools:
        amount = f"{need.count}, printed" if need.printed else str(need.count)
        row = tool_row(guide.things[need.thing], guide, used, page, amount)
        groups.setdefault(need.builders, []).append(row)
    return tuple(ToolGroup(heading=sharing_text(shared), rows=tuple(rows)) for shared, rows in groups.items())


def class_gear(guide: Guide, plan: ClassPlan, used: Uses, page: str = "") -> tuple[ToolRow, ...]:
    """Protective gear for every builder and every adult."""
    group = plan.group
    who = f"{_counted(group.builders, 'builder')} and {_counted(group.adults, 'adult')}"
    return tuple(
        tool_row(guide.things[need.thing], guide, used, page, f"{need.count} ({who})") for need in plan.gear
    )


def class_view(chapter: Chapter, plan: ClassPlan, page: str = "") -> ClassView:
    """The tables of a class."""
    guide = chapter.guide
    steps = {each.step.id: each for each in chapter.steps}
    spans = [
        _span(each.stage.name, chapter.hands_on(each.steps), chapter.waits_in(each.steps))
        for each in chapter.stages
    ]
    builder_steps = chapter.builder_steps
    return ClassView(
        advice=advice(plan),
        spans=tuple(spans),
        whole=_span("In all", chapter.hands_on(builder_steps), chapter.waits_in(builder_steps)),
        preparing=tuple(_preparing(chapter, steps[row.step], row, page) for row in plan.preparation),
        preparing_time=rounded(plan.preparing) if plan.preparing else "",
        lay_out=lay_out(guide, plan),
        waits=_waits(chapter, plan, steps, page),
        queues=tuple(
            QueueRow(
                tool=f"{guide.things[each.tool].name}, one for {each.builders} builders"
                if each.builders
                else f"{guide.things[each.tool].name}, one for the class",
                steps=_from_to(steps[each.step], steps[each.last], page),
                turns=_counted(each.turns, "turn"),
                time=rounded(each.seconds),
            )
            for each in plan.times.queues
        ),
        unpriced=unpriced(guide, plan),
        periods=periods_view(chapter, plan, page),
        budget=budget_text(guide, plan),
    )


def budget_text(guide: Guide, plan: ClassPlan) -> str:
    """What the class may spend, against what the priced materials cost; empty if nobody says."""
    budget = plan.group.budget
    if budget is None:
        return ""
    units = units_of(guide)
    cost = next((each for each in plan.cost if each.unit == budget.unit), None)
    told = f"The class may spend {tell(budget, units)}"
    if cost is None:
        return f"{told}; the guide states no price in {budget.unit}."
    left = budget.base - cost.base
    over = "too little" if left < 0 else "left"
    rest = tell(Quantity(Exact.of(abs(left)), budget.dimension, budget.unit), units)
    return f"{told}, the materials that have a price cost {tell(cost, units)}: {rest} {over}."


def _from_to(first: Numbered, last: Numbered, page: str) -> tuple[Link, ...]:
    return step_links((first,) if first.number == last.number else (first, last), page)


def advice(plan: ClassPlan) -> tuple[Caution, ...]:
    """A caution for a class that is larger than is advised."""
    if not plan.group.crowded:
        return ()
    written = Written(
        "crowded",
        "caution",
        f"This class has {plan.group.builders} builders.",
        f"Accidents are more frequent in classes of more than {MOST_BUILDERS}.",
        "Divide the class, or have another adult in the room. Your local rules come first.",
        None,
        source=MOST_BUILDERS_SOURCE,
    )
    return (caution_view(written),)


def _span(name: str, hands_on: Fraction, waiting: list[Fraction]) -> SpanRow:
    return SpanRow(
        name=name,
        hands_on=rounded(hands_on),
        waiting=lengths(waiting) or "none",
        elapsed=elapsed(hands_on + sum(waiting)),
    )


def _preparing(chapter: Chapter, numbered: Numbered, row: Preparing, page: str) -> PreparingRow:
    guide = chapter.guide
    made = [f"{each.count} {name_of(guide.things[each.thing], each.count)}" for each in row.made]
    parts = []
    if row.set_up:
        parts.append(f"{show_time(row.set_up)} to set up")
    if row.each:
        parts.append(f"{row.number} times {show_time(row.each)}")
    makes = listed(made) if made else f"for {_counted(row.number, 'kit')}"
    return PreparingRow(
        step=step_link(chapter, numbered, page),
        makes=makes,
        how=" and ".join(parts),
        time=rounded(row.seconds) if row.seconds else "",
    )


def lay_out(guide: Guide, plan: ClassPlan) -> tuple[str, ...]:
    """What is laid out before the class: tools by how they are shared, gear for every person."""
    groups: dict[int, list[str]] = {}
    for need in plan.tools:
        if not need.printed:
            thing = guide.things[need.thing]
            each = f": {thing.count} each" if thing.count > 1 else ""
            groups.setdefault(need.builders, []).append(f"{thing.name} ({need.count}{each})")
    lines = [f"{sharing_text(shared)}: {listed(rows)}" for shared, rows in groups.items()]
    worn = [f"{guide.things[need.thing].name} ({need.count})" for need in plan.gear]
    if worn:
        lines.append(f"For every person in the room: {listed(worn)}")
    return tuple(lines)


def _waits(
    chapter: Chapter, plan: ClassPlan, steps: dict[str, Numbered], page: str
) -> tuple[ClassWait, ...]:
    actions = {action.path: action for each in chapter.builder_steps for action in each.step.each_action()}
    return tuple(
        ClassWait(
            step=step_link(chapter, steps[wait.step], page),
            what=chapter.telling.action(actions[wait.action]),
            length=show_time(told_seconds(wait, actions[wait.action], chapter.guide)),
            meanwhile=meanwhile(wait),
            first=named_links((steps[wait.first],), page)[0] if wait.first in steps else None,
            if_missed=chapter.telling.otherwise(actions[wait.action]),
        )
        for wait in plan.times.waits
    )
