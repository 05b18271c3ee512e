"""Ways and reach: what stands in the way of a part, how deep a finger or a brush goes, what lies bare.

A child's index finger reaches 60 mm into a bore of 17 mm and more, and not into one below 12 mm (the table of
reaches in trade has its sources). A brush lies flat in a gap of 3 mm.
"""

from __future__ import annotations

import pytest

from builder.dryrun import needs as n
from builder.dryrun.run import DryRun
from tests.dryrun.built import built, needs, of, steps, unmet

OUTER = "parts:\n  outer: {form: tube, source: bought, length: 200 mm, inside: 24 mm, wall: 1 mm}\n"
CAP = "  cap: {form: rod, source: bought, diameter: 24 mm, length: 10 mm}\n"


def ways(run: DryRun) -> object:
    """Of the last action: (met, what stands in the way)."""
    return [(need.met, need.blocker) for need in needs(run.frames[-1], n.Way)]


@pytest.mark.parametrize(
    ("end", "place", "blocker"),
    [
        ("front", "front_seat", ""),
        ("rear", "front_seat", "other"),
        # as far as the other one and no farther
        ("rear", "0 mm from rear", ""),
        # from the front the way to the rear seat is blocked as well
        ("front", "0 mm from rear", "other"),
    ],
)
def test_a_ring_does_not_pass_another(end: str, place: str, blocker: str) -> None:
    run = built(
        steps(
            "tube, ring",
            "{slide: other, over: tube, from: rear, to: 40 mm from rear, fit: sliding}",
            f"{{slide: ring, over: tube, from: {end}, to: {place}, fit: sliding}}",
            own="parts:\n  other: {like: ring}\n",
        )
    )
    assert ways(run) == [(not blocker, blocker)]


def test_the_edge_of_a_ring_is_no_obstacle() -> None:
    """Two rings side by side: from the rear to 30..40 mm, where the other sits at 40..50."""
    run = built(
        steps(
            "tube, ring",
            "{slide: other, over: tube, from: rear, to: 40 mm from rear, fit: sliding}",
            "{slide: ring, over: tube, from: rear, to: 30 mm from rear, fit: sliding}",
            own="parts:\n  other: {like: ring}\n",
        )
    )
    assert unmet(run) == []
    run = built(
        steps(
            "tube, ring",
            "{slide: other, over: tube, from: rear, to: 40 mm from rear, fit: sliding}",
            "{slide: ring, over: tube, from: rear, to: 31 mm from rear, fit: sliding}",
            own="parts:\n  other: {like: ring}\n",
        )
    )
    assert unmet(run) == ["Apart"]


@pytest.mark.parametrize(
    ("cap", "end", "blocker"),
    [("front", "front", "cap"), ("front", "rear", ""), ("rear", "rear", "cap"), ("rear", "front", "")],
)
def test_a_way_is_blocked_through_the_tube_outside(cap: str, end: str, blocker: str) -> None:
    """The tube sits inside another, at 50 to 150 mm of its 200, and that one is closed at one end."""
    run = built(
        steps(
            "tube, plug",
            "{insert: tube, into: outer, from: rear, to: 50 mm from rear, fit: running}",
            f"{{insert: cap, into: outer, from: {cap}, to: flush with {cap}, fit: tight}}",
            f"{{insert: plug, into: tube, from: {end}, to: 50 mm from rear, fit: tight}}",
            own=OUTER + CAP,
        )
    )
    assert ways(run) == [(not blocker, blocker)]


def test_a_tube_that_sticks_out_is_reached_from_there() -> None:
    """At 120 to 220 of 200: what closes the front of the tube outside would have to go past it."""
    run = built(
        steps(
            "tube, plug",
            "{insert: tube, into: outer, from: front, leaving out: 20 mm, fit: running}",
            "{insert: plug, into: tube, from: front, to: 50 mm from rear, fit: tight}",
            own=OUTER,
        )
    )
    assert unmet(run) == []


def test_a_strip_on_the_wall_leaves_the_way_open() -> None:
    tag = "parts:\n  tag: {form: strip, source: bought, length: 20 mm, width: 10 mm, thickness: 0.2 mm}\n"
    run = built(
        steps(
            "tube, plug",
            "{attach: tag, onto: tube, inside: 30 mm from rear, fit: tight}",
            "{insert: plug, into: tube, from: rear, to: front_room, fit: tight}",
            own=tag,
        )
    )
    assert ways(run) == [(True, "")]


