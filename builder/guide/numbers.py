"""Numbers on demand: written ones evaluated once, derived ones by the rules of their form.

A number may be asked for before the thing that it belongs to has been built; a sum that comes back to
itself is a finding.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from builder.findings import Finding, Place, Related, Severity
from builder.guide import label_times
from builder.guide.desk import MOST_GUESSED, Pairs, cut, nearest
from builder.guide.fields import Field, Holds
from builder.guide.forms import DERIVED, NEEDS
from builder.guide.model import Value
from builder.guide.near_numbers import of_chain
from builder.guide.nodes import MappingNode, Node, ScalarNode, is_null
from builder.guide.raw import INNER, Raw, taper_nodes, zone_nodes
from builder.guide.reading import Reading
from builder.guide.suspects import MOST_COPIES, blame, of_thing
from builder.quantities.exact import Exact
from builder.quantities.show import round_up
from builder.quantities.units import Dimension
from builder.quantities.values import Quantity, length

MOST_CHAIN = 40  # sums that rest on sums
NOTHING_PENDING = MOST_CHAIN + 1

_NUMBERS = (Holds.NUMBER, Holds.TOLERANCE, Holds.COUNT)
_L, _T = Dimension.LENGTH, Dimension.TIME

# Numbers inside a field: the name that a sum asks for, the key inside, what it measures (None: a count).
_INSIDE: dict[str, dict[str, tuple[str, Dimension | None]]] = {
    "size": {"length": ("size", _L), "width": ("size", _L)},
    "folds to": {"folded_length": ("size", _L), "folded_width": ("size", _L)},
    "label": {"working_time": ("working time", _T), "tack": ("tack", _T), "set": ("set", _T),
              "full_cure": ("full cure", _T), "dry": ("dry", _T)},
    "sold": {"pack": ("pack", None), "price": ("price", Dimension.MONEY)},
    "rolled": {"turns": ("turns", None), "overlap": ("overlap", _L)},
    "outline": {"length": ("size", _L), "width": ("size", _L), "root": ("root", _L), "tip": ("tip", _L),
                "span": ("span", _L), "sweep": ("sweep", _L), "diameter": ("disc", _L)},
    "knots take": {"knots_take": ("each end", _L)},
}  # fmt: skip


# The same the other way round: number -> the fields that it may stand in.
_OUTER = {name: tuple(outer for outer, inner in _INSIDE.items() if name in inner)
          for inner in _INSIDE.values() for name in inner}  # fmt: skip


class Numbers:
    """Every number of a guide, by `dimension` or `thing.field`."""

    reading: Reading  # set as soon as it is there: each needs the other

    def __init__(self, findings: list[Finding]) -> None:
        self.raws: dict[str, Raw] = {}
        self.dimensions: dict[str, tuple[Node, str]] = {}
        self.findings = findings
        self.memo: dict[str, Value | None] = {}
        self.busy: list[str] = []
        self.pending = NOTHING_PENDING  # the lowest of the busy names that was found to be busy
        self.told: set[str] = set()  # names of which it has been told that they come back to themselves
        self.near: dict[tuple[str, str], str | None] = {}
        self.sizes: dict[str, Place] = {}  # where the two lengths of a size stand, by their own names
        self.too_long = False
        self.copies = 0  # of all parts and tools, beyond the first of each
        self.finest, self.first = Fraction(1), ""  # the ruler's step, mm; the guide's first unit

    def names(self) -> Iterator[str]:
        """Every name that a sum may use, for guessing a misspelt one."""
        yield from self.dimensions
        for raw in self.raws.values():
            yield f"{raw.id}.count"
            for name in (*self.number_names(raw), *self.zones_of(raw)):
                yield f"{raw.id}.{name}"

    def number_names(self, raw: Raw) -> list[str]:
        """The names under which a thing may have numbers: written, inside a field, derived."""
        names = []
        for name in raw.pairs:
            field = raw.fields.get(name)
            if field is not None and field.holds in _NUMBERS:
                names.append(field.key)
            elif name in _INSIDE:
                names += _INSIDE[name]
        return [*dict.fromkeys((*names, *DERIVED.get(raw.form, ())))]

    def lookup(self, name: str) -> Value | None:
        """A number by name; None if there is no such name; a value without a quantity if unknown."""
        if name in self.memo:
            return self.memo[name]
        if name in self.busy:
            return self._comes_back(name)
        if len(self.busy) >= MOST_CHAIN:
            return self._too_long(name)
        before, self.pending = self.pending, NOTHING_PENDING
        told = len(self.findings)
        self.busy.append(name)
        try:
            value = self._find(name)
        finally:
            self.busy.pop()
        if len(self.findings) > told:
            head = name.partition(".")[0]
            facts = of_thing(head, MOST_COPIES) if name == f"{head}.count" else ()
            blame(self.findings, told, frozenset((f"number:{name}", *facts)))
        if value is None and self.pending < len(self.busy):
            # None for now: it was asked for on the way to what it would follow from.
            self.pending = min(before, self.pending)
            return None
        self.pending = before
        self.memo[name] = value
        return value

    def _comes_back(self, name: str) -> Value | None:
        """A sum that comes back to itself is one finding, at the first of the sums; what is only derived
        (the wall from the outside, the outside from the wall) is not there, and no fault."""
        first_of_ring = self.busy.index(name)
        ring = self.busy[first_of_ring:]
        places = [(self._where(n), n) for n in ring]
        written = sorted((p, n) for p, n in places if p is not None)
        if not written:
            self.pending = min(self.pending, first_of_ring)
            return None
        if self.told.isdisjoint(ring):
            (place, first), *others = written
            at = ring.index(first)
            way = " -> ".join((*ring[at:], *ring[:at], first))
            self.findings.append(Finding(
                "sum-cycle", Severity.ERROR, place, f'the number "{first}" is worked out from itself: {way}',
                "Sums that wait for one another have no value.", "Write one of them as a plain number.",
                tuple(Related(p, f'"{n}" is worked out here') for p, n in others)))  # fmt: skip
        self.told.update(ring)
        return Value(None, name, written[0][0])

    def _where(self, name: str) -> Place | None:
        return self.reading.paths.get(name) or self.sizes.get(name)

    def _too_long(self, name: str) -> Value:
        places = (self._where(n) for n in reversed(self.busy))
        place = next((p for p in places if p is not None), Place(self.reading.file, 1, 1))
        if not self.too_long:
            self.findings.append(Finding(
                "too-deep", Severity.ERROR, place, f'"{name}" stands behind more than {MOST_CHAIN} sums',
                "Sums that rest on so many others cannot be followed by hand.",
                "Write one of them as a plain number."))  # fmt: skip
        self.too_long = True
        return Value(None, name, place)

    def is_missed(self, name: str) -> bool:
        """Whether a number is not there because of a fault of its thing that is told there."""
        thing, _, field = name.partition(".")
        raw = self.raws.get(thing)
        known = (*DERIVED.get(raw.form, ()), *_OUTER) if raw is not None else ()
        if raw is None or not (field in known or field.replace("_", " ") in raw.fields):
            return False
        if not raw.pairs.sound or ("of" in raw.pairs and self.named(raw, "of") is None):
            return True
        if not all(self.inner(raw, outer).sound for _, outer in INNER if outer in raw.pairs):
            return True
        groups = [group for group in NEEDS.get((raw.sort, raw.form), ()) if field in group]
        return any(not any(n in raw.pairs or self.of(thing, n) for n in group) for group in groups)

    def of(self, thing: str, field: str) -> Value | None:
        """A number of a thing, by field key."""
        return self.lookup(f"{thing}.{field}")

    def _find(self, name: str) -> Value | None:
        thing, dot, field = name.partition(".")
        if not dot:
            entry = self.dimensions.get(name)
            if entry is None:
                return None
            return self.reading.number(entry[0], name, None, why=entry[1], signed=True)
        raw = self.raws.get(thing)
        return None if raw is None else self._field(raw, field)

    def _field(self, raw: Raw, field: str) -> Value | None:
        name = field.replace("_", " ")
        if name in raw.pairs:
            owner = raw.owners[name]
            if owner != raw.id:
                return self.lookup(f"{owner}.{field}")
            declared = raw.fields.get(name)
            if declared is not None and declared.holds in _NUMBERS:
                number = self._declared(raw.pairs[name][1], declared, f"{raw.id}.{field}")
                return number if number.quantity is not None else of_chain(self, raw, number)
        elif field == "count":
            one = Quantity(Exact.of(1), Dimension.COUNT, "piece")
            return Value(one, f"{raw.id}.count", raw.at)
        for outer in _OUTER.get(field, ()):
            if outer in raw.pairs:
                value = self._inside(raw, outer, field)
                if value is not None:
                    return value
        zones = self.zones_of(raw)
        if field in zones:
            owner, word, node = zones[field]
            if owner != raw.id:
                return self.lookup(f"{owner}.{field}")
            return self.zone_length(word, node, f"{raw.id}.{field}")
        return self._derived(raw, field)

    def _declared(self, node: Node, declared: Field, path: str) -> Value:
        if declared.holds is Holds.COUNT:
            return self.reading.count(node, path, f'"{declared.name}"')[1]
        if declared.holds is Holds.TOLERANCE:
            return self.reading.tolerance(node, path)
        if isinstance(node, ScalarNode) and node.value == "nothing":
            return Value(length(0), path, self.reading.place(node), "nothing", frozenset((path,)), typed=True)
        return self.reading.number(node, path, declared.dimension)

    def _inside(self, raw: Raw, outer: str, field: str) -> Value | None:
        """A number inside a field: the size's two lengths, the label's times, the outline's lengths."""
        owner = raw.owners[outer]
        if owner != raw.id:
            return self.lookup(f"{owner}.{field}")
        node = raw.pairs[outer][1]
        inner, dimension = _INSIDE[outer][field]
        path = f"{raw.id}.{field}"
        if outer == "knots take":
            return self._knots(node, path)
        if outer in ("size", "folds to"):
            return self._of_size(raw, outer, node, field)
        pair = self.inner(raw, outer).get("rectangle" if inner == "size" else inner)
        if pair is None:
            return None
        if inner == "size":
            return self._of_size(raw, outer, pair[1], field)
        if dimension is None:
            return self.reading.count(pair[1], path, f'"{inner}"')[1]
        ranged = label_times.of_range(self.reading, pair[1], inner, path) if outer == "label" else None
        return ranged or self.reading.number(pair[1], path, dimension)

    def inner(self, raw: Raw, outer: str) -> Pairs:
        """The pairs of a field that has fields of its own: `label`, `rolled`, `sold`, `outline`."""
        found = raw.inner.get(outer)
        if found is None:
            node = raw.pairs[outer][1]
            pairs = self.reading.pairs(node, f'"{outer}"')
            found = raw.inner[outer] = self.reading.known(pairs, INNER[raw.sort, outer], f'"{outer}"')
        return found

    def _of_size(self, raw: Raw, outer: str, node: Node, field: str) -> Value:
        """One of the two lengths of a size: the other may be worked out from it."""
        halves = self.reading.halves(node)
        key = f"{raw.id}.{outer.replace(' ', '_')}"
        if halves is None or not isinstance(node, ScalarNode):
            return Value(None, key, self.reading.place(node))
        half, name = (halves[0], "along") if field.endswith("length") else (halves[1], "across")
        part = self.reading.stretch(node, *half)
        self.sizes[f"{raw.id}.{field}"] = self.reading.place(part)
        return self.reading.number(part, f"{key}.{name}", Dimension.LENGTH)

    def _knots(self, node: Node, path: str) -> Value:
        """`1 in each end`."""
        text = self.reading.word_text(node, "`knots take`")
        at = self.reading.place(node)
        if not isinstance(node, ScalarNode) or not text:
            return Value(None, path, at)
        if not text.endswith(" each end"):
            self.reading.fault("number", node, f'"{text}" does not say at which end',
                               "A cord is cut longer by what its knots take.",
                               "Write `1 in each end`.")  # fmt: skip
            return Value(None, path, at)
        return self.reading.piece(node, 0, len(node.value.rstrip()) - len(" each end"), path,
                                  Dimension.LENGTH)

    def zone_length(self, name: ScalarNode, node: Node, path: str) -> Value:
        """The length of a zone as it is written."""
        if not is_null(node):
            return self.reading.number(node, path, Dimension.LENGTH)
        self.reading.fault("missing-value", name, f'the zone "{cut(name.value)}" has no length',
                           "A chain is the sum of its zones.", "Write `name: length`.")  # fmt: skip
        return Value(None, path, self.reading.place(name))

    def zones_of(self, raw: Raw) -> dict[str, tuple[str, ScalarNode, Node]]:
        """Zone name -> (owner, its node, its length's); the first chain wins for a shared name."""
        if raw.zones is None:
            raw.zones = {}
            pair = raw.pairs.get("zones")
            if pair is not None and isinstance(pair[1], MappingNode):
                owner = raw.owners.get("zones", raw.id)
                for _, chain in pair[1].value:
                    for name, node in zone_nodes(chain):
                        raw.zones.setdefault(name.value, (owner, name, node))
        return raw.zones

    def _derived(self, raw: Raw, field: str) -> Value | None:
        if field == "widest":
            return self._widest(raw)
        rules = DERIVED.get(raw.form, {}).get(field, ())
        reads: set[str] = set()
        unknown = False

        def get(name: str) -> Quantity | None:
            nonlocal unknown
            value = self._relative(raw, name)
            if value is None:
                return None
            reads.update(value.reads)
            if value.quantity is None:
                unknown = True
            return value.quantity

        for rule in rules:
            reads.clear()
            try:
                quantity = rule(get)
            except (ValueError, ZeroDivisionError):
                continue
            if quantity is not None:
                return Value(quantity, f"{raw.id}.{field}", raw.at, "", frozenset(reads))
        return Value(None, f"{raw.id}.{field}", raw.at) if unknown else None

    def _relative(self, raw: Raw, name: str) -> Value | None:
        """`wall`, `of.thickness`, `rolled.around.diameter`: a number of this thing or of one it names."""
        head, dot, tail = name.partition(".")
        if not dot:
            return self.lookup(f"{raw.id}.{name}")
        if head not in raw.pairs:
            return None
        if head == "rolled":
            if "." not in tail:
                return self.lookup(f"{raw.owners['rolled']}.{tail}")
            inner, _, field = tail.partition(".")
            other = self.named(raw, "rolled", inner)
        else:
            other, field = self.named(raw, head), tail
        return self.lookup(f"{other}.{field}") if other else None

    def named(self, raw: Raw, field: str, inner: str = "") -> str | None:
        """The id that a field (or a field inside it) names, misspelt or not."""
        pair = raw.pairs.get(field)
        if pair is None:
            return None
        if inner:
            pair = self.inner(raw, field).get(inner)
        node = None if pair is None else pair[1]
        if not isinstance(node, ScalarNode):
            return None
        declared = raw.fields[field]
        sort = next((f.sort for f in declared.inner if f.name == inner), declared.sort)
        found = self.raws.get(node.value)
        if found is not None:
            return found.id if found.sort == sort or not sort else None
        key = (node.value, sort)
        if key not in self.near:
            fit = [r.id for r in self.raws.values() if r.sort == sort or not sort]
            self.near[key] = nearest(node.value, fit) if len(self.near) < MOST_GUESSED else None
        return self.near[key]

    def _widest(self, raw: Raw) -> Value | None:
        """The largest of the stated diameters."""
        known = [v for ends in self.diameters(raw).values() for v in ends if v.base is not None]
        return max(known, key=lambda v: v.base or 0) if known else None

    def diameters(self, raw: Raw) -> dict[str, list[Value]]:
        """Zone -> its diameter, or the two ends of its taper."""
        pair = raw.pairs.get("diameters")
        if pair is None or not isinstance(pair[1], MappingNode):
            return {}
        owner = raw.owners["diameters"]
        out: dict[str, list[Value]] = {}
        for name, node in pair[1].value:
            if not isinstance(name, ScalarNode):
                continue
            ends = []
            for i, part in enumerate(taper_nodes(node, self.reading)):
                path = f"{owner}.{name.value}.diameter" + (".end" if i else "")
                value = self.memo.get(path) or self._own(path, part)
                ends.append(value)
            out[name.value] = ends
        return out

    def _own(self, path: str, node: Node) -> Value:
        """A length that no sum can ask for by name, read once."""
        if path in self.busy:
            return self._comes_back(path) or Value(None, path, self.reading.place(node))
        self.busy.append(path)
        try:
            value = self.memo[path] = self.reading.number(node, path, Dimension.LENGTH)
        finally:
            self.busy.pop()
        return value

    def blank(self, raw: Raw) -> tuple[Value, Value]:
        """The sheet to cut for a rolled tube: its length, and the wrap rounded up to `finest`."""
        unknown = Value(None, f"{raw.id}.blank", raw.at)
        along, wrap = self.of(raw.id, "length") or unknown, self.of(raw.id, "wrap") or unknown
        if wrap.quantity is not None:
            up = round_up(wrap.quantity.base, self.finest)
            quantity = Quantity(Exact.of(up), Dimension.LENGTH, wrap.quantity.unit)
            wrap = Value(quantity, f"{raw.id}.blank", wrap.at, "", wrap.reads)
        return along, wrap
