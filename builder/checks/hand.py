"""A left and a right part are no mirror images.

What: A part that is the `mirror of` another has the other hand, and its outline is the other's, reflected.

Why: Two left wings are cut, and the second sheet has been used up.

Bad:
    right_wing: {like: left_wing, hand: right, mirror of: left_wing}  # the outline leans the same way

Good:
    right_wing: {like: left_wing, hand: right, mirror of: left_wing, outline: {points: [[60 mm, 0 mm], ...]}}
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from builder.checks.base import Check, Look, see
from builder.findings import Finding, Severity
from builder.guide.model import Thing

Point = tuple[Fraction, Fraction]


def find(look: Look) -> Iterator[Finding]:
    """One finding for each pair that is no pair."""
    for thing in look.guide.things.values():
        ref = thing.refs.get("mirror_of")
        other = look.guide.things.get(ref.id) if ref is not None else None
        if ref is None or other is None or other is thing:
            continue
        also = see(other.at, f"the {other.name}")
        hands = (thing.words.get("hand", ""), other.words.get("hand", ""))
        if sorted(hands) != ["left", "right"]:
            told = " and ".join(hand or "no hand" for hand in hands)
            yield CHECK.finding(
                ref.at, f"the {thing.name} mirrors the {other.name}, but their hands are {told}", also=also,
                mend="Write `hand: left` on one of them and `hand: right` on the other.",
            )  # fmt: skip
            continue
        own, theirs = _outline(thing), _outline(other)
        if own is None or theirs is None:
            continue
        if not _same(own, _turned(theirs, -1, 1)) and not _same(own, _turned(theirs, 1, -1)):
            alike = _same(own, theirs)
            what = "has the same outline as" if alike else "is no mirror image of"
            yield CHECK.finding(ref.at, f"the {thing.name} {what} the {other.name}", also=also)


def _outline(thing: Thing) -> tuple[Point, ...] | None:
    """The corners of a flat part, along and across; None if they are not known."""
    outline = thing.outline
    if outline is None:
        return None
    if outline.shape == "points":
        found = [(a.base, b.base) for a, b in outline.points]
        known = [(a, b) for a, b in found if a is not None and b is not None]
        return tuple(known) if known and len(known) == len(found) else None
    if outline.shape == "fin":
        sizes = [
            outline.values[key].base if key in outline.values else None for key in ("root", "tip", "span")
        ]
        sweep = outline.values["sweep"].base if "sweep" in outline.values else None
        root, tip, span = sizes
        if root is None or tip is None or span is None:
            return None
        if outline.words.get("square_edge", outline.words.get("square edge", "")) == "front":
            start = root - tip
        else:
            start = Fraction(0) if sweep is None else root - sweep - tip
        zero = Fraction(0)
        return ((zero, zero), (root, zero), (start + tip, span), (start, span))
    return None


def _turned(points: tuple[Point, ...], along: int, across: int) -> tuple[Point, ...]:
    return tuple((x * along, y * across) for x, y in points)


def _same(a: tuple[Point, ...], b: tuple[Point, ...]) -> bool:
    """Whether two outlines are the same up to where they lie and at which corner they begin."""
    if len(a) != len(b):
        return False
    first, second = _at_corner(a), _at_corner(b)
    ways = [second[i:] + second[:i] for i in range(len(second))]
    back = second[::-1]
    ways += [back[i:] + back[:i] for i in range(len(back))]
    return any(first == way for way in ways)


def _at_corner(points: tuple[Point, ...]) -> list[Point]:
    left, low = min(x for x, _ in points), min(y for _, y in points)
    return [(x - left, y - low) for x, y in points]


CHECK = Check(
    "hand", Severity.ERROR, "guide",
    why="Two parts of one hand are cut, and the second sheet has been used up.",
    mend="Reflect the outline of one of them.",
    find=find,
)  # fmt: skip
