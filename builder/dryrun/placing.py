"""Where a written place is: resolving the place grammar against the bench.

Nothing is judged here beyond recording the needs that a place has (its mark is drawn, its station lies on
the part, its name is known).
"""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction

import msgspec

from builder.dryrun import needs as n
from builder.dryrun.bench import Bench, Mark, Seat, Stretch
from builder.dryrun.effects import Lay
from builder.dryrun.shape import (
    axes_of,
    beside,
    end_station,
    from_end,
    goes_round,
    is_flat,
    length_of,
    width_of,
)
from builder.dryrun.work import Work
from builder.guide.model import Chain, Spot, Thing
from builder.trade.ends import ENDS, is_origin

_ZERO = Fraction(0)


class At(msgspec.Struct, frozen=True):
    """A resolved place. `stretch` along the host's axis (equal ends for a station); `zone` when a zone was
    named, `end` when an end was, `origin` the end that a station was measured from."""

    kind: str
    stretch: Stretch | None = None
    across: Stretch | None = None
    angles: tuple[Fraction, ...] = ()
    zone: str = ""
    end: str = ""
    origin: str = ""
    other: str = ""
    mark: str = ""
    hole: str = ""
    reads: frozenset[str] = frozenset()


class Named(n.Need, frozen=True, kw_only=True):
    """The place named is a zone, a mark, an end or a hole of the host."""

    name: str
    host: str
    guess: str = ""


def chain_side(side: str) -> str:
    """The side whose chain a named zone is looked for first."""
    return {"top": "lengthwise", "under": "lengthwise", "at": "outside", "edge": "outside"}.get(side, side)


def resolve(work: Work, spot: Spot, host: str, side: str, child: str = "") -> At:
    """A written place on a host (and, for a joining verb, the child that goes there)."""
    thing = work.thing(host)
    total = length_of(thing, work.folded(host))
    if spot.kind == "its mark" and work.repeat is not None and work.repeat.spots:
        index = min(work.copy, len(work.repeat.spots)) - 1
        return resolve(work, work.repeat.spots[index], host, side, child)
    if spot.kind == "corner":
        return At("corner", mark=f"corner {work.copy or 1}")
    if spot.kind == "will sit":
        return At("will sit", other=spot.names[0] if spot.names else "")
    if spot.kind == "nothing" or not spot.names:
        return At("unknown")
    name = spot.names[0]
    if spot.kind in ("from", "stretch", "two"):
        return _measured(work, spot, host, thing, total)
    if spot.kind == "meets":
        return _meets(work, spot, name, host, thing, total)
    if spot.kind == "flush":
        return _end(work, spot, name, host, thing, total, "flush")
    if spot.kind == "middle":
        return _middle(work, spot, name, host, thing, total)
    return _named(work, spot, name, host, thing, side, child)


def _measured(work: Work, spot: Spot, host: str, thing: Thing, total: Fraction | None) -> At:
    end = spot.names[0]
    lengths = [v.base for v in spot.lengths]
    reads = work.read(*spot.lengths)
    if any(v is None for v in lengths):
        return At("unknown", reads=reads)
    first = lengths[0] or Fraction(0)
    if is_flat(thing):
        return _on_flat(work, spot, host, thing, reads)
    _known_end(work, spot, end, host, thing)
    if total is None:
        return At("unknown", reads=reads)
    reads |= thing.reads("length") if not is_origin(end) else frozenset()
    if spot.kind == "stretch":
        second = lengths[1] or Fraction(0)
        a, b = from_end(total, first, end, thing), from_end(total, second, end, thing)
        lo, hi = min(a, b), max(a, b)
    else:
        lo = hi = from_end(total, first, end, thing)
    _station(work, spot, host, lo, hi, total, reads | thing.reads("length"))
    return At(spot.kind, (lo, hi), origin=end, reads=reads)


def _on_flat(work: Work, spot: Spot, host: str, thing: Thing, reads: frozenset[str]) -> At:
    along_names, across_names = axes_of(thing)
    length, width = length_of(thing, work.folded(host)), width_of(thing, work.folded(host))
    along: Stretch | None = None
    across: Stretch | None = None
    values = [v.base or Fraction(0) for v in spot.lengths]
    if spot.kind == "stretch":
        pairs = [(spot.names[0], min(values), max(values))]
    else:
        pairs = [(end, value, value) for end, value in zip(spot.names, values, strict=False)]
    for end, low, high in pairs:
        total = length if end in along_names else width if end in across_names else None
        if end not in along_names and end not in across_names:
            _known_end(work, spot, end, host, thing)
            continue
        if total is None:
            continue
        a, b = from_end(total, low, end, thing), from_end(total, high, end, thing)
        lo, hi = min(a, b), max(a, b)
        size_reads = thing.reads("length" if end in along_names else "width")
        _station(work, spot, host, lo, hi, total, reads | size_reads)
        if end in along_names:
            along = (lo, hi)
        else:
            across = (lo, hi)
    return At(spot.kind, along, across, origin=spot.names[0], reads=reads)


