"""insert and slide: a part goes into, or over, another, along a way, to a place."""

from __future__ import annotations

from fractions import Fraction

from builder.dryrun import needs as n
from builder.dryrun.bench import Seat, Stretch, Wet
from builder.dryrun.fitting import fits
from builder.dryrun.holes import alone_in_hole, hole_for, own_holes, through_holes, through_rods
from builder.dryrun.joining import apart, base_of, free, pairs, seat_down, way_open
from builder.dryrun.meeting import close
from builder.dryrun.placing import At, resolve, stretch_in
from builder.dryrun.shape import bore_of, is_flat, length_of, outside_of
from builder.dryrun.work import Work
from builder.findings import Place
from builder.guide.fields import Field, Holds
from builder.guide.model import Action, Thing, Value, Verb
from builder.quantities.units import Dimension
from builder.trade.ends import is_origin

L = Dimension.LENGTH
T = Dimension.TIME
FITS = ("tight", "running", "sliding", "loose")

FIELDS = (
    Field("*", Holds.THINGS, "What moves.", "thrust_ring", sort="part|tool", required=True, told=True),
    Field("into", Holds.THINGS, "What it goes into.", "motor_tube", sort="part|tool", told=True),
    Field("over", Holds.THINGS, "What it goes over.", "body", sort="part|tool", told=True),
    Field("from", Holds.TEXT, "The end that it comes from.", "front", told=True),
    Field("to", Holds.PLACES, "Where it ends up.", "thrust_seat", told=True),
    Field(
        "through", Holds.WORDS, "What it passes through: parts, or its own holes.", "step_block", told=True
    ),
    Field(
        "leaving out",
        Holds.NUMBER,
        "How much of it is left standing out, for a part-way seat.",
        "1 1/2 in",
        L,
        told=True,
    ),
    Field("by", Holds.TEXT, "Which point of it stands at the place.", "middle"),
    Field("fit", Holds.WORD, "How it sits, if no glue holds it.", "sliding", words=FITS),
    Field("hold", Holds.NUMBER, "How long it is held.", "3 min", T, told=True),
    Field("with", Holds.THINGS, "What helps.", "stick", sort="tool", told=True),
)

VERBS = (
    Verb(
        "insert",
        "seat",
        "push {what} {through} {into} {over} {from} {with} {to} {hold}",
        (
            "insert",
            "push",
            "slide",
            "press",
            "thread",
            "put",
            "drop",
            "slip",
            "ease",
            "lower",
            "let",
            "lay",
            "set",
            "fit",
        ),
        "work",
        "A part goes into another, to a place.",
    ),  # fmt: skip
    Verb(
        "slide",
        "seat",
        "slide {what} {through} {over} {into} {from} {with} {to} {hold}",
        ("slide", "push", "slip", "press", "thread", "ease", "put", "fit"),
        "work",
        "A part goes over another, to a place.",
    ),
)


def run(work: Work) -> None:
    """Each child goes to its place on its host, along its way."""
    action = work.action
    children = work.field_items("what")
    way = "into" if action.refs("into") else "over"
    hosts = work.field_items(way)
    if not hosts or not children:
        return
    for through in action.words("through"):
        for item in work.items_named(through):
            if through in work.guide.things:
                work.exists(item, action.field_place("through"))
    level = [child for child in children if through_rods(work, child, hosts)]
    for child, host in pairs(children, hosts[:1] if level else hosts):
        if child != host:
            own_holes(work, child)
            _one(work, child, host, way, hosts[1:] if child in level else [])


