"""Sheets of paper: sizes, what a printer leaves blank, what letter and A4 have in common."""

from __future__ import annotations

from fractions import Fraction

import msgspec

from builder.trade.match import plain

_INCH = Fraction(127, 5)  # 16 CFR 500.19: 1 in = 2.54 cm exactly


class Sheet(msgspec.Struct, frozen=True):
    """One sheet, upright: width and height in mm, exact."""

    key: str
    name: str
    aka: tuple[str, ...]
    width: Fraction
    height: Fraction
    sources: tuple[str, ...]


def _iso(name: str, width: int, height: int) -> Sheet:
    return Sheet(name.lower(), name, (), Fraction(width), Fraction(height), ("iso_216",))


def _inch(key: str, name: str, width: Fraction, height: Fraction, *aka: str) -> Sheet:
    return Sheet(key, name, aka, width * _INCH, height * _INCH, ("ansi_y14_1", "cfr16_500_19"))


SHEETS = (
    _iso("A0", 841, 1189),
    _iso("A1", 594, 841),
    _iso("A2", 420, 594),
    _iso("A3", 297, 420),
    _iso("A4", 210, 297),
    _iso("A5", 148, 210),
    _iso("A6", 105, 148),
    _inch("letter", "letter", Fraction(17, 2), Fraction(11), "us letter", "ansi a"),
    _inch("legal", "legal", Fraction(17, 2), Fraction(14), "us legal"),
    _inch("tabloid", "tabloid", Fraction(11), Fraction(17), "ledger", "ansi b"),
    _inch("ansi_c", "ANSI C", Fraction(17), Fraction(22)),
    _inch("ansi_d", "ANSI D", Fraction(22), Fraction(34)),
    _inch("ansi_e", "ANSI E", Fraction(34), Fraction(44)),
)

POINT = _INCH / 72
"""One PDF default user unit, mm (ISO 32000-1)."""


class Margin(msgspec.Struct, frozen=True):
    """What a printer is taken to leave blank, mm."""

    key: str
    width: Fraction
    says: str
    sources: tuple[str, ...] = ("memory", "common_practice")


MARGINS = (
    Margin("edge", _INCH / 4, "every edge of a desktop printer"),
    Margin("trailing", _INCH / 2, "the edge that leaves last, on printers that hold it poorly"),
)

MARGIN = MARGINS[0].width
"""The margin that nothing to be measured may enter, mm: 1/4 in."""

COMMON_AREA = (Fraction(210), Fraction(11) * _INCH)
"""The width of A4 by the height of letter, mm: what both sheets hold, before margins."""

COMMON_PRINTABLE = (COMMON_AREA[0] - 2 * MARGIN, COMMON_AREA[1] - 2 * MARGIN)
"""What both sheets can print, mm."""

_BY_NAME = {name: row for row in SHEETS for name in (row.key.replace("_", " "), *row.aka)}


def sheet(name: str) -> Sheet | None:
    """The sheet of this name ("letter", "A4", "ANSI B"), or None."""
    return _BY_NAME.get(plain(name))


def printable(row: Sheet) -> tuple[Fraction, Fraction]:
    """The width and height that can be printed on, mm."""
    return (row.width - 2 * MARGIN, row.height - 2 * MARGIN)


def iso_tolerance(length: Fraction) -> Fraction:
    """How far a trimmed side of this length may be off, plus or minus, mm (ISO 216)."""
    if length <= 150:
        return Fraction(3, 2)
    return Fraction(2) if length <= 600 else Fraction(3)
