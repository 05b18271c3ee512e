"""Kinds of tool that the trade knows by name: what can hurt, how many hands, how far it reaches, what it
cuts away."""

from __future__ import annotations

from fractions import Fraction
from functools import lru_cache

import msgspec

from builder.trade.gear import gear_kind
from builder.trade.match import head_words, longest


class ToolKind(msgspec.Struct, frozen=True):
    """One kind of tool.

    hazards: keys; an empty tuple means that it is known to bring none, by itself. two_hands: it takes both
    hands of the builder. reach: how far it reaches into a bore, mm. kerf: the width that it cuts away, mm;
    0 for a tool that parts without loss; None for what does not cut.
    """

    key: str
    match: tuple[str, ...]
    hazards: tuple[str, ...]
    two_hands: bool
    reach: Fraction | None
    kerf: Fraction | None
    sources: tuple[str, ...]


def _row(
    key: str,
    match: str = "",
    hazards: str = "",
    two_hands: bool = False,
    reach: Fraction | None = None,
    kerf: Fraction | None = None,
    source: str = "common_practice",
) -> ToolKind:
    """A row: match names separated by commas (the key is always one), hazards by spaces."""
    return ToolKind(
        key,
        (key, *match.split(", ")) if match else (key,),
        tuple(hazards.split()),
        two_hands,
        reach,
        kerf,
        (source,),
    )


_NONE = Fraction(0)

