"""The periods of a class as rows: what is done in each, what rests at its end."""

from __future__ import annotations

from collections.abc import Mapping

from builder.pages.bench_words import listed
from builder.pages.book import Chapter
from builder.pages.chapter import step_link
from builder.pages.class_views import PeriodRow, PeriodsView
from builder.pages.contexts import Link
from builder.pages.numbering import Numbered
from builder.pages.waits import rounded
from builder.plan.class_plan import ClassPlan
from builder.plan.periods import Entry, Period, Periods, Resting
from builder.plan.timetable import DAYS

RECKONED = (
    "The class works in the written order, and while it waits does what leaves the drying work alone. Where "
    "builders share a tool, all have had their turns before the class goes on. The order was carried out on "
    "paper with its nights."
)


def periods_view(chapter: Chapter, plan: ClassPlan, page: str) -> PeriodsView | None:
    """The table; None if nobody says when the class meets."""
    found = plan.periods
    if found is None:
        return None
    steps = {each.step.id: each for each in chapter.steps}
    return PeriodsView(
        told=f"{_meets(found)} {RECKONED}",
        least=_least(found),
        rows=tuple(_row(chapter, each, steps, page) for each in found.periods),
        trouble=_trouble(found, steps, chapter),
    )


def _meets(found: Periods) -> str:
    table = found.timetable
    days = listed([DAYS[place] for place in table.days])
    away = f", {rounded(table.clearing)} of it to hand out and put away" if table.clearing else ""
    return f"Periods of {rounded(table.period)} on {days}{away}."


def _least(found: Periods) -> str:
    count = len(found.periods)
    if found.trouble:
        return ""
    told = f"{count} period{'s' if count != 1 else ''}."
    if found.proven:
        return f"{told} Fewer is impossible: the work alone fills {found.least}."
    return (
        f"{told} The work alone needs {found.least}; whether drying lets it be done in fewer was not tried."
    )


def _trouble(found: Periods, steps: dict[str, Numbered], chapter: Chapter) -> str:
    if not found.trouble:
        return ""
    numbered = steps[found.trouble]
    name = f"Step {numbered.number}, {chapter.telling.title(numbered.step)},"
    if found.too_long:
        return f"There is no plan: {name} takes longer than a period."
    if found.last:
        last = steps[found.last]
        title = chapter.telling.title(last.step)
        takes = f"{name} and those up to step {last.number}, {title}, take"
        takes = f"{name[:-1]} takes" if last == numbered else takes
        usable = rounded(found.timetable.usable)
        return (
            f"There is no plan beyond these periods: {takes} {rounded(found.together)} with its waits, and "
            f"the work cannot be put away before. A period has {usable} of work."
        )
    return f"There is no plan beyond these periods: {name} cannot be begun after them."


def _row(chapter: Chapter, period: Period, steps: dict[str, Numbered], page: str) -> PeriodRow:
    done = [each for each in period.entries if each.seconds or each.waited]
    return PeriodRow(
        number=str(period.number),
        day=period.day,
        steps=tuple(_entry(chapter, each, steps, page) for each in done),
        time=rounded(period.seconds) if period.seconds else "",
        rests=tuple(_rest(chapter, each, steps[each.step], page) for each in period.resting),
    )


def _entry(chapter: Chapter, entry: Entry, steps: Mapping[str, Numbered], page: str) -> Link:
    numbered, numbers = steps[entry.step], {id: each.number for id, each in steps.items()}
    told = []
    if entry.seconds:
        told.append(rounded(entry.seconds))
    if entry.last:
        told.append(f"a turn for others (one of {entry.of}), through to step {numbers[entry.last]}")
    elif entry.of > 1:
        told.append(
            f"all {entry.of} turns" if entry.turns == entry.of else f"{entry.turns} of {entry.of} turns"
        )
    if entry.waited:
        told.append(f"waiting {rounded(entry.waited)}")
    link = step_link(chapter, numbered, page)
    return Link(text=link.text, href=link.href, note=", ".join(told))


def _rest(chapter: Chapter, resting: Resting, numbered: Numbered, page: str) -> Link:
    link = step_link(chapter, numbered, page)
    return Link(text=link.text, href=link.href, note=f"{rounded(resting.seconds)} still")
