"""Glue on the bench as bands of a scene: what lies open, what a step's joints closed on, what dries."""

from __future__ import annotations

from fractions import Fraction
from math import degrees

from builder.drawings.changes import Changes
from builder.drawings.of_bench import Sitting, thing_of
from builder.drawings.of_marks import edge_of
from builder.drawings.scene import Band
from builder.drawings.solids import Slab, Turned, inside_polygon
from builder.dryrun.bench import Bench, Joint, Wet
from builder.dryrun.effects import Close
from builder.guide.model import Guide

HALF_BEAD = 1.5
"""A bead of glue along a line is drawn so far to either side of it, mm."""

DROP = 4.0
"""Glue at a point is drawn so far to every side of it, mm."""

RIM = 0.5
"""Glue in a hole is shown where it ends, at the mouth of the hole: a rim so wide, mm."""

Settled = dict[str, Sitting]


def bands_of(guide: Guide, step: Changes, settled: Settled) -> list[Band]:
    """Wet glue that lies open, and glue that the step's joints closed on or that a wait lets dry."""
    found: list[Band] = []
    for wet in step.bench.wets:
        if wet.host in settled:
            found += _wet(guide, wet, settled)
    newest = drying_joints(guide, step)
    for joint in reversed(step.bench.joints):
        if not joint.adhesive or not (joint.a in settled and joint.b in settled) or joint.a == joint.b:
            continue
        dries = _dries(guide, step, joint)
        if joint in step.joints or dries:
            laid = _laid(guide, step, joint, settled) if joint in step.joints else []
            own = laid or _joint(guide, step.bench, joint, settled, dries)
            quiet = dries and joint not in newest  # of all that dries, what was laid last is the one to name
            found += [b._replace(label=False) for b in own] if quiet else own
    return [piece for band in found for piece in _bare(guide, step.bench, band, settled)]


def _laid(guide: Guide, step: Changes, joint: Joint, settled: Settled) -> list[Band]:
    """The glue of a joint where it was laid on its host: a part that is only part of the way in has not yet
    come to it."""
    for frame in step.frames:
        for e in frame.effects:
            if isinstance(e, Close) and e.joint == joint and e.wet is not None and e.wet.host in settled:
                seat = next((s for s in step.bench.upward(joint.b) if s.host == joint.a), None)
                if e.wet.pending and e.wet.stretch is not None and seat is not None and not seat.home:
                    return _wet(guide, e.wet, settled)
    return []


CLEAR = 1.0
"""Glue keeps so far from what lies along a tube and has to move there, mm."""


def _bare(guide: Guide, bench: Bench, band: Band, settled: Settled) -> list[Band]:
    """What of a band round the outside of a tube does not lie on something that is fixed along it."""
    sitting = settled[band.part]
    if band.face != "outside" or band.a1 - band.a0 < 360 or not isinstance(sitting.solid, Turned):
        return [band]
    for seat in bench.children(band.part):
        lying = settled.get(seat.child)
        if seat.side not in ("taped", "tied") or lying is None or not isinstance(lying.solid, Slab):
            continue
        points = [sitting.pose.local(lying.pose.world((x, y, 0.0))) for x, y in lying.solid.outline]
        xs, ys = [p[0] for p in points], [p[1] for p in points]
        if min(xs) < band.x1 and max(xs) > band.x0:
            spread = degrees((max(abs(y) for y in ys) + CLEAR) / max(sitting.solid.largest, 1.0))
            return [band._replace(a0=spread, a1=360.0 - spread)]
    return [band]


def _dries(guide: Guide, step: Changes, joint: Joint) -> bool:
    """True if the step waits while this joint has not yet its full strength."""
    until = [f.action.word("until") for f in step.frames if f.action.verb.kind == "wait"]
    if not joint.adhesive or not any(until):
        return False
    glue = guide.things[joint.adhesive]
    cured, firm = glue.mm("full_cure") or Fraction(0), glue.mm("set") or Fraction(0)
    needed = firm if firm and "cured" not in until else cured or firm
    return step.before.clock - joint.closed < needed


