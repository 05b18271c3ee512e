"""The guides that are open in an editor, read from what is on the screen before what is on the disk."""

from __future__ import annotations

import os
from collections.abc import Mapping
from typing import NamedTuple

from builder.checks.judge import check
from builder.dryrun.kinds import VERBS
from builder.dryrun.run import DryRun, run_all
from builder.findings import Finding
from builder.guide.files import load, shown
from builder.guide.model import Guide
from builder.guide.reader import read


class Read(NamedTuple):
    """A guide as it stands in the editor."""

    guide: Guide
    texts: Mapping[str, str]


class Judged(NamedTuple):
    """A guide that was run and checked. `texts` are those that it was read from."""

    guide: Guide
    runs: tuple[DryRun, ...]
    findings: tuple[Finding, ...]
    texts: Mapping[str, str]


class Workspace:
    """Open documents by path, and what was read from them last."""

    def __init__(self) -> None:
        self.open: dict[str, str] = {}
        self._read: dict[str, Read] = {}
        self._judged: dict[str, Judged] = {}

    def guides_of(self, path: str) -> list[str]:
        """The files of the guides that a document belongs to: its own, or for a shared file every guide
        beside its folder. Empty for what is no part of a guide."""
        folder, name = os.path.split(path)
        if os.path.basename(folder) == "common":
            return _guides_below(os.path.dirname(folder)) or _guides_below(folder)
        if name.endswith(".md"):
            main = os.path.join(folder, "guide.yml")
            return [main] if main in self.open or os.path.isfile(main) else []
        return [path] if name.endswith((".yml", ".yaml")) else []

    def texts(self, main: str) -> tuple[dict[str, str], str, list[Finding]]:
        """The texts of a guide by shown name: what is open counts, the rest is read from disk."""
        texts, name, findings = load(main)
        screen = {shown(path): text for path, text in self.open.items()}
        for file in {name, *texts} & screen.keys():
            texts[file] = screen[file]
        return texts, name, [f for f in findings if f.place.file not in screen]

    def read(self, main: str) -> Read:
        """A guide as it is now; read again only if a text changed."""
        texts, name, findings = self.texts(main)
        before = self._read.get(main)
        if before is not None and before.texts == texts:
            return before
        guide = read(texts, name, VERBS, _id_of(main), findings)
        made = self._read[main] = Read(guide, texts)
        return made

    def read_as(self, main: str, path: str, text: str) -> Guide:
        """A guide as it would be with another text in one of its files, which is not remembered."""
        texts, name, findings = self.texts(main)
        return read({**texts, shown(path): text}, name, VERBS, _id_of(main), findings)

    def judged(self, main: str) -> Judged:
        """A guide with its dry runs and findings; run again only if a text changed."""
        now = self.read(main)
        before = self._judged.get(main)
        if before is not None and before.texts == now.texts:
            return before
        runs = run_all(now.guide)
        made = self._judged[main] = Judged(now.guide, runs, tuple(check(now.guide, runs)), now.texts)
        return made

    def forget(self, main: str) -> None:
        """A guide that no document is open of."""
        self._read.pop(main, None)
        self._judged.pop(main, None)


def _guides_below(folder: str) -> list[str]:
    try:
        names = sorted(os.listdir(folder))
    except OSError:
        return []
    files = (os.path.join(folder, name, "guide.yml") for name in names)
    return [file for file in files if os.path.isfile(file)]


def _id_of(main: str) -> str:
    folder, name = os.path.split(main)
    return os.path.basename(folder) if name == "guide.yml" else name.rpartition(".")[0]
