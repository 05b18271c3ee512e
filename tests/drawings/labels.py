"""What every drawing must hold: texts clear of one another, of lines, and of the frame's edge."""

from __future__ import annotations

from itertools import combinations

from builder.drawings.geometry import meets_box
from builder.drawings.shapes import Arrow, Box, Drawing, Hatch, Polyline, Shape, Text

QUIET = ("dimension", "extension", "leader", "frame")
"""Lines of labels: no text may stand on any of them."""


def texts(shapes: tuple[Shape, ...]) -> list[Text]:
    return [s for s in shapes if isinstance(s, Text)]


def overlaps(shapes: tuple[Shape, ...]) -> list[tuple[str, str]]:
    """Pairs of texts that meet."""
    return [(a.text, b.text) for a, b in combinations(texts(shapes), 2) if a.box().meets(b.box())]


def struck(shapes: tuple[Shape, ...], lines: tuple[str, ...] = QUIET) -> list[tuple[str, str]]:
    """Texts with a line of these classes, or an arrowhead, through them."""
    found: list[tuple[str, str]] = []
    for text in texts(shapes):
        box = text.box()
        for s in shapes:
            if isinstance(s, Polyline) and s.line in lines:
                ring = (*s.points, s.points[0]) if s.closed else s.points
                if any(meets_box(a, b, box) for a, b in zip(ring, ring[1:], strict=False)):
                    found.append((text.text, s.line))
            elif isinstance(s, Hatch) and s.line in lines:
                if any(meets_box(a, b, box) for a, b in s.runs):
                    found.append((text.text, s.line))
            elif isinstance(s, Arrow):
                xs, ys = zip(*s.corners(), strict=True)
                if box.meets(Box(min(xs), min(ys), max(xs), max(ys))):
                    found.append((text.text, "arrow"))
    return found


def outside(drawing: Drawing) -> list[str]:
    """Texts that reach over the frame."""
    return [
        t.text
        for t in drawing.texts()
        if t.box().left < 0
        or t.box().top < 0
        or t.box().right > drawing.width
        or t.box().bottom > drawing.height
    ]
