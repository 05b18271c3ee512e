"""Revisions on the site: stamps, ways on, history, comparisons, lasting addresses, what is taken over."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest
from msgspec.structs import replace

from builder.pages.book import Chapter, open_book
from builder.pages.comparing import Comparing, filters
from builder.pages.contexts import Link
from builder.pages.onward import under_it
from builder.pages.reference import ProseView
from builder.pages.sealed_pages import Kept, open_kept, sealed_files
from builder.pages.shelf import Shelf
from builder.pages.store import NAME, Store, key_of
from builder.pages.the_site import site_files, site_pages
from builder.pages.website import WebFile
from builder.plan.settings import SHOWN
from builder.revisions.change import FIELDS, KINDS, RANKS, only
from builder.revisions.opening import open_edition
from builder.revisions.vault import sealed_revisions
from tests.revisions.shelf import lay_out, run, write
from tests.theme.tree import Node, Page

Site = dict[str, Node]

PEG = """  - id: cut_peg
    title: Saw the peg
    time: 5 min
    actions:
      - {cut: peg, from: dowel, with: saw, leaves: 239 mm}
"""
CHEEKS = "      - {cut: cheek, from: board, with: scissors}\n"
SAWN = "      - {cut: peg, from: dowel, with: saw, leaves: 239 mm}\n"

# From the first revision to the second: a longer wait, which stops a class; a step under another id and
# title; a step that is gone, its action carried into another.
SECOND = (
    ("for: 20 min}", "for: 25 min}"),
    ("- id: look\n    title: Look it over", "- id: last_look\n    title: See that it stands square"),
    (PEG, ""),
    (CHEEKS, CHEEKS + SAWN),
)
# And from there to the working guide: the mark stands elsewhere, so that a drawing differs.
THIRD = (*SECOND, ("at: 10 mm from left and 20 mm from front", "at: 10 mm from left and 60 mm from front"))


@pytest.fixture(scope="module")
def rack(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The card rack with two sealed revisions and a working draft."""
    top = tmp_path_factory.mktemp("rack")
    rack = lay_out(top)
    place = rack.as_posix()
    for number, edits, dated in ((1, None, ""), (2, SECOND, "2026-10-05")):
        if edits is not None:
            write(rack, *edits, number=number, dated=dated)
        ran = run("seal", place)
        assert ran.exit_code == 0, ran.output
    write(rack, *THIRD, number=3, dated="2026-11-02")
    return rack


def files_of(
    guide: Path, store: Store | None = None, known: dict[str, Kept] | None = None
) -> dict[str, bytes]:
    """Every page and file of a site that holds one guide, by path."""
    book = open_book(guide)
    assert not book.has_error, [each.message for each in book.errors]
    shelf = Shelf(guide, book, book, known)
    store = store or Store()
    found = {}
    for page in site_pages([shelf], (), store):
        if isinstance(page.view, ProseView) and page.template == "ready.html":
            found[page.path] = page.view.html.encode()
    return found | {file.path: file.content for file in site_files([shelf], [], store)}


@pytest.fixture(scope="module")
def files(rack: Path) -> dict[str, bytes]:
    return files_of(rack)


@pytest.fixture(scope="module")
def site(files: dict[str, bytes]) -> Site:
    return {path: Page(data.decode()).root for path, data in files.items() if path.endswith(".html")}


def stamp(root: Node) -> str:
    (box,) = root.all("div", class_="stamp")
    return box.text()


def links(root: Node) -> dict[str, str]:
    return {a.text(): a.attributes["href"] for a in root.all("a")}


@pytest.mark.parametrize(
    ("page", "said"),
    [
        ("rack/index.html", "Working draft after revision 2. It is not sealed and may still change"),
        ("rack/block/stage-1.html", "build from revision 2 of 2026-10-05 ."),
        ("rack/r2/index.html", "Current This is revision 2 of 2026-10-05 , the one to build from."),
        ("rack/r2/eye/stage-2.html", "Current This is revision 2"),
        ("rack/r1/index.html", "Superseded This is revision 1 of 2026-09-07 . Build from revision 2"),
        ("rack/r1/block/materials.html", "Superseded This is revision 1"),
        ("rack/r1/report.html", "Superseded This is revision 1"),
    ],
)
def test_every_page_says_in_its_html_which_revision_it_is(site: Site, page: str, said: str) -> None:
    assert said in stamp(site[page])
    assert site[page].all("a", href="../" * (page.count("/") - 1) + "revisions.html" if page.count("/") > 1
                          else "revisions.html")  # fmt: skip


