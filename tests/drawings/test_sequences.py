"""The pictures of acts: rolling, winding, folding, tying, packing, and glue before it is covered."""

from __future__ import annotations

from math import atan2, cos, degrees, hypot, pi, radians, sin

import pytest

from builder.drawings.assembly import assemblies
from builder.drawings.captions import LEGEND, ordered, with_legend
from builder.drawings.developments import helical_wrap
from builder.drawings.half_section import half_section
from builder.drawings.of_canopy import canopy
from builder.drawings.of_fold import Folding, folding
from builder.drawings.of_knot import KNOTS, OVER, ROD, crossings_of, knot_drawing, overhand, strands
from builder.drawings.of_sheet import half_angle, hung
from builder.drawings.of_wrap import Helix, helix, helix_of
from builder.drawings.scene import Placed, Scene
from builder.drawings.shapes import Arc, Arrow, Drawing, Polyline, finished, segment
from builder.drawings.solids import Slab, Stretch, Turned, inside_polygon
from builder.drawings.style import LINES
from builder.drawings.views import side
from builder.drawings.which_view import VIEWS, view_for
from builder.dryrun.kinds import VERBS
from builder.dryrun.run import run_all
from builder.guide.reader import read
from tests.drawings import guides
from tests.drawings.labels import outside, overlaps, struck

SIZE = (160.0, 95.0)
IN = 25.4


def clear(drawing: Drawing) -> None:
    assert overlaps(drawing.shapes) == []
    assert struck(drawing.shapes) == []
    assert outside(drawing) == []


# -- a strip wound in a helix ----------------------------------------------------------------------

# diameter, strip, length, overlap, angle to the hoop direction, pitch: the table of helical wraps in inches
# (sin a = w / (pi D), pitch = w / cos a; "Taping a cylinder", Math Forum, and recomputed)
WRAPS = (
    (1.0, 1.5, 12.0, 0.0, 28.5200, 1.7072),
    (1.0, 1.0, 12.0, 0.0, 18.5607, 1.0549),
    (2.0, 3.0, 10.0, 0.0, 28.5200, 3.4143),
    (1.0, 1.5, 12.0, 0.25, 23.4462, 1.3625),
    (1.0, 1.5, 12.0, 0.75, 13.8117, 0.7723),
)


def edges(drawing: Drawing, line: str) -> list[Polyline]:
    return [s for s in drawing.shapes if isinstance(s, Polyline) and s.line == line and len(s.points) > 2]


@pytest.mark.parametrize(("d", "w", "length", "lap", "angle", "pitch"), WRAPS)
def test_a_helix_has_its_true_angle_pitch_and_overlap(
    d: float, w: float, length: float, lap: float, angle: float, pitch: float
) -> None:
    made = helix(Helix("tape", "dowel", d * IN, w * IN, length * IN, lap * IN, "tube"), "t", SIZE)
    clear(made)
    body = next(s for s in made.shapes if isinstance(s, Polyline) and s.closed and s.part is None)
    xs, ys = zip(*body.points, strict=True)
    scale = (max(xs) - min(xs)) / (length * IN)
    middle = (max(ys) + min(ys)) / 2
    whole = [e for e in edges(made, "new") if len(e.points) == 25]
    assert whole
    crossing = [_at_height(e, middle) for e in whole]
    steps = [b[0] - a[0] for a, b in zip(crossing, crossing[1:], strict=False)]
    assert all(s == pytest.approx(pitch * IN * scale, rel=1e-4) for s in steps)
    # where an edge crosses the middle it leans by the angle to a line straight round the tube
    assert crossing[0][1] == pytest.approx(angle, abs=0.15)  # a chord of 7.5 degrees of the winding
    assert f"{angle:.1f}°" in {t.text for t in made.texts()}
    assert f"{angle:.1f}°" in made.alt
    beneath = edges(made, "hidden")
    assert bool(beneath) == (lap > 0)
    if lap > 0:
        at = _at_height(next(e for e in beneath if len(e.points) == 25), middle)[0]
        # the edge beneath lies the overlap over cos(angle) farther along the tube
        wanted = lap * IN / cos(radians(angle)) * scale
        assert min(abs(at - c[0] - wanted) for c in crossing) < 0.01


