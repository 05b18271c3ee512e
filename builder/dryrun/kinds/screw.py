"""screw: a screw goes into a hole."""

from __future__ import annotations

from builder.dryrun import needs as n
from builder.dryrun.bench import Seat
from builder.dryrun.effects import Close
from builder.dryrun.joining import base_of, free, pairs, seat_down
from builder.dryrun.meeting import close
from builder.dryrun.placing import resolve
from builder.dryrun.work import Work
from builder.guide.fields import Field, Holds
from builder.guide.model import Verb

FIELDS = (
    Field("screw", Holds.THINGS, "What is screwed in.", "eye", sort="part", required=True, told=True),
    Field("into", Holds.THING, "What it goes into.", "nose", sort="part|tool", required=True, told=True),
    Field("at", Holds.PLACE, "The hole or its mark.", "nose_centre", told=True),
    Field("with", Holds.THINGS, "What turns it.", "driver", sort="tool", told=True),
)

VERBS = (
    Verb(
        "screw",
        "screw",
        "screw {what} {into} {at} {with}",
        ("screw", "turn", "twist"),
        "load",
        "A screw goes into a hole that has been made for it.",
    ),
)


def run(work: Work) -> None:
    """The screw sits in its hole; glue that was laid for it closes."""
    action = work.action
    children = work.field_items("what")
    hosts = work.field_items("into")
    work.field_items("with")
    for child, host in pairs(children, hosts):
        free(work, child, host, action.field_place("what"))
        spot = action.spot("at")
        found = resolve(work, spot, host, "end") if spot is not None else None
        along, across = (found.stretch, found.across) if found is not None else (None, None)
        holes = [h for h in work.bench.holes if h.item == host]
        work.need(n.Attachable(at=action.field_place("into"), met=bool(holes), item=host, what="hole"))
        work.demand("load", base_of(work, host), "screwing", action.at, work.bench.assembly(host))
        seat_down(work, Seat(child, host, "end", work.cause(), along, across))
        wets = close(
            work, child, [host], fit="", steady="screwed", at=action.at, kind="screw", self_held=True
        )
        if not wets:
            joint = work.joint(child, host, "screw", work.cause(), "", "screwed")
            work.effect(Close(joint, joint.cause))
