"""Two drawings of one step, before and after, with a scalloped line round all that differs.

A scalloped line with a triangle is the draughtsman's sign of a revised place; it needs no colour. Drawings
are compared shape by shape, after the one is shifted by whatever most of its shapes were shifted.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from math import hypot

import msgspec
from markupsafe import Markup

from builder.drawings.shapes import Arc, Arrow, Box, Drawing, Hatch, Point, Polyline, Shape, Text, box_of
from builder.drawings.svg import number, write
from builder.guide.model import Guide
from builder.pages.bench_words import listed
from builder.pages.contexts import Picture

NEAR = 0.6  # mm on paper; nearer than this nobody sees a difference
AROUND = 1.6  # mm between what differs and the line round it
BESIDE = 0.6  # mm between a word and the line round it: other lines of text stand near
BUMP = 2.4  # mm, the width of one scallop
SIGN = 1.7  # mm, half the width of the triangle
GUIDING = ("dimension", "extension", "leader", "dot")
WHOLE = 0.6  # a share of shapes; above it the drawing is another one, not one that was changed

Key = tuple[object, ...]
Outline = tuple[Point, ...]


class Pair(msgspec.Struct, frozen=True):
    """A step drawn twice; a side is None where the step is not there. `anew` says that the drawings are two
    different ones as a whole, so that only words are marked."""

    before: Picture | None
    after: Picture | None
    anew: bool = False


def pair(before: Drawing | None, after: Drawing | None, old: Guide, new: Guide, prefix: str) -> Pair | None:
    """Both drawings with what differs marked; None if a reader would see no difference."""
    if before is None or after is None:
        return Pair(
            _picture(before, (), old, f"{prefix}-before") if before is not None else None,
            _picture(after, (), new, f"{prefix}-after") if after is not None else None,
        )
    gone, come = differences(before, after)
    if not gone and not come:
        return None
    total = sum(1 for each in (*before.shapes, *after.shapes) if _matters(each))
    anew = len(gone) + len(come) > WHOLE * total
    if anew:
        words, others = {t.text for t in before.texts()}, {t.text for t in after.texts()}
        gone = [t for t in before.texts() if t.text not in others]
        come = [t for t in after.texts() if t.text not in words]
    return Pair(
        _picture(before, gone, old, f"{prefix}-before"), _picture(after, come, new, f"{prefix}-after"), anew
    )


def differences(before: Drawing, after: Drawing) -> tuple[list[Shape], list[Shape]]:
    """The shapes of each drawing that the other does not have."""
    shift = _shift(before.shapes, after.shapes)
    there: dict[Key, list[tuple[Shape, Outline]]] = {}
    for shape in filter(_matters, before.shapes):
        there.setdefault(_kind(shape), []).append((shape, _outline(shape, shift)))
    come: list[Shape] = []
    for shape in filter(_matters, after.shapes):
        same = there.get(_kind(shape), [])
        own = _outline(shape)
        near = min(same, key=lambda each: _apart(each[1], own), default=None)
        if near is not None and (isinstance(shape, Text) or _apart(near[1], own) <= NEAR):
            same.remove(near)
        else:
            come.append(shape)
    left = [id(shape) for row in there.values() for shape, _ in row]
    return [shape for shape in before.shapes if id(shape) in left], come


def _matters(shape: Shape) -> bool:
    """Whether a shape can be a change: what a part looks like and what is said, wherever the words stand; not
    the lines that lead from the one to the other, nor the legend's samples."""
    return isinstance(shape, Text) or (shape.part is not None and shape.line not in GUIDING)


def _shift(before: Sequence[Shape], after: Sequence[Shape]) -> Point:
    """By how much most shapes of the one stand elsewhere in the other, mm."""
    there: dict[Key, list[Point]] = {}
    for shape in before:
        there.setdefault(_kind(shape), []).append(_outline(shape)[0])
    votes: Counter[tuple[int, int]] = Counter()
    for shape in after:
        places = there.get(_kind(shape), ())
        x, y = _outline(shape)[0]
        if len(places) <= 4:
            votes.update({(round((x - p[0]) * 5), round((y - p[1]) * 5)) for p in places})
    if not votes:
        return 0.0, 0.0
    # of shifts with as many votes the smallest, so that the outcome does not hang on the order of shapes
    best = min(votes, key=lambda each: (-votes[each], abs(each[0]) + abs(each[1]), each))
    return best[0] / 5, best[1] / 5


