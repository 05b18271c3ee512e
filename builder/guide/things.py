"""Raw things -> materials, tools, parts: every field read, zones laid out, blanks and outlines made."""

from __future__ import annotations

from fractions import Fraction

from builder.findings import Place
from builder.guide.declared import MATERIAL, OUTLINE, PART, TOOL
from builder.guide.fields import Field, Holds, by_name
from builder.guide.forms import DERIVED
from builder.guide.model import Chain, Hole, Outline, Ref, Share, Taper, Thing, Value, Zone
from builder.guide.nodes import MappingNode, Node, ScalarNode, SequenceNode
from builder.guide.numbers import Numbers, Raw, taper_nodes, zone_nodes
from builder.guide.reading import Pairs, Reading
from builder.quantities.units import Dimension
from builder.trade.ends import is_origin

SECTIONS = (("materials", "material", MATERIAL), ("tools", "tool", TOOL), ("parts", "part", PART))

_DEFAULT_FORM = {"material": "piece", "tool": "tool", "part": "piece"}


def register(section: Node, sort: str, declared: tuple[Field, ...], reading: Reading, numbers: Numbers,
             taken: dict[str, Place]) -> list[Raw]:  # fmt: skip
    """Enter the things of a section, so that numbers may be asked of them; `like` is resolved later."""
    fields = by_name(declared)
    raws = []
    for name, (key, node) in reading.pairs(section, f"the {sort}s").items():
        id = reading.new_id(key, f"the id of a {sort}")
        at = reading.place(key)
        if id in taken:
            reading.fault("duplicate-id", key, f'"{id}" already names something else',
                          "A name that means two things cannot be told apart in a step.",
                          "Give one of them another id.")  # fmt: skip
            continue
        taken[id] = at
        pairs: Pairs = {}
        if not (isinstance(node, ScalarNode) and node.value == ""):
            pairs = reading.known(reading.pairs(node, f'"{name}"'), fields, f"a {sort}")
        raw = Raw(id, sort, key, node, pairs, fields, at)
        numbers.raws[id] = raw
        raws.append(raw)
    return raws


def copy_likes(reading: Reading, numbers: Numbers) -> None:
    """`like: rear_ring` borrows every field that is not written here."""
    for raw in numbers.raws.values():
        seen = {raw.id}
        current = raw
        while "like" in current.pairs:
            ref = current.pairs["like"][1]
            other = numbers.named(current, "like")
            if other is None or other in seen:
                reading.fault("unknown-name", ref, f'there is no part "{getattr(ref, "value", "")}" to copy',
                              "What it would have borrowed is missing.",
                              "Name a part that is written out.")  # fmt: skip
                break
            seen.add(other)
            current = numbers.raws[other]
            for name, pair in current.pairs.items():
                if name not in raw.pairs and name not in ("name", "like"):
                    raw.pairs[name] = pair
                    raw.owners[name] = current.owners.get(name, current.id)
            raw.form = raw.form or current.form


