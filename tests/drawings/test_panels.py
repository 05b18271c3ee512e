"""Panels in the order of the actions, and glue at its own place before anything covers it."""

from __future__ import annotations

import pytest

from builder.drawings.bodies import camera_for
from builder.drawings.captions import EACH
from builder.drawings.changes import changes
from builder.drawings.of_bench import settle
from builder.drawings.of_glue import bands_of
from builder.drawings.of_scene import scene_of
from builder.drawings.panels import MOST, in_rows, panels_of
from builder.drawings.pending import placed_glue
from builder.drawings.project import Viewer
from builder.drawings.scene import Placed, Scene
from builder.drawings.shapes import Drawing, Hatch, Polyline, Text, box_of, circle, finished, points_of
from builder.drawings.solids import rod
from builder.drawings.style import LINES
from builder.drawings.views import seen
from tests.drawings import guides

IN = 25.4


@pytest.mark.parametrize(
    ("name", "step", "kinds"),
    [
        # as the guides say: mark, drill, glue, screw
        ("rolled-rocket", "eye_in", ["mark", "hole", "glue", "place"]),
        ("rolled-rocket", "lug_on", ["mark", "glue", "place"]),
        ("rolled-rocket", "mount_half", ["glue", "place"]),
        # glue and fold have pictures of their own together
        ("rolled-rocket", "anchor_make", ["cut", "fold"]),
        # of four fins with two acts each, eight in all, the first stands for all
        ("rolled-rocket", "jig_fins", ["glue", "place"]),
        # two straws with two acts each, one at a time
        ("sail-cart", "bearings", ["glue", "place", "glue", "place"]),
        # cut, glue L, lay L, glue R, lay R are five: the piece is cut out where it is glued
        ("sail-cart", "stripes", ["glue", "place", "glue", "place"]),
        ("sail-cart", "badge_on", ["cut", "mark", "glue", "place"]),
        ("card-telescope", "band_on", ["cut", "mark", "glue", "place"]),
        # the weight is off before the drill comes
        ("sail-cart", "hole", ["hole"]),
        # what is tried is seen as it sits, and as it comes out again
        ("rolled-rocket", "mount_check", ["place", "lift"]),
        ("card-telescope", "back_line_on", ["mark"]),
    ],
)
def test_panels_follow_the_actions(name: str, step: str, kinds: list[str]) -> None:
    found = panels_of(guides.frames(name, 0)[step])
    assert [p.kind for p in found] == kinds


@pytest.mark.parametrize(("name", "route"), guides.ROUTES)
def test_no_frame_is_lost_and_none_comes_before_its_turn(name: str, route: int) -> None:
    """The panels hold the step's frames in their order; of a repeat, the last panel goes through it again."""
    for step, frames in guides.frames(name, route).items():
        panels = panels_of(frames)
        assert 1 <= len(panels) <= MOST, step
        assert {id(f) for p in panels for f in p.frames} == {id(f) for f in frames}, step
        at = {id(f): i for i, f in enumerate(frames)}
        lasts = [at[id(p.frames[-1])] for p in panels]
        assert lasts == sorted(lasts), step


@pytest.mark.parametrize("name", guides.NAMES)
def test_the_words_over_panels(name: str) -> None:
    order = {1: [], 2: ["first", "then"], 3: ["first", "then", "last"], 4: ["first", "then", "then", "last"]}
    for step, drawing in guides.drawings(name, 0).items():
        panels = panels_of(guides.frames(name, 0)[step])
        if len(panels) < 2:
            continue
        words = [t.text.removesuffix(EACH) for t in drawing.texts() if t.text.removesuffix(EACH) in order[4]]
        hanging = any(p.kind == "tie" for p in panels)  # after the knots, all that was tied
        assert words == order[len(panels) + hanging], step


