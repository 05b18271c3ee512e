"""From what a view sees to a finished Drawing: scale, dimensions, names, frame, text alternative."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import pairwise
from math import hypot
from typing import NamedTuple

from builder.drawings.alternative import alternative
from builder.drawings.bodies import Camera, body_of, camera_for
from builder.drawings.callouts import Callout, flags
from builder.drawings.columns import column
from builder.drawings.covered_marks import SEEN, runs_of, uncovered
from builder.drawings.dimensions import Linear, angular, below, beside, crossings
from builder.drawings.measure import CAP_HEIGHT, text_width
from builder.drawings.of_cord import along
from builder.drawings.pencil import GHOST
from builder.drawings.scene import UPRIGHT, Dim, Placed, Scene
from builder.drawings.shapes import (
    Arc,
    Arrow,
    Box,
    Drawing,
    Hatch,
    Point,
    Polyline,
    Shape,
    Text,
    box_of,
    box_round,
    finished,
    segment,
)
from builder.drawings.solids import Cord
from builder.drawings.vectors import Vec

WIDTH = 160.0
"""Width on paper that a drawing is made for, mm."""

HEIGHT = 95.0
"""Height on paper that a drawing is made for, mm."""

SIZE = (WIDTH, HEIGHT)
"""What the views are made for if nobody says otherwise."""

LARGEST = 2.5
"""A small thing is drawn at most so many times its size."""

WIDE = 1.8
"""From this ratio of width to height on, names stand above the picture and not beside it."""


LONG_SHARES = (0.5, 0.3, 0.7, 0.15, 0.85, 0.05, 0.95)
"""Where on a line a leader may end; the last two on a line longer than LONG."""

LONG = 30.0
"""mm on paper."""

CURVED = 4
"""An open line of more points than these is a curve."""

MANY = 15
"""So many ends of a leader are weighed on each of several parts of one name, in each place of one glue."""


class Picture(NamedTuple):
    """What a view worked out: shapes on paper, and for each part or mark the points a leader may end at."""

    shapes: tuple[Shape, ...]
    anchors: dict[str, tuple[Point, ...]]


def extent(scene: Scene, camera: Camera) -> Box:
    """The box that all parts of a scene, and what comes off them, fill on paper."""
    boxes = [body_of(p, camera).box for p in scene.parts]
    for m in scene.marks:
        if m.line == GHOST:
            boxes.append(box_round([camera.paper(scene.part(m.part).pose.world(p)) for p in m.points]))
    box = boxes[0]
    for b in boxes[1:]:
        box = box.union(b)
    return box


def camera_to_fit(scene: Scene, view: str, *, width: float = WIDTH, height: float = HEIGHT) -> Camera:
    """The named camera at the scale at which the scene, its names and dimensions fit the width."""
    whole = extent(scene, camera_for(view, 1.0))
    wide = whole.width > WIDE * whole.height
    told = scene.edges[:2] if view == "plan" else () if view == "rear end" else scene.ends
    beside_it = max([text_width(e) + 5 for e in told if e] or [0.0]) * 2
    glue = any(b.corner is None for b in scene.bands) if view.endswith(" end") else bool(scene.bands)
    named = any(p.label for p in scene.parts) or bool(scene.marks) or glue
    names = 0.0 if wide or not named else 40.0
    across = 26.0 * sum(d.way == "across" for d in scene.dims)
    room = max(width * 0.4, width - beside_it - names - across)
    scale = min(room / max(whole.width, 1e-6), height / max(whole.height, 1e-6), LARGEST)
    return camera_for(view, scale)


def anchors_of(shapes: Iterable[Shape]) -> dict[str, tuple[Point, ...]]:
    """Points of every part's visible lines at which a leader may end, longest run first."""
    found: dict[str, list[tuple[float, Point]]] = {}
    for shape in shapes:
        if shape.part is None:
            continue
        if isinstance(shape, Polyline) and len(shape.points) > CURVED and shape.points[0] != shape.points[-1]:
            # of a curve no piece is long, and all of it is one line
            places = found.setdefault(shape.part, [])
            whole = sum(abs(a[0] - b[0]) + abs(a[1] - b[1]) for a, b in pairwise(shape.points))
            places += [(whole, along(shape.points, share)) for share in LONG_SHARES]
            continue
        if isinstance(shape, Polyline):
            pairs = list(pairwise(shape.points))
        elif isinstance(shape, Hatch):
            pairs = list(shape.runs)
        elif isinstance(shape, Arc):
            places = found.setdefault(shape.part, [])
            places += [(shape.rx, shape.at(i / 16)) for i in (8, 4, 12, 1, 2, 3, 5, 11, 13, 14, 15)]
            continue
        else:
            continue
        places = found.setdefault(shape.part, [])
        for a, b in pairs:
            length = abs(b[0] - a[0]) + abs(b[1] - a[1])
            for share in LONG_SHARES if length > LONG else LONG_SHARES[:5]:
                at = (a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share)
                places.append((length, at))
    return {
        part: tuple(p for _, p in sorted(places, key=lambda i: -round(i[0], 2)))
        for part, places in found.items()
    }


