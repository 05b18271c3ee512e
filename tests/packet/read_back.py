"""Reading a produced PDF back with other libraries than the one that wrote it."""

from __future__ import annotations

from collections.abc import Iterator
from io import BytesIO
from itertools import pairwise
from typing import Any

import pdfplumber
import pypdf
import pypdfium2
from pypdf.generic import ArrayObject, DictionaryObject

MM = 72 / 25.4  # points in a millimetre: 1 in is 72 pt (ISO 32000-1) and 25.4 mm (16 CFR 500.19)


def texts(data: bytes) -> list[str]:
    """The text of each page, lines by line feeds."""
    with pypdfium2.PdfDocument(data) as pdf:
        found = []
        for number in range(len(pdf)):
            page = pdf[number]
            text = page.get_textpage()
            found.append(text.get_text_bounded().replace("\r\n", "\n"))
            text.close()
            page.close()
    return found


def sizes(data: bytes) -> set[tuple[float, float]]:
    """Widths and heights of the pages, mm."""
    pages = pypdf.PdfReader(BytesIO(data)).pages
    return {(round(float(p.mediabox.width) / MM, 2), round(float(p.mediabox.height) / MM, 2)) for p in pages}


def straight(data: bytes, page: int) -> tuple[list[float], list[float]]:
    """Lengths, mm, of the level and of the upright straight lines of a page (counted from 0), the edges of
    closed outlines among them."""
    level, upright = [], []
    with pdfplumber.open(BytesIO(data), pages=[page + 1]) as pdf:
        for drawn in (*pdf.pages[0].lines, *pdf.pages[0].curves):
            for (x0, y0), (x1, y1) in pairwise([*drawn["pts"], drawn["pts"][0]]):
                if abs(y1 - y0) < 0.01:
                    level.append(abs(x1 - x0) / MM)
                if abs(x1 - x0) < 0.01:
                    upright.append(abs(y1 - y0) / MM)
    return level, upright


def elements(data: bytes) -> Iterator[DictionaryObject]:
    """Every element of the structure tree, in the order in which it is read out."""
    root: Any = pypdf.PdfReader(BytesIO(data)).trailer["/Root"]
    waiting: list[Any] = [root["/StructTreeRoot"]["/K"]]
    while waiting:
        item = waiting.pop(0)
        item = item.get_object() if hasattr(item, "get_object") else item
        if isinstance(item, ArrayObject):
            waiting = [*item, *waiting]
        elif isinstance(item, DictionaryObject) and "/S" in item:
            yield item
            if "/K" in item:
                waiting.insert(0, item["/K"])
