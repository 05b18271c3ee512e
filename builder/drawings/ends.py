"""Where a leader may end in a picture, and with what.

The habits of engineering drawing for leader lines (ISO 128 and ASME Y14.2, from memory): a leader that ends
within the outline of what it names ends in a dot, one that ends on an outline in an arrowhead; it crosses few
lines, it runs along none, and no two run as one line.  A dot needs paper round it, or it is lost in a thick
line, a filled wall, a pencil cross or glue: where there is none the leader comes from outside and its
arrowhead stops at the edge of the ink, where it is seen on white.  Where another part's line lies beside the
end, one cannot tell which of the two is meant.
"""

from __future__ import annotations

from collections.abc import Iterable
from math import atan2, ceil, degrees, hypot, inf
from typing import NamedTuple

from builder.drawings.geometry import cross
from builder.drawings.shapes import Arc, Arrow, Hatch, Point, Polyline, Shape, Text, circle, segment
from builder.drawings.style import LINES

DOT = 0.35
"""Radius of the dot that ends a leader, mm; its line makes it twice as large."""

ROOM = 0.95
"""A dot is seen if the nearest ink is so far from its middle, mm."""

HEAD = 2.4
"""Length of the arrowhead that ends a leader on an outline, mm."""

TIGHT = 0.42
"""A dot still has a rim of white if the nearest ink is so far from its middle, mm: in a narrow face."""

RIM = 0.25
"""A dot on a line reaches so far beyond the line, mm."""

BESIDES = 0.45
"""A line whose middle is so near the end of an arrowhead goes on from the one that it ends on, mm."""

OTHERS = 1.5
"""Nearer to the end of a leader than this, another part's line may seem to be meant, mm."""

LEANS = 8.0
"""A leader within so many degrees of a line beside it runs along it."""

BESIDE = 1.0
"""How near a line is along which a leader seems to run, mm."""

PALE = ("hatch", "new_hatch", "named", "dimension", "extension")
"""Lines that fill a face, or stand beside a picture: a dot may sit on them, a leader may cross them."""

GLUE = "glue"
"""Whose the dots of glue are, on whatever they lie."""

ON = 0.1
"""An end no farther from a line than this is on it, mm."""

ASTRAY = 12.0
CLOSE = 4.0
CROWDED = 5.0
ON_LINE = 1.5
CROSSING = 2.5
ALONG = 1.6
DARK = 6.0
"""What ends and ways of leaders cost: an end that is seen to end at nothing, a dot that fills a narrow face,
an end beside another part's line, an arrowhead rather than a dot, each line crossed, each mm along a line,
and an arrowhead that lies across a line."""


class Piece(NamedTuple):
    """A straight piece of a line: its ends, half its width, and whose it is."""

    a: Point
    b: Point
    half: float
    part: str | None


class Spot(NamedTuple):
    """An end of a leader: where, what it costs to end there, whether a dot has room, and if it is on glue:
    its leader may pass over dots of glue."""

    at: Point
    cost: float
    dot: bool
    glue: bool = False


