"""All pages of a site: the list of guides, each guide's pages, the manual, the checks, the list of names."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Sequence

import msgspec
from markupsafe import Markup

from builder.dryrun.kinds import VERBS
from builder.guide.actions import Verbs
from builder.guide.model import Repeat
from builder.guide.slips import SLIPS
from builder.pages.book import Book
from builder.pages.checks import EVERY, check_page, checks_index, slip_page
from builder.pages.contexts import Link
from builder.pages.lookup import Code, lookup_page
from builder.pages.manual import manual
from builder.pages.overview import card
from builder.pages.pictures import Album
from builder.pages.reference import FindEntry, FindView, HomeView
from builder.pages.report import check_path, verdict
from builder.pages.sealed_pages import laid_out
from builder.pages.shelf import Shelf
from builder.pages.stamps import dated
from builder.pages.store import Store
from builder.pages.website import (
    CHECKS_INDEX,
    CODES,
    FIND,
    HOME,
    MANUAL,
    SITE_NAME,
    WebFile,
    WebPage,
    capital,
    history_path,
    overview_path,
    plain_frame,
    report_path,
    route_path,
    way,
)

WELCOME = Markup(
    "<p>Each guide tells how to build a kit, step by step. It was built on paper before it was printed: "
    "every part, every glue and every wait was tried in order, and what would go wrong was mended.</p>"
)


def site_pages(
    shelves: Sequence[Shelf],
    packets: Collection[str] = (),
    store: Store | None = None,
    *,
    planting: bool = False,
) -> list[WebPage]:
    """Every page of the site that its generator lays out, in the order in which they are listed.

    A guide with an error shows its report; its other pages are those of when it last had none, if there are
    any. `packets` are the printed packets that the site has, by their places in it; `planting` has faults
    planted in copies of the guides, for the reviewer.
    """
    store = store or Store()
    pages = [home_page(shelves)]
    for shelf in shelves:
        pages += shelf.pages(packets, store, planting)
    good = [book for shelf in shelves if (book := shelf.current) is not None]
    shown = [shelf.shown for shelf in shelves if shelf.shown is not None]
    return [*pages, manual_page(shown), *check_pages(), find_page(good)]


def site_files(
    shelves: Sequence[Shelf], codes: Sequence[Code], store: Store, *, planting: bool = False
) -> list[WebFile]:
    """The files of the site that are laid out ready: sealed revisions and what belongs to them, the page on
    which printed pages are looked up (if there are `codes`), and pattern sheets to print."""
    found = [file for shelf in shelves for file in shelf.files(store, planting)]
    return [*found, *laid_out([lookup_page(codes)])] if codes else found


def home_page(shelves: Sequence[Shelf]) -> WebPage:
    """The list of guides, each with the way into the revision that a class builds from."""
    cards = []
    for shelf in shelves:
        shown = shelf.current or shelf.book
        state = verdict(shelf.book.findings) if shelf.book.has_error else ""
        made = card(shown, HOME, None if shown.has_error else Album(shown.chapters[0]).finished(), state)
        if shown.has_error:
            made = msgspec.structs.replace(made, href=way(report_path(shown.guide), HOME))
        cards.append(msgspec.structs.replace(made, revisions=_revisions(shelf)))
    more = [
        Link(text="The manual", href=way(MANUAL, HOME), note="how a guide is written"),
        Link(text="The checks", href=way(CHECKS_INDEX, HOME), note="what is looked at, and why"),
        Link(text="Find", href=way(FIND, HOME), note="steps, parts and tools by name"),
    ]
    if any(shelf.last for shelf in shelves):
        note = "what a sheet is worth now, by the letters at its foot"
        more.append(Link(text="Look up a printed page", href=way(CODES, HOME), note=note))
    view = HomeView(title=SITE_NAME, summary=WELCOME, guides=tuple(cards), more=tuple(more))
    return WebPage(path=HOME, template="home.html", frame=plain_frame(HOME, SITE_NAME), view=view)


def _revisions(shelf: Shelf) -> tuple[Link, ...]:
    """Under the name of a guide: which revision it leads to, all others, and the draft."""
    if shelf.last is None:
        return ()
    last = shelf.last.manifest
    found = [
        Link(
            text=capital(dated(last)),
            href=way(f"{shelf.name}/r{last.number}/index.html", HOME),
            note="current",
        ),
        Link(text="All revisions", href=way(history_path(shelf.name), HOME)),
    ]
    if not shelf.same:
        text = f"Working draft after revision {last.number}"
        found.append(Link(text=text, href=way(overview_path(shelf.book.guide), HOME), note="not sealed"))
    return tuple(found)


def manual_page(books: Iterable[Book]) -> WebPage:
    """The writers' manual, with a sentence for each verb from the guides of this site."""
    said: dict[str, str] = {}
    own: Verbs = {}
    for book in books:
        own = {**own, **book.guide.own_verbs}
        for chapter in book.chapters:
            for numbered in chapter.steps:
                for entry in numbered.step.actions:
                    for action in entry.actions if isinstance(entry, Repeat) else (entry,):
                        if action.say is None and action.verb.word not in said:
                            said[action.verb.word] = chapter.telling.plain(action)
    return WebPage(path=MANUAL, template="manual.html", frame=plain_frame(MANUAL, "The manual"),
                   view=manual({**VERBS, **own}, said))  # fmt: skip


def check_pages() -> list[WebPage]:
    """The index of checks and a page for each."""
    index = WebPage(path=CHECKS_INDEX, template="checks.html", frame=plain_frame(CHECKS_INDEX, "The checks"),
                    view=checks_index(EVERY))  # fmt: skip
    crumbs = [("The checks", CHECKS_INDEX)]
    views = [*(slip_page(slip) for slip in SLIPS), *(check_page(check) for check in EVERY)]
    return [index] + [
        WebPage(path=check_path(view.id), template="check.html", view=view,
                frame=plain_frame(check_path(view.id), view.title, crumbs))
        for view in views
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
