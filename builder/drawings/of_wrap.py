"""What goes round something: a blank rolled into a tube, and a strip wound in a helix.

A rolled tube has two pictures: the blank laid flat with the former at its edge and the glue that is laid
on it, and the end of the tube with its turns drawn apart, since real turns are thinner than a line.  A
helix has its true angle and its true overlap: the strip is drawn on the tube as it lies there.
"""

from __future__ import annotations

from math import cos, pi, radians, sin, tan
from typing import NamedTuple

from builder.drawings.callouts import Callout, flags
from builder.drawings.columns import column
from builder.drawings.developments import Wrap, helical_wrap
from builder.drawings.dimensions import Linear, angular, below, beside
from builder.drawings.fills import GLUE_PITCH, polygon_hatch
from builder.drawings.geometry import clipped
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
    circle,
    finished,
    in_a_row,
    segment,
)
from builder.drawings.words import told, told_angle_of
from builder.dryrun.run import Frame
from builder.guide.model import Guide, Thing

APART = 2.4
"""Distance of two turns of a rolled tube as drawn, mm on paper."""

CORE = 9.0
"""Radius of the former as drawn in the end view, mm on paper."""

MOST_TURNS = 6
"""Of more turns than these so many are drawn."""


class Rolled(NamedTuple):
    """What a rolling needs to be drawn: names, the blank's two sides in mm, turns, where the glue begins."""

    tube: Thing
    blank: str
    former: str
    around: float
    along: float
    bore: float
    turns: int
    glue: str = ""
    from_turn: int = 1
    sizes: tuple[str, str] = ("", "")
    """The blank's two sides in words: that which goes round, that which lies along the former."""


def rolled_of(guide: Guide, frame: Frame) -> Rolled | None:
    """The facts of a rolling that makes a tube; None if one is unknown."""
    action = frame.action
    makes, what, former = action.ref("makes"), action.ref("what"), action.ref("around")
    tube = guide.things.get(makes.id) if makes is not None else None
    blank = guide.things.get(what.id) if what is not None else None
    core = guide.things.get(former.id) if former is not None else None
    if tube is None or blank is None or core is None:
        return None
    turns, bore = tube.mm("turns"), mm(core.mm("diameter"))
    sides = sorted((mm(blank.mm("length")), mm(blank.mm("width"))))
    along = mm(tube.mm("length"))
    around = max(sides, key=lambda s: abs(s - along))
    glue = next((t for t in (guide.things.get(r.id) for r in action.refs("with")) if t is not None), None)
    first = action.value("from_turn")
    if turns is None or min(bore, around, along) <= 0:
        return None
    name = f"blank for the {tube.name}" if blank.blank_of else blank.name
    return Rolled(
        tube, name, core.name, around, along, bore, int(turns),
        glue.name if glue is not None and glue.form == "adhesive" else "",
        int(first.base) if first is not None and first.base is not None else 1,
        _sizes(guide, blank, around),
    )  # fmt: skip


def _sizes(guide: Guide, blank: Thing, around: float) -> tuple[str, str]:
    """The two sides of a blank in words, that first which is so long, mm."""
    fields = sorted(("length", "width"), key=lambda field: abs(mm(blank.mm(field)) - around))
    return told(guide, blank, fields[0]), told(guide, blank, fields[1])


def rolled(roll: Rolled, title: str, size: tuple[float, float]) -> Drawing:
    """The blank with its former, and the turns seen from the end, beside one another."""
    flat = _flat(roll, (size[0] * 0.42, size[1] - 20))
    ends = _turns(roll)
    both = in_a_row([flat, ends], title, size[0])
    return both._replace(alt=f"{flat.alt} {ends.alt}")


