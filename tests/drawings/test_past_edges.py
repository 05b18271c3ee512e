"""An extension line never runs along an edge (ASME Y14.5, ISO 129-1 keep it off the outline; from memory)."""

from __future__ import annotations

from builder.drawings.compose import past_edges
from builder.drawings.dimensions import Linear
from builder.drawings.shapes import Box, Polyline, Shape, box_of, segment
from tests.drawings import guides

DECK: list[Shape] = [
    segment((10, 50), (14, 50), "outline", "deck"),  # a wheel hides what is between
    segment((30, 50), (80, 50), "outline", "deck"),
]
MAST = Linear("190 mm", (40, 50), (40, 5), "across")


def test_an_extension_line_that_would_run_along_an_edge_begins_at_its_far_end() -> None:
    """From (40, 50) to the left it would run along the deck's edge to 30, and again from 14 to 10."""
    [moved] = past_edges([MAST], DECK)
    assert (moved.start, moved.end) == ((10, 50), (40, 5))


def test_one_that_crosses_an_edge_or_starts_at_its_near_end_stays() -> None:
    upright: list[Shape] = [segment((20, 0), (20, 60), "outline", "post")]
    beyond: list[Shape] = [segment((40, 50), (80, 50), "outline", "deck")]
    hatch: list[Shape] = [segment((10, 50), (80, 50), "hatch", "deck")]
    for shapes in (upright, beyond, hatch):
        assert past_edges([MAST], shapes) == [MAST]


def test_the_heights_of_the_sail_are_measured_from_beside_the_deck() -> None:
    drawing = guides.drawings("sail-cart", 0)["sail_on"]
    side = [s for s in drawing.shapes if isinstance(s, Polyline) and s.line == "extension"]
    lowest = max(side, key=lambda s: s.points[0][1])
    level = lowest.points[0][1]
    wheels = [box_of([s]) or Box(0, 0, 0, 0) for s in drawing.shapes if (s.part or "").startswith("wheel")]
    beside = [b for b in wheels if b.top < level < b.bottom and b.left > lowest.points[0][0] - 40]
    assert beside and all(max(p[0] for p in lowest.points) < b.left for b in beside)
