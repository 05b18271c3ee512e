"""Sums: `+ - * / ( )`, `pi`, numbers with units, ids and `thing.field`, over exact numbers.

`50 + 10 %` is 55: a percentage that is added to something, or taken from it, is a share of what
stands to the left of it.  Work is bounded by the three limits below; nothing is ever run as code.
"""

from __future__ import annotations

import re
from collections.abc import Callable

import msgspec

from builder.quantities.exact import PI, Exact
from builder.quantities.quantity import fitted, too_long
from builder.quantities.scan import diagnose, scan
from builder.quantities.units import Dimension
from builder.quantities.values import DimensionError, Quantity, Refusal, number

LONGEST = 400  # characters
MOST_OPERATIONS = 64
DEEPEST = 16  # brackets within brackets
MOST_BITS = 2048  # of a numerator or denominator: sums built on sums stay bounded
MOST_TERMS = 16  # powers of pi in one number

_NAME = re.compile(r"[a-z][a-z0-9_]*(?:\.[a-z][a-z0-9_]*)*")
_MINUS = "-−–"
_TIMES = "*×·"
_OVER = "/÷"
_PLUS_MINUS = r"\s*(?:±|\+/[-−]|\+[-−])\s*"


class Code(msgspec.Struct, frozen=True):
    """One operation in postfix order; `start` and `length` say where it stands in the text.

    `op` is "q" (push `value`), "name" (push what `value` names), "neg", "+", "-", "*" or "/";
    `share` is set on "+" and "-" when what stands right of it is a single value.
    """

    op: str
    value: Quantity | str | None
    start: int
    length: int
    share: bool = False


class Sum(msgspec.Struct, frozen=True):
    """A sum that was read.  `names` holds every id or `thing.field` with its offset and length."""

    text: str
    names: tuple[tuple[str, int, int], ...]
    program: tuple[Code, ...]
    expect: Dimension | None = None

    @property
    def plain(self) -> Quantity | None:
        """The value, where it needs no name looked up."""
        first = self.program[0]
        return first.value if len(self.program) == 1 and isinstance(first.value, Quantity) else None


class Toleranced(msgspec.Struct, frozen=True):
    """A value and how far it may be off to either side, if that is said."""

    value: Sum
    plus_minus: Sum | None


class _Stop(Exception):
    """Carries a refusal out of the reader."""

    def __init__(self, refusal: Refusal) -> None:
        super().__init__(refusal.message)
        self.refusal = refusal


def read_sum(text: str, expect: Dimension | None = None, limit: int = LONGEST) -> Sum | Refusal:
    """Read a sum; a plain quantity is one too.

    `expect` is what the outcome must be; it is judged here where no name stands in the sum, and in
    `evaluate` otherwise.  Longer than `limit` characters, more than MOST_OPERATIONS operations or
    brackets deeper than DEEPEST are refused.
    """
    return _read(text, 0, len(text), expect, limit)


def _read(text: str, start: int, end: int, expect: Dimension | None, limit: int) -> Sum | Refusal:
    if end - start > limit:
        return too_long(end - start, limit).moved(start)
    begin = _gap(text, start, end)
    while end > begin and text[end - 1].isspace():
        end -= 1
    found = scan(text, begin, end)
    if isinstance(found, tuple) and found[1] == end:  # a plain quantity
        fit = fitted(found[0], expect, begin, end - begin)
        if isinstance(fit, Refusal):
            return fit
        return Sum(text[begin:end], (), (Code("q", fit, begin, end - begin),), expect)
    match = _NAME.match(text, begin, end)
    if match is not None and match.end() == end and match[0] != "pi":  # one name: the most common sum
        name = match[0]
        return Sum(name, ((name, begin, len(name)),), (Code("name", name, begin, len(name)),), expect)
    reader = _Reader(text, begin, end, expect)
    try:
        reader.total(0)
        if reader.at < end:
            raise _Stop(reader.slip())
    except _Stop as stop:
        return stop.refusal
    total = Sum(text[begin:end], tuple(reader.names), tuple(reader.codes), expect)
    if total.names:
        return total
    alone = total.plain  # a quantity in brackets
    value = evaluate(total, _nothing) if alone is None else fitted(alone, expect, begin, end - begin)
    if not isinstance(value, Quantity):
        return value if isinstance(value, Refusal) else diagnose(text, begin, expect)
    return Sum(total.text, (), (Code("q", value, begin, end - begin),), expect)


def _nothing(_name: str) -> Quantity | None:
    return None


def _gap(text: str, start: int, end: int) -> int:
    while start < end and text[start].isspace():
        start += 1
    return start


