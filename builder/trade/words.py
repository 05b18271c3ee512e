"""Words that the checks and the wording need: counting words, units, commands, directions, plurals, articles.

English, plain tables. The functions only look things up and apply the usual endings.
"""

from __future__ import annotations

from fractions import Fraction

WORD_SOURCES = ("common_practice",)  # every table of this module: ordinary English, no source

_TO_TWENTY = """
    zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen
    seventeen eighteen nineteen twenty
"""

NUMBER_WORDS: dict[str, Fraction] = {
    word: Fraction(value) for value, word in enumerate(_TO_TWENTY.split())
} | {
    "thirty": Fraction(30),
    "forty": Fraction(40),
    "fifty": Fraction(50),
    "sixty": Fraction(60),
    "seventy": Fraction(70),
    "eighty": Fraction(80),
    "ninety": Fraction(90),
    "hundred": Fraction(100),
    "thousand": Fraction(1000),
    "dozen": Fraction(12),
    "half": Fraction(1, 2),
    "halves": Fraction(1, 2),
    "quarter": Fraction(1, 4),
    "quarters": Fraction(1, 4),
    "third": Fraction(1, 3),
    "thirds": Fraction(1, 3),
    "eighths": Fraction(1, 8),
    "sixteenth": Fraction(1, 16),
    "sixteenths": Fraction(1, 16),
    "once": Fraction(1),
    "twice": Fraction(2),
    "thrice": Fraction(3),
    "double": Fraction(2),
    "triple": Fraction(3),
    "pair": Fraction(2),
    "both": Fraction(2),
    "couple": Fraction(2),
}
"""Counting words and what they count. "third" and "second" are also ordinals: see ORDINALS."""

_ORDINALS = (
    "first second third fourth fifth sixth seventh eighth ninth tenth eleventh twelfth last next other"
)

ORDINALS = tuple(_ORDINALS.split())
"""Words of order, which may stand where counting words may not."""

_UNITS = """
    in inch inches ft foot feet yd yard yards mil mils mm millimetre millimetres millimeter millimeters
    cm centimetre centimetres centimeter centimeters m metre metres meter meters s sec secs second
    seconds min mins minute minutes h hr hrs hour hours d day days week weeks overnight g gram grams
    gramme grammes kg kilogram kilograms oz ounce ounces lb lbs pound pounds ml millilitre millilitres
    milliliter milliliters l litre litres liter liters cup cups pint pints quart quarts gallon gallons
    teaspoon teaspoons tsp tablespoon tablespoons tbsp deg degree degrees percent
"""

UNIT_WORDS = frozenset(_UNITS.split())
"""Words that name a unit of length, time, mass, volume or angle, lower case."""

_COMMANDS = """
    add adjust aim align allow apply arrange ask assemble attach balance begin bend bind blot blow bow
    break bring brush build burnish call cap carry catch center centre change charge check choose clamp
    clean clear clip close coat coil collect color colour connect continue cool copy count cover crease
    cross crush cut dab damp dampen decide dip discard do drag draw drill drive drop dry dust ease empty
    ensure erase extend fasten feed file fill find finish fit fix flatten flip fold follow form gather
    get give glue go grip gum hammer hand hang have heat hold hook insert inspect iron join keep knock
    knot label lace launch lay leave let level lift light line load lock look loop loosen lower make
    mark mask match measure melt mix moisten mount move nip note nudge number open pack paint park pass
    paste peel pick pierce pin pinch place plan plug point poke polish position pour press prick prime
    pull punch push put raise reach read record release remember remove repeat replace rest return reuse
    rinse roll rotate rub ruffle run sand save saw score scrape screw seal secure see select send
    separate set sew shake shape share sharpen shave shift shine show shut sketch skip slice slide slip
    slit slot smear smooth snap snip soak solder sort speak spin splice split spray spread sprinkle
    squeeze stack stand staple start stay steady stick stir stop store straighten stretch strip stroke
    swap sweep swing tack take tap tape taper tear tell test thread throw tie tighten tilt top touch
    trace transfer trim try tuck turn twist undo unfold unplug unroll unscrew untie use verify wait warm
    wash watch wear weigh wet whittle wind wipe work wrap write
"""

IMPERATIVES = tuple(_COMMANDS.split())
"""Verbs that a builder may be told, in the form of a command, sorted."""

VAGUE_AMOUNTS = (
    "a bit",
    "a couple",
    "a dab",
    "a dollop",
    "a drop",
    "a few",
    "a little",
    "a lot",
    "a moment",
    "a while",
    "about",
    "almost",
    "approximately",
    "around about",
    "as necessary",
    "as needed",
    "as required",
    "enough",
    "generous",
    "generously",
    "large enough",
    "liberally",
    "lots",
    "more or less",
    "nearly",
    "plenty",
    "roughly",
    "several",
    "slightly",
    "small amount",
    "some",
    "somewhat",
    "sparingly",
    "until ready",
    "various",
)
"""Amounts that tell a builder nothing to measure, sorted."""

