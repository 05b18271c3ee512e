"""Half section: the upper half cut open, the lower half from outside, about one axis.

It is the one view that shows what was put inside.  Cut faces are hatched, each part at another angle.
Rods, screws and fins are not cut through (the trade's habit: a cut lengthwise through a solid thing
tells nothing).  A wall that would be thinner on paper than THIN is filled in, and its line makes it at
least as thick as a line: a drawing of a long tube shows such walls thicker than they are.  What is no
wall, and too small to hatch, is left white between thin lines: rings and lenses side by side are told
apart.
"""

from __future__ import annotations

from functools import lru_cache
from math import floor, hypot

from builder.drawings.bodies import Camera, body_of, corners
from builder.drawings.compose import SIZE, Picture, camera_to_fit, composed
from builder.drawings.fills import SECTION_PITCH, polygon_hatch
from builder.drawings.project import THICK, Viewer, old_line
from builder.drawings.scene import BENEATH, Placed, Scene
from builder.drawings.shapes import Drawing, Hatch, Point, Polyline, Shape
from builder.drawings.solids import Stretch, Turned
from builder.drawings.style import LINES
from builder.drawings.vectors import dot
from builder.drawings.views import KEPT, broken_off, centre_line, seen
from builder.drawings.window import window_for, windowed

THIN = 1.1
"""A wall thinner than this on paper is filled in rather than hatched, mm."""

WALL = 8.0
"""A wall is at least so many times as long as it is thick."""

DOT_ROOM = 0.7
"""A dot of glue with the line beyond it wants so much more, mm on paper."""

OFF = 1.1
"""Dots of glue lie so far off the wall that they are on, mm on paper: clear of its line, for a copier too."""

LAST = 0.1
"""A row of dots reaches so far beyond the middle of its last one, mm on paper."""

ANGLES = (45.0, -45.0, 30.0, -60.0, 60.0, -30.0)
"""Hatch angles of the parts in turn, degrees."""


def profile(stretches: tuple[Stretch, ...]) -> list[Point]:
    """The corner points of a row of stretches, from small x to large."""
    points: list[Point] = []
    for s in stretches:
        for p in ((s.x0, s.r0), (s.x1, s.r1)):
            if not points or points[-1] != p:
                points.append(p)
    return points


def cut_face(solid: Turned) -> tuple[Point, ...]:
    """The face of one side of a turned part cut along its axis: (x, radius) points in order."""
    lower: list[Point] = []
    at = solid.start
    for s in solid.bore:
        if s.x0 > at:
            lower += [(at, 0.0), (s.x0, 0.0)]
        lower += [(s.x0, s.r0), (s.x1, s.r1)]
        at = s.x1
    if at < solid.end:
        lower += [(at, 0.0), (solid.end, 0.0)]
    kept = [p for i, p in enumerate(lower) if i == 0 or p != lower[i - 1]]
    return tuple(profile(solid.outer) + kept[::-1])


def thickness(face: tuple[Point, ...], solid: Turned) -> float:
    """The least wall of a turned part, mm: least difference of the radii along the bore."""
    walls = [
        min(o.at(x) for o in solid.outer if o.x0 <= x <= o.x1) - b.at(x)
        for b in solid.bore
        for x in (b.x0, b.x1)
    ]
    return min(walls, default=solid.largest)


def sections(scene: Scene, camera: Camera) -> tuple[list[Shape], dict[str, tuple[Point, ...]]]:
    """Cut faces of every part whose axis lies in the cutting plane, with points inside for leaders."""
    shapes: list[Shape] = []
    anchors: dict[str, tuple[Point, ...]] = {}
    turn = 0
    for p in scene.parts:
        if not is_cut(p):
            continue
        assert isinstance(p.solid, Turned)
        face = cut_face(p.solid)
        height = p.pose.origin[2]
        angle = ANGLES[turn % len(ANGLES)]
        turn += 1
        places: list[Point] = []
        wall = min(thickness(face, p.solid), p.solid.end - p.solid.start) * camera.scale
        white = not p.new and left_white(p.solid, camera.scale)
        thin = wall < THIN and not white
        for sign in (1.0, -1.0) if height > 0 else (1.0,):
            polygon = tuple(
                camera.paper((p.pose.world((x, 0.0, 0.0))[0], 0.0, height + sign * r)) for x, r in face
            )
            line = "thin" if white else "section"
            if p.new:
                line = "new_section" if wall >= THICK else "new_thin"
            shapes.append(Polyline(polygon, line, p.id, closed=True, filled=thin))
            if not thin and not white:
                runs = polygon_hatch(polygon, angle, SECTION_PITCH)
                if runs:
                    shapes.append(Hatch(tuple(runs), "new_hatch" if p.new else "hatch", p.id))
            middles = _inside(polygon)
            # where a dot has no room in the wall, an arrowhead ends on its outer edge
            outer = [(x, min(y for _, y in polygon)) for x, _ in middles]
            places += outer if thin or white else [*middles, *outer]
        anchors[p.id] = tuple(places)
    return shapes, anchors


