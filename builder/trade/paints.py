"""Kinds of paint and finish: when each is dry, when the next coat may go on, when it is cured, what it
needs.

Ranges are (low, high) in seconds and only warn: the label decides. Some lacquers and enamels wrinkle when
they are painted again between two moments: `recoat_until` and `recoat_from` are that forbidden interval as
labels usually give it; both None where a coat may follow as soon as the last is dry.
"""

from __future__ import annotations

import msgspec

from builder.trade.adhesives import HOUR, MIN, Grade, Seconds
from builder.trade.match import plain


class Paint(msgspec.Struct, frozen=True):
    """One kind of paint or finish.

    dry: until touch-dry. handle: until it may be handled. cure: until hard all through. Seconds.
    recoat_until, recoat_from: the next coat goes on before the first or after the second, seconds from the
    last coat. minimum_temperature: degrees Celsius. needs: keys of hazards. k6: as for an adhesive.
    """

    key: str
    name: str
    aka: tuple[str, ...]
    dry: Seconds
    handle: Seconds
    recoat_until: Seconds | None
    recoat_from: Seconds | None
    cure: Seconds
    minimum_temperature: int | None
    needs: tuple[str, ...]
    k6: Grade
    k6_note: str
    sources: tuple[str, ...]


_LABEL = "Choose one whose label says that it conforms to ASTM D4236."
_MIST = "The mist is breathed in and the can is under pressure; an adult sprays, or brush paint is used."
_SOLVENT = "Its solvent is breathed in and burns; choose a water-based kind."

