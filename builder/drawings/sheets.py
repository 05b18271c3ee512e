"""Sheets: patterns laid on pages at true size, with calibration bars, tiled where one page is too small.

The default page is what both letter and A4 can print with half-inch margins: 184.6 x 254.0 mm (210 -
25.4 wide, 279.4 - 25.4 high).  A Drawing of a sheet is that printable box, without the margins.
"""

from __future__ import annotations

from collections.abc import Iterable
from math import ceil
from typing import NamedTuple

from builder.drawings.geometry import clipped
from builder.drawings.grain import LEVEL, OTHER, sign
from builder.drawings.measure import CAP_HEIGHT, LINE_PITCH, wrapped
from builder.drawings.patterns import Pattern, card, grain_sign, grained
from builder.drawings.shapes import (
    Arc,
    Arrow,
    Box,
    Drawing,
    Hatch,
    Point,
    Polyline,
    Shape,
    Text,
    box_of,
    circle,
    moved,
    segment,
)
from builder.drawings.style import LINES

MARGIN = 12.7
"""Half an inch: what printers leave bare (common practice, no source), mm."""

PAPERS: dict[str, tuple[float, float]] = {"letter": (215.9, 279.4), "a4": (210.0, 297.0)}
"""Width and height of a page: ISO 216 and ANSI/ASME Y14.1 size A, mm."""

COMMON = (184.6, 254.0)
"""The printable box that letter and A4 share, mm."""

BARS = 13.0
"""Room at the left and at the foot that the calibration bars take, mm."""

HEAD = 27.0
"""Room at the top for the sheet's words, mm."""

OVERLAP = 12.0
"""How far neighbouring tiles repeat one another, mm."""

GAP = 6.0
"""Room between two patterns on a sheet, mm."""

INCH = 25.4

CARD_SAYS = " The outline of a standard card, 85.60 by 53.98 mm, tells whether the size is right."
"""What the text alternative says of the card's outline."""


class Origin(NamedTuple):
    """What the head of a sheet says about where it comes from and what it is for."""

    guide: str
    revision: str
    made_for: str = "letter or A4"
    what: str = "Patterns"


class Laid(NamedTuple):
    """Shapes of one sheet in the working area, its title, and the words of its text alternative."""

    title: str
    shapes: tuple[Shape, ...]
    says: str


def printable(paper: str) -> tuple[float, float]:
    """The printable box of one paper, mm; KeyError for an unknown one."""
    w, h = PAPERS[paper]
    return (round(w - 2 * MARGIN, 2), round(h - 2 * MARGIN, 2))


def sheets(
    patterns: Iterable[Pattern],
    origin: Origin,
    page: tuple[float, float] = COMMON,
    *,
    carded: bool = False,
) -> list[Drawing]:
    """All patterns on as few sheets as rows allow; one that is larger than a page gets tiles of its own.

    `carded` adds the outline of a standard card to one of them.
    """
    area = working_area(page)
    small: list[Pattern] = []
    laid: list[Laid] = []
    for pattern in patterns:
        box = labelled(pattern).box
        if box.width <= area.width and box.height <= area.height:
            small.append(pattern)
        elif box.height <= area.width and box.width <= area.height:
            small.append(quarter_turned(pattern))
        else:
            laid += tiles(pattern, area)
    laid = [*nested(small, area), *laid]
    if carded:
        laid = with_card(laid, area)
    return [sheet_of(one, i + 1, len(laid), origin, page) for i, one in enumerate(laid)]


def working_area(page: tuple[float, float]) -> Box:
    """The box within a page that patterns may fill."""
    return Box(BARS, HEAD, page[0] - 1.0, page[1] - BARS)


