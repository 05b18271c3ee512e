"""Drawings on a page with the site's own style sheet, and how the page is looked at."""

from __future__ import annotations

import json
from collections.abc import Iterable
from html import escape
from pathlib import Path
from typing import Any, NamedTuple

from builder.packet.sizing import SCALE
from tests.overlaps.browser import Browser
from tests.overlaps.collect import PACKET, SHEET, Shown

HERE = Path(__file__).parent
STYLE = HERE.parents[1] / "theme" / "css" / "kitwright.css"

NEAR = 0.5
"""Boxes may share so much, CSS pixels: a browser rounds the height of a line box to whole ones."""

PACKETS = (
    ".packet svg { width: auto !important; max-width: none !important; max-height: none !important;"
    f" zoom: {SCALE}; }}"
)
"""A drawing of a packet has the packet's scale, whatever the window."""


class Look(NamedTuple):
    """A width in CSS pixels, a ground, a medium."""

    name: str
    width: int
    dark: bool = False
    printed: bool = False


LETTER, A4 = round(215.9 / 25.4 * 96), round(210 / 25.4 * 96)
"""Width of the two papers in CSS pixels: 96 an inch."""

LOOKS = (
    Look("320 px, light", 320),
    Look("320 px, dark", 320, dark=True),
    Look("1000 px, light", 1000),
    Look("1000 px, dark", 1000, dark=True),
    Look("printed on letter", LETTER, printed=True),
    Look("printed on A4", A4, printed=True),
)


class Told(NamedTuple):
    """What the page counted: drawings and texts seen; what meets, by drawing; colours that are not the page's
    own; the size of the smallest letters and the widest drawing, px; ground and ink as the browser says them;
    the fonts that it used."""

    seen: int
    texts: int
    bad: tuple[str, ...]
    loose: tuple[str, ...]
    colours: tuple[str, ...]
    smallest: float
    widest: float
    ground: str
    ink: str
    font: str


def page_of(drawings: Iterable[Shown]) -> str:
    """One page with all of them as the site's pages hold them."""
    body = "".join(_figure(each) for each in drawings)
    script = (HERE / "measure.js").read_text(encoding="utf-8")
    return (
        '<!doctype html><html lang="en"><meta charset="utf-8"><title>drawings</title>'
        f'<link rel="stylesheet" href="{STYLE.as_uri()}"><style>{PACKETS}</style>'
        f"<main>{body}</main><script>{script}</script>"
    )


def _figure(each: Shown) -> str:
    name = f'data-name="{escape(each.name)}"'
    if each.how == SHEET:
        return f'<div class="true-size" {name} style="width: {each.width}mm">{each.svg}</div>'
    kind = "drawing packet" if each.how == PACKET else "drawing"
    inner = f'<div class="{kind}" {name} style="--mm: {each.width}">{each.svg}</div>'
    return f'<figure class="picture">{inner}</figure>'


def looked(browser: Browser, look: Look) -> Told:
    """What the open page counts in one look."""
    browser.look(look.width, dark=look.dark, printed=look.printed)
    told: dict[str, Any] = json.loads(browser.ask(f"measure({NEAR})"))
    return Told._make(tuple(v) if isinstance(v, list) else v for v in (told[key] for key in Told._fields))
