"""Ends that something covers: how far they reach is seen, dashed or cut open."""

from __future__ import annotations

import pytest

from builder.drawings.bodies import camera_for
from builder.drawings.hidden import covered_ends
from builder.drawings.project import Viewer
from builder.drawings.scene import Placed, Scene, on_axis
from builder.drawings.shapes import Arrow, Polyline
from builder.drawings.solids import tube
from tests.drawings import guides

ROD = Placed("axle", "axle", tube(100, 6, 0))


def wheel(x: float, *, new: bool = True, outside: float = 40.0) -> Placed:
    return Placed("wheel", "wheel", tube(10, outside, 6.1), on_axis(x), new=new)


def dashes(*parts: Placed, view: str = "side") -> list[tuple[tuple[float, float], ...]]:
    lines = covered_ends(Viewer(Scene("", parts), camera_for(view, 1.0)))
    assert {line.line for line in lines} <= {"hidden"}
    return [tuple((round(x, 3), round(y, 3)) for x, y in line.points) for line in lines]


def test_a_flush_end_is_dashed_up_to_the_face() -> None:
    """An axle 6 mm thick, in a wheel that is 10 mm wide: from the wheel's face to its other one, 3 mm to each
    side of the axis."""
    assert sorted(dashes(ROD, wheel(0))) == [((0, -3), (10, -3)), ((0, 3), (10, 3))]
    assert sorted(dashes(ROD, wheel(90))) == [((100, -3), (90, -3)), ((100, 3), (90, 3))]


def test_an_end_that_lies_inside_has_its_face_dashed() -> None:
    """The wheel stands out by 4 mm: the axle goes 6 mm into it."""
    found = dashes(ROD, wheel(-4))
    assert ((0, -3), (6, -3)) in found and ((0, 3), (6, 3)) in found
    assert len(found) == 3 and {p[0] for p in found[2]} == {0}


@pytest.mark.parametrize("parts", [
    (ROD, wheel(40)),  # a collar half-way covers no end
    (ROD, wheel(-10)),  # beside the end
    (ROD, wheel(0, new=False)),  # of an earlier step
    (ROD, wheel(0, outside=7.0)),  # so thin that dashes would lie on its outline
    (ROD._replace(new=True), wheel(0)),  # what is new is dashed already
    (ROD._replace(pose=on_axis(0)._replace(origin=(0.0, 5.0, 0.0))), wheel(0)),  # not in it
])  # fmt: skip
def test_nothing_else_is_dashed(parts: tuple[Placed, ...]) -> None:
    assert dashes(*parts) == []


def test_nothing_is_dashed_at_an_angle() -> None:
    assert dashes(ROD, wheel(0), view="axonometric") == []


@pytest.mark.parametrize(("step", "lines"), [
    ("first_wheels", 2),  # one axle stands for two
    ("last_wheels", 4),
])  # fmt: skip
def test_the_ends_of_axles_are_seen_in_the_wheels_that_are_pressed_on(step: str, lines: int) -> None:
    drawing = guides.drawings("sail-cart", 0)[step]
    found = [s for s in drawing.shapes if isinstance(s, Polyline) and s.line == "hidden" and s.part is None]
    legend = 1 if "behind something" in {t.text for t in drawing.texts()} else 0
    assert legend and len(found) == lines + legend


def test_the_mast_is_seen_to_go_through_block_and_deck() -> None:
    """12 and 3 mm high at 2 : 1: its foot is 30 mm on paper below the top of the block, level with the deck's
    underside, and says that it is flush."""
    drawing = guides.drawings("sail-cart", 0)["mast_in"]
    assert {"enlarged, 2 : 1", "foot: flush"} <= {t.text for t in drawing.texts()}
    said = "the mast in the mast block and deck; foot: flush with the underside of the deck."
    assert said in drawing.alt
    cut = [s for s in drawing.shapes if isinstance(s, Polyline) and s.line == "section"]
    block = [y for s in cut if s.part == "block" for _, y in s.points]
    deck = [y for s in cut if s.part == "deck" for _, y in s.points]
    assert max(deck) - min(block) == pytest.approx(30.0, abs=0.02)
    up = [a for a in drawing.shapes if isinstance(a, Arrow) and a.line == "leader" and a.heading == 270.0]
    assert [a.tip[1] for a in up] == [pytest.approx(max(deck), abs=0.02)]
