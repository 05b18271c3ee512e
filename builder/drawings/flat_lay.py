"""Flat lay: the pieces of a step laid out on the stock that they are cut from, and what is left over.

Places are found by trying corners of what already lies there, lowest and leftmost first, largest piece
first; it shows one way to cut that works, and the numbers are the guide's.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple

from builder.drawings import grain
from builder.drawings.alternative import listed
from builder.drawings.callouts import Callout, flags
from builder.drawings.columns import column
from builder.drawings.compose import LARGEST, SIZE, WIDE
from builder.drawings.cut_outs import cut_line, with_holes
from builder.drawings.dimensions import Linear, below, beside, crossings
from builder.drawings.fills import NEW_PITCH, polygon_hatch
from builder.drawings.left_over import borders, sides_of
from builder.drawings.nesting import Lay, Left, Piece, placed
from builder.drawings.scaled import scaled
from builder.drawings.shapes import (
    Box,
    Drawing,
    Hatch,
    Point,
    Polyline,
    Shape,
    Text,
    box_of,
    box_round,
    finished,
    moved,
    segment,
)
from builder.drawings.within import middle_of, on_rim, within, without, words_in

SMALL_SHARE = 0.4
"""Stock of which the pieces take less than this share of a side is drawn broken off."""

NARROWEST = 7.0
"""A rod or a narrow strip is drawn at least so high, mm on paper."""

CORD = 4.0
"""The ticks at the cuts of a cord are so long, mm on paper."""

OVER = 4.0
"""Distance of the sign of the stock's grain from the stock beneath it, mm."""


class Blank(NamedTuple):
    """Stock: a sheet by its two sides, mm; `height` 0 for a cord or a rod. `grain` is "x" or "y".  A `cord`
    has no width that could be drawn: it and its pieces are lines."""

    name: str
    width: float
    height: float = 0.0
    grain: str = ""
    cord: bool = False


def flat_lay(
    title: str,
    stock: Blank,
    pieces: tuple[Piece, ...],
    left: tuple[Left, ...] = (),
    size: tuple[float, float] = SIZE,
) -> Drawing:
    """Draw the stock with the pieces on it; pieces that find no room are drawn beside it.

    Of stock that is much larger than what is cut, only the corner with the pieces is drawn, between
    break lines.  A name that a leader would run through is put beside the stock as well.
    """
    beside_it: frozenset[str] = frozenset()
    while True:
        made, struck = _drawn(title, stock, pieces, left, size, beside_it)
        if struck <= beside_it:
            return made
        beside_it |= struck


