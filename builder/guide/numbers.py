"""Numbers on demand: written ones evaluated once, derived ones by the rules of their form.

A number may be asked for before the thing that it belongs to has been built; a sum that comes back to
itself is a finding.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from builder.findings import Finding, Place, Severity
from builder.guide.fields import Field, Holds
from builder.guide.forms import DERIVED
from builder.guide.model import Value
from builder.guide.nodes import MappingNode, Node, ScalarNode, SequenceNode
from builder.guide.reading import Pairs, Reading
from builder.quantities.exact import Exact
from builder.quantities.units import Dimension
from builder.quantities.values import Quantity, length
from builder.quantities.show import round_up


class Raw:
    """A thing as read but not yet worked out: its pairs by field, its form, and where the pairs come
    from (`like` borrows another's)."""

    __slots__ = ("at", "fields", "form", "id", "key", "node", "owners", "pairs", "sort", "zones")

    def __init__(self, id: str, sort: str, key: ScalarNode, node: Node, pairs: Pairs,
                 fields: dict[str, Field], at: Place) -> None:  # fmt: skip
        self.id, self.sort, self.key, self.node, self.pairs, self.fields, self.at = (
            id, sort, key, node, pairs, fields, at)  # fmt: skip
        self.owners: dict[str, str] = {name: id for name in pairs}
        form = pairs.get("form")
        self.form = form[1].value if form and isinstance(form[1], ScalarNode) else ""
        self.zones: dict[str, tuple[str, Node]] | None = None


class Numbers:
    """Every number of a guide, by `dimension` or `thing.field`."""

    def __init__(self, findings: list[Finding]) -> None:
        self.raws: dict[str, Raw] = {}
        self.dimensions: dict[str, tuple[Node, str]] = {}
        self.findings = findings
        self.memo: dict[str, Value | None] = {}
        self.busy: list[str] = []
        self.reading: Reading | None = None
        self.finest: Fraction = Fraction(1)

    def names(self) -> Iterator[str]:
        """Every name that a sum may use, for guessing a misspelt one."""
        yield from self.dimensions
        for raw in self.raws.values():
            yield f"{raw.id}.count"
            for name in raw.pairs:
                yield f"{raw.id}.{name.replace(' ', '_')}"
            for name in DERIVED.get(raw.form, {}):
                yield f"{raw.id}.{name}"
            for name in self.zones_of(raw):
                yield f"{raw.id}.{name}"

    def lookup(self, name: str) -> Value | None:
        """A number by name; None if there is no such name; a value without a quantity if unknown."""
        if name in self.memo:
            return self.memo[name]
        if name in self.busy:
            return None
        self.busy.append(name)
        try:
            value = self._find(name)
        finally:
            self.busy.pop()
        self.memo[name] = value
        return value

    def of(self, thing: str, field: str) -> Value | None:
        """A number of a thing, by field key."""
        return self.lookup(f"{thing}.{field}")

    def _find(self, name: str) -> Value | None:
        assert self.reading is not None
        thing, dot, field = name.partition(".")
        if not dot:
            entry = self.dimensions.get(name)
            if entry is None:
                return None
            node, why = entry
            return self._written(node, name, None, why)
        raw = self.raws.get(thing)
        if raw is None:
            return None
        return self._field(raw, field)

    def _written(self, node: Node, path: str, dimension: Dimension | None, why: str = "") -> Value:
        assert self.reading is not None
        before = len(self.findings)
        value = self.reading.number(node, path, dimension, why=why)
        if len(self.findings) > before and any(path == b for b in self.busy[:-1]):
            value = Value(None, path, value.at, value.text)
        return value

    def _field(self, raw: Raw, field: str) -> Value | None:
        name = field.replace("_", " ")
        owner = raw.owners.get(name, raw.id)
        path = f"{owner}.{field}"
        if owner != raw.id:
            return self.lookup(path)
        if field == "count" and "count" not in raw.pairs:
            return Value(Quantity(Exact.of(1), Dimension.COUNT, "piece"), path, raw.at)
        declared = raw.fields.get(name)
        if name in raw.pairs and declared is not None:
            value = self._declared(raw, declared, path)
            if value is not None:
                return value
        nested = self._nested(raw, field, path)
        if nested is not None:
            return nested
        zones = self.zones_of(raw)
        if field in zones:
            zone_owner, node = zones[field]
            if zone_owner != raw.id:
                return self.lookup(f"{zone_owner}.{field}")
            return self._written(node, path, Dimension.LENGTH)
        return self._derived(raw, field)

    def _declared(self, raw: Raw, declared: Field, path: str) -> Value | None:
        assert self.reading is not None
        node = raw.pairs[declared.name][1]
        if declared.holds is Holds.NUMBER:
            if isinstance(node, ScalarNode) and node.value == "nothing":
                return Value(length(0), path, self.reading.place(node), "nothing", frozenset((path,)), typed=True)
            return self._written(node, path, declared.dimension)
        if declared.holds is Holds.COUNT:
            return self.reading.count(node, path, f'"{declared.name}"')[1]
        if declared.holds is Holds.TOLERANCE:
            return self.reading.tolerance(node, path)
        return None

    def _nested(self, raw: Raw, field: str, path: str) -> Value | None:
        """A number inside a field: the size's two lengths, the label's times, the outline's lengths."""
        assert self.reading is not None
        if field in ("length", "width") and "size" in raw.pairs:
            return self._of_size(raw, "size", field)
        if field in ("folded_length", "folded_width") and "folds to" in raw.pairs:
            return self._of_size(raw, "folds to", field.removeprefix("folded_"))
        if field in _LABEL and "label" in raw.pairs:
            return self._inner(raw, "label", field.replace("_", " "), path, Dimension.TIME)
        if field in ("pack", "price") and "sold" in raw.pairs:
            return self._inner(raw, "sold", field, path, Dimension.MONEY if field == "price" else None)
        if "rolled" in raw.pairs and field in ("turns", "overlap"):
            return self._inner(raw, "rolled", field, path, Dimension.LENGTH if field == "overlap" else None)
        if "outline" in raw.pairs:
            if field in ("length", "width") and self._has(raw, "outline", "rectangle"):
                return self._of_size(raw, "outline", field)
            if field in ("root", "tip", "span", "sweep"):
                return self._inner(raw, "outline", field, path, Dimension.LENGTH)
            if field == "diameter":
                return self._inner(raw, "outline", "disc", path, Dimension.LENGTH)
        if field == "knots_take" and "knots take" in raw.pairs:
            node = raw.pairs["knots take"][1]
            if isinstance(node, ScalarNode):
                text = node.value.removesuffix(" each end")
                return self._written(ScalarNode(node.tag, text, node.start_mark, node.end_mark), path, Dimension.LENGTH)
        return None

    def _has(self, raw: Raw, outer: str, inner: str) -> bool:
        node = raw.pairs[outer][1]
        return isinstance(node, MappingNode) and any(k.value == inner for k, _ in node.value)

    def _of_size(self, raw: Raw, outer: str, field: str) -> Value | None:
        assert self.reading is not None
        owner = raw.owners.get(outer, raw.id)
        key = f"{owner}.{outer.replace(' ', '_')}"
        if key not in self.memo:
            node = raw.pairs[outer][1]
            if outer == "outline" and isinstance(node, MappingNode):
                node = next(v for k, v in node.value if k.value == "rectangle")
            size = self.reading.size(node, key)
            self.memo[key] = None
            at = self.reading.place(node)
            unknown = Value(None, key, at)
            self.memo[f"{key}.length"] = size.first if size else unknown
            self.memo[f"{key}.width"] = size.second if size else unknown
        return self.memo[f"{key}.{field}"]

    def _inner(self, raw: Raw, outer: str, inner: str, path: str, dimension: Dimension | None) -> Value | None:
        assert self.reading is not None
        node = raw.pairs[outer][1]
        if not isinstance(node, MappingNode):
            return None
        for key, value in node.value:
            if isinstance(key, ScalarNode) and key.value == inner:
                if inner in ("turns", "pack"):
                    return self.reading.count(value, path, f'"{inner}"')[1]
                return self._written(value, path, dimension)
        return None

    def zones_of(self, raw: Raw) -> dict[str, tuple[str, Node]]:
        """Zone name -> (owner, node of its length); the first chain wins for a shared name."""
        if raw.zones is None:
            raw.zones = {}
            pair = raw.pairs.get("zones")
            if pair is not None and isinstance(pair[1], MappingNode):
                owner = raw.owners.get("zones", raw.id)
                for _, chain in pair[1].value:
                    for name, node in zone_nodes(chain):
                        raw.zones.setdefault(name.value, (owner, node))
        return raw.zones

    def _derived(self, raw: Raw, field: str) -> Value | None:
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

        if field == "widest":
            return self._widest(raw)
        for rule in rules:
            reads.clear()
            try:
                quantity = rule(get)
            except ValueError:
                continue
            if quantity is not None:
                return Value(quantity, f"{raw.id}.{field}", raw.at, "", frozenset(reads))
        return Value(None, f"{raw.id}.{field}", raw.at) if unknown else None

    def _relative(self, raw: Raw, name: str) -> Value | None:
        """`wall`, `of.thickness`, `rolled.around.diameter`: a number of this thing or of one it names."""
        head, dot, tail = name.partition(".")
        if not dot:
            return self.lookup(f"{raw.id}.{name}")
        if head == "rolled":
            if "." not in tail:
                owner = raw.owners.get("rolled", raw.id)
                return self.lookup(f"{owner}.{tail}") if "rolled" in raw.pairs else None
            inner, _, field = tail.partition(".")
            other = self.named(raw, "rolled", inner)
        else:
            other, field = self.named(raw, head), tail
        return self.lookup(f"{other}.{field}") if other else None

    def named(self, raw: Raw, field: str, inner: str = "") -> str | None:
        """The id that a field (or a field inside it) names."""
        pair = raw.pairs.get(field)
        if pair is None:
            return None
        node = pair[1]
        if inner and isinstance(node, MappingNode):
            node = next((v for k, v in node.value if k.value == inner), node)
        if not isinstance(node, ScalarNode):
            return None
        if node.value in self.raws:
            return node.value
        from builder.guide.reading import nearest

        return nearest(node.value, self.raws)

    def _widest(self, raw: Raw) -> Value | None:
        """The largest of the stated diameters."""
        assert self.reading is not None
        pair = raw.pairs.get("diameters")
        if pair is None or not isinstance(pair[1], MappingNode):
            return None
        found = []
        for name, node in pair[1].value:
            for i, part in enumerate(taper_nodes(node)):
                path = f"{raw.id}.{name.value}.diameter" + (".end" if i else "")
                if path not in self.memo:
                    self.memo[path] = self._written(part, path, Dimension.LENGTH)
                found.append(self.memo[path])
        known = [v for v in found if v is not None and v.quantity is not None and v.base is not None]
        return max(known, key=lambda v: v.base or 0) if known else None

    def blank(self, raw: Raw) -> tuple[Value, Value] | None:
        """The sheet to cut for a rolled tube: its length, and the wrap rounded up to `finest`."""
        along, wrap = self.of(raw.id, "length"), self.of(raw.id, "wrap")
        if along is None or wrap is None:
            return None
        if wrap.quantity is not None:
            up = round_up(wrap.quantity.base, self.finest)
            quantity = Quantity(Exact.of(up), Dimension.LENGTH, wrap.quantity.unit)
            wrap = Value(quantity, f"{raw.id}.blank", wrap.at, "", wrap.reads)
        return along, wrap

    def cycle(self, path: str, at: Place) -> None:
        """A finding for a sum that comes back to itself."""
        self.findings.append(Finding(
            "sum-cycle", Severity.ERROR, at, f'the number "{path}" is worked out from itself',
            "Two sums wait for one another, so neither has a value.", "Write one of them as a plain number."))  # fmt: skip


_LABEL = ("working_time", "tack", "set", "full_cure", "dry")


def zone_nodes(chain: Node) -> Iterator[tuple[ScalarNode, Node]]:
    """The (name, length) nodes of a chain: a list of one-pair mappings."""
    if isinstance(chain, SequenceNode):
        for entry in chain.value:
            if isinstance(entry, MappingNode):
                for key, value in entry.value:
                    if isinstance(key, ScalarNode):
                        yield key, value


def taper_nodes(node: Node) -> list[Node]:
    """`0 in to 1.33 in` as two nodes, a single diameter as one."""
    if not isinstance(node, ScalarNode) or " to " not in node.value:
        return [node]
    from builder.guide.reading import _stretch

    first, _, second = node.value.partition(" to ")
    return [_stretch(node, first, 0), _stretch(node, second, len(first) + 4)]
