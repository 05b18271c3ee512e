"""Hatching that we clip ourselves: seen faces of what is new, wet glue, and faces cut through.

A hatch is a list of straight runs, never a pattern fill: runs can be counted, compared and tested, and
every writer of SVG draws them alike.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from math import atan2, ceil, cos, degrees, floor, hypot, radians, sin

from builder.drawings.bodies import Body, body_of
from builder.drawings.geometry import clipped
from builder.drawings.project import SAMPLE, Viewer, runs_of
from builder.drawings.scene import Band, Placed
from builder.drawings.shapes import Box, Hatch, Point, Polyline, box_round
from builder.drawings.solids import Slab, Turned
from builder.drawings.vectors import Vec, dot, round_axis

NEW_PITCH = 2.6
"""Distance of the hatch lines over what is new, mm on paper."""

GLUE_PITCH = 1.3
"""Distance of the dotted rows of wet glue, mm on paper: as the dots in a row."""

SECTION_PITCH = 1.7
"""Distance of the hatch lines of a cut face, mm on paper."""

SHORTEST = 0.4
"""What is left of a hatch line beside words is drawn if it is longer, mm on paper."""

SMALL = 2.5
"""What is narrower than this on paper is not hatched, mm, unless it lies before something that is."""

SMALLEST = 1.5
"""What is narrower than this on paper is never hatched, mm."""

WEDGE = 1.6
"""A fillet in a corner is drawn at least so large, mm on paper."""

BESIDE = 1.2
"""A fillet is drawn at least so far from the edge of what stands there, mm on paper."""

FINE = 0.7
"""Glue is looked for at this distance, mm on paper: a bead is narrow."""

ON_SKIN = 0.02
"""How near a seen point must lie to a face to belong to it, mm."""


def scan_lines(box: Box, angle: float, pitch: float) -> list[tuple[Point, Point]]:
    """Parallel lines across a box, degrees clockwise on paper; their places do not depend on the box.

    So two drawings of one thing hatch it alike, and neighbouring patches join.
    """
    along = (cos(radians(angle)), sin(radians(angle)))
    across = (-along[1], along[0])
    ends = [(box.left, box.top), (box.right, box.top), (box.left, box.bottom), (box.right, box.bottom)]
    us = [x * along[0] + y * along[1] for x, y in ends]
    vs = [x * across[0] + y * across[1] for x, y in ends]
    lines = []
    for i in range(ceil(min(vs) / pitch), floor(max(vs) / pitch) + 1):
        v = i * pitch
        a = (min(us) * along[0] + v * across[0], min(us) * along[1] + v * across[1])
        b = (max(us) * along[0] + v * across[0], max(us) * along[1] + v * across[1])
        lines.append((a, b))
    return lines


def seen_hatch(
    view: Viewer,
    box: Box,
    belongs: Callable[[Placed, Vec], bool],
    angle: float,
    pitch: float,
    sample: float = SAMPLE,
) -> list[tuple[Point, Point]]:
    """Runs over what the viewer sees within a box, where `belongs` holds for the part and skin point seen.

    What is narrower than `sample`, mm on paper, may be missed.
    """
    bodies: list[Body] = [b for b in view.bodies if b.box.meets(box.grown(0.01))]
    found: list[tuple[Point, Point]] = []
    for a, b in scan_lines(box, angle, pitch):
        line = clipped(a, b, box)
        if line is None:
            continue
        (x0, y0), (x1, y1) = line
        length = hypot(x1 - x0, y1 - y0)
        if length < 0.4:
            continue

        def at(share: float, x0: float = x0, y0: float = y0, x1: float = x1, y1: float = y1) -> Point:
            return (x0 + (x1 - x0) * share, y0 + (y1 - y0) * share)

        def visible(share: float, at: Callable[[float], Point] = at) -> bool:
            seen = view.first(at(share), bodies)
            return seen is not None and belongs(*seen)

        spans = runs_of(visible, max(2, ceil(length / sample)), length)
        found += [(at(s), at(e)) for s, e in spans if (e - s) * length > 0.4]
    return found


def new_hatch(view: Viewer, clear: Sequence[Box] = ()) -> list[Hatch]:
    """Hatch over the seen faces of every new part, but for some boxes on paper, in which words stand."""
    found: list[Hatch] = []
    new = [p for p in view.scene.parts if p.new and isinstance(p.solid, Turned | Slab)]
    boxes = {p.id: body_of(p, view.camera).box for p in new}
    wide = [box for box in boxes.values() if min(box.width, box.height) >= SMALL]
    for placed in new:
        box = boxes[placed.id]
        narrow = min(box.width, box.height)
        # two heavy edges so near one another need no hatch between them; but white on what is hatched, it
        # would be taken for something that this step leaves alone
        if narrow < SMALLEST or (narrow < SMALL and not any(w.meets(box) for w in wide)):
            continue

        def belongs(part: Placed, at: Vec, wanted: Placed = placed) -> bool:
            return part.id == wanted.id and not view.on_cut(at) and not in_bore(wanted, at)

        face = open_face(view, placed)
        if face:
            runs = _long_ones(polygon_hatch(face, 45.0, NEW_PITCH))
        else:
            runs = seen_hatch(view, box, belongs, 45.0, NEW_PITCH)
        for words in clear:
            runs = [piece for run in runs for piece in around(*run, words)]
        if len(runs) > (narrow < SMALL):
            found.append(Hatch(tuple(runs), "new_hatch", placed.id))
    return found


def around(a: Point, b: Point, box: Box) -> list[tuple[Point, Point]]:
    """What of a run lies outside a box."""
    inside = clipped(a, b, box)
    if inside is None:
        return [(a, b)]
    return _long_ones([(a, inside[0]), (inside[1], b)])


def _long_ones(runs: Sequence[tuple[Point, Point]]) -> list[tuple[Point, Point]]:
    """Runs without those that are too short to be seen."""
    return [(p, q) for p, q in runs if hypot(q[0] - p[0], q[1] - p[1]) > SHORTEST]


def open_face(view: Viewer, placed: Placed) -> tuple[Point, ...]:
    """The outline on paper of a flat part that is seen square to its face, with nothing before it: no ray has
    to be asked then.  Empty for all others."""
    solid = placed.solid
    if not isinstance(solid, Slab) or solid.holes or view.cut:
        return ()
    facing = dot(placed.pose.ez, view.camera.toward)
    if abs(facing) < 1 - 1e-9:
        return ()
    z = solid.thickness if facing > 0 else 0.0
    corners = [placed.pose.world((x, y, z)) for x, y in solid.outline]
    face = tuple(view.camera.paper(p) for p in corners)
    depth, box = dot(corners[0], view.camera.toward), box_round(face)
    others = [b for b in view.bodies if b.placed.id != placed.id]
    hidden = any(b.nearest > depth - ON_SKIN and b.box.meets(box) for b in others)
    return () if hidden else face


def in_bore(placed: Placed, world: Vec) -> bool:
    """True if a point of a part's skin lies inside its bore."""
    if not isinstance(placed.solid, Turned):
        return False
    x, y, z = placed.pose.local(world)
    r = hypot(y, z)
    return any(s.x0 <= x <= s.x1 and abs(s.at(x) - r) < ON_SKIN for s in placed.solid.bore)


