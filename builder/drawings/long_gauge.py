"""The long gauge: one in strips that are cut out of a sheet and taped end to end, for pieces longer than a
sheet.

It carries the marks of every long piece, so that it is put together once.  Each strip but the last goes
on for a tab beyond its seam: the next strip is laid over the tab, its end on the seam, its base line on the
base line.  No seam runs through a mark.  The same cross stands on a tab and on the strip that covers it.
"""

from __future__ import annotations

from collections.abc import Iterable
from math import ceil
from typing import NamedTuple

from builder.drawings.measure import CAP_HEIGHT, LINE_PITCH, wrapped
from builder.drawings.shapes import Box, Hatch, Polyline, Shape, Text, box_of, circle, moved, segment
from builder.drawings.sheets import Laid

LONGEST = 1000.0
"""No gauge is made for what is longer than this, mm: its joints would be off by as much as a tape measure."""

TAB = 12.0
"""How far a strip goes on beneath the next one, mm."""

STOP = 3.0
"""Width of the stop, mm."""

HIGH = 12.0
"""How much of a strip lies above its base line, mm: there the piece is laid."""

CLEAR, START = 8.0, 26.0
"""A seam keeps so far behind a mark, and so far before one, where the strip's name and cross stand, mm."""

CROWDED = 8.0
"""Marks nearer to one another than this have their numbers one below another, mm."""

BETWEEN = 3.0
"""Room between two strips, mm."""


class Length(NamedTuple):
    """A measure of a cut piece: what it is of, what stands behind that, the length in words, in mm, and its
    tolerance in mm, if one is stated."""

    id: str
    name: str
    tail: str
    said: str
    mm: float
    off: float | None

    @property
    def low(self) -> float:
        """The shortest that is right, mm."""
        return self.mm - (self.off or 0.0)

    @property
    def high(self) -> float:
        """The longest that is right, mm."""
        return self.mm + (self.off or 0.0)


def between(low: float, high: float) -> Hatch:
    """Upright strokes in the field where the end of a piece may lie, half a millimetre apart at most."""
    n = max(2, round((high - low) / 0.8))
    xs = [low + (high - low) * i / n for i in range(1, n)]
    return Hatch(tuple(((x, -1.6), (x, 0.0)) for x in xs), "hatch")


def seams(lengths: Iterable[Length], most: float) -> list[float]:
    """Where strips of at most `most` mm meet, measured from the stop, and where the last one ends."""
    marks = sorted(lengths, key=lambda each: each.mm)
    end = max(each.high for each in marks) + CLEAR
    found: list[float] = []
    at = 0.0
    while end - at > most:
        here = at + (end - at) / ceil((end - at) / most)  # strips of about the same length
        for each in reversed(marks):
            if each.low - START < here < each.high + CLEAR and each.low - START > at:
                here = each.low - START
        found.append(here)
        at = here
    return [*found, end]


def strips(lengths: Iterable[Length], area: Box, shared: str = "") -> list[Laid]:
    """The long gauge for some lengths on as few sheets as rows allow; none if there is no length. `shared`
    is the tail of all of them."""
    marks = sorted(lengths, key=lambda each: each.mm)
    if not marks:
        return []
    ends = seams(marks, area.width - STOP - TAB)
    longest = marks[-1]
    where, right = "at its last mark", "at its mark"
    if longest.off is not None:
        where, right = "between its last two marks", "between its marks"
    rest = "; then strip 3, and so on" if len(ends) > 2 else ""
    how = (
        "Cut out the strips. Lay the end of strip 2 on the dashed line of strip 1, base line on base line,"
        f" cross on cross, along a ruler, and tape it{rest}. Measure once: {longest.said} from the stop lies"
        f" {where}. Then it is used like the other gauges: the end of a piece lies {right}{shared}."
    )
    words = wrapped(how, area.width)
    shapes: list[Shape] = [
        Text((area.left, area.top + CAP_HEIGHT + i * LINE_PITCH), line) for i, line in enumerate(words)
    ]
    y = area.top + len(words) * LINE_PITCH + BETWEEN
    found: list[Laid] = []
    names: list[str] = []
    number = 0
    start = 0.0
    for n, end in enumerate(ends, 1):
        own = [each for each in marks if start < each.mm < end]
        made = strip(own, number + 1, start, end, (n, len(ends)))
        number += len(own)
        box = box_of(made)
        assert box is not None
        if y + box.height > area.bottom and names:
            found.append(_laid(names, shapes))
            shapes, names, y = [], [], area.top
        shapes += [moved(s, area.left - box.left, y - box.top) for s in made]
        names += [each.name for each in own]
        y += box.height + BETWEEN
        start = end
    return [*found, _laid(names, shapes)]


