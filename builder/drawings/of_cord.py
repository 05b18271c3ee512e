"""A cord as it is seen: one smooth line through its points, unbroken from where it comes into sight to where
it goes out of it."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from itertools import accumulate, pairwise
from math import ceil, hypot, sqrt

from builder.drawings.bodies import Camera
from builder.drawings.shapes import Point
from builder.drawings.vectors import Vec, dot

CHORD = 0.04
"""A straight piece leaves the curve that it stands for by no more than about this, mm on paper."""

MOST = 8
"""So many straight pieces at most make the curve between two points."""

Spans = Callable[[Callable[[float], Vec], float, Sequence[Point], float], list[tuple[float, float]]]
"""Shares between which a line is visible, from its point at a share, its length on paper, points on paper
between which it lies, and its least depth."""

Runs = list[tuple[Point, ...]]


def between(p: float, a: float, b: float, q: float, t: float) -> float:
    """A coordinate, at the share t, of the curve from a to b that comes from p and goes on to q (Catmull and
    Rom's spline)."""
    linear, square, cube = b - p, 2 * p - 5 * a + 4 * b - q, 3 * a - p - 3 * b + q
    return a + t * (linear + t * (square + t * cube)) / 2


def smooth(points: Sequence[Vec], camera: Camera) -> list[Vec]:
    """Points of the curve through some points, in the world, close enough for the scale of the picture; what
    is straight gets none in addition."""
    found: list[Vec] = []
    for i, (a, b) in enumerate(pairwise(points)):
        # beyond its ends it goes on straight
        p = points[i - 1] if i else _beyond(b, a)
        q = points[i + 2] if i + 2 < len(points) else _beyond(a, b)
        bends = (camera.paper(_bend(p, a, b)), camera.paper(_bend(a, b, q)))
        most = max(hypot(*bend) for bend in bends)
        count = min(MOST, max(1, ceil(sqrt(most / 8 / CHORD) - 1e-6)))
        for n in range(count):
            x, y, z = (between(*own, n / count) for own in zip(p, a, b, q, strict=True))
            found.append((x, y, z))
    return [*found, points[-1]]


def _beyond(a: Vec, b: Vec) -> Vec:
    return (2 * b[0] - a[0], 2 * b[1] - a[1], 2 * b[2] - a[2])


def _bend(a: Vec, b: Vec, c: Vec) -> Vec:
    """How much a way turns at its middle point."""
    return (a[0] - 2 * b[0] + c[0], a[1] - 2 * b[1] + c[1], a[2] - 2 * b[2] + c[2])


def cord_runs(
    points: Sequence[Vec], camera: Camera, spans: Spans, shortest: float = 0.0
) -> tuple[Runs, Runs]:
    """The visible stretches on paper of a cord through world points, and the hidden ones, each in order; no
    hidden one that is shorter than this, mm on paper."""
    way = smooth(points, camera)
    paper = [camera.paper(p) for p in way]
    pieces = [hypot(b[0] - a[0], b[1] - a[1]) for a, b in pairwise(paper)]
    length = sum(pieces)
    if length < 1e-6:
        return [], []
    shares = [far / length for far in accumulate(pieces, initial=0.0)]

    def at(share: float) -> Vec:
        i = next((i for i in range(len(pieces)) if share <= shares[i + 1]), len(pieces) - 1)
        along = (share - shares[i]) / max(shares[i + 1] - shares[i], 1e-12)
        (ax, ay, az), (bx, by, bz) = way[i], way[i + 1]
        return (ax + (bx - ax) * along, ay + (by - ay) * along, az + (bz - az) * along)

    def run(start: float, end: float) -> tuple[Point, ...]:
        inner = [p for p, share in zip(paper, shares, strict=True) if start + 1e-6 < share < end - 1e-6]
        return (camera.paper(at(start)), *inner, camera.paper(at(end)))

    seen = spans(at, length, paper, min(dot(p, camera.toward) for p in way))
    breaks = [0.0, *(share for span in seen for share in span), 1.0]
    gaps = zip(breaks[::2], breaks[1::2], strict=True)
    hidden = [(s, e) for s, e in gaps if e - s > 1e-6 and (e - s) * length >= shortest]
    return [run(*span) for span in seen], [run(*span) for span in hidden]


def along(points: Sequence[Point], share: float) -> Point:
    """The point at a share (0 to 1) of the length of a way on paper."""
    pieces = [hypot(b[0] - a[0], b[1] - a[1]) for a, b in pairwise(points)]
    left = share * sum(pieces)
    for (a, b), length in zip(pairwise(points), pieces, strict=True):
        if left <= length:
            part = left / max(length, 1e-12)
            return (a[0] + (b[0] - a[0]) * part, a[1] + (b[1] - a[1]) * part)
        left -= length
    return points[-1]
