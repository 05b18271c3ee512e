"""tie: a cord is knotted to an eye, a hole, or round a thing."""

from __future__ import annotations

from builder.dryrun import needs as n
from builder.dryrun.bench import Seat
from builder.dryrun.effects import Close
from builder.dryrun.joining import base_of, pairs, seat_down
from builder.dryrun.placing import resolve
from builder.dryrun.work import Work, thing_id
from builder.guide.fields import Field, Holds
from builder.guide.model import Verb

FIELDS = (
    Field("tie", Holds.THINGS, "What is tied.", "shock_cord", sort="part", required=True, told=True),
    Field("to", Holds.THINGS, "What it is tied to.", "eye", sort="part|tool", required=True, told=True),
    Field("at", Holds.PLACE, "Where.", "end of cord", told=True),
    Field("knot", Holds.TEXT, "Which knot.", "overhand", told=True),
)

VERBS = (
    Verb(
        "tie",
        "tie",
        "tie {what} {to} {at} {knot}",
        ("tie", "knot", "loop", "fasten"),
        "load",
        "A cord is knotted; what it is tied to must bear the pull.",
    ),
)


def run(work: Work) -> None:
    """A knot holds at once; what it pulls on must bear it."""
    action = work.action
    children = work.field_items("what")
    hosts = work.field_items("to")
    spot = action.spot("at")
    for child, host in pairs(children, hosts):
        thing = work.thing(host)
        if spot is not None and spot.names[:1] != (thing_id(child, work.guide),):  # `end of cord` is its own
            resolve(work, spot, host, "outside", child)
        loop = (
            thing.form in ("screw", "ring", "rod", "tube", "cord", "clip", "strip")
            or any(h.item == host for h in work.bench.holes)
            or bool(thing.holes)
        )
        work.need(n.Attachable(at=action.field_place("to"), met=loop, item=host, what="eye"))
        work.demand("load", base_of(work, host), "tying", action.at)
        if child not in work.bench.seats:
            seat_down(work, Seat(child, host, "tied", work.cause()))
        joint = work.joint(child, host, "tie", work.cause(), "", "tied")
        work.effect(Close(joint, joint.cause))
