"""What every joining verb shares: glue that meets, fits, ways, rooms, and the joint that closes."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from builder.dryrun import needs as n
from builder.dryrun.bench import Joint, Seat, Stretch, Wet
from builder.dryrun.effects import Close, Lift
from builder.dryrun.effects import Place as Put
from builder.dryrun.placing import frame_in, stretch_in
from builder.dryrun.shape import (
    THIN,
    bore_of,
    is_axial,
    is_flat,
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
GLUE_GAP = Fraction(1, 2)  # mm on one side, for an adhesive that trade does not know


def pairs(children: Sequence[str], hosts: Sequence[str]) -> list[tuple[str, str]]:
    """Children with hosts: one by one when there are as many, else all on the one host."""
    if len(children) == len(hosts):
        return list(zip(children, hosts, strict=True))
    if not hosts:
        return []
    return [(child, hosts[min(i, len(hosts) - 1)]) for i, child in enumerate(children)]


def free(work: Work, child: str, host: str, at: Place) -> bool:
    """The child is not yet placed, or only part of the way on this very host. It is lifted if it is."""
    seat = work.bench.seats.get(child)
    if seat is None:
        return work.need(n.Free(at=at, child=child, host=host))
    moving = not seat.home and seat.host == host
    met = work.need(n.Free(at=at, met=moving, child=child, host=host, seated_on=seat.host, since=seat.cause.at))
    return met


def slotted(work: Work, one: str, other: str) -> bool:
    """Whether one of the two has slots for the other."""
    a, b = work.thing(one), work.thing(other)
    for x, y in ((a, b), (b, a)):
        ref = x.refs.get("slots")
        if ref is not None and ref.id == y.id:
            return True
    return False


def way_open(work: Work, child: str, host: str, side: str, seat: Stretch | None, end: str, entry_low: bool,
             meets: frozenset[str], at: Place) -> bool:  # fmt: skip
    """Nothing stands, and no glue for another lies, between the end that it comes from and its seat."""
    thing = work.thing(host)
    total = length_of(thing)
    if seat is None or total is None:
        return True
    low, high = (Fraction(0), seat[0]) if entry_low else (seat[1], total)
    for other in work.bench.children(host):
        if other.child == child or other.side != side or other.stretch is None or not blocks(work, other):
            continue
        if slotted(work, child, other.child):
            continue
        lo, hi = max(other.stretch[0], Fraction(0)), min(other.stretch[1], total)
        if lo < high and hi > low and lo < hi:
            return work.need(n.Way(at=at, met=False, child=child, host=host, end=end, blocker=other.child,
                                   blocker_at=other.cause.at))  # fmt: skip
    if side != "inside":
        return work.need(n.Way(at=at, child=child, host=host, end=end))
    for wet in work.bench.wets:
        if wet.host != host or wet.side != side or wet.stretch is None or wet.meets & meets or wet.pending:
            continue
        if wet.cause.step == work.step.id and _covers(wet.stretch, seat):
            continue  # the glue of this very step, meant for another part: that has its own need
        if wet.stretch[0] < max(high, seat[1]) and wet.stretch[1] > min(low, seat[0]):
            met = work.need(n.Way(at=at, met=False, child=child, host=host, end=end, swept=wet))
            work.suppose(Lift("", work.cause(at=at, supposed=True), wet))
            return met
    return work.need(n.Way(at=at, child=child, host=host, end=end))


def blocks(work: Work, seat: Seat) -> bool:
    """Whether what sits there fills the way; a strip on the wall, or what lies loose, does not."""
    return seat.side != "loose" and work.thing(seat.child).form not in THIN


def apart(work: Work, child: str, host: str, side: str, stretch: Stretch | None, angle: Fraction | None,
          across: Stretch | None, at: Place, reads: frozenset[str], entry_low: bool | None = None) -> bool:  # fmt: skip
    """Nothing else is in that place. For what goes inside, how much room there is from the entry."""
    thing = work.thing(host)
    total = length_of(thing)
    if stretch is None:
        return True
    lo, hi = stretch
    if side == "inside" and total is not None:
        lo, hi = max(lo, Fraction(0)), min(hi, total)
    mine = set(work.bench.below(child))
    for other in work.bench.children(host):
        if other.child in mine or other.side != side or other.stretch is None or not blocks(work, other):
            continue
        if slotted(work, child, other.child):
            continue
        a, b = other.stretch
        if not (a < hi and lo < b):
            continue
        if across is not None and other.across is not None and not (
            other.across[0] < across[1] and across[0] < other.across[1]
        ):
            continue
        if side == "outside" and not _angles_meet(work, host, child, angle, other):
            continue
        room = None
        if side == "inside" and entry_low is not None and total is not None:
            room = a if entry_low else total - b
        return work.need(n.Apart(at=at, met=False, child=child, host=host, other=other.child, inside=side == "inside",
                                 other_at=other.cause.at, room=room, asked=hi - lo,
                                 reads=reads | other.cause.reads))  # fmt: skip
    if side == "inside" and total is not None and entry_low is not None and (
        stretch[1] > total if entry_low else stretch[0] < 0
    ):
        return work.need(n.Apart(at=at, met=False, child=child, host=host, inside=True, room=total,
                                 asked=stretch[1] - max(stretch[0], Fraction(0)) if entry_low
                                 else min(stretch[1], total) - stretch[0],
                                 reads=reads | thing.reads("length")))  # fmt: skip
    return work.need(n.Apart(at=at, child=child, host=host, inside=side == "inside"))


def _angles_meet(work: Work, host: str, child: str, angle: Fraction | None, other: Seat) -> bool:
    if angle is None or other.angle is None:
        return True
    apart_deg = abs(angle - other.angle) % 360
    apart_deg = min(apart_deg, 360 - apart_deg)
    radius = (outside_of(work.thing(host)) or Fraction(2)) / 2
    reach = sum((thickness_round(work.thing(item)) for item in (child, other.child)), Fraction(0)) / 2
    # arc length of the angle between, with pi as 355/113 (good to 3e-7), against the half widths
    return apart_deg / 180 * Fraction(355, 113) * radius < reach


def thickness_round(thing: Thing) -> Fraction:
    """How wide a thing is that stands on a tube: a fin's thickness, a lug's outside, a strip's width."""
    if thing.form == "slab":
        return thing.mm("thickness") or Fraction(0)
    if is_flat(thing):
        return thing.mm("width") or Fraction(0)
    return outside_of(thing) or Fraction(0)


