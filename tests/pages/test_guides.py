"""The pages of the demonstration guides: links lead somewhere, routes keep apart, cautions come first."""

from __future__ import annotations

import posixpath
import re
from pathlib import Path

import pytest

from builder.guide.cautions import cautions_of
from builder.pages.book import Book, Chapter, open_book
from builder.pages.render import THEME, render
from builder.pages.the_site import site_files, site_pages
from builder.pages.website import WebPage
from tests.theme.tree import Node, Page

GUIDES = Path(__file__).resolve().parents[2] / "guides"
SITE_FILES = {"css/kitwright.css", "js/kitwright.js", "img/mark.svg"}


@pytest.fixture(scope="module")
def books() -> list[Book]:
    return [open_book(path.parent) for path in sorted(GUIDES.glob("*/guide.yml"))]


@pytest.fixture(scope="module")
def site(books: list[Book]) -> dict[str, tuple[WebPage, Node]]:
    pages = site_pages(books, {})
    return {p.path: (p, Page(render(p.template, frame=p.frame, view=p.view)).root) for p in pages}


def ids(root: Node) -> set[str]:
    return {node.attributes["id"] for node in root.walk() if "id" in node.attributes}


def test_every_link_and_every_anchor_leads_somewhere(
    site: dict[str, tuple[WebPage, Node]], books: list[Book]
) -> None:
    files = SITE_FILES | {file.path for file in site_files(books, {})}
    places = {path: ids(root) for path, (_, root) in site.items()}
    dead = []
    for path, (_, root) in site.items():
        for node in root.walk():
            for attribute in ("href", "src"):
                address = node.attributes.get(attribute, "")
                if not address or re.match(r"[a-z]+:", address):
                    continue
                target, _, place = address.partition("#")
                to = posixpath.normpath(posixpath.join(posixpath.dirname(path), target)) if target else path
                known = to in places or to in files or (GUIDES / to).is_file()
                if not known or (place and place not in places.get(to, set())):
                    dead.append((path, address))
    assert not dead
    assert all((THEME / name).is_file() for name in SITE_FILES)


def test_ids_are_unique_on_every_page(site: dict[str, tuple[WebPage, Node]]) -> None:
    for path, (_, root) in site.items():
        found = [node.attributes["id"] for node in root.walk() if "id" in node.attributes]
        assert len(found) == len(set(found)), path


def test_a_page_links_to_no_page_of_another_guide(
    site: dict[str, tuple[WebPage, Node]], books: list[Book]
) -> None:
    names = {book.name for book in books}
    for path, (_, root) in site.items():
        own = path.split("/")[0]
        if own in names:
            links = (posixpath.normpath(posixpath.join(posixpath.dirname(path), a.attributes.get("href", "")))
                     for a in root.all("a"))  # fmt: skip
            assert not {link.split("/")[0] for link in links} & (names - {own}), path


def chapters(books: list[Book]) -> list[Chapter]:
    return [chapter for book in books for chapter in book.chapters]


def test_each_step_of_a_route_has_its_heading_tick_picture_and_cautions_before_it(
    site: dict[str, tuple[WebPage, Node]], books: list[Book]
) -> None:
    for chapter in chapters(books):
        for numbered in chapter.steps:
            root = site[numbered.page][1]
            block = next(node for node in root.walk() if node.attributes.get("id") == numbered.anchor)
            order = list(block.walk())
            heading = next(node for node in order if node.tag in ("h2", "h3"))
            assert heading.text() == f"Step {numbered.number}: {chapter.telling.title(numbered.step)}"
            boxes = block.all("div", class_="safety")
            assert all(order.index(box) < order.index(heading) for box in boxes)
            wanted = [each.hazard for each in cautions_of(numbered.step, chapter.guide)]
            assert [box.all("p", class_="hazard")[0].text() for box in boxes] == wanted
            assert len(block.all("p", class_="done")) == 1
            assert block.all("div", role="img")


def test_a_route_has_no_step_and_no_part_of_the_other_route(
    site: dict[str, tuple[WebPage, Node]], books: list[Book]
) -> None:
    rocket = next(book for book in books if book.name == "rolled-rocket")
    jig, marks = rocket.chapters
    for one, other in ((jig, marks), (marks, jig)):
        own = {one.telling.title(each.step) for each in one.steps}
        alien = {other.telling.title(each.step) for each in other.steps} - own
        assert alien
        pages = [
            root.text() for path, (_, root) in site.items() if path.startswith(f"rolled-rocket/{one.id}/")
        ]
        assert not [title for title in alien for text in pages if title in text]
    tools = " ".join(
        root.text() for path, (_, root) in site.items() if path.startswith("rolled-rocket/marks/")
    )
    assert "fin jig" not in tools and "fin guide" in tools


def test_the_word_that_is_never_claimed(site: dict[str, tuple[WebPage, Node]]) -> None:
    """Nothing is ever said to be safe: the word stands only where the check of that claim is named."""
    for path, (_, root) in site.items():
        if not path.startswith("checks/"):
            text = root.text().replace("claims-safe", "")
            assert not re.search(r"\bsafe(?:ly)?\b", text, re.IGNORECASE), path


def test_a_wait_tells_its_length_and_where_it_comes_from(books: list[Book]) -> None:
    """The labels in the rocket guide say 30 min until set and 24 h until cured."""
    rocket = next(book for book in books if book.name == "rolled-rocket")
    chapter = rocket.chapters[0]
    waits = [
        line for each in chapter.builder_steps for line in chapter.writer.lines(each) if line.kind == "wait"
    ]
    assert waits
    assert all(line.length and line.source and line.minutes > 0 for line in waits)
    assert {"30 min", "24 h"} <= {line.length for line in waits}


def test_a_good_guide_has_a_report_that_claims_no_more_than_was_checked(
    site: dict[str, tuple[WebPage, Node]],
) -> None:
    text = site["card-telescope/report.html"][1].text()
    assert "What no check covers" in text
    assert "found nothing wrong" in text
