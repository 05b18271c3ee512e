"""Raw things -> materials, tools, parts: every field read, zones laid out, blanks and outlines made."""

from __future__ import annotations

from fractions import Fraction

from builder.findings import Place, Related
from builder.guide.declared import MATERIAL, OUTLINE, PART, TOOL
from builder.guide.desk import Pairs, cut
from builder.guide.fields import Field, Holds, by_name
from builder.guide.forms import DERIVED, NEEDS
from builder.guide.model import Chain, Hole, Outline, Ref, Share, Taper, Thing, Value, Zone
from builder.guide.nodes import MappingNode, Node, ScalarNode, SequenceNode, is_null
from builder.guide.numbers import Numbers, Raw, zone_nodes
from builder.guide.reading import Reading
from builder.quantities.units import Dimension
from builder.trade.ends import ENDS, is_origin

SECTIONS = (
    ("materials", "material", by_name(MATERIAL)),
    ("tools", "tool", by_name(TOOL)),
    ("parts", "part", by_name(PART)),
)

RESERVED = ("pi", "all", "nothing")  # words of a sum and of a field

_DEFAULT_FORM = {"material": "piece", "tool": "tool", "part": "piece"}
_OUTLINE = by_name(OUTLINE)
_INNER = {(sort, outer): by_name(fields[outer].inner) for _, sort, fields in SECTIONS
          for outer in ("label", "rolled", "sold") if outer in fields}  # fmt: skip


def register(section: Node, sort: str, fields: dict[str, Field], reading: Reading, numbers: Numbers,
             taken: dict[str, Place]) -> list[Raw]:  # fmt: skip
    """Enter the things of a section, so that numbers may be asked of them; `like` is resolved later."""
    raws = []
    for name, (key, node) in reading.pairs(section, f"the {sort}s").items():
        if not take(key, f"the id of a {sort}", reading, taken):
            continue
        pairs = Pairs()
        if not is_null(node):
            pairs = reading.known(reading.pairs(node, f'"{name}"'), fields, f"a {sort}")
        raw = Raw(name, sort, key, node, pairs, fields, taken[name])
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
            other = numbers.raws.get(like[1].value) if like is not None else None
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
        chains=_chains(raw, reading, numbers, values),
        outline=_outline(raw, reading, values),
        holes=_holes(raw, reading),
        tapers=_tapers(raw, reading, numbers),
        hazards=hazards,
        share=share,
        window=window,
    )
    if "rolled" not in raw.pairs:
        return [thing]
    blank = numbers.blank(raw)
    material = numbers.named(raw, "rolled", "of") or ""
    sheet = Thing(
        id=f"{raw.id}.blank", name=f"blank for the {thing.name}", sort="part", form="sheet", at=raw.at,
        values={"length": blank[0], "width": blank[1]},
        refs={"of": Ref(material, where.get("rolled", raw.at))}, where=where, blank_of=raw.id)  # fmt: skip
    return [thing, sheet]


def _form(raw: Raw, reading: Reading) -> str:
    pair = raw.pairs.get("form")
    if pair is None:
        return _DEFAULT_FORM[raw.sort]
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
        inner = _INNER[raw.sort, outer]
        pairs = reading.known(reading.pairs(pair[1], f'"{outer}"'), inner, f'"{outer}"')
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


_SIDES = ("outside", "inside", "lengthwise", "crosswise")


def _chains(raw: Raw, reading: Reading, numbers: Numbers, values: dict[str, Value]) -> tuple[Chain, ...]:
    pair = raw.pairs.get("zones")
    if pair is None:
        return ()
    if not isinstance(pair[1], MappingNode):
        reading.fault("shape", pair[1], "zones are chains, each from an end",
                      "Where order matters, a list keeps it.",
                      "Write `outside from rear: [tail: 1/4 in, ...]`.")  # fmt: skip
        return ()
    ends = (*ENDS, *_edges(raw))
    out = []
    seen: set[str] = set()
    for name, (key, chain) in reading.pairs(pair[1], "zones").items():
        side, _, origin = name.partition(" from ")
        if not origin or side not in _SIDES:
            reading.fault("shape", key, f'"{cut(name)}" does not say where the chain begins',
                          "A chain is measured from one end, on one side.",
                          "Write `outside from rear`, `inside from front`, `lengthwise from left` ...")
            continue
        if origin not in ends:
            guess = reading.nearest(origin, ends)
            reading.fault("word", key, f'"{cut(origin)}" is not an end', "A chain is measured from one end.",
                          f"Did you mean `{guess}`?" if guess else f"Write one of: {', '.join(ENDS)}.")
            origin = guess or origin
        if not isinstance(chain, SequenceNode):
            reading.fault("shape", chain, "the zones of a chain are a list", "Their order is their place.",
                          "Write `[tail: 1/4 in, seat: ring.length]`.")  # fmt: skip
        out.append(_chain(raw, side, origin, key, chain, reading, numbers, values, seen))
    return tuple(out)


