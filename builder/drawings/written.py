"""A name that the step writes on something: a stroke of handwriting, where the guide says or on the part."""

from __future__ import annotations

from math import cos, pi, sin, sqrt

from builder.drawings.acts import FIRST_WORDS
from builder.drawings.changes import Changes, items_of
from builder.drawings.of_bench import Sitting
from builder.drawings.of_marks import INSIDE
from builder.drawings.pencil import WRITTEN
from builder.drawings.scene import Mark
from builder.drawings.solids import Slab, Turned
from builder.drawings.vectors import Vec
from builder.dryrun.placing import resolve
from builder.dryrun.run import marks_of
from builder.dryrun.work import Work
from builder.guide.model import Action, Guide

LOOPS = 4
"""The stroke goes up and down so often."""

POINTS = 12
"""Points of one loop."""


def writes(action: Action) -> bool:
    """Whether an action is done with a pencil in hand: its sentence begins with such a word."""
    words = action.word("what").split()
    return action.verb.kind == "do" and bool(words) and FIRST_WORDS.get(words[0].lower()) == "pencil"


def writes_inside(action: Action) -> bool:
    """Whether it writes on the inside of something."""
    return writes(action) and bool(action.spots("inside"))


def strokes(guide: Guide, step: Changes, settled: dict[str, Sitting]) -> list[Mark]:
    """What the step writes, as lines on the things that are drawn; the first of several copies.

    One picture may show only some of a step's actions: what it writes is then seen wherever the thing is.
    """
    found: list[Mark] = []
    actions = step.frames[0].step.each_action() if step.frames else ()
    for action in actions:
        for ref in action.refs("handles") if writes(action) else ():
            item = next((i for i in items_of(guide, step.bench, ref) if i in settled), None)
            if item is None:
                continue
            middle = _middle(guide, step, action, item)
            points = _stroke(settled[item], *middle, inside=writes_inside(action))
            if points:
                name = "your name" + (INSIDE if writes_inside(action) else "")
                found.append(Mark(f"name on {item}", name, item, points, new=True, line=WRITTEN))
    return found


def _middle(guide: Guide, step: Changes, action: Action, item: str) -> tuple[float | None, float | None]:
    """Where the guide says that it is written, along and across, in the thing's own frame; None where it says
    nothing."""
    frame = step.frames[0]
    work = Work(guide, step.bench, action, frame.step, None, 0, frame.seconds, marks_of(guide))
    for field, side in (("at", "outside"), ("inside", "inside")):
        spot = action.spot(field)
        if spot is not None:
            at = resolve(work, spot, item, side)
            along = None if at.stretch is None else float(sum(at.stretch)) / 2
            return along, None if at.across is None else float(sum(at.across)) / 2
    return None, None


def _stroke(sitting: Sitting, along: float | None, across: float | None, *, inside: bool) -> tuple[Vec, ...]:
    solid = sitting.solid
    if isinstance(solid, Turned):
        return _round(solid, along, inside=inside)
    return _flat(solid, along, across) if isinstance(solid, Slab) else ()


def _round(solid: Turned, along: float | None, *, inside: bool) -> tuple[Vec, ...]:
    """On the skin that looks at the viewer; inside on the far half of the bore, which a cut lays open."""
    radius = solid.bore[0].r0 if inside and solid.bore else solid.largest
    length = min(1.6 * radius, 0.4 * (solid.end - solid.start))
    middle = (solid.start + solid.end) / 2 if along is None else along
    middle = max(solid.start + length / 2, min(solid.end - length / 2, middle))
    low = 0.45 * radius if inside else -0.45 * radius
    sign = 1.0 if inside else -1.0
    points = []
    for x, y in _loops(length, 0.3 * radius):
        z = low + y
        points.append((middle + x, sign * sqrt(max(0.0, radius * radius - z * z)), z))
    return tuple(points)


def _flat(solid: Slab, along: float | None, across: float | None) -> tuple[Vec, ...]:
    xs, ys = zip(*solid.outline, strict=True)
    wide, high = max(xs) - min(xs), max(ys) - min(ys)
    x0 = (min(xs) + max(xs)) / 2 if along is None else along
    y0 = (min(ys) + max(ys)) / 2 if across is None else across
    size = min(0.7 * wide, 2.0 * high)
    return tuple((x0 + x, y0 + y, solid.thickness) for x, y in _loops(size, 0.2 * size))


def _loops(length: float, height: float) -> list[tuple[float, float]]:
    """A row of slanted loops about the origin, so long and so high."""
    n = LOOPS * POINTS
    found = []
    for i in range(n + 1):
        turn = 2 * pi * i / POINTS
        back = 0.35 * length / LOOPS * sin(turn)
        found.append(((i / n - 0.5) * length * 0.9 - back, -height / 2 * cos(turn)))
    return found
