"""Spaces at which a line may not break: inside a number, and between a number and its unit.

`1/4 in (6.4 mm)` may break before its bracket and nowhere else. Only what a person reads is changed; the
model keeps plain spaces.
"""

from __future__ import annotations

import re

from markupsafe import Markup, escape

NO_BREAK = "\u00a0"

_UNITS = (
    "mm|cm|m|in|ft|yd|mil|mm2|cm2|m2|sq|mL|L|cm3|cu|fl|g|kg|mg|oz|lb|s|min|h|days?|weeks?|deg|%"
    "|[A-Z]{3}"  # currencies
)
_INSIDE = re.compile(rf"(?<=\d) (?=\d+/\d)|(?<=\d) (?=(?:{_UNITS})(?![A-Za-z0-9]))|(?<=±) (?=\d)")
_DATE = re.compile(r"\b\d{4}-\d\d-\d\d\b")
_TAG = re.compile(r"(<[^>]*>)")


def together(text: str) -> str:
    """The text with spaces that hold numbers and units together."""
    return _INSIDE.sub(NO_BREAK, text)


def together_in(html: Markup) -> Markup:
    """The same for HTML: its text, never its tags, and never what is there to be typed (`code`)."""
    found = []
    typed = 0
    for piece in _TAG.split(html):
        if piece.startswith("<"):
            typed += piece.startswith("<code") - piece.startswith("</code")
        found.append(piece if typed or piece.startswith("<") else together(piece))
    return Markup("".join(found))


def dates_whole(text: str) -> Markup:
    """The text as HTML in which no line breaks inside a date (`2026-10-05`)."""
    return Markup(_DATE.sub(r'<span class="whole">\g<0></span>', str(escape(text))))


def shown(value: object) -> object:
    """What a template prints of a value: plain text gets its spaces, markup has them already.

    In a template `{{ text|e }}` prints a text as it was typed.
    """
    return together(value) if type(value) is str else value
