"""A bench and what a step changed on it, as the Scene that a view looks at.

Dimensions are the ones that the step's own places rest on: how far from the end that it is measured
from a mark, a bead of glue or a part's face lies, and what is left standing out; no others.
"""

from __future__ import annotations

from fractions import Fraction
from math import degrees

from builder.drawings.changes import Changes
from builder.drawings.of_bench import Sitting, placed, thing_of
from builder.drawings.of_part import ends_of
from builder.drawings.scene import Band, Dim, Mark, Scene
from builder.drawings.solids import Slab, Turned
from builder.drawings.vectors import Vec, round_axis
from builder.drawings.words import told_angle, told_mm, told_value
from builder.dryrun.bench import Bench, Joint, Wet
from builder.dryrun.bench import Mark as Drawn
from builder.dryrun.run import Frame
from builder.dryrun.shape import axes_of
from builder.guide.model import Action, Guide, Spot, Thing
from builder.trade.ends import is_origin

HALF_BEAD = 1.5
"""A bead of glue along a line is drawn so far to either side of it, mm."""

PLACES = ("to", "at", "inside", "outside", "top", "under")
"""The fields of an action that may hold a place."""

SITS = {
    "inside": "inside",
    "outside": "on the outside of",
    "top": "on top of",
    "under": "on the under face of",
    "hole": "in the hole of",
    "end": "in the end of",
    "taped": "taped to",
    "tied": "tied to",
    "fold": "held in the fold of",
    "loose": "lying in",
}
"""How a seat's side is said."""

Settled = dict[str, Sitting]


def scene_of(guide: Guide, step: Changes, root: str, settled: Settled, title: str) -> Scene:
    """Everything on one root, with the step's glue, marks and dimensions."""
    new = {i for i in step.new if i in settled}
    named = _to_name(step, settled, new)
    dims = dims_of(guide, step, root, settled)
    where = _sits(guide, step, settled)
    parts = tuple(
        placed(guide, i, s, new=i in new, label=i in named, sits=where.get(i, "")) for i, s in settled.items()
    )
    marks = [m for m in step.bench.marks.values() if m.host in settled]
    new_marks = {m.id for m in step.marks}
    return Scene(
        title,
        parts,
        tuple(bands_of(guide, step, settled)),
        tuple(line for m in marks for line in mark_lines(guide, step.bench, m, settled, m.id in new_marks)),
        tuple(dims),
        _ends(guide, root),
    )


def _ends(guide: Guide, root: str) -> tuple[str, str]:
    thing = thing_of(guide, root)
    return ("", "") if thing is None else ends_of(thing)


def _to_name(step: Changes, settled: Settled, new: set[str]) -> set[str]:
    """What gets its name: all of a small assembly; else what is new, what it sits on, and what is handled."""
    if len({i.rpartition(" ")[0] or i for i in settled}) <= 5:
        return set(settled)
    seats = [step.bench.seats[i] for i in new if i in step.bench.seats]
    hosts = {s.host for s in seats}
    glued = {w.host for w in step.wets} | {m.host for m in step.marks}
    handled = set(step.touched) if not new else set()
    return new | hosts | glued | handled


# -- glue ---------------------------------------------------------------------------------------------


def bands_of(guide: Guide, step: Changes, settled: Settled) -> list[Band]:
    """Wet glue that lies open, and glue that the step's joints closed on or that a wait lets dry."""
    found: list[Band] = []
    for wet in step.bench.wets:
        if wet.host in settled:
            found += _wet(guide, wet, settled)
    waiting = any(f.action.verb.kind == "wait" for f in step.frames)
    start = step.before.clock
    for joint in step.bench.joints:
        if not joint.adhesive or not (joint.a in settled and joint.b in settled) or joint.a == joint.b:
            continue
        glue = guide.things[joint.adhesive]
        needed = glue.mm("full_cure") or glue.mm("set") or Fraction(0)
        drying = waiting and start - joint.closed < needed
        if joint in step.joints or drying:
            found += _joint(guide, step.bench, joint, settled, drying)
    return found