TOOLS = (
    # Marking and measuring
    _row("pencil", "lead pencil, marking pencil, crayon, chalk, white pencil"),
    _row("pen", "marker, felt pen, felt tip, fine liner, marking pen"),
    _row("permanent marker", "permanent pen, paint marker", "stain"),
    _row(
        "ruler",
        "rule, steel rule, scale rule, straightedge, straight edge, yardstick, metre stick, meter stick",
    ),
    _row("tape measure", "measuring tape, steel tape"),
    _row("calipers", "caliper, calliper, callipers, vernier"),
    _row("square", "try square, set square, triangle, combination square, right angle"),
    _row(
        "angle",
        "straight angle, aluminium angle, aluminum angle, angle stock, door frame angle, drawer channel",
    ),
    _row("protractor", "angle gauge"),
    _row("compass", "compasses, drawing compass", "point"),
    _row("dividers", "divider", "point", True),
    _row("awl", "bradawl, scriber, scribing tool, marking awl, pricker", "point"),
    _row("template", "stencil, pattern, marking strip, fin guide, guide, marking guide, gauge, spacer, shim"),
    _row("level", "spirit level, plumb line"),
    _row("scales", "balance, kitchen scales, weighing scales, postal scales"),
    _row("spring balance", "force meter, newton meter"),
    # Cutting
    _row(
        "scissors",
        "snips, paper scissors, craft scissors, shears, pinking shears",
        "scissors",
        True,
        None,
        _NONE,
    ),
    _row(
        "craft knife",
        "knife, hobby knife, utility knife, modelling knife, scalpel, blade, razor blade, cutter, box"
        " cutter, rotary cutter, snap off knife",
        "blade",
        True,
        None,
        _NONE,
    ),
    _row(
        "circle cutter", "compass cutter, disc cutter, hole cutter, disk cutter", "blade", True, None, _NONE
    ),
    _row("paper trimmer", "trimmer, guillotine, paper cutter, rotary trimmer", "blade", True, None, _NONE),
    _row(
        "hole punch",
        "punch, paper punch, leather punch, revolving punch, eyelet punch",
        "punch",
        True,
        None,
        _NONE,
    ),
    _row(
        "wire cutters",
        "wire cutter, side cutter, nipper, diagonal cutter",
        "pinch eye",
        False,
        None,
        _NONE,
    ),
    _row("tube cutter", "pipe cutter, straw cutter", "blade", True, None, _NONE),
    _row("tin snips", "metal snips, metal shears", "blade", True, None, _NONE),
    _row(
        "saw",
        "hacksaw, junior hacksaw, tenon saw, dovetail saw, coping saw, fretsaw, fret saw, razor saw, hand"
        " saw, handsaw, pull saw, backsaw",
        "blade eye",
        True,
        None,
        Fraction(1),
    ),
    _row(
        "power saw",
        "jigsaw, scroll saw, scrollsaw, band saw, bandsaw, table saw, circular saw, mitre saw, miter saw",
        "machine electric blade",
        True,
        None,
        Fraction(2),
    ),
    _row(
        "hot wire cutter",
        "hot wire, foam cutter, hot wire foam cutter, hot knife",
        "hot fumes electric",
        True,
        None,
        Fraction(1),
    ),
    _row("laser cutter", "laser engraver", "machine laser fumes", False, None, Fraction(1, 5)),
    _row("cutting mat", "mat, self healing mat, cutting board, scrap board, backing board"),
    _row("mitre box", "miter box, mitre block, bench hook, sawing block"),
    _row("chisel", "gouge, carving knife, carving tool, plane, block plane, spokeshave", "blade", True),
    # Holes
    _row("hand drill", "drill, wheel brace, push drill, brace", "point eye", True),
    _row(
        "power drill",
        "electric drill, cordless drill, pillar drill, drill press, bench drill, rotary tool",
        "machine electric point",
        True,
    ),
    _row("bit", "drill bit, twist drill, twist bit, countersink", "point eye"),
    _row("pin vice", "pin vise, pin chuck, hand chuck", "point"),
    _row("reamer", "tapered reamer", "point"),
    _row("push pin", "pin, map pin, drawing pin, thumb tack, thumbtack, dressmaker's pin, t pin", "point"),
    # Shaping
    _row(
        "sanding block",
        "sandpaper, abrasive paper, glass paper, glasspaper, emery board, sanding stick, sanding sponge,"
        " sanding board, sanding bar",
        "dust",
    ),
    _row("file", "needle file, rasp, nail file", "dust"),
    _row(
        "sander",
        "belt sander, disc sander, orbital sander, electric sander, grinder, bench grinder",
        "machine electric fine_dust",
        True,
    ),
    _row(
        "bone folder",
        "folder, scoring tool, creaser, empty ballpoint, ballpoint pen, burnisher, embossing tool",
    ),
    _row("dowel", "former, mandrel, rod, pipe, winding rod, rolling rod, steel rod, tube former, wooden rod"),
    _row("rolling pin", "roller, brayer"),
    # Glue, paint, heat
    _row(
        "brush",
        "glue brush, paint brush, paintbrush, pastry brush, foam brush, acid brush",
        reach=Fraction(100),
    ),
    _row(
        "glue spreader",
        "spreader, spatula, scraper, glue paddle, plastic card, palette knife",
        reach=Fraction(75),
    ),
    _row("glue syringe", "syringe, dropper, pipette, needle bottle, glue bottle", reach=Fraction(75)),
    _row(
        "stick",
        "craft stick, lolly stick, stirring stick, mixing stick, skewer, toothpick, cocktail stick, swab,"
        " cotton swab, cotton bud, pusher, push rod",
        reach=Fraction(100),
    ),
    _row("sponge", "damp sponge, cloth, rag, damp cloth, paper towel, tissue, wipe, towel, wet wipe"),
    _row(
        "hot glue gun",
        "glue gun, low temperature glue gun, cool melt glue gun",
        "hot electric",
        reach=Fraction(30),
    ),
    _row(
        "soldering iron",
        "soldering gun, wood burning pen, wood burner, burning pen, pyrography pen",
        "hot fumes electric",
    ),
    _row("heat gun", "hot air gun, paint stripper, embossing gun", "hot electric"),
    _row("hair dryer", "hairdryer, blow dryer, fan, desk fan", "electric"),
    _row("iron", "clothes iron, travel iron, sealing iron, covering iron", "hot electric"),
    _row("oven", "kiln, toaster oven, hot plate, hotplate, stove", "hot electric", source="memory"),
    _row(
        "candle",
        "lighter, match, burner, torch flame, blow torch, blowtorch, spirit burner, tea light",
        "flame",
    ),
    _row("palette", "tray, dish, saucer, mixing cup, cup, bowl, jar, lid, water pot, bucket, bin, box, pot"),
    _row(
        "spray booth",
        "spray box, cardboard box, drop cloth, dust sheet, newspaper, scrap paper, baking paper, wax paper",
    ),
    # Holding and fastening
    _row("clamp", "g clamp, c clamp, spring clamp, bar clamp, quick clamp", "pinch"),
    _row("vice", "vise, bench vice, bench vise, workbench", "pinch"),
    _row("clothes peg", "peg, clothespin, clip, bulldog clip, binder clip, paper clip"),
    _row("rubber band", "elastic band", "snap"),
    _row("weight", "book, heavy book, sandbag"),
    _row("jig", "fin jig, fixture, cradle, alignment jig, assembly jig, drilling jig"),
    _row(
        "stand",
        "holder, rack, rest, support, nose stand, painting stand, drying rack, prop, block, wooden block",
    ),
    _row("mask", "stencil mask, paint mask, rear mask, cover"),
    _row("plug", "front plug, stopper, cork, bung"),
    _row("motor case", "spent motor case, empty motor case, dummy motor, motor dummy, casing"),
    _row("stapler", "staple gun, tacker", "point pinch"),
    _row("needle", "sewing needle, darning needle, upholstery needle", "point"),
    _row("tape dispenser", "tape gun", "point"),
    _row("tweezers", "forceps, tongs", "point"),
    _row("pliers", "long nose pliers, needle nose pliers, combination pliers, crimper", "pinch"),
    _row("screwdriver", "hex key, nut driver, spanner, wrench, allen key", "point"),
    _row("hammer", "mallet, pin hammer, tack hammer", "strike"),
    # The rest of the bench
    _row("lamp", "torch, flashlight, desk lamp, head torch, light box"),
    _row("magnifier", "magnifying glass, loupe, hand lens", "focus"),
    _row("timer", "stopwatch, clock, watch, kitchen timer"),
    _row("thermometer", "room thermometer"),
    _row("calculator"),
    _row("printer", "copier, photocopier"),
    _row("vacuum cleaner", "vacuum, dust extractor, shop vacuum", "electric"),
    _row("ladder", "step ladder, stepladder, step stool", "heavy"),
)