def test_a_guide_without_a_sealed_revision_has_no_stamp(tmp_path: Path) -> None:
    rack = lay_out(tmp_path)
    pages = files_of(rack)
    assert b'class="stamp' not in pages["rack/index.html"]
    assert not [path for path in pages if "/r1/" in path or "compare" in path or "revisions" in path]
    assert "rack/step/cut-back.html" in pages


def test_a_page_of_an_old_revision_leads_to_the_same_page_of_the_current_one(site: Site) -> None:
    assert "../../r2/block/materials.html" in links(site["rack/r1/block/materials.html"]).values()
    assert links(site["rack/r1/words.html"])["This page in revision 2"] == "../r2/words.html"
    assert (
        links(site["rack/r1/block/stage-2.html"])["Stage 2 of revision 2: Gluing"]
        == "../../r2/block/stage-2.html"
    )


def now(site: Site, page: str, step: str) -> Node:
    """What an old page says of where a step is now."""
    (block,) = site[page].all("section", id=f"step-{step}")
    (box,) = block.all("div", class_="now")
    return box


def test_a_step_of_an_old_revision_leads_to_the_same_step_under_its_new_id_and_title(site: Site) -> None:
    box = now(site, "rack/r1/block/stage-3.html", "look")
    (link,) = box.all("a")
    assert link.attributes["href"] == "../../r2/block/stage-3.html#step-last-look"
    assert link.text().endswith("See that it stands square")


def test_a_step_that_is_gone_leads_to_its_stage(site: Site) -> None:
    box = now(site, "rack/r1/eye/stage-1.html", "cut-peg")
    assert "does not have this step" in box.text()
    assert [a.attributes["href"] for a in box.all("a")] == ["../../r2/eye/stage-1.html"]


def test_a_change_that_stops_a_class_stands_at_its_step(site: Site) -> None:
    """The wait was 20 min and is 25 min."""
    box = now(site, "rack/r1/block/stage-2.html", "peg-on")
    (stop,) = box.all("p", class_="stop")
    assert stop.text().startswith("Stop.") and "25 min, was 20 min" in stop.text()
    assert not now(site, "rack/r1/block/stage-1.html", "cut-back").all("p", class_="stop")
    assert not site["rack/r2/block/stage-2.html"].all("div", class_="now")


@pytest.mark.parametrize(
    ("line", "told"),
    [
        ("Step 38, Glue it in: no helper, was adult helps: weakened", "No helper, was adult helps: weakened"),
        ("Step 23 (without a jig), Glue it in: time to hold: 3 min, was 2 min",
         "Time to hold: 3 min, was 2 min"),
        ("Step 4 of revision 1, Stick it in: is gone", "Is gone"),
        ("White glue, set (from its label): 30 min, was 20 min",
         "White glue, set (from its label): 30 min, was 20 min"),
        ("Step 9, Tie it: wait 2 h, was 1 h", "Step 9, Tie it: wait 2 h, was 1 h"),
    ],
)  # fmt: skip
def test_what_stops_a_class_at_a_step_is_told_without_the_number_of_another_route(
    line: str, told: str
) -> None:
    assert under_it(line, ("Glue it in", "Stick it in")) == told


def test_the_history_has_every_revision_with_its_changes_by_rank(site: Site) -> None:
    root = site["rack/revisions.html"]
    headings = [node.text() for node in root.all("h2")]
    assert headings == [
        "Working draft after revision 2 Working draft",
        "Revision 2 Current",
        "Revision 1 Superseded",
    ]
    second = root.all("section", id="r2")[0].text()
    assert "2026-10-05" in second and "Tannerfield Workshop" in second and "The slot is wider." in second
    assert "it stops, and is told what changed" in second
    counted = [int(node.text()) for node in root.all("section", id="r2")[0].all("span", class_="count")]
    heading = root.all("section", id="r2")[0].all("h3")[0].text()
    assert len(counted) == len(RANKS) and heading.startswith(f"{sum(counted)} changes")


