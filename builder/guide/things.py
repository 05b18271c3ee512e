"""Raw things -> materials, tools, parts: every field read, zones laid out, blanks and outlines made."""

from __future__ import annotations

from msgspec.structs import replace

from builder.findings import Place, Related
from builder.guide.axes import grain_along, grain_of, grains_of
from builder.guide.desk import Pairs, cut
from builder.guide.fields import Field, Fields, Holds
from builder.guide.forms import NEEDS
from builder.guide.model import Ref, Share, Thing, Value
from builder.guide.nodes import Node, ScalarNode, is_null
from builder.guide.numbers import Numbers
from builder.guide.raw import INNER, Raw
from builder.guide.reading import Reading
from builder.guide.shaped import chains, holes, outline, tapers
from builder.guide.suspects import blame, of_thing

FEWEST_SIDES = 3
MOST_COPIES = 200  # of one part or tool
MOST_COPIES_OF_ALL = 1_000  # past these each counts as one
RESERVED = ("pi", "all", "nothing")  # words of a sum and of a field

_SAYS_FORM = (("adhesive", "adhesive"), ("paint", "paint"), ("size", "sheet"), ("diameter", "rod"),
              ("inside", "tube"), ("width", "strip"))  # fmt: skip
_DEFAULT_FORM = {"material": "piece", "tool": "tool", "part": "piece"}


def register(section: Node, sort: str, fields: Fields, reading: Reading, numbers: Numbers,
             taken: dict[str, Place]) -> list[Raw]:  # fmt: skip
    """Enter the things of a section, so that numbers may be asked of them; `like` is resolved later."""
    raws = []
    for name, (key, node) in reading.pairs(section, f"the {sort}s").items():
        before = len(reading.findings)
        entered = take(key, f"the id of a {sort}", reading, taken)
        if len(reading.findings) > before:
            blame(reading.findings, before, frozenset(of_thing(name)))
        other = numbers.raws.get(name)
        if not entered and (sort != "part" or other is None or other.sort != "tool"):
            continue  # of a tool and a part, the part is taken: more is said of it
        name = name.replace(".", "_")  # a fault that has been told; a number of it can be asked for
        pairs = Pairs()
        if not is_null(node):
            pairs = reading.known(reading.pairs(node, f'"{name}"'), fields, f"a {sort}")
        raw = Raw(name, sort, key, node, pairs, fields, reading.place(key))
        numbers.raws[name] = raw
        raws.append(raw)
    return raws


def take(key: ScalarNode, what: str, reading: Reading, taken: dict[str, Place]) -> bool:
    """Enter an id of the one namespace; a second one is a finding, and is not read."""
    name = reading.new_id(key, what)
    if name in RESERVED:
        reading.fault("bad-id", key, f'"{name}" already means something in a guide',
                      "A sum or a field could not tell the two apart.", "Give it another id.")  # fmt: skip
    if name in taken:
        reading.fault("duplicate-id", key, f'"{cut(name)}" already names something else',
                      "A name that means two things cannot be told apart in a step.",
                      "Give one of them another id.", (Related(taken[name], "the first one"),))  # fmt: skip
        return False
    taken[name] = reading.place(key)
    return bool(name)


def copy_likes(reading: Reading, numbers: Numbers) -> None:
    """`like: rear_ring` borrows every field that is not written here."""
    done: set[str] = set()
    for raw in numbers.raws.values():
        way: dict[str, Raw] = {}
        current: Raw | None = raw
        while current is not None and current.id not in done and current.id not in way:
            way[current.id] = current
            current = _model(current, reading, numbers)
        if current is not None and current.id in way:
            ids = list(way)
            ring = [way[i] for i in ids[ids.index(current.id) :]]
            _like_cycle(ring, reading)
        for each in reversed(way.values()):
            done.add(each.id)
            like = each.pairs.get("like")
            named = like[1].value if like is not None and isinstance(like[1], ScalarNode) else ""
            other = numbers.raws.get(named)
            if other is not None and other.id in done and other is not each:
                _borrow(each, other)