def _at_height(edge: Polyline, y: float) -> tuple[float, float]:
    """Where an edge crosses a height, and how far it leans there, degrees from upright."""
    for (x0, y0), (x1, y1) in zip(edge.points, edge.points[1:], strict=False):
        if (y0 - y) * (y1 - y) <= 0 and y0 != y1:
            share = (y - y0) / (y1 - y0)
            return x0 + (x1 - x0) * share, degrees(atan2(abs(x1 - x0), abs(y1 - y0)))
    raise AssertionError("the edge does not cross")


TAPE = """title: A taped tube
units: {first: in, second: mm, finest: 1/16 in}
materials:
  roll: {name: gummed tape, form: strip, length: 40 in, width: 1 1/2 in}
tools:
  dowel: {name: 1 in dowel, form: rod, diameter: 1 in, length: 14 in}
  snips: {name: scissors}
parts:
  strip: {name: tape strip, form: strip, of: roll, length: 27.8931 in, width: 1 1/2 in}
  tube: {form: tube, inside: 1 in, wall: 1/64 in, length: 12 in}
steps:
  - id: cut
    title: Cut the strip
    time: 2 min
    actions:
      - {cut: strip, from: roll, with: snips}
  - id: wind
    title: Wind the tube
    time: 4 min
    actions:
      - {wrap: strip, around: dowel, makes: tube}
finished: {is: tube, holds: all}
"""


def test_a_step_that_winds_a_strip_shows_the_helix() -> None:
    """27.8931 in is the uncut strip that just covers 12 in of a 1 in tube; 33.0415 in laps by 1/4."""
    guide = read({"guide.yml": TAPE}, "guide.yml", VERBS, "tape")
    frames = [f for f in run_all(guide)[0].frames if f.step.id == "wind"]
    wound = helix_of(guide, frames[0])
    assert wound is not None
    assert wound.overlap == pytest.approx(0.0, abs=0.05)
    longer = TAPE.replace("27.8931 in", "33.0415 in")  # the same strip with an overlap of 1/4 in
    other = read({"guide.yml": longer}, "guide.yml", VERBS, "tape")
    again = helix_of(other, [f for f in run_all(other)[0].frames if f.step.id == "wind"][0])
    assert again is not None
    assert again.overlap == pytest.approx(0.25 * IN, abs=0.02)
    from builder.drawings.of_step import drawing_of

    made = drawing_of(other, [f for f in run_all(other)[0].frames if f.step.id == "wind"])
    assert f"{helical_wrap(1, 1.5, 12, 0.25).angle:.1f}°" in made.alt and "laps over" in made.alt
    clear(made)


# -- a blank rolled into a tube --------------------------------------------------------------------


@pytest.mark.parametrize(("step", "turns"), [("body_roll", 4), ("motor_roll", 3)])
def test_a_rolled_tube_shows_its_turns_and_where_the_glue_begins(step: str, turns: int) -> None:
    guide = guides.guide("rolled-rocket")
    made = guides.drawings("rolled-rocket", 0)[step]
    tube = guide.things["body" if step == "body_roll" else "motor_tube"]
    own = [s for s in made.shapes if isinstance(s, Polyline) and s.part == tube.id]
    winding = max(own, key=lambda s: len(s.points))
    centre = next(s for s in made.shapes if isinstance(s, Arc) and s.line == "outline").centre  # the former
    swept = 0.0
    for a, b in zip(winding.points, winding.points[1:], strict=False):
        u, v = ((p[0] - centre[0], p[1] - centre[1]) for p in (a, b))
        swept += degrees(atan2(u[0] * v[1] - u[1] * v[0], u[0] * v[0] + u[1] * v[1]))
    assert swept == pytest.approx(360 * turns, abs=1)
    assert f"{turns} turns" in made.alt and "begins at turn 2" in made.alt
    # the dry stretch of the blank is once round the former: pi D of a blank as long as its wrap
    blank = guide.things[f"{tube.id}.blank"]
    sides = [float(blank.mm(field) or 0) for field in ("length", "width")]
    long = max(sides, key=lambda side: abs(side - float(tube.mm("length") or 0)))
    sheet = next(s for s in made.shapes if isinstance(s, Polyline) and s.closed and s.part == tube.id)
    xs = [p[0] for p in sheet.points]
    edge = next(s for s in made.shapes if isinstance(s, Polyline) and s.line == "thin" and s.part is None)
    dry = (edge.points[0][0] - min(xs)) / (max(xs) - min(xs)) * long
    assert dry == pytest.approx(pi * float(tube.mm("inside") or 0), abs=0.2)


