"""Every step drawing of the guides in a real browser: no text on a text, on a line, or over the frame.

The boxes are the browser's own: `getBBox` of each text (the whole line box) against the others, and its ink
(`measureText`) against every line.  All drawings stand on one page, on a light and on a dark ground, in
320 px and at their own size; the page counts and the test reads the count.
"""

from __future__ import annotations

import json
import re
import subprocess
from html import unescape
from pathlib import Path

import pytest

from builder.drawings.of_step import drawings_of
from builder.drawings.svg import write
from builder.dryrun.kinds import VERBS
from builder.dryrun.run import run_all
from builder.guide.reader import read
from tests.drawings import guides
from tests.theme.browser import load

NAMES = ("rolled-rocket", "card-telescope", "sail-cart")

METRIC, INCH = "{first: mm, second: in, finest: 1 mm}", "{first: in, second: mm, finest: 1/16 in}"

COUNT = r"""
const pen = document.createElement("canvas").getContext("2d");
function ink(text, box) {  // [left, top, right, bottom] of what is printed, in the drawing's own units
  pen.font = "100px " + text.parentNode.getAttribute("font-family");
  const m = pen.measureText(text.textContent);
  const k = parseFloat(text.parentNode.getAttribute("font-size")) / 100;
  const y = parseFloat(text.getAttribute("y"));
  return [box.x, y - m.actualBoundingBoxAscent * k, box.x + box.width, y + m.actualBoundingBoxDescent * k];
}
function crosses(ax, ay, bx, by, b) {
  let low = 0, high = 1;
  for (const [s, d, lo, hi] of [[ax, bx - ax, b[0], b[2]], [ay, by - ay, b[1], b[3]]]) {
    if (Math.abs(d) < 1e-9) { if (s <= lo || s >= hi) { return false; } continue; }
    let p = (lo - s) / d, q = (hi - s) / d;
    if (p > q) { [p, q] = [q, p]; }
    low = Math.max(low, p); high = Math.min(high, q);
  }
  return high - low > 1e-6;
}
function pieces(path) {  // straight pieces of a path; arcs are walked
  const d = path.getAttribute("d");
  if (d.includes("A")) {
    const long = path.getTotalLength(), n = Math.ceil(long / 0.8), found = [];
    let last = null;
    for (let i = 0; i <= n; i++) {
      const p = path.getPointAtLength(long * i / n);
      if (last && Math.hypot(p.x - last.x, p.y - last.y) < 1.2) { found.push([last.x, last.y, p.x, p.y]); }
      last = p;
    }
    return found;
  }
  const found = [];
  for (const part of d.split("M").slice(1)) {
    const n = part.replace(/[LZ]/g, " ").trim().split(/[\s,]+/).map(Number);
    for (let i = 2; i + 1 < n.length; i += 2) { found.push([n[i - 2], n[i - 1], n[i], n[i + 1]]); }
    if (part.includes("Z")) { found.push([n[n.length - 2], n[n.length - 1], n[0], n[1]]); }
  }
  return found;
}
function look(svg) {
  const bad = [], texts = [...svg.querySelectorAll("text")], frame = svg.viewBox.baseVal;
  const boxes = texts.map(t => t.getBBox()), inks = texts.map((t, i) => ink(t, boxes[i]));
  boxes.forEach((a, i) => boxes.slice(i + 1).forEach((b, j) => {
    const wide = Math.min(a.x + a.width, b.x + b.width) - Math.max(a.x, b.x);
    const high = Math.min(a.y + a.height, b.y + b.height) - Math.max(a.y, b.y);
    if (wide > 0.05 && high > 0.05) {
      bad.push("text on text: " + texts[i].textContent + " / " + texts[i + 1 + j].textContent);
    }
  }));
  inks.forEach((b, i) => {
    const over = b[0] < 0 || b[1] < 0 || b[2] > frame.width || b[3] > frame.height;
    if (over) { bad.push("over the frame: " + texts[i].textContent); }
  });
  for (const path of svg.querySelectorAll("path")) {
    const off = (parseFloat(path.getAttribute("stroke-width")) || 0) / 2 - 0.05;
    for (const [ax, ay, bx, by] of pieces(path)) {
      inks.forEach((b, i) => {
        if (crosses(ax, ay, bx, by, [b[0] - off, b[1] - off, b[2] + off, b[3] + off])) {
          bad.push("line through text: " + texts[i].textContent);
        }
      });
    }
  }
  return [...new Set(bad)];
}
window.addEventListener("load", () => {
  const told = { seen: 0, bad: [], colours: [] }, section = document.querySelector("section");
  const all = [...section.querySelectorAll("svg")];
  all.forEach(svg => {
    told.seen += 1;
    look(svg).forEach(what => told.bad.push(svg.dataset.step + ": " + what));
  });
  section.className = "narrow";  // 320 px wide, light on dark
  const own = getComputedStyle(section).color;
  all.forEach(svg => {
    const r = svg.getBoundingClientRect(), texts = [...svg.querySelectorAll("text")];
    if (r.width > 320.5) { told.bad.push(svg.dataset.step + ": wider than its place"); }
    svg.querySelectorAll("text, path").forEach(node => {
      const style = getComputedStyle(node);
      for (const c of [style.stroke, style.fill]) {
        if (c !== "none" && c !== own) { told.colours.push(svg.dataset.step + ": " + c); }
      }
    });
    const boxes = texts.map(t => t.getBoundingClientRect());
    boxes.forEach((a, i) => boxes.slice(i + 1).forEach(b => {
      const wide = Math.min(a.right, b.right) - Math.max(a.left, b.left);
      const high = Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top);
      if (wide > 0.2 && high > 0.2) { told.bad.push(svg.dataset.step + ": boxes meet at 320 px"); }
    }));
  });
  const out = document.createElement("pre");
  out.id = "told";
  out.textContent = JSON.stringify(told);
  document.body.appendChild(out);
});
"""


