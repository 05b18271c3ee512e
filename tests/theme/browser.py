"""A real browser with the network cut: pages are loaded from disk and looked at in narrow frames."""

from __future__ import annotations

import re
import subprocess
from collections.abc import Iterable
from pathlib import Path
from typing import NamedTuple

NARROWEST = 320  # CSS pixels, WCAG 2.1 criterion 1.4.10 (reflow)
# Chromium's window is never narrower than 500 px, so each page is looked at in a frame of 320 px.
LOOK = """<!doctype html><meta charset="utf-8"><title>look</title><body>{frames}<script>
window.addEventListener("load", function () {{
  document.querySelectorAll("iframe").forEach(function (frame) {{
    var page = frame.contentDocument, wide = [];
    page.querySelectorAll("main *").forEach(function (node) {{
      if (node.closest("svg, thead, pre, .unseen")) {{ return; }}
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


class Looked(NamedTuple):
    """What a narrow frame showed of a page: how wide it scrolls, what stands out, which targets are small."""

    page: str
    width: int
    wide: str
    small: str


def load(chromium: str, page: Path, profile: Path) -> subprocess.CompletedProcess[str]:
    """Load a page from disk and give back its document and what the browser said."""
    command = [
        chromium, "--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run",
        "--disable-background-networking", "--disable-component-update", "--disable-sync",
        "--host-resolver-rules=MAP * ~NOTFOUND", "--allow-file-access-from-files", "--enable-logging=stderr",
        f"--user-data-dir={profile}", "--virtual-time-budget=4000", "--dump-dom", page.as_uri(),
    ]  # fmt: skip
    return subprocess.run(command, capture_output=True, text=True, timeout=120, check=True)


def frames(pages: Iterable[str]) -> str:
    """A page that shows others in narrow frames, and tells of each what it saw."""
    shown = "".join(
        f'<iframe title="{page}" src="{page}" width="{NARROWEST}" height="900" frameborder="0"></iframe>'
        for page in pages
    )
    return LOOK.format(frames=shown, width=NARROWEST + 1)


def looked(output: str) -> list[Looked]:
    """What the page of `frames` told."""
    rows = (row.split("|") for row in re.findall(r'<p class="told">(.*?)</p>', output))
    return [Looked(page, int(width), wide, small) for page, width, wide, small in rows]


def complaints(run: subprocess.CompletedProcess[str]) -> list[str]:
    """What the browser's console said."""
    return re.findall(r"CONSOLE.*", run.stderr)
