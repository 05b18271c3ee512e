"""Names with leaders that never cross: flags above a wide picture, a column beside a tall one.

Flags: each name hangs beside the top of its own upright leader; names over the left half run to the
left, those over the right half to the right, and one that would cover its neighbour's leader moves a
row up.  Column: names stand in the order of what they point to, and two leaders that cross swap names.
"""

from __future__ import annotations

from collections.abc import Iterable
from itertools import combinations
from math import hypot
from typing import NamedTuple

from builder.drawings.geometry import meets_box
from builder.drawings.measure import CAP_HEIGHT, LINE_PITCH, text_width, wrapped
from builder.drawings.shapes import Box, Point, Polyline, Shape, Text, circle, segment

ROW = 6.0
"""Distance of two rows of flags, mm."""

FIRST_ROW = 7.0
"""Distance of the first row from what is below it, mm."""

APART = 3.0
"""Least distance of two upright leaders, mm."""

COLUMN_WIDTH = 34.0
"""A name in a column is wrapped to this width, mm."""

BETWEEN = 1.6
"""Room between two names of several lines in a column, mm."""

FURTHER = 3.0
"""So far beyond a text in its way a column begins, mm."""

BESIDE = 2.5
"""A level leader nearer to a level edge than this seems to be part of it, mm."""

SLOPE = 5.0
"""So much higher a name stands whose leader would run along an edge, mm."""

DOT = 0.35
"""Radius of the dot that ends a leader, mm."""


class Callout(NamedTuple):
    """A name, the part or mark it names, and points of it on paper where a leader may end, best first."""

    text: str
    part: str
    anchors: tuple[Point, ...]


class Layout(NamedTuple):
    """Shapes of the callouts and the boxes of their texts."""

    shapes: tuple[Shape, ...]
    boxes: tuple[Box, ...]


def _dot(at: Point) -> Shape:
    return circle(at, DOT, "dot")


def flags(callouts: list[Callout], outline: Box, top: float) -> Layout:
    """Names in rows above `top`, over what they point to."""
    chosen: list[tuple[Point, Callout]] = []
    for callout in callouts:
        free = [a for a in callout.anchors if all(abs(a[0] - c[0][0]) >= APART for c in chosen)]
        if free:
            chosen.append((free[0], callout))
            continue
        # no room: as far as may be from the leaders that stand already
        taken = [c[0][0] for c in chosen]
        chosen.append((max(callout.anchors, key=lambda a: min(abs(a[0] - x) for x in taken)), callout))
    middle = (outline.left + outline.right) / 2
    left = sorted((c for c in chosen if c[0][0] < middle), key=lambda c: (c[0][0], c[1].text))
    right = sorted((c for c in chosen if c[0][0] >= middle), key=lambda c: (-c[0][0], c[1].text))
    shapes: list[Shape] = []
    boxes: list[Box] = []
    for group, sign in ((left, -1.0), (right, 1.0)):
        rows: list[tuple[float, int]] = []
        for at, callout in group:
            reach = at[0] + sign * (text_width(callout.text) + 3)
            low, high = min(at[0], reach) - 1e-9, max(at[0], reach) + 1e-9
            row = 1 + max((r for x, r in rows if low <= x <= high), default=-1)
            rows.append((at[0], row))
            y = top - FIRST_ROW - row * ROW
            text = Text(
                (at[0] + sign * 1.2, y + CAP_HEIGHT / 2),
                callout.text,
                "start" if sign > 0 else "end",
            )
            shapes += [segment((at[0], y - CAP_HEIGHT / 2), at, "leader"), _dot(at), text]
            boxes.append(text.box())
    return Layout(tuple(shapes), tuple(boxes))


LIFTS = (0.0, -6.0, 6.0, -12.0, 12.0, -18.0, 18.0, -24.0, 24.0)
"""So much higher than it would a column is tried where a text is in its way, mm."""


def column(
    callouts: list[Callout],
    x: float,
    *,
    side: str = "right",
    avoid: Iterable[Box] = (),
    edges: tuple[float, ...] = (),
) -> Layout:
    """Names in a column that begins at `x`, each as near its part's height as may be.

    `avoid` holds boxes of texts that no leader should run through and of which the column stands clear,
    higher, lower or farther off if need be; `edges` the heights of level edges that no leader should run
    along: its name then stands a little higher.
    """
    blocked = tuple(avoid)
    best: tuple[tuple[int, int], Layout] | None = None
    for lift in LIFTS:
        made = _column(callouts, x, side, blocked, edges, lift)
        met = [b for b in blocked if any(own.roomy(1.0).meets(b) for own in made.boxes)]
        if met and not lift:
            # what is in the way stands below as a rule: the whole column moves up over it
            up = max(own.roomy(1.0).bottom for own in made.boxes) - min(b.top for b in met)
            over = _column(callouts, x, side, blocked, edges, up)
            if not _in_the_way(over, blocked) and not any(
                own.roomy(1.0).meets(b) for b in blocked for own in over.boxes
            ):
                return over
        cost = (len(met), _in_the_way(made, blocked))
        if best is None or cost < best[0]:
            best = (cost, made)
        if cost == (0, 0):
            break
    assert best is not None
    if not best[0][0]:
        return best[1]
    met = [b for b in blocked if any(own.roomy(1.0).meets(b) for own in best[1].boxes)]
    sign = 1.0 if side == "right" else -1.0
    beyond = max(b.right for b in met) if side == "right" else min(b.left for b in met)
    return column(callouts, beyond + sign * FURTHER, side=side, avoid=blocked, edges=edges)


