"""The outside views: side, ends, plan and axonometric.  All are one projection with another camera."""

from __future__ import annotations

from functools import lru_cache
from math import hypot, inf

from builder.drawings.bodies import Camera
from builder.drawings.compose import SIZE, Picture, anchors_of, camera_to_fit, composed
from builder.drawings.ends import ON, ROOM, ink
from builder.drawings.fills import band_hatch, new_hatch, seam, wedge
from builder.drawings.hidden import covered_ends
from builder.drawings.merge import merged
from builder.drawings.pencil import WRITTEN, mark_lines
from builder.drawings.project import Viewer, visible_lines
from builder.drawings.scene import Scene
from builder.drawings.shapes import Box, Drawing, Point, Shape, box_of, box_round, segment
from builder.drawings.solids import Turned
from builder.drawings.window import Window, break_lines, window_for, windowed, without_ends

READABLE = 0.9
"""Hatch stays so far from what is written on a face, mm on paper."""

KEPT = 1024
"""So many views are kept: routes, both papers and a live preview draw most scenes again."""


def seen(view: Viewer) -> Picture:
    """Lines, marks, glue and hatch that a viewer sees, with a leader's choice of points."""
    scene, camera = view.scene, view.camera
    lines = visible_lines(view)
    for mark in scene.marks:
        lines += mark_lines(view, mark)
    lines += covered_ends(view)
    shapes: list[Shape] = list(merged(lines))
    anchors = anchors_of(shapes)
    for i, band in enumerate(scene.bands):
        corner = wedge(view, band)
        if corner is not None:
            shapes.append(corner)
            continue
        hatch = band_hatch(view, band)
        if hatch is not None:
            shapes.append(hatch)
            ends = [p for run in hatch.runs[:: max(1, len(hatch.runs) // 3)] for p in run]
            anchors[f"band {i}"] = (*anchors_of([hatch])[band.part][:25], *ends[:8])
        elif not view.cut:
            anchors[f"band {i}"] = _on_lines(seam(view, band), shapes, band.part)
    for id, points in faces(view, shapes).items():
        anchors[id] = (*points, *anchors.get(id, ()))
    written = [m for m in scene.marks if m.line == WRITTEN]
    names = [box_round([camera.paper(scene.part(m.part).pose.world(p)) for p in m.points]) for m in written]
    shapes += new_hatch(view, [name.grown(READABLE) for name in names])
    return Picture(tuple(shapes), anchors)


SNAP = 8.0
"""Glue that is covered is shown on a line of what it lies on if one is so near, mm on paper."""


NEARER = 1.0
"""A line that is nearer by more than this than any of the host's is taken instead, mm on paper."""


def _on_lines(points: tuple[Point, ...], shapes: list[Shape], host: str) -> tuple[Point, ...]:
    """Points of lines for points near them: of the host's if one is near, and no other much nearer (that of
    what is glued on, away from the host's outline), else of any."""
    under = ink(shapes)
    found: list[Point] = []
    for p in points:
        if under.room(p) > ON:
            near, any_line = under.nearest(p, host), under.nearest(p)
            far, least = (hypot(q[0] - p[0], q[1] - p[1]) if q else inf for q in (near, any_line))
            p = (near if far <= min(SNAP, least + NEARER) else any_line) or p
        found.append(p)
    return tuple(found)


MIDDLE, EDGES = (0.5, 0.3, 0.7), (0.14, 0.86)
SPREAD = tuple(
    dict.fromkeys(
        [(0.5, v) for v in MIDDLE]
        + [(u, 0.5) for u in MIDDLE]
        + [(0.14, 0.86), (0.86, 0.86)]
        + [(u, v) for u in MIDDLE for v in MIDDLE]
        + [(u, v) for u in (*MIDDLE, *EDGES) for v in (*MIDDLE, *EDGES)]
    )
)
"""Where within a part's box its face is looked for, as shares of height and width: first about its middle,
then in the corners towards the names, which no other part may lie before, then all over."""

FACES = 8
"""So many points of a part's face are found at most."""


def faces(view: Viewer, shapes: list[Shape]) -> dict[str, list[Point]]:
    """Points within what is seen of each part that has a name, with room for a dot; not on the far wall of
    what is cut open, which is seen through the cut."""
    under = ink(shapes)
    found: dict[str, list[Point]] = {}
    for p in view.scene.parts:
        own = box_of(s for s in shapes if s.part == p.id) if p.label else None
        if own is None:
            continue
        points: list[Point] = []
        for u, v in SPREAD:
            at = (own.left + own.width * v, own.top + own.height * u)
            if len(points) == FACES or (view.cut and not p.whole and at[1] < 0) or under.room(at) < ROOM:
                continue
            met = view.first(at, view.bodies)
            if met is not None and met[0].id == p.id:
                points.append(at)
        if points:
            found[p.id] = points
    return found


def axes(scene: Scene, camera: Camera) -> list[Shape]:
    """Centre lines of round things seen from the side, and centre crosses of those seen from the end."""
    found: list[Shape] = []
    done: set[tuple[float, ...]] = set()
    for p in scene.parts:
        if not isinstance(p.solid, Turned):
            continue
        a = camera.paper(p.pose.world((p.solid.start, 0, 0)))
        b = camera.paper(p.pose.world((p.solid.end, 0, 0)))
        r = p.solid.largest * camera.scale
        if abs(a[0] - b[0]) + abs(a[1] - b[1]) < 0.01:
            key = (round(a[0], 1), round(a[1], 1))
            if key not in done and r > 3:
                done.add(key)
                reach = r + 2.5
                found += [
                    segment((a[0] - reach, a[1]), (a[0] + reach, a[1]), "centre"),
                    segment((a[0], a[1] - reach), (a[0], a[1] + reach), "centre"),
                ]
    return found


@lru_cache(maxsize=KEPT)
def outside_view(scene: Scene, view: str, size: tuple[float, float] = SIZE) -> Drawing:
    """Side, rear end, front end, plan or axonometric view of a scene."""
    window = window_for(scene) if view == "side" else None
    shown = windowed(scene, window) if window else scene
    camera = camera_to_fit(shown, view, width=size[0], height=size[1])
    picture = seen(Viewer(shown, camera))
    if window:
        picture = broken_off(picture, window, camera.scale)
    return composed(shown, view, camera, picture, scene)


def broken_off(picture: Picture, window: Window, scale: float) -> Picture:
    """A picture with break lines where its window ends, in place of the edges there."""
    outline = box_of(picture.shapes) or Box(0, 0, 1, 1)
    kept = without_ends(picture.shapes, window, scale)
    return picture._replace(shapes=(*kept, *break_lines(window, scale, outline)))


def side(scene: Scene, size: tuple[float, float] = SIZE) -> Drawing:
    """Seen from the side: x to the right, z up."""
    return outside_view(scene, "side", size)


def end(scene: Scene, size: tuple[float, float] = SIZE, *, front: bool = False) -> Drawing:
    """Seen along the axis, from the rear unless `front`: for angles round a tube."""
    return outside_view(scene, "front end" if front else "rear end", size)


def plan(scene: Scene, size: tuple[float, float] = SIZE) -> Drawing:
    """Seen from above: for flat parts and what lies on them."""
    return outside_view(scene, "plan", size)


def axonometric(scene: Scene, size: tuple[float, float] = SIZE) -> Drawing:
    """Seen at an angle from above: how the whole looks."""
    return outside_view(scene, "axonometric", size)


def centre_line(a: Point, b: Point) -> Shape:
    """A centre line that runs 3 mm past both ends of a horizontal axis."""
    return segment((a[0] - 3, a[1]), (b[0] + 3, b[1]), "centre")
