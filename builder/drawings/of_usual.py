"""The usual look of a tool whose size nobody states, and where each of several copies of it is drawn."""

from __future__ import annotations

from builder.drawings.solids import Slab, Solid, Turned, tube
from builder.drawings.vectors import Pose
from builder.dryrun.bench import Bench, Seat
from builder.dryrun.work import thing_id
from builder.guide.model import Guide, Thing

WIDE = 0.7
"""What lies on a face is drawn so wide, as a share of the face's shorter side."""

HIGH = 0.4
"""And so high, as a share of its width."""

RING, ROUND = 0.25, 0.06
"""What goes round something is drawn so long and so thick, as shares of that one's radius."""

APART = 1.6
"""From one copy to the next that sits at the same place, as a share of its length."""

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


def usual_round(
    guide: Guide, bench: Bench, seat: Seat, child: Thing, host: Solid
) -> tuple[Turned, Pose] | None:
    """A tool of unknown size as a ring round what it is put over, in the host's frame; None where its place
    is unknown."""
    at = _middle(bench, seat)
    if child.sort != "tool" or not isinstance(host, Turned) or seat.side != "outside" or at is None:
        return None
    r, length = host.largest, RING * host.largest
    start = at - length / 2 + from_place(guide, bench, seat, length)
    return tube(length, 2 * r * (1 + 1.5 * ROUND), 2 * r * (1 + 0.5 * ROUND)), Pose((start, 0.0, 0.0))


def from_place(guide: Guide, bench: Bench, seat: Seat, length: float) -> float:
    """How far along its host a tool is drawn from its place, mm: copies of it that are put there lie beside
    one another, about that place."""
    thing = guide.things.get(thing_id(seat.child, guide))
    if thing is None or thing.sort != "tool" or thing.count < 2 or seat.side != "outside":
        return 0.0
    copies = [
        s.child
        for s in bench.children(seat.host)
        if thing_id(s.child, guide) == thing.id
        and (s.side, s.stretch, s.spot, s.angle) == (seat.side, seat.stretch, seat.spot, seat.angle)
    ]
    return (copies.index(seat.child) - (len(copies) - 1) / 2) * APART * length


def _middle(bench: Bench, seat: Seat) -> float | None:
    """The station of a seat's middle; None if neither it nor what it is in the middle of has a place."""
    other = bench.seats.get(seat.spot.removeprefix("middle of "))
    own = seat.stretch or (other.stretch if other is not None and other.host == seat.host else None)
    return None if own is None else float(sum(own)) / 2
