"""The dimensions of a step, and where its new parts sit in words.

They are the ones that the step's own places rest on: how far from the end that it is measured from a
mark, a bead of glue or a part's face lies, what is left standing out, the angles; no others.
"""

from __future__ import annotations

from fractions import Fraction

from msgspec.structs import replace

from builder.drawings.changes import Changes
from builder.drawings.of_bench import Sitting, thing_of
from builder.drawings.of_holes import hole_middle
from builder.drawings.pending import FROM
from builder.drawings.scene import Dim
from builder.drawings.solids import Slab, Turned
from builder.drawings.vectors import Vec, round_axis
from builder.drawings.words import told_angle, told_length, told_mm, told_value
from builder.dryrun.bench import Bench
from builder.dryrun.effects import Lay, Place, Shape, Wetten
from builder.dryrun.needs import Station
from builder.dryrun.run import Frame
from builder.dryrun.shape import axes_of, from_end, width_of
from builder.guide.model import Action, Guide, Spot, Thing
from builder.trade.ends import is_origin

PLACES = ("to", "at", "inside", "outside", "top", "under")
"""The fields of an action that may hold a place."""

Settled = dict[str, Sitting]


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
        for action_spot, host, child in _placings(frame, step, settled):
            middle = frame.action.word("by") == "middle"
            found += _from_end(guide, step, action_spot, host, settled, child, middle)
        found += _standing_out(guide, step, frame.action, settled)
    found += _angles(guide, step, settled)
    found += _holes(guide, step, settled)
    if isinstance(settled[root].solid, Slab):
        found += _folded(guide, step, settled)
    unique: dict[tuple[object, ...], Dim] = {}
    for d in found:
        unique.setdefault((d.text, d.way, *_level(d)), d)
    return [d for d in unique.values() if d.text]


def _level(d: Dim) -> tuple[float, ...]:
    """Where a dimension lies along the way that it is measured: copies beside one another have one."""
    if d.way == "along":
        return tuple(sorted((round(d.start[0], 2), round(d.end[0], 2))))
    if d.way == "across":
        return tuple(sorted(round(p[1] + p[2], 2) for p in (d.start, d.end)))
    return ()


Stretches = tuple[tuple[Fraction, Fraction] | None, tuple[Fraction, Fraction] | None]


def _placings(
    frame: Frame, step: Changes, settled: Settled
) -> list[tuple[tuple[Spot | None, Stretches], str, str]]:
    """The places that a frame laid something at: (place as written, stretches), host, and what was seated."""
    spot = next((frame.action.spot(f) for f in PLACES if frame.action.spot(f) is not None), None)
    if spot is not None and spot.kind == "its mark" and frame.repeat is not None and frame.repeat.spots:
        spot = frame.repeat.spots[min(frame.copy, len(frame.repeat.spots)) - 1]
    found: list[tuple[tuple[Spot | None, Stretches], str, str]] = []
    if frame.action.verb.kind == "do" and spot is not None:  # it lays nothing, and says where it is done
        stations = [n for n in frame.needs if isinstance(n, Station) and n.host in settled]
        found += [((spot, ((n.lo, n.hi), None)), n.host, "") for n in stations[:1]]
    for e in frame.effects:
        if isinstance(e, Lay) and e.mark.host in settled:
            found.append(((spot, (e.mark.stretch, e.mark.across)), e.mark.host, ""))
        elif isinstance(e, Wetten) and e.wet.host in settled:
            laid = spot
            if spot is not None and spot.kind == "will sit" and e.wet.spot.startswith(FROM):
                laid = replace(spot, kind="stretch", names=(e.wet.spot.removeprefix(FROM),))
            found.append(((laid, (e.wet.stretch, e.wet.across)), e.wet.host, ""))
        elif isinstance(e, Place) and e.seat.host in settled and step.bench.seats.get(e.seat.child) == e.seat:
            spots = frame.action.spots("to") or (spot,)
            if len(spots) > 1 and e.seat.stretch is not None:  # one place for each hole, in order
                found += [
                    ((s, ((x, x), e.seat.across)), e.seat.host, "")
                    for s, x in zip(spots, e.seat.stretch, strict=False)
                ]
                continue
            found.append(((spot, (e.seat.stretch, e.seat.across)), e.seat.host, e.seat.child))
    return found


