"""Surfaces laid flat: marks round a tube, a wound strip, cones and frustums.

Plain geometry; lengths are in one unit of the caller's choice, angles in degrees.  The tests compare
each with published tables.
"""

from __future__ import annotations

from math import asin, cos, degrees, hypot, pi, radians, sin, sqrt
from typing import NamedTuple

from builder.drawings.shapes import Point


def circumference_marks(diameter: float, count: int) -> tuple[float, ...]:
    """Distances round a tube of `count` equal marks, from the first: each k pi D / N by itself.

    Never one rounded step repeated: on a 1 in tube six steps of 17/32 in close 0.046 in too late.
    """
    return tuple(k * pi * diameter / count for k in range(count))


def chord(diameter: float, count: int) -> float:
    """Straight distance of two neighbouring marks: D sin(pi / N)."""
    return diameter * sin(pi / count)


class Wrap(NamedTuple):
    """A strip wound round a tube: `angle` between the strip and the hoop direction, and two lengths.

    `trimmed` is the strip's length with its ends cut square to the tube, `uncut` that of one plain
    strip from which nothing is cut off.
    """

    angle: float
    pitch: float
    trimmed: float
    uncut: float


def helical_wrap(diameter: float, strip: float, length: float, overlap: float = 0.0) -> Wrap:
    """Wind a strip of a width round a tube: sin(angle) = w / (pi D), with w the width less the overlap.

    Many texts measure the angle from the axis; theirs is 90 degrees less this one.  ValueError if the
    strip is as wide as the tube is round.
    """
    w = strip - overlap
    around = pi * diameter
    if not 0 < w < around:
        raise ValueError("the strip less its overlap must be narrower than the tube is round")
    angle = asin(w / around)
    trimmed = around * length / w
    return Wrap(degrees(angle), w / cos(angle), trimmed, trimmed + sqrt(around * around - w * w))


class Sector(NamedTuple):
    """A cone laid flat: a sector between two radii; `inner` is 0 for a whole cone."""

    inner: float
    outer: float
    angle: float

    @property
    def area(self) -> float:
        return radians(self.angle) / 2 * (self.outer**2 - self.inner**2)

    @property
    def arc(self) -> float:
        """Length of the outer arc."""
        return radians(self.angle) * self.outer

    @property
    def chord(self) -> float:
        """Straight distance of the two ends of the outer arc."""
        return 2 * self.outer * sin(radians(self.angle) / 2)

    def outline(self, step: float = 1.0) -> tuple[Point, ...]:
        """The outline as points, at least one for every `step` degrees."""
        n = max(2, round(self.angle / step) + 1)
        turns = [radians(self.angle) * i / (n - 1) for i in range(n)]
        outer = [(self.outer * cos(t), self.outer * sin(t)) for t in turns]
        if self.inner <= 0:
            return ((0.0, 0.0), *outer)
        return (*outer, *((self.inner * cos(t), self.inner * sin(t)) for t in reversed(turns)))


def cone(radius: float, height: float) -> Sector:
    """A cone laid flat: slant s = sqrt(r^2 + h^2), angle 360 r / s."""
    slant = hypot(radius, height)
    return Sector(0.0, slant, 360 * radius / slant)


def frustum(small: float, large: float, height: float) -> Sector:
    """A cone with its tip cut off, by its two radii: outer radius r2 s / (r2 - r1), angle 360 (r2 - r1) / s.

    ValueError if the radii are equal or in the wrong order: that is a tube.
    """
    if not 0 <= small < large:
        raise ValueError("the first radius must be the smaller one")
    slant = hypot(large - small, height)
    outer = large * slant / (large - small)
    return Sector(outer - slant, outer, 360 * (large - small) / slant)


def sagitta(radius: float, across: float) -> float:
    """Height of an arc over its chord: R - sqrt(R^2 - (c/2)^2)."""
    return radius - sqrt(radius * radius - across * across / 4)


def regular_polygon(sides: int, across_flats: float) -> tuple[Point, ...]:
    """The corners of a regular polygon about the origin, one flat at the right, anticlockwise.

    Circumradius is half the width across flats over cos(pi / n); for an odd number of sides "across
    flats" is twice the distance from the middle to a side.
    """
    r = across_flats / 2 / cos(pi / sides)
    return tuple((r * cos(pi * (2 * i + 1) / sides), r * sin(pi * (2 * i + 1) / sides)) for i in range(sides))


def polygon_area(points: tuple[Point, ...]) -> float:
    """Area of a polygon (the shoelace sum)."""
    pairs = zip(points, (*points[1:], points[0]), strict=True)
    return abs(sum(x0 * y1 - x1 * y0 for (x0, y0), (x1, y1) in pairs)) / 2
