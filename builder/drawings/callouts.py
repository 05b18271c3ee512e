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

from builder.drawings.ends import Ink, Spot, ink
from builder.drawings.geometry import distance, meets_box
from builder.drawings.measure import CAP_HEIGHT, LINE_PITCH, text_width, wrapped
from builder.drawings.shapes import Box, Point, Polyline, Shape, Text, segment

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

KNEE = 3.4
"""A leader that leans begins to so far above the picture, mm; below the lowest row of names."""

LEANINGS = (0.0, -4.0, 4.0, -8.0, 8.0, -13.0, 13.0, -20.0, 20.0)
"""How far beside its end a leader from above may stand, mm."""

PLACES, WAYS = 10, 24
"""So many ends of a leader, and so many leaders, are weighed for a name."""

TOUCH = 2.0
"""Nearer than this to another leader an end seems to be on it, mm."""


class Callout(NamedTuple):
    """A name, the part or mark it names, and points of it on paper where a leader may end, best first."""

    text: str
    part: str
    anchors: tuple[Point, ...]


class Layout(NamedTuple):
    """Shapes of the callouts and the boxes of their texts."""

    shapes: tuple[Shape, ...]
    boxes: tuple[Box, ...]


class Named(NamedTuple):
    """A name and the spots where its leader may end, best first."""

    text: str
    spots: tuple[Spot, ...]


class _Way(NamedTuple):
    """A leader from above: where it ends, where its upright part stands, and what it costs by itself."""

    at: Point
    x: float
    cost: float


def flags(callouts: list[Callout], outline: Box, top: float, shapes: Iterable[Shape] = ()) -> Layout:
    """Names in rows above `top`, over what they point to in a picture of these shapes.

    A leader comes straight down, or leans over from its foot above the picture where it would cross or
    follow lines, or stand too near another.
    """
    under = ink(shapes)
    knee = top - KNEE
    ways = [_ways(c, under, outline, knee) for c in callouts]
    chosen = _settled(ways, knee)
    middle = (outline.left + outline.right) / 2
    order = list(zip(chosen, callouts, strict=True))
    left = sorted((c for c in order if c[0].x < middle), key=lambda c: (c[0].x, c[1].text))
    right = sorted((c for c in order if c[0].x >= middle), key=lambda c: (-c[0].x, c[1].text))
    found: list[Shape] = []
    boxes: list[Box] = []
    for group, sign in ((left, -1.0), (right, 1.0)):
        rows: list[tuple[float, int]] = []
        for way, callout in group:
            reach = way.x + sign * (text_width(callout.text) + 3)
            low, high = min(way.x, reach) - 1e-9, max(way.x, reach) + 1e-9
            row = 1 + max((r for x, r in rows if low <= x <= high), default=-1)
            rows.append((way.x, row))
            y = top - FIRST_ROW - row * ROW
            text = Text(
                (way.x + sign * 1.2, y + CAP_HEIGHT / 2),
                callout.text,
                "start" if sign > 0 else "end",
            )
            tail = (way.x, y - CAP_HEIGHT / 2)
            if abs(way.x - way.at[0]) > 1e-6:
                found.append(segment(tail, (way.x, knee), "leader"))
                tail = (way.x, knee)
            found += [*under.end(way.at, tail), text]
            boxes.append(text.box())
    return Layout(tuple(found), tuple(boxes))


def _ways(callout: Callout, under: Ink, outline: Box, knee: float) -> list[_Way]:
    """Leaders that a name may have, the cheapest first."""
    found: list[_Way] = []
    for n, spot in enumerate(spots(callout, under)):
        at, base = spot.at, n * 0.1 + spot.cost
        deep = at[1] - knee
        for lean in LEANINGS:
            x = at[0] + lean
            if lean and (abs(lean) > deep * 1.5 or not outline.left - 3 <= x <= outline.right + 3):
                continue
            more = (0.9 + abs(lean) * 0.12 if lean else 0.0) + 0.05 * hypot(lean, deep)
            found.append(_Way(at, x, base + more + under.path(spot, (x, knee))))
    # those that lean are wanted only where they are better, or to make room
    return sorted(found, key=lambda w: (round(w.cost, 3), w.at, w.x))[:WAYS]


def spots(callout: Callout, under: Ink) -> list[Spot]:
    """Some of the places where a leader may end, none near another, those that can best be read first."""
    kept: list[Point] = []
    for a in callout.anchors[:60]:
        if all(abs(a[0] - k[0]) + abs(a[1] - k[1]) > 1.5 for k in kept):
            kept.append(a)
    found = [under.spot(a, callout.part) for a in kept]
    order = sorted(range(len(found)), key=lambda n: found[n].cost + n * 0.1)
    return [found[n] for n in order[:PLACES]]


def _settled(ways: list[list[_Way]], knee: float) -> list[_Way]:
    """One leader for each name, together the cheapest that a few rounds find; no two of them cross."""
    chosen = [w[0] for w in ways]
    for _ in range(4):
        before = list(chosen)
        for i, own in enumerate(ways):
            others = [w for j, w in enumerate(chosen) if j != i]

            def whole(way: _Way, others: list[_Way] = others) -> float:
                return way.cost + sum(_beside(way, o, knee) for o in others)

            chosen[i] = min(own, key=lambda w: (round(whole(w), 6), w.at, w.x))
        if chosen == before:
            break
    if any(_meet(a, b, knee) for a, b in combinations(chosen, 2)):
        return [w._replace(x=w.at[0]) for w in chosen]
    return chosen


def _meet(a: _Way, b: _Way, knee: float) -> bool:
    return _cross(a.at, (a.x, knee), b.at, (b.x, knee)) or (a.x != a.at[0] or b.x != b.at[0]) and a.x == b.x


def _beside(a: _Way, b: _Way, knee: float) -> float:
    """What two leaders cost one another: if they cross, could be taken for one, or one ends on the other."""
    if _meet(a, b, knee):
        return 60.0
    apart = abs(a.x - b.x)
    cost = 12.0 + 10.0 * (APART - apart) if apart < APART - 1e-9 else 0.8 * max(0.0, 2 * APART - apart)
    for at, (end, x) in ((a.at, b[:2]), (b.at, a[:2])):
        near = distance(at, end, (x, knee))
        if near < TOUCH:
            cost += 8.0 * (TOUCH - near)
    return cost


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


Leaders = list[tuple[Point, Point]]
"""Leaders that stand: the end and the tail of each."""


def _led(spot: Spot, tail: Point, named: Named, under: Ink, others: Leaders) -> float:
    """What a leader beside others costs."""
    at = spot.at
    cost = spot.cost + 0.1 * named.spots.index(spot) + under.path(spot, tail)
    cost += 0.04 * hypot(at[0] - tail[0], at[1] - tail[1])
    for end, start in others:
        if _cross(at, tail, end, start):
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
                if _cross(anchors[order[p]], (end, levels[p]), anchors[order[q]], (end, levels[q]))
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


def _cross(a: Point, b: Point, c: Point, d: Point) -> bool:
    """True if two straight leaders cross."""

    def side(p: Point, q: Point, r: Point) -> float:
        return (q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0])

    return side(a, b, c) * side(a, b, d) < -1e-9 and side(c, d, a) * side(c, d, b) < -1e-9
