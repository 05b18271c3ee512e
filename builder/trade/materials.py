"""Kinds of material: the forms they come in, what can hurt, how thick they usually are, what cuts them."""

from __future__ import annotations

from fractions import Fraction
from functools import lru_cache

import msgspec

from builder.trade.adhesives import adhesive
from builder.trade.match import head_words, longest
from builder.trade.paints import paint

Range = tuple[Fraction, Fraction]


class MaterialKind(msgspec.Struct, frozen=True):
    """One kind of material or bought thing.

    forms: the forms of a guide that it comes in. hazards: keys; empty means known to bring none. thickness:
    usual (low, high), mm: of a sheet or strip its thickness, of a rod or cord its diameter, of a tube its
    wall; None where no size is usual.
    """

    key: str
    match: tuple[str, ...]
    forms: tuple[str, ...]
    hazards: tuple[str, ...]
    thickness: Range | None
    sources: tuple[str, ...]


def _row(
    key: str,
    match: str,
    forms: str,
    hundredths: tuple[int, int] | None = None,
    hazards: str = "",
    source: str = "common_practice",
) -> MaterialKind:
    """A row: match names separated by commas (the key is always one), forms and hazards by spaces, mm as
    text."""
    thickness = (Fraction(hundredths[0], 100), Fraction(hundredths[1], 100)) if hundredths else None
    return MaterialKind(
        key,
        (key, *match.split(", ")) if match else (key,),
        tuple(forms.split()),
        tuple(hazards.split()),
        thickness,
        (source,),
    )


