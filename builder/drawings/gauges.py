"""Gauges: true-size bars on which a cut piece is laid, with marks for too short, right and too long.

A piece is laid with one end at the stop.  It is right if its other end lies between the two go marks, at
the stated length less and plus the tolerance.  Without a stated tolerance there is one mark, and it says so.
What is too long to lie across a sheet stands upright on it; what is longer still is on the long gauge.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from fractions import Fraction
from typing import NamedTuple

from builder.drawings.alternative import listed
from builder.drawings.long_gauge import LONGEST, Length, between, strips
from builder.drawings.measure import CAP_HEIGHT, LINE_PITCH, wrapped
from builder.drawings.of_bench import thing_of
from builder.drawings.of_part import mm
from builder.drawings.of_pattern import origin_of
from builder.drawings.patterns import Pattern
from builder.drawings.shapes import Arrow, Box, Drawing, Polyline, Shape, Text, box_of, moved, segment
from builder.drawings.sheets import COMMON, Laid, Origin, printable, quarter_turned, sheet_of, working_area
from builder.drawings.words import told, told_mm
from builder.dryrun.effects import Make
from builder.dryrun.run import DryRun
from builder.guide.model import Guide, Thing, Value

HIGH = 7.0
"""Height of the bar at which a piece is laid, mm."""

WIDE = 112.0
"""The words above a gauge are wrapped to this width, mm, where an upright gauge stands beside it."""

BETWEEN = 2.4
"""Room between two gauges, mm."""

APART = 5.0
"""Room between an upright gauge and what stands beside it, mm."""

COLUMN = 26.0
"""The words beside an upright gauge are wrapped to this width, mm."""

SIDES = {
    "root": "root", "span": "span", "across_flats": "across the flats", "outside": "outside diameter",
    "diameter": "diameter", "length": "length", "width": "width",
}  # fmt: skip
"""The measures that a gauge can be laid for, in words."""

GIVE = ", give or take "
TITLE = "Gauges: lay your piece on them"
HOW = "Push one end of the piece against the black stop. It is right if its other end lies"
RIGHT = {
    (True, False): "between the two marks",
    (False, True): "at the mark",
    (True, True): "between the two marks, or at the one mark",
}
"""Where the other end of a right piece lies: whether there are gauges with, and without a tolerance."""


def gauge_sheets(
    guide: Guide, runs: Iterable[DryRun], *, paper: str = "", things: Iterable[str] | None = None,
    steps: Mapping[str, str] | None = None,
) -> list[Drawing]:  # fmt: skip
    """Sheets with a gauge for each measure of what the steps cut, up to LONGEST.

    The last ones may hold the long gauge in strips, which are cut out: `is_cut` tells them. `steps` has the
    words for the step that cuts a thing (`step 20`), by the thing's id.
    """
    wanted = None if things is None else set(things)
    page = printable(paper) if paper else COMMON
    cut = [t for t in cut_things(guide, runs) if wanted is None or t.id in wanted]
    origin = origin_of(guide, paper, "Gauges, not to be cut")
    return _sheets(lengths_of(guide, cut, steps or {}), origin, page)


def is_cut(sheet: Drawing) -> bool:
    """Whether something on a sheet is cut out, so that its back has to stay empty: a tile may have no edge to
    be cut but its seams."""
    return any(shape.line in ("cut", "line_up") for shape in sheet.shapes)


def cut_things(guide: Guide, runs: Iterable[DryRun]) -> list[Thing]:
    """What the steps cut out, each once, in the order of cutting."""
    found: dict[str, Thing] = {}
    for run in runs:
        for frame in run.frames:
            if frame.action.verb.kind == "cut":
                for e in frame.effects:
                    if isinstance(e, Make) and (thing := thing_of(guide, e.item.key)) is not None:
                        found.setdefault(thing.id, thing)
    return list(found.values())


def measures(thing: Thing) -> tuple[str, ...]:
    """The fields that tell whether a piece was cut to size."""
    if thing.outline is not None and thing.outline.shape == "fin":
        return ("root", "span")
    if thing.form == "regular polygon":
        return ("across_flats",)
    if thing.form in ("ring", "disc"):
        return ("outside",) if thing.mm("outside") is not None else ("diameter",)
    if thing.form in ("tube", "rod", "cord", "turned"):
        return ("length",)
    return ("length", "width")


class _Key(NamedTuple):
    """What things must have in common to share a gauge."""

    sides: tuple[str, ...]
    said: str
    off: str
    step: str


def lengths_of(guide: Guide, things: Iterable[Thing], steps: Mapping[str, str]) -> list[Length]:
    """Each known measure of some things, with its words; things with the same measure share one, and so do
    equal sides of a thing."""
    found: dict[_Key, list[Thing]] = {}
    sizes: dict[_Key, tuple[float, float | None]] = {}
    for thing in things:
        own: dict[tuple[str, str], list[str]] = {}
        known: dict[tuple[str, str], tuple[float, float | None]] = {}
        for field in measures(thing):
            value = thing.values.get(field)
            length = mm(thing.mm(field))
            if value is None or length <= 0:
                continue
            off = tolerance_of(guide, value)
            same = told(guide, thing, field), "" if off is None else told_mm(guide, off)
            own.setdefault(same, []).append(SIDES[field])
            known[same] = length, None if off is None else float(off)
        for same, sides in own.items():
            key = _Key(tuple(sides), *same, steps.get(thing.id, ""))
            found.setdefault(key, []).append(thing)
            sizes[key] = known[same]
    made = []
    for key, sharing in found.items():
        names = listed(list(dict.fromkeys(t.name for t in sharing)))
        where = f"{key.step[:1].upper()}{key.step[1:]}, " if key.step else ""
        name = f"{where}{names}: {listed(list(key.sides))} {key.said}"
        tail = f"{GIVE}{key.off}" if key.off else ", no tolerance stated"
        made.append(Length(f"{sharing[0].id} {key.sides[0]}", name, tail, key.said, *sizes[key]))
    return made


def gauges_of(guide: Guide, things: Iterable[Thing]) -> list[Pattern]:
    """A gauge for each known measure of some things."""
    return [gauge(*each[:3], each.mm, each.off) for each in lengths_of(guide, things, {})]


def tolerance_of(guide: Guide, value: Value) -> Fraction | None:
    """The tolerance of a cut, mm: the number's own, or the guide's; None if none is stated."""
    if value.plus_minus is not None:
        return value.plus_minus
    return guide.cut_tolerance.base if guide.cut_tolerance is not None else None


def gauge(
    id: str, name: str, tail: str, length: float, off: float | None, wide: float = WIDE
) -> Pattern:
    """A bar from a stop at 0: between the go marks a piece is right, beyond them it is not.

    `length` and `off` in mm; the name and the `tail` stand above the bar, no wider than `wide`, the stop at
    its left.
    """
    lines = wrapped(name + tail, wide)
    words = [
        Text((-3.0, -HIGH - 4.0 - (len(lines) - 1 - i) * LINE_PITCH), line) for i, line in enumerate(lines)
    ]
    return Pattern(id, name, (*bar(id, length, off), *words))


def upright(id: str, name: str, tail: str, length: float, off: float | None) -> Pattern:
    """The same bar with its stop at the foot and the words at its right; the piece stands on the stop."""
    turned = quarter_turned(Pattern(id, name, tuple(bar(id, length, off)))).shapes
    lines = wrapped(name + tail, COLUMN)
    words = [
        Text((4.5, -length / 2 + (i - len(lines) / 2) * LINE_PITCH), line) for i, line in enumerate(lines)
    ]
    return Pattern(id, name, (*turned, *words))


def bar(id: str, length: float, off: float | None) -> list[Shape]:
    """The lines of a gauge: its stop, the line along which a piece is laid, its marks."""
    low, high = (length, length) if off is None else (length - off, length + off)
    # the stop is filled, so that a piece can be pushed against its edge
    stop = ((-3.0, -HIGH - 2), (0.0, -HIGH - 2), (0.0, 0.0), (-3.0, 0.0))
    shapes: list[Shape] = [
        Polyline(stop, "frame", None, closed=True, filled=True),
        segment((0.0, 0.0), (high + 2.0, 0.0), "frame"),
        segment((low, -HIGH), (low, 2.0), "outline", id),
    ]
    if off is not None:
        shapes.append(segment((high, -HIGH), (high, 2.0), "outline", id))
        shapes.append(between(low, high))
        shapes.append(Arrow((low, -HIGH / 2), 0.0, "frame", None, 2.4))
        shapes.append(Arrow((high, -HIGH / 2), 180.0, "frame", None, 2.4))
        shapes.append(segment((low - 6.0, -HIGH / 2), (low - 2.0, -HIGH / 2), "frame"))
        shapes.append(segment((high + 2.0, -HIGH / 2), (high + 6.0, -HIGH / 2), "frame"))
    return shapes


def _sheets(lengths: list[Length], origin: Origin, page: tuple[float, float]) -> list[Drawing]:
    """Gauges in rows, upright ones at their right, then the long gauge on sheets of its own."""
    area = working_area(page)
    shared = ""
    if len({each.tail for each in lengths}) == 1:  # told once, at the head
        shared = " (no tolerance stated)"
        if lengths[0].tail.startswith(GIVE):
            shared = f", {lengths[0].tail.removeprefix(GIVE)} too short or too long at most"
        lengths = [each._replace(tail="") for each in lengths]
    kinds = (any(e.off is not None for e in lengths), any(e.off is None for e in lengths))
    how = wrapped(f"{HOW} {RIGHT.get(kinds, '')}{shared}.", area.width)
    free = area._replace(top=area.top + (len(how) - 1) * LINE_PITCH + BETWEEN)
    rows: list[Length] = []
    columns: list[Pattern] = []
    long: list[Length] = []
    for each in lengths:
        stood = upright(*each[:3], each.mm, each.off)
        if gauge(*each[:3], each.mm, each.off).box.width <= area.width:
            rows.append(each)
        elif stood.box.height <= free.height:
            columns.append(stood)
        else:
            long.append(each)
    # no sheet of these has a legend, so that the words begin in its place
    words = _lines(how, area.left, area.top - LINE_PITCH)
    wide = WIDE if columns else area.width
    level = [gauge(*each[:3], each.mm, each.off, wide) for each in rows]
    laid = _laid_out(level, columns, free, words)
    over = [each.name for each in long if each.mm > LONGEST]
    bars = strips([each for each in long if each.mm <= LONGEST], area, shared)
    if over and laid:
        laid = _with_words(laid, over, area)
    count = len(laid) + len(bars)
    cut = origin._replace(what="Gauges, the long gauge")
    return [
        *(sheet_of(each, n, count, origin, page) for n, each in enumerate(laid, 1)),
        *(sheet_of(each, n, count, cut, page) for n, each in enumerate(bars, len(laid) + 1)),
    ]


def _laid_out(rows: list[Pattern], columns: list[Pattern], area: Box, head: list[Shape]) -> list[Laid]:
    """Rows from the top, and columns at the right where every row leaves them room."""
    rows, columns = list(rows), list(columns)
    made: list[Laid] = []
    while rows or columns:
        shapes = list(head)
        names: list[str] = []
        right = area.right
        edge = area.left + max((each.box.width for each in rows), default=0.0)
        while columns and right - columns[0].box.width >= edge + bool(rows) * APART:
            one = columns.pop(0)
            shapes += [moved(s, right - one.box.right, area.bottom - one.box.bottom) for s in one.shapes]
            names.append(one.name)
            right -= one.box.width + APART
        y = area.top
        while rows and y + rows[0].box.height <= area.bottom:
            one = rows.pop(0)
            shapes += [moved(s, area.left - one.box.left, y - one.box.top) for s in one.shapes]
            names.append(one.name)
            y += one.box.height + BETWEEN
        made.append(Laid(TITLE, tuple(shapes), f"Gauges at true size: {'; '.join(names)}."))
    return made


def _lines(words: Iterable[str], x: float, y: float) -> list[Shape]:
    return [Text((x, y + CAP_HEIGHT + i * LINE_PITCH), line) for i, line in enumerate(words)]


def _with_words(laid: list[Laid], over: list[str], area: Box) -> list[Laid]:
    """The last sheet also names what no gauge is made for; on a sheet of their own if it has no room."""
    words = f"Longer than any gauge, measured with a tape measure: {'; '.join(over)}."
    lines = wrapped(words, area.width)
    foot = box_of(laid[-1].shapes)
    y = (foot.bottom if foot is not None else area.top) + 2.0
    if y + len(lines) * LINE_PITCH > area.bottom:
        return [*laid, Laid(TITLE, tuple(_lines(lines, area.left, area.top)), words)]
    shapes = (*laid[-1].shapes, *_lines(lines, area.left, y))
    return [*laid[:-1], Laid(TITLE, shapes, f"{laid[-1].says} {words}")]
