"""Dimension lines in lanes outside the outline.

The habits are those of ASME Y14.5 and ISO 129-1: first lane 10 mm off the outline, lanes 6 mm apart,
shortest dimension nearest, extension lines that begin 1.5 mm off and end 3 mm beyond, arrows three
times as long as wide, the number in a break of the line and always upright.  Where the number does not
fit between the arrows it goes outside them.  No number meets another number or a line.
"""

from __future__ import annotations

from collections.abc import Iterable
from itertools import count, islice, product
from math import atan2, cos, degrees, radians, sin
from typing import NamedTuple

from builder.drawings.geometry import meets_box
from builder.drawings.measure import CAP_HEIGHT, DESCENT, LINE_PITCH, text_width
from builder.drawings.shapes import (
    ARROW_LENGTH,
    Arc,
    Arrow,
    Box,
    Hatch,
    Point,
    Polyline,
    Shape,
    Text,
    segment,
)

FIRST_LANE = 10.0
LANE_PITCH = 6.0
EXTENSION_GAP = 1.5
OVERSHOOT = 3.0
TEXT_GAP = 1.2
"""Blank on both sides of a number that breaks its line, mm."""

SPECK = 1.0
"""A piece of a broken extension line that is no longer is left out: it looks like a stop, mm."""

TAIL = 5.0
"""Length of the line behind an arrow that points inwards, mm."""


class Linear(NamedTuple):
    """A dimension between two points on paper, measured horizontally ("along") or vertically ("across")."""

    text: str
    start: Point
    end: Point
    way: str = "along"


class Layout(NamedTuple):
    """Shapes of some labels, and the boxes of their texts."""

    shapes: tuple[Shape, ...]
    boxes: tuple[Box, ...]


class _Lane(NamedTuple):
    """One placed horizontal dimension: the stretch of its lane it needs, its number's box, its extensions."""

    lane: int
    low: float
    high: float
    text: Box
    xs: tuple[float, float]


def _text_box(centre: Point, lines: tuple[str, ...]) -> Box:
    width = max(text_width(line) for line in lines)
    height = CAP_HEIGHT + (len(lines) - 1) * LINE_PITCH
    return Box(
        centre[0] - width / 2,
        centre[1] - height / 2,
        centre[0] + width / 2,
        centre[1] + height / 2 + DESCENT,
    )


def _texts(centre: Point, lines: tuple[str, ...]) -> list[Shape]:
    height = CAP_HEIGHT + (len(lines) - 1) * LINE_PITCH
    top = centre[1] - height / 2 + CAP_HEIGHT
    return [Text((centre[0], top + i * LINE_PITCH), line, "middle") for i, line in enumerate(lines)]


def stacked(text: str) -> tuple[str, ...]:
    """A number and its other unit in brackets, one above the other."""
    first, bracket, second = text.partition(" (")
    return (first, f"({second}") if bracket else (text,)


def below(dims: Iterable[Linear], outline: Box, avoid: Iterable[Box] = ()) -> Layout:
    """Horizontal dimensions in lanes below an outline; `avoid` holds boxes of texts already there."""
    shapes: list[Shape] = []
    boxes: list[Box] = []
    blocked = list(avoid)
    wanted = sorted(
        dims, key=lambda d: (round(abs(d.end[0] - d.start[0]), 3), min(d.start[0], d.end[0]), d.text)
    )
    placed = _lanes(wanted, outline, blocked)
    boxes += [spot.text for spot in placed]
    for dim, spot in zip(wanted, placed, strict=True):
        y = _lane_y(outline, spot.lane)
        for point in (dim.start, dim.end):
            ends = (point[1] + EXTENSION_GAP, y + OVERSHOOT)
            shapes += _extension(ends, point[0], [*boxes, *blocked], vertical=True)
        shapes += _line_and_arrows(spot.xs, y, spot.text, vertical=False)
        middle = ((spot.text.left + spot.text.right) / 2, y)
        shapes += _texts(middle, (dim.text,))
    return Layout(tuple(shapes), tuple(boxes))


