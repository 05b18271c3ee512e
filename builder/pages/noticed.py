"""What a dry run shows a reviewer that is no fault: waits with nothing to do, parts that go out of sight."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from builder.checks.notices import idle, out_of_sight
from builder.dryrun.work import thing_id
from builder.guide.model import Guide
from builder.pages.bench_words import listed
from builder.pages.book import Chapter
from builder.pages.contexts import Fact
from builder.quantities.exact import Exact
from builder.quantities.show import show_time
from builder.quantities.units import Dimension
from builder.quantities.values import Quantity

IDLE = "Waits without work of their own"
HIDDEN = "Parts that go out of sight, never verified since they were placed"


def noticed(chapters: Iterable[Chapter]) -> tuple[Fact, ...]:
    """The notices of all routes, each once; those that are not of every route name theirs."""
    known = tuple(chapters)
    rests: dict[str, list[str]] = {}
    hidden: dict[str, list[str]] = {}
    for chapter in known:
        numbers = {each.step.id: each.number for each in chapter.steps}
        titles = {each.step.id: chapter.telling.title(each.step) for each in chapter.steps}
        for rest in idle(chapter.guide, chapter.run):
            could = listed([f"step {numbers[step]}" for step in rest.could])
            told = (
                f"could be done meanwhile: {could}" if could else "nothing of the guide can be done meanwhile"
            )
            length = show_time(Quantity(Exact.of(rest.seconds), Dimension.TIME, "min"))
            text = f"{_step(rest.step, numbers, titles)}, {length}: {told}."
            rests.setdefault(text, []).append(chapter.name)
        for part in out_of_sight(chapter.guide, chapter.run):
            text = f"{_step(part.step, numbers, titles)}: the {_named(chapter.guide, part.item)}."
            hidden.setdefault(text, []).append(chapter.name)
    return (
        Fact(label=IDLE, value="" if rests else "None.", rows=_rows(rests, len(known))),
        Fact(label=HIDDEN, value="" if hidden else "None.", rows=_rows(hidden, len(known))),
    )


def _step(step: str, numbers: Mapping[str, str], titles: Mapping[str, str]) -> str:
    return f"Step {numbers[step]}, {titles[step]}"


def _named(guide: Guide, item: str) -> str:
    thing = guide.things[thing_id(item, guide)]
    copy = item.rpartition(" ")[2]
    return f"{thing.name} {copy}" if thing.count > 1 and copy.isdigit() else thing.name


def _rows(found: Mapping[str, list[str]], routes: int) -> tuple[str, ...]:
    return tuple(
        text if len(names) == routes else f"{text.removesuffix('.')} ({listed(names)})."
        for text, names in found.items()
    )
