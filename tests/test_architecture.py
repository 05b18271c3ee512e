"""The shape of the project, held by tests: which way imports go, what has one home, what stays out."""

from __future__ import annotations

import ast
import functools
import re
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[1]

# Reading downwards is reading the data's way: a room imports from itself and from those before it.
# `explain` says of a number where it shows, so it stands after all that shows numbers; `editor` asks it.
ROOMS = (
    "loading", "findings", "quantities", "trade", "guide", "dryrun", "checks", "planting", "plan", "science",
    "drawings", "revisions", "pages", "packet", "explain", "editor", "site", "checking", "cli",
)  # fmt: skip

# The one place that touches a package, so that another can take its part by a change in one place.
HOMES = {
    "yaml": "builder/guide/",
    "jinja2": "builder/pages/",
    "cairosvg": "builder/drawings/raster.py",
    "cairocffi": "builder/drawings/raster.py",
    "weasyprint": "builder/packet/",
    "pypdfium2": "builder/packet/reading.py",
    "mkdocs": "builder/site.py",
}

# What `kitwright check` can do without, and would wait for.
HEAVY = (
    "cairocffi", "cairosvg", "fontTools", "jinja2", "mkdocs", "pypdf", "pypdfium2", "segno", "weasyprint",
)  # fmt: skip

# The same sources give the same bytes, without the network and without running what a guide brings.
NEVER = ("http", "pickle", "random", "secrets", "socket", "ssl", "subprocess", "urllib.request", "uuid")
MAY = {"builder/revisions/git.py": "subprocess"}  # the reviewer's own git, asked for by name
NEVER_CALLED = ("eval", "exec", "compile", "__import__")

# One idea a file.
LONGEST = 400

# (what may stand in no file of the project, why)
FORBIDDEN = (
    (r"(?<![\w.])/(?:work|tmp|farm|root|home|Users)/\w", "a path of one machine"),
    (r"[A-Z]:\\Users", "a path of one machine"),
    (r"pypi[.]org|python[h]osted|registry[.]npmjs", "a registry's host"),
    (r"(?:deb|archive|security)[.](?:debian|ubuntu)", "a registry's host"),
    (r"index[-]url|find[-]links", "a registry's address"),
    (r"(?i)\btranscript|\bthe[ ]video\b|\bseed[ ](?:document|video)", "the project speaks of itself alone"),
    (r"(?i)\bissue[ ]#?\d", "the project speaks of itself alone"),
)


def sources() -> list[Path]:
    """Every module of the package, in a fixed order."""
    return sorted((ROOT / "builder").rglob("*.py"))


@functools.cache
def nodes(path: Path) -> tuple[ast.AST, ...]:
    """Every node of a module's syntax tree. Kept, since several tests look at all modules."""
    return tuple(ast.walk(ast.parse(path.read_bytes())))


