"""How wide a line of text is in the one font of every drawing, from a table of advance widths.

The font is Source Sans Pro Regular (package font-source-sans-pro).  Reading it takes a tenth of a
second, the table takes nothing; a test compares the table with the font.
"""

from __future__ import annotations

from builder.drawings.widths import ADVANCE

FONT = "Source Sans Pro"
"""The family name, as SVG and the text engines know it."""

CAP_HEIGHT = 3.0
"""Height of a capital letter on paper, mm: the one text height of every drawing (ASME Y14.2 asks for
3 mm at least, from memory)."""

FONT_SIZE = round(CAP_HEIGHT / 0.660, 3)
"""The size in mm at which capitals are CAP_HEIGHT high; the font's capitals are 0.660 of its size."""

DESCENT = 1.0
"""How far letters such as p reach below the base line, mm (0.205 of the size, rounded up)."""

LINE_PITCH = 6.0
"""From base line to base line where a text takes several lines, mm: the font's whole line box is 1.257 of its
size (5.72 mm), and a browser counts that box, rounded up to whole pixels."""

LEADING = LINE_PITCH - CAP_HEIGHT - DESCENT
"""Room between the box of a text and that of another one above or below it, mm."""

_UNKNOWN = 0.62
"""Share of the size for a letter that the table lacks: wider than most, so that a box is too large, not
too small."""


def text_width(text: str) -> float:
    """Width on paper in mm.  Kerning only makes it narrower, by less than one part in fifty."""
    return sum(ADVANCE.get(letter, _UNKNOWN * 1000) for letter in text) * FONT_SIZE / 1000


def wrapped(text: str, width: float) -> tuple[str, ...]:
    """Break a text at its blanks into lines no wider than `width` mm; a longer word stays whole.

    A no-break space holds a number to its unit.
    """
    lines: list[str] = []
    for word in text.split(" "):
        longer = f"{lines[-1]} {word}" if lines else word
        if lines and text_width(longer) <= width:
            lines[-1] = longer
        else:
            lines.append(word)
    return tuple(lines) or ("",)