def quarter_turned(pattern: Pattern) -> Pattern:
    """A pattern turned by 90 degrees; its words stay upright, beside what they name."""

    def turn(p: Point) -> Point:
        return (p[1], -p[0])

    shapes: list[Shape] = []
    for s in pattern.shapes:
        if isinstance(s, Polyline):
            shapes.append(s._replace(points=tuple(turn(p) for p in s.points)))
        elif isinstance(s, Arc):
            shapes.append(s._replace(centre=turn(s.centre), turn=s.turn - 90))
        elif isinstance(s, Hatch):
            shapes.append(s._replace(runs=tuple((turn(a), turn(b)) for a, b in s.runs)))
        elif isinstance(s, Text):
            # a label that stood right of its line now stands above it
            x, y = turn(s.at)
            shapes.append(s._replace(at=(x + 0.8, y), anchor="start"))
        else:
            shapes.append(s._replace(tip=turn(s.tip), heading=s.heading - 90))
    return pattern._replace(shapes=tuple(shapes), grain=OTHER[pattern.grain])


def labelled(pattern: Pattern) -> Pattern:
    """A pattern with its name and note in a line beneath it, and the sign of its grain in it."""
    box = pattern.box
    pattern = grained(pattern)
    text = f"{pattern.name}: {pattern.note}" if pattern.note else pattern.name
    lines = wrapped(text, max(box.width, 40.0))
    words = [
        Text(((box.left + box.right) / 2, box.bottom + 2 + CAP_HEIGHT + i * LINE_PITCH), line, "middle")
        for i, line in enumerate(lines)
    ]
    return pattern._replace(shapes=(*pattern.shapes, *words))


def nested(patterns: Iterable[Pattern], area: Box) -> list[Laid]:
    """Rows of patterns, tallest first, in as many sheets as they need."""
    found: list[Laid] = []
    shapes: list[Shape] = []
    names: list[str] = []
    x, y, row = area.left, area.top, 0.0
    ready = [labelled(p) for p in patterns]
    for pattern in sorted(ready, key=lambda p: (-round(p.box.height, 2), p.id)):
        box = pattern.box
        if x + box.width > area.right + 1e-6 and x > area.left:
            x, y, row = area.left, y + row + GAP, 0.0
        if y + box.height > area.bottom + 1e-6 and shapes:
            found.append(_laid(names, shapes))
            shapes, names = [], []
            x, y, row = area.left, area.top, 0.0
        shapes += [moved(s, x - box.left, y - box.top) for s in pattern.shapes]
        names.append(pattern.name)
        x += box.width + GAP
        row = max(row, box.height)
    if shapes:
        found.append(_laid(names, shapes))
    return found


def _laid(names: list[str], shapes: list[Shape]) -> Laid:
    title = ", ".join(dict.fromkeys(names))
    return Laid(title, tuple(shapes), f"Patterns at true size: {title}.")


def with_card(laid: list[Laid], area: Box) -> list[Laid]:
    """The first sheet that has room gets a card's outline, upright or on its side; else one sheet more."""
    for number, one in enumerate(laid):
        taken = box_of(one.shapes)
        for turned in (False, True):
            outline = card(turned=turned)
            box = outline.box
            spots = [] if taken is None else [(area.left, taken.bottom + GAP), (taken.right + GAP, area.top)]
            for x, y in spots:
                if x + box.width <= area.right and y + box.height <= area.bottom:
                    shapes = (*one.shapes, *(moved(s, x - box.left, y - box.top) for s in outline.shapes))
                    laid[number] = Laid(one.title, shapes, one.says + CARD_SAYS)
                    return laid
    outline = card()
    shapes = tuple(moved(s, area.left - outline.box.left, area.top - outline.box.top) for s in outline.shapes)
    return [*laid, Laid("card outline", shapes, CARD_SAYS.strip())] if laid else []


