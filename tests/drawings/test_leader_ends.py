"""Where leaders end and what ends them: small invented scenes in which each rule can fail.

The rules are those of engineering drawing (ISO 128 leader lines, ASME Y14.2; from memory): a dot within an
outline, an arrowhead on one; few lines crossed, none followed, no two leaders as one.  Lengths are mm on
paper; an outline is 0.55 mm wide, so that its edge is 0.275 mm off its middle.
"""

from __future__ import annotations

from math import hypot

import pytest

from builder.drawings.callouts import Callout, Layout, flags
from builder.drawings.columns import column
from builder.drawings.ends import HEAD, ROOM, ink
from builder.drawings.shapes import Arc, Arrow, Box, Point, Polyline, Shape, box_of, segment
from tests.drawings import guides

OUTLINE = Box(0, 0, 100, 40)

CROSS: list[Shape] = [
    segment((50, 5), (50, 9), "new_mark", "a"),
    segment((48, 7), (52, 7), "new_mark", "a"),
]


def box(part: str, left: float, top: float, right: float, bottom: float, *, filled: bool = False) -> Polyline:
    corners = ((left, top), (right, top), (right, bottom), (left, bottom))
    return Polyline(corners, "section" if filled else "outline", part, closed=True, filled=filled)


def ends(made: Layout) -> tuple[list[Point], list[Arrow]]:
    """Middles of dots, and arrowheads."""
    dots = [s.centre for s in made.shapes if isinstance(s, Arc) and s.line == "dot"]
    return dots, [s for s in made.shapes if isinstance(s, Arrow)]


def last_runs(made: Layout) -> list[tuple[Point, Point]]:
    return [
        (s.points[0], s.points[-1]) for s in made.shapes if isinstance(s, Polyline) and s.line == "leader"
    ]


def test_room_is_to_the_edge_of_the_ink() -> None:
    under = ink([segment((0, 0), (10, 0), "outline")])
    assert under.room((5, 2)) == pytest.approx(2 - 0.275)
    assert under.room((13, 4)) == pytest.approx(5 - 0.275)  # 3, 4, 5: from the end of the line
    assert ink([box("wall", 0, 0, 10, 10, filled=True)]).room((5, 5)) < 0
    assert ink([]).room((0, 0)) > 1000


@pytest.mark.parametrize(
    ("shapes", "at", "dot"),
    [
        ([box("a", 0, 0, 100, 40)], (50, 20), True),  # within an outline
        ([box("a", 0, 0, 100, 40)], (50, 0), False),  # on it
        ([box("a", 0, 0, 100, 0.8, filled=True)], (50, 0.4), False),  # a wall that is filled in
        (CROSS, (50, 7), False),
    ],
    ids=["face", "edge", "wall", "cross"],
)  # fmt: skip
def test_a_dot_where_it_has_room_and_else_an_arrowhead_on_white(
    shapes: list[Shape], at: Point, dot: bool
) -> None:
    made = flags([Callout("a", "a", (at,))], OUTLINE, 0, shapes)
    dots, arrows = ends(made)
    assert (len(dots), len(arrows)) == ((1, 0) if dot else (0, 1))
    under = ink(shapes)
    for tip in (a.tip for a in arrows):
        # it touches the ink and does not lie in it
        assert 0 < under.room(tip) <= 0.11
        assert hypot(tip[0] - at[0], tip[1] - at[1]) < 3


def test_a_place_with_room_and_an_edge_are_taken_before_a_seam() -> None:
    shapes = [box("a", 0, 0, 50, 40), box("b", 50, 0, 100, 40)]
    face, edge, seam = (20.0, 20.0), (30.0, 0.0), (50.0, 5.0)
    assert ends(flags([Callout("a", "a", (seam, face))], OUTLINE, 0, shapes))[0] == [face]
    ((tip, *_),) = ends(flags([Callout("a", "a", (seam, edge))], OUTLINE, 0, shapes))[1]
    assert tip[0] == pytest.approx(30)
    under = ink(shapes)
    assert under.spot(face, "a").cost < under.spot(edge, "a").cost < under.spot(seam, "a").cost


def test_no_leader_ends_on_a_part_that_covers_its_own() -> None:
    """A long clip under a band of tape: not in the middle of the clip, where the band is."""
    shapes = [box("clip", 0, 10, 100, 14), box("tape", 35, 9, 65, 15)]
    clip = Callout("clip", "clip", ((50.0, 10.0), (20.0, 10.0)))
    _, (arrow,) = ends(flags([clip], OUTLINE, 9, shapes))
    assert arrow.tip[0] == pytest.approx(20)


def test_a_leader_goes_by_another_part_rather_than_through_it() -> None:
    shapes = [box("a", 0, 20, 100, 40), box("bar", 40, 2, 60, 12)]
    made = flags([Callout("a", "a", ((50.0, 30.0), (80.0, 30.0)))], OUTLINE, 0, shapes)
    assert ends(made)[0] == [(80.0, 30.0)]
    # with one end only it leans round the bar
    made = flags([Callout("a", "a", ((62.0, 30.0),))], OUTLINE, 0, [*shapes, box("c", 60, 2, 66, 12)])
    assert ends(made)[0] == [(62.0, 30.0)]
    (tail, tip) = last_runs(made)[-1]
    assert abs(tail[0] - tip[0]) > 4


