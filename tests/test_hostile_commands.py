"""Commands that get what they cannot work with: they say so, end with their status, leave nothing behind."""

from __future__ import annotations

import os
import sys
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from builder.cli import main

ONE = """title: One step
units: {first: mm, second: in, finest: 1 mm}
revision: {number: 1, dated: 2026-11-02, by: Tannerfield Workshop, summary: First.}
parts: {peg: {form: rod, source: bought, diameter: 4 mm, length: 30 mm}}
steps:
  - id: look
    title: Look at the peg
    time: 2 min
    actions: [{verify: peg, shows: a straight edge, else: Take another one.}]
finished: {is: peg, holds: all}
"""
READING = (("check", "guide"), ("word", "guide"), ("plant", "guide"), ("explain", "guide", "x"))
PACKET = ("packet", "guide", "-n", "3", "--paper", "a4")


@pytest.fixture
def room(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A working folder with a guide of one step."""
    (tmp_path / "guide").mkdir()
    (tmp_path / "guide" / "guide.yml").write_text(ONE, "utf-8")
    monkeypatch.chdir(tmp_path)
    return tmp_path


def ran(*words: str) -> Result:
    """A command carried out; whatever goes wrong is said, and not raised."""
    result = CliRunner().invoke(main, list(words))
    assert result.exception is None or isinstance(result.exception, SystemExit), result.exception
    return result


@pytest.mark.parametrize("content", [b"title: \xff\xfe", b"", b"a: [b\nc: }", b"title: A\nsteps: []\n"])
def test_a_guide_without_steps(room: Path, content: bytes) -> None:
    """Not UTF-8, empty, not YAML, nothing in it: what needs steps says that there are none."""
    (room / "guide" / "guide.yml").write_bytes(content)
    assert ran("check", "guide").exit_code == 1
    for words in (("word", "guide"), ("compare", "guide", "guide"), ("seal", "guide", "--try")):
        result = ran(*words)
        assert result.exit_code == 2
        assert "has no steps that could be read" in result.output
    assert ran("plant", "guide").exit_code in (0, 1, 2)  # what little could be planted was told, or was not
    assert ran("explain", "guide", "peg.length").exit_code == 2
    assert ran(*PACKET).exit_code == 1
    assert sorted(each.name for each in room.rglob("*")) == ["guide", "guide.yml"]


@pytest.mark.parametrize("words", [PACKET, ("seal", "guide")])
def test_a_library_of_the_system_that_is_not_there(
    room: Path, monkeypatch: pytest.MonkeyPatch, words: tuple[str, ...]
) -> None:
    """The engine cannot be loaded: it is said what to install, and nothing is written but an empty folder."""
    fake = room / "elsewhere" / "weasyprint"
    fake.mkdir(parents=True)
    broken = "raise OSError('cannot load library libpango-1.0-0: no file')\n"
    (fake / "__init__.py").write_text(broken, "utf-8")
    for name in [each for each in sys.modules if each.partition(".")[0] == "weasyprint"]:
        monkeypatch.delitem(sys.modules, name)
    monkeypatch.syspath_prepend(str(fake.parent))
    result = ran(*words)
    assert result.exit_code == 2
    assert "libpango-1.0-0" in result.output
    assert "apt install libcairo2 libpango-1.0-0" in result.output
    assert [each for each in (room / "guide").rglob("*") if each.is_file()] == [room / "guide" / "guide.yml"]
    assert not list(room.rglob("*.pdf*"))


def test_a_guide_that_may_not_be_read(room: Path) -> None:
    """A folder in the place of the file, and a link that goes round in a circle."""
    file = room / "guide" / "guide.yml"
    file.unlink()
    file.mkdir()
    for words in READING:
        result = ran(*words)
        assert result.exit_code == 2
        assert "holds no guide.yml" in result.output or "there is no" in result.output
    file.rmdir()
    os.symlink("guide.yml", file)
    for words in READING:
        assert ran(*words).exit_code == 2


def test_a_schema_that_cannot_be_written_leaves_no_half(room: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The disk is full when the file is to take its place."""

    def full(_old: str, _new: str) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "replace", full)
    result = ran("schema", "-o", "schema.json")
    assert result.exit_code == 2
    assert "schema.json cannot be written: No space left on device" in result.output
    assert not list(room.glob("schema*"))