def imports(path: Path) -> Iterator[tuple[str, int]]:
    """(dotted name, line) of each import in a module, wherever it stands in the file.

    `from builder import site` counts as `builder.site`, since it is the room that is meant.
    """
    for node in nodes(path):
        if isinstance(node, ast.Import):
            yield from ((alias.name, node.lineno) for alias in node.names)
        elif isinstance(node, ast.ImportFrom) and node.module == "builder":
            yield from ((f"builder.{alias.name}", node.lineno) for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            yield "." * node.level + (node.module or ""), node.lineno


def room_of(path: Path) -> str:
    """The room that a module stands in: the first name after `builder/`."""
    return path.relative_to(ROOT / "builder").parts[0].removesuffix(".py")


def wrong_way(room: str, imported: str) -> bool:
    """Whether a module of this room may not import that dotted name."""
    package, *rest = imported.split(".")
    if package != "builder":
        return False
    if not rest or rest[0] not in ROOMS:
        return True
    return room in ROOMS and ROOMS.index(rest[0]) > ROOMS.index(room)


def away_from_home(path: str, imported: str) -> bool:
    """Whether a module (as `builder/...`) may not import that dotted name, which has its home elsewhere."""
    home = HOMES.get(imported.split(".")[0])
    return home is not None and not path.startswith(home)


@pytest.mark.parametrize(
    ("room", "imported", "wrong"),
    [
        ("guide", "builder.findings", False),
        ("guide", "builder.guide.reader", False),
        ("guide", "builder.dryrun.bench", True),
        ("findings", "builder.quantities", True),
        ("cli", "builder.site", False),
        ("site", "builder.cli", True),
        ("guide", "builder.toolbox", True),
        ("guide", "builder", True),
        ("guide", "msgspec", False),
    ],
)
def test_which_way_is_wrong(room: str, imported: str, wrong: bool) -> None:
    assert wrong_way(room, imported) is wrong


@pytest.mark.parametrize(
    ("path", "imported", "away"),
    [
        ("builder/guide/reader.py", "yaml", False),
        ("builder/site.py", "yaml", True),
        ("builder/drawings/svg.py", "cairosvg.surface", True),
        ("builder/drawings/raster.py", "cairosvg.surface", False),
        ("builder/packet/pdf.py", "jinja2", True),
        ("builder/cli.py", "mkdocs.commands.build", True),
        ("builder/cli.py", "click", False),
    ],
)
def test_what_is_away_from_home(path: str, imported: str, away: bool) -> None:
    assert away_from_home(path, imported) is away


def test_imports_are_found_wherever_they_stand(tmp_path: Path) -> None:
    module = tmp_path / "module.py"
    module.write_text(
        "import os, yaml.cyaml\nfrom builder import site\ndef late():\n    from builder.cli import main\n",
        encoding="utf-8",
    )
    assert sorted(imports(module)) == [("builder.cli", 4), ("builder.site", 2), ("os", 1), ("yaml.cyaml", 1)]


def test_every_module_stands_in_a_room() -> None:
    assert {room_of(path) for path in sources()} - {*ROOMS, "__init__", "__main__"} == set()


def test_imports_go_one_way() -> None:
    wrong = [
        f"{path.relative_to(ROOT)}:{line} imports {name}"
        for path in sources()
        for name, line in imports(path)
        if wrong_way(room_of(path), name)
    ]
    assert wrong == []


def test_packages_stay_at_home() -> None:
    away = [
        f"{path.relative_to(ROOT)}:{line} imports {name}"
        for path in sources()
        for name, line in imports(path)
        if away_from_home(path.relative_to(ROOT).as_posix(), name)
    ]
    assert away == []


def calls(path: Path, *functions: str) -> list[str]:
    """Where a module calls one of these built-in functions, as 'file:line calls it'."""
    return [
        f"{path.relative_to(ROOT)}:{node.lineno} calls {node.func.id}"
        for node in nodes(path)
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id in functions
    ]


def test_nothing_reaches_out_or_rolls_dice() -> None:
    found = [
        f"{path.relative_to(ROOT)}:{line} imports {name}"
        for path in sources()
        for name, line in imports(path)
        if any(f"{name}.".startswith(f"{banned}.") for banned in NEVER)
        and MAY.get(path.relative_to(ROOT).as_posix()) != name
    ]
    assert found == []
    assert [call for path in sources() for call in calls(path, *NEVER_CALLED)] == []


def test_numbers_stay_exact_before_the_drawings() -> None:
    exact = ROOMS[: ROOMS.index("drawings")]
    assert [call for path in sources() if room_of(path) in exact for call in calls(path, "float")] == []


def loaded_by(*arguments: str) -> list[str]:
    """The modules that are loaded when this command has ended, in a Python of its own."""
    program = (
        "import contextlib, io, sys\n"
        "from builder.cli import main\n"
        "sys.argv = ['kitwright', *sys.argv[1:]]\n"
        "with contextlib.suppress(SystemExit), contextlib.redirect_stdout(io.StringIO()):\n"
        "    main()\n"
        "print(*sys.modules, sep='\\n')\n"
    )
    command = [sys.executable, "-c", program, *arguments]
    run = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, check=False)
    assert run.returncode == 0, run.stderr
    return run.stdout.split()


@pytest.mark.parametrize(
    ("arguments", "at_work"),
    [(("--help",), "builder.cli"), (("check", "guides/rolled-rocket"), "builder.checks")],
)
def test_what_is_heavy_is_not_loaded_for_a_check(arguments: tuple[str, ...], at_work: str) -> None:
    loaded = loaded_by(*arguments)
    assert at_work in loaded
    assert sorted(set(loaded) & set(HEAVY)) == []


def test_no_module_is_too_long() -> None:
    lengths = {
        path.relative_to(ROOT).as_posix(): len(path.read_text(encoding="utf-8").splitlines())
        for path in sources()
    }
    assert {path: length for path, length in lengths.items() if length > LONGEST} == {}


def faults_of(text: str) -> list[str]:
    """What of `FORBIDDEN` a text holds, each as 'line: words (why)'."""
    return [
        f"{text.count(chr(10), 0, match.start()) + 1}: {match.group()!r} ({why})"
        for pattern, why in FORBIDDEN
        for match in re.finditer(pattern, text)
    ]


@pytest.mark.parametrize(
    ("words", "faulty"),
    [
        ("see " + "/".join(["", "work", "main"]), True),
        ("C:" + "\\Users\\ann", True),
        ("https://" + ".".join(["pypi", "org"]), True),
        ("--index" + "-url=x", True),
        ("in the " + "video it is said", True),
        ("as is" + "sue 2 asks", True),
        ("https://example.org/home/page", False),
        ("the work/life of a glue", False),
        ("/usr/bin/env bash", False),
        ("glue issues forth", False),
    ],
)
def test_what_is_forbidden(words: str, faulty: bool) -> None:
    assert bool(faults_of(words)) is faulty


def test_nothing_forbidden_is_in_a_tracked_file(git: str) -> None:
    names = subprocess.run(
        [git, "ls-files", "-z"], cwd=ROOT, capture_output=True, text=True, check=True
    ).stdout.split("\0")
    found: list[str] = []
    for name in filter(None, names):
        path = ROOT / name
        data = path.read_bytes() if path.is_file() else b""
        if b"\0" not in data:
            found += [f"{name}:{fault}" for fault in faults_of(data.decode("utf-8"))]
        found += [f"the name {name}:{fault}" for fault in faults_of(name)]
    assert found == []
