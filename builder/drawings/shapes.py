"""A Drawing is a frozen value: a frame in millimetres on paper and a tuple of absolute shapes.

The origin is the frame's top left corner, x runs right, y runs down.  Every shape names its line class
(a row of style.LINES) and the part that it belongs to, or None for what belongs to no part.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from math import cos, radians, sin
from typing import NamedTuple

from builder.drawings.measure import CAP_HEIGHT, DESCENT, LEADING, text_width

Point = tuple[float, float]

DIGITS = 2
"""Coordinates are rounded to 0.01 mm, at the very end."""

ARROW_LENGTH = 3.0
"""An arrowhead is 3 mm long, and three times as long as it is wide (ASME Y14.2, from memory)."""


class Box(NamedTuple):
    """A rectangle on paper, mm; `top` is the smaller y."""

    left: float
    top: float
    right: float
    bottom: float

    @property
    def width(self) -> float:
        return self.right - self.left

    @property
    def height(self) -> float:
        return self.bottom - self.top

    def meets(self, other: Box) -> bool:
        """True if the two share some area; touching sides do not count."""
        return (
            self.left < other.right
            and other.left < self.right
            and self.top < other.bottom
            and other.top < self.bottom
        )

    def grown(self, by: float) -> Box:
        return Box(self.left - by, self.top - by, self.right + by, self.bottom + by)

    def roomy(self, by: float) -> Box:
        """The box of a text with room to others: `by` mm beside it, a line's room above and below."""
        return Box(self.left - by, self.top - LEADING, self.right + by, self.bottom + LEADING)

    def union(self, other: Box) -> Box:
        return Box(
            min(self.left, other.left),
            min(self.top, other.top),
            max(self.right, other.right),
            max(self.bottom, other.bottom),
        )


def box_round(points: Sequence[Point]) -> Box:
    """The box round some points, one at least."""
    xs, ys = [p[0] for p in points], [p[1] for p in points]
    return Box(min(xs), min(ys), max(xs), max(ys))


class Polyline(NamedTuple):
    """Straight lines from point to point; closed or open, and filled or not."""

    points: tuple[Point, ...]
    line: str
    part: str | None = None
    closed: bool = False
    filled: bool = False


class Arc(NamedTuple):
    """Part of an ellipse, or all of it.

    Radii are in mm.  `turn` is the angle of the first radius from the x axis, `start` and `sweep` are
    parameters of the ellipse; all are degrees, clockwise on paper.
    """

    centre: Point
    rx: float
    ry: float
    line: str
    part: str | None = None
    turn: float = 0.0
    start: float = 0.0
    sweep: float = 360.0

    def at(self, share: float) -> Point:
        """The point at a share (0 to 1) of the sweep."""
        angle = radians(self.start + self.sweep * share)
        turn = radians(self.turn)
        x, y = self.rx * cos(angle), self.ry * sin(angle)
        return (
            self.centre[0] + x * cos(turn) - y * sin(turn),
            self.centre[1] + x * sin(turn) + y * cos(turn),
        )


class Arrow(NamedTuple):
    """A filled arrowhead; `heading` is the direction in which it points, degrees clockwise on paper."""

    tip: Point
    heading: float
    line: str
    part: str | None = None
    length: float = ARROW_LENGTH

    def corners(self) -> tuple[Point, Point, Point]:
        back = radians(self.heading)
        along = (cos(back), sin(back))
        half = self.length / 6
        base = (self.tip[0] - self.length * along[0], self.tip[1] - self.length * along[1])
        return (
            self.tip,
            (base[0] - half * along[1], base[1] + half * along[0]),
            (base[0] + half * along[1], base[1] - half * along[0]),
        )


class Hatch(NamedTuple):
    """Straight runs, already clipped to what they fill."""

    runs: tuple[tuple[Point, Point], ...]
    line: str
    part: str | None = None


class Text(NamedTuple):
    """One line of text; `at` is on its base line, at the side that `anchor` names (start, middle, end)."""

    at: Point
    text: str
    anchor: str = "start"
    line: str = "text"
    part: str | None = None

    def box(self) -> Box:
        """The box that the text fills, from the measured width of its letters."""
        width = text_width(self.text)
        left = self.at[0] - {"start": 0.0, "middle": width / 2, "end": width}[self.anchor]
        return Box(left, self.at[1] - CAP_HEIGHT, left + width, self.at[1] + DESCENT)


Shape = Polyline | Arc | Arrow | Hatch | Text


class Drawing(NamedTuple):
    """What svg.py writes: a title, a text alternative, a frame in mm and the shapes in it."""

    title: str
    alt: str
    width: float
    height: float
    shapes: tuple[Shape, ...]
    true_size: bool = False
    unseen: tuple[str, ...] = ()
    """Ids of parts that are there and cannot be seen in this drawing; its text alternative names them."""

    def parts(self) -> tuple[str, ...]:
        """The ids of the parts that have a line in this drawing, in the order drawn."""
        return tuple(dict.fromkeys(s.part for s in self.shapes if s.part is not None))

    def texts(self) -> tuple[Text, ...]:
        return tuple(s for s in self.shapes if isinstance(s, Text))


