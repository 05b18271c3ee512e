"""The tool's own modules are read from the bytecode beside them, where it is that of the source as it is."""

from __future__ import annotations

import importlib.util
import os
import py_compile
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from types import ModuleType

import pytest

from builder.loading import OwnFinder

ROOT = Path(__file__).resolve().parents[1]
TAG = sys.implementation.cache_tag or ""


def loaded(folder: Path, name: str) -> ModuleType:
    """A module of the package `kit` in this folder, loaded anew."""
    spec = OwnFinder("kit", str(folder), TAG).find_spec(f"kit.{name}")
    assert spec is not None and spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


def bytecode(folder: Path) -> Path:
    return folder / "__pycache__" / f"part.{TAG}.pyc"


def other_bytecode(folder: Path) -> None:
    """Bytecode that says 2, with the head that belongs to the source that says 1."""
    head = bytecode(folder).read_bytes()[:16]
    (folder / "part.py").write_text("SIZE = 2\n", "utf-8")
    py_compile.compile(str(folder / "part.py"))
    (folder / "part.py").write_text("SIZE = 1\n", "utf-8")
    os.utime(folder / "part.py", (1_000_000_000, 1_000_000_000))
    bytecode(folder).write_bytes(head + bytecode(folder).read_bytes()[16:])


def longer_source(folder: Path) -> None:
    (folder / "part.py").write_text("SIZE = 200\n", "utf-8")
    os.utime(folder / "part.py", (1_000_000_000, 1_000_000_000))


def later_source(folder: Path) -> None:
    (folder / "part.py").write_text("SIZE = 3\n", "utf-8")
    os.utime(folder / "part.py", (1_000_000_001, 1_000_000_001))


def another_python(folder: Path) -> None:
    """Bytecode of another version, beside a source that has changed since."""
    bytecode(folder).write_bytes(b"\0\0" + bytecode(folder).read_bytes()[2:])


def by_content(folder: Path) -> None:
    """Bytecode that is checked by the content of its source (PEP 552)."""
    mode = py_compile.PycInvalidationMode.CHECKED_HASH
    py_compile.compile(str(folder / "part.py"), invalidation_mode=mode)
    later_source(folder)


def moved(folder: Path) -> None:
    """Bytecode of a source that lay elsewhere: its tracebacks would name a file that is not there."""
    py_compile.compile(str(folder / "part.py"), dfile="/elsewhere/part.py")


@pytest.mark.parametrize(
    ("change", "size"),
    [
        (lambda folder: None, 1),
        (other_bytecode, 2),  # what shows that the bytecode is taken at all
        (lambda folder: bytecode(folder).unlink(), 1),
        (longer_source, 200),
        (later_source, 3),
        (another_python, 1),
        (by_content, 3),
        (moved, 1),
        (lambda folder: bytecode(folder).write_bytes(b""), 1),
    ],
)
def test_bytecode_counts_only_for_its_own_source(
    tmp_path: Path, change: Callable[[Path], None], size: int
) -> None:
    (tmp_path / "part.py").write_text("SIZE = 1\n", "utf-8")
    os.utime(tmp_path / "part.py", (1_000_000_000, 1_000_000_000))
    py_compile.compile(str(tmp_path / "part.py"))
    change(tmp_path)
    module = loaded(tmp_path, "part")
    assert size == module.SIZE
    assert module.__file__ == str(tmp_path / "part.py")
    assert module.__cached__ == str(bytecode(tmp_path))


def test_names_say_where_a_module_is(tmp_path: Path) -> None:
    (tmp_path / "room").mkdir()
    (tmp_path / "room" / "__init__.py").write_text("", "utf-8")
    (tmp_path / "room" / "part.py").write_text("", "utf-8")
    find = OwnFinder("kit", str(tmp_path), TAG).find_spec
    room, part = find("kit.room"), find("kit.room.part")
    assert room is not None and room.submodule_search_locations == [str(tmp_path / "room")]
    assert part is not None and part.origin == str(tmp_path / "room" / "part.py")
    assert part.submodule_search_locations is None
    assert find("kit.none") is find("kit") is find("kitten.room") is find("os.path") is None


def test_a_check_finds_its_modules_so() -> None:
    program = (
        "import sys\n"
        "import builder.__main__ as command\n"
        "command._leave = lambda done: print(*(m.__spec__.loader.__class__.__name__ for n, m in\n"
        "    sys.modules.items() if n.startswith('builder.') and n not in seen), sep='\\n')\n"
        "seen = {*sys.modules, 'builder.loading'}\n"
        "sys.argv = ['kitwright', 'check', 'guides/sail-cart']\n"
        "command.run()\n"
    )
    command = [sys.executable, "-c", program]
    run = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, check=True)
    loaders = run.stdout.split()[-100:]
    assert set(loaders) == {"OwnLoader"}
