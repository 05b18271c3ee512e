"""`kitwright check` as a process: with and without options it says the same, and it ends in good order."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest
from click.testing import CliRunner

from builder.cli import main
from tests.test_architecture import HEAVY

ROOT = Path(__file__).resolve().parents[1]
GUIDE = "guides/sail-cart"


def process(*arguments: str, **more: str) -> subprocess.CompletedProcess[str]:
    """The command in a process of its own, in the folder of the project."""
    command = [sys.executable, "-m", "builder", *arguments]
    return subprocess.run(
        command, cwd=ROOT, capture_output=True, text=True, check=False, env={**os.environ, **more}
    )


@pytest.fixture
def faulty(tmp_path: Path) -> str:
    """A guide with one error: a unit is missing."""
    text = (ROOT / GUIDE / "guide.yml").read_text("utf-8")
    assert text.count("time: 6 min") > 0
    (tmp_path / "guide.yml").write_text(text.replace("time: 6 min", "time: 6", 1), encoding="utf-8")
    return str(tmp_path)


def test_without_options_it_says_what_it_says_with_them(
    faulty: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(ROOT)
    for guides, status in (((faulty,), 1), ((GUIDE,), 0), (("nowhere",), 2), (("guides",), 2)):
        plain = process("check", *guides)
        read = CliRunner().invoke(main, ["check", *guides])
        assert (plain.returncode, plain.stdout, plain.stderr) == (read.exit_code, read.stdout, read.stderr)
        assert plain.returncode == status
    with_option = process("check", "--strict", faulty)
    assert (with_option.returncode, with_option.stdout) == (1, process("check", faulty).stdout)


def test_a_check_that_is_asked_plainly_loads_no_reader_of_options() -> None:
    program = (
        "import sys\n"
        "import builder.__main__ as command\n"
        "command._leave = lambda done: print(done.code, *sys.modules, sep='\\n')\n"
        f"sys.argv = ['kitwright', 'check', {GUIDE!r}]\n"
        "command.run()\n"
    )
    command = [sys.executable, "-c", program]
    run = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, check=True)
    told, status, *loaded = run.stdout.split("\n")
    assert told.startswith("Sail cart: no finding") and status == "0"
    assert "builder.checks.judge" in loaded
    assert sorted({"click", "builder.checks.of_needs", *HEAVY} & set(loaded)) == []


def test_nobody_needs_to_read_to_the_end() -> None:
    for options in ((), ("--format", "json")):
        command = [sys.executable, "-m", "builder", "check", *options, GUIDE]
        with subprocess.Popen(command, cwd=ROOT, stdout=subprocess.PIPE, stderr=subprocess.PIPE) as run:
            assert run.stdout is not None and run.stderr is not None
            run.stdout.close()
            assert (run.wait(), run.stderr.read()) == (1, b"")


@pytest.mark.skipif(sys.platform == "win32", reason="not on this system: names of files are bytes")
def test_a_name_that_cannot_be_printed_is_no_failure(tmp_path: Path) -> None:
    folder = tmp_path / os.fsdecode(b"kit\xff")
    folder.mkdir()
    (folder / "guide.yml").write_text("title: ½ of a kit\nsteps: []\n", encoding="utf-8")
    for arguments, told in (
        (("check", str(folder)), "\\xbd of a kit: 1 error"),
        (("check", "--strict", str(folder)), "of a kit: 1 error"),
        (("check", f"{folder}x"), "kit\\udcffx"),
    ):
        run = process(*arguments, PYTHONIOENCODING="ascii")
        assert run.returncode in (1, 2) and "Traceback" not in run.stderr
        assert told in run.stdout + run.stderr