def on_band(band: Band, placed: Placed, world: Vec) -> bool:
    """True if a point of a part's skin lies on a band of glue."""
    x, y, z = placed.pose.local(world)
    solid = placed.solid
    if isinstance(solid, Turned):
        if not band.x0 - 1e-6 <= x <= band.x1 + 1e-6:
            return False
        stretches = solid.bore if band.face == "inside" else solid.outer
        r = hypot(y, z)
        if not any(s.x0 <= x <= s.x1 and abs(s.at(x) - r) < ON_SKIN for s in stretches):
            return False
        if band.a1 - band.a0 >= 360:
            return True
        angle = degrees(atan2(-y, z)) % 360
        return (angle - band.a0) % 360 <= band.a1 - band.a0
    if isinstance(solid, Slab):
        if band.face == "edge":
            return _near_line((x, y), (band.x0, band.a0), (band.x1, band.a1))
        level = solid.thickness if band.face == "top" else 0.0
        return abs(z - level) < ON_SKIN and band.x0 <= x <= band.x1 and band.a0 <= y <= band.a1
    return False


def _near_line(p: Point, a: Point, b: Point) -> bool:
    length = hypot(b[0] - a[0], b[1] - a[1]) or 1.0
    ux, uy = (b[0] - a[0]) / length, (b[1] - a[1]) / length
    along = (p[0] - a[0]) * ux + (p[1] - a[1]) * uy
    across = -(p[0] - a[0]) * uy + (p[1] - a[1]) * ux
    return -1e-6 <= along <= length + 1e-6 and abs(across) < ON_SKIN


