"""Flat lay: the pieces of a step laid out on the stock that they are cut from, and what is left over.

Places are found by trying corners of what already lies there, lowest and leftmost first, largest piece
first; it shows one way to cut that works, and the numbers are the guide's.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from builder.drawings.alternative import listed
from builder.drawings.callouts import Callout, column, flags
from builder.drawings.compose import LARGEST, SIZE, WIDE
from builder.drawings.dimensions import Linear, below, beside
from builder.drawings.fills import NEW_PITCH, polygon_hatch
from builder.drawings.geometry import turned_half
from builder.drawings.measure import CAP_HEIGHT, text_width
from builder.drawings.shapes import Box, Drawing, Hatch, Point, Polyline, Shape, Text, finished

NARROWEST = 7.0
"""A cord, a rod or a narrow strip is drawn at least so high, mm on paper."""


class Blank(NamedTuple):
    """Stock: a sheet by its two sides, mm; `height` 0 for a cord or a rod."""

    name: str
    width: float
    height: float = 0.0


class Piece(NamedTuple):
    """A piece to cut: its outline in its own frame, mm, its lower left corner at the origin.

    `size_text` is its size in words; copies share `name` and carry their own `id`.
    """

    id: str
    name: str
    outline: tuple[Point, ...]
    size_text: tuple[str, str] = ("", "")

    @property
    def width(self) -> float:
        return max(p[0] for p in self.outline)

    @property
    def height(self) -> float:
        return max(p[1] for p in self.outline)


class Left(NamedTuple):
    """What remains of the stock: two sides (`height` 0 for a cord) and its size in words."""

    width: float
    height: float
    text: str


class Lay(NamedTuple):
    """Where something lies on the stock: lower left corner, and the outline there."""

    box: Box
    outlines: tuple[tuple[Point, ...], ...]
    ids: tuple[str, ...]


def rectangle_piece(id: str, name: str, width: float, height: float, size: tuple[str, str]) -> Piece:
    """A rectangular piece; of a cord or a rod with height 0 the flat lay draws a stretch."""
    return Piece(id, name, ((0, 0), (width, 0), (width, height), (0, height)), size)


def flat_lay(
    title: str,
    stock: Blank,
    pieces: tuple[Piece, ...],
    left: tuple[Left, ...] = (),
    size: tuple[float, float] = SIZE,
) -> Drawing:
    """Draw the stock with the pieces on it; pieces that find no room are drawn beside it."""
    line = stock.height <= 0
    scale = min(
        (size[0] - (30 if line else 45)) / stock.width, size[1] / stock.height if not line else 1e9, LARGEST
    )
    high = max(stock.height * scale, NARROWEST) / scale
    grown = [_raised(p, high) if line else p for p in pieces]
    lays, spare = _placed(stock.width, high, grown, left, line)
    shapes: list[Shape] = []
    anchors: dict[str, list[Point]] = {}

    def paper(p: Point) -> Point:
        return (p[0] * scale, -p[1] * scale)

    frame = Box(0, -high * scale, stock.width * scale, 0)
    shapes.append(
        Polyline(
            ((frame.left, 0), (frame.right, 0), (frame.right, frame.top), (frame.left, frame.top)),
            "outline",
            stock.name,
            closed=True,
        )
    )
    names = {p.id: p.name for p in pieces}
    inside: list[Text] = []
    for lay in lays:
        for id, points in zip(lay.ids, lay.outlines, strict=True):
            polygon = tuple(paper(p) for p in points)
            shapes.append(Polyline(polygon, "new", id, closed=True))
            text = _text_in(polygon, names[id])
            if text is not None:
                inside.append(text)
            else:
                middle = (lay.box.left + lay.box.right) / 2, (lay.box.top + lay.box.bottom) / 2
                anchors.setdefault(names[id], []).append(paper(middle))
            hatch = polygon_hatch(polygon, 45.0, NEW_PITCH)
            shapes.append(Hatch(_without(hatch, text), "new_hatch", id))
    for rest, box in spare:
        a, b = paper((box.left, box.top)), paper((box.right, box.bottom))
        corners = ((a[0], a[1]), (b[0], a[1]), (b[0], b[1]), (a[0], b[1]))
        shapes.append(Polyline(corners, "hidden", None, closed=True))
        text = _text_in(corners, f"left over: {rest.text}") or _text_in(corners, "left over")
        if text is not None:
            inside.append(text)
        else:
            middle = ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2)
            anchors.setdefault(f"left over: {rest.text}", []).append(middle)
    shapes += inside
    outline = frame
    for lay in lays:
        a, b = paper((lay.box.left, lay.box.bottom)), paper((lay.box.right, lay.box.top))
        outline = outline.union(Box(a[0], a[1], b[0], b[1]))
    level, upright = _sizes(pieces, lays, scale, line)
    low = below(level, outline)
    side = beside(upright, outline)
    callouts = [Callout(n, n, tuple(a)) for n, a in anchors.items()]
    if outline.width > WIDE * outline.height:
        calls = flags(callouts, outline, outline.top)
    else:
        calls = column(callouts, outline.right + 9, avoid=[*low.boxes, *side.boxes])
    shapes += [*low.shapes, *side.shapes, *calls.shapes]
    return finished(title, _alt(stock, pieces, left), shapes)


def _raised(p: Piece, high: float) -> Piece:
    return p._replace(outline=((0, 0), (p.width, 0), (p.width, high), (0, high)))


def _placed(
    width: float, height: float, pieces: list[Piece], left: tuple[Left, ...], line: bool
) -> tuple[list[Lay], list[tuple[Left, Box]]]:
    """Lay every piece (pairs of skew ones head to tail) and then the remainders."""
    units = _pairs(pieces)
    taken: list[Box] = []
    lays: list[Lay] = []
    beside_it = width * 1.04
    for unit in sorted(units, key=lambda u: -round(u.box.width * u.box.height, 3)):
        spot = _spot(unit.box.width, unit.box.height, width, height, taken)
        if spot is None:
            # no room: beside the stock, so that the fault is plain to see
            spot = (beside_it, 0.0, False)
            beside_it += unit.box.width * 1.1
        x, y, quarter = spot
        turned = _quarter(unit) if quarter else unit
        box = Box(x, y, x + turned.box.width, y + turned.box.height)
        taken.append(box)
        outlines = tuple(tuple((px + x, py + y) for px, py in o) for o in turned.outlines)
        lays.append(Lay(box, outlines, unit.ids))
    spare: list[tuple[Left, Box]] = []
    for rest in left:
        w, h = rest.width, height if line else rest.height
        found = _spot(w, h, width, height, taken)
        if found is not None:
            x, y, quarter = found
            box = Box(x, y, x + (h if quarter else w), y + (w if quarter else h))
            taken.append(box)
            spare.append((rest, box))
    return lays, spare


def _pairs(pieces: Iterable[Piece]) -> list[Lay]:
    """Pieces as rectangles; two copies of a skew one lie head to tail where that saves room."""
    waiting: dict[tuple[Point, ...], Piece] = {}
    found: list[Lay] = []
    for piece in pieces:
        mate = waiting.pop(piece.outline, None)
        if mate is None:
            waiting[piece.outline] = piece
            continue
        shift = _tail_shift(piece)
        single = piece.width
        if shift + single >= 2 * single - 1e-6:
            found += [_alone(mate), _alone(piece)]
            continue
        other = tuple((x + shift, y) for x, y in turned_half(piece.outline, piece.width, piece.height))
        box = Box(0, 0, shift + single, piece.height)
        found.append(Lay(box, (mate.outline, other), (mate.id, piece.id)))
    return found + [_alone(p) for p in waiting.values()]


def _alone(p: Piece) -> Lay:
    return Lay(Box(0, 0, p.width, p.height), (p.outline,), (p.id,))


def _tail_shift(piece: Piece) -> float:
    """How far right a copy turned half round must lie to clear the first: widths at 40 heights."""
    turned = turned_half(piece.outline, piece.width, piece.height)
    shift = 0.0
    for i in range(41):
        y = piece.height * min(max(i / 40, 1e-6), 1 - 1e-6)
        right = _extent(piece.outline, y)
        left = _extent(turned, y)
        if right and left:
            shift = max(shift, right[1] - left[0])
    return shift


def _extent(polygon: tuple[Point, ...], y: float) -> tuple[float, float] | None:
    xs: list[float] = []
    x0, y0 = polygon[-1]
    for x1, y1 in polygon:
        if (y0 > y) != (y1 > y):
            xs.append(x0 + (x1 - x0) * (y - y0) / (y1 - y0))
        x0, y0 = x1, y1
    return (min(xs), max(xs)) if xs else None


def _quarter(unit: Lay) -> Lay:
    high = unit.box.height
    return Lay(
        Box(0, 0, high, unit.box.width),
        tuple(tuple((high - y, x) for x, y in o) for o in unit.outlines),
        unit.ids,
    )


def _spot(
    w: float, h: float, width: float, height: float, taken: list[Box]
) -> tuple[float, float, bool] | None:
    """Lowest, leftmost free corner for a rectangle, upright or turned; None if there is no room."""
    slack = 1e-6
    xs = sorted({0.0, *(b.right for b in taken)})
    ys = sorted({0.0, *(b.bottom for b in taken)})
    for quarter in (False, True):
        a, b = (h, w) if quarter else (w, h)
        for y in ys:
            for x in xs:
                box = Box(x + slack, y + slack, x + a - slack, y + b - slack)
                if x + a <= width + 0.02 and y + b <= height + 0.02 and not any(box.meets(t) for t in taken):
                    return x, y, quarter
    return None


def _text_in(polygon: tuple[Point, ...], text: str) -> Text | None:
    """A text in the middle of a shape if it fits there with room around."""
    ys = [p[1] for p in polygon]
    y = (min(ys) + max(ys)) / 2
    spans = [_extent(polygon, y + d) for d in (-CAP_HEIGHT / 2 - 1, 0.0, CAP_HEIGHT / 2 + 1)]
    if max(ys) - min(ys) < CAP_HEIGHT + 2.5 or any(s is None for s in spans):
        return None
    left = max(s[0] for s in spans if s)
    right = min(s[1] for s in spans if s)
    if right - left < text_width(text) + 3:
        return None
    return Text(((left + right) / 2, y + CAP_HEIGHT / 2), text, "middle")


def _without(runs: list[tuple[Point, Point]], text: Text | None) -> tuple[tuple[Point, Point], ...]:
    """Hatch runs with a blank where a text stands."""
    if text is None:
        return tuple(runs)
    box = text.box().grown(1.2)
    found: list[tuple[Point, Point]] = []
    for a, b in runs:
        low, high = 0.0, 1.0
        for start, step, least, most in (
            (a[0], b[0] - a[0], box.left, box.right),
            (a[1], b[1] - a[1], box.top, box.bottom),
        ):
            t0, t1 = sorted(((least - start) / step, (most - start) / step)) if step else (-9.0, 9.0)
            low, high = max(low, t0), min(high, t1)
        if high <= low:
            found.append((a, b))
            continue

        def at(t: float, a: Point = a, b: Point = b) -> Point:
            return (a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t)

        found += [(at(s), at(e)) for s, e in ((0.0, low), (high, 1.0)) if e - s > 0.02]
    return tuple(found)


def _sizes(
    pieces: tuple[Piece, ...], lays: list[Lay], scale: float, line: bool
) -> tuple[list[Linear], list[Linear]]:
    """The size of the first copy of each kind of piece, where it lies."""
    level: list[Linear] = []
    upright: list[Linear] = []
    told: set[str] = set()
    for piece in pieces:
        if piece.name in told:
            continue
        told.add(piece.name)
        lay, points = next(
            (lay, o) for lay in lays for i, o in zip(lay.ids, lay.outlines, strict=True) if i == piece.id
        )
        xs, ys = [p[0] for p in points], [p[1] for p in points]
        quarter = abs((max(xs) - min(xs)) - piece.width) > 1e-6
        along, across = piece.size_text[::-1] if quarter else piece.size_text
        if along:
            y = -min(ys) * scale
            level.append(Linear(along, (min(xs) * scale, y), (max(xs) * scale, y), "along"))
        if across and not line:
            x = min(xs) * scale
            upright.append(Linear(across, (x, -min(ys) * scale), (x, -max(ys) * scale), "across"))
    return level, upright


def _alt(stock: Blank, pieces: tuple[Piece, ...], left: tuple[Left, ...]) -> str:
    tally: dict[str, int] = {}
    sizes: dict[str, str] = {}
    for p in pieces:
        tally[p.name] = tally.get(p.name, 0) + 1
        sizes[p.name] = " by ".join(s for s in p.size_text if s)
    told = []
    for name, n in tally.items():
        size = f", {sizes[name]}" if sizes[name] else ""
        told.append((f"{n} x {name}" if n > 1 else name) + size)
    said = f"The pieces laid out on the {stock.name}: {listed(told)}." if told else f"The {stock.name}."
    if left:
        said += f" Left over: {listed([r.text for r in left])}."
    return said