# -- folds -----------------------------------------------------------------------------------------


DIMS = (("1 in (25.4 mm)", 0.0, 25.4), ("2 in (50.8 mm)", 0.0, 50.8))


def test_folds_lie_where_the_step_says() -> None:
    """A strip of 3 in with folds at 1 in and 2 in: two dashed lines that share it in three."""
    fold = Folding("a", "anchor", 76.2, 25.4, (25.4, 50.8), "cord", "c", "white glue", DIMS)
    made = folding(fold, "t", SIZE)
    clear(made)
    strip = next(s for s in made.shapes if isinstance(s, Polyline) and s.closed and s.line == "outline")
    xs = [p[0] for p in strip.points]
    folds = [s.points[0][0] for s in made.shapes if isinstance(s, Polyline) and s.line == "fold"]
    assert [(x - min(xs)) / (max(xs) - min(xs)) for x in folds] == pytest.approx([1 / 3, 2 / 3])
    assert "1 in (25.4 mm) and 2 in (50.8 mm)" in made.alt
    assert "two fold lines" in made.alt and "cord" in made.alt


def test_the_anchor_of_the_rocket_is_folded() -> None:
    made = guides.drawings("rolled-rocket", 0)["anchor_make"]
    assert sum(s.line == "fold" and s.part == "anchor" for s in made.shapes) == 2
    words = {t.text.replace("\N{NO-BREAK SPACE}", " ") for t in made.texts()}
    assert {"first", "then"} <= words  # cut, then glued and folded
    assert {"1 in (25.4 mm)", "2 in (50.8 mm)"} <= words  # `at: [1 in from left, 2 in from left]`


# -- knots -----------------------------------------------------------------------------------------


@pytest.mark.parametrize("solid", [False, True])
def test_the_end_of_an_overhand_knot_comes_out_through_its_loop(solid: bool) -> None:
    """The loop is the way between the two times that the cord passes the crossing at which the loop closes.
    The end, which follows after that crossing, lies inside the loop for a while and ends outside it."""
    points = overhand(solid).points
    first, second, at = min(crossings_of(points), key=lambda c: (-c[2][1], c[0]))
    loop = (at, *points[first + 1 : second + 1])
    end = points[second + 1 :]
    within = [inside_polygon(p, loop) for p in end]
    assert within.count(True) >= 6 and not within[0] and not within[-1]
    assert sum(a != b for a, b in zip(within, within[1:], strict=False)) == 2


@pytest.mark.parametrize("solid", [False, True])
def test_an_overhand_knot_has_three_crossings_over_and_under_in_turn(solid: bool) -> None:
    """The overhand knot is the trefoil: three crossings, alternating (knot tables, from memory)."""
    points = overhand(solid).points
    met = crossings_of(points)
    assert len(met) == 3
    passed = sorted((piece, n) for n, (i, j, _) in enumerate(met) for piece in (i, j))
    under = [n for k, (_, n) in enumerate(passed) if k % 2 == 0]
    assert sorted(under) == [0, 1, 2]  # each crossing has one strand behind
    gaps = len(strands(points, None)) - 1
    assert gaps == 3


def test_a_cord_round_a_rod_stays_outside_it_and_goes_round_it() -> None:
    """The rod is seen from its end: no point of the cord lies in the disc, and the cord's way round its
    middle is a whole turn but for what is open below, where the two strands come together."""
    points = overhand(True).points
    assert min(hypot(x, y) for x, y in points) > ROD
    angles = [atan2(y, x) for x, y in points if y < 8.9]
    steps = [(b - a + pi) % (2 * pi) - pi for a, b in zip(angles, angles[1:], strict=False)]
    assert abs(degrees(sum(steps))) > 270
    made = guides.drawings("sail-cart", 0)["telltale_on"]
    assert any(s.line == "hatch" for s in made.shapes)
    assert "goes once round the outside of it" in made.alt


