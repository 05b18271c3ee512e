"""How a thing lies in its drawings: one way, whatever it sits in, so that no picture turns it unasked."""

from __future__ import annotations

from builder.drawings.of_part import ends_of, mm
from builder.drawings.vectors import Pose
from builder.dryrun.shape import is_axial, length_of
from builder.dryrun.work import thing_id
from builder.guide.model import Guide, Thing

HERE = Pose()
"""The world's own frame."""

FACE_DOWN = Pose((0.0, 0.0, 0.0), (1.0, 0.0, 0.0), (0.0, -1.0, 0.0), (0.0, 0.0, -1.0))
"""How a flat root lies with its under face up."""

FORWARD = ("tip",)
"""Zero ends that look to the front: they are drawn on the right, as the front of a tube is."""


def lies(guide: Guide, root: str, lying: str = "") -> Pose:
    """The pose in the world of a root: as its stage says that it lies; a nose with its tip to the right,
    where it points when it sits in its tube; a screw as it goes into such a nose."""
    if lying.startswith(f"{root} ") and "under" in lying:
        return FACE_DOWN
    thing = guide.things.get(thing_id(root, guide))
    if thing is None or not is_axial(thing):
        return HERE
    host = _screwed_into(guide, thing) if thing.form == "screw" else thing
    if host is None or ends_of(host)[0] not in FORWARD:
        return HERE
    return Pose((mm(length_of(thing)), 0.0, 0.0), (-1.0, 0.0, 0.0), (0.0, -1.0, 0.0), (0.0, 0.0, 1.0))


def turned_round(at: Pose) -> bool:
    """True if a thing's own axis runs to the left."""
    return at.ex[0] < -0.9


def _screwed_into(guide: Guide, screw: Thing) -> Thing | None:
    """What a screw goes into in some step of the guide."""
    for step in guide.every_step():
        for action in step.each_action():
            if any(ref.id == screw.id for ref in action.refs("what")):
                for ref in action.refs("into"):
                    return guide.things.get(ref.id)
    return None
