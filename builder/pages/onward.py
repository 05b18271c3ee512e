"""From the steps of an older revision to the same steps of a newer one."""

from __future__ import annotations

from builder.guide.model import Step
from builder.pages.book import Book, Chapter
from builder.pages.contexts import Link, Now
from builder.pages.numbering import Numbered, NumberedStage
from builder.pages.website import overview_path, way
from builder.revisions.standing import Standing


class Onward:
    """Ways from the steps of `old` to those of `new`, the newer revision, whose number is `number`."""

    def __init__(self, old: Book, new: Book, number: int, stands: Standing) -> None:
        self.old, self.new, self.number, self.stands = old, new, number, stands

    def chapter(self, chapter: Chapter) -> Chapter:
        """The same route; the first one if there is no such route any more."""
        options = dict(chapter.route.options)
        same = (each for each in self.new.chapters if dict(each.route.options) == options)
        return next(same, self.new.chapters[0])

    def numbered(self, chapter: Chapter, step: str) -> Numbered | None:
        """The step as it is now, on the same route if it is there; None if no route has it."""
        id = self.stands.names.get(step, step)
        first = self.chapter(chapter)
        for each in (first, *self.new.chapters):
            for numbered in each.steps:
                if numbered.step.id == id:
                    return numbered
        return None

    def now(self, chapter: Chapter, step: Step, page: str) -> Now:
        """What stands before a step of the older revision."""
        told = f"In revision {self.number}, the current one, this is"
        found = self.numbered(chapter, step.id)
        if found is not None:
            title = self._chapter_of(found).telling.title(found.step)
            link = Link(text=f"step {found.number}: {title}", href=way(found.path, page))
        else:
            told = f"Revision {self.number}, the current one, does not have this step: see"
            link = self.stage_of(chapter, step, page)
        newer = self._chapter_of(found).telling.title(found.step) if found is not None else ""
        titles = (newer, chapter.telling.title(step))
        stops = tuple(under_it(change.line, titles) for change in self.stands.stops.get(step.id, ()))
        return Now(text=told, link=link, stops=stops)

    def stage_of(self, chapter: Chapter, step: Step, page: str) -> Link:
        """The stage of the newer revision that took a step's place: that of the same name, or the one of the
        nearest step before it that is still there."""
        newer = self.chapter(chapter)
        named = next((each for each in newer.stages if each.stage.name == step.stage.name), None)
        if named is None:
            ids = [each.step.id for each in chapter.steps]
            before = reversed(ids[: ids.index(step.id)]) if step.id in ids else iter(())
            there = (self.numbered(chapter, id) for id in before)
            last = next((each for each in there if each is not None), None)
            named = self._stage(newer, last) if last is not None else None
        if named is None:
            return Link(text="the overview", href=way(overview_path(self.new.guide), page))
        return Link(text=f"stage {named.number}: {named.stage.name}", href=way(named.page, page))

    def stage(self, chapter: Chapter, stage: NumberedStage) -> tuple[str, str]:
        """Text and path of the stage that stands for a whole page of steps."""
        found = self.numbered(chapter, stage.steps[0].step.id)
        if found is not None and (newer := self._stage(self._chapter_of(found), found)) is not None:
            return f"Stage {newer.number} of revision {self.number}: {newer.stage.name}", newer.page
        return f"The overview of revision {self.number}", overview_path(self.new.guide)

    def _chapter_of(self, numbered: Numbered) -> Chapter:
        return next(each for each in self.new.chapters if numbered in each.steps)

    @staticmethod
    def _stage(chapter: Chapter, numbered: Numbered) -> NumberedStage | None:
        return next((each for each in chapter.stages if numbered in each.steps), None)


def under_it(line: str, titles: tuple[str, ...]) -> str:
    """What changed at a step, as it is told under the step itself: without its number, which is another one
    on this page and on each route, and without its title."""
    for title in filter(None, titles):
        name, found, rest = line.partition(f", {title}: ")
        if found and name.startswith("Step "):
            return rest[:1].upper() + rest[1:]
    return line