DIRECTION_WORDS = (
    ("front", "rear", "back", "forward", "backward"),
    ("inside", "outside", "inner", "outer"),
    ("left", "right"),
    ("on", "off"),
    ("in", "out"),
    ("into", "out of"),
    ("top", "under", "bottom", "underside", "upper", "lower"),
    ("up", "down", "upward", "downward"),
    ("above", "below"),
    ("tip", "base"),
    ("head", "foot"),
    ("root", "tip"),
    ("clockwise", "anticlockwise", "counterclockwise"),
    ("start", "end"),
    ("near", "far"),
    ("towards", "away from"),
    ("before", "after"),
    ("lengthwise", "crosswise"),
    ("along", "across", "around"),
    ("horizontal", "vertical"),
)
"""Groups of words of which a sentence's own must be the action's own: swapping one for another turns it
about."""

IRREGULAR_PLURALS: dict[str, str] = {
    "axis": "axes",
    "calf": "calves",
    "canvas": "canvases",
    "chassis": "chassis",
    "child": "children",
    "datum": "datums",
    "die": "dies",
    "foot": "feet",
    "forceps": "forceps",
    "goggles": "goggles",
    "half": "halves",
    "head": "heads",
    "knife": "knives",
    "leaf": "leaves",
    "lens": "lenses",
    "loaf": "loaves",
    "man": "men",
    "means": "means",
    "pliers": "pliers",
    "radius": "radii",
    "scarf": "scarves",
    "scissors": "scissors",
    "series": "series",
    "shears": "shears",
    "shelf": "shelves",
    "snips": "snips",
    "tongs": "tongs",
    "tooth": "teeth",
    "tweezers": "tweezers",
    "vertex": "vertices",
    "wife": "wives",
    "wolf": "wolves",
    "woman": "women",
}
"""Nouns whose plural follows no rule, or that have only a plural."""

PLURAL_ONLY = tuple(sorted(one for one, many in IRREGULAR_PLURALS.items() if one == many))
"""Nouns that take no "a" and do not change: scissors, pliers, goggles."""

_MASS = """
    balsa board card cardboard cord elastic film foam foil glue greyboard paint paper paste plastic
    sandpaper string tape thread twine varnish wadding water wax wire wood wool
"""

MASS_NOUNS = tuple(_MASS.split())
"""Materials spoken of without "a": "cut the paper", "some paper"."""

AN_BEFORE = ("heir", "honest", "honour", "honor", "hour", "unim", "unin", "x")
"""Beginnings, besides a vowel, that take "an"."""

A_BEFORE = ("eu", "ewe", "one", "once", "uni", "use", "used", "usu", "ut", "u shaped", "u bolt")
"""Beginnings with a vowel letter that take "a"."""

AN_NUMBERS = ("11", "18")
"""Numbers, besides those that begin with 8, that are read with a vowel first, alone or as thousands or
millions."""

WARNING_WORDS = (
    "be careful",
    "beware",
    "burn",
    "burns",
    "careful",
    "carefully",
    "caution",
    "cuts you",
    "danger",
    "dangerous",
    "do not breathe",
    "do not look",
    "do not touch",
    "electric shock",
    "explode",
    "eye protection",
    "fire",
    "flammable",
    "fumes",
    "goggles",
    "harmful",
    "hazard",
    "hazardous",
    "hot",
    "hurt",
    "hurts",
    "injure",
    "injury",
    "irritant",
    "keep away from",
    "keep clear of",
    "keep your fingers",
    "mind your fingers",
    "never point",
    "never touch",
    "poison",
    "poisonous",
    "risk",
    "safety",
    "sharp",
    "swallow",
    "take care",
    "toxic",
    "unsafe",
    "ventilate",
    "ventilated",
    "warning",
    "watch your fingers",
)
"""Words that show a warning hidden in a note, sorted; each stands as a whole word or words."""


def plural(noun: str) -> str:
    """The plural of a noun phrase: its last word is turned ("fin line" -> "fin lines", "craft knife" ->
    "craft knives")."""
    before, _, word = noun.rpartition(" ")
    return f"{before} {_plural_word(word)}" if before else _plural_word(word)


def _plural_word(word: str) -> str:
    if word in IRREGULAR_PLURALS:
        return IRREGULAR_PLURALS[word]
    if word.endswith(("s", "x", "z", "ch", "sh")):
        return word + "es"
    if word.endswith("y") and word[-2:-1] not in tuple("aeiou"):
        return word[:-1] + "ies"
    return word + "s"


_SINGULARS = {many: one for one, many in IRREGULAR_PLURALS.items()}


def singular(word: str) -> str:
    """The singular of one word, as far as the usual endings tell; a word that is no plural comes back as it
    is."""
    if word in _SINGULARS:
        return _SINGULARS[word]
    if word in IRREGULAR_PLURALS or len(word) < 4 or word.endswith(("ss", "us", "is")):
        return word
    if word.endswith("ies"):
        return word[:-3] + "y"
    if word.endswith(("sses", "xes", "zes", "ches", "shes")):
        return word[:-2]
    return word[:-1] if word.endswith("s") else word


def article(phrase: str) -> str:
    """ "a" or "an" before a phrase, by how its first word or number is read."""
    text = phrase.lower()
    if text[:1].isdigit():
        number = text.split()[0].split("/")[0].split(".")[0].replace(",", "")
        spoken = number[:2] if len(number) % 3 == 2 else ""
        return "an" if number.startswith("8") or spoken in AN_NUMBERS else "a"
    first = text.replace("-", " ")
    if any(first.startswith(start) for start in AN_BEFORE if len(start) > 1) or first.split()[:1] == ["x"]:
        return "an"
    if first.startswith(A_BEFORE):
        return "a"
    return "an" if first[:1] in ("a", "e", "i", "o", "u") else "a"
