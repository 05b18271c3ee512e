"""Developed view: the outside of a tube unrolled flat, with its marks, glue and what stands on it.

Along the tube runs to the right; round the tube runs down, from the line at 0 degrees.  Both at one
scale, so that a distance on the drawing is a distance on the tube's skin.
"""

from __future__ import annotations

from math import pi
from typing import NamedTuple

from builder.drawings.alternative import listed, sides_told
from builder.drawings.callouts import Callout, flags
from builder.drawings.captions import with_caption
from builder.drawings.columns import column
from builder.drawings.compose import LARGEST, SIZE, WIDE
from builder.drawings.dimensions import Linear, below, beside
from builder.drawings.fills import GLUE_PITCH, NEW_PITCH, polygon_hatch
from builder.drawings.measure import CAP_HEIGHT, text_width
from builder.drawings.shapes import Box, Drawing, Hatch, Point, Polyline, Shape, Text, finished, segment
from builder.drawings.window import SHORT, Window, break_lines


class On(NamedTuple):
    """Something on the skin: from x0 to x1 along, from a0 to a1 degrees round.

    `kind`: "mark" (a line if x0 = x1 or a0 = a1), "glue", "part" (where a thing stands or lies).
    """

    id: str
    name: str
    kind: str
    x0: float
    x1: float
    a0: float
    a1: float
    new: bool = False


class Skin(NamedTuple):
    """A tube's outside: its length and outer diameter, mm, and the names of its ends."""

    id: str
    name: str
    length: float
    outside: float
    ends: tuple[str, str] = ("", "")


class Span(NamedTuple):
    """A dimension on the skin: along from x0 to x1, or round from a0 to a1 degrees at station x0."""

    text: str
    x0: float
    x1: float
    a0: float = 0.0
    a1: float = 0.0


def developed(
    title: str,
    skin: Skin,
    things: tuple[On, ...],
    spans: tuple[Span, ...] = (),
    size: tuple[float, float] = SIZE,
) -> Drawing:
    """The outside of a tube laid flat."""
    round_it = pi * skin.outside
    shown, broken = _shown(skin, things, spans)
    ends = (skin.ends[0], f"to {skin.ends[1]}" if broken and skin.ends[1] else skin.ends[1])
    skin = skin._replace(length=shown, ends=ends)
    things = tuple(t._replace(x1=min(t.x1, shown)) for t in things if t.x0 < shown)
    sides = 2 * max((text_width(e) + 7 for e in skin.ends if e), default=0.0)
    scale = min((size[0] - sides) / skin.length, size[1] / round_it, LARGEST)

    def paper(x: float, degrees: float) -> Point:
        return (x * scale, degrees / 360 * round_it * scale)

    outline = Box(0, 0, skin.length * scale, round_it * scale)
    corners = (paper(0, 0), paper(skin.length, 0), paper(skin.length, 360), paper(0, 360))
    shapes: list[Shape] = [Polyline((corners[1], corners[0], corners[3], corners[2]), "outline", skin.id)]
    right = break_lines(Window(0.0, skin.length, (False, broken)), scale, outline)
    shapes += right or [segment(corners[1], corners[2], "outline", skin.id)]
    callouts: dict[str, Callout] = {}
    for on in things:
        a, b = paper(on.x0, on.a0), paper(on.x1, on.a1)
        flat = abs(b[0] - a[0]) < 0.05 or abs(b[1] - a[1]) < 0.05
        box: tuple[Point, ...] = (a, (b[0], a[1]), b, (a[0], b[1]))
        if on.kind == "mark":
            line = "new_mark" if on.new else "mark"
            shapes.append(segment(a, b, line, on.id) if flat else Polyline(box, line, on.id, closed=True))
        elif on.kind == "glue":
            shapes.append(Hatch(tuple(polygon_hatch(box, 90.0, GLUE_PITCH)), "glue", on.id))
        else:
            box = box if on.new else _wide_enough(a, b, outline)
            shapes.append(Polyline(box, "new" if on.new else "thin", on.id, closed=True))
            if on.new and not flat:
                shapes.append(Hatch(tuple(polygon_hatch(box, 45.0, NEW_PITCH)), "new_hatch", on.id))
        places = tuple((a[0] + (b[0] - a[0]) * s, a[1] + (b[1] - a[1]) * s) for s in (0.5, 0.3, 0.7, 0.9))
        old = callouts.get(on.name)
        callouts[on.name] = Callout(on.name, on.id, (old.anchors if old else ()) + places)
    level = [Linear(s.text, paper(s.x0, 360), paper(s.x1, 360)) for s in spans if s.a0 == s.a1]
    upright = [Linear(s.text, paper(s.x0, s.a0), paper(s.x0, s.a1), "across") for s in spans if s.a0 != s.a1]
    words = _ends(skin, outline)
    boxes = [w.box() for w in words]
    low = below(level, outline, boxes)
    side = beside(upright, outline, [*boxes, *low.boxes])
    names = list(callouts.values())
    flat_out = f"{skin.name}, rolled out flat"
    if outline.width > WIDE * outline.height:
        top = tuple(paper(skin.length * s, 0) for s in (0.8, 0.9, 0.7, 0.6))
        names.append(Callout(flat_out, skin.id, top))
        calls = flags(names, outline, min([outline.top, *(b.top for b in side.boxes)]), shapes)
    else:
        edge = max([outline.right, *(b.right for b in boxes)])
        edges = [paper(0, a)[1] for t in things for a in (t.a0, t.a1)] + [outline.top, outline.bottom]
        calls = column(names, edge + 9, avoid=[*low.boxes, *side.boxes], edges=tuple(edges), shapes=shapes)
    shapes += [*words, *low.shapes, *side.shapes, *calls.shapes]
    made = finished(title, _alt(skin, things, spans), shapes)
    # beside a tall skin the ends have their names: its own then stands over it
    return made if any(c.text == flat_out for c in names) else with_caption(made, flat_out)