def test_slots_let_through_what_they_are_for() -> None:
    """A jig with slots for fins comes off over them; a plain ring does not."""

    def run(part: str, own: str) -> DryRun:
        return built(
            steps(
                f"tube, fin{', jig' if part == 'jig' else ''}",
                f"{{slide: {part}, over: tube, from: rear, to: 60 mm from rear, fit: sliding}}",
                "{attach: fin, onto: tube, at: 10 mm from rear, angle: 0 deg, fit: tight}",
                f"{{remove: {part}, from: tube, towards: rear}}",
                own=own,
            )
        )

    collar = "parts:\n  collar: {form: ring, source: bought, outside: 80 mm, inside: 22.4 mm, length: 5 mm}\n"
    assert ways(run("jig", "")) == [(True, "")]
    assert ways(run("collar", collar)) == [(False, "fin")]


def test_glue_for_another_part_is_wiped_off() -> None:
    def run(end: str) -> DryRun:
        return built(
            steps(
                "tube, plug, pva, brush",
                "{glue: tube, inside: rear_room, with: pva, for: plug}",
                f"{{insert: inner, into: tube, from: {end}, to: front_room, fit: tight}}",
                own="parts:\n  inner: {like: plug}\n",
            )
        )

    met = [(need.met, need.swept is not None) for need in needs(run("front").frames[-1], n.Way)]
    assert met == [(True, False)]
    swept = run("rear")
    assert [(need.met, need.swept is not None) for need in needs(swept.frames[-1], n.Way)] == [(False, True)]
    assert swept.end.wets == ()


def glued(stretch: str, *before: str, tube: str, takes: str, own: str = "") -> list[n.Bare]:
    """The bareness of a stretch inside a tube where glue is laid."""
    run = built(
        steps(
            takes,
            *before,
            f"{{glue: tube, inside: {stretch}, with: pva, for: bolt}}",
            own=f"parts:\n  tube: {{form: tube, source: bought, wall: 1 mm, {tube}}}\n"
            f"  bolt: {{form: rod, source: bought, diameter: 3 mm, length: 5 mm}}\n{own}",
        )
    )
    return needs(run.frames[-1], n.Bare)


@pytest.mark.parametrize(
    ("bore", "stretch", "state", "depth", "reach"),
    [
        # a finger: 60 mm, from the nearer end
        ("20 mm", "50 mm to 60 mm from rear", "open", 60, 60),
        ("20 mm", "51 mm to 61 mm from rear", "far", 61, 60),
        ("20 mm", "50 mm to 60 mm from front", "open", 60, 60),
        # the whole of a wide tube is reached by a child's hand: 140 mm into 60 mm of bore
        ("60 mm", "130 mm to 140 mm from rear", "open", 140, 140),
        ("60 mm", "131 mm to 141 mm from rear", "far", 141, 140),
        # a bore that no finger enters
        ("11 mm", "0 mm to 1 mm from rear", "far", 1, 0),
    ],
)
def test_how_deep_a_finger_goes(bore: str, stretch: str, state: str, depth: int, reach: int) -> None:
    (need,) = glued(stretch, tube=f"length: 400 mm, inside: {bore}", takes="pva")
    assert of((need.state, need.depth, need.reach)) == (state, depth, reach)
    assert need.met is (state == "open")


@pytest.mark.parametrize(("depth", "met"), [(100, True), (101, False)])
def test_how_deep_a_brush_goes(depth: int, met: bool) -> None:
    stretch = f"{depth - 10} mm to {depth} mm from rear"
    (need,) = glued(stretch, tube="length: 400 mm, inside: 11 mm", takes="pva, brush")
    assert (need.met, need.state) == (met, "open" if met else "far")


@pytest.mark.parametrize(
    ("rod", "met", "state"),
    [
        # beside a rod of 14 mm in a bore of 20: (20 - 14) / 2 = 3 mm are left, and a brush lies flat in it
        ("14 mm", True, "open"),
        ("14.2 mm", False, "blocked"),
    ],
)
def test_reaching_past_what_stands_in_the_way(rod: str, met: bool, state: str) -> None:
    stop = f"  stop: {{form: rod, source: bought, diameter: {rod}, length: 30 mm}}\n"
    (need,) = glued(
        "40 mm to 50 mm from rear",
        "{insert: stop, into: tube, from: rear, to: flush with rear, fit: running}",
        "{insert: cover, into: tube, from: front, to: flush with front, fit: tight}",
        tube="length: 100 mm, inside: 20 mm",
        takes="pva, brush",
        own=stop + "  cover: {form: rod, source: bought, diameter: 20 mm, length: 10 mm}\n",
    )
    assert (need.met, need.state, need.other) == (met, state, "" if met else "stop")


