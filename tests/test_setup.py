"""The set-up: what the Makefile offers, what is pinned, and what the set-up says where it cannot go on."""

from __future__ import annotations

import importlib.util
import os
import re
import subprocess
import sys
import tomllib
from collections.abc import Callable, Iterator
from importlib.metadata import packages_distributions, requires
from pathlib import Path
from types import ModuleType

import pytest
from packaging.requirements import Requirement
from packaging.utils import canonicalize_name

from tests.conftest import program
from tests.test_architecture import imports

ROOT = Path(__file__).resolve().parents[1]
MAKEFILE = (ROOT / "Makefile").read_text(encoding="utf-8")
PROJECT = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]


# What the Makefile offers


def targets() -> set[str]:
    """The names that the Makefile declares as commands."""
    declared = re.search(r"^\.PHONY: (.*)$", MAKEFILE, re.MULTILINE)
    assert declared is not None
    return set(declared[1].split())


def test_help_is_the_default_and_lists_every_target() -> None:
    ruled = set(re.findall(r"^(\w+):", MAKEFILE, re.MULTILINE))
    assert ruled == targets()
    run = subprocess.run(
        [program("make"), "--no-print-directory"],
        cwd=ROOT,
        env={name: value for name, value in os.environ.items() if not name.startswith(("MAKE", "MFLAGS"))},
        capture_output=True,
        text=True,
        check=True,
    )
    listed = re.findall(r"^  make (\w+) +\S", run.stdout, re.MULTILINE)
    assert set(listed) == targets()
    assert len(listed) == len(run.stdout.splitlines())


@pytest.mark.parametrize("name", ["README.md", "DEVELOPERS.md"])
def test_commands_in_the_documents_exist(name: str) -> None:
    text = (ROOT / name).read_text(encoding="utf-8")
    told = set(re.findall(r"(?:^\s*(?:\$ )?|`)make ([a-z]+)", text, re.MULTILINE))
    assert told <= targets()
    assert {"site", "test"} <= told or name != "README.md"


def test_what_the_makefile_runs_is_there() -> None:
    modules = re.findall(r"\$\(RUN\) ([\w.]+)", MAKEFILE)
    assert {"builder", "mkdocs", "mypy", "pytest", "ruff"} <= set(modules)
    assert [module for module in modules if importlib.util.find_spec(module) is None] == []


def test_ci_runs_the_command_of_the_readme() -> None:
    run = ROOT / ".ci" / "run"
    assert os.access(run, os.X_OK)
    assert run.read_text(encoding="utf-8").rstrip().endswith("make test")


# What is pinned


def pins() -> dict[str, str]:
    """Package -> version, from constraints.txt, for every system."""
    lines = (ROOT / "constraints.txt").read_text(encoding="utf-8").splitlines()
    parsed = [re.fullmatch(r"([\w.-]+)==([\w.]+)(?: ; .+)?", line) for line in lines if line[:1] != "#"]
    assert all(parsed), "constraints.txt holds something else than name==version"
    return {canonicalize_name(match[1]): match[2] for match in parsed if match}


def needed(package: str, extras: frozenset[str], seen: set[str]) -> Iterator[Requirement]:
    """Every requirement of an installed package, and of what it requires, that applies on this system."""
    for line in requires(package) or ():
        requirement = Requirement(line)
        marker = requirement.marker
        if marker is None or any(marker.evaluate({"extra": extra}) for extra in ("", *extras)):
            yield requirement
            key = f"{canonicalize_name(requirement.name)}{sorted(requirement.extras)}"
            if key not in seen:
                seen.add(key)
                yield from needed(requirement.name, frozenset(requirement.extras), seen)


def test_everything_is_pinned_to_a_version_that_will_do() -> None:
    own = [Requirement(line) for line in PROJECT["dependencies"] + PROJECT["optional-dependencies"]["test"]]
    seen: set[str] = set()
    everything = [*own, *(deep for one in own for deep in needed(one.name, frozenset(one.extras), seen))]
    fixed = pins()
    loose = {one.name for one in everything if canonicalize_name(one.name) not in fixed}
    assert loose == set()
    wrong = {
        str(one)
        for one in everything
        if not one.specifier.contains(fixed[canonicalize_name(one.name)], prereleases=True)
    }
    assert wrong == set()
    # What only another system needs is pinned too; it cannot be reached from here.
    unused = set(fixed) - {canonicalize_name(one.name) for one in everything} - {"colorama"}
    assert unused == set()


def imported(folder: str) -> set[str]:
    """The packages that the modules below a folder import, as they are called on the package index."""
    names = {
        name.split(".")[0]
        for path in sorted((ROOT / folder).rglob("*.py"))
        for name, _ in imports(path)
    } - {*sys.stdlib_module_names, "builder", "tests", "conftest"}
    known = packages_distributions()
    return {canonicalize_name(known[name][0] if name in known else name) for name in names}


def test_what_is_imported_is_declared() -> None:
    own = {canonicalize_name(Requirement(line).name) for line in PROJECT["dependencies"]}
    extra = {canonicalize_name(Requirement(line).name) for line in PROJECT["optional-dependencies"]["test"]}
    assert imported("builder") - own == set()
    assert imported("tests") - own - extra == set()


