"""Drawings and pattern sheets as print takes them: images in one piece, each with its text alternative."""

from __future__ import annotations

import base64
import re

import msgspec
from markupsafe import Markup

from builder.drawings.of_pattern import pattern_sheets
from builder.guide.model import Step
from builder.pages.book import Chapter
from builder.pages.contexts import NONE, Paper, PatternSheet, Picture
from builder.pages.pictures import Album, sheet

SCALE = 0.72
"""Drawings are made for a screen; in print they are this much smaller, and their letters 9 pt high."""

TALL, NARROW = 60.0, 84.0
"""A drawing that is higher and narrower than this, in mm as printed, stands beside the lines of its step."""

_SIZE = re.compile(r'width="([\d.]+)mm" height="([\d.]+)mm"')


class Drawn:
    """The drawings of a route for print. `folder` is the address of the guide's own pictures."""

    def __init__(self, chapter: Chapter, folder: str = "") -> None:
        self.album = Album(chapter, folder)

    def of(self, step: Step) -> tuple[Picture, ...]:
        """The drawing of a step, and its writer's picture."""
        return tuple(as_image(picture) for picture in self.album.of(step))


def as_image(picture: Picture, scale: float = SCALE) -> Picture:
    """A drawing as an image of its own, which the layout engine lays out as one piece."""
    if not picture.svg:
        return picture

    size = _SIZE.search(picture.svg)
    assert size is not None, "every drawing states its size"
    width, height = (float(each) * scale for each in size.groups())
    svg = str(picture.svg).replace(size[0], f'width="{width:.2f}mm" height="{height:.2f}mm"', 1)
    beside = height > TALL and width < NARROW
    return msgspec.structs.replace(picture, svg=NONE, src=_address(svg), width=f"{width:.2f}", beside=beside)


def _address(svg: str) -> str:
    return "data:image/svg+xml;base64," + base64.b64encode(svg.encode()).decode()


def pattern_pages(chapter: Chapter, paper: Paper, *, prepared: bool) -> tuple[PatternSheet, ...]:
    """The pattern sheets of a route: those that the preparation cuts along, or those of the builder."""
    made = {each.thing for row in chapter.plan.preparation for each in row.made}
    things = [id for id in chapter.plan.used if (id in made) == prepared]
    drawings = pattern_sheets(chapter.guide, (chapter.run,), paper=paper, things=things)
    pages = []
    for number, drawing in enumerate(drawings, 1):
        name = drawing.title.partition(": ")[2] or drawing.title
        words = f"sheet {number} of {len(drawings)}"
        page = sheet(drawing, f"sheet-{number}", name[:1].upper() + name[1:], words)
        image = Markup('<img src="{}" alt="{}">').format(_address(page.svg), page.alt)
        pages.append(msgspec.structs.replace(page, svg=image))
    return tuple(pages)
