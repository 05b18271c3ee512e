"""Numbers as a writer types them, and slips of the finger."""

from __future__ import annotations

from fractions import Fraction

import pytest

from builder.planting.ground import misspelt, number_text, quoted

IN = Fraction(254, 10)


@pytest.mark.parametrize(
    ("base", "unit", "text"),
    [
        (Fraction(30), "mm", "30 mm"),
        (Fraction(61, 2), "mm", "30.5 mm"),
        (Fraction(25, 2), "cm", "1.25 cm"),
        (2 * IN, "in", "2 in"),
        (IN * Fraction(9, 16), "in", "9/16 in"),
        (IN * Fraction(25, 16), "in", "1 9/16 in"),
        (IN * Fraction(72, 100), "in", "0.72 in"),
        (12 * 11 * IN, "ft", "11 ft"),
        (Fraction(1800), "min", "30 min"),
        (Fraction(18), "min", "0.3 min"),
    ],
)
def test_a_number_is_typed_in_its_unit(base: Fraction, unit: str, text: str) -> None:
    assert number_text(base, unit) == text


@pytest.mark.parametrize(
    ("word", "known"), [("pva", ()), ("pva", ("pvaa",)), ("pva", ("pvaa", "pvaaa", "ppva"))]
)
def test_a_misspelt_word_is_no_known_one(word: str, known: tuple[str, ...]) -> None:
    assert misspelt(word, known) not in (word, *known)


def test_a_quoted_text_keeps_its_signs() -> None:
    assert quoted('a "b" \\ {c}') == '"a \\"b\\" \\\\ {c}"'