def all_drawings() -> dict[str, str]:
    """SVG of every drawing by a name: all routes as written, and the first with the units exchanged; each
    different one once."""
    found: dict[str, str] = {}
    seen: set[str] = set()
    for name in NAMES:
        source = guides.guide(name)
        made = [guides.drawings(name, route) for route in range(len(guides.runs(name)))]
        texts = dict(source.texts)
        own = METRIC if METRIC in texts[source.file] else INCH
        assert own in texts[source.file]
        texts[source.file] = texts[source.file].replace(own, INCH if own == METRIC else METRIC)
        other = read(texts, source.file, VERBS, name)
        made.append(drawings_of(other, run_all(other)[0]))
        for number, drawings in enumerate(made):
            for step, drawing in drawings.items():
                plain = write(drawing)
                if plain not in seen:
                    seen.add(plain)
                    key = f"{name} {number} {step}"
                    svg = write(drawing, f"d{len(found)}")
                    found[key] = svg.replace("<svg ", f'<svg data-step="{key}" ', 1)
    return found


def page_of(drawings: dict[str, str]) -> str:
    """One page with all of them at their own size, dark on light; it then narrows and darkens itself."""
    style = (
        "section{color:rgb(16,16,16);background:rgb(255,255,255)} svg{display:block}"
        "section.narrow{width:320px;color:rgb(240,240,240);background:rgb(16,16,16)}"
        "section.narrow svg{max-width:100%;height:auto}"
    )
    return (
        f'<!doctype html><meta charset="utf-8"><title>drawings</title><style>{style}</style>'
        f"<section>{chr(10).join(drawings.values())}</section><script>{COUNT}</script>"
    )


@pytest.fixture(scope="module")
def told(chromium: str, tmp_path_factory: pytest.TempPathFactory) -> dict[str, list[str] | int]:
    folder = tmp_path_factory.mktemp("browser")
    drawings = all_drawings()
    page = folder / "drawings.html"
    page.write_text(page_of(drawings), encoding="utf-8")
    result: subprocess.CompletedProcess[str] = load(chromium, page, folder / "profile")
    match = re.search(r'<pre id="told">(.*?)</pre>', result.stdout, re.DOTALL)
    assert match is not None, "the page did not count"
    counted: dict[str, list[str] | int] = json.loads(unescape(match[1]))
    counted["wanted"] = len(drawings)
    return counted


def test_no_text_meets_anything(told: dict[str, list[str] | int]) -> None:
    assert told["seen"] == told["wanted"]
    assert told["bad"] == []


def test_all_lines_follow_the_page(told: dict[str, list[str] | int]) -> None:
    """On a dark ground every line and letter has the colour of the text round it; nothing is filled white."""
    assert told["colours"] == []


def test_the_count_can_fail(chromium: str, tmp_path: Path) -> None:
    """A text that is moved onto another, a line through one, and one beyond the frame are each counted."""
    svg = (
        '<svg data-step="bad" xmlns="http://www.w3.org/2000/svg" width="60mm" height="20mm"'
        ' viewBox="0 0 60 20" fill="none" stroke="currentColor"><path d="M2 9L30 9" stroke-width="0.3"/>'
        '<g font-family="sans-serif" font-size="4.5" fill="currentColor" stroke="none">'
        '<text x="2" y="10">one</text><text x="4" y="11">two</text><text x="55" y="18">three</text></g></svg>'
    )
    page = tmp_path / "bad.html"
    page.write_text(page_of({"bad": svg}), encoding="utf-8")
    out = unescape(load(chromium, page, tmp_path / "profile").stdout)
    for word in ("text on text: one / two", "line through text: one", "over the frame: three"):
        assert word in out
