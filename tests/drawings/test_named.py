"""Which parts of a picture have their names, and what a wait shows of what dries."""

from __future__ import annotations

from itertools import pairwise
from math import hypot

import pytest

from builder.drawings.assembly import assemblies
from builder.drawings.bodies import camera_for
from builder.drawings.compose import callouts_for
from builder.drawings.of_glue import since_last_wait
from builder.drawings.of_scene import scene_of
from builder.drawings.scene import Placed, Scene
from builder.drawings.shapes import Arrow, Point, Polyline, Text, box_of
from builder.drawings.solids import Cord
from tests.drawings import guides

NO_BREAK = "\N{NO-BREAK SPACE}"


def words(name: str, step: str) -> list[str]:
    return [t.text.replace(NO_BREAK, " ") for t in guides.drawings(name, 0)[step].texts()]


def scenes(name: str, step: str) -> list[Scene]:
    """What is drawn of a step that is drawn at once."""
    guide, changed = guides.guide(name), guides.steps(name, 0)[step]
    return [scene_of(guide, changed, a.root, a.settled, "") for a in assemblies(guide, changed)]


@pytest.mark.parametrize(("name", "step", "named", "quiet"), [
    # the mask is taped to the rear end: nobody touches the motor tube or its clip
    ("rolled-rocket", "close", ["rear mask", "body", "front plug"], ["motor tube", "motor clip"]),
    # the lenses and rings farther in are none of the cap's
    ("card-telescope", "eye_cap_in", ["eye cap", "draw tube"],
     ["eye lens", "eye ring", "carrier ring", "inner ring"]),
    ("card-telescope", "front_ring_in", ["front ring", "outer tube", "front lens"], ["back ring"]),
    # the lens sits in the carrier ring, which the eye ring is pushed against
    ("card-telescope", "eye_ring_in", ["eye ring", "draw tube", "carrier ring"], ["eye lens", "inner ring"]),
    ("rolled-rocket", "front_ring_on", ["front ring", "motor tube"],
     ["rear ring", "thrust ring", "motor clip"]),
    ("rolled-rocket", "mount_dry", ["front ring", "rear ring", "motor tube"], ["thrust ring", "motor clip"]),
    ("rolled-rocket", "mount_fillets", ["front ring", "rear ring", "motor tube"],
     ["thrust ring", "motor clip"]),
    ("sail-cart", "badge_on", ["race badge", "deck"], ["mast block"]),
])  # fmt: skip
def test_a_bystander_has_no_name(name: str, step: str, named: list[str], quiet: list[str]) -> None:
    """What is named was taken from the guides' own text: what is glued, what it goes on, what it meets."""
    found = words(name, step)
    assert set(named) <= set(found)
    assert not set(quiet) & set(found)


def test_a_bystander_is_told_all_the_same() -> None:
    assert "thrust ring" in guides.drawings("rolled-rocket", 0)["mount_dry"].alt


@pytest.mark.parametrize(("name", "step", "named"), [
    # "... and move the draw tube in or out": words that no reference of the guide names
    ("card-telescope", "first_look", ["outer tube", "draw tube"]),
    # the wait is for both lenses
    ("card-telescope", "settle", ["front lens", "eye lens"]),
    # what holds the work while its glue dries: a weight on it, a rubber band round it, a jig
    ("sail-cart", "block_cure", ["flat weight, not to", "mast block", "deck"]),
    ("card-telescope", "band_set", ["broad rubber band", "stop band", "draw tube"]),
    ("rolled-rocket", "jig_set", ["fin jig", "fin", "body"]),
    # "through the mast block"
    ("sail-cart", "mast_in", ["mast block", "deck"]),
])  # fmt: skip
def test_what_a_step_is_about_is_named(name: str, step: str, named: list[str]) -> None:
    assert set(named) <= set(words(name, step))


@pytest.mark.parametrize(("name", "step", "parts"), [
    # stripes and badge were glued before the wait for the bearings: only the mast is new
    ("sail-cart", "cart_cure", {"mast"}),
    # the thrust ring has its glue since before the last wait, the seats of the rings since that
    ("rolled-rocket", "mount_dry", {"rear ring", "front ring"}),
    ("card-telescope", "front_ring_set", {"front ring"}),
    ("card-telescope", "eyepiece_cure", {"carrier ring", "eye ring", "eye cap"}),
    ("rolled-rocket", "eye_cure", {"screw eye"}),
    ("rolled-rocket", "anchor_cure", {"shock cord"}),
])  # fmt: skip
def test_a_wait_names_the_glue_that_was_laid_since_the_wait_before(
    name: str, step: str, parts: set[str]
) -> None:
    """One band of glue with a name for each such joint, and the part that it holds has its name too."""
    (scene,) = scenes(name, step)
    told = [b for b in scene.bands if b.label]
    assert len(told) == len(parts) and all(b.name.endswith(", drying") for b in told)
    assert parts <= {p.name for p in scene.parts if p.label}


def test_glue_that_dries_since_before_the_last_wait_is_drawn_without_a_name() -> None:
    """Three days of glue on the motor tube: the fillets, two beads to a ring, came last."""
    (scene,) = scenes("rolled-rocket", "mount_cure")
    told = [b for b in scene.bands if b.label]
    assert len({(b.x0, b.x1) for b in told}) == 4 and len(scene.bands) > len(told)


