"""What is put on is drawn, and what is taken off as a dashed outline moved along its arrow."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from builder.drawings.assembly import assemblies
from builder.drawings.of_bench import settle
from builder.drawings.of_tape import tapes
from builder.drawings.of_usual import UNKNOWN, usual
from builder.drawings.shapes import Arc, Drawing, Polyline, box_of
from builder.drawings.solids import Slab, Turned
from builder.dryrun.kinds import VERBS
from builder.dryrun.run import run_all
from builder.guide.reader import read_guide
from tests.drawings import guides


def _ghosts(drawing: Drawing) -> dict[str, list[Polyline]]:
    found: dict[str, list[Polyline]] = {}
    for s in drawing.shapes:
        if isinstance(s, Polyline) and s.line == "ghost" and s.part is not None:
            found.setdefault(s.part, []).append(s)
    return found


@pytest.mark.parametrize(
    ("name", "step", "gone"),
    [
        ("rolled-rocket", "jig_off", ["ghost fin_jig"]),
        ("card-telescope", "elastic_off", ["ghost elastic"]),
        ("sail-cart", "hole", ["ghost weight"]),
        ("rolled-rocket", "open_up", ["ghost rear_mask", "ghost front_plug", "ghost stand"]),
    ],
)
def test_what_comes_off_is_drawn_dashed_where_it_goes(name: str, step: str, gone: list[str]) -> None:
    drawing = guides.drawings(name, 0)[step]
    found = _ghosts(drawing)
    assert sorted(found) == sorted(gone)
    ways = [s for s in drawing.shapes if isinstance(s, Polyline) and s.line == "way"]
    assert len({s.part for s in ways if s.part}) == len(gone)
    words = " ".join(t.text for t in drawing.texts())
    guide = guides.guide(name)
    for id in gone:
        thing = guide.things[id.removeprefix("ghost ")]
        assert thing.name in words and thing.name in drawing.alt


def test_the_jig_leaves_over_the_rear() -> None:
    drawing = guides.drawings("rolled-rocket", 0)["jig_off"]
    box = box_of(_ghosts(drawing)["ghost fin_jig"])
    rear = next(t for t in drawing.texts() if t.text == "rear")
    front = next(t for t in drawing.texts() if t.text == "front")
    lines = [s for s in drawing.shapes if isinstance(s, Polyline) and s.part and s.part.startswith("fin ")]
    right = [s for s in lines if min(p[0] for p in s.points) > rear.at[0]]
    assert box is not None
    assert rear.at[0] < box.right < min(p[0] for s in right for p in s.points) < front.at[0]


def test_the_stand_leaves_the_nose_cone_at_its_base() -> None:
    """The shoulder stood in the stand, the tip stood out; a nose lies with its tip to the right."""
    drawing = guides.drawings("rolled-rocket", 0)["open_up"]
    box = box_of(_ghosts(drawing)["ghost stand"])
    nose = box_of(s for s in drawing.shapes if s.part == "nose")
    assert box is not None and nose is not None and box.right < nose.left


@pytest.mark.parametrize("step", ["block_on", "block_cure"])
def test_a_weight_of_no_stated_size_is_drawn_and_said_not_to_be_to_scale(step: str) -> None:
    guide = guides.guide("sail-cart")
    made = guides.steps("sail-cart", 0)[step]
    deck = next(a for a in assemblies(guide, made) if a.root == "deck")
    weight, block = deck.settled["weight"].solid, deck.settled["block"].solid
    assert isinstance(weight, Slab) and isinstance(block, Slab)
    xs = [p[0] for p in weight.outline]
    # it lies within the 30 mm of the block, so that the block is seen all round it
    assert 15 < max(xs) - min(xs) < 30
    drawing = guides.drawings("sail-cart", 0)[step]
    assert "weight" in drawing.parts()
    assert f"flat weight{UNKNOWN}" in drawing.alt


def test_what_hangs_in_the_air_has_no_usual_look() -> None:
    guide = guides.guide("sail-cart")
    made = guides.steps("sail-cart", 0)["block_on"]
    deck = next(a for a in assemblies(guide, made) if a.root == "deck")
    seat = made.bench.seats["weight"]
    assert usual(guide.things["weight"], replace(seat, side="taped"), deck.settled["block"].solid) is None
    assert usual(guide.things["block"], seat, deck.settled["deck"].solid) is None


def test_rubber_bands_are_drawn_while_they_hold() -> None:
    for step in ("band_on", "band_set"):
        assert "elastic" in set(guides.drawings("card-telescope", 0)[step].parts()), step


def test_two_rubber_bands_of_no_stated_size_lie_beside_one_another() -> None:
    """Both are put on the middle of the stop band, which takes 5 1/2 to 6 1/2 in of the tube from its rear:
    each is drawn within that, clear of the other, and about that middle."""
    guide = read_guide(guides.ROOT / "guides/card-telescope/revisions/1/card-telescope", VERBS)
    assert guide.things["elastic"].count == 2
    bench = run_all(guide)[0].of_step("band_on")[-1].after
    settled = settle(guide, bench, "draw", rough=True)
    ends = []
    for item in ("elastic 1", "elastic 2"):
        solid, pose, _ = settled[item]
        assert isinstance(solid, Turned)
        ends.append((pose.origin[0] + solid.start, pose.origin[0] + solid.end))
    (a, b), (c, d) = ends
    assert 5.5 * 25.4 < a < b < c < d < 6.5 * 25.4
    assert (a + d) / 2 == pytest.approx(6 * 25.4)


def test_tape_off_a_roll_lies_over_what_it_holds() -> None:
    """A band as wide as the guide says, 3/4 in, on the middle of the 2 3/4 in of tube: from 1 in to 1 3/4."""
    guide = guides.guide("rolled-rocket")
    made = guides.steps("rolled-rocket", 0)["clip_on"]
    mount = next(a for a in assemblies(guide, made) if a.root == "motor_tube")
    (tape,) = tapes(guide, made, mount.settled)
    assert isinstance(tape.solid, Turned)
    start = tape.pose.origin[0] / 25.4
    assert [start, start + tape.solid.end / 25.4] == pytest.approx([1.0, 1.75])
    assert tape.new and "masking tape" in guides.drawings("rolled-rocket", 0)["clip_on"].alt
    later = guides.steps("rolled-rocket", 0)["rear_ring_on"]
    assert [t.new for t in tapes(guide, later, mount.settled)] == [False]


def test_a_spot_on_an_end_is_seen_from_that_end() -> None:
    """A cross in the middle of the circle of the nose cone's base."""
    drawing = guides.drawings("rolled-rocket", 0)["eye_in"]
    cross = [s for s in drawing.shapes if isinstance(s, Polyline) and s.part == "nose_centre"]
    circles = [s for s in drawing.shapes if isinstance(s, Arc) and s.part == "nose" and s.rx > 10]
    assert len(cross) == 2 and circles
    middle = circles[0].centre
    for line in cross:
        (x0, y0), (x1, y1) = line.points
        assert ((x0 + x1) / 2, (y0 + y1) / 2) == pytest.approx(middle, abs=0.05)


