"""Cautions: three parts, the right signal word, the gear that the text names, plain words, no claim.

Sources: ANSI Z535.4-2007 for the signal words and the alert symbol; ANSI Z535.6 for the three parts; Human
factors procedure writing, part C, for several hazards in one block.
"""

from __future__ import annotations

import re
from typing import get_args

import pytest

from builder.trade.gear import gear
from builder.trade.hazards import HAZARDS, Hazard, hazard, uncovered
from builder.trade.signals import LEVELS, SIGNAL_COLOUR, SIGNAL_WORD, Level, alert_symbol, worst
from builder.trade.words import IMPERATIVES

ROWS = pytest.mark.parametrize("row", HAZARDS, ids=lambda row: row.key)


@ROWS
def test_three_parts_of_whole_sentences(row: Hazard) -> None:
    for part in (row.hazard, row.consequence, row.avoidance):
        assert part[0].isupper() and part.endswith(".")
        assert "  " not in part and part == part.strip()
    assert len({row.hazard, row.consequence, row.avoidance}) == 3


@ROWS
def test_the_avoidance_commands(row: Hazard) -> None:
    """Every sentence is an order, or a condition and its order; nothing in it only tells."""
    for sentence in re.split(r"(?<=\.) ", row.avoidance):
        words = re.findall(r"[a-z]+", sentence.lower())
        if words[0] == "if":
            words = sentence.lower().rstrip(".").split(", ", 1)[1].split()
        while words[0] in ("never", "do", "not"):
            words = words[1:]
        assert words[0] in IMPERATIVES, sentence


@ROWS
def test_no_part_claims_safety(row: Hazard) -> None:
    for part in (row.hazard, row.consequence, row.avoidance):
        plain = part.replace("model rocket safety code", "")
        assert not re.search(r"(?i)\b(safe|safely|safer|safety|harmless|no risk|cannot hurt)\b", plain)


@ROWS
def test_words_are_few_enough_for_a_reader_of_nine(row: Hazard) -> None:
    """At most 20 words a sentence: ASD-STE100, rule 5.1."""
    for part in (row.hazard, row.consequence, row.avoidance):
        for sentence in re.split(r"(?<=\.) ", part):
            limit = 24 if row.key == "launch" else 20  # the launch caution has to name three authorities
            assert len(sentence.split()) <= limit, sentence


@ROWS
def test_the_avoidance_names_the_gear_that_it_asks_for(row: Hazard) -> None:
    text = row.avoidance.lower()
    for key in row.gear:
        assert gear(key) is not None
        assert key in text
    if "wear" in text and row.level != "notice":
        assert row.gear


@ROWS
def test_ventilation_and_adults_are_said_where_they_are_asked_for(row: Hazard) -> None:
    if row.ventilate:
        assert re.search(r"\bair\b|outdoors|windows", row.avoidance)
    if row.adult:
        assert "adult" in row.avoidance


@ROWS
def test_property_alone_is_a_notice_and_injury_never_is(row: Hazard) -> None:
    hurts = re.search(
        r"(?i)\b(you|your|skin|eyes?|fingers?|lungs?|child|children|kills?|choke|burn|someone|strain|blind)\b",
        row.consequence,
    )
    assert bool(hurts) == (row.level != "notice")


@ROWS
def test_what_can_kill_or_blind_is_at_least_a_warning(row: Hazard) -> None:
    if re.search(r"(?i)kill|blind|choke|strangle|badly|for good", row.consequence):
        assert row.level in ("danger", "warning")
    if row.level == "danger":  # for the most extreme alone: it will happen
        assert re.search(r"\bwill\b", row.consequence)
    if row.level == "caution":
        assert re.search(r"\bcan\b", row.consequence)


def test_signal_words_and_their_colours() -> None:
    assert tuple(get_args(Level)) == LEVELS == tuple(SIGNAL_WORD) == tuple(SIGNAL_COLOUR)
    assert [SIGNAL_WORD[level] for level in LEVELS] == ["DANGER", "WARNING", "CAUTION", "NOTICE"]
    assert [SIGNAL_COLOUR[level] for level in LEVELS] == ["red", "orange", "yellow", "blue"]


@pytest.mark.parametrize(
    ("levels", "expected"),
    [
        (["caution", "warning"], "warning"),
        (["notice", "caution"], "caution"),
        (["warning", "danger", "notice"], "danger"),
        (["notice"], "notice"),
        ([], None),
    ],
)
def test_a_block_carries_the_most_severe_word(levels: list[Level], expected: Level | None) -> None:
    assert worst(levels) == expected


def test_the_alert_symbol_never_stands_with_a_notice() -> None:
    assert [alert_symbol(level) for level in LEVELS] == [True, True, True, False]


def test_the_hazards_that_the_trade_must_know() -> None:
    for key in (
        "blade",
        "hot",
        "fumes",
        "spray",
        "flame",
        "eye",
        "sun",
        "electric",
        "dust",
        "launch",
        "cord",
        "punch",
    ):
        assert hazard(key) is not None, key
    assert hazard("coin cell") is hazard("coin_cell") is not None
    assert hazard("dragons") is None


@pytest.mark.parametrize(
    ("keys", "expected"),
    [
        (["blade", "scissors"], ("blade",)),
        (["scissors"], ("scissors",)),
        (["spray", "fumes", "flammable"], ("spray",)),
        (["eye", "blade", "eye"], ("eye", "blade")),
        (["fumes", "machine", "eye"], ("fumes", "machine")),
        (["unheard_of", "eye"], ("unheard_of", "eye")),
        ([], ()),
    ],
)
def test_a_caution_that_another_one_says_is_not_said_again(
    keys: list[str], expected: tuple[str, ...]
) -> None:
    assert uncovered(keys) == expected


@ROWS
def test_what_covers_is_as_severe_and_asks_for_as_much(row: Hazard) -> None:
    for key in row.covers:
        other = hazard(key)
        assert other is not None
        assert LEVELS.index(row.level) <= LEVELS.index(other.level)
        assert set(other.gear) <= set(row.gear)
        assert row.ventilate >= other.ventilate and row.adult >= other.adult
        assert row.key not in other.covers
