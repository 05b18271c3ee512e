"""The drawings of the guides' steps: what is drawn is what the bench holds, no more and no less."""

from __future__ import annotations

import pytest

from builder.drawings import svg
from builder.drawings.assembly import assemblies
from builder.drawings.of_bench import settle, thing_of
from builder.drawings.of_step import drawing_of, drawings_of
from builder.drawings.shapes import Arc, Drawing, Polyline, box_of
from builder.drawings.solids import Turned
from builder.drawings.which_view import packed_before, packed_of
from builder.dryrun.effects import Lift, Make, Place
from tests.drawings import guides
from tests.drawings.labels import outside, overlaps, struck


def _items(drawing: Drawing, name: str) -> set[str]:
    """Items with a line in a drawing; marks, stock and edges have ids of their own."""
    return {p for p in drawing.parts() if thing_of(guides.guide(name), p) is not None}


@pytest.mark.parametrize(("name", "route"), guides.ROUTES)
def test_every_step_has_a_drawing(name: str, route: int) -> None:
    made = guides.drawings(name, route)
    assert list(made) == list(guides.frames(name, route))
    for step, drawing in made.items():
        assert drawing.shapes, step
        assert drawing.title and drawing.alt.endswith("."), step


@pytest.mark.parametrize(("name", "route"), guides.ROUTES)
def test_labels_are_clear_and_files_small(name: str, route: int) -> None:
    for step, drawing in guides.drawings(name, route).items():
        assert overlaps(drawing.shapes) == [], step
        assert struck(drawing.shapes) == [], step
        assert outside(drawing) == [], step
        assert len(svg.write(drawing)) <= 15_000, step
        assert drawing.width <= 215, step


@pytest.mark.parametrize(("name", "route"), guides.ROUTES)
def test_drawn_and_hidden_together_are_the_assembly(name: str, route: int) -> None:
    """Of every assembly that a step is drawn as, each item is drawn or named as not to be seen."""
    guide = guides.guide(name)
    for step_id, step in guides.steps(name, route).items():
        drawing = guides.drawings(name, route)[step_id]
        shown = assemblies(guide, step)
        if step.cut and not any(set(a.settled) - set(step.cut) for a in shown):
            continue  # a flat lay: see below
        there = _items(drawing, name) | set(drawing.unseen)
        for a in shown:
            if set(a.settled) <= set(step.cut) and step.cut:
                continue
            expected = {i for i in step.bench.below(a.root) if _known(name, step_id, route, i)}
            if not (set(step.cut) & expected):
                assert expected <= there, step_id
        extra = _items(drawing, name) - {i for a in shown for i in a.settled} - set(step.made)
        extra -= {material for material, _, _ in (*packed_of(guide, step), *packed_before(guide, step))}
        assert not extra or not shown, (step_id, extra)


def _known(name: str, step: str, route: int, item: str) -> bool:
    """Things whose guide gives no size cannot be drawn."""
    bench = guides.steps(name, route)[step].bench
    return bool(settle(guides.guide(name), bench, item))


@pytest.mark.parametrize(("name", "route"), guides.ROUTES)
def test_neighbouring_drawings_differ_by_the_steps_effects(name: str, route: int) -> None:
    """From one step to the next of the same assembly, items come by Make and Place and go by Lift, only."""
    guide = guides.guide(name)
    steps = guides.steps(name, route)
    drawn = guides.drawings(name, route)
    last: dict[str, set[str]] = {}
    for step_id, step in steps.items():
        came = {
            i
            for f in step.frames
            for e in f.effects
            if isinstance(e, Place)
            for i in step.bench.below(e.seat.child)
        }
        came |= {e.item.key for f in step.frames for e in f.effects if isinstance(e, Make)}
        went = {
            i
            for f in step.frames
            for e in f.effects
            if isinstance(e, Lift) and e.child
            for i in f.before.below(e.child)
        }
        tied = set(step.tied)
        for a in assemblies(guide, step):
            now = (_items(drawn[step_id], name) | set(drawn[step_id].unseen)) & set(step.bench.below(a.root))
            before = last.get(a.root)
            if before is not None and not step.cut:
                assert now - before <= came | tied, step_id
                assert before - now <= went | came, step_id
            if not step.cut:
                # what is tried and taken out again within the step is drawn, and is gone after it
                end = step.frames[-1].after
                last[a.root] = {i for i in now if i not in went or i in end.seats or i == a.root}


