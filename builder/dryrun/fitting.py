"""Fits: the play between a part and what it goes into, for a stated fit or for glue that bridges it."""

from __future__ import annotations

from fractions import Fraction

from builder.dryrun import needs as n
from builder.dryrun.bench import Seat, Stretch
from builder.dryrun.placing import frame_in, stretch_in
from builder.dryrun.shape import (
    bore_of,
    is_axial,
    length_of,
    outside_of,
    outside_reads,
    over_seam_of,
)
from builder.dryrun.work import Work
from builder.findings import Place
from builder.guide.model import Thing
from builder.trade.adhesives import adhesive as trade_adhesive
from builder.trade.fits import fit as trade_fit

NO_LIMIT = Fraction(10**6)
LEAST_SLOT_PLAY = Fraction(1, 20)  # mm: as little as slides by hand (the low end of a sliding fit)
GLUE_GAP = Fraction(1, 2)  # mm on one side, for an adhesive that trade does not know


def own_stretch(frame: tuple[Fraction, int], lo: Fraction, hi: Fraction) -> Stretch:
    offset, sign = frame
    if sign < 0:
        return offset - hi, offset - lo
    return (lo - offset, hi - offset) if offset else (lo, hi)


def fits(
    work: Work,
    child: str,
    host: str,
    side: str,
    stated: str,
    glued: frozenset[str],
    at: Place,
    adhesive: Thing | None,
) -> bool:
    """The play between what goes in and what it goes into, for every part that faces the bore."""
    outer = work.thing(host)
    if side == "outside":
        return _ring_over(work, child, host, stated, at, adhesive)
    bore = bore_of(outer)
    total = length_of(outer)
    if bore is None:
        return True
    exposed = []
    for item in work.bench.below(child):
        if item != child and _nowhere(work.bench.seats[item]):
            return True  # a ring at no known place may be what faces the bore
        if item != child and work.bench.seats[item].side not in ("outside", "end"):
            continue
        thing = work.thing(item)
        place = stretch_in(work, item, host)
        size = length_of(thing, work.folded(item))
        if not is_axial(thing):
            continue
        if item == child and (place is None or total is None) and not thing.tapers:
            outside = outside_of(thing)  # wherever it sits, the bore is the same
            if outside is not None:
                exposed.append((item, outside, max(outside, over_seam_of(thing) or outside)))
            continue
        if place is None or size is None or total is None:
            continue
        lo, hi = max(place[0], Fraction(0)), min(place[1], total)
        if lo >= hi:
            continue
        frame = frame_in(work.bench, item, host)
        own = own_stretch(frame, lo, hi) if frame else (Fraction(0), size)
        outside = outside_of(thing, *own)
        if outside is not None:
            widest = max(outside, over_seam_of(thing) or outside) if not thing.tapers else outside
            exposed.append((item, outside, widest))
    if not exposed:
        return True
    largest = max(exposed, key=lambda e: e[2])
    ok = True
    if not stated and not glued and adhesive is None and child == largest[0]:
        glued = frozenset((child,))  # what nothing holds is supposed to be glued, and is judged as such
    for item, outside, widest in exposed:
        low, high, kind = Fraction(0), NO_LIMIT, "glue"
        if stated and item == largest[0]:
            low, high, kind = _range(stated, outer, work.thing(item))
        elif item in glued:
            high = 2 * _gap(adhesive)
        elif item != largest[0]:
            continue
        reads = outside_reads(work.thing(item)) | outer.reads("inside")
        ok &= _fit_need(
            work, item, host, bore - widest, bore - outside, low, high, kind, outside, bore, at, reads
        )
    return ok


def _nowhere(seat: Seat) -> bool:
    """Whether it sits round its host at a place that is supposed, or could not be worked out."""
    return seat.side == "outside" and seat.stretch is None and (seat.cause.supposed or bool(seat.spot))


