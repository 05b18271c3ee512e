"""Lines that fall on one another are drawn once: the heavier class wins, ends meet.

Two ends of parts that touch, or the two faces of a thin sheet, project to the same line; drawn twice
they would be heavier than their class and could not be told from what is new.
"""

from __future__ import annotations

from math import atan2, cos, hypot, pi, sin

from builder.drawings.shapes import Arc, Point, Polyline

RANK = (
    "glue", "new", "new_section", "worked", "new_mark", "new_thin", "section", "outline", "thin", "mark",
    "hidden", "centre",
)  # fmt: skip
"""Which class wins where two lines coincide, first to last."""

STEP = 0.25
"""Straight lines nearer than this are one line, mm on paper."""

TINY = 0.1
"""A straight line shorter than this is left out, mm on paper; a small hole has lines not much longer."""

RING = 0.6
"""Circles about one centre whose radii differ by less than this are one line, mm on paper."""


def merged(lines: list[Polyline | Arc]) -> list[Polyline | Arc]:
    """The same picture without a stretch of line drawn twice, or two lines so near that they run together.

    Order is kept.  A part all of whose straight lines fall on another's is not seen as itself, and has
    none here; of one drawn with circles at least one circle is kept.
    """
    order = {name: i for i, name in enumerate(RANK)}
    taken: dict[tuple[int, int], list[tuple[float, float]]] = {}
    ranked = sorted(range(len(lines)), key=lambda i: (order.get(lines[i].line, 99), i))
    kept: dict[int, list[Polyline | Arc]] = {}
    arcs: list[Arc] = []
    for i in ranked:
        shape = lines[i]
        if isinstance(shape, Arc):
            if not any(_together(shape, other) for other in arcs):
                arcs.append(shape)
                kept[i] = [shape]
            continue
        if len(shape.points) != 2 or shape.closed:
            kept[i] = [shape]
            continue
        kept[i] = list(_rest(shape, taken))
    present = {lines[i].part for i, pieces in kept.items() if pieces}
    for i in ranked:
        if isinstance(lines[i], Arc) and lines[i].part not in present:
            present.add(lines[i].part)
            kept[i] = [lines[i]]
    return [piece for i in range(len(lines)) for piece in kept.get(i, [])]


def _together(a: Arc, b: Arc) -> bool:
    """True if two arcs run so near one another, all along, that they would print as one thick line."""
    return (
        abs(a.centre[0] - b.centre[0]) < STEP
        and abs(a.centre[1] - b.centre[1]) < STEP
        and abs(a.rx - b.rx) < RING
        and abs(a.ry - b.ry) < RING
        and abs(a.start - b.start) < 1
        and abs(a.sweep - b.sweep) < 1
    )


def _rest(shape: Polyline, taken: dict[tuple[int, int], list[tuple[float, float]]]) -> list[Polyline]:
    """What of a straight line is not yet drawn; what is left is then taken too."""
    (x0, y0), (x1, y1) = shape.points
    if hypot(x1 - x0, y1 - y0) < TINY:
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
