"""Exploded and assembled views against a ray caster of the tests' own; what is pulled which way."""

from __future__ import annotations

import gc
from collections.abc import Callable
from functools import cache
from math import ceil, hypot
from statistics import median
from time import process_time

import numpy as np
import pytest
import yaml

from builder.drawings.angled import angled, lines_at
from builder.drawings.callouts import Callout
from builder.drawings.exploded import GAP, Apart, Trail
from builder.drawings.leaders import around
from builder.drawings.letters import called, letter, letters_of
from builder.drawings.of_bench import settle
from builder.drawings.of_exploded import SIZE, lettered, of_stage, scene_apart
from builder.drawings.of_stage import assembled, held, whole
from builder.drawings.project import Viewer
from builder.drawings.scene import Placed, Scene, on_axis
from builder.drawings.shapes import Drawing, Polyline, Shape, Text, segment
from builder.drawings.solids import Stretch, Turned, rod, tube
from builder.drawings.svg import write
from builder.drawings.vectors import Pose
from builder.dryrun.bench import Bench
from builder.guide.model import Guide
from tests.drawings import guides
from tests.drawings.covered import LONGEST, MOST, POINTS, along, camera_at, covered
from tests.drawings.labels import outside, overlaps, struck
from tests.drawings.rays import Array, Caster

NAMES = ("rolled-rocket", "card-telescope", "sail-cart")
ROOTS = {"rolled-rocket": "body", "card-telescope": "outer", "sail-cart": "deck"}


def kit(name: str) -> tuple[Guide, Bench]:
    return guides.guide(name), guides.runs(name)[0].end


@cache
def apart(name: str) -> tuple[Scene, Apart]:
    guide, bench = kit(name)
    found = scene_apart(guide, bench, ROOTS[name], name)
    assert found is not None
    return found


def together(name: str) -> Scene:
    guide, bench = kit(name)
    return Scene(name, lettered(guide, settle(guide, bench, ROOTS[name])))


SCENES = [f"{name} {how}" for name in NAMES for how in ("apart", "together")]


def case_of(case: str) -> tuple[Scene, tuple[Trail, ...]]:
    """The scene of a kit, pulled apart or together, and its trails."""
    name, _, how = case.partition(" ")
    if how == "together":
        return together(name), ()
    scene, pulled = apart(name)
    return scene, pulled.trails


@pytest.mark.parametrize("case", SCENES)
def test_no_line_of_a_covered_part_is_drawn(case: str) -> None:
    """500 points of each drawn line; `python -m tests.drawings.covered` asks of every view of every stage."""
    off, of, longest = covered(*case_of(case))
    assert of > 12 * POINTS
    assert off <= of * MOST
    assert longest < LONGEST


def test_a_covered_line_is_found(monkeypatch: pytest.MonkeyPatch) -> None:
    """A rod of 40 mm in a tube of 60: where nothing hides anything, it is drawn, and no ray sees it."""
    rod_in_tube = Scene("", (Placed("t", "t", tube(60, 20, 18)), Placed("r", "r", rod(40, 10), on_axis(10))))
    assert covered(rod_in_tube, ())[0] == 0
    monkeypatch.setattr(Viewer, "seen_past", lambda *_: lambda _: True)
    off, of, longest = covered(rod_in_tube, ())
    assert off > of * MOST * 20
    assert longest > 10 * LONGEST


@pytest.mark.parametrize("case", [c for c in SCENES if "apart" in c])
def test_no_covered_stretch_of_a_trail_is_drawn(case: str) -> None:
    scene, trails = case_of(case)
    camera, caster = camera_at(scene)
    toward = np.array(camera.toward)
    assert trails
    ends = [(np.array(camera.paper(t.start)), np.array(camera.paper(t.end)), t) for t in trails]
    for line in lines_at(scene, trails, camera):
        if line.part is not None:
            continue
        points = along(line, 100)
        near = min(ends, key=lambda e: _off(points[0], e[0], e[1]) + _off(points[-1], e[0], e[1]))
        share = ((points - near[0]) @ (near[1] - near[0])) / ((near[1] - near[0]) @ (near[1] - near[0]))
        trail = near[2]
        depth = np.array(trail.start) @ toward + share * ((np.array(trail.end) - trail.start) @ toward)
        _, seen = caster.first(points)
        # where the trail ends in the middle of a face it touches that face
        assert np.mean(seen > depth + 0.2) <= 0.02, trail