FOOT = 1.3
"""The foot of what stands on the skin already is drawn at least so wide, mm on paper: with white between its
edges it is not taken for a line."""


def _wide_enough(a: Point, b: Point, skin: Box) -> tuple[Point, ...]:
    """The corners of a box, widened about its middle, within the skin, to FOOT."""
    x0, x1 = _widened(a[0], b[0], skin.left, skin.right)
    y0, y1 = _widened(a[1], b[1], skin.top, skin.bottom)
    return ((x0, y0), (x1, y0), (x1, y1), (x0, y1))


def _widened(low: float, high: float, least: float, most: float) -> tuple[float, float]:
    wide = max(FOOT, high - low)
    start = min(max((low + high - wide) / 2, least), most - wide)
    return start, start + wide


BEYOND = 1.35
"""So much more than what is drawn on it, a skin that is broken off is long."""


SQUAT = 0.7
"""A skin that is broken off is at least so long for its width."""


def _shown(skin: Skin, things: tuple[On, ...], spans: tuple[Span, ...]) -> tuple[float, bool]:
    """How much of the skin is drawn, from its small end, mm, and whether it goes on."""
    far = max([t.x1 for t in things if t.new] + [s.x1 for s in spans], default=skin.length)
    wanted = max(far * BEYOND, SQUAT * pi * skin.outside)
    return (wanted, True) if wanted < SHORT * skin.length else (skin.length, False)


def _ends(skin: Skin, outline: Box) -> list[Text]:
    # where names stand beside it their leaders pass the middle, at which there may be lines, too
    share = 0.5 if outline.width > WIDE * outline.height else 0.875
    y = outline.top + outline.height * share + CAP_HEIGHT / 2
    found = []
    if skin.ends[0]:
        found.append(Text((outline.left - 4, y), skin.ends[0], "end"))
    if skin.ends[1]:
        found.append(Text((outline.right + 4, y), skin.ends[1]))
    return found


def _alt(skin: Skin, things: tuple[On, ...], spans: tuple[Span, ...]) -> str:
    said = [f"The outside of the {skin.name}, rolled out flat; its ends meet above and below."]
    if skin.ends[0]:
        said += sides_told(skin.ends)
    for new, start in ((False, "Already there"), (True, "New in this step")):
        names = list(dict.fromkeys(t.name for t in things if t.new == new))
        if names:
            said.append(f"{start}: {listed(names)}.")
    if spans:
        said.append(f"Dimensions shown: {listed([s.text for s in spans])}.")
    return " ".join(said)