@pytest.mark.parametrize(("name", "route"), guides.ROUTES)
def test_what_is_new_is_emphasised(name: str, route: int) -> None:
    heavy = {"new", "new_section", "new_thin", "new_hatch", "new_mark"}
    for step_id, step in guides.steps(name, route).items():
        drawing = guides.drawings(name, route)[step_id]
        classes: dict[str, set[str]] = {}
        for s in drawing.shapes:
            if s.part:
                classes.setdefault(s.part, set()).add(s.line)
        for item in (*step.seated, *step.made, *step.folded):
            if item in classes and item not in drawing.unseen:
                assert classes[item] & heavy, (step_id, item)
        for mark in step.marks:
            if mark.id in classes:
                assert "new_mark" in classes[mark.id], (step_id, mark.id)
        if any(f.action.verb.kind == "wait" for f in step.frames) and not step.new:
            assert not any(lines & {"new", "new_section", "new_thin"} for lines in classes.values()), step_id


@pytest.mark.parametrize(
    ("step", "words"),
    [
        # outside from rear: tail 1/4 in; front seat begins at 1/4 + 1/8 + 2 = 2 3/8 in
        ("mark_tube", ("1/4 in (6.4 mm)", "2 3/8 in (60.3 mm)")),
        ("thrust", ("2 1/2 in (63.5 mm)",)),
        ("front_ring_on", ("2 3/8 in (60.3 mm)",)),
        # the glue waits where the front ring comes to sit: 1/4 + 1/8 + 2 = 2 3/8 in; a ring is 1/8 in long
        ("mount_half", ("1 1/2 in (38.1 mm)", "2 3/8 in (60.3 mm)", "1/8 in (3.2 mm)")),
        ("jig_on", ("1 in (25.4 mm)",)),
        ("jig_fins", ("90°", "1/4 in (6.4 mm)")),
        ("cut_fins", ("2 1/4 in (57.2 mm)", "2 in", "(50.8 mm)")),
        # the line is as long as the lug
        ("lug_on", ("45°", "4 in (102 mm)", "1 1/2 in (38.1 mm)")),
    ],
)
def test_the_dimensions_of_a_step_and_no_others(step: str, words: tuple[str, ...]) -> None:
    drawing = guides.drawings("rolled-rocket", 0)[step]
    said = [t.text.replace("\N{NO-BREAK SPACE}", " ") for t in drawing.texts()]
    scales = {s for s in said if " : " in s}  # "A, 1 : 1" over a detail
    numbers = {s for s in said if any(c.isdigit() for c in s) and not s.startswith("left over")} - scales
    leftovers = {s for s in numbers if "left over" in " ".join(said) and s in said and "x" in s}
    assert set(words) <= numbers
    if step != "cut_fins":
        assert numbers - leftovers == set(words)


def test_three_fins_change_text_angle_and_picture() -> None:
    """One edit in the guide: four fins become three, and the drawing follows."""
    from builder.dryrun.kinds import VERBS
    from builder.dryrun.run import run_all
    from builder.guide.reader import read

    source = guides.guide("rolled-rocket")
    texts = {n: t.replace("count: 4, of: board", "count: 3, of: board") for n, t in source.texts.items()}
    assert texts != source.texts
    guide = read(texts, source.file, VERBS, "rolled-rocket")
    run = run_all(guide)[0]
    drawing = drawing_of(guide, [f for f in run.frames if f.step.id == "jig_fins"])
    assert {p for p in drawing.parts() if p.startswith("fin ")} == {"fin 1", "fin 2", "fin 3"}
    assert "120°" in {t.text for t in drawing.texts()}


def test_a_gauge_is_drawn_though_it_is_taken_out_again() -> None:
    drawing = guides.drawings("rolled-rocket", 0)["mount_check"]
    assert "dummy" in drawing.parts()
    assert "6.5 mm (1/4 in)" in {t.text.replace("\N{NO-BREAK SPACE}", " ") for t in drawing.texts()}


def test_a_wait_shows_what_dries() -> None:
    for step in ("thrust_set", "body_cure", "fins_cure"):
        drawing = guides.drawings("rolled-rocket", 0)[step]
        assert "drying" in drawing.alt
        assert any(s.line == "glue" for s in drawing.shapes)


def test_what_is_taken_away_is_told() -> None:
    alt = guides.drawings("rolled-rocket", 0)["jig_off"].alt
    assert "Taken away in this step: fin jig." in alt


def test_a_sub_assembly_goes_by_its_name() -> None:
    texts = {t.text for t in guides.drawings("rolled-rocket", 0)["mount_half"].texts()}
    assert "motor mount" in texts and "motor tube" not in texts


def test_stations_are_exact_in_the_world() -> None:
    """The mount sits flush with the rear; its rings then stand at 1/4 in and 2 3/8 in of the body."""
    guide = guides.guide("rolled-rocket")
    step = guides.steps("rolled-rocket", 0)["mount_home"]
    settled = settle(guide, step.bench, "body")
    at = {i: settled[i].pose.origin[0] for i in ("motor_tube", "rear_ring", "front_ring", "thrust_ring")}
    assert at == pytest.approx(
        {"motor_tube": 0.0, "rear_ring": 6.35, "front_ring": 60.325, "thrust_ring": 63.5}, abs=1e-9
    )


