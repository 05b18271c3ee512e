"""`python -m builder` is the command `kitwright`."""

from __future__ import annotations

from builder.cli import main

if __name__ == "__main__":
    main(prog_name="kitwright")
