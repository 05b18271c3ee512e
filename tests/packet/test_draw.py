"""`kitwright draw`: files that are whole, in the format asked for; words for what cannot be drawn."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from click.testing import CliRunner, Result
from pypdf import PdfReader

from builder.packet.draw_command import draw

GUIDES = Path(__file__).resolve().parents[2] / "guides"
ROCKET = str(GUIDES / "rolled-rocket")
CART = str(GUIDES / "sail-cart")


def run(*words: str) -> Result:
    return CliRunner().invoke(draw, list(words), catch_exceptions=False)


@pytest.mark.parametrize(
    ("words", "title"),
    [
        ((ROCKET, "--step", "thrust"), "thrust ring"),
        ((ROCKET, "--stage", "Fins"), "4 fins"),
        ((ROCKET, "--stage", "3"), "motor"),
        ((CART, "--kit"), "Exploded view"),
        ((ROCKET, "--gauges"), "Gauges at true size"),
        ((CART, "--step", "THRUST"), ""),
    ],
)
def test_a_drawing_is_written_with_its_text_alternative(
    words: tuple[str, ...], title: str, tmp_path: Path
) -> None:
    place = tmp_path / "made" / "one.svg"
    result = run(*words, "-o", str(place))
    if not title:
        assert result.exit_code == 2 and not place.exists()
        return
    assert result.exit_code == 0, result.output
    text = place.read_text(encoding="utf-8")
    assert text.startswith("<svg ") and text.rstrip().endswith("</svg>")
    assert title in text
    assert [p.name for p in place.parent.iterdir()] == ["one.svg"]  # nothing half-written beside it


def test_a_pattern_is_written_at_true_size(tmp_path: Path) -> None:
    """The fin: root 2 1/4 in, span 2 in, in a frame that is 4 mm wider and higher."""
    place = tmp_path / "fin.svg"
    assert run(ROCKET, "--pattern", "fin", "-o", str(place)).exit_code == 0
    text = place.read_text(encoding="utf-8")
    assert 'width="61.15mm" height="54.8mm"' in text
    assert "<text" not in text
    pdf = tmp_path / "fin.pdf"
    assert run(ROCKET, "--pattern", "fin", "-o", str(pdf)).exit_code == 0
    box = PdfReader(pdf).pages[0].mediabox
    assert float(box.width) * 25.4 / 72 == pytest.approx(61.15, abs=0.02)
    assert float(box.height) * 25.4 / 72 == pytest.approx(54.8, abs=0.02)


def test_copies_for_a_class_lie_on_sheets_of_the_paper(tmp_path: Path) -> None:
    place = tmp_path / "fins.pdf"
    result = run(ROCKET, "--pattern", "fin", "--copies", "24", "--paper", "a4", "-o", str(place))
    assert result.exit_code == 0
    assert 2 <= len(PdfReader(place).pages) <= 4


def test_all_drawings_of_a_guide_on_one_page(tmp_path: Path) -> None:
    place = tmp_path / "all.svg"
    assert run(CART, "--sheet", "-o", str(place)).exit_code == 0
    text = place.read_text(encoding="utf-8")
    for id in re.findall(r"^\s*- id: (\w+)", (GUIDES / "sail-cart" / "guide.yml").read_text(), re.M):
        assert f"step {id}:" in text, id


def test_a_picture_is_written_as_dots(tmp_path: Path) -> None:
    place = tmp_path / "one.png"
    assert run(CART, "--stage", "the wheels", "-o", str(place)).exit_code == 0
    assert place.read_bytes().startswith(b"\x89PNG")


def test_two_runs_write_the_same_bytes(tmp_path: Path) -> None:
    made = []
    for name in ("a.pdf", "b.pdf"):
        run(CART, "--kit", "-o", str(tmp_path / name))
        made.append((tmp_path / name).read_bytes())
    assert made[0] == made[1]


@pytest.mark.parametrize(
    ("words", "told"),
    [
        ((ROCKET,), "say one thing to draw (none is named)"),
        ((ROCKET, "--kit", "--sheet"), "not --kit and --sheet at once"),
        ((ROCKET, "--step", "thrst"), 'there is no step "thrst"; did you mean thrust?'),
        ((ROCKET, "--stage", "Finns"), "did you mean Fins?"),
        ((ROCKET, "--pattern", "finn"), "did you mean fin?"),
        ((ROCKET, "--kit", "--copies", "3"), "--copies goes with --pattern"),
        ((ROCKET, "--kit", "--route", "jigg"), 'there is no option "jigg"; there are: '),
        ((ROCKET, "--kit", "-o", "kit.gif"), 'not as "gif"'),
        ((ROCKET, "--kit", "--format", "png", "-o", "kit.svg"), "let one of them say it"),
        (("nowhere", "--kit"), "there is no nowhere"),
    ],
)
def test_what_cannot_be_drawn_is_told(
    words: tuple[str, ...], told: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    result = run(*words)
    assert result.exit_code == 2
    assert told in result.output
    assert list(tmp_path.iterdir()) == []


def test_an_unwritable_place_is_told(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("")
    result = run(CART, "--kit", "-o", str(tmp_path / "file" / "kit.svg"))
    assert result.exit_code == 2 and "cannot write" in result.output
