"""Fits, reach, sheets, motors and ends against published figures and worked examples."""

from __future__ import annotations

from fractions import Fraction

import pytest

from builder.trade import motors
from builder.trade.ends import END_PAIRS, ENDS, axis_of, is_origin, opposite
from builder.trade.fits import FITS, Pair, accepts, finger_reach, fit, fits_of, tool_reach
from builder.trade.sheets import (
    COMMON_AREA,
    COMMON_PRINTABLE,
    MARGIN,
    POINT,
    SHEETS,
    iso_tolerance,
    printable,
    sheet,
)  # fmt: skip

INCH = Fraction(254, 10)  # 16 CFR 500.19: 1 in = 2.54 cm exactly
FOOT = 12 * INCH


# Fits: common practice, no source. (fit, hole, thing, what meets what)
PLAYS: list[tuple[str, Fraction, Fraction, Pair]] = [
    ("tight", Fraction(39, 10), Fraction(4), "round"),  # wheel bore 3.9 mm on a 4 mm rod
    ("tight", Fraction(5, 4) * INCH, Fraction(5, 4) * INCH, "round"),  # a plug of the bore's own diameter
    ("running", Fraction(45, 10), Fraction(4), "round"),  # 4 mm axle in a 4.5 mm straw
    ("sliding", Fraction(23, 32) * INCH, Fraction(18), "round"),  # 18 mm motor case in a 23/32 in tube
    ("sliding", Fraction(1250, 1000) * INCH, Fraction(1235, 1000) * INCH, "round"),  # nose shoulder
    (
        "sliding",
        Fraction(1360, 1000) * INCH,
        Fraction(1340, 1000) * INCH,
        "round",
    ),  # jig over the seam, 0.020 in
    (
        "sliding",
        Fraction(1250, 1000) * INCH,
        Fraction(1230, 1000) * INCH,
        "round",
    ),  # ring in the body, 0.020 in
    ("sliding", Fraction(62, 10), Fraction(6), "round"),  # 6 mm mast in a 6.2 mm hole
    ("sliding", Fraction(8), Fraction(6), "sheet"),  # 8 mm punched hole of a bowed sail on a 6 mm mast
    ("loose", Fraction(8), Fraction(6), "sheet"),
]


@pytest.mark.parametrize(("kind", "hole", "thing", "pair"), PLAYS)
def test_fits_that_work_at_the_bench(kind: str, hole: Fraction, thing: Fraction, pair: Pair) -> None:
    assert accepts(kind, hole - thing, pair)
    assert kind in fits_of(hole - thing, pair)


@pytest.mark.parametrize(
    ("kind", "play", "pair"),
    [
        ("tight", Fraction(1, 2), "round"),  # falls off
        ("tight", Fraction(-1, 2), "round"),  # does not go on
        ("sliding", Fraction(0), "round"),
        ("sliding", Fraction(-1, 100), "round"),
        ("running", Fraction(0), "round"),
        ("sliding", Fraction(2), "round"),  # what slides on a bowed sheet rattles in a bore
        ("sliding", Fraction(3), "sheet"),
        ("loose", Fraction(1, 10), "round"),
        ("snug", Fraction(0), "round"),
    ],
)
def test_fits_that_do_not(kind: str, play: Fraction, pair: Pair) -> None:
    assert not accepts(kind, play, pair)


def test_both_pairs_have_every_fit_and_looser_is_looser() -> None:
    for pair in ("round", "sheet"):
        rows = [row for row in FITS if row.pair == pair]
        assert [row.kind for row in rows] == ["tight", "sliding", "running", "loose"]
        assert [row.low for row in rows] == sorted(row.low for row in rows)
        assert [row.high for row in rows] == sorted(row.high for row in rows)
    assert fit("snug") is None


@pytest.mark.parametrize("pair", ["round", "sheet"])
def test_no_play_falls_between_two_fits(pair: Pair) -> None:
    low, high = fit("tight", pair), fit("loose", pair)
    assert low is not None and high is not None
    steps = range(int(low.low * 100), int(high.high * 100) + 1)
    assert [step for step in steps if not fits_of(Fraction(step, 100), pair)] == []
    assert fits_of(low.low - Fraction(1, 100), pair) == fits_of(high.high + Fraction(1, 100), pair) == ()