def _model(raw: Raw, reading: Reading, numbers: Numbers) -> Raw | None:
    """The part that `like` names; where it names none, the finding, and the nearest name instead."""
    pair = raw.pairs.get("like")
    if pair is None:
        return None
    ref = reading.ref(pair[1], '"like"')
    other = numbers.raws.get(ref.id) if ref else None
    if ref is not None and other is None:
        parts = [r.id for r in numbers.raws.values() if r.sort == "part" and r is not raw]
        guess = reading.unknown(ref.at, ref.id, f'there is no part "{cut(ref.id)}" to copy',
                                "What it would have borrowed is missing.", parts,
                                "Name a part that is written out.")  # fmt: skip
        if guess is not None:
            raw.pairs["like"] = (pair[0], ScalarNode("", guess, pair[1].start_mark, pair[1].end_mark))
            return numbers.raws[guess]
    if other is not None and other.sort != raw.sort:
        reading.fault("wrong-sort", pair[1],
                      f'"{other.id}" is a {other.sort}, and cannot be copied as a {raw.sort}',
                      "Its fields mean something else.", f"Name a {raw.sort}.")  # fmt: skip
        other = None
    if other is None:
        raw.pairs.whole = False
        del raw.pairs["like"]
    return other


def _like_cycle(ring: list[Raw], reading: Reading) -> None:
    places = sorted((reading.place(r.pairs["like"][1]), r.id) for r in ring)
    way = " -> ".join((*(r.id for r in ring), ring[0].id))
    reading.fault("like-cycle", places[0][0], f"these parts copy one another: {way}",
                  "What they would borrow is written nowhere.", "Write one of them out.",
                  tuple(Related(place, f'"{id}" copies here') for place, id in places[1:]))  # fmt: skip
    for raw in ring:
        raw.pairs.whole = False
        del raw.pairs["like"]


def _borrow(raw: Raw, other: Raw) -> None:
    for name, pair in other.pairs.items():
        if name not in raw.pairs and name not in raw.pairs.spoiled and name not in ("name", "like"):
            raw.pairs[name] = pair
            raw.owners[name] = other.owners[name]
    raw.pairs.whole = raw.pairs.whole and other.pairs.whole
    raw.pairs.spoiled |= other.pairs.spoiled
    raw.form = raw.form or other.form


def build(raw: Raw, reading: Reading, numbers: Numbers) -> list[Thing]:
    """The thing, and the blank that it is rolled from if it is rolled."""
    words: dict[str, str] = {}
    refs: dict[str, Ref] = {}
    where: dict[str, Place] = {}
    hazards: tuple[str, ...] | None = None
    share: Share | None = None
    for name, (_, node) in raw.pairs.items():
        field = raw.fields[name]
        holds = field.holds
        where[field.key] = reading.place(node)
        if name in ("form", "like"):
            continue
        if holds is Holds.TEXT or holds is Holds.WORD:
            words[field.key] = reading.word(node, field) if field.words else reading.text(node, f'"{name}"')
        elif holds is Holds.YES:
            words[field.key] = "yes" if reading.yes(node, f'"{name}"') else ""
        elif holds is Holds.THING:
            raw.pairs.whole &= _refer(refs, field.key, field, node, reading, numbers)
        elif holds is Holds.PER:
            share = reading.share(node, f"{raw.id}.{field.key}")
        elif name == "hazards":
            hazards = reading.words(node, '"hazards"')
    form = _form(raw, reading)
    window = _nested(raw, reading, numbers, refs)
    values = _values(raw, numbers)
    _sides(raw, reading, values)
    _copies(raw, reading, numbers, values)
    reading.required(raw.pairs, raw.fields, raw.key, f'the {raw.sort} "{raw.id}"')
    _needed(raw, reading, values)
    count = values["count"].base
    thing = Thing(
        id=raw.id,
        name=words.get("name") or raw.id.replace("_", " "),
        sort=raw.sort,
        form=form,
        at=raw.at,
        count=int(count) if count is not None else 1,
        count_at=where.get("count"),
        values=values,
        words=words,
        refs=refs,
        where=where,
        chains=chains(raw, reading, numbers, values),
        outline=outline(raw, reading, numbers, values),
        holes=holes(raw, reading),
        tapers=tapers(raw, reading, numbers),
        hazards=hazards,
        share=share,
        window=window,
    )
    if "grain" in words and raw.owners["grain"] == raw.id:
        _grain(thing, raw, reading)
    if "rolled" not in raw.pairs:
        return [thing]
    blank = numbers.blank(raw)
    material = numbers.named(raw, "rolled", "of") or ""
    sheet = Thing(
        id=f"{raw.id}.blank", name=f"blank for the {thing.name}", sort="part", form="sheet", at=raw.at,
        values={"length": blank[0], "width": blank[1]},
        words={"grain": words["grain"]} if grain_of(thing) else {},
        refs={"of": Ref(material, where.get("rolled", raw.at))}, where=where, blank_of=raw.id)  # fmt: skip
    return [thing, sheet]


