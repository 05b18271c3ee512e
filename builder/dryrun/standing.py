"""A flat part that stands on an edge on a flat host, as a wall on a floor: which edge, what it takes."""

from __future__ import annotations

from fractions import Fraction

from builder.dryrun.placing import At, Named
from builder.dryrun.shape import axes_of, is_flat, length_of, width_of
from builder.dryrun.work import Work
from builder.guide.model import Thing
from builder.guide.reading import nearest


def edges_of(thing: Thing) -> tuple[str, ...]:
    """The names of a flat thing's edges: at the ends of its length, then of its width."""
    along, across = axes_of(thing)
    return (*along, *across)


def known_edge(work: Work, item: str, word: str) -> None:
    """Record that a flat thing whose outline has edges has one of that name."""
    thing = work.thing(item)
    if thing.outline is None or thing.outline.shape not in ("rectangle", "fin") or not is_flat(thing):
        return
    names = edges_of(thing)
    if word not in names:
        guess = nearest(word, names) or ""
        work.need(Named(at=work.action.field_place("edge"), met=False, name=word, host=item, guess=guess))


def stood_on(work: Work, child: str, host: str, side: str) -> str:
    """The edge that a flat part stands on: the one that `by` names, or on which glue lies for the host; ""
    for a part that lies flat."""
    own = work.thing(child)
    if side not in ("top", "under") or own.form != "slab" or not is_flat(work.thing(host)):
        return ""
    names = edges_of(own)
    if work.action.word("by") in names:
        return work.action.word("by")
    meant = set(work.bench.assembly(host))
    for wet in work.bench.wets:
        if wet.host == child and wet.side == "edge" and wet.spot in names and wet.meets & meant:
            return wet.spot
    return ""


def taken(work: Work, child: str, host: str, edge: str, found: At) -> tuple[Fraction | None, Fraction | None]:
    """What it takes of its host, along and across. The edge runs beside what the place is measured from
    first: across a host that is measured along."""
    own = work.thing(child)
    folded = work.folded(child)
    along, _ = axes_of(own)
    runs = width_of(own, folded) if edge in along else length_of(own, folded)
    thick = own.mm("thickness")
    return (thick, runs) if _crosswise(work.thing(host), found) else (runs, thick)


def _crosswise(host: Thing, found: At) -> bool:
    along, across = axes_of(host)
    named = found.origin or found.end
    if named in (*along, *across):
        return named in along
    if found.stretch is None or found.across is None:
        return found.stretch is not None
    return found.across[1] - found.across[0] >= found.stretch[1] - found.stretch[0]
