"""The sentence of cutting: what comes out of which stock, how large, how its grain lies, what is left."""

from __future__ import annotations

from builder.guide.axes import WIDTH, along_stock, grain_of
from builder.guide.model import Action, Ref, SizeValue, Value
from builder.guide.phrases import BY_TOOL, THE
from builder.guide.wording.desk import Desk
from builder.guide.wording.nouns import count_word, listed, new, spaced, the, the_mark
from builder.guide.wording.pieces import Words, plain, text_of
from builder.guide.wording.places import value
from builder.guide.wording.told import Told, host_thing, kind_of_tool, with_tools

_LONG_STOCK = ("strip", "cord", "rod", "tube", "tape")


def cut(desk: Desk, a: Action) -> Told:
    """Pieces come out of stock."""
    refs = a.refs("what")
    stock = a.ref("from") or _stock_of(desk, refs)
    along = a.word("along")
    pattern = along == "pattern"
    what = listed([(*new(desk, r), *(() if pattern else _size_of(desk, r, stock))) for r in refs])
    slots = {"what": what, "with": with_tools(desk, a.refs("with")), "grain": _grain(desk, refs)}
    printed = stock is None and all(desk.thing(r.id) and desk.thing(r.id).words.get("printed") for r in refs)  # type: ignore[union-attr]
    if stock is not None:
        slots["from"] = desk.say("stock", stock=the(desk, stock))
    elif printed:
        slots["from"] = desk.say("printed")
        pattern = False
    if pattern:
        slots["along"] = desk.say("along pattern")
    elif along and not printed:
        slots["along"] = desk.say("along mark", marks=_mark(desk, along))
    kinds = [kind_of_tool(desk, r) for r in a.refs("with")]
    verb = next((BY_TOOL[("cut", k)] for k in kinds if ("cut", k) in BY_TOOL), "")
    sizes = a.sizes("leaves")
    after: tuple[Words, ...] = ()
    if sizes is not None:
        after = (
            desk.say(
                "leaves",
                sizes=listed(
                    [_size(desk, s) for s in sizes], long=any(isinstance(s, SizeValue) for s in sizes)
                ),
            )
            if sizes
            else desk.say("leaves nothing"),
        )
    return Told(slots, verb=verb, before=_for_each(desk, refs), after=after)


def _mark(desk: Desk, name: str) -> Words:
    return the_mark(desk, name) if name in desk.marks else plain(THE + spaced(name))


def _stock_of(desk: Desk, refs: tuple[Ref, ...]) -> Ref | None:
    """The stock that all the parts name by themselves."""
    found = [desk.thing(r.id).refs.get("of") if desk.thing(r.id) else None for r in refs]  # type: ignore[union-attr]
    first = found[0] if found else None
    return first if first is not None and all(f is not None and f.id == first.id for f in found) else None


def _for_each(desk: Desk, refs: tuple[Ref, ...]) -> Words:
    """ "for each builder," where a preparation makes as many as the class needs."""
    if desk.step is None or not desk.step.stage.per_class:
        return ()
    shares = set()
    for ref in refs:
        thing = desk.thing(ref.id)
        shares.add(thing.share.builders if thing is not None and thing.share is not None else 1)
    n = shares.pop() if len(shares) == 1 else 0
    if n < 1:
        return ()
    each = desk.say("each builder") if n == 1 else desk.say("every builders", n=plain(count_word(n)))
    return desk.say("for each", each=each)


def _size_of(desk: Desk, ref: Ref, stock: Ref | None) -> Words:
    """How large to cut what has no pattern: "each 16 in (406 mm) long"."""
    thing = desk.thing(ref.id)
    if thing is None or thing.words.get("printed"):
        return ()
    material = host_thing(desk, stock)
    each = "each " if desk.number_of(ref) > 1 else ""
    length, width = thing.values.get("length"), thing.values.get("width")
    if thing.outline is not None and thing.outline.shape not in ("rectangle",):
        across = thing.values.get("diameter") or thing.values.get("across_flats")
        return desk.say(f"{each}across", length=_length(desk, across)) if across is not None else ()
    if length is None or length.quantity is None:
        return ()
    long = thing.form in ("cord", "rod", "tube") or (material is not None and material.form in _LONG_STOCK)
    if long and width is not None and along_stock(thing, material) == WIDTH:
        length = width
    if long or width is None or width.quantity is None:
        return desk.say(f"{each}long", length=_length(desk, length))
    size = desk.say("size", first=_length(desk, length), second=_length(desk, width))
    return desk.say("each sized" if each else "sized", size=size)


def _grain(desk: Desk, refs: tuple[Ref, ...]) -> Words:
    """How the pieces lie on their stock: "with the grain from root to tip"."""
    ways = [(r, way) for r in refs if (way := _runs(desk, r))]
    if not ways:
        return ()
    if len(ways) == len(refs) and len({text_of(way) for _, way in ways}) == 1:
        return desk.say("grain", way=ways[0][1])
    told = [desk.say("grain of", part=the(desk, ref), way=way) for ref, way in ways]
    return desk.say("grains", ways=listed(told, long=True))


def _runs(desk: Desk, ref: Ref) -> Words:
    """Along which line the grain of a piece has to run; nothing where it is no matter."""
    thing = desk.thing(ref.id)
    axis = grain_of(thing) if thing is not None else ""
    if thing is None or not axis:
        return ()
    if thing.blank_of and desk.thing(thing.blank_of) is not None:
        return desk.say("grain along", what=the(desk, Ref(thing.blank_of, ref.at)))
    text = thing.words["grain"]
    if not text.startswith("along "):
        start, _, end = text.partition(" to ")
        return desk.say("grain from", start=plain(start), end=plain(end))
    length, width = thing.mm("length"), thing.mm("width")
    if length is None or width is None:
        return desk.say("grain its", axis=plain(axis))
    if length == width:
        return ()
    return desk.say("grain long" if (length > width) == (axis == "length") else "grain short")


def _length(desk: Desk, v: Value) -> Words:
    return value(desk, v)


def _size(desk: Desk, size: SizeValue | Value) -> Words:
    if isinstance(size, Value):
        return value(desk, size)
    return desk.say("size", first=value(desk, size.first), second=value(desk, size.second))
