"""Every corner of every pattern and gauge lies where it was drawn, to 0.05 mm, on its own page."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import pairwise
from math import dist, hypot, inf

from builder.drawings.shapes import Arc, Point, Shape, Text, points_of
from builder.drawings.sheets import MARGIN
from builder.packet.proofs.base import Fault, Known, Proof, Row, many
from builder.packet.reading import Line, Read, pages_with

NEAR = 0.05  # mm
CELL = 2.0  # mm; what was read is looked up by squares of this size


def look(known: Known, read: Read) -> Iterator[Row | Fault]:
    """A row for each sheet, and a fault for each that is not there once or not at its size."""
    for drawing in known.sheets:
        pages = pages_with(read, drawing.alt)
        if len(pages) != 1:
            often = many(len(pages), "time")
            said = f"{drawing.title} is printed {often} and ought to be printed once"
            yield Fault(pages[1].number if pages else 1, said)
            continue
        page = pages[0]
        corners = [(x + MARGIN, y + MARGIN) for x, y in vertices(drawing.shapes)]
        round_ones = [(x + MARGIN, y + MARGIN) for x, y in on_arcs(drawing.shapes)]
        offs = [*away(corners, page.lines), *off_lines(round_ones, page.lines)]
        worst = max(offs, default=0.0)
        yield Row(
            f"{drawing.title}, page {page.number}: {many(len(offs), 'point')}",
            f"within {NEAR} mm",
            f"off by {worst:.3f} mm at most" if worst < inf else "not drawn",
        )
        off = sum(each > NEAR for each in offs)
        if off:
            said = f"{drawing.title}: {many(off, 'point')} of {len(offs)} {size(corners, page.lines)}"
            yield Fault(page.number, said)


def vertices(shapes: Iterable[Shape]) -> list[Point]:
    """Every corner of what is drawn straight, and where each arc begins and ends."""
    found: list[Point] = []
    for shape in shapes:
        if isinstance(shape, Arc):
            found += [shape.at(0), shape.at(1)]
        elif not isinstance(shape, Text):
            found += points_of(shape)
    return list(dict.fromkeys(found))


def on_arcs(shapes: Iterable[Shape]) -> list[Point]:
    """Points along each arc."""
    return [arc.at(share / 8) for arc in shapes if isinstance(arc, Arc) for share in range(1, 8)]


def away(wanted: Iterable[Point], lines: Iterable[Line]) -> list[float]:
    """How far each wanted point is from the nearest corner that was read, mm; inf beyond a square of CELL."""
    squares: dict[tuple[int, int], list[Point]] = {}
    for line in lines:
        for x, y in line.corners:
            squares.setdefault((round(x / CELL), round(y / CELL)), []).append((x, y))
    found = []
    for x, y in wanted:
        i, j = round(x / CELL), round(y / CELL)
        near = (p for a in (i - 1, i, i + 1) for b in (j - 1, j, j + 1) for p in squares.get((a, b), ()))
        found.append(min((hypot(p[0] - x, p[1] - y) for p in near), default=inf))
    return found


def off_lines(wanted: Iterable[Point], lines: Iterable[Line]) -> list[float]:
    """How far each wanted point is from the nearest line that was read, mm."""
    pieces = [pair for line in lines for pair in pairwise(line.flat)]
    return [min((_to_piece(point, a, b) for a, b in pieces), default=inf) for point in wanted]


def _to_piece(p: Point, a: Point, b: Point) -> float:
    along = (b[0] - a[0], b[1] - a[1])
    square = along[0] ** 2 + along[1] ** 2
    if not square:
        return dist(p, a)
    share = max(0.0, min(1.0, ((p[0] - a[0]) * along[0] + (p[1] - a[1]) * along[1]) / square))
    return dist(p, (a[0] + share * along[0], a[1] + share * along[1]))


def size(wanted: list[Point], lines: Iterable[Line]) -> str:
    """What is off, in words: the whole is smaller or larger, or lies elsewhere."""
    read = [p for line in lines for p in line.corners]
    if not read:
        return "are not where they were drawn: the sheet is empty"
    spans = [max(p[axis] for p in points) - min(p[axis] for p in points)
             for points in (wanted, read) for axis in (0, 1)]  # fmt: skip
    if spans[0] and spans[1] and spans[2] and spans[3]:
        across, down = spans[2] / spans[0], spans[3] / spans[1]
        if abs(across - 1) > 0.0005 or abs(down - 1) > 0.0005:
            return f"are off: the sheet is drawn at {across:.2%} across and {down:.2%} down"
    return "are not where they were drawn"


PROOF = Proof(
    "patterns", "Patterns and gauges at true size",
    "A part that is cut along a pattern of another size, or passed by such a gauge, does not fit.",
    "Nothing round a pattern sheet may be scaled: look at the size that its page gives it.", look,
)  # fmt: skip
