"""Tools, gear and materials are known by name, and the usual tools of a verb serve (common practice)."""

from __future__ import annotations

import pytest

from builder.trade.gear import GEAR, gear, gear_kind
from builder.trade.match import head_words
from builder.trade.materials import MATERIALS, material, material_kind
from builder.trade.tools import GEAR_TOOL, TOOLS, tool, tool_kind
from builder.trade.usual import told_hazards, usual, verb_hazards
from builder.trade.words import PLURAL_ONLY, plural


@pytest.mark.parametrize(
    ("name", "words"),
    [
        ("1/16 in bit in a pin vice", "1/16 in bit"),
        ("hand drill with a 6 mm bit", "hand drill"),
        ("brush no. 4", "brush"),
        ("brush, size 4", "brush"),
        ("pair of scissors", "scissors"),
        ("Craft-knife (one each)", "craft knife"),
        ("roll of masking tape", "masking tape"),
        ("paper of any colour", "paper"),
        ("ruler 30 cm", "ruler"),
        ("", ""),
        ("of", "of"),
        (" of ", "of"),
        ("()", ""),
    ],
)
def test_the_noun_phrase_of_a_name(name: str, words: str) -> None:
    assert " ".join(head_words(name)) == words


@pytest.mark.parametrize(
    ("name", "key", "hazards"),
    [
        ("pencil", "pencil", ()),
        ("ruler", "ruler", ()),
        ("glue brush", "brush", ()),
        ("scissors", "scissors", ("scissors",)),
        ("pair of scissors", "scissors", ("scissors",)),
        ("craft knife", "craft knife", ("blade",)),
        ("craft knives", "craft knife", ("blade",)),
        ("circle cutter", "circle cutter", ("blade",)),
        ("cutting mat", "cutting mat", ()),
        ("1 1/4 in dowel", "dowel", ()),
        ("spent motor case", "motor case", ()),
        ("sanding block", "sanding block", ("dust",)),
        ("fin jig", "jig", ()),
        ("fin guide", "template", ()),
        ("straight angle", "angle", ()),
        ("1/16 in bit in a pin vice", "bit", ("point", "eye")),
        ("front plug", "plug", ()),
        ("rear mask", "mask", ()),
        ("nose stand", "stand", ()),
        ("junior hacksaw", "saw", ("blade", "eye")),
        ("hand drill with a 6 mm bit", "hand drill", ("point", "eye")),
        ("8 mm hole punch", "hole punch", ("punch",)),
        ("low temperature glue gun", "hot glue gun", ("hot", "electric")),
        ("compass", "compass", ("point",)),
        ("compasses", "compass", ("point",)),
        ("set square", "square", ()),
        ("magnifying glass", "magnifier", ("focus",)),
    ],
)
def test_a_tool_is_known_by_its_name(name: str, key: str, hazards: tuple[str, ...]) -> None:
    kind = tool_kind(name)
    assert kind is not None
    assert (kind.key, kind.hazards) == (key, hazards)


@pytest.mark.parametrize(
    "name", ["", "widget", "thing", "pencil case", "sawdust", "knife sharpener", "1/2 in"]
)
def test_an_unknown_tool_is_not_guessed(name: str) -> None:
    assert tool_kind(name) is None


@pytest.mark.parametrize(
    ("name", "more"),
    [
        ("hot scalpel", "hot"),
        ("electric pencil", "electric"),
        ("sharp pencil", "blade"),
        ("powered screwdriver", "machine"),
        ("glass bowl", "glass"),
    ],
)
def test_a_modifier_adds_its_hazard(name: str, more: str) -> None:
    kind, bare = tool_kind(name), tool_kind(name.split()[1])
    assert kind is not None and bare is not None
    assert kind.hazards == (*bare.hazards, more)
    assert (kind.key, kind.reach, kind.kerf) == (bare.key, bare.reach, bare.kerf)


def test_a_known_phrase_keeps_its_own_hazards() -> None:
    """The modifier of a phrase that stands in the table is in its row already: "hot" is not added twice."""
    gun = tool_kind("hot glue gun")
    assert gun is tool("hot glue gun")
    assert tool_kind("power jigsaw") is tool("power saw")


@pytest.mark.parametrize("row", TOOLS, ids=lambda row: row.key)
def test_every_phrase_of_a_tool_finds_it(row: object) -> None:
    kind = next(kind for kind in TOOLS if kind is row)
    assert tool(kind.key) is kind
    for phrase in kind.match:
        assert tool_kind(phrase) is kind, phrase
        assert tool_kind(f"a big red {phrase.upper()} for the class") is kind, phrase
        if phrase.split()[-1] not in PLURAL_ONLY and not phrase.endswith("s"):
            assert tool_kind(plural(phrase)) is kind, phrase


@pytest.mark.parametrize("row", MATERIALS, ids=lambda row: row.key)
def test_every_phrase_of_a_material_finds_it(row: object) -> None:
    kind = next(kind for kind in MATERIALS if kind is row)
    assert material(kind.key) is kind
    for phrase in kind.match:
        assert material_kind(phrase) is kind, phrase
        if phrase.split()[-1] not in PLURAL_ONLY and not phrase.endswith("s"):
            assert material_kind(plural(phrase)) is kind, phrase


