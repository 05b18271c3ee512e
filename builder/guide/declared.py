"""Every field of a guide that is not a field of an action, declared once.

Actions declare theirs beside what they do (`dryrun/kinds/`). The manual, the schema and the reader all
read these rows.
"""

from __future__ import annotations

from builder.guide.fields import Field, Holds
from builder.quantities.units import Dimension
from builder.trade.ends import ENDS

L = Dimension.LENGTH
T = Dimension.TIME

GUIDE = (
    Field("title", Holds.TEXT, "The name of the guide.", "Wind cart", required=True),
    Field("revision", Holds.NESTED, "Which revision this is.", "{number: 1, dated: 2026-11-02}", inner=(
        Field("number", Holds.TEXT, "Counts from one.", "1", required=True),
        Field("dated", Holds.TEXT, "Year, month, day.", "2026-11-02", required=True),
        Field("by", Holds.TEXT, "Who made it.", "Tannerfield Workshop"),
        Field("summary", Holds.TEXT, "What changed.", "First edition."),
    )),
    Field("audience", Holds.NESTED, "Who builds it.", "{ages: 12-15, reading grade: 7}", inner=(
        Field("ages", Holds.TEXT, "Youngest and oldest.", "12-15"),
        Field("reading grade", Holds.TEXT, "The school grade that the words are meant for.", "7"),
    )),
    Field("units", Holds.NESTED, "The units, and how finely what is measured off is rounded.",
          "{first: in, second: mm, finest: 1/16 in}", required=True, inner=(
        Field("first", Holds.WORD, "The unit shown first.", "in", words=("in", "mm", "cm"), required=True),
        Field("second", Holds.WORD, "The unit in brackets.", "mm", words=("in", "mm", "cm"), required=True),
        Field("finest", Holds.NUMBER, "The smallest step of the ruler.", "1/16 in", L, required=True),
    )),
    Field("cut tolerance", Holds.TOLERANCE, "How exactly a cut without its own tolerance is made.",
          "± 1/32 in", L),
    Field("choices", Holds.SPECIAL, "The choices and their options, with the names that a reader sees.",
          "{fin_alignment: {jig: with the jig, marks: without a jig}}"),
    Field("dimensions", Holds.SPECIAL, "Numbers that several things share; a reason may stand with each.",
          "{play: {is: 0.020 in, why: slides by hand}}"),
    Field("materials", Holds.SPECIAL, "What is used up.", "{card: {form: sheet, size: 210 mm x 297 mm}}"),
    Field("tools", Holds.SPECIAL, "What comes back.", "{ruler: {name: ruler}}"),
    Field("parts", Holds.SPECIAL, "What the kit is made of.",
          "{mast: {form: rod, of: dowel, length: 250 mm}}"),
    Field("cautions", Holds.SPECIAL, "Cautions of this guide, by id, to be named in a step.",
          "{sun: {level: warning, hazard: ..., consequence: ..., avoidance: ...}}"),
    Field("terms", Holds.SPECIAL,
          "Words that this guide explains, and the words that it never uses for them.",
          "{canopy: {means: The sheet that slows the fall., never: [parachute]}}"),
    Field("steps", Holds.SPECIAL, "The steps, in order.", "[{id: flat, title: Cut the deck, actions: []}]",
          required=True),
    Field("finished", Holds.NESTED, "The one end product.", "{is: body, holds: all}", inner=(
        Field("is", Holds.THING, "The part that all others end up on.", "body", sort="part", required=True),
        Field("holds", Holds.THINGS, "`all`, or the parts that it holds.", "all"),
        Field("left over", Holds.THINGS, "Parts that are left over on purpose.", "[gauge]"),
    )),
    Field("accepted", Holds.SPECIAL, "Findings that stay, each with its reason, for the reviewer to read.",
          "[{check: label-times, at: pva, why: We asked the maker., facts: 1a2b3c4d}]", inner=(
        Field("check", Holds.TEXT, "The name of the check, as the finding shows it.", "label-times",
              required=True),
        Field("at", Holds.TEXT, "Where: the id of a step or a thing, or the name of a number.", "pva",
              required=True),
        Field("why", Holds.TEXT, "Why the finding may stay.", "We asked the maker.", required=True),
        Field("facts", Holds.TEXT, "The sign of what was accepted, which `kitwright check` tells; it "
              "lapses when the finding changes.", "1a2b3c4d"),
    )),
    Field("signed", Holds.SPECIAL,
          "Who answers for a revision that guards less than the one before, and why.",
          "[{name: A. Brook, role: teacher, reason: Timed in class., content: 1a2b3c4d}]", inner=(
        Field("name", Holds.TEXT, "Who signs.", "A. Brook", required=True),
        Field("role", Holds.TEXT, "As what.", "teacher", required=True),
        Field("reason", Holds.TEXT, "Why less will do.", "Timed with a class, three times.", required=True),
        Field("content", Holds.TEXT,
              "The sign of what is signed, which `kitwright seal` tells; the signature "
              "is void when that changes.", "1a2b3c4d", required=True),
    )),
    Field("overview", Holds.TEXT, "The Markdown file of the overview.", "overview.md"),
    Field("science", Holds.TEXT, "The Markdown file of the science page.", "science.md"),
)  # fmt: skip

