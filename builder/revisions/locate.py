"""Which guide is meant: a folder, a sealed revision, a git reference."""

from __future__ import annotations

from pathlib import Path


class Unknown(Exception):
    """No guide is meant by that name; the text says why, for a person."""


REVISIONS = "revisions"


def folder_of(name: str) -> Path:
    """The folder that holds a guide.yml. `name` is that folder, the file itself, a sealed revision
    (`guides/cart@2`, `guides/cart/revisions/2`). Errors: Unknown."""
    path = Path(name)
    if path.name == "guide.yml" and path.is_file():
        return path.parent
    if (path / "guide.yml").is_file():
        return path
    inner = within(path)
    if inner is not None:
        return inner
    guide, at, number = name.rpartition("@")
    if at and number.isdigit():
        path = Path(guide) / REVISIONS / number
        if not path.is_dir():
            raise Unknown(
                f"{guide} has no sealed revision {number}; it has {_numbers(Path(guide)) or 'none'}"
            )
    inner = within(path)
    if inner is None and at and path.is_dir():
        raise Unknown(f"revision {number} of {guide} is sealed, and its manifest is missing")
    if inner is None:
        raise Unknown(
            f"there is no guide {name}: name a folder with a guide.yml, or GUIDE@NUMBER for a revision"
        )
    return inner


def within(revision: Path) -> Path | None:
    """The guide's folder inside the folder of a sealed revision."""
    if not (revision / "manifest.json").is_file():
        return None
    return next((p.parent for p in sorted(revision.glob("*/guide.yml"))), None)


def _numbers(guide: Path) -> str:
    folder = guide / REVISIONS
    found = [p.name for p in folder.iterdir() if p.name.isdigit()] if folder.is_dir() else []
    return ", ".join(sorted(found, key=int))
