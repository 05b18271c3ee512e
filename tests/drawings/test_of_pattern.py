"""The patterns of the demonstration guides: which there are, and that their measures are the guide's."""

from __future__ import annotations

from math import pi

import pytest

from builder.drawings.of_pattern import pattern_sheets, pattern_things, patterns_of
from builder.drawings.patterns import Pattern
from builder.drawings.shapes import Arc, Polyline, Text, box_of
from tests.drawings import guides
from tests.drawings.labels import outside, overlaps

ROCKET = "rolled-rocket"


@pytest.fixture(scope="module")
def rocket() -> dict[str, Pattern]:
    return {p.id: p for p in patterns_of(guides.guide(ROCKET), guides.runs(ROCKET))}


@pytest.mark.parametrize("name", guides.NAMES)
def test_every_named_pattern_is_made(name: str) -> None:
    guide = guides.guide(name)
    made = patterns_of(guide, guides.runs(name))
    named = {t.id for things in pattern_things(guide).values() for t in things}
    assert {i for p in made for i in p.id.split(", ")} == named
    stated = {t.id for t in guide.things.values() if t.words.get("pattern")}
    assert stated <= named


def test_measures_are_the_guides(rocket: dict[str, Pattern]) -> None:
    # body: 1 1/4 in former, 4 turns of 0.010 in paper on both sides: 1.330 in outside
    outside = 1.330 * 25.4
    assert rocket["fin_guide"].box.width == pytest.approx(pi * outside, abs=0.05)
    fin = box_of([s for s in rocket["fin"].shapes if s.line == "cut"])
    assert fin is not None and (fin.width, fin.height) == pytest.approx((57.15, 50.8))
    canopy = box_of([s for s in rocket["canopy"].shapes if s.line == "cut"])
    # 13 in across corners: 13 in x cos(180 deg / 8) = 13 x 0.9238795 in across flats
    assert canopy is not None and canopy.width == pytest.approx(13 * 25.4 * 0.9238795325)
    ring = rocket["rear_ring, front_ring"]
    radii = sorted(s.rx for s in ring.shapes if isinstance(s, Arc))
    assert radii[-1] == pytest.approx((1.25 - 0.020) * 25.4 / 2)
    # motor tube over its seam: 23/32 + 6 x 0.010 + 0.010 in, and 0.020 in of play
    assert radii[0] == pytest.approx((23 / 32 + 0.070 + 0.020) * 25.4 / 2)


def test_fin_guide_has_a_line_for_each_fin_and_the_lug(rocket: dict[str, Pattern]) -> None:
    strip = rocket["fin_guide"]
    labels = {s.text for s in strip.shapes if isinstance(s, Text)}
    assert {"fin 1", "fin 2", "fin 3", "fin 4", "lug"} <= labels
    around = strip.box.width
    lines = sorted(s.points[0][0] for s in strip.shapes if isinstance(s, Polyline) and not s.closed)
    assert lines == pytest.approx([0, around / 8, around / 4, around / 2, around * 3 / 4], abs=1e-6)


def test_one_outline_serves_both_rings(rocket: dict[str, Pattern]) -> None:
    assert rocket["rear_ring, front_ring"].note == "cut 1 rear ring and 1 front ring"
    assert rocket["fin"].note == "cut 4"


def test_jig_has_room_for_each_fin(rocket: dict[str, Pattern]) -> None:
    slots = [s for s in rocket["fin_jig"].shapes if isinstance(s, Polyline) and s.line == "cut"]
    assert len(slots) == 4
    for slot in slots:
        (_, _), (x1, y1), (x2, y2), _ = slot.points
        assert ((x1 - x2) ** 2 + (y1 - y2) ** 2) ** 0.5 > 25.4 / 16  # wider than the fin is thick
        assert (
            ((x1 + x2) / 2) ** 2 + ((y1 + y2) / 2) ** 2
        ) ** 0.5 > 1.36 * 12.7 + 50.8  # deeper than its span


@pytest.mark.parametrize("paper", ["", "letter", "a4"])
def test_sheets_are_clear(paper: str) -> None:
    made = pattern_sheets(guides.guide(ROCKET), guides.runs(ROCKET), paper=paper)
    revision = guides.guide(ROCKET).revision
    assert len(made) >= 4 and revision is not None
    for sheet in made:
        assert overlaps(sheet.shapes) == []
        assert outside(sheet) == []
        assert sheet.true_size
        head = " ".join(t.text for t in sheet.texts())
        assert guides.guide(ROCKET).title in head and f"revision {revision.number}" in head


def test_only_the_wanted_patterns() -> None:
    made = pattern_sheets(guides.guide(ROCKET), guides.runs(ROCKET), things=["fin"])
    assert [p for s in made for p in s.parts()] == ["fin"]


def test_a_slot_that_cannot_be_cut_leaves_the_ring() -> None:
    from builder.dryrun.kinds import VERBS
    from builder.dryrun.run import run_all
    from builder.guide.reader import read

    source = guides.guide(ROCKET)
    wide = source.texts[source.file].replace(
        "width: 1/8 in, thickness: 1/32 in", "width: 9 in, thickness: 1/32 in"
    )
    assert wide != source.texts[source.file]
    guide = read({**source.texts, source.file: wide}, source.file, VERBS, ROCKET)
    made = {p.id: p for p in patterns_of(guide, run_all(guide))}
    assert not [
        s for s in made["rear_ring, front_ring"].shapes if isinstance(s, Polyline) and s.line == "cut"
    ]
