"""A scene at an angle from above, whole or pulled apart: visible lines, trails, names beside parts."""

from __future__ import annotations

from functools import lru_cache

from builder.drawings.bodies import Camera, camera_for, corners
from builder.drawings.callouts import Callout
from builder.drawings.compose import SIZE, anchors_of, extent
from builder.drawings.exploded import Trail
from builder.drawings.leaders import TALL, around, convex
from builder.drawings.merge import merged
from builder.drawings.project import Viewer, visible_lines
from builder.drawings.scene import Placed, Scene
from builder.drawings.shapes import Arc, Arrow, Drawing, Hatch, Point, Polyline, Shape, finished
from builder.drawings.solids import Cord, Slab, Turned, round_outline
from builder.drawings.vectors import Vec

LARGEST = 2.0
"""A small thing is drawn at most so many times its size."""

WIDEST = 176.0
"""No drawing is wider than this with its names, mm: the width common to letter and A4, less a little."""

PICTURE = 142.0
"""A picture without its names is no wider than this, mm: names then seldom make it wider than WIDEST."""

FINE = 0.4
"""A trail is looked at so often, mm on paper: the walls of rings that it passes are thin."""

NARROW = 0.7
"""Where names make a drawing too wide, the picture shrinks at most to this share of its size."""


def fitting(scene: Scene, size: tuple[float, float]) -> float:
    """The scale at which a scene fits a width and a height on paper, without its names."""
    unit = extent(scene, camera_for("axonometric", 1.0))
    wide = min(size[0], PICTURE)
    return min(wide / max(unit.width, 1e-6), size[1] / max(unit.height, 1e-6), LARGEST)


@lru_cache(maxsize=1024)
def angled(
    scene: Scene,
    trails: tuple[Trail, ...] = (),
    size: tuple[float, float] = SIZE,
    scale: float = 0.0,
    tallest: float = TALL,
) -> Drawing:
    """The view at the scale that fits its size, or at a stated one; parts that share a name are named once.

    With its names it is `tallest` mm high at most, where they find room beside it. Its text alternative is
    the caller's.
    """
    scale = scale or fitting(scene, size)
    camera = camera_for("axonometric", scale)
    shapes = lines_at(scene, trails, camera)
    hulls = [hull(p, camera) for p in scene.parts if not isinstance(p.solid, Cord)]
    drawing = _named(scene, shapes, hulls, tallest)
    if drawing.width > WIDEST:
        k = max(NARROW, 1 - (drawing.width - WIDEST) / size[0])
        small = [scaled(s, k) for s in shapes]
        drawing = _named(scene, small, [tuple((x * k, y * k) for x, y in h) for h in hulls], tallest)
    return drawing


def lines_at(scene: Scene, trails: tuple[Trail, ...], camera: Camera) -> list[Shape]:
    """Everything that a camera sees, before any name: lines of parts, and trails as lines of no part."""
    view = Viewer(scene, camera)
    return [*merged(visible_lines(view)), *trail_lines(view, trails)]


def _named(scene: Scene, shapes: list[Shape], hulls: list[tuple[Point, ...]], tallest: float) -> Drawing:
    room = (WIDEST - 4.0, tallest - 4.0)
    names = around(callouts(scene, anchors_of(shapes)), shapes, hulls, *room)
    seen = {s.part for s in shapes if s.part is not None}
    unseen = tuple(p.id for p in scene.parts if p.id not in seen)
    return finished(scene.title, "", [*shapes, *names.shapes], unseen=unseen)


def callouts(scene: Scene, anchors: dict[str, tuple[Point, ...]]) -> list[Callout]:
    """One name for each kind of part; a leader may end on any of its copies."""
    found: dict[str, list[Point]] = {}
    for p in scene.parts:
        if p.label and anchors.get(p.id):
            found.setdefault(p.name, []).extend(anchors[p.id][:10])
    return [Callout(name, name, tuple(points)) for name, points in found.items()]


def trail_lines(view: Viewer, trails: tuple[Trail, ...]) -> list[Polyline]:
    """What is to be seen of each trail, as a thin dash-dot line."""
    found: list[Polyline] = []
    cord = Placed("", "", Cord(((0.0, 0.0, 0.0),)))
    still: Vec = (0.0, 0.0, 0.0)
    for trail in trails:
        for a, b in view.straight(cord, trail.start, trail.end, still, FINE):
            found.append(Polyline((view.camera.paper(a), view.camera.paper(b)), "centre"))
    return found


def hull(placed: Placed, camera: Camera) -> tuple[Point, ...]:
    """The convex outline of a part on paper."""
    solid, at = placed.solid, placed.pose
    points: list[Vec]
    if isinstance(solid, Turned):
        rims = dict.fromkeys((x, r) for s in solid.outer for x, r in ((s.x0, s.r0), (s.x1, s.r1)))
        points = [at.world((x, y, z)) for x, r in rims for y, z in round_outline((0.0, 0.0), 2 * r, 12)]
    elif isinstance(solid, Slab):
        points = [at.world((x, y, z)) for x, y in solid.outline for z in (0.0, solid.thickness)]
    else:
        points = corners(placed)
    return convex([camera.paper(p) for p in points])


def scaled(shape: Shape, k: float) -> Shape:
    """The same shape, so many times as large; words and arrows keep their size."""

    def m(p: Point) -> Point:
        return (p[0] * k, p[1] * k)

    if isinstance(shape, Polyline):
        return shape._replace(points=tuple(m(p) for p in shape.points))
    if isinstance(shape, Arc):
        return shape._replace(centre=m(shape.centre), rx=shape.rx * k, ry=shape.ry * k)
    if isinstance(shape, Hatch):
        return shape._replace(runs=tuple((m(a), m(b)) for a, b in shape.runs))
    if isinstance(shape, Arrow):
        return shape._replace(tip=m(shape.tip))
    return shape._replace(at=m(shape.at))
