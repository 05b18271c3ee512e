"""Where things sit: stations worked out by hand, on the two whole guides and on small kits."""

from __future__ import annotations

from fractions import Fraction as F

import pytest

from builder.dryrun import needs as n
from builder.dryrun.bench import Bench
from builder.dryrun.placing import frame_in
from builder.dryrun.run import DryRun
from tests.dryrun.built import INCH, built, fixture, inches, needs, of, steps, unmet

JIG, MARKS = 0, 1


def rocket(route: int = JIG) -> DryRun:
    return fixture("rolled-rocket")[1][route]


def after(step: str, run: DryRun | None = None) -> Bench:
    return (run or rocket()).of_step(step)[-1].after


def on(bench: Bench, item: str, host: str, length: F) -> object:
    """What an item of a length takes of a host's axis, over the seats between."""
    found = frame_in(bench, item, host)
    assert found is not None
    offset, sign = found
    return tuple(sorted((offset, offset + sign * length)))


@pytest.mark.parametrize(
    ("step", "child", "host", "side", "lo", "hi"),
    [
        # the thrust seat ends flush with the front: 2 3/4 - 1/4 = 2 1/2
        ("thrust", "thrust_ring", "motor_tube", "inside", "2 1/2", "2 3/4"),
        # the rear face of the rear ring stands on the rear line, 1/4 from the rear; the ring is 1/8 long
        ("rear_ring_on", "rear_ring", "motor_tube", "outside", "1/4", "3/8"),
        # the seat of the front ring begins at 1/4 + 1/8 + 2 = 2 3/8
        ("front_ring_on", "front_ring", "motor_tube", "outside", "2 3/8", "2 1/2"),
        # left standing out by 1 1/2 at the rear: from -1 1/2 to 2 3/4 - 1 1/2 = 1 1/4
        ("mount_half", "motor_tube", "body", "inside", "-1 -1/2", "1 1/4"),
        # pushed home, flush with the rear
        ("mount_home", "motor_tube", "body", "inside", "0", "2 3/4"),
        # the root zone: 1/4 to 1/4 + 2 1/4 = 2 1/2
        ("jig_fins", "fin 3", "body", "outside", "1/4", "2 1/2"),
        # the lug's zone: 1/4 + 2 1/4 + 1 1/2 = 4 to 5 1/2
        ("lug_on", "lug", "body", "outside", "4", "5 1/2"),
        # the nose goes in by its shoulder of 1 1/2, base first: 12 1/2 - 1 1/2 = 11 to 12 1/2 + 4 = 16 1/2
        ("last", "nose", "body", "inside", "11", "16 1/2"),
        # a plug of 2 in, half of it out of the front: 12 1/2 + 1 - 2 = 11 1/2 to 13 1/2
        ("close", "front_plug", "body", "inside", "11 1/2", "13 1/2"),
    ],
)
def test_the_seats_of_the_rocket(step: str, child: str, host: str, side: str, lo: str, hi: str) -> None:
    seat = after(step).seats[child]
    assert (seat.host, seat.side) == (host, side)
    assert seat.stretch == inches(lo, hi)


def test_a_part_way_seat_is_moved_and_is_home_after_that() -> None:
    half, home = after("mount_half").seats["motor_tube"], after("mount_home").seats["motor_tube"]
    assert (half.home, home.home) == (False, True)
    # the front ring, at 2 3/8 to 2 1/2 of the tube, comes to 7/8 to 1 in from the rear of the body, where its
    # glue was laid; the rear ring, at 1/4 to 3/8, is still outside: -1 1/4 to -1 1/8
    eighth = INCH / 8
    assert on(after("mount_half"), "front_ring", "body", eighth) == inches("7/8", "1")
    assert on(after("mount_half"), "rear_ring", "body", eighth) == inches("-1 -1/4", "-1 -1/8")
    assert on(after("mount_home"), "front_ring", "body", eighth) == inches("2 3/8", "2 1/2")
    assert on(after("mount_home"), "rear_ring", "body", eighth) == inches("1/4", "3/8")


