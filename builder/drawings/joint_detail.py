"""Where a small part or a thin strip was glued in, cut open and enlarged: it, its host, the glue between."""

from __future__ import annotations

from builder.drawings.alternative import listed
from builder.drawings.assembly import assemblies
from builder.drawings.bodies import body_of, camera_for
from builder.drawings.callouts import Callout, flags
from builder.drawings.captions import with_caption
from builder.drawings.changes import Changes
from builder.drawings.compose import anchors_of, camera_to_fit
from builder.drawings.detail import SCALES, WIDE, frame_of, within
from builder.drawings.half_section import OFF, glue_lines, is_cut, sections
from builder.drawings.of_scene import scene_of
from builder.drawings.project import Viewer
from builder.drawings.scene import Band, Placed, Scene
from builder.drawings.shapes import Box, Drawing, Hatch, Shape, finished
from builder.drawings.solids import Slab, Turned
from builder.drawings.views import seen
from builder.drawings.which_view import view_for
from builder.drawings.window import reach, window_for, windowed
from builder.guide.model import Guide

SMALL = 6.0
"""A seat shorter than this on paper is drawn enlarged, mm."""

LARGE = 9.0
"""Enlarged it is at least so long on paper, mm."""

THIN = 1.0
"""A flat piece no thicker than this on paper is drawn enlarged, mm: it melts into the wall it is glued to."""

HIGH = 18.0
"""Height of what is shown, mm on paper."""


def joint_details(guide: Guide, step: Changes, title: str, size: tuple[float, float]) -> list[Drawing]:
    """An enlarged detail for each assembly in which the step glues a part that is small on paper."""
    found: list[Drawing] = []
    for a in assemblies(guide, step):
        if view_for(guide, step, a) == "half section":
            scene = scene_of(guide, step, a.root, a.settled, title)
            made = joint_detail(scene, size)
            found += [made] if made is not None else []
    return found


def _glued(scene: Scene) -> tuple[Placed, Band] | None:
    """The first new part that is cut, with the glue that it sits in."""
    for band in scene.bands:
        host = scene.part(band.part)
        if not is_cut(host):
            continue
        low, high = sorted(host.pose.world((x, 0.0, 0.0))[0] for x in (band.x0, band.x1))
        for p in scene.parts:
            a, b = reach(p)
            fits = is_cut(p) or (band.face == "inside" and _is_strip(p) and _lies_in(p, host))
            if p.new and fits and p.id != band.part and a < high and b > low:
                return p, band
    return None


def joint_detail(scene: Scene, size: tuple[float, float]) -> Drawing | None:
    """The detail of one half section; None if nothing is glued in it, or all can be seen without."""
    glued = _glued(scene)
    if glued is None:
        return None
    part, band = glued
    window = window_for(scene)
    main = camera_to_fit(windowed(scene, window) if window else scene, "side", width=size[0], height=size[1])
    low, high = reach(part)
    if _is_strip(part):
        least, small, large = body_of(part, camera_for("side", 1.0)).box.height, THIN, 1.5 * THIN
    else:
        least, small, large = high - low, SMALL, LARGE
    on, of, factor = next((s for s in SCALES if least * s[2] >= large), SCALES[-1])
    if least * main.scale >= small or factor < 2 * main.scale:
        return None
    camera = camera_for("side", factor)
    # of a long strip only the end at the left
    middle = (low + high) / 2 * factor if (high - low) * factor < WIDE else low * factor + 0.25 * WIDE
    top = min(body_of(p, camera).box.top for p in (part, scene.part(band.part)))
    region = Box(middle - WIDE / 2, top - 2.0, middle + WIDE / 2, top - 2.0 + HIGH)
    near = tuple(p for p in scene.parts if body_of(p, camera).box.meets(region))
    ids = {p.id for p in near}
    own = scene._replace(
        parts=near, bands=tuple(b for b in scene.bands if b.part in ids), marks=(), dims=(), ends=("", "")
    )
    outside = seen(Viewer(own._replace(bands=()), camera, cut=True))
    cut, inside = sections(own, camera)
    between = _between(scene.part(band.part), part, band, camera.scale)
    glue: list[Shape] = [_lowered(hatch, between) for _, hatch in glue_lines(own, camera)]
    shapes = [_fine(c) for s in (*outside.shapes, *cut, *glue) for c in within(s, region)]
    if not any(isinstance(s, Hatch) and s.line == "glue" for s in shapes):
        return None
    anchors = anchors_of(shapes)
    dots = [s for s in shapes if isinstance(s, Hatch) and s.line == "glue"]
    names: dict[str, Callout] = {}
    for p in (part, scene.part(band.part)):
        points = [a for a in (*inside.get(p.id, ()), *anchors.get(p.id, ())) if _in(a, region)]
        if p is not part:  # away from the names of part and glue, which point to the middle
            points.sort(key=lambda a: round(abs(abs(a[0] - middle) - 0.3 * WIDE), 1))
        if points:
            names[p.name] = Callout(p.name, p.id, tuple(points))
    at = tuple(((a[0] * (1 - s) + b[0] * s), a[1]) for a, b in dots[0].runs for s in (0.8, 0.2, 0.5))
    names[band.name] = Callout(band.name, "glue", at)
    shapes.append(frame_of(region))
    said = f"Enlarged, at {on} : {of}, cut open: {listed(list(names))}. "
    said += f"The {band.name} lies between the {part.name} and the {scene.part(band.part).name}."
    made = finished("", said, [*shapes, *flags(list(names.values()), region, region.top, shapes).shapes])
    return with_caption(made, f"enlarged, {on} : {of}")


def _is_strip(p: Placed) -> bool:
    return isinstance(p.solid, Slab)


def _lies_in(p: Placed, host: Placed) -> bool:
    """True if a thing lies within the outline of what it may be glued into."""
    own, whole = (body_of(one, camera_for("side", 1.0)).box for one in (p, host))
    return whole.top < own.top and own.bottom < whole.bottom


def _between(host: Placed, part: Placed, band: Band, scale: float) -> float:
    """How far down on paper the dots of glue move to lie midway between the wall and what is glued to it."""
    assert isinstance(host.solid, Turned)
    inside = band.face == "inside"
    wall = [s for s in (host.solid.bore if inside else host.solid.outer) if s.x1 > band.x0 and s.x0 < band.x1]
    if not wall:
        return 0.0
    reach = min(s.at(max(s.x0, band.x0)) for s in wall)
    if isinstance(part.solid, Turned):
        other = part.solid.largest if inside else min((s.r0 for s in part.solid.bore), default=reach)
    else:
        other = -body_of(part, camera_for("side", 1.0)).box.top
    half = abs(reach - other) * scale / 2
    return half - OFF if inside else OFF - half


def _lowered(hatch: Hatch, by: float) -> Hatch:
    return hatch._replace(runs=tuple(((a[0], a[1] + by), (b[0], b[1] + by)) for a, b in hatch.runs))


def _fine(shape: Shape) -> Shape:
    """Edges no heavier than need be, or they would cover the glue between them."""
    heavy = shape.line in ("new", "new_section")
    return shape._replace(line="thin") if heavy else shape


def _in(p: tuple[float, float], box: Box) -> bool:
    return box.left < p[0] < box.right and box.top < p[1] < box.bottom
