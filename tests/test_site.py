"""The whole site as the command builds it: sentences for what goes wrong, the old site kept, the same bytes
twice, and the demonstration guides in a real browser from disk."""

from __future__ import annotations

import os
import posixpath
import re
import shutil
import subprocess
import sys
from itertools import pairwise
from pathlib import Path

import pytest
from tinyhtml5.parser import HTMLParser  # type: ignore[import-untyped]

from builder import site as site_module
from builder.pages.render import THEME
from builder.pages.store import Store
from builder.site import build_site
from tests.pages.test_manual import example
from tests.theme.browser import NARROWEST, complaints, frames, load, looked
from tests.theme.tree import Node, Page

ROOT = THEME.parent


def project(folder: Path) -> Path:
    """A project with one small guide; its settings."""
    guide = folder / "guides" / "example"
    guide.mkdir(parents=True)
    (guide / "guide.yml").write_text(example(), encoding="utf-8")
    settings = (ROOT / "mkdocs.yml").read_text("utf-8").replace("custom_dir: theme", f"custom_dir: {THEME}")
    (folder / "mkdocs.yml").write_text(settings, encoding="utf-8")
    return folder / "mkdocs.yml"


def content(folder: Path) -> dict[str, bytes]:
    return {p.relative_to(folder).as_posix(): p.read_bytes() for p in folder.rglob("*") if p.is_file()}


def names(folder: Path) -> set[str]:
    return {path.name for path in folder.iterdir()}


def test_a_site_is_built_and_nothing_is_left_beside_it(tmp_path: Path) -> None:
    settings = project(tmp_path)
    assert build_site(settings, tmp_path / "site") == ""
    assert (tmp_path / "site" / "example" / "index.html").is_file()
    assert names(tmp_path) == {"guides", "mkdocs.yml", "site"}


def test_a_broken_guide_is_said_with_its_line_and_the_old_site_stays(
    tmp_path: Path, capfd: pytest.CaptureFixture[str]
) -> None:
    settings = project(tmp_path)
    assert build_site(settings, tmp_path / "site") == ""
    before = content(tmp_path / "site")
    path = tmp_path / "guides" / "example" / "guide.yml"
    path.write_text(path.read_text("utf-8").replace("tip: 70 mm", "tip: 71 mm"), encoding="utf-8")
    told = build_site(settings, tmp_path / "site")
    line = next(n for n, text in enumerate(path.read_text("utf-8").splitlines(), 1) if "tip: 71" in text)
    assert f"guide.yml:{line}:" in told and "[zone-sum]" in told and "Traceback" not in told
    assert content(tmp_path / "site") == before
    assert names(tmp_path) == {"guides", "mkdocs.yml", "site"}
    assert capfd.readouterr() == ("", "")


def test_a_link_to_nowhere_is_said(tmp_path: Path) -> None:
    settings = project(tmp_path)
    (tmp_path / "guides" / "more.md").write_text("See [this](nothing.md).", encoding="utf-8")
    assert "nothing.md" in build_site(settings, tmp_path / "site")
    assert not (tmp_path / "site").exists()


