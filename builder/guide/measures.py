"""Numbers as they are written: sums, sizes, tolerances, times of a label, angles, counts, shares."""

from __future__ import annotations

import re
from fractions import Fraction
from functools import lru_cache

from builder.guide.desk import Desk, cut
from builder.guide.model import Angle, Share, SizeValue, Value
from builder.guide.nodes import MappingNode, Node, ScalarNode, SequenceNode, is_laid_out, place_of
from builder.quantities.exact import Exact
from builder.quantities.quantity import LONGEST, read_window, too_long
from builder.quantities.sums import Sum, evaluate, read_sum, read_tolerance, read_toleranced
from builder.quantities.units import Dimension
from builder.quantities.values import Quantity, Refusal

_BY = re.compile(r"\s+(?:x|×|by)\s+")
_SIGNED = (None, Dimension.NUMBER, Dimension.ANGLE)  # what may well lie below zero

_read_sum = lru_cache(maxsize=1024)(read_sum)  # `1/4 in` and `10 min` stand in a guide again and again

Worked = tuple[Quantity | None, frozenset[str]]


class Measures(Desk):
    """A desk that reads numbers. Paths name them: `body.length`, `seat_lens.time`."""

    def refused(self, node: ScalarNode, refusal: Refusal) -> None:
        """A finding for a number that could not be read."""
        self.fault("number", self.inside(node, refusal.start, refusal.length), refusal.message,
                   "A wrong length or time is found only at the bench.", refusal.hint)  # fmt: skip

    def number(self, node: Node, path: str, dimension: Dimension | None, *, why: str = "",
               signed: bool = False) -> Value:  # fmt: skip
        """A sum, worked out. If it cannot be, a finding, and what it was probably meant for: a value
        without a quantity if nothing is near.

        Below zero is refused unless it is an angle, a bare number, or `signed`.
        """
        at = place_of(node, self.file)
        if not isinstance(node, ScalarNode):
            self.braces(node) if isinstance(node, MappingNode) else self.text(node, f'"{path}"')
            return Value(None, path, at)
        text = node.value
        self.paths[path] = at  # before it is worked out: a sum may come back to it
        plus_minus: Fraction | None = None
        total: Sum | Refusal
        if len(text) > LONGEST:
            total = too_long(len(text), LONGEST)
        elif "±" in text or "+/-" in text or "+-" in text:
            toleranced = read_toleranced(text, dimension)
            total = toleranced if isinstance(toleranced, Refusal) else toleranced.value
            if not isinstance(toleranced, Refusal) and toleranced.plus_minus is not None:
                off = self._worked(node, toleranced.plus_minus, dimension)[0]
                plus_minus = None if off is None else off.base
        else:
            total = _read_sum(text, dimension)
        if isinstance(total, Refusal):
            self.refused(node, total)
            from builder.quantities.guess import meant  # only a fault pays for it

            near = meant(text.partition("±")[0], dimension, self.numbers.first)
            return Value(near, path, at, cut(text), frozenset((path,)))
        if total.names:
            quantity, reads = self._worked(node, total, dimension, path)
            if any(c.isdigit() for c in _without_names(total)):
                reads |= {path}
            return Value(self._from_zero(node, quantity, signed), path, at, text, reads, plus_minus, False,
                         why)
        quantity = total.plain
        if "-" in text or "−" in text:
            quantity = self._from_zero(node, quantity, signed)
        typed = quantity is not None and bool(quantity.written)
        return Value(quantity, path, at, text, frozenset((path,)), plus_minus, typed, why)

    def _from_zero(self, node: ScalarNode, quantity: Quantity | None, signed: bool) -> Quantity | None:
        if quantity is None or signed or quantity.dimension in _SIGNED or quantity.base.numerator >= 0:
            return quantity
        what = cut(quantity.written or f"this {quantity.dimension.value}")
        self.fault("number", node, f"{what} is below zero",
                   "Nothing can be cut, poured or waited for below zero.",
                   "Write an amount of zero or more.")  # fmt: skip
        return -quantity

    def _worked(self, node: ScalarNode, total: Sum, dimension: Dimension | None, path: str = "") -> Worked:
        """A sum's quantity (None if it cannot be known) and the written numbers that it comes from.

        Where the sum names itself (`path`), that is left out of it.
        """
        plain = total.plain
        if plain is not None:
            return plain, frozenset()
        reads: frozenset[str] = frozenset()
        quantities: dict[str, Quantity | None] = {}
        for name, start, length in total.names:
            value = self.numbers.lookup(self.bound(name))
            if value is None:
                value = self._guessed(node, name, start, length)
            if value is not None:
                reads |= value.reads
            quantities[name] = None if value is None else value.quantity
        unknown = [name for name, quantity in quantities.items() if quantity is None]
        if unknown:
            return (_without_faults(total, quantities) if unknown == [path] else None), reads
        result = evaluate(total, quantities.get)
        if isinstance(result, Refusal):
            self.refused(node, result)
            return _without_faults(total, quantities), reads
        return result, reads

    def _guessed(self, node: ScalarNode, name: str, start: int, length: int) -> Value | None:
        """The number that a misspelt name was probably meant for, with the finding for it."""
        head, dot, _ = name.partition(".")
        if head in self.lost or name in self.lost or self.numbers.is_missed(self.bound(name)):
            return None
        guess = None
        if self.guessing:
            guess = self._near_field(name) if dot else self.nearest(name, self.numbers.names())
        self.fault("unknown-name", self.inside(node, start, length),
                   f'there is no number called "{cut(name)}"',
                   "A sum can only name what is written in this guide.",
                   f"Did you mean `{guess}`?" if guess else "Write it under `dimensions`, or name a field "
                   "of a thing, as in `body.length`.")  # fmt: skip
        return self.numbers.lookup(guess) if guess else None

    def _near_field(self, name: str) -> str | None:
        thing, _, field = name.partition(".")
        known = list(self.numbers.names())
        things = dict.fromkeys(k.partition(".")[0] for k in known if "." in k)
        head = thing if thing in things else self.nearest(thing, things)
        fields = [k.partition(".")[2] for k in known if k.startswith(f"{head}.")]
        tail = field if field in fields else self.nearest(field, fields)
        return f"{head}.{tail}" if head and tail else None

    def count(self, node: Node, path: str, what: str) -> tuple[int, Value]:
        """A whole number from 1 to 9999, as a number and as a value."""
        at = self.place(node)
        text = self.word_text(node, what)
        self.paths[path] = at
        if not isinstance(node, ScalarNode) or not text:
            return 1, Value(None, path, at)
        if text.isascii() and text.isdigit() and len(text) <= 4 and int(text) > 0:
            quantity = Quantity(Exact.of(int(text)), Dimension.COUNT, "piece", text)
            return int(text), Value(quantity, path, at, text, frozenset((path,)), typed=True)
        many = text.isascii() and text.isdigit() and len(text) > 4
        self.fault("number", node, f'"{cut(text)}" is more than can be meant' if many
                   else f'"{cut(text)}" is not a whole number of pieces', "Copies are counted one by one.",
                   "Write a whole number from 1 to 9999, without a unit.")  # fmt: skip
        whole = re.match(r"[1-9][0-9]{0,3}(?![0-9])", text)  # "4.5" is read as the whole part of it
        if whole is None or many:
            return 1, Value(None, path, at, cut(text))
        quantity = Quantity(Exact.of(int(whole[0])), Dimension.COUNT, "piece")
        return int(whole[0]), Value(quantity, path, at, cut(text), frozenset((path,)))

    def tolerance(self, node: Node, path: str, dimension: Dimension = Dimension.LENGTH) -> Value:
        """`± 1/32 in`."""
        at = self.place(node)
        text = self.word_text(node, f'"{path}"')
        if not isinstance(node, ScalarNode) or not text:
            return Value(None, path, at)
        read = read_tolerance(node.value, dimension)
        if isinstance(read, Refusal):
            self.refused(node, read)
            return Value(None, path, at, text)
        self.paths[path] = at
        quantity, reads = self._worked(node, read, dimension)
        base = None if quantity is None else quantity.base
        return Value(quantity, path, at, text, reads | {path}, base, True)

    def size(self, node: Node, path: str) -> SizeValue | None:
        """`14 in x 22 in`: two sums with an x between."""
        halves = self.halves(node)
        if halves is None or not isinstance(node, ScalarNode):
            return None
        first = self.piece(node, *halves[0], f"{path}.along", Dimension.LENGTH)
        second = self.piece(node, *halves[1], f"{path}.across", Dimension.LENGTH)
        return SizeValue(first, second, self.place(node), node.value)

    def halves(self, node: Node) -> tuple[tuple[int, int], tuple[int, int]] | None:
        """Where the two lengths of a size begin and end in its text; a finding if they are not two."""
        if isinstance(node, MappingNode):
            self.braces(node)
            return None
        text = self.text(node, "a size", LONGEST)
        if not text:
            return None
        parts = list(_BY.finditer(text))
        if len(parts) == 1:
            return (0, parts[0].start()), (parts[0].end(), len(text))
        mend = "Write two lengths with an x between: `14 in x 22 in`."
        if len(parts) > 1:
            mend += " Several sizes are a list: `[14 in x 22 in, 2 in x 9 in]`."
        self.fault("number", node, f'"{cut(text)}" is not a size', "A flat piece has two lengths.", mend)
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
            read: SizeValue | Value | None
            if isinstance(each, ScalarNode) and _BY.search(each.value[:LONGEST]):
                read = self.size(each, one)
            else:
                read = self.number(each, one, Dimension.LENGTH)
                read = None if read.quantity is None else read
            if read is None:
                return None
            out.append(read)
        return tuple(out)

    def piece(self, node: ScalarNode, start: int, end: int, path: str, dimension: Dimension | None) -> Value:
        """A sum that is a stretch of a scalar's text."""
        return self.number(self.stretch(node, start, end), path, dimension)

    def stretch(self, node: ScalarNode, start: int, end: int) -> ScalarNode:
        """A scalar for a stretch of another's text, with its own place."""
        if not is_laid_out(node):
            return ScalarNode(node.tag, node.value[start:end], node.start_mark, node.end_mark, node.style)
        place = self.inside(node, start, end - start)
        return stretched(node, node.value[start:end], place.line - 1, place.column - 1)

    def window(self, node: Node, path: str) -> object | None:
        """`up to 1 h or from 48 h`: a quantities.Window."""
        text = self.word_text(node, f'"{path}"')
        if not isinstance(node, ScalarNode) or not text:
            return None
        read = read_window(node.value)
        if isinstance(read, Refusal):
            self.refused(node, read)
            return None
        self.paths[path] = self.place(node)
        return read

    def angle(self, node: Node, path: str) -> Angle:
        """`45 deg`, `evenly`, `evenly for fin`."""
        at = self.place(node)
        if isinstance(node, ScalarNode):
            if node.value == "evenly":
                return Angle(at, None, True)
            if node.value.startswith("evenly for "):
                return Angle(at, None, True, self.bound(self.word_text(node, f'"{path}"')[11:].strip()))
        return Angle(at, self.number(node, path, Dimension.ANGLE))

    def share(self, node: Node, path: str) -> Share:
        """`builder`, `class`, `3 builders`."""
        at = self.place(node)
        text = self.word_text(node, f'"{path}"')
        if text in ("builder", "each builder", "1 builder", ""):
            return Share(1, at)
        if text == "class":
            return Share(0, at)
        many = text.removesuffix(" builders")
        if many != text and many.isascii() and many.isdigit() and len(many) <= 3 and many[0] != "0":
            return Share(int(many), at)
        self.fault("word", node, f'"{cut(text)}" does not say who shares it',
                   "The class total is counted from this.",
                   "Write `builder`, `class`, or a number such as `4 builders`.")  # fmt: skip
        return Share(1, at)


def stretched(node: ScalarNode, text: str, line: int, column: int) -> ScalarNode:
    """A plain scalar node with its text at a line and column."""
    mark = type(node.start_mark)
    begin = mark(node.start_mark.name, 0, line, column, None, 0)
    end = mark(node.start_mark.name, 0, line, column + len(text), None, 0)
    return ScalarNode(node.tag, text, begin, end)


def _without_faults(total: Sum, known: dict[str, Quantity | None]) -> Quantity | None:
    from builder.quantities.guess import without_faults  # only a fault pays for it

    return without_faults(total, known)


def _without_names(total: Sum) -> str:
    """The text of a sum with its names blanked: a digit left over is a number that was written here."""
    text = total.text
    for _, start, length in reversed(total.names):
        text = text[:start] + " " * length + text[start + length :]
    return text