def fits(work: Work, child: str, host: str, side: str, stated: str, glued: frozenset[str], at: Place,
         adhesive: Thing | None) -> bool:  # fmt: skip
    """The play between what goes in and what it goes into, for every part that faces the bore."""
    outer = work.thing(host)
    if side == "outside":
        return _ring_over(work, child, host, stated, at, adhesive)
    bore = bore_of(outer)
    total = length_of(outer)
    if bore is None or total is None:
        return True
    exposed = []
    for item in work.bench.below(child):
        if item != child and work.bench.seats[item].side not in ("outside", "end"):
            continue
        thing = work.thing(item)
        place = stretch_in(work, item, host)
        size = length_of(thing, work.folded(item))
        if not is_axial(thing) or place is None or size is None:
            continue
        lo, hi = max(place[0], Fraction(0)), min(place[1], total)
        if lo >= hi:
            continue
        frame = frame_in(work.bench, item, host)
        own = _own_stretch(frame, lo, hi) if frame else (Fraction(0), size)
        outside = outside_of(thing, *own)
        if outside is not None:
            widest = max(outside, over_seam_of(thing) or outside) if not thing.tapers else outside
            exposed.append((item, outside, widest))
    if not exposed:
        return True
    largest = max(exposed, key=lambda e: e[2])
    ok = True
    for item, outside, widest in exposed:
        low, high, kind = Fraction(0), NO_LIMIT, "glue"
        if stated and item == largest[0]:
            low, high, kind = _range(stated, outer, work.thing(item))
        elif item in glued:
            high = 2 * _gap(adhesive)
        elif item != largest[0]:
            continue
        reads = outside_reads(work.thing(item)) | outer.reads("inside")
        ok &= _fit_need(work, item, host, bore - widest, bore - outside, low, high, kind, outside, bore, at, reads)
    return ok


def _own_stretch(frame: tuple[Fraction, int], lo: Fraction, hi: Fraction) -> Stretch:
    offset, sign = frame
    a, b = (lo - offset) * sign, (hi - offset) * sign
    return (a, b) if a <= b else (b, a)