def _off(p: Array, a: Array, b: Array) -> float:
    """Distance of a point from a straight line on paper, mm."""
    way = (b - a) / np.hypot(*(b - a))
    return abs(float((p - a)[0] * way[1] - (p - a)[1] * way[0]))


ROUND = {
    "tube": tube(60, 24, 20),
    "cone": Turned((Stretch(0, 40, 15, 2),)),
    "cone the other way": Turned((Stretch(0, 40, 0.5, 15),)),
    "nose": Turned((Stretch(0, 30, 10, 10), Stretch(30, 80, 13, 1))),
    "flat cone": Turned((Stretch(0, 6, 25, 3),)),
}
POSES = {
    "along": Pose(),
    "upright": Pose((0, 0, 0), (0, 0, 1), (1, 0, 0), (0, 1, 0)),
    "away": Pose((0, 0, 0), (0, 1, 0), (-1, 0, 0), (0, 0, 1)),
    "turned": Pose((5, 2, 1), (0.6, 0.0, 0.8), (0.0, 1.0, 0.0), (-0.8, 0.0, 0.6)),
}


@pytest.mark.parametrize("solid", ROUND)
@pytest.mark.parametrize("pose", POSES)
def test_silhouettes_are_where_a_ray_caster_sees_the_edge(solid: str, pose: str) -> None:
    """Every edge of the shadow on paper, on a grid of 0.4 mm, has a drawn line within the grid's diagonal."""
    scene = Scene("", (Placed("a", "a", ROUND[solid], POSES[pose]),))
    camera, caster = camera_at(scene, 1.0)
    shapes = lines_at(scene, (), camera)
    drawn = np.concatenate([along(s, 300) for s in shapes])
    pitch = 0.4
    low, high = drawn.min(axis=0) - 1, drawn.max(axis=0) + 1
    xs, ys = np.arange(low[0], high[0], pitch), np.arange(low[1], high[1], pitch)
    grid = np.stack(np.meshgrid(xs, ys), axis=-1)
    seen = (caster.first(grid.reshape(-1, 2))[0] >= 0).reshape(grid.shape[:2])
    assert 200 < seen.sum() < seen.size
    level, upright = np.nonzero(seen[:, 1:] != seen[:, :-1]), np.nonzero(seen[1:] != seen[:-1])
    edges = np.concatenate((grid[:, 1:][level] - (pitch / 2, 0), grid[1:][upright] - (0, pitch / 2)))
    for some in np.array_split(edges, ceil(len(edges) / 400)):
        far = np.sqrt(((some[:, None] - drawn[None]) ** 2).sum(axis=2)).min(axis=1)
        assert far.max() < pitch * 1.5


def test_parts_leave_by_the_end_that_they_came_in_by() -> None:
    """Written in the guides: rings from the front and the rear, the mount from the rear, wheels from the
    left and the right, fins outwards at 0, 90, 180 and 270 degrees (up, to the viewer, down, away)."""
    at = {p.id: p.pose.origin for p in apart("rolled-rocket")[0].parts}
    home = {p.id: p.pose.origin for p in together("rolled-rocket").parts}
    moved = {id: tuple(round(b - a, 6) for a, b in zip(home[id], at[id], strict=True)) for id in home}
    assert moved["motor_tube"][0] < 0 and moved["motor_tube"][1:] == (0, 0)
    assert moved["nose"][0] > moved["canopy"][0] > moved["anchor"][0] > 0
    # beyond the mount: the rear ring further back, the two others further forward
    assert moved["rear_ring"][0] < moved["motor_tube"][0] < moved["thrust_ring"][0] < moved["front_ring"][0]
    ways = {"fin 1": (0, 0, 1), "fin 2": (0, -1, 0), "fin 3": (0, 0, -1), "fin 4": (0, 1, 0)}
    for fin, way in ways.items():
        size = max(abs(x) for x in moved[fin])
        assert size >= GAP
        assert moved[fin] == pytest.approx([size * w for w in way], abs=1e-6)
    cart = {p.id: p.pose.origin for p in apart("sail-cart")[0].parts}
    bolted = {p.id: p.pose.origin for p in together("sail-cart").parts}
    left, right = (cart[w][1] - bolted[w][1] for w in ("wheel 1", "wheel 2"))
    assert left * right < 0
    assert cart["mast"][2] > bolted["mast"][2] and cart["bearing 1"][2] < bolted["bearing 1"][2]