def _wet(guide: Guide, wet: Wet, settled: Settled) -> list[Band]:
    name = guide.things[wet.adhesive].name
    solid = settled[wet.host].solid
    if isinstance(solid, Turned):
        if wet.stretch is None or wet.side not in ("inside", "outside"):
            return []
        lo, hi = float(wet.stretch[0]), float(wet.stretch[1])
        a0, a1 = (0.0, 360.0)
        if wet.angle is not None:
            spread = degrees(HALF_BEAD / max(solid.largest, 1.0))
            a0, a1 = float(wet.angle) - spread, float(wet.angle) + spread
        return [Band(wet.host, wet.side, lo, hi if hi > lo else lo + HALF_BEAD, a0, a1, name)]
    thing = thing_of(guide, wet.host)
    if not isinstance(solid, Slab) or thing is None:
        return []
    xs, ys = zip(*solid.outline, strict=True)
    if wet.side == "edge":
        return [Band(wet.host, "edge", *_edge(thing, wet.spot, solid), name)]
    x = _span(wet.stretch, min(xs), max(xs))
    y = _span(wet.across, min(ys), max(ys))
    face = "under" if wet.side == "under" or wet.spot in ("under", "outside") else "top"
    return [Band(wet.host, face, x[0], x[1], y[0], y[1], name)]


def _span(stretch: tuple[Fraction, Fraction] | None, low: float, high: float) -> tuple[float, float]:
    if stretch is None:
        return low, high
    a, b = float(stretch[0]), float(stretch[1])
    return (a - HALF_BEAD, a + HALF_BEAD) if a == b else (a, b)


def _edge(thing: Thing, word: str, solid: Slab) -> tuple[float, float, float, float]:
    """(x0, x1, y0, y1) of a named edge of a slab, from its one corner to its other."""
    along, across = axes_of(thing)
    xs, ys = zip(*solid.outline, strict=True)
    left, right, low, high = min(xs), max(xs), min(ys), max(ys)
    if word == across[1]:
        top = [p[0] for p in solid.outline if abs(p[1] - high) < 1e-6]
        return (min(top), max(top), high, high)
    if word == along[0]:
        return (left, left, low, high)
    if word == along[1]:
        return (right, right, low, high)
    bottom = [p[0] for p in solid.outline if abs(p[1] - low) < 1e-6]
    return (min(bottom), max(bottom), low, low)


def _joint(guide: Guide, bench: Bench, joint: Joint, settled: Settled, drying: bool) -> list[Band]:
    """The glue between two parts, on the one that carries the other."""
    name = guide.things[joint.adhesive].name + (", drying" if drying else "")
    child, host = joint.a, joint.b
    if host in bench.below(child):
        child, host = host, child
    on, sitting = settled[host], settled[child]
    if isinstance(on.solid, Slab):
        seat = bench.seats.get(child)
        if seat is None or seat.stretch is None or seat.host != host or seat.side not in ("top", "under"):
            return []
        x, y = _span(seat.stretch, 0, 0), _span(seat.across, 0, 0)
        return [Band(host, seat.side, x[0], x[1], y[0], y[1], name, not drying)]
    if not isinstance(on.solid, Turned):
        return []
    if isinstance(sitting.solid, Turned):
        ends = [
            on.pose.local(sitting.pose.world((x, 0.0, 0.0))) for x in (sitting.solid.start, sitting.solid.end)
        ]
        lo, hi = sorted(e[0] for e in ends)
        inside = sitting.solid.largest <= (on.solid.bore[0].r0 + 0.5 if on.solid.bore else 0.0)
        off_axis = abs(ends[0][1]) + abs(ends[0][2]) > 1e-6
    elif isinstance(sitting.solid, Slab):
        xs = [
            on.pose.local(sitting.pose.world((x, 0.0, 0.0)))[0] for x, y in sitting.solid.outline if y < 1e-6
        ]
        if not xs:
            return []
        lo, hi = min(xs), max(xs)
        seat = bench.seats.get(child)
        inside, off_axis = seat is not None and seat.side == "inside", True
    else:
        return []
    lo, hi = max(lo, on.solid.start), min(hi, on.solid.end)
    if hi - lo < 1e-6:
        return []
    face = "inside" if inside else "outside"
    if joint.kind == "fillet" and not off_axis:
        beads = ((lo - 2 * HALF_BEAD, lo), (hi, hi + 2 * HALF_BEAD))
        return [Band(host, face, a, b, name=name, new=not drying) for a, b in beads]
    if off_axis and not inside:
        seat = bench.seats.get(child)
        angle = float(seat.angle) if seat is not None and seat.angle is not None else 0.0
        spread = degrees((3.0 if joint.kind == "fillet" else HALF_BEAD) / max(on.solid.largest, 1.0))
        return [Band(host, face, lo, hi, angle - spread, angle + spread, name, not drying)]
    return [Band(host, face, lo, hi, name=name, new=not drying)]