class Ink(NamedTuple):
    """The lines of a picture as straight pieces, and the faces that are filled in."""

    pieces: tuple[Piece, ...] = ()
    filled: tuple[tuple[tuple[Point, ...], str | None], ...] = ()

    def room(self, p: Point) -> float:
        """How far a point is from the nearest ink, mm; not above 0 in ink."""
        if any(_within(p, ring) for ring, _ in self.filled):
            return -1.0
        return min((_off(p, one) for one in self.pieces), default=inf)

    def nearest(self, p: Point, part: str | None = None) -> Point | None:
        """The point of the lines, or of those of one part, that is nearest to a point."""
        found = [_foot(p, one) for one in self.pieces if part is None or one.part == part]
        return min(found, key=lambda f: hypot(f[0] - p[0], f[1] - p[1]), default=None)

    def spot(self, at: Point, *parts: str) -> Spot:
        """What it costs to end there, on the part, mark or glue of one of these ids."""
        x, y = at
        own = {GLUE if part.startswith("band ") else part for part in parts}
        near = other = inf
        for one in self.pieces:
            (x0, y0), (x1, y1), _, whose = one
            if (
                (x0 > x + 3 and x1 > x + 3)
                or (x0 < x - 3 and x1 < x - 3)
                or (y0 > y + 3 and y1 > y + 3)
                or (y0 < y - 3 and y1 < y - 3)
            ):
                continue
            far = _off(at, one)
            if whose not in own:
                other = min(other, far)
            near = min(near, far)
        covered = [whose for ring, whose in self.filled if _within(at, ring)]
        if any(whose not in own for whose in covered):
            return Spot(at, ASTRAY, False)
        if near >= ROOM and not covered:
            return Spot(at, 0.0, True)
        if near >= TIGHT and not covered and GLUE not in own:
            return Spot(at, CLOSE, True)
        lost = 0.0 if near <= ON else ASTRAY  # beside a line, neither on it nor clear of it
        beside = CROWDED * (1.5 - max(other, 0.0) / OTHERS) if other < OTHERS else 0.0
        return Spot(at, lost + ON_LINE + beside, False, GLUE in own)

    def path(self, spot: Spot, tail: Point) -> float:
        """What the way of a leader costs: lines that it crosses, lines along which it runs, and an arrowhead
        that does not stand on white."""
        at = spot.at
        length = hypot(tail[0] - at[0], tail[1] - at[1])
        if length < 1e-6:
            return 0.0
        ux, uy = (tail[0] - at[0]) / length, (tail[1] - at[1]) / length
        left, right = min(at[0], tail[0]) - BESIDE, max(at[0], tail[0]) + BESIDE
        top, bottom = min(at[1], tail[1]) - BESIDE, max(at[1], tail[1]) + BESIDE
        passed: list[float] = []
        along = 0.0
        for (x0, y0), (x1, y1), half, whose in self.pieces:
            if spot.glue and whose == GLUE:
                continue
            if (
                (x0 > right and x1 > right)
                or (x0 < left and x1 < left)
                or (y0 > bottom and y1 > bottom)
                or (y0 < top and y1 < top)
            ):
                continue
            # along the leader from its end, and off it
            dx0, dy0, dx1, dy1 = x0 - at[0], y0 - at[1], x1 - at[0], y1 - at[1]
            s0, s1 = dx0 * ux + dy0 * uy, dx1 * ux + dy1 * uy
            t0, t1 = dy0 * ux - dx0 * uy, dy1 * ux - dx1 * uy
            if t0 * t1 < -1e-9:  # a line that only comes up to the leader is not crossed, from either side
                s = s0 + (s1 - s0) * t0 / (t0 - t1)
                if half + 0.3 < s < length:
                    passed.append(s)
            if abs(t1 - t0) <= SLOPE * abs(s1 - s0) and min(abs(t0), abs(t1)) < BESIDE + half:
                along += max(0.0, min(max(s0, s1), length) - max(min(s0, s1), 0.0))
        for ring, _ in self.filled:
            # a filled wall is one line, however wide
            passed += [s for s in _through(ring, at, (ux, uy), length) if s > 0.3]
        passed.sort()
        # two lines that run together are crossed once
        times = sum(b - a > 0.8 for a, b in zip([-1.0, *passed], passed, strict=False))
        dark = 0.0 if spot.dot or not passed or passed[0] > HEAD else DARK
        return CROSSING * times + ALONG * along + dark

    def lost(self, at: Point, way: Point) -> bool:
        """True if an arrowhead that ends on a line, on its way there, would lie across another line."""
        reach = HEAD + 0.5  # the other line is not thin either
        back = (at[0] - way[0] * reach, at[1] - way[1] * reach)
        middle = ((at[0] + back[0]) / 2, (at[1] + back[1]) / 2)
        if any(_within(p, ring) for p in (back, middle) for ring, _ in self.filled):
            return True
        return any(
            cross(at, back, one.a, one.b) and _off(at, one) + one.half > BESIDES for one in self.pieces
        )

    def end(self, at: Point, tail: Point) -> list[Shape]:
        """A leader from `tail` to `at` and what ends it there: a dot where it has room, or where an arrowhead
        would be lost in other lines; else an arrowhead whose tip stops at the edge of the ink."""
        length = hypot(tail[0] - at[0], tail[1] - at[1])
        room = self.room(at)
        if room > ON or length < HEAD + 1.0:
            return [segment(tail, at, "leader"), circle(at, DOT, "dot")]
        way = ((at[0] - tail[0]) / length, (at[1] - tail[1]) / length)
        own = [one for one in self.pieces if _off(at, one) <= ON]
        if self.lost(at, way) and not any(one.part == GLUE for one in own):  # a dot is lost among dots
            half = max((one.half for one in own), default=0.0)
            return [segment(tail, at, "leader"), circle(at, max(DOT, half + RIM), "dot")]
        tip = at
        for n in range(ceil(min(length - HEAD - 0.5, 4.0) / 0.1)):
            tip = (at[0] - way[0] * n * 0.1, at[1] - way[1] * n * 0.1)
            if self.room(tip) > 0.0:
                break
        stop = (tip[0] - way[0] * HEAD * 0.8, tip[1] - way[1] * HEAD * 0.8)
        heading = degrees(atan2(way[1], way[0]))
        return [segment(tail, stop, "leader"), Arrow(tip, round(heading, 1), "leader", None, HEAD)]


