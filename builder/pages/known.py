"""Where a part will come to sit, for the glue that is laid there before: only the dry run knows."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from fractions import Fraction

from builder.dryrun.bench import Wet
from builder.dryrun.effects import Wetten
from builder.dryrun.homes import home_of, stretch_on
from builder.dryrun.run import Frame
from builder.dryrun.shape import length_of
from builder.dryrun.work import thing_id
from builder.guide.model import Action, Guide
from builder.guide.wording import Known
from builder.pages.sizes import units_of
from builder.quantities.exact import Exact
from builder.quantities.units import Dimension
from builder.quantities.values import Quantity
from builder.trade.ends import is_origin

KnownPlaces = Mapping[str, Mapping[str, Known]]
"""By the path of an action, its place fields with the stretch that they come to."""


def known_places(guide: Guide, frames: Sequence[Frame]) -> KnownPlaces:
    """For each action that lays glue "where X will sit": the stretch that X takes once it is home."""
    found: dict[str, dict[str, Known]] = {}
    for number, frame in enumerate(frames):
        for effect in frame.effects:
            if isinstance(effect, Wetten) and effect.wet.pending:
                field = _field_of(frame.action)
                stretch = _stretch(guide, effect.wet, frames[number + 1 :])
                if field and stretch is not None:
                    found.setdefault(frame.action.path, {}).setdefault(field, stretch)
    return found


def _field_of(action: Action) -> str:
    """The field in which the place was written."""
    named = (f for f in action.fields if any(spot.kind == "will sit" for spot in action.spots(f)))
    return next(named, "")


def _stretch(guide: Guide, wet: Wet, later: Iterable[Frame]) -> Known | None:
    """The stretch of the part that the glue waits for, from the end by which the part came in, so that the
    brush is measured along its own way."""
    home = home_of(guide, wet, later)
    if home is None:
        return None
    bench, item = home
    found = stretch_on(guide, bench, item, wet.host)
    total = length_of(guide.things[thing_id(wet.host, guide)])
    path = bench.path(item, wet.host)
    if found is None or total is None or path is None:
        return None
    lo, hi = found
    end = bench.seats[path[-2]].came_from
    if not end:
        return None
    if not is_origin(end):
        lo, hi = total - hi, total - lo
    unit = units_of(guide).first
    return Known(_length(max(lo, Fraction(0)), unit), _length(min(hi, total), unit), end)


def _length(mm: Fraction, unit: str) -> Quantity:
    return Quantity(Exact.of(mm), Dimension.LENGTH, unit)
