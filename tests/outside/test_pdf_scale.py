"""True size, read back from produced PDFs with another library (pdfplumber).

1 in is 72 pt by the PDF standard (ISO 32000-1, default user space), so 100 mm is 283.4646 pt and 4 in is
288 pt exactly.  Tolerance 0.05 mm.
"""

from __future__ import annotations

from io import BytesIO

import pdfplumber
import pytest

from builder.drawings import raster, svg
from builder.drawings.patterns import polygon, rectangle
from builder.drawings.sheets import COMMON, Origin, printable, sheets

MM = 72 / 25.4
TOLERANCE = 0.05

ORIGIN = Origin("A guide", "revision 1")


def _lengths(pdf: bytes, page: int = 0) -> tuple[list[float], list[float]]:
    """Lengths in mm of the level and of the upright straight lines of a page."""
    with pdfplumber.open(BytesIO(pdf)) as read:
        lines = read.pages[page].lines
        level = [(line["x1"] - line["x0"]) / MM for line in lines if abs(line["y1"] - line["y0"]) < 0.01]
        upright = [(line["y1"] - line["y0"]) / MM for line in lines if abs(line["x1"] - line["x0"]) < 0.01]
    return level, upright


def _has(lengths: list[float], mm: float) -> bool:
    return any(abs(length - mm) <= TOLERANCE for length in lengths)


def _page() -> str:
    (one,) = sheets([rectangle("card", "card", 150.0, 80.0)], ORIGIN)
    return svg.write(one)


def _by_cairosvg(text: str) -> bytes:
    return raster.pdf([text])


def _by_weasyprint(text: str) -> bytes:
    import weasyprint

    page = f"<style>@page{{size:letter;margin:12.7mm}}body{{margin:0}}svg{{display:block}}</style>{text}"
    data: bytes = weasyprint.HTML(string=page).write_pdf()
    return data


@pytest.mark.parametrize("make", [_by_cairosvg, _by_weasyprint])
def test_bars_measure_true(make: object) -> None:
    assert callable(make)
    level, upright = _lengths(make(_page()))
    for lengths in (level, upright):
        assert _has(lengths, 100.0)
        assert _has(lengths, 101.6)
    # the same bars printed "to fit", letter onto A4, would be 97.3 mm: the test must tell
    assert not _has([length * 0.973 for length in level], 100.0)


def test_pattern_measures_true() -> None:
    with pdfplumber.open(BytesIO(_by_weasyprint(_page()))) as read:
        rects = [*read.pages[0].rects, *read.pages[0].curves]
        sizes = [((r["x1"] - r["x0"]) / MM, (r["y1"] - r["y0"]) / MM) for r in rects]
    assert any(abs(w - 150) <= TOLERANCE and abs(h - 80) <= TOLERANCE for w, h in sizes)


def test_page_sizes() -> None:
    """The printable box common to letter and A4: 210 - 25.4 by 279.4 - 25.4 mm (ISO 216; ANSI/ASME Y14.1)."""
    assert pytest.approx((184.6, 254.0)) == COMMON
    assert min(printable("letter")[0], printable("a4")[0]) == pytest.approx(COMMON[0])
    assert min(printable("letter")[1], printable("a4")[1]) == pytest.approx(COMMON[1])
    with pdfplumber.open(BytesIO(_by_cairosvg(_page()))) as read:
        page = read.pages[0]
        assert page.width / MM == pytest.approx(184.6, abs=TOLERANCE)
        assert page.height / MM == pytest.approx(254.0, abs=TOLERANCE)


def test_tiles_rebuild_the_canopy() -> None:
    """12 in across flats is 304.8 mm: four tiles, each a page, whose cut lines sum to the outline.

    Every stretch in an overlap is printed twice or four times, so the sum is at least the outline,
    8 sides of 126.2526 mm = 1010.02 mm (side = 304.8 tan 22.5 deg), and no line is longer than a side.
    """
    made = sheets([polygon("canopy", "canopy", 8, 304.8)], ORIGIN)
    pdf = raster.pdf([svg.write(s) for s in made])
    with pdfplumber.open(BytesIO(pdf)) as read:
        assert len(read.pages) == 4
        heavy = 0.6 * MM
        cut = [
            ((line["x1"] - line["x0"]) ** 2 + (line["y1"] - line["y0"]) ** 2) ** 0.5 / MM
            for page in read.pages
            for line in [*page.lines, *page.curves]
            if abs(line["linewidth"] - heavy) < 0.01
        ]
    assert sum(cut) >= 0.9 * 1010.02


def test_two_runs_give_the_same_bytes() -> None:
    assert _by_cairosvg(_page()) == _by_cairosvg(_page())
