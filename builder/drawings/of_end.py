"""The end of a cord that is folded back on itself and taped down, drawn large: the loop, then the tab on it.

A line that is folded back under its tape cannot be pulled straight out, so the fold is what to look at.
"""

from __future__ import annotations

from math import cos, pi, radians, sin, tan
from typing import NamedTuple

from builder.drawings.callouts import Callout, flags
from builder.drawings.dimensions import Linear, below
from builder.drawings.fills import NEW_PITCH, polygon_hatch
from builder.drawings.of_bench import thing_of
from builder.drawings.of_part import mm
from builder.drawings.shapes import (
    Box,
    Drawing,
    Hatch,
    Point,
    Polyline,
    Shape,
    finished,
    in_a_row,
)
from builder.drawings.words import told
from builder.dryrun.run import Frame
from builder.guide.model import Guide
from builder.guide.wording.saying import literal
from builder.guide.wording.scan import words_of

APART = 3.4
"""Distance of the end from its line beside it, mm on paper: so far that the loop is open."""

OUT = 16.0
"""How far the line is drawn beyond the corner, mm on paper."""


class End(NamedTuple):
    """A cord's end at a corner: names and ids, how long the fold is and the tab's sides, mm on paper; the
    corner's angle in degrees, 180 for an edge."""

    cord: str
    cord_id: str
    host: str
    host_id: str
    tab: str
    tab_id: str
    back: float
    tab_size: tuple[float, float]
    corner: float
    back_text: str


def end_of(guide: Guide, frame: Frame, size: tuple[float, float]) -> End | None:
    """The end that an action tapes down folded back, as its own words say; None if they do not."""
    action = frame.action
    what, to = action.refs("what"), action.refs("to")
    if not what or not to or action.say is None:
        return None
    if "fold" not in {word.text for word in words_of(literal(action.say))}:
        return None
    cord, host = thing_of(guide, what[0].id), thing_of(guide, to[0].id)
    tab = next((guide.things[r.id] for r in action.refs("with") if r.id in guide.things), None)
    if cord is None or host is None or cord.form != "cord":
        return None
    sides = mm(host.mm("sides"))
    spot = action.spot("at")
    corner = 180 - 360 / sides if sides >= 3 and spot is not None and spot.kind == "corner" else 180.0
    back = mm(cord.mm("knots_take"), 20.0)
    scale = min(1.0, size[0] * 0.25 / back)
    long, wide = (mm(tab.mm("length"), 1.4 * back), mm(tab.mm("width"), 0.7 * back)) if tab else (0.0, 0.0)
    return End(
        cord.name, _first(frame, cord.id), host.name, host.id, tab.name if tab else "",
        _first(frame, tab.id) if tab else "", back * scale, (long * scale, wide * scale), corner,
        told(guide, cord, "knots_take"),
    )  # fmt: skip


def _first(frame: Frame, thing: str) -> str:
    return thing if thing in frame.after.items else f"{thing} 1"


def folded_end(end: End, title: str, width: float) -> Drawing:
    """Two pictures in a row: the end folded back, and the tab over it."""
    loop = _picture(end, taped=False)
    made = [loop, _picture(end, taped=True)] if end.tab else [loop]
    row = in_a_row(made, title, width)
    return row._replace(alt=" ".join(d.alt for d in made))


def _picture(end: End, *, taped: bool) -> Drawing:
    """The corner at the origin, pointing right; its line comes in from the right."""
    reach = max(end.back + 6.0, end.tab_size[0] * 0.75)
    high = max(reach * tan(radians(90 - end.corner / 2)), end.tab_size[1] * 0.5 + 4.0)
    slope = tan(radians(90 - end.corner / 2))
    at = (-high * slope, high)
    shapes: list[Shape] = [Polyline(((at[0], -high), (0.0, 0.0), at), "outline", end.host_id)]
    level, apart = -APART / 2, APART / 2
    turn = [(-end.back - apart * sin(pi * i / 12), -apart * cos(pi * i / 12)) for i in range(13)]
    cord: list[Point] = [(OUT, level), *turn, (-1.5, apart)]
    shapes.append(Polyline(tuple(cord), "new", end.cord_id))
    outline = Box(at[0], -high, OUT, high)
    said = f"The end of the {end.cord} lies at the corner of the {end.host}, folded back on itself"
    callouts = [Callout(end.cord, end.cord_id, ((OUT * 0.6, level), (OUT * 0.3, level)))]
    dims: list[Linear] = []
    if taped:
        long, wide = end.tab_size
        x0, y0 = -end.back * 0.5 - long / 2, -wide / 2
        ring = ((x0, y0), (x0 + long, y0), (x0 + long, -y0), (x0, -y0))
        shapes.append(Polyline(ring, "new", end.tab_id, closed=True))
        shapes.append(Hatch(tuple(polygon_hatch(ring, 45.0, NEW_PITCH)), "new_hatch", end.tab_id))
        outline = outline.union(Box(x0, y0, x0 + long, -y0))
        callouts.append(Callout(end.tab, end.tab_id, ((x0 + long * 0.3, y0),)))
        said = f"Then the {end.tab} lies over the fold"
    else:
        callouts.append(Callout(end.host, end.host_id, ((at[0] * 0.7, -high * 0.7),)))
        if end.back_text:
            dims.append(Linear(end.back_text, (-end.back, apart), (0.0, apart)))
    low = below(dims, outline)
    shapes += [*low.shapes, *flags(callouts, outline, outline.top, shapes).shapes]
    tail = f" Dimensions shown: {end.back_text}." if dims else ""
    return finished("", f"{said}.{tail}", shapes)
