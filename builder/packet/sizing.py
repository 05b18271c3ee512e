"""How large the drawing of a step is printed: as its step takes the least height, since a class pays for
paper.

A drawing is made for a place and not shrunk into one, so that its letters keep their size; a narrower place
may make it higher. The lines of a step stand beside a narrow drawing and below a wide one.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import NamedTuple

from builder.drawings.shapes import Drawing
from builder.pages.contexts import Line, StepView

SCALE = 0.70
"""Drawings are made for a screen; in print they are this much smaller, and their letters 9 pt high."""


class Place(NamedTuple):
    """What a drawing is made for, mm before SCALE: the width and height of a picture, and the width of a row
    of them, where several may stand beside one another."""

    width: float
    height: float
    row: float = 0.0


PLACES = (
    Place(104.0, 62.0),
    Place(104.0, 30.0),
    Place(130.0, 40.0),
    Place(158.0, 30.0),
    Place(76.0, 62.0, 158.0),
    Place(84.0, 62.0, 252.0),
    Place(104.0, 62.0, 252.0),
)
"""What the drawing of a step may be made for; the first is taken where it is low enough."""

WAITING = Place(84.0, 50.0)
"""What the drawing of a step that only waits is made for: its wait takes the width."""

LOW = 66.0
"""A drawing that is no higher than this, in mm as printed, is not made a second time."""

WIDEST = 112.0
"""A drawing that is wider than this, in mm as printed, leaves no room for lines beside it."""

PAGE = 180.0
"""Width that a page of A4 prints, mm; letter is a little wider."""

GAP, LETTER, ROW = 4.0, 1.85, 4.95
"""Between drawing and lines; mean width of a letter and height of a line of 11 pt, mm."""


def beside(width: float) -> bool:
    """Whether lines stand beside a drawing of this width, mm as printed."""
    return width <= WIDEST


def best(draw: Callable[[Place], Drawing], view: StepView) -> Drawing:
    """The drawing of a step as it takes the least height with its lines; of equals, the first."""
    first = draw(PLACES[0])
    if first.height * SCALE <= LOW:
        return first
    letters = sum(letters_of(view))
    return min([first, *map(draw, PLACES[1:])], key=lambda made: height(made, letters))


def height(drawing: Drawing, letters: int) -> float:
    """About how high a step is with this drawing and so many letters, mm. What is wider than a page is no
    use."""
    width, high = drawing.width * SCALE, drawing.height * SCALE
    if width > PAGE:
        return high * width / PAGE + 1000.0
    if beside(width):
        return max(high, letters * LETTER / (PAGE - GAP - width) * ROW)
    return high + letters * LETTER / PAGE * ROW


def letters_of(view: StepView) -> Iterator[int]:
    """How many letters each paragraph of a step has; its heading counts as a line of its own."""
    yield 60
    yield len(view.why.striptags())
    yield sum(len(each.name) + len(each.amount) + 2 for each in (*view.parts, *view.materials, *view.tools))
    for line in view.lines:
        yield from _letters(line)


def _letters(line: Line) -> Iterator[int]:
    if line.kind == "repeat":
        yield len(line.heading.striptags()) + 12 * len(line.copies)
        for inner in line.lines:
            yield from _letters(inner)
    elif line.kind == "wait":
        yield 120 + len(line.what.striptags()) + len(line.meanwhile) + len(line.if_missed.striptags())
    elif line.kind == "verify":
        yield len(line.html.striptags()) + len(line.otherwise.striptags()) + 30
    else:
        yield len(line.html.striptags()) + 30