PAINTS = (
    Paint(
        "aerosol_acrylic",
        "acrylic spray paint",
        ("acrylic spray", "aerosol paint", "spray paint"),
        dry=(10 * MIN, 30 * MIN),
        handle=(1 * HOUR, 2 * HOUR),
        recoat_until=(30 * MIN, 1 * HOUR),
        recoat_from=(24 * HOUR, 48 * HOUR),
        cure=(24 * HOUR, 48 * HOUR),
        minimum_temperature=10,
        needs=("spray",),
        k6="no",
        k6_note=_MIST,
        sources=("aerosol_paint_advice", "school_art_guidelines", "memory"),
    ),
    Paint(
        "aerosol_enamel",
        "enamel spray paint",
        ("enamel spray", "aerosol enamel"),
        dry=(15 * MIN, 2 * HOUR),
        handle=(2 * HOUR, 24 * HOUR),
        recoat_until=(30 * MIN, 1 * HOUR),
        recoat_from=(24 * HOUR, 48 * HOUR),
        cure=(24 * HOUR, 168 * HOUR),
        minimum_temperature=10,
        needs=("spray",),
        k6="no",
        k6_note=_MIST,
        sources=("aerosol_paint_advice", "school_art_guidelines", "memory"),
    ),
    Paint(
        "aerosol_primer",
        "spray primer",
        ("aerosol primer", "spray filler"),
        dry=(10 * MIN, 30 * MIN),
        handle=(30 * MIN, 2 * HOUR),
        recoat_until=None,
        recoat_from=None,
        cure=(12 * HOUR, 48 * HOUR),
        minimum_temperature=10,
        needs=("spray",),
        k6="no",
        k6_note=_MIST,
        sources=("aerosol_paint_advice", "school_art_guidelines", "memory"),
    ),
    Paint(
        "aerosol_lacquer",
        "clear spray lacquer",
        ("clear spray", "spray varnish", "aerosol lacquer"),
        dry=(5 * MIN, 30 * MIN),
        handle=(30 * MIN, 2 * HOUR),
        recoat_until=(30 * MIN, 2 * HOUR),
        recoat_from=(24 * HOUR, 48 * HOUR),
        cure=(24 * HOUR, 48 * HOUR),
        minimum_temperature=10,
        needs=("spray",),
        k6="no",
        k6_note=_MIST,
        sources=("aerosol_paint_advice", "school_art_guidelines", "memory"),
    ),
    Paint(
        "brush_acrylic",
        "acrylic paint",
        ("acrylic", "acrylic craft paint", "brushed acrylic"),
        dry=(10 * MIN, 60 * MIN),
        handle=(30 * MIN, 4 * HOUR),
        recoat_until=None,
        recoat_from=None,
        cure=(12 * HOUR, 72 * HOUR),
        minimum_temperature=10,
        needs=("stain",),
        k6="ok",
        k6_note=_LABEL,
        sources=("common_practice",),
    ),
    Paint(
        "tempera",
        "tempera paint",
        ("poster paint", "ready mixed paint", "powder paint"),
        dry=(10 * MIN, 60 * MIN),
        handle=(30 * MIN, 2 * HOUR),
        recoat_until=None,
        recoat_from=None,
        cure=(1 * HOUR, 24 * HOUR),
        minimum_temperature=None,
        needs=(),
        k6="ok",
        k6_note="Bought ready mixed: the dust of powder paint is breathed in when it is mixed.",
        sources=("school_art_guidelines", "common_practice"),
    ),
    Paint(
        "watercolour",
        "watercolour paint",
        ("watercolor", "watercolor paint"),
        dry=(5 * MIN, 30 * MIN),
        handle=(10 * MIN, 60 * MIN),
        recoat_until=None,
        recoat_from=None,
        cure=(30 * MIN, 24 * HOUR),
        minimum_temperature=None,
        needs=(),
        k6="ok",
        k6_note=_LABEL,
        sources=("common_practice",),
    ),
    Paint(
        "brush_enamel",
        "enamel paint",
        ("enamel", "oil based enamel", "model enamel"),
        dry=(1 * HOUR, 8 * HOUR),
        handle=(6 * HOUR, 24 * HOUR),
        recoat_until=None,
        recoat_from=None,
        cure=(24 * HOUR, 168 * HOUR),
        minimum_temperature=10,
        needs=("flammable", "fumes", "stain"),
        k6="no",
        k6_note=_SOLVENT,
        sources=("school_art_guidelines", "common_practice"),
    ),
    Paint(
        "water_varnish",
        "water-based varnish",
        ("acrylic varnish", "water based varnish", "varnish"),
        dry=(20 * MIN, 2 * HOUR),
        handle=(1 * HOUR, 6 * HOUR),
        recoat_until=None,
        recoat_from=None,
        cure=(24 * HOUR, 168 * HOUR),
        minimum_temperature=10,
        needs=("stain",),
        k6="ok",
        k6_note=_LABEL,
        sources=("common_practice",),
    ),
    Paint(
        "oil_varnish",
        "oil varnish",
        ("polyurethane varnish", "solvent varnish"),
        dry=(2 * HOUR, 12 * HOUR),
        handle=(8 * HOUR, 24 * HOUR),
        recoat_until=None,
        recoat_from=None,
        cure=(72 * HOUR, 336 * HOUR),
        minimum_temperature=10,
        needs=("flammable", "fumes", "stain"),
        k6="no",
        k6_note=_SOLVENT,
        sources=("school_art_guidelines", "common_practice"),
    ),
    Paint(
        "wood_oil",
        "wood oil",
        ("oil", "oil finish", "drying oil", "linseed oil", "boiled linseed oil", "tung oil", "danish oil"),
        dry=(6 * HOUR, 72 * HOUR),
        handle=(12 * HOUR, 96 * HOUR),
        recoat_until=None,
        recoat_from=None,
        cure=(72 * HOUR, 720 * HOUR),
        minimum_temperature=10,
        needs=("oily_rags", "stain"),
        k6="ask",
        k6_note="An adult takes the oily cloths away; some oils hold solvent: read the label.",
        sources=("common_practice", "memory"),
    ),
    Paint(
        "sanding_sealer",
        "sanding sealer",
        ("balsa filler", "wood sealer"),
        dry=(10 * MIN, 60 * MIN),
        handle=(30 * MIN, 2 * HOUR),
        recoat_until=None,
        recoat_from=None,
        cure=(2 * HOUR, 24 * HOUR),
        minimum_temperature=10,
        needs=("flammable", "fumes"),
        k6="no",
        k6_note=_SOLVENT,
        sources=("school_art_guidelines", "common_practice"),
    ),
    Paint(
        "wax",
        "wax polish",
        ("beeswax polish", "paste wax"),
        dry=(5 * MIN, 30 * MIN),
        handle=(15 * MIN, 60 * MIN),
        recoat_until=None,
        recoat_from=None,
        cure=(1 * HOUR, 24 * HOUR),
        minimum_temperature=None,
        needs=("flammable",),
        k6="ask",
        k6_note="Some waxes hold solvent: read the label.",
        sources=("common_practice",),
    ),
)

_BY_NAME = {name: row for row in PAINTS for name in (row.key.replace("_", " "), *row.aka)}


def paint(key: str) -> Paint | None:
    """The kind of paint with this key or usual name ("aerosol acrylic", "poster paint"), or None."""
    return _BY_NAME.get(plain(key))
