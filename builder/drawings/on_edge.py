"""A flat part that stands on one of its edges, as a wall on a floor: its pose in the frame of its host."""

from __future__ import annotations

from builder.drawings.solids import Slab
from builder.drawings.vectors import Pose, Vec, pose
from builder.dryrun.bench import Seat
from builder.dryrun.shape import axes_of
from builder.guide.model import Thing


def on_edge(seat: Seat, child: Thing, solid: Slab, host: Slab) -> Pose | None:
    """A flat part that stands on an edge on the top of a slab, or hangs by it from the under face."""
    if seat.stretch is None or seat.across is None:
        return None
    below = seat.side == "under"
    rise = -1.0 if below else 1.0
    along, across = axes_of(child)
    thin_along = abs(float(seat.stretch[1] - seat.stretch[0]) - solid.thickness) < 0.001
    run: Vec = (0.0, 1.0, 0.0) if thin_along else (1.0, 0.0, 0.0)
    up: Vec = (0.0, 0.0, rise if seat.edge in (along[0], across[0]) else -rise)
    turned = pose((0.0, 0.0, 0.0), up, run) if seat.edge in along else pose((0.0, 0.0, 0.0), run, up)
    corners = [turned.world((*p, z)) for p in solid.outline for z in (0.0, solid.thickness)]
    low = [min(corner[i] for corner in corners) for i in range(3)]
    z = -max(corner[2] for corner in corners) if below else host.thickness - low[2]
    at = (float(seat.stretch[0]) - low[0], float(seat.across[0]) - low[1], z)
    return turned._replace(origin=at)