def _ring_over(work: Work, child: str, host: str, stated: str, at: Place, adhesive: Thing | None) -> bool:
    ring, rod = work.thing(child), work.thing(host)
    bore = bore_of(ring)
    seat = work.bench.seats.get(child)
    outside = outside_of(rod, *seat.stretch) if seat is not None and seat.stretch and rod.tapers else outside_of(rod)
    if bore is None:
        bore = _punched(work, child)
    if bore is None or outside is None:
        return True
    widest = max(outside, over_seam_of(rod) or outside)
    low, high, kind = Fraction(0), 2 * _gap(adhesive), "glue"
    if stated:
        low, high, kind = _range(stated, ring, rod)
    elif adhesive is None:
        high = NO_LIMIT
    reads = ring.reads("inside") | outside_reads(rod)
    return _fit_need(work, host, child, bore - widest, bore - outside, low, high, kind, outside, bore, at, reads)


def _punched(work: Work, item: str) -> Fraction | None:
    sizes = [h.diameter for h in work.bench.holes if h.item == item and h.diameter is not None]
    return min(sizes) if sizes else None


def _fit_need(work: Work, inner: str, outer: str, least: Fraction, most: Fraction, low: Fraction, high: Fraction,
              kind: str, inner_mm: Fraction, outer_mm: Fraction, at: Place, reads: frozenset[str]) -> bool:  # fmt: skip
    """A seam makes the play differ round the part: the least counts against low, the most against high."""
    play = least if least < low else most
    met = least >= low and most <= high
    return work.need(n.Fits(at=at, met=met, inner=inner, outer=outer, play=play, low=low, high=high, kind=kind,
                            inner_mm=inner_mm, outer_mm=outer_mm, reads=reads))  # fmt: skip


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


# -- glue that meets ----------------------------------------------------------------------------------


def eligible(work: Work, child: str, hosts: Sequence[str]) -> list[Wet]:
    """The wet glue that was laid for this joint: on either side, meant for the other."""
    moving = set(work.bench.below(child))
    standing = {item for host in hosts for item in work.bench.assembly(host)} - moving
    found = []
    for wet in work.bench.wets:
        on_host = wet.host in standing and wet.meets & moving
        on_child = wet.host in moving and wet.meets & standing
        if on_host or on_child:
            found.append(wet)
    return found


def close(work: Work, child: str, hosts: Sequence[str], *, fit: str, steady: str, held_by: str = "", at: Place,
          kind: str = "glue", judge_cover: bool = True, self_held: bool = False) -> list[Wet]:  # fmt: skip
    """Close the joint between a child that has just been placed and its hosts; the glue that served."""
    host = hosts[0]
    wets = eligible(work, child, hosts)
    existing = [j for j in work.bench.joints if _between(work, j, child, host) and not j.cause.supposed]
    if not wets and not fit and not existing and not self_held:
        other = _misdirected(work, child, hosts)
        work.need(n.Held(at=at, met=False, child=child, host=host, other=other))
        cause = work.cause(at=at, supposed=True)
        work.suppose(Close(Joint(child, host, "supposed", work.end, cause, steady="nested"), cause, other))
        return []
    if not fit and not self_held:
        work.need(n.Held(at=at, child=child, host=host))
    for joint in existing:
        if joint.adhesive and kind == "glue":
            _still_open(work, joint, at)
    for wet in wets:
        partner = _partner(work, wet, child, hosts)
        if judge_cover:
            _cover_need(work, wet, partner, child, hosts)
        label = work.guide.things[wet.adhesive]
        limit = label.mm("working_time")
        if limit is not None:
            age = work.end - wet.at
            work.need(n.Open(at=at, met=age <= limit, wet=wet, age=age, limit=limit,
                             reads=label.reads("working_time")))  # fmt: skip
        joint = Joint(wet.host, partner, kind if kind != "fit" else "glue", work.end, work.cause(at=at), wet.adhesive,
                      steady, held_by)  # fmt: skip
        work.effect(Close(joint, joint.cause, wet))
    if fit and not wets:
        joint = Joint(child, host, "fit", work.end, work.cause(at=at), "", fit)
        work.effect(Close(joint, joint.cause))
    return wets


def _between(work: Work, joint: Joint, child: str, host: str) -> bool:
    moving = set(work.bench.below(child))
    return (joint.a in moving) != (joint.b in moving)


