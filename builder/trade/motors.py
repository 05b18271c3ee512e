"""Model rocket motors and the facts of the public safety code, as data to compare with.

These rows serve tests, the checking of stated figures and the page that hands launching over to the code.
They are never an instruction by themselves: the code in force, the motor maker's instructions, local rules
and the responsible adult decide.
"""

from __future__ import annotations

from fractions import Fraction

import msgspec

_FOOT = Fraction(1524, 5)  # mm; 16 CFR 500.19: 1 ft = 30.48 cm exactly


class MotorClass(msgspec.Struct, frozen=True):
    """A class of total impulse: newton seconds, above `over`, up to and including `limit`."""

    letter: str
    over: Fraction
    limit: Fraction
    sources: tuple[str, ...]


_TABLES = ("motor_classes", "nfpa_1125")

MOTOR_CLASSES = (
    MotorClass("1/4A", Fraction(5, 16), Fraction(5, 8), ("memory", "nfpa_1125")),
    MotorClass("1/2A", Fraction(5, 8), Fraction(5, 4), _TABLES),
    MotorClass("A", Fraction(5, 4), Fraction(5, 2), _TABLES),
    MotorClass("B", Fraction(5, 2), Fraction(5), _TABLES),
    MotorClass("C", Fraction(5), Fraction(10), _TABLES),
    MotorClass("D", Fraction(10), Fraction(20), _TABLES),
    MotorClass("E", Fraction(20), Fraction(40), _TABLES),
    MotorClass("F", Fraction(40), Fraction(80), _TABLES),
    MotorClass("G", Fraction(80), Fraction(160), _TABLES),
)
"""Least first. 1/4A begins at 0.3125 N s, printed 0.3126; each class ends at twice the limit of the one
before."""


def impulse_class(total: Fraction) -> MotorClass | None:
    """The class of a motor of this total impulse, N s; None below 1/4A and beyond G."""
    return next((row for row in MOTOR_CLASSES if row.over < total <= row.limit), None)


def motor_class(letter: str) -> MotorClass | None:
    """The class of this letter, or None."""
    return next((row for row in MOTOR_CLASSES if row.letter == letter), None)


class MotorCode(msgspec.Struct, frozen=True):
    """A motor's code read: its class, average thrust in newtons, delay in seconds."""

    motor_class: MotorClass
    thrust: int
    delay: int

    @property
    def longest_burn(self) -> Fraction:
        """Seconds that the class's whole impulse lasts at the average thrust."""
        return self.motor_class.limit / self.thrust


def motor_code(text: str) -> MotorCode | None:
    """A code such as "C6-3" read, or None: letter, average thrust, delay."""
    head, dash, tail = text.strip().partition("-")
    row = next((row for row in MOTOR_CLASSES if head.startswith(row.letter)), None)
    if not dash or row is None:
        return None
    thrust = head[len(row.letter) :]
    if not (thrust.isascii() and thrust.isdigit() and int(thrust) and tail.isascii() and tail.isdigit()):
        return None
    return MotorCode(row, int(thrust), int(tail))


class MotorCase(msgspec.Struct, frozen=True):
    """A usual size of motor case: diameter and length, mm."""

    diameter: Fraction
    length: Fraction
    sources: tuple[str, ...] = ("common_practice",)


MOTOR_CASES = (
    MotorCase(Fraction(13), Fraction(45)),
    MotorCase(Fraction(18), Fraction(70)),
    MotorCase(Fraction(24), Fraction(70)),
    MotorCase(Fraction(24), Fraction(95)),
    MotorCase(Fraction(29), Fraction(114)),
)
"""Usual cases of 1/4A to G motors; the maker's own drawing decides."""


class Site(msgspec.Struct, frozen=True):
    """The least site dimension for motors up to an impulse, N s: the diameter of a circle, the shortest
    side of a rectangle. `size` in mm is the code's figure in feet; `printed_metres` is how the code prints
    it in metric."""

    limit: Fraction
    size: Fraction
    feet: int
    printed_metres: int
    says: str
    sources: tuple[str, ...]


def _site(limit: Fraction, feet: int, metres: int, says: str, *sources: str) -> Site:
    return Site(limit, feet * _FOOT, feet, metres, says, sources or ("site_table", "nfpa_1122"))


