"""Drawings and pattern sheets as print takes them: images in one piece, each with its text alternative."""

from __future__ import annotations

import base64
import re
from functools import partial

import msgspec
from markupsafe import Markup

from builder.drawings.of_pattern import pattern_sheets
from builder.drawings.of_step import drawing_of
from builder.drawings.shapes import Drawing
from builder.guide.model import Step
from builder.packet.sizing import SCALE, WAITING, beside, best
from builder.pages.book import Chapter
from builder.pages.contexts import NONE, Paper, PatternSheet, Picture
from builder.pages.numbering import NumberedStage
from builder.pages.pictures import Album, drawn, sheet

OPENED, HELD = (104.0, 56.0), (84.0, 44.0)
"""What the drawings at the opening and at the end of a stage are made for."""

_HELD = re.compile(r' textLength="[^"]*" lengthAdjust="[^"]*"')
_SIZE = re.compile(r'width="([\d.]+)mm" height="([\d.]+)mm"')


class Drawn:
    """The drawings of a route for print. `folder` is the address of the guide's own pictures."""

    def __init__(self, chapter: Chapter, folder: str = "") -> None:
        self.album = Album(chapter, folder)
        self.folder = folder
        self.chapter = chapter
        self._numbered = {each.step.id: each for each in chapter.steps}
        self._of: dict[str, tuple[Picture, ...]] = {}

    def of(self, step: Step) -> tuple[Picture, ...]:
        """The drawing of a step, and its writer's picture; drawn once."""
        if step.id not in self._of:
            self._of[step.id] = self._drawn(step)
        return self._of[step.id]

    def _drawn(self, step: Step) -> tuple[Picture, ...]:
        found = []
        if frames := self.chapter.frames[step.id]:
            waits = all(action.path in self.chapter.waits for action in step.each_action())
            draw = partial(drawing_of, self.chapter.guide, frames, things=self.chapter.plan.used)
            drawing = (
                draw(WAITING) if waits else best(draw, self.chapter.writer.view(self._numbered[step.id]))
            )
            found.append(as_image(drawn(drawing, f"drawing-{step.id.replace('_', '-')}")))
        if step.picture is not None:
            found.append(Picture(src=self.folder + step.picture.file, alt=step.picture.alt))
        return tuple(found)

    def opened(self, stage: NumberedStage) -> tuple[Picture, ...]:
        """What goes where in a stage."""
        return tuple(as_image(picture) for picture in self.album.opened(stage, OPENED))

    def held(self, stage: NumberedStage) -> tuple[Picture, ...]:
        """What the builder has put together by the end of a stage: one picture, since paper costs, and none
        of the finished kit, which stands on the cover."""
        if stage.number == self.chapter.stages[-1].number:
            return ()
        return tuple(as_image(picture) for picture in self.album.held(stage, HELD)[:1])

    def finished(self) -> Picture | None:
        """The end product as it looks."""
        picture = self.album.finished()
        return as_image(picture) if picture is not None else None


def as_image(picture: Picture, scale: float = SCALE) -> Picture:
    """A drawing as an image of its own, which the layout engine lays out as one piece."""
    if not picture.svg:
        return picture

    size = _SIZE.search(picture.svg)
    assert size is not None, "every drawing states its size"
    width, height = (float(each) * scale for each in size.groups())
    svg = str(picture.svg).replace(size[0], f'width="{width:.2f}mm" height="{height:.2f}mm"', 1)
    return msgspec.structs.replace(
        picture, svg=NONE, src=_address(svg), width=f"{width:.2f}", beside=beside(width)
    )


def _address(svg: str) -> str:
    """A drawing as an address. The packet brings the font that the drawing was measured in, so that no text
    has to be held to its length, which the layout engine does letter by letter."""
    svg = _HELD.sub("", svg)
    return "data:image/svg+xml;base64," + base64.b64encode(svg.encode()).decode()


def pattern_drawings(chapter: Chapter, paper: Paper, *, prepared: bool) -> list[Drawing]:
    """The pattern sheets of a route: those that the preparation cuts along, or those of the builder."""
    made = {each.thing for row in chapter.plan.preparation for each in row.made}
    things = [id for id in chapter.plan.used if (id in made) == prepared]
    return pattern_sheets(chapter.guide, (chapter.run,), paper=paper, things=things)


def pattern_pages(chapter: Chapter, paper: Paper, *, prepared: bool) -> tuple[PatternSheet, ...]:
    """The same sheets, each as an image at true size."""
    drawings = pattern_drawings(chapter, paper, prepared=prepared)
    pages = []
    for number, drawing in enumerate(drawings, 1):
        name = drawing.title.partition(": ")[2] or drawing.title
        words = f"sheet {number} of {len(drawings)}"
        page = sheet(drawing, f"sheet-{number}", name[:1].upper() + name[1:], words)
        image = Markup('<img src="{}" alt="{}">').format(_address(page.svg), page.alt)
        pages.append(msgspec.structs.replace(page, svg=image))
    return tuple(pages)
