"""python -m tests.drawings.covered: no line of a covered part is drawn in any view at an angle.

Every view at an angle of every route of the three guides (kits and stages, pulled apart and together): 500
points of each drawn line, asked of the tests' own ray caster.  `tests/drawings/test_exploded.py` tries some.
"""

from __future__ import annotations

import sys
from collections.abc import Iterator

import numpy as np

from builder.drawings.angled import fitting, lines_at
from builder.drawings.bodies import Camera, camera_for
from builder.drawings.catalogue import carrier, stage_names
from builder.drawings.compose import SIZE
from builder.drawings.exploded import Trail
from builder.drawings.of_bench import settle
from builder.drawings.of_exploded import lettered, scene_apart
from builder.drawings.of_stage import assembled
from builder.drawings.scene import Scene
from builder.drawings.shapes import Arc, Polyline, Shape
from builder.drawings.solids import Cord
from tests.drawings import guides
from tests.drawings.rays import Array, Caster

POINTS = 500
"""So many points of each line."""

View = tuple[str, Scene, tuple[Trail, ...]]
"""A view at an angle by its name: its scene, and the trails of what was pulled apart."""


def views(name: str, route: int = 0) -> Iterator[View]:
    """The views at an angle of one route of a guide: the kit, then stage by stage."""
    guide, run = guides.guide(name), guides.runs(name)[route]
    assert guide.finished is not None
    root = run.end.root(carrier(guide.things[guide.finished.what.id]))
    found = scene_apart(guide, run.end, root, "")
    assert found is not None
    yield f"{name} {route} kit apart", found[0], found[1].trails
    yield f"{name} {route} kit together", Scene("", lettered(guide, settle(guide, run.end, root))), ()
    for stage, frames in stage_names(run).items():
        before, bench, lying = frames[0].before, frames[-1].after, frames[0].step.stage.lying
        for each in assembled(guide, bench):
            if bench.below(each) == before.below(each):
                continue
            opened = scene_apart(guide, bench, each, "", before, lying)
            if opened is not None:
                yield f"{name} {route} {stage}, {each} apart", opened[0], opened[1].trails
            settled = settle(guide, bench, each)
            if settled:
                yield f"{name} {route} {stage}, {each} together", Scene("", lettered(guide, settled)), ()


def camera_at(scene: Scene, scale: float = 0.0) -> tuple[Camera, Caster]:
    """The camera of a view, and a ray caster behind it."""
    camera = camera_for("axonometric", scale or fitting(scene, SIZE))
    right, up, toward = (np.array(v) for v in (camera.right, camera.up, camera.toward))
    return camera, Caster(scene.parts, right, up, toward, camera.scale)


def along(shape: Shape, count: int) -> Array:
    """So many points of a line on paper, even over its length, not its very ends."""
    shares = (np.arange(count) + 0.5) / count
    if isinstance(shape, Arc):
        return np.array([shape.at(s) for s in shares])
    assert isinstance(shape, Polyline) and len(shape.points) == 2
    a, b = (np.array(p) for p in shape.points)
    found: Array = a + (b - a) * shares[:, None]
    return found


def long(shape: Shape) -> float:
    """Length of a line on paper, mm."""
    points = along(shape, 200)
    return float(np.hypot(*(points[1:] - points[:-1]).T).sum()) * 200 / 199


def covered(scene: Scene, trails: tuple[Trail, ...]) -> tuple[int, int, float]:
    """How many points of drawn lines lie where the viewer sees another part, of how many, and the longest
    stretch of such points, mm on paper.

    A hair beside a line the viewer sees the part that the line is of: beside, since a silhouette is the edge
    of its part; 0.06 mm on paper in eight ways, and where two parts share a line, up to 0.3 mm, which is less
    than the line is wide.
    """
    camera, caster = camera_at(scene)
    number = {id: i for i, id in enumerate(caster.ids)}
    cords = {p.id for p in scene.parts if isinstance(p.solid, Cord)}
    lines = [s for s in lines_at(scene, trails, camera) if s.part is not None and s.part not in cords]
    if not lines:
        return 0, 0, 0.0
    points = np.concatenate([along(s, POINTS) for s in lines])
    wanted = np.repeat([number[s.part or ""] for s in lines], POINTS)
    open_ = np.flatnonzero(caster.first(points)[0] != wanted)
    for reach in (0.06, 0.15, 0.3):
        for angle in np.arange(8) * np.pi / 4 + np.pi / 8:
            who, _ = caster.first(points[open_] + reach * np.array([np.cos(angle), np.sin(angle)]))
            open_ = open_[who != wanted[open_]]
    longest = 0.0
    for run in np.split(open_, np.flatnonzero(np.diff(open_) > 1) + 1):
        if len(run):
            longest = max(longest, len(run) / POINTS * long(lines[int(run[0]) // POINTS]))
    return len(open_), len(points), longest


MOST, LONGEST = 0.002, 0.8
"""What something narrow covers may be missed between two samples: of all points at most this share, and no
stretch longer than this, mm on paper."""


def main() -> int:
    bad = points = count = 0
    for name in guides.NAMES:
        for route in range(len(guides.runs(name))):
            for title, scene, trails in views(name, route):
                off, of, longest = covered(scene, trails)
                count, points = count + 1, points + of
                if off > of * MOST or longest > LONGEST:
                    bad += 1
                    print(
                        f"{title}: {off} of {of} points covered, up to {longest:.2f} mm at a stretch",
                        flush=True,
                    )
    print(f"{count} views at an angle, {points:,} points of lines: {bad} views with a covered line")
    return int(bool(bad))


if __name__ == "__main__":
    sys.exit(main())
