"""Where each new part of a step sits, in words for the text alternative."""

from __future__ import annotations

from fractions import Fraction

from builder.drawings.changes import Changes
from builder.drawings.of_bench import Sitting, thing_of
from builder.drawings.of_dims import PLACES, origin_of, own_zone
from builder.drawings.of_sheet import bowed_on
from builder.drawings.words import told_angle, told_mm
from builder.dryrun.bench import Bench, Seat
from builder.dryrun.effects import Place
from builder.dryrun.shape import axes_of, from_end, is_flat, width_of
from builder.guide.model import Guide, Spot, Thing
from builder.trade.ends import is_origin, opposite

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


def sits_of(guide: Guide, step: Changes, settled: Settled) -> dict[str, str]:
    """Where each new part sits, in words for the text alternative."""
    found: dict[str, str] = {}
    for child in step.seated:
        seat = step.bench.seats[child]
        host = thing_of(guide, seat.host)
        if child not in settled or host is None:
            continue
        said = f"{SITS.get(seat.side, 'on')} the {host.name}"
        if seat.edge:
            said = f"standing on its {seat.edge.replace('_', ' ')} edge {said}"
        if seat.angle is not None:
            said += f" at {told_angle(seat.angle)}"
        spot: Spot | None = None
        for frame in step.frames:
            if any(isinstance(e, Place) and e.seat.child == child for e in frame.effects):
                spot = next((frame.action.spot(f) for f in PLACES if frame.action.spot(f) is not None), None)
                if spot is not None and spot.kind == "its mark" and frame.repeat and frame.repeat.spots:
                    spot = frame.repeat.spots[min(frame.copy, len(frame.repeat.spots)) - 1]
        said += _distance(guide, step.bench, seat, host, child, spot)
        sail = bowed_on(guide, step.bench, seat.host) if seat.side == "tied" else ""
        found[child] = said + (f", streaming away from the hollow side of the {sail}" if sail else "")
    return found


def _distance(guide: Guide, bench: Bench, seat: Seat, host: Thing, child: str, spot: Spot | None) -> str:
    """How far from an end a seat is, or at which mark, in words; empty if nothing fixes it."""
    if spot is not None and spot.names and spot.names[0] in bench.marks and is_flat(host):
        return f", at the {spot.names[0].replace('_', ' ')}"
    origin = origin_of(guide, bench, host, spot)
    own = "" if spot is None else own_zone(guide, child, spot)
    along, across = axes_of(host)
    flat = is_flat(host)
    stretch, total = seat.stretch, host.mm("length")
    if flat and origin in across:
        stretch, total = seat.across, width_of(host)
    if stretch is None or total is None or not (origin or own):
        return ""
    word = "edge" if flat else "end"
    lo, hi = stretch
    if own:
        out, end = (-lo, own) if is_origin(own) else (hi - total, own)
        return f", {told_mm(guide, out)} of it out at the {end} {word}" if out > 0 else ""
    far = opposite(origin) or ""
    if flat:
        axis = along if origin in along else across
        far = axis[1 - axis.index(origin)] if origin in axis else ""
    first = from_end(total, Fraction(0), origin, host) == 0
    near, beyond = (lo, total - hi) if first else (total - hi, lo)
    if near > 0 and beyond == 0 and far:
        return f", flush with the {far} {word}"
    if near > 0:
        return f", {told_mm(guide, near)} from the {origin} {word}"
    return f", flush with the {origin} {word}" if near == 0 else ""
