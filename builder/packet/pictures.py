"""Drawings and pattern sheets as print takes them: images in one piece, each with its text alternative."""

from __future__ import annotations

import base64
import re
from collections.abc import Collection, Sequence
from functools import partial
from typing import NamedTuple

import msgspec
from markupsafe import Markup

from builder.drawings.gauges import cut_things, gauge_sheets, is_cut
from builder.drawings.of_pattern import pattern_sheets
from builder.drawings.of_step import drawing_of
from builder.drawings.of_table import own_run
from builder.drawings.shapes import Drawing
from builder.drawings.table_strip import PRINT
from builder.dryrun.run import Frame
from builder.guide.model import Guide, Step
from builder.packet.sizing import SCALE, WAITING, Place, beside, best
from builder.pages.book import Chapter
from builder.pages.contexts import NONE, Paper, PatternSheet, Picture
from builder.pages.numbering import Numbered, NumberedStage
from builder.pages.pictures import Album, drawn, sheet

OPENED, HELD = (104.0, 56.0), (84.0, 44.0)
"""What the drawings at the opening and at the end of a stage are made for."""

COVER = ((142.0, 46.0), (142.0, 40.0), (104.0, 36.0), (84.0, 30.0))
"""What the drawing of the kit on the cover may be made for, mm before SCALE: the first that is low enough
with its names, which stand beside it if they can."""

COVER_HEIGHT = 34.0
"""A drawing on the cover is no higher, mm as printed (the style sheet holds it to that)."""

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
            draw = partial(_made_for, self.chapter.guide, frames, self.chapter.plan.used)
            drawing = (
                draw(WAITING) if waits else best(draw, self.chapter.writer.view(self._numbered[step.id]))
            )
            found.append(as_image(drawn(drawing, f"drawing-{step.id.replace('_', '-')}")))
        if step.picture is not None:
            found.append(Picture(src=self.folder + step.picture.file, alt=step.picture.alt))
        return tuple(found)

    def table(self, step: Step) -> tuple[Picture, ...]:
        """What lies on the table after a step; nothing if that is what lay there before it."""
        first, last = self.album.strips(step, PRINT)
        if last is None or (first is not None and first.shapes == last.shapes):
            return ()
        return (_strip(last, f"After this step. {last.alt}", f"table-{step.id}"),)

    def table_before(self, stage: NumberedStage) -> tuple[Picture, ...]:
        """What lies on the table before the first step of all; elsewhere the row above still tells it."""
        if stage.number != self.chapter.stages[0].number:
            return ()
        first, _ = self.album.strips(stage.steps[0].step, PRINT)
        if first is None:
            return ()
        return (_strip(first, f"Before the first step. {first.alt}", f"table-{stage.number}"),)

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
        """The end product as it looks, for the cover: as large as is low enough there. A drawing that is
        shrunk has letters too small to copy."""
        found = None
        for size in COVER:
            picture = self.album.finished(size, COVER_HEIGHT / SCALE)
            found = as_image(picture) if picture is not None else None
            if picture is None or height_of(picture) * SCALE <= COVER_HEIGHT:
                break
        return found


def _made_for(guide: Guide, frames: Sequence[Frame], things: Collection[str], place: Place) -> Drawing:
    return drawing_of(guide, frames, (place.width, place.height), things, place.row)


def height_of(picture: Picture) -> float:
    """How high a drawing is, mm before SCALE."""
    size = _SIZE.search(picture.svg)
    assert size is not None, "every drawing states its size"
    return float(size[2])


def _strip(drawing: Drawing, alt: str, name: str) -> Picture:
    return as_image(drawn(drawing._replace(alt=alt), name.replace("_", "-")))


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
    """The pattern sheets of a route: those that the preparation cuts along, or those of the builder. A card's
    outline that finds no room on them is left out: it is not worth two pages, and each sheet has bars."""
    made = {each.thing for row in chapter.plan.preparation for each in row.made}
    things = [id for id in chapter.plan.used if (id in made) == prepared]
    draw = partial(pattern_sheets, chapter.guide, (chapter.run,), paper=paper, things=things)
    found = draw()
    return found if all(map(is_cut, found)) else draw(carded=False)


def gauge_drawings(chapter: Chapter, paper: Paper, *, prepared: bool) -> list[Drawing]:
    """The gauges for what the preparation cuts, or for what the builder cuts, with the step of each."""
    steps = {id: f"step {each.number}" for id, each in _cut_in(chapter, prepared=prepared).items()}
    return gauge_sheets(chapter.guide, (chapter.run,), paper=paper, things=steps, steps=steps)


def _cut_in(chapter: Chapter, *, prepared: bool) -> dict[str, Numbered]:
    """The step that cuts a thing, by the thing's id: the first, in the order of the steps."""
    found: dict[str, Numbered] = {}
    for each in chapter.preparation if prepared else chapter.builder_steps:
        if frames := chapter.frames[each.step.id]:
            for thing in cut_things(chapter.guide, (own_run(frames, chapter.guide),)):
                found.setdefault(thing.id, each)
    return found


class Sheets(NamedTuple):
    """The sheets of a part that lie on their pages at true size: those that pieces are laid on, and those
    that are cut, which have nothing on their backs. `gauged` says on which of them a step's pieces have their
    gauges: the ids of the sheets by the anchor of the step."""

    laid: tuple[PatternSheet, ...]
    cut: tuple[PatternSheet, ...]
    gauged: dict[str, tuple[str, ...]]


def sheet_pages(chapter: Chapter, paper: Paper, *, prepared: bool) -> Sheets:
    """Gauges and patterns, each as an image at true size. Gauges that are cut come before the patterns."""
    gauges = gauge_drawings(chapter, paper, prepared=prepared)
    patterns = pattern_drawings(chapter, paper, prepared=prepared)
    pages = [
        (drawing, _page(drawing, f"{name}-{number}", f"sheet {number} of {len(drawings)}"))
        for name, drawings in (("gauge", gauges), ("sheet", patterns))
        for number, drawing in enumerate(drawings, 1)
    ]
    cut = [page for drawing, page in pages if is_cut(drawing)]
    steps = _cut_in(chapter, prepared=prepared)
    gauged: dict[str, tuple[str, ...]] = {}
    for drawing, page in pages[: len(gauges)]:
        # the marks of a gauge carry the id of the thing, and the side of it that they are for
        on = dict.fromkeys(steps[part.partition(" ")[0]].anchor for part in drawing.parts())
        gauged |= {anchor: (*gauged.get(anchor, ()), page.id) for anchor in on}
    return Sheets(tuple(page for _, page in pages if page not in cut), tuple(cut), gauged)


def _page(drawing: Drawing, id: str, words: str) -> PatternSheet:
    name = drawing.title.partition(": ")[2] or drawing.title
    if id.startswith("gauge"):
        name = "Long gauge" if is_cut(drawing) else "Gauges"
    page = sheet(drawing, id, name[:1].upper() + name[1:], words)
    image = Markup('<img src="{}" alt="{}">').format(_address(page.svg), page.alt)
    return msgspec.structs.replace(page, svg=image)
