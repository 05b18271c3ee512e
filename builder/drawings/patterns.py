"""Patterns: outlines at true size, in millimetres, to be cut out of the paper or drawn round.

A pattern is a view of the part's own measures, never a second drawing.  Its shapes lie anywhere; the
sheets move them.  Kinds of line: cut, fold, glue_here, line_up (see style.LINES).
"""

from __future__ import annotations

from math import asin, cos, degrees, pi, radians, sin
from typing import NamedTuple

from builder.drawings.developments import regular_polygon
from builder.drawings.grain import place_in, sign, sign_box
from builder.drawings.measure import CAP_HEIGHT, LINE_PITCH, text_width
from builder.drawings.shapes import Arc, Box, Point, Polyline, Shape, Text, box_of, circle, segment


class Pattern(NamedTuple):
    """Shapes at true size; `name` is what it is for, `note` what to do with it ("cut 4"), `grain` the way
    that its grain has to run on the paper: "x", "y", or "" if it is no matter."""

    id: str
    name: str
    shapes: tuple[Shape, ...]
    note: str = ""
    grain: str = ""

    @property
    def box(self) -> Box:
        return box_of(self.shapes) or Box(0, 0, 0, 0)


def outline(
    part: str,
    name: str,
    points: tuple[Point, ...],
    *,
    holes: tuple[tuple[Point, float], ...] = (),
    note: str = "",
) -> Pattern:
    """A closed outline, y up as in the part's own frame, with round holes (middle, diameter)."""
    shapes: list[Shape] = [Polyline(tuple((x, -y) for x, y in points), "cut", part, closed=True)]
    for (x, y), diameter in holes:
        shapes += [circle((x, -y), diameter / 2, "cut", part), *_cross((x, -y), min(3.0, diameter / 2))]
    return Pattern(part, name, tuple(shapes), note)


def _cross(at: Point, reach: float) -> list[Shape]:
    """A centre cross."""
    return [
        segment((at[0] - reach, at[1]), (at[0] + reach, at[1]), "line_up"),
        segment((at[0], at[1] - reach), (at[0], at[1] + reach), "line_up"),
    ]


def fin_points(root: float, tip: float, span: float, square_edge: str = "rear") -> tuple[Point, ...]:
    """Corners of a fin: root along x from the rear, span along y; the square edge is upright.

    `square_edge` is "rear", "front" or "" (the tip then stands over the middle of the root).
    """
    shift = {"rear": 0.0, "front": root - tip}.get(square_edge, (root - tip) / 2)
    return ((0.0, 0.0), (root, 0.0), (shift + tip, span), (shift, span))


def fin(
    part: str,
    name: str,
    root: float,
    tip: float,
    span: float,
    *,
    square_edge: str = "rear",
    sweep: float | None = None,
    note: str = "",
) -> Pattern:
    """A fin with its root marked as the edge that is glued; the front end is at the right.

    `sweep` says how far behind the front of its root its tip ends, for a fin without a square edge.
    """
    points = fin_points(root, tip, span, square_edge)
    if sweep is not None:
        points = (*points[:2], (root - sweep, span), (root - sweep - tip, span))
    pattern = outline(part, name, points, note=note)
    inner = 1.6
    left, right = _reach(points, inner)
    glue = segment((left + inner, -inner), (right - inner, -inner), "glue_here", part)
    shapes = [*pattern.shapes, glue]
    if span > 12:
        low, high = _reach(points, inner + 2 + CAP_HEIGHT)
        middle = (max(low, left) + min(high, right)) / 2
        for words in ("root: glue this edge", "root"):
            if min(high, right) - max(low, left) > text_width(words) + 6:
                shapes.append(Text((middle, -inner - 2), words, "middle"))
                break
    return pattern._replace(shapes=tuple(shapes))


def _reach(points: tuple[Point, ...], height: float) -> tuple[float, float]:
    """Where a level line at a height over the root enters and leaves a fin."""
    (x0, _), (x1, _), (x2, span), (x3, _) = points
    share = height / span
    return x0 + (x3 - x0) * share, x1 + (x2 - x1) * share


