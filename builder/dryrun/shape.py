"""Sizes of things in their own frames: lengths, bores, outsides, ends, axes. Pure functions of a Thing.

An axial thing has stations from 0 (its rear, left, tip, foot or bottom) to its length. A flat thing has
`along` and `across`, each from a named edge.
"""

from __future__ import annotations

from fractions import Fraction

from builder.guide.axes import axes_of
from builder.guide.model import Hole, Thing
from builder.trade.ends import is_origin

__all__ = [
    "AXIAL", "FLAT", "THIN", "axes_of", "beside", "bore_of", "end_station", "from_end", "is_axial", "is_flat",
    "length_of", "outside_of", "outside_reads", "over_seam_of", "width_of",
]  # fmt: skip

AXIAL = ("tube", "rod", "ring", "disc", "turned", "screw")
FLAT = ("slab", "sheet", "strip", "regular polygon", "clip")
THIN = ("strip", "sheet", "cord", "clip")  # on a wall they leave the way open


def is_axial(thing: Thing) -> bool:
    """Turned things, and tools that a guide gives no form to are taken as such if they have a bore."""
    return thing.form in AXIAL


def is_flat(thing: Thing) -> bool:
    """Slabs, sheets and strips."""
    return thing.form in FLAT


def length_of(thing: Thing, folded: bool = False) -> Fraction | None:
    """The length along the axis, or along a flat thing; the folded one if it is folded."""
    if folded:
        value = thing.mm("folded_length")
        if value is not None:
            return value
    value = thing.mm("length")
    if "length" not in thing.values and thing.form in ("disc", "ring"):
        return thing.mm("thickness") or Fraction(0)
    return value if value is not None else _extent(thing, 0)


def width_of(thing: Thing, folded: bool = False) -> Fraction | None:
    """The width of a flat thing; the outside of a round one."""
    if folded:
        value = thing.mm("folded_width")
        if value is not None:
            return value
    if not is_flat(thing):
        return outside_of(thing)
    value = thing.mm("width")
    return value if value is not None else _extent(thing, 1)


def _extent(thing: Thing, axis: int) -> Fraction | None:
    """How far an outline by points reaches, along (0) or across (1)."""
    points = thing.outline.points if thing.outline is not None else ()
    known = [point[axis].base for point in points]
    sizes = [size for size in known if size is not None]
    return max(sizes) - min(sizes) if sizes and len(sizes) == len(known) else None


def outside_of(thing: Thing, lo: Fraction | None = None, hi: Fraction | None = None) -> Fraction | None:
    """The largest outside diameter between two of its own stations (by default anywhere), mm."""
    if thing.tapers and lo is not None and hi is not None:
        widest: Fraction | None = None
        for taper in thing.tapers:
            zone = thing.zone(taper.zone)
            if zone is None or zone.lo is None or zone.hi is None or zone.hi <= lo or zone.lo >= hi:
                continue
            for end in (taper.first, taper.second):
                if end.base is None:
                    return None
                widest = end.base if widest is None else max(widest, end.base)
        return widest
    value = thing.mm("outside")
    return value if value is not None else thing.mm("diameter")


def over_seam_of(thing: Thing) -> Fraction | None:
    """The outside where the seam of a rolled tube lies; the outside otherwise."""
    value = thing.mm("over_seam")
    return value if value is not None else outside_of(thing)


def bore_of(thing: Thing) -> Fraction | None:
    """The inside diameter; None if there is no bore."""
    return thing.mm("inside")


def outside_reads(thing: Thing) -> frozenset[str]:
    """The written numbers behind the outside."""
    found = thing.reads("outside", "diameter", "over_seam")
    for taper in thing.tapers:
        found |= taper.first.reads | taper.second.reads
    return found


def from_end(total: Fraction, length: Fraction, end: str, thing: Thing) -> Fraction:
    """A station measured from a named end, in the thing's own frame."""
    if is_flat(thing):
        along, across = axes_of(thing)
        return length if end in (along[0], across[0]) else total - length
    return length if is_origin(end) else total - length


def end_station(total: Fraction, end: str, thing: Thing) -> Fraction:
    """The station of an end."""
    return from_end(total, Fraction(0), end, thing)


def beside(mark: tuple[Fraction, Fraction] | None, cover: tuple[Fraction, Fraction] | None) -> bool:
    """Whether what takes one stretch leaves a mark bare; touching does. False if one of them is unknown."""
    if mark is None or cover is None:
        return False
    (lo, hi), (a, b) = mark, cover
    return not (a < lo < b if lo == hi else a < hi and lo < b)


def goes_round(thing: Thing, hole: Hole) -> bool:
    """Whether a hole is placed at itself, or at holes of which one is placed at it: then it has no place."""
    by_name = {each.name: each for each in thing.holes}
    passed: set[str] = set()
    following: Hole | None = hole
    while following is not None and following.name not in passed:
        passed.add(following.name)
        names = following.spot.names
        following = by_name.get(names[0].rpartition(".")[2]) if names else None
    return following is not None
