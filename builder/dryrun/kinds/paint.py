"""paint: a coat goes on; what must stay bare is covered or inside."""

from __future__ import annotations

from fractions import Fraction

from builder.dryrun import needs as n
from builder.dryrun.bench import Coat
from builder.dryrun.effects import Paint, Take
from builder.dryrun.placing import stretch_in
from builder.dryrun.shape import length_of
from builder.dryrun.work import Work
from builder.guide.fields import Field, Holds
from builder.guide.model import Thing, Verb
from builder.quantities.quantity import Window
from builder.trade.ends import ENDS, is_origin

FIELDS = (
    Field(
        "paint", Holds.THINGS, "What is painted.", "[body, fin]", sort="part|tool", required=True, told=True
    ),
    Field(
        "with",
        Holds.THINGS,
        "The paint, and what spreads it.",
        "spray",
        sort="material|tool",
        required=True,
        told=True,
    ),
    Field("not", Holds.THINGS, "What must stay bare.", "[motor_tube, nose.shoulder]"),
    Field("coats", Holds.COUNT, "How many coats, one after the other.", "1"),
)

VERBS = (
    Verb(
        "paint",
        "paint",
        "paint {what} {with} {coats}",
        ("paint", "spray", "coat", "brush", "colour"),
        "coat",
        "A coat goes on; the joints under it must be cured, and the label says when the next may follow.",
    ),
)


def run(work: Work) -> None:
    """A coat on each thing; joints beneath are cured, bare things are covered, the label allows it."""
    action = work.action
    items = work.field_items("what")
    work.field_items("with")
    paints = [m for m in work.materials("with") if m.form == "paint"] or work.materials("with")
    for material in work.materials("with"):
        work.effect(Take(material.id, work.bench.stock.get(material.id, ()), work.cause()))
    among = list(dict.fromkeys(x for item in items for x in work.bench.assembly(item)))
    work.demand("coat", among, "painting", action.at)
    for ref in action.refs("not"):
        for item in work.items(ref):
            end = _open_end(work, item, ref.part)
            work.need(n.Masked(at=ref.at, met=not end, item=item, end=end))
    for paint in paints[:1]:
        for item in items:
            last = next((c for c in work.bench.coats if c.item == item), None)
            if last is not None:
                since = work.start - last.at
                work.need(_recoat(work, item, paint, last.paint, since))
            cause = work.cause()
            work.effect(Paint(Coat(item, paint.id, work.end, cause), cause))


def _recoat(work: Work, item: str, paint: Thing, before: str, since: Fraction) -> n.Recoat:
    at = work.action.at
    label = work.guide.things.get(before, paint)
    window = label.window
    dry = label.mm("dry")
    if isinstance(window, Window) and not window.allows(since):
        late = any(low <= since for low, _ in window.allowed)
        return n.Recoat(
            at=at, met=False, item=item, paint=before, since=since, state="late" if late else "early", dry=dry
        )
    if dry is not None and since < dry:
        return n.Recoat(
            at=at,
            met=False,
            item=item,
            paint=before,
            since=since,
            state="early",
            dry=dry,
            reads=label.reads("dry"),
        )
    return n.Recoat(at=at, item=item, paint=before, since=since, dry=dry)


def _open_end(work: Work, item: str, part: str) -> str:
    """The end over which paint reaches the item (or its zone); empty if none does."""
    seat = work.bench.seats.get(item)
    if any(s.side == "taped" and s.host == item for s in work.bench.seats.values()):
        return ""
    if seat is None:
        return "outside"
    host, seen = seat.host, {item}
    while host not in seen and host in work.bench.seats and work.bench.seats[host].side == "inside":
        seen.add(host)  # two that are said to be in one another have been told
        host = work.bench.seats[host].host
    if seat.side == "outside" and host == seat.host and work.bench.seats.get(host) is None:
        return "outside"
    place = stretch_in(work, item, host)
    total = length_of(work.thing(host))
    zone = work.thing(item).zone(part) if part else None
    if place is None or total is None:
        return ""
    lo, hi = place
    if zone is not None and zone.lo is not None and zone.hi is not None:
        flipped = seat.flipped
        lo, hi = (hi - zone.hi, hi - zone.lo) if flipped else (lo + zone.lo, lo + zone.hi)
    if lo < 0 or hi > total:
        return "outside"
    from_low = lo <= total - hi
    if item == next(iter([item])) and _plugged(work, host, item, from_low, total):
        return ""
    return "rear" if from_low else "front"


def _plugged(work: Work, host: str, item: str, low: bool, total: Fraction) -> bool:
    """Whether the nearer end is closed: a mask on it, a plug in it, or the item's own wider part."""
    for seat in work.bench.children(host):
        if seat.side == "taped" and seat.spot in ENDS and is_origin(seat.spot) == low:
            return True
        if seat.side == "inside" and seat.stretch is not None:
            lo, hi = seat.stretch
            sticks = lo < 0 if low else hi > total
            if sticks and (seat.child != item or bool(work.thing(item).chains)):
                return True
    return False