def _flat(roll: Rolled, size: tuple[float, float]) -> Drawing:
    """The blank from above, the former lying along its left edge, and the way that it is rolled."""
    scale = min(max(size[0] - 24, 28.0) / (roll.around + roll.bore), size[1] / (roll.along * 1.1))
    wide, high, thick = roll.around * scale, roll.along * scale, roll.bore * scale
    thick = max(thick, 4.0)
    sheet = ((0.0, 0.0), (wide, 0.0), (wide, high), (0.0, high))
    rod = ((-thick, -4.0), (0.0, -4.0), (0.0, high + 4.0), (-thick, high + 4.0))
    id = roll.tube.id
    shapes: list[Shape] = [
        Polyline(sheet, "new", id, closed=True),
        Polyline(rod, "outline", None, closed=True),
    ]
    callouts = [
        Callout(roll.former, "former", ((-thick / 2, -4.0),)),
        Callout(roll.blank, id, ((wide * 0.97, 0.0),)),
    ]
    said = [
        f"The {roll.blank} lies flat, the {roll.former} along its edge; "
        "an arrow shows the way to roll."
    ]
    if roll.glue:
        # the first turn ends once round the former; each later one lies a little farther out
        dry = min(pi * roll.bore * (roll.from_turn - 1) * scale, wide)
        zone = ((dry, 0.5), (wide - 0.5, 0.5), (wide - 0.5, high - 0.5), (dry, high - 0.5))
        shapes.append(Hatch(tuple(polygon_hatch(zone, 90.0, GLUE_PITCH * 2)), "glue", None))
        callouts.append(Callout(roll.glue, "glue", ((dry + (wide - dry) * 0.35, 2.0),)))
        if roll.from_turn > 1:
            shapes.append(segment((dry, 0.0), (dry, high), "thin"))
            turns = "first turn" if roll.from_turn == 2 else f"first {roll.from_turn - 1} turns"
            callouts.append(Callout(f"no glue: {turns}", "dry", ((dry / 2, 0.0),)))
            said.append(f"No glue: {turns}; the {roll.glue} begins at turn {roll.from_turn}.")
        else:
            said.append(f"The {roll.glue} lies all over it.")
    outline = Box(-thick, -4.0, wide, high + 4.0)
    level = [Linear(roll.sizes[0], (0.0, high), (wide, high))] if roll.sizes[0] else []
    upright = [Linear(roll.sizes[1], (wide, 0.0), (wide, high), "across")] if roll.sizes[1] else []
    sizes = (below(level, outline), beside(upright, outline, side="right"))
    said += [f"Dimensions shown: {' by '.join(roll.sizes)}."] if level and upright else []
    top = max([outline.bottom, *(box.bottom for box in sizes[0].boxes)]) + 4.0
    # it rolls: the arrow leaves the former, and comes down on the blank
    arc = Arc((-thick / 2 + 11.0, top + 8.0), 11.0, 8.0, "way", None, 0.0, 180.0, 165.0)
    shapes += [*sizes[0].shapes, *sizes[1].shapes, arc]
    shapes.append(Arrow((-thick / 2 + 22.4, top + 9.6), 80.0, "way", None, 4.5))
    highest = min([outline.top, *(box.top for box in sizes[1].boxes)])
    shapes += flags(callouts, outline, highest, shapes).shapes
    return finished("", " ".join(said), shapes)


def _turns(roll: Rolled) -> Drawing:
    """The end of the tube: the turns as one line that winds outwards, glue between them as dots."""
    turns = min(roll.turns, MOST_TURNS)
    n = 36

    def at(share: float, off: float = 0.0) -> Point:
        r = CORE + 1.0 + share * APART + off
        a = 2 * pi * share - pi / 2
        return (r * cos(a), r * sin(a))

    winding = tuple(at(i / n) for i in range(turns * n + 1))
    shapes: list[Shape] = [circle((0, 0), CORE, "outline"), Polyline(winding, "new", roll.tube.id)]
    callouts = [
        Callout(roll.former, "former", ((CORE * 0.7, CORE * 0.7),)),
        Callout(f"{roll.turns} turns", roll.tube.id, (at(turns - 0.9),)),
    ]
    said = f"The end of the roll: {roll.turns} turns round the {roll.former}, drawn apart."
    if roll.glue and roll.from_turn <= turns:
        first = max(roll.from_turn - 1, 1)
        dots = tuple(
            (at(i / n, -APART / 2), at((i + 1) / n, -APART / 2)) for i in range(first * n, turns * n)
        )
        shapes.append(Hatch(dots, "glue", None))
        callouts.append(Callout(roll.glue, "glue", (at(turns - 0.75, -APART / 2),)))
    if turns < roll.turns:
        said += f" {turns} of them are drawn."
    reach = CORE + 1.0 + turns * APART
    shapes += column(callouts, reach + 8, shapes=shapes).shapes
    return finished("", said, shapes)


# -- a strip wound in a helix ------------------------------------------------------------------------


class Helix(NamedTuple):
    """A strip round a core: diameters, widths and length in mm."""

    strip: str
    core: str
    diameter: float
    width: float
    length: float
    overlap: float
    id: str = ""


def helix_of(guide: Guide, frame: Frame) -> Helix | None:
    """The facts of a wrapping whose strip is narrower than the tube that it makes is long, with the overlap
    that the strip's own length gives; None if it is no helix or a number is unknown."""
    action = frame.action
    what, around, makes = action.ref("what"), action.ref("around"), action.ref("makes")
    strip = thing_of(guide, what.id) if what is not None else None
    core = thing_of(guide, around.id) if around is not None else None
    tube = guide.things.get(makes.id) if makes is not None else None
    if strip is None or core is None or tube is None or strip.form not in ("strip", "tape"):
        return None
    diameter, length = mm(core.mm("diameter") or core.mm("outside")), mm(tube.mm("length"))
    width, strip_length = mm(strip.mm("width")), mm(strip.mm("length"))
    if min(diameter, length, width) <= 0 or not width < length or width >= pi * diameter:
        return None
    overlap = _overlap(diameter, width, length, strip_length) if strip_length > 0 else 0.0
    return Helix(strip.name, core.name, diameter, width, length, overlap, tube.id)


