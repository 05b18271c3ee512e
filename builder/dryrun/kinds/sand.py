"""sand: edges or faces are smoothed or rounded."""

from __future__ import annotations

from builder.dryrun import needs as n
from builder.dryrun.effects import Shape
from builder.dryrun.placing import Named, ends_of
from builder.dryrun.work import Work
from builder.guide.fields import Field, Holds
from builder.guide.model import Verb

FIELDS = (
    Field("sand", Holds.THINGS, "What is sanded.", "fin", sort="part|tool", required=True, told=True),
    Field("edges", Holds.WORDS, "Which edges.", "[front, tip]", told=True),
    Field("not", Holds.WORDS, "Which edges stay as they are.", "[root]", told=True),
    Field("with", Holds.THINGS, "What it is sanded with.", "block", sort="tool", told=True),
)

VERBS = (
    Verb(
        "sand",
        "sand",
        "sand {edges} {what} {with}",
        ("sand", "round", "smooth", "rub"),
        "load",
        "Edges are sanded; joints on the way must bear it.",
    ),
)


def run(work: Work) -> None:
    """Edges are sanded; whatever holds the part must bear it."""
    action = work.action
    work.field_items("with")
    for item in work.field_items("what"):
        thing = work.thing(item)
        known = (*ends_of(thing), "edges", "side", "outside", "inside", "all")
        for field in ("edges", "not"):
            for word in action.words(field):
                if word not in known and not any(z.name == word for c in thing.chains for z in c.zones):
                    work.need(Named(at=action.field_place(field), met=False, name=word, host=item))
        joints = work.bench.below(item)
        seat = work.bench.seats.get(item)
        path = [*joints, seat.host] if seat is not None else joints
        work.demand("load", path, "sanding", action.at, work.bench.assembly(item))
        work.effect(Shape(item, "sanded", work.cause()))


__all__ = ["FIELDS", "VERBS", "n", "run"]
