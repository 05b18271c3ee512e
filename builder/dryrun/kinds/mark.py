"""mark: a line or a point is laid on a surface, to be worked to later."""

from __future__ import annotations

from fractions import Fraction

from builder.dryrun import needs as n
from builder.dryrun.bench import Mark
from builder.dryrun.effects import Lay
from builder.dryrun.joining import in_place
from builder.dryrun.placing import At, Named, ends_of, marked, resolve
from builder.dryrun.shape import is_flat, length_of, width_of
from builder.dryrun.surface import surface
from builder.dryrun.work import Work
from builder.guide.desk import nearest
from builder.guide.fields import Field, Holds
from builder.guide.model import Spot, Verb

FIELDS = (
    Field("mark", Holds.NEW, "The name of the mark.", "rear_line", required=True),
    Field(
        "onto", Holds.THINGS, "What it is drawn on.", "motor_tube", sort="part|tool", required=True, told=True
    ),
    Field("at", Holds.PLACE, "Where.", "start of rear_seat", told=True),
    Field("top", Holds.PLACE, "Where on the top.", "80 mm from front and 60 mm from left", told=True),
    Field("under", Holds.PLACE, "Where on the underside.", "end of overhang_front", told=True),
    Field("inside", Holds.PLACE, "Where inside.", "end of seat", told=True),
    Field("angle", Holds.ANGLE, "Where round it.", "45 deg", told=True),
    Field("along", Holds.TEXT, "The marks that it runs along.", "fin_ticks", told=True),
    Field("from", Holds.THING, "What it is taken from.", "fin_guide", sort="part|tool", told=True),
    Field("around", Holds.YES, "All the way round.", "yes", told=True),
    Field("across", Holds.YES, "All the way across.", "yes", told=True),
    Field("with", Holds.THINGS, "What it is drawn with.", "[pencil, angle]", sort="tool", told=True),
)

VERBS = (
    Verb(
        "mark",
        "mark",
        "mark {what} {from} {onto} {along} {angle} {at} {with}",
        ("mark", "draw", "pencil", "prick"),
        "carry",
        "A line or a point is drawn where something will be lined up with it.",
    ),
)


def run(work: Work) -> None:
    """A mark is laid where the place says, on a surface that is bare and can be reached."""
    action = work.action
    name = action.word("what")
    hosts = work.field_items("onto")
    work.field_items("with")
    _guide_in_place(work, hosts)
    for along in [w.strip() for w in action.word("along").split(",") if w.strip()]:
        at = action.field_place("along")
        if along in work.named_marks:
            marked(work, Spot("named", at, along, (along,)), along, hosts[0] if hosts else "")
        elif hosts and along not in ends_of(work.thing(hosts[0])):
            guess = nearest(along, work.named_marks) or ""
            work.need(Named(at=at, met=False, name=along, host=hosts[0], guess=guess))
    for host in hosts:
        thing = work.thing(host)
        spoken = work.side_spot("at", "top", "under", "inside", "outside")
        side, found = "outside", At("unknown")
        if spoken is not None:
            field, spot = spoken
            side = ("top" if is_flat(thing) else "outside") if field in ("at", "outside") else field
            found = resolve(work, spot, host, side)
        stretch, across = found.stretch, found.across
        if is_flat(thing) and action.yes("across"):
            width = width_of(thing)
            across = (Fraction(0), width) if width is not None else None
            if stretch is None and found.across is not None:
                length = length_of(thing)
                stretch, across = ((Fraction(0), length) if length is not None else None), found.across
        surface(work, host, side, stretch, "mark", action.at)
        angles, reads = _angles(work)
        cause = work.cause(found.reads, reads)
        work.effect(Lay(Mark(name, host, side, cause, stretch, across, angles, found.origin), cause))


def _guide_in_place(work: Work, hosts: list[str]) -> None:
    guide = work.action.ref("from")
    if guide is None or not hosts:
        return
    thing = work.guide.things.get(guide.id)
    if thing is None:
        return
    for item in work.items(guide):
        work.exists(item, guide.at)
        seat = work.bench.seats.get(item)
        if thing.sort == "tool" and thing.form in ("strip", "ring", "disc", "tube", "slab"):
            met = seat is not None and seat.host in hosts
            work.need(n.InPlace(at=guide.at, met=met, tool=item, host=hosts[0], what="taken from"))
            if not met:
                in_place(work, item, hosts[0], guide.at)


def _angles(work: Work) -> tuple[tuple[Fraction, ...], frozenset[str]]:
    angle = work.action.angle("angle")
    if angle is None:
        along = work.action.word("along")
        mark = work.bench.marks.get(along)
        return (mark.angles if mark is not None else ()), frozenset()
    if not angle.evenly:
        base = angle.value.base if angle.value is not None else None
        return ((base,) if base is not None else ()), work.read(angle.value)
    part = work.guide.things.get(angle.of)
    if part is None:
        return (), frozenset()
    return tuple(Fraction(360 * i, part.count) for i in range(part.count)), part.reads("count")