# What the set-up says and does


@pytest.fixture
def set_up() -> ModuleType:
    """The set-up script as a module. It stands outside the package, since it runs before there is one."""
    spec = importlib.util.spec_from_file_location("set_up", ROOT / ".ci" / "set_up.py")
    assert spec is not None and spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


Run = Callable[..., subprocess.CompletedProcess[str]]


def machine(log: list[str], *, fails: Callable[[str, int], bool]) -> Run:
    """A stand-in for running commands: notes each; `fails(command, how many before)` says which fail."""

    def run(*command: object) -> subprocess.CompletedProcess[str]:
        line = " ".join(map(str, command))
        code = int(fails(line, len(log)))
        log.append(line)
        return subprocess.CompletedProcess([line], code, "its last words")

    return run


@pytest.mark.parametrize(
    ("platform", "command"),
    [
        ("linux", "sudo apt install libcairo2 libpango-1.0-0"),
        ("darwin", "brew install cairo pango"),
        ("win32", "pacman -S mingw-w64-ucrt-x86_64-cairo mingw-w64-ucrt-x86_64-pango"),
    ],
)
def test_missing_libraries_without_leave_to_install(
    set_up: ModuleType, monkeypatch: pytest.MonkeyPatch, platform: str, command: str
) -> None:
    log: list[str] = []
    monkeypatch.setattr(set_up, "run", machine(log, fails=lambda line, before: True))
    monkeypatch.setattr(set_up, "apt_prefix", lambda: None)
    monkeypatch.setattr(set_up.sys, "platform", platform)
    with pytest.raises(set_up.SetUpError, match="cairo and pango are missing") as caught:
        set_up.find_libraries()
    assert command in str(caught.value)
    assert not any("apt-get" in line for line in log)


def test_an_unknown_system_is_told_everything(set_up: ModuleType) -> None:
    assert all(name in set_up.library_help("sunos5") for name in ("Debian", "macOS", "Windows"))


@pytest.mark.parametrize("lists", ["there", "stale"])
def test_missing_libraries_are_installed(
    set_up: ModuleType, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], lists: str
) -> None:
    log: list[str] = []

    def fails(line: str, before: int) -> bool:
        if "apt-get install" in line:
            return lists == "stale" and not any("apt-get update" in done for done in log)
        return "import cairocffi" in line and not any("apt-get install" in done for done in log)

    monkeypatch.setattr(set_up, "run", machine(log, fails=fails))
    monkeypatch.setattr(set_up, "apt_prefix", lambda: ["sudo", "-n"])
    set_up.find_libraries()
    tried = [line.split()[3] for line in log if "apt-get" in line]
    assert tried == (["install"] if lists == "there" else ["install", "update", "install"])
    assert all(line.startswith("sudo -n ") for line in log if "apt-get" in line)
    assert capsys.readouterr().out == f"Installing {' '.join(set_up.APT_LIBRARIES)} with apt ...\n"


def test_nothing_is_installed_where_nothing_is_missing(
    set_up: ModuleType, monkeypatch: pytest.MonkeyPatch
) -> None:
    log: list[str] = []
    monkeypatch.setattr(set_up, "run", machine(log, fails=lambda line, before: False))
    set_up.find_libraries()
    assert len(log) == 1


def test_libraries_that_do_not_load_after_all_are_told(
    set_up: ModuleType, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr(set_up, "run", machine([], fails=lambda line, before: "import cairocffi" in line))
    monkeypatch.setattr(set_up, "apt_prefix", list)
    with pytest.raises(set_up.SetUpError, match="cairo and pango are missing"):
        set_up.find_libraries()
    assert "Installing" in capsys.readouterr().out


def test_an_unhappy_set_up_ends_in_words(
    set_up: ModuleType, monkeypatch: pytest.MonkeyPatch, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr(set_up, "PYTHON", tmp_path / "python")
    monkeypatch.setattr(set_up, "run", machine([], fails=lambda line, before: "pip install" in line))
    assert set_up.main(["test"]) == 2
    told = capsys.readouterr().err
    assert "pip could not install" in told and "  its last words" in told


def test_a_python_without_venv_says_which_package_brings_it(
    set_up: ModuleType, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    monkeypatch.setattr(set_up, "PYTHON", tmp_path / "python")
    monkeypatch.setattr(set_up, "run", machine([], fails=lambda line, before: "-m venv" in line))
    monkeypatch.setattr(set_up, "apt_prefix", lambda: None)
    monkeypatch.setattr(set_up.shutil, "which", lambda name: name)
    monkeypatch.setattr(set_up.sys, "version_info", (3, 12, 3))
    with pytest.raises(set_up.SetUpError, match=r"sudo apt install python3\.12-venv"):
        set_up.make_venv()


def test_an_old_python_is_turned_away(
    set_up: ModuleType, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr(set_up.sys, "version_info", (3, 10, 12))
    assert set_up.main(["site"]) == 2
    assert "Python 3.11 or later" in capsys.readouterr().err
