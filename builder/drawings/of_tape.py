"""Tape off a roll, which no bench holds as an item: a band round a tube over what is taped along it."""

from __future__ import annotations

from builder.drawings.bodies import corners
from builder.drawings.changes import Changes
from builder.drawings.of_bench import Sitting, composed_pose
from builder.drawings.of_part import mm
from builder.drawings.scene import Placed, on_axis
from builder.drawings.solids import Slab, Turned, tube
from builder.guide.model import Action, Guide, Thing

THICK = 0.3
"""Tape is drawn so thick, mm."""


def tapes(guide: Guide, step: Changes, settled: dict[str, Sitting]) -> list[Placed]:
    """Tape with a stated width round each tube that something is taped along: over its middle."""
    found: list[Placed] = []
    for seat in step.bench.seats.values():
        child, host = settled.get(seat.child), settled.get(seat.host)
        if seat.side != "taped" or child is None or host is None:
            continue
        if not isinstance(child.solid, Slab) or not isinstance(host.solid, Turned):
            continue
        tape = _tape(guide, seat.cause.action)
        width = mm(tape.mm("width")) if tape is not None else 0.0
        ends = [host.pose.local(c)[0] for c in corners(Placed("", "", child.solid, child.pose))]
        low, high = max(min(ends), host.solid.start), min(max(ends), host.solid.end)
        if tape is None or not 0 < width < high - low:
            continue
        r = host.solid.largest
        band = tube(width, 2 * (r + child.solid.thickness + THICK), 2 * r)
        pose = composed_pose(host.pose, on_axis((low + high - width) / 2))
        new = seat.child in step.seated
        found.append(Placed(f"tape on {seat.child}", tape.name, band, pose, new, label=new))
    return found


def _tape(guide: Guide, path: str) -> Thing | None:
    """The tape that an action takes off its roll."""
    action = next((a for s in guide.every_step() for a in s.each_action() if a.path == path), None)
    return _first(guide, action) if action is not None else None


def _first(guide: Guide, action: Action) -> Thing | None:
    things = (guide.things.get(ref.id) for ref in action.refs("with"))
    return next((t for t in things if t is not None and t.form == "tape"), None)
