"""Drawings as the pages take them: SVG of a step, with its text alternative; pattern sheets at true size."""

from __future__ import annotations

from collections.abc import Mapping

from markupsafe import Markup

from builder.drawings.of_step import drawings_of
from builder.drawings.shapes import Drawing
from builder.drawings.svg import number, write
from builder.dryrun.run import DryRun
from builder.guide.model import Guide, Step
from builder.pages.contexts import PatternSheet, Picture


class Album:
    """The drawings of one route. `place` leads from a page to the folder of the guide's own pictures."""

    def __init__(self, guide: Guide, run: DryRun, place: str = "") -> None:
        self.drawings: Mapping[str, Drawing] = drawings_of(guide, run)
        self.place = place

    def of(self, step: Step) -> tuple[Picture, ...]:
        """The computed drawing of a step, and the picture that its writer brought."""
        found = []
        drawing = self.drawings.get(step.id)
        if drawing is not None:
            found.append(drawn(drawing, f"drawing-{step.id.replace('_', '-')}"))
        if step.picture is not None:
            found.append(Picture(src=self.place + step.picture.file, alt=step.picture.alt))
        return tuple(found)


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
