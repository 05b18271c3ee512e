"""The pictures of the README, from what the tool makes now: `make site`, then
`python -m tests.theme.pictures site`.

Each is a part of a page as Chromium shows it, or a page of a packet as pdftoppm does; none is drawn by hand.
"""

from __future__ import annotations

import contextlib
import json
import re
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path

from pypdf import PdfReader

from builder.pages.book import open_book
from builder.pages.guide_pages import report_page
from builder.pages.render import THEME, render

ROOT = THEME.parent
OUT = THEME / "img" / "readme"
CHROMIUM = (
    "chromium",
    "--headless",
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--hide-scrollbars",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
)

ONLY = """<script>window.addEventListener("load", function () {
  var wanted = document.querySelector(WANTED), body = document.body;
  body.replaceChildren(wanted); body.style.padding = "16px"; body.style.background = "#fffefb";
  wanted.style.marginTop = 0; wanted.style.borderTop = 0;
  document.title = "high " + Math.ceil(document.documentElement.getBoundingClientRect().height);
});</script>"""

PARTS = (
    ("step", "rolled-rocket/jig/stage-2.html", "#step-thrust", 1120),
    ("cart", "sail-cart/index.html", ".opening .picture", 620),
    ("change", "rolled-rocket/compare/r2-draft.html", "#drawn-cut-fins", 1070),
    ("pattern", "rolled-rocket/jig/patterns.html", "#sheet-2", 620),
)
"""Name, page, what of the page, width of the window in CSS pixels."""

PACKET = "rolled-rocket/packet/rolled-rocket-jig-letter-builder.pdf"
STEP = "Glue the thrust ring in"
RIGHT, WRONG = "motor: 2 1/2 in, thrust_seat", "motor: 2 3/8 in, thrust_seat"


def run(*command: str) -> str:
    """What a command prints."""
    return subprocess.run(command, check=True, capture_output=True, text=True).stdout


def shot(page: Path, wanted: str, width: int, out: Path) -> None:
    """A part of a page as PNG, as high as it is."""
    trial = page.with_name("zz-part.html")
    script = ONLY.replace("WANTED", json.dumps(wanted))
    trial.write_text(page.read_text("utf-8").replace("</body>", script + "</body>"), encoding="utf-8")
    try:
        with tempfile.TemporaryDirectory() as profile:
            own = (*CHROMIUM, f"--user-data-dir={profile}")
            seen = run(*own, "--dump-dom", f"--window-size={width},900", trial.as_uri())
            height = re.search(r"<title>high (\d+)</title>", seen)
            assert height, f"{page} has no {wanted}"
            run(*own, f"--screenshot={out}", f"--window-size={width},{height[1]}", trial.as_uri())
    finally:
        trial.unlink()


def finding(site: Path) -> None:
    """What a check says of the rocket with one zone typed 1/8 in too short."""
    with tempfile.TemporaryDirectory() as folder:
        guides = Path(folder) / "guides"
        shutil.copytree(ROOT / "guides", guides, ignore=shutil.ignore_patterns("revisions"))
        path = guides / "rolled-rocket" / "guide.yml"
        text = path.read_text("utf-8")
        assert RIGHT in text
        path.write_text(text.replace(RIGHT, WRONG), encoding="utf-8")
        with contextlib.chdir(folder):
            page = report_page(open_book(Path("guides/rolled-rocket")), "rolled-rocket/zz-report.html")
    trial = site / page.path
    trial.write_text(render(page.template, frame=page.frame, view=page.view), encoding="utf-8")
    shot(trial, ".finding", 1070, OUT / "finding.png")
    trial.unlink()


def packet_page(pdf: Path) -> None:
    """The page of the packet on which a step begins."""
    pages = PdfReader(pdf).pages
    words = STEP.split()
    number = next(
        n
        for n, page in enumerate(pages, 1)
        if n > 3 and " ".join(words) in " ".join(page.extract_text().split())
    )
    run(
        "pdftoppm",
        "-r",
        "80",
        "-f",
        str(number),
        "-l",
        str(number),
        "-png",
        "-singlefile",
        str(pdf),
        str(OUT / "packet"),
    )


def main() -> None:
    site = Path(sys.argv[1]).resolve()
    for name, page, wanted, width in PARTS:
        shot(site / page, wanted, width, OUT / f"{name}.png")
    finding(site)
    packet_page(site / PACKET)


if __name__ == "__main__":
    main()
