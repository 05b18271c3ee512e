"""Where the printed packet says that it belongs: an address or a code, and the same as a QR code."""

from __future__ import annotations

import unicodedata
from urllib.parse import quote

from markupsafe import Markup, escape

from builder.guide.model import Guide, Route
from builder.pages.website import overview_path, route_id

QUIET = 4
"""Modules that stay empty round a QR code (ISO/IEC 18004)."""


def code_of(guide: Guide, route: Route) -> str:
    """A neutral code for a guide, its revision and a route: `KW-rolled-rocket-1-jig`."""
    number = guide.revision.number if guide.revision is not None else "0"
    name = "".join(letter for letter in guide.id if not _unseen(letter))
    way = f"-{route_id(route)}" if len(guide.routes) > 1 else ""
    return f"KW-{name}-{number}{way}"


def address_of(guide: Guide, route: Route, site: str = "") -> str:
    """The address of the guide's first page where the site has one, else its code."""
    if not site:
        return code_of(guide, route)
    path = "".join(quote(letter) if _unseen(letter) else letter for letter in overview_path(guide))
    return f"{site.rstrip('/')}/{path}"


def _unseen(letter: str) -> bool:
    """Whether a letter of a folder's name is a sign that nobody sees, as those that turn the way of reading:
    printed as it is, it would turn what stands round it."""
    return unicodedata.category(letter).startswith("C")


def qr(text: str) -> Markup:
    """A QR code as SVG with its quiet zone. Level Q: a quarter of it may be lost on a worn copy."""
    import segno

    made = segno.make(text, error="q", micro=False)
    size = made.symbol_size(border=QUIET)[0]
    path = "".join(
        f"M{x + QUIET} {y + QUIET}h1v1h-1z"
        for y, row in enumerate(made.matrix)
        for x, dark in enumerate(row)
        if dark
    )
    return Markup(
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {size} {size}" width="{size}" height="{size}">'
        f'<title>QR code: {escape(text)}</title><path d="{path}" fill="#000"/></svg>'
    )
