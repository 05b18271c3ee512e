"""On your table now: true silhouettes of all loose parts and assemblies in hand, all at one scale.

The name of what the step made or changed is underlined.  A turned thing lies on its side with its zero end
at the left, a short one shows its end, a flat one is seen from above.  A cord has no size worth showing
beside the rest: it is a short wave, and the strip says so.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from functools import lru_cache
from math import ceil, pi, sin
from typing import NamedTuple

from builder.drawings.alternative import listed
from builder.drawings.assembly import is_part
from builder.drawings.leaders import convex
from builder.drawings.lying import lies
from builder.drawings.measure import CAP_HEIGHT, LINE_PITCH, text_width
from builder.drawings.of_bench import Sitting, settle, thing_of
from builder.drawings.shapes import (
    Box,
    Drawing,
    Point,
    Polyline,
    Shape,
    Text,
    box_of,
    finished,
    moved,
    segment,
)
from builder.drawings.solids import Slab, Turned, round_outline
from builder.drawings.vectors import Vec
from builder.drawings.words import told_mm
from builder.dryrun.bench import Bench
from builder.guide.model import Guide
from builder.guide.wording import name_of
from builder.quantities.show import Units

LEAST = 0.6
"""Nothing is drawn smaller than this, mm."""

BRIEF = "On your table now:"
"""What a brief strip begins with, since no heading stands over it."""

SHORTEST_BAR = 8.0
"""The bar that tells the scale is at least so long, mm."""

SCALES = (1, 2, 2.5, 4, 5, 8, 10, 12, 15, 20, 25, 30, 40, 50, 75, 100)
"""A strip is drawn at one to one of these, so that few steps differ in scale."""


class Place(NamedTuple):
    """What a strip is made for: how wide it is at most, how long its longest and how high its highest thing
    is at most, the gap between two, mm.  A brief one says only what is there and how long its bar is."""

    wide: float
    longest: float
    highest: float
    gap: float
    brief: bool = False


PAGE = Place(170.0, 64.0, 22.0, 7.0)
"""A strip that is looked at by itself."""

PRINT = Place(250.0, 40.0, 14.0, 6.0, brief=True)
"""A strip below a step, where paper costs."""


class Thing(NamedTuple):
    """Things that are alike: their outlines in mm of the thing, and what they are called."""

    name: str
    outlines: tuple[tuple[Point, ...], ...]
    changed: bool


def on_table(guide: Guide, bench: Bench) -> list[str]:
    """The roots of everything loose that the kit is made of, in the order in which it came to be."""
    found: dict[str, None] = {}
    for item in bench.items:
        thing = thing_of(guide, item)
        if thing is None or not is_part(guide, item):
            continue
        if thing.blank_of and thing.blank_of in bench.items:
            continue  # it has become what it is for
        path = bench.path(item, bench.root(item)) or [item]
        found[[each for each in path if is_part(guide, each)][-1]] = None
    return list(found)


def strip(
    guide: Guide,
    before: Bench,
    bench: Bench,
    title: str,
    assemblies: dict[str, str],
    place: Place = PAGE,
) -> Drawing | None:
    """The strip of a bench; what is not as it was `before` is underlined.  None if the table is empty.

    `assemblies` has the names of sub-assemblies by the part that each is built on.
    """
    kinds: dict[tuple[str, int, bool], list[str]] = {}
    for root in on_table(guide, bench):
        thing = thing_of(guide, root)
        assert thing is not None
        below = bench.below(root)
        changed = root not in before.items or before.below(root) != below or before.root(root) != root
        kinds.setdefault((thing.id, len(below), changed), []).append(root)
    things: list[Thing] = []
    for (id, count, changed), roots in kinds.items():
        settled = settle(guide, bench, roots[0], lies(guide, roots[0]))
        if not settled:
            continue
        name = guide.things[id].name if count == 1 else assemblies.get(id, guide.things[id].name)
        if len(roots) > 1:
            name = f"{len(roots)} {name_of(guide.things[id], len(roots))}"
        elif count > 1 and id not in assemblies:
            name += " and what is on it"
        things.append(Thing(name, silhouette(settled, roots[0]), changed))
    return drawn(tuple(things), title, bars_of(guide), place) if things else None


def bars_of(guide: Guide) -> tuple[tuple[str, float], ...]:
    """Lengths for the bar that tells the scale, round in the unit that the guide names first."""
    inch = isinstance(guide.units, Units) and guide.units.first == "in"
    step = Fraction(254, 10) if inch else Fraction(10)
    sizes = (step * n for n in ((1, 2, 4, 8, 16) if inch else (1, 2, 5, 10, 20, 50)))
    return tuple((told_mm(guide, size), float(size)) for size in sizes)


def silhouette(settled: dict[str, Sitting], root: str) -> tuple[tuple[Point, ...], ...]:
    """Outlines on paper of all that sits on a root, y down, all the same way round, so that what overlaps is
    filled as one; a bore that is seen is the other way round.  A cord has none."""
    flat = isinstance(settled[root].solid, Slab)
    found: list[tuple[Point, ...]] = []
    if len(settled) == 1 and (face := _face(settled[root])):
        return face

    def paper(p: Vec) -> Point:
        return (p[0], -p[1]) if flat else (p[0], -p[2])

    for sitting in settled.values():
        solid, at = sitting.solid, sitting.pose
        if isinstance(solid, Turned):
            for s in solid.outer:
                rims = [
                    paper(at.world((x, y, z)))
                    for x, r in ((s.x0, s.r0), (s.x1, s.r1))
                    for y, z in round_outline((0.0, 0.0), 2 * r, 24)
                ]
                found.append(convex(rims))
        elif isinstance(solid, Slab):
            faces = [
                tuple(paper(at.world((x, y, z))) for x, y in solid.outline) for z in (0.0, solid.thickness)
            ]
            seen = abs(at.ez[2]) > 0.99 if flat else abs(at.ez[1]) > 0.99
            found.append(faces[1] if seen else convex([p for face in faces for p in face]))
    return tuple(one_way(o) for o in found if len(o) > 2)


def _face(sitting: Sitting) -> tuple[tuple[Point, ...], ...]:
    """What a lone thing shows best: a short round one its end, a long flat one its length across."""
    solid = sitting.solid
    if isinstance(solid, Turned) and solid.end - solid.start < 2 * solid.largest:
        rim = one_way(round_outline((0.0, 0.0), 2 * solid.largest, 48))
        bore = min((min(s.r0, s.r1) for s in solid.bore), default=0.0)
        return (rim, one_way(round_outline((0.0, 0.0), 2 * bore, 48))[::-1]) if bore > 0 else (rim,)
    if isinstance(solid, Slab):
        xs, ys = zip(*solid.outline, strict=True)
        tall = max(ys) - min(ys) > max(xs) - min(xs)
        rings = [[(y, x) if tall else (x, -y) for x, y in ring] for ring in (solid.outline, *solid.holes)]
        outer, *holes = (one_way(tuple(ring)) for ring in rings)
        return (outer, *(hole[::-1] for hole in holes))
    return ()


def one_way(outline: tuple[Point, ...]) -> tuple[Point, ...]:
    """An outline with its points clockwise on paper."""
    pairs = zip(outline, (*outline[1:], outline[0]), strict=True)
    return outline if sum(x0 * y1 - x1 * y0 for (x0, y0), (x1, y1) in pairs) > 0 else outline[::-1]


@lru_cache(maxsize=1024)
def drawn(
    things: tuple[Thing, ...], title: str, bars: tuple[tuple[str, float], ...], place: Place = PAGE
) -> Drawing:
    """Things in rows on their names, at the largest of SCALES at which the longest and the highest fit.

    `bars` are lengths in words and in mm, rising: the first that is long enough is drawn.
    """
    boxes = [box_of([Polyline(o, "outline") for o in t.outlines]) for t in things]
    longest = max((b.width for b in boxes if b), default=1.0)
    highest = max((b.height for b in boxes if b), default=1.0)
    need = max(longest / place.longest, highest / place.highest)
    ratio = next((s for s in SCALES if s >= need), ceil(need))
    # a bar keeps the scale true on a screen and in a packet, where the strip has another size
    said, length = next((b for b in bars if b[1] / ratio >= SHORTEST_BAR), bars[-1])
    shapes: list[Shape] = []
    start = text_width(BRIEF) + place.gap if place.brief else 0.0
    x, top = start, 0.0
    row: list[tuple[Thing, Box | None, float]] = []
    rows: list[list[tuple[Thing, Box | None, float]]] = []
    for thing, box in zip(things, boxes, strict=True):
        wide = max(box.width / ratio if box else 12.0, text_width(thing.name))
        if row and x + wide > place.wide:
            rows.append(row)
            row, x = [], start
        row.append((thing, box, x))
        x += wide + place.gap
    rows.append(row)
    for row in rows:
        high = max([3.0, *(b.height / ratio for _, b, _ in row if b)])
        for thing, box, left in row:
            foot = top + high
            shapes += _one(thing, box, left, foot, 1 / ratio)
            at = (left, foot + 2.0 + CAP_HEIGHT)
            shapes.append(Text(at, thing.name))
            if thing.changed:
                under = at[1] + 1.9
                shapes.append(segment((left, under), (left + text_width(thing.name), under), "new"))
        top += high + CAP_HEIGHT + (5.5 if place.brief else 9.0)
    end = length / ratio
    if place.brief:
        first = max([3.0, *(b.height / ratio for _, b, _ in rows[0] if b)])
        shapes.append(Text((0.0, first + 2.0 + CAP_HEIGHT), BRIEF))
        base = top - 3.5
        if x + end + 2.0 + text_width(said) > place.wide:
            x, base = start, base + LINE_PITCH
        shapes += _scale_bar(x, base - CAP_HEIGHT / 2, end)
        shapes.append(Text((x + end + 2.0, base), said))
    else:
        note = "all at one scale"
        note += "; cords are not to scale." if any(b is None for b in boxes) else "."
        note += " Underlined: new or changed." if any(t.changed for t in things) else ""
        shapes += _scale_bar(0.0, top - 1.0 + CAP_HEIGHT / 2, end)
        shapes.append(Text((end + 2.0, top - 1.0 + CAP_HEIGHT), f"{said}, {note}"))
    names = listed([t.name for t in things])
    new = [t.name for t in things if t.changed]
    alt = f"On the table: {names}." + (f" New or changed: {listed(new)}." if new else "")
    alt += f" All at one scale; a bar of {said} is shown."
    return finished(title, alt, shapes, margin=0.6 if place.brief else 2.0)


def _scale_bar(x: float, y: float, length: float) -> list[Shape]:
    ends = [segment((at, y - 1.2), (at, y + 1.2), "dimension") for at in (x, x + length)]
    return [segment((x, y), (x + length, y), "dimension"), *ends]


def _one(thing: Thing, box: Box | None, left: float, foot: float, scale: float) -> Sequence[Shape]:
    """A silhouette on its foot line; filled if it is changed."""
    if box is None:
        wave = tuple((left + 1.2 * i, foot - 1.5 + sin(2 * pi * i / 5)) for i in range(11))
        return [Polyline(wave, "new" if thing.changed else "outline")]
    # what is thinner than a line is drawn as thick as one
    tall, wide = max(box.height * scale, LEAST), max(box.width * scale, LEAST)
    sx, sy = wide / max(box.width, 1e-6), tall / max(box.height, 1e-6)
    found = []
    for outline in thing.outlines:
        points = tuple(((px - box.left) * sx, (py - box.bottom) * sy) for px, py in outline)
        found.append(moved(Polyline(points, "silhouette", None, True, True), left, foot))
    return found
