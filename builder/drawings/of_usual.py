"""The usual look of a tool whose size nobody states."""

from __future__ import annotations

from builder.drawings.solids import Slab, Solid
from builder.drawings.vectors import Pose
from builder.dryrun.bench import Seat
from builder.guide.model import Thing

WIDE = 0.7
"""What lies on a face is drawn so wide, as a share of the face's shorter side."""

HIGH = 0.4
"""And so high, as a share of its width."""

UNKNOWN = ", not to scale"
"""What is added to the name of a thing whose size nobody states."""


def usual(child: Thing, seat: Seat, host: Solid) -> tuple[Slab, Pose] | None:
    """A tool of unknown size as a block on the middle of a flat host's face, in the host's frame; None for
    what does not lie so."""
    if child.sort != "tool" or not isinstance(host, Slab) or seat.side not in ("top", "under"):
        return None
    xs, ys = zip(*host.outline, strict=True)
    wide = WIDE * min(max(xs) - min(xs), max(ys) - min(ys))
    x, y = (
        (min(side) + max(side)) / 2 if at is None else float(sum(at)) / 2
        for side, at in ((xs, seat.stretch), (ys, seat.across))
    )
    corners = tuple((x + a * wide / 2, y + b * wide / 2) for a, b in ((-1, -1), (1, -1), (1, 1), (-1, 1)))
    high = HIGH * wide
    return Slab(corners, high), Pose((0.0, 0.0, -high if seat.side == "under" else host.thickness))