def _station(
    work: Work, spot: Spot, host: str, lo: Fraction, hi: Fraction, total: Fraction, reads: frozenset[str]
) -> None:
    work.need(
        n.Station(
            at=spot.at,
            met=lo >= 0 and hi <= total,
            what=spot.text,
            host=host,
            lo=lo,
            hi=hi,
            length=total,
            reads=reads,
        )
    )


def _known_end(work: Work, spot: Spot, end: str, host: str, thing: Thing) -> bool:
    known = ends_of(thing)
    if end in known:
        return True
    work.need(Named(at=spot.at, met=False, name=end, host=host, guess=_near(end, known)))
    return False


def _near(name: str, known: Iterable[str]) -> str:
    from builder.guide.reading import nearest

    return nearest(name, known) or ""


def ends_of(thing: Thing) -> tuple[str, ...]:
    """The names by which the ends or edges of a thing may be called."""
    if is_flat(thing):
        along, across = axes_of(thing)
        return (*along, *across, "top", "under")
    return ENDS


def _end(work: Work, spot: Spot, end: str, host: str, thing: Thing, total: Fraction | None, kind: str) -> At:
    if is_flat(thing):
        thick = thing.mm("thickness")
        if end in ("top", "under"):
            z = Fraction(0) if end == "under" else thick
            return At(kind, (z, z) if z is not None else None, end=end, reads=thing.reads("thickness"))
        along, across = axes_of(thing)
        size = length_of(thing) if end in along else width_of(thing)
        if size is None or end not in (*along, *across):
            _known_end(work, spot, end, host, thing)
            return At("unknown")
        z = end_station(size, end, thing)
        return At(kind, (z, z), end=end) if end in along else At(kind, None, (z, z), end=end)
    if not _known_end(work, spot, end, host, thing) or total is None:
        return At("unknown")
    z = end_station(total, end, thing)
    return At(kind, (z, z), end=end, reads=frozenset() if is_origin(end) else thing.reads("length"))


def _meets(work: Work, spot: Spot, name: str, host: str, thing: Thing, total: Fraction | None) -> At:
    item = name if name in work.bench.items else None
    if item is None and name in work.guide.things:
        items = work.items_named(name)
        item = items[0] if items else None
        if item is not None:
            work.exists(item, spot.at)
    if item is not None:
        place = stretch_in(work, item, host)
        reads = work.bench.seats[item].cause.reads if item in work.bench.seats else frozenset()
        return At("meets", place, other=item, reads=reads)
    return _end(work, spot, name, host, thing, total, "meets")


def _middle(work: Work, spot: Spot, name: str, host: str, thing: Thing, total: Fraction | None) -> At:
    if name in work.guide.things:
        items = work.items_named(name)
        if items:
            work.exists(items[0], spot.at)
            if items[0] == host:
                half = Fraction(1, 2)
                length, width = length_of(thing), width_of(thing)
                along = (length * half, length * half) if length is not None else None
                across = (width * half, width * half) if width is not None and is_flat(thing) else None
                return At("middle", along, across, other=host)
            seat = work.bench.seats.get(items[0])
            if seat is not None:
                return At(
                    "middle", _mid(seat.stretch), _mid(seat.across), other=items[0], reads=seat.cause.reads
                )
        return At("middle", other=name)
    zone = thing.zone(name)
    if zone is not None and zone.lo is not None and zone.hi is not None:
        middle = (zone.lo + zone.hi) / 2
        return At("middle", (middle, middle), zone=name, reads=zone.reads)
    return _end(work, spot, name, host, thing, total, "middle")


def _mid(stretch: Stretch | None) -> Stretch | None:
    if stretch is None:
        return None
    middle = (stretch[0] + stretch[1]) / 2
    return (middle, middle)


def _named(work: Work, spot: Spot, name: str, host: str, thing: Thing, side: str, child: str) -> At:
    head, _, tail = name.partition(".")
    if tail and head in work.guide.things:
        name = tail
    zone = thing.zone(name, chain_side(side))
    chain = thing.chain_of(name, chain_side(side))
    if zone is not None and chain is not None:
        return _zone_at(spot.kind, zone.lo, zone.hi, zone.reads, name, chain)
    if child:
        other = work.thing(child)
        inner = other.zone(name)
        if inner is not None:
            return At("child zone", _pair(inner.lo, inner.hi), zone=name, reads=inner.reads)
    if name in work.bench.marks or name in work.named_marks:
        return marked(work, spot, name, host)
    if name in ends_of(thing):
        return _end(work, spot, name, host, thing, length_of(thing), "end")
    hole = next((h for h in thing.holes if h.name == name), None)
    if hole is not None and not goes_round(thing, hole):
        found = resolve(work, hole.spot, host, side)
        return msgspec.structs.replace(found, hole=name)
    zones = (z.name for c in thing.chains for z in c.zones)
    known = (*zones, *work.bench.marks, *(h.name for h in thing.holes))
    work.need(Named(at=spot.at, met=False, name=name, host=host, guess=_near(name, known)))
    return At("unknown")


