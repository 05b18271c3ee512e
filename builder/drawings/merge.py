"""Lines that fall on one another are drawn once: the heavier class wins, ends meet.

Two ends of parts that touch, or the two faces of a thin sheet, project to the same line; drawn twice
they would be heavier than their class and could not be told from what is new.
"""

from __future__ import annotations

from math import atan2, cos, hypot, pi, sin

from builder.drawings.shapes import Arc, Point, Polyline

RANK = ("new", "new_section", "section", "outline", "new_mark", "mark", "hidden", "centre")
"""Which class wins where two lines coincide, first to last."""

STEP = 0.05
"""Lines nearer than this are one line, mm on paper."""


def merged(lines: list[Polyline | Arc]) -> list[Polyline | Arc]:
    """The same picture without a stretch of straight line drawn twice; order kept.

    A part whose line is covered whole by another's keeps none of it there: `Drawing.parts` then does
    not count it unless it has another line, so at least one line of every part is kept.
    """
    order = {name: i for i, name in enumerate(RANK)}
    taken: dict[tuple[int, int], list[tuple[float, float]]] = {}
    ranked = sorted(range(len(lines)), key=lambda i: (order.get(lines[i].line, 99), i))
    kept: dict[int, list[Polyline | Arc]] = {}
    arcs: set[tuple[int, ...]] = set()
    for i in ranked:
        shape = lines[i]
        if isinstance(shape, Arc):
            key = tuple(
                round(v / STEP)
                for v in (*shape.centre, shape.rx, shape.ry, shape.turn % 180, shape.start, shape.sweep)
            )
            if key not in arcs:
                arcs.add(key)
                kept[i] = [shape]
            continue
        if len(shape.points) != 2 or shape.closed:
            kept[i] = [shape]
            continue
        kept[i] = list(_rest(shape, taken))
    present = {lines[i].part for i, pieces in kept.items() if pieces}
    for i in ranked:
        if lines[i].part not in present and lines[i].part is not None:
            present.add(lines[i].part)
            kept[i] = [lines[i]]
    return [piece for i in range(len(lines)) for piece in kept.get(i, [])]


def _rest(shape: Polyline, taken: dict[tuple[int, int], list[tuple[float, float]]]) -> list[Polyline]:
    """What of a straight line is not yet drawn; what is left is then taken too."""
    (x0, y0), (x1, y1) = shape.points
    if hypot(x1 - x0, y1 - y0) < STEP:
        return []
    angle = atan2(y1 - y0, x1 - x0) % pi
    if pi - angle < 1e-4:
        angle = 0.0
    ux, uy = cos(angle), sin(angle)
    key = (round(angle / 0.002), round((-x0 * uy + y0 * ux) / STEP))
    low, high = sorted((x0 * ux + y0 * uy, x1 * ux + y1 * uy))
    level = -x0 * uy + y0 * ux
    spans = [(low, high)]
    for near in (-1, 0, 1):
        for a, b in taken.get((key[0], key[1] + near), []):
            spans = [
                piece
                for s, e in spans
                for piece in ((s, min(e, a)), (max(s, b), e))
                if piece[1] - piece[0] > STEP
            ]
    taken.setdefault(key, []).extend(spans)

    def at(u: float) -> Point:
        return (u * ux - level * uy, u * uy + level * ux)

    return [shape._replace(points=(at(s), at(e))) for s, e in spans]