def _drawn(
    title: str,
    stock: Blank,
    pieces: tuple[Piece, ...],
    left: tuple[Left, ...],
    size: tuple[float, float],
    beside_it: frozenset[str],
) -> tuple[Drawing, frozenset[str]]:
    """The drawing with these names beside the stock, and the names inside it that a leader runs through."""
    line = stock.height <= 0
    ready = [_raised(p, 1.0) if line else p for p in pieces]
    lays, spare = _laid(stock, ready, left, line)
    shown, broken = _corner(stock, lays, line)
    scale = min((size[0] - (30 if line else 45)) / shown.right, LARGEST)
    if not line:
        scale = min(scale, size[1] / shown.bottom)
    high = CORD if stock.cord else NARROWEST if line else scale  # mm on paper for one of height

    def paper(p: Point) -> Point:
        return (p[0] * scale, -p[1] * high)

    frame = _on_paper(shown, paper)
    names: dict[str, list[Point]] = {}
    words: list[Text] = []
    whose: list[str] = []
    drawn: list[_Piece] = []
    level, upright, told = _sizes(pieces, lays, paper, line)
    for lay in lays:
        for id, points in zip(lay.ids, lay.outlines, strict=True):
            piece = next(p for p in pieces if p.id == id)
            name = piece.name + (f", {told[id]}" if id in told else "")
            polygon = tuple(paper(p) for p in points)
            full = stock.cord or piece.inner or name in beside_it
            inside = [] if full else words_in(polygon, name)
            words += inside
            whose += [name] * len(inside)
            if not inside:
                names.setdefault(name, []).extend(on_rim(polygon) if piece.inner else within(polygon))
            drawn.append(_Piece(piece, polygon, lay.grain, inside, stock.cord))
    rests: list[Box] = []
    on_top: set[str] = set()
    for rest, box in spare:
        if (broken[0] and box.right > shown.right) or (broken[1] and box.bottom > shown.bottom):
            continue
        rests.append(_on_paper(box, paper))
        corners = _corners(rests[-1])
        name = f"left over: {rest.text}"
        inside = [] if stock.cord or name in beside_it else words_in(corners, name)
        words += inside
        whose += [name] * len(inside)
        if not inside:
            names.setdefault(name, []).extend(within(corners))
            if rests[-1].top < frame.top + ON_TOP and rests[-1].height < STRIP:
                on_top.add(name)
    outline = frame
    for lay in lays:
        outline = outline.union(_on_paper(lay.box, paper))
    low = below(level, outline)
    side = beside(upright, outline)
    callouts = [Callout(n, n, tuple(a)) for n, a in names.items() if a]
    edges = [side for points in (_corners(frame), *(p.polygon for p in drawn)) for side in sides_of(points)]
    spares = borders(rests, edges)
    under = [*_frame(stock, frame, broken), *spares, *low.shapes, *side.shapes]
    under += [s for p in drawn for s in p.edges("outline", p.piece.name)]
    if outline.width > WIDE * outline.height:
        calls = flags(callouts, outline, min([outline.top, *(b.top + 2.5 for b in side.boxes)]), under)
    else:
        avoid = [*low.boxes, *side.boxes, *(w.box() for w in words)]
        levels = tuple(y for (_, y), _ in edges)
        # a strip along the top is named above it: from the side a leader would run along it
        above = flags([c for c in callouts if c.text in on_top], outline, outline.top, under)
        rest_of = [c for c in callouts if c.text not in on_top]
        calls = column(rest_of, outline.right + 9, avoid=[*avoid, *above.boxes], edges=levels, shapes=under)
        calls = calls._replace(shapes=calls.shapes + above.shapes, boxes=calls.boxes + above.boxes)
    over = _over(stock, outline, [*calls.boxes, *side.boxes, *_along(calls.shapes)])
    shapes: list[Shape] = list(_frame(stock, frame, broken))
    taken = [*(w.box() for w in words), *_along(calls.shapes)]
    for one in drawn:
        shapes += one.shapes(scale, taken)
    shapes += [*spares, *words, *low.shapes, *side.shapes, *over, *calls.shapes]
    leaders = [s for s in calls.shapes if isinstance(s, Polyline)]
    struck = frozenset(
        name for word, name in zip(words, whose, strict=True) if crossings(leaders, word.box().grown(1.0))
    )
    return finished(title, _alt(stock, pieces, left), shapes), struck


ON_TOP, STRIP = 0.5, 6.0
"""A left-over so near the top of its sheet, and no higher, is a strip along it, mm."""


class _Piece(NamedTuple):
    """A piece on paper: its outline and the way of its grain there, and its name if it stands in it."""

    piece: Piece
    polygon: tuple[Point, ...]
    grain: str
    words: list[Text]
    cord: bool = False

    def edges(self, line: str, part: str) -> list[Shape]:
        """Its outline; of a cord the line that it is, between ticks at its ends."""
        if not self.cord:
            return [Polyline(self.polygon, line, part, closed=True)]
        return _cord(box_round(self.polygon), line, line, part)

    def shapes(self, scale: float, taken: list[Box]) -> list[Shape]:
        """Its edges, what is cut in it, its hatch, and the sign of its grain clear of what is `taken`."""
        id, inner = self.piece.id, self.piece.inner
        found = self.edges("new", id)
        if self.cord:
            return found
        holes = tuple(moved(scaled(shape, scale, "new", id), *middle_of(self.polygon)) for shape in inner)
        found += [hole._replace(line=cut_line(hole)) for hole in holes]
        blank = [word.box().grown(1.0) for word in self.words]
        spot = grain.place_in(self.polygon, self.grain, taken) if self.grain else None
        signs: tuple[Shape, ...] = ()
        if spot is not None:
            signs = grain.sign(spot[0], self.grain, spot[1], id)
            blank.append(grain.sign_box(spot[0], self.grain, spot[1]).grown(1.0))
        hatch = polygon_hatch(with_holes(self.polygon, holes), 45.0, NEW_PITCH)
        return [*found, Hatch(without(hatch, blank), "new_hatch", id), *signs]