TERM = (
    Field("means", Holds.TEXT, "What it is, for the glossary.", "The sheet that slows the fall."),
    Field("never", Holds.WORDS, "Other words for it, which no text of the guide may use.", "[parachute]"),
)

DIMENSION = (
    Field("is", Holds.NUMBER, "The number.", "0.020 in", required=True),
    Field("why", Holds.TEXT, "Why it is this number.", "slides by hand"),
)

SOLD = (
    Field("pack", Holds.COUNT, "How many come in a pack.", "50", required=True),
    Field("price", Holds.NUMBER, "The price of a pack.", "21.00 USD", Dimension.MONEY),
)

LABEL = (
    Field("working time", Holds.NUMBER, "How long it may stay open before the parts meet; of a range, "
          "the shorter time counts.", "5 min", T),
    Field("tack", Holds.NUMBER, "Until it holds by itself.", "2 min", T),
    Field("set", Holds.NUMBER, "Until the parts can be handled; of a range (`20-30 min`), "
          "the longer time counts.", "30 min", T),
    Field("full cure", Holds.NUMBER, "Until it bears its load.", "24 h", T),
    Field("dry", Holds.NUMBER, "Until a coat is dry to the touch.", "30 min", T),
    Field("recoat", Holds.WINDOW, "When the next coat may go on.", "up to 1 h or from 48 h"),
)

NAME = Field("name", Holds.TEXT, "What a reader sees; by default the id with spaces.", "white PVA glue")
HAZARDS = Field("hazards", Holds.WORDS, "What it can do to a person, by key; `[]` for none.", "[blade]")
GRAIN = Field("grain", Holds.TEXT, "Which way its grain runs: `along length`, `along width`, or from an edge "
              "to the one opposite. Of a part it says how it has to run: a cut then lays it so on its stock.",
              "root to tip")

MATERIAL_FORMS = (
    "sheet", "strip", "cord", "rod", "tube", "tape", "wadding", "piece", "adhesive", "paint",
)  # fmt: skip
MATERIAL = (
    NAME,
    Field("form", Holds.WORD, "What kind of stock it is.", "sheet", words=MATERIAL_FORMS, required=True),
    Field("size", Holds.SIZE, "The size of one sheet.", "14 in x 22 in"),
    Field("thickness", Holds.NUMBER, "The thickness of a sheet.", "0.010 in", L),
    Field("length", Holds.NUMBER, "The length of one piece of stock.", "11 ft", L),
    Field("width", Holds.NUMBER, "The width of a strip or a tape.", "3/4 in", L),
    GRAIN,
    Field("diameter", Holds.NUMBER, "The diameter of a rod.", "4 mm", L),
    Field("outside", Holds.NUMBER, "The outside diameter of a tube.", "6 mm", L),
    Field("inside", Holds.NUMBER, "The inside diameter of a tube.", "4.5 mm", L),
    Field("adhesive", Holds.TEXT, "The kind of adhesive, as the trade knows it.", "pva"),
    Field("paint", Holds.TEXT, "The kind of paint, as the trade knows it.", "aerosol acrylic"),
    Field("label", Holds.NESTED, "The times on its label.", "{working time: 5 min, set: 30 min}",
          inner=LABEL),
    Field("amount", Holds.NUMBER, "How much of it is needed; a length, a volume, a mass or a count.",
          "20 mL"),
    Field("count", Holds.COUNT, "How many pieces of stock.", "2"),
    Field("per", Holds.PER, "Who shares it.", "3 builders"),
    Field("sold", Holds.NESTED, "How it is sold.", "{pack: 50, price: 21.00 USD}", inner=SOLD),
    HAZARDS,
)