def _in_the_way(layout: Layout, blocked: tuple[Box, ...]) -> int:
    """How often a leader runs through a text."""
    lines = [s.points for s in layout.shapes if isinstance(s, Polyline) and s.line == "leader"]
    return sum(meets_box(a, b, box.grown(0.3)) for a, b in lines for box in blocked)


def _column(
    callouts: list[Callout],
    x: float,
    side: str,
    blocked: tuple[Box, ...],
    edges: tuple[float, ...],
    lift: float,
) -> Layout:
    """A column that stands so much higher than it would."""
    sign = 1.0 if side == "right" else -1.0
    ends = _spread(callouts, x, sign, blocked)
    items = [(at, c, wrapped(c.text, COLUMN_WIDTH)) for at, c in zip(ends, callouts, strict=True)]
    items.sort(key=lambda i: (i[0][1], i[1].text))
    anchors = [i[0] for i in items]
    order = list(range(len(items)))
    end = x - sign * 1.2
    # all slots are as high as the highest name, so that any two names can change places; each swap makes
    # the leaders shorter in sum, so this comes to an end
    most = max((len(i[2]) for i in items), default=1)
    height = most * LINE_PITCH + (BETWEEN if most > 1 else 0.0)
    levels = [y - lift for y in _levels([_off(a[1], edges) for a in anchors], height)]
    _uncross(anchors, levels, order, end)
    for _ in range(2):
        # a leader that would run through a text begins elsewhere on its part
        for i, level in zip(order, levels, strict=True):
            anchors[i] = min(
                items[i][1].anchors,
                key=lambda a, y=level, at=anchors[i]: (  # type: ignore[misc]  # bound at once
                    sum(meets_box(a, (end, y), b.grown(0.6)) for b in blocked),
                    a != at,
                ),
            )
        _uncross(anchors, levels, order, end)
    shapes: list[Shape] = []
    boxes: list[Box] = []
    for i, level in zip(order, levels, strict=True):
        at, lines = anchors[i], items[i][2]
        shapes += [segment(at, (end, level), "leader"), _dot(at)]
        top = level - (len(lines) - 1) * LINE_PITCH / 2 + CAP_HEIGHT / 2
        for n, line in enumerate(lines):
            text = Text((x, top + n * LINE_PITCH), line, "start" if sign > 0 else "end")
            shapes.append(text)
            boxes.append(text.box())
    return Layout(tuple(shapes), tuple(boxes))


def _off(y: float, edges: tuple[float, ...]) -> float:
    """A height at which a leader that begins at `y` slopes away from the edges beside it."""
    return y - SLOPE if any(abs(y - edge) < BESIDE for edge in edges) else y


def _uncross(anchors: list[Point], levels: list[float], order: list[int], end: float) -> None:
    """Let names change places until no two leaders cross; each swap makes them shorter in sum."""
    while True:
        swap = next(
            (
                (p, q)
                for p, q in combinations(range(len(order)), 2)
                if _cross(anchors[order[p]], (end, levels[p]), anchors[order[q]], (end, levels[q]))
            ),
            None,
        )
        if swap is None:
            return
        order[swap[0]], order[swap[1]] = order[swap[1]], order[swap[0]]


def _spread(callouts: list[Callout], x: float, sign: float, avoid: tuple[Box, ...]) -> list[Point]:
    """For each name the point to lead to: short, apart from the others, clear of texts and other ends."""
    chosen: list[Point] = []
    for c in callouts:

        def cost(at: Point, c: Callout = c) -> tuple[float, float, float]:
            crowded = sum(hypot(at[0] - p[0], at[1] - p[1]) < 2 * APART for p in chosen)
            crowded += sum(abs(at[1] - p[1]) < 1.5 for p in chosen)
            level = sum(meets_box(at, (x, at[1]), b.grown(1)) for b in avoid)
            return (3 * level + crowded, round(-sign * at[0], 1), at[1])

        chosen.append(min(c.anchors, key=cost))
    return chosen


def _levels(wanted: list[float], height: float) -> list[float]:
    """Heights near the wanted ones (rising), none nearer than `height` to the next: pooled neighbours."""
    groups: list[tuple[float, int]] = []  # middle, members
    for y in wanted:
        groups.append((y, 1))
        while len(groups) > 1:
            (y0, n0), (y1, n1) = groups[-2:]
            if y0 + n0 * height / 2 <= y1 - n1 * height / 2:
                break
            groups[-2:] = [((y0 * n0 + y1 * n1) / (n0 + n1), n0 + n1)]
    return [y + (i - (n - 1) / 2) * height for y, n in groups for i in range(n)]


def _cross(a: Point, b: Point, c: Point, d: Point) -> bool:
    """True if two straight leaders cross."""

    def side(p: Point, q: Point, r: Point) -> float:
        return (q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0])

    return side(a, b, c) * side(a, b, d) < -1e-9 and side(c, d, a) * side(c, d, b) < -1e-9
