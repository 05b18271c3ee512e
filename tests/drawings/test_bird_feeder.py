"""A kit of boards and posts: posts in holes, a board on its edge, a roof that posts go through, eyes on it,
glue on both faces. Sizes by hand, from the sums at the head of the guide."""

from __future__ import annotations

from functools import cache
from pathlib import Path

import pytest

from builder.checks.judge import check
from builder.drawings.checks import check_drawings
from builder.drawings.of_bench import Sitting, settle
from builder.drawings.of_step import drawings_of
from builder.drawings.solids import Slab, Turned
from builder.drawings.vectors import Vec
from builder.dryrun.kinds import VERBS
from builder.dryrun.run import DryRun, run_all
from builder.guide.model import Guide
from builder.guide.reader import read_guide

FOLDER = Path(__file__).parents[1] / "fixtures" / "guides" / "bird-feeder"


@cache
def feeder() -> tuple[Guide, tuple[DryRun, ...]]:
    guide = read_guide(FOLDER / "guide.yml", VERBS)
    return guide, run_all(guide)


def box(sitting: Sitting) -> tuple[Vec, Vec]:
    """The least and the greatest corner of a solid in the world."""
    solid = sitting.solid
    if isinstance(solid, Slab):
        own: list[Vec] = [(*p, z) for p in solid.outline for z in (0.0, solid.thickness)]
    else:
        assert isinstance(solid, Turned)
        own = [(x, 0.0, 0.0) for x in (solid.start, solid.end)]
    world = [sitting.pose.world(p) for p in own]
    low, high = ([round(pick(c[i] for c in world), 6) for i in range(3)] for pick in (min, max))
    return (low[0], low[1], low[2]), (high[0], high[1], high[2])


def test_it_has_no_finding() -> None:
    guide, runs = feeder()
    assert [f.message for f in check(guide, runs)] == []


@pytest.mark.parametrize("route", [0, 1])
def test_every_step_is_drawn_with_what_it_handles(route: int) -> None:
    guide, runs = feeder()
    drawn = drawings_of(guide, runs[route])
    assert list(drawn) == [step.id for step in guide.routes[route].steps]
    placed: dict[str, set[str]] = {}
    for frame in runs[route].frames:
        new = set(frame.after.seats) - set(frame.before.seats)
        placed[frame.step.id] = placed.get(frame.step.id, set()) | new
    for step, items in placed.items():
        assert items <= set(drawn[step].parts()) | {"loop", "clamp 1", "clamp 2", "board"}, step
    assert [f.message for f in check_drawings(guide, (runs[route],))] == []


@pytest.mark.parametrize(
    ("item", "low", "high"),
    [
        # 25 from the edges of a floor of 200 x 140, and 9 + 110 + 9 = 128 high
        ("post 1", (25, 25, 0), (25, 25, 128)),
        ("post 2", (25, 115, 0), (25, 115, 128)),
        ("post 3", (175, 25, 0), (175, 25, 128)),
        ("post 4", (175, 115, 0), (175, 115, 128)),
        # on the 9 of the floor, 10 high; the short ones between the long ones: 140 - 12 - 12 = 116
        ("long_rim 1", (0, 0, 9), (200, 12, 19)),
        ("long_rim 2", (0, 128, 9), (200, 140, 19)),
        ("short_rim 1", (0, 12, 9), (12, 128, 19)),
        ("short_rim 2", (188, 12, 9), (200, 128, 19)),
        # 9 thick and 20 from the back: 140 - 20 - 9 = 111; 130 long from 35; 9 + 58 = 67
        ("windbreak", (35, 111, 9), (165, 120, 67)),
        # flush with the heads, so 119 to 128; 20 past the floor on every side
        ("roof", (-20, -20, 119), (220, 160, 128)),
        # on the roof, 20 from its left: from 0 to 200, over all of its 180
        ("cover", (0, -20, 128), (200, 160, 130)),
    ],
)
def test_everything_is_where_the_guide_says(item: str, low: Vec, high: Vec) -> None:
    guide, runs = feeder()
    found = settle(guide, runs[0].frames[-1].after, "floor")
    assert box(found[item]) == (low, high)


def test_the_eyes_stand_on_the_roof() -> None:
    """10 from the left edge of the roof, which is at -20; 90 from its front, which is at -20 too."""
    guide, runs = feeder()
    found = settle(guide, runs[0].frames[-1].after, "floor")
    assert [found[f"eye {i}"].pose.origin[:2] for i in (1, 2)] == [(-10, 70), (210, 70)]


def test_the_jig_lies_level_over_all_posts() -> None:
    """200 x 140, with its middle over that of the posts, which is the floor's; on it at 119, 3 thick."""
    guide, runs = feeder()
    bench = next(f.after for f in runs[0].frames if f.action.verb.word == "slide" and f.step.id == "posts_in")
    assert box(settle(guide, bench, "floor")["spacer"]) == ((0, 0, 119), (200, 140, 122))