def test_what_is_lifted_off_a_face_is_laid_beside_what_it_lay_on() -> None:
    """Neither its outline nor its arrow runs over the block, where the step makes its hole."""
    drawing = guides.drawings("sail-cart", 0)["hole"]
    block = box_of(s for s in drawing.shapes if s.part == "block")
    ghost = box_of(_ghosts(drawing)["ghost weight"])
    way = box_of(s for s in drawing.shapes if isinstance(s, Polyline) and s.line == "way" and s.part)
    assert block is not None and ghost is not None and way is not None
    assert ghost.bottom < way.top < way.bottom < block.top
    assert ghost.left >= block.left and ghost.right <= block.right


@pytest.mark.parametrize(("name", "step", "id"), [
    ("rolled-rocket", "body_roll", "body_dowel"),
    ("card-telescope", "draw_roll", "draw_former"),
])  # fmt: skip
def test_a_former_is_drawn_out_of_the_tube_that_was_rolled_on_it(name: str, step: str, id: str) -> None:
    drawing = guides.drawings(name, 0)[step]
    box = box_of(_ghosts(drawing)[f"ghost {id}"])
    thing = guides.guide(name).things[id]
    length, width = thing.mm("length"), thing.mm("diameter")
    assert box is not None and length is not None and width is not None
    assert box.width / box.height == pytest.approx(float(length / width), rel=0.01)
    said = [t.text for t in drawing.texts()]
    assert said.index("first") < said.index("then") and "no glue: first turn" in said


def test_what_is_peeled_off_goes_along_no_axis() -> None:
    """The strip with the ticks is unwrapped, not drawn off over an end."""
    assert not _ghosts(guides.drawings("rolled-rocket", 1)["guide"])


@pytest.mark.parametrize(("name", "step", "tried"), [
    ("card-telescope", "try_slide", "draw"),
    ("rolled-rocket", "mount_check", "dummy"),
])  # fmt: skip
def test_what_is_tried_and_taken_out_again_has_a_picture_of_each(name: str, step: str, tried: str) -> None:
    """First it goes in, with its arrow; then it is a dashed outline beside the end that it leaves by."""
    drawing = guides.drawings(name, 0)[step]
    words = [t.text for t in drawing.texts()]
    assert words.count("first") == words.count("then") == 1
    then = next(t.at[1] for t in drawing.texts() if t.text == "then")
    ghost = box_of(_ghosts(drawing)[f"ghost {tried}"])
    seated = box_of(s for s in drawing.shapes if s.part == tried)
    assert list(_ghosts(drawing)) == [f"ghost {tried}"]
    assert ghost is not None and seated is not None
    assert seated.bottom < then < ghost.top
    rear = [t for t in drawing.texts() if t.text == "rear"]
    assert len(rear) == 2