TOOL = (
    NAME,
    Field("form", Holds.WORD, "Its solid, where it takes part in the build; `gear` for protective gear.",
          "rod", words=("rod", "tube", "ring", "disc", "strip", "slab", "gear")),
    Field("diameter", Holds.NUMBER, "The diameter of a rod, a bit or a disc.", "1 1/4 in", L),
    Field("length", Holds.NUMBER, "Its length.", "14 in", L),
    Field("width", Holds.NUMBER, "The width of a strip.", "1 in", L),
    Field("inside", Holds.NUMBER, "The bore of a ring or a tube.", "1.360 in", L),
    Field("outside", Holds.NUMBER, "The outside diameter of a ring or a tube.", "6 1/2 in", L),
    Field("wall", Holds.NUMBER, "The wall of a tube.", "1/32 in", L),
    Field("reach", Holds.NUMBER, "How far it reaches into a hole.", "7 in", L),
    Field("cuts away", Holds.NUMBER, "The width that its cut turns to dust (or `nothing`).", "1 mm", L),
    Field("cuts to", Holds.TOLERANCE, "How exactly it cuts.", "± 0.005 in", L),
    Field("one per", Holds.PER, "How many builders share one.", "4 builders"),
    Field("who", Holds.TEXT, "Who handles it.", "teacher"),
    Field("made by", Holds.TEXT, "Who makes it, in a preparation stage.", "teacher"),
    Field("of", Holds.THING, "The material that it is cut from.", "foam", sort="material"),
    Field("pattern", Holds.TEXT, "The printed pattern that it is cut along.", "fin_jig"),
    Field("printed", Holds.YES, "It is cut out of the printed pattern.", "yes"),
    Field("slots", Holds.THING, "The part that its slots let through.", "fin", sort="part"),
    Field("play", Holds.NUMBER, "The play of its slots.", "0.020 in", L),
    Field("comes off towards", Holds.TEXT, "The end over which it leaves.", "rear", words=ENDS),
    Field("count", Holds.COUNT, "How many.", "1"),
    HAZARDS,
)  # fmt: skip

PART_FORMS = (
    "tube", "rod", "ring", "turned", "slab", "sheet", "strip", "cord", "regular polygon", "screw", "clip",
    "disc",
)  # fmt: skip
PART = (
    NAME,
    Field("form", Holds.WORD, "Its solid.", "tube", words=PART_FORMS),
    Field("like", Holds.THING, "Another part that it copies; what is written here comes on top.",
          "rear_ring", sort="part"),
    Field("count", Holds.COUNT, "How many copies.", "4"),
    Field("source", Holds.WORD, "Where it comes from, if it is not made here.", "bought",
          words=("bought", "found")),
    Field("made by", Holds.TEXT, "Who makes it, in a preparation stage.", "teacher"),
    Field("of", Holds.THING, "The material that it is cut from.", "board", sort="material"),
    Field("pattern", Holds.TEXT, "The printed pattern that it is cut along.", "fin"),
    Field("rolled", Holds.NESTED, "How a tube is rolled: wall, outside and blank follow.",
          "{of: paper, around: dowel, turns: 4, overlap: 1/4 in}", inner=(
        Field("of", Holds.THING, "The sheet that it is rolled from.", "paper", sort="material",
              required=True),
        Field("around", Holds.THING, "The former.", "dowel", sort="tool", required=True),
        Field("turns", Holds.COUNT, "How many layers.", "4", required=True),
        Field("overlap", Holds.NUMBER, "How far the last turn laps over.", "1/4 in", L),
    )),
    Field("length", Holds.NUMBER, "The length along its axis.", "12 1/2 in ± 1/32 in", L),
    Field("width", Holds.NUMBER, "The width of a flat part.", "1 in", L),
    Field("thickness", Holds.NUMBER, "The thickness of a flat part.", "3 mm", L),
    Field("diameter", Holds.NUMBER, "The diameter of a rod, a disc or a screw.", "4 mm", L),
    Field("outside", Holds.NUMBER, "The outside diameter.", "50 mm", L),
    Field("inside", Holds.NUMBER, "The inside diameter.", "3.9 mm", L),
    Field("wall", Holds.NUMBER, "The thickness of the wall.", "1/16 in", L),
    Field("size", Holds.SIZE, "The size of a flat piece, along by across.", "3 in x 1 in"),
    Field("folds to", Holds.SIZE, "The size once folded.", "1 in x 1 in"),
    Field("knots take", Holds.SPECIAL, "The length that each end's knot takes, inside the length.",
          "1 in each end"),
    GRAIN,
    Field("sides", Holds.COUNT, "The sides of a regular polygon.", "8"),
    Field("across flats", Holds.NUMBER, "The width of a regular polygon from side to side.", "12 in", L),
    Field("across corners", Holds.NUMBER, "The width of a regular polygon from corner to corner.", "12 in",
          L),
    Field("zones", Holds.SPECIAL, "Named stretches; each chain sums to the length.",
          "{outside from rear: [tail: 1/4 in, seat: ring.length]}"),
    Field("diameters", Holds.SPECIAL, "One diameter or a taper for each zone of a turned part.",
          "{cone: 0 in to 1.33 in, shoulder: 1.235 in}"),
    Field("outline", Holds.SPECIAL, "The outline of a flat part.", "{rectangle: 200 mm x 120 mm}"),
    Field("holes", Holds.SPECIAL, "Named holes of a flat part.",
          "{low: 20 mm from bottom and 90 mm from left}"),
    Field("slots", Holds.THING, "The part that its slots let through.", "fin", sort="part"),
    Field("play", Holds.NUMBER, "The play of its slots.", "0.020 in", L),
    Field("hand", Holds.WORD, "Which hand it is, where a left and a right one differ.", "left",
          words=("left", "right")),
    Field("mirror of", Holds.THING, "The part of the other hand, whose outline it mirrors.", "left_wing",
          sort="part"),
    Field("way round", Holds.TEXT, "How it goes in, where it would go in the other way round too.",
          "the slot over the clip"),
    Field("told by", Holds.TEXT, "What tells it from a part that looks nearly the same.", "a pencilled F"),
    Field("clear way", Holds.NUMBER, "A rod of this size must pass straight through and past all else.",
          "1/8 in", L),
    Field("printed", Holds.YES, "It is cut out of the printed pattern.", "yes"),
    Field("sold", Holds.NESTED, "How it is sold.", "{pack: 50, price: 21.00 USD}", inner=SOLD),
    HAZARDS,
)  # fmt: skip