def segment(a: Point, b: Point, line: str, part: str | None = None) -> Polyline:
    """One straight line."""
    return Polyline((a, b), line, part)


def circle(centre: Point, radius: float, line: str, part: str | None = None) -> Arc:
    return Arc(centre, radius, radius, line, part)


def points_of(shape: Shape) -> Iterator[Point]:
    """Points whose box is the shape's box: exact for straight ones, within 1 % of a radius for arcs."""
    if isinstance(shape, Polyline):
        yield from shape.points
    elif isinstance(shape, Arc):
        c, s, (x, y) = cos(radians(shape.turn)), sin(radians(shape.turn)), shape.centre
        ax, ay, bx, by = shape.rx * c, shape.rx * s, -shape.ry * s, shape.ry * c
        start, step = radians(shape.start), radians(shape.sweep) / 32
        for i in range(33):
            u, v = cos(start + i * step), sin(start + i * step)
            yield (x + u * ax + v * bx, y + u * ay + v * by)
    elif isinstance(shape, Arrow):
        yield from shape.corners()
    elif isinstance(shape, Hatch):
        for a, b in shape.runs:
            yield a
            yield b
    else:
        box = shape.box()
        yield (box.left, box.top)
        yield (box.right, box.bottom)


def box_of(shapes: Iterable[Shape]) -> Box | None:
    """The box round some shapes, without the width of their lines; None if there are none."""
    points = [p for shape in shapes for p in points_of(shape)]
    if not points:
        return None
    return box_round(points)


def moved(shape: Shape, dx: float, dy: float) -> Shape:
    """The same shape, elsewhere."""

    def m(p: Point) -> Point:
        return (p[0] + dx, p[1] + dy)

    if isinstance(shape, Polyline):
        return shape._replace(points=tuple(m(p) for p in shape.points))
    if isinstance(shape, Arc):
        return shape._replace(centre=m(shape.centre))
    if isinstance(shape, Arrow):
        return shape._replace(tip=m(shape.tip))
    if isinstance(shape, Hatch):
        return shape._replace(runs=tuple((m(a), m(b)) for a, b in shape.runs))
    return shape._replace(at=m(shape.at))


def finished(
    title: str,
    alt: str,
    shapes: Iterable[Shape],
    *,
    margin: float = 2.0,
    true_size: bool = False,
    unseen: tuple[str, ...] = (),
) -> Drawing:
    """Put a frame round the shapes, with a margin in mm, and move them into it."""
    kept = tuple(shapes)
    box = (box_of(kept) or Box(0, 0, 0, 0)).grown(margin)
    return Drawing(
        title,
        alt,
        round(box.width, DIGITS),
        round(box.height, DIGITS),
        tuple(moved(s, -box.left, -box.top) for s in kept),
        true_size,
        unseen,
    )


def in_a_row(drawings: Iterable[Drawing], title: str, width: float, gap: float = 7.0) -> Drawing:
    """Several drawings in a row if it is little longer than `width` mm, else one below another."""
    kept = tuple(drawings)
    wide = sum(d.width for d in kept) + gap * (len(kept) - 1)
    return stacked(kept, title, level=wide <= 1.3 * width, gap=gap)


def stacked(drawings: Iterable[Drawing], title: str, *, level: bool = False, gap: float = 5.0) -> Drawing:
    """Several drawings in one frame: one below another, or beside one another from a common foot.

    ValueError if there is none.
    """
    kept = tuple(drawings)
    if not kept:
        raise ValueError("nothing to draw")
    if len(kept) == 1:
        return kept[0]._replace(title=title)
    high, wide = max(d.height for d in kept), max(d.width for d in kept)
    shapes: list[Shape] = []
    x = y = 0.0
    for d in kept:
        dx, dy = (x, (high - d.height) / 2) if level else ((wide - d.width) / 2, y)
        shapes += [moved(s, dx, dy) for s in d.shapes]
        x += d.width + gap
        y += d.height + gap
    across, down = (x - gap, high) if level else (wide, y - gap)
    return together(kept, title, across, down, shapes)


def together(
    drawings: Sequence[Drawing], title: str, width: float, height: float, shapes: Iterable[Shape]
) -> Drawing:
    """One drawing of several whose shapes are moved to their places in it: its words are theirs, and unseen
    is what none of them shows."""
    drawn = {part for d in drawings for part in d.parts()}
    return Drawing(
        title,
        " ".join(d.alt for d in drawings),
        round(width, DIGITS),
        round(height, DIGITS),
        tuple(shapes),
        all(d.true_size for d in drawings),
        tuple(dict.fromkeys(u for d in drawings for u in d.unseen if u not in drawn)),
    )