@pytest.mark.parametrize("moment", ["build_with_mkdocs", "_take_place"])
def test_an_interrupted_build_leaves_the_old_site(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, moment: str
) -> None:
    settings = project(tmp_path)
    assert build_site(settings, tmp_path / "site") == ""
    before = content(tmp_path / "site")

    def stopped(*_: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr(site_module, moment, stopped)
    with pytest.raises(KeyboardInterrupt):
        build_site(settings, tmp_path / "site")
    assert content(tmp_path / "site") == before
    assert names(tmp_path) == {"guides", "mkdocs.yml", "site"}


def test_a_build_that_was_stopped_between_two_renamings_is_made_good(tmp_path: Path) -> None:
    settings = project(tmp_path)
    assert build_site(settings, tmp_path / "site") == ""
    (tmp_path / "site").rename(tmp_path / ".site.old")
    (tmp_path / "guides" / "example" / "guide.yml").write_text("title: [", encoding="utf-8")
    assert build_site(settings, tmp_path / "site")
    assert (tmp_path / "site" / "index.html").is_file()


def test_a_folder_that_holds_something_else_is_left_alone(tmp_path: Path) -> None:
    settings = project(tmp_path)
    (tmp_path / "letters").mkdir()
    (tmp_path / "letters" / "dear.txt").write_text("Dear", encoding="utf-8")
    assert "letters" in build_site(settings, tmp_path / "letters")
    assert content(tmp_path / "letters") == {"dear.txt": b"Dear"}


@pytest.mark.parametrize("missing", ["mkdocs.yml", "plugin"])
def test_settings_that_are_no_settings_are_said(tmp_path: Path, missing: str) -> None:
    settings = project(tmp_path)
    if missing == "plugin":
        settings.write_text(settings.read_text("utf-8").replace("- kitwright", "[]"), encoding="utf-8")
    else:
        settings.unlink()
    told = build_site(settings, tmp_path / "site")
    assert told and "Traceback" not in told
    assert not (tmp_path / "site").exists()


def test_packets_lie_in_the_site_and_the_pages_lead_to_them(tmp_path: Path) -> None:
    settings = project(tmp_path)

    def packets(folder: Path, _: Store) -> None:
        (folder / "example" / "packet").mkdir(parents=True)
        (folder / "example" / "packet" / "example-build-a4-teacher.pdf").write_bytes(b"%PDF")

    assert build_site(settings, tmp_path / "site", packets) == ""
    site = tmp_path / "site"
    assert (site / "example" / "packet" / "example-build-a4-teacher.pdf").read_bytes() == b"%PDF"
    overview = (site / "example" / "index.html").read_text("utf-8")
    teacher = (site / "example" / "build" / "teacher.html").read_text("utf-8")
    assert 'href="packet/example-build-a4-teacher.pdf"' in overview
    assert 'href="../packet/example-build-a4-teacher.pdf"' in teacher
    assert "letter-teacher" not in overview
    assert build_site(settings, site) == ""
    assert "packet/" not in (site / "example" / "index.html").read_text("utf-8")


def test_a_site_of_the_same_sources_is_left_as_it_is(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    class Built(Exception):
        """The site was built anew."""

    settings, site = project(tmp_path), tmp_path / "site"
    assert build_site(settings, site, asked="all") == ""
    before = content(site)

    def built(*_: object) -> None:
        raise Built

    monkeypatch.setattr(site_module, "build_with_mkdocs", built)
    assert build_site(settings, site, asked="all") == ""
    assert content(site) == before

    def anew(asked: str) -> bool:
        try:
            build_site(settings, site, asked=asked)
        except Built:
            return True
        return False

    assert anew("else") and anew("")
    page = site / "example" / "index.html"
    page.write_bytes(page.read_bytes() + b" ")
    assert anew("all")
    page.write_bytes(before["example/index.html"])
    assert not anew("all")
    guide = tmp_path / "guides" / "example" / "guide.yml"
    guide.write_text(guide.read_text("utf-8") + "\n", encoding="utf-8")
    assert anew("all")


def test_builds_with_other_hash_seeds_are_the_same(tmp_path: Path) -> None:
    """Sets are hashed anew in every process: what leaks from one into a page shows as a difference."""
    settings = project(tmp_path)
    for name in ("card-telescope", "common"):
        shutil.copytree(ROOT / "guides" / name, tmp_path / "guides" / name)
    script = "import sys; from pathlib import Path; from builder.site import build_site\n"
    script += "sys.exit(build_site(Path(sys.argv[1]), Path(sys.argv[2])) or 0)"
    for seed in ("1", "2"):
        environment = os.environ | {"PYTHONHASHSEED": seed, "PYTHONPATH": str(ROOT)}
        command = [sys.executable, "-c", script, str(settings), str(tmp_path / seed)]
        run = subprocess.run(command, env=environment, capture_output=True, text=True)
        assert run.returncode == 0, run.stderr
    one, two = content(tmp_path / "1"), content(tmp_path / "2")
    assert set(one) == set(two)
    assert [name for name in one if one[name] != two[name]] == []


@pytest.fixture(scope="module")
def demonstration(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The site of the demonstration guides, with the sealed revisions of the sail cart: those of the others
    take as long as all the rest, and differ from it in nothing that these tests look at."""
    top = tmp_path_factory.mktemp("demonstration")
    settings = project(top)
    shutil.rmtree(top / "guides")
    shutil.copytree(ROOT / "guides", top / "guides")
    for name in ("rolled-rocket", "card-telescope"):
        shutil.rmtree(top / "guides" / name / "revisions")
    assert build_site(settings, top / "site") == ""
    return top / "site"


@pytest.fixture(scope="module")
def trees(demonstration: Path) -> dict[str, Node]:
    """Every page of that site as a tree, by its path."""
    paths = sorted(demonstration.rglob("*.html"))
    return {
        path.relative_to(demonstration).as_posix(): Page(path.read_text("utf-8")).root
        for path in paths
        if path.name != "404.html"
    }


def test_every_link_and_every_anchor_leads_somewhere(demonstration: Path, trees: dict[str, Node]) -> None:
    """Of all pages on disk, sealed revisions and comparisons among them."""
    places = {
        path: {node.attributes["id"] for node in root.walk() if "id" in node.attributes}
        for path, root in trees.items()
    }
    dead = set()
    for path, root in trees.items():
        for node in root.walk():
            for attribute in ("href", "src"):
                target, _, place = node.attributes.get(attribute, "").partition("#")
                if not target and not place or re.match(r"[a-z]+:", target):
                    continue
                to = posixpath.normpath(posixpath.join(posixpath.dirname(path), target)) if target else path
                there = to in places or (demonstration / to).is_file()
                if not there or (place and place not in places.get(to, set())):
                    dead.add((path, target, place))
    assert dead == set()


def test_every_page_is_valid_html(demonstration: Path) -> None:
    """By the parser of the HTML standard, which lists every slip that it mends (another library)."""
    told = {}
    pages = sorted(demonstration.glob("*.html")) + sorted((demonstration / "sail-cart").rglob("*.html"))
    pages += sorted((demonstration / "checks").glob("s*.html"))
    assert len(pages) > 50  # of every template one at least; the parser takes its time
    for path in pages:
        parser = HTMLParser()
        parser.parse(path.read_text("utf-8"))
        if parser.errors:
            told[path.relative_to(demonstration).as_posix()] = parser.errors[:3]
    assert told == {}


def test_the_parser_of_the_standard_tells_slips() -> None:
    parser = HTMLParser()
    parser.parse("<!doctype html><title>x</title><p><ul></ul></p>")
    assert parser.errors


def test_every_page_can_be_read_by_ear(trees: dict[str, Node]) -> None:
    """WCAG 2.1: headings in order (1.3.1), ids once (4.1.1), names for pictures and blanks (1.1.1, 4.1.2)."""
    for path, root in trees.items():
        nodes = list(root.walk())
        levels = [int(node.tag[1]) for node in nodes if re.fullmatch("h[1-6]", node.tag)]
        assert levels and levels[0] == 1 and levels.count(1) == 1, path
        assert all(after <= before + 1 for before, after in pairwise(levels)), path
        ids = [node.attributes["id"] for node in nodes if "id" in node.attributes]
        assert len(ids) == len(set(ids)), path
        for node in nodes:
            role, tag = node.attributes.get("role", ""), node.tag
            if role in ("img", "region", "note") or tag == "nav":
                named = node.attributes.get("aria-label") or node.attributes.get("aria-labelledby")
                assert named or role == "note", (path, tag)
            if tag == "img":
                assert node.attributes.get("alt"), path
            if tag == "input":
                assert any(above.tag == "label" and above.text() for above in node.above()), path
            if tag in ("a", "button"):
                assert node.text(), (path, node.attributes)


def test_no_page_claims_that_something_is_safe(trees: dict[str, Node]) -> None:
    """The word stands only on the pages of the checks, where the check of that claim is told."""
    for path, root in trees.items():
        if not path.startswith("checks/"):
            told = root.text().replace("claims-safe", "")
            assert not re.search(r"\bsafe(?:ly)?\b", told, re.IGNORECASE), path


def test_every_page_of_the_guides_opens_from_disk_without_a_complaint(
    chromium: str, demonstration: Path, tmp_path: Path
) -> None:
    """The network is cut: a page that asked for anything from outside would say so in the console."""
    paths = (path.relative_to(demonstration) for path in demonstration.rglob("*.html"))
    left_out = {"checks", "step", "r1", "404.html"}  # pages that differ in nothing but words from others here
    pages = sorted(path.as_posix() for path in paths if not left_out & set(path.parts))
    assert len(pages) > 30
    (demonstration / "look.html").write_text(frames(pages), encoding="utf-8")
    run = load(chromium, demonstration / "look.html", tmp_path)
    seen = looked(run.stdout)
    assert sorted(each.page for each in seen) == pages
    assert [each for each in seen if each.width > NARROWEST or each.wide or each.small] == []
    assert complaints(run) == []