def test_a_cord_through_an_eye_passes_before_and_behind_its_wire() -> None:
    """One strand is open at the wire, and the wire is open at the other."""
    points = overhand().points
    assert len(strands(points, OVER)) == len(strands(points, None)) + 1
    made = knot_drawing("overhand", "cord", "eye", "t", item="c")
    assert made is not None
    assert all(s.sweep < 360 for s in made.shapes if isinstance(s, Arc) and s.line == "outline")
    tied = guides.drawings("rolled-rocket", 0)["tie_up"]
    assert {"8 shroud lines", "shock cord"} <= {t.text for t in tied.texts()}


def test_a_knot_without_a_schematic_has_no_picture() -> None:
    assert knot_drawing("bowline", "cord", "eye", "t", item="c") is None
    for name in KNOTS:
        made = knot_drawing(name, "cord", "screw eye", "t", item="c")
        assert made is not None and name in made.alt
        clear(made)


# -- a canopy, a bowed sheet -----------------------------------------------------------------------


def test_a_canopy_is_packed_in_three_pictures() -> None:
    thing = guides.guide("rolled-rocket").things["canopy"]
    made = canopy(thing, "shroud lines", "t", 160.0)
    assert made is not None
    clear(made)
    flat = next(s for s in made.shapes if isinstance(s, Polyline) and s.closed and s.line == "outline")
    assert len(flat.points) == 8
    assert all(word in made.alt for word in ("First", "Then", "Last", "spike", "rolled"))