# -- marks --------------------------------------------------------------------------------------------


def mark_lines(guide: Guide, bench: Bench, mark: Drawn, settled: Settled, new: bool) -> list[Mark]:
    """A mark as lines on its host's skin; copies of it share its id and name."""
    solid = settled[mark.host].solid
    name = mark.id.replace("_", " ")
    if isinstance(solid, Turned):
        if mark.stretch is None:
            return []
        lo, hi = float(mark.stretch[0]), float(mark.stretch[1])
        r = _skin(solid, lo, mark.side)
        if mark.side == "end":
            return [Mark(mark.id, name, mark.host, ((lo, -2.0, 0.0), (lo, 2.0, 0.0)), new=new)]
        if not mark.angles:
            if hi > lo + 1e-6:
                return [Mark(mark.id, name, mark.host, ((lo, 0.0, r), (hi, 0.0, r)), new=new)]
            return [Mark(mark.id, name, mark.host, ((lo, 0.0, r),), True, new)]
        if hi - lo < 1e-6:
            hi = lo + 6.0
        return [
            Mark(mark.id, name, mark.host, (round_axis(lo, r, a), round_axis(hi, r, a)), new=new)
            for a in (float(angle) for angle in mark.angles)
        ]
    if not isinstance(solid, Slab):
        return []
    xs, ys = zip(*solid.outline, strict=True)
    z = 0.0 if mark.side == "under" else solid.thickness
    if mark.stretch is None and mark.across is None:
        return []
    x0, x1 = (min(xs), max(xs)) if mark.stretch is None else (float(mark.stretch[0]), float(mark.stretch[1]))
    y0, y1 = (min(ys), max(ys)) if mark.across is None else (float(mark.across[0]), float(mark.across[1]))
    if x0 == x1 and y0 == y1:
        arms = (((x0 - 3, y0, z), (x0 + 3, y0, z)), ((x0, y0 - 3, z), (x0, y0 + 3, z)))
        return [Mark(mark.id, name, mark.host, arm, new=new) for arm in arms]
    return [Mark(mark.id, name, mark.host, ((x0, y0, z), (x1, y1, z)), new=new)]


def _skin(solid: Turned, x: float, side: str) -> float:
    stretches = solid.bore if side == "inside" and solid.bore else solid.outer
    for s in stretches:
        if s.x0 <= x <= s.x1:
            return s.at(x)
    return solid.largest


# -- dimensions ---------------------------------------------------------------------------------------


def origin_of(guide: Guide, bench: Bench, host: Thing, spot: Spot | None) -> str:
    """The end that a place is measured from; empty if it is not measured."""
    if spot is None or not spot.names:
        return ""
    name = spot.names[0]
    if spot.kind in ("from", "stretch"):
        return name
    if spot.kind in ("named", "start", "end"):
        chain = host.chain_of(name)
        if chain is not None:
            return chain.origin
        mark = bench.marks.get(name)
        if mark is not None:
            return mark.origin
    return ""


def dims_of(guide: Guide, step: Changes, root: str, settled: Settled) -> list[Dim]:
    """The step's dimensions, each once."""
    found: list[Dim] = []
    for frame in step.frames:
        for action_spot, host in _placings(frame, step, settled):
            found += _from_end(guide, step, action_spot, host, settled)
        found += _standing_out(guide, step, frame.action, settled)
    found += _angles(guide, step, settled)
    if isinstance(settled[root].solid, Slab):
        found += _folded(guide, step, settled)
    unique: dict[tuple[str, str], Dim] = {}
    for d in found:
        unique.setdefault((d.text, d.way), d)
    return [d for d in unique.values() if d.text]


Stretches = tuple[tuple[Fraction, Fraction] | None, tuple[Fraction, Fraction] | None]


