"""The ten effects: the only code that changes a bench. Each is a value; `apply` is pure."""

from __future__ import annotations

from fractions import Fraction

import msgspec

from builder.dryrun.bench import Bench, Cause, Coat, Hole, Item, Joint, Mark, Piece, Seat, Wet


class Take(msgspec.Struct, frozen=True):
    """Stock is used: the pieces of a material are now these."""

    material: str
    left: tuple[Piece, ...]
    cause: Cause


class Make(msgspec.Struct, frozen=True):
    """A thing comes to be."""

    item: Item
    cause: Cause


class Shape(msgspec.Struct, frozen=True):
    """A thing changes its shape: folded, a hole, an edge."""

    item: str
    what: str  # "folded", "hole", "sanded"
    cause: Cause
    hole: Hole | None = None


class Lay(msgspec.Struct, frozen=True):
    """A mark is drawn."""

    mark: Mark
    cause: Cause


class Wetten(msgspec.Struct, frozen=True):
    """Glue is laid."""

    wet: Wet
    cause: Cause


class Place(msgspec.Struct, frozen=True):
    """A thing is seated; a part-way seat of the same thing is replaced."""

    seat: Seat
    cause: Cause


class Close(msgspec.Struct, frozen=True):
    """A joint closes; the glue that made it is no longer open. Or (`instead`) it takes the place of one that
    was not so far yet, where a wait has to be supposed."""

    joint: Joint
    cause: Cause
    wet: Wet | None = None
    instead: Joint | None = None


class Paint(msgspec.Struct, frozen=True):
    """A coat goes on (the effect `Coat`; the name is the bench's)."""

    coat: Coat
    cause: Cause


class Lift(msgspec.Struct, frozen=True):
    """A thing leaves its seat, and the joints that held it there are gone; or glue is wiped off."""

    child: str
    cause: Cause
    wet: Wet | None = None


class Pass(msgspec.Struct, frozen=True):
    """Time passes. `active` is the part of it in which hands are busy; below nothing, it takes back what
    they were busy with so far."""

    seconds: Fraction
    active: Fraction
    cause: Cause


Effect = Take | Make | Shape | Lay | Wetten | Place | Close | Paint | Lift | Pass


def apply(bench: Bench, effect: Effect) -> Bench:
    """The bench after an effect. The given bench is unchanged; what it shares is shared."""
    replace = msgspec.structs.replace
    if isinstance(effect, Pass):
        active = bench.active + effect.active if effect.active else bench.active
        return replace(bench, clock=bench.clock + effect.seconds, active=active)
    if isinstance(effect, Make):
        there = bench.items.get(effect.item.key)
        item = replace(effect.item, folded=True) if there is not None and there.folded else effect.item
        return replace(bench, items={**bench.items, item.key: item})
    if isinstance(effect, Wetten):
        return replace(bench, wets=(*bench.wets, effect.wet))
    if isinstance(effect, Place):
        seat = effect.seat
        return _unseated(bench, seat.child, seat)
    if isinstance(effect, Close):
        if effect.instead is not None:
            joints = tuple(effect.joint if j is effect.instead else j for j in bench.joints)
            return replace(bench, joints=joints)
        wets = bench.wets if effect.wet is None else tuple(w for w in bench.wets if w is not effect.wet)
        return replace(bench, joints=(*bench.joints, effect.joint), wets=wets)
    if isinstance(effect, Lay):
        return replace(bench, marks={**bench.marks, effect.mark.id: effect.mark})
    if isinstance(effect, Take):
        return replace(
            bench, stock={**bench.stock, effect.material: effect.left}, used=bench.used | {effect.material}
        )
    if isinstance(effect, Paint):
        others_coats = tuple(c for c in bench.coats if c.item != effect.coat.item)
        return replace(bench, coats=(*others_coats, effect.coat))
    if isinstance(effect, Lift):
        if effect.wet is not None:
            return replace(bench, wets=tuple(w for w in bench.wets if w is not effect.wet))
        old = bench.seats.get(effect.child)
        if old is None:
            return bench
        joints = tuple(j for j in bench.joints if not (j.touches(effect.child) and j.touches(old.host)))
        return replace(_unseated(bench, effect.child, None), joints=joints)
    shaped = bench.items.get(effect.item)
    holes = bench.holes if effect.hole is None else (*bench.holes, effect.hole)
    if shaped is None or effect.what != "folded":
        return replace(bench, holes=holes)
    return replace(bench, items={**bench.items, effect.item: replace(shaped, folded=True)}, holes=holes)


def _unseated(bench: Bench, child: str, seat: Seat | None) -> Bench:
    """The bench with a child off its seat, and on the new one if there is one; `on` follows the seats."""
    seats, on = dict(bench.seats), dict(bench.on)
    old = seats.pop(child, None)
    if old is not None:
        on[old.host] = tuple(c for c in on[old.host] if c != child)
    if seat is not None:
        seats[child] = seat
        on[seat.host] = (*on.get(seat.host, ()), child)
    return msgspec.structs.replace(bench, seats=seats, on=on)