def test_the_glue_of_each_half_is_met_by_its_ring() -> None:
    for step, ring in (("mount_half", "front_ring"), ("mount_home", "rear_ring")):
        new = after(step).joints[-1]
        assert (new.a, new.b, new.adhesive) == ("body", ring, "pva")


def test_the_motor_sticks_out_by_what_the_guide_says() -> None:
    # the case, 70 mm, stops at the thrust ring, 2 1/2 in = 63.5 mm from the rear: 70 - 63.5 = 6.5 mm
    (frame,) = [
        f for f in rocket().frames if f.action.word("sticks_out") == "rear" and f.step.id == "mount_check"
    ]
    (measured,) = needs(frame, n.Measures)
    assert measured.met
    assert measured.found == F(13, 2)
    seat = frame.before.seats["dummy"]
    assert seat.stretch == (F(-13, 2), F(127, 2))


def test_fins_stand_evenly_and_the_lug_between_two() -> None:
    for route in (JIG, MARKS):
        bench = rocket(route).end
        assert of([bench.seats[f"fin {i}"].angle for i in (1, 2, 3, 4)]) == [0, 90, 180, 270]
        assert bench.seats["lug"].angle == 45


def cart(step: str) -> Bench:
    return after(step, fixture("wind-cart")[1][0])


def test_the_seats_of_the_cart() -> None:
    # bearings lie across the deck on their lines, 30 and 30 + 140 = 170 mm from the front, 6 mm wide
    bench = cart("bearings")
    for number, x in ((1, 30), (2, 170)):
        seat = bench.seats[f"bearing {number}"]
        assert seat.side == "under"
        assert of(seat.stretch) == (x - 3, x + 3)
    # an axle of 140 mm through a bearing of 120, its seat zone 6 + 4 = 10 from its left end: -10 to 130
    bench = cart("axles")
    assert of(bench.seats["axle 1"].stretch) == (-10, 130)
    # wheels of 6 mm at the two ends of the axle
    assert of(bench.seats["wheel 1"].stretch) == (0, 6)
    assert of(bench.seats["wheel 2"].stretch) == (134, 140)
    # the block, 30 x 30, with its middle 80 mm from the front and 60 from the left: 65 to 95 and 45 to 75
    block = cart("block").seats["step_block"]
    assert of((block.stretch, block.across)) == ((65, 95), (45, 75))
    # the mast stands through deck and block, flush with the underside
    mast = cart("mast_in").seats["mast"]
    assert (mast.host, mast.side, mast.stretch) == ("deck", "hole", (F(0), F(250)))


@pytest.mark.parametrize(
    ("place", "lo", "hi"),
    [
        # a place that is measured from the rear: the rear face of the ring (10 mm long) stands there
        ("20 mm from rear", 20, 30),
        # measured from the front: its front face
        ("20 mm from front", 70, 80),
        # by its middle, whichever end
        ("20 mm from rear, by: middle", 15, 25),
        ("20 mm from front, by: middle", 75, 85),
        # another face is named
        ("20 mm from rear, by: front", 10, 20),
        ("start of middle", 20, 30),
        ("end of middle", 80, 90),
        ("rear_seat", 10, 20),
        ("flush with rear", 0, 10),
        ("flush with front", 90, 100),
        ("middle of tube, by: middle", 45, 55),
    ],
)
def test_which_face_stands_at_a_place(place: str, lo: int, hi: int) -> None:
    run = built(steps("tube, ring", f"{{slide: ring, over: tube, from: rear, to: {place}, fit: sliding}}"))
    assert unmet(run) == []
    assert of(run.end.seats["ring"].stretch) == (lo, hi)