def _one(work: Work, child: str, host: str, way: str, others: list[str]) -> None:
    action = work.action
    at = action.at
    thing = work.thing(host)
    extra = [
        i for name in action.words("through") if name in work.guide.things for i in work.items_named(name)
    ]
    hosts = [host, *extra, *others]
    free(work, child, host, action.field_place("what"))
    former_seat = work.bench.seats.get(child)
    fit = action.word("fit")
    hole = way == "into" and is_flat(thing)
    side = "hole" if hole else "inside" if way == "into" else "outside"
    _not_inside(work, host, side)
    found = [resolve(work, spot, host, side, child) for spot in action.spots("to")]
    leaving = action.value("leaving_out")
    entry = action.word("from")
    entry_low = is_origin(entry) if entry else False
    stretch, flipped, reads, home = _seat(work, child, host, found, leaving, entry, entry_low)
    which = hole_for(work, host, found) if hole else through_rods(work, child, hosts)
    seat = Seat(
        child,
        host,
        side,
        work.cause(reads, at=at),
        stretch,
        None,
        None,
        flipped,
        entry,
        home,
        fit,
        action.spots("to")[0].text if action.spots("to") else "",
        which,
    )
    moving = work.bench.below(child)
    meets = frozenset(moving)
    works = base_of(work, host)
    work.demand("work", works, "placing", at, [i for i in work.bench.assembly(host) if i not in moving])
    work.demand("work", moving, "pushing", at)
    placed_apart = True
    if not hole:
        if entry:
            way_open(work, child, host, side, stretch, entry, entry_low, meets, at)
        reach = entry_low if entry and not found_end(found) else None
        placed_apart = apart(work, child, host, side, stretch, None, None, _to_place(action), reads, reach)
    else:
        alone_in_hole(work, child, host, which, stretch, reads)
    _fills(work, child, host, found)
    seat_down(work, seat)
    if hole:
        through_holes(work, child, hosts, which, fit)
    steady = "nested"
    stop = next((a.other for a in found if a.kind == "meets" and a.other), "")
    if stop:
        path = work.bench.path(stop, host) or [stop]
        work.demand("load", path, "pushing against", at)
    kept = [j for j in work.bench.joints if former_seat is not None and j.touches(child)]
    wets = close(
        work,
        child,
        hosts,
        fit=fit,
        steady=steady,
        at=at,
        judge_cover=placed_apart,
        self_held=bool(kept and fit),
    )
    glued = frozenset(_touched(work, wets, child))
    glue = work.guide.things[wets[0].adhesive] if wets else None
    if not hole:
        fits(work, child, host, side, fit, glued, _fit_place(action, way), glue)


def found_end(found: list[At]) -> bool:
    """Whether the place named already says where it ends, so that room is not asked for."""
    return any(a.kind in ("zone", "child zone") for a in found)


def _touched(work: Work, wets: list[Wet], child: str) -> list[str]:
    moving = set(work.bench.below(child))
    names = []
    for joint in work.bench.joints:
        if any(joint.cause.action == work.action.path and joint.adhesive == w.adhesive for w in wets):
            names += [x for x in (joint.a, joint.b) if x in moving]
    return [face for name in names for face in _facing(work, wets, name)]


def _facing(work: Work, wets: list[Wet], item: str) -> list[str]:
    """What of an item meets glue that is spread wide: the rings that stand on it, if any lie in the glue."""
    rings = [
        ring
        for ring in work.bench.below(item)
        for wet in wets
        if ring != item and work.bench.seats[ring].side == "outside" and wet.stretch is not None
        if (at := stretch_in(work, ring, wet.host)) and at[0] < wet.stretch[1] and wet.stretch[0] < at[1]
    ]
    return rings or [item]


def _to_place(action: Action) -> Place:
    return action.field_place("to") if action.spots("to") else action.field_place("leaving_out")


def _fit_place(action: Action, way: str) -> Place:
    return action.field_place("fit") if action.word("fit") else action.field_place("what")


def _not_inside(work: Work, host: str, side: str) -> None:
    """What goes over a host needs the host's outside bare; a host deep inside another has none."""
    seat = work.bench.seats.get(host)
    if side != "outside" or seat is None or seat.side != "inside" or seat.stretch is None:
        return
    total = length_of(work.thing(seat.host))
    if total is not None and seat.stretch[0] >= 0 and seat.stretch[1] <= total:
        work.need(
            n.Bare(
                at=work.action.field_place("over"),
                met=False,
                host=host,
                what="place",
                state="inside",
                other=seat.host,
                other_at=seat.cause.at,
            )
        )


def _size(work: Work, child: str, host: str) -> Fraction | None:
    """What a part takes of its host's axis: its length, or the thickness of a board that rods go through."""
    own = work.thing(child)
    return own.mm("thickness") if through_rods(work, child, [host]) else length_of(own, work.folded(child))