def _from_end(
    guide: Guide,
    step: Changes,
    placing: tuple[Spot | None, Stretches],
    host: str,
    settled: Settled,
    child: str = "",
    by_middle: bool = False,
) -> list[Dim]:
    """From the end that a place is measured from to its nearer side, and its length if it is a stretch.

    What sits flush with an end has none: the end itself says where it is.
    """
    spot, (stretch, across) = placing
    thing = thing_of(guide, host)
    if thing is None or spot is None:
        return []
    sitting = settled[host]
    if isinstance(sitting.solid, Slab):
        return _on_face(guide, spot, stretch, across, thing, sitting, by_middle)
    origin = origin_of(guide, step.bench, thing, spot)
    length = thing.mm("length")
    if stretch is None and length is not None and spot.kind == "from" and len(spot.lengths) == 1:
        told = spot.lengths[0].base
        x = None if told is None else from_end(length, told, spot.names[0], thing)
        stretch = None if x is None else (x, x)
    if stretch is None or length is None or not isinstance(sitting.solid, Turned):
        return []
    lo, hi = stretch
    z = -sitting.solid.largest
    found: list[Dim] = []
    own = own_zone(guide, child, spot)
    if child and not origin and not own:
        return []
    if child and ((lo == 0 or hi == length) and not own):
        return []
    end = Fraction(0) if is_origin(origin) else length
    near, far = (lo, hi) if is_origin(origin) else (hi, lo)
    if own:  # the place is a zone of what is put in: what counts is how far that stands out
        end, near = (Fraction(0), lo) if is_origin(own) else (length, hi)
        if lo <= end <= hi and end == near:
            return []
    elif not origin:
        return []

    def dim(a: Fraction, b: Fraction) -> None:
        if a != b:
            ends = [sitting.pose.world((float(x), 0.0, 0.0)) for x in (a, b)]
            upright = abs(sitting.pose.ex[2]) > 0.9
            low: list[Vec] = [(e[0] + z, e[1], e[2]) if upright else (e[0], e[1], e[2] + z) for e in ends]
            way = "along" if abs(ends[0][0] - ends[1][0]) > 1e-6 else "across"
            found.append(Dim(told_mm(guide, abs(b - a)), low[0], low[1], way))

    dim(end, near)
    if not own and (spot.kind == "stretch" or (spot.kind == "named" and lo != hi and near == end)):
        dim(near, far)
    return found


def own_zone(guide: Guide, child: str, spot: Spot) -> str:
    """The end that a child's own zone is measured from, if the place names one; else empty."""
    thing = thing_of(guide, child) if child else None
    chain = thing.chain_of(spot.names[0]) if thing is not None and spot.names else None
    return "" if chain is None else chain.origin


def _holes(guide: Guide, step: Changes, settled: Settled) -> list[Dim]:
    """How far the middles of the step's holes lie from the edges that the guide measures them from."""
    found: list[Dim] = []
    for made in step.holes:
        thing = thing_of(guide, made.item)
        named = next((h for h in thing.holes if h.name == made.spot), None) if thing is not None else None
        if made.item in settled and isinstance(settled[made.item].solid, Turned):
            found += _depth(guide, step, made.item, settled[made.item])
            continue
        at = hole_middle(guide, step.bench, made.item, made.spot) if made.item in settled else None
        if thing is None or named is None or at is None:
            continue
        x, y = (Fraction(c).limit_denominator(10**6) for c in at)
        found += _on_face(guide, named.spot, (x, x), (y, y), thing, settled[made.item])
    return found


def _depth(guide: Guide, step: Changes, item: str, sitting: Sitting) -> list[Dim]:
    """How deep a hole goes into the far end of something round."""
    assert isinstance(sitting.solid, Turned)
    deep = drilled_depth(guide, step, item)
    if deep is None:
        return []
    end, z = sitting.solid.end, -sitting.solid.largest
    a, b = (sitting.pose.world((x, 0.0, z)) for x in (end - deep[1], end))
    return [Dim(deep[0], a, b)]


def drilled_depth(guide: Guide, step: Changes, item: str) -> tuple[str, float] | None:
    """How deep the step drills into an item, in words and in mm; None if right through or not at all."""
    for frame in step.frames:
        made = any(isinstance(e, Shape) and e.item == item for e in frame.effects)
        if frame.action.verb.kind == "drill" and made:
            return told_length(guide, frame.action.word("depth"))
    return None


def _on_face(
    guide: Guide,
    spot: Spot,
    stretch: tuple[Fraction, Fraction] | None,
    across: tuple[Fraction, Fraction] | None,
    thing: Thing,
    sitting: Sitting,
    by_middle: bool = False,
) -> list[Dim]:
    """From the edges that a place names to the nearer side of what is there, or to its middle."""
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
            edge = Fraction(0) if name == first[0] else thing.mm("length") or Fraction(0)
            to = _measured_to(stretch, edge, spot, name)
            a = sitting.pose.world((float(edge), min(ys), z))
            b = sitting.pose.world((float(to), min(ys), z))
            found.append(_plan_dim(guide, abs(to - edge), a, b))
        elif name in second and across is not None:
            edge = Fraction(0) if name == second[0] else width_of(thing) or Fraction(0)
            to = _measured_to(across, edge, spot, name)
            a = sitting.pose.world((min(xs), float(edge), z))
            b = sitting.pose.world((min(xs), float(to), z))
            found.append(_plan_dim(guide, abs(to - edge), a, b))
    return [d for d in found if d.start != d.end]


def _measured_to(
    place: tuple[Fraction, Fraction], edge: Fraction, spot: Spot, name: str
) -> Fraction:
    """The point of a part that stands at its written length from an edge: its nearer face, or its middle."""
    low, high = place
    middle = (low + high) / 2
    if len(spot.names) != len(spot.lengths):
        return low
    written = spot.lengths[spot.names.index(name)].base
    near = sorted((low, high), key=lambda at: abs(at - edge))
    return next((at for at in (near[0], middle, near[1]) if abs(at - edge) == written), middle)


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
