"""Drawings as the pages take them: SVG of a step, with its text alternative; pattern sheets at true size."""

from __future__ import annotations

from markupsafe import Markup

from builder.drawings.of_stage import assembled, held, whole
from builder.drawings.shapes import Drawing
from builder.drawings.svg import number, write
from builder.guide.model import Step
from builder.pages.bench_words import carrier
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

    def held(self, stage: NumberedStage) -> tuple[Picture, ...]:
        """What the builder has put together by the end of a stage: what the stage changed, or else all."""
        frames = [frame for each in stage.steps for frame in self.chapter.frames[each.step.id]]
        if not frames:
            return ()
        before, bench = frames[0].before, frames[-1].after
        roots = assembled(self.chapter.guide, bench)
        changed = [root for root in roots if bench.below(root) != before.below(root)]
        title = f"At the end of stage {stage.number}"
        made = held(self.chapter.guide, bench, changed or roots, title, stage.stage.lying)
        return tuple(drawn(each, f"held-{stage.number}-{n}") for n, each in enumerate(made, 1))

    def made(self, stage: NumberedStage) -> Picture | None:
        """What a stage makes, as it looks at its end; nothing where it makes no sub-assembly."""
        guide = self.chapter.guide
        thing = guide.things.get(stage.stage.makes)
        frames = self.chapter.frames[stage.steps[-1].step.id]
        if thing is None or not frames or carrier(thing) not in frames[-1].after.items:
            return None
        bench = frames[-1].after
        drawing = whole(guide, bench, bench.root(carrier(thing)), f"The {thing.name}")
        return drawn(drawing, f"makes-{stage.number}") if drawing is not None else None

    def finished(self) -> Picture | None:
        """The end product as it looks."""
        guide, bench = self.chapter.guide, self.chapter.run.end
        if guide.finished is None:
            return None
        root = carrier(guide.things[guide.finished.what.id])
        if root not in bench.items:
            return None
        drawing = whole(guide, bench, bench.root(root), guide.title)
        return drawn(drawing, f"finished-{guide.id}") if drawing is not None else None


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