class _Reader:
    """Recursive descent over one text; it leaves operations in postfix order in `codes`."""

    def __init__(self, text: str, start: int, end: int, expect: Dimension | None) -> None:
        self.text, self.at, self.end, self.expect = text, start, end, expect
        self.codes: list[Code] = []
        self.names: list[tuple[str, int, int]] = []
        self.operations = 0

    def total(self, depth: int) -> bool:
        """Read terms joined by + and -; return whether it is a single value."""
        single = self.product(depth)
        while (op := self.operator("+" + _MINUS)) is not None:
            single = False
            alone = self.product(depth)
            self.codes.append(Code("+" if op[0] == "+" else "-", None, op[1], 1, alone))
        return single

    def product(self, depth: int) -> bool:
        single = self.factor(depth)
        while (op := self.operator(_TIMES + _OVER)) is not None:
            single = False
            self.factor(depth)
            self.codes.append(Code("*" if op[0] in _TIMES else "/", None, op[1], 1))
        return single

    def factor(self, depth: int) -> bool:
        signs = []
        while (op := self.operator("+" + _MINUS)) is not None:
            if op[0] != "+":
                signs.append(op[1])
        single = self.value(depth)
        self.codes.extend(Code("neg", None, at, 1) for at in reversed(signs))
        return single

    def value(self, depth: int) -> bool:
        at = self.at = _gap(self.text, self.at, self.end)
        if at >= self.end:
            raise _Stop(self.slip())
        if self.text[at] == "(":
            if depth == DEEPEST:
                raise _Stop(
                    Refusal(
                        f"brackets stand more than {DEEPEST} deep",
                        "Give a part of the sum a name under dimensions.",
                        at,
                        1,
                    )
                )
            self.at += 1
            single = self.total(depth + 1)
            self.at = _gap(self.text, self.at, self.end)
            if self.at >= self.end or self.text[self.at] != ")":
                if self.at < self.end:
                    raise _Stop(self.slip())
                raise _Stop(Refusal("a bracket is opened and never closed", 'Write the missing ")".', at, 1))
            self.at += 1
            return single
        found = scan(self.text, at, self.end)
        if isinstance(found, Refusal):
            raise _Stop(self.beside(found))
        if found is not None:
            self.codes.append(Code("q", found[0], at, found[1] - at))
            self.at = found[1]
            return True
        match = _NAME.match(self.text, at, self.end)
        if match is None:
            raise _Stop(self.slip())
        word = match[0]
        self.at = match.end()
        if word == "pi":
            self.codes.append(Code("q", number(PI), at, 2))
        else:
            self.codes.append(Code("name", word, at, len(word)))
            self.names.append((word, at, len(word)))
        return True

    def beside(self, refusal: Refusal) -> Refusal:
        """Turn an unknown unit that reads like an id (`2 body.length`) into what it is."""
        match = _NAME.match(self.text, refusal.start, self.end)
        if match is None or match[0].isalpha() or "is not a unit" not in refusal.message:
            return refusal
        return Refusal(
            f"a number and {match[0]} stand side by side",
            f"Write + - * or / between them, as in 2 * {match[0]}.",
            refusal.start,
            len(match[0]),
        )

    def operator(self, wanted: str) -> tuple[str, int] | None:
        at = _gap(self.text, self.at, self.end)
        if at >= self.end or self.text[at] not in wanted:
            return None
        self.operations += 1
        if self.operations > MOST_OPERATIONS:
            raise _Stop(
                Refusal(
                    f"this sum has more than {MOST_OPERATIONS} operations",
                    "Give parts of it a name under dimensions.",
                    at,
                    1,
                )
            )
        self.at = at + 1
        return self.text[at], at

    def slip(self) -> Refusal:
        """What is wrong at the place where reading stopped."""
        at = _gap(self.text, self.at, self.end)
        if at >= self.end:
            if self.codes or self.operations:
                return Refusal(
                    "the sum ends where a value should follow", "Write the missing value.", max(at - 1, 0), 1
                )
            return diagnose("", 0, self.expect).moved(at)
        if self.text[at] == ")":
            return Refusal("a bracket is closed that was never opened", 'Drop the ")".', at, 1)
        if self.codes and (self.text[at].isalnum() or self.text[at] == "("):
            return Refusal(
                f'"{self.text[at : min(self.end, at + 40)]}" follows a value with nothing between',
                "Write + - * or / between them.",
                at,
                self.end - at,
            )
        if self.text[at].isalpha():
            return Refusal(
                f'"{self.text[at : min(self.end, at + 40)]}" is no id: ids are small letters, digits and _',
                "Write the id of a dimension, or thing.field.",
                at,
                self.end - at,
            )
        return diagnose(self.text[: self.end], at, self.expect)


def read_parts(text: str) -> Sum | None:
    """The parts of a sum as written, whatever comes out of them; None if it is no sum at all."""
    if len(text) > LONGEST:
        return None
    reader = _Reader(text, 0, len(text), None)
    try:
        reader.total(0)
    except _Stop:
        return None
    if _gap(text, reader.at, len(text)) < len(text):
        return None
    return Sum(text, tuple(reader.names), tuple(reader.codes))


