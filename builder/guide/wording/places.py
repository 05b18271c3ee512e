"""Places, said as a builder would say them: how far from which end, along which line, against what."""

from __future__ import annotations

from collections.abc import Sequence

import msgspec

from builder.guide.model import Chain, Ref, Spot, Thing, Value
from builder.guide.phrases import FACES, PLACE_WORDS, THE
from builder.guide.wording.desk import Desk, Known
from builder.guide.wording.nouns import agree, end_bare, mark_name, spaced, the, the_end, the_mark
from builder.guide.wording.pieces import NAME, Piece, Words, plain, text_of
from builder.quantities.values import Quantity
from builder.trade.ends import ENDS, opposite


class Where(msgspec.Struct, frozen=True):
    """A place in words. `adverb` follows a verb or a noun ("1 in from the rear end", "along the lug line");
    `noun` stands where a noun is wanted ("the lug line"), empty if it has none. `loose` asks for a comma
    before the adverb."""

    adverb: Words
    noun: Words = ()
    loose: bool = True

    @property
    def after(self) -> Words:
        """The adverb as it is hung onto a sentence."""
        return (Piece(", "), *self.adverb) if self.loose and self.adverb else self.adverb


class Stretch(msgspec.Struct, frozen=True):
    """A zone in its chain: where it begins and ends, from the chain's origin, and whether it touches either
    end of the part."""

    thing: Thing
    name: str
    end: str
    lo: Quantity | None
    hi: Quantity | None
    lo_typed: bool
    hi_typed: bool
    first: bool
    last: bool

    @property
    def path(self) -> str:
        """What the findings call it."""
        return f"{self.thing.id}.{self.name}"


def stretch_in(thing: Thing, chain: Chain, name: str) -> Stretch:
    """A zone as a stretch from the origin of its chain. Errors: KeyError if the chain has no such zone."""
    i = next((i for i, zone in enumerate(chain.zones) if zone.name == name), None)
    if i is None:
        raise KeyError(name)
    before, own = chain.zones[:i], chain.zones[i].length
    lo = _sum([zone.length.quantity for zone in before])
    return Stretch(
        thing,
        name,
        chain.origin,
        lo,
        _sum([*(zone.length.quantity for zone in before), own.quantity]),
        lo_typed=i == 1 and before[0].length.typed,
        hi_typed=i == 0 and own.typed,
        first=i == 0,
        last=i == len(chain.zones) - 1,
    )


def _sum(lengths: Sequence[Quantity | None]) -> Quantity | None:
    """The sum; None where nothing is summed or something is unknown."""
    total: Quantity | None = None
    for length in lengths:
        if length is None:
            return None
        total = length if total is None else total + length
    return total


def find_stretch(thing: Thing | None, name: str, side: str) -> Stretch | None:
    """A zone of a part by name, the chain of the given side first."""
    chain = thing.chain_of(name, side) if thing is not None else None
    return stretch_in(thing, chain, name) if thing is not None and chain is not None else None


def told_stretch(desk: Desk, stretch: Stretch) -> Words:
    """ "from 2 1/2 in (63.5 mm) to 2 3/4 in (69.8 mm) from the rear end"."""
    end = the_end(stretch.thing, stretch.end)
    if stretch.first and stretch.last:
        return desk.say("whole")
    if stretch.hi is None or (stretch.lo is None and not stretch.first):
        return desk.say("in zone", place=(Piece(THE), Piece(spaced(stretch.name), NAME, stretch.path)))
    hi = desk.number(stretch.hi, stretch.path, typed=stretch.hi_typed)
    if stretch.lo is None:
        return desk.say("first stretch", hi=hi, end=end)
    lo = desk.number(stretch.lo, stretch.path, typed=stretch.lo_typed)
    return desk.say("stretch", lo=lo, hi=hi, end=end)


def touched_end(stretch: Stretch) -> str:
    """The end of the part that a zone reaches, if it reaches one."""
    if stretch.last and not stretch.first:
        ends = {chain.origin for chain in stretch.thing.chains}
        return opposite(stretch.end, ends) or ""
    return stretch.end if stretch.first and not stretch.last else ""


