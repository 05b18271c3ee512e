"""How each class of line looks: one table; classes that mean different things differ in black and white.

Widths follow the two-to-one habit of engineering drawing (thick 0.6 mm, thin 0.3 mm: ASME Y14.2, from
memory); what is new is heavier than both.  A thin line has 0.35 mm, which is 0.25 mm in a packet: of 0.25 mm,
0.18 mm there, three generations of photocopies lost some (tests/photocopy).  Dimensions and leaders have 0.38
mm: of 0.35 mm, one level line in forty was lost as the dots fell.  Colour carries no meaning:
every line has the colour of the text around it.
"""

from __future__ import annotations

from typing import NamedTuple


class Line(NamedTuple):
    """Width in mm, dash pattern in mm (empty: unbroken), round dots or not, and what the line means."""

    width: float
    dash: tuple[float, ...]
    dots: bool
    meaning: str


LINES: dict[str, Line] = {
    "outline": Line(0.55, (), False, "an edge that you can see"),
    "new": Line(1.1, (), False, "an edge of what this step adds"),
    "section": Line(0.55, (), False, "the outline of a cut face; thin walls are filled in"),
    "new_section": Line(1.1, (), False, "the outline of a cut face that this step adds"),
    "new_thin": Line(0.7, (), False, "an edge of what this step adds, where it is thin"),
    "thin": Line(0.38, (), False, "an edge that has another close beside it, or lies within an outline"),
    "hidden": Line(0.35, (2.0, 1.0), False, "an edge behind something"),
    "centre": Line(0.35, (6.0, 1.0, 1.0, 1.0), False, "the middle of a round part"),
    "hatch": Line(0.25, (), False, "a face that is cut through"),
    "new_hatch": Line(0.3, (), False, "what this step adds"),
    "glue": Line(0.7, (0.0, 1.3), True, "wet glue"),
    "bead": Line(0.25, (), False, "wet glue in a corner, seen from its end"),
    "mark": Line(0.35, (), False, "a pencil line"),
    "new_mark": Line(0.9, (), False, "a line that this step draws or works on"),
    "worked": Line(1.1, (), False, "an edge that this step works on"),
    "named": Line(0.25, (), False, "a place that a name points to"),
    "grain": Line(0.5, (), False, "grain"),
    "spare": Line(0.35, (9.0, 2.5), False, "what is left over"),
    "sign": Line(0.5, (), False, "what is done, or how the work is turned"),
    "way": Line(0.7, (), False, "the way that a part goes"),
    "ghost": Line(0.35, (1.4, 1.1), False, "what this step takes off"),
    "break": Line(0.35, (), False, "the part goes on beyond this line"),
    "dimension": Line(0.38, (), False, "a dimension"),
    "extension": Line(0.38, (), False, "where a dimension is measured from"),
    "leader": Line(0.38, (), False, "a line from a name to its part"),
    "dot": Line(0.7, (), False, "the end of a leader"),
    "text": Line(0.0, (), False, "words"),
    "cut": Line(0.6, (), False, "cut here"),
    "fold": Line(0.35, (5.0, 1.5), False, "fold here"),
    "glue_here": Line(0.7, (0.0, 1.6), True, "glue here"),
    "line_up": Line(0.35, (8.0, 1.2, 1.2, 1.2), False, "line up, do not cut"),
    "silhouette": Line(0.35, (), False, "what lies on the table"),
    "frame": Line(0.35, (), False, "the edge of a sheet, or a calibration bar"),
}
