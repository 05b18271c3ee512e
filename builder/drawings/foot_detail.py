"""How far something round goes down through flat things that lie on one another, cut open and enlarged."""

from __future__ import annotations

from builder.drawings.alternative import listed
from builder.drawings.assembly import assemblies
from builder.drawings.bodies import camera_for
from builder.drawings.callouts import Callout
from builder.drawings.captions import with_caption
from builder.drawings.changes import Changes
from builder.drawings.columns import column
from builder.drawings.compose import anchors_of
from builder.drawings.detail import SCALES, WIDE, frame_of, within
from builder.drawings.ends import HEAD
from builder.drawings.fills import SECTION_PITCH, polygon_hatch
from builder.drawings.half_section import ANGLES
from builder.drawings.measure import CAP_HEIGHT
from builder.drawings.nesting import extent
from builder.drawings.of_bench import Sitting, thing_of
from builder.drawings.of_part import ends_of
from builder.drawings.project import new_line
from builder.drawings.shapes import (
    Arrow,
    Box,
    Drawing,
    Hatch,
    Point,
    Polyline,
    Shape,
    Text,
    finished,
    segment,
)
from builder.drawings.solids import Slab, Turned, inside_polygon
from builder.dryrun.bench import Seat
from builder.guide.model import Guide

HIGH = 32.0
"""What it goes through is at most so high on paper, mm."""

ABOVE, BELOW = 8.0, 5.0
"""So much is shown above the flat things and below them, mm on paper."""

FLUSH = 0.05
"""An end that is so near to a face is flush with it, mm."""


def foot_details(guide: Guide, step: Changes) -> list[Drawing]:
    """A detail for each round thing that the step stands in a hole of something flat; the first of those that
    are alike."""
    found: dict[str, Drawing] = {}
    seats = [step.bench.seats[i] for i in step.seated if step.bench.seats[i].side == "hole"]
    for a in assemblies(guide, step) if seats else ():
        for seat in seats:
            sitting, thing = a.settled.get(seat.child), thing_of(guide, seat.child)
            if sitting is None or thing is None or thing.id in found:
                continue
            made = _detail(guide, seat, sitting, a.settled)
            if made is not None:
                found[thing.id] = made
    return list(found.values())


def _detail(guide: Guide, seat: Seat, standing: Sitting, settled: dict[str, Sitting]) -> Drawing | None:
    """The plane of the cut is upright, through the axis; None if it does not stand upright in flat things."""
    rod = standing.solid
    if not isinstance(rod, Turned) or abs(standing.pose.ex[2]) < 1 - 1e-6:
        return None
    x, y, _ = standing.pose.origin
    flat = [i for i, s in settled.items() if _holds(s, standing)]
    if not flat:
        return None
    levels = {i: _levels(settled[i]) for i in flat}
    low, high = min(z for z, _ in levels.values()), max(z for _, z in levels.values())
    fits = [s for s in SCALES if (high - low) * s[2] <= HIGH and 4 * rod.largest * s[2] <= WIDE]
    on, of, k = fits[-1] if fits else SCALES[0]
    camera = camera_for("side", k)
    middle = camera.paper((x, 0.0, 0.0))[0]
    region = Box(middle - WIDE / 2, -high * k - ABOVE, middle + WIDE / 2, -low * k + BELOW)
    shapes: list[Shape] = []
    for turn, i in enumerate(flat):
        shapes += _cut(i, settled[i], levels[i], y, k, ANGLES[turn % len(ANGLES)], region)
    foot, head = sorted(standing.pose.world((s, 0.0, 0.0))[2] for s in (rod.start, rod.end))
    line, r = new_line(2 * rod.largest * k), rod.largest * k
    left, right = middle - r, middle + r
    around = ((left, -head * k), (left, -foot * k), (right, -foot * k), (right, -head * k))
    shapes += within(Polyline(around, line, seat.child), region)
    shapes.append(segment((middle, region.top), (middle, min(region.bottom, -foot * k + 3.0)), "centre"))
    shapes.append(frame_of(region))
    return _named(guide, seat, flat, shapes, region, f"{on} : {of}", (foot, low, -foot * k, middle + r * 0.6))


