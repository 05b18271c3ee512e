"""Names of ends: which belong together, and which is the zero of an axis."""

from __future__ import annotations

from collections.abc import Iterable

import msgspec


class EndPair(msgspec.Struct, frozen=True):
    """Two ends of one axis; stations are measured from `origin`."""

    origin: str
    other: str
    sources: tuple[str, ...] = ("common_practice",)


END_PAIRS = (
    EndPair("rear", "front"),
    EndPair("left", "right"),
    EndPair("tip", "base"),
    EndPair("foot", "head"),
    EndPair("bottom", "top"),
    EndPair("back", "front"),
    EndPair("under", "top"),
    EndPair("start", "end"),
)
"""In order of preference: "front" alone is taken with "rear", unless the thing has a "back"."""

ENDS = tuple(sorted({name for pair in END_PAIRS for name in (pair.origin, pair.other)}))
"""Every name of an end, sorted."""

ORIGINS = tuple(pair.origin for pair in END_PAIRS)
"""The ends that are the zero of their axis."""


def opposite(end: str, among: Iterable[str] = ()) -> str | None:
    """The other end of the axis, or None for a word that names no end.

    `among` are the ends that the thing itself names, which decide where a name has two partners: the
    opposite of "front" is "rear" on a tube and "back" on a slab that has a back.
    """
    partners = [
        pair.other if pair.origin == end else pair.origin
        for pair in END_PAIRS
        if end in (pair.origin, pair.other)
    ]
    own = tuple(among)
    return next((name for name in partners if name in own), partners[0] if partners else None)


def is_origin(end: str) -> bool:
    """Whether stations are counted from this end."""
    return end in ORIGINS


def axis_of(end: str, among: Iterable[str] = ()) -> EndPair | None:
    """The pair that this end belongs to, or None."""
    other = opposite(end, among)
    return next((pair for pair in END_PAIRS if {pair.origin, pair.other} == {end, other}), None)
