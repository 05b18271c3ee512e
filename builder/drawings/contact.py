"""All drawings of a guide on one page, each with its name, so that a person can look at them at once."""

from __future__ import annotations

from collections.abc import Iterable

from builder.drawings.catalogue import Entry
from builder.drawings.measure import CAP_HEIGHT, LINE_PITCH, wrapped
from builder.drawings.shapes import Drawing, Shape, Text, moved, segment

COLUMN = 190.0
"""Width of a column, mm: the widest drawing, a pattern sheet, is 190.5 mm less its margins."""

GAP = 8.0
"""Room between columns and between drawings, mm."""

SHAPE = 1.3
"""The page is about so many times as high as it is wide."""

HEAD = 14.0
"""Room for the page's title, mm."""


def contact_sheet(entries: Iterable[Entry], title: str) -> Drawing:
    """One drawing of all drawings, column by column in their order.  ValueError if there is none."""
    blocks = [block(entry, drawing, n) for entry in entries for n, drawing in enumerate(entry.drawings)]
    if not blocks:
        raise ValueError("nothing to draw")
    high = sum(b.height + GAP for b in blocks)
    columns = max(1, round((high / COLUMN / SHAPE) ** 0.5))
    limit = HEAD + max(high / columns, max(b.height for b in blocks))
    shapes: list[Shape] = [Text((0.0, CAP_HEIGHT + 2), title)]
    x, y, deepest = 0.0, HEAD, HEAD
    wide = 0.0
    for each in blocks:
        if y > HEAD and y + each.height > limit:
            x, y, wide = x + max(wide, COLUMN) + GAP, HEAD, 0.0
        shapes += [moved(s, x, y) for s in each.shapes]
        y += each.height + GAP
        wide, deepest = max(wide, each.width), max(deepest, y)
    return Drawing(
        title,
        f"All drawings of one route: {len(blocks)} of them.",
        round(x + max(wide, COLUMN), 2),
        round(deepest, 2),
        tuple(shapes),
    )


def block(entry: Entry, drawing: Drawing, number: int) -> Drawing:
    """A drawing under its name, with a line above."""
    asked = f"{entry.kind} {entry.name}" if entry.kind in ("step", "stage") else entry.kind
    name = entry.title if number == 0 else f"{entry.title} ({number + 1})"
    lines = wrapped(name if name.lower().startswith(asked) else f"{asked}: {name}", COLUMN)
    room = 3.0 + len(lines) * LINE_PITCH + 2.0
    shapes: list[Shape] = [segment((0.0, 0.5), (max(COLUMN, drawing.width), 0.5), "break")]
    shapes += [Text((0.0, 3.0 + CAP_HEIGHT + i * LINE_PITCH), line) for i, line in enumerate(lines)]
    shapes += [moved(s, 0.0, room) for s in drawing.shapes]
    return Drawing(name, drawing.alt, max(COLUMN, drawing.width), room + drawing.height, tuple(shapes))
