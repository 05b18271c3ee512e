"""`python -m builder` is the command `kitwright`; an installed one begins here too."""

from __future__ import annotations

import gc
import io
import os
import sys
from typing import NoReturn


def run() -> None:
    """Carry out the command that was typed.

    A check is the command of every save and every commit, so it is kept short: no search for cycles among
    its many small values, no library to read options where none is given, and no taking apart of what dies
    with the process.
    """
    if isinstance(sys.stdout, io.TextIOWrapper):
        sys.stdout.reconfigure(errors="backslashreplace")  # a name that cannot be printed is no failure
    if sys.argv[1:2] != ["check"]:
        _with_options()
        return
    gc.disable()
    from builder.loading import find_own

    find_own("builder", os.path.dirname(os.path.abspath(__file__)))
    try:
        if any(argument.startswith("-") for argument in sys.argv[2:]):
            _with_options()
        else:
            _check(sys.argv[2:])
    except SystemExit as done:
        _leave(done)


def _with_options() -> None:
    from builder.cli import main

    main(prog_name="kitwright")


def _check(guides: list[str]) -> NoReturn:
    """`kitwright check [GUIDE]...`; it ends as the command with options does."""
    from builder.checking import NoGuide, check_guides

    try:
        sys.exit(check_guides(guides, print))
    except NoGuide as no:
        print(f"kitwright: {no}", file=sys.stderr)
        sys.exit(2)
    except BrokenPipeError:
        sys.exit(1)
    except KeyboardInterrupt:
        print("Aborted!", file=sys.stderr)
        sys.exit(1)


def _leave(done: SystemExit) -> NoReturn:
    """End the process at once; all that was said has been written."""
    if not isinstance(done.code, int):
        raise done
    try:
        sys.stdout.flush()
        sys.stderr.flush()
    except OSError:  # nobody reads on
        os._exit(1)
    os._exit(done.code)


if __name__ == "__main__":
    run()
