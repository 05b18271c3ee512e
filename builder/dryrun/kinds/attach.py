"""attach: a part is set onto a surface."""

from __future__ import annotations

from fractions import Fraction

from builder.dryrun import needs as n
from builder.dryrun.bench import Seat, Stretch
from builder.dryrun.joining import apart, base_of, free, in_place, pairs, seat_down
from builder.dryrun.meeting import close
from builder.dryrun.placing import At, resolve
from builder.dryrun.shape import THIN, axes_of, is_axial, is_flat, length_of, outside_of, width_of
from builder.dryrun.standing import stood_on, taken
from builder.dryrun.surface import surface
from builder.dryrun.work import Work
from builder.guide.fields import Field, Holds
from builder.guide.model import Spot, Thing, Verb
from builder.quantities.units import Dimension
from builder.trade.ends import is_origin

T = Dimension.TIME
FITS = ("tight", "running", "sliding", "loose")

FIELDS = (
    Field("attach", Holds.THINGS, "What is set on.", "fin", sort="part|tool", required=True, told=True),
    Field("onto", Holds.THING, "What it is set onto.", "body", sort="part|tool", required=True, told=True),
    Field("at", Holds.PLACE, "Where.", "fin_root", told=True),
    Field("top", Holds.PLACE, "Where on the top.", "mast_spot", told=True),
    Field("under", Holds.PLACE, "Where on the underside.", "its mark", told=True),
    Field("inside", Holds.PLACE, "Where inside.", "anchor_seat", told=True),
    Field("outside", Holds.PLACE, "Where outside.", "fin_root", told=True),
    Field("from", Holds.TEXT, "The end that it comes from.", "front", told=True),
    Field("angle", Holds.ANGLE, "Where round it.", "evenly", told=True),
    Field("by", Holds.TEXT, "Which point of it is at the place, or the edge that it stands on.", "middle"),
    Field("fit", Holds.WORD, "How it sits, if no glue holds it.", "tight", words=FITS),
    Field("hold", Holds.NUMBER, "How long it is held.", "3 min", T, told=True),
    Field("held by", Holds.THING, "What holds it.", "fin_jig", sort="part|tool", told=True),
    Field("with", Holds.THINGS, "What helps.", "stick", sort="tool", told=True),
)

VERBS = (
    Verb(
        "attach",
        "attach",
        "set {what} {onto} {from} {at} {angle} {held_by} {with} {hold}",
        ("attach", "set", "press", "stick", "put", "lay", "stand", "push", "place"),
        "work",
        "A part is set onto a surface where glue lies for it.",
    ),
)


def run(work: Work) -> None:
    """Each child is set onto its host, where it stays if it is held, nested, flat or in a jig."""
    children = work.field_items("what")
    hosts = work.field_items("onto")
    work.field_items("with")
    for child, host in pairs(children, hosts):
        if child != host:
            _one(work, child, host)


def _one(work: Work, child: str, host: str) -> None:
    action = work.action
    at = action.at
    free(work, child, host, action.field_place("what"))
    spoken = work.side_spot("at", "top", "under", "inside", "outside")
    own, host_thing = work.thing(child), work.thing(host)
    field = spoken[0] if spoken else "at"
    side = {"at": "top" if is_flat(host_thing) else "outside"}.get(field, field)
    found = resolve(work, spoken[1], host, side, child) if spoken else At("unknown")
    angle, angle_reads = _angle(work, found, child)
    edge = stood_on(work, child, host, side)
    stretch, across = _seat(work, child, host, found, spoken[1] if spoken else None, edge)
    reads = own.reads("length", "width", "root") | found.reads | angle_reads
    moving = work.bench.below(child)
    work.demand(
        "work", base_of(work, host), "placing", at, [i for i in work.bench.assembly(host) if i not in moving]
    )
    work.demand("work", moving, "placing", at)
    if found.kind == "zone" and found.stretch is not None and not is_flat(host_thing):
        size = length_of(own, work.folded(child))
        if size is not None:
            room = found.stretch[1] - found.stretch[0]
            work.need(
                n.Fills(
                    at=action.field_place(field),
                    met=size == room,
                    child=child,
                    host=host,
                    zone=found.zone,
                    zone_mm=room,
                    child_mm=size,
                    reads=own.reads("length", "root") | found.reads,
                )
            )
    total = length_of(host_thing)
    if stretch is not None and total is not None and found.kind != "mark":
        ok = stretch[0] >= 0 and stretch[1] <= total
        work.need(
            n.Station(
                at=action.field_place(field),
                met=ok,
                what=spoken[1].text if spoken else "",
                host=host,
                lo=stretch[0],
                hi=stretch[1],
                length=total,
                reads=reads,
            )
        )
    surface(work, host, side, stretch, "place", at, allowed=frozenset(moving))
    ok = apart(work, child, host, side, stretch, angle, across, action.field_place(field), reads)
    seat_down(
        work,
        Seat(
            child,
            host,
            side,
            work.cause(reads, at=at),
            stretch,
            across,
            angle,
            False,
            action.word("from"),
            True,
            action.word("fit"),
            spoken[1].text if spoken else "",
            edge=edge,
        ),
    )
    steady, held_by = _steady(work, child, host, side if not edge else "edge")
    close(work, child, [host], fit=action.word("fit"), steady=steady, held_by=held_by, at=at, judge_cover=ok)


