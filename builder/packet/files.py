"""Files that are either whole or not there."""

from __future__ import annotations

import os
from contextlib import suppress
from pathlib import Path


def write_whole(path: Path, data: bytes) -> None:
    """Write a file beside its place and move it there. Errors: OSError; nothing half-written is left."""
    path.parent.mkdir(parents=True, exist_ok=True)
    beside = path.with_name(f".{path.name}.part")
    try:
        with beside.open("wb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        os.replace(beside, path)
    except BaseException:
        with suppress(OSError):
            beside.unlink()
        raise
