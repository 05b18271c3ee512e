"""Materials, parts and tools of a route as rows: for one builder, or for a class when a plan is given."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from builder.drawings.letters import letters_of
from builder.guide.model import Guide, Thing
from builder.pages.contexts import Link, MaterialsView, PartRow, StockRow, ToolGroup, ToolRow
from builder.pages.numbering import Numbered
from builder.pages.sizes import size_text, units_of, value_text
from builder.pages.website import way
from builder.plan.tools import sharing
from builder.trade.words import plural

Uses = Mapping[str, tuple[Numbered, ...]]


def step_links(steps: Iterable[Numbered], page: str) -> tuple[Link, ...]:
    """Links to steps by their numbers; without an address when there is no page to stand on."""
    return tuple(
        Link(text=each.number, href=way(each.path, page) if page else f"#{each.anchor}") for each in steps
    )


def amount_text(thing: Thing, guide: Guide) -> str:
    """How much of a material one builder uses."""
    value = thing.values.get("amount")
    if value is not None:
        return value_text(value, units_of(guide))
    unit = {"sheet": "sheet", "tape": "roll"}.get(thing.form, "piece")
    return f"{thing.count} {unit if thing.count == 1 else plural(unit)}"


def per_text(thing: Thing) -> str:
    """Who shares a material: empty for one builder."""
    if thing.share is None or thing.share.builders == 1:
        return ""
    return "for the class" if thing.share.builders == 0 else f"for {thing.share.builders} builders"


def stock_rows(guide: Guide, used: Uses, page: str) -> tuple[StockRow, ...]:
    """Materials that this route uses, in the order of the guide."""
    return tuple(
        StockRow(
            name=thing.name,
            size=size_text(thing, units_of(guide)),
            amount=" ".join(filter(None, (amount_text(thing, guide), per_text(thing)))),
            steps=step_links(used[thing.id], page),
        )
        for thing in guide.things.values()
        if thing.sort == "material" and thing.id in used
    )


def source_text(thing: Thing, made: Mapping[str, Numbered]) -> str:
    """Where a part comes from: bought, made in a step or in the preparation."""
    first = made.get(thing.id)
    if thing.words.get("source") or first is None:
        return thing.words.get("source", "")
    where = "step" if first.number.isdigit() else "preparation"
    return f"made in {where} {first.number}"


def part_rows(guide: Guide, used: Uses, page: str, made: Mapping[str, Numbered]) -> tuple[PartRow, ...]:
    """Parts that this route makes or uses."""
    letters = letters_of(guide)
    return tuple(
        PartRow(
            letter=letters.get(thing.id, ""),
            name=thing.name,
            count=str(thing.count),
            size=", ".join(filter(None, (size_text(thing, units_of(guide)), thing.words.get("told_by")))),
            source=source_text(thing, made),
            steps=step_links(used[thing.id], page),
        )
        for thing in guide.things.values()
        if thing.sort == "part" and not thing.blank_of and thing.id in used
    )


def sharing_text(builders: int) -> str:
    """The heading of tools that are shared alike."""
    if builders == 0:
        return "One for the class"
    return "One for each builder" if builders == 1 else f"One for {builders} builders"


def tool_row(thing: Thing, guide: Guide, used: Uses, page: str, amount: str) -> ToolRow:
    """A tool with its size, who handles it, and where it is used."""
    notes = [size_text(thing, units_of(guide))]
    if thing.words.get("made_by"):
        notes.append(f"made by the {thing.words['made_by']}")
    if thing.words.get("printed"):
        notes.append("cut out of the printed pattern")
    who = thing.words.get("who", "")
    if who.endswith(" helps"):
        notes.append(f"used with an {who.removesuffix(' helps')} beside you" if who == "adult helps" else who)
    elif who:
        notes.append(f"handled by the {who}")
    return ToolRow(
        name=thing.name,
        amount=amount,
        note=", ".join(filter(None, notes)),
        steps=step_links(used[thing.id], page),
    )


def tool_groups(guide: Guide, used: Uses, page: str, counts: Mapping[str, str]) -> tuple[ToolGroup, ...]:
    """Tools by how they are shared: one each first, the class's last. `counts` are amounts for a class."""
    shares: dict[int, list[ToolRow]] = {}
    for thing in guide.things.values():
        if thing.sort == "tool" and thing.form != "gear" and thing.id in used:
            prepared = all(numbered.step.stage.per_class for numbered in used[thing.id])
            builders = sharing(thing, only_prepared=prepared)
            row = tool_row(thing, guide, used, page, counts.get(thing.id, str(thing.count)))
            shares.setdefault(builders, []).append(row)
    order = sorted(shares, key=lambda builders: (builders == 0, builders))
    return tuple(
        ToolGroup(heading=sharing_text(builders), rows=tuple(shares[builders])) for builders in order
    )


def gear_rows(guide: Guide, used: Uses, page: str, counts: Mapping[str, str]) -> tuple[ToolRow, ...]:
    """Protective gear, which each person at a hazard wears."""
    return tuple(
        tool_row(thing, guide, used, page, counts.get(thing.id, "1 each"))
        for thing in guide.things.values()
        if thing.sort == "tool" and thing.form == "gear" and thing.id in used
    )


def materials_view(guide: Guide, used: Uses, page: str, made: Mapping[str, Numbered]) -> MaterialsView:
    """What one builder needs on a route. `made` is the step that makes each part, by its id."""
    return MaterialsView(
        scale="for one builder",
        materials=stock_rows(guide, used, page),
        parts=part_rows(guide, used, page, made),
        tools=tool_groups(guide, used, page, {}),
        gear=gear_rows(guide, used, page, {}),
    )
