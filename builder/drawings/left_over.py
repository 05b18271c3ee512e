"""What is left over of stock, as it is marked out there: dashed where it ends in the open, and nowhere twice.

Where it ends at an edge of the stock or of a piece, that edge is drawn already and tells it.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import pairwise
from math import ceil, hypot

from builder.drawings.shapes import Box, Point, Shape, segment
from builder.drawings.style import LINES

NEAR = 1.6
"""A border so near to an edge that is drawn, mm on paper, would be taken for a flaw of it: the width of a saw
cut is seldom more."""

SHORT = 7.0
"""A border that is shorter than this, mm on paper, has no room for two dashes."""

GAP = 0.3
"""The gap between the two dashes of a short border, as a share of its length at most."""

Span = tuple[float, float]


def borders(boxes: Iterable[Box], edges: Sequence[tuple[Point, Point]]) -> list[Shape]:
    """The sides of boxes on paper that lie on none of the straight `edges` there: dashed from end to end."""
    found: list[Shape] = []
    kept: list[tuple[bool, float, Span]] = []
    for box in boxes:
        for level, at, span in _sides(box):
            drawn = _beside(level, at, edges)
            # two that lie side by side have one border
            drawn += [s for other, place, s in kept if other is level and abs(place - at) < NEAR]
            for low, high in _uncovered(span, drawn):
                kept.append((level, at, (low, high)))
                a, b = ((low, at), (high, at)) if level else ((at, low), (at, high))
                found += dashes(a, b)
    return found


def dashes(a: Point, b: Point) -> list[Shape]:
    """A straight line in dashes of one length, with one at each end; what is too short for two has one thin
    line instead, of which no legend speaks."""
    length = hypot(b[0] - a[0], b[1] - a[1])
    if length < SHORT:
        return [segment(a, b, "thin")]
    dash, gap = LINES["spare"].dash
    count = max(2, ceil((length + gap) / (dash + gap)))
    gap = min(gap, GAP * length)
    dash = (length - gap * (count - 1)) / count

    def at(far: float) -> Point:
        return (a[0] + (b[0] - a[0]) * far / length, a[1] + (b[1] - a[1]) * far / length)

    # none is longer than the dash of its class, so each is drawn unbroken
    return [segment(at(i * (dash + gap)), at(i * (dash + gap) + dash), "spare") for i in range(count)]


def sides_of(points: Sequence[Point]) -> list[tuple[Point, Point]]:
    """The sides of a closed outline."""
    return list(pairwise([*points, points[0]]))


def _sides(box: Box) -> list[tuple[bool, float, Span]]:
    """The four sides of a box: whether it is level, where it lies, and from where to where it runs."""
    across, down = (box.left, box.right), (box.top, box.bottom)
    return [
        (True, box.top, across),
        (True, box.bottom, across),
        (False, box.left, down),
        (False, box.right, down),
    ]


def _beside(level: bool, at: float, edges: Sequence[tuple[Point, Point]]) -> list[Span]:
    """Which stretches of a level or upright line have an edge along them."""
    along, across = (0, 1) if level else (1, 0)
    found: list[Span] = []
    for a, b in edges:
        if abs(a[across] - b[across]) < 1e-6 and abs(a[across] - at) < NEAR:
            found.append((min(a[along], b[along]), max(a[along], b[along])))
    return found


def _uncovered(span: Span, covers: list[Span]) -> list[Span]:
    """What of a stretch none of some others covers, but for slips that nobody would see."""
    found: list[Span] = []
    low, high = span
    for start, end in sorted(covers):
        if start > low:
            found.append((low, min(start, high)))
        low = max(low, end)
    found.append((low, high))
    return [(a, b) for a, b in found if b - a > NEAR]