@pytest.mark.parametrize(
    ("bore", "child", "adult"),
    [
        (5, 0, 0),  # a pencil's bore takes no finger
        (12, 20, 0),
        (16, 40, 20),
        (18, 60, 45),
        (32, 60, 70),  # a 1 1/4 in tube takes a whole finger, never a hand
        (60, 140, 70),
        (120, 350, 450),
    ],
)
def test_how_far_a_finger_reaches(bore: int, child: int, adult: int) -> None:
    """Annals of Anatomy, 2010: children's index fingers average 15 mm by 69 mm up to 10 years; common
    practice: the web of the hand takes 10 mm of it. Hands and adults are from memory."""
    assert finger_reach(Fraction(bore)) == child
    assert finger_reach(Fraction(bore), "adult") == adult


def test_glue_spread_two_inches_inside_is_within_a_finger() -> None:
    """Common practice, no source: the glue of a mount is spread about 2 in inside the body."""
    assert finger_reach(Fraction(5, 4) * INCH) >= 2 * INCH


def test_a_tool_reaches_only_where_it_goes_in() -> None:
    assert tool_reach(Fraction(20), Fraction(100)) == 100
    assert tool_reach(Fraction(7), Fraction(100)) == 0
    assert tool_reach(Fraction(8), Fraction(100)) == 100
    assert tool_reach(Fraction(14), Fraction(178), width=Fraction(127, 10)) == 0


# ISO 216 in mm as tabled by paper makers, and the rule: halve the long side, round down.
ISO = {
    "A0": (841, 1189), "A1": (594, 841), "A2": (420, 594), "A3": (297, 420), "A4": (210, 297),
    "A5": (148, 210), "A6": (105, 148),
}  # fmt: skip
# ANSI Y14.1 and North American office sizes, in.
ANSI = {
    "letter": ("8.5", "11"), "legal": ("8.5", "14"), "tabloid": ("11", "17"), "ANSI A": ("8.5", "11"),
    "ANSI B": ("11", "17"), "ANSI C": ("17", "22"), "ANSI D": ("22", "34"), "ANSI E": ("34", "44"),
}  # fmt: skip


@pytest.mark.parametrize("name", ISO)
def test_iso_sheets(name: str) -> None:
    row = sheet(name)
    assert row is not None
    width, height = ISO[name]
    assert (row.width, row.height) == (Fraction(width), Fraction(height))


@pytest.mark.parametrize(("larger", "smaller"), list(zip(ISO, list(ISO)[1:], strict=False)))
def test_half_an_iso_sheet_is_the_next(larger: str, smaller: str) -> None:
    one, half = sheet(larger), sheet(smaller)
    assert one is not None and half is not None
    assert half.width == one.height // 2 and half.height == one.width


@pytest.mark.parametrize("name", ANSI)
def test_inch_sheets(name: str) -> None:
    row = sheet(name)
    assert row is not None
    width, height = ANSI[name]
    assert (row.width, row.height) == (Fraction(width) * INCH, Fraction(height) * INCH)


@pytest.mark.parametrize(
    ("larger", "smaller"), [("ansi e", "ansi d"), ("ansi d", "ansi c"), ("ansi c", "ansi b")]
)
def test_half_an_ansi_sheet_is_the_next(larger: str, smaller: str) -> None:
    one, half = sheet(larger), sheet(smaller)
    assert one is not None and half is not None
    assert (half.width, half.height) == (one.height / 2, one.width)


def test_sheets_in_points() -> None:
    """ISO 32000-1: 1/72 in. Letter is 612 by 792 pt exactly; A4 595.2756 by 841.8898, rounded to 1/10000."""
    letter, a4 = sheet("letter"), sheet("a4")
    assert letter is not None and a4 is not None
    assert letter.width / POINT == 612 and letter.height / POINT == 792
    assert (round(a4.width / POINT * 10000), round(a4.height / POINT * 10000)) == (5952756, 8418898)
    assert round(100 / POINT * 10000) == 2834646  # a bar of 100 mm
    assert 4 * INCH / POINT == 288  # a bar of 4 in


