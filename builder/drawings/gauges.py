"""Gauges: true-size bars on which a cut piece is laid, with marks for too short, right and too long.

A piece is laid with one end at the stop.  It is right if its other end lies between the two go marks, at
the stated length less and plus the tolerance.  Without a stated tolerance there is one mark, and it says so.
"""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction

from builder.drawings.alternative import listed
from builder.drawings.measure import CAP_HEIGHT, LINE_PITCH, wrapped
from builder.drawings.of_bench import thing_of
from builder.drawings.of_part import mm
from builder.drawings.of_pattern import origin_of
from builder.drawings.patterns import Pattern
from builder.drawings.shapes import Arrow, Drawing, Hatch, Polyline, Shape, Text, moved, segment
from builder.drawings.sheets import COMMON, Laid, Origin, printable, sheet_of, working_area
from builder.drawings.words import told, told_mm
from builder.dryrun.effects import Make
from builder.dryrun.run import DryRun
from builder.guide.model import Guide, Thing, Value

HIGH = 7.0
"""Height of the bar at which a piece is laid, mm."""

WIDE = 160.0
"""The words above a gauge are wrapped to this width, mm."""

BETWEEN = 2.4
"""Room between two gauges, mm."""

SIDES = {
    "root": "root", "span": "span", "across_flats": "across the flats", "outside": "outside diameter",
    "diameter": "diameter", "length": "length", "width": "width",
}  # fmt: skip
"""The measures that a gauge can be laid for, in words."""


def gauge_sheets(
    guide: Guide, runs: Iterable[DryRun], *, paper: str = "", things: Iterable[str] | None = None
) -> list[Drawing]:
    """Sheets with a gauge for each measure of what the steps cut, as far as it is shorter than a sheet."""
    wanted = None if things is None else set(things)
    page = printable(paper) if paper else COMMON
    origin = origin_of(guide, paper, "Gauges, not to be cut")
    made = gauges_of(guide, [t for t in cut_things(guide, runs) if wanted is None or t.id in wanted])
    return _sheets(made, origin, page)


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


def gauges_of(guide: Guide, things: Iterable[Thing]) -> list[Pattern]:
    """A gauge for each known measure of some things; things with the same measure share one."""
    found: dict[tuple[str, str, str], list[Thing]] = {}
    sizes: dict[tuple[str, str, str], tuple[float, float | None]] = {}
    for thing in things:
        for field in measures(thing):
            value = thing.values.get(field)
            length = mm(thing.mm(field))
            if value is None or length <= 0:
                continue
            off = tolerance_of(guide, value)
            key = (SIDES[field], told(guide, thing, field), "" if off is None else told_mm(guide, off))
            found.setdefault(key, []).append(thing)
            sizes[key] = (length, None if off is None else float(off))
    made = []
    for key, sharing in found.items():
        side, said, off_said = key
        names = listed(list(dict.fromkeys(t.name for t in sharing)))
        tail = f", give or take {off_said}" if off_said else ", no tolerance stated"
        made.append(gauge(f"{sharing[0].id} {side}", f"{names}: {side} {said}", tail, *sizes[key]))
    return made


def tolerance_of(guide: Guide, value: Value) -> Fraction | None:
    """The tolerance of a cut, mm: the number's own, or the guide's; None if none is stated."""
    if value.plus_minus is not None:
        return value.plus_minus
    return guide.cut_tolerance.base if guide.cut_tolerance is not None else None


def gauge(id: str, name: str, tail: str, length: float, off: float | None) -> Pattern:
    """A bar from a stop at 0: between the go marks a piece is right, beyond them it is not.

    `length` and `off` in mm; the name and the `tail` stand above the bar, the stop at its left.
    """
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
        shapes.append(_between(low, high))
        shapes.append(Arrow((low, -HIGH / 2), 0.0, "frame", None, 2.4))
        shapes.append(Arrow((high, -HIGH / 2), 180.0, "frame", None, 2.4))
        shapes.append(segment((low - 6.0, -HIGH / 2), (low - 2.0, -HIGH / 2), "frame"))
        shapes.append(segment((high + 2.0, -HIGH / 2), (high + 6.0, -HIGH / 2), "frame"))
    lines = wrapped(name + tail, WIDE)
    for i, line in enumerate(lines):
        shapes.append(Text((-3.0, -HIGH - 4.0 - (len(lines) - 1 - i) * LINE_PITCH), line))
    return Pattern(id, name, tuple(shapes))


def _between(low: float, high: float) -> Hatch:
    """Upright strokes in the field where the end of a piece may lie, half a millimetre apart at most."""
    n = max(2, round((high - low) / 0.8))
    xs = [low + (high - low) * i / n for i in range(1, n)]
    return Hatch(tuple(((x, -1.6), (x, 0.0)) for x in xs), "hatch")


def _sheets(made: list[Pattern], origin: Origin, page: tuple[float, float]) -> list[Drawing]:
    area = working_area(page)
    laid: list[Laid] = []
    shapes: list[Shape] = []
    names: list[str] = []
    y = area.top
    long: list[str] = []
    for one in made:
        box = one.box
        if box.width > area.width:
            long.append(one.name)
            continue
        if y + box.height > area.bottom and shapes:
            laid.append(_laid(names, shapes))
            shapes, names, y = [], [], area.top
        shapes += [moved(s, area.left - box.left, y - box.top) for s in one.shapes]
        names.append(one.name)
        y += box.height + BETWEEN
    if long and shapes:
        y += 2.0
        words = "Longer than this sheet, measured with the ruler: " + "; ".join(long) + "."
        lines = wrapped(words, area.width)
        if y + len(lines) * LINE_PITCH > area.bottom:
            laid.append(_laid(names, shapes))
            shapes, names, y = [], [], area.top
        for i, line in enumerate(lines):
            shapes.append(Text((area.left, y + CAP_HEIGHT + i * LINE_PITCH), line))
    if shapes:
        laid.append(_laid(names, shapes))
    return [sheet_of(each, i + 1, len(laid), origin, page) for i, each in enumerate(laid)]


def _laid(names: list[str], shapes: list[Shape]) -> Laid:
    title = "Push one end against the black stop: the other end lies between the two marks, or at the one"
    return Laid(title, tuple(shapes), f"Gauges at true size: {'; '.join(names)}.")
