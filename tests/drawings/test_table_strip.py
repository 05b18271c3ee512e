"""On your table now: every loose thing once, true outlines at the scale that is said, clear words."""

from __future__ import annotations

import re

import pytest
from shapely import Polygon, unary_union

from builder.drawings.shapes import Drawing, Polyline
from builder.drawings.svg import write
from builder.drawings.table_strip import BRIEF, PAGE, PRINT, SCALES, Place, on_table, strip
from tests.drawings import guides
from tests.drawings.labels import outside, overlaps, struck

NAMES = ("rolled-rocket", "card-telescope", "sail-cart")


def ratio_of(made: Drawing) -> float:
    """What the bar says, in mm, over how long it is on paper."""
    found = re.search(r"a bar of (?:.*\()?(?:about )?([\d.]+).mm", made.alt)
    bar = next(s for s in made.shapes if s.line == "dimension")
    assert found is not None and isinstance(bar, Polyline)
    return round(float(found[1]) / (bar.points[1][0] - bar.points[0][0]) * 10) / 10


@pytest.mark.parametrize("place", [PAGE, PRINT], ids=["page", "print"])
@pytest.mark.parametrize("name", NAMES)
def test_every_step_has_its_strip_with_clear_words(name: str, place: Place) -> None:
    guide = guides.guide(name)
    for step, frames in guides.frames(name, 0).items():
        made = strip(guide, frames[0].before, frames[-1].after, step, {}, place)
        if made is None:
            assert not on_table(guide, frames[-1].after)
            continue
        assert overlaps(made.shapes) == [] and struck(made.shapes) == [] and outside(made) == []
        assert made.width <= place.wide + 16
        assert len(write(made).encode()) <= 15_000
        assert ratio_of(made) in SCALES
        for text in made.texts()[:-1]:
            assert text.text in made.alt or (place.brief and text.text == BRIEF)


def test_what_is_in_hand_is_told_as_it_grows() -> None:
    """The motor mount takes thrust ring, clip and rings off the table one by one; then the body takes it."""
    guide, frames = guides.guide("rolled-rocket"), guides.frames("rolled-rocket", 0)
    tables = {step: on_table(guide, own[-1].after) for step, own in frames.items()}
    assert {"thrust_ring", "motor_tube", "body"} <= set(tables["motor_dry"])
    assert "thrust_ring" not in tables["thrust"] and "motor_tube" in tables["thrust"]
    assert "motor_tube" not in tables["mount_home"] and "body" in tables["mount_home"]
    assert [i for i in tables["cut_fins"] if i.startswith("fin ")] == ["fin 1", "fin 2", "fin 3", "fin 4"]


@pytest.mark.parametrize(
    ("step", "thing", "size"),
    [
        # 12 1/2 in long, outside 1.330 in, as it lies on its side
        ("body_dry", "body", (317.5, 33.78)),
        # root 2 1/4 in, span 2 in, from above
        ("cut_fins", "4 fins", (57.15, 50.8)),
    ],
)
def test_silhouettes_are_to_the_scale_that_is_said(step: str, thing: str, size: tuple[float, float]) -> None:
    guide, frames = guides.guide("rolled-rocket"), guides.frames("rolled-rocket", 0)[step]
    made = strip(guide, frames[0].before, frames[-1].after, step, {})
    assert made is not None
    ratio = ratio_of(made)
    at = next(t.at for t in made.texts() if t.text == thing)
    own = [s for s in made.shapes if isinstance(s, Polyline) and s.filled]
    near = [  # beneath it stands its name
        s
        for s in own
        if abs(min(x for x, _ in s.points) - at[0]) < 0.01 and 0 < at[1] - max(y for _, y in s.points) < 8
    ]
    x0, y0, x1, y1 = unary_union([Polygon(s.points) for s in near]).bounds
    assert (x1 - x0, y1 - y0) == pytest.approx((size[0] / ratio, size[1] / ratio), abs=0.05)


def test_only_what_the_step_changed_is_underlined() -> None:
    guide, frames = guides.guide("rolled-rocket"), guides.frames("rolled-rocket", 0)["cut_fins"]
    made = strip(guide, frames[0].before, frames[-1].after, "cut_fins", {})
    still = strip(guide, frames[0].before, frames[0].before, "cut_fins", {})
    assert made is not None and still is not None
    assert len([s for s in made.shapes if s.line == "new"]) == 1
    assert [s for s in still.shapes if s.line == "new"] == []
    assert "New or changed: 4 fins." in made.alt
