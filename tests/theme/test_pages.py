"""Every template, laid out from contexts made by hand: structure, order, names, nothing from outside."""

from __future__ import annotations

import re
from itertools import pairwise

import msgspec
import pytest
from markupsafe import Markup

from builder.pages import contexts as c
from builder.pages.render import THEME, render
from tests.pages.mock import BLADE, PAGES, STAGE, STAIN, frame, step
from tests.theme.tree import Node, Page

LAID_OUT = {name: render(template, frame=around, view=view) for name, template, around, view in PAGES}
every_page = pytest.mark.parametrize("name", sorted(LAID_OUT))


def page(name: str) -> Page:
    return Page(LAID_OUT[name])


@every_page
def test_headings_do_not_skip_a_level(name: str) -> None:
    levels = [int(n.tag[1]) for n in page(name).root.walk() if re.fullmatch("h[1-6]", n.tag)]
    assert levels.count(1) == 1 and levels[0] == 1
    assert all(after <= before + 1 for before, after in pairwise(levels))


@every_page
def test_landmarks_language_and_skip_link(name: str) -> None:
    root = page(name).root
    assert root.all("html")[0].attributes["lang"] == "en"
    assert len(root.all("main")) == 1
    skip = root.all("a")[0]
    assert skip.attributes["href"] == "#" + root.all("main")[0].attributes["id"]
    assert all(nav.attributes.get("aria-label") for nav in root.all("nav"))


@every_page
def test_ids_are_unique_and_references_lead_somewhere(name: str) -> None:
    nodes = list(page(name).root.walk())
    ids = [n.attributes["id"] for n in nodes if "id" in n.attributes]
    assert len(ids) == len(set(ids))
    for node in nodes:
        assert node.attributes.get("aria-labelledby", ids[0]) in ids
        href = node.attributes.get("href", "")
        assert not href.startswith("#") or href == "#" or href[1:] in ids


@every_page
def test_a_cell_names_its_column(name: str) -> None:
    """On a phone the heads of the columns are not to be seen: each cell says of what it is."""
    for table in page(name).root.all("table"):
        heads = [head.text() for head in table.all("th", scope="col")]
        for row in (row for part in ("tbody", "tfoot") for each in table.all(part) for row in each.all("tr")):
            column = 0
            for cell in row.children:
                if not isinstance(cell, Node):
                    continue
                if cell.tag == "td" and cell.text():
                    assert cell.attributes["data-of"] == heads[column]
                column += int(cell.attributes.get("colspan", "1"))
            assert column == len(heads)


@every_page
def test_pictures_and_blanks_have_names(name: str) -> None:
    root = page(name).root
    for node in root.all("", role="img") + root.all("", role="region"):
        assert node.attributes["aria-label"]
    assert all("alt" in image.attributes for image in root.all("img"))
    for blank in root.all("input"):
        assert any(above.tag == "label" and above.text() for above in blank.above())
    for svg in root.all("svg"):
        hidden = svg.attributes.get("aria-hidden") == "true"
        assert hidden or any(above.attributes.get("role") == "img" for above in svg.above())


@every_page
def test_nothing_is_fetched_from_outside(name: str) -> None:
    for node in page(name).root.walk():
        for attribute in ("src", "href", "poster", "data"):
            value = node.attributes.get(attribute, "")
            if node.tag != "a":
                assert not re.match(r"[a-z]+:|//", value)
        assert node.attributes.get("type") != "module"


def test_style_and_script_reach_for_nothing() -> None:
    texts = [file.read_text() for kind in ("css", "js") for file in (THEME / kind).iterdir()]
    assert texts
    for text in texts:
        assert not re.search(r"https?:|//[a-z]|@import|\bfetch\(|XMLHttpRequest|\bimport\b.*from", text)


def test_a_caution_stands_directly_before_its_step() -> None:
    for block in page("build").root.all("section", class_="step"):
        heading = next(n for n in block.walk() if n.tag == "h2")
        for caution in block.all("div", class_="safety"):
            order = list(block.walk())
            assert order.index(caution) < order.index(heading)
            assert "before " + heading.text() in caution.attributes["aria-label"]


def test_a_caution_says_hazard_then_consequence_then_avoidance() -> None:
    box = page("build").root.all("div", class_="warning")[0]
    assert [p.attributes["class"] for p in box.all("p")] == ["signal", "hazard", "consequence", "avoidance"]
    assert box.text() == f"WARNING {BLADE.hazard} {BLADE.consequence} {BLADE.avoidance}"


def test_the_triangle_is_never_with_a_notice() -> None:
    boxes = page("build").root.all("div", class_="safety")
    with_triangle = {b.attributes["class"].split()[1]: bool(b.all("svg", class_="alert")) for b in boxes}
    assert with_triangle == {"danger": True, "warning": True, "caution": True, "notice": False}
    assert not STAIN.symbol


def test_a_wait_is_a_block_with_both_blanks_and_what_to_do_when_late() -> None:
    wait = page("build").root.all("li", class_="wait")[0]
    assert [label.text() for label in wait.all("label")] == ["Start", "Ready"]
    assert wait.attributes["data-minutes"] == "30"
    assert "If you come back later: No harm." in wait.text()


def test_each_step_has_one_tick_and_each_copy_has_one() -> None:
    root = page("build").root
    done = [tick for p in root.all("p", class_="done") for tick in p.all("input", type="checkbox")]
    assert len(done) == len(STAGE.steps)
    jig = root.all("section", id="step-10")[0]
    assert [t.text() for t in jig.all("ul", class_="copies")[0].all("label")] == [
        "fin 1",
        "fin 2",
        "fin 3",
        "fin 4",
    ]
    keys = [t.attributes["data-tick"] for t in root.all("input", type="checkbox")]
    assert len(keys) == len(set(keys))


def test_text_is_escaped_and_markup_is_not() -> None:
    odd = step(1, "Cut <b>this</b>", lines=(c.ActionLine(label="1.1", html=Markup("2 &lt; 3 <em>mm</em>")),))
    html = render("stage.html", frame=frame("x"), view=msgspec.structs.replace(STAGE, steps=(odd,)))
    assert "Cut &lt;b&gt;this&lt;/b&gt;" in html
    assert "2 &lt; 3 <em>mm</em>" in html


def test_a_name_that_is_not_there_is_a_fault() -> None:
    with pytest.raises(Exception, match="has no attribute"):
        render("stage.html", frame=frame("x"), view=PAGES[0][3])


@pytest.mark.parametrize("tag", ["script", "style", "details", "iframe"])
def test_nothing_is_folded_away_or_run_in_a_page(tag: str) -> None:
    for name in LAID_OUT:
        found = page(name).root.all(tag)
        assert not [n for n in found if not n.attributes.get("src", "").endswith("js/kitwright.js")]
