"""Work side by side gives what the same work alone gives, raises what it raised, and leaves nobody behind."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import time
from concurrent.futures.process import BrokenProcessPool
from functools import partial
from multiprocessing import active_children
from pathlib import Path

import pytest

from builder.packet.side_by_side import side_by_side


def nobody_is_left() -> bool:
    """True once no process is left, which is asked for 2 s: the pool's own thread waits for processes too,
    and may strike off one that has ended a moment later.  The sleepers here would sleep for 60 s."""
    for _ in range(100):
        if not active_children():
            return True
        time.sleep(0.02)
    return False


@pytest.mark.parametrize("workers", [1, 2])
def test_results_come_in_the_order_asked_for(workers: int) -> None:
    with side_by_side(3, workers) as start:
        made = [start(partial(pow, base, 2)) for base in (5, 3, 4)]
        assert [each() for each in made] == [25, 9, 16]
        where = start(partial(os.getpid))()
    assert (where == os.getpid()) is (workers == 1)
    assert nobody_is_left()


@pytest.mark.parametrize("workers", [1, 2])
def test_what_a_piece_raises_is_raised_and_the_rest_is_ended(workers: int) -> None:
    begun = time.monotonic()
    with pytest.raises(ValueError, match="invalid literal"), side_by_side(3, workers) as start:
        made = [start(partial(int, "x")), start(partial(time.sleep, 60)), start(partial(time.sleep, 60))]
        for each in made:
            each()
    assert time.monotonic() - begun < 30
    assert nobody_is_left()


def test_a_worker_that_is_ended_from_outside_is_noticed() -> None:
    with pytest.raises(BrokenProcessPool), side_by_side(2, 2) as start:
        start(partial(os._exit, 3))()
    assert nobody_is_left()


LONG = """
import signal, sys, time
from functools import partial
from builder.packet.side_by_side import side_by_side
if __name__ == "__main__":
    signal.signal(signal.SIGINT, signal.default_int_handler)  # whoever runs the tests may ignore it
    try:
        with side_by_side(2, 2) as start:
            made = [start(partial(time.sleep, 60)) for _ in range(2)]
            start(partial(pow, 2, 2))  # it waits behind the others
            print("begun", flush=True)
            made[0]()
    except KeyboardInterrupt:
        sys.exit(7)
"""


@pytest.mark.skipif(os.name == "nt", reason="there a group of processes gets Ctrl-C in another way")
def test_ctrl_c_ends_all_at_once_without_a_word(tmp_path: Path) -> None:
    program = tmp_path / "long.py"
    program.write_text(LONG, encoding="utf-8")
    root = Path(__file__).resolve().parents[2]
    with subprocess.Popen(
        [sys.executable, str(program)],
        cwd=root, env={**os.environ, "PYTHONPATH": str(root)}, start_new_session=True,
        stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True,
    ) as run:  # fmt: skip
        try:
            assert run.stdout is not None and run.stdout.readline() == "begun\n"
            os.killpg(run.pid, signal.SIGINT)
            _, said = run.communicate(timeout=30)
        except BaseException:
            os.killpg(run.pid, signal.SIGKILL)
            raise
    assert run.returncode == 7 and said == ""
