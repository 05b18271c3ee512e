"""Show only the stretch of a long thing that a step is about, between break lines.

A part that runs on is shortened to the window before anything is projected; its end there is drawn as a
break line and not as an edge.
"""

from __future__ import annotations

from typing import NamedTuple

from builder.drawings.bodies import corners
from builder.drawings.scene import Mark, Placed, Scene
from builder.drawings.shapes import Box, Point, Polyline, Shape
from builder.drawings.solids import Stretch, Turned
from builder.drawings.vectors import dot

SHORT = 0.55
"""A window is used if what the step is about takes less than this share of the whole."""

PAD = 0.25
"""Room on either side of what the step is about, as a share of it."""

LEAST = 20.0
"""Least room on either side, mm of the thing."""

LONG = 150.0
"""What is no longer than this is shown whole, mm."""

SHAPE = 2.1
"""A window is at least so many times as wide as what it shows is high."""


class Window(NamedTuple):
    """From x0 to x1 along the host, and whether the picture breaks off at either end."""

    x0: float
    x1: float
    breaks: tuple[bool, bool]


def reach(placed: Placed) -> tuple[float, float]:
    """From where to where a part reaches along the host."""
    xs = [c[0] for c in corners(placed)]
    return min(xs), max(xs)


def _along(placed: Placed) -> bool:
    return isinstance(placed.solid, Turned) and abs(abs(dot(placed.pose.ex, (1.0, 0.0, 0.0))) - 1) < 1e-9


def window_for(scene: Scene) -> Window | None:
    """The stretch that the new parts, glue, marks and dimensions take; None if the whole may be shown."""
    focus: list[float] = []
    for p in scene.parts:
        if p.new:
            focus += reach(p)
    for band in scene.bands:
        host = scene.part(band.part)
        if _along(host):
            focus += [host.pose.world((x, 0.0, 0.0))[0] for x in (band.x0, band.x1)]
    for mark in scene.marks:
        if mark.new or mark.label:  # what the step draws, and what it goes by
            focus += [scene.part(mark.part).pose.world(p)[0] for p in mark.points]
    for d in scene.dims:
        if d.way != "angle":
            focus += [d.start[0], d.end[0]]
    whole = [x for p in scene.parts for x in reach(p)]
    low, high = min(whole), max(whole)
    if not focus or high - low <= LONG:
        return None
    pad = max(PAD * (max(focus) - min(focus)), LEAST)
    x0, x1 = min(focus) - pad, max(focus) + pad
    for p in scene.parts:
        # what is no plain turned part along the host is shown whole or not at all
        a, b = reach(p)
        if not _along(p) and a < x1 and b > x0:
            x0, x1 = min(x0, a - 2), max(x1, b + 2)
    short = SHAPE * _height(scene, x0, x1) - (x1 - x0)
    if short > 0:
        x0, x1 = x0 - short / 2, x1 + short / 2
        x0, x1 = (low, x1 + low - x0) if x0 < low else (x0 + min(0.0, high - x1), min(x1, high))
    near = 0.15 * (high - low)
    x0 = low if x0 - low < near else x0
    x1 = high if high - x1 < near else x1
    if x1 - x0 > SHORT * (high - low):
        return None
    return Window(x0, x1, (x0 > low, x1 < high))


def _height(scene: Scene, x0: float, x1: float) -> float:
    """How high what reaches into a stretch stands, mm."""
    zs = [c[2] for p in scene.parts for c in corners(p) if reach(p)[1] > x0 and reach(p)[0] < x1]
    return max(zs) - min(zs) if zs else 0.0


def windowed(scene: Scene, window: Window) -> Scene:
    """The scene with what lies outside the window left out, and what runs out of it shortened."""
    parts = []
    for p in scene.parts:
        a, b = reach(p)
        if b <= window.x0 or a >= window.x1:
            continue
        if _along(p) and (a < window.x0 or b > window.x1):
            assert isinstance(p.solid, Turned)
            ends = sorted(p.pose.local((x, 0.0, 0.0))[0] for x in (window.x0, window.x1))
            p = p._replace(solid=_shortened(p.solid, ends[0], ends[1]))
        parts.append(p)
    shown = {p.id for p in parts}
    names = tuple(
        f"to {name}" if name and broken else name
        for name, broken in zip(scene.ends, window.breaks, strict=True)
    )
    return scene._replace(
        ends=(names[0], names[1]),
        parts=tuple(parts),
        bands=tuple(b for b in scene.bands if b.part in shown),
        marks=tuple(m for m in scene.marks if m.part in shown and _within(scene, m, window)),
    )


def _within(scene: Scene, mark: Mark, window: Window) -> bool:
    """True if some of a mark lies in the window."""
    xs = [scene.part(mark.part).pose.world(p)[0] for p in mark.points]
    # beyond an end at which the picture does not break off lies what was taken off there
    return (max(xs) > window.x0 or not window.breaks[0]) and (min(xs) < window.x1 or not window.breaks[1])


def _shortened(solid: Turned, low: float, high: float) -> Turned:
    def within(stretches: tuple[Stretch, ...]) -> tuple[Stretch, ...]:
        return tuple(
            Stretch(max(s.x0, low), min(s.x1, high), s.at(max(s.x0, low)), s.at(min(s.x1, high)))
            for s in stretches
            if s.x0 < high - 1e-9 and s.x1 > low + 1e-9
        )

    return Turned(within(solid.outer), within(solid.bore))


def without_ends(shapes: tuple[Shape, ...], window: Window, scale: float) -> tuple[Shape, ...]:
    """The shapes without the edges that are only there because the window ends there."""
    at = [x * scale for x, broken in zip((window.x0, window.x1), window.breaks, strict=True) if broken]

    def at_break(a: Point, b: Point) -> bool:
        return any(abs(a[0] - x) < 0.02 and abs(b[0] - x) < 0.02 for x in at)

    kept: list[Shape] = []
    for s in shapes:
        if isinstance(s, Polyline) and s.part is not None and not s.filled:
            ring = (*s.points, s.points[0]) if s.closed else s.points
            pairs = list(zip(ring, ring[1:], strict=False))
            left = [pair for pair in pairs if not at_break(*pair)]
            if len(left) < len(pairs):
                kept += [Polyline(pair, s.line, s.part) for pair in left]
                continue
        kept.append(s)
    return tuple(kept)


def break_lines(window: Window, scale: float, outline: Box) -> list[Shape]:
    """An upright thin line with a zigzag in its middle at each end where the picture breaks off."""
    found: list[Shape] = []
    middle = (outline.top + outline.bottom) / 2
    for x, broken in zip((window.x0, window.x1), window.breaks, strict=True):
        if broken:
            px = x * scale
            points = (
                (px, outline.top - 2),
                (px, middle - 2),
                (px + 1.6, middle - 1),
                (px - 1.6, middle + 1),
                (px, middle + 2),
                (px, outline.bottom + 2),
            )
            found.append(Polyline(points, "break"))
    return found
