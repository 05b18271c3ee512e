"""One pattern many times: for the class, as many on a sheet as a grid of copies holds.

Copies lie in rows, upright or turned by a quarter; skew ones lie head to tail in pairs where that saves
room.  The way that holds most on a sheet is taken; it is a good way, not the best that there is.
"""

from __future__ import annotations

from math import ceil
from typing import NamedTuple

from builder.drawings.geometry import turned_half
from builder.drawings.nesting import extent
from builder.drawings.patterns import Pattern, grained
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
    moved,
)
from builder.drawings.sheets import COMMON, Laid, Origin, quarter_turned, sheet_of, tiles, working_area

BETWEEN = 3.0
"""Room between two copies, mm: a cut goes wrong without spoiling its neighbour."""


class Block(NamedTuple):
    """Copies that are laid as one: their shapes from the corner (0, 0) on, and the room that they take."""

    shapes: tuple[Shape, ...]
    width: float
    height: float
    copies: int


def class_sheets(
    pattern: Pattern, copies: int, origin: Origin, page: tuple[float, float] = COMMON
) -> list[Drawing]:
    """So many copies of a pattern on sheets; one that is larger than a sheet comes in tiles, copy by copy."""
    area = working_area(page)
    best = _best(pattern, area)
    if best is None:
        return _tiled(pattern, copies, origin, page)
    per_sheet = fits(best, area)
    count = ceil(copies / per_sheet)
    found: list[Drawing] = []
    for number in range(count):
        wanted = min(per_sheet, copies - number * per_sheet)
        shapes = _filled(best, area, wanted)
        title = f"{pattern.name}, {wanted} of {copies}"
        laid = Laid(title, shapes, f"{wanted} times the pattern of the {pattern.name} at true size.")
        found.append(sheet_of(laid, number + 1, count, origin, page))
    return found


def on_a_sheet(pattern: Pattern, page: tuple[float, float] = COMMON) -> bool:
    """Whether a copy of a pattern has room on one sheet."""
    return _best(pattern, working_area(page)) is not None


def _best(pattern: Pattern, area: Box) -> Block | None:
    """The way to lay copies of which a sheet holds most; None if it holds none."""
    best = max(blocks(pattern), key=lambda b: (fits(b, area), -b.copies), default=None)
    return best if best is not None and fits(best, area) else None


def _tiled(pattern: Pattern, copies: int, origin: Origin, page: tuple[float, float]) -> list[Drawing]:
    """The tiles of every copy, one copy after another, so that a pile of sheets falls into whole patterns."""
    once = tiles(pattern, working_area(page))
    count = copies * len(once)
    found: list[Drawing] = []
    for copy in range(1, copies + 1):
        for tile in once:
            words = f"copy {copy} of {copies}"
            laid = tile._replace(title=f"{tile.title}, {words}", says=f"{tile.says} This is {words}.")
            found.append(sheet_of(laid, len(found) + 1, count, origin, page))
    return found


def fits(block: Block, area: Box) -> int:
    """How many copies a sheet holds in rows of one block."""
    across = int((area.width + BETWEEN + 1e-6) // (block.width + BETWEEN))
    down = int((area.height + BETWEEN + 1e-6) // (block.height + BETWEEN))
    return across * down * block.copies


def blocks(pattern: Pattern) -> list[Block]:
    """The ways to lay copies: one upright, one on its side, and two head to tail either way."""
    found = []
    for way in (bare(grained(pattern)), bare(grained(quarter_turned(pattern)))):
        box = way.box
        shapes = tuple(moved(s, -box.left, -box.top) for s in way.shapes)
        found.append(Block(shapes, box.width, box.height, 1))
        ring = next((s.points for s in shapes if isinstance(s, Polyline) and s.closed), ())
        if ring and box_of([Polyline(ring, "cut")]) == box_of(shapes):
            shift = tail_shift(ring, box.width, box.height)
            if shift + box.width < 2 * box.width - 1.0:
                tail = [moved(half_turned(s, box.width, box.height), shift, 0.0) for s in shapes]
                found.append(Block((*shapes, *tail), shift + box.width, box.height, 2))
    return found


def bare(pattern: Pattern) -> Pattern:
    """The lines of a pattern without its words."""
    return pattern._replace(shapes=tuple(s for s in pattern.shapes if not isinstance(s, Text)))


def tail_shift(outline: tuple[Point, ...], width: float, height: float) -> float:
    """How far right a copy turned half round lies to clear the first by BETWEEN: widths at 60 heights."""
    turned = turned_half(outline, width, height)
    shift = 0.0
    for i in range(61):
        y = height * min(max(i / 60, 1e-6), 1 - 1e-6)
        right, left = extent(outline, y), extent(turned, y)
        if right and left:
            shift = max(shift, right[1] - left[0] + BETWEEN)
    return shift


def half_turned(shape: Shape, width: float, height: float) -> Shape:
    """A shape turned half round within a box."""

    def turn(p: Point) -> Point:
        return (width - p[0], height - p[1])

    if isinstance(shape, Polyline):
        return shape._replace(points=tuple(turn(p) for p in shape.points))
    if isinstance(shape, Arc):
        return shape._replace(centre=turn(shape.centre), turn=shape.turn + 180)
    if isinstance(shape, Hatch):
        return shape._replace(runs=tuple((turn(a), turn(b)) for a, b in shape.runs))
    if isinstance(shape, Arrow):
        return shape._replace(tip=turn(shape.tip), heading=shape.heading + 180)
    return shape._replace(at=turn(shape.at))


def _filled(block: Block, area: Box, wanted: int) -> tuple[Shape, ...]:
    """Copies in rows until there are enough; half a pair is left out where an odd number is wanted."""
    across = int((area.width + BETWEEN + 1e-6) // (block.width + BETWEEN))
    found: list[Shape] = []
    for n in range(ceil(wanted / block.copies)):
        row, column = divmod(n, across)
        dx = area.left + column * (block.width + BETWEEN)
        dy = area.top + row * (block.height + BETWEEN)
        shapes = block.shapes
        if block.copies == 2 and 2 * n + 1 == wanted:
            shapes = shapes[: len(shapes) // 2]
        found += [moved(s, dx, dy) for s in shapes]
    return tuple(found)


def single(pattern: Pattern) -> Drawing:
    """The lines of one pattern alone at true size, for a cutting machine: no words, no bars, no card."""
    lines = tuple(s for s in bare(pattern).shapes if s.line in ("cut", "fold", "line_up"))
    box = box_of(lines) or Box(0, 0, 1, 1)
    kinds = ", ".join(dict.fromkeys(s.line.replace("_", " ") for s in lines))
    says = (
        f"The lines of the {pattern.name} at true size, {box.width:.1f} by {box.height:.1f} mm,"
        f" for a cutting machine: {kinds}."
    )
    shapes = tuple(moved(s, 2.0 - box.left, 2.0 - box.top) for s in lines)
    return Drawing(pattern.name, says, round(box.width + 4, 2), round(box.height + 4, 2), shapes, True)
