"""Patterns in the packet at true size, read back with pdfplumber.

1 in is 72 pt by the PDF standard (ISO 32000-1), so 100 mm is 283.4646 pt and 4 in is 288 pt.
"""

from __future__ import annotations

from fractions import Fraction

import pytest

from builder.packet.build import Sheaf
from builder.pages.book import Book
from tests.packet.read_back import straight, texts

TOLERANCE = 0.05  # mm


def pattern_pages(part: Sheaf) -> list[int]:
    return [number for number, text in enumerate(texts(part.data)) if "Print at 100" in text]


@pytest.mark.parametrize("part", [0, 1])
def test_bars_measure_true_on_both_axes(rocket_packet: tuple[Sheaf, Sheaf], part: int) -> None:
    pages = pattern_pages(rocket_packet[part])
    assert pages
    for page in (pages[0], pages[-1]):
        for lengths in straight(rocket_packet[part].data, page):
            for wanted in (100.0, 101.6):
                assert min(abs(length - wanted) for length in lengths) <= TOLERANCE


def test_what_is_cut_out_has_nothing_on_its_back(rocket_packet: tuple[Sheaf, Sheaf]) -> None:
    for part in rocket_packet:
        told = texts(part.data)
        for page in pattern_pages(part):
            if "not to be cut" in told[page]:
                continue
            assert page % 2 == 0  # counted from 0: a right-hand page
            assert page + 1 == len(told) or len(told[page + 1].splitlines()) == 2
            assert page + 1 == len(told) or "This side is left empty" in told[page + 1]


def test_the_fin_is_as_long_as_its_root(rocket: Book, rocket_packet: tuple[Sheaf, Sheaf]) -> None:
    # the fin's root is 2 1/4 in: 9/4 x 25.4 = 57.15 mm
    assert rocket.guide.things["fin"].mm("root") == Fraction(5715, 100)
    told = texts(rocket_packet[0].data)
    page = next(page for page in pattern_pages(rocket_packet[0]) if "Patterns, sheet 1" in told[page])
    level, _ = straight(rocket_packet[0].data, page)
    assert min(abs(length - 57.15) for length in level) <= TOLERANCE


def test_a_gauge_measures_what_it_says(rocket_packet: tuple[Sheaf, Sheaf]) -> None:
    """From the stop's edge to the marks of the fin's root: 57.15 mm less and plus 1/32 in (0.79375 mm); its
    base line ends 2 mm behind the second mark."""
    told = texts(rocket_packet[0].data)
    page = next(page for page in pattern_pages(rocket_packet[0]) if "not to be cut" in told[page])
    assert "fin: root 2 1/4" in told[page].replace("\N{NO-BREAK SPACE}", " ")
    level, _ = straight(rocket_packet[0].data, page)
    assert min(abs(length - (57.15 + 0.79375 + 2.0)) for length in level) <= TOLERANCE
