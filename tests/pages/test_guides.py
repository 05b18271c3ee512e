"""The pages of the demonstration guides: links lead somewhere, routes keep apart, cautions come first."""

from __future__ import annotations

import posixpath
import re
from collections.abc import Iterator
from io import BytesIO
from pathlib import Path

import pdfplumber
import pytest
from pypdf import PdfReader

from builder.drawings.of_stage import assembled
from builder.guide.cautions import cautions_of
from builder.pages.book import Book, Chapter, open_book
from builder.pages.class_rows import class_tools, uses_of_plan
from builder.pages.kit import tool_groups
from builder.pages.patterns import pattern_files
from builder.pages.render import render
from builder.pages.sealed_pages import Kept
from builder.pages.shelf import Shelf
from builder.pages.stage import stage_view
from builder.pages.the_site import site_pages
from builder.pages.website import WebFile, WebPage
from tests.theme.tree import Node, Page

GUIDES = Path(__file__).resolve().parents[2] / "guides"


@pytest.fixture(scope="module")
def books() -> list[Book]:
    return [open_book(path.parent) for path in sorted(GUIDES.glob("*/guide.yml"))]


@pytest.fixture(scope="module")
def site(books: list[Book]) -> dict[str, tuple[WebPage, Node]]:
    known: dict[str, Kept] = {}
    pages = site_pages([Shelf(GUIDES / book.name, book, book, known) for book in books])
    return {p.path: (p, Page(render(p.template, frame=p.frame, view=p.view)).root) for p in pages}


def test_builder_and_teacher_are_told_the_same_of_who_shares_a_tool(books: list[Book]) -> None:
    for chapter in (each for book in books for each in book.chapters):
        used = uses_of_plan(chapter, chapter.plan)
        told = [
            {(group.heading, row.name) for group in groups for row in group.rows}
            for groups in (
                tool_groups(chapter.guide, used, "", {}),
                class_tools(chapter.guide, chapter.plan, used),
            )
        ]
        assert told[0] == told[1]


def ids(root: Node) -> set[str]:
    return {node.attributes["id"] for node in root.walk() if "id" in node.attributes}


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


def test_a_step_does_not_ask_for_the_tool_that_it_makes(books: list[Book]) -> None:
    """A jig is cut in a step of its own and used in others; the fin guide is cut where it is then wrapped."""
    rocket = next(book for book in books if book.name == "rolled-rocket")
    asked = {
        each.step.id: {used.name for used in chapter.writer.used(each.step, ("tool",))}
        for chapter in rocket.chapters
        for each in chapter.steps
    }
    assert "fin jig" not in asked["jig_cut"] and {"circle cutter", "craft knife"} <= asked["jig_cut"]
    assert "fin jig" in asked["jig_on"] and "fin guide" in asked["guide"]


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


@pytest.fixture(scope="module")
def rocket(books: list[Book]) -> Book:
    return next(book for book in books if book.name == "rolled-rocket")


def text_of(site: dict[str, tuple[WebPage, Node]], path: str) -> str:
    """What a page says, every kind of space as a plain one."""
    return site[path][1].text()


def test_a_wait_tells_the_time_of_its_label_and_not_what_is_left_of_it(rocket: Book) -> None:
    """The tube's glue closes 2 min before the wait begins, so that 28 min are left of the label's 30 min."""
    chapter = rocket.chapters[0]
    wait = next(wait for wait in chapter.waits.values() if wait.step == "body_dry")
    assert wait.seconds == 28 * 60
    assert chapter.told[wait.action] == 30 * 60
    numbered = next(each for each in chapter.steps if each.step.id == "body_dry")
    block = next(line for line in chapter.writer.lines(numbered) if line.kind == "wait")
    assert (block.length, block.minutes) == ("30 min", 30)
    assert block.meanwhile.startswith("Until then, put nothing on the work")


def test_glue_for_a_part_that_comes_later_is_told_by_where_it_will_sit(
    site: dict[str, tuple[WebPage, Node]],
) -> None:
    """1/4 + 1/8 + 2 = 2 3/8 in to the front ring, which is 1/8 in thick; the rear one begins at 1/4 in."""
    text = text_of(site, "rolled-rocket/jig/stage-3.html")
    assert "the front ring will sit: from 2 3/8 in (60.3 mm) to 2 1/2 in (63.5 mm) from the rear end" in text
    assert "the rear ring will sit: from 1/4 in (6.4 mm) to 3/8 in (9.5 mm) from the rear end" in text