def _seat(
    work: Work, child: str, host: str, found: list[At], leaving: Value | None, entry: str, entry_low: bool
) -> tuple[Stretch | None, bool, frozenset[str], bool]:
    """(stretch on the host, flipped, what it was worked out from, home)."""
    own = work.thing(child)
    host_thing = work.thing(host)
    size = _size(work, child, host)
    total = length_of(host_thing)
    flipped = _flipped(own, entry_low)
    reads = own.reads("length") | frozenset().union(*(a.reads for a in found))
    if size is None:
        return None, flipped, reads, leaving is None
    if is_flat(host_thing):
        start = found[0].stretch[0] if found and found[0].stretch and found[0].end else Fraction(0)
        if found and found[0].kind == "flush" and found[0].end == "top":
            start -= size
        return (start, start + size), flipped, reads, True
    if leaving is not None:
        if leaving.base is None or total is None:
            return None, flipped, reads, False
        reads |= leaving.reads
        lo = -leaving.base if entry_low else total + leaving.base - size
        return (lo, lo + size), flipped, reads | host_thing.reads("length"), False
    if len(found) > 1 and all(a.stretch for a in found):
        ends = [x for a in found if a.stretch for x in a.stretch]
        return (min(ends), max(ends)), flipped, reads, True
    if not found:
        if total is None:
            return None, flipped, reads, True
        lo = Fraction(0) if entry_low or not entry else total - size
        return (lo, lo + size), flipped, reads, True
    at = found[0]
    return _seat_at(work, own, host_thing, at, size, total, entry_low, flipped), flipped, reads, True


def _seat_at(
    work: Work,
    own: Thing,
    host: Thing,
    at: At,
    size: Fraction,
    total: Fraction | None,
    entry_low: bool,
    flipped: bool,
) -> Stretch | None:
    if at.kind == "meets" and not at.other:
        return _against_end(own, host, size, total, entry_low, flipped)
    if at.stretch is None:
        return None
    lo, hi = at.stretch
    if at.kind == "meets":
        return (lo - size, lo) if entry_low else (hi, hi + size)
    if at.kind == "zone" or at.kind == "stretch":
        return (lo, lo + size) if not entry_low else (hi - size, hi)
    if at.kind == "child zone":
        start = size - hi if flipped else lo
        return (-start, size - start)
    by = work.action.word("by")
    if by == "middle":
        return (lo - size / 2, lo + size / 2)
    low_face = is_origin(at.origin or at.end) if (at.origin or at.end) else True
    if by and by in ("front", "right", "base", "head", "top"):
        low_face = False
    elif by:
        low_face = True
    return (lo, lo + size) if low_face else (lo - size, lo)


def _against_end(
    own: Thing, host: Thing, size: Fraction, total: Fraction | None, entry_low: bool, flipped: bool
) -> Stretch | None:
    """A shoulder stops at the host's end: the first station, from the leading end, that is too thick. From
    the low end a part goes in with its own high end first, as does one that is turned round."""
    bore = bore_of(host)
    if total is None:
        return None
    zones = (zone for chain in own.chains for zone in chain.zones)
    known = [(zone.lo, zone.hi) for zone in zones if zone.lo is not None and zone.hi is not None]
    thick = [each for each in known if bore is not None and (outside_of(own, *each) or bore) > bore]
    if not entry_low and not flipped:
        first = min((lo for lo, _ in thick), default=size)
        return (total - first, total - first + size)
    last = max((hi for _, hi in thick), default=Fraction(0))
    return (-last, size - last) if entry_low else (total + last - size, total + last)


def _flipped(own: Thing, entry_low: bool) -> bool:
    """What has a tip goes in with its base first; everything else keeps its direction."""
    tipped = any(chain.origin in ("tip", "base") for chain in own.chains)
    return tipped and not entry_low


def _fills(work: Work, child: str, host: str, found: list[At]) -> None:
    own, host_thing = work.thing(child), work.thing(host)
    for at in found:
        if at.kind == "zone" and at.stretch is not None:
            size = _size(work, child, host)
            if size is not None:
                room = at.stretch[1] - at.stretch[0]
                work.need(
                    n.Fills(
                        at=work.action.field_place("to"),
                        met=size == room,
                        child=child,
                        host=host,
                        zone=at.zone,
                        zone_mm=room,
                        child_mm=size,
                        reads=own.reads("length") | at.reads,
                    )
                )
        if at.kind == "child zone" and at.stretch is not None:
            total = length_of(host_thing)
            if total is not None:
                room = at.stretch[1] - at.stretch[0]
                work.need(
                    n.Fills(
                        at=work.action.field_place("to"),
                        met=total == room,
                        child=host,
                        host=child,
                        zone=at.zone,
                        zone_mm=room,
                        child_mm=total,
                        reads=host_thing.reads("length") | at.reads,
                    )
                )
