"""Pencil marks as a viewer sees them: hidden by what stands before them, but for those of the picture."""

from __future__ import annotations

from math import atan2, cos, sin

from builder.drawings.project import Viewer, rim_runs
from builder.drawings.scene import Mark
from builder.drawings.shapes import Arc, Point, Polyline
from builder.drawings.vectors import Vec, times

ALWAYS = "always"
"""The line class of a mark that belongs to the picture and not to the thing: nothing hides it."""

NAMED = "named"
"""The line class of a mark that only has a name: an edge that is to stay as it is."""

WRITTEN = "written"
"""The line class of handwriting: nothing hides it, since it is written where the viewer looks."""

GHOST = "ghost"
"""The line class of the outline of what is taken off: nothing hides it, it is there no more."""

WAS = "was"
"""The line class of a mark that only says where something was: it is in the picture, and not drawn."""

WAY = "way"
"""The line class of a mark that is an arrow, from its first point to its last."""

THROUGH = "through"
"""The line class of a mark that lies inside its part: drawn dashed, whatever is before it."""


def mark_lines(view: Viewer, mark: Mark) -> list[Polyline | Arc]:
    """The visible runs of a pencil mark."""
    placed = view.scene.part(mark.part)
    line = mark.line or ("new_mark" if mark.new else "mark")
    if mark.ring:
        x, _, r = mark.points[0]
        found = rim_runs(view, placed, x, r, (0.0, 1.0), line)
        return [s._replace(part=mark.id) for s in found]
    c = view.camera
    frame = placed.pose
    world = [frame.world(p) for p in mark.points]
    if mark.line == THROUGH:
        pairs = zip(world, world[1:], strict=False)
        return [Polyline((c.paper(a), c.paper(b)), "hidden", mark.id) for a, b in pairs]
    if mark.line == NAMED:
        at = c.paper(((world[0][0] + world[-1][0]) / 2, (world[0][1] + world[-1][1]) / 2, world[0][2]))
        return [Polyline((at, at, at), NAMED, mark.id)]
    if mark.line == WRITTEN:
        return [Polyline(tuple(c.paper(p) for p in world), "new_mark", mark.id)]
    if mark.line == WAS:
        return []
    if mark.line == GHOST:
        return [Polyline(tuple(c.paper(p) for p in world), GHOST, mark.id)]
    if mark.line == WAY:
        return _arrow(c.paper(world[0]), c.paper(world[-1]), mark.id)
    if mark.line == ALWAYS:
        return [Polyline(tuple(c.paper(p) for p in world), "break", mark.id)]
    out: Vec = times(c.toward, 200.0)
    runs = [r for a, b in zip(world, world[1:], strict=False) for r in view.straight(placed, a, b, out)]
    return [Polyline((c.paper(a), c.paper(b)), line, mark.id) for a, b in runs]


HEAD, HALF = 2.7, 0.5
"""Length of the head of an arrow that is a mark, and half its width, mm on paper; its line adds to both."""


def _arrow(tail: Point, tip: Point, id: str) -> list[Polyline | Arc]:
    """A line with a filled head, as the legend shows it, that reaches to its tip."""
    way = atan2(tip[1] - tail[1], tip[0] - tail[0])
    along = (cos(way), sin(way))

    def at(back: float, aside: float) -> Point:
        return (tip[0] - back * along[0] - aside * along[1], tip[1] - back * along[1] + aside * along[0])

    head = (at(0.4, 0.0), at(HEAD, HALF), at(HEAD, -HALF))
    return [Polyline((tail, at(HEAD, 0.0)), WAY, id), Polyline(head, WAY, id, closed=True, filled=True)]
