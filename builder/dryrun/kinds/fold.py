"""fold: a flat part is folded, perhaps over another, which is then held between the folds."""

from __future__ import annotations

from builder.dryrun.bench import Seat
from builder.dryrun.effects import Close, Shape
from builder.dryrun.joining import free, seat_down
from builder.dryrun.meeting import close
from builder.dryrun.placing import resolve
from builder.dryrun.work import Work
from builder.guide.fields import Field, Holds
from builder.guide.model import Verb

FIELDS = (
    Field("fold", Holds.THINGS, "What is folded.", "anchor", sort="part|tool", required=True, told=True),
    Field("over", Holds.THING, "What the folds hold between them.", "shock_cord", sort="part", told=True),
    Field("at", Holds.PLACES, "Where the folds lie.", "[1 in from left, 2 in from left]", told=True),
    Field("with", Holds.THINGS, "What helps.", "ruler", sort="tool", told=True),
)

VERBS = (
    Verb(
        "fold",
        "fold",
        "fold {what} {over} {at} {with}",
        ("fold", "crease", "bend"),
        "carry",
        "A flat part is folded; what it is folded over is held once the glue on its inner face is set.",
    ),
)


def run(work: Work) -> None:
    """What is folded takes its folded size; what it is folded over is held between the folds."""
    action = work.action
    work.field_items("with")
    over = work.field_items("over")
    for item in work.field_items("what"):
        for spot in action.spots("at"):
            resolve(work, spot, item, "top")
        cause = work.cause(work.thing(item).reads("folded_length", "folded_width"))
        work.effect(Shape(item, "folded", cause))
        for held in over:
            free(work, held, item, action.field_place("over"))
            seat_down(work, Seat(held, item, "fold", work.cause()))
            wets = close(
                work, held, [item], fit="", steady="nested", at=action.at, kind="fold", self_held=True
            )
            if not wets:
                joint = work.joint(held, item, "fold", work.cause(), "", "nested")
                work.effect(Close(joint, joint.cause))