@pytest.mark.parametrize("step", ["coat_dry", "coat_cure"])
def test_a_wait_for_paint_shows_all_that_was_painted(step: str) -> None:
    painted = {"body", "launch lug", "fin", "balsa nose cone"}
    assert painted <= set(words("rolled-rocket", step))
    assert "nose" in guides.drawings("rolled-rocket", 0)[step].parts()


def test_glue_in_a_hole_is_shown_where_what_stands_in_it_comes_out() -> None:
    """The block is 12 mm high on a deck of 3 mm: the mast leaves it 15 mm above its foot."""
    (scene,) = scenes("sail-cart", "cart_cure")
    (band,) = (b for b in scene.bands if b.label)
    assert band.part == "mast" and band.x1 == pytest.approx(15.0)


def test_strands_of_one_kind_are_counted_and_their_leader_crosses_none() -> None:
    """Eight shroud lines and the shock cord hang on one eye, and the shock cord lies apart."""
    found = words("rolled-rocket", "tie_up")
    assert "8 × shroud line" in found and "shroud line" not in found and "shock cord" in found
    shapes = guides.drawings("rolled-rocket", 0)["tie_up"].shapes
    tips = {
        s.part: min(s.points)
        for s in shapes
        if isinstance(s, Polyline) and s.part is not None and s.part.startswith(("shroud", "shock"))
    }
    heights = sorted(y for part, (_, y) in tips.items() if part.startswith("shroud"))
    apart = [b - a for a, b in pairwise(heights)]
    assert heights[0] - tips["shock_cord"][1] > 1.5 * max(apart)
    ends = [a.tip[1] for a in shapes if isinstance(a, Arrow) and heights[0] - 1.5 < a.tip[1] < heights[-1]
            and a.line == "leader" and a.tip[0] < max(x for x, _ in tips.values()) + 1]  # fmt: skip
    assert any(abs(y - heights[0]) < 1.5 for y in ends)  # at the uppermost, which lies next to its name


def test_the_name_of_copies_points_to_one_that_is_new() -> None:
    """Two wheels are on already: the leader ends in one of those that the step presses on."""
    shapes = guides.drawings("sail-cart", 0)["last_wheels"].shapes
    new = box_of(s for s in shapes if s.part in ("wheel 2", "wheel 4"))
    at = next(t for t in shapes if isinstance(t, Text) and t.text == "wheel")
    tails = [s.points for s in shapes if isinstance(s, Polyline) and s.line == "leader"]
    own = min(tails, key=lambda p: min(hypot(x - at.at[0], y - at.at[1]) for x, y in p))
    end = min(own)
    assert new is not None and new.top - 1 < end[1] < new.bottom + 1


def test_a_hole_that_goes_through_says_so() -> None:
    found = " ".join(words("sail-cart", "hole"))
    assert "new hole, 6.2 mm (1/4 in), through the mast block and the deck" in found


def test_glue_behind_what_is_glued_on_is_pointed_to_at_its_edge() -> None:
    """The lug hides its glue, and the body's outline is a good way off."""
    shapes = guides.drawings("rolled-rocket", 0)["lug_cure"].shapes
    lugs = [s for s in shapes if s.part == "lug" and isinstance(s, Polyline)]
    box = box_of(s for s in lugs if max(x for x, _ in s.points) > 40)  # as it is seen from the side
    tips = [a.tip for a in shapes if isinstance(a, Arrow) and a.line == "leader"]
    assert box is not None
    assert any(box.left < x < box.right and box.top - 0.5 < y < box.bottom + 0.5 for x, y in tips)


def test_strands_of_one_kind_at_two_eyes_are_counted_apart_even_if_some_are_hidden() -> None:
    """Two lines hang on an eye at 0 and two on one at 50, of which nothing is to be seen."""
    lines = [
        Placed(f"line {n}", "line", Cord(((x, 0.0, 0.0), (x + 20.0, 0.0, 4.0 * n))))
        for n, x in ((1, 0.0), (2, 0.0), (3, 50.0), (4, 50.0))
    ]
    seen: dict[str, tuple[Point, ...]] = {
        "line 1": ((10.0, -2.0), (20.0, -4.0)),
        "line 2": ((10.0, -4.0), (20.0, -8.0)),
    }
    [named] = callouts_for(Scene("", tuple(lines)), seen, camera_for("side", 1.0))
    assert named.text == "2 × line"
    assert (named.part, named.anchors) == ("line 2", ((20.0, -8.0),))  # the uppermost, at its tip


@pytest.mark.parametrize(("route", "since"), [
    (0, ("jig_off", "fillets", "fins_cure")),
    (1, ("fillets", "fins_cure")),  # without the jig nothing is taken off after the wait for the fins
])  # fmt: skip
def test_what_was_done_since_the_last_wait_is_told_by_the_route_that_was_taken(
    route: int, since: tuple[str, ...]
) -> None:
    guide, step = guides.guide("rolled-rocket"), guides.steps("rolled-rocket", route)["fins_cure"]
    assert since_last_wait(guide, step) == since