def _placings(
    frame: Frame, step: Changes, settled: Settled
) -> list[tuple[tuple[Spot | None, Stretches], str]]:
    """The places that a frame laid something at: (place as written, stretches), host."""
    from builder.dryrun.effects import Lay, Place, Wetten

    spot = next((frame.action.spot(f) for f in PLACES if frame.action.spot(f) is not None), None)
    if spot is not None and spot.kind == "its mark" and frame.repeat is not None and frame.repeat.spots:
        spot = frame.repeat.spots[min(frame.copy, len(frame.repeat.spots)) - 1]
    found: list[tuple[tuple[Spot | None, Stretches], str]] = []
    for e in frame.effects:
        if isinstance(e, Lay) and e.mark.host in settled:
            found.append(((spot, (e.mark.stretch, e.mark.across)), e.mark.host))
        elif isinstance(e, Wetten) and e.wet.host in settled:
            found.append(((spot, (e.wet.stretch, e.wet.across)), e.wet.host))
        elif isinstance(e, Place) and e.seat.host in settled and step.bench.seats.get(e.seat.child) == e.seat:
            found.append(((spot, (e.seat.stretch, e.seat.across)), e.seat.host))
    return found


def _from_end(
    guide: Guide, step: Changes, placing: tuple[Spot | None, Stretches], host: str, settled: Settled
) -> list[Dim]:
    """From the end that a place is measured from to its nearer side, and its length if it is a stretch."""
    spot, (stretch, across) = placing
    thing = thing_of(guide, host)
    if thing is None or spot is None:
        return []
    sitting = settled[host]
    if isinstance(sitting.solid, Slab):
        return _on_face(guide, spot, stretch, across, thing, sitting)
    origin = origin_of(guide, step.bench, thing, spot)
    if not origin or stretch is None or not isinstance(sitting.solid, Turned):
        return []
    length = thing.mm("length")
    if length is None:
        return []
    lo, hi = stretch
    end = Fraction(0) if is_origin(origin) else length
    near, far = (lo, hi) if is_origin(origin) else (hi, lo)
    z = -sitting.solid.largest
    found: list[Dim] = []

    def dim(a: Fraction, b: Fraction) -> None:
        if a != b:
            ends = [sitting.pose.world((float(x), 0.0, 0.0)) for x in (a, b)]
            low: list[Vec] = [(e[0], e[1], e[2] + z) for e in ends]
            found.append(Dim(told_mm(guide, abs(b - a)), low[0], low[1]))

    dim(end, near)
    if spot.kind in ("stretch",) or (spot.kind == "named" and lo != hi and near == end):
        dim(near, far)
    return found


def _on_face(
    guide: Guide,
    spot: Spot,
    stretch: tuple[Fraction, Fraction] | None,
    across: tuple[Fraction, Fraction] | None,
    thing: Thing,
    sitting: Sitting,
) -> list[Dim]:
    assert isinstance(sitting.solid, Slab)
    xs, ys = zip(*sitting.solid.outline, strict=True)
    z = sitting.solid.thickness / 2
    names = (spot.names if spot.kind in ("from", "two", "stretch") else ()) or tuple(
        c.origin for n in spot.names[:1] for c in thing.chains if any(zone.name == n for zone in c.zones)
    )
    first, second = axes_of(thing)
    found: list[Dim] = []
    for name in names:
        if name in first and stretch is not None:
            middle = (stretch[0] + stretch[1]) / 2 if len(names) > 1 else stretch[0]
            edge = Fraction(0) if name == first[0] else thing.mm("length") or Fraction(0)
            a = sitting.pose.world((float(edge), min(ys), z))
            b = sitting.pose.world((float(middle), min(ys), z))
            found.append(_plan_dim(guide, abs(middle - edge), a, b))
        elif name in second and across is not None:
            middle = (across[0] + across[1]) / 2 if len(names) > 1 else across[0]
            edge = Fraction(0) if name == second[0] else thing.mm("width") or Fraction(0)
            a = sitting.pose.world((min(xs), float(edge), z))
            b = sitting.pose.world((min(xs), float(middle), z))
            found.append(_plan_dim(guide, abs(middle - edge), a, b))
    return [d for d in found if d.start != d.end]


def _plan_dim(guide: Guide, size: Fraction, a: Vec, b: Vec) -> Dim:
    along = abs(a[0] - b[0]) > abs(a[1] - b[1])
    return Dim(told_mm(guide, size), a, b, "along" if along else "across")


