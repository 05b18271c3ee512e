"""A writer's own words: references in single braces become names and values."""

from __future__ import annotations

import re

from builder.guide.model import Action, Angle, Prose, Ref, Spot, Value
from builder.guide.phrases import FACES, WAITS
from builder.guide.wording.desk import Desk, first_spot
from builder.guide.wording.making import angle_after
from builder.guide.wording.nouns import bare, count_word, end_bare, listed, mark_name, ordinal, spaced
from builder.guide.wording.pieces import NAME, NUMBER, Piece, Words, plain
from builder.guide.wording.places import Where, find_stretch, value, where
from builder.guide.wording.told import host_thing
from builder.quantities.show import show_angle
from builder.quantities.units import Dimension
from builder.quantities.values import Quantity
from builder.trade.words import article

_LAST_WORD = re.compile(r"([A-Za-z]+)\s*$")
# After one of these a noun is wanted; after one of the second kind, a single thing.
_PREPOSITIONS = frozenset(
    (
        "above",
        "across",
        "against",
        "along",
        "at",
        "behind",
        "below",
        "beside",
        "between",
        "beyond",
        "by",
        "fills",
        "in",
        "inside",
        "into",
        "meet",
        "meets",
        "near",
        "of",
        "off",
        "on",
        "onto",
        "over",
        "past",
        "reach",
        "reaches",
        "the",
        "its",
        "through",
        "to",
        "towards",
        "under",
        "until",
        "with",
    )
)
_SINGLE = frozenset(
    ("a", "an", "another", "each", "either", "every", "neither", "one", "per", "this", "that")
)
# Numbers that keep their own fineness, since no ruler measures them.
_OWN_FINENESS = frozenset(
    (
        "bore",
        "clear_way",
        "diameter",
        "inside",
        "outside",
        "over_seam",
        "play",
        "thickness",
        "wall",
    )
)


def inner(desk: Desk, prose: Prose) -> Words:
    """Prose with its references told; what cannot be told stays as typed."""
    out: list[Piece] = []
    for piece in prose.pieces:
        if isinstance(piece, str):
            out.append(Piece(piece))
            continue
        before = out[-1].text if out else ""
        word = match.group(1).lower() if (match := _LAST_WORD.search(before)) else ""
        told = reference(desk, piece[0], word)
        if told is None:
            out.append(Piece("{" + piece[0] + "}"))
            continue
        if word in ("a", "an") and out:
            right = article(told[0].text) if told else word
            out[-1] = Piece(out[-1].text[: match.start(1)] + right + out[-1].text[match.end(1) :])  # type: ignore[union-attr]
        out += told
    return tuple(out)


def reference(desk: Desk, name: str, before: str = "") -> Words | None:
    """What a reference prints after the word `before`; None if nothing is known by that name.

    A field of the action comes first, then one of the next action if it is told by the same sentence, then
    a thing, a mark, a zone or a number of the guide.
    """
    action = desk.action
    if action is not None:
        key = field_of(action, name)
        if key is not None:
            return field_words(desk, action, key, before)
        below = desk.book.told_with(action)
        key = field_of(below, name) if below is not None else None
        if below is not None and key is not None:
            return field_words(Desk(desk.book, below, desk.copy), below, key, before)
    return _thing_words(desk, name, before)


def knows(desk: Desk, name: str) -> bool:
    """Whether a reference by that name prints anything; as `reference`, but nothing is worded for it."""
    action = desk.action
    if action is not None:
        below = desk.book.told_with(action)
        if any(a is not None and field_of(a, name) is not None for a in (action, below)):
            return True
    return _thing_words(desk, name, "") is not None


def field_of(action: Action, name: str) -> str | None:
    """The key of the action's field that a reference names; "place" is the first place field."""
    key = name.replace(" ", "_")
    if name == action.verb.word or key == "what":
        return "what"
    if key == "place":
        return first_spot(action)[0] or None
    return key if key in action.fields else None


def field_words(desk: Desk, a: Action, key: str, before: str = "") -> Words:
    """A field of the action, as a reference prints it: names without an article, values in both units."""
    v = a.fields.get(key)
    one = before in _SINGLE
    if isinstance(v, Ref) or (isinstance(v, tuple) and v and isinstance(v[0], Ref)):
        refs = a.refs(key)
        return listed([bare(desk, r, one=one) for r in refs])
    if key == "from_turn" and isinstance(v, Value) and v.base is not None:
        return (Piece(ordinal(int(v.base)), NUMBER, v.path),)
    if key == "coats" and isinstance(v, Value) and v.base is not None:
        return (Piece(count_word(int(v.base)), NUMBER, v.path),)
    if isinstance(v, Value):
        return value(desk, v)
    if isinstance(v, tuple) and v and isinstance(v[0], Spot):
        return _place(desk, a, key, before)
    if isinstance(v, Angle):
        if v.value is not None and v.value.quantity is not None:
            return (Piece(show_angle(v.value.quantity), NUMBER, v.value.path),)
        told = angle_after(desk, a, a.ref("onto"))
        return tuple(Piece(p.text.lstrip(", "), p.kind, p.of) if i == 0 else p for i, p in enumerate(told))
    if isinstance(v, Prose):
        return inner(desk, v)
    if isinstance(v, str):
        return _word(desk, a, key, v)
    if isinstance(v, tuple) and v and isinstance(v[0], str):
        if key == "edges" or key == "not":
            tail = " edge" if len(v) == 1 else " edges"
            return (*listed([plain(w) for w in v]), Piece(tail))
        return listed([plain(_called(desk, w)) for w in v])
    return ()


def _called(desk: Desk, name: str) -> str:
    thing = desk.thing(name)
    return thing.name if thing is not None else spaced(name)