def test_fins_stand_on_the_skin_at_their_angles() -> None:
    guide = guides.guide("rolled-rocket")
    step = guides.steps("rolled-rocket", 0)["jig_fins"]
    settled = settle(guide, step.bench, "body")
    body = settled["body"].solid
    assert isinstance(body, Turned)
    for copy in range(1, 5):
        tip = settled[f"fin {copy}"].pose.world((0.0, 50.8, 1.5875 / 2))
        assert (tip[1] ** 2 + tip[2] ** 2) ** 0.5 == pytest.approx(body.largest + 50.8)


@pytest.mark.parametrize("name", guides.NAMES)
def test_a_narrower_place_is_laid_out_anew(name: str) -> None:
    """Made for 90 mm instead of 160, letters keep their size, and still nothing meets."""
    run = guides.runs(name)[0]
    for step, drawing in drawings_of(guides.guide(name), run, (90.0, 90.0)).items():
        assert overlaps(drawing.shapes) == [], step
        assert struck(drawing.shapes) == [], step
        assert outside(drawing) == [], step


@pytest.mark.parametrize(
    ("name", "step", "told"),
    [
        # two axles, each with its first wheel; one mast
        ("sail-cart", "ends", ["2 × axle", "mast"]),
        ("sail-cart", "first_wheels", ["2 × axle", "2 × wheel"]),
        # two straws, a bearing from each
        ("sail-cart", "straws_cut", ["2 × straw bearing"]),
        ("rolled-rocket", "sand_fins", ["4 × fin", "front edge: round"]),
        # all of them are drawn: each name stands for what it points to
        ("sail-cart", "last_wheels", ["axle", "wheel"]),
        # the glued face of a stripe is drawn as it lies when it is turned over
        ("sail-cart", "stripes", ["underside of the left stripe", "left stripe"]),
        # a strip that was folded has an outside, as the step calls it
        ("rolled-rocket", "anchor_in", ["outside of the cord anchor"]),
        ("sail-cart", "block_on", ["centred on the", "mast spot", "mast block"]),
        ("sail-cart", "badge_on", ["centred on the", "badge spot"]),
        ("sail-cart", "lines", ["underside of the", "deck"]),
        ("card-telescope", "back_line_on", ["back line, inside"]),
        ("rolled-rocket", "name_it", ["your name, inside"]),
        ("rolled-rocket", "mark_tube", ["rear line"]),
        ("rolled-rocket", "lug_on", ["body, rolled out flat", "body"]),
    ],
)
def test_names_say_how_many_there_are_and_which_face_is_seen(name: str, step: str, told: list[str]) -> None:
    said = [t.text for t in guides.drawings(name, 0)[step].texts()]
    assert set(told) <= set(said), said


@pytest.mark.parametrize(
    ("name", "step", "sizes"),
    [
        # the body is 12 1/2 in long, so that side lies along the dowel, and 16 1/2 in go round it
        ("rolled-rocket", "body_roll", ["16 1/2 in (419 mm)", "12 1/2 in"]),
        # the motor tube is 2 3/4 in long
        ("rolled-rocket", "motor_roll", ["7 5/16 in (186 mm)", "2 3/4 in"]),
    ],
)
def test_a_blank_has_its_sizes_where_it_is_rolled(name: str, step: str, sizes: list[str]) -> None:
    drawing = guides.drawings(name, 0)[step]
    at = {t.text.replace("\N{NO-BREAK SPACE}", " "): t.at for t in drawing.texts()}
    own = [s for s in drawing.shapes if isinstance(s, Polyline) and s.line == "new" and s.part]
    blank = box_of(s for s in own if s.closed)
    assert blank is not None
    assert at[sizes[0]][1] > blank.bottom  # along the way that it is rolled
    assert at[sizes[1]][0] > blank.right  # beside the edge that the former lies along
    turns = [s for s in drawing.shapes if isinstance(s, Arc) and s.line == "way"]
    assert len(turns) == 1 and turns[0].sweep > 120


@pytest.mark.parametrize("step", ["wadding_in", "canopy_in", "anchor_in", "close"])
def test_what_sits_on_the_wall_that_a_section_takes_away_goes_with_it(step: str) -> None:
    """The lug is at 45 degrees, in the quarter that is cut away; drawn there it would seem to be inside."""
    drawing = guides.drawings("rolled-rocket", 0)[step]
    assert "lug" not in drawing.parts() and "lug" in drawing.unseen
    assert "launch lug" in drawing.alt and "launch lug" not in [t.text for t in drawing.texts()]