def evaluate(
    total: Sum, lookup: Callable[[str], Quantity | None], *, mend: bool = False
) -> Quantity | Refusal | None:
    """Work a sum out.

    `lookup` gives the value of an id or `thing.field`, or None if it is not known; the outcome is
    then None.  A Refusal says what cannot be done: a length added to a time, a division by zero, an
    outcome that is not what belongs here.  Its offsets are those of the text that was read.
    """
    program = total.program
    if len(program) == 1 and program[0].op == "q":  # a plain quantity, already fitted when it was read
        plain = program[0].value
        if isinstance(plain, Quantity):
            return plain
    stack: list[Quantity] = []
    for code in program:
        op = code.op
        if op == "q" or op == "name":
            value = lookup(code.value) if isinstance(code.value, str) else code.value
            if value is None:
                return None
            stack.append(value)
            continue
        if op == "neg":
            stack.append(-stack.pop())
            continue
        right, left = stack.pop(), stack.pop()
        try:
            stack.append(_worked(code, left, right))
        except (DimensionError, ZeroDivisionError) as error:
            if mend:
                stack.append(left)
                continue
            if isinstance(error, DimensionError):
                return Refusal(f"{error}", _hint(left, right), code.start, code.length)
            return Refusal("this divides by zero", "Write a divisor other than 0.", code.start, code.length)
        if _overgrown(stack[-1]):
            return Refusal(
                "the numbers of this sum grow beyond any use",
                "Look for a value that is multiplied again and again.",
                code.start,
                code.length,
            )
    outcome = stack[-1]
    return fitted(outcome, total.expect, min(c.start for c in program), len(total.text))


def _overgrown(q: Quantity) -> bool:
    terms = q.amount.terms
    return len(terms) > MOST_TERMS or any(
        max(t.numerator.bit_length(), t.denominator.bit_length()) > MOST_BITS for t in terms
    )


def _worked(code: Code, left: Quantity, right: Quantity) -> Quantity:
    op = code.op
    if op == "*":
        return left * right
    if op == "/":
        if right.amount.is_rational:
            return left / right
        try:
            return left / right
        except DimensionError:
            raise
        except ValueError:  # pi beside something else: its sixty digits serve
            return left / Quantity(Exact.of(right.base), right.dimension, right.unit)
    if code.share and right.unit == "%" and left.unit != "%":
        share = left.scaled(right.amount)
        return left + share if op == "+" else left - share
    return left + right if op == "+" else left - right


def _hint(left: Quantity, right: Quantity) -> str:
    bare = next((q for q in (left, right) if q.dimension is Dimension.NUMBER and q.unit != "%"), None)
    if bare is not None and left.dimension is not right.dimension:
        return "Give the bare number a unit, or multiply with it."
    return "Put together only what measures the same thing."


def read_toleranced(text: str, expect: Dimension | None = None) -> Toleranced | Refusal:
    """Read `12 1/2 in ± 1/32 in` (or `+/-`); without a tolerance `plus_minus` is None.

    Offsets of names and refusals are those of the whole text.
    """
    if len(text) > 2 * LONGEST:
        return too_long(len(text), 2 * LONGEST)
    split = re.search(_PLUS_MINUS, text) if "±" in text or "+" in text else None
    if split is None:
        alone = read_sum(text, expect)
        return alone if isinstance(alone, Refusal) else Toleranced(alone, None)
    value = _read(text, 0, split.start(), expect, LONGEST)
    if isinstance(value, Refusal):
        return value
    kind = expect if expect or value.plain is None else value.plain.dimension
    off = _tolerance(text, split.end(), kind)
    return off if isinstance(off, Refusal) else Toleranced(value, off)


def read_tolerance(text: str, expect: Dimension | None = None) -> Sum | Refusal:
    """Read a tolerance that stands alone: `± 0.005 in`."""
    if len(text) > LONGEST:
        return too_long(len(text), LONGEST)
    split = re.match(_PLUS_MINUS, text)
    if split is None:
        given = text.strip()[:40] or "1/32 in"
        return Refusal("a tolerance begins with ±", f"Write ± {given}.", 0, len(text))
    return _tolerance(text, split.end(), expect)


def _tolerance(text: str, start: int, expect: Dimension | None) -> Sum | Refusal:
    again = re.search(_PLUS_MINUS, text[start:])
    if again:
        at, length = start + again.start(), len(again[0])
        return Refusal("± stands twice", "Write one tolerance.", at, length)
    off = _read(text, start, len(text), expect, LONGEST)
    if isinstance(off, Sum) and off.plain is not None and off.plain.amount < 0:
        return Refusal("a tolerance is below zero", "Write it without a sign.", start, len(text) - start)
    return off
