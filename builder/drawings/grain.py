"""The sign of the grain: a line with a head at each end, since grain has no front and no rear.

It lies in the piece whose grain has to run so, clear of words and edges, and over the stock, where it bears
its name. Directions are those of the paper: "x" runs level, "y" upright.
"""

from __future__ import annotations

from collections.abc import Iterable

from builder.drawings.geometry import meets_box
from builder.drawings.measure import CAP_HEIGHT
from builder.drawings.nesting import extent
from builder.drawings.shapes import Arrow, Box, Point, Shape, Text, segment
from builder.dryrun.cutting import ACROSS, ALONG
from builder.guide.axes import LENGTH, WIDTH, grain_of
from builder.guide.model import Thing

LEVEL, UPRIGHT = "x", "y"
OTHER = {LEVEL: UPRIGHT, UPRIGHT: LEVEL, "": ""}

LENGTHS = (14.0, 11.0, 8.5)
"""How long the sign is, mm: the longest that fits in its piece."""

HEAD = 3.2
"""How long its heads are, mm."""

ROOM = 1.6
"""Least distance of the sign from an edge and from words, mm."""


def direction(thing: Thing) -> str:
    """Which way the grain of a thing runs in its own outline: its length lies level."""
    return {LENGTH: LEVEL, WIDTH: UPRIGHT}.get(grain_of(thing), "")


def on_piece(grain: str) -> str:
    """The same for a piece of stock, whose longer side lies level."""
    return {ALONG: LEVEL, ACROSS: UPRIGHT}.get(grain, "")


def sign(middle: Point, way: str, length: float, part: str | None = None) -> tuple[Shape, ...]:
    """The line and its two heads."""
    half = length / 2
    dx, dy = (half, 0.0) if way == LEVEL else (0.0, half)
    a, b = (middle[0] - dx, middle[1] - dy), (middle[0] + dx, middle[1] + dy)
    heading = 0.0 if way == LEVEL else 90.0
    share = (half - HEAD) / half  # the line ends in the heads, so that their tips stay sharp
    inner = [(middle[0] + (p[0] - middle[0]) * share, middle[1] + (p[1] - middle[1]) * share) for p in (a, b)]
    return (
        segment(inner[0], inner[1], "grain", part),
        Arrow(a, heading + 180.0, "grain", part, HEAD),
        Arrow(b, heading, "grain", part, HEAD),
    )


def sign_box(middle: Point, way: str, length: float) -> Box:
    """What the sign takes."""
    x, y = (length / 2, HEAD / 6) if way == LEVEL else (HEAD / 6, length / 2)
    return Box(middle[0] - x, middle[1] - y, middle[0] + x, middle[1] + y)


def place_in(
    polygon: tuple[Point, ...],
    way: str,
    avoid: Iterable[Box],
    right: float = 0.0,
    window: Box | None = None,
) -> tuple[Point, float] | None:
    """The middle and the length of the sign within a piece, clear of some boxes; None if it has no room.

    `right` is room for a word at its right; of a piece that is only shown in a window, the sign lies in that.
    Places are tried from the middle outwards, so that a sign stands near its piece's name.
    """
    taken = tuple(avoid)
    xs, ys = zip(*polygon, strict=True)
    seen = Box(min(xs), min(ys), max(xs), max(ys))
    if window is not None:
        seen = Box(max(seen.left, window.left), max(seen.top, window.top),
                   min(seen.right, window.right), min(seen.bottom, window.bottom))  # fmt: skip
    middle = ((seen.left + seen.right) / 2, (seen.top + seen.bottom) / 2)
    wide, high = seen.width, seen.height
    if min(wide, high) <= 0:
        return None
    spots = [
        (middle[0] + wide * across / 16, middle[1] + high * down / 16)
        for across in range(-7, 8)
        for down in range(-7, 8)
    ]
    # below the middle rather than above it, where a leader is apt to end
    spots.sort(key=lambda p: (abs(p[0] - middle[0]) / wide + abs(p[1] - middle[1]) / high, -p[1], p[0]))
    for length in LENGTHS:
        for spot in spots:
            box = sign_box(spot, way, length).grown(ROOM)
            if right:
                tall = max(box.height, CAP_HEIGHT + 2 * ROOM) / 2
                box = Box(box.left, spot[1] - tall, box.right + right, spot[1] + tall)
            inside = _holds(polygon, box) and seen.union(box) == seen
            if inside and not any(box.meets(t) for t in taken):
                return spot, length
    return None


def _holds(polygon: tuple[Point, ...], box: Box) -> bool:
    """Whether a box lies within an outline."""
    if any(meets_box(a, b, box) for a, b in zip(polygon, (*polygon[1:], polygon[0]), strict=True)):
        return False
    span = extent(polygon, (box.top + box.bottom) / 2 + 1e-6)
    return span is not None and span[0] < box.left and box.right < span[1]


def named_sign(left: float, bottom: float, way: str, name: str) -> tuple[Shape, ...]:
    """The sign with a name beside it, standing on a level from a left edge on."""
    length = LENGTHS[0] if way == LEVEL else LENGTHS[1]
    box = sign_box((0.0, 0.0), way, length)
    middle = (left + box.width / 2, bottom - max(box.height, CAP_HEIGHT) / 2)
    words = Text((left + box.width + ROOM + 0.6, middle[1] + CAP_HEIGHT / 2), f"grain of the {name}")
    return (*sign(middle, way, length), words)
