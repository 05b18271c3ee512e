"""Where glue that was laid "where X will sit" comes to lie: where X is once it stays."""

from __future__ import annotations

from collections.abc import Iterable

from builder.dryrun.bench import Bench, Stretch, Wet
from builder.dryrun.placing import frame_in
from builder.dryrun.run import Frame
from builder.dryrun.shape import is_axial, length_of
from builder.dryrun.work import thing_id
from builder.guide.model import Guide


def home_of(guide: Guide, wet: Wet, later: Iterable[Frame]) -> tuple[Bench, str] | None:
    """The bench on which the part that glue waits for first sits where it stays, and the part; None if it
    never does in the frames given."""
    for frame in later:
        bench = frame.after
        for item in bench.seats:
            if thing_id(item, guide) == wet.pending.partition(" ")[0] and is_home(bench, item, wet.host):
                return bench, item
    return None


def is_home(bench: Bench, item: str, host: str) -> bool:
    """Whether every seat between an item and its host is where it stays."""
    path = bench.path(item, host)
    if path is None or path[-1] != host:
        return False
    between = [bench.seats.get(each) for each in path[:-1]]
    return all(seat is not None and seat.home for seat in between)


def stretch_on(guide: Guide, bench: Bench, item: str, host: str) -> Stretch | None:
    """What an item takes of the axis of a round host, mm from the host's zero end; None if unknown."""
    frame = frame_in(bench, item, host)
    thing, child = guide.things[thing_id(host, guide)], guide.things[thing_id(item, guide)]
    length = length_of(child)
    if frame is None or length is None or not is_axial(thing):
        return None
    offset, sign = frame
    return (offset, offset + length) if sign > 0 else (offset - length, offset)
