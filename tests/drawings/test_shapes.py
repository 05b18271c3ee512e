from __future__ import annotations

from math import hypot

import pytest

from builder.drawings.measure import CAP_HEIGHT, FONT_SIZE, text_width, wrapped
from builder.drawings.shapes import (
    Arc,
    Arrow,
    Box,
    Hatch,
    Polyline,
    Shape,
    Text,
    box_of,
    circle,
    finished,
    moved,
    segment,
)
from builder.drawings.style import LINES
from builder.drawings.widths import ADVANCE


def test_widths_are_the_fonts() -> None:
    from font_source_sans_pro import font_directory
    from fontTools.ttLib import TTFont

    font = TTFont(f"{font_directory}/SourceSansPro-Regular.ttf")
    names, metrics = font.getBestCmap(), font["hmtx"].metrics
    wrong = {c: metrics[names[ord(c)]][0] for c, w in ADVANCE.items() if metrics[names[ord(c)]][0] != w}
    assert not wrong, f"the font says {wrong}"
    assert font["head"].unitsPerEm == 1000
    assert font["OS/2"].sCapHeight / 1000 * FONT_SIZE == pytest.approx(CAP_HEIGHT, abs=0.001)
    # what labels are made of is in the table
    assert set("0123456789/ ().,-x'\"°±–“”½¼¾×") <= set(ADVANCE)


def test_text_width_is_the_sum_of_the_advances() -> None:
    # 1, 0 are 497 thousandths wide each in this font, the space 200
    assert text_width("1 0") == pytest.approx((497 + 200 + 497) / 1000 * FONT_SIZE)


@pytest.mark.parametrize(
    ("text", "width", "lines"),
    [
        ("front ring", 100, ("front ring",)),
        ("front ring", 14, ("front", "ring")),
        ("1/8\N{NO-BREAK SPACE}in ring", 14, ("1/8\N{NO-BREAK SPACE}in", "ring")),
        ("", 10, ("",)),
    ],
)
def test_wrapping(text: str, width: float, lines: tuple[str, ...]) -> None:
    assert wrapped(text, width) == lines


def test_text_height_is_three_millimetres() -> None:
    box = Text((0, 0), "H").box()
    assert -box.top == pytest.approx(3.0)  # ASME Y14.2, from memory: 3 mm at least


def test_arrow_is_three_times_as_long_as_wide() -> None:
    tip, left, right = Arrow((10, 5), 0, "dimension").corners()
    width = hypot(left[0] - right[0], left[1] - right[1])
    length = tip[0] - (left[0] + right[0]) / 2
    assert (length, length / width) == pytest.approx((3.0, 3.0))


@pytest.mark.parametrize(
    ("a", "b", "meet"),
    [
        (Box(0, 0, 2, 2), Box(1, 1, 3, 3), True),
        (Box(0, 0, 2, 2), Box(2, 0, 3, 2), False),
        (Box(0, 0, 2, 2), Box(0, 3, 2, 4), False),
    ],
)
def test_boxes(a: Box, b: Box, meet: bool) -> None:
    assert a.meets(b) is meet
    assert b.meets(a) is meet


@pytest.mark.parametrize(
    "shape",
    [
        segment((0, 0), (4, 3), "outline"),
        circle((2, 2), 1, "outline"),
        Arc((0, 0), 3, 1, "outline", None, 30, 10, 100),
        Arrow((1, 1), 90, "dimension"),
        Hatch((((0, 0), (1, 1)),), "hatch"),
        Text((1, 1), "fin"),
        Polyline(((0, 0), (1, 0), (1, 1)), "cut", closed=True),
    ],
)
def test_moving_moves_the_box(shape: Shape) -> None:
    before, after = box_of([shape]), box_of([moved(shape, 10, -5)])
    assert before is not None and after is not None
    assert after == pytest.approx((before.left + 10, before.top - 5, before.right + 10, before.bottom - 5))


def test_a_finished_drawing_holds_its_shapes() -> None:
    drawing = finished("t", "a", [segment((-30, -8), (5, 9), "outline", "fin")], margin=2)
    assert (drawing.width, drawing.height) == (39, 21)
    box = box_of(drawing.shapes)
    assert box == pytest.approx((2, 2, 37, 19))
    assert drawing.parts() == ("fin",)


def test_no_line_is_lost_in_a_copy() -> None:
    for name, look in LINES.items():
        assert look.meaning
        if name != "text":
            assert look.width >= 0.18, name  # 0.5 pt
    kinds = ("outline", "new", "hidden", "centre", "mark", "new_mark", "glue", "hatch", "new_hatch")
    looks = {(LINES[k].width, LINES[k].dash) for k in kinds}
    assert len(looks) == len(kinds)
    on_a_sheet = ("cut", "fold", "glue_here", "line_up")
    assert len({LINES[k].dash for k in on_a_sheet}) == len(on_a_sheet)
    assert LINES["new"].width >= 2 * LINES["outline"].width