def _over(stock: Blank, outline: Box, taken: list[Box]) -> tuple[Shape, ...]:
    """The sign of the stock's grain, over its left corner and over the names and leaders that stand there."""
    if not stock.grain:
        return ()
    made = grain.named_sign(outline.left, outline.top - OVER, stock.grain, stock.name)
    for _ in taken:
        box = (box_of(made) or outline).roomy(1.0)
        met = [t.top for t in taken if t.meets(box)]
        if not met:
            break
        made = tuple(moved(s, 0.0, min(met) - box.bottom) for s in made)
    return made


def _along(shapes: tuple[Shape, ...]) -> list[Box]:
    """Small boxes along straight leaders, for what must keep clear of them."""
    found: list[Box] = []
    for shape in shapes:
        if isinstance(shape, Polyline) and len(shape.points) == 2:
            (x0, y0), (x1, y1) = shape.points
            n = max(1, round((abs(x1 - x0) + abs(y1 - y0)) / 1.5))
            for i in range(n + 1):
                x, y = x0 + (x1 - x0) * i / n, y0 + (y1 - y0) * i / n
                found.append(Box(x - 0.8, y - 0.8, x + 0.8, y + 0.8))
    return found


def _laid(
    stock: Blank, pieces: list[Piece], left: tuple[Left, ...], line: bool
) -> tuple[list[Lay], list[tuple[Left, Box]]]:
    """A way to lay the pieces that leaves what the guide says is left over; failing that, the first way."""
    best: tuple[list[Lay], list[tuple[Left, Box]]] | None = None
    for turned in (False, True):
        if turned and line:
            continue
        given = [_turned(p) for p in pieces] if turned else pieces
        made = placed(stock.width, 1.0 if line else stock.height, given, left, line, stock.grain)
        if best is None or len(made[1]) > len(best[1]):
            best = made
    assert best is not None
    return best


def _turned(p: Piece) -> Piece:
    """A piece turned a quarter round, its corner at the origin again."""
    high = p.height
    return p._replace(
        outline=tuple((high - y, x) for x, y in p.outline),
        size_text=p.size_text[::-1],
        grain=grain.OTHER[p.grain],
    )


def _corner(stock: Blank, lays: list[Lay], line: bool) -> tuple[Box, tuple[bool, bool]]:
    """What of the stock is drawn, from its lower left corner, and whether it goes on right and up."""
    right = max(lay.box.right for lay in lays)
    top = max(lay.box.bottom for lay in lays)
    width, height = stock.width, 1.0 if line else stock.height
    wide = right < SMALL_SHARE * width
    tall = not line and top < SMALL_SHARE * height
    return Box(0, 0, right * 1.7 if wide else width, top * 1.7 if tall else height), (wide, tall)


def _on_paper(box: Box, paper: Callable[[Point], Point]) -> Box:
    """A box of the stock (y up) on paper (y down)."""
    a, b = paper((box.left, box.bottom)), paper((box.right, box.top))
    return Box(a[0], a[1], b[0], b[1])


def _corners(box: Box) -> tuple[Point, Point, Point, Point]:
    return ((box.left, box.bottom), (box.right, box.bottom), (box.right, box.top), (box.left, box.top))


def _frame(stock: Blank, frame: Box, broken: tuple[bool, bool]) -> list[Shape]:
    """The edges of the stock, with a break line where it goes on."""
    if stock.cord:
        end = "" if broken[0] else "outline"
        return [*_cord(frame, "outline", end, stock.name), *([_gone_on(frame)] if broken[0] else [])]
    a, b, c, d = _corners(frame)
    if broken == (False, False):
        return [Polyline((a, b, c, d), "outline", stock.name, closed=True)]
    found: list[Shape] = []
    for (p, q), breaks in (((a, b), False), ((b, c), broken[0]), ((c, d), broken[1]), ((d, a), False)):
        found.append(_zigzag(p, q) if breaks else segment(p, q, "outline", stock.name))
    return found


