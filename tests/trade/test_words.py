"""Counting words, units, commands, directions, plurals and articles of English (common practice)."""

from __future__ import annotations

from fractions import Fraction

import pytest

from builder.trade import words
from builder.trade.words import article, plural, singular


@pytest.mark.parametrize(
    ("word", "value"),
    [("one", 1), ("eight", 8), ("twelve", 12), ("twenty", 20), ("dozen", 12), ("half", Fraction(1, 2)),
     ("quarter", Fraction(1, 4)), ("both", 2), ("zero", 0)],
)  # fmt: skip
def test_counting_words(word: str, value: Fraction | int) -> None:
    assert words.NUMBER_WORDS[word] == value


def test_the_first_twenty_are_in_order() -> None:
    assert [int(value) for value in words.NUMBER_WORDS.values()][:21] == list(range(21))


@pytest.mark.parametrize(
    "table", [words.IMPERATIVES, words.VAGUE_AMOUNTS, words.WARNING_WORDS, words.PLURAL_ONLY]
)
def test_word_tables_are_sorted_and_hold_each_word_once(table: tuple[str, ...]) -> None:
    assert list(table) == sorted(set(table))
    assert all(word == word.lower() and word == " ".join(word.split()) for word in table)


def test_there_are_commands_enough_and_the_verbs_of_the_format_are_among_them() -> None:
    assert len(words.IMPERATIVES) >= 200
    kinds = (
        "cut drill fold sand roll wrap mark glue insert slide attach screw tie tape paint remove wait verify"
    )
    assert [verb for verb in kinds.split() if verb not in words.IMPERATIVES] == []


def test_no_counting_word_is_a_unit_or_a_command() -> None:
    assert not set(words.NUMBER_WORDS) & words.UNIT_WORDS
    assert not set(words.NUMBER_WORDS) & set(words.IMPERATIVES)


@pytest.mark.parametrize(
    "word", ["in", "inch", "inches", "mm", "ft", "min", "minutes", "h", "oz", "ml", "degrees"]
)
def test_units(word: str) -> None:
    assert word in words.UNIT_WORDS


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("front", "rear"),
        ("inside", "outside"),
        ("left", "right"),
        ("on", "off"),
        ("top", "under"),
        ("tip", "base"),
    ],
)
def test_opposed_directions_stand_in_one_group(one: str, other: str) -> None:
    assert any(one in group and other in group for group in words.DIRECTION_WORDS)


def test_a_direction_group_has_no_word_twice() -> None:
    for group in words.DIRECTION_WORDS:
        assert len(group) == len(set(group)) >= 2


@pytest.mark.parametrize(
    ("one", "many"),
    [
        ("fin", "fins"),
        ("craft knife", "craft knives"),
        ("lens", "lenses"),
        ("glue brush", "glue brushes"),
        ("mast box", "mast boxes"),
        ("compass", "compasses"),
        ("assembly", "assemblies"),
        ("key", "keys"),
        ("half", "halves"),
        ("scissors", "scissors"),
        ("inch", "inches"),
        ("foot", "feet"),
        ("body", "bodies"),
        ("screw eye", "screw eyes"),
        ("axle", "axles"),
        ("hole punch", "hole punches"),
        ("shoe", "shoes"),
        ("pulley", "pulleys"),
    ],
)
def test_plurals(one: str, many: str) -> None:
    assert plural(one) == many
    assert singular(many.split()[-1]) == one.split()[-1]
    assert singular(one.split()[-1]) == one.split()[-1]


@pytest.mark.parametrize("word", ["glass", "brass", "bus", "axis", "gas", "canvas", "", "s"])
def test_what_only_looks_like_a_plural(word: str) -> None:
    assert singular(word) == word


@pytest.mark.parametrize(
    ("phrase", "expected"),
    [
        ("anchor", "an"),
        ("fin", "a"),
        ("hour", "an"),
        ("unit", "a"),
        ("one-inch ring", "a"),
        ("onion", "an"),
        ("uneven edge", "an"),
        ("inner tube", "an"),
        ("8 in ring", "an"),
        ("11 in body", "an"),
        ("18 mm case", "an"),
        ("80 mm rod", "an"),
        ("1 in ring", "a"),
        ("110 mm rod", "a"),
        ("1,100 g", "a"),
        ("1800 mm rod", "a"),
        ("11,000 g", "an"),
        ("18000 g", "an"),
        ("1/8 in rod", "a"),
        ("6 mm mast", "a"),
        ("used case", "a"),
        ("utility knife", "a"),
        ("upper ring", "an"),
        ("U-shaped clip", "a"),
        ("X", "an"),
        ("", "a"),
    ],
)
def test_articles(phrase: str, expected: str) -> None:
    assert article(phrase) == expected


@pytest.mark.parametrize("phrase", ["careful", "hot", "danger", "do not touch", "warning", "sharp"])
def test_words_of_a_hidden_warning(phrase: str) -> None:
    assert phrase in words.WARNING_WORDS