MODIFIERS: dict[str, tuple[str, ...]] = {
    "hot": ("hot",),
    "heated": ("hot",),
    "burning": ("hot",),
    "electric": ("electric",),
    "mains": ("electric",),
    "power": ("machine", "electric"),
    "powered": ("machine",),
    "cordless": ("machine",),
    "laser": ("laser",),
    "sharp": ("blade",),
    "glass": ("glass",),
}
"""Words before a tool's name that add to its hazards: a hot knife is more than a knife."""

GEAR_TOOL = ToolKind("gear", (), (), False, None, None, ("common_practice",))
"""What `tool_kind` answers for protective gear: a thing of no hazard."""

_BY_KEY = {row.key: row for row in TOOLS}
_BY_PHRASE = {phrase: row for row in TOOLS for phrase in row.match}


def tool(key: str) -> ToolKind | None:
    """The kind of tool with this key, or None."""
    return _BY_KEY.get(key)


@lru_cache(maxsize=1024)
def tool_kind(name: str) -> ToolKind | None:
    """The kind of tool that a name speaks of, by its last noun phrase, the longest match winning; None if
    not known.

    "fin jig" is a jig, "1/16 in bit in a pin vice" a bit, "hand drill with a 6 mm bit" a hand drill. A
    modifier (hot, electric, power ...) that the matched name does not hold adds its hazards.
    """
    words = head_words(name)
    if gear_kind(name) is not None:
        return GEAR_TOOL
    match = longest(_BY_PHRASE, words)
    if match is None:
        return None
    found, before = match
    extra = tuple(
        key for word in words[:before] for key in MODIFIERS.get(word, ()) if key not in found.hazards
    )
    if not extra:
        return found
    return ToolKind(
        found.key,
        found.match,
        found.hazards + tuple(dict.fromkeys(extra)),
        found.two_hands,
        found.reach,
        found.kerf,
        found.sources,
    )