@pytest.mark.parametrize("pair", ["r1-r2", "r2-draft"])
def test_filters_part_the_changes(site: Site, rack: Path, pair: str) -> None:
    """Every change passes exactly one choice of each filter, in the page and by the names in the styles."""
    root = site[f"rack/compare/{pair}.html"]
    changes = [set(node.attributes["class"].split()) for node in root.all("li", class_="change")]
    assert changes
    for name in ("rank", "field", "kind"):
        boxes = [node for node in root.all("input", type="radio") if node.attributes["name"] == name]
        keys = [node.attributes["id"] for node in boxes]
        assert keys[0] == f"{name}-all" and "checked" in boxes[0].attributes
        assert all(sum(key in classes for key in keys[1:]) == 1 for classes in changes)
    css = (Path(__file__).resolve().parents[2] / "theme" / "css" / "kitwright.css").read_text("utf-8")
    for name, values in (("rank", RANKS), ("kind", KINDS)):
        for value in values:
            assert f"#{name}-{value.value}:checked) .change:not(.{name}-{value.value})" in css
    for field in FIELDS:
        assert f"#field-{field.name.lower()}:checked)" in css
    shown = Comparing(open_edition(f"{rack}@1"), open_edition(f"{rack}@2")).changes
    for found in filters(shown):
        assert found.choices[0].count == sum(choice.count for choice in found.choices[1:]) == len(shown)
    assert sum(len(only(shown, [rank])) for rank in RANKS) == len(shown)


def test_who_signs_is_told_at_the_top_what_guards_less(site: Site, rack: Path) -> None:
    assert not site["rack/compare/r1-r2.html"].all("div", class_="weaker")  # the wait is longer there
    before, after = (open_edition(f"{rack}@{number}") for number in (2, 1))
    comparing = Comparing(before, after)
    weak = sum(1 for each in comparing.changes if each.weakened)
    assert weak == 1  # 20 min, was 25 min
    link = Link(text="x", href="")
    told = "1 change guards less against harm than before."
    asks = "It is sealed only when somebody has signed for that, with a reason."
    assert comparing.view("x.html", link, link).weaker == told
    assert comparing.view("x.html", link, link, signed=()).weaker == f"{told} {asks}"
    signed = comparing.view("x.html", link, link, signed=("A. Brook, teacher: Timed.",))
    assert signed.weaker == told and signed.signed == ("A. Brook, teacher: Timed.",)
    assert comparing.view("x.html", link, link, [], signed=()).weaker == ""


def test_a_changed_place_is_marked_in_both_drawings_and_told_in_words(site: Site) -> None:
    """The mark stood 20 mm from the front and stands at 60 mm."""
    root = site["rack/compare/r2-draft.html"]
    (block,) = root.all("section", id="drawn-mark-back")
    before, after = block.all("div", role="img")
    for side, here, there in ((before, "20 mm", "60 mm"), (after, "60 mm", "20 mm")):
        marks = [node for node in side.walk() if node.attributes.get("data-line") == "revised"]
        assert marks
        told = side.attributes["aria-label"].partition("Different here:")[2].replace("\u00a0", " ")
        assert here in told and there not in told
        assert all(node.attributes.get("stroke", "currentColor") == "currentColor" for node in marks)


def test_what_is_not_different_is_not_drawn(site: Site) -> None:
    """A step has another id and title: its drawing is the same. A wait is longer: the sign below its drawing
    says how long, and so differs."""
    root = site["rack/compare/r1-r2.html"]
    assert not root.all("section", id="drawn-last-look") and not root.all("section", id="drawn-look")
    assert root.all("section", id="drawn-peg-on")
    gone = root.all("section", id="drawn-cut-peg")
    assert [len(block.all("div", role="img")) for block in gone] in ([], [1])


def test_a_step_has_an_address_that_follows_neither_title_nor_number(site: Site) -> None:
    new, old = (
        {a.attributes["href"] for a in site[f"rack/step/{name}.html"].all("a")}
        for name in ("last-look", "look")
    )
    assert "../r2/block/stage-3.html#step-last-look" in new
    assert "../r1/block/stage-3.html#step-look" in new
    assert "../r1/eye/stage-3.html#step-look" in old
    assert "does not have this step" in site["rack/step/look.html"].text()
    (block,) = site["rack/block/stage-3.html"].all("section", id="step-last-look")
    assert block.all("a", class_="lasting")[0].attributes["href"] == "../step/last-look.html"


