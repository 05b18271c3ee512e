"""The pattern page of a route: every sheet at true size, and a file to print for each paper."""

from __future__ import annotations

from collections.abc import Iterable
from functools import lru_cache

from builder.drawings.of_pattern import pattern_sheets
from builder.drawings.raster import pdf
from builder.drawings.shapes import Drawing, moved
from builder.drawings.sheets import MARGIN, PAPERS
from builder.drawings.svg import write
from builder.pages.bench_words import listed
from builder.pages.book import Chapter
from builder.pages.chapter import PAPERS as PAPER_NAMES
from builder.pages.contexts import Link, PatternsView
from builder.pages.pictures import sheet
from builder.pages.website import WebFile, route_path, way

HOW = (
    "Print at actual size (100 %). “Fit to page” makes every part too small.",
    "Lay a ruler along both bars of each sheet before you cut anything out. If a bar is off, print again.",
    "The sheets on this page fit letter and A4 paper. On the screen they are not at true size.",
)


def patterns_view(chapter: Chapter, page: str) -> PatternsView:
    """The sheets that letter and A4 paper can both print, with the ways to the files."""
    drawings = chapter.patterns
    return PatternsView(
        how=HOW,
        files=tuple(
            Link(text=f"Patterns for {name} (PDF)", href=way(file_path(chapter, paper), page))
            for paper, name in PAPER_NAMES.items()
        ),
        prepared=_prepared(chapter),
        sheets=tuple(
            sheet(drawing, f"sheet-{number}", _name(drawing), f"sheet {number} of {len(drawings)}")
            for number, drawing in enumerate(drawings, 1)
        ),
    )


def _name(drawing: Drawing) -> str:
    """What is on a sheet, without its number."""
    name = drawing.title.partition(": ")[2] or drawing.title
    return name[:1].upper() + name[1:]


def _prepared(chapter: Chapter) -> str:
    """Which things the teacher cuts before the class."""
    guide = chapter.guide
    made = (each.thing for row in chapter.plan.preparation for each in row.made)
    names = dict.fromkeys(guide.things[id].name for id in made if guide.things[id].words.get("pattern"))
    return f"For the preparation by the teacher: {listed(names)}." if names else ""


def file_path(chapter: Chapter, paper: str) -> str:
    """Where the file for a paper lies."""
    page = route_path(chapter.guide, chapter.route, f"patterns-{paper}")
    return page.removesuffix(".html") + ".pdf"


@lru_cache(maxsize=32)
def pattern_files(chapter: Chapter) -> tuple[WebFile, ...]:
    """One file for each paper, its pages as large as the paper; made once for a chapter."""
    return tuple(
        WebFile(path=file_path(chapter, paper), content=_file(chapter, paper)) for paper in PAPER_NAMES
    )


def _file(chapter: Chapter, paper: str) -> bytes:
    drawings = pattern_sheets(chapter.guide, (chapter.run,), paper=paper, things=chapter.plan.used)
    return _printed(tuple(drawings), PAPERS[paper], f"{chapter.guide.title}: patterns")


@lru_cache(maxsize=32)
def _printed(drawings: tuple[Drawing, ...], size: tuple[float, float], title: str) -> bytes:
    """A live preview asks for the same sheets again after most edits."""
    return pdf(_pages(drawings, size), title=title)


def _pages(drawings: Iterable[Drawing], size: tuple[float, float]) -> Iterable[str]:
    """Each sheet on a page of its own, inside the margin that printers leave bare."""
    for number, drawing in enumerate(drawings, 1):
        shapes = tuple(moved(shape, MARGIN, MARGIN) for shape in drawing.shapes)
        page = drawing._replace(width=size[0], height=size[1], shapes=shapes)
        yield write(page, f"sheet-{number}")
