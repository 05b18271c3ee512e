"""Names in a column beside a tall picture, with leaders that never cross.

Names stand in the order of what they point to, two leaders that cross swap names, and neighbours change
places where their leaders then run better (what that is: builder/drawings/ends.py).
"""

from __future__ import annotations

from collections.abc import Iterable
from itertools import combinations
from math import hypot
from typing import NamedTuple

from builder.drawings.callouts import APART, TOUCH, Callout, Layout, spots
from builder.drawings.ends import Ink, Spot, ink
from builder.drawings.geometry import cross, distance, meets_box
from builder.drawings.measure import CAP_HEIGHT, LINE_PITCH, wrapped
from builder.drawings.shapes import Box, Point, Polyline, Shape, Text

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


class Named(NamedTuple):
    """A name and the spots where its leader may end, best first."""

    text: str
    spots: tuple[Spot, ...]


LIFTS = (0.0, -6.0, 6.0, -12.0, 12.0, -18.0, 18.0, -24.0, 24.0)
"""So much higher than it would a column is tried where a text is in its way, mm."""


def column(
    callouts: list[Callout],
    x: float,
    *,
    side: str = "right",
    avoid: Iterable[Box] = (),
    edges: tuple[float, ...] = (),
    shapes: Iterable[Shape] = (),
) -> Layout:
    """Names in a column that begins at `x`, each as near its part's height as may be.

    `avoid` holds boxes of texts that no leader should run through and of which the column stands clear,
    higher, lower or farther off if need be; `edges` the heights of level edges that no leader should run
    along: its name then stands a little higher.
    """
    blocked = tuple(avoid)
    under = ink(shapes)
    named = [Named(c.text, tuple(spots(c, under))) for c in callouts]
    return _clear(named, x, side, blocked, edges, under)


def _clear(
    callouts: list[Named],
    x: float,
    side: str,
    blocked: tuple[Box, ...],
    edges: tuple[float, ...],
    under: Ink,
) -> Layout:
    """The column at a height, or so far off, that it is clear of the texts."""
    best: tuple[tuple[int, int], Layout] | None = None
    for lift in LIFTS:
        made = _column(callouts, x, side, blocked, edges, lift, under)
        met = [b for b in blocked if any(own.roomy(1.0).meets(b) for own in made.boxes)]
        if met and not lift:
            # what is in the way stands below as a rule: the whole column moves up over it
            up = max(own.roomy(1.0).bottom for own in made.boxes) - min(b.top for b in met)
            over = _column(callouts, x, side, blocked, edges, up, under)
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
    return _clear(callouts, beyond + sign * FURTHER, side, blocked, edges, under)


def _in_the_way(layout: Layout, blocked: tuple[Box, ...]) -> int:
    """How often a leader runs through a text."""
    lines = [s.points for s in layout.shapes if isinstance(s, Polyline) and s.line == "leader"]
    return sum(meets_box(a, b, box.grown(0.3)) for a, b in lines for box in blocked)


def _column(
    callouts: list[Named],
    x: float,
    side: str,
    blocked: tuple[Box, ...],
    edges: tuple[float, ...],
    lift: float,
    under: Ink,
) -> Layout:
    """A column that stands so much higher than it would."""
    sign = 1.0 if side == "right" else -1.0
    ends = _spread(callouts, x, sign, blocked, under)
    items = [(at, c, wrapped(c.text, COLUMN_WIDTH)) for at, c in zip(ends, callouts, strict=True)]
    items.sort(key=lambda i: (i[0].at[1], i[1].text))
    anchors = [i[0].at for i in items]
    order = list(range(len(items)))
    end = x - sign * 1.2
    # all slots are as high as the highest name, so that any two names can change places; each swap makes
    # the leaders shorter in sum, so this comes to an end
    most = max((len(i[2]) for i in items), default=1)
    height = most * LINE_PITCH + (BETWEEN if most > 1 else 0.0)
    levels = [y - lift for y in _levels([_off(a[1], edges) for a in anchors], height)]
    _uncross(anchors, levels, order, end)
    for _ in range(2):
        # a leader that would run through a text, over lines or along one, ends elsewhere on its part
        for i, level in zip(order, levels, strict=True):
            others = [(anchors[j], (end, y)) for j, y in zip(order, levels, strict=True) if j != i]

            def cost(spot: Spot, i: int = i, y: float = level, others: Leaders = others) -> float:
                through = sum(meets_box(spot.at, (end, y), b.grown(0.6)) for b in blocked)
                return 30.0 * through + _led(spot, (end, y), items[i][1], under, others)

            anchors[i] = min(items[i][1].spots, key=cost).at
        _uncross(anchors, levels, order, end)
    _reordered(items, anchors, levels, order, end, under, blocked)
    _uncross(anchors, levels, order, end)
    shapes: list[Shape] = []
    boxes: list[Box] = []
    for i, level in zip(order, levels, strict=True):
        at, lines = anchors[i], items[i][2]
        shapes += under.end(at, (end, level))
        top = level - (len(lines) - 1) * LINE_PITCH / 2 + CAP_HEIGHT / 2
        for n, line in enumerate(lines):
            text = Text((x, top + n * LINE_PITCH), line, "start" if sign > 0 else "end")
            shapes.append(text)
            boxes.append(text.box())
    return Layout(tuple(shapes), tuple(boxes))