def band_hatch(view: Viewer, band: Band) -> Hatch | None:
    """Dotted rows over the seen part of a band of wet glue; None if nothing of it is seen."""
    placed = view.scene.part(band.part)
    if band.covered:
        return None
    if band.corner is not None and isinstance(placed.solid, Turned):
        return _corner_row(view, band, placed.solid.largest, band.corner)
    box = body_of(placed, view.camera).box

    def belongs(part: Placed, world: Vec) -> bool:
        return part.id == band.part and on_band(band, placed, world)

    room = _band_box(view, band, placed) or box
    along = 0.0 if room.width > 1.5 * room.height else 90.0  # few long rows rather than many short ones
    sample = FINE if min(room.width, room.height) < 6 * GLUE_PITCH else SAMPLE
    face = open_face(view, placed) if _all_over(view, band, placed) else ()
    if face:
        runs = _long_ones(polygon_hatch(face, along, GLUE_PITCH))
    else:
        runs = seen_hatch(view, room, belongs, along, GLUE_PITCH, sample)
    if not runs and min(room.width, room.height) < 2 * GLUE_PITCH:
        runs = _middle_row(view, room, belongs)  # a bead that falls between two rows
    return Hatch(tuple(runs), "glue", band.part) if runs else None


def _all_over(view: Viewer, band: Band, placed: Placed) -> bool:
    """True if a band is all of the face of a flat part that looks at the viewer."""
    if not isinstance(placed.solid, Slab) or band.face == "edge" or not _faces(view, band, placed):
        return False
    points = placed.solid.outline
    return all(band.x0 <= x <= band.x1 and band.a0 <= y <= band.a1 for x, y in points)


def _corner_row(view: Viewer, band: Band, r: float, corner: float) -> Hatch | None:
    """A fillet from the side: one dotted row along its corner, clear of the edge of what stands there."""
    placed = view.scene.part(band.part)
    way = 1.0 if corner == band.a0 else -1.0
    off = max(radians(band.a1 - band.a0) / 2, min(BESIDE / view.camera.scale / r, 0.5))
    ends = [placed.pose.world(round_axis(x, r, corner + way * degrees(off))) for x in (band.x0, band.x1)]
    a, b = (view.camera.paper(p) for p in ends)
    bodies = [body for body in view.bodies if body.box.meets(box_round((a, b)).grown(0.01))]
    depth = dot(ends[0], view.camera.toward)

    def at(share: float) -> Point:
        return (a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share)

    def visible(share: float) -> bool:
        found = view.first(at(share), bodies)
        own = found is not None and found[0].id == band.part
        return own and found is not None and dot(found[1], view.camera.toward) < depth + 0.1

    length = hypot(b[0] - a[0], b[1] - a[1])
    spans = runs_of(visible, max(2, ceil(length / FINE)), length)
    runs = tuple((at(s), at(e)) for s, e in spans)
    return Hatch(runs, "glue", band.part) if runs else None


def wedge(view: Viewer, band: Band) -> Polyline | None:
    """A fillet seen along the axis of its host: the corner that it fills, at least WEDGE on paper."""
    placed = view.scene.part(band.part)
    if band.corner is None or not isinstance(placed.solid, Turned) or not end_on(view, placed):
        return None
    r = placed.solid.largest
    leg = max(r * radians(band.a1 - band.a0), WEDGE / view.camera.scale)
    way = 1.0 if band.corner == band.a0 else -1.0
    far = band.corner + way * degrees(leg / r)
    points = ((r, band.corner), (r + leg, band.corner), (r, far))
    paper = tuple(view.camera.paper(placed.pose.world(round_axis(band.x0, *at))) for at in points)
    return Polyline(paper, "bead", band.part, closed=True, filled=True)


def end_on(view: Viewer, placed: Placed) -> bool:
    """True if a part is seen along its axis."""
    return abs(dot(placed.pose.ex, view.camera.toward)) > 1 - 1e-6


