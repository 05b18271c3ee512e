"""An enlarged detail at a stated scale, where a dimension would be too small to see in the whole picture."""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple

from builder.drawings.alternative import listed
from builder.drawings.bodies import Camera, body_of, camera_for
from builder.drawings.callouts import Callout, flags
from builder.drawings.captions import with_caption
from builder.drawings.compose import anchors_of, camera_to_fit
from builder.drawings.dimensions import Linear, below
from builder.drawings.geometry import clipped
from builder.drawings.pencil import ALWAYS
from builder.drawings.project import Viewer
from builder.drawings.scene import Dim, Mark, Scene
from builder.drawings.shapes import Arc, Box, Drawing, Hatch, Point, Polyline, Shape, finished
from builder.drawings.vectors import Vec
from builder.drawings.window import window_for, windowed

TOO_SMALL = 2.0
"""A dimension shorter than this on paper is drawn in a detail, mm."""

CLEAR = 6.0
"""In a detail it is at least so long on paper, mm."""

SCALES = ((1, 2, 0.5), (1, 1, 1.0), (2, 1, 2.0), (5, 1, 5.0), (10, 1, 10.0))
"""Scales of details: numbers on paper and in the thing, and the factor."""

WIDE, HIGH = 46.0, 26.0
"""What of the picture a detail shows, mm on paper."""


class Close(NamedTuple):
    """What goes into a detail: its letter, the scale in words and as a factor, the dimensions, the region on
    paper at that scale, and the same as corners in the world."""

    letter: str
    words: str
    scale: float
    dims: tuple[Dim, ...]
    region: Box


def close_of(scene: Scene, size: tuple[float, float], letter: str = "A") -> Close | None:
    """What of a side view needs a detail; None if every dimension can be seen."""
    window = window_for(scene)
    shown = windowed(scene, window) if window else scene
    main = camera_to_fit(shown, "side", width=size[0], height=size[1]).scale
    small = tuple(d for d in scene.dims if d.way == "along" and _length(d) * main < TOO_SMALL)
    if not small:
        return None
    least = min(_length(d) for d in small)
    on, of, factor = next((s for s in SCALES if least * s[2] >= CLEAR), SCALES[-1])
    if factor < 2 * main:
        return None
    camera = camera_for("side", factor)
    points = [camera.paper(p) for d in small for p in (d.start, d.end)]
    left, right = min(p[0] for p in points), max(p[0] for p in points)
    foot = max(p[1] for p in points)
    middle = (left + right) / 2
    half = max(WIDE / 2, (right - left) * 0.8)
    region = Box(middle - half, foot - HIGH, middle + half, foot + 2.0)
    return Close(letter, f"{on} : {of}", factor, small, region)


def _length(d: Dim) -> float:
    return abs(d.end[0] - d.start[0])


def framed(scene: Scene, close: Close) -> Scene:
    """The scene of the whole picture: without the dimensions that the detail has, with its region framed."""
    k = close.scale
    x0, x1 = close.region.left / k, close.region.right / k
    z0, z1 = -close.region.bottom / k, -close.region.top / k
    root = scene.parts[0]
    corners: list[Vec] = [(x0, 0.0, z0), (x1, 0.0, z0), (x1, 0.0, z1), (x0, 0.0, z1), (x0, 0.0, z0)]
    points = tuple(root.pose.local(c) for c in corners)
    frame = Mark(f"detail {close.letter}", close.letter, root.id, points, line=ALWAYS)
    return scene._replace(
        dims=tuple(d for d in scene.dims if d not in close.dims), marks=(*scene.marks, frame)
    )


def detail(scene: Scene, close: Close, seen: Callable[[Viewer], tuple[Shape, ...]]) -> Drawing:
    """The region alone, enlarged, with its dimensions and the names of what is in it."""
    camera = camera_for("side", close.scale)
    near = tuple(p for p in scene.parts if body_of(p, camera).box.meets(close.region))
    ids = {p.id for p in near}
    part = scene._replace(
        parts=near,
        bands=tuple(b for b in scene.bands if b.part in ids),
        marks=tuple(m for m in scene.marks if m.part in ids),
    )
    shapes = [c for s in seen(Viewer(part, camera)) for c in within(s, close.region)]
    shapes.append(frame_of(close.region))
    level = [_linear(d, camera) for d in close.dims]
    low = below(level, close.region)
    anchors = anchors_of(shapes)
    called: dict[str, Callout] = {}
    for p in sorted(near, key=lambda p: not p.new):
        if p.label and anchors.get(p.id):
            called.setdefault(p.name, Callout(p.name, p.id, anchors[p.id]))
    names = flags(list(called.values()), close.region, close.region.top, shapes)
    said = f"Detail {close.letter}, at {close.words}: {listed(list(called))}. "
    said += f"Dimensions shown: {listed([d.text for d in close.dims])}."
    made = finished("", said, [*shapes, *low.shapes, *names.shapes])
    return with_caption(made, f"{close.letter}, {close.words}")


def _linear(d: Dim, camera: Camera) -> Linear:
    return Linear(d.text, camera.paper(d.start), camera.paper(d.end), d.way)


def frame_of(box: Box) -> Polyline:
    """The thin frame of a detail."""
    return Polyline(_corners(box), "break", None, closed=True)


def _corners(box: Box) -> tuple[Point, ...]:
    return ((box.left, box.top), (box.right, box.top), (box.right, box.bottom), (box.left, box.bottom))


def within(shape: Shape, box: Box) -> list[Shape]:
    """What of a shape lies in a box; a curve becomes short straight lines."""
    if isinstance(shape, Hatch):
        runs = tuple(r for r in (clipped(a, b, box) for a, b in shape.runs) if r is not None)
        return [shape._replace(runs=runs)] if runs else []
    if isinstance(shape, Polyline):
        ring = (*shape.points, shape.points[0]) if shape.closed else shape.points
        if shape.filled:
            inside = all(box.left <= x <= box.right and box.top <= y <= box.bottom for x, y in ring)
            return [shape] if inside else []
        line, part = shape.line, shape.part
    elif isinstance(shape, Arc):
        n = 48
        ring = tuple(shape.at(i / n) for i in range(n + 1))
        line, part = shape.line, shape.part
    else:
        return []
    found: list[Shape] = []
    kept: list[Point] = []
    for a, b in zip(ring, ring[1:], strict=False):
        run = clipped(a, b, box)
        if run is None or (kept and kept[-1] != run[0]):
            if len(kept) > 1:
                found.append(Polyline(tuple(kept), line, part))
            kept = []
        if run is not None:
            kept = [*kept, run[1]] if kept else [run[0], run[1]]
    if len(kept) > 1:
        found.append(Polyline(tuple(kept), line, part))
    return found
