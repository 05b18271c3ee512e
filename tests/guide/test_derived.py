"""Numbers that follow from others, against arithmetic that stands beside them; the good guides read clean.

All lengths in inches or millimetres as the guide has them. Where a value depends on pi it is worked out
here from `math.pi`, by another way than the program's (turn by turn, not as one product).
"""

from __future__ import annotations

import math
from fractions import Fraction

import pytest

from builder.guide.model import Guide, Thing
from builder.quantities.units import Dimension
from tests.guide.planting import planted, reading, texts_of

INCH = Fraction(254, 10)

GOOD = ("rolled-rocket.yml", "wind-cart.yml", "marble-run")


@pytest.fixture(scope="module")
def rocket() -> Guide:
    return reading(*texts_of("rolled-rocket.yml"))


@pytest.fixture(scope="module")
def cart() -> Guide:
    return reading(*texts_of("wind-cart.yml"))


@pytest.mark.parametrize("name", GOOD)
def test_a_good_guide_has_no_finding(name: str) -> None:
    assert reading(*texts_of(name)).findings == ()


def inches(thing: Thing, field: str) -> Fraction:
    """A number of a thing in inches."""
    base = thing.mm(field)
    assert base is not None, f"{thing.id}.{field} is unknown"
    return base / INCH


# (thing, number, inches exactly)
ROCKET = [
    ("body", "wall", Fraction(4, 100)),  # 4 x 0.010
    ("body", "inside", Fraction(125, 100)),  # the dowel's 1 1/4
    ("body", "outside", Fraction(133, 100)),  # 1.25 + 2 x 0.040
    ("body", "over_seam", Fraction(134, 100)),  # one 0.010 more
    ("body.blank", "length", Fraction(25, 2)),
    ("body.blank", "width", Fraction(33, 2)),  # 16.461 up to the next 1/16: 16 1/2 = 16.500
    ("motor_tube", "wall", Fraction(3, 100)),  # 3 x 0.010
    ("motor_tube", "outside", Fraction(23, 32) + Fraction(6, 100)),  # 0.71875 + 2 x 0.030
    ("motor_tube.blank", "width", Fraction(117, 16)),  # 7.307 up to the next 1/16: 7 5/16 = 7.3125
    ("rear_ring", "outside", Fraction(123, 100)),  # 1.25 - 0.020
    ("rear_ring", "inside", Fraction(80875, 100000)),  # 0.71875 + 0.060 + 0.010 over the seam + 0.020
    ("front_ring", "inside", Fraction(80875, 100000)),  # the same, copied
    ("front_ring", "length", Fraction(1, 8)),  # the foam's thickness
    ("fin_jig", "inside", Fraction(136, 100)),  # 1.340 + 0.020
    ("front_plug", "diameter", Fraction(125, 100)),
    ("rear_mask", "diameter", Fraction(133, 100)),
    ("lug", "outside", Fraction(6, 32)),  # 5/32 + 2 x 1/64
    ("fin", "length", Fraction(9, 4)),  # the root
    ("fin", "width", Fraction(2)),  # the span
    ("fin", "thickness", Fraction(1, 16)),  # the board's
    ("tab", "width", Fraction(3, 4)),  # the tape's
    ("nose", "outside", Fraction(133, 100)),  # the widest of 0, 1.33 and 1.235
    ("shroud", "knots_take", Fraction(1)),
    ("anchor", "folded_length", Fraction(1)),
]


@pytest.mark.parametrize(("thing", "field", "expected"), ROCKET)
def test_numbers_of_the_rocket(rocket: Guide, thing: str, field: str, expected: Fraction) -> None:
    assert inches(rocket.things[thing], field) == expected


# (tube, former, turns, thickness of the paper, overlap, what the sum was said to be to three places)
WRAPS = [("body", 1.25, 4, 0.010, 0.25, 16.461), ("motor_tube", 23 / 32, 3, 0.010, 0.25, 7.307)]


@pytest.mark.parametrize(("tube", "former", "turns", "paper", "overlap", "said"), WRAPS)
def test_the_paper_round_a_former(rocket: Guide, tube: str, former: float, turns: int, paper: float,
                                  overlap: float, said: float) -> None:  # fmt: skip
    """Turn by turn: the k-th lies at the mean diameter former + (2k - 1) paper."""
    wrap = sum(math.pi * (former + (2 * k - 1) * paper) for k in range(1, turns + 1)) + overlap
    assert float(inches(rocket.things[tube], "wrap")) == pytest.approx(wrap, abs=1e-9)
    assert wrap == pytest.approx(said, abs=0.0005)