def many(times: int, name: str) -> str:
    """A name where one thing is drawn for several: `2 × axle`."""
    return f"{times} × {name}" if times > 1 else name


def strands_of(scene: Scene) -> dict[str, list[tuple[Placed, Vec]]]:
    """Cords of one name that come from one point, with it, by the id of each: they are counted."""
    found: dict[tuple[str, Vec], list[tuple[Placed, Vec]]] = {}
    for p in scene.parts:
        if isinstance(p.solid, Cord):
            start = p.pose.world(p.solid.points[0])
            found.setdefault((p.name, start), []).append((p, start))
    return {p.id: own for own in found.values() if len(own) > 1 for p, _ in own}


def _strand(own: list[tuple[Placed, Vec]], anchors: dict[str, tuple[Point, ...]], camera: Camera) -> Callout:
    """The name of several strands, at the tip of the uppermost: a leader to another would cross it."""
    tips: list[tuple[Point, str]] = []
    for p, start in own:
        x, y = camera.paper(start)
        if anchors.get(p.id):
            tips.append((max(anchors[p.id], key=lambda a: round(hypot(a[0] - x, a[1] - y), 2)), p.id))
    tip, id = min(tips, key=lambda t: (round(t[0][1], 2), t[1]))
    return Callout(many(len(own), own[0][0].name), id, (tip,))


def callouts_for(scene: Scene, anchors: dict[str, tuple[Point, ...]], camera: Camera) -> list[Callout]:
    """One name for each kind of part, mark and glue: copies share one, and its leader ends at
    whichever can best be shown, of those that are new if some are."""
    found: dict[str, Callout] = {}
    strands = strands_of(scene)
    new = {p.name for p in scene.parts if p.new and p.label and anchors.get(p.id)}
    parts = sorted((p for p in scene.parts if p.label), key=lambda p: not p.new)
    for p in parts:
        if anchors.get(p.id) and (p.new or p.name not in new):
            if (own := strands.get(p.id)) is not None:
                found.setdefault(p.name, _strand(own, anchors, camera))
                continue
            if p.name in found:
                first = found[p.name]
                both = (*first.anchors[:MANY], *anchors[p.id][:MANY])
                found[p.name] = first._replace(anchors=both, copies=(*first.copies, p.id))
                continue
            turned = scene.face not in UPRIGHT and p is scene.parts[0]
            text = many(scene.times, f"{scene.face} of the {p.name}" if turned else p.name)
            found[p.name] = Callout(text, p.id, anchors[p.id])
    for m in scene.marks:
        if m.label and anchors.get(m.id):
            found.setdefault(m.name, Callout(m.name, m.id, anchors[m.id]))
    for i, b in enumerate(scene.bands):
        key = f"band {i}"
        if b.label and anchors.get(key):
            # glue of one kind in several places is one: a leader may end at any
            old = found[b.name].anchors if b.name in found else ()
            found[b.name] = Callout(b.name, key, (*old, *anchors[key][:MANY]))
    return list(found.values())


