"""A name that a step writes on something is drawn where the guide says, and told."""

from __future__ import annotations

import pytest

from builder.drawings.of_step import drawing_of
from builder.drawings.shapes import Drawing, Polyline, box_of
from tests.drawings import guides
from tests.dryrun.built import built, guide_of, steps

IN = 25.4


def stroke(drawing: Drawing) -> Polyline:
    (found,) = [
        s
        for s in drawing.shapes
        if isinstance(s, Polyline) and s.line == "new_mark" and (s.part or "").startswith("name on")
    ]
    return found


def told(drawing: Drawing) -> list[str]:
    return [t.text.replace("\N{NO-BREAK SPACE}", " ") for t in drawing.texts()]


@pytest.mark.parametrize(
    ("name", "end", "distance", "said", "where"),
    [
        ("rolled-rocket", "right", 1 * IN, "1 in (25.4 mm)", ", inside"),  # the front is on the right
        ("card-telescope", "left", 3 * IN, "3 in (76.2 mm)", ""),  # the rear on the left
    ],
)
def test_the_name_stands_at_its_place(name: str, end: str, distance: float, said: str, where: str) -> None:
    drawing = guides.drawings(name, 0)["name_it"]
    assert said in told(drawing)
    assert f"Written in this step: your name{where}." in drawing.alt
    whole = box_of([stroke(drawing)])
    assert whole is not None
    # the dimension measures from the end to the middle of the name
    lines = [s for s in drawing.shapes if isinstance(s, Polyline) and s.line == "extension"]
    ends = sorted({round(s.points[0][0], 1) for s in lines})
    middle = (whole.left + whole.right) / 2
    assert len(ends) == 2
    assert abs(middle - (ends[0] if end == "right" else ends[1])) < 1.0
    scale = (ends[1] - ends[0]) / distance
    assert 0.1 < scale < 4


def test_without_a_place_it_stands_in_the_middle_of_what_is_handled() -> None:
    drawing = guides.drawings("sail-cart", 0)["badge_on"]
    whole = box_of([stroke(drawing)])
    assert whole is not None
    rims = [
        s
        for s in drawing.shapes
        if isinstance(s, Polyline)
        and s.part == "badge"
        and s.line == "new"
        and s.points[0][1] > whole.top - 30
    ]
    ring = box_of(rims)  # of the last picture: the first shows the badge cut out
    assert ring is not None
    assert abs((whole.left + whole.right) / 2 - (ring.left + ring.right) / 2) < 1.0
    assert ring.left < whole.left and whole.right < ring.right


@pytest.mark.parametrize(("does", "drawn"), [("Write your name on", True), ("Wipe", False), ("Letter", True)])
def test_only_what_is_written_is_drawn(does: str, drawn: bool) -> None:
    text = steps("tube, pencil", f'{{do: "{does} the {{handles}}", handles: tube, with: pencil}}')
    text = text.replace("with: pencil}", "}") if does == "Wipe" else text
    frames = built(text).frames
    drawing = drawing_of(guide_of(text), frames)
    assert (
        any((s.part or "").startswith("name on") for s in drawing.shapes if isinstance(s, Polyline)) is drawn
    )