def _lane_y(outline: Box, lane: int) -> float:
    return outline.bottom + FIRST_LANE + lane * LANE_PITCH


MOST_TRIED = 16
"""So many ways to put the numbers of short dimensions to the left or the right are tried."""


def _lanes(wanted: list[Linear], outline: Box, blocked: list[Box]) -> list[_Lane]:
    """A lane and a place of the number for each: of all choices of the side on which a number that does not
    fit stands, the first that lets the fewest extension lines run through a number, in the fewest lanes."""
    best: tuple[tuple[int, int], list[_Lane]] | None = None
    short = [not _fits(d) for d in wanted]
    for sides in islice(product(*((0, 1) if s else (0,) for s in short)), MOST_TRIED):
        placed: list[_Lane] = []
        for dim, first in zip(wanted, sides, strict=True):
            placed.append(_lane_for(dim, placed, outline, blocked, first))
        struck = sum(_crosses(p, placed[:i]) for i, p in enumerate(placed))
        cost = (struck, max((p.lane for p in placed), default=0))
        if best is None or cost < best[0]:
            best = (cost, placed)
        if not struck and cost[1] < len(wanted):
            break
    return best[1] if best is not None else []


def _fits(dim: Linear) -> bool:
    """True if the number of a horizontal dimension fits between its arrows."""
    return abs(dim.end[0] - dim.start[0]) >= text_width(dim.text) + 2 * (ARROW_LENGTH + TEXT_GAP)


def _lane_for(dim: Linear, placed: list[_Lane], outline: Box, blocked: list[Box], first: int) -> _Lane:
    """The nearest lane and place of the number that meets nothing, or else the first free lane.

    A number that does not fit stands on the right first, or on the left if `first` is 1.
    """
    x0, x1 = sorted((dim.start[0], dim.end[0]))
    width = text_width(dim.text)
    fits = _fits(dim)
    outside = width / 2 + TEXT_GAP + (TAIL if x1 - x0 < 2 * ARROW_LENGTH + 1 else 0)
    middles = [(x0 + x1) / 2] if fits else [x1 + outside, x0 - outside]
    if first:
        middles.reverse()
    fallback: _Lane | None = None
    for lane in count():
        y = _lane_y(outline, lane)
        for middle in middles:
            box = _text_box((middle, y), (dim.text,))
            low = min(x0, box.left) - (0 if fits else TAIL)
            high = max(x1, box.right) + (0 if fits else TAIL)
            candidate = _Lane(lane, low, high, box, (x0, x1))
            if any(p.lane == lane and low < p.high + 2 and p.low < high + 2 for p in placed):
                continue
            if any(box.roomy(1).meets(b) for b in blocked):
                continue
            if fallback is None:
                fallback = candidate
            if not _crosses(candidate, placed):
                return candidate
        if lane > len(placed) + 6 and fallback is not None:
            return fallback
    raise AssertionError("unreachable: count() does not end")


def _crosses(new: _Lane, placed: list[_Lane]) -> bool:
    """True if an extension line would run through a number."""
    for p in placed:
        wide = p.text.grown(0.8)
        if p.lane < new.lane and any(wide.left < x < wide.right for x in new.xs):
            return True
        mine = new.text.grown(0.8)
        if new.lane < p.lane and any(mine.left < x < mine.right for x in p.xs):
            return True
    return False


def _extension(ends: tuple[float, float], level: float, boxes: list[Box], *, vertical: bool) -> list[Shape]:
    """An extension line on a level, broken where a text stands in its way."""
    spans = [(min(ends), max(ends))]
    for box in boxes:
        wide = box.grown(0.8)
        low, high = (wide.top, wide.bottom) if vertical else (wide.left, wide.right)
        across = (wide.left, wide.right) if vertical else (wide.top, wide.bottom)
        if across[0] < level < across[1]:
            both = [s for a, b in spans for s in ((a, min(b, low)), (max(a, high), b))]
            spans = [(a, b) for a, b in both if b - a > SPECK]
    if vertical:
        return [segment((level, a), (level, b), "extension") for a, b in spans]
    return [segment((a, level), (b, level), "extension") for a, b in spans]


