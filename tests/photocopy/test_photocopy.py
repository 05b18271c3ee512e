"""Drawings after three generations of photocopies: no line lost, no dashes merged, labels read by a program.

A spread of drawings and sheets; `python -m tests.photocopy` copies them all.
"""

from __future__ import annotations

from functools import cache
from pathlib import Path

import numpy as np
import pytest
from PIL import Image

from builder.drawings.class_sheets import single
from builder.drawings.gauges import gauge_sheets
from builder.drawings.of_pattern import pattern_sheets, patterns_of
from builder.drawings.of_step import drawing_of
from builder.drawings.raster import pdf
from builder.drawings.shapes import Drawing, Polyline, Text, finished, segment
from builder.drawings.svg import write
from builder.packet.sizing import SCALE
from tests.conftest import program
from tests.drawings import guides
from tests.photocopy.copying import GENERATIONS, Copy, copied, drawn
from tests.photocopy.lines import faults
from tests.photocopy.pages import copies_of, labels, pages_of, spoiled
from tests.photocopy.reading import PROGRAM, Label, cut_out, dimensions, plain, unread

PLACE = (104.0, 62.0)
"""About what the drawing of a step is made for in a packet, mm before SCALE."""

STEPS = {
    "rolled-rocket": ["cut_paper", "mark_tube", "thrust", "cut_fins", "lug_on"],
    "card-telescope": ["cut_outer", "band_on"],
    "sail-cart": ["deck_cut", "sail_holes", "sail_on"],
}
CASES = [(name, step) for name, steps in STEPS.items() for step in steps]
SHEETS = ["patterns", "gauges"]


@cache
def printed(name: str, what: str) -> tuple[Drawing, float]:
    """A drawing, and the scale at which it is printed."""
    guide, run = guides.guide(name), guides.runs(name)[0]
    if what == "patterns":
        return pattern_sheets(guide, (run,))[1], 1.0
    if what == "gauges":
        return gauge_sheets(guide, (run,))[0], 1.0
    return drawing_of(guide, run.of_step(what), PLACE), SCALE


@cache
def copies(name: str, what: str) -> tuple[Copy, Copy]:
    drawing, scale = printed(name, what)
    picture = drawn(drawing, scale)
    return copied(picture, scale, 0), copied(picture, scale)


@pytest.mark.parametrize(("name", "what"), [*CASES, *(("rolled-rocket", s) for s in SHEETS)])
def test_no_line_is_lost_and_no_dashes_merge(name: str, what: str) -> None:
    drawing, _ = printed(name, what)
    first, third = copies(name, what)
    assert faults(drawing, first, third) == []


def test_labels_are_read_after_three_generations() -> None:
    """The bar: 99 of 100 dimension labels."""
    program(PROGRAM)
    labels: list[Label] = []
    for name, what in CASES:
        labels += cut_out(printed(name, what)[0], copies(name, what)[1], dimensions(printed(name, what)[0]))
    assert len(labels) > 40
    missed = unread(labels)
    assert len(missed) <= len(labels) / 100, missed


def test_a_copy_is_smaller_by_three_hundredths_each_time() -> None:
    """0.97^3 = 0.912673 of 1000 dots; rounded in each generation: 970, 941, 913, and 485, 470, 456 of 500."""
    picture = Image.new("L", (1000, 500), 255)
    copy = copied(picture)
    assert GENERATIONS == 3
    assert copy.black.shape == (456, 913)
    assert copy.dots_per_mm == pytest.approx(300 / 25.4 * 0.913)
    assert copy.down_per_mm == pytest.approx(300 / 25.4 * 456 / 500)


def sample(*shapes: Polyline | Text) -> Drawing:
    return finished("", "", shapes)


@pytest.mark.parametrize(
    ("line", "scale", "fault"),
    [("dimension", 0.7, ""), ("dimension", 0.2, "lost"), ("hidden", 0.7, ""), ("hidden", 0.2, "merged")],
)
def test_a_line_that_is_too_fine_is_found(line: str, scale: float, fault: str) -> None:
    """At a fifth of its size a line has 0.07 mm, not a dot, and a gap of a dashed line 0.2 mm."""
    drawing = sample(*(segment((0.0, 5.3 * i), (100.0, 5.3 * i + 1.7), line) for i in range(8)))
    picture = drawn(drawing, scale)
    found = {f.what for f in faults(drawing, copied(picture, scale, 0), copied(picture, scale))}
    if line == "hidden" and fault:
        assert found  # lost or merged, as the dashes fall
    else:
        assert found == ({fault} if fault else set())


