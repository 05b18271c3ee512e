"""The reading desk: where nodes become typed values, and where every fault of a value is written down.

One `Reading` serves one guide with the shared files that it uses. It holds the findings so far, the
texts, and the numbers that are still to be worked out.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Mapping
from fractions import Fraction

from builder.findings import Finding, Place, Related, Severity
from builder.guide.fields import Field, Holds
from builder.guide.model import Angle, Prose, Ref, Share, SizeValue, Spot, Value
from builder.guide.nodes import (
    MappingNode,
    Node,
    ScalarNode,
    SequenceNode,
    error,
    inside,
    is_null,
    place_of,
)
from builder.quantities.units import Dimension
from builder.quantities.values import Quantity, Refusal
from builder.quantities.sums import Sum, evaluate, read_sum, read_tolerance, read_toleranced
from builder.quantities.quantity import read_window

ID = re.compile(r"[a-z][a-z0-9_]*\Z")
_REFERENCE = re.compile(r"\{([^{}]*)\}")
_COPIES = re.compile(r"([a-z][a-z0-9_]*) (\d+(?:(?: and |, ?)\d+)*)\Z")

Pairs = dict[str, tuple[ScalarNode, Node]]
Lookup = Callable[[str], Value | None]


def nearest(word: str, known: Iterable[str]) -> str | None:
    """The known word that was probably meant, or None."""
    import difflib  # only a fault pays for it

    found = difflib.get_close_matches(word, list(known), n=1, cutoff=0.6)
    return found[0] if found else None


class Reading:
    """Typed values out of nodes. `bind` maps the parameters of a shared step to ids."""

    def __init__(self, file: str, lookup: Lookup, names: Callable[[], Iterable[str]],
                 findings: list[Finding], paths: dict[str, Place],
                 bind: Mapping[str, str] | None = None, params: frozenset[str] = frozenset()) -> None:  # fmt: skip
        self.file = file
        self.lookup = lookup
        self.names = names
        self.findings = findings
        self.paths = paths
        self.bind = dict(bind or {})
        self.params = params

    # -- faults -----------------------------------------------------------------------------------

    def fault(self, check: str, node: Node | Place, message: str, why: str, mend: str,
              also: tuple[Related, ...] = (), severity: Severity = Severity.ERROR) -> None:  # fmt: skip
        """Write a finding down at a node."""
        place = node if isinstance(node, Place) else place_of(node, self.file)
        self.findings.append(Finding(check, severity, place, message, why, mend, also))

    def place(self, node: Node) -> Place:
        """Where a node stands."""
        return place_of(node, self.file)

    # -- mappings ---------------------------------------------------------------------------------

    def pairs(self, node: Node, what: str) -> Pairs:
        """The pairs of a mapping by key, in order; a doubled key is a finding and the first one counts."""
        if not isinstance(node, MappingNode):
            self.fault("shape", node, f"{what} must be a list of `name: value` pairs",
                       "Nothing here can be used otherwise.", "Write `name: value`, one to a line.")  # fmt: skip
            return {}
        out: Pairs = {}
        for key, value in node.value:
            if not isinstance(key, ScalarNode):
                self.fault("braces", key, "braces stand where a name belongs",
                           "Doubled braces mean something else to YAML.",
                           "Write the reference with single braces inside quotes, or the bare id.")  # fmt: skip
                continue
            if key.value == "<<":
                continue  # already a finding of the text
            if key.value in out:
                first = self.place(out[key.value][0])
                self.fault("duplicate-key", key, f'"{key.value}" is written twice here',
                           "YAML would silently keep one of the two.", "Delete one of them.",
                           (Related(first, "the first one"),))  # fmt: skip
                continue
            out[key.value] = (key, value)
        return out

    def known(self, pairs: Pairs, fields: Mapping[str, Field], what: str, also: Iterable[str] = ()) -> Pairs:
        """The pairs whose key is a known field; an unknown key or a missing value is a finding.

        A misspelt key is read as the nearest known one.
        """
        out: Pairs = {}
        for name, (key, value) in pairs.items():
            field = name
            if name not in fields and name not in also:
                guess = nearest(name, [*fields, *also])
                if is_null(value) and not guess:
                    self.fault("missing-value", key, f'"{name}" has no value',
                               "Inside braces a comma ends a value; the rest became a name of its own.",
                               "Put quotes round the text that holds the comma, or write a value.")  # fmt: skip
                    continue
                hint = f"Did you mean `{guess}`?" if guess else f"{what} may have: {', '.join(fields)}."
                self.fault("unknown-key", key, f'{what} has no field "{name}"',
                           "What is written there would be ignored.", hint)  # fmt: skip
                if guess is None or guess in pairs:
                    continue
                field = guess
            if is_null(value):
                self.fault("missing-value", key, f'"{name}" has no value',
                           "Inside braces a comma ends a value; perhaps a text needs quotes.",
                           "Write a value, or put quotes round the text that holds the comma.")  # fmt: skip
                continue
            out[field] = (key, value)
        return out

    def required(self, pairs: Pairs, fields: Mapping[str, Field], node: Node, what: str) -> None:
        """A finding for each required field that is missing."""
        for field in fields.values():
            if field.required and field.name not in pairs:
                self.fault("missing-field", node, f'{what} has no "{field.name}"', field.about,
                           f"Write `{field.name}: {field.example}`.")  # fmt: skip

    # -- scalars ----------------------------------------------------------------------------------

    def text(self, node: Node, what: str = "this") -> str:
        """Plain text; empty (and a finding) for anything else."""
        if isinstance(node, ScalarNode):
            return node.value
        self.fault("shape", node, f"{what} must be plain text", "A list or a mapping means nothing here.",
                   "Write the text on one line; quote it if it holds a colon, a brace or a bracket.")  # fmt: skip
        return ""

    def new_id(self, node: Node, what: str) -> str:
        """A new id, in the form that ids have."""
        text = self.text(node, what)
        if text and not ID.match(text):
            better = re.sub(r"[^a-z0-9]+", "_", text.lower()).strip("_")
            self.fault("bad-id", node, f'"{text}" is not an id',
                       "An id is small letters, digits and underscores, and begins with a letter.",
                       f"Write `{better or 'a_name'}`, and the words for the reader under `name`.")  # fmt: skip
        return text

    def word(self, node: Node, field: Field) -> str:
        """One of the field's words; a misspelt one is read as the nearest."""
        text = self.text(node, f'"{field.name}"')
        if not field.words or text in field.words or not text:
            return text
        guess = nearest(text, field.words)
        self.fault("word", node, f'"{text}" is not one of the words for "{field.name}"',
                   f"Known are: {', '.join(field.words)}.",
                   f"Did you mean `{guess}`?" if guess else f"Write one of: {', '.join(field.words)}.")  # fmt: skip
        return guess or ""

    def yes(self, node: Node, what: str) -> bool:
        """yes or no."""
        text = self.text(node, what).lower()
        if text in ("yes", "true"):
            return True
        if text not in ("no", "false", ""):
            self.fault("word", node, f'"{text}" is neither yes nor no', "Only these two mean anything here.",
                       "Write `yes` or leave the field out.")  # fmt: skip
        return False

    def count(self, node: Node, path: str, what: str) -> tuple[int, Value]:
        """A whole number of at least 1, as a number and as a value."""
        text = self.text(node, what)
        at = self.place(node)
        self.paths[path] = at
        if re.fullmatch(r"\d{1,4}", text) and int(text) > 0:
            from builder.quantities.exact import Exact

            quantity = Quantity(Exact.of(int(text)), Dimension.COUNT, "piece", text)
            return int(text), Value(quantity, path, at, text, frozenset((path,)), typed=True)
        self.fault("count", node, f'"{text}" is not a whole number of pieces', "Copies are counted one by one.",
                   "Write a whole number from 1, without a unit.")  # fmt: skip
        return 1, Value(None, path, at, text)

    # -- numbers ----------------------------------------------------------------------------------

    def refused(self, node: ScalarNode, refusal: Refusal) -> None:
        """A finding for a number that could not be read."""
        place = inside(node, self.file, refusal.start, refusal.length)
        self.fault("number", place, refusal.message, "A wrong length or time is found only at the bench.",
                   refusal.hint)  # fmt: skip

    def number(self, node: Node, path: str, dimension: Dimension | None, *, why: str = "",
               tolerance: bool = True) -> Value:  # fmt: skip
        """A sum, evaluated; a value without a quantity (and a finding) if it cannot be."""
        at = self.place(node)
        if isinstance(node, MappingNode):
            self.braces(node)
            return Value(None, path, at)
        if not isinstance(node, ScalarNode):
            self.text(node, f'"{path}"')
            return Value(None, path, at)
        text = node.value
        plus_minus: Fraction | None = None
        if tolerance and ("±" in text or "+/-" in text or "+-" in text):
            toleranced = read_toleranced(text, dimension)
            if isinstance(toleranced, Refusal):
                self.refused(node, toleranced)
                return Value(None, path, at, text)
            total = toleranced.value
            if toleranced.plus_minus is not None:
                plus_minus = self._evaluated(node, toleranced.plus_minus, dimension, path)[0]
        else:
            read = read_sum(text, dimension)
            if isinstance(read, Refusal):
                self.refused(node, read)
                return Value(None, path, at, text)
            total = read
        self.paths[path] = at
        base, quantity, reads = self._evaluated(node, total, dimension, path)
        typed = not total.names and base is not None and bool(quantity and quantity.written)
        own = reads if total.names and not any(c.isdigit() for c in _without_names(total)) else reads | {path}
        return Value(quantity, path, at, text, frozenset(own), plus_minus, typed, why)

    def _evaluated(self, node: ScalarNode, total: Sum, dimension: Dimension | None,
                   path: str) -> tuple[Fraction | None, Quantity | None, frozenset[str]]:  # fmt: skip
        reads: set[str] = set()
        unknown = False
        quantities: dict[str, Quantity | None] = {}
        for name, start, length in total.names:
            value = self.lookup(self.bound(name))
            if value is None:
                known = self.names()
                guess = nearest(name, known) if "." not in name else self._guess_field(name)
                place = inside(node, self.file, start, length)
                self.fault("unknown-name", place, f'there is no number called "{name}"',
                           "A sum can only name what is written in this guide.",
                           f"Did you mean `{guess}`?" if guess else "Write it under `dimensions`, or name a field "
                           "of a thing, as in `body.length`.")  # fmt: skip
                value = self.lookup(guess) if guess else None
            if value is None or value.quantity is None:
                unknown = True
                reads |= value.reads if value else set()
                quantities[name] = None
            else:
                reads |= value.reads
                quantities[name] = value.quantity
        if unknown:
            return None, None, frozenset(reads)
        result = evaluate(total, quantities.get)
        if isinstance(result, Refusal):
            self.refused(node, result)
            return None, None, frozenset(reads)
        if result is None:
            return None, None, frozenset(reads)
        if dimension is not None and result.dimension is not dimension:
            if {dimension, result.dimension} == {Dimension.NUMBER, Dimension.COUNT}:
                return result.base, result, frozenset(reads)
            self.fault("number", node, f"this is a {result.dimension.value}, but a {dimension.value} belongs here",
                       "The two cannot stand for one another.", "Check the names and the units of the sum.")  # fmt: skip
            return None, None, frozenset(reads)
        return result.base, result, frozenset(reads)

    def _guess_field(self, name: str) -> str | None:
        thing, _, field = name.partition(".")
        known = list(self.names())
        things = {k.split(".")[0] for k in known}
        guess = thing if thing in things else nearest(thing, things)
        if guess is None:
            return None
        fields = [k.split(".", 1)[1] for k in known if k.startswith(guess + ".")]
        found = field if field in fields else nearest(field, fields)
        return f"{guess}.{found}" if found else None

    def braces(self, node: Node) -> None:
        """The finding for braces in a field."""
        self.fault("braces", node, "braces in a field mean something else to YAML",
                   "The value is read as a list of pairs, not as a reference.",
                   "Write the bare id or the sum without braces.")  # fmt: skip

    def tolerance(self, node: Node, path: str, dimension: Dimension = Dimension.LENGTH) -> Value:
        """`± 1/32 in`."""
        at = self.place(node)
        text = self.text(node, f'"{path}"')
        read = read_tolerance(text, dimension)
        if isinstance(read, Refusal):
            if isinstance(node, ScalarNode):
                self.refused(node, read)
            return Value(None, path, at, text)
        self.paths[path] = at
        assert isinstance(node, ScalarNode)
        base, quantity, reads = self._evaluated(node, read, dimension, path)
        return Value(quantity, path, at, text, reads | {path}, base, True)

    def size(self, node: Node, path: str) -> SizeValue | None:
        """`14 in x 22 in`: two sums with an x between."""
        at = self.place(node)
        if not isinstance(node, ScalarNode):
            self.braces(node) if isinstance(node, MappingNode) else self.text(node, f'"{path}"')
            return None
        halves = re.split(r"\s+(?:x|×|by)\s+", node.value)
        if len(halves) != 2:
            self.fault("number", node, f'"{node.value}" is not a size', "A flat piece has two lengths.",
                       "Write two lengths with an x between: `14 in x 22 in`.")  # fmt: skip
            return None
        second_start = node.value.rindex(halves[1])
        out = []
        for half, start, name in ((halves[0], 0, "along"), (halves[1], second_start, "across")):
            out.append(self._piece(node, half, start, f"{path}.{name}", Dimension.LENGTH))
        return SizeValue(out[0], out[1], at, node.value)

    def _piece(self, node: ScalarNode, text: str, start: int, path: str, dimension: Dimension | None) -> Value:
        """A sum that is a stretch of a scalar's text."""
        part = _stretch(node, text, start)
        value = self.number(part, path, dimension)
        return value

    def window(self, node: Node, path: str) -> object | None:
        """`up to 1 h or from 48 h`."""
        text = self.text(node, f'"{path}"')
        read = read_window(text)
        if isinstance(read, Refusal):
            if isinstance(node, ScalarNode):
                self.refused(node, read)
            return None
        self.paths[path] = self.place(node)
        return read

    def angle(self, node: Node, path: str) -> Angle:
        """`45 deg`, `evenly`, `evenly for fin`."""
        at = self.place(node)
        text = self.text(node, f'"{path}"')
        if text == "evenly":
            return Angle(at, None, True)
        if text.startswith("evenly for "):
            return Angle(at, None, True, self.bound(text[len("evenly for "):].strip()))
        return Angle(at, self.number(node, path, Dimension.ANGLE))

    def share(self, node: Node, path: str) -> Share:
        """`builder`, `class`, `3 builders`."""
        text = self.text(node, f'"{path}"')
        at = self.place(node)
        if text in ("builder", "each builder", "1 builder"):
            return Share(1, at)
        if text == "class":
            return Share(0, at)
        match = re.fullmatch(r"(\d{1,3}) builders", text)
        if match and int(match.group(1)) > 0:
            return Share(int(match.group(1)), at)
        self.fault("word", node, f'"{text}" does not say who shares it', "The class total is counted from this.",
                   "Write `builder`, `class`, or a number such as `4 builders`.")  # fmt: skip
        return Share(1, at)

    # -- names ------------------------------------------------------------------------------------

    def bound(self, name: str) -> str:
        """A name with a shared step's parameter replaced by what it stands for."""
        head, dot, tail = name.partition(".")
        return self.bind.get(head, head) + dot + tail

    def ref(self, node: Node, what: str) -> Ref | None:
        """A thing's id, with copies (`wheel 1 and 3`) or a zone (`nose.shoulder`)."""
        if isinstance(node, MappingNode):
            self.braces(node)
            return None
        text = self.text(node, what).strip()
        at = self.place(node)
        if not text:
            return None
        match = _COPIES.match(text)
        if match:
            numbers = tuple(int(n) for n in re.findall(r"\d+", match.group(2)))
            return Ref(self.bound(match.group(1)), at, numbers)
        head, _, tail = self.bound(text).partition(".")
        return Ref(head, at, (), tail)

    def refs(self, node: Node, what: str) -> tuple[Ref, ...]:
        """One id or a list of ids."""
        nodes = node.value if isinstance(node, SequenceNode) else [node]
        found = (self.ref(n, what) for n in nodes)
        return tuple(r for r in found if r is not None)

    def words(self, node: Node, what: str) -> tuple[str, ...]:
        """One word or a list of words."""
        nodes = node.value if isinstance(node, SequenceNode) else [node]
        return tuple(t for t in (self.text(n, what).strip() for n in nodes) if t)

    # -- places -----------------------------------------------------------------------------------

    def spots(self, node: Node, path: str) -> tuple[Spot, ...]:
        """One place or a list of places."""
        if isinstance(node, SequenceNode):
            return tuple(self.spot(n, f"{path}.{i}") for i, n in enumerate(node.value, 1))
        return (self.spot(node, path),)

    def spot(self, node: Node, path: str) -> Spot:
        """A place, in the place grammar."""
        at = self.place(node)
        if not isinstance(node, ScalarNode):
            self.braces(node) if isinstance(node, MappingNode) else self.text(node, f'"{path}"')
            return Spot("nothing", at, "")
        text = node.value.strip()
        for head, kind in _HEADS:
            if text.startswith(head):
                return Spot(kind, at, text, (self.bound(text[len(head):].strip()),))
        match = _WILL_SIT.match(text)
        if match:
            return Spot("will sit", at, text, (self.bound(match.group(1)),))
        if text in ("its mark", "corner"):
            return Spot(text, at, text)
        if " from " in text:
            return self._measured(node, text, at, path)
        return Spot("named", at, text, (self.bound(text),))

    def _measured(self, node: ScalarNode, text: str, at: Place, path: str) -> Spot:
        two = re.match(r"(.+) from (\S+) and (.+) from (\S+)\Z", text)
        if two:
            lengths = (
                self._piece(node, two.group(1), two.start(1), f"{path}.along", Dimension.LENGTH),
                self._piece(node, two.group(3), two.start(3), f"{path}.across", Dimension.LENGTH),
            )
            return Spot("two", at, text, (two.group(2), two.group(4)), lengths)
        match = re.match(r"(.+) from (\S+)\Z", text)
        if not match:
            self.fault("place", node, f'"{text}" is not a place', "A builder could not find it.",
                       "Write a length and an end, as in `1 in from rear`.")  # fmt: skip
            return Spot("nothing", at, text)
        span = re.match(r"(.+) to (.+)\Z", match.group(1))
        if span:
            lengths = (
                self._piece(node, span.group(1), 0, f"{path}.lo", Dimension.LENGTH),
                self._piece(node, span.group(2), span.start(2), f"{path}.hi", Dimension.LENGTH),
            )
            return Spot("stretch", at, text, (match.group(2),), lengths)
        length = self._piece(node, match.group(1), 0, path, Dimension.LENGTH)
        return Spot("from", at, text, (match.group(2),), (length,))

    # -- prose ------------------------------------------------------------------------------------

    def prose(self, node: Node, what: str) -> Prose:
        """Text with references in single braces."""
        at = self.place(node)
        if isinstance(node, MappingNode):
            self.braces(node)
            return Prose("", at, ())
        text = self.text(node, what)
        pieces: list[str | tuple[str, Place]] = []
        last = 0
        for match in _REFERENCE.finditer(text):
            if match.start() > last:
                pieces.append(text[last : match.start()])
            name = self.bound(match.group(1).strip())
            assert isinstance(node, ScalarNode)
            pieces.append((name, inside(node, self.file, match.start(), len(match.group()))))
            last = match.end()
        if last < len(text):
            pieces.append(text[last:])
        if "{{" in text or "}}" in text:
            self.fault("braces", node, "a reference has doubled braces", "Only single braces are references.",
                       "Write `{body.length}`.")  # fmt: skip
        return Prose(text, at, tuple(pieces))

    # -- any field --------------------------------------------------------------------------------

    def field(self, field: Field, node: Node, path: str) -> object | None:
        """The value of a field as its declaration says; None if it could not be read."""
        holds = field.holds
        what = f'"{field.name}"'
        if holds is Holds.TEXT:
            return self.text(node, what)
        if holds is Holds.PROSE:
            return self.prose(node, what)
        if holds is Holds.WORD:
            return self.word(node, field) or None
        if holds is Holds.YES:
            return self.yes(node, what)
        if holds is Holds.COUNT:
            return self.count(node, path, what)[1]
        if holds is Holds.NUMBER:
            return self.number(node, path, field.dimension)
        if holds is Holds.SIZE:
            return self.size(node, path)
        if holds is Holds.SIZES:
            return self.sizes(node, path)
        if holds is Holds.TOLERANCE:
            return self.tolerance(node, path)
        if holds is Holds.THING:
            return self.ref(node, what)
        if holds is Holds.THINGS:
            return self.refs(node, what)
        if holds is Holds.NEW:
            return self.new_id(node, what)
        if holds in (Holds.PLACE, Holds.PLACES):
            return self.spots(node, path)
        if holds is Holds.ANGLE:
            return self.angle(node, path)
        if holds is Holds.AROUND:
            return self.text(node, what)
        if holds is Holds.WORDS:
            return self.words(node, what)
        if holds is Holds.PER:
            return self.share(node, path)
        if holds is Holds.WINDOW:
            return self.window(node, path)
        return None

    def sizes(self, node: Node, path: str) -> tuple[SizeValue | Value, ...] | None:
        """What a cut leaves: sizes, lengths, or `nothing`."""
        if isinstance(node, ScalarNode) and node.value == "nothing":
            self.paths[path] = self.place(node)
            return ()
        nodes = node.value if isinstance(node, SequenceNode) else [node]
        out: list[SizeValue | Value] = []
        for i, each in enumerate(nodes, 1):
            one = path if len(nodes) == 1 else f"{path}.{i}"
            if isinstance(each, ScalarNode) and re.search(r"\s(?:x|×|by)\s", each.value):
                size = self.size(each, one)
                if size is None:
                    return None
                out.append(size)
            else:
                value = self.number(each, one, Dimension.LENGTH)
                if value.quantity is None:
                    return None
                out.append(value)
        return tuple(out)


_HEADS = (
    ("start of ", "start"), ("end of ", "end"), ("middle of ", "middle"),
    ("flush with ", "flush"), ("meets ", "meets"),
)  # fmt: skip
_WILL_SIT = re.compile(r"where ([a-z][a-z0-9_]*(?: \d+)?) will sit\Z")


def _without_names(total: Sum) -> str:
    """The text of a sum with its names blanked: a digit left over is a number that was written here."""
    text = total.text
    for _, start, length in reversed(total.names):
        text = text[:start] + " " * length + text[start + length :]
    return text


def _stretch(node: ScalarNode, text: str, start: int) -> ScalarNode:
    """A scalar node for a stretch of another's text, with its place."""
    from yaml import Mark

    shift = start + (1 if node.style in ("'", '"') else 0)
    begin = node.start_mark
    mark = Mark(begin.name, begin.index + shift, begin.line, begin.column + shift, None, 0)
    end = Mark(begin.name, begin.index + shift + len(text), begin.line, begin.column + shift + len(text), None, 0)
    return ScalarNode(node.tag, text, mark, end)