def tiles(pattern: Pattern, area: Box) -> list[Laid]:
    """A large pattern in tiles that overlap, with the same register marks on both sides of each overlap."""
    box = pattern.box.grown(1.0)
    nx = max(1, ceil((box.width - OVERLAP) / (area.width - OVERLAP)))
    ny = max(1, ceil((box.height - OVERLAP) / (area.height - OVERLAP)))
    # the same tile size throughout, so that the seams lie alike
    w = (box.width + (nx - 1) * OVERLAP) / nx
    h = (box.height + (ny - 1) * OVERLAP) / ny
    marks = _register_marks(box, nx, ny, w, h)
    found: list[Laid] = []
    for row in range(ny):
        for column in range(nx):
            left = box.left + column * (w - OVERLAP)
            top = box.top + row * (h - OVERLAP)
            window = Box(left, top, left + w, top + h)
            shapes = [piece for s in (*pattern.shapes, *marks) for piece in clipped_shape(s, window)]
            shapes += _seams(window, column, row, nx, ny)
            code = f"{'ABCDEFGH'[row]}{column + 1}"
            title = f"{pattern.name}, tile {code} of {nx} x {ny}"
            shapes += _centred_words(window, shapes, [f"{pattern.name} {code}", pattern.note])
            shapes += grain_sign(pattern, tuple(shapes), window)
            says = (
                f"{pattern.name} at true size, tile {code}: row {row + 1} of {ny},"
                f" column {column + 1} of {nx}. Neighbouring tiles overlap by {OVERLAP:g} mm;"
                " lay the register marks on one another."
            )
            dx, dy = area.left - window.left, area.top - window.top
            found.append(Laid(title, tuple(moved(s, dx, dy) for s in shapes), says))
    return found


def _register_marks(box: Box, nx: int, ny: int, w: float, h: float) -> list[Shape]:
    """Crosses in rings in the middle of each overlap, two for each seam, at places both tiles hold."""
    found: list[Shape] = []

    def mark(x: float, y: float) -> None:
        found.extend(
            (
                circle((x, y), 2.0, "line_up"),
                segment((x - 3.5, y), (x + 3.5, y), "frame"),
                segment((x, y - 3.5), (x, y + 3.5), "frame"),
            )
        )

    for i in range(1, nx):
        x = box.left + i * (w - OVERLAP) + OVERLAP / 2
        for row in range(ny):
            top = box.top + row * (h - OVERLAP)
            mark(x, top + 0.3 * h)
            mark(x, top + 0.7 * h)
    for j in range(1, ny):
        y = box.top + j * (h - OVERLAP) + OVERLAP / 2
        for column in range(nx):
            left = box.left + column * (w - OVERLAP)
            mark(left + 0.3 * w, y)
            mark(left + 0.7 * w, y)
    return found


def _seams(window: Box, column: int, row: int, nx: int, ny: int) -> list[Shape]:
    """Edges of a tile: where it meets a neighbour, the line that the neighbour's edge is laid on."""
    found: list[Shape] = []
    for x, here in ((window.left, column > 0), (window.right, column < nx - 1)):
        if here:
            found.append(segment((x, window.top), (x, window.bottom), "line_up"))
    for y, here in ((window.top, row > 0), (window.bottom, row < ny - 1)):
        if here:
            found.append(segment((window.left, y), (window.right, y), "line_up"))
    return found


def _centred_words(window: Box, shapes: list[Shape], lines: list[str]) -> list[Shape]:
    """Words near the middle of a tile, where they meet no shape's text; empty lines are left out."""
    x = (window.left + window.right) / 2
    y = (window.top + window.bottom) / 2
    return [Text((x, y + i * LINE_PITCH), line, "middle") for i, line in enumerate(s for s in lines if s)]


def clipped_shape(shape: Shape, window: Box) -> list[Shape]:
    """What of a shape lies in a window.  Arcs that run out of it become short straight lines."""
    if isinstance(shape, Text):
        box = shape.box()
        inside = (
            window.left <= box.left
            and box.right <= window.right
            and window.top <= box.top
            and box.bottom <= window.bottom
        )
        return [shape] if inside else []
    if isinstance(shape, Arrow):
        x, y = shape.tip
        return [shape] if window.left <= x <= window.right and window.top <= y <= window.bottom else []
    if isinstance(shape, Hatch):
        runs = [c for a, b in shape.runs if (c := clipped(a, b, window))]
        return [shape._replace(runs=tuple(runs))] if runs else []
    if isinstance(shape, Arc):
        n = max(8, ceil(abs(shape.sweep)))
        points = tuple(shape.at(i / n) for i in range(n + 1))
        if all(window.left <= x <= window.right and window.top <= y <= window.bottom for x, y in points):
            return [shape]
        shape = Polyline(points, shape.line, shape.part)
    ring = (*shape.points, shape.points[0]) if shape.closed else shape.points
    pieces = [clipped(a, b, window) for a, b in zip(ring, ring[1:], strict=False)]
    if shape.closed and all(
        piece == pair for piece, pair in zip(pieces, zip(ring, ring[1:], strict=False), strict=True)
    ):
        return [shape]
    runs_: list[list[Point]] = []
    for piece in pieces:
        if piece is None:
            continue
        if runs_ and runs_[-1][-1] == piece[0]:
            runs_[-1].append(piece[1])
        else:
            runs_.append([*piece])
    return [Polyline(tuple(run), shape.line, shape.part) for run in runs_]


