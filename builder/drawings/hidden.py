"""The covered end of a round part: dashed within what the step slides over it, so that one sees how far it
reaches, and whether it is flush."""

from __future__ import annotations

from builder.drawings.project import SHORTEST_GAP, Viewer
from builder.drawings.scene import Placed
from builder.drawings.shapes import Polyline
from builder.drawings.solids import Turned
from builder.drawings.vectors import add, cross, dot, times

SHORTEST = 1.2
"""A covered end that is shorter than this on paper is not drawn, mm."""

WALL = 1.0
"""Dashes keep at least so far within the outline of what covers them, mm on paper."""

CLOSE = 0.05
"""Ends so close to one another are flush, mm."""


def covered_ends(view: Viewer) -> list[Polyline]:
    """Dashed lines of ends that lie in a new sleeve, where one looks square to their axis, not at an angle.

    What is new itself is dashed already wherever something hides a longer stretch of it.
    """
    if view.cut or not any(abs(abs(t) - 1) < 1e-6 for t in view.camera.toward):
        return []
    turned = [p for p in view.scene.parts if isinstance(p.solid, Turned)]
    return [
        line
        for sleeve in turned
        if sleeve.new and _square(view, sleeve)
        for inner in turned
        if inner is not sleeve
        for line in _ends(view, sleeve, inner)
    ]


def _square(view: Viewer, placed: Placed) -> bool:
    return abs(dot(placed.pose.ex, view.camera.toward)) < 1e-6


def _ends(view: Viewer, sleeve: Placed, inner: Placed) -> list[Polyline]:
    """Each covered end: its two sides from where they go in, and its face if that lies inside."""
    over, under = sleeve.solid, inner.solid
    assert isinstance(over, Turned) and isinstance(under, Turned)
    (x0, *off), (x1, *_) = (
        sleeve.pose.local(inner.pose.world((x, 0.0, 0.0))) for x in (under.start, under.end)
    )
    along = abs(dot(sleeve.pose.ex, inner.pose.ex)) > 1 - 1e-9
    if not over.bore or not along or abs(off[0]) + abs(off[1]) > CLOSE:
        return []
    scale, r = view.camera.scale, under.largest
    if r > over.bore[0].r0 + CLOSE or (over.largest - r) * scale < WALL:
        return []
    ends = [(min(x0, x1), over.end, 1.0), (max(x0, x1), over.start, -1.0)]
    found: list[Polyline] = []
    for end, mouth, way in ends:  # `way` leads from the end to where it comes out of the sleeve
        length = (mouth - end) * way * scale
        inside = over.start - CLOSE < end < over.end + CLOSE
        through = (x1 - x0) * (x1 - x0) > (mouth - end) * (mouth - end)
        if not inside or not through or length < SHORTEST or (inner.new and length >= SHORTEST_GAP):
            continue

        # the silhouette lies across both the axis and the line of sight
        side = times(cross(sleeve.pose.ex, view.camera.toward), r)
        (a, b), (c, d) = (
            [view.camera.paper(add(sleeve.pose.world((x, 0.0, 0.0)), times(side, s))) for s in (1.0, -1.0)]
            for x in (end, mouth)
        )
        lines = [(a, c), (b, d)]
        if min(abs(end - over.start), abs(end - over.end)) > CLOSE:
            lines.append((a, b))
        found += [Polyline(line, "hidden", None) for line in lines]  # no leader ends there
    return found