SITES = (
    _site(Fraction(5, 4), 50, 15, "1/4A and 1/2A"),
    _site(Fraction(5, 2), 100, 30, "A"),
    _site(Fraction(5), 200, 60, "B"),
    _site(Fraction(10), 400, 120, "C"),
    _site(Fraction(20), 500, 150, "D"),
    _site(Fraction(40), 1000, 300, "E"),
    _site(Fraction(80), 1000, 300, "F"),
    _site(Fraction(160), 1000, 300, "G"),
    _site(Fraction(320), 1500, 450, "two G motors", "memory"),
)


def site_for(total: Fraction) -> Site | None:
    """The row for this total impulse of all motors together, N s; None beyond the table."""
    return next((row for row in SITES if total <= row.limit), None)


def site_allows(side: Fraction, total: Fraction) -> bool:
    """Whether a site of this shortest side or diameter, mm, meets the table for this total impulse, N s."""
    row = site_for(total)
    return row is not None and side >= row.size


class CodeFact(msgspec.Struct, frozen=True):
    """One figure of the code, quoted: a value in a unit, and what it limits."""

    key: str
    value: Fraction
    unit: str
    says: str
    sources: tuple[str, ...]


CODE_FACTS = (
    CodeFact(
        "lift_off_mass",
        Fraction(1500),
        "g",
        "greatest mass at lift-off (printed 53 oz)",
        ("nfpa_1122", "cfr14_101_22", "national_code"),
    ),
    CodeFact(
        "propellant_mass",
        Fraction(125),
        "g",
        "greatest mass of propellant (printed 4.4 oz)",
        ("nfpa_1122", "cfr14_101_22"),
    ),
    CodeFact(
        "total_impulse",
        Fraction(320),
        "N s",
        "greatest total impulse of all motors (printed 71.9 lbf s)",
        ("nfpa_1122", "national_code"),
    ),
    CodeFact("adult_impulse", Fraction(80), "N s", "above it the user is 18 or older", ("nfpa_1122",)),
    CodeFact(
        "adult_age", Fraction(18), "years", "least age of the user of the larger G motors", ("nfpa_1122",)
    ),
    CodeFact(
        "launch_angle", Fraction(30), "deg", "greatest lean of the launcher from vertical", ("national_code",)
    ),
    CodeFact(
        "distance_small",
        15 * _FOOT,
        "mm",
        "least distance from the rocket, D motors and smaller (15 ft)",
        ("national_code", "national_code_2012"),
    ),
    CodeFact(
        "distance_large",
        30 * _FOOT,
        "mm",
        "least distance from the rocket, larger motors (30 ft)",
        ("national_code", "national_code_2012"),
    ),
    CodeFact(
        "misfire_wait",
        Fraction(60),
        "s",
        "wait after the last attempt, interlock removed first",
        ("national_code",),
    ),
    CodeFact(
        "wind",
        Fraction(20 * 5280) * _FOOT,
        "mm/h",
        "greatest wind (20 miles an hour, printed 32 km/h)",
        ("memory",),
    ),
    CodeFact(
        "many_rockets",
        Fraction(10),
        "rockets",
        "beyond this many at once, the greater distance below applies",
        ("national_code_2012",),
    ),
    CodeFact(
        "many_rockets_factor",
        Fraction(3, 2),
        "times the expected altitude",
        "least distance when many fly at once",
        ("national_code_2012",),
    ),
)

CODE_NOTES = (
    ("count_down", "A count-down comes before each launch.", ("national_code",)),
    ("materials", "Nose, body and fins are of light, non-metal materials.", ("national_code", "nfpa_1122")),
    (
        "rod_end",
        "The end of the launch rod is above eye level or capped; a plate deflects the blast.",
        ("national_code",),
    ),
    ("wadding", "Flame-resistant wadding shields the recovery system.", ("nfpa_1122",)),
    ("stricter", "State and local rules may be stricter than the code.", ("site_table",)),
)
"""Statements of the code without a figure: (key, statement, sources)."""

HANDOVER = (
    "This guide ends with a finished rocket. Launching it is led by a responsible adult, who follows the"
    " national model rocket safety code, the motor maker's instructions, and state and local rules."
)
"""What a page says where a guide's work ends and launching begins."""


def code_fact(key: str) -> CodeFact | None:
    """The quoted figure with this key, or None."""
    return next((row for row in CODE_FACTS if row.key == key), None)
