"""The files of a route's patterns: sheets for each paper, gauges, each pattern alone, copies for a class."""

from __future__ import annotations

from collections.abc import Iterable
from functools import lru_cache
from math import ceil

from builder.drawings.class_sheets import class_sheets, on_a_sheet, single
from builder.drawings.gauges import gauge_sheets, is_cut
from builder.drawings.measure import text_width
from builder.drawings.of_pattern import origin_of, pattern_sheets, patterns_of
from builder.drawings.patterns import Pattern
from builder.drawings.raster import pdf
from builder.drawings.shapes import Drawing, Text, moved
from builder.drawings.sheets import COMMON, MARGIN, PAPERS
from builder.drawings.svg import write
from builder.pages.book import Chapter
from builder.pages.chapter import PAPERS as PAPER_NAMES
from builder.pages.contexts import Link, PatternRow
from builder.pages.website import WebFile, route_path, way

BACK = "This side is left empty: the sheet before it is cut."
FRONT = "This side is left empty: the sheet behind it is cut."


def file_path(chapter: Chapter, name: str, ending: str = "pdf") -> str:
    """Where a file of the patterns lies: `patterns-a4`, `gauges-letter`, `pattern-fin`, `class-fin`."""
    return route_path(chapter.guide, chapter.route, name).removesuffix(".html") + f".{ending}"


def sheet_links(chapter: Chapter, page: str) -> tuple[Link, ...]:
    """The ways to the sheets and the gauges for each paper."""
    found = [
        Link(text=f"Patterns for {name} (PDF)", href=way(file_path(chapter, f"patterns-{paper}"), page))
        for paper, name in PAPER_NAMES.items()
    ]
    if _gauges(chapter, ""):
        found += [
            Link(text=f"Gauges for {name} (PDF)", href=way(file_path(chapter, f"gauges-{paper}"), page))
            for paper, name in PAPER_NAMES.items()
        ]
    return tuple(found)


def pattern_rows(chapter: Chapter, page: str) -> tuple[PatternRow, ...]:
    """Each pattern alone, for a cutting machine, and as often as the class needs it, for printing."""
    found = []
    for pattern in own_patterns(chapter):
        name = slug(pattern)
        links = [
            Link(text=ending.upper(), href=way(file_path(chapter, f"pattern-{name}", ending), page))
            for ending in ("svg", "pdf")
        ]
        wanted, sheets = copies(chapter, pattern), _class_sheets(chapter, pattern)
        note = "larger than a sheet: print its tiles, or the PDF on one large sheet"
        if sheets:
            on = "1 sheet" if len(sheets) == 1 else f"{len(sheets)} sheets"
            note = f"{wanted} on {on}"
            place = way(file_path(chapter, f"class-{name}"), page)
            links.append(Link(text="for the class (PDF)", href=place))
        found.append(PatternRow(name=pattern.name, links=tuple(links), note=note))
    return tuple(found)


def own_patterns(chapter: Chapter) -> list[Pattern]:
    """The patterns that a route uses."""
    used = set(chapter.plan.used)
    return [p for p in patterns_of(chapter.guide, (chapter.run,)) if used & set(p.id.split(", "))]


def slug(pattern: Pattern) -> str:
    """A pattern's name in file names."""
    return pattern.id.split(", ")[0].replace("_", "-")


def copies(chapter: Chapter, pattern: Pattern) -> int:
    """How many of a pattern the class needs: parts for each kit, tools for all who share one."""
    group = chapter.plan.group
    total = 0
    for id in pattern.id.split(", "):
        thing = chapter.guide.things[id]
        sharing = thing.share.builders if thing.share is not None else 1
        people = group.builders if thing.sort == "tool" else group.kits
        total += thing.count * (1 if sharing == 0 else ceil(people / sharing))
    return total


@lru_cache(maxsize=32)
def pattern_files(chapter: Chapter) -> tuple[WebFile, ...]:
    """Every file of a route's patterns; made once for a chapter."""
    title = f"{chapter.guide.title}: patterns"
    found = []
    for paper in PAPER_NAMES:
        sheets = pattern_sheets(chapter.guide, (chapter.run,), paper=paper, things=chapter.plan.used)
        content = _printed(tuple(sheets), PAPERS[paper], title)
        found.append(WebFile(path=file_path(chapter, f"patterns-{paper}"), content=content))
        if gauges := _gauges(chapter, paper):
            content = _printed(gauges, PAPERS[paper], f"{chapter.guide.title}: gauges")
            found.append(WebFile(path=file_path(chapter, f"gauges-{paper}"), content=content))
    for pattern in own_patterns(chapter):
        alone, name = single(pattern), f"pattern-{slug(pattern)}"
        svg = write(alone, name)
        found.append(WebFile(path=file_path(chapter, name, "svg"), content=svg.encode()))
        found.append(WebFile(path=file_path(chapter, name), content=pdf([svg], title=pattern.name)))
        if sheets := _class_sheets(chapter, pattern):
            content = _printed(tuple(sheets), COMMON_PAGE, f"{title} for a class")
            found.append(WebFile(path=file_path(chapter, f"class-{slug(pattern)}"), content=content))
    return tuple(found)


COMMON_PAGE = (COMMON[0] + 2 * MARGIN, COMMON[1] + 2 * MARGIN)
"""As large as both letter and A4 can take, mm: printed at actual size, it lies in the middle of either."""


def _gauges(chapter: Chapter, paper: str) -> tuple[Drawing, ...]:
    return tuple(gauge_sheets(chapter.guide, (chapter.run,), paper=paper, things=chapter.plan.used))


def _class_sheets(chapter: Chapter, pattern: Pattern) -> list[Drawing]:
    """Copies for the class; of a pattern that is larger than a sheet one large print serves the class."""
    if not on_a_sheet(pattern):
        return []
    return class_sheets(pattern, copies(chapter, pattern), origin_of(chapter.guide))


@lru_cache(maxsize=64)
def _printed(drawings: tuple[Drawing, ...], size: tuple[float, float], title: str) -> bytes:
    """A live preview asks for the same sheets again after most edits."""
    return pdf(_pages(drawings, size), title=title)


def _pages(drawings: Iterable[Drawing], size: tuple[float, float]) -> Iterable[str]:
    """Each sheet on a page of its own, inside the margin that printers leave bare.

    What is cut begins on a right-hand page and has an empty one behind it: printed on both sides, it has
    nothing on its back.
    """
    pages = 0
    cut = False
    for number, drawing in enumerate(drawings, 1):
        if cut or (is_cut(drawing) and pages % 2):
            words = Text(((size[0] - text_width(BACK)) / 2, MARGIN + 6.0), BACK if cut else FRONT)
            yield write(Drawing(words.text, words.text, size[0], size[1], (words,), True), f"back-{number}")
            pages += 1
        shapes = tuple(moved(shape, MARGIN, MARGIN) for shape in drawing.shapes)
        page = drawing._replace(width=size[0], height=size[1], shapes=shapes)
        yield write(page, f"sheet-{number}")
        pages += 1
        cut = is_cut(drawing)