def test_a_tool_that_is_wider_than_the_gap_does_not_reach() -> None:
    """A stick of 5 mm reaches 200 mm, but not through 3 mm."""
    own = """
    tools:
      wand: {name: 5 mm dowel, form: rod, diameter: 5 mm, length: 250 mm, reach: 200 mm}
    parts:
      pipe: {form: tube, source: bought, wall: 1 mm, length: 300 mm, inside: INSIDE}
      bolt: {form: rod, source: bought, diameter: 3 mm, length: 5 mm}
    """

    def bare(inside: str) -> bool:
        text = steps(
            "unfinished, pva",
            "{glue: pipe, inside: 90 mm to 100 mm from rear, with: [pva, wand], for: bolt}",
            own=own.replace("INSIDE", inside),
        )
        (need,) = needs(built(text), n.Bare)
        return need.met

    assert bare("6 mm") is True
    assert bare("5 mm") is False


@pytest.mark.parametrize(
    ("doing", "state"),
    [
        # the ring covers 10 to 20 mm
        ("{glue: tube, outside: 10 mm to 20 mm from rear, with: pva, for: fin}", "covered"),
        ("{glue: tube, outside: 15 mm to 25 mm from rear, with: pva, for: fin}", "covered"),  # a part of it
        ("{glue: tube, outside: 20 mm to 30 mm from rear, with: pva, for: fin}", "open"),
        ("{glue: tube, outside: 0 mm to 10 mm from rear, with: pva, for: fin}", "open"),
        ("{mark: line, onto: tube, at: 15 mm from rear}", "covered"),
        # at its very edge a line can be drawn
        ("{mark: line, onto: tube, at: 10 mm from rear}", "open"),
        # a long line runs on beyond the ring
        ("{mark: line, onto: tube, at: 5 mm to 50 mm from rear}", "open"),
    ],
)
def test_what_lies_under_a_ring_is_covered(doing: str, state: str) -> None:
    run = built(
        steps(
            "tube, ring, fin, pva, brush",
            "{slide: ring, over: tube, from: rear, to: rear_seat, fit: sliding}",
            doing,
        )
    )
    (need,) = needs(run.frames[-1], n.Bare)
    assert (need.state, need.met) == (state, state == "open")


@pytest.mark.parametrize(
    ("line", "state"),
    [
        # the ring covers 10 to 20 mm; an edge that touches a line does not hide it
        ("10 mm", "drawn"),
        ("10.1 mm", "covered"),
        ("19.9 mm", "covered"),
        ("20 mm", "drawn"),
    ],
)
def test_a_line_under_a_ring_is_out_of_sight(line: str, state: str) -> None:
    run = built(
        steps(
            "tube, ring, pencil, ruler",
            f"{{mark: line, onto: tube, at: {line} from rear, around: yes}}",
            "{slide: ring, over: tube, from: rear, to: rear_seat, fit: sliding}",
            "{mark: tick, onto: tube, at: middle, along: line}",
        )
    )
    (need,) = needs(run.frames[-1], n.Marked)
    assert (need.state, need.other, need.met) == (
        state,
        "ring" if state == "covered" else "",
        state == "drawn",
    )


@pytest.mark.parametrize(
    ("stretch", "state"),
    [
        # left standing out by 40 mm at the front: 0 to 60 of the tube are inside
        ("0 mm to 10 mm from rear", "inside"),
        ("50 mm to 60 mm from rear", "inside"),
        ("55 mm to 65 mm from rear", "open"),
        ("90 mm to 100 mm from rear", "open"),
    ],
)
def test_the_outside_of_what_is_inside(stretch: str, state: str) -> None:
    run = built(
        steps(
            "tube, fin, pva, brush",
            "{insert: tube, into: outer, from: front, leaving out: 40 mm, fit: running}",
            f"{{glue: tube, outside: {stretch}, with: pva, for: fin}}",
            own=OUTER,
        )
    )
    (need,) = needs(run.frames[-1], n.Bare)
    assert (need.state, need.other) == (state, "outer" if state == "inside" else "")