@pytest.mark.parametrize("name", NAMES)
def test_what_is_pulled_apart_no_longer_overlaps(name: str) -> None:
    """Two parts of an exploded view that belong to different groups share no room (seen along the axes)."""
    scene, pulled = apart(name)
    caster = Caster(scene.parts, np.array((1.0, 0, 0)), np.array((0, 1.0, 0)), np.array((0, 0, 1.0)), 1.0)
    boxes = {}
    for id, (paper, depth) in zip(caster.ids, caster.flat, strict=True):
        if len(paper):
            low = (*paper.min(axis=(0, 1)), depth.min())
            boxes[id] = (low, (*paper.max(axis=(0, 1)), depth.max()))
    heads = [i for i in pulled.ways if i in boxes]
    assert len(heads) > 5
    for n, a in enumerate(heads):
        for b in heads[:n]:
            shares = all(
                boxes[a][0][k] < boxes[b][1][k] - 0.01 and boxes[b][0][k] < boxes[a][1][k] - 0.01
                for k in range(3)
            )
            assert not shares, (a, b)


def stage_drawings(name: str) -> list[Drawing]:
    """Openers and ends of every stage."""
    guide, run = guides.guide(name), guides.runs(name)[0]
    found: list[Drawing] = []
    stages: dict[str, list[Bench]] = {}
    for frame in run.frames:
        stages.setdefault(frame.step.stage.name, [frame.before]).append(frame.after)
    for stage, benches in stages.items():
        before, bench = benches[0], benches[-1]
        roots = [r for r in assembled(guide, bench) if before.below(r) != bench.below(r)]
        found += of_stage(guide, before, bench, roots, stage)
        found += held(guide, bench, roots, stage, "", before)
    return found


@pytest.fixture(scope="module", params=NAMES)
def views(request: pytest.FixtureRequest) -> list[Drawing]:
    scene, pulled = apart(request.param)
    return [angled(scene, pulled.trails, SIZE), *stage_drawings(request.param)]


def test_names_cover_nothing_and_fit_a_page(views: list[Drawing]) -> None:
    assert len(views) > 7
    for view in views:
        if any(s.line in ("section", "new_section") for s in view.shapes):
            continue  # half sections have tests of their own
        assert overlaps(view.shapes) == [], view.alt
        assert struck(view.shapes) == [], view.alt
        assert outside(view) == [], view.alt
        assert view.width <= 184.6, view.alt  # the printable width common to letter and A4


def test_every_view_is_small(views: list[Drawing]) -> None:
    for view in views:
        assert len(write(view).encode()) <= 15_000, view.alt


def test_a_name_for_each_kind_with_its_letter_and_number(views: list[Drawing]) -> None:
    for view in views:
        if "Exploded" not in view.alt:
            continue
        texts = [t.text for t in view.texts()]
        letters = [t for t in texts if len(t) <= 2 and t.isupper()]
        assert len(letters) == len(set(letters)), texts
        assert len(letters) * 2 == len(texts), texts
        for each in letters:
            assert f"({each})" in view.alt


