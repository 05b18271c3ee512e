"""Two builds alike, files whole or not there, addresses, and what the command says."""

from __future__ import annotations

import hashlib
import os
import subprocess
import sys
from pathlib import Path

import msgspec
import pytest
from click.testing import CliRunner

from builder.cli import main
from builder.packet.address import QUIET, address_of, code_of, qr
from builder.packet.files import write_whole
from builder.pages.book import Book
from builder.pages.contexts import Link
from tests.plan.guides import HEAD, KIT

ROOT = Path(__file__).resolve().parents[2]
GUIDE = HEAD + KIT

BUILD = """
import hashlib, sys
from pathlib import Path
from builder.packet.build import build_packet
from builder.pages.book import open_book
from builder.plan.settings import Class
book = open_book(Path(sys.argv[1]))
for path in build_packet(book.guide, book.runs[0], Class(3, paper="a4"), Path(sys.argv[2])):
    print(path.name, hashlib.sha256(path.read_bytes()).hexdigest())
"""


def folder_with(guide: str, at: Path) -> Path:
    """A guide's folder of its own: `at`/cart/guide.yml."""
    folder = at / "cart"
    folder.mkdir()
    (folder / "guide.yml").write_text(guide, encoding="utf-8")
    return folder


def test_two_builds_are_alike(tmp_path: Path) -> None:
    """In two processes whose sets and dates differ."""
    folder = folder_with(GUIDE, tmp_path)
    said = []
    for seed, zone in (("1", "UTC"), ("2", "Asia/Tokyo")):
        environment = {**os.environ, "PYTHONHASHSEED": seed, "TZ": zone}
        command = [sys.executable, "-c", BUILD, str(folder), str(tmp_path / f"out-{seed}")]
        run = subprocess.run(command, cwd=ROOT, env=environment, capture_output=True, text=True, check=True)
        said.append(run.stdout)
    assert said[0] == said[1]
    assert said[0].count(".pdf ") == 2


def test_a_file_is_whole_or_as_it_was(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = tmp_path / "deep" / "a.pdf"
    write_whole(path, b"first")

    def fails(*_: object) -> None:
        raise OSError("no room")

    monkeypatch.setattr(os, "replace", fails)
    with pytest.raises(OSError, match="no room"):
        write_whole(path, b"second")
    assert path.read_bytes() == b"first"
    assert [each.name for each in path.parent.iterdir()] == ["a.pdf"]


def test_codes_and_addresses(rocket: Book) -> None:
    guide = rocket.guide
    assert guide.revision is not None
    code = f"KW-rolled-rocket-{guide.revision.number}"
    assert [code_of(guide, run.route) for run in rocket.runs] == [f"{code}-jig", f"{code}-marks"]
    assert address_of(guide, rocket.runs[0].route) == f"{code}-jig"
    site = address_of(guide, rocket.runs[0].route, "https://example.org/")
    assert site == "https://example.org/rolled-rocket/index.html"


@pytest.mark.parametrize("sign", ["\N{RIGHT-TO-LEFT OVERRIDE}", "\N{RIGHT-TO-LEFT MARK}", "\N{SOFT HYPHEN}"])
def test_a_sign_that_nobody_sees_in_a_folders_name_is_not_printed(rocket: Book, sign: str) -> None:
    """Printed, it would turn the way in which the code or the address is read. UTF-8 of U+202E: E2 80 AE."""
    guide = msgspec.structs.replace(rocket.guide, id=f"kit{sign}a")
    route = rocket.runs[0].route
    assert code_of(guide, route).startswith("KW-kita-")
    address = address_of(guide, route, "https://example.org/")
    assert sign not in address and "kit%" in address
    if sign == "\N{RIGHT-TO-LEFT OVERRIDE}":
        assert address == "https://example.org/kit%E2%80%AEa/index.html"


def test_a_qr_code_has_its_quiet_zone() -> None:
    # ISO/IEC 18004: four modules stay empty on each side; a version 2 code is 25 modules wide
    drawn = qr("KW-rolled-rocket-1-jig")
    assert 'viewBox="0 0 33 33"' in drawn or 'viewBox="0 0 37 37"' in drawn
    size = int(drawn.split('viewBox="0 0 ')[1].split()[0])
    places = [piece.split("h")[0].split() for piece in drawn.split('d="')[1].split('"')[0].split("M")[1:]]
    columns, rows = ({int(place[axis]) for place in places} for axis in (0, 1))
    assert (min(columns), min(rows)) == (QUIET, QUIET)
    assert (max(columns), max(rows)) == (size - QUIET - 1, size - QUIET - 1)


def test_links_that_lead_elsewhere_are_only_words() -> None:
    from builder.packet.parts import relinked

    here, there = Link(text="step 1", href="#step-a"), Link(text="step 2", href="#step-b")
    assert relinked((here, there), {"step-a"}) == (here, Link(text="step 2", href=""))


@pytest.mark.parametrize(
    ("arguments", "status", "words"),
    [
        (["--spares", "many"], 2, "write a number (3) or a share (10%)"),
        (["--route", "jigs"], 2, "there is no option"),
        (["--paper", "a5"], 2, "a4"),
        (["--builders", "0"], 2, "range"),
    ],
)
def test_what_cannot_be_printed_is_said(
    tmp_path: Path, arguments: list[str], status: int, words: str
) -> None:
    folder = folder_with(GUIDE, tmp_path)
    given = [
        "packet",
        str(folder),
        "--builders",
        "4",
        "--paper",
        "a4",
        "-o",
        str(tmp_path / "out"),
        *arguments,
    ]
    run = CliRunner().invoke(main, given)
    assert run.exit_code == status
    assert words in run.output
    assert not (tmp_path / "out").exists()


def test_a_guide_that_cannot_be_built_is_not_printed(tmp_path: Path) -> None:
    folder = folder_with(GUIDE, tmp_path)
    text = (folder / "guide.yml").read_text(encoding="utf-8")
    (folder / "guide.yml").write_text(text.replace("for: disc}", "for: disk}"), encoding="utf-8")
    run = CliRunner().invoke(
        main, ["packet", str(folder), "-n", "4", "--paper", "a4", "-o", str(tmp_path / "out")]
    )
    assert run.exit_code == 1
    assert "kitwright check" in run.output
    assert not (tmp_path / "out").exists()


def test_a_folder_that_cannot_be_written_is_said(tmp_path: Path) -> None:
    folder = folder_with(GUIDE, tmp_path)
    (tmp_path / "out").write_text("a file", encoding="utf-8")
    run = CliRunner().invoke(
        main, ["packet", str(folder), "-n", "4", "--paper", "a4", "-o", str(tmp_path / "out" / "deeper")]
    )
    assert run.exit_code == 2
    assert "cannot write to" in run.output


def test_the_bytes_are_those_that_are_named(tmp_path: Path) -> None:
    write_whole(tmp_path / "x.pdf", b"abc")
    # SHA-256 of "abc": FIPS 180-2, appendix B.1
    assert hashlib.sha256((tmp_path / "x.pdf").read_bytes()).hexdigest().startswith("ba7816bf8f01cfea")
