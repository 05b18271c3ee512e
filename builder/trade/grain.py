"""Which materials have a grain, and what happens to a piece that lies across it.

Common practice throughout, with no published source: how much weaker a sheet is one way than the other
differs from sheet to sheet, and a trial strip tells it.
"""

from __future__ import annotations

import msgspec

from builder.trade.materials import material_kind


class Grain(msgspec.Struct, frozen=True):
    """Keys of the kinds of material whose grain this is, and why it matters at the bench."""

    kinds: tuple[str, ...]
    why: str
    sources: tuple[str, ...] = ("common_practice",)


GRAINS = (
    Grain(
        ("balsa", "plywood", "wood", "strip", "dowel"),
        "Wood splits along its grain. A thin part snaps along it, as a fin does whose grain runs along its "
        "root.",
    ),
    Grain(
        ("paper", "poster paper", "card", "poster board", "greyboard", "cardboard", "label"),
        "Paper and card roll and fold smoothly round a line that runs along their grain. Across it they "
        "crease, crack and spring open.",
    ),
    Grain(
        ("fabric",),
        "Cloth hardly gives along its threads, and stretches when it is pulled askew to them.",
    ),
    Grain(
        ("gummed tape",),
        "Gummed paper tape curls across its grain when it is wetted, and lies smooth when it is wound along "
        "it.",
    ),
)

_BY_KIND = {key: row for row in GRAINS for key in row.kinds}


def grain_of_kind(name: str) -> Grain | None:
    """The grain of what a material's name speaks of, or None if the trade knows of none."""
    kind = material_kind(name)
    return _BY_KIND.get(kind.key) if kind is not None else None
