"""How large a step's drawing is printed: the place that makes the step lowest, by hand."""

from __future__ import annotations

from markupsafe import Markup

from builder.drawings.of_step import drawing_of
from builder.drawings.shapes import Drawing
from builder.packet.parts import gathered
from builder.packet.sizing import (
    GAP,
    LETTER,
    LOW,
    PAGE,
    PLACES,
    ROW,
    SCALE,
    WIDEST,
    Place,
    best,
    height,
    letters_of,
)
from builder.pages.book import Book
from builder.pages.contexts import ActionLine, Link, RepeatBlock, StepView


def drawing(width: float, high: float) -> Drawing:
    """A drawing that is so large on paper, mm as printed."""
    return Drawing("", "", width / SCALE, high / SCALE, ())


def step(*lines: str) -> StepView:
    return StepView(
        id="x", anchor="step-x", number="1", title="Glue it", heading="Step 1: Glue it",
        lines=tuple(ActionLine(label="1.1", html=Markup(line)) for line in lines),
    )  # fmt: skip


def test_letters_in_a_drawing_are_9_pt() -> None:
    # capitals are 3 mm high before they are scaled and 0.660 of the size (Source Sans Pro): 3 / 0.660 = 4.545
    # mm; 0.70 of it is 3.18 mm, and 1 pt is 25.4 / 72 mm: 9.02 pt
    assert 3 / 0.660 * SCALE / (25.4 / 72) >= 9


def test_a_low_drawing_is_made_once() -> None:
    asked: list[Place] = []

    def draw(place: Place) -> Drawing:
        asked.append(place)
        return drawing(80, LOW)

    assert best(draw, step("Cut it.")).width * SCALE == 80
    assert asked == [PLACES[0]]


def test_a_high_one_is_made_for_the_place_that_costs_least() -> None:
    sizes = [(75, 160), (75, 158), (95, 105), (110, 95), (85, 150), (150, 120), (175, 90)]
    made = dict(zip(PLACES, sizes, strict=True))
    # beside its lines each is as high as the drawing; the widest is 90 high, with its lines below: 95 is more
    # than 90 + (60 + 37) letters x 1.85 mm / 180 mm x 4.95 mm = 90 + 4.9
    assert best(lambda size: drawing(*made[size]), step("Cut it.")).height * SCALE == 90
    # with many lines below it the wide one takes more
    assert best(lambda size: drawing(*made[size]), step("Cut it. " * 40)).height * SCALE == 95


def test_pictures_stand_beside_one_another_where_the_row_is_wide_enough(rocket: Book) -> None:
    """Glue, then the ring on it: two pictures, which one place has below one another."""
    frames = [frame for frame in rocket.runs[0].frames if frame.step.id == "front_ring_on"]
    place = PLACES[0]
    column = drawing_of(rocket.guide, frames, (place.width, place.height))
    row = drawing_of(rocket.guide, frames, (place.width, place.height), row=2.5 * place.width)
    assert place.width < row.width <= 2.5 * place.width
    assert row.height < 0.75 * column.height
    assert row.shapes != column.shapes
    assert sorted(text.text for text in row.texts()) == sorted(text.text for text in column.texts())


def test_no_row_is_wider_than_the_page() -> None:
    assert max(place.row for place in PLACES) * SCALE <= PAGE


def test_what_is_wider_than_the_page_is_no_use() -> None:
    assert height(drawing(PAGE + 1, 10), 0) > height(drawing(75, 200), 0)
    assert height(drawing(WIDEST, 20), 0) == 20
    letters = 200
    lines = letters * LETTER / (PAGE - GAP - 100) * ROW  # 200 letters of 1.85 mm in 76 mm: 4.87 rows, 24.1 mm
    assert round(lines, 1) == 24.1
    assert height(drawing(100, 20), letters) == lines


def test_letters_are_counted_without_marks_and_in_repeats_too() -> None:
    inner = ActionLine(label="1.1.1", html=Markup("Press <b>it</b>"))
    row = RepeatBlock(label="1.1", heading=Markup("For each:"), copies=("fin 1", "fin 2"), lines=(inner,))
    view = StepView(id="x", anchor="x", number="1", title="", heading="", lines=(row,))
    # 60 for the heading; 9 and 12 for each of two ticks; 8 letters and 30 for the label's room
    assert sum(letters_of(view)) == 60 + 9 + 24 + 8 + 30


def test_three_steps_in_a_row_are_told_as_from_to() -> None:
    steps = ("P2", "1", "2", "3", "5", "6", "8", "9", "10", "11")
    links = tuple(Link(text=text, href=f"#{text}") for text in steps)
    assert [link.text for link in gathered(links)] == ["P2", "1 to 3", "5", "6", "8 to 11"]
    assert gathered(links)[1].href == "#1"
