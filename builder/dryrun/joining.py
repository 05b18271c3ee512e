"""What every joining verb shares: glue that meets, fits, ways, rooms, and the joint that closes."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from builder.dryrun import needs as n
from builder.dryrun.bench import Seat, Stretch
from builder.dryrun.effects import Lift
from builder.dryrun.effects import Place as Put
from builder.dryrun.placing import covers
from builder.dryrun.shape import (
    THIN,
    is_flat,
    length_of,
    outside_of,
)
from builder.dryrun.work import Work
from builder.findings import Place
from builder.guide.model import Thing


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
    if seat is None or seat.cause.supposed:
        return work.need(n.Free(at=at, child=child, host=host))
    moving = not seat.home and seat.host == host
    met = work.need(
        n.Free(at=at, met=moving, child=child, host=host, seated_on=seat.host, since=seat.cause.at)
    )
    return met


def slotted(work: Work, one: str, other: str) -> bool:
    """Whether one of the two has slots for the other."""
    a, b = work.thing(one), work.thing(other)
    for x, y in ((a, b), (b, a)):
        ref = x.refs.get("slots")
        if ref is not None and ref.id == y.id:
            return True
    return False


def way_open(
    work: Work,
    child: str,
    host: str,
    side: str,
    seat: Stretch | None,
    end: str,
    entry_low: bool,
    meets: frozenset[str],
    at: Place,
) -> bool:
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
            return work.need(
                n.Way(
                    at=at,
                    met=False,
                    child=child,
                    host=host,
                    end=end,
                    blocker=other.child,
                    blocker_at=other.cause.at,
                )
            )
    if side != "inside":
        return work.need(n.Way(at=at, child=child, host=host, end=end))
    farther = _blocked_farther(work, host, entry_low)
    if farther is not None:
        return work.need(
            n.Way(
                at=at,
                met=False,
                child=child,
                host=host,
                end=end,
                blocker=farther.child,
                blocker_at=farther.cause.at,
            )
        )
    for wet in work.bench.wets:
        if wet.host != host or wet.side != side or wet.stretch is None or wet.meets & meets or wet.pending:
            continue
        if wet.cause.supposed or (wet.cause.step == work.step.id and covers(wet.stretch, seat)):
            continue  # the glue of this very step, meant for another part: that has its own need
        if wet.stretch[0] < max(high, seat[1]) and wet.stretch[1] > min(low, seat[0]):
            met = work.need(n.Way(at=at, met=False, child=child, host=host, end=end, swept=wet))
            work.suppose(Lift("", work.cause(at=at, supposed=True), wet))
            return met
    return work.need(n.Way(at=at, child=child, host=host, end=end))


def _blocked_farther(work: Work, host: str, entry_low: bool) -> Seat | None:
    """What stands between the host's end and the open, where the host itself sits inside another."""
    seat, seen = work.bench.seats.get(host), {host}
    while seat is not None and seat.side == "inside" and seat.stretch is not None and seat.fit != "loose":
        if seat.host in seen:
            return None  # each is said to be in the other, which has been told
        seen.add(seat.host)
        low = entry_low != seat.flipped
        mine = seat.stretch
        for other in work.bench.children(seat.host):
            if other.side != "inside" or other.stretch is None or other.child == seat.child:
                continue
            before = other.stretch[0] < mine[0] if low else other.stretch[1] > mine[1]
            if before and blocks(work, other):
                return other
        entry_low = low
        seat = work.bench.seats.get(seat.host)
    return None


def blocks(work: Work, seat: Seat) -> bool:
    """Whether what sits there fills the way; a strip on the wall, or what lies loose, does not."""
    return seat.side != "loose" and work.thing(seat.child).form not in THIN


def apart(
    work: Work,
    child: str,
    host: str,
    side: str,
    stretch: Stretch | None,
    angle: Fraction | None,
    across: Stretch | None,
    at: Place,
    reads: frozenset[str],
    entry_low: bool | None = None,
) -> bool:
    """Nothing else is in that place. For what goes inside, how much room there is from the entry."""
    thing = work.thing(host)
    total = length_of(thing)
    if stretch is None or not (thing.counted and work.thing(child).counted):
        return True  # of nobody knows how many, one is taken for all
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
        if (
            across is not None
            and other.across is not None
            and not (other.across[0] < across[1] and across[0] < other.across[1])
        ):
            continue
        if side == "outside" and not _angles_meet(work, host, child, angle, other):
            continue
        room = None
        if side == "inside" and entry_low is not None and total is not None:
            room = a if entry_low else total - b
        return work.need(
            n.Apart(
                at=at,
                met=False,
                child=child,
                host=host,
                other=other.child,
                inside=side == "inside",
                other_at=other.cause.at,
                room=room,
                asked=hi - lo,
                reads=reads | other.cause.reads,
            )
        )
    if (
        side == "inside"
        and total is not None
        and entry_low is not None
        and (stretch[1] > total if entry_low else stretch[0] < 0)
    ):
        return work.need(
            n.Apart(
                at=at,
                met=False,
                child=child,
                host=host,
                inside=True,
                room=total,
                asked=stretch[1] - max(stretch[0], Fraction(0))
                if entry_low
                else min(stretch[1], total) - stretch[0],
                reads=reads | thing.reads("length"),
            )
        )
    return work.need(n.Apart(at=at, child=child, host=host, inside=side == "inside"))


def _angles_meet(work: Work, host: str, child: str, angle: Fraction | None, other: Seat) -> bool:
    if angle is None or other.angle is None:
        return True
    apart_deg = abs(angle - other.angle) % 360
    apart_deg = min(apart_deg, 360 - apart_deg)
    outside = outside_of(work.thing(host))
    if outside is None:
        return False  # unknown, and why has been told
    radius = outside / 2
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


def seat_down(work: Work, seat: Seat) -> None:
    """Place a child."""
    work.effect(Put(seat, seat.cause))


def in_place(work: Work, tool: str, host: str, at: Place) -> None:
    """Suppose a jig or a guide where it is needed, at no known place."""
    cause = work.cause(at=at, supposed=True)
    work.suppose(Put(Seat(tool, host, "outside", cause, fit="loose"), cause))


def base_of(work: Work, host: str) -> list[str]:
    """The path from the host to the part in hand: the stage's base, or the host itself."""
    path = work.bench.path(host, work.step.stage.base)
    return path or work.bench.path(host, work.bench.root(host)) or [host]