def _middle_row(
    view: Viewer, box: Box, belongs: Callable[[Placed, Vec], bool]
) -> list[tuple[Point, Point]]:
    """What is seen of the line along the middle of a narrow box."""
    x, y = (box.left + box.right) / 2, (box.top + box.bottom) / 2
    level = box.width > box.height
    a, b = ((box.left, y), (box.right, y)) if level else ((x, box.top), (x, box.bottom))
    length = max(box.width, box.height)
    bodies = [body for body in view.bodies if body.box.meets(box.grown(0.01))]

    def at(share: float) -> Point:
        return (a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share)

    def visible(share: float) -> bool:
        seen = view.first(at(share), bodies)
        return seen is not None and belongs(*seen)

    return [(at(s), at(e)) for s, e in runs_of(visible, max(2, ceil(length / FINE)), length)]


def _faces(view: Viewer, band: Band, placed: Placed) -> bool:
    """True unless a band is on a flat face that looks away from the viewer."""
    if not isinstance(placed.solid, Slab) or band.face == "edge":
        return True
    toward = placed.pose.local_direction(view.camera.toward)[2]
    return toward > 0 if band.face == "top" else toward < 0


def seam(view: Viewer, band: Band) -> tuple[Point, ...]:
    """Where a leader may point to glue that something covers: the sides of the band's box on paper, where the
    edge of what covers it is seen."""
    placed = view.scene.part(band.part)
    box = _band_box(view, band, placed)
    if box is None or not _faces(view, band, placed):
        return ()
    x, y = (box.left + box.right) / 2, (box.top + box.bottom) / 2
    return ((box.right, y), (box.right, box.top * 0.7 + box.bottom * 0.3), (x, box.top), (x, box.bottom))


def _band_box(view: Viewer, band: Band, placed: Placed) -> Box | None:
    """The box on paper in which a band can lie, to look no further."""
    solid = placed.solid
    if isinstance(solid, Turned):
        r = solid.largest
        if band.a1 - band.a0 < 90:
            turns = [band.a0 + (band.a1 - band.a0) * i / 4 for i in range(5)]
            return box_round(
                [
                    view.camera.paper(placed.pose.world(round_axis(x, r, a)))
                    for x in (band.x0, band.x1)
                    for a in turns
                ]
            )
        low, high = (band.x0, -r, -r), (band.x1, r, r)
    elif isinstance(solid, Slab) and band.face != "edge":
        low, high = (band.x0, band.a0, 0.0), (band.x1, band.a1, solid.thickness)
    else:
        return None
    return box_round(
        [
            view.camera.paper(placed.pose.world((x, y, z)))
            for x in (low[0], high[0])
            for y in (low[1], high[1])
            for z in (low[2], high[2])
        ]
    )


def polygon_hatch(polygon: tuple[Point, ...], angle: float, pitch: float) -> list[tuple[Point, Point]]:
    """Runs of parallel lines within a polygon (even-odd), exactly clipped."""
    xs, ys = zip(*polygon, strict=True)
    along = (cos(radians(angle)), sin(radians(angle)))
    across = (-along[1], along[0])
    found: list[tuple[Point, Point]] = []
    for a, _ in scan_lines(Box(min(xs), min(ys), max(xs), max(ys)), angle, pitch):
        level = a[0] * across[0] + a[1] * across[1]
        crossings: list[float] = []
        x0, y0 = polygon[-1]
        for x1, y1 in polygon:
            v0 = x0 * across[0] + y0 * across[1] - level
            v1 = x1 * across[0] + y1 * across[1] - level
            if (v0 > 0) != (v1 > 0):
                share = v0 / (v0 - v1)
                crossings.append((x0 + (x1 - x0) * share) * along[0] + (y0 + (y1 - y0) * share) * along[1])
            x0, y0 = x1, y1
        crossings.sort()
        for u0, u1 in zip(crossings[::2], crossings[1::2], strict=True):
            if u1 - u0 > 0.3:
                found.append(
                    (
                        (u0 * along[0] + level * across[0], u0 * along[1] + level * across[1]),
                        (u1 * along[0] + level * across[0], u1 * along[1] + level * across[1]),
                    )
                )
    return found