def test_one_turn_on_a_small_former() -> None:
    """20 mm former, one turn of 0.10 mm paper, 10 mm overlap: pi x 20.1 + 10 = 73.146 mm, said as 73.15.

    A worked check value of common practice, no source.
    """
    texts, _ = planted(*texts_of("marble-run"), (("turns: 4, overlap: 6 mm", "turns: 1, overlap: 10 mm"),),
                       ())
    wrap = reading(texts, "guide.yml").things["tube"].mm("wrap")
    assert wrap is not None
    assert float(wrap) == pytest.approx(math.pi * 20.1 + 10, abs=1e-9)
    assert float(wrap) == pytest.approx(73.15, abs=0.005)


@pytest.mark.parametrize(
    ("sides", "flats", "corners"),
    [
        (6, 12, 13.8564),  # a hexagon: side 6.9282, twice that from corner to corner
        (8, 12, 12.9887),  # an octagon: circumradius 6.4944, twice that
    ],
)
def test_across_the_corners(sides: int, flats: int, corners: float) -> None:
    """Regular polygons of 12 in across flats: side and circumradius from the handbook formulas."""
    texts, _ = planted(*texts_of("rolled-rocket.yml"), (
        ("sides: 8, across flats: 12 in", f"sides: {sides}, across flats: {flats} in"),), ())  # fmt: skip
    canopy = reading(texts, "rolled-rocket.yml").things["canopy"]
    assert float(inches(canopy, "across_corners")) == pytest.approx(corners, abs=0.0001)
    back = {"across flats: 12 in": f"across corners: {corners} in"}
    texts, _ = planted(*texts_of("rolled-rocket.yml"), (
        ("sides: 8, across flats: 12 in", f"sides: {sides}, {back['across flats: 12 in']}"),),
                       ())  # fmt: skip
    canopy = reading(texts, "rolled-rocket.yml").things["canopy"]
    assert float(inches(canopy, "across_flats")) == pytest.approx(flats, abs=0.0001)


# (thing, side, zone, from, to): in inches from the zero end, each sum of the ones before it
F = Fraction
ROCKET_ZONES = [
    ("body", "outside", "tail", F(0), F(1, 4)),
    ("body", "outside", "fin_root", F(1, 4), F(5, 2)),  # 1/4 + 2 1/4
    ("body", "outside", "lower", F(5, 2), F(4)),  # + 1 1/2
    ("body", "outside", "lug_seat", F(4), F(11, 2)),  # + 1 1/2
    ("body", "outside", "upper", F(11, 2), F(25, 2)),  # + 7 = 12 1/2
    ("body", "inside", "mount", F(0), F(11, 4)),
    ("body", "inside", "bay", F(11, 4), F(39, 4)),  # + 7
    ("body", "inside", "anchor_seat", F(39, 4), F(43, 4)),  # + 1
    ("body", "inside", "clear", F(43, 4), F(11)),  # + 1/4
    ("body", "inside", "shoulder", F(11), F(25, 2)),  # + 1 1/2 = 12 1/2
    ("motor_tube", "outside", "rear_seat", F(1, 4), F(3, 8)),
    ("motor_tube", "outside", "between", F(3, 8), F(19, 8)),
    ("motor_tube", "outside", "front_seat", F(19, 8), F(5, 2)),
    ("motor_tube", "outside", "head", F(5, 2), F(11, 4)),
    ("motor_tube", "inside", "motor", F(0), F(5, 2)),
    ("motor_tube", "inside", "thrust_seat", F(5, 2), F(11, 4)),
    ("nose", "outside", "cone", F(0), F(4)),
    ("nose", "outside", "shoulder", F(4), F(11, 2)),
]


@pytest.mark.parametrize(("thing", "side", "zone", "lo", "hi"), ROCKET_ZONES)
def test_zones_of_the_rocket(rocket: Guide, thing: str, side: str, zone: str, lo: Fraction,
                             hi: Fraction) -> None:
    found = rocket.things[thing].zone(zone, side)
    assert found is not None and found.lo is not None and found.hi is not None
    assert (found.lo / INCH, found.hi / INCH) == (lo, hi)


