"""The letter that is printed on a part which its pattern tells from another one: `told by: its letter L`."""

from __future__ import annotations

import re

from builder.drawings.shapes import Point
from builder.guide.model import Thing

_ONE = re.compile(r"\bletter(?:ed)?(?: an?)? ([A-Z0-9])\b")


def letter_of(thing: Thing) -> str:
    """The letter that tells a printed part, as its pattern prints it; empty if it has none."""
    found = _ONE.search(thing.words.get("told_by", "")) if thing.words.get("printed") == "yes" else None
    return found[1] if found else ""


def middle_of(outline: tuple[Point, ...]) -> Point:
    """The middle of an outline's area: in a part that is cut at a slant, well inside it."""
    double = x = y = 0.0
    for (x0, y0), (x1, y1) in zip(outline, (*outline[1:], outline[0]), strict=True):
        cross = x0 * y1 - x1 * y0
        double, x, y = double + cross, x + (x0 + x1) * cross, y + (y0 + y1) * cross
    return (x / (3 * double), y / (3 * double)) if double else outline[0]
