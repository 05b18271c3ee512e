"""Materials and bought parts for a class: shares, spares, whole packs, what is left over, what it costs."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction

import msgspec

from builder.dryrun.effects import Make
from builder.dryrun.run import DryRun
from builder.guide.model import Guide, Thing
from builder.plan.fitting import Fitted, Wanted, fit
from builder.plan.settings import Class, rounded_up
from builder.plan.used import Used, stock_of
from builder.quantities.exact import Exact
from builder.quantities.units import Dimension
from builder.quantities.values import Quantity


class StockNeed(msgspec.Struct, frozen=True):
    """What a class needs of one material or bought part.

    `builders` share it (1 for each builder, 0 for the whole class); `shares` is how many such shares the
    kits make, spares among them. `each` is what one share takes and `total` what all take: pieces, or an
    amount. `units` is how many pieces to have at hand; None for what is only measured. `fitted` is there
    when the number came from how the pieces fit. `left` is what remains of the last pack.
    """

    thing: str
    builders: int
    shares: int
    each: Quantity | None
    total: Quantity | None
    units: int | None
    fitted: Fitted | None = None
    pack: int | None = None
    packs: int | None = None
    left: int | None = None
    price: Quantity | None = None
    cost: Quantity | None = None


def pieces(number: Fraction | int) -> Quantity:
    """A count."""
    return Quantity(Exact.of(Fraction(number)), Dimension.COUNT, "piece")


def materials(guide: Guide, run: DryRun, group: Class, used: Used) -> tuple[StockNeed, ...]:
    """Every material and bought part that the route uses, in the order of the guide, materials first."""
    cuts = cuts_of(guide, run)
    things = [guide.things[name] for name in guide.things if name in used]
    rows = [
        _material(thing, guide, group, cuts.get(thing.id, ())) for thing in things if thing.sort == "material"
    ]
    rows += [_part(thing, group) for thing in things if thing.sort == "part" and thing.words.get("source")]
    return tuple(rows)


def costs(rows: Iterable[StockNeed]) -> tuple[Quantity, ...]:
    """The sums of what has a price, one for each currency, in the order in which they are met."""
    sums: dict[str, Quantity] = {}
    for row in rows:
        if row.cost is not None:
            known = sums.get(row.cost.unit)
            sums[row.cost.unit] = row.cost if known is None else known + row.cost
    return tuple(sums.values())


def cuts_of(guide: Guide, run: DryRun) -> dict[str, tuple[Wanted, ...]]:
    """Material id -> what one run cuts from it, with the kerf of the tool that cuts."""
    found: dict[str, dict[tuple[str, Fraction], int]] = {}
    for frame in run.frames:
        if frame.action.verb.kind != "cut":
            continue
        kerf = max((guide.things[ref.id].mm("cuts_away") or Fraction(0) for ref in frame.action.refs("with")
                    if ref.id in guide.things), default=Fraction(0))  # fmt: skip
        for ref in frame.action.refs("what"):
            thing = guide.things.get(ref.id)
            stock = stock_of(frame.action, thing, guide)
            if thing is None or stock is None:
                continue
            made = sum(1 for e in frame.effects if isinstance(e, Make) and e.item.thing == thing.id)
            key = (thing.id, kerf)
            counts = found.setdefault(stock.id, {})
            counts[key] = counts.get(key, 0) + made
    return {
        stock: tuple(Wanted(guide.things[name], number, kerf) for (name, kerf), number in counts.items())
        for stock, counts in found.items()
    }


def made_for(thing: Thing, group: Class, kits: int) -> int:
    """How many times a thing of the run is made for the class: a part once for each kit, a tool once for
    each group that shares it."""
    if thing.sort != "tool":
        return kits
    return group.groups(thing.share.builders if thing.share is not None else 1)


def _material(thing: Thing, guide: Guide, group: Class, cuts: tuple[Wanted, ...]) -> StockNeed:
    share = thing.share.builders if thing.share is not None else 1
    shares = group.groups(share, group.kits)
    amount = thing.values.get("amount")
    if amount is not None:
        each = amount.quantity
        total = each.scaled(shares) if each is not None else None
        counted = each is not None and each.dimension in (Dimension.COUNT, Dimension.NUMBER)
        if counted and total is not None:
            return _packed(thing, share, shares, each, total, rounded_up(total.base))
        # what is measured is sold by the container, and a container holds one share
        return _packed(thing, share, shares, each, total, shares if "pack" in thing.values else None)
    fitted = None
    count = thing.count
    if share != 1 and cuts:
        kits = group.kits if share == 0 else share
        fitted = fit(thing, [Wanted(c.thing, c.count * made_for(c.thing, group, kits), c.kerf) for c in cuts])
        if fitted is not None:
            count = fitted.pieces if share == 0 else max(count, fitted.pieces)
    return _packed(thing, share, shares, pieces(count), pieces(count * shares), count * shares, fitted)


def _part(thing: Thing, group: Class) -> StockNeed:
    number = thing.count * group.kits
    return _packed(thing, 1, group.kits, pieces(thing.count), pieces(number), number)


def _packed(
    thing: Thing,
    share: int,
    shares: int,
    each: Quantity | None,
    total: Quantity | None,
    units: int | None,
    fitted: Fitted | None = None,
) -> StockNeed:
    """The row with its whole packs, what is left of them and their cost."""
    pack = thing.mm("pack")
    priced = thing.values.get("price")
    price = priced.quantity if priced is not None else None
    if pack is None or pack < 1 or units is None:
        return StockNeed(thing.id, share, shares, each, total, units, fitted)
    packs = rounded_up(Fraction(units) / pack)
    cost = price.scaled(packs) if price is not None else None
    return StockNeed(thing.id, share, shares, each, total, units, fitted, int(pack), packs,
                     int(packs * pack) - units, price, cost)  # fmt: skip
