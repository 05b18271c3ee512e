"""Boards that stand on an edge, lie over all of their host, or have rods through them. Places by hand."""

from __future__ import annotations

from fractions import Fraction as F

import pytest

from builder.checks.judge import check
from builder.drawings.of_bench import settle
from builder.drawings.solids import Slab
from builder.drawings.vectors import Vec
from builder.dryrun import needs as n
from builder.dryrun.bench import Bench
from builder.dryrun.kinds import VERBS
from builder.dryrun.run import DryRun, run_all
from builder.guide.model import Guide
from builder.guide.reader import read
from tests.dryrun.built import needs, of

KIT = """\
title: Box
units: {first: mm, second: in, finest: 1 mm}
materials:
  pva: {name: white PVA glue, form: adhesive, adhesive: pva, amount: 5 mL,
        label: {working time: 30 min, tack: 2 min, set: 30 min, full cure: 24 h}}
tools:
  brush: {name: glue brush}
  pencil: {name: pencil}
  ruler: {name: ruler}
  drill: {name: hand drill, who: adult helps}
parts:
  floor:
    form: slab
    source: bought
    thickness: 9 mm
    outline: {rectangle: 200 mm x 120 mm, edges: [left, front, right, back], along: left to right}
    zones:
      lengthwise from left: [ledge: 20 mm, seat: 10 mm, rest: 170 mm]
  wall:
    form: slab
    source: bought
    thickness: 10 mm
    outline: {rectangle: 150 mm x 120 mm, edges: [bottom, front, top, back], along: bottom to top}
    holes: {peep: 100 mm from bottom and 60 mm from front}
  rim: {form: slab, source: bought, thickness: 8 mm, outline: {rectangle: 200 mm x 12 mm}}
  eye: {form: screw, source: bought, diameter: 3 mm, length: 10 mm}
  post: {form: rod, source: bought, count: 2, diameter: 8 mm, length: 100 mm}
  lid:
    form: slab
    source: bought
    thickness: 6 mm
    outline: {rectangle: 180 mm x 100 mm, edges: [left, front, right, back], along: left to right}
    holes: {near: 30 mm from left and 40 mm from front, far: 30 mm from right and 40 mm from front}
steps:
  - id: work
    title: Do the work
    time: 20 min
    actions:
"""


def run(*actions: str) -> tuple[Guide, DryRun]:
    text = KIT + "".join(f"      - {action}\n" for action in actions)
    guide = read({"guide.yml": text}, "guide.yml", VERBS, "box")
    assert [f.message for f in guide.findings] == []
    return guide, run_all(guide)[0]


def after(*actions: str) -> Bench:
    return run(*actions)[1].frames[-1].after


def box_of(item: str, *actions: str) -> tuple[Vec, Vec]:
    """Where a flat item is in the world of the floor: its least and its greatest corner."""
    guide, done = run(*actions)
    found = settle(guide, done.frames[-1].after, "floor")[item]
    assert isinstance(found.solid, Slab)
    corners = [found.pose.world((*p, z)) for p in found.solid.outline for z in (0.0, found.solid.thickness)]
    low, high = (tuple(round(pick(c[i] for c in corners), 6) for i in range(3)) for pick in (min, max))
    return (low[0], low[1], low[2]), (high[0], high[1], high[2])


GLUED = "{glue: wall, edge: EDGE, with: [pva, brush], for: floor}"


def stood(edge: str, place: str, field: str = "top") -> tuple[str, str]:
    return GLUED.replace("EDGE", edge), f"{{attach: wall, onto: floor, {field}: {place}, hold: 2 min}}"


@pytest.mark.parametrize(
    ("edge", "place", "low", "high"),
    [
        # across the floor on its bottom: 10 thick from 20, all 120 across, 150 high on the 9 of the floor
        ("bottom", "seat", (20, 0, 9), (30, 120, 159)),
        ("top", "seat", (20, 0, 9), (30, 120, 159)),
        ("bottom", "flush with right", (190, 0, 9), (200, 120, 159)),
        # on its front edge, which is 150 long, beside the front of the floor: 120 high
        ("front", "0 mm from front and 25 mm from left", (25, 0, 9), (175, 10, 129)),
        ("back", "0 mm from back and 25 mm from left", (25, 110, 9), (175, 120, 129)),
    ],
)
def test_a_wall_stands_on_the_edge_that_has_glue(edge: str, place: str, low: Vec, high: Vec) -> None:
    assert box_of("wall", *stood(edge, place)) == (low, high)


def test_a_wall_hangs_from_the_under_face() -> None:
    assert box_of("wall", *stood("bottom", "seat", "under")) == ((20, 0, -150), (30, 120, 0))


def test_by_names_the_edge_where_the_glue_is_on_the_floor() -> None:
    glued = "{glue: floor, top: seat, with: [pva, brush], for: wall}"
    flat = "{attach: wall, onto: floor, top: seat, hold: 2 min}"
    assert of(after(glued, flat).seats["wall"].edge) == ""
    assert after(glued, flat.replace("seat, hold", "seat, by: bottom, hold")).seats["wall"].edge == "bottom"