def _ring_over(work: Work, child: str, host: str, stated: str, at: Place, adhesive: Thing | None) -> bool:
    ring, rod = work.thing(child), work.thing(host)
    bore = bore_of(ring)
    seat = work.bench.seats.get(child)
    outside = (
        outside_of(rod, *seat.stretch)
        if seat is not None and seat.stretch and rod.tapers
        else outside_of(rod)
    )
    if bore is None:
        bore = _punched(work, child)
    if bore is None or outside is None:
        return True
    widest = max(outside, over_seam_of(rod) or outside)
    ok = _over_thin(work, child, host, bore, widest, at)
    low, high, kind = Fraction(0), 2 * _gap(adhesive), "glue"
    if stated:
        low, high, kind = _range(stated, ring, rod)
    elif adhesive is None:
        high = NO_LIMIT
    reads = ring.reads("inside") | outside_reads(rod)
    return ok & _fit_need(
        work, host, child, bore - widest, bore - outside, low, high, kind, outside, bore, at, reads
    )


def _over_thin(work: Work, child: str, host: str, bore: Fraction, widest: Fraction, at: Place) -> bool:
    """A clip or a strip that lies along the host passes through the ring's slot, or under its bore."""
    ring = work.thing(child)
    seat = work.bench.seats.get(child)
    if seat is None or seat.stretch is None:
        return True
    slots = ring.refs.get("slots")
    ok = True
    for other in work.bench.children(host):
        if other.child == child or other.stretch is None or other.side not in ("outside", "taped"):
            continue
        thing = work.thing(other.child)
        thick = thing.mm("thickness")
        a, b = other.stretch
        if thing.form != "clip" or thick is None or not (a < seat.stretch[1] and seat.stretch[0] < b):
            continue
        reads = ring.reads("inside", "play") | thing.reads("thickness")
        if slots is not None and slots.id == thing.id:
            if "play" in ring.values and ring.mm("play") is None:
                continue  # unknown, and why has been told
            play = ring.mm("play") or Fraction(0)
            inner, outer = thick, thick + play
        else:
            inner, outer = widest + 2 * thick, bore
            play = outer - inner
        ok &= _fit_need(
            work,
            other.child,
            child,
            play,
            play,
            LEAST_SLOT_PLAY,
            NO_LIMIT,
            "sliding",
            inner,
            outer,
            at,
            reads,
        )
    return ok


def _punched(work: Work, item: str) -> Fraction | None:
    made = [h for h in work.bench.holes if h.item == item and h.diameter is not None]
    through = work.action.words("through")
    threaded = [h for h in made if h.spot in through]  # it may have others, for screws
    sizes = [h.diameter for h in threaded or made if h.diameter is not None]
    return min(sizes) if sizes else None


def _fit_need(
    work: Work,
    inner: str,
    outer: str,
    least: Fraction,
    most: Fraction,
    low: Fraction,
    high: Fraction,
    kind: str,
    inner_mm: Fraction,
    outer_mm: Fraction,
    at: Place,
    reads: frozenset[str],
) -> bool:
    """A seam makes the play differ round the part: the least counts against low, the most against high."""
    play = least if least < low else most
    met = least >= low and most <= high
    return work.need(
        n.Fits(
            at=at,
            met=met,
            inner=inner,
            outer=outer,
            play=play,
            low=low,
            high=high,
            kind=kind,
            inner_mm=inner_mm,
            outer_mm=outer_mm,
            reads=reads,
        )
    )


def _range(stated: str, outer: Thing, inner: Thing) -> tuple[Fraction, Fraction, str]:
    thin = outer.form in ("slab", "sheet", "strip", "regular polygon", "disc")
    row = trade_fit(stated, "sheet" if thin else "round")
    if row is None:
        return Fraction(0), NO_LIMIT, stated
    return row.low, row.high, stated


def _gap(adhesive: Thing | None) -> Fraction:
    if adhesive is None:
        return GLUE_GAP
    row = trade_adhesive(adhesive.words.get("adhesive", ""))
    return row.gap if row is not None else GLUE_GAP