def drying(guide: Guide, step: Changes) -> tuple[str, ...]:
    """The parts whose joints dry while the step waits, the last closed first."""
    found: list[str] = []
    for joint in reversed(step.bench.joints):
        if joint.a != joint.b and _dries(guide, step, joint):
            found += [joint.a, joint.b]
    return tuple(dict.fromkeys(found))


def drying_joints(guide: Guide, step: Changes) -> tuple[Joint, ...]:
    """Of the joints that dry while the step waits, those that were made since the wait before it, the last
    closed first; if there is none, those of the step that made the last of them."""
    dry = [j for j in reversed(step.bench.joints) if j.a != j.b and _dries(guide, step, j)]
    if not dry:
        return ()
    since = since_last_wait(guide, step)
    return tuple(j for j in dry if j.cause.step in since) or tuple(
        j for j in dry if j.cause.step == dry[0].cause.step
    )


def drying_coats(guide: Guide, step: Changes) -> tuple[str, ...]:
    """What was painted since the wait before this one, where the step waits for paint."""
    until = {f.action.word("until") for f in step.frames if f.action.verb.kind == "wait"}
    if not until & {"dry", "cured"}:
        return ()
    since = since_last_wait(guide, step)
    return tuple(dict.fromkeys(c.item for c in step.bench.coats if c.cause.step in since))


def since_last_wait(guide: Guide, step: Changes) -> tuple[str, ...]:
    """The steps of the route from the last one that waits up to this one, without the former: of the route
    that has all the steps in which something was glued or painted so far."""
    own = step.frames[0].step.id
    done = {own, *(j.cause.step for j in step.bench.joints), *(c.cause.step for c in step.bench.coats)}
    for route in guide.routes:
        ids = [s.id for s in route.steps]
        if not done <= set(ids):
            continue
        start = here = ids.index(own)
        while start > 0 and not any(a.verb.kind == "wait" for a in route.steps[start - 1].each_action()):
            start -= 1
        return tuple(ids[start : here + 1])
    return (own,)


def _wet(guide: Guide, wet: Wet, settled: Settled) -> list[Band]:
    name = guide.things[wet.adhesive].name
    solid = settled[wet.host].solid
    if isinstance(solid, Turned):
        if wet.side == "edge":  # along one side of a tube, or all over a shank
            spread = degrees(HALF_BEAD / max(solid.largest, 1.0)) if wet.spot == "side" else 180.0
            a0, a1 = (-spread, spread) if spread < 90 else (0.0, 360.0)
            return [Band(wet.host, "outside", solid.start, solid.end, a0, a1, name)]
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
        return [Band(wet.host, "edge", *edge_of(thing, wet.spot, solid), name)]
    x = _span(wet.stretch, min(xs), max(xs))
    y = _span(wet.across, min(ys), max(ys))
    if wet.stretch and wet.across and wet.stretch[0] == wet.stretch[1] and wet.across[0] == wet.across[1]:
        x, y = ((p[0] - DROP + HALF_BEAD, p[1] + DROP - HALF_BEAD) for p in (x, y))
    face = "under" if wet.side == "under" or wet.spot in ("under", "outside") else "top"
    return [Band(wet.host, face, x[0], x[1], y[0], y[1], name)]


def _span(stretch: tuple[Fraction, Fraction] | None, low: float, high: float) -> tuple[float, float]:
    if stretch is None:
        return low, high
    a, b = float(stretch[0]), float(stretch[1])
    return (a - HALF_BEAD, a + HALF_BEAD) if a == b else (a, b)


def _mouth(standing: Sitting, settled: Settled) -> float:
    """The station of what stands in a hole at which it comes out of the flat things that it goes through."""
    found = 0.0
    for s in settled.values():
        if isinstance(s.solid, Slab):
            x, y, _ = s.pose.local(standing.pose.origin)
            if inside_polygon((x, y), s.solid.outline):
                faces = (s.pose.world((x, y, z)) for z in (0.0, s.solid.thickness))
                found = max(found, *(standing.pose.local(p)[0] for p in faces))
    return found