def strip(marks: list[Length], first: int, start: float, end: float, of: tuple[int, int]) -> list[Shape]:
    """One strip from the seam at `start` to that at `end`, mm from the stop, with its marks from number
    `first` on; `of` is the strip's own number, and how many there are."""
    number, count = of
    tab = TAB if number < count else 0.0
    right = end - start + tab
    left = -STOP if number == 1 else 0.0
    shapes: list[Shape] = [segment((left, 0.0), (right, 0.0), "frame")]
    if number == 1:
        stop = ((-STOP, -HIGH), (0.0, -HIGH), (0.0, 0.0), (-STOP, 0.0))
        shapes.append(Polyline(stop, "frame", None, closed=True, filled=True))
    else:
        shapes += _cross((TAB / 2, -HIGH / 2))
    said: list[str] = []
    deep = 0
    row, before = 0, -CROWDED
    for n, each in enumerate(marks, first):
        low, high = each.low - start, each.high - start
        row = row + 1 if low - before < CROWDED else 0
        deep, before = max(deep, row), high
        shapes.append(segment((low, -HIGH), (low, 2.0), "outline", each.id))
        if each.off is not None:
            shapes.append(segment((high, -HIGH), (high, 2.0), "outline", each.id))
            shapes.append(moved(between(0.0, high - low), low, 0.0))
        shapes.append(Text((high, 3.2 + CAP_HEIGHT + row * LINE_PITCH), str(n), "middle"))
        said.append(f"{n}: {each.name}{each.tail}")
    lines = [line for text in said for line in wrapped(text, max(end - start - 4.0, 40.0))]
    y = 3.2 + CAP_HEIGHT + (deep + 1) * LINE_PITCH if marks else 3.2 + CAP_HEIGHT
    shapes.append(Text((1.5, 3.2 + CAP_HEIGHT), f"strip {number} of {count}"))
    shapes += [Text((1.5, y + i * LINE_PITCH), line) for i, line in enumerate(lines)]
    foot = y + max(0, len(lines) - 1) * LINE_PITCH + 2.0
    if tab:
        shapes.append(segment((end - start, -HIGH), (end - start, foot), "line_up"))
        shapes += _cross((end - start + TAB / 2, -HIGH / 2))
        shapes.append(Text((end - start + TAB / 2, 3.2 + CAP_HEIGHT), str(number + 1), "middle"))
    edge = ((left, -HIGH), (right, -HIGH), (right, foot), (left, foot))
    shapes.append(Polyline(edge, "cut", None, closed=True))
    return shapes


def _cross(at: tuple[float, float]) -> list[Shape]:
    x, y = at
    return [
        circle(at, 2.0, "line_up"),
        segment((x - 3.5, y), (x + 3.5, y), "frame"),
        segment((x, y - 3.5), (x, y + 3.5), "frame"),
    ]


def _laid(names: list[str], shapes: list[Shape]) -> Laid:
    told = f" Marks for: {'; '.join(names)}." if names else ""
    says = f"The long gauge at true size.{told}"
    return Laid("The long gauge: strips to tape end to end", tuple(shapes), says)