def test_a_stage_takes_what_is_there_and_names_what_it_makes(rocket: Book) -> None:
    chapter = rocket.chapters[0]
    mount, goes_in = (stage_view(chapter, chapter.stages[number]) for number in (1, 2))
    assert mount.makes == "This stage makes the motor mount."
    names = {each.name for each in mount.parts}
    assert names == {"motor tube", "motor clip", "thrust ring", "rear ring", "front ring"}
    assert {each.name for each in goes_in.parts} == {"motor mount", "body"}
    assert mount.holds[0].startswith("motor mount: the motor tube, ")
    assert {each.name for each in goes_in.steps[0].parts} == {"motor mount", "body"}


def test_a_stage_opens_with_what_goes_where_or_with_the_parts_that_it_makes(
    site: dict[str, tuple[WebPage, Node]],
) -> None:
    head = site["rolled-rocket/jig/stage-2.html"][1].all("div", class_="stage-head")[0]
    (picture,) = head.all("div", role="img")
    alt = picture.attributes["aria-label"]
    stays = "Exploded view, seen at an angle from above. Stays where it is: the motor tube (B)."
    assert alt.startswith(stays)
    assert all(name in alt for name in ("motor clip", "thrust ring", "rear ring", "front ring"))
    tubes = site["rolled-rocket/jig/stage-1.html"][1].all("div", class_="stage-head")[0]
    (picture,) = tubes.all("div", role="img")
    told = "The parts of this stage, all at one scale: the body (A) and the motor tube (B)."
    assert picture.attributes["aria-label"] == told


def test_the_letters_of_an_exploded_view_stand_in_the_parts_table(
    site: dict[str, tuple[WebPage, Node]],
) -> None:
    page = site["rolled-rocket/jig/materials.html"][1]
    letters = {
        row.all("th")[0].text().split("  ")[0].strip(): row.all("td", class_="letter")[0].text().strip()
        for row in page.all("tr")
        if row.all("td", class_="letter")
    }
    assert len(set(letters.values())) == len(letters)
    alt = page.all("div", role="img")[0].attributes["aria-label"]
    told = re.findall(r"(?:the|\d+) ([a-z ]+?) \(([A-Z]+)\)", alt)
    assert len(told) > 10
    for name, letter in told:
        whole = next(part for part, own in letters.items() if own == letter)
        assert whole.startswith(name.removesuffix("s")), (name, letter, whole)


def test_every_stage_ends_with_a_drawing_of_what_it_put_together(
    site: dict[str, tuple[WebPage, Node]], books: list[Book]
) -> None:
    for chapter in chapters(books):
        for stage in chapter.stages:
            bench = chapter.frames[stage.steps[-1].step.id][-1].after
            if assembled(chapter.guide, bench):
                box = site[stage.page][1].all("section", class_="holds")[0]
                assert box.all("div", role="img"), stage.page


def test_numbers_of_a_class_say_for_which_class(site: dict[str, tuple[WebPage, Node]]) -> None:
    """24 builders and a tenth more: 26.4, rounded up to 27 kits; a jig for 2 builders each makes 12."""
    counted = "Counted for a class of 24 builders and 1 adult, with 10 % spares: 27 kits."
    for page in ("teacher", "materials"):
        assert counted in text_of(site, f"rolled-rocket/jig/{page}.html")
    shopping = text_of(site, "rolled-rocket/jig/materials.html").partition("To buy for a class")[2]
    assert re.search(r"poster paper .*?27 sheets 1 pack of 50, 23 left over", shopping)
    preparation = text_of(site, "rolled-rocket/jig/teacher.html")
    assert "27 rear rings and 27 front rings" in preparation and "12 fin jigs" in preparation


def test_an_adult_is_marked_where_the_writer_or_a_hazard_asks(
    site: dict[str, tuple[WebPage, Node]], books: list[Book]
) -> None:
    for chapter in chapters(books):
        for each in chapter.plan.times.help:
            numbered = next(step for step in chapter.steps if step.step.id == each.step)
            block = next(
                node for node in site[numbered.page][1].walk() if node.attributes.get("id") == numbered.anchor
            )
            assert re.search(r"An adult|The teacher", block.all("p", class_="facts")[0].text()), each.step


def raw(node: Node) -> Iterator[str]:
    """The text below a node as it stands, with its own spaces."""
    for child in node.children:
        if isinstance(child, str):
            yield child
        else:
            yield from raw(child)


def test_no_line_breaks_between_a_number_and_its_unit(site: dict[str, tuple[WebPage, Node]]) -> None:
    for path, (page, root) in site.items():
        if page.template in ("stage.html", "overview.html", "teacher.html", "materials.html"):
            nodes = [node for kind in ("p", "li", "td", "dd") for node in root.all(kind)]
            words = [text for node in nodes for text in raw(node)]
            assert any("\u00a0" in text for text in words) or page.template == "overview.html", path
            assert not [text for text in words if re.search(r"\d (?:in|mm|min|h|mL)\b", text)], path


