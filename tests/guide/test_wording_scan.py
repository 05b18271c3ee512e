"""Typed numbers, commands and warnings in a writer's text: what is caught and what is innocent.

No outside source: ordinary English, judged by hand. Half of each table is innocent.
"""

from __future__ import annotations

import pytest

from builder.guide.wording.scan import clause_starts, commands, typed_numbers, warnings, words_of

TYPED = [
    ("Cut two fins", ["two"]),
    ("Cut Twelve fins", ["Twelve"]),
    ("Push it half of the way", ["half"]),
    ("Fill ½ of it", ["½"]),
    ("Give it a quarter turn", ["quarter"]),
    ("the 12-inch tube", ["12-inch"]),
    ("an 18mm tube", ["18mm"]),
    ("see [the 12 in tube](parts.html)", ["12 in"]),
    ("Let it stand for 20 to 30 min", ["20 to 30 min"]),
    ("for 20-30 min.", ["20-30 min"]),
    ("1 1/2 in deep", ["1 1/2 in"]),
    ("7 in ± 1/8 in", ["7 in ± 1/8 in"]),
    ("Cut 3 in x 1 in and 4 in", ["3 in x 1 in", "4 in"]),
    ("12.5 mm", ["12.5 mm"]),
    ("Wait a few minutes", ["minutes"]),
    ("Wait a minute", ["minute"]),
    ("It dries in an hour", ["hour"]),
    ("Wait a second.", ["second"]),
    ("Turn it twice", ["twice"]),
    ("a third of the way", ["third"]),
    ("Give it one turn", ["one"]),
    ("Leave one inch", ["one inch"]),
    ("a pair of fins", ["pair"]),
    ("a couple of drops", ["couple"]),
    ("a dozen lines", ["dozen"]),
    ("so many mm from the end", ["mm"]),
    ("at 90°", ["90"]),
    ("two-thirds full", ["two-thirds"]),
]

INNOCENT = [
    "Tie them to one another",
    "Let go at once",
    "the second ring",
    "no one",
    "this one",
    "the other one",
    "each one is held by hand",
    "One that was packed for weeks keeps its folds",
    "one of them",
    "one by one",
    "in one smooth move",
    "It may stand for days",
    "a second coat",
    "the third ring",
    "the first wheels",
    "both rings",
    "A4 paper",
    "an M3 screw",
    "a pair of scissors",
    "halfway in",
    "half-way in",
    "see [here](page-2.html)",
    "once more",
    "a double knot",
    "the foot of the mast",
    "It may stand overnight",
    "Push it in",
    "by the way",
    "someone",
    "often",
    "the tenth fin",
    "a gap of light",
    "alone",
    "stone",
    "https://example.org/12/3",
]


@pytest.mark.parametrize(("text", "expected"), TYPED)
def test_what_counts_is_found(text: str, expected: list[str]) -> None:
    assert [typed.text for typed in typed_numbers(text)] == expected
    assert all(text[t.start : t.start + len(t.text)] == t.text for t in typed_numbers(text))


@pytest.mark.parametrize("text", INNOCENT)
def test_what_does_not_count_is_left(text: str) -> None:
    assert typed_numbers(text) == []


def test_a_counted_noun_and_a_name() -> None:
    assert [t.text for t in typed_numbers("Leave one fin", nouns=lambda word: word == "fin")] == ["one"]
    assert typed_numbers("Leave this one fin", nouns=lambda word: word == "fin") == []
    assert typed_numbers("the 12 in dowel", is_name=lambda start, end: start >= 4) == []


