"""Names round a picture that has parts everywhere: each beside its part, its leader over few lines.

The paper is a grid of cells: those that a line crosses, and those that a part covers.  For each name a
fixed set of places round its part is tried, and the cheapest taken; names of the longest lines come
first, so that the same picture always gives the same layout.
"""

from __future__ import annotations

from math import ceil, cos, hypot, radians, sin
from typing import NamedTuple

from builder.drawings.callouts import Callout, Layout
from builder.drawings.ends import DOT
from builder.drawings.geometry import meets_box
from builder.drawings.measure import CAP_HEIGHT, text_width
from builder.drawings.shapes import Arc, Box, Hatch, Point, Polyline, Shape, Text, box_of, circle, segment

CELL = 1.6
"""Side of a cell, mm on paper."""

REACH = 46.0
"""How far outside the picture a name may stand, mm."""

DISTANCES = (6.0, 9.0, 13.0, 18.0, 25.0, 34.0, 46.0)
"""Lengths of a leader that are tried, mm."""

DIRECTIONS = tuple((cos(radians(a)), sin(radians(a))) for a in range(-75, 285, 30))
"""Ways of a leader that are tried: none is level or upright, so that it is not taken for an edge."""

RING = 3.0
"""Least radius of the ring round a letter, mm."""

TAIL = 0.3
"""The ring is so much larger round a letter that reaches below its base line, mm."""

ATTEMPTS = 8
"""So often a layout is begun anew because some name found no room."""

TALL = 1000.0
"""Height of a picture that has none to keep to, mm."""

CLEAR = 1.0
"""Room round a name, mm."""


