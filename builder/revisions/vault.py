"""The sealed revisions of a guide on disk: reading them, proving them whole, writing the next one.

A revision is written beside its place, file by file, and then put there by one rename: whatever happens
meanwhile, it is there whole or not at all.
"""

from __future__ import annotations

import os
import shutil
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import NamedTuple

from builder.revisions.manifest import NAME, Manifest, decode, digest, intact

FOLDER = "revisions"


class Damage(NamedTuple):
    """What is wrong with the sealed revisions: the file, what happened to it, and the revision."""

    path: Path
    what: str
    number: int


class Sealed(NamedTuple):
    """A sealed revision: its number, its folder, its manifest."""

    number: int
    folder: Path
    manifest: Manifest


def numbers(guide: Path) -> list[int]:
    """The numbers of the sealed revisions of a guide's folder, in order."""
    folder = guide / FOLDER
    if not folder.is_dir():
        return []
    return sorted(int(each.name) for each in folder.iterdir() if each.name.isdigit() and each.is_dir())


def sealed_revisions(guide: Path) -> list[Sealed]:
    """The sealed revisions whose manifest can be read, in order."""
    found = []
    for number in numbers(guide):
        manifest = _manifest(guide / FOLDER / str(number))
        if manifest is not None:
            found.append(Sealed(number, guide / FOLDER / str(number), manifest))
    return found


def _manifest(folder: Path) -> Manifest | None:
    try:
        return decode((folder / NAME).read_bytes())
    except (OSError, ValueError):
        return None


def damage(guide: Path) -> Iterator[Damage]:
    """Everything that is not as it was sealed: files that are altered, missing or added, a manifest that
    was altered, revisions that are missing."""
    there = numbers(guide)
    before = ""
    for number in range(1, max(there, default=0) + 1):
        folder = guide / FOLDER / str(number)
        if number not in there:
            yield Damage(folder, "the revision is missing, though later ones are there", number)
            before = ""
            continue
        manifest = _manifest(folder)
        if manifest is None:
            yield Damage(folder / NAME, "the manifest is missing or cannot be read", number)
            before = ""
            continue
        if not intact(manifest):
            yield Damage(folder / NAME, "the manifest is not the one that was sealed", number)
        elif manifest.number != number:
            yield Damage(folder / NAME, f"the manifest is that of revision {manifest.number}", number)
        elif before and manifest.before != before:
            yield Damage(
                folder / NAME, "the revision was sealed after another one than the one before it", number
            )
        before = manifest.seal
        yield from _files(folder, manifest, number)


def _files(folder: Path, manifest: Manifest, number: int) -> Iterator[Damage]:
    there = {each.relative_to(folder).as_posix(): each for each in _walk(folder)}
    for name, sum_then in manifest.files.items():
        path = there.pop(name, None)
        if path is None:
            yield Damage(folder / name, "the file is missing", number)
            continue
        try:
            same = digest(path.read_bytes()) == sum_then
        except OSError:
            yield Damage(path, "the file cannot be read", number)
            continue
        if not same:
            yield Damage(path, "the file was altered", number)
    there.pop(NAME, None)
    for path in there.values():
        yield Damage(path, "the file was added", number)


def _walk(folder: Path) -> Iterator[Path]:
    """Every file below a folder, in order; what the system puts there by itself is passed over."""
    for place, inner, names in os.walk(folder):
        inner.sort()
        for name in sorted(names):
            if name not in (".DS_Store", "Thumbs.db", "desktop.ini"):
                yield Path(place) / name


def write(guide: Path, number: int, files: Mapping[str, bytes]) -> Path:
    """Write a revision -> its folder. `files` are its bytes by path, the manifest among them. Errors:
    FileExistsError, if there is one of that number; OSError. Half a revision is never there."""
    top = guide / FOLDER
    place = top / str(number)
    if place.exists():
        raise FileExistsError(f"{place} is there already")
    top.mkdir(exist_ok=True)
    part = top / f".{number}.part"
    shutil.rmtree(part, ignore_errors=True)
    try:
        for name, data in files.items():
            _write(part / name, data)
        for folder, _, _ in os.walk(part):
            _settle(folder)
        os.rename(part, place)
    except BaseException:
        shutil.rmtree(part, ignore_errors=True)
        raise
    _settle(top)
    return place


def _write(path: Path, data: bytes) -> None:
    path.parent.mkdir(parents=True, exist_ok=True)
    with path.open("wb") as file:
        file.write(data)
        file.flush()
        os.fsync(file.fileno())


def _settle(folder: str | Path) -> None:
    """Have the system write a folder's list of names, where it knows how to."""
    if os.name == "nt":
        return
    handle = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)