def left_white(solid: Turned, scale: float) -> bool:
    """True if the cut face of a turned part is too small on paper to be hatched, is no wall, and has room for
    white between its edges."""
    wall, length = thickness(cut_face(solid), solid), solid.end - solid.start
    narrow = old_line(min(wall, length) * scale) == "thin"
    return narrow and length < WALL * wall


def is_cut(p: Placed) -> bool:
    """True if the half section cuts through a part: turned, hollow, its axis in the cutting plane."""
    return (
        isinstance(p.solid, Turned)
        and bool(p.solid.bore)
        and not p.whole
        and abs(abs(dot(p.pose.ex, (1.0, 0.0, 0.0))) - 1) < 1e-9
        and abs(p.pose.origin[1]) < 1e-6
        and p.pose.origin[2] > -1e-6
    )


def _inside(polygon: tuple[Point, ...]) -> list[Point]:
    """Points in the middle of a cut face's height, spread along it, the middle one first."""
    xs = [p[0] for p in polygon]
    left, right = min(xs), max(xs)
    found: list[Point] = []
    for share in (0.5, 0.35, 0.65, 0.2, 0.8, 0.08, 0.92):
        x = left + (right - left) * share
        ys = _crossings(polygon, x)
        if len(ys) >= 2:
            found.append((x, (ys[0] + ys[1]) / 2))
    return found


def _crossings(polygon: tuple[Point, ...], x: float) -> list[float]:
    ys: list[float] = []
    x0, y0 = polygon[-1]
    for x1, y1 in polygon:
        if (x0 > x) != (x1 > x):
            ys.append(y0 + (y1 - y0) * (x - x0) / (x1 - x0))
        x0, y0 = x1, y1
    return sorted(ys)


@lru_cache(maxsize=KEPT)
def half_section(scene: Scene, size: tuple[float, float] = SIZE) -> Drawing:
    """The half section of things about one axis (y = z = 0)."""
    whole = tuple(p if is_cut(p) else p._replace(whole=True) for p in scene.parts)
    given = scene._replace(parts=whole)
    window = window_for(given)
    scene = _without_cut_off(windowed(given, window) if window else given)
    camera = camera_to_fit(scene, "side", width=size[0], height=size[1])
    scene = _light_within(scene, camera)
    outside = seen(Viewer(scene, camera, cut=True))
    cut, inside = sections(scene, camera)
    anchors = dict(outside.anchors)
    for id, points in inside.items():
        anchors[id] = (*points, *anchors.get(id, ()))
    ends = [camera.paper(p.pose.world((x, 0.0, 0.0))) for p in scene.parts for x in _ends(p)]
    axis = centre_line((min(e[0] for e in ends), 0.0), (max(e[0] for e in ends), 0.0))
    covered = seams_of(given, camera)
    given = given._replace(
        bands=tuple(
            b._replace(name=b.name + BENEATH) if i in covered else b for i, b in enumerate(given.bands)
        )
    )
    scene = scene._replace(bands=(windowed(given, window) if window else given).bands)
    seams = seams_of(scene, camera)
    # glue that lies open on the far wall reaches up to the cut: a row along it would only stand out of it
    open_ = {i for i, b in enumerate(scene.bands) if b.face == "inside" and f"band {i}" in outside.anchors}
    glue = [found for found in glue_lines(scene, camera) if found[0] not in seams and found[0] not in open_]
    drawn = {i for i, _ in glue} | {i for i in range(len(scene.bands)) if f"band {i}" in anchors}
    glue += [found for found in below_lines(scene, camera) if found[0] not in drawn]
    anchors |= {f"band {i}": points for i, points in seams.items()}
    for i, hatch in glue:
        anchors.setdefault(f"band {i}", tuple(p for run in hatch.runs for p in _along(*run)))
    picture = Picture((*outside.shapes, *cut, *(h for _, h in glue), axis), anchors)
    if window:
        picture = broken_off(picture, window, camera.scale)
    return composed(scene, "half section", camera, picture, given)


def _without_cut_off(scene: Scene) -> Scene:
    """The scene without what sits on the outside of the quarter of the wall that is taken away: it goes with
    the wall.  What the step works on stays."""
    busy = {b.part for b in scene.bands} | {m.part for m in scene.marks}
    kept = tuple(p for p in scene.parts if p.new or p.id in busy or not _cut_off(p, scene.parts[0]))
    return scene._replace(parts=kept)


def _cut_off(p: Placed, root: Placed) -> bool:
    if not p.whole or not isinstance(root.solid, Turned) or p.id == root.id:
        return False
    own = corners(p)
    near = all(y < 1e-6 and z > -1e-6 for _, y, z in own)
    return near and hypot(*(sum(c[i] for c in own) / len(own) for i in (1, 2))) > root.solid.largest


def _light_within(scene: Scene, camera: Camera) -> Scene:
    """The scene with what comes in within something else that is new, and is too small for heavy edges, drawn
    as what is there: the heavy outline round it tells that it is new."""
    hosts = [p for p in scene.parts if p.new and is_cut(p)]
    kept = tuple(
        p._replace(new=False) if p.new and _small(p, camera) and any(_holds(h, p) for h in hosts) else p
        for p in scene.parts
    )
    return scene._replace(parts=kept)


