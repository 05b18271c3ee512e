"""Which way things lie and come in: a nose is never turned unasked, arrows, ticks, letters, a slot."""

from __future__ import annotations

import pytest

from builder.drawings.of_pattern import patterns_of
from builder.drawings.of_stage import whole
from builder.drawings.shapes import Arc, Polyline, Text, box_of
from builder.drawings.told_by import middle_of
from tests.drawings import guides

IN = 25.4


def _xs(step: str, part: str, route: int = 0) -> list[float]:
    made = guides.drawings("rolled-rocket", route)[step]
    own = [s for s in made.shapes if isinstance(s, Polyline) and s.part == part]
    return [p[0] for s in own for p in s.points]


@pytest.mark.parametrize("step", ["close", "coat_1", "open_up", "eye_in", "eye_cure", "tie_up", "nose_on"])
def test_a_nose_points_to_the_right_from_the_first_step_to_the_last(step: str) -> None:
    """Its tip is where its name or that of the front stands: nobody turns it between two pictures."""
    made = guides.drawings("rolled-rocket", 0)[step]
    words = {t.text.removeprefix("to "): t.at[0] for t in made.texts()}
    left, right = ("base", "tip") if "tip" in words else ("rear", "front")
    assert words[left] < words[right]
    assert f"The {right} end is on the left" not in made.alt


def test_the_end_that_is_marked_is_seen_on_its_own_side() -> None:
    made = guides.drawings("rolled-rocket", 0)["eye_in"]
    assert made.alt.startswith("On the left the view of the base end")
    rims = [s.centre[0] for s in made.shapes if isinstance(s, Arc) and s.rx > 8]
    sides = [p[0] for s in made.shapes if isinstance(s, Polyline) and s.part == "nose" for p in s.points]
    assert max(rims) < max(sides)


@pytest.mark.parametrize(
    ("name", "step", "said"),
    [
        ("rolled-rocket", "wadding_in", "goes in at the front end"),  # the mount is in the rear
        ("rolled-rocket", "canopy_in", "goes in at the front end"),
        ("rolled-rocket", "eye_in", "goes in at the base end"),
        ("card-telescope", "eye_lens_in", "goes in at the rear end"),  # into a ring that is in the tube
        ("sail-cart", "axles_in", "which way it goes: the axle"),
        ("sail-cart", "last_wheels", "which way it goes: the wheel"),
        ("sail-cart", "mast_in", "which way it goes: the mast"),
        ("sail-cart", "sail_on", "which way it goes: the sail"),
    ],
)
def test_an_arrow_shows_the_way_in(name: str, step: str, said: str) -> None:
    made = guides.drawings(name, 0)[step]
    assert said in made.alt
    assert any(s.line == "way" for s in made.shapes)


def test_axles_come_in_over_the_left_edge() -> None:
    """The underside is up and the left edge above: both arrows point down, from above all that is drawn."""
    made = guides.drawings("sail-cart", 0)["axles_in"]
    shafts = [s.points for s in made.shapes if isinstance(s, Polyline) and s.line == "way" and s.part]
    shafts = [p for p in shafts if len(p) == 2]
    assert len(shafts) == 2
    wheels = box_of(s for s in made.shapes if s.part is not None and s.part.startswith("wheel"))
    assert wheels is not None
    for tail, tip in shafts:
        assert tail[0] == pytest.approx(tip[0]) and tail[1] < tip[1] < wheels.top