@pytest.mark.parametrize(
    ("end", "place", "lo", "hi"),
    [
        ("front", "flush with front", 60, 100),
        ("front", "leaving out: 15 mm", 75, 115),
        ("rear", "leaving out: 15 mm", -15, 25),
        ("front", "meets plug", 10, 50),  # the plug fills 0 to 10
        ("front", "bay", 10, 50),  # too short for the zone: it goes in as far as it can
    ],
)
def test_what_goes_in(end: str, place: str, lo: int, hi: int) -> None:
    where = place if ":" in place else f"to: {place}"
    before = "{insert: plug, into: tube, from: rear, to: flush with rear, fit: tight}"
    takes = "tube, nose, plug" if "plug" in place else "tube, nose"
    actions = [before] if "plug" in place else []
    run = built(steps(takes, *actions, f"{{insert: nose, into: tube, from: {end}, {where}, fit: tight}}"))
    assert unmet(run) == (["Fills"] if place == "bay" else [])
    assert of(run.end.seats["nose"].stretch) == (lo, hi)


def test_a_shoulder_stops_at_the_end() -> None:
    own = """
    parts:
      cone:
        form: turned
        source: bought
        length: 55 mm
        zones: {outside from tip: [tip_part: 40 mm, shoulder: 15 mm]}
        diameters: {tip_part: 0 mm to 22 mm, shoulder: 19.8 mm}
    """
    run = built(
        steps("tube", "{insert: cone, into: tube, from: front, to: meets front, fit: sliding}", own=own)
    )
    seat = run.end.seats["cone"]
    # base first: the shoulder, 15 mm, is in; 100 - 15 = 85 to 85 + 55 = 140
    assert of((seat.stretch, seat.flipped)) == ((85, 140), True)
    # a station of the cone counts from its tip, which points away: the tip lies at 140, the shoulder's edge
    # (40 from the tip) at 100
    assert of(frame_in(run.end, "cone", "tube")) == (140, -1)


def test_a_station_is_carried_through_a_seat_that_turns_its_part_round() -> None:
    own = """
    parts:
      spike:
        form: turned
        source: bought
        length: 50 mm
        zones: {outside from tip: [thin: 35 mm, stem: 15 mm]}
        diameters: {thin: 8 mm, stem: 19.8 mm}
      collar: {form: ring, source: bought, outside: 12 mm, inside: 8.4 mm, length: 5 mm}
    """
    run = built(
        steps(
            "tube",
            "{slide: collar, over: spike, from: tip, to: 10 mm from tip, fit: sliding}",
            "{insert: spike, into: tube, from: front, to: meets front, fit: sliding}",
            own=own,
        )
    )
    # nothing of the spike is thicker than the bore, so that it goes in whole: 50 to 100, its tip at 100
    assert of((run.end.seats["spike"].stretch, run.end.seats["spike"].flipped)) == ((50, 100), True)
    # the collar, 10 to 15 mm from the tip, lies 85 to 90 mm from the rear of the tube
    assert of(frame_in(run.end, "collar", "tube")) == (90, -1)
    assert on(run.end, "collar", "tube", F(5)) == (85, 90)


def test_a_station_is_carried_through_nested_seats() -> None:
    own = """
    parts:
      outer: {form: tube, source: bought, length: 200 mm, inside: 24 mm, wall: 1 mm}
    """
    run = built(
        steps(
            "tube, plug",
            "{insert: plug, into: tube, from: front, to: 20 mm from front, fit: tight}",
            "{insert: tube, into: outer, from: front, leaving out: 40 mm, fit: loose}",
            own=own,
        )
    )
    # the tube sits at 200 + 40 - 100 = 140 to 240 of the outer one; the plug, at 70 to 80 of the tube, at 210
    assert of(run.end.seats["tube"].stretch) == (140, 240)
    assert of(frame_in(run.end, "plug", "outer")) == (210, 1)
    assert on(run.end, "plug", "outer", F(10)) == (210, 220)


def test_copies_pair_by_index_and_another_pairing_is_listed() -> None:
    bench = fixture("wind-cart")[1][0].end
    assert {wheel: bench.seats[wheel].host for wheel in (f"wheel {i}" for i in (1, 2, 3, 4))} == {
        "wheel 1": "axle 1",
        "wheel 3": "axle 2",
        "wheel 2": "axle 1",
        "wheel 4": "axle 2",
    }
    assert [bench.seats[f"axle {i}"].host for i in (1, 2)] == ["bearing 1", "bearing 2"]
