"""Print HTML -> PDF bytes: the one module that imports the layout engine, and only when called."""

from __future__ import annotations

import logging
import re
from contextlib import redirect_stdout
from io import StringIO
from pathlib import Path
from typing import Any

from builder.packet.marks import Marks
from builder.pages.render import THEME

PRINT = THEME / "print"

# Where the words before a space fill their line and the space no longer fits, the engine breaks the line
# after its first word, if an element begins behind the space. A space inside the element does no harm.
_WHOLE_LINES = re.compile(r'(?<=[^\s>]) (<(?:b|em|i|span|strong)\b(?! class="whole")[^>]*>)')
FACES = (("SourceSansPro-Regular", 400, "normal"), ("SourceSansPro-Semibold", 600, "normal"),
         ("SourceSansPro-It", 400, "italic"))  # fmt: skip
FAMILIES = ("Kitwright Sans", "Source Sans Pro")
"""The name that the pages ask for, and the one that the drawings ask for."""


class LayoutTrouble(Exception):
    """What the engine could not do as asked: a style that it does not know, a file that is not there."""


class Complaints(logging.Handler):
    """Collects what the engine warns of: in a packet that is a fault, never a matter of taste."""

    def __init__(self) -> None:
        super().__init__(logging.WARNING)
        self.said: list[str] = []

    def emit(self, record: logging.LogRecord) -> None:
        """Keep what was said; a picture's whole address would hide it."""
        words = record.getMessage()
        self.said.append(words if len(words) <= 160 else f"{words[:120]} ... {words[-30:]}")


MISSING = """a library that pages are laid out with is not installed ({what}).
  Debian, Ubuntu:  sudo apt install libcairo2 libpango-1.0-0 libpangoft2-1.0-0 libharfbuzz-subset0
  other Linux:     install cairo, pango and harfbuzz with your package manager
  macOS:           brew install cairo pango
  Windows:         install the packages cairo and pango of MSYS2, and name their folder in
                   CAIROCFFI_DLL_DIRECTORIES and WEASYPRINT_DLL_DIRECTORIES
Everything but printed pages works without it: check, word, explain, compare, plant"""


def engine() -> Any:
    """The layout engine. Errors: LayoutTrouble that says what to install, if the system lacks a library."""
    try:
        with redirect_stdout(StringIO()):  # the engine's own advice, which is longer and says less
            import weasyprint
    except OSError as fault:
        raise LayoutTrouble(MISSING.format(what=str(fault).partition(":")[0])) from None
    return weasyprint


def prepared() -> tuple[Any, Any]:
    """The style and the fonts of a part. Errors: LayoutTrouble."""
    weasyprint = engine()
    from font_source_sans_pro import font_directory
    from weasyprint.text.fonts import FontConfiguration

    faces = [
        f'@font-face {{ font-family: "{family}"; font-weight: {weight}; font-style: {style};'
        f" src: url({(Path(font_directory) / f'{name}.ttf').as_uri()}); }}"
        for family in FAMILIES
        for name, weight, style in FACES
    ]
    fonts = FontConfiguration()
    css = weasyprint.CSS(string="\n".join([*faces, (PRINT / "print.css").read_text(encoding="utf-8")]),
                         base_url=PRINT.as_uri() + "/", font_config=fonts)  # fmt: skip
    return css, fonts


def printed(html: str) -> tuple[Any, bytes, tuple[str, ...]]:
    """Lay out a packet's part -> (the engine's document, its tagged PDF, the mark of each page).

    The same HTML gives the same bytes: no date is written, and nothing is fetched but files.
    Errors: LayoutTrouble, with all that the engine complained of.
    """
    weasyprint = engine()
    css, fonts = prepared()
    html = _WHOLE_LINES.sub(r"\1 ", html)
    complaints = Complaints()
    log = logging.getLogger("weasyprint")
    log.addHandler(complaints)
    try:
        fetcher = weasyprint.URLFetcher(allowed_protocols=("file", "data"))
        page = weasyprint.HTML(string=html, base_url=PRINT.as_uri() + "/", url_fetcher=fetcher)
        document = page.render(stylesheets=[css], font_config=fonts, pdf_tags=True)
        marks = Marks()
        data: bytes = document.write_pdf(finisher=marks, pdf_tags=True)
    finally:
        log.removeHandler(complaints)
    if complaints.said:
        raise LayoutTrouble("\n".join(dict.fromkeys(complaints.said)))
    return document, data, tuple(marks.found)


def to_pdf(html: str) -> tuple[bytes, tuple[str, ...]]:
    """The same without the document. Errors: LayoutTrouble."""
    return printed(html)[1:]