def test_letters_leave_out_those_that_look_like_figures() -> None:
    """24 letters without I and O: A .. H, J .. N, P .. Z; the 25th part is AA, the 49th BA."""
    assert [letter(i) for i in (0, 7, 8, 12, 13, 23, 24, 25, 48)] == [
        "A", "H", "J", "N", "P", "Z", "AA", "AB", "BA",
    ]  # fmt: skip
    guide, _ = kit("rolled-rocket")
    assert called(guide, "fin", 4) == f"{letters_of(guide)['fin']}\t4 fins"


def test_a_name_stands_outside_every_part_and_leads_to_its_own() -> None:
    """A square part of 40 mm, another above it: the name is in neither, its leader crosses no other line."""
    square: list[Shape] = [
        segment(a, b, "outline", "a")
        for a, b in (((0, 0), (40, 0)), ((40, 0), (40, 40)), ((40, 40), (0, 40)), ((0, 40), (0, 0)))
    ]
    above: list[Shape] = [segment((0.0, -30.0), (40.0, -30.0), "outline", "b")]
    hulls: list[tuple[tuple[float, float], ...]]
    hulls = [((0, 0), (40, 0), (40, 40), (0, 40)), ((0, -30), (40, -30), (40, -29), (0, -29))]
    layout = around([Callout("A\tpart", "a", ((20.0, 0.0), (0.0, 20.0)))], [*square, *above], hulls)
    (box,) = layout.boxes
    assert box.right < 0 or box.left > 40 or box.bottom < 0 or box.top > 40
    leader = layout.shapes[0]
    assert isinstance(leader, Polyline)
    assert hypot(leader.points[0][0] - leader.points[1][0], leader.points[0][1] - leader.points[1][1]) < 20


def test_every_name_leads_to_its_own_part_where_there_is_no_room_for_all() -> None:
    """60 names for points within 30 mm: some stand below the picture, and still each leads to its point."""
    ends = {f"name {n}": (n * 0.5, 0.0) for n in range(60)}
    line: list[Shape] = [segment((0.0, 0.0), (30.0, 0.0), "outline", "a")]
    layout = around([Callout(text, "a", (at,)) for text, at in ends.items()], line, [])
    leaders = [s for s in layout.shapes if isinstance(s, Polyline) and s.line == "leader"]
    texts = [s.text for s in layout.shapes if isinstance(s, Text)]
    assert [ends[text] for text in texts] == [leader.points[1] for leader in leaders]
    assert max(box.top for box in layout.boxes) > 46, "nothing stands below: the case tries nothing"


def test_half_of_the_angled_views_take_at_most_twelve_units() -> None:
    """The unit is the C compose of the rocket guide's YAML, processor time, in the same run."""
    text = (guides.ROOT / "guides" / "rolled-rocket" / "guide.yml").read_text(encoding="utf-8")
    benches = [kit(name) for name in NAMES]
    for name in NAMES:
        apart(name)
    gc.disable()
    try:
        unit = best(lambda: yaml.compose(text, Loader=yaml.CSafeLoader))
        spent = {}
        for name, (guide, bench) in zip(NAMES, benches, strict=True):
            spent[f"{name} apart"] = best(lambda g=guide, b=bench, n=name: draw_apart(g, b, n))  # type: ignore[misc]
            spent[f"{name} together"] = best(lambda g=guide, b=bench, n=name: draw_whole(g, b, n))  # type: ignore[misc]
    finally:
        gc.enable()
    ratios = {case: seconds / unit for case, seconds in spent.items()}
    assert median(ratios.values()) <= 12, ratios


def best(work: Callable[[], object]) -> float:
    """The shortest of five rounds, in processor seconds."""
    rounds = []
    for _ in range(5):
        angled.cache_clear()
        start = process_time()
        work()
        rounds.append(process_time() - start)
    return min(rounds)


def draw_apart(guide: Guide, bench: Bench, name: str) -> None:
    found = scene_apart(guide, bench, ROOTS[name], name)
    assert found is not None
    angled(found[0], found[1].trails, SIZE)


def draw_whole(guide: Guide, bench: Bench, name: str) -> None:
    assert whole(guide, bench, ROOTS[name], name) is not None
