"""Folding as a sequence: the strip laid flat with its fold lines, the folds half done, and the folded thing.

The folds lie where the folded size says (a strip of three times its folded length is folded in three),
or where the step names them.  Glue is dotted on the face that is folded inwards.
"""

from __future__ import annotations

from typing import NamedTuple

from builder.drawings.alternative import listed
from builder.drawings.callouts import Callout, flags
from builder.drawings.dimensions import Linear, below
from builder.drawings.fills import GLUE_PITCH, NEW_PITCH, polygon_hatch
from builder.drawings.of_bench import thing_of
from builder.drawings.of_part import mm
from builder.drawings.shapes import (
    Arc,
    Arrow,
    Box,
    Drawing,
    Hatch,
    Point,
    Polyline,
    Shape,
    finished,
    in_a_row,
    segment,
)
from builder.drawings.words import told, told_value
from builder.dryrun.run import Frame
from builder.guide.model import Guide
from builder.trade.ends import is_origin

HELD = 14.0
"""How far the thing that is folded in stands out, mm on paper."""


class Folding(NamedTuple):
    """A strip, mm, with its folds as distances from its left end, and what it is folded over."""

    id: str
    name: str
    length: float
    width: float
    folds: tuple[float, ...]
    over: str = ""
    over_id: str = ""
    glue: str = ""
    dims: tuple[tuple[str, float, float], ...] = ()
    """How far folds lie from an end: in words, the end, the fold; one alone where the folded size says it."""


def folding_of(guide: Guide, frame: Frame, glue: str = "") -> Folding | None:
    """The facts of a folding; None if the strip's size or its folds are unknown."""
    refs = frame.action.refs("what")
    thing = thing_of(guide, refs[0].id) if refs else None
    if thing is None:
        return None
    length, width = mm(thing.mm("length")), mm(thing.mm("width"))
    folded = mm(thing.mm("folded_length"))
    dims: list[tuple[str, float, float]] = []
    for spot in frame.action.spots("at"):
        if spot.kind == "from" and spot.lengths and spot.lengths[0].base is not None:
            off = float(spot.lengths[0].base)
            end, fold = (0.0, off) if is_origin(spot.names[0]) else (length, length - off)
            dims.append((told_value(guide, spot.lengths[0]), end, fold))
    folds = sorted(fold for _, _, fold in dims)
    if not folds and 0 < folded < length:
        folds = [folded * i for i in range(1, round(length / folded))]
        dims = [(told(guide, thing, "folded_length"), 0.0, folded)]
    if min(length, width) <= 0 or not folds:
        return None
    over = frame.action.ref("over")
    held = thing_of(guide, over.id) if over is not None else None
    name, id = (held.name, over.id) if held is not None and over is not None else ("", "")
    return Folding(refs[0].id, thing.name, length, width, tuple(folds), name, id, glue, tuple(dims))


def folding(fold: Folding, title: str, size: tuple[float, float]) -> Drawing:
    """Three pictures in a row: flat, with the folds half done, folded."""
    share = fold.folds[0] / fold.length
    scale = min(size[0] * 0.36 / fold.length, size[1] * 0.5 / fold.width, 1.6)
    first, second, third = _flat(fold, scale), _half(fold, scale), _shut(fold, scale, share)
    row = in_a_row([first, second, third], title, size[0])
    return row._replace(alt=" ".join(d.alt for d in (first, second, third)))


