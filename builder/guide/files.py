"""Which files a guide is made of: its own, the shared ones beside it, its pages in Markdown."""

from __future__ import annotations

import os
from codecs import BOM_UTF8

from builder.findings import Finding, Place
from builder.guide.nodes import MOST_CHARACTERS, error

_LIBRARY = ("\nshared:", "\ncautions:", "\nverbs:")


def load(path: str | os.PathLike[str]) -> tuple[dict[str, str], str, list[Finding]]:
    """The texts of a guide by shown name: its own file, and every file of the `common` folder beside it.

    `path` is a guide's folder or its file. Unreadable files become findings.
    """
    file = os.fspath(path)
    if os.path.isdir(file):
        file = os.path.join(file, "guide.yml")
    folder = os.path.dirname(file)
    findings: list[Finding] = []
    texts: dict[str, str] = {}
    main = shown(file)
    _read(file, main, texts, findings)
    seen = {os.path.basename(file)}
    for place in (os.path.join(folder, os.pardir, "common"), os.path.join(folder, "common"), folder):
        for name in _listed(place, ".yml"):
            each = os.path.normpath(os.path.join(place, name))
            if name in seen or (place == folder and not _is_library(each)):
                continue
            seen.add(name)
            _read(each, shown(each), texts, findings)
    for name in _listed(folder, ".md"):
        each = os.path.join(folder, name)
        _read(each, shown(each), texts, findings)
    return texts, main, findings


def shared_texts(folder: str | os.PathLike[str]) -> tuple[dict[str, str], list[Finding]]:
    """The texts of a folder of shared files by shown name; none if there is no such folder."""
    texts: dict[str, str] = {}
    findings: list[Finding] = []
    place = os.fspath(folder)
    for name in _listed(place, ".yml"):
        each = os.path.normpath(os.path.join(place, name))
        _read(each, shown(each), texts, findings)
    return texts, findings


def _listed(folder: str, ending: str) -> list[str]:
    """The files of a folder with an ending, in order; none if it cannot be looked into."""
    try:
        return sorted(n for n in os.listdir(folder or os.curdir) if n.endswith(ending))
    except OSError:
        return []


def _read(file: str, name: str, texts: dict[str, str], findings: list[Finding]) -> None:
    reason = "it is not a file"
    try:
        if os.path.isfile(file) or not os.path.exists(file):
            with open(file, "rb") as stream:
                data = stream.read(4 * MOST_CHARACTERS + 1)
            texts[name] = data.removeprefix(BOM_UTF8).decode("utf-8")
            return
    except OSError as fault:
        reason = fault.strerror or "the system refuses"
    except ValueError as fault:
        decoding = isinstance(fault, UnicodeDecodeError)
        reason = "it is not UTF-8 text" if decoding else "its name cannot be used"
    findings.append(error("unreadable", Place(name, 1, 1), f"the file cannot be read: {reason}",
                          "Nothing in it can be used.", "Check its name, its rights, and that it is "
                          "saved as UTF-8 text."))  # fmt: skip


def _is_library(file: str) -> bool:
    """A file beside a lone guide counts as shared if it begins like a library, and is no guide itself."""
    try:
        with open(file, "rb") as stream:
            head = stream.read(2_000)
    except OSError:
        return False
    text = "\n" + head.decode("utf-8", "replace")
    return "\ntitle:" not in text and any(section in text for section in _LIBRARY)


def shown(path: str | os.PathLike[str]) -> str:
    """A path as it is shown: relative to the working folder where that is shorter, with slashes; signs
    that cannot be printed are replaced."""
    name = os.fspath(path)
    here = os.path.realpath(os.curdir)
    try:
        full = os.path.realpath(name)
    except ValueError:  # a name that no file can have
        full = ""
    if full.startswith(here + os.sep):
        name = os.path.relpath(full, here)
    return "".join(c if c.isprintable() else "?" for c in name.replace(os.sep, "/"))
