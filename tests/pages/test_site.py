"""The site as MkDocs builds it: from disk, twice the same, and what a preview shows of a broken guide."""

from __future__ import annotations

import filecmp
import logging
import re
from pathlib import Path
from typing import Literal

import pytest
from mkdocs.commands.build import build
from mkdocs.config import load_config
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import Abort

from builder.pages.render import THEME
from tests.pages.test_manual import example

SETTINGS = THEME.parent / "mkdocs.yml"


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A project with one small guide, and a text that somebody put beside it."""
    guide = tmp_path / "guides" / "example"
    guide.mkdir(parents=True)
    (guide / "guide.yml").write_text(example())
    (tmp_path / "guides" / "welcome.md").write_text("# Welcome\n\nRead [the guide](example/index.md).\n")
    text = SETTINGS.read_text().replace("custom_dir: theme", f"custom_dir: {THEME}")
    (tmp_path / "mkdocs.yml").write_text(text)
    return tmp_path


def settings(folder: Path, out: str = "site", command: Literal["build", "serve"] = "build") -> MkDocsConfig:
    """Settings as the command line would read them."""
    config = load_config(str(folder / "mkdocs.yml"), site_dir=str(folder / out))
    config.plugins.on_startup(command=command, dirty=False)
    return config


def files(folder: Path) -> list[str]:
    return sorted(path.relative_to(folder).as_posix() for path in folder.rglob("*") if path.is_file())


def broken(text: str) -> str:
    """The example with its glue laid after the ring is in place."""
    lines = text.splitlines(keepends=True)
    glue = next(number for number, line in enumerate(lines) if "glue: rod" in line)
    lines[glue], lines[glue + 1] = lines[glue + 1], lines[glue]
    return "".join(lines)


def test_two_builds_are_the_same_and_hold_nothing_needless(
    folder: Path, caplog: pytest.LogCaptureFixture
) -> None:
    with caplog.at_level(logging.WARNING):
        build(settings(folder, "one"))
        build(settings(folder, "two"))
    assert not [record.getMessage() for record in caplog.records]
    one, two = files(folder / "one"), files(folder / "two")
    assert one == two
    assert filecmp.cmpfiles(folder / "one", folder / "two", one, shallow=False)[0] == one
    assert 'href="/index.html"' in (folder / "one" / "404.html").read_text()  # a server shows it anywhere
    assert {"index.html", "example/index.html", "example/build/stage-1.html", "manual.html", "404.html",
            "checks/index.html", "welcome.html", "css/kitwright.css"} <= set(one)  # fmt: skip
    assert not [
        name for name in one if name.endswith((".yml", ".gz", ".xml", ".py")) or name.startswith("print/")
    ]


def test_a_text_beside_the_guides_is_a_page_of_the_site(folder: Path) -> None:
    build(settings(folder))
    html = (folder / "site" / "welcome.html").read_text()
    assert '<a href="example/index.html">the guide</a>' in html
    assert "css/kitwright.css" in html


def test_a_broken_guide_stops_a_build_and_names_the_line(
    folder: Path, caplog: pytest.LogCaptureFixture
) -> None:
    path = folder / "guides" / "example" / "guide.yml"
    path.write_text(broken(path.read_text()))
    with caplog.at_level(logging.ERROR), pytest.raises(Abort):
        build(settings(folder))
    assert re.search(r"guide\.yml:\d+:\d+: the glue .* \[glue-order\]", caplog.text)


def test_a_preview_shows_the_findings_and_keeps_the_last_good_pages(folder: Path) -> None:
    path = folder / "guides" / "example" / "guide.yml"
    good = path.read_text()
    config = settings(folder, command="serve")
    build(config)
    page = folder / "site" / "example" / "build" / "stage-1.html"
    before = page.read_text()
    path.write_text(broken(good))
    build(config)
    report = (folder / "site" / "example" / "report.html").read_text()
    assert "glue-order" in report and "1 error" in report
    assert "This page is from before it." in page.read_text()
    assert "Glue the ring on" in page.read_text()
    path.write_text(good.replace("Glue the ring on", "Fix the ring"))
    build(config)
    assert "Fix the ring" in page.read_text() and "from before it" not in page.read_text()
    assert before != page.read_text()


def test_a_preview_that_begins_with_a_broken_guide_shows_its_findings(folder: Path) -> None:
    path = folder / "guides" / "example" / "guide.yml"
    path.write_text("title: [")
    build(settings(folder, command="serve"))
    assert 'class="finding error"' in (folder / "site" / "example" / "index.html").read_text()
    assert "example/report.html" in (folder / "site" / "index.html").read_text()


def test_a_preview_is_counted_for_the_class_of_its_file(
    folder: Path, caplog: pytest.LogCaptureFixture
) -> None:
    own = folder / "class.yml"
    own.write_text("builders: 12\nspares: 2\nperiod: 30 min\ndays: Tue\nbudget: 5.00 USD\n")
    config = settings(folder, command="serve")
    build(config)
    assert str(own) in [str(path) for path in config.watch]
    page = (folder / "site" / "example" / "build" / "teacher.html").read_text().replace("\u00a0", " ")
    assert "Counted for a class of 12 builders and 1 adult, with 2 spare kits: 14 kits." in page
    assert "Periods of 30 min on Tue." in page and "Tue, week 1" in page
    assert "The class may spend 5.00 USD" in page
    own.write_text("builders: none\n")
    with caplog.at_level(logging.ERROR), pytest.raises(Abort):
        build(config)
    assert "class.yml: builders: write how many build" in caplog.text