def _angle(work: Work, found: At, child: str) -> tuple[Fraction | None, frozenset[str]]:
    angle = work.action.angle("angle")
    if angle is None:
        return (found.angles[0] if len(found.angles) == 1 else None), frozenset()
    if not angle.evenly:
        return (angle.value.base if angle.value is not None else None), work.read(angle.value)
    thing = work.thing(child)
    copy = work.copy or 1
    return Fraction(360 * (copy - 1), max(thing.count, 1)), thing.reads("count")


def _near(work: Work, host: Thing, found: At, spot: Spot | None) -> tuple[bool, bool]:
    """Along and across: whether the place is told from the end where stations begin. The face that is nearest
    the end from which a place is told stands there."""
    if spot is not None and spot.kind == "its mark" and work.repeat is not None and work.repeat.spots:
        spot = work.repeat.spots[min(work.copy, len(work.repeat.spots)) - 1]
    if is_flat(host):
        names = spot.names if spot is not None and spot.kind in ("from", "two", "flush") else ()
        along, across = axes_of(host)
        return along[1] not in names, across[1] not in names
    end = found.origin or found.end
    return is_origin(end) if end else True, True


def _seat(
    work: Work, child: str, host: str, found: At, spot: Spot | None, edge: str
) -> tuple[Stretch | None, Stretch | None]:
    own, host_thing = work.thing(child), work.thing(host)
    length, width = length_of(own, work.folded(child)), width_of(own, work.folded(child))
    if edge:
        length, width = taken(work, child, host, edge, found)
    by = work.action.word("by")
    if (
        is_flat(host_thing)
        and is_axial(own)
        and found.across is not None
        and found.across[0] != found.across[1]
    ):
        size = outside_of(own)
        if found.stretch is None or size is None or length is None:
            return None, None
        x, _ = found.stretch
        return (x - size / 2, x + size / 2), (found.across[0], found.across[0] + length)
    near = _near(work, host_thing, found, spot)
    along = _span(found.stretch, length, by, found.kind, near[0])
    across = _span(found.across, width, by, found.kind, near[1]) if is_flat(host_thing) else None
    if is_flat(host_thing) and found.kind != "unknown":
        along = along or _whole(found.stretch, length, length_of(host_thing))
        across = across or _whole(found.across, width, width_of(host_thing))
    return along, across


def _whole(at: Stretch | None, size: Fraction | None, total: Fraction | None) -> Stretch | None:
    """What is as large as its host that way, and of which nothing is told that way, lies over all of it."""
    return (Fraction(0), size) if at is None and size is not None and size == total else None


def _span(at: Stretch | None, size: Fraction | None, by: str, kind: str, near: bool) -> Stretch | None:
    if at is None or size is None:
        return at if at is not None and at[0] != at[1] else None
    lo, hi = at
    if by == "middle" or kind == "middle":
        middle = (lo + hi) / 2
        return (middle - size / 2, middle + size / 2)
    return (lo, lo + size) if near else (hi - size, hi)


def _steady(work: Work, child: str, host: str, side: str) -> tuple[str, str]:
    action = work.action
    jig = action.ref("held_by")
    if jig is not None:
        for item in work.items(jig):
            work.exists(item, jig.at)
            seat = work.bench.seats.get(item)
            there = seat is not None and (seat.host == host or host in work.bench.below(item))
            work.need(n.InPlace(at=jig.at, met=there, tool=item, host=host, what="held by"))
            if not there:
                in_place(work, item, host, jig.at)
        return "jig", jig.id
    if "held_by" in action.where:
        return "jig", ""  # what it is could not be read, and that has been told
    hold = action.value("hold")
    if hold is not None and hold.base is not None:
        glue = next((w.adhesive for w in work.bench.wets if child in w.meets or w.host == child), "")
        tack = work.guide.things[glue].mm("tack") if glue else None
        if tack is None or hold.base >= tack:
            return "held", ""
    if action.word("fit"):
        return action.word("fit"), ""
    if side in ("top", "under"):
        return "flat", ""
    if work.thing(child).form in THIN:
        return "nested", ""
    return "", ""
