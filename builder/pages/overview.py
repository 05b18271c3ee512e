"""The pages of a guide that stand above its routes: overview, science, and its card on the home page."""

from __future__ import annotations

import re
from collections.abc import Collection

from markupsafe import Markup

from builder.guide.glossary import glossary
from builder.guide.model import Guide
from builder.pages.book import Book, Chapter
from builder.pages.chapter import AUTHORITY, caution_groups, route_view, time_facts
from builder.pages.contexts import Caution, Fact, Link, OverviewView, Picture
from builder.pages.prose import page_text
from builder.pages.reference import GuideCard, ProseView, WordsView
from builder.pages.telling import with_references
from builder.pages.website import overview_path, way, words_path
from builder.trade.signals import LEVELS

LEVELS_SHOWN = ("danger", "warning")
"""The levels whose cautions the overview repeats: those that can do lasting harm."""


def text_of(guide: Guide, name: str) -> Markup:
    """A Markdown text of the guide with its references told; empty if it has none."""
    return page_text(with_references(guide.prose.get(name, ""), guide))


def audience_facts(guide: Guide) -> tuple[Fact, ...]:
    """For whom the guide is written."""
    facts = []
    if ages := guide.audience.get("ages"):
        facts.append(Fact(label="Ages", value=ages.replace("-", " to ")))
    if grade := guide.audience.get("reading_grade"):
        facts.append(Fact(label="Reading grade", value=grade))
    return tuple(facts)


def overview(
    book: Book, page: str, picture: Picture | None = None, packets: Collection[str] = ()
) -> OverviewView:
    """The first page of a guide. `packets` are the printed packets that there are."""
    guide, chapters = book.guide, book.chapters
    several = len(chapters) > 1
    return OverviewView(
        title=guide.title,
        summary=text_of(guide, "overview"),
        facts=(*audience_facts(guide), *(() if several else time_facts(chapters[0]))),
        picture=picture,
        routes=tuple(route_view(chapter, page, packets) for chapter in chapters),
        choice="Choose a way to build it" if several else "Build it",
        words=Link(text="Words in this guide", href=way(words_path(guide), page), note=_counted_words(guide)),
        levels=worst_cautions(chapters, page),
        authority=AUTHORITY,
    )


def worst_cautions(chapters: tuple[Chapter, ...], page: str) -> tuple[Caution, ...]:
    """The cautions of all routes that can do lasting harm, each once."""
    found = {
        group.caution: None
        for chapter in chapters
        for group in caution_groups(chapter, page)
        if group.caution.level in LEVELS_SHOWN
    }
    return tuple(sorted(found, key=lambda each: LEVELS.index(each.level)))


def card(book: Book, page: str, picture: Picture | None = None, state: str = "") -> GuideCard:
    """The guide on the home page: its first sentences, its facts."""
    text = " ".join(re.sub(r"<[^>]+>", "", text_of(book.guide, "overview")).split())
    first = re.match(r"(?:.*?[.!?](?=\s|$)){1,2}", text)
    facts = audience_facts(book.guide)
    if not book.has_error:
        facts = (*facts[:1], *time_facts(book.chapters[0])[:3])
    return GuideCard(
        title=book.guide.title or book.name,
        href=way(overview_path(book.guide), page),
        summary=Markup(first.group() if first else text).unescape(),
        facts=facts,
        state=state,
        picture=picture,
    )


def _counted_words(guide: Guide) -> str:
    return f"{len(glossary(guide))} terms, and what each means"


def words(guide: Guide) -> WordsView:
    """The glossary: exactly the terms that the steps of the guide use."""
    return WordsView(
        words=tuple(
            Fact(label=entry.word, value=entry.means, note="as this guide has it" if entry.own else "")
            for entry in glossary(guide)
        )
    )


def science(guide: Guide) -> ProseView:
    """The science page."""
    return ProseView(html=text_of(guide, "science"))


def find_link(guide: Guide, path: str, page: str) -> Link:
    """A place in a guide, named by the guide."""
    return Link(text=guide.title, href=way(path, page))