def build(raw: Raw, reading: Reading, numbers: Numbers) -> list[Thing]:
    """The thing, and the blank that it is rolled from if it is rolled."""
    words: dict[str, str] = {}
    refs: dict[str, Ref] = {}
    where = {name.replace(" ", "_"): reading.place(pair[1]) for name, pair in raw.pairs.items()}
    hazards: tuple[str, ...] | None = None
    share: Share | None = None
    for field in raw.fields.values():
        pair = raw.pairs.get(field.name)
        if pair is None or field.name in ("form", "like"):
            continue
        node = pair[1]
        if field.holds in (Holds.TEXT, Holds.WORD):
            words[field.key] = reading.word(node, field) if field.words else reading.text(node, field.name)
        elif field.holds is Holds.YES:
            words[field.key] = "yes" if reading.yes(node, field.name) else ""
        elif field.holds is Holds.THING:
            _refer(refs, field.key, field, node, raw, reading, numbers)
        elif field.holds is Holds.PER:
            share = reading.share(node, f"{raw.id}.{field.key}")
        elif field.name == "hazards":
            hazards = reading.words(node, "hazards")
    form = _form(raw, reading)
    window = _label_and_rolled(raw, reading, numbers, refs)
    values = _values(raw, numbers)
    reading.required(raw.pairs, raw.fields, raw.key, f"the {raw.sort} \"{raw.id}\"")
    count = values.get("count")
    thing = Thing(
        id=raw.id,
        name=words.get("name") or raw.id.replace("_", " "),
        sort=raw.sort,
        form=form,
        at=raw.at,
        count=int(count.base) if count is not None and count.base is not None else 1,
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
    blank = numbers.blank(raw) if "rolled" in raw.pairs else None
    if blank is None:
        return [thing]
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
    word = reading.word(pair[1], raw.fields["form"])
    if raw.owners.get("form") != raw.id:
        return raw.form
    raw.form = word
    return word or _DEFAULT_FORM[raw.sort]


def _refer(refs: dict[str, Ref], key: str, field: Field, node: Node, raw: Raw, reading: Reading,
           numbers: Numbers) -> None:  # fmt: skip
    ref = reading.ref(node, f'"{field.name}"')
    if ref is None:
        return
    if ref.id not in numbers.raws:
        refs_ok = _guess(ref, node, reading, numbers, field.sort)
        if refs_ok is None:
            return
        ref = Ref(refs_ok, ref.at, ref.copies, ref.part)
    refs[key] = ref


def _guess(ref: Ref, node: Node, reading: Reading, numbers: Numbers, sort: str) -> str | None:
    from builder.guide.reading import nearest

    fit = [r.id for r in numbers.raws.values() if not sort or r.sort == sort]
    guess = nearest(ref.id, fit)
    reading.fault("unknown-name", node, f'there is no {sort or "thing"} "{ref.id}"',
                  "What is not on a list cannot be bought, made or found.",
                  f"Did you mean `{guess}`?" if guess else f"Add it to the {sort or 'thing'}s.")  # fmt: skip
    return guess


def _label_and_rolled(raw: Raw, reading: Reading, numbers: Numbers, refs: dict[str, Ref]) -> object | None:
    window = None
    for outer in ("label", "rolled", "sold"):
        pair = raw.pairs.get(outer)
        if pair is None or raw.owners.get(outer) != raw.id:
            continue
        inner = by_name(raw.fields[outer].inner)
        pairs = reading.known(reading.pairs(pair[1], f'"{outer}"'), inner, f'"{outer}"')
        reading.required(pairs, inner, pair[0], f'"{outer}"')
        for name, (_, node) in pairs.items():
            field = inner[name]
            if field.holds is Holds.WINDOW:
                window = reading.window(node, f"{raw.id}.recoat")
            elif field.holds is Holds.THING:
                _refer(refs, name, field, node, raw, reading, numbers)
    if "rolled" in raw.pairs and raw.owners["rolled"] != raw.id:
        for inner_name in ("of", "around"):
            other = numbers.named(raw, "rolled", inner_name)
            if other:
                refs[inner_name] = Ref(other, reading.place(raw.pairs["rolled"][1]))
    return window


_ALWAYS = ("count", "length", "width", "folded_length", "folded_width", "knots_take", "working_time", "tack",
           "set", "full_cure", "dry", "pack", "price", "turns", "overlap", "root", "tip", "span", "sweep")  # fmt: skip


def _values(raw: Raw, numbers: Numbers) -> dict[str, Value]:
    names = [f.key for f in raw.fields.values() if f.holds in (Holds.NUMBER, Holds.TOLERANCE, Holds.COUNT)]
    out: dict[str, Value] = {}
    for name in dict.fromkeys((*names, *_ALWAYS, *DERIVED.get(raw.form, {}))):
        value = numbers.of(raw.id, name)
        if value is not None:
            out[name] = value
    return out


def _chains(raw: Raw, reading: Reading, numbers: Numbers, values: dict[str, Value]) -> tuple[Chain, ...]:
    pair = raw.pairs.get("zones")
    if pair is None:
        return ()
    if not isinstance(pair[1], MappingNode):
        reading.fault("shape", pair[1], "zones are chains, each from an end",
                      "Where order matters, a list keeps it.",
                      "Write `outside from rear: [tail: 1/4 in, ...]`.")  # fmt: skip
        return ()
    out = []
    seen: set[str] = set()
    for key, chain in pair[1].value:
        side, _, origin = str(getattr(key, "value", "")).partition(" from ")
        if not origin or side not in ("outside", "inside", "lengthwise", "crosswise"):
            reading.fault("shape", key, f'"{getattr(key, "value", "")}" does not say where the chain begins',
                          "A chain is measured from one end, on one side.",
                          "Write `outside from rear`, `inside from front`, `lengthwise from left` ...")  # fmt: skip
            continue
        if not isinstance(chain, SequenceNode):
            reading.fault("shape", chain, "the zones of a chain are a list", "Their order is their place.",
                          "Write `[tail: 1/4 in, seat: ring.length]`.")  # fmt: skip
            continue
        out.append(_chain(raw, side, origin, key, chain, reading, numbers, values, seen))
    return tuple(out)


def _chain(raw: Raw, side: str, origin: str, key: Node, chain: Node, reading: Reading, numbers: Numbers,
           values: dict[str, Value], seen: set[str]) -> Chain:  # fmt: skip
    owner = raw.owners.get("zones", raw.id)
    lengths: list[tuple[ScalarNode, Value]] = []
    for name, node in zone_nodes(chain):
        reading.new_id(name, "the name of a zone")
        if name.value in seen:  # two chains may share a name; its number is then read on its own
            value = reading.number(node, f"{owner}.{side}.{name.value}", Dimension.LENGTH)
        else:
            value = numbers.of(owner, name.value) or Value(None, f"{owner}.{name.value}", reading.place(node))
        seen.add(name.value)
        lengths.append((name, value))
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
                return edge == end
    return edge in ("right", "top", "back")


def _outline(raw: Raw, reading: Reading, values: dict[str, Value]) -> Outline | None:
    if raw.form == "regular polygon":
        return Outline("regular polygon", raw.at, {k: v for k, v in values.items()
                                                   if k in ("sides", "across_flats", "across_corners")})  # fmt: skip
    if raw.form in ("ring", "disc"):
        return Outline(raw.form, raw.at, {k: v for k, v in values.items() if k in ("outside", "inside")})
    pair = raw.pairs.get("outline")
    if pair is None:
        sized = {k: v for k, v in values.items() if k in ("length", "width")}
        return Outline("rectangle", raw.at, sized) if len(sized) == 2 else None
    node = pair[1]
    own = raw.owners.get("outline") == raw.id
    fields = by_name(OUTLINE)
    pairs = reading.pairs(node, "an outline")
    pairs = reading.known(pairs, fields, "an outline") if own else {k: v for k, v in pairs.items() if k in fields}
    edges = reading.words(pairs["edges"][1], "edges") if "edges" in pairs else ()
    words = {f.key: reading.text(pairs[f.name][1]) for f in OUTLINE if f.holds is Holds.TEXT and f.name in pairs}
    at = reading.place(node)
    if "rectangle" in pairs:
        return Outline("rectangle", at, _only(values, "length", "width"), edges or ("left", "front", "right", "back"),
                       words)  # fmt: skip
    if "root" in pairs:
        return Outline("fin", at, _only(values, "root", "tip", "span", "sweep"),
                       ("root", "rear", "tip", "front"), words)  # fmt: skip
    if "disc" in pairs:
        return Outline("disc", at, _only(values, "diameter"), (), words)
    if "points" in pairs:
        return Outline("points", at, {}, edges, words, _points(pairs["points"][1], raw, reading))
    reading.fault("missing-field", node, "the outline has no shape", "It can be neither drawn nor cut.",
                  "Write `rectangle`, `root`/`tip`/`span`, `disc` or `points`.")  # fmt: skip
    return None


def _only(values: dict[str, Value], *names: str) -> dict[str, Value]:
    return {n: values[n] for n in names if n in values}


def _points(node: Node, raw: Raw, reading: Reading) -> tuple[tuple[Value, Value], ...]:
    out = []
    if isinstance(node, SequenceNode):
        for i, entry in enumerate(node.value, 1):
            if isinstance(entry, SequenceNode) and len(entry.value) == 2:
                x, y = (reading.number(n, f"{raw.id}.outline.point_{i}.{axis}", Dimension.LENGTH)
                        for n, axis in zip(entry.value, ("along", "across"), strict=True))  # fmt: skip
                out.append((x, y))
                continue
            reading.fault("shape", entry, "a point is a pair of lengths", "A corner lies along and across.",
                          "Write `[10 mm, 20 mm]`.")  # fmt: skip
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
    if pair is None or not isinstance(pair[1], MappingNode):
        return ()
    numbers.of(raw.id, "widest")
    owner = raw.owners.get("diameters", raw.id)
    if owner != raw.id:
        numbers.of(owner, "widest")
    out = []
    for key, node in pair[1].value:
        ends = [numbers.memo.get(f"{owner}.{key.value}.diameter" + (".end" if i else ""))
                for i, _ in enumerate(taper_nodes(node))]  # fmt: skip
        known = [v for v in ends if v is not None]
        if known:
            out.append(Taper(str(key.value), known[0], known[-1], reading.place(key)))
    return tuple(out)