TROUBLE = 5.0
"""A leader that costs more than this may change places with its neighbour."""


def _reordered(
    items: list[tuple[Spot, Named, tuple[str, ...]]],
    anchors: list[Point],
    levels: list[float],
    order: list[int],
    end: float,
    under: Ink,
    blocked: tuple[Box, ...],
) -> None:
    """Let neighbours change places, with other ends, where their leaders then run better."""

    def led(i: int, level: float, others: Leaders) -> tuple[float, Point]:
        tail = (end, level)

        def cost(spot: Spot) -> float:
            through = sum(meets_box(spot.at, tail, b.grown(0.6)) for b in blocked)
            return 30.0 * through + _led(spot, tail, items[i][1], under, others)

        best = min(items[i][1].spots, key=cost)
        return cost(best), best.at

    for n in range(len(order) - 1):
        p, q = order[n], order[n + 1]
        rest = [(anchors[j], (end, y)) for j, y in zip(order, levels, strict=True) if j not in (p, q)]
        found: list[tuple[float, tuple[int, int], Point, Point]] = []
        for i, j in ((p, q), (q, p)):
            one, at = led(i, levels[n], rest)
            if (i, j) == (p, q) and one < TROUBLE:
                other, to = led(j, levels[n + 1], [*rest, (at, (end, levels[n]))])
                if other < TROUBLE:
                    break
            else:
                other, to = led(j, levels[n + 1], [*rest, (at, (end, levels[n]))])
            found.append((one + other, (i, j), at, to))
        if len(found) == 2 and found[1][0] < found[0][0] - 1.0:
            _, (i, j), at, to = found[1]
            order[n], order[n + 1] = i, j
            anchors[i], anchors[j] = at, to


Leaders = list[tuple[Point, Point]]
"""Leaders that stand: the end and the tail of each."""


def _led(spot: Spot, tail: Point, named: Named, under: Ink, others: Leaders) -> float:
    """What a leader beside others costs."""
    at = spot.at
    cost = spot.cost + 0.1 * named.spots.index(spot) + under.path(spot, tail)
    cost += 0.04 * hypot(at[0] - tail[0], at[1] - tail[1])
    for end, start in others:
        if cross(at, tail, end, start):
            cost += 20.0
        near = min(distance(at, end, start), distance(end, at, tail))
        cost += 8.0 * max(0.0, TOUCH - near)
    return cost


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
                if cross(anchors[order[p]], (end, levels[p]), anchors[order[q]], (end, levels[q]))
            ),
            None,
        )
        if swap is None:
            return
        order[swap[0]], order[swap[1]] = order[swap[1]], order[swap[0]]


def _spread(callouts: list[Named], x: float, sign: float, avoid: tuple[Box, ...], under: Ink) -> list[Spot]:
    """For each name the spot to lead to, as if its leader were level."""
    chosen: list[Spot] = []
    for c in callouts:
        others = [(s.at, (x, s.at[1])) for s in chosen]

        def cost(spot: Spot, c: Named = c, others: Leaders = others) -> tuple[float, float, float]:
            at = spot.at
            crowded = sum(hypot(at[0] - p[0], at[1] - p[1]) < 2 * APART for p, _ in others)
            crowded += sum(abs(at[1] - p[1]) < 1.5 for p, _ in others)
            level = sum(meets_box(at, (x, at[1]), b.grown(1)) for b in avoid)
            led = _led(spot, (x, at[1]), c, under, others)
            return (30 * level + 8 * crowded + led, round(-sign * at[0], 1), at[1])

        chosen.append(min(c.spots, key=cost))
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
