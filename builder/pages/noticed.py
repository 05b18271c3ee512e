"""What a dry run shows a reviewer that is no fault: waits with nothing to do, parts that go out of sight."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

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
    """The notices of every route, each route by itself, since its steps have numbers of their own."""
    return tuple(fact for chapter in chapters for fact in _of_route(chapter))


def _of_route(chapter: Chapter) -> Iterator[Fact]:
    numbers = {each.step.id: each.number for each in chapter.steps}
    titles = {each.step.id: chapter.telling.title(each.step) for each in chapter.steps}
    rests = []
    for rest in idle(chapter.guide, chapter.run):
        could = listed([numbers[step] for step in rest.could])
        steps = "step" if len(rest.could) == 1 else "steps"
        told = f"Meanwhile: {steps} {could}." if could else "Nothing of the guide can be done meanwhile."
        length = show_time(Quantity(Exact.of(rest.seconds), Dimension.TIME, "min"))
        rests.append(f"{_step(rest.step, numbers, titles)}, {length}. {told}")
    hidden = [
        f"{_step(part.step, numbers, titles)}: the {_named(chapter.guide, part.item)}."
        for part in out_of_sight(chapter.guide, chapter.run)
    ]
    where = f", {chapter.name}" if chapter.name else ""
    yield Fact(label=f"{IDLE}{where}", value="" if rests else "None.", rows=tuple(rests))
    yield Fact(label=f"{HIDDEN}{where}", value="" if hidden else "None.", rows=tuple(hidden))


def _step(step: str, numbers: Mapping[str, str], titles: Mapping[str, str]) -> str:
    return f"Step {numbers[step]}, {titles[step]}"


def _named(guide: Guide, item: str) -> str:
    thing = guide.things[thing_id(item, guide)]
    copy = item.rpartition(" ")[2]
    return f"{thing.name} {copy}" if thing.count > 1 and copy.isdigit() else thing.name
