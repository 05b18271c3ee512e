"""All pages of a site: the list of guides, each guide's pages, the manual, the checks, the list of names."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping, Sequence

import msgspec
from markupsafe import Markup

from builder.checks import ALL as CHECKS
from builder.dryrun.kinds import VERBS
from builder.guide.model import Repeat
from builder.pages.book import Book, Chapter
from builder.pages.checks import check_page, checks_index, manual_of
from builder.pages.class_rows import materials_page
from builder.pages.contexts import Fact, Link, TitleCell, View
from builder.pages.manual import manual
from builder.pages.overview import card, overview, science
from builder.pages.patterns import pattern_files, patterns_view
from builder.pages.pictures import Album
from builder.pages.reference import FindEntry, FindView, HomeView
from builder.pages.report import check_path, judged, report, verdict
from builder.pages.stage import stage_view
from builder.pages.teacher import teacher_page
from builder.pages.website import (
    CHECKS_INDEX,
    FIND,
    HOME,
    MANUAL,
    SITE_NAME,
    WebFile,
    WebPage,
    guide_frame,
    overview_path,
    plain_frame,
    report_path,
    route_path,
    science_path,
    way,
)

WELCOME = Markup(
    "<p>Each guide tells how to build a kit, step by step. It was built on paper before it was printed: "
    "every part, every glue and every wait was tried in order, and what would go wrong was mended.</p>"
)


def site_pages(
    books: Sequence[Book], last_good: Mapping[str, Book], packets: Collection[str] = ()
) -> list[WebPage]:
    """Every page of the site, in the order in which it is listed.

    A guide with an error shows its report; its other pages are those of `last_good`, if there are any.
    `packets` are the printed packets that the site has, by their places in it.
    """
    pages = [home_page(books, last_good)]
    for book in books:
        shown = book if not book.has_error else last_good.get(book.name)
        pages += guide_pages(book, shown, packets)
    good = [shown for book in books if (shown := last_good.get(book.name) if book.has_error else book)]
    return [*pages, manual_page(good), *check_pages(), find_page(good)]


def home_page(books: Sequence[Book], last_good: Mapping[str, Book]) -> WebPage:
    """The list of guides."""
    cards = []
    for book in books:
        shown = last_good.get(book.name, book) if book.has_error else book
        state = verdict(book.findings) if book.has_error else ""
        made = card(shown, HOME, None if shown.has_error else Album(shown.chapters[0]).finished(), state)
        if shown.has_error:
            made = msgspec.structs.replace(made, href=way(report_path(book.guide), HOME))
        cards.append(made)
    more = (
        Link(text="The manual", href=way(MANUAL, HOME), note="how a guide is written"),
        Link(text="The checks", href=way(CHECKS_INDEX, HOME), note="what is looked at, and why"),
        Link(text="Find", href=way(FIND, HOME), note="steps, parts and tools by name"),
    )
    view = HomeView(title=SITE_NAME, summary=WELCOME, guides=tuple(cards), more=more)
    return WebPage(path=HOME, template="home.html", frame=plain_frame(HOME, SITE_NAME), view=view)


def guide_pages(book: Book, shown: Book | None, packets: Collection[str] = ()) -> list[WebPage]:
    """The pages of one guide. `shown` is the book that its pages show, None if only the report can stand."""
    if shown is None:
        places = (overview_path(book.guide), report_path(book.guide))
        return [report_page(book, place, whole=False) for place in places]
    banner = ""
    if shown is not book:
        banner = "The guide now has an error: see the check report. This page is from before it."
    path = overview_path(shown.guide)
    view = overview(shown, path, Album(shown.chapters[0]).finished(), packets)
    pages = [_page(shown, path, "overview.html", shown.guide.title, view=view, banner=banner)]
    for chapter in shown.chapters:
        pages += chapter_pages(shown, chapter, banner, packets)
    if shown.guide.prose.get("science"):
        path = science_path(shown.guide)
        pages.append(
            _page(shown, path, "prose.html", "The science", view=science(shown.guide), banner=banner)
        )
    return [*pages, report_page(book, report_path(book.guide), whole=True)]


def chapter_pages(
    book: Book, chapter: Chapter, banner: str, packets: Collection[str] = ()
) -> list[WebPage]:
    """The pages of one route."""
    guide, route = book.guide, chapter.route
    album = Album(chapter, "../")
    row = [(stage.number, stage.stage.name, stage.page) for stage in chapter.stages]
    path = route_path(guide, route, "materials")
    pages = [_page(book, path, "materials.html", "Materials and tools", chapter,
                   view=materials_page(chapter, path), banner=banner)]  # fmt: skip
    for order, stage in enumerate(chapter.stages):
        view = stage_view(chapter, stage, album.of, album.held, album.made(stage))
        before = row[order - 1] if order else None
        after = row[order + 1] if order + 1 < len(row) else None
        frame = guide_frame(
            guide,
            stage.page,
            view.heading,
            route,
            cells=(TitleCell(label="Hands-on", value=view.time),),
            stages=row,
            previous=(f"Stage {before[0]}: {before[1]}", before[2]) if before else None,
            following=(f"Stage {after[0]}: {after[1]}", after[2]) if after else None,
            banner=banner,
            patterns=bool(chapter.patterns),
        )
        pages.append(
            WebPage(path=stage.page, template="stage.html", frame=frame, view=view, source=guide.file)
        )
    if chapter.patterns:
        path = route_path(guide, route, "patterns")
        pages.append(_page(book, path, "patterns.html", "Patterns", chapter,
                           view=patterns_view(chapter, path), banner=banner))  # fmt: skip
    path = route_path(guide, route, "teacher")
    pages.append(_page(book, path, "teacher.html", "For the teacher", chapter,
                       view=teacher_page(chapter, path, album.of, packets), banner=banner))  # fmt: skip
    return pages


def site_files(books: Sequence[Book], last_good: Mapping[str, Book]) -> list[WebFile]:
    """The files of the site that are no pages: pattern sheets to print."""
    shown = [last_good.get(book.name) if book.has_error else book for book in books]
    chapters = [chapter for book in shown if book is not None for chapter in book.chapters]
    return [file for chapter in chapters if chapter.patterns for file in pattern_files(chapter)]


def report_page(book: Book, path: str, *, whole: bool) -> WebPage:
    """The check report of a guide; without the guide's tabs unless its other pages are there (`whole`)."""
    ran = (
        Fact(label="Routes run", value=str(len(book.runs))),
        Fact(label="Actions carried out", value=str(sum(len(run.frames) for run in book.runs))),
        Fact(label="Needs looked at", value=str(sum(len(f.needs) for run in book.runs for f in run.frames))),
        Fact(label="Checks", value=str(len(CHECKS))),
    )
    checks = [(check.name, manual_of(check).title, check.severity) for check in CHECKS]
    view = report(book.findings, book.sources, path, checks, ran, judged(book.guide))
    if whole:
        frame = guide_frame(book.guide, path, "Check report", patterns=_has_patterns(book))
    else:
        frame = plain_frame(path, "Check report", [(book.guide.title or book.name, path)])
    return WebPage(path=path, template="report.html", frame=frame, view=view, source=book.guide.file)