def _grain(thing: Thing, raw: Raw, reading: Reading) -> None:
    """A grain that means an axis of its thing; what means none lays nothing."""
    text, node = thing.words["grain"], raw.pairs["grain"][1]
    if not text or grain_along(text, thing):
        return
    ways = grains_of(thing)
    if not ways:
        reading.fault("word", node, f"a {thing.form} has no grain to lay",
                      "Only flat stock, and what is cut or rolled from it, is laid one way or the other.",
                      "Leave `grain` out.")  # fmt: skip
        return
    guess = reading.nearest(text, ways)
    reading.fault("word", node, f'"{cut(text)}" is no way of the {thing.name}',
                  "A builder would not know how to lay it on its stock.",
                  f"Did you mean `{guess}`?" if guess else f"Write one of: {', '.join(ways)}.")  # fmt: skip


def _form(raw: Raw, reading: Reading) -> str:
    pair = raw.pairs.get("form")
    if pair is None:  # what else is written may say what it is; that the form is missing has been told
        said = [form for field, form in _SAYS_FORM if raw.sort == "material" and field in raw.pairs]
        return said[0] if said else _DEFAULT_FORM[raw.sort]
    raw.form = reading.word(pair[1], raw.fields["form"])
    if not raw.form:
        raw.pairs.whole = False
    return raw.form or _DEFAULT_FORM[raw.sort]


def _refer(refs: dict[str, Ref], key: str, field: Field, node: Node, reading: Reading,
           numbers: Numbers) -> bool:
    """Enter the reference of a field; false if it names nothing that could serve."""
    ref = reading.ref(node, f'"{field.name}"')
    if ref is None:
        return False
    raw = numbers.raws.get(ref.id)
    sort = field.sort or "thing"
    if raw is None:
        fit = [r.id for r in numbers.raws.values() if not field.sort or r.sort == field.sort]
        guess = reading.unknown(node, ref.id, f'there is no {sort} "{cut(ref.id)}"',
                                "What is not on a list cannot be bought, made or found.", fit,
                                f"Add it to the {sort}s.")  # fmt: skip
        if guess is None:
            return False
        ref = Ref(guess, ref.at, ref.copies, ref.part)
    elif field.sort and raw.sort != field.sort:
        reading.fault("wrong-sort", node, f'"{ref.id}" is a {raw.sort}, but a {sort} belongs here',
                      "It could not do what is asked of it here.", f"Name a {sort}.")  # fmt: skip
        return False
    refs[key] = ref
    return True