def _standing_out(guide: Guide, step: Changes, action: Action, settled: Settled) -> list[Dim]:
    """What is left standing out of a host, or is checked to do so."""
    found: list[Dim] = []
    leaving = action.value("leaving_out")
    by = action.value("by") if action.word("sticks_out") else None
    value = leaving or by
    if value is None or value.base is None:
        return []
    for ref in action.refs("what"):
        for child, seat in step.bench.seats.items():
            if child.rpartition(" ")[0] != ref.id and child != ref.id and child != _base(guide, ref.id):
                continue
            if child not in settled or seat.host not in settled:
                continue
            a, b = settled[child], settled[seat.host]
            if not isinstance(b.solid, Turned):
                continue
            ends = _extent(a)
            host = _extent(b)
            rear = abs(min(ends) - min(host)) if min(ends) < min(host) else None
            front = abs(max(ends) - max(host)) if max(ends) > max(host) else None
            z = b.pose.origin[2] - b.solid.largest
            wanted = float(value.base)
            if rear is not None and abs(rear - wanted) <= 2.0:
                found.append(Dim(told_value(guide, value), (min(ends), 0, z), (min(host), 0, z)))
            elif front is not None and abs(front - wanted) <= 2.0:
                found.append(Dim(told_value(guide, value), (max(host), 0, z), (max(ends), 0, z)))
    return found


def _base(guide: Guide, name: str) -> str:
    thing = guide.things.get(name)
    base = thing.refs.get("base") if thing is not None else None
    return base.id if base is not None else ""


def _extent(s: Sitting) -> tuple[float, float]:
    if isinstance(s.solid, Turned):
        xs = [s.pose.world((x, 0.0, 0.0))[0] for x in (s.solid.start, s.solid.end)]
    elif isinstance(s.solid, Slab):
        xs = [s.pose.world((x, y, 0.0))[0] for x, y in s.solid.outline]
    else:
        xs = [p[0] for p in s.solid.points]
    return min(xs), max(xs)


def _angles(guide: Guide, step: Changes, settled: Settled) -> list[Dim]:
    """The angle between the first two of what stands round a tube, or of one mark from the zero line."""
    angles: dict[str, list[Fraction]] = {}
    for child in step.seated:
        seat = step.bench.seats[child]
        if seat.angle is not None and seat.host in settled and child in settled:
            angles.setdefault(seat.host, []).append(seat.angle)
    for mark in step.marks:
        if mark.host in settled:
            angles.setdefault(mark.host, []).extend(mark.angles)
    found: list[Dim] = []
    for host, given in angles.items():
        solid = settled[host].solid
        turned = sorted(set(given))
        if not isinstance(solid, Turned) or not turned:
            continue
        a, b = (turned[0], turned[1]) if len(turned) > 1 else (Fraction(0), turned[0])
        if a == b:
            continue
        r = solid.largest * 1.9
        x = solid.start
        ends = [settled[host].pose.world(round_axis(x, r, float(angle))) for angle in (a, b)]
        found.append(Dim(told_angle(b - a), ends[0], ends[1], "angle"))
    return found


def _folded(guide: Guide, step: Changes, settled: Settled) -> list[Dim]:
    found: list[Dim] = []
    for item in step.folded:
        thing = thing_of(guide, item)
        if thing is None or item not in settled:
            continue
        at = settled[item].pose
        for field, end, way in (("folded_length", 0, "along"), ("folded_width", 1, "across")):
            value = thing.values.get(field)
            if value is not None and value.base is not None:
                size = float(value.base)
                far: Vec = (size, 0.0, 0.0) if end == 0 else (0.0, size, 0.0)
                found.append(Dim(told_value(guide, value), at.world((0.0, 0.0, 0.0)), at.world(far), way))
    return found


def _sits(guide: Guide, step: Changes, settled: Settled) -> dict[str, str]:
    """Where each new part sits, in words for the text alternative."""
    found: dict[str, str] = {}
    for child in step.seated:
        seat = step.bench.seats[child]
        host = thing_of(guide, seat.host)
        if child not in settled or host is None:
            continue
        said = f"{words.get(seat.side, 'on')} the {host.name}"
        if seat.angle is not None:
            said += f" at {told_angle(seat.angle)}"
        origin = ""
        for frame in step.frames:
            if any(getattr(getattr(e, "seat", None), "child", "") == child for e in frame.effects):
                spot = next((frame.action.spot(f) for f in PLACES if frame.action.spot(f) is not None), None)
                origin = origin_of(guide, step.bench, host, spot)
        length = host.mm("length")
        if origin and seat.stretch is not None and length is not None and settled[child] is not None:
            near = seat.stretch[0] if is_origin(origin) else length - seat.stretch[1]
            if near > 0:
                said += f", {told_mm(guide, near)} from the {origin} end"
            elif near == 0:
                said += f", flush with the {origin} end"
        found[child] = said
    return found