@pytest.mark.parametrize("row", GEAR, ids=lambda row: row.key)
def test_every_name_of_gear_finds_it_and_is_a_tool_without_hazard(row: object) -> None:
    kind = next(kind for kind in GEAR if kind is row)
    assert gear(kind.key) is kind
    for phrase in kind.match:
        assert gear_kind(phrase) is kind, phrase
        assert tool_kind(phrase) is GEAR_TOOL


@pytest.mark.parametrize(
    ("name", "key"),
    [
        ("eye protection", "eye protection"),
        ("class set of goggles", "eye protection"),
        ("safety glasses", "eye protection"),
        ("nitrile gloves", "gloves"),
        ("dust masks", "dust mask"),
        ("aprons", "apron"),
    ],
)
def test_gear_is_known_by_its_name(name: str, key: str) -> None:
    kind = gear_kind(name)
    assert kind is not None and kind.key == key


@pytest.mark.parametrize("name", ["", "mask", "rear mask", "hat"])
def test_other_things_are_no_gear(name: str) -> None:
    assert gear_kind(name) is None


@pytest.mark.parametrize(
    ("name", "key", "hazards"),
    [
        ("poster paper", "poster paper", ()),
        ("fin board", "board", ()),
        ("foam board", "foam board", ()),
        ("canopy film", "film", ()),
        ("carpet thread", "thread", ()),
        ("flat elastic", "elastic", ()),
        ("clear tape", "tape", ()),
        ("masking tape", "masking tape", ()),
        ("white PVA glue", "pva", ()),
        ("acrylic spray paint", "aerosol_acrylic", ("spray",)),
        ("greyboard", "greyboard", ()),
        ("blue card", "card", ()),
        ("4 mm dowel", "dowel", ()),
        ("paper straw", "straw", ()),
        ("model rocket motors", "rocket motor", ("motor",)),
        ("glass lens", "lens", ("sun",)),
        ("strip of gummed tape", "gummed tape", ()),
    ],
)
def test_a_material_is_known_by_its_name(name: str, key: str, hazards: tuple[str, ...]) -> None:
    kind = material_kind(name)
    assert kind is not None
    assert (kind.key, kind.hazards) == (key, hazards)


@pytest.mark.parametrize("name", ["", "stuff", "paper plane kit"])
def test_an_unknown_material_is_not_guessed(name: str) -> None:
    assert material_kind(name) is None


@pytest.mark.parametrize(
    ("key", "hundredths"),
    [
        ("poster paper", 25),
        ("card", 30),
        ("greyboard", 300),
        ("foam board", 317),
        ("board", 159),
        ("film", 5),
    ],
)
def test_the_usual_thickness_holds_what_is_sold(key: str, hundredths: int) -> None:
    kind = material(key)
    assert kind is not None and kind.thickness is not None
    assert kind.thickness[0] * 100 <= hundredths <= kind.thickness[1] * 100


@pytest.mark.parametrize(
    ("verb", "what", "serves"),
    [
        ("mark", "", [{"pencil"}, {"ruler"}]),
        ("glue", "pva", [{"brush"}]),
        ("glue", "wood_glue", [{"glue spreader"}]),
        ("glue", "hot melt", [{"hot glue gun"}]),
        ("glue", "hot_melt", [{"hot glue gun"}]),
        ("glue", "cyanoacrylate", []),
        ("paint", "aerosol acrylic", []),
        ("paint", "tempera", [{"brush"}]),
        ("cut", "sheet", [{"scissors", "craft knife", "circle cutter"}]),
        ("cut", "rod", [{"saw"}]),
        ("cut", "cord", [{"scissors"}]),
        ("drill", "", [{"hand drill", "bit", "hole punch"}]),
        ("sand", "", [{"sanding block"}]),
        ("tape", "", []),
        ("verify", "", []),
    ],
)
def test_what_a_verb_usually_takes(verb: str, what: str, serves: list[set[str]]) -> None:
    row = usual(verb, what)
    assert row is not None
    assert len(row.tools) == len(serves)
    for group, kinds in zip(row.tools, serves, strict=True):
        assert kinds <= set(group)


def test_an_unknown_verb_takes_nothing_known() -> None:
    assert usual("juggle") is None
    assert verb_hazards("juggle") == ()
    assert verb_hazards("sand") == ("dust",)


@pytest.mark.parametrize(
    ("text", "keys"),
    [
        ("Sand it until it does.", ("dust",)),
        ("Take it out and sand the shoulder.", ("dust",)),
        ("A short one needs a new rod. Sand a long one down.", ("dust",)),
        ("Fill the bag with dry sand.", ()),
        ("Let the sand settle, then wait.", ()),
        ("Make it again.", ()),
        ("Lay it on the sandpaper.", ()),
    ],
)
def test_a_mending_in_free_words_brings_its_hazards(text: str, keys: tuple[str, ...]) -> None:
    assert told_hazards(text) == keys
