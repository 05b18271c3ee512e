"""What a number that was refused was probably meant to be, so that one slip does not hide another.

Like a misspelt name it is told, and then read as the guess; where nothing is near, it stays unknown.
"""

from __future__ import annotations

import re

from msgspec.structs import replace

from builder.quantities.sums import Code, Sum, evaluate, read_parts
from builder.quantities.units import BY_WORD, Dimension, find_unit, near_unit
from builder.quantities.values import Quantity, Refusal

_COMMA = r"(?<=[0-9]),(?=[0-9]{1,2}(?![0-9]))"  # a decimal one; three digits may be thousands
_UNIT = r"(?<=[0-9])(\s*)([A-Za-z]+)"


def meant(text: str, expect: Dimension | None, unit: str = "") -> Quantity | None:
    """The quantity that a refused text was probably meant for; None if that cannot be said.

    A decimal comma becomes a point, a misspelt unit the nearest one, a bare number takes `unit` (for a
    length), and what cannot be added or divided is left out of its sum. What then measures something else
    is no guess.
    """
    text = re.sub(_COMMA, ".", text)
    parts = read_parts(text) or read_parts(re.sub(_UNIT, _near, text))
    if parts is None:
        return None
    found = parts.plain or without_faults(parts, {})
    if found is None:
        return None
    if found.dimension is Dimension.NUMBER and expect is Dimension.LENGTH and unit and found.unit != "%":
        factor = BY_WORD[unit].factor
        return Quantity(found.amount * factor, Dimension.LENGTH, unit)
    return found if expect is None or found.dimension is expect else None


def without_faults(total: Sum, known: dict[str, Quantity | None]) -> Quantity | None:
    """A sum without those of its terms that are not known or do not go together with what stands before.

    A bare number that is left is no guess: it may have been a factor.
    """
    stack: list[tuple[Code, ...]] = []
    for code in total.program:
        if code.op in ("q", "name"):
            stack.append((code,) if code.op == "q" or known.get(str(code.value)) is not None else ())
        elif code.op == "neg":
            inner = stack.pop()
            stack.append((*inner, code) if inner else ())
        else:
            right, left = stack.pop(), stack.pop()
            alone = left or right if code.op in "+-" else ()  # a factor that is left is no guess
            stack.append((*left, *right, code) if left and right else alone)
    if not stack[-1]:
        return None
    found = evaluate(replace(total, program=stack[-1]), known.get, mend=True)
    bare = isinstance(found, Quantity) and found.dimension is Dimension.NUMBER
    return None if bare or isinstance(found, Refusal) else found


def _near(match: re.Match[str]) -> str:
    word = match[2]
    if word in BY_WORD or find_unit(word) is not None:
        return match[0]
    return match[1] + (near_unit(word) or word)