def _still_open(work: Work, joint: Joint, at: Place) -> None:
    label = work.guide.things[joint.adhesive]
    limit = label.mm("working_time")
    if limit is None:
        return
    age = work.end - joint.closed
    wet = Wet(joint.a, "", joint.adhesive, frozenset((joint.b,)), joint.closed, joint.cause, joint.cause.at,
              joint.cause.at)  # fmt: skip
    work.need(n.Open(at=at, met=age <= limit, wet=wet, age=age, limit=limit, reads=label.reads("working_time")))


def _misdirected(work: Work, child: str, hosts: Sequence[str]) -> Wet | None:
    """Glue of this very step, on the same things, that is meant for another part."""
    moving = set(work.bench.below(child))
    standing = {item for host in hosts for item in work.bench.below(host)} - moving
    for wet in work.bench.wets:
        if wet.cause.step != work.step.id:
            continue
        if wet.host in standing:
            place = stretch_in(work, child, wet.host)
            if wet.stretch is None or place is None or _covers(wet.stretch, place):
                return wet
        if wet.host in moving:
            return wet
    return None


def _partner(work: Work, wet: Wet, child: str, hosts: Sequence[str]) -> str:
    """The part on the other side of the glue."""
    moving = work.bench.below(child)
    if wet.host in moving:
        return next((h for h in hosts if h in wet.meets), hosts[0])
    if wet.pending:
        named = [item for item in moving if item in work.items_named(wet.pending)]
        if named:
            return named[0]
    if wet.stretch is not None:
        for item in moving:
            place = stretch_in(work, item, wet.host)
            if item in wet.meets and place is not None and _covers(wet.stretch, place) and (
                item == child or work.bench.seats[item].side == "outside"
            ):
                return item
    return child


def _cover_need(work: Work, wet: Wet, partner: str, child: str, hosts: Sequence[str]) -> None:
    moving = work.bench.below(child)
    covered: Stretch | None = None
    if wet.host in moving:
        covered = _contact_on_child(work, wet.host, hosts)
        if wet.stretch is None or covered is None:
            return
    else:
        covered = stretch_in(work, partner, wet.host)
        if wet.pending or wet.stretch is None:
            work.need(n.Covered(at=wet.where, wet=wet, child=partner, host=wet.host))
            return
        if covered is None:
            covered = _flat_contact(work, partner, wet)
            if covered is None:
                return
    met = _covers(wet.stretch, covered)
    work.need(n.Covered(at=wet.where, met=met, wet=wet, child=partner, host=wet.host, lo=covered[0], hi=covered[1],
                        reads=wet.cause.reads))  # fmt: skip


def _flat_contact(work: Work, partner: str, wet: Wet) -> Stretch | None:
    seat = work.bench.seats.get(partner)
    if seat is None or seat.host != wet.host:
        return None
    return seat.stretch


def _contact_on_child(work: Work, item: str, hosts: Sequence[str]) -> Stretch | None:
    """What of the item's own axis lies within the hosts, taken together."""
    seat = work.bench.seats.get(item)
    own = length_of(work.thing(item), work.folded(item))
    if own is None:
        return None
    if seat is not None and seat.side == "hole":
        depth = sum((work.thing(h).mm("thickness") or Fraction(0) for h in hosts), Fraction(0))
        start = seat.stretch[0] if seat.stretch is not None else Fraction(0)
        return (max(-start, Fraction(0)), depth - start)
    frame = frame_in(work.bench, item, hosts[0])
    total = length_of(work.thing(hosts[0]))
    if frame is None or total is None:
        return None
    lo, hi = _own_stretch(frame, Fraction(0), total)
    return (max(lo, Fraction(0)), min(hi, own))


def _covers(inner: Stretch, outer: Stretch) -> bool:
    return outer[0] <= inner[0] and inner[1] <= outer[1]


def seat_down(work: Work, seat: Seat) -> None:
    """Place a child."""
    work.effect(Put(seat, seat.cause))


def base_of(work: Work, host: str) -> list[str]:
    """The path from the host to the part in hand: the stage's base, or the host itself."""
    base = work.step.stage.base
    if base and base in work.bench.items:
        path = work.bench.path(host, base)
        if path is not None:
            return path
    return work.bench.path(host, work.bench.root(host)) or [host]