def _pair(lo: Fraction | None, hi: Fraction | None) -> Stretch | None:
    return (lo, hi) if lo is not None and hi is not None else None


def _zone_at(
    kind: str, lo: Fraction | None, hi: Fraction | None, reads: frozenset[str], name: str, chain: Chain
) -> At:
    side, origin = chain.side, chain.origin
    if lo is None or hi is None:
        return At("unknown", zone=name, reads=reads)
    stretch: Stretch = (lo, hi)
    if kind in ("start", "end"):
        station = lo if (kind == "start") == chain.forward else hi
        stretch = (station, station)
        if side == "crosswise":
            return At("station", None, stretch, origin=origin, reads=reads)
        return At("station", stretch, origin=origin, reads=reads)
    if side == "crosswise":
        return At("zone", None, stretch, zone=name, origin=origin, reads=reads)
    return At("zone", stretch, zone=name, origin=origin, reads=reads)


def span_from(found: At, size: Fraction) -> Stretch | None:
    """What a thing of a size takes from a place: the face nearest the end that the place is measured from
    stands there; a zone is filled."""
    if found.stretch is None:
        return None
    lo, hi = found.stretch
    if hi > lo:
        return (lo, hi)
    end = found.origin or found.end
    return (lo, lo + size) if not end or is_origin(end) else (lo - size, lo)


def marked(work: Work, spot: Spot, name: str, host: str) -> At:
    """A mark, needed to be drawn and not covered; at no known place if it is missing, or out of sight."""
    mark = work.bench.marks.get(name)
    if mark is None:
        work.need(n.Marked(at=spot.at, met=False, mark=name, host=host, state="missing"))
        cause = work.cause(at=spot.at, supposed=True)
        work.suppose(Lay(Mark(name, host, "", cause), cause))
        return At("mark", mark=name)
    cover = covering(work, mark)
    met = cover is None
    work.need(
        n.Marked(
            at=spot.at,
            met=met,
            mark=name,
            host=host,
            state="drawn" if met else "covered",
            other=cover.child if cover else "",
            other_at=cover.cause.at if cover else None,
            reads=mark.cause.reads,
        )
    )
    if not met:  # what is lined up with it would be in the cover's place, which says the same again
        return At("mark", angles=mark.angles, mark=name)
    return At(
        "mark", mark.stretch, mark.across, mark.angles, origin=mark.origin, mark=name, reads=mark.cause.reads
    )


def covering(work: Work, mark: Mark) -> Seat | None:
    """What lies over a mark; an edge that touches it does not cover it, nor does what is lined up with it."""
    if mark.stretch is None:
        return None
    own = work.all_items(work.action.refs("what"))
    lo, hi = mark.stretch
    for seat in work.bench.children(mark.host):
        if seat.side != mark.side or seat.stretch is None or seat.side in ("taped", "tied", "loose"):
            continue
        a, b = seat.stretch
        inside = a < lo < b if lo == hi else a < hi and lo < b and (a, b) != (lo, hi)
        if (
            inside
            and not beside(mark.across, seat.across)
            and (seat.angle is None or seat.angle in mark.angles)
            and not _is_aid(work, seat.child)
            and seat.child not in own
        ):
            return seat
    return None


def _is_aid(work: Work, item: str) -> bool:
    return work.thing(item).sort == "tool"


# -- stretches along stacked seats --------------------------------------------------------------------


def frame_in(bench: Bench, item: str, host: str) -> tuple[Fraction, int] | None:
    """(offset, sign): a station x of the item lies at offset + sign * x of the host's axis."""
    offset, sign = _ZERO, 1
    seen = {item}
    while item != host:
        seat = bench.seats.get(item)
        if (
            seat is None
            or seat.stretch is None
            or seat.side not in ("inside", "outside", "hole", "end", "taped")
        ):
            return None
        lo, hi = seat.stretch
        if seat.flipped:
            offset, sign = hi - offset, -sign
        else:
            offset = lo + offset if offset else lo
        item = seat.host
        if item in seen:
            return None
        seen.add(item)
    return offset, sign


def stretch_in(work: Work, item: str, host: str) -> Stretch | None:
    """What an item takes of a host's axis, along the seats between; a strip wrapped round it, its width."""
    seat = work.bench.seats.get(item)
    frame = frame_in(work.bench, item, host)
    if item == host or frame is None or seat is None or seat.stretch is None:
        return None
    length = seat.stretch[1] - seat.stretch[0]
    offset, sign = frame
    return (offset, offset + length) if sign > 0 else (offset - length, offset)


def covers(inner: Stretch, outer: Stretch) -> bool:
    return outer[0] <= inner[0] and inner[1] <= outer[1]