def _overlap(diameter: float, width: float, length: float, strip: float) -> float:
    """The overlap at which an uncut strip of a length just covers a tube, mm; 0 if it is too short.

    A strip that laps more is longer, so halving finds it.
    """
    low, high = 0.0, width * 0.95
    if helical_wrap(diameter, width, length, low).uncut >= strip:
        return 0.0
    for _ in range(50):
        middle = (low + high) / 2
        if helical_wrap(diameter, width, length, middle).uncut < strip:
            low = middle
        else:
            high = middle
    return low


def helix(wound: Helix, title: str, size: tuple[float, float]) -> Drawing:
    """A tube from the side with the strip half wound on: its edges are the true curves of the helix.

    On the visible half of a cylinder a helix of pitch p runs from x to x + p/2 as x = s p / (2 pi),
    height = R sin(s); the strip's far edge lies its width over cos(angle) farther along the tube.
    """
    wrap = helical_wrap(wound.diameter, wound.width, wound.length, wound.overlap)
    scale = min((size[0] - 50) / wound.length, (size[1] - 30) / wound.diameter, 2.5)
    length, r = wound.length * scale, wound.diameter / 2 * scale
    outline = Box(0.0, -r, length, r)
    corners = ((0.0, -r), (length, -r), (length, r), (0.0, r))
    shapes: list[Shape] = [Polyline(corners, "outline", None, closed=True)]
    pitch = wrap.pitch * scale
    lap = wound.overlap / cos(radians(wrap.angle)) * scale
    starts = [k * pitch - pitch / 2 for k in range(int(length * 0.65 / pitch) + 2)]
    laps: list[Shape] = []
    for number, start in enumerate(starts):
        shapes += _edge(start, pitch, r, outline, "new", wound.id)
        if wound.overlap > 0 and number:
            # the edge of the turn before lies under this one
            laps += _edge(start + lap, pitch, r, outline, "hidden", wound.id)
    middle = starts[len(starts) // 2]
    shapes += laps
    # the angle is that of the strip where it crosses the middle line, to a line straight round; both lines
    # are drawn on below the tube
    lean = tan(radians(wrap.angle))
    x, far = middle + pitch / 4, r + 6.9
    shapes += [
        segment((x, 0.0), (x, far), "extension"),
        segment((x, 0.0), (x + far * lean, far), "extension"),
    ]
    shapes += angular(told_angle_of(wrap.angle), (x, 0.0), r + 6.0, (x + far * lean, far), (x, far)).shapes
    callouts = [
        Callout(wound.core, "core", ((length * 0.93, -r),)),
        Callout(wound.strip, wound.id, ((middle - pitch * 0.6, -r * 0.4),)),
    ]
    if laps:
        callouts.append(Callout("overlap", wound.id, ((middle + pitch / 4 + lap / 2, 0.0),)))
    shapes += flags(callouts, outline, outline.top, shapes).shapes
    return finished(title, _helix_alt(wound, wrap), shapes)


def _edge(start: float, pitch: float, r: float, frame: Box, line: str, part: str) -> list[Shape]:
    """The visible half turn of one edge, as far as it lies on the tube."""
    n = 24
    points = [(start + pitch / 2 * i / n, -r * cos(pi * i / n)) for i in range(n + 1)]
    kept: list[Point] = []
    found: list[Shape] = []
    for a, b in zip(points, points[1:], strict=False):
        run = clipped(a, b, frame.grown(1e-6))
        if run is None:
            if len(kept) > 1:
                found.append(Polyline(tuple(kept), line, part))
            kept = []
            continue
        if not kept:
            kept = [run[0]]
        kept.append(run[1])
    if len(kept) > 1:
        found.append(Polyline(tuple(kept), line, part))
    return found


def _helix_alt(wound: Helix, wrap: Wrap) -> str:
    said = (
        f"Side view. The {wound.strip} is wound round the {wound.core} in a helix, at "
        f"{told_angle_of(wrap.angle)} to a line straight round."
    )
    if wound.overlap > 0:
        said += " Each turn laps over the one before; a dashed line shows the edge beneath."
    else:
        said += " Each turn meets the one before edge to edge."
    return f"{said} New in this step: {wound.strip}."