def _holds(flat: Sitting, standing: Sitting) -> bool:
    """True if something round goes into a hole of a flat thing that lies level."""
    if not isinstance(flat.solid, Slab) or abs(flat.pose.ez[2]) < 1 - 1e-6:
        return False
    x, y, _ = flat.pose.local(standing.pose.origin)
    assert isinstance(standing.solid, Turned)
    ends = (standing.pose.world((s, 0.0, 0.0)) for s in (standing.solid.start, standing.solid.end))
    low, high = sorted(flat.pose.local(end)[2] for end in ends)
    reaches = low < flat.solid.thickness - FLUSH and high > FLUSH
    return reaches and any(inside_polygon((x, y), hole) for hole in flat.solid.holes)


def _levels(flat: Sitting) -> tuple[float, float]:
    """The heights of a level thing's two faces in the world, the lower one first."""
    assert isinstance(flat.solid, Slab)
    a, b = sorted(flat.pose.world((0.0, 0.0, z))[2] for z in (0.0, flat.solid.thickness))
    return a, b


def _cut(
    item: str, flat: Sitting, levels: tuple[float, float], y: float, k: float, angle: float, region: Box
) -> list[Shape]:
    """The faces of a flat thing to both sides of its hole, cut along the world's x."""
    assert isinstance(flat.solid, Slab)

    def plan(points: tuple[Point, ...]) -> tuple[Point, ...]:
        return tuple(flat.pose.world((px, py, 0.0))[:2] for px, py in points)

    whole = extent(plan(flat.solid.outline), y)
    holes = [span for hole in flat.solid.holes if (span := extent(plan(hole), y)) is not None]
    if whole is None:
        return []
    edges = [whole[0], *(x for span in sorted(holes) for x in span), whole[1]]
    top, bottom = -levels[1] * k, -levels[0] * k
    found: list[Shape] = []
    for left, right in zip(edges[::2], edges[1::2], strict=True):
        a, b = max(left * k, region.left), min(right * k, region.right)
        if b - a < 0.1:
            continue
        face = ((a, top), (b, top), (b, bottom), (a, bottom))
        found += within(Polyline(face, "section", item, closed=True), region)
        runs = polygon_hatch(face, angle, SECTION_PITCH)
        found += [Hatch(tuple(runs), "hatch", item)] if runs else []
    return found


def _named(
    guide: Guide,
    seat: Seat,
    flat: list[str],
    shapes: list[Shape],
    region: Box,
    words: str,
    foot: tuple[float, float, float, float],
) -> Drawing:
    """The detail with its names; an end that is flush with the lowest face says so."""
    at, low, level, beside = foot
    names: dict[str, str] = {}
    for i in (seat.child, *flat):
        thing = thing_of(guide, i)
        names[i] = thing.name if thing is not None else i
    anchors = anchors_of(shapes)
    for i in flat:  # on the side of the names, where no leader crosses what stands in the hole
        corners = [p for s in shapes if s.part == i and isinstance(s, Polyline) for p in s.points]
        if not corners:
            continue  # its hole is wider than what is shown
        left = min((x for x, _ in corners if x > beside), default=beside)
        right, ys = max(x for x, _ in corners), [y for _, y in corners]
        y = (min(ys) + max(ys)) / 2
        anchors[i] = tuple((left + (right - left) * share, y) for share in (0.5, 0.35, 0.65))
    callouts = [Callout(name, i, anchors[i]) for i, name in names.items() if anchors.get(i)]
    thing = thing_of(guide, seat.child)
    end = ends_of(thing)[0] if thing is not None else ""
    said = f"Enlarged, at {words}, cut open: the {names[seat.child]} in the "
    said += listed([names[i] for i in reversed(flat)])
    if abs(at - low) < FLUSH and end:
        # from below, so that its leader runs neither along the face nor through it
        tip, tail = (beside, level), (beside, region.bottom + CAP_HEIGHT + 2.0)
        shapes.append(segment(tail, (beside, level + HEAD * 0.8), "leader"))
        shapes.append(Arrow(tip, 270.0, "leader", None, HEAD))
        shapes.append(Text((beside + 1.5, tail[1]), f"{end}: flush"))
        said += f"; {end}: flush with the underside of the {names[flat[0]]}"
    layout = column(callouts, region.right + 9, shapes=shapes)
    return with_caption(finished("", f"{said}.", [*shapes, *layout.shapes]), f"enlarged, {words}")