def test_the_cautions_of_a_sealed_revision_are_those_that_were_printed(tmp_path: Path) -> None:
    """What the trade says may change later; the record that was sealed with a revision has what it said then.
    Here one caution of the record is put in other words, as if the trade had changed since."""
    rack = lay_out(tmp_path)
    assert run("seal", rack.as_posix()).exit_code == 0
    kept = open_kept(sealed_revisions(rack)[0])
    (caution,) = [each for each in kept.edition.cautions["cut_back"] if each.at is None]
    then = kept.edition.cautions | {"cut_back": (replace(caution, hazard="The blade of that day."),)}  # type: ignore[operator]
    old = replace(kept.edition, cautions=then)
    chapters = tuple(Chapter(each.guide, each.run, SHOWN, then) for each in kept.book.chapters)
    files = sealed_files(replace(kept, edition=old, book=replace(kept.book, chapters=chapters)), kept)
    pages = {file.path: file.content.decode() for file in files if file.path.endswith("stage-1.html")}
    assert all("The blade of that day." in text for text in pages.values()) and pages
    assert kept.book.chapters[0].stood is kept.edition.cautions


def test_a_touched_revision_is_an_error_of_the_site(rack: Path, tmp_path: Path) -> None:
    shutil.copytree(rack.parent, tmp_path / "guides")
    copy = tmp_path / "guides" / "rack"
    sealed = copy / "revisions" / "1" / "rack" / "guide.yml"
    sealed.write_text(sealed.read_text("utf-8").replace("20 min}", "21 min}"), encoding="utf-8")
    book = open_book(copy)
    assert [each.check for each in book.errors] == ["sealed"]


def test_what_has_not_changed_is_taken_over_byte_for_byte(
    rack: Path, files: dict[str, bytes], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    first = Store()
    made = files_of(rack, first)
    site = tmp_path / "site"
    for path, data in (made | {NAME: first.settled().content}).items():
        (site / path).parent.mkdir(parents=True, exist_ok=True)
        (site / path).write_bytes(data)
    monkeypatch.setattr("builder.pages.shelf.sealed_files", None)  # to lay one out anew would be an error now
    monkeypatch.setattr("builder.pages.shelf.guide_pages", None)
    second = Store(site)
    assert files_of(rack, second) == made == files


def test_a_file_that_was_altered_is_not_taken_over(tmp_path: Path) -> None:
    def make(text: bytes) -> Store:
        store = Store(tmp_path)
        store.files(key_of("x"), lambda: [WebFile(path="a/b.html", content=text)])
        return store

    (tmp_path / "a").mkdir()
    (tmp_path / "a" / "b.html").write_bytes(b"one")
    (tmp_path / NAME).write_bytes(make(b"one").settled().content)
    assert make(b"two").memory[key_of("x")][0].content == b"one"
    (tmp_path / "a" / "b.html").write_bytes(b"else")
    assert make(b"two").memory[key_of("x")][0].content == b"two"
    assert key_of("x") != key_of("y") and key_of("a", "b") != key_of("ab")


def test_a_comparison_is_one_file_that_reaches_for_nothing(rack: Path, tmp_path: Path) -> None:
    out = tmp_path / "changes.html"
    ran = run("compare", f"{rack}@2", rack.as_posix(), "--format", "html", "-o", out.as_posix())
    assert ran.exit_code == 0, ran.output
    text = out.read_text("utf-8")
    root = Page(text).root
    assert not root.all("script") and not root.all("link") and "@font-face" not in text and "url(" not in text
    assert all(a.attributes["href"].startswith("#") for a in root.all("a"))
    assert root.all("section", id="drawn-mark-back")
    few = run("compare", f"{rack}@1", f"{rack}@2", "--format", "html", "--only", "timing")
    assert few.exit_code == 0 and 'class="change rank-safety' not in few.output


def test_a_comparison_that_cannot_be_written_is_said(rack: Path, tmp_path: Path) -> None:
    ran = run("compare", f"{rack}@1", f"{rack}@2", "-o", (tmp_path / "none" / "x.txt").as_posix())
    assert ran.exit_code == 2 and "could not be written" in ran.output
