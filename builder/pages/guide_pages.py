"""All pages of one guide, in one edition: the working guide, or a sealed revision."""

from __future__ import annotations

from collections.abc import Collection

import msgspec

from builder.drawings.checks import check_drawings
from builder.findings import in_order
from builder.guide.model import Route
from builder.pages.book import Book, Chapter
from builder.pages.checks import named
from builder.pages.class_rows import materials_page
from builder.pages.contexts import Fact, Link, TitleCell, View
from builder.pages.noticed import noticed
from builder.pages.overview import overview, science, words
from builder.pages.patterns import patterns_view
from builder.pages.pictures import Album
from builder.pages.printing import proofs_among
from builder.pages.report import judged, report
from builder.pages.stage import stage_view
from builder.pages.stamps import Stamps, Way
from builder.pages.teacher import teacher_page
from builder.pages.website import (
    WebPage,
    guide_frame,
    overview_path,
    plain_frame,
    report_path,
    route_path,
    science_path,
    words_path,
)


class Around(msgspec.Struct, frozen=True):
    """What stands round the pages of a guide: a `banner`, the `stamps` of its edition, what became of planted
    faults in a sentence, the printed `packets` that the site has, and the pages of the newest revision, by
    their paths."""

    stamps: Stamps
    banner: str = ""
    planted: str = ""
    packets: Collection[str] = ()
    newest: frozenset[str] = frozenset()


def guide_pages(book: Book, shown: Book | None, around: Around | None = None) -> list[WebPage]:
    """The pages of one guide. `shown` is the book that its pages show, None if only the report can stand."""
    if shown is None:
        places = (overview_path(book.guide), report_path(book.guide))
        return [report_page(book, place) for place in places]
    around = around or Around(Stamps(book.name))
    if shown is not book:
        banner = "The guide now has an error: see the check report. This page is from before it."
        around = msgspec.structs.replace(around, banner=banner)
    return [*content_pages(shown, around), report_page(book, report_path(book.guide), around)]


def content_pages(book: Book, around: Around) -> list[WebPage]:
    """The pages of a guide without its check report."""
    path = overview_path(book.guide)
    view = overview(book, path, Album(book.chapters[0]).finished(), around.packets)
    pages = [page_of(book, path, "overview.html", book.guide.title, view, around)]
    for chapter in book.chapters:
        pages += chapter_pages(book, chapter, around)
    path = words_path(book.guide)
    pages.append(page_of(book, path, "words.html", "Words in this guide", words(book.guide), around))
    if book.guide.prose.get("science"):
        path = science_path(book.guide)
        pages.append(page_of(book, path, "prose.html", "The science", science(book.guide), around))
    return pages


def chapter_pages(book: Book, chapter: Chapter, around: Around) -> list[WebPage]:
    """The pages of one route."""
    guide, route, stamps = book.guide, chapter.route, around.stamps
    album = Album(chapter, "../")
    row = [(stage.number, stage.stage.name, stage.page) for stage in chapter.stages]
    path = route_path(guide, route, "materials")
    view: View = materials_page(chapter, path)
    pages = [page_of(book, path, "materials.html", "Materials and tools", view, around, chapter)]
    for order, stage in enumerate(chapter.stages):
        built = stage_view(chapter, stage, album.of, album.held, album.opened(stage), album.table)
        steps = stamps.steps(chapter, built.steps, stage.page)
        built = msgspec.structs.replace(built, steps=steps)
        before = row[order - 1] if order else None
        after = row[order + 1] if order + 1 < len(row) else None
        there = stamps.onward.stage(chapter, stage) if stamps.onward is not None else None
        frame = guide_frame(
            guide,
            stage.page,
            built.heading,
            route,
            cells=(TitleCell(label="Hands-on", value=built.time),),
            stages=row,
            previous=(f"Stage {before[0]}: {before[1]}", before[2]) if before else None,
            following=(f"Stage {after[0]}: {after[1]}", after[2]) if after else None,
            banner=around.banner,
            patterns=bool(chapter.patterns),
            stamp=stamps.stamp(stage.page, there),
        )
        pages.append(
            WebPage(path=stage.page, template="stage.html", frame=frame, view=built, source=guide.file)
        )
    if chapter.patterns:
        path = route_path(guide, route, "patterns")
        view = patterns_view(chapter, path)
        pages.append(page_of(book, path, "patterns.html", "Patterns", view, around, chapter))
    path = route_path(guide, route, "teacher")
    teacher = teacher_page(chapter, path, album.of, around.packets)
    prepared = stamps.steps(chapter, teacher.teacher.preparation, path)
    lists = msgspec.structs.replace(teacher.teacher, preparation=prepared)
    view = msgspec.structs.replace(teacher, teacher=lists)
    pages.append(page_of(book, path, "teacher.html", "For the teacher", view, around, chapter))
    return pages


def page_of(book: Book, path: str, template: str, heading: str, view: View, around: Around,
            chapter: Chapter | None = None) -> WebPage:  # fmt: skip
    """A page in the frame of its guide."""
    route: Route | None = chapter.route if chapter else None
    patterns = bool(chapter.patterns) if chapter else has_patterns(book)
    stamp = around.stamps.stamp(path, _there(path, around))
    frame = guide_frame(
        book.guide, path, heading, route, banner=around.banner, patterns=patterns, stamp=stamp
    )
    return WebPage(path=path, template=template, frame=frame, view=view, source=book.guide.file)


def _there(path: str, around: Around) -> Way | None:
    return around.stamps.same_page(path, around.newest)


def report_page(book: Book, path: str, around: Around | None = None) -> WebPage:
    """The check report of a guide; without the guide's tabs if its other pages are not there."""
    ran = (
        Fact(label="Routes run", value=str(len(book.runs))),
        Fact(label="Actions carried out", value=str(sum(len(run.frames) for run in book.runs))),
        Fact(label="Needs looked at", value=str(sum(len(f.needs) for run in book.runs for f in run.frames))),
        Fact(label="Checks", value=str(len(named()))),
    )
    drawn = check_drawings(book.guide, book.runs) if not book.has_error else []
    found = tuple(in_order([*book.findings, *drawn])) if drawn else book.findings
    view = report(found, book.sources, path, named(), ran, judged(book.guide))
    planted = around.planted if around is not None else ""
    view = msgspec.structs.replace(
        view,
        noticed=noticed(book.chapters) if not book.has_error else (),
        proofs=proofs_among(around.packets, book.guide.id) if around is not None else (),
        planted=Link(text="The table of planted faults", href="planted.html", note=planted)
        if planted
        else None,
    )
    if around is not None:
        stamp = around.stamps.stamp(path, _there(path, around))
        frame = guide_frame(book.guide, path, "Check report", patterns=has_patterns(book), stamp=stamp)
    else:
        frame = plain_frame(path, "Check report", [(book.guide.title or book.name, path)])
    return WebPage(path=path, template="report.html", frame=frame, view=view, source=book.guide.file)


def has_patterns(book: Book) -> bool:
    """Whether the tabs above the routes lead to patterns: those of the one route that there is."""
    return len(book.chapters) == 1 and bool(book.chapters[0].patterns)
