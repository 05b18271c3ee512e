"""Sealing is killed at random moments: afterwards the revision is there whole or not at all."""

from __future__ import annotations

import os
import random
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

from builder.revisions.vault import damage, numbers, write
from tests.revisions.shelf import bytes_of, lay_out

# A hundred files more make the writing long enough to be hit; 200 moments are tried with KITWRIGHT_KILLS=200.
FILES = 100
KILLS = int(os.environ.get("KITWRIGHT_KILLS", "12"))

PROGRAM = """
import sys
from pathlib import Path
from builder.revisions.seal import prepare, seal
folder = Path("guides/rack")
sealing = prepare(folder)
print("ready", flush=True)
sys.stdin.readline()
seal(folder, sealing)
"""


@pytest.mark.skipif(os.name == "nt", reason="not on this system: it has no SIGKILL")
def test_killed_at_random_moments(tmp_path: Path) -> None:
    rack = lay_out(tmp_path)
    for number in range(FILES):
        (rack / f"picture_{number}.svg").write_text(f"<svg><!-- {number} --></svg>\n" * 40, encoding="utf-8")
    before = bytes_of(rack)
    chance = random.Random(20261125)
    whole = _sealed_after(tmp_path, None)
    done = _place(rack)
    took = whole
    outcomes = {"old": 0, "new": 0}
    for _ in range(KILLS):
        _undo(rack)
        _sealed_after(tmp_path, chance.uniform(0, took * 1.2))
        assert {name: data for name, data in bytes_of(rack).items() if "revisions/" not in name} == before
        if numbers(rack):
            assert list(damage(rack)) == []
            assert _place(rack) == done
            outcomes["new"] += 1
        else:
            outcomes["old"] += 1
    assert outcomes["old"], "no moment was hit while it wrote"
    _undo(rack)
    _sealed_after(tmp_path, None)
    assert _place(rack) == done


def _sealed_after(top: Path, patience: float | None) -> float:
    """Seal in a process of its own, killed after so many seconds of writing (None: never) -> its seconds."""
    place = {**os.environ, "PYTHONPATH": str(Path(__file__).resolve().parents[2])}
    with subprocess.Popen(
        [sys.executable, "-c", PROGRAM], cwd=top, env=place, stdin=subprocess.PIPE, stdout=subprocess.PIPE
    ) as process:
        assert process.stdout is not None and process.stdin is not None
        assert process.stdout.readline() == b"ready\n"
        start = time.monotonic()
        process.stdin.write(b"go\n")
        process.stdin.flush()
        if patience is not None:
            time.sleep(patience)
            process.send_signal(signal.SIGKILL)
        process.wait()
        return time.monotonic() - start


def _place(rack: Path) -> dict[str, bytes]:
    return bytes_of(rack / "revisions" / "1")


def _undo(rack: Path) -> None:
    """Take the revision away, if there is one; what was left half-written stays, as it would at a desk."""
    place = rack / "revisions" / "1"
    if place.exists():
        for path in sorted(place.rglob("*"), reverse=True):
            path.rmdir() if path.is_dir() else path.unlink()
        place.rmdir()


def test_a_revision_is_never_written_over(tmp_path: Path) -> None:
    write(tmp_path, 1, {"a": b"first"})
    with pytest.raises(FileExistsError):
        write(tmp_path, 1, {"a": b"second"})
    assert bytes_of(tmp_path / "revisions") == {"1/a": b"first"}


def test_nothing_half_written_is_left_by_a_fault(tmp_path: Path) -> None:
    with pytest.raises(OSError):
        write(tmp_path, 1, {"a": b"first", "a/b": b"no folder"})
    assert bytes_of(tmp_path / "revisions") == {}
