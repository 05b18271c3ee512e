"""Work that several processors do at once: each piece in a process of its own, its result in order."""

from __future__ import annotations

import os
import signal
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from functools import partial
from typing import Any

Start = Callable[["partial[Any]"], Callable[[], Any]]
"""Takes a piece of work and gives what waits for its result, or raises what it raised."""


def processors() -> int:
    """How many processors this process may use."""
    if hasattr(os, "sched_getaffinity"):
        return len(os.sched_getaffinity(0))
    return os.cpu_count() or 1


@contextmanager
def side_by_side(pieces: int, workers: int = 0) -> Iterator[Start]:
    """Where as many pieces are to be done, do them in so many processes (by default one for each processor);
    alone, a piece is done here, when its result is asked for.

    When the block ends by an error or by Ctrl-C, the pieces that are not done are ended with it.
    """
    workers = min(pieces, workers or processors())
    if workers < 2:
        yield lambda piece: piece
        return
    # loaded here, since the commands that print nothing need none of it
    from concurrent.futures import ProcessPoolExecutor
    from multiprocessing import active_children, get_context

    before = active_children()
    # each begins anew: a copy of this process would have copies of its libraries' locks
    pool = ProcessPoolExecutor(workers, get_context("spawn"))

    def start(piece: partial[Any]) -> Callable[[], Any]:
        with _unheard():
            return pool.submit(piece).result

    try:
        yield start
    except BaseException:
        pool.shutdown(wait=False, cancel_futures=True)
        ended = [child for child in active_children() if child not in before]
        for child in ended:
            child.terminate()
        for child in ended:
            child.join()
        raise
    finally:
        pool.shutdown()


@contextmanager
def _unheard() -> Iterator[None]:
    """Processes begun here do not hear Ctrl-C: this one does, ends them, and is the only one to say so."""
    if not hasattr(signal, "pthread_sigmask"):
        yield
        return
    before = signal.pthread_sigmask(signal.SIG_BLOCK, {signal.SIGINT})
    try:
        yield
    finally:
        signal.pthread_sigmask(signal.SIG_SETMASK, before)