COMMANDS = [
    ("Press the ring flat.", ["Press"]),
    ("Use a pencil.", ["Use"]),
    ("Leave it alone.", ["Leave"]),
    ("Check that it is straight.", ["Check"]),
    ("Keep the paper flat.", ["Keep"]),
    ("Do not twist it.", ["Do"]),
    ("Never pull the cord.", ["Never"]),
    ("If it leans, push it back.", ["push"]),
    ("Before it sets, wipe the rim.", ["wipe"]),
    ("Now turn it over.", ["turn"]),
    ("It is easy. Hold it by the rim.", ["Hold"]),
    ("You should press it.", ["You should"]),
    ("It helps to make sure of it.", ["make sure"]),
    ("Sand off the edge.", ["Sand"]),
    ("Work slowly.", ["Work"]),
    ("There is a trick: turn it first.", ["turn"]),
    ("Press it on.", ["Press"]),
]

TELLING = [
    "A skewed ring shows as a gap of light at its side.",
    "Glue on glass wipes away with a damp corner of the cloth.",
    "Glue in the slots would stop the clip.",
    "Paint on it does no harm.",
    "Paint inside the tube stops a motor.",
    "Thin coats dry evenly. A thick coat runs.",
    "White glue grabs paper fast.",
    "Tape holds at once.",
    "Glue that feels dry is still soft.",
    "Fingers leave grease on glass.",
    "Air parts smoothly at a rounded edge.",
    "If it leans, the line was crooked.",
    "A blank whose corners are square rolls into a tube.",
    "No harm is done.",
    "The lines go on now.",
    "Set like this, it is nearly sharp.",
    "There are two kinds: glue and paint.",
    "A knot that slips here slips in flight too.",
    "Work goes faster with a helper.",
]


@pytest.mark.parametrize(("text", "expected"), COMMANDS)
def test_a_command_is_found(text: str, expected: list[str]) -> None:
    assert [typed.text for typed in commands(text)] == expected


@pytest.mark.parametrize("text", TELLING)
def test_what_tells_is_no_command(text: str) -> None:
    assert commands(text) == []


WARNINGS = [
    ("Be careful with it.", "be careful"),
    ("Beware of the edge.", "beware"),
    ("Keep your fingers away.", "keep your fingers"),
    ("The blade is sharp.", "sharp"),
    ("The nozzle is hot.", "hot"),
    ("It can burn you.", "burn"),
    ("The fumes are heavy.", "fumes"),
    ("It is a danger.", "danger"),
    ("Never touch the wire.", "never touch"),
    ("It dries well. The glue is toxic.", "toxic"),
    ("You risk a cut.", "risk"),
    ("It may set fire to your hair.", "fire"),
]

CALM = [
    "The motor blows hot gas forward.",
    "a sharp picture of the far thing",
    "A sharp fold lies flat.",
    "No harm.",
    "the national model rocket safety code",
    "A roll that was made carefully has even ends.",
    "At the end of its burn it stops.",
    "Its smaller hole makes the picture sharper.",
    "The paper is thin.",
    "A hot day dries it faster.",
    "There is no risk of a leak.",
    "The ring is dangerously pretty.",
]


@pytest.mark.parametrize(("text", "word"), WARNINGS)
def test_a_warning_is_found(text: str, word: str) -> None:
    found = warnings(text)
    assert [typed.text for typed in found] == [word]
    assert text[found[0].start :].lower().startswith(word)


@pytest.mark.parametrize("text", CALM)
def test_what_is_no_warning(text: str) -> None:
    assert warnings(text) == []


def test_a_weak_word_warns_beside_a_thing_with_a_hazard() -> None:
    assert warnings("The big wheel is hot.") == []
    assert [t.text for t in warnings("The big wheel is hot.", lambda sentence: "wheel" in sentence)] == [
        "hot"
    ]


def test_clauses_begin_where_a_verb_can_stand() -> None:
    text = "With the brush, run glue round it and then gently press the ring on, until it sits."
    assert [w.text for w in clause_starts(text)] == ["with", "run", "then", "gently", "press", "until"]


def test_words_carry_their_places() -> None:
    assert [(w.text, w.start, w.end) for w in words_of("A 12-inch Tube")] == [
        ("a", 0, 1),
        ("12", 2, 4),
        ("inch", 5, 9),
        ("tube", 10, 14),
    ]
