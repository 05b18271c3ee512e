"""Names above a wide picture as flags, with leaders that never cross.

Each name hangs beside the top of its own upright leader; names over the left half run to the left, those
over the right half to the right, and one that would cover its neighbour's leader moves a row up.  Of the ends
and ways that each leader may have, those are taken that together cost least (builder/drawings/ends.py).
"""

from __future__ import annotations

from collections.abc import Iterable
from itertools import combinations
from math import hypot
from typing import NamedTuple

from builder.drawings.ends import Ink, Spot, ink
from builder.drawings.geometry import cross, distance
from builder.drawings.measure import CAP_HEIGHT, text_width
from builder.drawings.shapes import Box, Point, Shape, Text, segment

ROW = 6.0
"""Distance of two rows of flags, mm."""

FIRST_ROW = 7.0
"""Distance of the first row from what is below it, mm."""

APART = 3.0
"""Least distance of two upright leaders, mm."""

KNEE = 3.4
"""A leader that leans begins to so far above the picture, mm; below the lowest row of names."""

LEANINGS = (0.0, -4.0, 4.0, -8.0, 8.0, -13.0, 13.0, -20.0, 20.0)
"""How far beside its end a leader from above may stand, mm."""

WEIGHED = 60
"""So many points of a part are looked at."""

PLACES, WAYS = 10, 24
"""So many ends of a leader, and so many leaders, are weighed for a name."""

TOUCH = 2.0
"""Nearer than this to another leader an end seems to be on it, mm."""


class Callout(NamedTuple):
    """A name, the part or mark it names, and points of it on paper where a leader may end, best first."""

    text: str
    part: str
    anchors: tuple[Point, ...]
    copies: tuple[str, ...] = ()
    """Other parts of the same name, at which the leader may end as well."""


class Layout(NamedTuple):
    """Shapes of the callouts and the boxes of their texts."""

    shapes: tuple[Shape, ...]
    boxes: tuple[Box, ...]


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
    anchors = dict.fromkeys(callout.anchors[:WEIGHED])
    found = [under.spot(a, callout.part, *callout.copies) for a in anchors]
    kept: list[Spot] = []
    for n in sorted(range(len(found)), key=lambda n: found[n].cost + n * 0.1):
        x, y = found[n].at
        if all(abs(x - k.at[0]) + abs(y - k.at[1]) > 1.5 for k in kept):
            kept.append(found[n])
    return kept[:PLACES]


def _settled(ways: list[list[_Way]], knee: float) -> list[_Way]:
    """One leader for each name, together the cheapest that a few rounds find; no two of them cross."""
    chosen = [w[0] for w in ways]
    weighed: list[list[_Way]] = [[] for _ in ways]
    for round_ in range(4):
        before = list(chosen)
        for i, own in enumerate(ways):
            others = [w for j, w in enumerate(chosen) if j != i]
            if round_ and others == weighed[i]:
                continue  # among the same others it would choose the same
            weighed[i] = others

            def whole(way: _Way, others: list[_Way] = others) -> float:
                return way.cost + sum(_beside(way, o, knee) for o in others)

            chosen[i] = min(own, key=lambda w: (round(whole(w), 6), w.at, w.x))
        if chosen == before:
            break
    if any(_meet(a, b, knee) for a, b in combinations(chosen, 2)):
        return [w._replace(x=w.at[0]) for w in chosen]
    return chosen


def _meet(a: _Way, b: _Way, knee: float) -> bool:
    return cross(a.at, (a.x, knee), b.at, (b.x, knee)) or (a.x != a.at[0] or b.x != b.at[0]) and a.x == b.x


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
