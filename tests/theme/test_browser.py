"""The pages in a real browser, from disk, with the network off: no console error, no sideways scroll."""

from __future__ import annotations

import re
import shutil
from pathlib import Path

import pytest

from builder.pages.render import THEME, render
from tests.pages.mock import PAGES
from tests.theme.browser import NARROWEST, complaints, frames, load, looked


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    target = tmp_path_factory.mktemp("site")
    for kind in ("css", "js", "fonts", "img"):
        shutil.copytree(THEME / kind, target / kind)
    for name, template, around, view in PAGES:
        (target / f"{name}.html").write_text(render(template, frame=around, view=view))
    (target / "look.html").write_text(frames(f"{name}.html" for name, *_ in PAGES))
    return target


def test_pages_reflow_at_320_pixels_with_targets_of_24_and_no_console_error(
    chromium: str, folder: Path, tmp_path: Path
) -> None:
    run = load(chromium, folder / "look.html", tmp_path)
    seen = looked(run.stdout)
    assert sorted(each.page for each in seen) == sorted(f"{name}.html" for name, *_ in PAGES)
    for each in seen:
        assert each.width <= NARROWEST, f"{each.page} scrolls sideways"
        assert not each.wide, each
        assert not each.small, each
    assert not complaints(run)


def test_a_tick_and_a_shade_work_from_disk(chromium: str, folder: Path, tmp_path: Path) -> None:
    script = """<script>window.addEventListener("load", function () {
      document.querySelector(".done input").click(); document.querySelector(".shade").click();
      document.querySelector(".wait button").click(); });</script>"""
    html = (folder / "build.html").read_text()
    (folder / "build-used.html").write_text(html.replace("</body>", script + "</body>"))
    run = load(chromium, folder / "build-used.html", tmp_path)
    assert "1 of 5 steps ticked" in run.stdout
    assert 'data-shade="dark"' in run.stdout
    assert "30 min to go" in run.stdout
    assert not complaints(run)


def test_find_narrows_the_list_without_accents(chromium: str, folder: Path, tmp_path: Path) -> None:
    script = """<script>window.addEventListener("load", function () {
      var box = document.querySelector(".wanted"); box.value = "GLÚE thrust";
      box.dispatchEvent(new Event("input")); });</script>"""
    (folder / "found.html").write_text(
        (folder / "find.html").read_text().replace("</body>", script + "</body>")
    )
    run = load(chromium, folder / "found.html", tmp_path)
    assert "1 found" in run.stdout
    assert re.search(r'<li hidden="">\s*<a href="#">fin</a>', run.stdout)


@pytest.mark.parametrize(
    ("typed", "shown", "told"),
    [
        ("ABC234", ["abc234"], "current"),
        ("xyz-999", ["xyz999"], "stop"),
        ("ab", ["abc234", "abd567"], "2 pages"),
        ("zzzzzz", [], "0 pages"),
        ("", [], ""),
    ],
)
def test_a_printed_page_is_looked_up_by_its_letters(
    chromium: str, folder: Path, tmp_path: Path, typed: str, shown: list[str], told: str
) -> None:
    script = f"""<script>window.addEventListener("load", function () {{
      var box = document.querySelector(".wanted"); box.value = "{typed}";
      box.dispatchEvent(new Event("input")); }});</script>"""
    html = (folder / "codes.html").read_text().replace("</body>", script + "</body>")
    (folder / "looked-up.html").write_text(html)
    run = load(chromium, folder / "looked-up.html", tmp_path)
    rows = re.findall(r'<li class="code [a-z ]*" id="(\w+)"( hidden="")?>', run.stdout)
    assert [mark for mark, hidden in rows if not hidden] == shown
    assert re.search(rf'<span class="count" aria-live="polite">{told}</span>', run.stdout)
    unknown = re.search(r'<p class="unknown"( hidden="")?>', run.stdout)
    assert unknown and bool(unknown[1]) is not (typed == "zzzzzz")
    assert not complaints(run)


def test_a_filter_of_changes_works_without_a_script(chromium: str, folder: Path, tmp_path: Path) -> None:
    """The styles alone hide what a choice does not let through; the script here only looks."""
    html = (folder / "comparison.html").read_text().replace('id="rank-all" checked', 'id="rank-all"')
    look = """<script>window.addEventListener("load", function () {
      document.querySelectorAll(".change, .ranked").forEach(function (node) {
        node.dataset.seen = node.offsetParent === null ? "no" : "yes"; }); });</script>"""
    chosen = html.replace('id="rank-fit"', 'id="rank-fit" checked').replace("</body>", look + "</body>")
    assert chosen.count(" checked>") == 3
    (folder / "chosen.html").write_text(chosen)
    run = load(chromium, folder / "chosen.html", tmp_path)
    seen = dict(re.findall(r'<li class="change (rank-\w+)[^"]*" data-seen="(\w+)"', run.stdout))
    assert seen == {"rank-safety": "no", "rank-fit": "yes"}
    assert re.search(r'id="safety" [^>]*data-seen="no"', run.stdout)
    assert re.search(r'id="fit" [^>]*data-seen="yes"', run.stdout)
