"""Kinds of adhesive: how long each gives, how long each takes, which gap it bridges, what it needs.

Ranges are (low, high) in seconds and only warn: the time that counts is the one on the product's label.
`None` where the word has no meaning for that kind. No standard sets any of these times.
"""

from __future__ import annotations

from fractions import Fraction
from typing import Literal

import msgspec

from builder.trade.match import plain

Seconds = tuple[int, int]
Grade = Literal["ok", "ask", "no"]

MIN = 60
HOUR = 3600


class Adhesive(msgspec.Struct, frozen=True):
    """One kind of adhesive.

    working: from laying it until the parts must have met. tack: until the joint holds by itself when held.
    set: until it bears careful work. cure: until it bears all it will. Seconds. gap: the widest gap between
    the two surfaces, on one side, that it bridges, mm. minimum_temperature: degrees Celsius below which it
    may fail, or None. needs: keys of hazards that its use brings. k6: whether it suits pupils up to grade
    6: "ask" means that the teacher asks first (label, school rules), "no" that another kind is to be
    chosen. `k6_note` says why.
    """

    key: str
    name: str
    aka: tuple[str, ...]
    working: Seconds | None
    tack: Seconds | None
    set: Seconds | None
    cure: Seconds | None
    gap: Fraction
    minimum_temperature: int | None
    needs: tuple[str, ...]
    k6: Grade
    k6_note: str
    sources: tuple[str, ...]


_LABEL = "Choose one whose label says that it conforms to ASTM D4236."
_SOLVENT = "Its solvent burns and its vapour is breathed in; choose a water-based glue."

