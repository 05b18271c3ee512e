"""A fit that holds on paper may not hold at the bench.

What: A fit lies in its range also when every size that it comes from is off by as much as it may be. Both
numbers are told: the worst case, and the root-sum-square, which is what a class sees when the sizes vary by
themselves.

Why: In a class of thirty, some will have the thickest ring and the narrowest tube.

Bad:
    plug: {form: rod, source: bought, diameter: 19.8 mm ± 0.3 mm, length: 20 mm}  # sliding in a bore of 20 mm

Good:
    plug: {form: rod, source: bought, diameter: 19.6 mm ± 0.3 mm, length: 20 mm}
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from builder.checks.base import Check, Look, numbers
from builder.dryrun import needs as n
from builder.findings import Finding, Severity
from builder.guide.model import Thing
from builder.quantities.stack import Link, Stack, stack

ZERO = Fraction(0)
ENOUGH = Fraction(10**6)  # mm; a range that ends beyond has no end


def find(look: Look) -> Iterator[Finding]:
    """One finding for each fit that is met at the nominal sizes and not at worst case."""
    run = look.run
    assert run is not None
    cuts = _cuts(look)
    if not cuts and not _any_tolerance(look):
        return
    known: dict[tuple[str, str], Stack] = {}
    for frame in run.frames:
        for need in frame.needs if frame.action.verb.kind == "seat" else ():
            if not need.met or need.__class__ is not n.Fits:
                continue
            assert isinstance(need, n.Fits)
            inner, outer = look.thing(need.inner), look.thing(need.outer)
            if inner is None or outer is None:
                continue
            found = known.get((inner.id, outer.id))
            if found is None:
                links = [*_links(look, cuts, outer, "inside"), *_links(look, cuts, inner, "outside")]
                found = known[inner.id, outer.id] = stack(links)
            if not found.worst:
                continue
            most = need.outer_mm - need.inner_mm
            least = min(most, need.outer_mm - _over_seam(inner, need.inner_mm))
            if least - found.worst < need.low:
                yield _finding(look, need, found, least, True)
            elif most + found.worst > need.high and need.high < ENOUGH:
                yield _finding(look, need, found, most, False)


def _over_seam(thing: Thing, outside: Fraction) -> Fraction:
    """The widest that it is: a rolled tube has its last edge on top."""
    return outside if thing.tapers else max(outside, thing.mm("over_seam") or outside)


def _finding(look: Look, need: n.Fits, found: Stack, play: Fraction, thick: bool) -> Finding:
    facts = numbers(need.reads)
    limit = (
        f"at least {look.one(need.low)} is needed" if thick else f"at most {look.one(need.high)} is allowed"
    )
    return CHECK.finding(
        need.at,
        f"the {look.name(need.inner)} may be too {'thick' if thick else 'thin'} "
        f"for the {look.name(need.outer)}: "
        f"the play is {look.one(play)} and can be off by {look.one(found.worst)} at worst, by "
        f"{look.one(found.rss)} as root-sum-square; {limit}",
        suspects=facts,
        rests_on=facts,
    )


def _any_tolerance(look: Look) -> bool:
    sizes = ("diameter", "inside", "outside", "thickness", "wall")
    return any(
        thing.values[key].plus_minus is not None
        for thing in look.guide.things.values()
        for key in sizes
        if key in thing.values
    )


def _cuts(look: Look) -> dict[str, Fraction]:
    """How exactly a part is cut, by the tool that cuts it."""
    exact = {}
    for thing in look.guide.things.values():
        value = thing.values.get("cuts_to")
        if value is not None:
            exact[thing.id] = value.plus_minus or value.base
    found: dict[str, Fraction] = {}
    for action, _ in look.book.actions if exact else ():
        if action.verb.kind != "cut":
            continue
        off = next((o for ref in action.refs("with") if (o := exact.get(ref.id)) is not None), None)
        if off is not None:
            found.update({ref.id: off for ref in action.refs("what")})
    return found


def _links(look: Look, cuts: dict[str, Fraction], thing: Thing, surface: str) -> list[Link]:
    """The sizes that a diameter comes from, each with how much it may be off."""
    keys = ("inside",) if surface == "inside" else ("outside", "diameter")
    for key in keys:
        value = thing.values.get(key)
        if value is not None and value.plus_minus:
            return [Link(value.path, ZERO, value.plus_minus)]
    former = look.guide.things.get(thing.refs["around"].id) if "around" in thing.refs else None
    stock = look.guide.things.get(thing.refs["of"].id) if "of" in thing.refs else None
    found: list[Link] = []
    if former is not None:  # rolled: the former, and the sheet twice for each turn
        found += _link(former, "diameter", Fraction(1))
        turns = thing.mm("turns")
        if surface == "outside" and stock is not None and turns is not None:
            found += _link(stock, "thickness", 2 * turns)
    elif stock is not None and stock.form in ("rod", "tube"):
        for key in keys:
            found += _link(stock, key, Fraction(1))
    elif thing.id in cuts:
        found.append(Link(f"cut of {thing.id}", ZERO, cuts[thing.id]))
    elif stock is None:
        found += _link(thing, "wall", Fraction(2))
    return found


def _link(thing: Thing, key: str, times: Fraction) -> list[Link]:
    value = thing.values.get(key)
    return [Link(value.path, ZERO, value.plus_minus, times)] if value is not None and value.plus_minus else []


CHECK = Check(
    "tolerance-chain", Severity.WARNING, "run",
    why="In a class of thirty, some will have the thickest ring and the narrowest tube.",
    mend="Leave more play, or ask for closer sizes.",
    find=find, source="F. Scholz, Tolerance Stack Analysis Methods, 1995: worst case and root-sum-square",
)  # fmt: skip