def sheet_of(laid: Laid, number: int, of: int, origin: Origin, page: tuple[float, float]) -> Drawing:
    """A finished sheet: head, bars, patterns."""
    head = [
        f"{origin.guide}, {origin.revision}. {origin.what}, sheet {number} of {of}",
        laid.title,
        f"Made for {origin.made_for}. Print at 100 %, never “fit to page”. Measure the bars first.",
    ]
    lines = [line for text in head for line in wrapped(text, page[0])][:3]
    shapes: list[Shape] = [Text((0.0, CAP_HEIGHT + 1 + i * LINE_PITCH), line) for i, line in enumerate(lines)]
    shapes += legend(laid.shapes, CAP_HEIGHT + 1 + 3 * LINE_PITCH)
    shapes += calibration(page)
    shapes += laid.shapes
    alt = (
        f"Sheet {number} of {of}. {laid.says} Along the left edge and the foot stand calibration bars of"
        " 100 mm and 4 in."
    )
    return Drawing(f"Sheet {number} of {of}: {laid.title}", alt, page[0], page[1], tuple(shapes), True)


def legend(shapes: Iterable[Shape], level: float) -> list[Shape]:
    """A sample of each kind of line that a sheet has, with what it means, in one row on a base line."""
    used = {s.line for s in shapes}
    found: list[Shape] = []
    x = 0.0
    for line in ("cut", "fold", "glue_here", "line_up", "grain"):
        if line in used:
            y = level - CAP_HEIGHT / 2
            words = Text((x + 16.0, level), LINES[line].meaning)
            sample = segment((x + 0.5, y), (x + 14.0, y), line)
            found += [*(sign((x + 7.0, y), LEVEL, 13.5) if line == "grain" else (sample,)), words]
            x = words.box().right + 6.0
    return found


def calibration(page: tuple[float, float]) -> list[Shape]:
    """Bars of 100 mm and 4 in on both axes: upright ones at the left edge, level ones at the foot."""
    found: list[Shape] = []
    foot = page[1] - BARS - 6
    # upright: 100 mm at the edge with its number above, 4 in beside it with its number below
    found += _bar((2.0, foot - 100.0), (2.0, foot))
    found.append(Text((0.0, foot - 100.0 - 3.0 - LINE_PITCH), "100"))
    found.append(Text((0.0, foot - 100.0 - 3.0), "mm"))
    found += _bar((8.0, foot - 4 * INCH), (8.0, foot))
    found.append(Text((5.0, foot + 2.5 + CAP_HEIGHT), "4 in"))
    left = BARS + 14.0
    for y, length, label in ((page[1] - 8.6, 4 * INCH, "4 in"), (page[1] - 2.6, 100.0, "100 mm")):
        found += _bar((left, y), (left + length, y))
        found.append(Text((left + length + 3.0, y + CAP_HEIGHT / 2), label))
    return found


def _bar(a: Point, b: Point) -> list[Shape]:
    """A bar between two end strokes."""
    level = a[1] == b[1]
    dx, dy = (0.0, 1.8) if level else (1.8, 0.0)
    return [
        segment(a, b, "frame"),
        segment((a[0] - dx, a[1] - dy), (a[0] + dx, a[1] + dy), "frame"),
        segment((b[0] - dx, b[1] - dy), (b[0] + dx, b[1] + dy), "frame"),
    ]