def _edges(raw: Raw) -> tuple[str, ...]:
    """The names that the outline gives its edges."""
    pair = raw.pairs.get("outline")
    if pair is None or not isinstance(pair[1], MappingNode):
        return ()
    named = (v for k, v in pair[1].value if isinstance(k, ScalarNode) and k.value == "edges")
    return tuple(n.value for v in named if isinstance(v, SequenceNode) for n in v.value
                 if isinstance(n, ScalarNode))


def _chain(raw: Raw, side: str, origin: str, key: Node, chain: Node, reading: Reading, numbers: Numbers,
           values: dict[str, Value], seen: set[str]) -> Chain:  # fmt: skip
    owner = raw.owners["zones"]
    lengths: list[tuple[ScalarNode, Value]] = []
    here: dict[str, Place] = {}
    for entry in chain.value if isinstance(chain, SequenceNode) else ():
        if not isinstance(entry, MappingNode):
            reading.fault("missing-value", entry, "this zone has no length",
                          "A chain is the sum of its zones.",
                          "Write `name: length`.")  # fmt: skip
    for name, node in zone_nodes(chain):
        reading.new_id(name, "the name of a zone")
        if name.value in here or name.value in raw.fields or name.value in DERIVED.get(raw.form, {}):
            also = (Related(here[name.value], "the first one"),) if name.value in here else ()
            reading.fault("duplicate-id", name, f'"{cut(name.value)}" already names something of this part',
                          "A sum that asks for it would not know which is meant.",
                          "Give the zone another name.", also)  # fmt: skip
        if name.value in seen or name.value in here or name.value in raw.fields:
            # two chains may share a name; its number is then read on its own
            value = reading.number(node, f"{owner}.{side}.{name.value}", Dimension.LENGTH)
        else:
            value = numbers.of(owner, name.value) or Value(None, f"{owner}.{name.value}", reading.place(node))
        here[name.value] = reading.place(name)
        lengths.append((name, value))
    seen.update(here)
    whole = values.get("width" if side == "crosswise" else "length")
    total = whole.base if whole is not None else None
    if total is None and all(v.base is not None for _, v in lengths):
        total = sum((v.base or Fraction(0) for _, v in lengths), Fraction(0))
    forward = is_origin(origin) if side in ("outside", "inside") else not _ends_along(raw, origin)
    zones = []
    at_now: Fraction | None = Fraction(0)
    reads: frozenset[str] = frozenset()
    for name, value in lengths:
        reads |= value.reads
        after = at_now + value.base if at_now is not None and value.base is not None else None
        lo, hi = at_now, after
        if not forward:
            lo = total - after if total is not None and after is not None else None
            hi = total - at_now if total is not None and at_now is not None else None
        zones.append(Zone(name.value, value, reading.place(name), lo, hi, reads))
        at_now = after
    return Chain(side, origin, tuple(zones), reading.place(key), f"{owner}.zones.{side}")


def _ends_along(raw: Raw, edge: str) -> bool:
    """Whether a flat part's stated way (`along: front to back`) ends at this edge, or lists it last."""
    pair = raw.pairs.get("outline")
    if pair is None or not isinstance(pair[1], MappingNode):
        return edge in ("right", "top", "back")
    for key, node in pair[1].value:
        if getattr(key, "value", "") == "along" and isinstance(node, ScalarNode):
            start, _, end = node.value.partition(" to ")
            if edge in (start, end):
                return bool(edge == end)
    return edge in ("right", "top", "back")


