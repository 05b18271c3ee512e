// What meets what in every drawing of this page, in the browser's own boxes and CSS pixels.
//
// A text's box is getBoundingClientRect of its element: the whole line box, with the room above capitals and
// below the base line.  Lines are the pieces of every path, carried to the screen by getScreenCTM, as wide as
// they are drawn.  `near` is how much two may share, CSS pixels: rounding, not an overlap.
"use strict";
const walked = new Map();
function pieces(path) {  // straight pieces of a path in its own units; they are the same in every look
  if (!walked.has(path)) { walked.set(path, walk(path)); }
  return walked.get(path);
}
function walk(path) {  // arcs are walked
  const d = path.getAttribute("d"), found = [];
  if (d.includes("A")) {
    const long = path.getTotalLength(), n = Math.max(1, Math.ceil(long / 0.8));
    let last = null;
    for (let i = 0; i <= n; i++) {
      const p = path.getPointAtLength(long * i / n);
      if (last && Math.hypot(p.x - last.x, p.y - last.y) < 1.2) { found.push([last.x, last.y, p.x, p.y]); }
      last = p;
    }
    return found;
  }
  for (const part of d.split("M").slice(1)) {
    const n = part.replace(/[LZ]/g, " ").trim().split(/[\s,]+/).map(Number);
    for (let i = 2; i + 1 < n.length; i += 2) { found.push([n[i - 2], n[i - 1], n[i], n[i + 1]]); }
    if (part.includes("Z")) { found.push([n[n.length - 2], n[n.length - 1], n[0], n[1]]); }
  }
  return found;
}
function crosses(ax, ay, bx, by, left, top, right, bottom) {
  let low = 0, high = 1;
  for (const [s, d, lo, hi] of [[ax, bx - ax, left, right], [ay, by - ay, top, bottom]]) {
    if (Math.abs(d) < 1e-9) { if (s <= lo || s >= hi) { return false; } continue; }
    let p = (lo - s) / d, q = (hi - s) / d;
    if (p > q) { [p, q] = [q, p]; }
    low = Math.max(low, p); high = Math.min(high, q);
  }
  return high - low > 1e-6;
}
const pen = document.createElement("canvas").getContext("2d");
function inked(text, box) {  // how far letters reach above and below their base line, as shares of the box
  if (!pen.font.startsWith("100px")) { pen.font = "100px " + getComputedStyle(text).fontFamily; }
  const m = pen.measureText(text.textContent);
  const up = m.fontBoundingBoxAscent, all = up + m.fontBoundingBoxDescent;
  return [box.top + (up - m.actualBoundingBoxAscent) / all * box.height,
          box.top + (up + m.actualBoundingBoxDescent) / all * box.height];
}
function look(svg, near) {
  const bad = [], texts = [...svg.querySelectorAll("text")], frame = svg.getBoundingClientRect();
  const k = frame.width / svg.viewBox.baseVal.width, off = near;
  const boxes = texts.map(t => t.getBoundingClientRect());
  const inks = texts.map((t, i) => inked(t, boxes[i]));
  const told = (what, i, more) => bad.push(what + ": " + texts[i].textContent + (more ? " / " + more : ""));
  boxes.forEach((a, i) => {
    for (let j = i + 1; j < boxes.length; j++) {
      const b = boxes[j];
      const wide = Math.min(a.right, b.right) - Math.max(a.left, b.left);
      const high = Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top);
      if (wide > off && high > off) {
        told("text on text", i, texts[j].textContent + " by " + (Math.min(wide, high) / k).toFixed(2) + " mm");
      }
    }
    if (a.left < frame.left - off || a.right > frame.right + off
        || inks[i][0] < frame.top - off || inks[i][1] > frame.bottom + off) { told("over the frame", i); }
  });
  const loose = [];
  for (const path of svg.querySelectorAll("path")) {
    const m = path.getScreenCTM(), half = (parseFloat(path.getAttribute("stroke-width")) || 0) / 2 * k - 0.1 * k;
    const what = (path.dataset.part || "") + " " + (path.getAttribute("stroke-width") || "arrow")
      + (path.getAttribute("stroke-dasharray") ? " dashed" : "");
    const all = path.getBoundingClientRect();
    const near = [];
    boxes.forEach((b, i) => {
      if (all.left - half < b.right && all.right + half > b.left && all.top - half < b.bottom
          && all.bottom + half > b.top) { near.push([b, i]); }
    });
    if (!near.length) { continue; }
    for (const [x0, y0, x1, y1] of pieces(path)) {
      const ax = m.a * x0 + m.c * y0 + m.e, ay = m.b * x0 + m.d * y0 + m.f;
      const bx = m.a * x1 + m.c * y1 + m.e, by = m.b * x1 + m.d * y1 + m.f;
      near.forEach(([b, i]) => {
        if (Math.max(ay, by) + half <= b.top || Math.min(ay, by) - half >= b.bottom) { return; }
        if (crosses(ax, ay, bx, by, b.left - half, inks[i][0] - half, b.right + half, inks[i][1] + half)) {
          told("line through text", i, what);
        } else if (crosses(ax, ay, bx, by, b.left - half, b.top - half, b.right + half, b.bottom + half)) {
          loose.push("line in the room of a text: " + texts[i].textContent + " / " + what);
        }
      });
    }
  }
  return [[...new Set(bad)], [...new Set(loose)]];
}
function measure(near) {
  const told = { seen: 0, texts: 0, bad: [], loose: [], colours: [], smallest: 1e9, widest: 0 };
  for (const svg of document.querySelectorAll("svg")) {
    const name = svg.closest("[data-name]").dataset.name;
    told.seen += 1;
    const [bad, loose] = look(svg, near);
    bad.forEach(what => told.bad.push(name + ": " + what));
    loose.forEach(what => told.loose.push(name + ": " + what));
    const texts = svg.querySelectorAll("text");
    told.texts += texts.length;
    const box = svg.getBoundingClientRect(), own = getComputedStyle(svg.parentNode).color;
    if (texts.length) {
      const size = parseFloat(getComputedStyle(texts[0]).fontSize) * box.width / svg.viewBox.baseVal.width;
      told.smallest = Math.min(told.smallest, size);
    }
    told.widest = Math.max(told.widest, box.width);
    svg.querySelectorAll("text, path").forEach(node => {
      const style = getComputedStyle(node);
      for (const c of [style.stroke, style.fill]) {
        if (c !== "none" && c !== own) { told.colours.push(name + ": " + c); }
      }
    });
  }
  told.colours = [...new Set(told.colours)];
  const style = getComputedStyle(document.body);
  told.ground = getComputedStyle(document.querySelector(".drawing, .true-size")).backgroundColor;
  told.ink = style.color;
  told.font = [...document.fonts].filter(f => f.status === "loaded").map(f => f.family).join(", ");
  return JSON.stringify(told);
}