def _band(step: str) -> tuple[float, float, str]:
    """The glue that a step of the rocket lays, on its host before anything comes there."""
    guide = guides.guide("rolled-rocket")
    frames = placed_glue(guide, guides.frames("rolled-rocket", 0)[step])
    laid = changes(guide, [f for f in frames if f.action.verb.kind == "glue"])
    (band,) = bands_of(guide, laid, settle(guide, laid.bench, "body"))
    return band.x0 / IN, band.x1 / IN, band.face


def test_glue_for_a_part_that_comes_later_lies_where_the_part_will_sit() -> None:
    """The rings sit on the motor tube at 1/4 and 1/4 + 1/8 + 2 in from its rear, 1/8 in long; the tube comes
    to sit flush with the rear of the body, though at first 1 1/2 in of it stand out."""
    for step, at in (("mount_half", 2.375), ("mount_home", 0.25)):
        x0, x1, face = _band(step)
        assert [x0, x1] == pytest.approx([at, at + 0.125]) and face == "inside"


def test_the_panel_of_the_part_way_in_does_not_put_the_glue_at_its_ring() -> None:
    guide = guides.guide("rolled-rocket")
    frames = placed_glue(guide, guides.frames("rolled-rocket", 0)["mount_half"])
    step = changes(guide, frames)
    (band,) = bands_of(guide, step, settle(guide, step.bench, "body"))
    assert [band.x0 / IN, band.x1 / IN] == pytest.approx([2.375, 2.5])


@pytest.mark.parametrize("step", ["mount_fillets", "mount_cure", "rear_ring_on", "front_ring_on"])
def test_no_glue_lies_across_the_clip(step: str) -> None:
    """The clip lies along the top of the motor tube, at 0 degrees, 1/8 in wide; glue there stops it."""
    guide = guides.guide("rolled-rocket")
    made = guides.steps("rolled-rocket", 0)[step]
    settled = settle(guide, made.bench, "motor_tube")
    scene = scene_of(guide, made, "motor_tube", settled, "t")
    outside = [b for b in scene.bands if b.part == "motor_tube" and b.face == "outside"]
    assert outside
    radius = settled["motor_tube"].solid.largest  # type: ignore[union-attr]
    half = IN / 16 / radius * 180 / 3.14159265
    assert all(half < b.a0 and b.a1 < 360 - half for b in outside)
    for drawing in (guides.drawings("rolled-rocket", 0)[step],):
        dots = [s for s in drawing.shapes if isinstance(s, Hatch) and s.line == "glue"]
        assert dots


def test_panels_stand_in_rows() -> None:
    """Three of 60 mm in 150 mm: two in a row, then one."""
    panels = [finished("t", f"{i}.", [circle((28.0, 20.0), 28.0, "outline")]) for i in range(3)]
    made = in_rows(panels, "t", 150.0)
    rows = {round(s.centre[1]) for s in made.shapes}  # type: ignore[union-attr]
    assert len(rows) == 2 and made.width <= 150.0
    assert made.alt == "0. 1. 2."


def _words(drawing: Drawing) -> list[str]:
    return [s.text for s in drawing.shapes if isinstance(s, Text)]


def test_the_mark_has_its_dimensions_and_the_badge_that_covers_it_has_none() -> None:
    """40 mm from the back and 60 mm from the left stand in the panel in which the mark is drawn."""
    drawing = guides.drawings("sail-cart", 0)["badge_on"]
    words = [w.replace("\N{NO-BREAK SPACE}", " ") for w in _words(drawing)]
    last = words.index("last")
    measures = [i for i, w in enumerate(words) if w.startswith(("40 mm", "60 mm"))]
    first_glue = [i for i, w in enumerate(words) if w == "then"][1]
    assert len([i for i in measures if i < first_glue]) == 2
    assert not [i for i in measures if i > last]