def _joint(guide: Guide, bench: Bench, joint: Joint, settled: Settled, drying: bool) -> list[Band]:
    """The glue between two parts, on the one that carries the other."""
    name = guide.things[joint.adhesive].name + (", drying" if drying else "")
    child, host = joint.a, joint.b
    if host in bench.below(child):
        child, host = host, child
    on, sitting = settled[host], settled[child]
    if isinstance(on.solid, Slab):
        seat = bench.seats.get(child)
        if seat is not None and seat.side == "hole" and isinstance(sitting.solid, Turned):
            # on what stands in the hole, where it comes out at the top: all below is covered
            top = _mouth(sitting, settled)
            return [Band(child, "outside", top - RIM, top, name=name, new=not drying, covered=True)]
        if seat is not None and seat.side == "fold" and seat.host == host:
            along, across = zip(*on.solid.outline, strict=True)
            box = (min(along), max(along), min(across), max(across))
            return [Band(host, "top", *box, name, not drying, True)]
        if seat is None or seat.stretch is None or seat.host != host or seat.side not in ("top", "under"):
            return []
        x, y = _span(seat.stretch, 0, 0), _span(seat.across, 0, 0)
        return [Band(host, seat.side, x[0], x[1], y[0], y[1], name, not drying, True)]
    if not isinstance(on.solid, Turned):
        return []
    seat = bench.seats.get(child)
    if seat is not None and seat.host == host and seat.side == "end" and isinstance(sitting.solid, Turned):
        enters = sitting.pose.local(on.pose.world((on.solid.end, 0.0, 0.0)))[0]
        return [Band(child, "outside", enters - RIM, enters, name=name, new=not drying, covered=True)]
    if seat is not None and seat.host == host and seat.side in ("end", "taped", "tied", "fold", "loose"):
        return []
    if isinstance(sitting.solid, Turned):
        ends = [
            on.pose.local(sitting.pose.world((x, 0.0, 0.0))) for x in (sitting.solid.start, sitting.solid.end)
        ]
        lo, hi = sorted(e[0] for e in ends)
        inside = sitting.solid.largest <= (on.solid.bore[0].r0 + 0.5 if on.solid.bore else 0.0)
        off_axis = abs(ends[0][1]) + abs(ends[0][2]) > 1e-6
        inside = inside and not off_axis
    elif isinstance(sitting.solid, Slab):
        xs = [
            on.pose.local(sitting.pose.world((x, 0.0, 0.0)))[0] for x, y in sitting.solid.outline if y < 1e-6
        ]
        if not xs:
            return []
        lo, hi = min(xs), max(xs)
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
        angle = float(seat.angle) if seat is not None and seat.angle is not None else 0.0
        if joint.kind == "fillet" and isinstance(sitting.solid, Slab):
            # in both corners, beside what stands there
            foot = degrees(sitting.solid.thickness / 2 / max(on.solid.largest, 1.0))
            spread = foot + degrees(2 * HALF_BEAD / max(on.solid.largest, 1.0))
            sides = ((angle - spread, angle - foot), (angle + foot, angle + spread))
            return [
                Band(host, face, lo, hi, a0, a1, name, not drying, corner=a1 if a1 < angle else a0)
                for a0, a1 in sides
            ]
        wide = 2 * HALF_BEAD if joint.kind == "fillet" else HALF_BEAD
        spread = degrees(wide / max(on.solid.largest, 1.0))
        return [Band(host, face, lo, hi, angle - spread, angle + spread, name, not drying)]
    if off_axis and isinstance(sitting.solid, Slab):
        ys = [p[1] for p in sitting.solid.outline]
        bore = on.solid.bore[0].r0 if on.solid.bore else on.solid.largest
        spread = degrees((max(ys) - min(ys)) / 2 / max(bore, 1.0))
        return [Band(host, face, lo, hi, -spread, spread, name, not drying)]
    return [Band(host, face, lo, hi, name=name, new=not drying)]
