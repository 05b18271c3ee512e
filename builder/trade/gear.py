"""Protective gear: what a hazard may ask for, and the names by which a guide's `form: gear` is recognised."""

from __future__ import annotations

from functools import lru_cache

import msgspec

from builder.trade.match import head_words, longest, plain


class Gear(msgspec.Struct, frozen=True):
    """One kind of protective gear. `mark` is what to look for on it; `match` the names that a guide may
    give it."""

    key: str
    name: str
    mark: str
    match: tuple[str, ...]
    sources: tuple[str, ...]


GEAR = (
    Gear(
        "eye protection",
        "eye protection",
        "marked Z87 or Z87.1 (ANSI/ISEA Z87.1), or as local rules ask",
        (
            "eye protection",
            "goggles",
            "safety glasses",
            "safety goggles",
            "safety spectacles",
            "protective glasses",
            "eye shield",
            "face shield",
            "visor",
        ),
        ("z87_1", "school_eye_protection"),
    ),
    Gear(
        "gloves",
        "protective gloves",
        "of the material that the product's label or data sheet names",
        (
            "glove",
            "gloves",
            "protective glove",
            "nitrile glove",
            "rubber glove",
            "work glove",
            "heat glove",
            "oven glove",
        ),
        ("school_eye_protection",),
    ),
    Gear(
        "apron",
        "apron",
        "covers chest and lap",
        ("apron", "smock", "overall", "lab coat", "old shirt"),
        ("common_practice",),
    ),
    Gear(
        "dust mask",
        "dust mask",
        "a filtering half mask, as the product's label names it",
        ("dust mask", "respirator", "filter mask", "particle mask", "filtering mask"),
        ("common_practice",),
    ),
    Gear(
        "ear protection",
        "ear protection",
        "ear muffs or plugs, as local rules ask",
        (
            "ear protection",
            "hearing protection",
            "ear muff",
            "ear defender",
            "ear plug",
            "earplug",
            "earmuff",
        ),
        ("common_practice",),
    ),
    Gear(
        "closed shoes",
        "closed shoes",
        "cover toes and heels",
        ("closed shoe", "closed shoes", "shoe", "work shoe", "boot"),
        ("common_practice",),
    ),
    Gear(
        "hair tie",
        "hair tie",
        "holds hair and loose sleeves back",
        ("hair tie", "hair band", "hairband", "hair net"),
        ("common_practice",),
    ),
)

_BY_KEY = {row.key: row for row in GEAR}
_BY_PHRASE = {phrase: row for row in GEAR for phrase in row.match}


def gear(key: str) -> Gear | None:
    """The gear with this key, or None."""
    return _BY_KEY.get(plain(key))


@lru_cache(maxsize=1024)
def gear_kind(name: str) -> Gear | None:
    """The gear that a name in a guide speaks of ("class set of goggles" -> eye protection), or None."""
    found = longest(_BY_PHRASE, head_words(name))
    return found[0] if found else None
