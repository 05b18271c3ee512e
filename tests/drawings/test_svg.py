from __future__ import annotations

import re
import xml.etree.ElementTree as ET
from io import BytesIO

import pytest

from builder.drawings import raster, svg
from builder.drawings.half_section import half_section
from builder.drawings.shapes import Arc, Arrow, Drawing, Hatch, Polyline, Shape, Text, circle, segment
from builder.drawings.views import axonometric, end, plan, side
from tests.drawings import scenes

NS = "{http://www.w3.org/2000/svg}"


def _one(*shapes: Shape, title: str = "A title", alt: str = "What it shows") -> Drawing:
    return Drawing(title, alt, 60.0, 40.0, shapes)


def test_root_names_itself_and_its_size() -> None:
    root = ET.fromstring(svg.write(_one(segment((0, 0), (1, 1), "outline")), "step-3"))
    assert root.get("role") == "img"
    assert (root.get("width"), root.get("height"), root.get("viewBox")) == ("60mm", "40mm", "0 0 60 40")
    title, desc = list(root)[:2]
    assert (title.tag, title.text) == (f"{NS}title", "A title")
    assert (desc.tag, desc.text) == (f"{NS}desc", "What it shows")
    assert root.get("aria-labelledby") == f"{title.get('id')} {desc.get('id')}" == "step-3-title step-3-desc"


@pytest.mark.parametrize("text", ['3/8" & <b>', "<", "a && b"])
def test_text_is_escaped(text: str) -> None:
    root = ET.fromstring(svg.write(_one(Text((1, 1), text), title=text, alt=text)))
    words = root.find(f".//{NS}text")
    assert words is not None and words.text == text
    assert root[0].text == text


@pytest.mark.parametrize(
    ("value", "text"),
    [
        (1.0, "1"),
        (0.255, "0.26"),
        (-0.001, "0"),
        (12.5, "12.5"),
        (-3.0, "-3"),
        (100.0, "100"),
        (0.1 + 0.2, "0.3"),
    ],
)
def test_numbers(value: float, text: str) -> None:
    assert svg.number(value) == text


def test_paths() -> None:
    made = svg.write(
        _one(
            Polyline(((0, 0), (5, 0), (5, 5)), "cut", "fin", closed=True),
            circle((10, 10), 2, "hidden", "fin"),
            Arc((0, 0), 4, 2, "outline", None, 0, 0, 90),
            Hatch((((1, 1), (2, 2)), ((3, 3), (4, 4))), "hatch", "ring"),
            Arrow((3, 0), 0, "dimension"),
        )
    )
    paths = ET.fromstring(made).findall(f"{NS}path")
    assert [p.get("d") for p in paths] == [
        "M0 0L5 0 5 5Z",
        # four quarters, since the circle is small
        "M12 10A2 2 0 0 1 10 12A2 2 0 0 1 8 10A2 2 0 0 1 10 8A2 2 0 0 1 12 10",
        # a quarter in one piece
        "M4 0A4 2 0 0 1 0 2",
        "M1 1L2 2M3 3L4 4",
        "M3 0L0 0.5 0 -0.5Z",
    ]
    assert [p.get("data-part") for p in paths] == ["fin", "fin", None, "ring", None]
    assert paths[1].get("stroke-dasharray") == "2 1"
    assert paths[4].get("fill") == "currentColor"


def test_neighbours_of_one_kind_share_a_path() -> None:
    made = svg.write(_one(*(segment((i, 0), (i, 5), "outline", "fin") for i in range(5))))
    assert made.count("<path") == 1


DRAWINGS = [
    half_section(scenes.motor_mount()),
    half_section(scenes.mount_in_body()),
    side(scenes.finned()),
    end(scenes.finned()),
    axonometric(scenes.finned()),
    plan(scenes.deck()),
]


@pytest.mark.parametrize("drawing", DRAWINGS, ids=lambda d: d.title)
def test_plain_and_small(drawing: Drawing) -> None:
    made = svg.write(drawing)
    assert len(made) <= 15_000
    assert not re.search(r"var\(|style=|class=|<pattern|<style|=.white|#[0-9a-f]{3}", made)
    assert made.count("currentColor") >= 2
    assert made == svg.write(drawing)
    numbers = [n for d in re.findall(r' d="([^"]+)"', made) for n in re.findall(r"-?\d+\.(\d+)", d)]
    assert max(len(n) for n in numbers) <= 2


def test_the_picture_takes_the_colour_around_it() -> None:
    """Inline in a dark page the lines are light: the writer of a page sets `color` and nothing else."""
    from PIL import Image

    made = svg.write(_one(segment((5, 20), (55, 20), "new")))
    dark = made.replace("<svg ", '<svg color="#ffffff" ', 1)
    import cairosvg

    pixels = Image.open(BytesIO(cairosvg.svg2png(bytestring=dark.encode(), background_color="black")))
    assert max(pixels.convert("L").tobytes()) > 200


def test_raster_has_ink() -> None:
    from PIL import Image

    picture = Image.open(BytesIO(raster.png(svg.write(DRAWINGS[0]), dots_per_inch=96))).convert("L")
    assert picture.width == pytest.approx(DRAWINGS[0].width / 25.4 * 96, abs=1)
    dark = sum(p < 128 for p in picture.tobytes())
    assert 0.005 < dark / (picture.width * picture.height) < 0.3


def test_no_pages_no_pdf() -> None:
    with pytest.raises(ValueError, match="page"):
        raster.pdf([])
