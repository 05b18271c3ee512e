"""What was built before, taken over where nothing that it depends on has changed.

A site carries its own list: for each thing that was built as one, a key made of all that it depends on (the
tool itself among it), the files, and one SHA-256 over them. The next build takes those files over from the
site that stands there, byte for byte, as long as key and files agree. Nothing is kept beside the site.
"""

from __future__ import annotations

import hashlib
import sys
from collections.abc import Callable, Iterable
from functools import lru_cache
from importlib.metadata import PackageNotFoundError, version
from pathlib import Path

import msgspec

from builder.pages.render import THEME
from builder.pages.website import WebFile
from builder.revisions.vault import FOLDER

NAME = "built.json"
LIBRARIES = ("cairosvg", "fonttools", "jinja2", "markdown", "mkdocs", "nh3", "pyphen", "segno", "weasyprint")
"""Libraries that put bytes into a page or a packet."""


class Row(msgspec.Struct, frozen=True):
    """One thing that was built: the files by their paths in the site, and the SHA-256 over them all."""

    files: tuple[str, ...]
    digest: str


class Store:
    """The files of an earlier build, from the site in a folder or from memory, and those of this one."""

    def __init__(self, site: Path | None = None) -> None:
        self.site = site
        self.rows: dict[str, Row] = {}
        self.memory: dict[str, tuple[WebFile, ...]] = {}
        self.before: dict[str, Row] = {}
        if site is not None:
            try:
                self.before = msgspec.json.decode((site / NAME).read_bytes(), type=dict[str, Row])
            except (OSError, ValueError):
                self.before = {}

    def files(self, key: str, make: Callable[[], Iterable[WebFile]]) -> tuple[WebFile, ...]:
        """The files under a key: as they were built before, else made now."""
        found = self.memory.get(key) or self._taken(key) or tuple(make())
        self.memory[key] = found
        self.rows[key] = Row(tuple(file.path for file in found), _digest(found))
        return found

    def has(self, key: str) -> bool:
        """Whether the files under a key are there from before."""
        found = self.memory.get(key) or self._taken(key)
        if found:
            self.memory[key] = found
        return bool(found)

    def _taken(self, key: str) -> tuple[WebFile, ...]:
        row = self.before.get(key)
        if row is None or self.site is None:
            return ()
        try:
            found = tuple(WebFile(path=path, content=(self.site / path).read_bytes()) for path in row.files)
        except (OSError, ValueError):
            return ()
        return found if _digest(found) == row.digest else ()

    def stands(self, key: str) -> bool:
        """Whether the whole site that stands there was built under this key, and is as it was built."""
        row = self.before.get(key)
        if row is None or self.site is None:
            return False
        return _whole(self.site) == row

    @staticmethod
    def close(site: Path, key: str) -> None:
        """Write into a site that was just built that all of it was built under this key."""
        path = site / NAME
        rows = msgspec.json.decode(path.read_bytes(), type=dict[str, Row]) if path.is_file() else {}
        rows[key] = _whole(site)
        path.write_bytes(_encoded(rows))

    def settled(self) -> WebFile:
        """The list of this build, for the next one; what it did not ask for is forgotten."""
        rows = self.rows
        self.memory = {key: files for key, files in self.memory.items() if key in rows}
        self.rows = {}
        return WebFile(path=NAME, content=_encoded(rows))


def _encoded(rows: dict[str, Row]) -> bytes:
    return msgspec.json.format(msgspec.json.encode(dict(sorted(rows.items()))), indent=1) + b"\n"


def _whole(site: Path) -> Row:
    """Every file of a site but its list, as one row without their names."""
    paths = sorted(path.relative_to(site).as_posix() for path in site.rglob("*") if path.is_file())
    found = (WebFile(path=each, content=(site / each).read_bytes()) for each in paths if each != NAME)
    return Row((), _digest(found))


def _digest(files: Iterable[WebFile]) -> str:
    made = hashlib.sha256()
    for file in files:
        made.update(f"{file.path}\0{len(file.content)}\0".encode())
        made.update(file.content)
    return made.hexdigest()


def key_of(*parts: object) -> str:
    """A key of everything that is named, in this order, and of the tool."""
    made = hashlib.sha256(tool_sign().encode())
    for part in parts:
        data = part if isinstance(part, bytes) else str(part).encode()
        made.update(f"{len(data)}\0".encode())
        made.update(data)
    return made.hexdigest()[:32]


@lru_cache(maxsize=1)
def tool_sign() -> str:
    """A sign of the tool itself: its code, its theme, the libraries that lay out pages, and Python."""
    made = hashlib.sha256(sys.version.encode())
    for name in LIBRARIES:
        try:
            made.update(f"{name} {version(name)}\n".encode())
        except PackageNotFoundError:
            continue
    for folder in (Path(__file__).resolve().parents[1], THEME):
        for path in sorted(folder.rglob("*")):
            if path.is_file() and path.suffix != ".pyc":
                made.update(path.relative_to(folder).as_posix().encode() + b"\0" + path.read_bytes())
    return made.hexdigest()


def sources_sign(settings: Path, docs: Path) -> str:
    """A sign of everything that a site is made of: its settings, and every file below its guides."""
    made = hashlib.sha256(settings.read_bytes())
    for path in sorted(docs.rglob("*")):
        if path.is_file():
            made.update(f"{path.relative_to(docs).as_posix()}\0{path.stat().st_size}\0".encode())
            made.update(path.read_bytes())
    return made.hexdigest()


def source_sign(guide: Path) -> str:
    """A sign of all that a guide is made of: its folder without its revisions, and what guides share."""
    made = hashlib.sha256()
    for path in sorted(guide.rglob("*")) + sorted((guide.parent / "common").rglob("*")):
        if path.is_file() and FOLDER not in path.relative_to(guide.parent).parts:
            made.update(f"{path.relative_to(guide.parent).as_posix()}\0{path.stat().st_size}\0".encode())
            made.update(path.read_bytes())
    return made.hexdigest()
