"""A folder of guides of the tests' own, in which the card rack may be changed, sealed and spoilt."""

from __future__ import annotations

from pathlib import Path

from click.testing import CliRunner, Result

from builder.cli import main
from tests.revisions.rack import RACK, SHARED, edited

FIRST = edited(("{number: 2, dated: 2026-10-05", "{number: 1, dated: 2026-09-07"))


def lay_out(top: Path, text: str = FIRST) -> Path:
    """A folder `guides` with the card rack -> the rack's folder."""
    rack = top / "guides" / "rack"
    rack.mkdir(parents=True)
    (top / "guides" / "common").mkdir()
    (top / "guides" / "common" / "leave.yml").write_text(SHARED, encoding="utf-8")
    (top / "guides" / "common" / "unused.yml").write_text(
        SHARED.replace("leave", "unused", 1), encoding="utf-8"
    )
    (rack / "guide.yml").write_text(text, encoding="utf-8")
    (rack / "overview.md").write_text("A rack for cards.\n", encoding="utf-8")
    (rack / "grip.svg").write_text("<svg/>\n", encoding="utf-8")
    return rack


def write(rack: Path, *edits: tuple[str, str], number: int = 2, dated: str = "2026-10-05") -> None:
    """Change the working guide: from the rack as it is in the tests, as the given revision."""
    text = edited(*edits, text=RACK)
    text = text.replace("number: 2, dated: 2026-10-05", f"number: {number}, dated: {dated}")
    (rack / "guide.yml").write_text(text, encoding="utf-8")


def run(*arguments: str) -> Result:
    """Run the command."""
    quick = ["--no-pages"] if arguments[0] == "seal" else []  # laying pages out takes seconds
    return CliRunner().invoke(main, [*arguments, *quick])


def bytes_of(folder: Path) -> dict[str, bytes]:
    """Every file below a folder by its path."""
    return {
        path.relative_to(folder).as_posix(): path.read_bytes()
        for path in sorted(folder.rglob("*"))
        if path.is_file()
    }