def test_a_bowed_sheet_keeps_its_length() -> None:
    """Holes 160 mm apart in the flat sheet, on the mast 140 mm apart: sin(a) / a = 0.875, a = 0.8831 rad (the
    series 1 - a^2/6 + a^4/120 - a^6/5040 gives 0.87500), the bow is 160 / 2a = 90.59 mm in radius and stands
    90.59 (1 - cos a) = 33.1 mm off the mast."""
    half = half_angle(140 / 160)
    assert sin(half) / half == pytest.approx(0.875)
    assert half == pytest.approx(0.8831, abs=1e-4)
    sheet = Slab(((0, 0), (180, 0), (180, 200), (0, 200)), 0.3)
    solid, pose = hung((50.0, 190.0), [20.0, 180.0], sheet, 3.0)
    assert isinstance(solid, Slab) and solid.thickness == 180
    outer = solid.outline[: len(solid.outline) // 2]
    length = sum(hypot(b[0] - a[0], b[1] - a[1]) for a, b in zip(outer, outer[1:], strict=False))
    assert length == pytest.approx(200, rel=2e-3)  # twelve chords of an arc of 200 mm
    world = [pose.world((x, y, 0.0)) for x, y in outer]
    assert min(p[1] for p in world) == pytest.approx(-33.1, abs=0.1)
    on_mast = [p[0] for p in world if abs(p[1]) < 6]
    assert min(abs(x - 50) for x in on_mast) < 6 and min(abs(x - 190) for x in on_mast) < 6


def test_the_sail_of_the_cart_is_bowed_and_measured_up_the_mast() -> None:
    made = guides.drawings("sail-cart", 0)["sail_on"]
    words = {t.text.replace("\N{NO-BREAK SPACE}", " ") for t in made.texts()}
    assert {"50 mm", "190 mm"} <= words
    sail = [s for s in made.shapes if isinstance(s, Polyline) and s.part == "sail"]
    ends = [(s.points[0], s.points[1]) for s in sail]
    assert len({round(degrees(atan2(b[1] - a[1], b[0] - a[0]))) for a, b in ends}) > 8


# -- what is put round pictures --------------------------------------------------------------------


def test_a_legend_explains_the_classes_that_are_used_and_no_others() -> None:
    for name, route in guides.ROUTES:
        for step, drawing in guides.drawings(name, route).items():
            used = {s.line for s in drawing.shapes}
            words = {t.text for t in drawing.texts()}
            for word, classes in LEGEND:
                if word == "new in this step":
                    continue
                assert (word in words) == bool(used & set(classes)), (step, word)
    assert all(c in LINES for _, classes in LEGEND for c in classes)


def test_a_thin_wall_that_is_cut_through_is_explained_as_a_hatched_one_is() -> None:
    """A wall of 0.2 mm, at 2.5 : 1 at most, is thinner on paper than a hatch needs; one of 5 mm is not."""
    for wall, line in ((0.2, "section"), (5.0, "hatch")):
        tube = Turned((Stretch(0.0, 80.0, 20.0, 20.0),), (Stretch(0.0, 80.0, 20.0 - wall, 20.0 - wall),))
        drawing = half_section(Scene("t", (Placed("tube", "tube", tube),)))
        before = sum(s.line == line for s in drawing.shapes)
        made = with_legend(drawing, 160.0)
        assert "cut open" in [t.text for t in made.texts()]
        assert sum(s.line == line for s in made.shapes) == before + 1
    outside = side(Scene("t", (Placed("tube", "tube", tube),)))
    assert "cut open" not in [t.text for t in with_legend(outside, 160.0).texts()]


def test_a_legend_grows_downwards() -> None:
    plain = finished("t", "a.", [segment((0, 0), (50, 0), "outline"), segment((0, 5), (50, 5), "hidden")])
    made = with_legend(plain, 160.0)
    assert made.height > plain.height
    assert outside(made) == [] and "behind something" in {t.text for t in made.texts()}


def test_several_pictures_say_their_order() -> None:
    one = finished("t", "a.", [segment((0, 0), (50, 0), "outline")])
    words = [[t.text for t in d.texts()] for d in ordered([one, one, one])]
    assert words == [["first"], ["then"], ["last"]]
    assert ordered([one]) == [one]


def test_every_row_of_the_table_of_views_says_why() -> None:
    assert VIEWS[-1].view == "side" and all(row.why for row in VIEWS)
    assert len({row.why for row in VIEWS}) == len(VIEWS)


LOOKS = {"half section": "side", "round": "side", "developed": "side", "elevation": "axonometric"}
"""Views that look the same way: a section and an end view beside the side do not turn the piece."""


@pytest.mark.parametrize(("name", "route"), guides.ROUTES)
def test_a_step_that_changes_nothing_is_seen_as_the_step_before(name: str, route: int) -> None:
    guide = guides.guide(name)
    last: dict[str, str] = {}
    for step_id, step in guides.steps(name, route).items():
        quiet = not (step.seated or step.marks or step.wets or step.coats or step.holes or step.joints)
        for assembly in assemblies(guide, step):
            view = view_for(guide, step, assembly)
            look = LOOKS.get(view, view)
            if quiet and assembly.root in last:
                assert look == last[assembly.root], (step_id, assembly.root)
            last[assembly.root] = look


@pytest.mark.parametrize(
    ("name", "step", "words"),
    [
        ("sail-cart", "block_on", "White PVA glue on the under face of the mast block."),
        ("sail-cart", "mast_in", "White PVA glue on the outside of the mast."),
        ("rolled-rocket", "lug_on", "White PVA glue on the outside of the launch lug."),
    ],
)
def test_glue_is_shown_before_it_is_covered(name: str, step: str, words: str) -> None:
    made = guides.drawings(name, 0)[step]
    assert words in made.alt
    assert any(s.line == "glue" for s in made.shapes)
    assert "first" in {t.text for t in made.texts()}


def test_a_dimension_too_small_to_see_has_a_detail() -> None:
    """1/4 in (6.35 mm) at 1 : 1 is 6.35 mm on paper, between the arrows of the detail."""
    made = guides.drawings("rolled-rocket", 0)["jig_fins"]
    assert "A, 1 : 1" in {t.text for t in made.texts()}
    assert "Detail A, at 1 : 1" in made.alt and "1/4" in made.alt.partition("Detail A")[2]
    tips = [s.tip[0] for s in made.shapes if isinstance(s, Arrow) and s.line == "dimension"]
    assert any(abs(abs(a - b) - 6.35) < 0.02 for a in tips for b in tips)
