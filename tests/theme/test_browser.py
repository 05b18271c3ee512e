"""The pages in a real browser, from disk, with the network off: no console error, no sideways scroll."""

from __future__ import annotations

import re
import shutil
import subprocess
from pathlib import Path

import pytest

from builder.pages.render import THEME, render
from tests.pages.mock import PAGES

NARROWEST = 320  # CSS pixels, WCAG 2.1 criterion 1.4.10 (reflow)
# Chromium's window is never narrower than 500 px, so each page is looked at in a frame of 320 px.
LOOK = """<!doctype html><meta charset="utf-8"><title>look</title><body>{frames}<script>
window.addEventListener("load", function () {{
  document.querySelectorAll("iframe").forEach(function (frame) {{
    var page = frame.contentDocument, wide = [];
    page.querySelectorAll("main *").forEach(function (node) {{
      if (node.closest("svg, .scroll, pre, .unseen")) {{ return; }}
      if (node.getBoundingClientRect().right > {width}) {{ wide.push(node.className); }}
    }});
    var small = [];
    page.querySelectorAll("input[type=checkbox], button:not([hidden])").forEach(function (node) {{
      var box = node.getBoundingClientRect();
      if (box.width && (box.width < 24 || box.height < 24)) {{ small.push(node.outerHTML); }}
    }});
    var told = document.createElement("p");
    told.className = "told";
    told.textContent =
      [frame.title, page.documentElement.scrollWidth, wide.join("+"), small.join("+")].join("|");
    document.body.appendChild(told);
  }});
}});
</script>"""


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    target = tmp_path_factory.mktemp("site")
    for kind in ("css", "js", "fonts", "img"):
        shutil.copytree(THEME / kind, target / kind)
    for name, template, around, view in PAGES:
        (target / f"{name}.html").write_text(render(template, frame=around, view=view))
    frames = "".join(
        f'<iframe title="{name}" src="{name}.html" width="{NARROWEST}" height="900" frameborder="0"></iframe>'
        for name, *_ in PAGES
    )
    (target / "look.html").write_text(LOOK.format(frames=frames, width=NARROWEST + 1))
    return target


def load(chromium: str, page: Path, profile: Path) -> subprocess.CompletedProcess[str]:
    """Load a page from disk and give back its document and what the browser said."""
    command = [
        chromium, "--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run",
        "--disable-background-networking", "--disable-component-update", "--disable-sync",
        "--host-resolver-rules=MAP * ~NOTFOUND", "--allow-file-access-from-files", "--enable-logging=stderr",
        f"--user-data-dir={profile}", "--virtual-time-budget=4000", "--dump-dom", page.as_uri(),
    ]  # fmt: skip
    return subprocess.run(command, capture_output=True, text=True, timeout=120, check=True)


def test_pages_reflow_at_320_pixels_with_targets_of_24_and_no_console_error(
    chromium: str, folder: Path, tmp_path: Path
) -> None:
    run = load(chromium, folder / "look.html", tmp_path)
    told = [line.split("|") for line in re.findall(r'<p class="told">(.*?)</p>', run.stdout)]
    assert sorted(row[0] for row in told) == sorted(name for name, *_ in PAGES)
    for name, width, wide, small in told:
        assert int(width) <= NARROWEST, f"{name} scrolls sideways"
        assert not wide, f"{name}: {wide}"
        assert not small, f"{name}: {small}"
    assert not re.findall(r"CONSOLE.*", run.stderr)


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
    assert not re.findall(r"CONSOLE.*", run.stderr)


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
