"""The calibration bars of every pattern sheet are 100 mm and 4 in long, along the paper and across it."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from math import dist

from builder.drawings.shapes import Drawing, Point, Polyline
from builder.drawings.sheets import MARGIN
from builder.packet.proofs.base import Fault, Known, Proof, Row
from builder.packet.reading import Page, Read, pages_with

NEAR = 0.05  # mm
BARS = (
    ("level", "100 mm", 100.0, 0), ("level", "4 in", 101.6, 0),
    ("upright", "100 mm", 100.0, 1), ("upright", "4 in", 101.6, 1),
)  # fmt: skip
"""Way, name, length in mm (4 in are 4 x 25.4 mm: 16 CFR 500.19) and axis of the four bars."""


def look(known: Known, read: Read) -> Iterator[Row | Fault]:
    """A fault for each bar that is not there at its length."""
    bars = 0
    worst = 0.0
    for drawing in known.sheets:
        for page in pages_with(read, drawing.alt):
            for way, name, wanted, bar in BARS:
                lines = bars_of(drawing)
                drawn = [ends for ends in lines if abs(ends[1][bar] - ends[0][bar] - wanted) < 0.01]
                if not drawn:
                    yield Fault(page.number, f"the sheet has no {way} bar of {name}")
                    continue
                found = length(page, drawn[0], bar)
                bars += 1
                worst = max(worst, abs(found - wanted))
                if abs(found - wanted) > NEAR:
                    said = f"the {way} bar of {name} is {found:.2f} mm long and ought to be {wanted:.2f} mm"
                    yield Fault(page.number, said)
    if known.sheets:
        yield Row(f"{bars} calibration bars", "100.00 and 101.60 mm", f"off by {worst:.3f} mm at most")


def bars_of(drawing: Drawing) -> list[tuple[Point, Point]]:
    """The straight lines of a sheet that may be bars: where each begins and ends on the page, mm."""
    return [
        ((a[0] + MARGIN, a[1] + MARGIN), (b[0] + MARGIN, b[1] + MARGIN))
        for shape in drawing.shapes
        if isinstance(shape, Polyline) and shape.line == "frame" and len(shape.points) == 2
        for a, b in [sorted(shape.points)]
    ]


def length(page: Page, wanted: tuple[Point, Point], axis: int) -> float:
    """How long the line is that lies nearest to a bar, along an axis (0 level, 1 upright), mm."""
    pieces = [
        sorted(pair)
        for line in page.lines
        for pair in pairwise(line.corners)
        if abs(pair[1][1 - axis] - pair[0][1 - axis]) < 0.01
    ]
    nearest = min(pieces, key=lambda p: dist(p[0], wanted[0]) + dist(p[1], wanted[1]), default=None)
    return nearest[1][axis] - nearest[0][axis] if nearest is not None else 0.0


PROOF = Proof(
    "bars", "The calibration bars", "Whoever prints measures the bars, and trusts the patterns by them.",
    "Nothing round a pattern sheet may be scaled: look at the size that its page gives it.", look,
)  # fmt: skip
