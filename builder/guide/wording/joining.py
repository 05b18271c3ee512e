"""The sentences of joining and what comes between: insert, attach, screw, tie, tape, remove, wait, verify."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from builder.guide.model import Action, Ref, Thing, Value
from builder.guide.phrases import COMMA, FACES, SCREW_AGAIN, THE, WAITS
from builder.guide.wording.desk import Desk, first_spot
from builder.guide.wording.making import angle_after
from builder.guide.wording.nouns import (
    agree,
    all_of,
    bare,
    end_bare,
    from_the,
    how_many,
    listed,
    spaced,
    stuff,
    the,
    the_end,
)
from builder.guide.wording.pieces import NAME, NUMBER, Piece, Words, plain, text_of
from builder.guide.wording.places import Mover, length_from, until, value, where
from builder.guide.wording.told import Told, fit_of, host_thing, on_face, places_of, with_tools
from builder.quantities.show import shown, tell
from builder.quantities.units import Dimension
from builder.quantities.values import Quantity
from builder.trade.words import article


def seat(desk: Desk, a: Action) -> Told:
    """A part goes into, or over, another, along a way, to a place."""
    refs = a.refs("what")
    over = not a.refs("into")
    hosts = a.refs("over") if over else a.refs("into")
    host = host_thing(desk, hosts[0] if hosts else None)
    thing = host_thing(desk, refs[0] if refs else None)
    n = how_many(desk, refs)
    pairs = n > 1 and len(hosts) == 1 and desk.number_of(hosts[0]) == n
    it = plain("each" if pairs else "they" if n > 1 else "it")
    slots: dict[str, Words] = {"what": all_of(desk, refs), "with": with_tools(desk, a.refs("with"))}
    if hosts:
        key = ("one over each" if over else "one into each") if pairs else ("over" if over else "into")
        slots["over" if over else "into"] = desk.say(key, host=all_of(desk, hosts))
    end = a.word("from")
    if end:
        slots["from"] = desk.say("from end", end=from_the(host, end))
    holes = _holes(thing, a.words("through"))
    way = [_way(desk, name) for name in a.words("through") if name not in holes]
    if way:
        slots["through"] = desk.say("through", way=listed(way))
    mover = Mover(refs, it, 1 if pairs else n, thing, end, over, a.word("by"))
    spots = a.spots("to")
    found = [length_from(desk, s, host) for s in spots] if len(holes) == len(spots) else []
    if holes and found and all(found):
        slots["to"] = _holes_until(desk, holes, [f for f in found if f], host)
    else:
        told = [until(desk, s, host, mover) for s in spots]
        slots["to"] = tuple(p for words in told for p in words)
        if holes:
            names = listed([(Piece(THE), *_hole_name(thing, h)) for h in holes])
            slots["through"] = (*slots.get("through", ()), *desk.say("by holes", way=names))
    out = a.value("leaving_out")
    if out is not None:
        slots["to"] = (*slots["to"], *desk.say("leaving", length=value(desk, out)))
    _held(desk, a, slots, plain("them" if n > 1 else "it"))
    return Told(slots, after=fit_of(a, plain("They" if n > 1 else "It")))


def _held(desk: Desk, a: Action, slots: dict[str, Words], it: Words) -> None:
    holder = a.ref("held_by")
    if holder is not None:
        slots["held_by"] = desk.say("held by", holder=the(desk, holder))
    hold = a.value("hold")
    if hold is not None:
        told = desk.say("hold", it=it, time=value(desk, hold))
        loose = "," in text_of((*slots.get("to", ()), *slots.get("at", ())))
        slots["hold"] = (Piece(COMMA), *told) if loose else told


def _holes(thing: Thing | None, names: Sequence[str]) -> list[str]:
    own = {hole.name for hole in thing.holes} if thing is not None else set()
    return [name for name in names if name in own]


def _hole_name(thing: Thing | None, name: str) -> Words:
    return (Piece(f"{spaced(name)} hole", NAME, f"{thing.id}.{name}" if thing is not None else name),)


def _way(desk: Desk, name: str) -> Words:
    head, _, tail = name.partition(".")
    thing = desk.thing(name) or desk.thing(head)
    if thing is None:
        return plain(THE + spaced(name))
    return the(desk, Ref(head, thing.at, (), "" if desk.thing(name) else tail))


def _holes_until(
    desk: Desk, holes: list[str], found: Sequence[tuple[Words, str]], host: Thing | None
) -> Words:
    """Each hole of the part at its own length from an end of the host."""
    same = len({end for _, end in found}) == 1
    told = []
    for hole, (length, end) in zip(holes, found, strict=True):
        slots = {"hole": plain(spaced(hole)), "length": length}
        told.append(
            desk.say("hole at", **slots)
            if same
            else desk.say("hole at from", **slots, end=the_end(host, end))
        )
    if not same:
        return desk.say("until all", places=listed(told))
    return desk.say("until holes", places=listed(told), end=the_end(host, found[0][1]))


def attach(desk: Desk, a: Action) -> Told:
    """A part is set onto a surface."""
    refs, onto = a.refs("what"), a.ref("onto")
    host = host_thing(desk, onto)
    n = how_many(desk, refs)
    slots: dict[str, Words] = {"what": all_of(desk, refs), "with": with_tools(desk, a.refs("with"))}
    field, _ = first_spot(a)
    if onto is not None:
        name = the(desk, onto)
        slots["onto"] = desk.say("onto", host=name if field == "outside" else on_face(desk, a, name))
    end = a.word("from")
    if end:
        inside = field == "inside"
        slots["from"] = desk.say("in through" if inside else "from end", end=the_end(host, end))
    part = refs[0] if refs else None
    slots["at"] = _stands(desk, a, host, part)
    slots["angle"] = angle_after(desk, a, onto)
    _held(desk, a, slots, plain("them" if n > 1 else "it"))
    if slots["with"]:
        slots["with"] = (Piece(COMMA), *slots["with"]) if "," in text_of(slots["at"]) else slots["with"]
    return Told(slots, after=fit_of(a, plain("They" if n > 1 else "It")))


def _stands(desk: Desk, a: Action, host: Thing | None, part: Ref | None) -> Words:
    by = a.word("by")
    field, spots = first_spot(a)
    if not by or not spots:
        return places_of(desk, a, host, part)
    point = desk.say("its", what=plain(end_bare(host_thing(desk, part), by)))
    place = where(desk, spots[0], host, field, part)
    if place.noun:
        return desk.say("by point", point=point, place=place.noun)
    return desk.say("by point at", point=point, place=place.adverb)


def screw(desk: Desk, a: Action) -> Told:
    """A screw goes into a hole."""
    refs, into = a.refs("what"), a.ref("into")
    what = all_of(desk, refs)
    slots = {
        "what": what,
        "at": places_of(desk, a, host_thing(desk, into)),
        "with": with_tools(desk, a.refs("with")),
    }
    if into is not None:
        slots["into"] = desk.say("into", host=the(desk, into))
    again = any(piece.text.startswith(SCREW_AGAIN[0]) for piece in what if piece.kind == NAME)
    return Told(slots, verb=SCREW_AGAIN[1] if again and a.verb.word == SCREW_AGAIN[0] else "")


def tie(desk: Desk, a: Action) -> Told:
    """A cord is knotted."""
    refs = a.refs("what")
    host = host_thing(desk, a.ref("to"))
    slots = {"what": all_of(desk, refs), "to": desk.say("to", host=all_of(desk, a.refs("to")))}
    slots["at"] = places_of(desk, a, host)
    knot = a.word("knot")
    if knot:
        many = how_many(desk, refs) > 1
        told = desk.say("knots" if many else "knot", a_knot=plain(f"{article(knot)} {knot}"))
        slots["knot"] = (Piece(COMMA), *told) if "," in text_of(slots["at"]) else told
    return Told(slots)


def tape(desk: Desk, a: Action) -> Told:
    """Tape holds one thing to another."""
    refs, to = a.refs("what"), a.ref("to")
    host = host_thing(desk, to)
    slots = {"what": all_of(desk, refs)}
    if to is not None:
        slots["to"] = desk.say("to", host=the(desk, to))
    slots["at"] = places_of(desk, a, host, refs[0] if refs else None)
    with_ = desk.say("tape", tape=listed([stuff(desk, r) for r in a.refs("with")]))
    slots["with"] = (Piece(COMMA), *with_) if "," in text_of(slots["at"]) else with_
    return Told(slots)


def remove(desk: Desk, a: Action) -> Told:
    """What was only there to help comes out or off."""
    refs, host = a.refs("what"), a.ref("from")
    slots = {"what": all_of(desk, refs)}
    put = desk.put(refs[0].id) if refs else None
    way = put.way if put is not None else ""
    if host is not None:
        key = {"in": "out of", "on": "off"}.get(way, "from host")
        slots["from"] = desk.say(key, host=the(desk, host))
    end = a.word("towards")
    if end:
        slots["towards"] = desk.say(
            "over end" if way == "on" else "towards", end=the_end(host_thing(desk, host), end)
        )
    if a.word("before") == "set":
        slots["before"] = desk.say("before set")
    return Told(slots)


def wait(desk: Desk, a: Action, seconds: Fraction | None = None, glues: Sequence[str] = ()) -> Told:
    """Time passes until something is set, dry or cured; the minutes come from the label."""
    what = all_of(desk, a.refs("what"))
    set_ = plain(WAITS.get(a.word("until"), ""))
    stated = a.value("for")
    if stated is not None:
        key = "wait.until for" if set_ else "wait.for"
        return Told({"what": what, "set": set_, "time": value(desk, stated)}, phrase=key)
    slots = {"what": what, "set": set_}
    if seconds is None:
        return Told(slots, phrase="wait.until")
    from builder.quantities.show import show_time

    slots["time"] = (Piece(show_time(seconds, up=True), NUMBER),)
    if not glues:
        return Told(slots, phrase="wait.until bare")
    names = [(Piece(THE), *bare(desk, Ref(id, a.at))) for id in glues]
    slots["labels"] = desk.say("label" if len(names) == 1 else "labels", glue=listed(names))
    return Told(slots, phrase="wait.until known")


def verify(desk: Desk, a: Action) -> Told:
    """What was built is compared with what it should be."""
    refs = a.refs("what")
    n = how_many(desk, refs)
    many = len(refs) == 1 and not refs[0].part and desk.number_of(refs[0]) > 1
    what = all_of(desk, refs)
    other = a.ref("turns_in") or a.ref("slides_out_of")
    pairs = many and other is not None and desk.number_of(other) == n
    if pairs and other is not None:
        what = desk.say("each", what=bare(desk, refs[0], one=True))
        host = desk.say("its", what=bare(desk, other, one=True))
    else:
        host = the(desk, other) if other is not None else ()
        if many and any(f in a.fields for f in ("angle", "length", "sticks_out")):
            what = desk.say("each of", parts=what)
    s = 1 if pairs or (many and what[0].text.startswith("each")) else n
    slots: dict[str, Words] = {"what": what}
    tools = a.refs("with")
    if tools:
        slots["with"] = desk.say("check with", tools=all_of(desk, tools))
    if a.word("sticks_out"):
        slots["sticks_out"] = _sticks_out(desk, a, refs, s)
    by = a.value("by")
    if by is not None:
        amount = desk.say("by amount", length=value(desk, by))
        slots["sticks_out"] = (*slots.get("sticks_out", ()), Piece(" "), *amount, *_give(desk, by))
    angle = a.angle("angle")
    if angle is not None and angle.value is not None:
        put = desk.put(refs[0].id) if refs else None
        on = {"host": the(desk, put.host)} if put is not None else {}
        told = value(desk, angle.value)
        said = desk.say(
            "stands at to" if on else "stands at", stands=plain(agree("stands", s)), angle=told, **on
        )
        slots["angle"] = (*said, *_give(desk, angle.value))
    if a.ref("turns_in") is not None:
        slots["turns_in"] = desk.say("turns in", turns=plain(agree("turns", s)), host=host)
    if a.ref("slides_out_of") is not None:
        slots["slides_out_of"] = desk.say("slides out of", slides=plain(agree("slides", s)), host=host)
    length = a.value("length")
    if length is not None:
        said = desk.say("is long", is_=plain(agree("is_", s)), length=value(desk, length))
        slots["length"] = (*said, *_give(desk, length))
    shows = a.prose("shows")
    if shows is not None:
        from builder.guide.wording.prose import inner

        slots["shows"] = desk.say("shows", shows=plain(agree("shows", s)), what=inner(desk, shows))
    return Told(slots)


def _sticks_out(desk: Desk, a: Action, refs: Sequence[Ref], n: int) -> Words:
    put = desk.put(refs[0].id) if refs else None
    host = desk.thing(put.host.id) if put is not None else None
    end = a.word("sticks_out")
    sticks = plain(agree("sticks", n))
    if put is None:
        return desk.say("sticks out", sticks=sticks, end=the_end(host, end))
    name = end if end not in FACES else end_bare(host, end)
    key = "sticks out of" if put.way == "in" else "sticks past"
    return desk.say(key, sticks=sticks, host=the(desk, put.host), end=plain(THE + name))


def _give(desk: Desk, v: Value) -> Words:
    """ ", give or take 1 mm": the tolerance in the unit that it was typed in."""
    if v.plus_minus is None or not v.plus_minus or v.quantity is None:
        return ()
    from builder.quantities.exact import Exact

    if v.quantity.dimension is Dimension.LENGTH:
        q = Quantity(Exact.of(v.plus_minus), Dimension.LENGTH, v.quantity.unit)
        text = shown(q, desk.units).first
    else:
        text = tell(Quantity(Exact.of(v.plus_minus), v.quantity.dimension, v.quantity.unit), desk.units)
    return desk.say("give or take", tolerance=(Piece(text, NUMBER, v.path),))


def do(desk: Desk, a: Action) -> Told:
    """The writer's own words."""
    from builder.guide.wording.prose import inner

    prose = a.prose("what")
    return Told({"what": inner(desk, prose) if prose is not None else ()})