MATERIALS = (
    # Sheets
    _row(
        "paper",
        "copy paper, printer paper, writing paper, tracing paper, tissue paper, newspaper, kraft paper,"
        " brown paper, drawing paper, sugar paper, construction paper, tissue",
        "sheet strip",
        (2, 30),
    ),
    _row("poster paper", "poster sheet", "sheet strip", (15, 35)),
    _row(
        "card",
        "cardstock, card stock, index card, poster card, bristol board, manila card",
        "sheet strip",
        (20, 80),
    ),
    _row(
        "poster board",
        "railroad board, mounting board, mount board, mat board",
        "sheet",
        (30, 180),
    ),
    _row(
        "greyboard",
        "grayboard, grey board, gray board, chipboard, book board, bookbinding board, strawboard",
        "sheet strip",
        (80, 400),
    ),
    _row(
        "cardboard", "corrugated card, corrugated cardboard, box card, fluted card", "sheet strip", (100, 800)
    ),
    _row(
        "foam board",
        "foamboard, foam core, foamcore, foam sheet, expanded foam, polystyrene foam",
        "sheet",
        (200, 1300),
    ),
    _row(
        "board",
        "fin board, hardboard, stiff board, fibreboard, fiberboard, thin board",
        "sheet",
        (50, 700),
    ),
    _row("balsa", "balsa wood, balsa sheet, balsa strip", "sheet strip rod", (75, 2600)),
    _row("plywood", "ply, aircraft plywood, birch plywood", "sheet", (40, 2000), "point"),
    _row(
        "wood",
        "timber, lime wood, basswood, pine, softwood, hardwood, mdf, lath",
        "sheet strip rod",
        (100, 5000),
        "point",
    ),
    _row(
        "film",
        "plastic film, canopy film, polythene, plastic sheet, polyethylene film, clear film, mylar sheet",
        "sheet strip",
        (1, 40),
    ),
    _row(
        "acetate",
        "acetate sheet, plastic sheeting, styrene, styrene sheet, acrylic sheet, polypropylene, plastic card",
        "sheet strip",
        (10, 500),
    ),
    _row("foil", "aluminium foil, aluminum foil, kitchen foil, metal foil", "sheet strip", (1, 20)),
    _row(
        "metal sheet",
        "sheet metal, tin plate, aluminium sheet, aluminum sheet, brass sheet, copper sheet",
        "sheet strip",
        (20, 300),
        "point",
    ),
    _row("fabric", "cloth, nylon, ripstop, cotton, felt, silk, canvas", "sheet strip", (5, 500)),
    _row("sponge", "foam, foam rubber, foam strip", "sheet strip", (100, 5000)),
    # Rods, tubes, strips, cords
    _row(
        "dowel",
        "wooden rod, skewer, bamboo skewer, wooden dowel, stick, craft stick, cane, bamboo cane, rod",
        "rod strip",
        (100, 4000),
    ),
    _row(
        "wire",
        "piano wire, music wire, florist wire, copper wire, steel wire, paper clip",
        "cord rod",
        (20, 500),
        "point",
    ),
    _row("straw", "paper straw, drinking straw, plastic straw", "tube", (10, 100)),
    _row(
        "tube",
        "card tube, cardboard tube, paper tube, mailing tube, postal tube, body tube, plastic tube",
        "tube",
        (20, 600),
    ),
    _row("strip", "wood strip, card strip, batten, strip wood", "strip", (20, 3000)),
    _row(
        "thread",
        "carpet thread, sewing thread, cotton thread, button thread, fishing line, line, monofilament",
        "cord",
        (10, 150),
    ),
    _row("string", "twine, yarn, wool, cord, cotton cord, parcel string, kite line", "cord", (40, 600)),
    _row(
        "elastic",
        "flat elastic, elastic cord, shock cord, round elastic, elastic strip, sewing elastic",
        "cord strip",
        (40, 1200),
    ),
    _row("rubber band", "rubber strip, elastic band, rubber loop", "cord", (40, 600), "snap"),
    _row("chain", "bead chain, ball chain", "cord", (80, 600)),
    # Tapes
    _row(
        "tape",
        "clear tape, sticky tape, adhesive tape, packing tape, cellulose tape, cloth tape, duct tape, book"
        " tape, electrical tape, parcel tape",
        "tape strip",
        (2, 40),
    ),
    _row("masking tape", "painter's tape, low tack tape, drafting tape", "tape strip", (8, 25)),
    _row(
        "gummed tape",
        "gummed paper tape, gummed paper, water activated tape, gummed strip",
        "tape strip sheet",
        (6, 30),
    ),
    _row("double sided tape", "mounting tape, foam tape", "tape strip", (5, 300)),
    _row(
        "foil tape",
        "metal tape, aluminium tape, aluminum tape, copper tape",
        "tape strip",
        (3, 20),
        "point",
    ),
    _row("label", "sticker, sticky label, sticker sheet, hook tape, loop tape", "tape sheet", (5, 400)),
    # Small bought things
    _row(
        "screw eye",
        "eye screw, screw hook, cup hook, screw, eyelet screw, wood screw",
        "screw",
        (100, 600),
        "point",
    ),
    _row(
        "nail",
        "panel pin, tack, pin, staple, map pin, drawing pin, push pin",
        "screw clip",
        (50, 500),
        "point",
    ),
    _row(
        "bolt",
        "machine screw, nut, washer, rivet, paper fastener, brass fastener, split pin, brad, grommet, eyelet",
        "screw ring clip",
        (100, 1000),
    ),
    _row(
        "clip",
        "retaining clip, spring clip, engine hook, motor hook, hook, swivel, split ring, key ring",
        "clip ring",
        (30, 500),
    ),
    _row("bead", "wooden bead, button, ball, wooden ball, marble", "ring turned", None, "small_parts"),
    _row("magnet", "neodymium magnet, disc magnet, magnetic strip", "ring strip", None, "magnet"),
    _row("coin cell", "button cell, button battery, coin battery", "ring", None, "coin_cell"),
    _row("battery", "cell, dry cell, battery pack", "rod", None, "battery"),
    _row(
        "led",
        "lamp, bulb, light emitting diode, motor unit, electric motor, hobby motor, switch, buzzer",
        "clip rod",
    ),
    _row("balloon", "latex balloon", "turned", None, "balloon"),
    _row(
        "lens",
        "objective lens, eyepiece lens, glass lens, plastic lens, objective, eyepiece, magnifying lens",
        "turned ring",
        None,
        "sun",
    ),
    _row("mirror", "glass mirror, plastic mirror", "sheet", (10, 600), "glass"),
    _row("wheel", "wooden wheel, plastic wheel, bottle cap, pulley, bottle top, wooden disc", "ring turned"),
    _row(
        "ring",
        "card ring, curtain ring, spacer, centring ring, centering ring, thrust ring, washer ring",
        "ring",
    ),
    _row("nose cone", "nose, balsa nose cone, plastic nose cone", "turned"),
    _row("launch lug", "lug", "tube"),
    _row("clay", "modelling clay, putty, plasticine clay, air drying clay, ballast", "sheet"),
    _row(
        "wadding",
        "recovery wadding, flame resistant wadding, flameproof wadding, cotton wool, stuffing",
        "sheet",
    ),
    _row(
        "rocket motor",
        "model rocket motor, motor, engine, rocket engine",
        "rod",
        None,
        "motor",
        "national_code",
    ),
    _row("igniter", "electric match, motor starter, rocket igniter", "cord", None, "motor", "national_code"),
    _row("water", "warm water, soapy water, washing up liquid, soap, vinegar", "adhesive"),
    _row("talc", "talcum powder, baby powder, cornflour, chalk powder", "adhesive", None, "dust"),
    _row(
        "solvent",
        "methylated spirit, white spirit, acetone, paint thinner, thinner, turpentine, rubbing alcohol,"
        " isopropyl alcohol, isopropanol",
        "adhesive paint",
        None,
        "flammable fumes",
        "school_art_guidelines",
    ),
    _row("filler", "wood filler, spackle, filling paste", "adhesive paint", None, "dust"),
    _row(
        "sandpaper",
        "abrasive paper, glass paper, emery paper, wet and dry paper",
        "sheet strip",
        (10, 150),
        "dust",
    ),
    _row(
        "resin", "casting resin, polyester resin, laminating resin", "adhesive", None, "skin flammable fumes"
    ),
    _row(
        "glass cloth",
        "fibreglass, fiberglass, glass fibre, carbon fibre, carbon fiber, glass fabric",
        "sheet strip",
        (2, 100),
        "fine_dust skin",
    ),
)