def _nested(raw: Raw, reading: Reading, numbers: Numbers, refs: dict[str, Ref]) -> object | None:
    """The fields that have fields of their own; of the label, when the next coat may go on."""
    window = None
    for outer in ("label", "rolled", "sold"):
        pair = raw.pairs.get(outer)
        if pair is None or raw.owners[outer] != raw.id:
            continue
        inner, pairs = INNER[raw.sort, outer], numbers.inner(raw, outer)
        reading.required(pairs, inner, pair[0], f'"{outer}"')
        raw.pairs.whole = raw.pairs.whole and pairs.whole and not pairs.strays
        for name, (_, node) in pairs.items():
            field = inner[name]
            if field.holds is Holds.WINDOW:
                window = reading.window(node, f"{raw.id}.recoat")
            elif field.holds is Holds.THING:
                raw.pairs.whole &= _refer(refs, name, field, node, reading, numbers)
    if "rolled" in raw.pairs and raw.owners["rolled"] != raw.id:
        for name in ("of", "around"):
            other = numbers.named(raw, "rolled", name)
            if other:
                refs[name] = Ref(other, reading.place(raw.pairs["rolled"][1]))
    return window


def _values(raw: Raw, numbers: Numbers) -> dict[str, Value]:
    out: dict[str, Value] = {}
    for name in dict.fromkeys(("count", *numbers.number_names(raw))):
        value = numbers.lookup(f"{raw.id}.{name}")
        if value is not None:
            out[name] = value
    return out


def _sides(raw: Raw, reading: Reading, values: dict[str, Value]) -> None:
    """A polygon with fewer than three sides has no width; how many are meant is then not known."""
    sides = values.get("sides")
    if sides is None or sides.base is None or sides.base >= FEWEST_SIDES:
        return
    reading.fault("shape", raw.pairs["sides"][1], "a regular polygon has at least three sides",
                  "Fewer enclose nothing that could be cut out.", "Write a whole number from 3.")  # fmt: skip
    values["sides"] = replace(sides, quantity=None)
    raw.pairs.spoiled.add("across flats")  # which may follow from them


def _copies(raw: Raw, reading: Reading, numbers: Numbers, values: dict[str, Value]) -> None:
    """Every copy lies on the bench by itself, so there may not be very many; then one is built with."""
    count = values["count"]
    if raw.sort == "material" or count.base in (None, 1):
        return
    if "count" not in raw.pairs:  # it is the count of another thing with the same id, which is told there
        values["count"] = replace(count, quantity=None)
        return
    before, more = numbers.copies, int(count.base or 1) - 1
    numbers.copies += more
    if more < MOST_COPIES and numbers.copies <= MOST_COPIES_OF_ALL:
        return
    if more >= MOST_COPIES or before <= MOST_COPIES_OF_ALL:
        told = f'the {raw.sort} "{raw.id}" has' if more >= MOST_COPIES else "the parts and tools have"
        most = MOST_COPIES if more >= MOST_COPIES else MOST_COPIES_OF_ALL
        reading.fault("too-many", raw.pairs["count"][1], f"{told} more than {most:,} copies",
                      "The dry run takes each in hand, and nobody would get to the end of it.",
                      "Split the guide into several, or let one stand for many.")  # fmt: skip
    values["count"] = replace(count, quantity=None)


def _needed(raw: Raw, reading: Reading, values: dict[str, Value]) -> None:
    """A solid that lacks a measure can be neither fitted nor drawn; one finding names all that lack."""
    needed = NEEDS.get((raw.sort, raw.form), ())
    lacking = [any_of for any_of in needed if not any(n in values or n in raw.pairs for n in any_of)]
    if not lacking or not raw.pairs.sound:
        return
    told = " and ".join(f"no {' or '.join(n.replace('_', ' ') for n in any_of)}" for any_of in lacking)
    reading.fault("missing-field", raw.key, f'the {raw.sort} "{raw.id}" has {told}',
                  f"A {raw.form} of unknown measure can be neither fitted nor drawn.",
                  f"Write `{lacking[0][0].replace('_', ' ')}: ...`.")  # fmt: skip
