"""Positions of the protocol: UTF-16 units, addresses of files, ranges of places."""

from __future__ import annotations

import pytest

from builder.editor.positions import Positions, path_of, split, uri_of
from builder.findings import Place

# Language Server Protocol 3.17, "Position": in `a𐐀b` the character 𐐀 counts two UTF-16 units, so that b is
# at 3; with utf-32 it counts one.
EXAMPLE = "a\U00010400b"


@pytest.mark.parametrize(("utf16", "units"), [(True, 3), (False, 2)])
def test_the_example_of_the_protocol(utf16: bool, units: int) -> None:
    positions = Positions(utf16)
    assert positions.units(EXAMPLE[:2]) == units
    assert positions.column(EXAMPLE, units) == 2


@pytest.mark.parametrize(
    ("line", "units", "column"),
    [("abc", 2, 2), ("abc", 9, 3), ("", 0, 0), ("½ in", 1, 1), (EXAMPLE, 2, 2), (EXAMPLE, 1, 1)],
)
def test_a_column_is_found_again(line: str, units: int, column: int) -> None:
    assert Positions().column(line, units) == column


def test_the_range_of_a_place() -> None:
    texts = {"g.yml": f"one\n{EXAMPLE}cd\n"}
    assert Positions().range(Place("g.yml", 2, 3, 2), texts) == {
        "start": {"line": 1, "character": 3},
        "end": {"line": 1, "character": 5},
    }
    beyond = Positions().range(Place("g.yml", 9, 3, 2), texts)
    assert beyond == {"start": {"line": 8, "character": 0}, "end": {"line": 8, "character": 0}}


@pytest.mark.parametrize(
    ("line", "character", "offset"), [(0, 0, 0), (0, 2, 2), (1, 1, 5), (1, 99, 6), (9, 0, 7)]
)
def test_an_offset(line: int, character: int, offset: int) -> None:
    assert Positions().offset("abc\nde\n", {"line": line, "character": character}) == offset


def test_an_offset_before_a_line_end_of_two_signs() -> None:
    assert Positions().offset("abc\r\nde", {"line": 0, "character": 99}) == 3
    assert Positions().offset("abc\r\nde", {"line": 1, "character": 1}) == 6
    assert split("a\r\nb\rc\n") == ["a", "b", "c", ""]


@pytest.mark.parametrize("path", ["/a/b c.yml", "/a/50%#?.yml", "/a/größe.yml"])
def test_a_path_is_found_again(path: str) -> None:
    uri = uri_of(path)
    assert uri.startswith("file:///") and " " not in uri and "#" not in uri
    assert path_of(uri) == path


def test_a_drive_stands_before_a_path() -> None:
    assert path_of("file:///C:/kits/a.yml", windows=True) == "C:/kits/a.yml"
    assert path_of("file:///C:/kits/a.yml", windows=False) == "/C:/kits/a.yml"


@pytest.mark.parametrize("uri", ["untitled:Untitled-1", "https://example.org/a.yml", ""])
def test_what_is_no_file_has_no_path(uri: str) -> None:
    assert path_of(uri) == ""