def _flat(fold: Folding, scale: float) -> Drawing:
    wide, high = fold.length * scale, fold.width * scale
    corners = ((0.0, 0.0), (wide, 0.0), (wide, high), (0.0, high))
    shapes: list[Shape] = [Polyline(corners, "outline", fold.id, closed=True)]
    shapes += [segment((x * scale, 0), (x * scale, high), "fold", fold.id) for x in fold.folds]
    middle = fold.folds[0] * scale
    callouts = [
        Callout("fold", fold.id, ((fold.folds[-1] * scale, 0.0),)),
        Callout(fold.name, fold.id, ((wide, high * 0.3),)),
    ]
    said = f"First: the {fold.name} lies flat, with {_count(len(fold.folds))} across it"
    if fold.glue:
        inner = ((1.0, 1.0), (wide - 1.0, 1.0), (wide - 1.0, high - 1.0), (1.0, high - 1.0))
        shapes.append(Hatch(tuple(polygon_hatch(inner, 90.0, GLUE_PITCH * 2)), "glue", None))
        callouts.append(Callout(fold.glue, "glue", ((2.0, 1.6), (4.0, 1.6))))
        said += f" and {fold.glue} on it"
    if fold.over:
        x = (middle + fold.folds[-1] * scale) / 2 if len(fold.folds) > 1 else middle / 2
        shapes.append(segment((x, high * 0.25), (x, high + HELD * 0.6), "new", fold.over_id))
        callouts.append(Callout(fold.over, fold.over_id, ((x, high * 0.25),)))
        said += f"; the end of the {fold.over} lies across its middle"
    outline = Box(0, 0, wide, high)
    dims = [Linear(text, (a * scale, high), (b * scale, high)) for text, a, b in fold.dims if text]
    low = below(dims, Box(0, 0, wide, high + (HELD * 0.6 if fold.over else 0.0)))
    shapes += [*low.shapes, *flags(callouts, outline, outline.top, shapes).shapes]
    told_dims = f" Dimensions shown: {listed([d.text for d in dims])}." if dims else ""
    return finished("", f"{said}.{told_dims}", shapes)


def _count(n: int) -> str:
    words = ("no fold lines", "a fold line", "two fold lines", "three fold lines", "four fold lines")
    return words[n] if n < len(words) else f"{n} fold lines"


def _half(fold: Folding, scale: float) -> Drawing:
    """Seen along the fold lines: the flaps stand up, and arrows show which way they go."""
    ends = [0.0, *(x * scale for x in fold.folds), fold.length * scale]
    if len(fold.folds) == 1:
        base, flaps = (ends[0], ends[1]), [(ends[1], ends[2] - ends[1], 1.0)]
    else:
        base, flaps = (ends[1], ends[-2]), [(ends[1], ends[1], -1.0), (ends[-2], ends[-1] - ends[-2], 1.0)]
    shapes: list[Shape] = [segment((base[0], 0.0), (base[1], 0.0), "new", fold.id)]
    for x, length, sign in flaps:
        tip: Point = (x + sign * length * 0.5, -length * 0.866)
        shapes.append(segment((x, 0.0), tip, "new", fold.id))
        radius = length * 0.7
        start = -60.0 if sign > 0 else -120.0
        arc = Arc((x, 0.0), radius, radius, "way", None, 0.0, start, -sign * 55.0)
        tipped = arc.at(1.0)
        shapes += [
            arc,
            Arrow(tipped, (start - sign * 55.0 - sign * 90.0 - sign * -6) % 360, "way", None, 3.6),
        ]
    if fold.over:
        middle = (base[0] + base[1]) / 2
        shapes.append(Arc((middle, -0.9), 0.7, 0.7, "new", fold.over_id))
    return finished(
        "", f"Then: seen from the edge, {'each side is' if len(flaps) > 1 else 'it is'} folded over.", shapes
    )


def _shut(fold: Folding, scale: float, share: float) -> Drawing:
    """The folded thing from above, pressed flat."""
    wide = (fold.folds[1] - fold.folds[0] if len(fold.folds) > 1 else fold.folds[0]) * scale
    high = fold.width * scale
    corners = ((0.0, 0.0), (wide, 0.0), (wide, high), (0.0, high))
    shapes: list[Shape] = [
        Polyline(corners, "new", fold.id, closed=True),
        Hatch(tuple(polygon_hatch(corners, 45.0, NEW_PITCH)), "new_hatch", fold.id),
    ]
    said = f"Last: folded and pressed flat. New in this step: {fold.name}"
    if fold.over:
        shapes.append(segment((wide / 2, high), (wide / 2, high + HELD), "new", fold.over_id))
        said += f", with the {fold.over} held in it"
    return finished("", f"{said}.", shapes)