def _kind(shape: Shape) -> Key:
    """What two shapes must share to be the same one, perhaps elsewhere."""
    kind: Key = (type(shape).__name__, shape.line, shape.part)
    if isinstance(shape, Polyline):
        return (*kind, len(shape.points), shape.closed, shape.filled)
    return (*kind, shape.text) if isinstance(shape, Text) else kind


def _outline(shape: Shape, shift: Point = (0.0, 0.0)) -> Outline:
    """Points that say where a shape lies and how large it is."""
    if isinstance(shape, Polyline):
        points = shape.points
    elif isinstance(shape, Arc):
        points = (shape.at(0), shape.at(0.35), shape.at(0.7))
    elif isinstance(shape, Arrow):
        points = shape.corners()
    elif isinstance(shape, Hatch):
        box = box_of([shape]) or Box(0, 0, 0, 0)
        points = ((box.left, box.top), (box.right, box.bottom))
    else:
        points = (shape.at,)
    return tuple((x + shift[0], y + shift[1]) for x, y in points)


def _apart(one: Outline, other: Outline) -> float:
    return max(hypot(a[0] - b[0], a[1] - b[1]) for a, b in zip(one, other, strict=True))


# -- marks --------------------------------------------------------------------------------------------


def _picture(drawing: Drawing, changed: Sequence[Shape], guide: Guide, prefix: str) -> Picture:
    words = _told(changed, guide)
    alt = f"{drawing.alt} Different here: {words}." if words else drawing.alt
    svg = write(drawing._replace(title=alt), prefix)
    clouds = "".join(cloud(box, drawing.width) for box in places(changed, drawing))
    body, close, rest = svg.rpartition("</svg>")
    return Picture(svg=Markup(body + clouds + close + rest), width=number(drawing.width), alt=alt)


def _told(changed: Sequence[Shape], guide: Guide) -> str:
    """The parts and the words that differ, for those who do not see the drawing."""
    ids = (shape.part.rpartition(" ")[0] or shape.part for shape in changed if shape.part)
    names = [guide.things[id].name for id in dict.fromkeys(ids) if id in guide.things]
    words: list[str] = []
    for shape in changed:
        if isinstance(shape, Text) and shape.text.startswith("(") and words:
            words[-1] += f" {shape.text}"  # the second unit, on a line of its own
        elif isinstance(shape, Text):
            words.append(shape.text)
    return listed(list(dict.fromkeys((*names, *words)))[:8])


def places(changed: Sequence[Shape], drawing: Drawing) -> list[Box]:
    """Boxes round what differs, none of which meets another; within the frame."""
    boxes = [
        box.grown(BESIDE if isinstance(shape, Text) else AROUND)
        for shape in changed
        if (box := box_of([shape])) is not None
    ]
    joined: list[Box] = []
    for box in boxes:
        while (other := next((each for each in joined if each.grown(BUMP / 2).meets(box)), None)) is not None:
            joined.remove(other)
            box = box.union(other)
        joined.append(box)
    edge = BUMP / 2
    return [
        Box(max(b.left, edge), max(b.top, edge), min(b.right, drawing.width - edge),
            min(b.bottom, drawing.height - edge))
        for b in joined
    ]  # fmt: skip


def cloud(box: Box, width: float) -> str:
    """A line of outward bumps round a box, and a triangle at its corner: beside the words in the box, where
    the drawing is `width` mm wide."""
    corners = ((box.left, box.top), (box.right, box.top), (box.right, box.bottom), (box.left, box.bottom))
    path = f"M{number(box.left)} {number(box.top)}"
    for start, end in zip(corners, (*corners[1:], corners[0]), strict=True):
        length = hypot(end[0] - start[0], end[1] - start[1])
        count = max(1, round(length / BUMP))
        radius = number(length / count / 2)
        for step in range(1, count + 1):
            x = start[0] + (end[0] - start[0]) * step / count
            y = start[1] + (end[1] - start[1]) * step / count
            path += f"A{radius} {radius} 0 0 1 {number(x)} {number(y)}"
    # the sign covers no letter of a word in the box, unless it would stand outside the drawing
    x, y = max(box.right, min(box.right + SIGN - BESIDE, width - SIGN)), box.top
    sign = f"M{number(x - SIGN)} {number(y + 1.4)}h{number(2 * SIGN)}L{number(x)} {number(y - 1.6)}Z"
    return (
        f'<path data-line="revised" d="{path}Z" fill="none" stroke="currentColor" stroke-width="0.45"/>'
        f'<path data-line="revised" d="{sign}" fill="currentColor"/>'
    )
