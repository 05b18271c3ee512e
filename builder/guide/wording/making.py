"""The sentences of making: fold, drill, sand, roll, mark, glue, paint."""

from __future__ import annotations

from builder.guide.model import Action, Hole, Ref, Thing
from builder.guide.phrases import BY_TOOL, COUNTS, FACES, THE
from builder.guide.wording.desk import Desk, first_spot, shape_of_mark
from builder.guide.wording.nouns import (
    FLAT,
    agree,
    all_of,
    bare,
    count_word,
    end_bare,
    how_many,
    listed,
    mark_name,
    ordinal,
    spaced,
    stuff,
    the,
    the_end,
)
from builder.guide.wording.pieces import NAME, NUMBER, Piece, Words, plain, text_of
from builder.guide.wording.places import value, where
from builder.guide.wording.told import Told, host_thing, kind_of_tool, on_face, places_of, with_tools
from builder.quantities.show import show_angle
from builder.quantities.units import Dimension
from builder.quantities.values import Quantity
from builder.trade.ends import ENDS

_SOLID = ("rod", "turned", "cord", "screw")


def fold(desk: Desk, a: Action) -> Told:
    """A flat part is folded, perhaps over another."""
    slots = {"what": all_of(desk, a.refs("what")), "with": with_tools(desk, a.refs("with"))}
    over = a.ref("over")
    if over is not None:
        slots["over"] = desk.say("fold over", what=the(desk, over))
    spots = a.spots("at")
    if spots:
        host = host_thing(desk, a.ref("what"))
        found = [where(desk, s, host, "at") for s in spots]
        if all(w.noun for w in found):
            slots["at"] = desk.say("along", place=listed([w.noun for w in found]))
        else:
            places = listed([w.adverb for w in found])
            slots["at"] = desk.say("fold at one" if len(spots) == 1 else "fold at", places=places)
    return Told(slots)


def drill(desk: Desk, a: Action) -> Told:
    """Holes through or into things that lie on one another."""
    refs = a.refs("what")
    hosts = all_of(desk, refs)
    spots = a.spots("at")
    thing = host_thing(desk, a.ref("what"))
    size = a.value("size")
    depth = a.word("depth")
    # "through" speaks of the depth; a length is deep
    slots: dict[str, Words] = {"with": with_tools(desk, a.refs("with"))}
    through = "through" if depth == "through" else ""
    parts = {
        "host": hosts,
        "size": value(desk, size) if size is not None else (),
        "depth": _depth(desk, depth),
    }
    holes = [
        h
        for s in spots
        for h in (thing.holes if thing is not None else ())
        if s.names and h.name == s.names[0]
    ]
    if len(spots) > 1:
        n = count_word(len(spots))
        slots["what"] = desk.say(f"holes {through}".strip(), n=plain(n), **parts)
    else:
        slots["what"] = desk.say(f"hole {through}".strip(), **parts)
    if thing is not None and holes and len(holes) == len(spots):
        told = [_hole(desk, thing, h) for h in holes]
        if len(told) == 1:
            slots["at"] = (Piece(", "), *where(desk, holes[0].spot, thing).adverb, Piece(","))
        else:
            slots["holes"] = desk.say("at each hole", holes=listed(told))
    elif spots:
        found = [where(desk, s, thing, "at") for s in spots]
        same = bool(found) and all(w.noun and not w.loose for w in found)
        if same and len(found) > 1:
            slots["at"] = desk.say("at", place=listed([w.noun for w in found]))
        else:
            slots["at"] = (Piece(", "), *listed([w.adverb for w in found]), Piece(","))
    kinds = [kind_of_tool(desk, r) for r in a.refs("with")]
    verb = next((BY_TOOL[("drill", k)] for k in kinds if ("drill", k) in BY_TOOL), "")
    return Told(slots, verb=verb)


def _hole(desk: Desk, thing: Thing, hole: Hole) -> Words:
    name = (Piece(spaced(hole.name), NAME, f"{thing.id}.{hole.name}"),)
    return desk.say("one hole", hole=name, place=where(desk, hole.spot, thing).adverb)


def _depth(desk: Desk, text: str) -> Words:
    if not text or text == "through":
        return ()
    from builder.quantities.quantity import read_quantity

    read = read_quantity(text, Dimension.LENGTH)
    length = desk.number(read, "", typed=True) if isinstance(read, Quantity) else plain(text)
    return desk.say("deep", length=length)


