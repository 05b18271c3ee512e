"""A thing of a guide as a solid in its own frame: exact numbers become floats here.

A turned part has its zero end (rear, left, tip, foot) at x = 0.  A flat part has its first axis along x,
its second along y, its under face at z = 0.
"""

from __future__ import annotations

from fractions import Fraction

from builder.drawings.developments import regular_polygon
from builder.drawings.patterns import fin_points
from builder.drawings.shapes import Point
from builder.drawings.solids import Cord, Slab, Solid, Stretch, Turned, round_outline
from builder.dryrun.shape import axes_of, from_end, is_axial, is_flat, length_of, outside_of, width_of
from builder.guide.model import Hole, Thing

THIN = 0.3
"""What has no stated thickness is drawn this thick, mm."""

HOLE = 4.0
"""A hole whose diameter nobody states is drawn this wide, mm."""

SHANK = 0.7
"""This share of a screw eye's length is shank; the ring at its end takes the rest."""

CORD = 60.0
"""A cord is drawn this long where it hangs from something, mm."""


def mm(value: Fraction | None, otherwise: float = 0.0) -> float:
    """An exact length as a float; what is unknown becomes `otherwise`."""
    return otherwise if value is None else float(value)


def solid_of(
    thing: Thing, *, folded: bool = False, holes: tuple[tuple[Point, float], ...] = ()
) -> Solid | None:
    """The solid of a thing, or None if its guide does not say how large it is.

    `holes` are middles and diameters in its own frame, of holes made since.
    """
    if is_axial(thing):
        return _turned(thing)
    if is_flat(thing):
        return _slab(thing, folded, holes)
    if thing.form == "cord":
        length = mm(thing.mm("length"), CORD)
        return Cord(((0.0, 0.0, 0.0), (min(length, CORD), 0.0, 0.0)))
    return None


def _turned(thing: Thing) -> Turned | None:
    length = mm(length_of(thing)) or THIN
    outer: list[Stretch] = []
    for taper in thing.tapers:
        zone = thing.zone(taper.zone)
        if zone is None or zone.lo is None or zone.hi is None or zone.hi <= zone.lo:
            continue
        chain = thing.chain_of(taper.zone)
        ends = (mm(taper.first.base) / 2, mm(taper.second.base) / 2)
        r0, r1 = ends if chain is None or chain.forward else ends[::-1]
        outer.append(Stretch(float(zone.lo), float(zone.hi), r0, r1))
    if not outer:
        radius = mm(outside_of(thing)) / 2
        if radius <= 0:
            return None
        outer = [Stretch(0.0, length, radius, radius)]
    if thing.form == "screw":
        outer = [Stretch(0.0, length * SHANK, outer[0].r0, outer[0].r0)]
    outer.sort()
    bore = mm(thing.mm("inside")) / 2
    inner = (Stretch(outer[0].x0, outer[-1].x1, bore, bore),) if bore > 0 else ()
    return Turned(tuple(outer), inner)


def outline_of(thing: Thing, *, folded: bool = False) -> tuple[Point, ...] | None:
    """The outline of a flat thing, its lower left corner at the origin; None if unknown."""
    outline = thing.outline
    shape = outline.shape if outline is not None else ""
    if shape == "fin" and outline is not None:
        root, tip, span = (mm(thing.mm(f)) for f in ("root", "tip", "span"))
        if min(root, span) <= 0:
            return None
        sweep = thing.mm("sweep")
        if sweep is not None:  # the rear end is at 0: the tip ends so far behind the front of the root
            front = root - float(sweep)
            return ((0, 0), (root, 0), (front, span), (front - tip, span))
        return fin_points(
            root, tip, span, outline.words.get("square edge", outline.words.get("square_edge", ""))
        )
    if thing.form == "regular polygon" or shape == "regular polygon":
        flats, sides = mm(thing.mm("across_flats")), thing.mm("sides")
        if flats <= 0 or sides is None or sides < 3:
            return None
        half = flats / 2
        return tuple((x + half, y + half) for x, y in regular_polygon(int(sides), flats))
    if shape in ("ring", "disc"):
        size = mm(thing.mm("outside") or thing.mm("diameter"))
        return round_outline((size / 2, size / 2), size) if size > 0 else None
    if outline is not None and outline.points:
        return tuple((mm(x.base), mm(y.base)) for x, y in outline.points)
    length, width = mm(length_of(thing, folded)), mm(width_of(thing, folded))
    if length <= 0 or width <= 0:
        return None
    return ((0.0, 0.0), (length, 0.0), (length, width), (0.0, width))


def _slab(thing: Thing, folded: bool, made: tuple[tuple[Point, float], ...]) -> Slab | None:
    points = outline_of(thing, folded=folded)
    if points is None:
        return None
    thickness = mm(thing.mm("thickness")) or THIN
    if folded:
        thickness *= 3
    holes = tuple(round_outline(at, size, 24) for at, size in made)
    return Slab(points, max(thickness, 0.05), holes)


def hole_at(thing: Thing, hole: Hole) -> Point | None:
    """The middle of a named hole in the thing's own frame; None if its place is not two lengths."""
    if len(hole.spot.names) != 2 or len(hole.spot.lengths) != 2:
        return None
    along, across = axes_of(thing)
    length, width = length_of(thing), width_of(thing)
    if length is None or width is None:
        return None
    x, y = float(length) / 2, float(width) / 2
    for end, value in zip(hole.spot.names, hole.spot.lengths, strict=True):
        if value.base is None:
            return None
        if end in along:
            x = float(from_end(length, value.base, end, thing))
        elif end in across:
            y = float(from_end(width, value.base, end, thing))
    return (x, y)


def ends_of(thing: Thing) -> tuple[str, str]:
    """The names of a turned thing's two ends, zero end first; empty if it has none of its own."""
    from builder.trade.ends import is_origin, opposite

    for chain in thing.chains:
        other = opposite(chain.origin) or ""
        return (chain.origin, other) if is_origin(chain.origin) else (other, chain.origin)
    return ("rear", "front") if thing.form == "tube" else ("", "")
