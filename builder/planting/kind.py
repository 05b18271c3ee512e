"""What a kind of fault is, and what one planted fault is."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import NamedTuple

from builder.planting.ground import Ground
from builder.planting.sheet import Edit


class Plant(NamedTuple):
    """One fault for one copy of a guide.

    `things` are what the edits lie in (ids of things, `step ID`), by which pairs are told apart; `at` says
    in words where it was planted.
    """

    at: str
    things: tuple[str, ...]
    edits: tuple[Edit, ...]


Find = Callable[[Ground], Iterator[Plant]]


class Kind(NamedTuple):
    """A kind of fault: what a writer did, the checks of which one must lead, and where it can be planted.

    `find` offers its places in the order written; none if the guide has no place for it.
    """

    name: str
    checks: tuple[str, ...]
    find: Find
    severity: str = "error"