def test_a_wall_that_nothing_holds_only_leans() -> None:
    """What lies flat is steady at once; what stands on an edge is not, unless it is held for its tack."""
    glue, attach = stood("bottom", "seat")
    steady = [joint.steady for joint in after(glue, attach).joints]
    assert steady == ["held"]
    assert [joint.steady for joint in after(glue, attach.replace(", hold: 2 min", "")).joints] == [""]
    face = "{glue: wall, face: under, with: [pva, brush], for: floor}"
    assert [j.steady for j in after(face, attach.replace(", hold: 2 min", "")).joints] == ["flat"]


def test_what_is_as_long_as_its_host_lies_over_all_of_it() -> None:
    """A rim of 200 on a floor of 200, told only from the front."""
    glued = "{glue: rim, face: under, with: [pva, brush], for: floor}"
    low, high = box_of("rim", glued, "{attach: rim, onto: floor, top: flush with front}")
    assert (low, high) == ((0, 0, 9), (200, 12, 17))


@pytest.mark.parametrize(("across", "told"), [(60, False), (6, True)])
def test_a_mark_beside_a_rim_is_not_covered(across: int, told: bool) -> None:
    """The rim covers 0 to 12 from the front."""
    guide, done = run(
        f"{{mark: spot, onto: floor, top: 40 mm from left and {across} mm from front}}",
        "{glue: rim, face: under, with: [pva, brush], for: floor}",
        "{attach: rim, onto: floor, top: flush with front}",
        "{drill: floor, at: spot, with: drill, size: 2 mm, depth: 6 mm}",
    )
    assert bool([f for f in check(guide, (done,)) if f.check == "mark-covered"]) == told


def test_a_screw_stands_on_its_mark() -> None:
    guide, done = run(
        "{mark: spot, onto: floor, top: 40 mm from left and 60 mm from front, with: [pencil, ruler]}",
        "{drill: floor, at: spot, with: drill, size: 2 mm, depth: 6 mm}",
        "{screw: eye, into: floor, at: spot}",
    )
    found = settle(guide, done.frames[-1].after, "floor")["eye"]
    assert found.pose.origin[:2] == (40, 60)
    assert found.pose.ex == (0, 0, 1)


POSTS = (
    "{drill: floor, at: [40 mm from left and 50 mm from front, 40 mm from right and 50 mm from front],"
    " with: drill, size: 8 mm, depth: through}",
    "{drill: lid, at: [near, far], with: drill, size: 8.4 mm, depth: through}",
    "{insert: post 1, into: floor, from: top, to: 40 mm from left and 50 mm from front, fit: sliding}",
    "{insert: post 2, into: floor, from: top, to: 40 mm from right and 50 mm from front, fit: sliding}",
)
LID = "{slide: lid, over: post, through: [near, far], from: head, to: flush with head, fit: sliding}"


def test_a_lid_lies_on_the_posts_that_go_through_it() -> None:
    """Its near hole, 30 from left and 40 from front, is on the post that stands at 40 and 50: 10 and 10 off.
    The posts stand on the bench and are 100 long, so its top is at 100."""
    assert box_of("lid", *POSTS, LID) == ((10, 10, 94), (190, 110, 100))
    assert of(after(*POSTS, LID).seats["lid"].stretch) == (94, 100)


def test_a_sheet_with_more_holes_than_rods_hangs_along_the_rod() -> None:
    """Two holes on one post: it hangs along it, as a sail does, and is as long as it is."""
    seat = after(*POSTS, LID.replace("over: post,", "over: post 1,")).seats["lid"]
    assert seat.stretch is not None
    assert of(seat.stretch[1] - seat.stretch[0]) == 180


@pytest.mark.parametrize(("size", "play"), [("8.4 mm", F(4, 10)), ("8 mm", 0)])
def test_the_holes_that_rods_go_through_are_those_that_have_to_fit(size: str, play: F) -> None:
    """8.4 - 8 = 0.4, and 8 - 8 = 0. A hole of 2 for a screw is none of them."""
    posts = [action.replace("size: 8.4 mm", f"size: {size}") for action in POSTS]
    pilot = "{drill: lid, at: 90 mm from left and 50 mm from front, with: drill, size: 2 mm, depth: 4 mm}"
    fits = needs(run(*posts, pilot, LID)[1].frames[-1], n.Fits)
    assert [(need.outer, need.play) for need in fits] == [("lid", play)]


@pytest.mark.parametrize(
    ("edge", "mend"), [("botom", "Did you mean `bottom`?"), ("keel", "Name one of its edges.")]
)
def test_an_edge_that_there_is_not_is_told(edge: str, mend: str) -> None:
    """Otherwise the wall would be laid flat, and nobody would be told."""
    guide, done = run(*stood(edge, "seat"))
    (finding,) = (f for f in check(guide, (done,)) if f.check == "unknown-place")
    assert finding.message == f'the wall has no edge "{edge}"'
    assert finding.mend == mend