def _cord(box: Box, line: str, tick: str, part: str) -> list[Shape]:
    """A cord through the middle of a box, with ticks at its ends if they have a class."""
    middle = (box.top + box.bottom) / 2
    found: list[Shape] = [segment((box.left, middle), (box.right, middle), line, part)]
    if tick:
        found += [segment((x, box.top), (x, box.bottom), tick, part) for x in (box.left, box.right)]
    return found


def _gone_on(box: Box) -> Shape:
    """The break line at the right end of a cord."""
    return _zigzag((box.right, box.bottom + 2.0), (box.right, box.top - 2.0))


def _zigzag(p: Point, q: Point) -> Shape:
    """A thin line with a zigzag in its middle."""
    length = abs(q[0] - p[0]) + abs(q[1] - p[1])
    ux, uy = (q[0] - p[0]) / length, (q[1] - p[1]) / length
    steps = ((-2.0, 0.0), (-1.0, 1.6), (1.0, -1.6), (2.0, 0.0))
    mx, my = (p[0] + q[0]) / 2, (p[1] + q[1]) / 2
    middle = [(mx + ux * s - uy * t, my + uy * s + ux * t) for s, t in steps]
    return Polyline((p, *middle, q), "break")


def _raised(p: Piece, high: float) -> Piece:
    return p._replace(outline=((0, 0), (p.width, 0), (p.width, high), (0, high)))


def _sizes(
    pieces: tuple[Piece, ...], lays: list[Lay], paper: Callable[[Point], Point], line: bool
) -> tuple[list[Linear], list[Linear], dict[str, str]]:
    """The size of each kind of piece: dimensions where it lies at the edge, else words with its name.

    An extension line from the middle of the stock would run over the pieces between.
    """
    level: list[Linear] = []
    upright: list[Linear] = []
    told: dict[str, str] = {}
    seen: set[str] = set()
    for piece in pieces:
        if piece.name in seen or not any(piece.size_text):
            continue
        seen.add(piece.name)
        copies = {p.id for p in pieces if p.name == piece.name}
        own = [(i, o) for lay in lays for i, o in zip(lay.ids, lay.outlines, strict=True) if i in copies]
        id, points = min(own, key=lambda o: (min(y for _, y in o[1]) > 1e-3, min(x for x, _ in o[1])))
        xs, ys = [p[0] for p in points], [p[1] for p in points]
        quarter = abs((max(xs) - min(xs)) - piece.width) > 1e-6
        along, across = piece.size_text[::-1] if quarter else piece.size_text
        if min(ys) > 1e-3 or (across and not line and min(xs) > 1e-3):
            told[id] = " x ".join(t.partition(" (")[0] for t in piece.size_text if t)
            continue
        if any(d.text == along for d in level) and any(d.text == across for d in upright) >= bool(across):
            continue  # the same size as the piece before
        if along:
            a, b = paper((min(xs), min(ys))), paper((max(xs), min(ys)))
            level.append(Linear(along, a, b, "along"))
        if across and not line:
            a, b = paper((min(xs), min(ys))), paper((min(xs), max(ys)))
            upright.append(Linear(across, a, b, "across"))
    return level, upright, told


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
    if stock.height <= 0:
        said += " It is drawn as a line." if stock.cord else " It is drawn wider than it is."
    if stock.grain:
        runs = "from left to right" if stock.grain == grain.LEVEL else "up and down"
        own = list(dict.fromkeys(p.name for p in pieces if p.grain))
        with_it = f", and that of the {listed(own)} with it" if own else ""
        said += f" The grain of the {stock.name} runs {runs}{with_it}; arrows show it."
    if left:
        said += f" Left over: {listed([r.text for r in left])}."
    return said