def test_what_letter_and_a4_have_in_common() -> None:
    """Less than 1/4 in (6.35 mm) at every edge, common practice: 210 - 12.7 = 197.3; 279.4 - 12.7 = 266.7."""
    assert (Fraction("6.35"), (Fraction(210), Fraction("279.4"))) == (MARGIN, COMMON_AREA)
    assert (Fraction("197.3"), Fraction("266.7")) == COMMON_PRINTABLE
    for name in ("letter", "a4"):
        row = sheet(name)
        assert row is not None
        width, height = printable(row)
        assert COMMON_PRINTABLE[0] <= width and COMMON_PRINTABLE[1] <= height


def test_iso_tolerances() -> None:
    """ISO 216: 1.5 mm up to 150, 2 mm up to 600, 3 mm beyond."""
    assert [iso_tolerance(Fraction(x)) for x in (150, 151, 600, 601)] == [Fraction("1.5"), 2, 2, 3]


def test_no_sheet_lies_across() -> None:
    assert all(row.width < row.height for row in SHEETS)
    assert sheet("a quire") is None


# Motors. Encyclopedia tables of motor classes: printed limits in N s.
LIMITS = [
    ("1/4A", "0.3126", "0.625"), ("1/2A", "0.626", "1.25"), ("A", "1.26", "2.50"), ("B", "2.51", "5.00"),
    ("C", "5.01", "10.00"), ("D", "10.01", "20.00"), ("E", "20.01", "40.00"), ("F", "40.01", "80.00"),
    ("G", "80.01", "160.00"),
]  # fmt: skip


@pytest.mark.parametrize(("letter", "low", "high"), LIMITS)
def test_printed_limits_of_the_motor_classes(letter: str, low: str, high: str) -> None:
    for printed in (low, high):
        row = motors.impulse_class(Fraction(printed))
        assert row is not None and row.letter == letter
    assert motors.motor_class(letter) is motors.impulse_class(Fraction(high))


def test_each_motor_class_doubles_the_one_before() -> None:
    for before, row in zip(motors.MOTOR_CLASSES, motors.MOTOR_CLASSES[1:], strict=False):
        assert row.over == before.limit
        assert row.limit == 2 * before.limit
    assert [row.letter for row in motors.MOTOR_CLASSES] == [letter for letter, _, _ in LIMITS]


@pytest.mark.parametrize("total", ["0", "0.3125", "160.01", "-1"])
def test_what_is_no_model_rocket_motor(total: str) -> None:
    assert motors.impulse_class(Fraction(total)) is None


def test_a_motor_code() -> None:
    """C6-3: class C, 6 N on average, 3 s of delay; 10 N s / 6 N = 1.67 s."""
    code = motors.motor_code("C6-3")
    assert code is not None
    assert (code.motor_class.letter, code.thrust, code.delay) == ("C", 6, 3)
    assert round(code.longest_burn, 2) == Fraction("1.67")
    half = motors.motor_code("1/2A3-2")
    assert half is not None and (half.motor_class.letter, half.thrust, half.delay) == ("1/2A", 3, 2)


@pytest.mark.parametrize("text", ["", "C", "C6", "C6-", "C-3", "6-3", "H6-3", "C0-3", "C6-x", "-", "C²-3"])
def test_what_is_no_motor_code(text: str) -> None:
    assert motors.motor_code(text) is None


# Site dimension table of the national code: total impulse, N s, to feet.
SITES = [
    ("0.5", 50), ("1.25", 50), ("1.26", 100), ("2.5", 100), ("2.51", 200), ("5", 200), ("5.01", 400),
    ("10", 400), ("20", 500), ("40", 1000), ("80", 1000), ("160", 1000), ("320", 1500),
]  # fmt: skip


@pytest.mark.parametrize(("total", "feet"), SITES)
def test_the_least_site_dimension(total: str, feet: int) -> None:
    row = motors.site_for(Fraction(total))
    assert row is not None
    assert (row.feet, row.size) == (feet, feet * FOOT)


