"""What the kinds of action have in common when they are told: the filled slots, tools, and hosts."""

from __future__ import annotations

from collections.abc import Sequence

import msgspec

from builder.guide.model import Action, Ref, Thing
from builder.guide.phrases import FACES, FITS, THE, WITH
from builder.guide.wording.desk import Desk, first_spot
from builder.guide.wording.nouns import all_of, listed, stuff
from builder.guide.wording.pieces import Piece, Words, fill, plain
from builder.trade.tools import tool_kind


class Told(msgspec.Struct, frozen=True):
    """The slots of a phrase; a phrase or a verb instead of the row's own; a lead-in and further sentences."""

    slots: dict[str, Words]
    phrase: str = ""
    verb: str = ""
    before: Words = ()
    after: tuple[Words, ...] = ()


def kind_of_tool(desk: Desk, ref: Ref) -> str:
    """The trade's kind of a tool; empty if the trade does not know it."""
    thing = desk.thing(ref.id)
    kind = tool_kind(thing.name) if thing is not None and thing.sort == "tool" else None
    return kind.key if kind is not None else ""


def with_tools(desk: Desk, refs: Sequence[Ref]) -> Words:
    """ "with the craft knife and the steel rule on the cutting mat"."""
    mats = [ref for ref in refs if kind_of_tool(desk, ref) == "cutting mat"]
    others = [ref for ref in refs if ref not in mats]
    tools = listed([stuff(desk, ref) for ref in others])
    if not mats:
        again = any(WITH in piece.text for piece in tools)  # "with the hand drill with a 6 mm bit" stumbles
        return desk.say("using" if again else "with", tools=tools) if others else ()
    if not others:
        return desk.say("only mat", mat=all_of(desk, mats))
    return desk.say("with mat", tools=tools, mat=all_of(desk, mats))


def host_thing(desk: Desk, ref: Ref | None) -> Thing | None:
    """The thing that a reference names."""
    return desk.thing(ref.id) if ref is not None else None


def on_face(desk: Desk, action: Action, host: Words) -> Words:
    """The host, or the face of it that the action's place field names: "the underside of the deck"."""
    field, _ = first_spot(action)
    if field not in FACES:
        return host
    return desk.say("of", part=plain(THE + FACES[field]), whole=host)


def places_of(desk: Desk, action: Action, host: Thing | None, part: Ref | None = None) -> Words:
    """The place of an action, hung onto its sentence."""
    from builder.guide.wording.places import where

    field, spots = first_spot(action)
    if not spots:
        return ()
    if len(spots) == 1:
        return (Piece(" "), *where(desk, spots[0], host, field, part).after)
    found = [where(desk, spot, host, field, part) for spot in spots]
    return (Piece(", "), *listed([w.adverb for w in found]))


def fit_of(action: Action, it: Words) -> tuple[Words, ...]:
    """ "It should slide by hand."."""
    fit = action.word("fit")
    return (fill(FITS[fit], {"it": it}),) if fit in FITS else ()


_WAYS = {"into": "into", "over": "over", "onto": "onto", "to": "to", "around": "round", "from": "from host"}


def other(desk: Desk, action: Action) -> Told:
    """A kind that has no words of its own: its things, each by the way that its field says, its place, its
    tools, and its numbers and words as they stand."""
    from builder.guide.wording.places import value

    slots: dict[str, Words] = {}
    host: Ref | None = None
    for key in action.fields:
        refs, number = action.refs(key), action.value(key)
        if key == "with":
            slots[key] = with_tools(desk, refs)
        elif refs:
            host = refs[0] if key in _WAYS else host
            things = all_of(desk, refs)
            slots[key] = desk.say(_WAYS[key], host=things) if key in _WAYS else things
        elif number is not None:
            slots[key] = value(desk, number)
        elif not action.spots(key):
            slots[key] = plain(action.word(key))
    field, spots = first_spot(action)
    if spots:
        what = action.refs("what")
        slots[field] = places_of(desk, action, host_thing(desk, host), what[0] if what else None)
    return Told(slots)