SLOPE = LEANS * 3.14159 / 180


def ink(shapes: Iterable[Shape]) -> Ink:
    """The ink of some shapes."""
    pieces: list[Piece] = []
    filled: list[tuple[tuple[Point, ...], str | None]] = []
    for s in shapes:
        if isinstance(s, Text | Arrow) or s.line in PALE:
            continue
        half = LINES[s.line].width / 2
        if isinstance(s, Polyline):
            ring = (*s.points, s.points[0]) if s.closed else s.points
            if s.filled:
                filled.append((s.points, s.part))
            runs = list(zip(ring, ring[1:], strict=False))
        elif isinstance(s, Arc):
            n = max(3, ceil(abs(s.sweep) / 20))
            points = [s.at(i / n) for i in range(n + 1)]
            runs = list(zip(points, points[1:], strict=False))
        else:
            assert isinstance(s, Hatch)
            runs = list(s.runs)
        whose = GLUE if s.line in ("glue", "bead") else s.part
        pieces += [Piece(a, b, half, whose) for a, b in runs]
    return Ink(tuple(pieces), tuple(filled))


def _off(p: Point, one: Piece) -> float:
    """How far a point is from the edge of a straight piece of line."""
    (x0, y0), (x1, y1), half, _ = one
    dx, dy = x1 - x0, y1 - y0
    long = dx * dx + dy * dy
    share = max(0.0, min(1.0, ((p[0] - x0) * dx + (p[1] - y0) * dy) / long)) if long > 1e-12 else 0.0
    return hypot(p[0] - x0 - share * dx, p[1] - y0 - share * dy) - half


def _foot(p: Point, one: Piece) -> Point:
    """The point of a straight piece of line that is nearest to a point."""
    (x0, y0), (x1, y1) = one.a, one.b
    dx, dy = x1 - x0, y1 - y0
    long = dx * dx + dy * dy
    share = max(0.0, min(1.0, ((p[0] - x0) * dx + (p[1] - y0) * dy) / long)) if long > 1e-12 else 0.0
    return (x0 + share * dx, y0 + share * dy)


def _within(p: Point, ring: tuple[Point, ...]) -> bool:
    x, y = p
    found = False
    x0, y0 = ring[-1]
    for x1, y1 in ring:
        if (y0 > y) != (y1 > y) and x < x0 + (x1 - x0) * (y - y0) / (y1 - y0):
            found = not found
        x0, y0 = x1, y1
    return found


def _through(ring: tuple[Point, ...], at: Point, way: Point, length: float) -> list[float]:
    """Where a leader is inside a filled face: once, if it is."""
    found: list[float] = []
    x0, y0 = ring[-1]
    for x1, y1 in ring:
        t0 = (y0 - at[1]) * way[0] - (x0 - at[0]) * way[1]
        t1 = (y1 - at[1]) * way[0] - (x1 - at[0]) * way[1]
        if (t0 > 0) != (t1 > 0):
            share = t0 / (t0 - t1)
            x, y = x0 + (x1 - x0) * share - at[0], y0 + (y1 - y0) * share - at[1]
            s = x * way[0] + y * way[1]
            if 0 < s < length:
                found.append(s)
        x0, y0 = x1, y1
    return found
