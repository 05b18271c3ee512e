"""The long gauge: taped together, its strips put every mark at its distance from the stop."""

from __future__ import annotations

import pytest

from builder.drawings.gauges import _sheets, gauge_sheets, is_cut
from builder.drawings.long_gauge import HIGH, TAB, Length, seams, strip, strips
from builder.drawings.shapes import Arc, Polyline, Shape, Text, box_of
from builder.drawings.sheets import COMMON, Origin, printable, working_area
from tests.drawings import guides
from tests.drawings.labels import outside, overlaps, struck

LENGTHS = [
    Length("body length", "body: length 12 1/2 in", "", "12 1/2 in", 317.5, 0.79375),
    Length("canopy flats", "canopy: across the flats 12 in", "", "12 in", 304.8, 0.79375),
    Length("cord length", "cord: length 24 in", "", "24 in", 609.6, None),
]


def marks(shapes: list[Shape]) -> list[float]:
    return sorted(s.points[0][0] for s in shapes if isinstance(s, Polyline) and s.line == "outline")


@pytest.mark.parametrize("most", [120.0, 140.0, 152.0, 161.5])
def test_taped_end_to_end_the_marks_stand_at_their_lengths(most: float) -> None:
    """12 in = 304.8 mm, 12 1/2 in = 317.5 mm, 24 in = 609.6 mm; 1/32 in = 0.79375 mm either way."""
    ends = seams(LENGTHS, most)
    found: list[float] = []
    start = 0.0
    for n, end in enumerate(ends, 1):
        assert 0 < end - start <= most + 1e-9
        own = [each for each in LENGTHS if start < each.mm < end]
        found += [start + x for x in marks(strip(own, 1, start, end, (n, len(ends))))]
        start = end
    wanted = [304.8 - 0.79375, 304.8 + 0.79375, 317.5 - 0.79375, 317.5 + 0.79375, 609.6]
    assert sorted(found) == pytest.approx(wanted)


def test_no_seam_runs_through_a_mark() -> None:
    """At 152 mm a strip, even seams would be 154.4 mm apart: the second, at 308.8 mm, near 304.8 + 0.79."""
    for end in seams(LENGTHS, 160.0)[:-1]:
        assert all(end <= each.low - 26 or end >= each.high + 8 for each in LENGTHS)


def test_a_tab_and_the_strip_over_it_have_the_same_cross() -> None:
    first, second = strip([], 1, 0.0, 150.0, (1, 2)), strip([], 1, 150.0, 300.0, (2, 2))
    (lower,) = [s for s in first if isinstance(s, Arc)]
    (upper,) = [s for s in second if isinstance(s, Arc)]
    assert upper.centre == (TAB / 2, -HIGH / 2)
    assert lower.centre == (150.0 + TAB / 2, -HIGH / 2)
    stops = [s for s in (*first, *second) if isinstance(s, Polyline) and s.filled]
    assert [max(x for x, _ in s.points) for s in stops] == [0.0]


@pytest.mark.parametrize("paper", ["letter", "a4", ""])
@pytest.mark.parametrize("name", ["rolled-rocket", "card-telescope", "sail-cart"])
def test_every_long_piece_of_the_guides_is_on_it(name: str, paper: str) -> None:
    made = gauge_sheets(guides.guide(name), guides.runs(name), paper=paper)
    cut = [sheet for sheet in made if is_cut(sheet)]
    assert cut == made[-len(cut) :]  # they come last
    page = printable(paper) if paper else COMMON
    for sheet in made:
        assert overlaps(sheet.shapes) == [] and outside(sheet) == []
        assert struck(sheet.shapes, ("outline", "frame", "cut", "line_up")) == []
        box = box_of(sheet.shapes)
        assert box is not None and box.right <= page[0] + 1e-6 and box.bottom <= page[1] + 1e-6
    words = " ".join(t.text for sheet in cut for t in sheet.texts())
    assert {"rolled-rocket": "shock cord: length", "card-telescope": "blank for the outer tube: width",
            "sail-cart": "mast: length"}[name] in words  # fmt: skip
    assert "tape measure" not in words


def test_what_is_longer_than_a_metre_is_named_and_has_none() -> None:
    rope = Length("rope length", "rope: length 1200 mm", "", "1200 mm", 1200.0, None)
    (first,) = [s for s in _sheets([LENGTHS[0], rope], Origin("a", "b"), COMMON) if is_cut(s)]
    assert not any("rope" in t.text for t in first.texts())
    short = Length("pin length", "pin: length 20 mm", "", "20 mm", 20.0, None)
    (only,) = _sheets([short, rope], Origin("a", "b"), COMMON)
    assert any("tape measure: rope: length 1200 mm" in t.text for t in only.texts())


def test_many_marks_go_on_to_another_sheet() -> None:
    area = working_area(COMMON)
    assert strips([], area) == []
    many = [Length(f"rod {n}", f"rod {n}: length", "", f"{n} mm", 200.0 + 40 * n, 0.5) for n in range(20)]
    sheets = strips(many, area)
    told = [t.text for laid in sheets for t in laid.shapes if isinstance(t, Text)]
    assert len(sheets) > 1 and all(any(text.startswith(f"{n}: rod") for text in told) for n in range(1, 21))
    for laid in sheets:
        box = box_of(laid.shapes)
        assert box is not None and box.bottom <= area.bottom and box.right <= area.right + 1e-6
