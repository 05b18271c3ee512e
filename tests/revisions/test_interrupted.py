"""Sealing is killed at random moments: afterwards the revision is there whole or not at all."""

from __future__ import annotations

import os
import random
import signal
import subprocess
import sys
import time
from contextlib import suppress
from pathlib import Path

import pytest

from builder.revisions.vault import damage, numbers, write
from tests.revisions.shelf import bytes_of, lay_out

# Files enough make the writing long enough to be hit. KITWRIGHT_KILLS=200 tries as many moments.
FILES = 40
KILLS = int(os.environ.get("KITWRIGHT_KILLS", "25"))

# Everything is prepared once; each line that comes in forks a process that writes, and that may be killed.
PROGRAM = """
import os, sys
from pathlib import Path
from builder.revisions.seal import prepare, seal
folder = Path("guides/rack")
sealing = prepare(folder)
print("ready", flush=True)
for line in sys.stdin:
    writer = os.fork()
    if not writer:
        seal(folder, sealing)
        os._exit(0)
    print(writer, flush=True)
    os.waitpid(writer, 0)
    print("ended", flush=True)
"""


class Desk:
    """The process that seals, as often as it is asked to."""

    def __init__(self, top: Path) -> None:
        place = {**os.environ, "PYTHONPATH": str(Path(__file__).resolve().parents[2])}
        self.process = subprocess.Popen(
            [sys.executable, "-c", PROGRAM], cwd=top, env=place, stdin=subprocess.PIPE, stdout=subprocess.PIPE
        )
        assert self.said() == "ready"

    def said(self) -> str:
        """The next line that it says."""
        assert self.process.stdout is not None
        return self.process.stdout.readline().decode().strip()

    def seal(self, patience: float | None) -> float:
        """Seal, killed after so many seconds (None: never) -> how long it took."""
        assert self.process.stdin is not None
        start = time.monotonic()
        self.process.stdin.write(b"go\n")
        self.process.stdin.flush()
        writer = int(self.said())
        if patience is not None:
            time.sleep(patience)
            with suppress(ProcessLookupError):  # it was quicker
                os.kill(writer, signal.SIGKILL)
        assert self.said() == "ended"
        return time.monotonic() - start

    def close(self) -> None:
        """Send it home."""
        self.process.kill()
        self.process.communicate()


@pytest.mark.skipif(os.name == "nt", reason="not on this system: it has no fork")
def test_killed_at_random_moments(tmp_path: Path) -> None:
    rack = lay_out(tmp_path)
    for number in range(FILES):
        (rack / f"picture_{number}.svg").write_text(f"<svg><!-- {number} --></svg>\n" * 40, encoding="utf-8")
    before = bytes_of(rack)
    chance = random.Random(20261125)
    desk = Desk(tmp_path)
    try:
        took = desk.seal(None)
        done = _place(rack)
        outcomes = {"old": 0, "new": 0}
        for _ in range(KILLS):
            _undo(rack)
            desk.seal(chance.uniform(0, took))
            own = {name: data for name, data in bytes_of(rack).items() if not name.startswith("revisions/")}
            assert own == before
            if numbers(rack):
                assert list(damage(rack)) == []
                assert _place(rack) == done
                outcomes["new"] += 1
            else:
                outcomes["old"] += 1
        assert outcomes["old"] > KILLS // 10, outcomes
        _undo(rack)
        desk.seal(None)
        assert _place(rack) == done
    finally:
        desk.close()


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
