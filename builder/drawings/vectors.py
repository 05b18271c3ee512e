"""Three-component vectors as plain tuples, and poses: where a thing's own frame lies in the world.

World axes of a scene: x along the host (or to the right on a flat one), z up, y away from the viewer of
a side view.  Right-handed, millimetres.
"""

from __future__ import annotations

from math import cos, radians, sin, sqrt
from typing import NamedTuple

Vec = tuple[float, float, float]

X: Vec = (1.0, 0.0, 0.0)
Y: Vec = (0.0, 1.0, 0.0)
Z: Vec = (0.0, 0.0, 1.0)


def add(a: Vec, b: Vec) -> Vec:
    return (a[0] + b[0], a[1] + b[1], a[2] + b[2])


def sub(a: Vec, b: Vec) -> Vec:
    return (a[0] - b[0], a[1] - b[1], a[2] - b[2])


def times(a: Vec, k: float) -> Vec:
    return (a[0] * k, a[1] * k, a[2] * k)


def dot(a: Vec, b: Vec) -> float:
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]


def cross(a: Vec, b: Vec) -> Vec:
    return (a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0])


def unit(a: Vec) -> Vec:
    """The same direction with length 1; ZeroDivisionError for a vector without a direction."""
    return times(a, 1 / sqrt(dot(a, a)))


class Pose(NamedTuple):
    """Origin and the three unit axes of a thing's own frame, in world terms."""

    origin: Vec = (0.0, 0.0, 0.0)
    ex: Vec = X
    ey: Vec = Y
    ez: Vec = Z

    def world(self, p: Vec) -> Vec:
        """A point of the thing's own frame, in the world."""
        return (
            self.origin[0] + p[0] * self.ex[0] + p[1] * self.ey[0] + p[2] * self.ez[0],
            self.origin[1] + p[0] * self.ex[1] + p[1] * self.ey[1] + p[2] * self.ez[1],
            self.origin[2] + p[0] * self.ex[2] + p[1] * self.ey[2] + p[2] * self.ez[2],
        )

    def turned(self, direction: Vec) -> Vec:
        """A direction of the thing's own frame, in the world."""
        return sub(self.world(direction), self.origin)

    def local(self, p: Vec) -> Vec:
        """A point of the world, in the thing's own frame."""
        # written out, since nearly all the time of a drawing is spent here and in the rays
        (ox, oy, oz), (ax, ay, az), (bx, by, bz), (cx, cy, cz) = self
        x, y, z = p[0] - ox, p[1] - oy, p[2] - oz
        return (x * ax + y * ay + z * az, x * bx + y * by + z * bz, x * cx + y * cy + z * cz)

    def local_direction(self, d: Vec) -> Vec:
        return (dot(d, self.ex), dot(d, self.ey), dot(d, self.ez))


def pose(origin: Vec, ex: Vec, ey: Vec) -> Pose:
    """A pose from its first two axes; the second is squared up to the first, the third follows."""
    x = unit(ex)
    y = unit(sub(ey, times(x, dot(ey, x))))
    return Pose(origin, x, y, cross(x, y))


def round_axis(x: float, radius: float, angle: float) -> Vec:
    """A point at a station, a radius and an angle (degrees from straight up, clockwise from small x)."""
    a = radians(angle)
    return (x, -radius * sin(a), radius * cos(a))