def test_the_metric_print_is_the_foot_rounded_down() -> None:
    """As printed (G and two G from memory), m; each is below the figure in feet by at most 2 %."""
    assert [row.printed_metres for row in motors.SITES] == [15, 30, 60, 120, 150, 300, 300, 300, 450]
    for row in motors.SITES:
        assert Fraction(98, 100) <= row.printed_metres * 1000 / row.size <= 1


def test_a_field_of_300_by_450_feet_takes_b_and_not_c() -> None:
    """NFPA 1122-2018, 4.9.1: the shortest side of a rectangle counts."""
    side = min(300 * FOOT, 450 * FOOT)
    b, c = motors.motor_class("B"), motors.motor_class("C")
    assert b is not None and c is not None
    assert motors.site_allows(side, b.limit)
    assert not motors.site_allows(side, c.limit)
    assert motors.site_allows(200 * FOOT, b.limit)  # just enough
    assert not motors.site_allows(10000 * FOOT, Fraction(321))


@pytest.mark.parametrize(
    ("key", "printed", "unit"),
    [
        # NFPA 1122-2018 and 14 CFR 101.22 print both units; 1 oz = 28.349523125 g
        ("lift_off_mass", "53", Fraction("28.349523125")),
        ("propellant_mass", "4.4", Fraction("28.349523125")),
        ("total_impulse", "71.9", Fraction("4.4482216152605")),  # lbf s
        ("distance_small", "15", FOOT),
        ("distance_large", "30", FOOT),
        ("wind", "32", Fraction(1000000)),  # 20 miles an hour, printed 32 km/h
    ],
)
def test_code_facts_agree_with_the_other_unit_that_is_printed(key: str, printed: str, unit: Fraction) -> None:
    fact = motors.code_fact(key)
    assert fact is not None
    value = Fraction(printed)
    last_place = Fraction(1, 10 ** len(printed.partition(".")[2]))
    assert abs(fact.value / unit - value) <= last_place / 2


@pytest.mark.parametrize(
    ("key", "value"),
    [
        ("launch_angle", 30),
        ("misfire_wait", 60),
        ("adult_impulse", 80),
        ("adult_age", 18),
        ("many_rockets", 10),
    ],
)
def test_code_facts_as_quoted(key: str, value: int) -> None:
    fact = motors.code_fact(key)
    assert fact is not None and fact.value == value
    assert motors.code_fact("luck") is None


def test_the_handover_names_who_decides() -> None:
    for words in (
        "responsible adult",
        "national model rocket safety code",
        "motor maker's instructions",
        "local rules",
    ):
        assert words in motors.HANDOVER


def test_usual_motor_cases() -> None:
    """Common practice, no source: 13, 18, 24 and 29 mm."""
    assert sorted({int(row.diameter) for row in motors.MOTOR_CASES}) == [13, 18, 24, 29]
    assert (Fraction(18), Fraction(70)) in [(row.diameter, row.length) for row in motors.MOTOR_CASES]


@pytest.mark.parametrize(
    ("end", "among", "expected"),
    [
        ("rear", (), "front"),
        ("front", (), "rear"),
        ("front", ("left", "front", "right", "back"), "back"),
        ("back", (), "front"),
        ("left", (), "right"),
        ("right", (), "left"),
        ("tip", (), "base"),
        ("base", (), "tip"),
        ("foot", (), "head"),
        ("top", (), "bottom"),
        ("top", ("top", "under"), "under"),
        ("under", (), "top"),
        ("bottom", (), "top"),
        ("start", (), "end"),
        ("middle", (), None),
    ],
)
def test_opposite_ends(end: str, among: tuple[str, ...], expected: str | None) -> None:
    assert opposite(end, among) == expected


def test_every_end_has_an_axis_with_one_zero() -> None:
    for end in ENDS:
        other = opposite(end)
        assert other is not None
        assert is_origin(end) != is_origin(other)
        pair = axis_of(end)
        assert pair is not None and {pair.origin, pair.other} == {end, other}
    for zero in ("rear", "left", "tip", "foot", "bottom"):
        assert is_origin(zero)
    assert axis_of("middle") is None
    assert len({(pair.origin, pair.other) for pair in END_PAIRS}) == len(END_PAIRS)
