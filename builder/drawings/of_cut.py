"""The flat lay of what a step cuts, from the bench's own stock before and after."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from typing import NamedTuple

from builder.drawings.compose import many
from builder.drawings.flat_lay import Blank, flat_lay
from builder.drawings.grain import direction, on_piece
from builder.drawings.nesting import Left, Piece, rectangle_piece
from builder.drawings.of_bench import thing_of
from builder.drawings.of_part import mm, outline_of
from builder.drawings.of_pattern import pattern_of
from builder.drawings.shapes import Drawing, Shape, Text
from builder.drawings.solids import round_outline
from builder.drawings.words import told, told_mm
from builder.dryrun.bench import Piece as Stock
from builder.dryrun.effects import Make, Take
from builder.dryrun.run import Frame
from builder.dryrun.shape import length_of
from builder.guide.axes import WIDTH, along_stock
from builder.guide.model import Guide, Thing


class Cutting(NamedTuple):
    """All that a step cuts from one material: items, the pieces of stock taken, and what they leave."""

    material: str
    items: tuple[str, ...]
    taken: tuple[Stock, ...]
    left: tuple[Stock, ...]


def cuttings(frames: Sequence[Frame]) -> list[Cutting]:
    """What the frames cut, material by material; a cut from no stock has an empty material."""
    found: dict[str, list[str]] = {}
    for frame in frames:
        if frame.action.verb.kind != "cut":
            continue
        material = ""
        for e in frame.effects:
            if isinstance(e, Take):
                material = e.material
            elif isinstance(e, Make):
                found.setdefault(material, []).append(e.item.key)
    before, after = frames[0].before, frames[-1].after
    cut: list[Cutting] = []
    for material, items in found.items():
        old, new = before.stock.get(material, ()), after.stock.get(material, ())
        taken = Counter(_size(p) for p in old) - Counter(_size(p) for p in new)
        left = Counter(_size(p) for p in new) - Counter(_size(p) for p in old)
        cut.append(Cutting(material, tuple(items), _of(old, taken), _of(new, left)))
    return cut


def _size(p: Stock) -> tuple[object, object]:
    return (p.along, p.across)


def _of(pieces: tuple[Stock, ...], wanted: Counter[tuple[object, object]]) -> tuple[Stock, ...]:
    rest = Counter(wanted)
    found = []
    for p in pieces:
        if rest[_size(p)] > 0:
            rest[_size(p)] -= 1
            found.append(p)
    return tuple(found)


def piece_of(guide: Guide, item: str) -> Piece | None:
    """An item as a piece to cut out, with its size in words; None if its size is unknown."""
    thing = thing_of(guide, item)
    if thing is None:
        return None
    if thing.form in ("ring", "disc"):
        field = "outside" if thing.mm("outside") is not None else "diameter"
        size = mm(thing.mm(field))
        if size <= 0:
            return None
        text = told(guide, thing, field)
        outline = round_outline((size / 2, size / 2), size)
        return Piece(item, thing.name, outline, (text, ""), _bore(guide, thing))
    if thing.form == "regular polygon":
        points = outline_of(thing)
        if points is None:
            return None
        low = min(x for x, _ in points), min(y for _, y in points)
        moved = tuple((x - low[0], y - low[1]) for x, y in points)
        return Piece(item, thing.name, moved, (told(guide, thing, "across_flats"), ""))
    if thing.outline is not None and thing.outline.shape == "fin":
        points = outline_of(thing)
        return (
            Piece(
                item,
                thing.name,
                points,
                (told(guide, thing, "root"), told(guide, thing, "span")),
                grain=direction(thing),
            )
            if points
            else None
        )
    return _straight(guide, item, thing)


def _bore(guide: Guide, thing: Thing) -> tuple[Shape, ...]:
    """What is cut inside a round piece: its bore and its slots, as its pattern has them."""
    pattern = pattern_of(guide, thing, thing.id, thing.name, "", ())
    if pattern is None or mm(thing.mm("inside")) <= 0:
        return ()
    return tuple(s for s in pattern.shapes[1:] if s.line == "cut" and not isinstance(s, Text))


def _straight(guide: Guide, item: str, thing: Thing) -> Piece | None:
    length = mm(length_of(thing))
    if length <= 0:
        return None
    width = mm(thing.mm("width"))
    sizes = (told(guide, thing, "length"), told(guide, thing, "width") if width else "")
    stock = thing.refs.get("of")
    if stock is not None and along_stock(thing, guide.things.get(stock.id)) == WIDTH:
        length, width, sizes = width, length, (sizes[1], sizes[0])
    name = f"blank of the {thing.name}" if thing.blank_of and "blank" not in thing.name else thing.name
    return rectangle_piece(item, name, length, width, sizes)._replace(grain=direction(thing))


def drawn(guide: Guide, cut: Cutting, title: str, size: tuple[float, float]) -> Drawing | None:
    """The flat lay of one material; None if nothing of it has a known size."""
    pieces = [p for p in (piece_of(guide, i) for i in cut.items) if p is not None]
    if not pieces:
        return None
    material = guide.things.get(cut.material)
    if material is None or not cut.taken:
        return None
    stock = max(cut.taken, key=lambda p: (p.along * (p.across or 1), p.along))
    # a guide with errors may cut a piece without a width from a sheet, or from a sheet that has none
    pieces = [p for p in pieces if p.width > 0 and (stock.across is None or p.height > 0)]
    if not pieces or stock.along <= 0 or stock.across == 0:
        return None
    name = material.name
    alike = ""
    if len(cut.taken) > 1:
        per = -(-len(pieces) // len(cut.taken))
        pieces = pieces[:per]
        if per == 1:
            pieces = [p._replace(name=many(len(cut.taken), p.name)) for p in pieces]
        alike = f" There are {len(cut.taken)} like this; one is drawn."
        if len(cut.left) >= len(cut.taken):
            cut = cut._replace(left=cut.left[: len(cut.left) // len(cut.taken)])
    if stock.across is None:
        wide = mm(material.mm("width")) if material.form == "strip" else 0.0
        if wide > 0:  # a lath or a tape: as wide as it is
            blank = Blank(name, float(stock.along), wide, on_piece(stock.grain))
            pieces = [
                rectangle_piece(p.id, p.name, p.width, wide, (p.size_text[0], ""))._replace(grain=p.grain)
                for p in pieces
            ]
            left = tuple(Left(float(p.along), wide, told_mm(guide, p.along)) for p in cut.left)
            made = flat_lay(title, blank, tuple(pieces), left, size)
            return made._replace(alt=made.alt + alike)
        blank = Blank(name, float(stock.along), cord=material.form == "cord")
        pieces = [p._replace(size_text=(p.size_text[0], "")) for p in pieces]
    else:
        blank = Blank(name, float(stock.along), float(stock.across), on_piece(stock.grain))
    left = tuple(
        Left(
            float(p.along),
            0.0 if p.across is None else float(p.across),
            told_mm(guide, p.along)
            if p.across is None
            else f"{told_mm(guide, p.along, False)} x {told_mm(guide, p.across, False)}",
            on_piece(p.grain),
        )
        for p in cut.left
    )
    made = flat_lay(title, blank, tuple(pieces), left, size)
    return made._replace(alt=made.alt + alike)
