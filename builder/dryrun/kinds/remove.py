"""remove: what served its turn comes out or off."""

from __future__ import annotations

from builder.dryrun import needs as n
from builder.dryrun.effects import Lift
from builder.dryrun.joining import way_open
from builder.dryrun.work import Work
from builder.guide.fields import Field, Holds
from builder.guide.model import Verb
from builder.trade.ends import is_origin

FIELDS = (
    Field("remove", Holds.THINGS, "What comes off.", "fin_jig", sort="part|tool", required=True, told=True),
    Field("from", Holds.THING, "What it comes off.", "body", sort="part|tool", required=True, told=True),
    Field("towards", Holds.TEXT, "Over which end.", "rear", told=True),
    Field("before", Holds.WORD, "It must be out before the glue has set.", "set", words=("set",)),
)

VERBS = (
    Verb(
        "remove",
        "remove",
        "take {what} {from} {towards} {before}",
        ("remove", "take", "pull", "slide", "lift", "peel", "draw", "slip"),
        "carry",
        "What was only there to help comes out, before the way is closed and when it may.",
    ),
)


def run(work: Work) -> None:
    """What comes off is there, the way is open, and what it held stays by itself."""
    action = work.action
    hosts = [item for ref in action.refs("from") for item in work.items(ref)]
    for ref in action.refs("from"):
        for item in work.items(ref):
            work.exists(item, ref.at)
    for child in work.field_items("what"):
        seat = work.bench.seats.get(child)
        host = (
            seat.host
            if seat is not None and (seat.host in hosts or not hosts)
            else (hosts[0] if hosts else "")
        )
        there = seat is not None and (not hosts or seat.host in hosts)
        work.need(
            n.There(
                at=action.field_place("what"),
                met=there,
                child=child,
                host=host,
                seated_on=seat.host if seat else "",
            )
        )
        if seat is None or not there:
            continue
        end = action.word("towards")
        if end:
            way_open(
                work,
                child,
                host,
                seat.side,
                seat.stretch,
                end,
                is_origin(end),
                frozenset((child,)),
                action.field_place("towards"),
            )
        moving = set(work.bench.below(child))  # a mount is glued by the rings on it
        glued = [
            j
            for j in work.bench.joints
            if (j.a in moving) != (j.b in moving) and j.adhesive and j.kind != "seam"
        ]
        for joint in glued[:1]:
            work.need(n.Unglued(at=action.at, met=False, child=child, host=host, joint=joint))
        _deadline(work, child, host)
        _steadied(work, child)
        work.effect(Lift(child, work.cause()))


def _deadline(work: Work, child: str, host: str) -> None:
    action = work.action
    if action.word("before") != "set":
        return
    for joint in work.bench.joints_of([host]):
        if not joint.adhesive or joint.cause.supposed:
            continue
        limit = work.guide.things[joint.adhesive].mm("set")
        if limit is not None and joint.kind == "seam":
            age = work.end - joint.closed
            work.need(
                n.Before(
                    at=action.field_place("before"),
                    met=age <= limit,
                    tool=child,
                    host=host,
                    age=age,
                    limit=limit,
                )
            )


def _steadied(work: Work, tool: str) -> None:
    """The joints that the jig kept steady are set by now."""
    action = work.action
    for joint in [j for j in work.bench.joints if j.held_by == tool]:
        missing = work.maturity(joint, "set")
        met = not missing
        work.need(n.Steadied(at=action.at, met=met, tool=tool, joint=joint, missing=missing))
        if not met:
            work._suppose_mature(joint, "work")