def test_a_label_that_is_too_small_is_not_read() -> None:
    program(PROGRAM)
    drawing = sample(*(Text((0.0, 8.0 * i), f"{i}3 1/16 in (27.{i} mm)") for i in range(1, 6)))
    for scale, most in ((0.7, 0), (0.16, 5)):
        copy = copied(drawn(drawing, scale), scale)
        missed = unread(cut_out(drawing, copy, dimensions(drawing)))
        assert len(missed) <= most
        assert (len(missed) > 2) == (scale < 0.5)


def test_what_counts_as_the_same_label() -> None:
    assert plain("(about 1 3/16 in)") == plain("{about 1 3/16 In)")
    assert plain("13 mm") != plain("18 mm")
    assert plain("1/2 in") != plain("12 in")
    assert plain("7 in ± 1/8 in") == plain("7 in + 1/8 in") != plain("7 in 1/8 in")


def test_lines_for_a_machine_are_not_for_copying() -> None:
    pattern = patterns_of(guides.guide("rolled-rocket"), guides.runs("rolled-rocket"))[0]
    assert dimensions(single(pattern)) == []


def page_with(*bars: tuple[int, int, int, int]) -> list[str]:
    """What a copy spoils of a white page with black bars on it."""
    picture = Image.new("L", (600, 400), 255)
    for bar in bars:
        picture.paste(0, bar)
    return sorted({each.what for each in spoiled(copied(picture, generations=0), copied(picture))})


@pytest.mark.parametrize(
    ("bars", "found"),
    [
        # lines of 3 dots (0.25 mm) bear three generations, of those of 1 dot some are lost, as the dots fall
        ([(50, y, 550, y + 3) for y in range(20, 380, 29)], []),
        ([(50, y, 550, y + 1) for y in range(20, 380, 29)], ["lost"]),
        # of two bars 12 dots (1 mm) apart the gap stays
        ([(50, 100, 550, 120), (50, 132, 550, 150)], []),
    ],
)
def test_what_a_copied_page_lost(bars: list[tuple[int, int, int, int]], found: list[str]) -> None:
    assert page_with(*bars) == found


def test_a_gap_that_is_filled_is_found() -> None:
    """A copy that has a black square where the page has a gap; and one that only lies a dot aside."""
    page = np.zeros((400, 600), bool)
    page[100:120, 50:550] = page[150:170, 50:550] = True
    filled = page.copy()
    filled[120:150, 200:230] = True
    assert spoiled(Copy(page, 12.0, 12.0), Copy(np.roll(page, 1, axis=0), 12.0, 12.0)) == []
    (one,) = spoiled(Copy(page, 12.0, 12.0), Copy(filled, 12.0, 12.0))
    assert one.what == "merged"
    left, top, right, bottom = one.box
    assert (left <= 202 and right >= 228) and (top <= 122 and bottom >= 148)


def test_dimensions_of_a_page_are_found_and_read(tmp_path: Path) -> None:
    """The labels of a page come from its own text, and are read in its copy; words and times are none."""
    program(PROGRAM)
    words = ["1 3/16 in", "(30.2 mm)", "launch lug", "45 min to set", "90°"]
    drawing = sample(*(Text((5.0, 12.0 * (i + 1)), word) for i, word in enumerate(words)))
    (tmp_path / "page.pdf").write_bytes(pdf([write(drawing)], title="page"))
    seen: set[str] = set()
    (page,) = pages_of(tmp_path / "page.pdf", seen)
    assert list(pages_of(tmp_path / "page.pdf", seen)) == []  # the same page is looked at once
    first, copy = copies_of(page)
    found = labels(page, copy)
    assert [label.text for label in found] == ["1 3/16 in", "(30.2 mm)", "90°"]
    assert unread(found) == []
    assert spoiled(first, copy) == []