CART_ZONES = [
    ("deck", "lengthwise", "overhang_front", 0, 30),
    ("deck", "lengthwise", "wheelbase", 30, 170),
    ("deck", "lengthwise", "overhang_back", 170, 200),
    ("deck", "crosswise", "left_half", 0, 60),
    ("deck", "crosswise", "right_half", 60, 120),
    ("axle", "outside", "wheel_l", 0, 6),
    ("axle", "outside", "gap_l", 6, 10),
    ("axle", "outside", "seat", 10, 130),  # the deck's width, 120
    ("axle", "outside", "gap_r", 130, 134),
    ("axle", "outside", "wheel_r", 134, 140),
]


@pytest.mark.parametrize(("thing", "side", "zone", "lo", "hi"), CART_ZONES)
def test_zones_of_the_cart(cart: Guide, thing: str, side: str, zone: str, lo: int, hi: int) -> None:
    found = cart.things[thing].zone(zone, side)
    assert found is not None and (found.lo, found.hi) == (F(lo), F(hi))


def test_a_chain_from_the_far_end() -> None:
    """200 mm: the mouth of 50 mm from the front is 150 to 200 from the rear, the rest 0 to 150."""
    tube = reading(*texts_of("marble-run")).things["tube"]
    mouth, rest = tube.zone("mouth"), tube.zone("rest")
    assert mouth is not None and rest is not None
    assert (mouth.lo, mouth.hi, rest.lo, rest.hi) == (F(150), F(200), F(0), F(150))


def test_tapers_holes_and_outlines() -> None:
    things = reading(*texts_of("marble-run")).things
    assert [(t.zone, t.first.base, t.second.base) for t in things["cone"].tapers] == [
        ("point", 0, 22), ("plug", Fraction(39, 2), Fraction(39, 2))]  # fmt: skip  # 20 - 0.5
    low, high = things["base"].holes
    assert (low.name, low.spot.names) == ("low", ("left", "front"))
    assert [v.base for v in low.spot.lengths] == [F(20), F(60)]
    assert (high.name, [v.base for v in high.spot.lengths]) == ("high", [F(180), F(60)])
    outline = things["flag"].outline
    assert outline is not None and outline.shape == "points"
    assert [(x.base, y.base) for x, y in outline.points] == [(F(0), F(0)), (F(40), F(0)), (F(0), F(30))]


def test_what_a_number_rests_on(rocket: Guide) -> None:
    """The written numbers behind a derived one, and nothing else."""
    assert rocket.things["body"].values["outside"].reads == {"body_dowel.diameter", "body.turns",
                                                             "paper.thickness"}
    assert rocket.things["rear_ring"].values["outside"].reads == {"body_dowel.diameter", "play"}
    assert rocket.things["fin"].values["length"].reads == {"fin.root"}


@pytest.mark.parametrize(
    ("path", "amount", "dimension"),
    [
        ("pva.working_time", 300, Dimension.TIME),
        ("pva.full_cure", 86400, Dimension.TIME),
        ("paper.pack", 50, Dimension.COUNT),
        ("paper.price", 21, Dimension.MONEY),
        ("line.length", Fraction(33528, 10), Dimension.LENGTH),  # 11 ft x 304.8 mm
        ("motor_tube.turns", 3, Dimension.COUNT),
    ],
)
def test_what_is_written_inside_a_field(rocket: Guide, path: str, amount: Fraction,
                                        dimension: Dimension) -> None:
    thing, field = path.split(".")
    value = rocket.things[thing].values[field]
    assert value.quantity is not None
    assert (value.base, value.quantity.dimension) == (amount, dimension)


def test_routes_and_shared_steps(rocket: Guide) -> None:
    assert [route.name for route in rocket.routes] == ["with the jig", "without a jig"]
    jig, marks = ({step.id for step in route.steps} for route in rocket.routes)
    assert jig - marks == {"jig_cut", "jig_on", "jig_fins", "jig_off"}
    assert marks - jig == {"guide", "tack_fins", "tack_wait"}
    roll = next(step for step in rocket.routes[0].steps if step.id == "motor_roll")
    assert roll.shared == "roll_tube" and roll.at.file == "roll_tube.yml"
    blank = next(roll.each_action()).ref("what")
    assert blank is not None and blank.id == "motor_tube.blank"