def composed(
    scene: Scene, view: str, camera: Camera, picture: Picture, whole: Scene | None = None
) -> Drawing:
    """Lay dimensions and names round a picture and frame it.

    `whole` is the scene before a window left some of it out: the text alternative names all of it.
    """
    outline = box_of(picture.shapes) or Box(0, 0, 1, 1)
    shapes: list[Shape] = uncovered(picture.shapes)
    boxes: list[Box] = []
    wide = outline.width > WIDE * outline.height
    end_names = [*_end_names(scene, view, outline, wide), *level_edges(scene, view, outline)]
    shapes += end_names
    boxes += [t.box() for t in end_names]
    for arrow in way_arrows(scene, view, outline, wide):
        shapes += arrow
        boxes.append((box_of(arrow) or outline).grown(1.0))
    level, upright, angles = _linear(scene.dims, camera)
    for dim, centre in angles:
        a, b = camera.paper(dim.start), camera.paper(dim.end)
        reach = max(abs(a[0] - centre[0]) + abs(a[1] - centre[1]), 1.0)
        layout = angular(dim.text, centre, reach, a, b, picture.shapes)
        shapes += layout.shapes
        boxes += layout.boxes
    low = below(level, outline, boxes)
    shapes += low.shapes
    boxes += low.boxes
    left = beside(past_edges(upright, picture.shapes), outline, boxes)
    shapes += left.shapes
    boxes += left.boxes
    drawn = {s.part for s in shapes if isinstance(s, Polyline)}
    lost = {s.part for s in picture.shapes if isinstance(s, Polyline)} - drawn
    callouts = [c for c in callouts_for(scene, picture.anchors, camera) if c.part not in lost]
    if wide:
        top = min([outline.top, *(b.top for b in boxes)])
        names = flags(callouts, outline, top, shapes)
    else:
        edge = max([outline.right, *(b.right for b in boxes if b.top < outline.bottom)])
        if view == "plan" and scene.edges[1]:
            edge = max(edge, outline.right + EDGE_OFF + text_width(scene.edges[1]))
        names = column(callouts, edge + 9, avoid=boxes, shapes=shapes)
    shapes += names.shapes
    shapes += upright_edges(scene, view, outline, shapes)
    seen = {s.part for s in picture.shapes if s.part is not None}
    unseen = tuple(p.id for p in (whole or scene).parts if p.id not in seen)
    told = alternative((whole or scene)._replace(ends=scene.ends), view, unseen)
    return finished(scene.title, told, shapes, unseen=unseen)


def _end_names(scene: Scene, view: str, outline: Box, wide: bool) -> list[Text]:
    """The names of the two ends: beside a wide picture at the height of its axis, else above its corners."""
    if view not in {"half section", "side", "developed"}:
        return []
    if not wide:
        above = outline.top - 4.5
        left, right = scene.ends
        found = [Text((outline.left, above), left)] if left else []
        # two names over a narrow picture keep clear of one another
        x = max(outline.right, outline.left + text_width(left) + text_width(right) + 6)
        return [*found, Text((x, above), right, "end")] if right else found
    y = (outline.top + outline.bottom) / 2 + CAP_HEIGHT / 2
    found = []
    if scene.ends[0]:
        found.append(Text((outline.left - 5, y), scene.ends[0], "end"))
    if scene.ends[1]:
        found.append(Text((outline.right + 5, y), scene.ends[1]))
    return found


EDGE_OFF = 3.0
"""Distance of an edge's name from the edge, mm."""


def level_edges(scene: Scene, view: str, outline: Box) -> list[Text]:
    """The names of a flat thing's edges above and below its plan; that below stands clear of dimensions."""
    if view != "plan" or not any(scene.edges):
        return []
    found = [
        Text((outline.right, outline.bottom + EDGE_OFF + CAP_HEIGHT), scene.edges[2], "end"),
        Text(((outline.left + outline.right) / 2, outline.top - EDGE_OFF), scene.edges[3], "middle"),
    ]
    return [t for t in found if t.text]


SHARES = (0.5, 0.3, 0.7, 0.15, 0.85, 0.4, 0.6, 0.05, 0.95)
"""Where along an edge at the side its name is tried first; then beyond its ends, then closer."""