def test_ticks_are_short_and_the_lines_through_them_long() -> None:
    """The fin guide is 1 in wide and lies flush with the rear, so the ticks begin 1 in from there; a fin's
    root is 2 1/4 in long and begins at 1/4 in (`tail: 1/4 in, fin_root: fin.root`)."""
    made = guides.drawings("rolled-rocket", 1)["guide"]
    skin = [s for s in made.shapes if isinstance(s, Polyline) and s.part in ("fin_ticks", "fin_lines")]
    first = [s for s in skin if s.line == "new_mark" and s.part == "fin_ticks"]
    long = [s for s in skin if s.line == "new_mark" and s.part == "fin_lines"]
    assert len(first) == 4 and len(long) == 8  # each line goes on beyond its tick

    def length(s: Polyline) -> float:
        return abs(s.points[1][0] - s.points[0][0])

    reach = max(p[0] for s in long for p in s.points) - min(p[0] for s in long for p in s.points)
    scale = reach / (2.25 * IN)
    early = [s for s in skin if s.line == "mark" and s.part == "fin_ticks"]
    assert [length(s) for s in early] == pytest.approx([6 * scale] * 4, abs=0.02)
    start = min(p[0] for s in long for p in s.points) - 0.25 * IN * scale
    assert min(s.points[0][0] for s in early) - start == pytest.approx(IN * scale, abs=0.02)
    after = guides.drawings("rolled-rocket", 1)["lug_on"]
    words = {t.text for t in after.texts()}
    assert "fin lines" in words and "fin ticks" not in words


def test_the_mask_is_drawn_with_its_slot() -> None:
    """The slot lets the clip through: 1/8 in and 1/16 in of play wide, 1/32 in and the play high."""
    made = guides.drawings("rolled-rocket", 0)["close"]
    rims = [s for s in made.shapes if isinstance(s, Arc) and s.part == "rear_mask"]
    slots = [s for s in made.shapes if isinstance(s, Polyline) and s.part == "rear_mask" and s.closed]
    slot = box_of([next(s for s in slots if len(s.points) == 4)])
    outside = float(guides.guide("rolled-rocket").things["body"].mm("outside") or 0)
    scale = 2 * max(r.rx for r in rims) / outside
    assert slot is not None
    assert slot.width == pytest.approx((1 / 8 + 1 / 16) * IN * scale, abs=0.05)
    assert slot.height == pytest.approx((1 / 32 + 1 / 16) * IN * scale, abs=0.05)


def test_a_printed_part_that_is_told_by_its_letter_has_it_on_its_pattern() -> None:
    guide = guides.guide("sail-cart")
    found = {p.id: [s.text for s in p.shapes if isinstance(s, Text)] for p in patterns_of(guide, ())}
    assert found["left_stripe"] == ["L"] and found["right_stripe"] == ["R"] and found["badge"] == []
    for pattern in patterns_of(guide, ()):
        for text in (s for s in pattern.shapes if isinstance(s, Text)):
            box = text.box()
            # inside the rectangle of 15 mm, right of its slanted end (15 mm along)
            assert box.left > 15 and box.right < 80 and box.top > -15 and box.bottom < 0, pattern.id


def test_the_middle_of_a_triangle_is_a_third_up() -> None:
    assert middle_of(((0, 0), (3, 0), (0, 3))) == pytest.approx((1, 1))
    assert middle_of(((0, 0), (0, 3), (3, 0))) == pytest.approx((1, 1))


def test_a_telltale_streams_to_where_the_wind_blows() -> None:
    """The wind comes from behind and fills the hollow side of the sail, so the thread streams to the front:
    in the side view to the left of the mast, as the belly of the sail does."""
    made = guides.drawings("sail-cart", 0)["telltale_on"]
    thread = [s for s in made.shapes if isinstance(s, Polyline) and s.part == "telltale"]
    mast = [s for s in made.shapes if isinstance(s, Polyline) and s.part == "mast"]
    right = max(p[0] for s in mast for p in s.points)
    near = [p[0] for s in thread for p in s.points if abs(p[0] - right) < 25 and s.line == "new"]
    assert min(near) < right - 5 and max(near) < right + 2
    assert "streaming away from the hollow side of the sail" in made.alt


def test_names_keep_beside_a_picture_that_may_be_no_higher() -> None:
    """The picture alone is 53 mm high, the drawing 57.1 mm at most with its margins."""
    guide = guides.guide("sail-cart")
    bench = guides.runs("sail-cart")[0].end
    made = whole(guide, bench, "deck", "t", size=(142.0, 53.0), tallest=57.1)
    free = whole(guide, bench, "deck", "t", size=(142.0, 53.0))
    assert made is not None and free is not None
    assert made.height <= 57.1 < free.height
    assert {t.text for t in made.texts()} == {t.text for t in free.texts()}
