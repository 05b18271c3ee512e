"""Lengths that a writer gets wrong: chains, stock, fits, places, measures."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from builder.dryrun import needs as n
from builder.dryrun.work import thing_id
from builder.guide.model import Ref, Thing
from builder.planting.ground import INCH, Ground, Spot, Written, number_text
from builder.planting.kind import Kind, Plant
from builder.planting.sheet import MappingNode, ScalarNode, SequenceNode, value_of
from builder.trade.fits import FITS, fits_of

MM = Fraction(1)

# -- chains --------------------------------------------------------------------------------------


def _zones(ground: Ground) -> Iterator[tuple[Thing, str, SequenceNode, int, Written | None]]:
    """(part, zone, the chain's list, number in it, its length if it is typed) of every zone."""
    for thing, _, node in ground.thing_nodes("parts"):
        chains = value_of(node, "zones")
        for _, items in chains.value if isinstance(chains, MappingNode) else ():
            for index, item in enumerate(items.value if isinstance(items, SequenceNode) else ()):
                for key, value in item.value if isinstance(item, MappingNode) else ():
                    zone = next(
                        (
                            z
                            for c in thing.chains
                            for z in c.zones
                            if z.name == key.value and z.length.at.line == value.start_mark.line + 1
                        ),
                        None,
                    )
                    length = ground.number(value, zone.length.base if zone is not None else None)
                    yield thing, key.value, items, index, length


def _balanced(thing: Thing, zone: str) -> bool:
    """Whether something else of the part is worked out from this zone, so that the chain closes anyway."""
    for chain in thing.chains:
        own = next((z for z in chain.zones if z.name == zone), None)
        if own is not None:
            path = own.length.path
            others = [z.length for z in chain.zones if z.name != zone]
            return any(path in v.reads for v in (*others, thing.values["length"]) if v.path != path)
    return False


def zone_longer(ground: Ground) -> Iterator[Plant]:
    """A zone is typed one step of the ruler too long."""
    for thing, zone, _, _, length in _zones(ground):
        if length is not None and not _balanced(thing, zone):
            edit = length.becomes(length.base + ground.finest)
            yield Plant(f'the zone "{zone}" of {thing.id}', (thing.id,), (edit,))


def zone_shorter(ground: Ground) -> Iterator[Plant]:
    """A zone is typed one step of the ruler too short."""
    for thing, zone, _, _, length in _zones(ground):
        if length is not None and length.base > ground.finest and not _balanced(thing, zone):
            edit = length.becomes(length.base - ground.finest)
            yield Plant(f'the zone "{zone}" of {thing.id}', (thing.id,), (edit,))


def zone_lost(ground: Ground) -> Iterator[Plant]:
    """A zone that nothing names is left out of its chain."""
    text = ground.main.text
    for thing, zone, items, index, _ in _zones(ground):
        named = text.count(zone) > sum(1 for t, z, *_ in _zones(ground) if z == zone)
        if not named and len(items.value) > 1:
            yield Plant(
                f'the zone "{zone}" of {thing.id}', (thing.id,), ground.main.without_item(items, index)
            )


def part_longer(ground: Ground) -> Iterator[Plant]:
    """A part with zones is typed longer than their sum."""
    for thing, _, node in ground.thing_nodes("parts"):
        length = ground.number(value_of(node, "length"), thing.mm("length"))
        path = thing.values["length"].path if length is not None else ""
        zones = [z.length for c in thing.chains for z in c.zones]
        if length is not None and thing.chains and not any(path in z.reads for z in zones):
            yield Plant(
                f"the length of {thing.id}", (thing.id,), (length.becomes(length.base + ground.finest),)
            )


# -- stock ---------------------------------------------------------------------------------------


def remainder_off(ground: Ground) -> Iterator[Plant]:
    """What is left of the stock is typed one step of the ruler off."""
    for spot in ground.of("cut"):
        node = spot.value("leaves")
        sizes = spot.action.sizes("leaves") or ()
        first = node.value[0] if isinstance(node, SequenceNode) else node
        if not sizes or not isinstance(first, ScalarNode):
            continue
        head, cross, tail = first.value.partition(" x ")
        base = getattr(sizes[0], "base", None) or getattr(getattr(sizes[0], "first", None), "base", None)
        unit = head.rpartition(" ")[2]
        if base is None or unit not in ("mm", "cm", "in", "ft"):
            continue
        text = number_text(base + ground.finest, unit) + cross + tail
        stock = (ref.id for ref in spot.action.refs("from"))
        yield Plant(f"what {spot.name} leaves", (*spot.things, *stock), (spot.sheet.replace(first, text),))


def stock_short(ground: Ground) -> Iterator[Plant]:
    """The stock is too short for what is cut from it."""
    for thing, _, node in ground.thing_nodes("materials"):
        length = ground.number(value_of(node, "length"), thing.mm("length"))
        need = _longest_piece(ground, thing)
        if length is not None and need is not None:
            unit = length._replace(unit=getattr(ground.guide.units, "first", "mm"))
            yield Plant(f"the length of {thing.id}", (thing.id,), (unit.becomes(need - ground.finest),))


def _longest_piece(ground: Ground, material: Thing) -> Fraction | None:
    sizes = []
    for spot in ground.of("cut"):
        for ref in spot.action.refs("what"):
            thing = ground.guide.things.get(ref.id)
            source = spot.action.ref("from") or (thing.refs.get("of") if thing is not None else None)
            if thing is not None and source is not None and source.id == material.id:
                sizes.append(thing.mm("length") or Fraction(0))
    return max(sizes, default=None)


def sheet_small(ground: Ground) -> Iterator[Plant]:
    """The sheet is smaller than what is cut from it."""
    for thing, _, node in ground.thing_nodes("materials"):
        size = value_of(node, "size")
        across = thing.mm("width")
        cut = any(
            ref.id == thing.id
            for spot in ground.of("cut")
            for ref in (*spot.action.refs("from"), *_sources(ground, spot))
        )
        if isinstance(size, ScalarNode) and thing.form == "sheet" and across is not None and cut:
            unit = size.value.split(" x ")[0].rpartition(" ")[2]
            small = number_text(ground.finest, unit)
            yield Plant(
                f"the size of {thing.id}", (thing.id,), (ground.main.replace(size, f"{small} x {small}"),)
            )


def _sources(ground: Ground, spot: Spot) -> list[Ref]:
    things = [ground.guide.things.get(r.id) for r in spot.action.refs("what")]
    return [t.refs["of"] for t in things if t is not None and "of" in t.refs]


def kerf_wider(ground: Ground) -> Iterator[Plant]:
    """The saw takes more than the guide says, and a remainder was worked out with what it says."""
    told = {r.id for s in ground.of("cut") if s.action.sizes("leaves") for r in s.action.refs("with")}
    for thing, _, node in ground.thing_nodes("tools"):
        own = value_of(node, "cuts away")
        if not isinstance(own, ScalarNode) or thing.id not in told or not thing.mm("cuts_away"):
            continue
        fine = number_text(ground.finest, getattr(ground.guide.units, "first", "mm"))
        yield Plant(
            f"what {thing.id} cuts away", (thing.id,), (ground.main.replace(own, f"{own.value} + {fine}"),)
        )


def count_less(ground: Ground) -> Iterator[Plant]:
    """One copy less is made than the steps use."""
    for thing, _, node in ground.thing_nodes("parts"):
        count = value_of(node, "count")
        if not isinstance(count, ScalarNode) or thing.count < 2 or not _counted_on(ground, thing):
            continue
        yield Plant(
            f"the count of {thing.id}", (thing.id,), (ground.main.replace(count, str(thing.count - 1)),)
        )


def _counted_on(ground: Ground, thing: Thing) -> bool:
    """Whether some action pairs its copies with as many of another."""
    for spot in ground.spots:
        repeat = spot.repeat
        names = {ref.id: ref for field in spot.action.fields for ref in spot.action.refs(field)}
        if thing.id in names and len(names[thing.id].copies) > 0:
            return True
        if repeat is not None and repeat.of.id != thing.id and thing.id in names:
            return True
    return False


# -- fits ----------------------------------------------------------------------------------------


def _fits(ground: Ground) -> Iterator[tuple[Spot, n.Fits]]:
    """Every fit between two things, with the placing that makes it."""
    for spot in ground.of("seat"):
        for _, _, frame in ground.frames(spot):
            for need in frame.needs:
                if isinstance(need, n.Fits) and need.met:
                    yield spot, need
            break


def _bores(ground: Ground) -> Iterator[tuple[Spot, n.Fits, Thing, Written, str]]:
    """A fit whose bore (`outer`) or rod (`inner`) is a typed number, and which of the two it is."""
    for spot, need in _fits(ground):
        for which, item, field_names in (
            ("outer", need.outer, ("inside",)),
            ("inner", need.inner, ("outside", "diameter")),
        ):
            thing = ground.guide.things.get(thing_id(item, ground.guide))
            for field in field_names:
                number = ground.written(thing, field) if thing is not None else None
                if thing is not None and number is not None:
                    yield spot, need, thing, number, which


def _resized(ground: Ground, which: str, low: bool) -> Iterator[Plant]:
    for spot, need, thing, number, kind in _bores(ground):
        if kind != which:
            continue
        # a tenth of the other thing beyond the range of the fit
        other = need.inner_mm if which == "outer" else need.outer_mm
        beyond = max(other / 10, MM / 4)
        play = need.low - beyond if low else min(need.high, other) + beyond
        new = need.inner_mm + play if which == "outer" else need.outer_mm - play
        if new > 0:
            yield Plant(f"the size of {thing.id} for {spot.name}", (thing.id,), (number.becomes(new),))


def bore_small(ground: Ground) -> Iterator[Plant]:
    """A bore is typed smaller than what goes through it."""
    return _resized(ground, "outer", True)


def bore_large(ground: Ground) -> Iterator[Plant]:
    """A bore is typed so wide that nothing holds."""
    return _resized(ground, "outer", False)


def rod_thick(ground: Ground) -> Iterator[Plant]:
    """What goes in is typed thicker than its bore."""
    return _resized(ground, "inner", True)


def rod_thin(ground: Ground) -> Iterator[Plant]:
    """What goes in is typed so thin that nothing holds it."""
    return _resized(ground, "inner", False)


def fit_changed(ground: Ground) -> Iterator[Plant]:
    """Another fit is stated than the play gives."""
    for spot, need in _fits(ground):
        node = spot.value("fit")
        if not isinstance(node, ScalarNode) or node.value != need.kind:
            continue
        given = {kind for pair in ("round", "sheet") for kind in fits_of(need.play, pair)}
        other = next((row.kind for row in FITS if row.kind not in given), None)
        if other is not None:
            things = (*spot.things, *(thing_id(item, ground.guide) for item in (need.inner, need.outer)))
            yield Plant(f"the fit of {spot.name}", things, (spot.sheet.replace(node, other),))


# -- places and measures -------------------------------------------------------------------------


def station_beyond(ground: Ground) -> Iterator[Plant]:
    """A station is typed farther from the end than the part is long."""
    for spot in ground.spots:
        for field in ("at", "to", "inside", "outside", "top", "under"):
            node, places = spot.value(field), spot.action.spots(field)
            if not isinstance(node, ScalarNode) or not places or places[0].kind not in ("from", "two"):
                continue
            for _, _, frame in ground.frames(spot):
                lengths = [x.length for x in frame.needs if isinstance(x, n.Station) and x.at == places[0].at]
                if lengths and spot.action.refs("what") is not None:
                    beyond = lengths[0] + 4 * ground.finest  # also if the part is made a step longer
                    far = number_text(beyond, getattr(ground.guide.units, "first", "mm"))
                    text = f"{far} from" + node.value.partition(" from")[2]
                    yield Plant(f"the place of {spot.name}", spot.things, (spot.sheet.replace(node, text),))
                break


def measure_off(ground: Ground) -> Iterator[Plant]:
    """What a builder should measure is not what was built."""
    for spot in ground.of("verify"):
        for field in ("by", "length", "angle"):
            node = spot.value(field)
            if not isinstance(node, ScalarNode) or not any(
                isinstance(x, n.Measures) for _, _, f in ground.frames(spot) for x in f.needs
            ):
                continue
            head, sign, behind = node.value.partition("±")
            unit = head.split()[-1]
            more = "20 deg" if field == "angle" else number_text(INCH, unit) if unit in ("in", "mm") else ""
            angle = spot.action.angle("angle")
            if field == "angle" and angle is not None and angle.value is not None and angle.value.base:
                text = f"{number_text(angle.value.base + 20, 'deg')} {sign}{behind}"
            elif more:
                text = f"{head.strip()} + {more} {sign}{behind}"
            else:
                continue
            yield Plant(f"the measure of {spot.name}", spot.things, (spot.sheet.replace(node, text.strip()),))


# -- ways past -----------------------------------------------------------------------------------


def way_shut(ground: Ground) -> Iterator[Plant]:
    """A part with a clear way is set in line with what stands on the same host."""
    for spot in ground.of("mark"):
        angle = spot.value("angle")
        if not isinstance(angle, ScalarNode) or not angle.value.endswith(" deg"):
            continue
        mark = spot.action.word("what")
        clear = any(
            s.action.spots(f) and s.action.spots(f)[0].names[:1] == (mark,)
            for s in ground.of("attach")
            for f in ("at", "outside")
            for r in s.action.refs("what")
            if ground.guide.things[r.id].mm("clear_way") is not None
        )
        if clear:
            yield Plant(f"the angle of {mark}", spot.things, (spot.sheet.replace(angle, "90 deg"),))


def inner_long(ground: Ground) -> Iterator[Plant]:
    """What goes part of the way in is longer than the room."""
    for spot in ground.of("seat"):
        host = spot.action.ref("into")
        if host is None or spot.action.value("leaving_out") is None:
            continue
        for ref in spot.action.refs("what"):
            thing, outer = ground.guide.things[ref.id], ground.guide.things.get(host.id)
            number = ground.written(thing, "length")
            room = outer.mm("length") if outer is not None else None
            if number is not None and room is not None and not thing.chains:
                yield Plant(f"the length of {thing.id}", (thing.id,), (number.becomes(room * 2),))


KINDS = (
    Kind("zone a step of the ruler longer", ("zone-sum",), zone_longer),
    Kind("zone a step of the ruler shorter", ("zone-sum",), zone_shorter),
    Kind("zone left out of its chain", ("zone-sum",), zone_lost),
    Kind("part longer than its zones", ("zone-sum",), part_longer),
    Kind("remainder a step of the ruler off", ("remainder",), remainder_off),
    Kind("stock too short", ("stock",), stock_short),
    Kind("sheet too small", ("stock",), sheet_small),
    Kind("saw cut wider than said", ("remainder",), kerf_wider),
    Kind("one copy less than used", ("count", "unknown-name"), count_less),
    Kind("bore too small", ("fit",), bore_small),
    Kind("bore too large", ("fit",), bore_large),
    Kind("inner part too thick", ("fit",), rod_thick),
    Kind("inner part too thin", ("fit",), rod_thin),
    Kind("fit word changed", ("fit",), fit_changed),
    Kind("station beyond the part", ("station",), station_beyond),
    Kind("measure off", ("measure",), measure_off),
    Kind("clear way shut", ("clear-way",), way_shut),
    Kind("inner part longer than the room", ("room-left",), inner_long),
)