def test_no_leader_runs_along_a_line() -> None:
    under = ink([segment((0, 10), (100, 10), "outline", "edge")])
    spot = under.spot((20, 10), "edge")
    assert under.path(spot, (120, 10)) > 50  # on it
    assert under.path(spot, (120, 11)) > 50  # within a degree of it
    assert under.path(spot, (60, 50)) == 0  # away from it
    edge = Callout("edge", "edge", ((50.0, 10.0), (100.0, 10.0)))
    made = column([edge], 110, shapes=[box("edge", 0, 10, 100, 40)])
    _, (arrow,) = ends(made)
    assert arrow.tip[0] > 99  # from beyond its end, not over its length


def test_an_arrowhead_does_not_lie_across_a_line() -> None:
    wall = segment((0, 8), (100, 8), "outline", "wall")
    under = ink([wall, segment((0, 10), (100, 10), "outline", "ring")])
    spot = under.spot((50, 10), "ring")
    assert not spot.dot and HEAD > 2
    assert under.path(spot, (50, 0)) > under.path(spot, (50, 30))


def test_no_two_leaders_run_as_one_or_end_at_one_place() -> None:
    shapes = [box("a", 0, 0, 100, 20), box("b", 0, 20, 100, 40)]
    at = (50.0, 10.0)
    made = flags([Callout("a", "a", (at,)), Callout("b", "b", ((50.0, 30.0),))], OUTLINE, 0, shapes)
    tops = sorted(s.points[0][0] for s in made.shapes if isinstance(s, Polyline) and s.points[0][1] < -3.5)
    assert tops[1] - tops[0] >= 3
    for tail, tip in last_runs(made):
        if tip != at:
            along = (at[1] - tail[1]) / (tip[1] - tail[1])
            beside = tail[0] + (tip[0] - tail[0]) * along
            assert abs(beside - at[0]) > ROOM


def test_a_name_in_a_column_changes_places_where_its_leader_would_run_through_another_part() -> None:
    """A block with a badge beside it, as high as the block: the block's name stands above the badge's."""
    shapes = [box("block", 20, 15, 35, 25), box("badge", 60, 13, 85, 27)]
    block = Callout("block", "block", ((30.0, 20.0), (33.0, 17.0)))
    badge = Callout("badge", "badge", ((80.0, 17.0), (72.0, 20.0), (72.0, 24.0)))
    made = column([block, badge], 110, shapes=shapes)
    heights = dict(zip(["block", "badge"], _heights(made), strict=True))
    assert heights["block"] != heights["badge"]
    under = ink([shapes[1]])
    tail, tip = next(run for run in last_runs(made) if run[1][0] < 60)
    assert under.path(under.spot(tip, "block"), tail) < 6


def _heights(made: Layout) -> list[float]:
    return [b.top for b in made.boxes]


def test_copies_share_a_name_that_leads_to_the_one_best_seen() -> None:
    shapes = [box("wheel 1", 0, 10, 20, 14), box("strap", 0, 9, 20, 15), box("wheel 2", 60, 5, 90, 35)]
    both = Callout("wheel", "wheel 1", ((10.0, 10.0), (75.0, 20.0)), ("wheel 2",))
    assert ends(flags([both], OUTLINE, 0, shapes))[0] == [(75.0, 20.0)]
    # of the other alone it would be the wheel under the strap: in a dot on its line, since an arrowhead
    # would lie across the strap's, 1 mm above
    assert ends(flags([both._replace(anchors=both.anchors[:1])], OUTLINE, 0, shapes)) == ([(10.0, 10.0)], [])


def test_a_dot_goes_into_a_narrow_face_and_onto_a_line_where_an_arrowhead_would_be_lost() -> None:
    """A bar 1.6 mm high flush with the top of a board has 0.8 - 0.275 mm to either side of the middle of its
    face, room for a dot of 0.35; one 1 mm high has 0.5 - 0.275, so that the dot sits on its lower line."""
    for high, at in ((1.6, (20.0, 10.8)), (1.0, (20.0, 11.0))):
        shapes = [box("board", 0, 10, 60, 30), box("bar", 10, 10, 30, 10 + high)]
        bar = Callout("bar", "bar", ((20.0, 10.0 + high / 2), (20.0, 10.0 + high)))
        made = flags([bar], OUTLINE, 0, shapes)
        assert ends(made) == ([at], []), high
        [dot] = [s for s in made.shapes if isinstance(s, Arc)]
        assert dot.rx >= (0.35 if at[1] < 11 else 0.275 + 0.2)


def test_the_two_ends_of_a_rod_are_reached_alike() -> None:
    """A leader straight down onto an end runs past the line of the top, which only comes up to it."""
    under = ink([box("rod", 0, 10, 60, 14)])
    left, right = (under.path(under.spot((x, 12), "rod"), (x, 0)) for x in (0, 60))
    assert left == pytest.approx(right)
    inside = under.path(under.spot((30, 12), "rod"), (30, 0))
    assert inside == pytest.approx(2.5)  # one line is crossed


def test_a_board_with_things_on_it_is_named_in_a_corner() -> None:
    """The leader of the deck comes in beside the badge that lies before its middle, not through it."""
    drawing = guides.drawings("sail-cart", 0)["first_roll"]
    badge = box_of(s for s in drawing.shapes if s.part == "badge")
    word = next(t for t in drawing.texts() if t.text == "deck")
    dots = [s.centre for s in drawing.shapes if isinstance(s, Arc) and s.line == "dot"]
    x, y = min(dots, key=lambda at: abs(at[1] - word.at[1]))
    assert badge is not None
    assert x < badge.right and not badge.top < y < badge.bottom
