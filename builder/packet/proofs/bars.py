"""The calibration bars of every pattern sheet are 100 mm and 4 in long, along the paper and across it."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from builder.packet.proofs.base import Fault, Known, Proof, Row
from builder.packet.reading import Page, Read, pages_with

NEAR = 0.05  # mm
BARS = (("100 mm", 100.0), ("4 in", 101.6))  # 4 in are 4 x 25.4 mm (16 CFR 500.19)


def look(known: Known, read: Read) -> Iterator[Row | Fault]:
    """A fault for each bar that is not there at its length."""
    sheets = 0
    worst = 0.0
    for drawing in known.sheets:
        for page in pages_with(read, drawing.alt):
            sheets += 1
            for way, lengths in (("level", straight(page, 0)), ("upright", straight(page, 1))):
                for name, wanted in BARS:
                    found = min(lengths, key=lambda length: abs(length - wanted), default=0.0)
                    worst = max(worst, abs(found - wanted))
                    if abs(found - wanted) > NEAR:
                        yield Fault(
                            page.number,
                            f"the {way} bar of {name} is {found:.2f} mm long and ought to be {wanted:.2f} mm",
                        )
    if known.sheets:
        yield Row(f"{4 * sheets} calibration bars", "100.00 and 101.60 mm", f"off by {worst:.3f} mm at most")


def straight(page: Page, axis: int) -> list[float]:
    """Lengths of the straight lines of a page along an axis (0 level, 1 upright), mm."""
    return [
        abs(b[axis] - a[axis])
        for line in page.lines
        for a, b in pairwise(line.corners)
        if abs(b[1 - axis] - a[1 - axis]) < 0.01
    ]


PROOF = Proof(
    "bars", "The calibration bars", "Whoever prints measures the bars, and trusts the patterns by them.",
    "Nothing round a pattern sheet may be scaled: look at the size that its page gives it.", look,
)  # fmt: skip
