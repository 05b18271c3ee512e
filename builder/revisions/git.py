"""Guides as they were at a git reference, exported to a temporary folder and read from there.

All talk with git is in this file. Nothing is checked out: the work tree stays as it is.
"""

from __future__ import annotations

import io
import os
import shutil
import subprocess
import tarfile
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from builder.revisions.edition import Edition
from builder.revisions.locate import Unknown, folder_of
from builder.revisions.opening import open_edition

GUIDES = Path("guides")
PATIENCE = 60  # seconds for one call of git


def against(reference: str, names: list[str]) -> list[tuple[Edition, Edition]]:
    """The named guides (all below guides/ without a name) as they were at a reference, each with the guide as
    it is now. A guide that was not there yet, or is gone, is left out. Errors: Unknown."""
    folders = [folder_of(name) for name in names] or sorted(p.parent for p in GUIDES.glob("*/guide.yml"))
    if not folders:
        raise Unknown("there is no guide below guides/: name one, or go to the folder that holds guides/")
    found = []
    top = Path(_git("rev-parse", "--show-toplevel", at=folders[0]).strip())
    with exported(reference, top) as there:
        for folder in folders:
            before = there / folder.resolve().relative_to(top.resolve())
            if (before / "guide.yml").is_file():
                found.append((open_edition(before, reference), open_edition(folder)))
            elif names:
                raise Unknown(f"{reference} has no guide {folder}")
    return found


@contextmanager
def exported(reference: str, top: Path) -> Iterator[Path]:
    """A folder that holds all files at a reference for as long as it is needed. Errors: Unknown."""
    if reference.startswith("-"):
        raise Unknown(f"{reference} is not a git reference")
    commit = _git("rev-parse", "--verify", "--quiet", f"{reference}^{{commit}}", at=top).strip()
    if not commit:
        raise Unknown(f"git knows no {reference}: name a branch, a tag or a commit")
    archive = _call("archive", "--format=tar", commit, at=top)
    if archive.returncode:
        raise Unknown(f"git cannot export {reference}: {archive.stderr.decode('utf-8', 'replace').strip()}")
    with tempfile.TemporaryDirectory(prefix="kitwright-") as folder:
        with tarfile.open(fileobj=io.BytesIO(archive.stdout)) as tar:
            # Python 3.11.4 brought the filter; before it, what git lets into a tree has to do.
            if hasattr(tarfile, "data_filter"):
                tar.extractall(folder, filter="data")
            else:
                tar.extractall(folder)
        yield Path(folder)


def _git(*arguments: str, at: Path) -> str:
    """What git prints; nothing if it does not know. Errors: Unknown, if this is no repository."""
    ran = _call(*arguments, at=at)
    if ran.returncode and arguments[0] == "rev-parse" and "--show-toplevel" in arguments:
        raise Unknown(f"{at} is in no git repository")
    return "" if ran.returncode else ran.stdout.decode("utf-8", "replace")


def _call(*arguments: str, at: Path) -> subprocess.CompletedProcess[bytes]:
    git = shutil.which("git")
    if git is None:
        raise Unknown("git is not installed: name two folders instead")
    quiet = {**os.environ, "GIT_OPTIONAL_LOCKS": "0", "GIT_TERMINAL_PROMPT": "0"}
    try:
        return subprocess.run(
            [git, "-C", str(at), *arguments], capture_output=True, check=False, timeout=PATIENCE, env=quiet
        )
    except subprocess.TimeoutExpired:
        raise Unknown("git does not answer") from None