@pytest.mark.parametrize(
    ("diameter", "line"),
    # edges are 1.1 mm wide; a third of 4 mm is more, a third of 3 mm is less
    [(4.0, "new"), (3.0, "new_thin"), (1.0, "new_thin")],
)
def test_new_edges_are_no_wider_than_a_third_of_what_they_bound(diameter: float, line: str) -> None:
    scene = Scene("t", (Placed("rod", "rod", rod(50.0, diameter), new=True),))
    shapes = seen(Viewer(scene, camera_for("side", 1.0))).shapes
    assert {s.line for s in shapes if isinstance(s, Polyline)} == {line}
    assert LINES["new"].width <= 4.0 / 3 < 2 * LINES["new"].width
    assert LINES["outline"].width < LINES["new_thin"].width < LINES["new"].width


@pytest.mark.parametrize("step", ["fillets", "fins_cure"])
def test_a_fillet_lies_in_both_corners_of_a_fin(step: str) -> None:
    """From the end a filled triangle in each of the 2 x 4 corners; from the side a dotted row above and one
    below the fin that is seen edge on."""
    drawing = guides.drawings("rolled-rocket", 0)[step]
    corners = [s for s in drawing.shapes if isinstance(s, Polyline) and s.line == "bead" and s.part == "body"]
    assert len(corners) == 8 and all(len(s.points) == 3 and s.filled for s in corners)
    # the fin at 90 degrees looks at the viewer of the side view: two level lines over one another
    sides = sorted(
        s.points[0][1]
        for s in drawing.shapes
        if isinstance(s, Polyline) and s.part in ("fin 2", "fin 4") and len(s.points) == 2
        and abs(s.points[0][1] - s.points[1][1]) < 1e-6 and min(p[0] for p in s.points) > drawing.width * 0.45
    )  # fmt: skip
    rows = [
        a[1]
        for s in drawing.shapes
        if isinstance(s, Hatch) and s.line == "glue"
        for a, b in s.runs
        if abs(a[1] - b[1]) < 1e-6
    ]
    assert any(y < sides[0] for y in rows) and any(y > sides[-1] for y in rows)
    above = [y for y in rows if 0 < sides[0] - y < 4]
    below = [y for y in rows if 0 < y - sides[-1] < 4]
    assert above and below


@pytest.mark.parametrize(
    ("name", "step", "part", "host"),
    [
        ("card-telescope", "back_ring_in", "back ring", "outer tube"),
        ("card-telescope", "front_ring_in", "front ring", "outer tube"),
        ("card-telescope", "inner_ring_in", "inner ring", "draw tube"),
        ("card-telescope", "carrier_in", "carrier ring", "draw tube"),
        ("card-telescope", "eye_ring_in", "eye ring", "draw tube"),
    ],
)
def test_the_joint_of_a_small_ring_is_drawn_enlarged(name: str, step: str, part: str, host: str) -> None:
    """A ring of 1/8 in is 3.175 mm; at 5 : 1 it is 15.9 mm long on paper, at 2 : 1 only 6.4. A row of dots
    has an odd number of them, so it is shorter by less than the way over two."""
    drawing = guides.drawings(name, 0)[step]
    said = [t.text for t in drawing.texts()]
    assert said.count("enlarged, 5 : 1") == 1
    assert f"lies between the {part} and the {host}" in drawing.alt
    top = next(t.at[1] for t in drawing.texts() if t.text == "enlarged, 5 : 1")
    dots = [
        b[0] - a[0]
        for s in drawing.shapes
        if isinstance(s, Hatch) and s.line == "glue"
        for a, b in s.runs
        if min(a[1], b[1]) > top
    ]
    assert any(0 <= 5 * IN / 8 - length < 2 * LINES["glue"].dash[1] for length in dots)
    # the dots lie midway between the wall and the ring, where the white of the gap is
    row = next(s.runs[0][0][1] for s in drawing.shapes if isinstance(s, Hatch) and s.line == "glue" and
               min(s.runs[0][0][1], s.runs[0][1][1]) > top)  # fmt: skip
    level = [
        a[1]
        for s in drawing.shapes
        if isinstance(s, Polyline) and s.line in ("thin", "section") and s.part is not None
        for a, b in zip(s.points, (*s.points[1:], s.points[0]), strict=True)
        if a[1] > top and abs(a[1] - b[1]) < 1e-6 and abs(a[0] - b[0]) > 12
    ]
    above = max(y for y in level if y < row)
    below = min(y for y in level if y > row)
    assert row - above == pytest.approx(below - row, abs=0.02)


