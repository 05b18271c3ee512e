"""Drawings as the pages take them: SVG of a step, with its text alternative; pattern sheets at true size."""

from __future__ import annotations

from itertools import takewhile

import msgspec
from markupsafe import Markup

from builder.drawings.leaders import TALL
from builder.drawings.of_exploded import SIZE as OPENED_SIZE
from builder.drawings.of_exploded import exploded, of_stage
from builder.drawings.of_stage import SIZE as HELD_SIZE
from builder.drawings.of_stage import assembled, held, whole
from builder.drawings.shapes import Drawing
from builder.drawings.svg import number, write
from builder.drawings.table_strip import PAGE, Place, strip
from builder.dryrun.bench import Bench
from builder.guide.model import Step
from builder.pages.bench_words import assemblies, carrier
from builder.pages.book import Chapter
from builder.pages.contexts import PatternSheet, Picture
from builder.pages.numbering import NumberedStage


class Album:
    """The drawings of one route. `place` leads from a page to the folder of the guide's own pictures."""

    def __init__(self, chapter: Chapter, place: str = "") -> None:
        self.chapter = chapter
        self.place = place

    def of(self, step: Step) -> tuple[Picture, ...]:
        """The computed drawing of a step, and the picture that its writer brought."""
        found = []
        drawing = self.chapter.drawings.get(step.id)
        if drawing is not None:
            found.append(drawn(drawing, f"drawing-{step.id.replace('_', '-')}"))
        if step.picture is not None:
            found.append(Picture(src=self.place + step.picture.file, alt=step.picture.alt))
        return tuple(found)

    def held(self, stage: NumberedStage, size: tuple[float, float] = HELD_SIZE) -> tuple[Picture, ...]:
        """What the builder has put together by the end of a stage: what the stage changed, or else all.
        `size` is what each drawing is made for, mm."""
        work = self._work(stage)
        if work is None:
            return ()
        before, bench, roots = work
        guide, title = self.chapter.guide, f"At the end of stage {stage.number}"
        made = held(guide, bench, roots or assembled(guide, bench), title, stage.stage.lying, before, size)
        return tuple(drawn(each, f"held-{stage.number}-{n}") for n, each in enumerate(made, 1))

    def opened(self, stage: NumberedStage, size: tuple[float, float] = OPENED_SIZE) -> tuple[Picture, ...]:
        """What goes where in a stage: its parts pulled apart, or those that it makes. `size` as in `held`."""
        work = self._work(stage)
        if work is None:
            return ()
        before, bench, roots = work
        title = f"What goes where in stage {stage.number}"
        made = of_stage(self.chapter.guide, before, bench, roots, title, stage.stage.lying, size)
        return tuple(drawn(each, f"opens-{stage.number}-{n}") for n, each in enumerate(made, 1))

    def strips(self, step: Step, place: Place = PAGE) -> tuple[Drawing | None, Drawing | None]:
        """What lies on the table before and after a step; None where nothing does."""
        frames = self.chapter.frames[step.id]
        if not frames:
            return None, None
        guide, before, after = self.chapter.guide, frames[0].before, frames[-1].after
        earlier = takewhile(lambda stage: all(s.step.id != step.id for s in stage.steps), self.chapter.stages)
        known = assemblies(guide, (stage.stage for stage in earlier))
        names = {id: thing.name for id, thing in known.items()}
        first = strip(guide, before, before, "Before this step", names, place)
        return first, strip(guide, before, after, "After this step", names, place)

    def table(self, step: Step) -> tuple[Picture, ...]:
        """What lies on the table before and after a step; once where the step leaves it as it is."""
        first, last = self.strips(step)
        name = step.id.replace("_", "-")
        if first is not None and last is not None and first.shapes == last.shapes:
            both = last._replace(alt=f"Before and after this step. {last.alt}")
            picture = drawn(both, f"table-{name}")
            return (msgspec.structs.replace(picture, caption="Before and after this step"),)
        found = []
        for drawing, when in ((first, "Before"), (last, "After")):
            if drawing is not None:
                told = drawing._replace(alt=f"{when} this step. {drawing.alt}")
                picture = drawn(told, f"table-{when.lower()}-{name}")
                found.append(msgspec.structs.replace(picture, caption=f"{when} this step"))
        return tuple(found)

    def _work(self, stage: NumberedStage) -> tuple[Bench, Bench, list[str]] | None:
        """The bench before and after a stage, and the roots of the assemblies that it changes."""
        frames = [frame for each in stage.steps for frame in self.chapter.frames[each.step.id]]
        if not frames:
            return None
        before, bench = frames[0].before, frames[-1].after
        roots = assembled(self.chapter.guide, bench)
        return before, bench, [root for root in roots if bench.below(root) != before.below(root)]

    def finished(self, size: tuple[float, float] = HELD_SIZE, tallest: float = TALL) -> Picture | None:
        """The end product as it looks. `size` as in `held`; with its names it is `tallest` mm high at most,
        if they find room beside it."""
        root = self._kit()
        guide, bench = self.chapter.guide, self.chapter.run.end
        drawing = whole(guide, bench, root, guide.title, size=size, tallest=tallest) if root else None
        return drawn(drawing, f"finished-{guide.id.replace('/', '-')}") if drawing is not None else None

    def exploded(self) -> Picture | None:
        """The end product pulled apart, with the letters of the parts table."""
        root = self._kit()
        guide, bench = self.chapter.guide, self.chapter.run.end
        drawing = exploded(guide, bench, root, f"{guide.title}, pulled apart") if root else None
        return drawn(drawing, f"exploded-{guide.id.replace('/', '-')}") if drawing is not None else None

    def _kit(self) -> str:
        """What carries the end product; empty if there is none."""
        guide, bench = self.chapter.guide, self.chapter.run.end
        if guide.finished is None:
            return ""
        root = carrier(guide.things[guide.finished.what.id])
        return bench.root(root) if root in bench.items else ""


def drawn(drawing: Drawing, prefix: str) -> Picture:
    """A drawing with its text alternative, which is also the title that a tagged PDF reads out."""
    return Picture(
        svg=Markup(write(drawing._replace(title=drawing.alt), prefix)),
        width=number(drawing.width),
        alt=drawing.alt,
    )


def sheet(drawing: Drawing, prefix: str, name: str, words: str, note: str = "") -> PatternSheet:
    """A pattern sheet at true size."""
    return PatternSheet(
        id=prefix,
        name=name,
        sheet=words,
        svg=Markup(write(drawing._replace(title=drawing.alt), f"{prefix}-drawing")),
        width=number(drawing.width),
        height=number(drawing.height),
        alt=drawing.alt,
        note=note,
    )