def sand(desk: Desk, a: Action) -> Told:
    """Edges or faces are smoothed or rounded."""
    things = all_of(desk, a.refs("what"))
    slots = {"what": things, "with": with_tools(desk, a.refs("with"))}
    edges = a.words("edges")
    if edges:
        slots["edges"] = desk.say("edges of", edges=_edges(desk, a, edges))
    kept = a.words("not")
    after: tuple[Words, ...] = ()
    if kept:
        it_is = plain(agree("it_is", len(kept)))
        after = (desk.say("not edges", edges=_edges(desk, a, kept), it_is=it_is),)
    return Told(slots, after=after)


def _edges(desk: Desk, a: Action, edges: tuple[str, ...]) -> Words:
    """Edges of a flat part; of a rod or a tube its ends."""
    thing = host_thing(desk, a.ref("what"))
    if thing is not None and thing.form not in FLAT and all(e in ENDS for e in edges):
        return listed([the_end(thing, e) for e in edges])
    if len(edges) == 1:
        return desk.say("edge", edge=plain(edges[0]))
    return desk.say("edges", edges=listed([plain(e) for e in edges]))


def roll(desk: Desk, a: Action) -> Told:
    """A sheet goes round a former, or round a host and stays there."""
    what, around, makes = a.ref("what"), a.ref("around"), a.ref("makes")
    slots: dict[str, Words] = {}
    if what is not None:
        slots["what"] = the(desk, what)
    if around is not None:
        slots["around"] = desk.say("round", host=the(desk, around))
    thing = host_thing(desk, what)
    if makes is not None and not (thing is not None and thing.blank_of == makes.id):
        slots["makes"] = desk.say("makes", tube=the(desk, makes))
    slots["at"] = places_of(desk, a, host_thing(desk, around), what)
    turn = a.value("from_turn")
    materials = [r for r in a.refs("with") if desk.material_of(r) is not None]
    tools = [r for r in a.refs("with") if desk.material_of(r) is None]
    glue = desk.say("roll glue", glue=listed([stuff(desk, r) for r in materials])) if materials else ()
    slots["with"] = (
        *glue,
        *((Piece(" "),) if tools and glue else ()),
        *(with_tools(desk, tools) if tools else ()),
    )
    if turn is not None and turn.base is not None and turn.base > 1:
        nth = (Piece(ordinal(int(turn.base)), NUMBER, turn.path),)
        slots["from_turn"] = desk.say("from turn" if glue else "from turn alone", ordinal=nth)
    from builder.guide.wording.told import fit_of

    return Told(slots, after=fit_of(a, plain("it")))


def mark(desk: Desk, a: Action) -> Told:
    """A line or a point is drawn."""
    host_ref = a.ref("onto")
    host = host_thing(desk, host_ref)
    shape = shape_of_mark(a)
    field, spots = first_spot(a)
    slots: dict[str, Words] = {"with": with_tools(desk, a.refs("with"))}
    own = desk.marks.get(a.word("what"))
    if own is not None:
        name = (Piece(mark_name(own), NAME, a.word("what")),)
        count = (Piece(count_word(own.count), NUMBER), Piece(" ")) if own.count > 1 else ()
        slots["what"] = (Piece(THE), *count, *name)
    things = all_of(desk, a.refs("onto"))
    if shape == "round":
        slots["onto"] = desk.say("mark round inside" if field == "inside" else "mark round", host=things)
    elif shape == "across":
        slots["onto"] = desk.say("mark across", host=on_face(desk, a, things))
    elif shape == "line" and field not in FACES:
        slots["onto"] = desk.say("mark along", host=things)
    else:
        slots["onto"] = desk.say("mark on", host=on_face(desk, a, things))
    slots["at"] = places_of(desk, a, host)
    along = a.word("along")
    if along:
        known = along in desk.marks
        slots["along"] = desk.say(
            "through marks" if known and desk.marks[along].shape == "point" else "along mark",
            marks=_marks_plain(desk, along),
        )
    template = a.ref("from")
    if template is not None:
        slots["from"] = desk.say("by template", template=the(desk, template))
    slots["angle"] = _angle(desk, a, host_ref)
    if slots["with"] and "," in text_of(slots["at"]):
        slots["with"] = (Piece(", "), *slots["with"])
    return Told(slots, phrase="mark.point" if shape == "point" else "mark.line")


