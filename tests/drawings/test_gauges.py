"""Gauges: the marks stand where the arithmetic says, and every measure of a cut piece has one."""

from __future__ import annotations

from fractions import Fraction

import pytest

from builder.drawings.gauges import cut_things, gauge, gauge_sheets, gauges_of, measures, tolerance_of
from builder.drawings.shapes import Polyline, Text, box_of
from builder.guide.model import Guide
from tests.drawings import guides
from tests.drawings.labels import outside, overlaps, struck

NAMES = ("rolled-rocket", "card-telescope", "sail-cart")


def marks(pattern: object) -> list[float]:
    shapes = pattern.shapes  # type: ignore[attr-defined]
    return sorted(s.points[0][0] for s in shapes if isinstance(s, Polyline) and s.line == "outline")


def test_marks_stand_at_the_length_less_and_plus_the_tolerance() -> None:
    """2 1/4 in = 57.15 mm; 1/32 in = 0.79375 mm: marks at 56.35625 and 57.94375 mm from the stop."""
    made = gauge("fin root", "fin: root 2 1/4 in", ", give or take 1/32 in", 57.15, 0.79375)
    assert marks(made) == pytest.approx([56.35625, 57.94375])
    stop = next(s for s in made.shapes if isinstance(s, Polyline) and s.filled)
    assert max(x for x, _ in stop.points) == 0.0


def test_without_a_tolerance_there_is_one_mark() -> None:
    assert marks(gauge("mast", "mast", ", no tolerance stated", 120.0, None)) == [120.0]


def test_the_rockets_fin_is_gauged_with_the_cut_tolerance_of_its_guide() -> None:
    """The guide says: cut tolerance ± 1/32 in, root 2 1/4 in."""
    guide = guides.guide("rolled-rocket")
    fin = guide.things["fin"]
    assert tolerance_of(guide, fin.values["root"]) == Fraction(254, 10) / 32
    root, span = gauges_of(guide, [fin])
    assert marks(root) == pytest.approx([(2.25 - 1 / 32) * 25.4, (2.25 + 1 / 32) * 25.4])
    assert marks(span) == pytest.approx([(2 - 1 / 32) * 25.4, (2 + 1 / 32) * 25.4])


@pytest.mark.parametrize("name", NAMES)
def test_every_measure_of_what_is_cut_has_its_gauge_or_is_named_as_too_long(name: str) -> None:
    guide: Guide = guides.guide(name)
    made = gauge_sheets(guide, guides.runs(name))
    words = " ".join(t.text for s in made for t in s.texts())
    for thing in cut_things(guide, guides.runs(name)):
        for field in measures(thing):
            if thing.mm(field) is not None:
                assert thing.name in words, (thing.id, field)
    for sheet in made:
        assert overlaps(sheet.shapes) == []
        assert struck(sheet.shapes, ("outline", "frame")) == []
        assert outside(sheet) == []
        box = box_of(sheet.shapes)
        assert box is not None and box.right <= sheet.width and box.bottom <= sheet.height
        assert any("no tolerance stated" in t.text for t in sheet.texts()) == (guide.cut_tolerance is None)
        assert all(isinstance(t, Text) for t in sheet.texts())