OUTLINE = (
    Field("rectangle", Holds.SIZE, "Along by across.", "200 mm x 120 mm"),
    Field("edges", Holds.WORDS, "The names of its edges in turn.", "[left, front, right, back]"),
    Field("along", Holds.TEXT, "Which way is lengthwise.", "front to back"),
    Field("root", Holds.NUMBER, "A fin's edge on the body.", "2 1/4 in", L),
    Field("tip", Holds.NUMBER, "A fin's outer edge.", "1 1/4 in", L),
    Field("span", Holds.NUMBER, "From root to tip.", "2 in", L),
    Field("square edge", Holds.TEXT, "The edge of a fin that stands square on the root.", "rear"),
    Field("sweep", Holds.NUMBER, "How far the tip's front lies behind the root's front.", "1 in", L),
    Field("disc", Holds.NUMBER, "The diameter of a disc.", "2 in", L),
    Field("points", Holds.SPECIAL, "Corners in turn, along and across.",
          "[[0 mm, 0 mm], [40 mm, 0 mm], [20 mm, 30 mm]]"),
)

CAUTION = (
    Field("level", Holds.WORD, "How bad it can be.", "warning",
          words=("danger", "warning", "caution", "notice"),
          required=True),
    Field("hazard", Holds.TEXT, "What it is.", "The sun is bright enough to burn the eye.", required=True),
    Field("consequence", Holds.TEXT, "What it does.", "You could lose your sight.", required=True),
    Field("avoidance", Holds.TEXT, "How to keep out of its way.", "Never point the tube at the sun.",
          required=True),
    Field("covers", Holds.TEXT, "The key of the hazard that it covers.", "sun"),
    Field("gear", Holds.WORDS, "The protective gear that it asks for.", "[eye protection]"),
    Field("source", Holds.TEXT, "Where it comes from.", "common practice"),
)  # fmt: skip

STAGE = (
    Field("stage", Holds.TEXT, "The name of the stage.", "Fins", required=True),
    Field("makes", Holds.NEW, "The sub-assembly that it ends with.", "motor_mount"),
    Field("base", Holds.THING, "The part that it is built on.", "body", sort="part"),
    Field("lying", Holds.TEXT, "How the work lies.", "deck under face up"),
    Field("who", Holds.TEXT, "Who does it.", "teacher"),
    Field("per", Holds.PER, "`class` for a preparation stage.", "class"),
    Field("time", Holds.NUMBER, "Its minutes of work, if they are stated: the sum of its steps.", "40 min",
          T),
)

