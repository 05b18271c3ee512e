"""The pattern page of a route: every sheet at true size, and the ways to the files."""

from __future__ import annotations

from builder.drawings.shapes import Drawing
from builder.pages.bench_words import listed
from builder.pages.book import Chapter
from builder.pages.contexts import PatternsView
from builder.pages.pattern_files import pattern_files, pattern_rows, sheet_links
from builder.pages.pictures import sheet

__all__ = ["pattern_files", "patterns_view"]

HOW = (
    "Print at actual size (100 %). “Fit to page” makes every part too small.",
    "Lay a ruler along both bars of each sheet before you cut anything out. If a bar is off, print again.",
    "Without a ruler at hand, lay a bank card or a library card on its outline, which one of the sheets has.",
    "Printed on both sides, the files for printing leave the back of every sheet to be cut empty.",
    "The sheets on this page fit letter and A4 paper. On the screen they are not at true size.",
)


def patterns_view(chapter: Chapter, page: str) -> PatternsView:
    """The sheets that letter and A4 paper can both print, with the ways to the files."""
    drawings = chapter.patterns
    return PatternsView(
        how=HOW,
        files=sheet_links(chapter, page),
        rows=pattern_rows(chapter, page),
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