def upright_edges(scene: Scene, view: str, outline: Box, shapes: list[Shape]) -> list[Text]:
    """The names of the edges at the left and the right, each where no line or text is in its way."""
    if view != "plan" or not any(scene.edges):
        return []
    texts = [s.box().roomy(0.6) for s in shapes if isinstance(s, Text)]
    found: list[Text] = []
    for name, x, anchor in (
        (scene.edges[0], outline.left - EDGE_OFF, "end"),
        (scene.edges[1], outline.right + EDGE_OFF, "start"),
    ):
        shares = (*SHARES, *sorted((n / 100 for n in range(5, 96)), key=lambda share: abs(share - 0.5)))
        heights = [outline.top + outline.height * share for share in shares]
        beyond = (outline.top - 4.5, outline.bottom + 5.0, outline.top - 10.5)
        some = (*heights[: len(SHARES)], *beyond, *heights[len(SHARES) :])
        tried = [Text((x, y + CAP_HEIGHT / 2), name, anchor) for y in some]
        whole = box_of(shapes)
        if anchor == "end" and whole is not None:
            tried.append(Text((whole.left - EDGE_OFF, heights[0] + CAP_HEIGHT / 2), name, anchor))
        if not name:
            continue
        room = (
            t
            for by in (0.6, 0.4)  # close between two leaders, where there is no other place
            for t in tried
            if not crossings(shapes, t.box().grown(by)) and not any(t.box().meets(b) for b in texts)
        )
        found.append(next(room, tried[0]))
    return found


WAY = 11.0
"""Length of an arrow that shows which way a part goes, mm."""


def way_arrows(scene: Scene, view: str, outline: Box, wide: bool) -> list[list[Shape]]:
    """Heavy arrows at the ends by which something goes in or comes out."""
    if view not in {"half section", "side"}:
        return []
    middle = (outline.top + outline.bottom) / 2
    y = middle + 6.5 if wide else middle
    found: list[list[Shape]] = []
    for way in scene.ways:
        end, _, heading = way.partition(" ")
        off = outline.left - 5 if end == "start" else outline.right + 5
        far = off - WAY if end == "start" else off + WAY
        tail, tip = (far, off) if heading == "in" else (off, far)
        lean = 0.0 if tip > tail else 180.0
        stop = tip - 3.0 if tip > tail else tip + 3.0
        found.append([segment((tail, y), (stop, y), "way"), Arrow((tip, y), lean, "way", None, 4.5)])
    return found


LEVEL = 0.15
"""Lines so near one another run as one, mm."""


def past_edges(upright: Iterable[Linear], shapes: Iterable[Shape]) -> list[Linear]:
    """Vertical dimensions, to stand on the left, whose extension lines do not run along an edge of the
    picture: one that would begins at the far end of the edges on its level."""
    runs = [(a, b) for a, b in runs_of(shapes, SEEN) if abs(a[1] - b[1]) <= LEVEL]

    def clear(p: Point) -> Point:
        level = [sorted((a[0], b[0])) for a, b in runs if abs(a[1] - p[1]) <= LEVEL]
        if not any(low < p[0] - LEVEL and p[0] <= high + LEVEL for low, high in level):
            return p
        return (min(low for low, _ in level), p[1])

    return [d._replace(start=clear(d.start), end=clear(d.end)) for d in upright]


def _linear(
    dims: tuple[Dim, ...], camera: Camera
) -> tuple[list[Linear], list[Linear], list[tuple[Dim, Point]]]:
    """Sort dimensions by their way; an angle is measured round the axis y = z = 0."""
    level: list[Linear] = []
    upright: list[Linear] = []
    angles: list[tuple[Dim, Point]] = []
    for d in dims:
        if d.way == "angle":
            angles.append((d, camera.paper((d.start[0], 0.0, 0.0))))
            continue
        linear = Linear(d.text, camera.paper(d.start), camera.paper(d.end), d.way)
        (level if d.way == "along" else upright).append(linear)
    return level, upright, angles
