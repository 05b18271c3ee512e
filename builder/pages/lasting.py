"""A page for each step, at an address that follows neither its title, nor its number, nor its stage."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import msgspec

from builder.pages.book import Book
from builder.pages.contexts import Link, View
from builder.pages.spaces import dates_whole
from builder.pages.website import (
    WebPage,
    capital,
    history_path,
    lasting_path,
    overview_path,
    plain_frame,
    way,
)


class PlaceView(View, frozen=True, kw_only=True):
    """An edition in which the step stands, and where: one link for each route. `gone` if it does not."""

    heading: str
    links: tuple[Link, ...]
    gone: str = ""


class LastingView(View, frozen=True, kw_only=True):
    """A step in every edition of its guide, the current one first."""

    places: tuple[PlaceView, ...]


class Shown(msgspec.Struct, frozen=True):
    """An edition of a guide: its name for a reader, its book, and the names that its steps got since then."""

    name: str
    book: Book
    names: dict[str, str]


def lasting_pages(name: str, editions: Sequence[Shown]) -> list[WebPage]:
    """One page for each step that any edition has. `editions` are in the order in which they are shown: the
    current one first."""
    ids = dict.fromkeys(id for shown in editions for step in _steps(shown.book) for id in _ids(shown, step))
    return [_page(name, id, editions) for id in ids]


def _ids(shown: Shown, step: str) -> tuple[str, ...]:
    return tuple(dict.fromkeys((step, shown.names.get(step, step))))


def _steps(book: Book) -> Iterator[str]:
    for chapter in book.chapters:
        for numbered in chapter.steps:
            yield numbered.step.id


def _page(name: str, id: str, editions: Sequence[Shown]) -> WebPage:
    path = lasting_path(name, id)
    places = []
    heading = ""
    for shown in editions:
        links: list[Link] = []
        for chapter in shown.book.chapters:
            for numbered in chapter.steps:
                if id in _ids(shown, numbered.step.id):
                    title = chapter.telling.title(numbered.step)
                    heading = heading or title
                    note = chapter.name
                    links.append(
                        Link(
                            text=f"Step {numbered.number}: {title}", href=way(numbered.path, path), note=note
                        )
                    )
        gone = "" if links else f"{capital(shown.name)} does not have this step."
        places.append(PlaceView(heading=dates_whole(capital(shown.name)), links=tuple(links), gone=gone))
    guide = editions[0].book.guide
    above = history_path(name) if len(editions) > 1 else overview_path(guide)
    frame = plain_frame(path, heading, [(guide.title, above)])
    return WebPage(path=path, template="lasting.html", frame=frame, view=LastingView(places=tuple(places)))