def sheets_of(rocket: Book) -> list[WebFile]:
    """The files with the pattern sheets for each paper."""
    files = (file for chapter in rocket.chapters for file in pattern_files(chapter))
    return [file for file in files if "/patterns-" in file.path]


def test_each_pattern_has_its_files_for_a_machine_and_for_the_class(
    site: dict[str, tuple[WebPage, Node]], rocket: Book
) -> None:
    """24 builders and a tenth more are 27 kits: 4 fins each make 108, and a ring of each of two kinds 54."""
    text = text_of(site, "rolled-rocket/jig/patterns.html")
    assert "108 on " in text and "54 on " in text
    files = {file.path: file.content for chapter in rocket.chapters for file in pattern_files(chapter)}
    links = {a.attributes["href"] for a in site["rolled-rocket/jig/patterns.html"][1].all("a")}
    for name in ("pattern-fin.svg", "pattern-fin.pdf", "class-fin.pdf", "gauges-a4.pdf", "gauges-letter.pdf"):
        assert name in links and f"rolled-rocket/jig/{name}" in files, name
    # true size: the fin's root of 2 1/4 in is 57.15 mm, in a frame that is 4 mm wider
    assert b'width="61.15mm"' in files["rolled-rocket/jig/pattern-fin.svg"]
    assert "class-canopy.pdf" not in links  # it is larger than a sheet


def test_pattern_sheets_are_those_of_the_route_and_as_large_as_their_paper(
    site: dict[str, tuple[WebPage, Node]], rocket: Book
) -> None:
    """Letter is 8 1/2 x 11 in (ANSI/ASME Y14.1 size A), A4 210 x 297 mm (ISO 216); a point is 1/72 in."""
    sizes = {"letter": (612.0, 792.0), "a4": (210 / 25.4 * 72, 297 / 25.4 * 72)}
    jig, marks = (text_of(site, f"rolled-rocket/{name}/patterns.html") for name in ("jig", "marks"))
    assert "Fin jig" in jig and "fin guide" not in jig
    assert "fin guide" in marks and "fin jig" not in marks.lower()
    for file in sheets_of(rocket):
        reader = PdfReader(BytesIO(file.content))
        width, height = sizes[file.path.removesuffix(".pdf").rpartition("-")[2]]
        chapter = next(each for each in rocket.chapters if f"/{each.id}/" in file.path)
        assert len(reader.pages) == 2 * len(chapter.patterns) - 1  # between two sheets lies an empty back
        for back in reader.pages[1::2]:
            assert back.extract_text().strip() == "This side is left empty: the sheet before it is cut."
        for sheet in reader.pages:
            assert float(sheet.mediabox.width) == pytest.approx(width, abs=0.1)
            assert float(sheet.mediabox.height) == pytest.approx(height, abs=0.1)


def test_pattern_files_keep_the_margin_and_their_bars_are_true(rocket: Book) -> None:
    """Half an inch is 36 pt. A 4 in bar is 288 pt, one of 100 mm is 100 / 25.4 * 72 = 283.46 pt; 0.05 mm is
    0.14 pt. Read back with another library."""
    for file in sheets_of(rocket):
        with pdfplumber.open(BytesIO(file.content)) as pages:
            for page in pages.pages[::2]:
                ends = [point for each in (*page.lines, *page.curves) for point in each["pts"]]
                assert min(x for x, _ in ends) >= 36 - 0.14 and min(y for _, y in ends) >= 36 - 0.14
                assert max(x for x, _ in ends) <= page.width - 36 + 0.14
                assert max(y for _, y in ends) <= page.height - 36 + 0.14
                level = [abs(each["x1"] - each["x0"]) for each in (*page.lines, *page.curves)]
                upright = [abs(each["bottom"] - each["top"]) for each in (*page.lines, *page.curves)]
                for bar in (288.0, 100 / 25.4 * 72):
                    for found in (level, upright):
                        assert any(length == pytest.approx(bar, abs=0.14) for length in found), file.path


def test_the_report_says_what_the_writer_decided(site: dict[str, tuple[WebPage, Node]]) -> None:
    text = text_of(site, "rolled-rocket/report.html")
    for label in ("Findings accepted None.", "Cautions left out None.", "Steps that may be left out None."):
        assert label in text
    assert re.search(r"Actions that only words describe \d+ of \d+ actions", text)


def test_a_good_guide_has_a_report_that_claims_no_more_than_was_checked(
    site: dict[str, tuple[WebPage, Node]],
) -> None:
    text = site["card-telescope/report.html"][1].text()
    assert "What no check covers" in text
    assert "found nothing wrong" in text