def _marks_plain(desk: Desk, name: str) -> Words:
    """The marks without their count, which the line has already told."""
    if name not in desk.marks:
        return plain(THE + spaced(name))
    return (Piece(THE), Piece(mark_name(desk.marks[name]), NAME, name))


def _angle(desk: Desk, a: Action, host: Ref | None) -> Words:
    angle = a.angle("angle")
    if angle is None:
        return ()
    if angle.evenly:
        of = desk.thing(angle.of) if angle.of else None
        own = desk.marks.get(a.word("what"))
        if of is None or (own is not None and of.name in mark_name(own)):
            return desk.say("evenly")
        return desk.say("evenly for", parts=the(desk, Ref(of.id, angle.at)))
    v = angle.value
    if v is None or v.quantity is None:
        return ()
    shown = (Piece(show_angle(v.quantity), NUMBER, v.path),)
    pitch = desk.pitch(host.id) if host is not None else None
    if pitch is None:
        return desk.say("angle", angle=shown)
    step, part = pitch
    if v.quantity.base % step == step / 2:
        return desk.say("half way", parts=bare(desk, part), angle=shown)
    return desk.say("angle from first", angle=shown, part=bare(desk, part, one=True))


def angle_after(desk: Desk, a: Action, host: Ref | None) -> Words:
    """The angle of a part that is set on; what a repeat's lead tells is not told again."""
    angle = a.angle("angle")
    if angle is not None and angle.evenly and desk.repeat is not None and desk.repeat.around:
        return ()
    return _angle(desk, a, host)


def glue(desk: Desk, a: Action) -> Told:
    """Adhesive is laid on a surface, or as a fillet in a corner."""
    refs = a.refs("what")
    things = all_of(desk, refs)
    host = host_thing(desk, a.ref("what"))
    materials = [r for r in a.refs("with") if desk.material_of(r) is not None]
    tools = with_tools(desk, [r for r in a.refs("with") if desk.material_of(r) is None])
    slots = {"with": listed([stuff(desk, r) for r in materials]), "tools": tools}
    fillet = a.ref("fillet_to")
    if fillet is not None:
        many = len(refs) == 1 and desk.number_of(refs[0]) > 1
        parts = desk.say("each of", parts=things) if many else things
        slots["parts"] = parts
        slots["meet"] = plain(agree("meets", 1 if many else how_many(desk, refs)))
        slots["host"] = the(desk, fillet)
        return Told(slots, phrase="fillet")
    slots["where"] = (*_surface(desk, a, things, host), *places_of(desk, a, host))
    if "," in text_of(slots["where"]):
        slots["tools"] = (Piece(", "), *tools) if tools else ()
    return Told(slots)


def _surface(desk: Desk, a: Action, things: Words, host: Thing | None) -> Words:
    """Which surface the glue goes on: "inside the tube", "on the root edge of the fin"."""
    edge, face = a.word("edge"), a.word("face")
    if edge == "side":
        return desk.say("along side", edge=desk.say("edge one side"), host=things)
    if edge or face:
        name = (
            plain(FACES[face] + (" face" if face in ("inside", "outside") else ""))
            if face in FACES
            else plain(
                end_bare(host, edge)
                if edge and host is not None and host.form == "slab"
                else edge or end_bare(host, face)
            )
        )
        return desk.say("on", host=desk.say("of", part=(Piece(THE), *name), whole=things))
    field, _ = first_spot(a)
    if field == "inside":
        return desk.say("inside", host=things)
    if field == "outside":
        solid = host is not None and host.form in _SOLID
        return desk.say("outside solid" if solid else "outside hollow", host=things)
    return desk.say("on", host=on_face(desk, a, things))


def paint(desk: Desk, a: Action) -> Told:
    """A coat goes on."""
    materials = [r for r in a.refs("with") if desk.material_of(r) is not None]
    tools = [r for r in a.refs("with") if r not in materials]
    slots = {"what": all_of(desk, a.refs("what")), "with": with_tools(desk, [*materials, *tools])}
    coats = a.value("coats")
    if coats is not None and coats.base is not None and coats.base > 1:
        n = int(coats.base)
        word = COUNTS[n] if n < len(COUNTS) else str(n)
        slots["coats"] = desk.say("coats", n=(Piece(word, NUMBER, coats.path),))
    kept = a.refs("not")
    after = (desk.say("keep bare", things=all_of(desk, kept)),) if kept else ()
    return Told(slots, after=after)