@pytest.mark.parametrize(
    ("fit", "bore", "state"),
    [
        # a thing of 22 mm; play and what each fit allows (mm): tight -0.2 to 0.05, sliding 0.05 to 1,
        # running 0.2 to 2, loose 0.8 to 12; the edges belong to it
        ("tight", "21.8 mm", True),
        ("tight", "21.79 mm", False),
        ("tight", "22.05 mm", True),
        ("tight", "22.06 mm", False),
        ("sliding", "22.05 mm", True),
        ("sliding", "22.04 mm", False),
        ("sliding", "23 mm", True),
        ("sliding", "23.01 mm", False),
        ("running", "22.2 mm", True),
        ("running", "24.01 mm", False),
        ("loose", "22.8 mm", True),
        ("loose", "22.79 mm", False),
    ],
)
def test_fits_and_their_limits(fit: str, bore: str, state: bool) -> None:
    own = f"parts:\n  sleeve: {{form: ring, source: bought, outside: 40 mm, inside: {bore}, length: 10 mm}}\n"
    run = built(
        steps("tube", f"{{slide: sleeve, over: tube, from: rear, to: rear_seat, fit: {fit}}}", own=own)
    )
    (need,) = needs(run, n.Fits)
    assert need.met is state


@pytest.mark.parametrize(
    ("bore", "met"),
    [("22 mm", True), ("21.99 mm", False), ("23 mm", True), ("23.01 mm", False)],
)
def test_the_gap_that_glue_bridges(bore: str, met: bool) -> None:
    """White glue bridges 0.5 mm on one side (the table of adhesives has its sources): up to 1 mm of play."""
    own = f"parts:\n  sleeve: {{form: ring, source: bought, outside: 40 mm, inside: {bore}, length: 10 mm}}\n"
    run = built(
        steps(
            "tube, pva, brush",
            "{glue: tube, outside: rear_seat, with: pva, for: sleeve}",
            "{slide: sleeve, over: tube, from: rear, to: rear_seat}",
            own=own,
        )
    )
    assert [need.met for need in needs(run, n.Fits)] == [met]


@pytest.mark.parametrize(
    ("glued", "met"),
    [("10 mm to 30 mm", True), ("12 mm to 28 mm", True), ("10 mm to 60 mm", False), ("5 mm to 30 mm", False)],
)
def test_a_strip_covers_as_much_as_it_is_wide(glued: str, met: bool) -> None:
    """170 mm go round the tube; along it the strip lies from 10 mm to 10 + 20 = 30 mm."""
    run = built(
        steps(
            "tube, pva, brush",
            f"{{glue: tube, outside: {glued} from rear, with: pva, for: band}}",
            "{wrap: band, around: tube, at: 10 mm from rear}",
            own="parts:\n  band: {form: strip, source: bought, size: 170 mm x 20 mm, thickness: 1 mm}\n",
        )
    )
    (cover,) = needs(run, n.Covered)
    assert (of(cover.lo), of(cover.hi)) == (10, 30)
    assert cover.met is met


LACING = """
parts:
  strap: {form: slab, source: bought, thickness: 1 mm, outline: {rectangle: 60 mm x 20 mm}}
"""


@pytest.mark.parametrize(
    ("action", "unmet_there"),
    [
        # a knot: the tube is 100 mm long
        ("{tie: cord, to: tube, at: 100 mm from rear}", []),
        ("{tie: cord, to: tube, at: 101 mm from rear}", ["Station"]),
        ("{tie: cord, to: tube, at: rear_seat}", []),
        ("{tie: cord, to: tube, at: raer_seat}", ["Named"]),
        ("{tie: cord, to: tube, at: end of cord}", []),  # a place of the cord, not of the tube
        # a fold: the strap is 60 mm long
        ("{fold: strap, at: [20 mm from left, 60 mm from left], with: ruler}", []),
        ("{fold: strap, at: [20 mm from left, 61 mm from left], with: ruler}", ["Station"]),
        ("{fold: strap, at: [20 mm from lefft], with: ruler}", ["Named"]),
    ],
)
def test_the_place_of_a_knot_or_a_fold_is_on_its_part(action: str, unmet_there: list[str]) -> None:
    run = built(steps("tube, cord, ruler", action, own=LACING))
    assert unmet(run) == unmet_there