def _word(desk: Desk, a: Action, key: str, text: str) -> Words:
    if key in ("from", "towards", "sticks_out", "face", "edge", "by"):
        host = a.ref("into") or a.ref("over") or a.ref("onto") or a.ref("from") or a.ref("what")
        thing = host_thing(desk, a.ref("what") if key in ("edge", "face", "by") else host)
        if key == "edge" and (thing is None or thing.form != "slab"):
            return plain(text)
        return plain(end_bare(thing, text))
    if key == "along":
        if text == "pattern":
            return plain("printed pattern")
        mark = desk.marks.get(text)
        return (Piece(mark_name(mark), NAME, text),) if mark is not None else plain(spaced(text))
    if key == "what":  # the name of a mark
        mark = desk.marks.get(text)
        return (Piece(mark_name(mark), NAME, text),) if mark is not None else plain(spaced(text))
    if key == "until":
        return plain(WAITS.get(text, text) if text != "cured" else "cured")
    if key == "depth":
        from builder.quantities.quantity import read_quantity

        read = read_quantity(text, Dimension.LENGTH)
        return desk.number(read, "", typed=True) if isinstance(read, Quantity) else plain(text)
    return plain(text)


def host_of(action: Action) -> Ref | None:
    """The thing that the places of an action lie on."""
    kind = action.verb.kind
    if kind in ("glue", "drill", "fold", "sand"):
        return action.ref("what")
    for field in ("into", "over", "onto", "around", "to"):
        found = action.ref(field)
        if found is not None:
            return found
    return action.ref("what")


def _place(desk: Desk, a: Action, key: str, before: str) -> Words:
    host = host_thing(desk, host_of(a))
    part = a.ref("what") if a.verb.kind != "glue" else None
    side = "inside" if a.verb.kind == "seat" and a.refs("into") else key
    found = [where(desk, spot, host, side if key == "to" else key, part) for spot in a.spots(key)]
    if before in _PREPOSITIONS and all(w.noun for w in found):
        nouns = [_measured(w) for w in found]
        if before in ("the", "its") and len(nouns) == 1:
            return _without_article(nouns[0])
        return listed(nouns)
    marks = [
        desk.say("to", host=w.noun) if a.verb.kind == "seat" and w.noun and not w.loose else w.adverb
        for w in found
    ]
    return listed(marks)


def _measured(w: Where) -> Words:
    """A zone by its name is told with its stations too."""
    if w.loose and w.noun and w.noun[-1].kind == NAME and "." in w.noun[-1].of:
        return (*w.noun, Piece(", "), *w.adverb)
    return w.noun


def _without_article(noun: Words) -> Words:
    first = noun[0].text
    for lead in ("the ", "its ", "a "):
        if first.startswith(lead):
            rest = first[len(lead) :]
            return (Piece(rest), *noun[1:]) if rest else noun[1:]
    return noun


def _thing_words(desk: Desk, name: str, before: str) -> Words | None:
    one = before in _SINGLE
    guide = desk.guide
    if name in guide.things:
        thing = guide.things[name]
        ref = _as_named(desk, name) or Ref(name, thing.at)
        return bare(desk, ref, one=one)
    match = re.fullmatch(r"([a-z][a-z0-9_]*) (\d+(?:(?: and |, ?)\d+)*)", name)
    if match and match.group(1) in guide.things:
        copies = tuple(int(n) for n in re.findall(r"\d+", match.group(2)))
        return bare(desk, Ref(match.group(1), guide.at, copies))
    if name in desk.marks:
        return (Piece(mark_name(desk.marks[name], count=1 if one else None), NAME, name),)
    if name in guide.dimensions:
        v = guide.dimensions[name]
        return _number(desk, v, name)
    head, dot, field = name.partition(".")
    owner = guide.things.get(head)
    if dot and owner is not None:
        return _field_of_thing(desk, head, field)
    return _zone_words(desk, name)


def _as_named(desk: Desk, name: str) -> Ref | None:
    """The action's own reference to a thing, so that its copies are told."""
    if desk.action is None:
        return None
    refs = (r for key in desk.action.fields for r in desk.action.refs(key))
    return next((r for r in refs if r.id == name and not r.part), None)


def _number(desk: Desk, v: Value, field: str) -> Words | None:
    if v.quantity is None:
        return None
    counted = field == "count" or v.quantity.dimension is Dimension.COUNT
    if counted and v.quantity.base.denominator == 1:
        return (Piece(count_word(int(v.quantity.base)), NUMBER, v.path),)
    return desk.number(v.quantity, v.path, typed=v.typed or field in _OWN_FINENESS)


def _field_of_thing(desk: Desk, id: str, field: str) -> Words | None:
    thing = desk.guide.things[id]
    key = field.replace(" ", "_")
    if key == "count" and "count" not in thing.values:
        return (Piece(count_word(thing.count), NUMBER, f"{id}.count"),)
    if key in thing.values:
        return _number(desk, thing.values[key], key)
    if thing.zone(key) is not None:
        return bare(desk, Ref(id, thing.at, (), key))
    if any(hole.name == key for hole in thing.holes):
        return (Piece(f"{spaced(key)} hole", NAME, f"{id}.{key}"),)
    if key in FACES:
        return plain(FACES[key])
    return None


def _zone_words(desk: Desk, name: str) -> Words | None:
    """A zone of what the action works on, by its bare name."""
    host = host_thing(desk, host_of(desk.action)) if desk.action is not None else None
    stretch = find_stretch(host, name, "outside")
    if stretch is None:
        return None
    return (Piece(spaced(name), NAME, stretch.path),)


__all__ = ("field_of", "field_words", "host_of", "inner", "reference")