def _small(p: Placed, camera: Camera) -> bool:
    box = body_of(p, camera).box
    return isinstance(p.solid, Turned) and old_line(min(box.width, box.height)) == "thin"


def _holds(host: Placed, p: Placed) -> bool:
    """True if a part lies within the bore of a cut one."""
    ends = [corner[0] for corner in corners(p)]
    own = [corner[0] for corner in corners(host)]
    within = min(own) < min(ends) + 1e-6 and max(ends) < max(own) + 1e-6
    return (
        within
        and isinstance(host.solid, Turned)
        and isinstance(p.solid, Turned)
        and p.id != host.id
        and p.solid.largest < host.solid.largest
    )


def _along(a: Point, b: Point) -> list[Point]:
    return [(a[0] + (b[0] - a[0]) * s, a[1] + (b[1] - a[1]) * s) for s in (0.5, 0.2, 0.8, 0.05, 0.95)]


def glue_lines(scene: Scene, camera: Camera) -> list[tuple[int, Hatch]]:
    """Glue on a cut part: the number of its band, and a dotted line along the wall in the cut."""
    found: list[tuple[int, Hatch]] = []
    for number, band in enumerate(scene.bands):
        host = scene.part(band.part)
        if not is_cut(host) or not (band.a0 <= 0 <= band.a1 or band.a0 <= 360 <= band.a1):
            continue
        assert isinstance(host.solid, Turned)
        inside = band.face == "inside"
        for s in host.solid.bore if inside else host.solid.outer:
            x0, x1 = max(s.x0, band.x0), min(s.x1, band.x1)
            if x1 - x0 > 1e-6:
                off = (-OFF if inside else OFF) / camera.scale
                a, b = (
                    camera.paper((host.pose.world((x, 0.0, 0.0))[0], 0.0, s.at(x) + off)) for x in (x0, x1)
                )
                found.append((number, Hatch((_centred(a, b),), "glue", host.id)))
    return found


def _centred(a: Point, b: Point) -> tuple[Point, Point]:
    """A row for an odd number of dots, as many as fit, with one in its middle: a leader that ends in the
    middle of what is glued there runs through that one, and fills no gap."""
    pair = 2 * LINES["glue"].dash[1]
    length = max(hypot(b[0] - a[0], b[1] - a[1]), 1e-9)
    inset = (length - pair * floor(length / pair)) / 2 / length

    def at(share: float) -> Point:
        return (a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share)

    return at(inset), at(1 - inset + LAST / length)  # a little longer, so that the last dot is there


def seams_of(scene: Scene, camera: Camera) -> dict[int, tuple[Point, ...]]:
    """Glue under a sleeve that is so thin on paper that dots would lie on it: the number of its band, and the
    ends of the sleeve, where a leader may point to what is beneath."""
    found: dict[int, tuple[Point, ...]] = {}
    for number, band in enumerate(scene.bands):
        host = scene.part(band.part)
        if band.face != "outside" or not is_cut(host):
            continue
        low, high = sorted(host.pose.world((x, 0.0, 0.0))[0] for x in (band.x0, band.x1))
        for p in scene.parts:
            if p.id == band.part or not is_cut(p) or not isinstance(p.solid, Turned):
                continue
            ends = sorted(p.pose.world((x, 0.0, 0.0))[0] for x in (p.solid.start, p.solid.end))
            r = p.solid.bore[0].r0
            thin = (p.solid.largest - r) * camera.scale < OFF + DOT_ROOM
            if thin and ends[0] < low + 1e-6 and ends[1] > high - 1e-6 and _rests_on(host, r):
                found[number] = tuple(camera.paper((x, 0.0, r)) for x in ends)
    return found


def _rests_on(host: Placed, r: float) -> bool:
    """True if a sleeve of this bore sits on a host's skin."""
    return isinstance(host.solid, Turned) and any(abs(s.r0 - r) < 0.5 for s in host.solid.outer)


def below_lines(scene: Scene, camera: Camera) -> list[tuple[int, Hatch]]:
    """Glue that the plane of the cut misses (a slot lies there) and a ring hides below: a dotted line along
    the skin that it is on, through the ring."""
    found: list[tuple[int, Hatch]] = []
    for number, band in enumerate(scene.bands):
        host = scene.part(band.part)
        if band.face == "outside" and is_cut(host) and band.a0 > 0 and band.a1 - band.a0 > 180:
            assert isinstance(host.solid, Turned)
            xs = [host.pose.world((x, 0.0, 0.0))[0] for x in (band.x0, band.x1)]
            a, b = (camera.paper((x, 0.0, -host.solid.largest)) for x in xs)
            found.append((number, Hatch(((a, b),), "glue", host.id)))
    return found


def _ends(p: Placed) -> tuple[float, ...]:
    return (p.solid.start, p.solid.end) if isinstance(p.solid, Turned) else ()