STEP = (
    Field("id", Holds.NEW, "Its lasting name.", "seat_lens", required=True),
    Field("title", Holds.PROSE, "What the builder does.", "Seat the front lens", required=True),
    Field("time", Holds.TIME, "Minutes of work; a preparation has a set-up and a time for each.", "6 min",
          inner=(
        Field("set up", Holds.NUMBER, "Once, before the first.", "10 min", T),
        Field("each", Holds.NUMBER, "For each that is made.", "2 min", T),
    )),
    Field("who", Holds.TEXT, "Who helps or does it.", "adult helps"),
    Field("why", Holds.PROSE, "Why it is done.", "So that the line stays straight."),
    Field("optional", Holds.YES, "It may be left out.", "yes"),
    Field("critical", Holds.YES, "What it places has to be verified before it is out of reach.", "yes"),
    Field("cautions", Holds.SPECIAL,
          "Cautions on top of the computed ones, by id (the guide's or the trade's) or whole.", "[sun]"),
    Field("without caution", Holds.SPECIAL, "A computed caution that is left out, and why.",
          "{caution: blade, why: the blade is covered}", inner=(
        Field("caution", Holds.TEXT, "The key of the hazard.", "blade", required=True),
        Field("why", Holds.TEXT, "The reason, which is printed for the reviewer.", "the blade is covered"),
    )),
    Field("picture", Holds.TEXT, "A picture for what no drawing shows.", "grip.png"),
    Field("alt", Holds.TEXT, "What the picture shows, in words.", "Two fingers hold the ring."),
    Field("actions", Holds.SPECIAL, "What is done, in order.", "[{wait for: body, until: set}]",
          required=True),
)  # fmt: skip

USE = (
    Field("use", Holds.TEXT, "A shared step of guides/common/.", "roll_tube", required=True),
    Field("as", Holds.NEW, "The prefix of its steps' ids.", "body", required=True),
    Field("with", Holds.SPECIAL, "What its parameters stand for.", "{tube: body, dowel: rod}"),
)

SHARED = (
    Field("shared", Holds.TEXT, "The name by which guides use it.", "roll_tube"),
    Field("takes", Holds.SPECIAL, "Its parameters, each with the kind of thing that it stands for.",
          "{tube: part, dowel: tool, glue: material}"),
    Field("steps", Holds.SPECIAL, "Its steps.", "[{id: roll, title: 'Roll the {tube}', actions: []}]"),
    Field("cautions", Holds.SPECIAL, "Cautions that any guide may name.",
          "{sun: {level: danger, hazard: ..., consequence: ..., avoidance: ...}}"),
    Field("verbs", Holds.SPECIAL, "Verbs of your own: other words for what a verb of the tool does.",
          "{press: {stands for: slide, about: A part goes on by force., doing: pressing}}"),
)

VERB = (
    Field("stands for", Holds.TEXT, "The verb of the tool that it is at the bench.", "slide", required=True),
    Field("about", Holds.TEXT, "What it does, for the manual and for editors.",
          "A part goes over another by force and stays where it is pressed to.", required=True),
    Field("doing", Holds.TEXT, "Its word as findings say it.", "pressing", required=True),
    Field("sentence", Holds.TEXT, "How it is told; without it, as the verb that it stands for, with its own "
          "word first. Fields that it leaves out follow at the end.", "'press {what} {over} {from} {to}'"),
    Field("says", Holds.WORDS, "Other words by which a `say` may tell it.", "[push, force]"),
    Field("brings", Holds.SPECIAL, "Fields that an action with it has without writing them.", "{fit: tight}"),
)

ENTRY_WORDS = ("stage", "use", "choose")
NOTE_WORDS = ("note", "tip", "why")

# Fields that any action may carry besides its kind's own.
EVERY_ACTION = (
    Field("say", Holds.PROSE, "The writer's own sentence for this one action.",
          "Run {with} round the {glue}."),
    Field("takes", Holds.NUMBER, "How long this action takes, out of the step's time.", "4 min", T),
    Field("told above", Holds.YES, "The sentence before tells this action too.", "yes"),
    Field("gently", Holds.SPECIAL, "Joints that bear this gently, and why.",
          "{joints: [fin], why: the jig holds it}", inner=(
        Field("joints", Holds.THINGS, "The parts whose joints are meant.", "[fin]", sort="part",
              required=True),
        Field("why", Holds.TEXT, "The reason, which is printed for the reviewer.", "the jig holds it",
              required=True),
    )),
)  # fmt: skip

REPEAT = (
    Field("repeat", Holds.THING, "The part whose copies are taken in turn.", "fin", sort="part",
          required=True),
    Field("around", Holds.TEXT, "The host that they go round, evenly.", "body"),
    Field("at", Holds.PLACES, "One place for each copy.", "[front_axle, back_axle]"),
    Field("actions", Holds.SPECIAL, "What is done for each copy.", "[]", required=True),
)
