"""Holes: which one a part goes into, whether it is there, fits and is free; and the holes that a part has."""

from __future__ import annotations

from fractions import Fraction

from builder.dryrun import needs as n
from builder.dryrun.bench import Hole, Stretch
from builder.dryrun.placing import At
from builder.dryrun.shape import is_axial, outside_of, outside_reads
from builder.dryrun.work import Work
from builder.trade.fits import fit as trade_fit

SLOTS = "slots"
"""What stands for the hole of a board that is slotted for what it goes over."""


def own_holes(work: Work, child: str) -> None:
    """What is threaded by holes of its own has them; a bought part came with them."""
    thing = work.thing(child)
    made = {hole.spot for hole in work.bench.holes if hole.item == child}
    for name in work.action.words("through"):
        if any(hole.name == name for hole in thing.holes) and not thing.words.get("source"):
            at = work.action.field_place("through")
            work.need(n.Attachable(at=at, met=name in made, item=child, what=f"{name} hole"))


def through_rods(work: Work, child: str, hosts: list[str]) -> str:
    """The first of a board's own holes, if rods go square through it: one for each hole that `through` names.
    SLOTS for a board that is slotted for these rods, as a jig is. "" for a sheet with more holes than rods,
    which hangs along them."""
    own = work.thing(child)
    slotted = own.refs.get("slots")
    if own.form == "slab" and slotted is not None and all(work.thing(h).id == slotted.id for h in hosts):
        return SLOTS if all(is_axial(work.thing(host)) for host in hosts) else ""
    names = {hole.name for hole in own.holes}
    through = [name for name in work.action.words("through") if name in names]
    rods = sum(len(work.items(ref)) for ref in work.action.refs("over"))
    if own.form != "slab" or not through or len(through) > rods:
        return ""
    return through[0] if all(is_axial(work.thing(host)) for host in hosts) else ""


def hole_for(work: Work, host: str, found: list[At]) -> str:
    """The hole of a host that a part goes into: the one that `to` or the place of the repeat names; otherwise
    the last one made that is still free."""
    made = [hole.spot for hole in work.bench.holes if hole.item == host]
    named = {hole.name for hole in work.thing(host).holes}
    told = [at.hole or at.mark for at in found] + [spot.text for spot in work.action.spots("to")]
    repeat = work.repeat
    if repeat is not None and repeat.spots:
        spot = repeat.spots[min(work.copy, len(repeat.spots)) - 1]
        told += [spot.text, *spot.names]
    for name in told:
        if name and (name in made or name in named):
            return name
    taken = {seat.hole for seat in work.bench.children(host) if seat.side == "hole"}
    free = [spot for spot in made if spot not in taken]
    return (free or made or [""])[-1]


def alone_in_hole(
    work: Work, child: str, host: str, hole: str, stretch: Stretch | None, reads: frozenset[str]
) -> None:
    """Nothing else sits in that hole at that depth."""
    if not hole or stretch is None:
        return
    for other in work.bench.children(host):
        if other.child == child or other.side != "hole" or other.hole != hole or other.stretch is None:
            continue
        if other.stretch[0] < stretch[1] and stretch[0] < other.stretch[1]:
            work.need(
                n.Apart(
                    at=work.action.field_place("to" if work.action.spots("to") else "what"),
                    met=False,
                    child=child,
                    host=host,
                    other=other.child,
                    other_at=other.cause.at,
                    reads=reads,
                )
            )
            return


def through_holes(work: Work, child: str, hosts: list[str], hole: str, fit: str) -> None:
    """Each host has the hole, and the part fits it; a host without a hole of that name, its last one."""
    own = work.thing(child)
    outside = outside_of(own)
    for i, host in enumerate(hosts):
        made = [h for h in work.bench.holes if h.item == host]
        chosen: Hole | None = next((h for h in reversed(made) if h.spot == hole), None)
        named = i == 0 and any(h.name == hole for h in work.thing(host).holes)
        if chosen is None and made and not named:
            chosen = made[-1]
        what = f"{hole} hole".replace("_", " ") if named and made else "hole"
        at = work.action.field_place("into")
        work.need(n.Attachable(at=at, met=chosen is not None, item=host, what=what))
        if chosen is None or chosen.diameter is None or outside is None:
            continue
        row = trade_fit(fit) if fit else None
        low = row.low if row is not None else Fraction(0)
        high = row.high if row is not None else Fraction(1)
        play = chosen.diameter - outside
        work.need(
            n.Fits(
                at=work.action.field_place("what"),
                met=low <= play <= high,
                inner=child,
                outer=host,
                play=play,
                low=low,
                high=high,
                kind=fit or "glue",
                inner_mm=outside,
                outer_mm=chosen.diameter,
                reads=outside_reads(own) | chosen.cause.reads,
            )
        )