def grained(pattern: Pattern, window: Box | None = None) -> Pattern:
    """A pattern with the sign of its grain and the word beside it, clear of its lines and words; within a
    window, if only that is shown."""
    signs = grain_sign(pattern, pattern.shapes, window)
    return pattern._replace(shapes=(*pattern.shapes, *signs)) if signs else pattern


def grain_sign(pattern: Pattern, shapes: tuple[Shape, ...], window: Box | None = None) -> tuple[Shape, ...]:
    """The sign of a pattern's grain, clear of some shapes; none if it has no grain or no room."""
    ring = next((s.points for s in pattern.shapes if isinstance(s, Polyline) and s.closed), ())
    if not pattern.grain or not ring:
        return ()
    taken = [b.grown(1.0) for s in shapes if not _encloses(s) and (b := box_of([s])) is not None]
    word = "grain"
    for room in (text_width(word) + 3.0, 0.0):  # what has no room for the word does without it
        spot = place_in(ring, pattern.grain, taken, room, window)
        if spot is not None:
            middle, length = spot
            right = sign_box(middle, pattern.grain, length).right + 1.5
            words = [Text((right, middle[1] + CAP_HEIGHT / 2), word)] if room else []
            return (*sign(middle, pattern.grain, length, pattern.id), *words)
    return ()


def _encloses(shape: Shape) -> bool:
    """An outline is no obstacle: what lies in it is tried against its edges."""
    return isinstance(shape, Polyline) and (shape.closed or len(shape.points) > 2)


class Line(NamedTuple):
    """A line across a marking strip: how far from its end, mm, and what it is for."""

    at: float
    label: str


def marking_strip(
    part: str, name: str, around: float, width: float, lines: tuple[Line, ...], *, note: str = ""
) -> Pattern:
    """A strip that goes once round a tube, ends meeting: true circumference, lines across.

    A line at 0 is the end itself.  Labels stand beside their lines, in rows where they would meet.
    """
    shapes: list[Shape] = [
        Polyline(((0, 0), (around, 0), (around, width), (0, width)), "cut", part, closed=True)
    ]
    rows: list[float] = []
    for line in sorted(lines):
        shapes.append(segment((line.at, 0), (line.at, width), "line_up", part))
        reach = line.at + 1.2 + text_width(line.label)
        start = line.at + 1.2
        anchor = "start"
        if reach > around - 1:
            start, reach, anchor = line.at - 1.2, line.at, "end"
        left = start if anchor == "start" else start - text_width(line.label)
        row = next((i for i, taken in enumerate(rows) if taken < left - 1.5), len(rows))
        rows[row : row + 1] = [max(reach, start)]
        y = 2 + CAP_HEIGHT + row * LINE_PITCH
        shapes.append(Text((start, y), line.label, anchor))
    return Pattern(part, name, tuple(shapes), note)


def even_lines(around: float, count: int, label: str, *, first: float = 0.0) -> tuple[Line, ...]:
    """`count` lines at equal angles, the first `first` degrees from the end; each computed by itself."""
    return tuple(
        Line(around * ((first / 360 + k / count) % 1.0), f"{label} {k + 1}" if count > 1 else label)
        for k in range(count)
    )


def polygon(part: str, name: str, sides: int, across_flats: float, *, note: str = "") -> Pattern:
    """A regular polygon with its middle marked."""
    pattern = outline(part, name, regular_polygon(sides, across_flats), note=note)
    return pattern._replace(shapes=(*pattern.shapes, *_cross((0, 0), 4.0)))


def ring(part: str, name: str, outside: float, inside: float, *, note: str = "") -> Pattern:
    """A ring by its two diameters, with a centre cross for the cutter."""
    return Pattern(
        part,
        name,
        (
            circle((0, 0), outside / 2, "cut", part),
            circle((0, 0), inside / 2, "cut", part),
            *_cross((0, 0), min(4.0, inside / 2 - 0.5)),
        ),
        note,
    )


def disc(part: str, name: str, diameter: float, *, note: str = "") -> Pattern:
    """A disc with its middle marked."""
    return Pattern(part, name, (circle((0, 0), diameter / 2, "cut", part), *_cross((0, 0), 4.0)), note)