def point_of(desk: Desk, stretch: Stretch, at_start: bool) -> Words:
    """Where a zone starts or ends: "1/4 in (6.4 mm) from the rear end", "at the rear end"."""
    if stretch.first and at_start:
        return desk.say("at end", end=the_end(stretch.thing, stretch.end))
    if stretch.last and not at_start:
        ends = {chain.origin for chain in stretch.thing.chains}
        return desk.say("at end", end=the_end(stretch.thing, opposite(stretch.end, ends) or stretch.end))
    quantity, typed = (stretch.lo, stretch.lo_typed) if at_start else (stretch.hi, stretch.hi_typed)
    if quantity is None:
        return desk.say("in zone", place=(Piece(THE), Piece(spaced(stretch.name), NAME, stretch.path)))
    length = desk.number(quantity, stretch.path, typed=typed)
    return desk.say("point", lo=length, end=the_end(stretch.thing, stretch.end))


def length_from(desk: Desk, spot: Spot, host: Thing | None) -> tuple[Words, str] | None:
    """A station as (its length, the end that it is measured from); None for a place that is none."""
    name = spot.names[0] if spot.names else ""
    if spot.kind == "from":
        return value(desk, spot.lengths[0]), name
    stretch = find_stretch(host, name, "outside") if spot.kind in ("start", "end") else None
    if stretch is None:
        return None
    quantity, typed = (
        (stretch.lo, stretch.lo_typed) if spot.kind == "start" else (stretch.hi, stretch.hi_typed)
    )
    return (desk.number(quantity, stretch.path, typed=typed), stretch.end) if quantity is not None else None


def value(desk: Desk, v: Value) -> Words:
    """A written number; its text where it could not be worked out."""
    if v.quantity is None:
        return plain(v.text or "...")
    return desk.number(v.quantity, v.path, typed=v.typed)


def known_stretch(desk: Desk, host: Thing | None, known: Known) -> Words:
    """A stretch that the dry run found."""
    lo, hi = (desk.number(q, "", typed=False) for q in (known.lo, known.hi))
    end = the_end(host, known.end)
    if not known.lo.base:
        return desk.say("first stretch", hi=hi, end=end)
    return desk.say("stretch", lo=lo, hi=hi, end=end)


def where(desk: Desk, spot: Spot, host: Thing | None, field: str = "at", part: Ref | None = None) -> Where:
    """A place on a host. `field` is the field that it was written in, `part` the thing that goes there."""
    side = "inside" if field == "inside" or field == "into" else "outside"
    name = spot.names[0] if spot.names else ""
    if spot.kind == "named":
        return _named(desk, name, host, side, part)
    if spot.kind in ("start", "end"):
        stretch = find_stretch(host, name, side)
        if stretch is not None:
            return Where(point_of(desk, stretch, spot.kind == "start"))
        return _named(desk, name, host, side, part)
    if spot.kind in ("its mark", "corner"):
        return _its(desk, spot.kind, part)
    if spot.kind == "middle":
        return _middle(desk, name, host)
    if spot.kind == "from":
        return Where(desk.say("point", lo=value(desk, spot.lengths[0]), end=the_end(host, name)))
    if spot.kind == "stretch":
        return _written_stretch(desk, spot, host)
    if spot.kind == "two":
        first, second = (value(desk, v) for v in spot.lengths)
        other = the_end(host, spot.names[1])
        return Where(desk.say("two", first=first, end=the_end(host, name), second=second, other=other))
    if spot.kind == "flush":
        return Where(desk.say("flush", end=_end_or_thing(desk, host, name)))
    if spot.kind == "meets":
        noun = _end_or_thing(desk, host, name)
        return Where(desk.say("against", place=noun), noun)
    if spot.kind == "will sit":
        return _will_sit(desk, spot, host, field)
    return Where(plain(spot.text))


def _named(desk: Desk, name: str, host: Thing | None, side: str, part: Ref | None) -> Where:
    stretch = find_stretch(host, name, side)
    noun: Words
    if stretch is not None:
        noun = (Piece(THE), Piece(spaced(name), NAME, stretch.path))
        return Where(told_stretch(desk, stretch), noun if good_name(name) else ())
    mark = desk.marks.get(name)
    if mark is not None:
        noun = the_mark(desk, name, drop=_name(desk, part))
        along = mark.shape in ("line", "across")
        return Where(desk.say("along" if along else "at", place=noun), noun, loose=False)
    if host is not None and any(hole.name == name for hole in host.holes):
        noun = (Piece(THE), Piece(f"{spaced(name)} hole", NAME, f"{host.id}.{name}"))
        return Where(desk.say("at", place=noun), noun, loose=False)
    noun = _end_or_thing(desk, host, name)
    return Where(desk.say("at", place=noun), noun, loose=False)