ADHESIVES = (
    Adhesive(
        "pva",
        "white PVA glue",
        ("white glue", "school glue", "craft glue", "pva glue", "white pva glue"),
        working=(3 * MIN, 30 * MIN),
        tack=(1 * MIN, 15 * MIN),
        set=(15 * MIN, 90 * MIN),
        cure=(8 * HOUR, 72 * HOUR),
        gap=Fraction(1, 2),
        minimum_temperature=10,
        needs=(),
        k6="ok",
        k6_note=_LABEL,
        sources=("glue_table", "card_glue_advice", "wood_gluing_guide", "common_practice"),
    ),
    Adhesive(
        "wood_glue",
        "wood glue",
        ("aliphatic", "yellow glue", "carpenter's glue", "aliphatic glue"),
        working=(5 * MIN, 10 * MIN),
        tack=(5 * MIN, 15 * MIN),
        set=(30 * MIN, 60 * MIN),
        cure=(24 * HOUR, 24 * HOUR),
        gap=Fraction(3, 20),
        minimum_temperature=10,
        needs=(),
        k6="ok",
        k6_note=_LABEL,
        sources=("wood_gluing_guide", "memory"),
    ),
    Adhesive(
        "hot_melt",
        "hot-melt glue",
        ("hot glue", "hot melt glue"),
        working=(5, 30),
        tack=(10, 60),
        set=(30, 2 * MIN),
        cure=(1 * MIN, 10 * MIN),
        gap=Fraction(3),
        minimum_temperature=10,
        needs=("hot",),
        k6="ask",
        k6_note="An adult works the gun, or a low-temperature gun is used at a fixed place.",
        sources=("adhesives_handbook", "school_hot_glue", "memory"),
    ),
    Adhesive(
        "epoxy_5min",
        "five-minute epoxy",
        ("epoxy", "5 minute epoxy", "two part epoxy", "five minute epoxy"),
        working=(3 * MIN, 5 * MIN),
        tack=(5 * MIN, 10 * MIN),
        set=(15 * MIN, 60 * MIN),
        cure=(24 * HOUR, 72 * HOUR),
        gap=Fraction(3),
        minimum_temperature=10,
        needs=("skin", "fumes"),
        k6="no",
        k6_note="Uncured resin can make skin allergic to it for life.",
        sources=("epoxy_gel_article", "epoxy_cure_article", "school_art_guidelines", "memory"),
    ),
    Adhesive(
        "cyanoacrylate",
        "thin cyanoacrylate",
        ("instant glue", "ca", "thin instant glue"),
        working=(3, 30),
        tack=(5, 60),
        set=(30, 5 * MIN),
        cure=(24 * HOUR, 24 * HOUR),
        gap=Fraction(1, 10),
        minimum_temperature=10,
        needs=("bonds", "fumes"),
        k6="no",
        k6_note="It bonds skin and eyes in seconds; an adult applies it, away from the class.",
        sources=("adhesives_handbook", "cure_glossary", "school_instant_glue", "memory"),
    ),
    Adhesive(
        "cyanoacrylate_gel",
        "cyanoacrylate gel",
        ("instant glue gel", "ca gel", "thick instant glue"),
        working=(10, 60),
        tack=(15, 2 * MIN),
        set=(1 * MIN, 10 * MIN),
        cure=(24 * HOUR, 24 * HOUR),
        gap=Fraction(1, 2),
        minimum_temperature=10,
        needs=("bonds", "fumes"),
        k6="no",
        k6_note="It bonds skin and eyes in seconds; an adult applies it, away from the class.",
        sources=("adhesives_handbook", "school_instant_glue", "memory"),
    ),
    Adhesive(
        "gummed_tape",
        "gummed paper tape",
        ("water activated tape", "gummed paper", "gummed tape"),
        working=(10, 60),
        tack=(2, 30),
        set=(10 * MIN, 60 * MIN),
        cure=(8 * HOUR, 24 * HOUR),
        gap=Fraction(1, 2),
        minimum_temperature=10,
        needs=(),
        k6="ok",
        k6_note="Starch, dextrin or animal glue: a sponge wets it, never the tongue.",
        sources=("gummed_tape_handbook", "memory"),
    ),
    Adhesive(
        "glue_stick",
        "glue stick",
        ("paper glue stick", "stick glue"),
        working=(30, 2 * MIN),
        tack=(10, 60),
        set=(1 * MIN, 15 * MIN),
        cure=(30 * MIN, 24 * HOUR),
        gap=Fraction(1, 10),
        minimum_temperature=10,
        needs=(),
        k6="ok",
        k6_note=_LABEL,
        sources=("common_practice",),
    ),
    Adhesive(
        "paste",
        "starch paste",
        ("wheat paste", "flour paste", "wallpaper paste", "cellulose paste"),
        working=(5 * MIN, 20 * MIN),
        tack=(2 * MIN, 15 * MIN),
        set=(30 * MIN, 4 * HOUR),
        cure=(8 * HOUR, 48 * HOUR),
        gap=Fraction(3, 10),
        minimum_temperature=10,
        needs=(),
        k6="ok",
        k6_note="Choose a paste without a fungicide, and ask about wheat allergy.",
        sources=("school_art_guidelines", "common_practice"),
    ),
    Adhesive(
        "contact_cement",
        "contact cement",
        ("contact adhesive", "solvent contact adhesive"),
        working=(5 * MIN, 30 * MIN),
        tack=(1, 30),
        set=(1 * MIN, 60 * MIN),
        cure=(24 * HOUR, 72 * HOUR),
        gap=Fraction(1, 4),
        minimum_temperature=10,
        needs=("flammable", "fumes"),
        k6="no",
        k6_note=_SOLVENT,
        sources=("memory", "school_art_guidelines"),
    ),
    Adhesive(
        "rubber_cement",
        "rubber cement",
        ("rubber solution", "gum solution"),
        working=(1 * MIN, 10 * MIN),
        tack=(1, 2 * MIN),
        set=(1 * MIN, 30 * MIN),
        cure=(1 * HOUR, 24 * HOUR),
        gap=Fraction(1, 10),
        minimum_temperature=10,
        needs=("flammable", "fumes"),
        k6="no",
        k6_note=_SOLVENT,
        sources=("school_art_guidelines", "memory"),
    ),
    Adhesive(
        "solvent_cement",
        "solvent cement for plastic or balsa",
        ("plastic cement", "polystyrene cement", "balsa cement"),
        working=(10, 2 * MIN),
        tack=(30, 5 * MIN),
        set=(5 * MIN, 60 * MIN),
        cure=(8 * HOUR, 24 * HOUR),
        gap=Fraction(1, 10),
        minimum_temperature=10,
        needs=("flammable", "fumes"),
        k6="no",
        k6_note=_SOLVENT,
        sources=("school_art_guidelines", "memory"),
    ),
    Adhesive(
        "spray_adhesive",
        "spray adhesive",
        ("spray mount", "aerosol adhesive", "adhesive spray"),
        working=(15, 15 * MIN),
        tack=(1, 2 * MIN),
        set=(1 * MIN, 30 * MIN),
        cure=(1 * HOUR, 24 * HOUR),
        gap=Fraction(1, 10),
        minimum_temperature=10,
        needs=("spray",),
        k6="no",
        k6_note="The mist is breathed in; an adult uses it outdoors or in a spray booth, before the class.",
        sources=("school_art_guidelines", "memory"),
    ),
    Adhesive(
        "double_sided_tape",
        "double-sided tape",
        ("double sided adhesive tape", "mounting tape", "foam tape"),
        working=None,
        tack=(0, 10),
        set=(0, 1 * MIN),
        cure=(0, 72 * HOUR),
        gap=Fraction(1, 10),
        minimum_temperature=10,
        needs=(),
        k6="ok",
        k6_note="None.",
        sources=("common_practice",),
    ),
)

_BY_NAME = {name: row for row in ADHESIVES for name in (row.key.replace("_", " "), *row.aka)}


def adhesive(key: str) -> Adhesive | None:
    """The kind of adhesive with this key or usual name ("pva", "hot melt", "white glue"), or None."""
    return _BY_NAME.get(plain(key))