def _line_and_arrows(ends: tuple[float, float], level: float, text: Box, *, vertical: bool) -> list[Shape]:
    """A dimension line on a level, broken for its number, with arrows inside or outside."""
    a, b = ends

    def p(along: float) -> Point:
        return (level, along) if vertical else (along, level)

    start, stop = (text.top, text.bottom) if vertical else (text.left, text.right)
    lean = 90.0 if vertical else 0.0
    found: list[Shape] = []
    inside = b - a >= 2 * ARROW_LENGTH + 1
    if inside:
        arrows = ((a, lean + 180), (b, lean))
        low, high = a, b
        if start > b:
            high = start - TEXT_GAP
        elif stop < a:
            low = stop + TEXT_GAP
    else:
        arrows = ((a, lean), (b, lean + 180))
        low, high = a - ARROW_LENGTH - 2, b + ARROW_LENGTH + 2
        if start > b:
            high = max(high, start - TEXT_GAP)
        elif stop < a:
            low = min(low, stop + TEXT_GAP)
    if low < start and stop < high:
        found += [
            segment(p(low), p(start - TEXT_GAP), "dimension"),
            segment(p(stop + TEXT_GAP), p(high), "dimension"),
        ]
    else:
        found.append(segment(p(low), p(high), "dimension"))
    found += [Arrow(p(at), heading % 360, "dimension") for at, heading in arrows]
    return found


def beside(dims: Iterable[Linear], outline: Box, avoid: Iterable[Box] = (), *, side: str = "left") -> Layout:
    """Vertical dimensions in lanes to the left or right of an outline; numbers upright, units stacked."""
    shapes: list[Shape] = []
    boxes: list[Box] = []
    avoid = list(avoid)
    taken = list(avoid)
    extensions: list[tuple[tuple[float, float], float]] = []
    sign = -1.0 if side == "left" else 1.0
    edge = outline.left if side == "left" else outline.right
    wanted = sorted(
        dims, key=lambda d: (round(abs(d.end[1] - d.start[1]), 3), min(d.start[1], d.end[1]), d.text)
    )
    for dim in wanted:
        y0, y1 = sorted((dim.start[1], dim.end[1]))
        lines = stacked(dim.text)
        half = (CAP_HEIGHT + (len(lines) - 1) * LINE_PITCH) / 2
        fits = y1 - y0 >= 2 * half + 2 * (ARROW_LENGTH + TEXT_GAP) + DESCENT
        tail = ARROW_LENGTH + 2 if y1 - y0 < 2 * ARROW_LENGTH + 1 else 0.0
        middles = [(y0 + y1) / 2] if fits else [y0 - tail - half - 2, y1 + tail + half + 1]
        width = max(text_width(line) for line in lines)
        x, middle, box = _clear_lane(edge, sign, (y0, y1), tail, middles, width, lines, taken)
        extensions += [
            ((point[0] + sign * EXTENSION_GAP, x + sign * OVERSHOOT), point[1])
            for point in (dim.start, dim.end)
        ]
        shapes += _line_and_arrows((y0, y1), x, box, vertical=True)
        shapes += _texts((x, middle), lines)
        boxes.append(box)
        taken += [box, Box(x - 0.1, y0 - tail, x + 0.1, y1 + tail)]
    for ends, level in extensions:
        shapes += _extension(ends, level, [*boxes, *avoid], vertical=False)
    return Layout(tuple(shapes), tuple(boxes))


def _clear_lane(
    edge: float,
    sign: float,
    ends: Point,
    tail: float,
    middles: list[float],
    width: float,
    lines: tuple[str, ...],
    taken: list[Box],
) -> tuple[float, float, Box]:
    """The nearest x at which a vertical line and its number meet nothing that is taken."""
    for step in count():
        x = edge + sign * (max(FIRST_LANE, width / 2 + 3) + step * LANE_PITCH / 2)
        for middle in middles:
            box = _text_box((x, middle), lines)
            line = Box(x - 1, min(ends[0] - tail, box.top), x + 1, max(ends[1] + tail, box.bottom))
            if not any(box.roomy(1.5).meets(b) or line.grown(2).meets(b) for b in taken):
                return x, middle, box
    raise AssertionError("unreachable: count() does not end")