def test_a_strip_that_is_thin_on_paper_is_drawn_enlarged_where_it_is_glued_in() -> None:
    """The cord anchor, folded paper with a cord in it, is a sliver beside the wall of the whole body.
    Enlarged, its rear end is seen, a quarter of the frame's 46 mm in, and the glue between them."""
    drawing = guides.drawings("rolled-rocket", 0)["anchor_in"]
    assert "lies between the cord anchor and the body" in drawing.alt
    top = next(t.at[1] for t in drawing.texts() if t.text == "enlarged, 2 : 1")
    box = box_of(s for s in drawing.shapes if s.part == "anchor" and next(points_of(s))[1] > top)
    frame = box_of(s for s in drawing.shapes if isinstance(s, Polyline) and s.line == "break" and s.closed)
    [row] = [s.runs[0][0][1] for s in drawing.shapes if isinstance(s, Hatch) and s.line == "glue"
             and s.runs[0][0][1] > top]  # fmt: skip
    assert box is not None and frame is not None
    assert box.left - frame.left == pytest.approx(46 / 4, abs=0.5)
    assert box.height > 1.5 and row < box.top


def test_a_ring_that_is_large_on_paper_needs_no_detail() -> None:
    said = [t.text for t in guides.drawings("rolled-rocket", 0)["thrust"].texts()]
    assert not [s for s in said if s.startswith("enlarged")]


def test_of_a_full_picture_what_the_new_part_comes_beside_is_named() -> None:
    """Five kinds stand in the draw tube; the inner ring lies behind the carrier, away from the eye ring."""
    words = [t.text for t in guides.drawings("card-telescope", 0)["eye_ring_in"].texts()]
    last = words[words.index("first") : words.index("then")]  # the word over a panel comes after its names
    assert {"eye ring", "carrier ring", "draw tube"} <= set(last) and "inner ring" not in last


@pytest.mark.parametrize(("step", "dotted"), [
    # both rings wait for their glue; that of the thrust ring inside has set half an hour ago
    ("mount_dry", ["outside", "outside"]),
    ("mount_cure", ["inside", "outside", "outside"]),
])  # fmt: skip
def test_what_dries_is_drawn_where_it_dries(step: str, dotted: list[str]) -> None:
    """The cut goes through the slots of the rings, where no glue lies: it is drawn below, in the seat."""
    drawing = guides.drawings("rolled-rocket", 0)[step]
    own = [s for s in drawing.shapes if isinstance(s, Polyline) and s.part == "motor_tube"]
    tube = box_of(s for s in own if s.line == "outline")
    seats = [
        "outside" if abs(a[1] - tube.bottom) < 0.1 else "inside"
        for s in drawing.shapes
        if isinstance(s, Hatch) and s.line == "glue" and len(s.runs) == 1
        for a, _ in s.runs
        if tube is not None and a[0] < drawing.width
        and s.part is not None
    ]
    assert sorted(seats) == dotted


def test_glue_under_a_sleeve_thinner_than_its_dots_is_named_and_not_dotted() -> None:
    drawing = guides.drawings("card-telescope", 0)["band_set"]
    assert "white PVA glue, drying, beneath" in [t.text for t in drawing.texts()]
    assert not [s for s in drawing.shapes if isinstance(s, Hatch) and s.line == "glue"]
    assert "White PVA glue, drying, beneath what lies on the outside of the draw tube." in drawing.alt