def _end_or_thing(desk: Desk, host: Thing | None, name: str) -> Words:
    head, _, tail = name.partition(".")
    thing = desk.thing(name) or desk.thing(head)
    edges = host.outline.edges if host is not None and host.outline is not None else ()
    if thing is not None and name not in edges:
        spot_at = thing.at
        return the(desk, Ref(head, spot_at, (), "" if desk.thing(name) else tail))
    if name in desk.marks:
        return the_mark(desk, name)
    if name in ENDS or name in edges or name in FACES or host is not None:
        return (
            the_end(host, name)
            if name in ENDS or name in edges or name in FACES
            else plain(THE + spaced(name))
        )
    return plain(THE + spaced(name))


def _name(desk: Desk, part: Ref | None) -> str:
    thing = desk.thing(part.id) if part is not None else None
    return thing.name if thing is not None else ""


def good_name(zone: str) -> bool:
    """Whether the name of a zone says a place: a seat, a bay, a shoulder."""
    words = zone.split("_")
    return words[-1] in PLACE_WORDS and all(len(word) > 1 for word in words)


def _its(desk: Desk, kind: str, part: Ref | None) -> Where:
    repeat = desk.repeat
    if kind == "corner":
        noun = desk.say("corner" if repeat is None else "its corner")
        return Where(desk.say("at", place=noun), noun, loose=False)
    marks = [desk.marks.get(s.names[0]) for s in repeat.spots if s.names] if repeat is not None else []
    lines = bool(marks) and all(m is not None and m.shape != "point" for m in marks)
    word = "line" if lines else "mark" if marks and all(m is not None for m in marks) else "place"
    own = repeat is None or (part is not None and part.id == repeat.of.id)
    noun = (
        desk.say(f"its {word}")
        if own or repeat is None
        else desk.say(f"part {word}", part=the(desk, repeat.of))
    )
    return Where(desk.say("along" if lines else "at", place=noun), noun, loose=False)


def _middle(desk: Desk, name: str, host: Thing | None) -> Where:
    thing = desk.thing(name)
    if thing is not None:
        noun = desk.say("middle", place=the(desk, Ref(name, thing.at)))
        return Where(desk.say("at", place=noun), noun)
    stretch = find_stretch(host, name, "outside")
    place = plain(spaced(name)) if stretch is not None else plain(end_bare(host, name))
    inner = desk.say("its", what=place)
    return Where(desk.say("in middle", place=inner), desk.say("middle", place=inner))


def _written_stretch(desk: Desk, spot: Spot, host: Thing | None) -> Where:
    lo, hi = spot.lengths
    end = the_end(host, spot.names[0])
    if lo.base == 0:
        return Where(desk.say("first stretch", hi=value(desk, hi), end=end))
    return Where(desk.say("stretch", lo=value(desk, lo), hi=value(desk, hi), end=end))


def _will_sit(desk: Desk, spot: Spot, host: Thing | None, field: str) -> Where:
    name, _, copy = spot.names[0].partition(" ")
    ref = Ref(name, spot.at, (int(copy),) if copy.isdigit() else ())
    part = the(desk, ref)
    known = desk.known.get(field)
    if known is None:
        return Where(desk.say("will sit", part=part))
    return Where(desk.say("will sit known", part=part, place=known_stretch(desk, host, known)))


# -- where a part ends up -------------------------------------------------------------------------


class Mover(msgspec.Struct, frozen=True):
    """What moves: its things, the pronoun for it, and whether that is singular."""

    refs: tuple[Ref, ...]
    it: Words
    n: int
    thing: Thing | None
    from_end: str
    over: bool
    by: str


