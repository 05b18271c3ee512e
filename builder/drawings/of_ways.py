"""Which way a part comes in: by which end of a round root, or along an arrow over a flat one."""

from __future__ import annotations

from collections.abc import Iterator

from builder.drawings.alternative import listed
from builder.drawings.bodies import corners
from builder.drawings.changes import Changes
from builder.drawings.lying import turned_round
from builder.drawings.of_bench import Sitting, thing_of
from builder.drawings.pencil import WAY
from builder.drawings.scene import Mark, Placed, Scene
from builder.drawings.solids import Slab, Turned
from builder.drawings.vectors import Vec, dot, times
from builder.drawings.which_view import packing
from builder.dryrun.bench import Bench, Seat
from builder.dryrun.effects import Place
from builder.guide.model import Guide
from builder.trade.ends import ENDS, is_origin

Settled = dict[str, Sitting]

LONG = 0.1
"""Length of an arrow, as a share of the longest side of what is drawn."""

OFF = 0.03
"""How far it stays off the part that comes in, as such a share."""


def ways_of(guide: Guide, step: Changes, root: str, settled: Settled) -> tuple[str, ...]:
    """By which end of a round root things go in or on, or come off; empty where nothing does."""
    if thing_of(guide, root) is None or not isinstance(settled[root].solid, Turned):
        return ()
    found: dict[str, None] = {}
    for seat in _seated(step, root, settled):
        on = settled[seat.host]
        if seat.came_from in ENDS and (seat.host == root or abs(on.pose.ex[0]) > 0.9):
            found[f"{_side(seat.came_from, on)} in"] = None
        elif seat.side == "end" and seat.host == root:  # a screw goes in at the far end
            found["start in" if turned_round(on.pose) else "end in"] = None
        elif seat.side == "loose" and seat.host == root and seat.stretch is not None:
            found[f"{_clear(step.bench, root, settled, *map(float, seat.stretch))} in"] = None
    for frame in step.frames:
        for _, host, name in packing(guide, frame.action):
            zone = guide.things[host].zone(name) if host == root else None
            if zone is not None and zone.lo is not None and zone.hi is not None:
                found[f"{_clear(step.bench, root, settled, float(zone.lo), float(zone.hi))} in"] = None
        towards = frame.action.word("towards")
        here = any(ref.id == root for ref in frame.action.refs("from"))
        if frame.action.verb.kind == "remove" and towards in ENDS and here:
            end = _side(towards, settled[root])
            if f"{end} in" not in found:  # what is tried and taken out again is drawn as it sits
                found[f"{end} out"] = None
    return tuple(found)


def _seated(step: Changes, root: str, settled: Settled) -> Iterator[Seat]:
    """The seats that the step's parts take on what was on a root before."""
    for frame in step.frames:
        for e in frame.effects:
            seat = e.seat if isinstance(e, Place) else None
            if seat is None or seat.child not in settled or seat.host not in settled:
                continue
            if seat.host == root or frame.before.root(seat.host) == root:
                yield seat


def _side(end: str, on: Sitting) -> str:
    """Whether an end of something round lies at the start or at the end of the picture."""
    return "start" if is_origin(end) != turned_round(on.pose) else "end"


def _clear(bench: Bench, host: str, settled: Settled, lo: float, hi: float) -> str:
    """By which end something loose reaches a stretch of a bore: where nothing round is in the way."""
    before = after = False
    for seat in bench.children(host):
        sitting = settled.get(seat.child)
        if seat.side != "inside" or seat.stretch is None or sitting is None:
            continue
        if isinstance(sitting.solid, Turned):
            before = before or float(seat.stretch[1]) <= lo + 1e-6
            after = after or float(seat.stretch[0]) >= hi - 1e-6
    solid = settled[host].solid
    assert isinstance(solid, Turned)
    first = before < after or (before == after and lo - solid.start < solid.end - hi)
    return "start" if first != turned_round(settled[host].pose) else "end"


def arrows_in(guide: Guide, step: Changes, root: str, settled: Settled) -> list[Mark]:
    """Arrows over a flat root, along which parts come into or onto what is round, or into its holes."""
    if not isinstance(settled[root].solid, Slab):
        return []
    every = [c for s in settled.values() for c in _corners(s)]
    span = max(max(c[i] for c in every) - min(c[i] for c in every) for i in range(3))
    found: dict[str, Mark] = {}
    for seat in _seated(step, root, settled):
        on, thing = settled[seat.host], thing_of(guide, seat.child)
        if seat.came_from not in ENDS or thing is None:
            continue
        if isinstance(on.solid, Turned):
            way = times(on.pose.ex, 1.0 if is_origin(seat.came_from) else -1.0)
            at = on.pose.origin
        elif seat.side == "hole":
            way = times(on.pose.ez, 1.0 if seat.came_from == "under" else -1.0)
            at = settled[seat.child].pose.origin
        else:
            continue
        moving = [settled[i] for i in step.bench.below(seat.child) if i in settled]
        first = min(dot(c, way) for s in (*moving, on) for c in _corners(s)) - OFF * span
        ends = [_moved(at, way, first - length - dot(at, way)) for length in (LONG * span, 0.0)]
        points = tuple(settled[root].pose.local(p) for p in ends)
        found[seat.child] = Mark(f"way {seat.child}", thing.name, root, points, label=False, line=WAY)
    return list(found.values())


def way_in(scene: Scene) -> str:
    """What comes in along an arrow, in a sentence; empty if nothing does."""
    names = list(dict.fromkeys(m.name for m in scene.marks if m.line == WAY and m.id.startswith("way ")))
    return f"An arrow shows which way it goes: the {listed(names)}." if names else ""


def _corners(sitting: Sitting) -> list[Vec]:
    return corners(Placed("", "", sitting.solid, sitting.pose))


def _moved(p: Vec, way: Vec, by: float) -> Vec:
    return (p[0] + way[0] * by, p[1] + way[1] * by, p[2] + way[2] * by)