def _outline(raw: Raw, reading: Reading, values: dict[str, Value]) -> Outline | None:
    if raw.form == "regular polygon":
        return Outline("regular polygon", raw.at, {k: v for k, v in values.items()
                                                   if k in ("sides", "across_flats", "across_corners")})
    if raw.form in ("ring", "disc"):
        return Outline(raw.form, raw.at, {k: v for k, v in values.items() if k in ("outside", "inside")})
    pair = raw.pairs.get("outline")
    if pair is None:
        sized = {k: v for k, v in values.items() if k in ("length", "width")}
        return Outline("rectangle", raw.at, sized) if len(sized) == 2 else None
    node = pair[1]
    pairs = reading.known(reading.pairs(node, "an outline"), _OUTLINE, "an outline")
    raw.pairs.whole &= pairs.sound
    edges = reading.words(pairs["edges"][1], "edges") if "edges" in pairs else ()
    words = {f.key: reading.text(pairs[f.name][1]) for f in OUTLINE if f.holds is Holds.TEXT
             and f.name in pairs}
    at = reading.place(node)
    if "rectangle" in pairs:
        return Outline("rectangle", at, _only(values, "length", "width"), edges
                       or ("left", "front", "right", "back"),
                       words)  # fmt: skip
    if "root" in pairs:
        reading.missing([_OUTLINE[n] for n in ("tip", "span") if n not in pairs and n not in pairs.spoiled],
                        pairs, node, "the outline of a fin")  # fmt: skip
        return Outline("fin", at, _only(values, "root", "tip", "span", "sweep"),
                       ("root", "rear", "tip", "front"), words)  # fmt: skip
    if "disc" in pairs:
        return Outline("disc", at, _only(values, "diameter"), (), words)
    if "points" in pairs:
        return Outline("points", at, {}, edges, words, _points(pairs["points"][1], raw, reading))
    if not pairs.sound:
        return None
    reading.fault("missing-field", node, "the outline has no shape", "It can be neither drawn nor cut.",
                  "Write `rectangle`, `root`/`tip`/`span`, `disc` or `points`.")  # fmt: skip
    return None


def _only(values: dict[str, Value], *names: str) -> dict[str, Value]:
    return {n: values[n] for n in names if n in values}


MOST_POINTS = 400


def _points(node: Node, raw: Raw, reading: Reading) -> tuple[tuple[Value, Value], ...]:
    out = []
    if isinstance(node, SequenceNode):
        for i, entry in enumerate(node.value[:MOST_POINTS], 1):
            if isinstance(entry, SequenceNode) and len(entry.value) == 2:
                x, y = (reading.number(n, f"{raw.id}.outline.point_{i}.{axis}", Dimension.LENGTH)
                        for n, axis in zip(entry.value, ("along", "across"), strict=True))  # fmt: skip
                out.append((x, y))
                continue
            reading.fault("shape", entry, "a point is a pair of lengths", "A corner lies along and across.",
                          "Write `[10 mm, 20 mm]`.")  # fmt: skip
        if len(node.value) >= 3:
            return tuple(out)
    reading.fault("shape", node, "an outline has at least three points", "Fewer enclose nothing.",
                  "Write `[[0 mm, 0 mm], [40 mm, 0 mm], [20 mm, 30 mm]]`.")  # fmt: skip
    return tuple(out)


def _holes(raw: Raw, reading: Reading) -> tuple[Hole, ...]:
    pair = raw.pairs.get("holes")
    if pair is None:
        return ()
    owner = raw.owners.get("holes", raw.id)
    out = []
    for name, (key, node) in reading.pairs(pair[1], "the holes").items():
        reading.new_id(key, "the name of a hole")
        out.append(Hole(name, reading.spot(node, f"{owner}.{name}"), reading.place(key)))
    return tuple(out)


def _tapers(raw: Raw, reading: Reading, numbers: Numbers) -> tuple[Taper, ...]:
    pair = raw.pairs.get("diameters")
    if pair is None:
        return ()
    pairs = reading.pairs(pair[1], '"diameters"')
    zones = list(numbers.zones_of(raw))
    read = numbers.diameters(raw)
    out = []
    for name, (key, _) in pairs.items():
        zone: str | None = name
        if name not in zones:
            zone = reading.unknown(key, name, f'the part "{raw.id}" has no zone "{cut(name)}"',
                                   "The diameter would belong to nothing.", zones, "Add the zone to a chain.")
        ends = read.get(name)
        if ends and zone:
            out.append(Taper(zone, ends[0], ends[-1], reading.place(key)))
    told = {t.zone for t in out}
    for chain, outside in _outside_zones(raw):
        if outside not in told and pairs.whole and len(told) == len(pairs):
            reading.fault("missing-field", pair[1], f'the zone "{outside}" has no diameter',
                          "The part cannot be drawn or fitted there.", f"Write `{outside}: ...` among them.",
                          (Related(reading.place(chain), "the zone"),))  # fmt: skip
    return tuple(out)


def _outside_zones(raw: Raw) -> list[tuple[Node, str]]:
    pair = raw.pairs.get("zones")
    if pair is None or not isinstance(pair[1], MappingNode):
        return []
    return [(name, str(name.value)) for key, chain in pair[1].value
            if isinstance(key, ScalarNode) and key.value.startswith("outside") for name,
            _ in zone_nodes(chain)]