def _page(book: Book, path: str, template: str, heading: str, chapter: Chapter | None = None, *,
          view: View, banner: str) -> WebPage:  # fmt: skip
    route, patterns = (chapter.route, bool(chapter.patterns)) if chapter else (None, _has_patterns(book))
    frame = guide_frame(book.guide, path, heading, route, banner=banner, patterns=patterns)
    return WebPage(path=path, template=template, frame=frame, view=view, source=book.guide.file)


def _has_patterns(book: Book) -> bool:
    """Whether the tabs above the routes lead to patterns: those of the one route that there is."""
    return len(book.chapters) == 1 and bool(book.chapters[0].patterns)


def manual_page(books: Iterable[Book]) -> WebPage:
    """The writers' manual, with a sentence for each verb from the guides of this site."""
    said: dict[str, str] = {}
    for book in books:
        for chapter in book.chapters:
            for numbered in chapter.steps:
                for entry in numbered.step.actions:
                    for action in entry.actions if isinstance(entry, Repeat) else (entry,):
                        if action.say is None and action.verb.word not in said:
                            said[action.verb.word] = chapter.telling.plain(action)
    return WebPage(path=MANUAL, template="manual.html", frame=plain_frame(MANUAL, "The manual"),
                   view=manual(VERBS, said))  # fmt: skip


def check_pages() -> list[WebPage]:
    """The index of checks and a page for each."""
    index = WebPage(path=CHECKS_INDEX, template="checks.html", frame=plain_frame(CHECKS_INDEX, "The checks"),
                    view=checks_index(CHECKS))  # fmt: skip
    crumbs = [("The checks", CHECKS_INDEX)]
    return [index] + [
        WebPage(path=check_path(check.name), template="check.html", view=check_page(check),
                frame=plain_frame(check_path(check.name), manual_of(check).title, crumbs))
        for check in CHECKS
    ]  # fmt: skip


def find_page(books: Iterable[Book]) -> WebPage:
    """Every step, part, tool and material of the site by name. What all routes share is listed once."""
    found: dict[tuple[str, str, str], FindEntry] = {}
    for book in books:
        guide = book.guide
        for chapter in book.chapters:
            listed = way(route_path(guide, chapter.route, "materials"), FIND)
            for numbered in chapter.steps:
                text = chapter.telling.title(numbered.step)
                where = Link(text=guide.title, href=way(numbered.path, FIND))
                entry = FindEntry(text=text, kind="step", where=where)
                found.setdefault((text.lower(), guide.id, "step"), entry)
            for thing in guide.things.values():
                if thing.sort in ("part", "tool", "material") and not thing.blank_of:
                    entry = FindEntry(
                        text=thing.name, kind=thing.sort, where=Link(text=guide.title, href=listed)
                    )
                    found.setdefault((thing.name.lower(), guide.id, thing.sort), entry)
    view = FindView(entries=tuple(found[key] for key in sorted(found)))
    return WebPage(path=FIND, template="find.html", frame=plain_frame(FIND, "Find"), view=view)
