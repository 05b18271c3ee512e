"""The tool's own modules, found by their names and read from the bytecode beside them.

A check loads well over a hundred small modules of one folder, and Python would look for each anew: ask every
finder, list folders, work out paths, look at a file four times. Here one look at the source and one at its
bytecode do. The bytecode counts if its head tells of this source, by time and size, as Python writes and
reads it (PEP 552); whatever is not so plain is left to Python.
"""

from __future__ import annotations

import marshal
import os
import sys
from collections.abc import Sequence
from importlib.machinery import ModuleSpec, SourceFileLoader
from importlib.util import MAGIC_NUMBER
from types import CodeType, ModuleType

_UNCHECKED = bytes(4)  # no flags: time and size of the source follow


class OwnLoader(SourceFileLoader):
    """Takes the bytecode beside a source if its head is the one expected; else does what Python does."""

    def __init__(self, name: str, path: str, cached: str, head: bytes) -> None:
        super().__init__(name, path)
        self._cached, self._head = cached, head

    def get_code(self, fullname: str) -> CodeType | None:
        """The code of the module."""
        try:
            with open(self._cached, "rb", 0) as stream:
                data = stream.read()
        except OSError:
            return super().get_code(fullname)
        if data[:16] == self._head:
            code = marshal.loads(memoryview(data)[16:])
            if isinstance(code, CodeType) and code.co_filename == self.path:
                return code
        return super().get_code(fullname)


class OwnFinder:
    """Finds the modules of a package below its folder, by their names alone."""

    def __init__(self, package: str, folder: str, tag: str) -> None:
        self._package, self._folder, self._ending = f"{package}.", folder, f".{tag}.pyc"

    def find_spec(
        self, name: str, path: Sequence[str] | None = None, target: ModuleType | None = None
    ) -> ModuleSpec | None:
        """Where a module is; None if it is none of the package, or not where its name says."""
        if not name.startswith(self._package):
            return None
        place = f"{self._folder}/{name[len(self._package) :].replace('.', '/')}"
        is_package = False
        try:
            source = os.stat(f"{place}.py")
        except OSError:
            is_package, place = True, f"{place}/__init__"
            try:
                source = os.stat(f"{place}.py")
            except OSError:
                return None
        folder, _, last = place.rpartition("/")
        file, cached = f"{place}.py", f"{folder}/__pycache__/{last}{self._ending}"
        time, size = int(source.st_mtime) & 0xFFFFFFFF, source.st_size & 0xFFFFFFFF
        head = MAGIC_NUMBER + _UNCHECKED + time.to_bytes(4, "little") + size.to_bytes(4, "little")
        spec = ModuleSpec(name, OwnLoader(name, file, cached, head), origin=file, is_package=is_package)
        spec.has_location, spec.cached = True, cached
        if is_package:
            spec.submodule_search_locations = [folder]
        return spec


def find_own(package: str, folder: str) -> None:
    """Let the modules of a package be found so from now on, where bytecode stands in its usual place."""
    tag = sys.implementation.cache_tag
    if tag and not sys.flags.optimize and sys.pycache_prefix is None and os.sep == "/":
        sys.meta_path.insert(0, OwnFinder(package, folder, tag))
