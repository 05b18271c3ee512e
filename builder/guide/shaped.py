"""The shape of a thing: its chains of zones, its outline with holes, the diameters of a turned part."""

from __future__ import annotations

from fractions import Fraction

from builder.findings import Place, Related
from builder.guide.declared import OUTLINE
from builder.guide.desk import Pairs, cut
from builder.guide.fields import Holds
from builder.guide.forms import DERIVED
from builder.guide.model import Chain, Hole, Outline, Taper, Value, Zone
from builder.guide.nodes import MappingNode, Node, ScalarNode, SequenceNode
from builder.guide.numbers import Numbers
from builder.guide.raw import INNER, Raw, zone_nodes
from builder.guide.reading import Reading
from builder.quantities.units import Dimension
from builder.trade.ends import ENDS, is_origin

_OUTLINE = INNER["part", "outline"]
SIDES = ("outside", "inside", "lengthwise", "crosswise")


def chains(raw: Raw, reading: Reading, numbers: Numbers, values: dict[str, Value]) -> tuple[Chain, ...]:
    """Every chain of zones, laid out from its end; none if the part has none."""
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
        if not origin or side not in SIDES:
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
        if isinstance(entry, SequenceNode):
            reading.fault("shape", entry, "a list stands where a zone belongs", "A chain is one list.",
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
            value = numbers.zone_length(name, node, f"{owner}.{side}.{name.value}")
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


def outline(raw: Raw, reading: Reading, numbers: Numbers, values: dict[str, Value]) -> Outline | None:
    """The outline of a flat part, of a disc or of a ring; None for what is neither."""
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
    pairs = numbers.inner(raw, "outline")
    raw.pairs.whole &= pairs.sound
    edges = _named_edges(pairs, reading)
    words = {f.key: reading.text(pairs[f.name][1]) for f in OUTLINE if f.holds is Holds.TEXT
             and f.name in pairs}
    at = reading.place(node)
    if "rectangle" in pairs:
        edges = edges or ("left", "front", "right", "back")
        if "along" in pairs:
            _way(pairs["along"][1], edges, reading)
        return Outline("rectangle", at, _only(values, "length", "width"), edges, words)
    if "root" in pairs:
        reading.missing([_OUTLINE[n] for n in ("tip", "span") if n not in pairs and n not in pairs.spoiled],
                        pairs, node, "the outline of a fin")  # fmt: skip
        edges = ("root", "rear", "tip", "front")
        if "square edge" in pairs and words["square_edge"] not in ("rear", "front"):
            _no_edge(pairs["square edge"][1], words["square_edge"], ("rear", "front"), reading)
        return Outline("fin", at, _only(values, "root", "tip", "span", "sweep"), edges, words)
    if "disc" in pairs:
        return Outline("disc", at, _only(values, "diameter"), (), words)
    if "points" in pairs:
        return Outline("points", at, {}, edges, words, _points(pairs["points"][1], raw, reading))
    if not pairs.sound:
        return None
    reading.fault("missing-field", node, "the outline has no shape", "It can be neither drawn nor cut.",
                  "Write `rectangle`, `root`/`tip`/`span`, `disc` or `points`.")  # fmt: skip
    return None


def _named_edges(pairs: Pairs, reading: Reading) -> tuple[str, ...]:
    """The names of the edges in turn: one for each, no name twice."""
    if "edges" not in pairs:
        return ()
    node = pairs["edges"][1]
    edges = reading.words(node, '"edges"')
    points = pairs["points"][1].value if "points" in pairs else None
    wanted = len(points) if isinstance(points, list) else 4
    if len(edges) == wanted == len(set(edges)):
        return edges
    reading.fault("word", node, f"the outline has {wanted} edges, each with a name of its own",
                  "A step that names an edge could not be followed.",
                  "Write their names in turn: `[left, front, right, back]`.")  # fmt: skip
    return ()


def _way(node: Node, edges: tuple[str, ...], reading: Reading) -> None:
    """`along: front to back`: from an edge to the one opposite."""
    text = reading.text(node, '"along"')
    for end in text.split(" to ") if text.count(" to ") == 1 else (text,):
        if text and end not in edges:
            _no_edge(node, end, edges, reading)
            return


def _no_edge(node: Node, word: str, edges: tuple[str, ...], reading: Reading) -> None:
    guess = reading.nearest(word, edges)
    reading.fault("word", node, f'"{cut(word)}" is no edge of this outline',
                  "Lengthwise and crosswise would not be known.",
                  f"Did you mean `{guess}`?" if guess else f"Its edges are: {', '.join(edges)}.")  # fmt: skip


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


def holes(raw: Raw, reading: Reading) -> tuple[Hole, ...]:
    """The named holes of a flat part."""
    pair = raw.pairs.get("holes")
    if pair is None:
        return ()
    owner = raw.owners.get("holes", raw.id)
    out = []
    for name, (key, node) in reading.pairs(pair[1], "the holes").items():
        reading.new_id(key, "the name of a hole")
        out.append(Hole(name, reading.spot(node, f"{owner}.{name}"), reading.place(key)))
    return tuple(out)


def tapers(raw: Raw, reading: Reading, numbers: Numbers) -> tuple[Taper, ...]:
    """The diameters of a turned part, one or two for each zone."""
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