class Ground(NamedTuple):
    """Cells of the paper, row by row as bits: those that a line crosses, and those that anything covers."""

    left: float
    top: float
    bottom: float
    lines: dict[int, int]
    taken: dict[int, int]
    sides: tuple[float, float]
    levels: tuple[float, float]
    """Names stand between these, from left to right and from top to bottom, mm."""

    def cell(self, p: Point) -> tuple[int, int]:
        return int((p[0] - self.left) // CELL), int((p[1] - self.top) // CELL)

    def free(self, box: Box) -> bool:
        """True if neither a line nor a part lies under a box."""
        x0, y0 = self.cell((box.left, box.top))
        x1, y1 = self.cell((box.right, box.bottom))
        # bits of columns left of the paper do not exist; nothing lies there
        low, high = max(x0, 0), max(x1 + 1, 0)
        bits = ((1 << (high - low)) - 1) << low
        return all(not self.taken.get(y, 0) & bits for y in range(y0, y1 + 1))

    def crossed(self, a: Point, b: Point) -> int:
        """How many cells with a line a leader from `a` to `b` passes, after leaving its own edge."""
        length = hypot(b[0] - a[0], b[1] - a[1])
        n = ceil(length / CELL)
        own = last = self.cell(a)
        passed = 0
        for i in range(2, n + 1):
            at = self.cell((a[0] + (b[0] - a[0]) * i / n, a[1] + (b[1] - a[1]) * i / n))
            if at not in (own, last) and at[0] >= 0:
                passed += self.lines.get(at[1], 0) >> at[0] & 1
            last = at
        return passed


def ground(
    shapes: list[Shape], hulls: list[tuple[Point, ...]], widest: float, tallest: float = TALL
) -> Ground:
    """The cells that lines and covered outlines take."""
    box = (box_of(shapes) or Box(0, 0, 1, 1)).grown(REACH)
    middle = (box.left + box.right) / 2
    sides = (middle - widest / 2, middle + widest / 2)
    level = (box.top + box.bottom) / 2
    levels = (level - tallest / 2, level + tallest / 2)
    made = Ground(box.left, box.top, box.bottom - REACH, {}, {}, sides, levels)
    for shape in shapes:
        for a, b in _pieces(shape):
            n = max(1, ceil(hypot(b[0] - a[0], b[1] - a[1]) / (CELL * 0.7)))
            for i in range(n + 1):
                x, y = made.cell((a[0] + (b[0] - a[0]) * i / n, a[1] + (b[1] - a[1]) * i / n))
                made.lines[y] = made.lines.get(y, 0) | 1 << x
    made.taken.update(made.lines)
    for hull in hulls:
        _cover(made, hull)
    return made


def _pieces(shape: Shape) -> list[tuple[Point, Point]]:
    """The straight pieces of a shape."""
    if isinstance(shape, Polyline):
        ring = (*shape.points, shape.points[0]) if shape.closed else shape.points
        return list(zip(ring, ring[1:], strict=False))
    if isinstance(shape, Arc):
        n = max(4, ceil(abs(shape.sweep) / 15))
        points = [shape.at(i / n) for i in range(n + 1)]
        return list(zip(points, points[1:], strict=False))
    if isinstance(shape, Hatch):
        return list(shape.runs)
    return []


def _cover(made: Ground, hull: tuple[Point, ...]) -> None:
    """Mark the cells whose middle lies in a convex outline, row by row."""
    ys = [p[1] for p in hull]
    for row in range(int((min(ys) - made.top) // CELL), int((max(ys) - made.top) // CELL) + 1):
        y = made.top + (row + 0.5) * CELL
        xs = []
        x0, y0 = hull[-1]
        for x1, y1 in hull:
            if (y0 > y) != (y1 > y):
                xs.append(x0 + (x1 - x0) * (y - y0) / (y1 - y0))
            x0, y0 = x1, y1
        if len(xs) < 2:
            continue
        first = int((min(xs) - made.left) // CELL)
        count = int((max(xs) - made.left) // CELL) + 1 - first
        made.taken[row] = made.taken.get(row, 0) | ((1 << count) - 1) << first


def convex(points: list[Point]) -> tuple[Point, ...]:
    """The convex hull of some points, in order."""
    kept = sorted(set(points))
    if len(kept) < 3:
        return tuple(kept)
    halves: list[list[Point]] = []
    for run in (kept, kept[::-1]):
        half: list[Point] = []
        for p in run:
            while len(half) > 1 and (
                (half[-1][0] - half[-2][0]) * (p[1] - half[-2][1])
                - (half[-1][1] - half[-2][1]) * (p[0] - half[-2][0])
                <= 0
            ):
                half.pop()
            half.append(p)
        halves.append(half[:-1])
    return tuple(halves[0] + halves[1])


class _Place(NamedTuple):
    """Where a name may stand: the end of its leader, where it leads to, and its box."""

    tail: Point
    at: Point
    box: Box


def around(
    callouts: list[Callout],
    shapes: list[Shape],
    hulls: list[tuple[Point, ...]],
    widest: float = 400.0,
    tallest: float = TALL,
) -> Layout:
    """Every name beside what it names; a letter stands before a tab in its text.

    No name covers a line, a part or another name; picture and names are `widest` mm wide and `tallest` mm
    high at most, unless a name finds no room.
    """
    if not callouts:
        return Layout((), ())
    under = ground(shapes, hulls, widest, tallest)
    order = sorted(callouts, key=lambda c: (len(c.anchors), -text_width(c.text), c.text))
    places: dict[int, _Place] = {}
    for attempt in range(ATTEMPTS):
        if attempt:
            # what found no room is placed first; only before a new attempt, since places go by the order
            order.insert(0, order.pop(len(places)))
        places = {}
        for n, callout in enumerate(order):
            place = _best(callout, under, list(places.values()))
            if place is None:
                break
            places[n] = place
        if len(places) == len(order):
            break
    found: list[Shape] = []
    for n, callout in enumerate(order):
        if n not in places:
            places[n] = _best(callout, under, list(places.values())) or _below(
                callout, under, list(places.values())
            )
        tail, at, _ = places[n]
        found += [segment(tail, at, "leader"), circle(at, DOT, "dot"), *_words(callout.text, places[n])]
    # lines of one kind beside one another are one path in the file
    found.sort(key=lambda s: ("leader", "dot", "text").index(s.line))
    return Layout(tuple(found), tuple(one.box for one in places.values()))


def _best(callout: Callout, under: Ground, standing: list[_Place]) -> _Place | None:
    """The cheapest place for a name beside those that stand; None if there is no room."""
    wide = _width(callout.text)
    others = [(other, other.box.grown(CLEAR)) for other in standing]
    least, most = under.sides
    best: tuple[float, _Place] | None = None
    for preference, at in enumerate(_spread(callout.anchors)):
        for way in DIRECTIONS:
            off = 0.0 if way[0] >= 0 else wide
            for distance in DISTANCES:
                cost = distance + preference * 0.5
                if best is not None and cost >= best[0]:
                    break
                left = at[0] + way[0] * distance - off
                if left - CLEAR < least or left + wide + CLEAR > most:
                    continue
                one = _placed(at, way, distance, wide)
                more = _cost(one, under, others)
                if more is not None and (best is None or cost + more < best[0] - 1e-9):
                    best = (cost + more, one)
    return best[1] if best is not None else None


def _spread(anchors: tuple[Point, ...]) -> list[Point]:
    """At most six of the anchors, none near another."""
    kept: list[Point] = []
    for a in anchors:
        if all(hypot(a[0] - k[0], a[1] - k[1]) > 5.0 for k in kept):
            kept.append(a)
        if len(kept) == 6:
            break
    return kept or list(anchors[:1])


def _ring(letter: str) -> float:
    """Radius of the ring round a letter; 0 for none."""
    tail = TAIL if "Q" in letter else 0.0
    return max(RING + tail, text_width(letter) / 2 + 0.9) if letter else 0.0


def _width(text: str) -> float:
    """How much a name takes, with its ring."""
    letter, _, name = text.rpartition("\t")
    return text_width(name) + (2 * _ring(letter) + 1.2 if letter else 1.0)


def _placed(at: Point, way: Point, distance: float, wide: float) -> _Place:
    x, y = at[0] + way[0] * distance, at[1] + way[1] * distance
    left = x if way[0] >= 0 else x - wide
    return _Place((x, y), at, Box(left, y - RING, left + wide, y + RING))


def _words(text: str, place: _Place) -> list[Shape]:
    """A name at the end of its leader: its letter in a ring, then its words away from the part."""
    letter, _, name = text.rpartition("\t")
    x, y = place.tail
    sign, anchor = (1.0, "start") if place.box.right > x + 1e-6 else (-1.0, "end")
    if not letter:
        return [Text((x + sign, y + CAP_HEIGHT / 2), name, anchor)]
    r = _ring(letter)
    return [
        circle((x + sign * r, y), r, "leader"),
        Text((x + sign * r, y + CAP_HEIGHT / 2), letter, "middle"),
        Text((x + sign * (2 * r + 1.2), y + CAP_HEIGHT / 2), name, anchor),
    ]


def _cost(one: _Place, under: Ground, standing: list[tuple[_Place, Box]]) -> float | None:
    """What a place costs beyond the length of its leader; None where it covers something.  The names that
    stand come with the room round them."""
    if one.box.top < under.levels[0] or one.box.bottom > under.levels[1]:
        return None
    room = one.box.grown(CLEAR)
    left, top, right, bottom = room
    for other, _ in standing:
        low, high, far, deep = other.box
        if left < far and low < right and top < deep and high < bottom:
            return None
    if not under.free(room):
        return None
    for other, its in standing:
        if meets_box(other.tail, other.at, room) or meets_box(one.tail, one.at, its):
            return None
        if _cross(one, other):
            return None
    return 9.0 * under.crossed(one.at, one.tail)


def _cross(a: _Place, b: _Place) -> bool:
    def side(p: Point, q: Point, r: Point) -> float:
        return (q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0])

    return (
        side(a.tail, a.at, b.tail) * side(a.tail, a.at, b.at) <= 0
        and side(b.tail, b.at, a.tail) * side(b.tail, b.at, a.at) <= 0
    )


def _below(callout: Callout, under: Ground, standing: list[_Place]) -> _Place:
    """A row below everything, for a name that has no room elsewhere."""

    def struck(a: Point) -> int:
        return sum(meets_box(a, (a[0], a[1] + 500.0), s.box.grown(CLEAR)) for s in standing)

    at = min(callout.anchors, key=lambda a: (struck(a), -a[1], a[0]))
    wide = _width(callout.text)
    y = max([under.bottom, *(s.box.bottom for s in standing)]) + 6.0
    return _Place((at[0], y), at, Box(at[0], y - RING, at[0] + wide, y + RING))
