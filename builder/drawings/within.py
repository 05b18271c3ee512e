"""What stands within an outline on paper: its name, where a leader may end, and the hatch round both."""

from __future__ import annotations

from builder.drawings.geometry import clipped
from builder.drawings.measure import CAP_HEIGHT, LINE_PITCH, text_width, wrapped
from builder.drawings.nesting import extent
from builder.drawings.shapes import Box, Point, Text

CLEAR = 1.5
"""A leader ends no nearer to an edge that it might run along, mm on paper."""


def on_rim(polygon: tuple[Point, ...]) -> list[Point]:
    """Points of a round outline at which a leader may end: it may not end in the bore, which falls out."""
    n = len(polygon)
    return [polygon[i * n // 16] for i in (4, 2, 6, 0, 14, 1, 3, 5)]


def middle_of(polygon: tuple[Point, ...]) -> Point:
    xs, ys = zip(*polygon, strict=True)
    return (min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2


def within(polygon: tuple[Point, ...]) -> list[Point]:
    """Points inside a shape at which a leader may end, its middle first; none close to its upper or lower
    edge, along which the leader would run."""
    ys = [p[1] for p in polygon]
    high = max(ys) - min(ys)
    found: list[Point] = []
    for share in (0.5, 0.25, 0.75, 0.12, 0.88):
        if share != 0.5 and min(share, 1 - share) * high < CLEAR:
            continue
        y = min(ys) + high * share
        span = extent(polygon, y)
        if span is not None:
            found += [(span[0] + (span[1] - span[0]) * s, y) for s in (0.5, 0.85, 0.15)]
    return found


def words_in(polygon: tuple[Point, ...], text: str) -> list[Text]:
    """A text in the middle of a shape, in as few lines as fit there with room around; or none."""
    xs, ys = [p[0] for p in polygon], [p[1] for p in polygon]
    middle = (min(ys) + max(ys)) / 2
    tried: set[tuple[str, ...]] = set()
    for share in (1.0, 0.7, 0.5, 0.34):
        lines = wrapped(text, share * max(max(xs) - min(xs), text_width(text)))
        if lines in tried:
            continue
        tried.add(lines)
        half = (CAP_HEIGHT + (len(lines) - 1) * LINE_PITCH) / 2
        spans = [extent(polygon, middle + d) for d in (-half - 1.2, 0.0, half + 1.2)]
        if half + 1.2 > (max(ys) - min(ys)) / 2 or any(s is None for s in spans):
            continue
        left = max(s[0] for s in spans if s)
        right = min(s[1] for s in spans if s)
        if right - left >= max(text_width(line) for line in lines) + 3:
            top = middle - half + CAP_HEIGHT
            at = (left + right) / 2
            return [Text((at, top + i * LINE_PITCH), line, "middle") for i, line in enumerate(lines)]
    return []


def without(runs: list[tuple[Point, Point]], blank: list[Box]) -> tuple[tuple[Point, Point], ...]:
    """Hatch runs with blanks where words and signs stand."""
    for box in blank:
        runs = [piece for a, b in runs for piece in _outside(a, b, box)]
    return tuple(runs)


def _outside(a: Point, b: Point, box: Box) -> list[tuple[Point, Point]]:
    """What of a straight line lies outside a box."""
    inner = clipped(a, b, box)
    if inner is None:
        return [(a, b)]
    ends = ((a, inner[0]), (inner[1], b))
    return [(p, q) for p, q in ends if abs(p[0] - q[0]) + abs(p[1] - q[1]) > 0.5]