def angular(
    text: str, centre: Point, radius: float, a: Point, b: Point, among: Iterable[Shape] = ()
) -> Layout:
    """An angle between two directions from a centre, as an arc with arrows; the number stands outside it.

    The arc runs clockwise on paper from `a` to `b`.  The number stands clear of the shapes it is `among`:
    off the middle of the arc, or at the end of a leader beyond them.
    """
    among = tuple(among)
    start = degrees(atan2(a[1] - centre[1], a[0] - centre[0]))
    sweep = (degrees(atan2(b[1] - centre[1], b[0] - centre[0])) - start) % 360
    arc = Arc(centre, radius, radius, "dimension", None, 0.0, start, sweep)
    shapes: list[Shape] = [arc]
    if radius * radians(sweep) > 3 * ARROW_LENGTH:
        lean = degrees(ARROW_LENGTH / 2 / radius)
        shapes += [
            Arrow(arc.at(0), (start - 90 + lean) % 360, "dimension"),
            Arrow(arc.at(1), (start + sweep + 90 - lean) % 360, "dimension"),
        ]
    width = text_width(text)

    def spot(share: float, more: float) -> Point:
        way = radians(start + sweep * share)
        # far enough out that the nearest corner of the number clears the arc
        off = radius + 1.5 + more + width / 2 * abs(cos(way)) + (CAP_HEIGHT / 2 + DESCENT) * abs(sin(way))
        return (centre[0] + off * cos(way), centre[1] + off * sin(way))

    def clear(at: Point) -> bool:
        return not any(runs_through(s, _text_box(at, (text,)).grown(0.6)) for s in among)

    near = (spot(share, more) for more in (0.0, 1.5) for share in (0.5, 0.4, 0.6, 0.3, 0.7))
    at = next((p for p in near if clear(p)), None)
    if at is None:
        far = (spot(0.5, 3.0 * i) for i in range(1, 40))
        at = next((p for p in far if clear(p)), spot(0.5, 0.0))
        tail = _towards(_text_box(at, (text,)).grown(0.8), arc.at(0.5))
        shapes.append(segment(arc.at(0.5), tail, "leader"))
    shapes += _texts(at, (text,))
    return Layout(tuple(shapes), (_text_box(at, (text,)),))


def _towards(box: Box, p: Point) -> Point:
    """Where the line from a point outside a box to its middle enters it."""
    x, y = (box.left + box.right) / 2, (box.top + box.bottom) / 2
    dx, dy = p[0] - x, p[1] - y
    share = min(box.width / 2 / max(abs(dx), 1e-9), box.height / 2 / max(abs(dy), 1e-9), 1.0)
    return (x + dx * share, y + dy * share)


def runs_through(shape: Shape, box: Box) -> bool:
    """True if a line passes through the inside of a box; arcs are walked every tenth of a radian."""
    if isinstance(shape, Polyline):
        points = [*shape.points, shape.points[0]] if shape.closed else list(shape.points)
    elif isinstance(shape, Arc):
        n = max(4, round(abs(radians(shape.sweep)) * 10))
        points = [shape.at(i / n) for i in range(n + 1)]
    elif isinstance(shape, Hatch):
        return any(meets_box(a, b, box) for a, b in shape.runs)
    elif isinstance(shape, Arrow):
        points = [*shape.corners(), shape.tip]
    else:
        return False
    return any(meets_box(a, b, box) for a, b in zip(points, points[1:], strict=False))


def crossings(shapes: Iterable[Shape], box: Box) -> list[Polyline]:
    """The straight lines that run through a box: for tests, and for whoever places one more label."""
    found: list[Polyline] = []
    for shape in shapes:
        if isinstance(shape, Polyline):
            ends = (*shape.points, shape.points[0]) if shape.closed else shape.points
            if any(meets_box(a, b, box) for a, b in zip(ends, ends[1:], strict=False)):
                found.append(shape)
    return found
