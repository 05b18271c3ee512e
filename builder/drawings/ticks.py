"""Ticks: short marks that are taken from a strip round a tube, and the long lines drawn through them."""

from __future__ import annotations

from collections.abc import Collection, Sequence

from builder.drawings.developed import On
from builder.dryrun.bench import Bench, Mark
from builder.guide.model import Action, Guide
from builder.trade.ends import is_origin

TICK = 6.0
"""Length of a tick, mm."""


def extent(guide: Guide, mark: Mark) -> tuple[float, float] | None:
    """From where to where a mark at angles is drawn: a line all along its place, a tick only beside the edge
    of the strip that it is taken from; None if its place is unknown."""
    if mark.stretch is None:
        return None
    lo, hi = float(mark.stretch[0]), float(mark.stretch[1])
    if hi <= lo:
        return lo, lo + TICK
    if not is_tick(guide, mark):
        return lo, hi
    edge = _edge(guide, mark)
    if edge is None:
        return lo, min(lo + TICK, hi)
    at, way = edge
    a, b = sorted((at, at + way * TICK))
    return (a, b) if lo <= a and b <= hi else (lo, min(lo + TICK, hi))


def is_tick(guide: Guide, mark: Mark) -> bool:
    """True for a mark that is taken from a strip."""
    laid = _laid(guide, mark)
    source = laid.ref("from") if laid is not None else None
    thing = guide.things.get(source.id) if source is not None else None
    return bool(mark.angles) and thing is not None and thing.form == "strip"


def drawn_through(guide: Guide, tick: Mark, marks: Sequence[Mark]) -> Mark | None:
    """The long line that is drawn through a tick; None if there is none yet."""
    at = extent(guide, tick)
    if at is None or not is_tick(guide, tick):
        return None
    for line in marks:
        if line.host == tick.host and line.side == tick.side and line.stretch is not None and line != tick:
            lo, hi = (float(x) for x in line.stretch)
            long = lo <= at[0] and at[1] <= hi
            if long and set(tick.angles) <= set(line.angles) and not is_tick(guide, line):
                return line
    return None


def on_skin(guide: Guide, bench: Bench, host: str, new: Collection[str]) -> list[On]:
    """The marks on the outside of a round host, as a developed view draws them; `new` are the ids of those
    that the step draws.

    A line that is drawn through ticks leaves them to be seen as long as it is new; later the two are one.
    """
    found: list[On] = []
    marks = [m for m in bench.marks.values() if m.host == host and m.side == "outside"]
    for mark in marks:
        at = extent(guide, mark)
        if at is None or mark.stretch is None:
            continue
        name, own = mark.id.replace("_", " "), mark.id in new
        if not mark.angles:
            lo, hi = (float(x) for x in mark.stretch)
            found.append(On(mark.id, name, "mark", lo, hi, 0.0, 360.0, own))
            continue
        line = drawn_through(guide, mark, marks)
        if line is not None and line.id not in new:
            continue
        ticks = [extent(guide, m) for m in marks if drawn_through(guide, m, marks) == mark] if own else []
        for angle in mark.angles:
            a, lo = float(angle), at[0]
            for tick in ticks:
                if tick is not None:
                    found.append(On(mark.id, name, "mark", lo, tick[0], a, a, own))
                    lo = tick[1]
            found.append(On(mark.id, name, "mark", lo, at[1], a, a, own))
    return found


def _laid(guide: Guide, mark: Mark) -> Action | None:
    """The action that drew a mark."""
    for step in guide.every_step():
        for action in step.each_action():
            if action.path == mark.cause.action:
                return action
    return None


def _edge(guide: Guide, mark: Mark) -> tuple[float, float] | None:
    """The station of the free edge of the strip that a mark is taken from, and which way is off the strip;
    None unless the strip lies flush with an end."""
    laid = _laid(guide, mark)
    source = laid.ref("from") if laid is not None else None
    host = guide.things.get(mark.host)
    strip = guide.things.get(source.id) if source is not None else None
    if source is None or strip is None or host is None:
        return None
    width, length = strip.mm("width"), host.mm("length")
    for step in guide.every_step():
        for action in step.each_action():
            spot = action.spot("at")
            wound = action.ref("around") and any(ref.id == source.id for ref in action.refs("what"))
            if not wound or spot is None or spot.kind != "flush" or width is None or length is None:
                continue
            return (float(width), 1.0) if is_origin(spot.names[0]) else (float(length - width), -1.0)
    return None