CARD = (85.60, 53.98)
"""Width and height of a card of the size ID-1, mm (ISO/IEC 7810; bank cards and most library cards)."""

CARD_CORNER = 3.18
"""Radius of its corners, mm (ISO/IEC 7810, from memory)."""


def card(*, turned: bool = False) -> Pattern:
    """The outline of a standard card, to be laid on the paper: a size that a builder has at hand.

    Its lines belong to no part.  `turned` stands it on its short side.
    """
    (w, h), r = (CARD[1], CARD[0]) if turned else CARD, CARD_CORNER
    shapes: list[Shape] = [
        segment((r, 0), (w - r, 0), "frame"),
        segment((w, r), (w, h - r), "frame"),
        segment((w - r, h), (r, h), "frame"),
        segment((0, h - r), (0, r), "frame"),
    ]
    for x, y, start in ((r, r, 180.0), (w - r, r, 270.0), (w - r, h - r, 0.0), (r, h - r, 90.0)):
        shapes.append(Arc((x, y), r, r, "frame", None, 0.0, start, 90.0))
    words = ("Lay a bank card or a", "library card here: it fills", "this outline exactly.")
    for i, line in enumerate(words):
        shapes.append(Text((w / 2, h / 2 - LINE_PITCH + CAP_HEIGHT / 2 + i * LINE_PITCH), line, "middle"))
    return Pattern("card outline", "card outline", tuple(shapes))


def with_slot(pattern: Pattern, radius: float, width: float, depth: float) -> Pattern:
    """A disc with a slot cut in it, straight up from the middle: from a radius outwards by its depth."""
    half = width / 2
    corners = ((-half, -radius), (half, -radius), (half, -radius - depth), (-half, -radius - depth))
    cut = Polyline(corners, "cut", pattern.id, closed=True)
    return pattern._replace(shapes=(*pattern.shapes, cut))


def jig(
    part: str,
    name: str,
    outside: float,
    inside: float,
    slots: int,
    slot_width: float,
    slot_depth: float,
    *,
    first: float = 0.0,
    note: str = "",
) -> Pattern:
    """A ring whose bore opens into slots at equal angles: `slot_depth` is measured from the bore outwards.

    Angles are degrees from straight up, clockwise.  ValueError if a slot leaves the ring or is wider
    than the bore.
    """
    r = inside / 2
    if r + slot_depth >= outside / 2:
        raise ValueError("the slots would cut the ring in pieces")
    if slot_width >= inside:
        raise ValueError("a slot would be wider than the bore")
    half = slot_width / 2
    lean = degrees(asin(half / r))
    shapes: list[Shape] = [circle((0, 0), outside / 2, "cut", part)]
    for k in range(slots):
        angle = first + 360 * k / slots
        mouth = r * cos(radians(lean))

        def p(along: float, across: float, a: float = radians(angle)) -> Point:
            return (along * sin(a) + across * cos(a), -along * cos(a) + across * sin(a))

        corners = (p(mouth, -half), p(r + slot_depth, -half), p(r + slot_depth, half), p(mouth, half))
        shapes.append(Polyline(corners, "cut", part))
        sweep = 360 / slots - 2 * lean
        shapes.append(Arc((0, 0), r, r, "cut", part, 0.0, angle - 90 + lean, sweep))
    if not slots:
        shapes.append(circle((0, 0), r, "cut", part))
    shapes += _cross((0, 0), min(4.0, r - 0.5))
    return Pattern(part, name, tuple(shapes), note)


def folded_strip(
    part: str, name: str, length: float, width: float, folds: tuple[float, ...], *, note: str = ""
) -> Pattern:
    """A rectangle with fold lines across it at distances from its left end."""
    shapes: list[Shape] = [
        Polyline(((0, 0), (length, 0), (length, width), (0, width)), "cut", part, closed=True)
    ]
    shapes += [segment((x, 0), (x, width), "fold", part) for x in folds]
    return Pattern(part, name, tuple(shapes), note)


def rectangle(part: str, name: str, width: float, height: float, *, note: str = "") -> Pattern:
    return folded_strip(part, name, width, height, (), note=note)


def around(diameter: float) -> float:
    """What a strip must measure to go once round a tube."""
    return pi * diameter