def until(desk: Desk, spot: Spot, host: Thing | None, mover: Mover) -> Words:
    """ ", until it fills the thrust seat (flush with the front end)"."""
    it, n = mover.it, mover.n
    if mover.by:
        key = "its" if text_of(it) == "it" else "of each"
        it, n = desk.say(key, what=plain(end_bare(mover.thing, mover.by))), 1
    name = spot.names[0] if spot.names else ""
    side = "outside" if mover.over else "inside"
    if spot.kind == "named":
        stretch = find_stretch(host, name, side)
        if stretch is not None:
            return _until_zone(desk, stretch, it, n, mover.over)
        own = find_stretch(mover.thing, name, "outside") if name not in desk.marks else None
        if own is not None:
            return _until_own_zone(desk, own, it)
        if name in desk.marks:
            return _until_mark(desk, name, mover, it, n)
    if spot.kind == "meets" and name == mover.from_end:
        return desk.say("as far", it=it)
    place = where(
        desk, spot, host, "inside" if not mover.over else "outside", mover.refs[0] if mover.refs else None
    )
    if spot.kind in ("meets", "its mark", "corner") and place.noun:
        return desk.say("until meets", it=it, meets=plain(agree("meets", n)), place=place.noun)
    if spot.kind == "stretch":
        return desk.say("until lies", it=it, lies=plain(agree("lies", n)), place=place.adverb)
    return desk.say("until is", it=it, is_=plain(agree("is_", n)), place=place.adverb)


def _until_zone(desk: Desk, stretch: Stretch, it: Words, n: int, over: bool) -> Words:
    end = touched_end(stretch)
    flush = the_end(stretch.thing, end) if end else ()
    if good_name(stretch.name):
        fills = plain(agree("covers" if over else "fills", n))
        zone = (Piece(THE), Piece(spaced(stretch.name), NAME, stretch.path))
        if end:
            return desk.say("until fills flush", it=it, fills=fills, zone=zone, end=flush)
        if stretch.first and stretch.last:
            return desk.say("until fills", it=it, fills=fills, zone=zone)
        return desk.say("until fills from", it=it, fills=fills, zone=zone, place=told_stretch(desk, stretch))
    if end:
        return desk.say("until is", it=it, is_=plain(agree("is_", n)), place=desk.say("flush", end=flush))
    return desk.say("until lies", it=it, lies=plain(agree("lies", n)), place=told_stretch(desk, stretch))


def _until_own_zone(desk: Desk, own: Stretch, it: Words) -> Words:
    """A zone of the part itself that comes to lie in its host: what of the part then stands out."""
    if own.lo is not None:
        length = desk.number(own.lo, own.path, typed=own.lo_typed)
        return desk.say("until stands out", length=length, it=it, end=the_end(own.thing, own.end))
    whole = own.thing.values.get("length")
    ends = {chain.origin for chain in own.thing.chains}
    other = opposite(own.end, ends) or own.end
    if own.hi is None or whole is None or whole.quantity is None or own.last:
        return ()
    length = desk.number(whole.quantity - own.hi, own.path, typed=False)
    return desk.say("until stands out", length=length, it=it, end=the_end(own.thing, other))


def _until_mark(desk: Desk, name: str, mover: Mover, it: Words, n: int) -> Words:
    """The face nearest the end that the mark is measured from stands on it. Coming from that end, the face
    behind is meant; coming from the other, the mark is met."""
    mark = desk.marks[name]
    noun = the_mark(desk, name, drop=_name(desk, mover.refs[0] if mover.refs else None))
    origin = mark_origin(desk, name)
    if mark.shape == "line":
        return desk.say("until is", it=it, is_=plain(agree("is_", n)), place=desk.say("along", place=noun))
    if mover.by:
        return desk.say("until on", it=it, is_=plain(agree("is_", n)), place=noun)
    if origin and origin == mover.from_end and mark.shape == "round":
        face = plain(f"its {end_bare(mover.thing, origin)}") if n == 1 and text_of(it) == "it" else it
        return desk.say("until on", it=face, is_=plain(agree("is_", 1 if face is not it else n)), place=noun)
    return desk.say("until meets", it=it, meets=plain(agree("meets", n)), place=noun)


def mark_origin(desk: Desk, name: str) -> str:
    """The end that a mark is measured from; empty if it is not measured."""
    mark = desk.marks.get(name)
    if mark is None:
        return ""
    host = mark.action.ref("onto")
    thing = desk.thing(host.id) if host is not None else None
    for field in ("at", "inside", "top", "under"):
        for spot in mark.action.spots(field):
            if spot.kind in ("named", "start", "end") and spot.names:
                chain = (
                    thing.chain_of(spot.names[0], "inside" if field == "inside" else "outside")
                    if thing
                    else None
                )
                if chain is not None:
                    return chain.origin
            if spot.kind in ("from", "stretch", "flush") and spot.names:
                return spot.names[0]
    return ""


__all__ = ("Mover", "Where", "mark_name", "mark_origin", "until", "value", "where")
