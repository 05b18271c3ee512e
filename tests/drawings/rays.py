"""A ray caster of the tests' own, which knows nothing of how the drawings find hidden lines.

A turned solid is made of flat facets, a slab of its faces cut into triangles by another library (shapely).
All rays are square to the paper, so what a ray meets is a matter of barycentric coordinates on paper.
"""

from __future__ import annotations

from math import cos, pi, sin

import numpy as np
from numpy.typing import NDArray
from shapely import Polygon, constrained_delaunay_triangles

from builder.drawings.scene import Placed
from builder.drawings.solids import Slab, Turned

Array = NDArray[np.float64]

FACETS = 72
"""Facets round a turned solid: they miss its skin by r (1 - cos(pi / 72)), one part in a thousand of r."""


def triangles(placed: Placed) -> Array:
    """The skin of a placed part as triangles in the world, shape (n, 3, 3)."""
    solid = placed.solid
    if isinstance(solid, Turned):
        found = _turned(solid)
    elif isinstance(solid, Slab):
        found = _slab(solid)
    else:
        found = []
    frame = np.array([placed.pose.ex, placed.pose.ey, placed.pose.ez])
    own = np.array(found, dtype=float).reshape(-1, 3, 3)
    world: Array = own @ frame + np.array(placed.pose.origin)
    return world


def _turned(solid: Turned) -> list[object]:
    found: list[object] = []
    angles = [2 * pi * i / FACETS for i in range(FACETS + 1)]
    profiles = [
        [(s.x0, s.r0, s.x1, s.r1) for s in solid.outer],
        [(s.x0, s.r0, s.x1, s.r1) for s in solid.bore],
    ]
    walls = [piece for profile in profiles for piece in profile]
    # steps between stretches, and the rings that close the two ends
    for profile in profiles:
        walls += [
            (a[2], a[3], b[0], b[1]) for a, b in zip(profile, profile[1:], strict=False) if a[3] != b[1]
        ]
    outer, bore = profiles
    for end in (0, -1):
        x, r = (outer[0][0], outer[0][1]) if end == 0 else (outer[-1][2], outer[-1][3])
        inner = (bore[0][1] if end == 0 else bore[-1][3]) if bore else 0.0
        walls.append((x, inner, x, r))
    for x0, r0, x1, r1 in walls:
        for a, b in zip(angles, angles[1:], strict=False):
            p, q = (x0, r0 * cos(a), r0 * sin(a)), (x0, r0 * cos(b), r0 * sin(b))
            s, t = (x1, r1 * cos(b), r1 * sin(b)), (x1, r1 * cos(a), r1 * sin(a))
            found += [(p, q, s), (p, s, t)]
    return found


def _slab(solid: Slab) -> list[object]:
    found: list[object] = []
    rings = (solid.outline, *solid.holes)
    for ring in rings:
        for (x0, y0), (x1, y1) in zip(ring, (*ring[1:], ring[0]), strict=True):
            p, q, s, t = (x0, y0, 0.0), (x1, y1, 0.0), (x1, y1, solid.thickness), (x0, y0, solid.thickness)
            found += [(p, q, s), (p, s, t)]
    for piece in constrained_delaunay_triangles(Polygon(solid.outline, solid.holes)).geoms:
        assert isinstance(piece, Polygon)
        corners = list(piece.exterior.coords)[:3]
        found += [tuple((x, y, z) for x, y in corners) for z in (0.0, solid.thickness)]
    return found


class Caster:
    """The parts of a scene on paper: which of them a viewer sees first at a point."""

    def __init__(
        self, parts: tuple[Placed, ...], right: Array, up: Array, toward: Array, scale: float
    ) -> None:
        self.ids = [p.id for p in parts]
        self.flat: list[tuple[Array, Array]] = []
        for part in parts:
            tri = triangles(part)
            paper = np.stack((tri @ right * scale, -(tri @ up) * scale), axis=-1)
            self.flat.append((paper, tri @ toward))

    def first(self, points: Array) -> tuple[NDArray[np.int64], Array]:
        """For each point on paper, shape (n, 2): the number of the part seen first (-1: none), its depth."""
        best = np.full(len(points), -np.inf)
        who = np.full(len(points), -1)
        for number, (paper, depth) in enumerate(self.flat):
            if not len(paper):
                continue
            low, high = paper.min(axis=(0, 1)), paper.max(axis=(0, 1))
            near = np.flatnonzero(((points >= low) & (points <= high)).all(axis=1))
            near = near[np.argsort(points[near, 0], kind="stable")]
            least, most = paper.min(axis=1), paper.max(axis=1)
            for start in range(0, len(near), 250):
                some = near[start : start + 250]
                box = points[some].min(axis=0), points[some].max(axis=0)
                met = ((least <= box[1]) & (most >= box[0])).all(axis=1)
                found = _depths(points[some], paper[met], depth[met])
                closer = found > best[some]
                best[some[closer]], who[some[closer]] = found[closer], number
        return who, best


def _depths(points: Array, paper: Array, depth: Array) -> Array:
    """The depth nearest to the viewer at which triangles are met at each point; -inf for none."""
    a, b, c = paper[:, 0], paper[:, 1], paper[:, 2]
    det = (b[:, 0] - a[:, 0]) * (c[:, 1] - a[:, 1]) - (b[:, 1] - a[:, 1]) * (c[:, 0] - a[:, 0])
    keep = np.abs(det) > 1e-9
    a, b, c, det, depth = a[keep], b[keep], c[keep], det[keep], depth[keep]
    x, y = points[:, None, 0] - a[None, :, 0], points[:, None, 1] - a[None, :, 1]
    v = (x * (c - a)[None, :, 1] - y * (c - a)[None, :, 0]) / det
    w = (y * (b - a)[None, :, 0] - x * (b - a)[None, :, 1]) / det
    inside = (v >= 0) & (w >= 0) & (v + w <= 1)
    z = depth[None, :, 0] + v * (depth[:, 1] - depth[:, 0]) + w * (depth[:, 2] - depth[:, 0])
    found: Array = np.where(inside, z, -np.inf).max(axis=1, initial=-np.inf)
    return found
