"""Kinds of fit as ranges of play, and how far a hand reaches into a bore.

Play is diametral: the hole less the thing in it, mm; negative play is pressed on. Card, paper, foam and
wood give way, so these ranges are wider than those of machine fits. All of it is common practice at a
classroom bench; ISO 286 fits are for machined parts and do not apply.
"""

from __future__ import annotations

from fractions import Fraction
from typing import Literal

import msgspec

FitKind = Literal["tight", "sliding", "running", "loose"]
Pair = Literal["round", "sheet"]


class Fit(msgspec.Struct, frozen=True):
    """A fit and its least and greatest diametral play, mm, both included.

    pair: "round" for a round thing in a bore of some length; "sheet" for a hole in a thin sheet on a rod,
    where a bowed or slanted sheet needs more room than a straight bore.
    """

    kind: FitKind
    pair: Pair
    low: Fraction
    high: Fraction
    says: str
    sources: tuple[str, ...] = ("common_practice",)


FITS = (
    Fit("tight", "round", Fraction(-1, 5), Fraction(1, 20), "stays by itself; pressed on by hand"),
    Fit("sliding", "round", Fraction(1, 20), Fraction(1), "slides by hand without wobble"),
    Fit("running", "round", Fraction(1, 5), Fraction(2), "turns freely"),
    Fit("loose", "round", Fraction(4, 5), Fraction(12), "drops in; held by something else"),
    Fit("tight", "sheet", Fraction(-3, 5), Fraction(1, 5), "grips the rod"),
    Fit(
        "sliding",
        "sheet",
        Fraction(1, 5),
        Fraction(5, 2),
        "slides, also when the sheet meets the rod at a slant",
    ),
    Fit("running", "sheet", Fraction(2, 5), Fraction(5, 2), "turns freely"),
    Fit("loose", "sheet", Fraction(1), Fraction(12), "hangs on the rod"),
)


def fit(kind: str, pair: Pair = "round") -> Fit | None:
    """The row of this fit for this pair, or None."""
    return next((row for row in FITS if row.kind == kind and row.pair == pair), None)


def accepts(kind: str, play: Fraction, pair: Pair = "round") -> bool:
    """Whether this diametral play, mm, gives this fit; False for a fit that is not known."""
    row = fit(kind, pair)
    return row is not None and row.low <= play <= row.high


def fits_of(play: Fraction, pair: Pair = "round") -> tuple[FitKind, ...]:
    """The fits that this diametral play, mm, gives, tightest first."""
    return tuple(row.kind for row in FITS if row.pair == pair and row.low <= play <= row.high)


class Reach(msgspec.Struct, frozen=True):
    """How far somebody reaches into a bore at least this wide: bore and reach in mm."""

    who: Literal["child", "adult"]
    bore: Fraction
    reach: Fraction
    what: str
    sources: tuple[str, ...] = ("child_fingers", "common_practice")


_MEMORY = ("memory", "common_practice")

# A child here is 9 to 12. Up to 10 years, index fingers average 15 mm in diameter (little fingers 13 mm) and
# 69 mm in length, of which we take 60 mm to go in. Hands and adults are from memory.
REACHES = (
    Reach("child", Fraction(12), Fraction(20), "the first joint of the little finger"),
    Reach("child", Fraction(14), Fraction(40), "two joints of the index finger"),
    Reach("child", Fraction(17), Fraction(60), "the whole index finger"),
    Reach("child", Fraction(60), Fraction(140), "the hand, fingers straight", _MEMORY),
    Reach("child", Fraction(80), Fraction(350), "the forearm", _MEMORY),
    Reach("adult", Fraction(16), Fraction(20), "the first joint of the little finger", _MEMORY),
    Reach("adult", Fraction(18), Fraction(45), "two joints of the index finger", _MEMORY),
    Reach("adult", Fraction(22), Fraction(70), "the whole index finger", _MEMORY),
    Reach("adult", Fraction(80), Fraction(170), "the hand, fingers straight", _MEMORY),
    Reach("adult", Fraction(105), Fraction(450), "the forearm", _MEMORY),
)

TOOL_PLAY = Fraction(2)
"""A brush or stick needs a bore this much wider than itself to be worked inside it, mm (common practice)."""

BRUSH_WIDTH = Fraction(6)
"""The usual width of a glue brush, mm (common practice)."""


def finger_reach(bore: Fraction, who: Literal["child", "adult"] = "child") -> Fraction:
    """How far a finger or hand reaches into a bore of this diameter, mm; 0 where none goes in."""
    return max((row.reach for row in REACHES if row.who == who and row.bore <= bore), default=Fraction(0))


def tool_reach(bore: Fraction, reach: Fraction, width: Fraction = BRUSH_WIDTH) -> Fraction:
    """How far a tool of this reach and width gets into a bore, mm; 0 where it does not go in."""
    return reach if bore >= width + TOOL_PLAY else Fraction(0)
