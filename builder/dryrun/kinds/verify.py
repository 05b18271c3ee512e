"""verify: the builder looks or measures, and knows what to do if it is off."""

from __future__ import annotations

from fractions import Fraction

from builder.dryrun import needs as n
from builder.dryrun.joining import pairs
from builder.dryrun.placing import stretch_in
from builder.dryrun.shape import length_of
from builder.dryrun.work import Work
from builder.guide.fields import Field, Holds
from builder.guide.model import Value, Verb
from builder.quantities.units import Dimension
from builder.trade.ends import is_origin

L = Dimension.LENGTH

FIELDS = (
    Field("verify", Holds.THINGS, "What is looked at.", "dummy", sort="part|tool", required=True, told=True),
    Field("sticks out", Holds.TEXT, "Over which end it stands out.", "rear", told=True),
    Field("by", Holds.NUMBER, "By how much, with a tolerance.", "6.5 mm ± 1 mm", L, told=True),
    Field("angle", Holds.ANGLE, "At what angle it stands, with a tolerance.", "90 deg ± 3 deg", told=True),
    Field("turns in", Holds.THING, "What it turns in.", "bearing", sort="part|tool", told=True),
    Field("slides out of", Holds.THING, "What it slides out of.", "body", sort="part|tool", told=True),
    Field("length", Holds.NUMBER, "How long it is, with a tolerance.", "12 in ± 1/16 in", L, told=True),
    Field("with", Holds.THINGS, "What it is checked with.", "ruler", sort="tool", told=True),
    Field("shows", Holds.PROSE, "What is seen when it is right.", "a sharp picture of a far tree", told=True),
    Field("else", Holds.PROSE, "What to do if it is off.", "Make the mount again."),
)

VERBS = (
    Verb(
        "verify",
        "verify",
        "check {with} that {what} {sticks_out} {angle} {turns_in} {slides_out_of} {length} {shows}",
        ("verify", "check", "measure", "try", "see", "look", "make sure", "test"),
        "carry",
        "What was built is compared with what it should be.",
    ),
)

MOVES = (("turns_in", ("running", "loose")), ("slides_out_of", ("sliding", "loose", "running")))


def run(work: Work) -> None:
    """What is stated is compared with what the bench holds; the bench stays as it is."""
    action = work.action
    items = work.field_items("what")
    work.field_items("with")
    for item in items:
        _sticks_out(work, item)
        _length(work, item)
        _angle(work, item)
    for field, fits in MOVES:
        for item, host in pairs(items, work.field_items(field)):
            seat = work.bench.seats.get(item)
            met = any(s.fit in fits for s in work.bench.seats.values() if {s.child, s.host} == {item, host})
            work.need(
                n.There(
                    at=action.field_place(field),
                    met=met,
                    child=item,
                    host=host,
                    seated_on=seat.host if seat else "",
                )
            )


def _measure(
    work: Work, item: str, what: str, stated: Value | None, found: Fraction | None, reads: frozenset[str]
) -> None:
    if stated is None or stated.base is None or found is None:
        return
    tolerance = stated.plus_minus or Fraction(0)
    met = abs(found - stated.base) <= tolerance
    work.need(
        n.Measures(
            at=stated.at,
            met=met,
            item=item,
            what=what,
            stated=stated.base,
            found=found,
            tolerance=tolerance,
            reads=reads | stated.reads,
        )
    )


def _sticks_out(work: Work, item: str) -> None:
    end = work.action.word("sticks_out")
    seat = work.bench.seats.get(item)
    if not end or seat is None:
        return
    place = stretch_in(work, item, seat.host)
    total = length_of(work.thing(seat.host))
    if place is None or total is None:
        return
    found = -place[0] if is_origin(end) else place[1] - total
    reads = seat.cause.reads | work.thing(item).reads("length")
    stop = [s.cause.reads for s in work.bench.children(seat.host) if s.side == seat.side]
    _measure(work, item, f"what sticks out at the {end}", work.action.value("by"), found, reads.union(*stop))


def _length(work: Work, item: str) -> None:
    stated = work.action.value("length")
    if stated is not None:
        thing = work.thing(item)
        _measure(work, item, "the length", stated, length_of(thing, work.folded(item)), thing.reads("length"))


def _angle(work: Work, item: str) -> None:
    angle = work.action.angle("angle")
    if angle is None or angle.value is None:
        return
    seat = work.bench.seats.get(item)
    if seat is not None and seat.side in ("outside", "top", "under"):
        _measure(work, item, "the angle to what it stands on", angle.value, Fraction(90), frozenset())
