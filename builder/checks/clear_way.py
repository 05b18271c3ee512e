"""A clear way is blocked.

What: A rod of the stated size passes straight through the part and past all else on its host.

Why: The kit cannot be threaded onto its rod, which shows only at the very end.

Bad:
    lug: {form: tube, length: 1 in, inside: 5/32 in, wall: 1/64 in, clear way: 1/8 in}   # in line with a fin

Good:
    - {attach: lug, onto: body, at: lug_line}   # between two fins
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from builder.checks.base import Check, Look, numbers, see
from builder.dryrun.bench import Seat
from builder.dryrun.joining import thickness_round
from builder.dryrun.shape import is_flat, outside_of
from builder.findings import Finding, Severity
from builder.guide.model import Thing
from builder.quantities.trig import cosine, sine


def find(look: Look) -> Iterator[Finding]:
    """A rod of the stated size passes straight through the part and past all else on its host."""
    run = look.run
    assert run is not None
    bench = run.end
    for seat in bench.seats.values():
        thing = look.thing(seat.child)
        rod = thing.mm("clear_way") if thing is not None else None
        if thing is None or rod is None:
            continue
        bore = thing.mm("inside")
        if bore is not None and bore < rod:
            facts = numbers(thing.reads("inside", "clear_way"))
            yield CHECK.finding(
                thing.place("clear_way"),
                f"a rod of {look.mm(rod)} does not pass through the {thing.name}, "
                f"whose bore is {look.mm(bore)}",
                suspects=facts,
                rests_on=facts,
            )
            continue
        for other in bench.seats.values():
            if blocks_way(look, seat, other, rod):
                yield CHECK.finding(
                    seat.cause.at,
                    f"the way through the {look.name(seat.child)} is blocked by the "
                    f"{look.name(other.child)}: a rod of {look.mm(rod)} does not pass",
                    also=see(other.cause.at, f"the {look.name(other.child)} was placed here"),
                    suspects={f"way:{seat.child}", f"way:{other.child}"},
                    rests_on={f"{fact}:{one.child}" for one in (seat, other) for fact in ("seat", "way")},
                )
                break


def blocks_way(look: Look, seat: Seat, other: Seat, rod: Fraction) -> bool:
    """Whether another thing on the same host stands where the rod would pass, seen along the host's axis."""
    if other.host != seat.host or other.child == seat.child or other.side != seat.side:
        return False
    host, own, their = look.thing(seat.host), look.thing(seat.child), look.thing(other.child)
    if host is None or own is None or their is None:
        return False
    if seat.side in ("top", "under"):
        return _blocks_on_flat(seat, other, rod, own, their)
    if seat.side != "outside":
        return False
    radius, size = outside_of(host), outside_of(own)
    if radius is None or size is None or seat.angle is None:
        return other.angle is None and seat.angle is not None
    centre = radius / 2 + size / 2
    if other.angle is None:
        outer = outside_of(their)
        return outer is not None and outer / 2 > centre - rod / 2
    turn = abs(seat.angle - other.angle) % 360
    turn = min(turn, 360 - turn)
    if turn >= 90:
        return False
    half = thickness_round(their) / 2
    if their.form == "slab":
        span = their.mm("span") or their.mm("width") or Fraction(0)
        beside = centre * sine(turn)
        along = centre * cosine(turn)
        return beside < rod / 2 + half and along - rod / 2 < radius / 2 + span
    theirs = radius / 2 + half
    apart = centre * centre + theirs * theirs - 2 * centre * theirs * cosine(turn)  # squared
    through = ((their.mm("inside") or Fraction(0)) - rod) / 2  # it may pass through the other's bore too
    return apart < (rod / 2 + half) ** 2 and not (through >= 0 and apart <= through**2)


def _blocks_on_flat(seat: Seat, other: Seat, rod: Fraction, own: Thing, their: Thing) -> bool:
    """Whether another thing on the same face stands in line with the bore, as high as the rod."""
    size = outside_of(own)
    if size is None or seat.stretch is None or seat.across is None:
        return False
    lengthwise = seat.across[1] - seat.across[0] == size
    mine, theirs = (seat.across, other.across) if lengthwise else (seat.stretch, other.stretch)
    height = their.mm("thickness") if is_flat(their) else outside_of(their)
    if theirs is None or height is None:
        return False
    middle = (mine[0] + mine[1]) / 2
    in_line = theirs[0] < middle + rod / 2 and middle - rod / 2 < theirs[1]
    return in_line and height > size / 2 - rod / 2


CHECK = Check(
    "clear-way", Severity.ERROR, "run",
    why="The kit cannot be threaded onto its rod, which shows only at the very end.",
    mend="Turn the part round its host, or move what stands in the way.",
    find=find, source="common practice",
)  # fmt: skip