FORMS = (
    "tube",
    "rod",
    "ring",
    "turned",
    "slab",
    "sheet",
    "strip",
    "cord",
    "regular polygon",
    "screw",
    "clip",
    "tape",
    "adhesive",
    "paint",
    "disc",
    "gear",
)
"""The forms that a material, a part or a tool of a guide may have."""

_BY_KEY = {row.key: row for row in MATERIALS}
_BY_PHRASE = {phrase: row for row in MATERIALS for phrase in row.match}


def material(key: str) -> MaterialKind | None:
    """The kind of material with this key, or None."""
    return _BY_KEY.get(key)


@lru_cache(maxsize=1024)
def material_kind(name: str) -> MaterialKind | None:
    """The kind of material that a name speaks of ("white poster paper" -> poster paper), or None if not
    known.

    An adhesive or a paint is looked up by its own field first (`adhesive`, `paint`); by name it is found
    here too, with the hazards of its row there.
    """
    words = head_words(name)
    found = longest(_BY_PHRASE, words)
    if found is not None:
        return found[0]
    for start in range(len(words)):
        phrase = " ".join(words[start:])
        glue = adhesive(phrase)
        if glue is not None:
            return MaterialKind(glue.key, (), ("adhesive",), glue.needs, None, glue.sources)
        coat = paint(phrase)
        if coat is not None:
            return MaterialKind(coat.key, (), ("paint",), coat.needs, None, coat.sources)
    return None
