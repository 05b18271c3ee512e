"""tape: one thing is fixed to another with tape, or with pieces cut from it."""

from __future__ import annotations

from builder.dryrun.bench import Seat
from builder.dryrun.effects import Close, Take
from builder.dryrun.joining import base_of, free, pairs, seat_down
from builder.dryrun.placing import resolve, span_from
from builder.dryrun.shape import THIN, length_of
from builder.dryrun.work import Work
from builder.guide.fields import Field, Holds
from builder.guide.model import Verb

FIELDS = (
    Field("tape", Holds.THINGS, "What is taped.", "shroud", sort="part|tool", required=True, told=True),
    Field("to", Holds.THING, "What it is taped to.", "canopy", sort="part|tool", required=True, told=True),
    Field("at", Holds.PLACE, "Where.", "corner", told=True),
    Field(
        "with",
        Holds.THINGS,
        "The tape, or the pieces cut from it.",
        "tab",
        sort="material|part",
        required=True,
        told=True,
    ),
)

VERBS = (
    Verb(
        "tape",
        "tape",
        "tape {what} {to} {at} {with}",
        ("tape", "stick", "fix", "fasten"),
        "work",
        "Tape holds at once; it covers what lies under it.",
    ),
)


def run(work: Work) -> None:
    """Tape holds at once. Pieces cut for it are used up by it, one to a child."""
    action = work.action
    children = work.field_items("what")
    hosts = work.field_items("to")
    pieces = work.field_items("with")
    for material in work.materials("with"):
        work.effect(Take(material.id, work.bench.stock.get(material.id, ()), work.cause()))
    spot = action.spot("at")
    for number, (child, host) in enumerate(pairs(children, hosts)):
        free(work, child, host, action.field_place("what"))
        found = resolve(work, spot, host, "outside", child) if spot is not None else None
        moving = work.bench.below(child)
        work.demand(
            "work",
            base_of(work, host),
            "taping",
            action.at,
            [i for i in work.bench.assembly(host) if i not in moving],
        )
        own = work.thing(child)
        size = length_of(own, work.folded(child))
        flat = own.form in THIN and found is not None and found.kind not in ("end", "corner")
        stretch = span_from(found, size) if found is not None and flat and size is not None else None
        cause = work.cause(found.reads if found else frozenset(), own.reads("length"))
        seat_down(
            work,
            Seat(child, host, "taped", cause, stretch, spot=found.end or found.mark if found else ""),
        )
        joint = work.joint(child, host, "tape", work.cause(), "", "taped")
        work.effect(Close(joint, joint.cause))
        if pieces:
            piece = pieces[min(number, len(pieces) - 1)]
            free(work, piece, host, action.field_place("with"))
            seat_down(work, Seat(piece, host, "taped", work.cause(), spot=found.mark if found else ""))
