"""What the wheel carries for a review: a workflow and hooks, taken out of a wheel and carried out."""

from __future__ import annotations

import os
import shlex
import subprocess
import sys
import zipfile
from pathlib import Path
from typing import Any

import pytest
import yaml
from flit_core import buildapi

from tests.revisions.shelf import lay_out, run, write

ROOT = Path(__file__).resolve().parents[2]
PLACE = "builder/revisions/examples"
WORKFLOW, HOOKS = f"{PLACE}/workflow.yml", f"{PLACE}/pre-commit-hooks.yaml"


@pytest.fixture(scope="module")
def wheel(tmp_path_factory: pytest.TempPathFactory) -> zipfile.ZipFile:
    """The wheel, built by the backend that pyproject.toml names (PEP 517)."""
    folder = tmp_path_factory.mktemp("wheel")
    here = Path.cwd()
    os.chdir(ROOT)  # a backend is called in the folder of the project
    try:
        name = buildapi.build_wheel(str(folder))
    finally:
        os.chdir(here)
    return zipfile.ZipFile(folder / name)


def test_the_wheel_carries_them(wheel: zipfile.ZipFile) -> None:
    for name in (WORKFLOW, HOOKS):
        assert wheel.read(name) == (ROOT / name).read_bytes()


def test_this_repository_offers_the_same_hooks() -> None:
    assert (ROOT / ".pre-commit-hooks.yaml").read_bytes() == (ROOT / HOOKS).read_bytes()


def steps(wheel: zipfile.ZipFile) -> list[dict[str, Any]]:
    """The steps of the workflow that run something."""
    (job,) = yaml.safe_load(wheel.read(WORKFLOW))["jobs"].values()
    return [step for step in job["steps"] if "run" in step]


@pytest.fixture
def request_folder(git: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A pull request: the branch `main` of its origin has the older card rack, the work tree a newer one;
    `kitwright` and `gh` are commands of its own path."""
    monkeypatch.chdir(tmp_path)
    rack = lay_out(tmp_path)
    quiet = {**os.environ, "GIT_CONFIG_GLOBAL": os.devnull, "GIT_CONFIG_SYSTEM": os.devnull}

    def call(*arguments: str) -> None:
        who = ("-c", "user.name=A. Brook", "-c", "user.email=brook@example.org")
        subprocess.run([git, *who, *arguments], check=True, capture_output=True, env=quiet)

    call("init", "-b", "work")
    call("add", ".")
    call("commit", "-m", "The rack")
    call("update-ref", "refs/remotes/origin/main", "HEAD")
    write(rack, ("for: 20 min}", "for: 15 min}"))
    tools = tmp_path / "bin"
    tools.mkdir()
    for name, line in (("kitwright", f'"{sys.executable}" -m builder "$@"'), ("gh", 'echo "$@" > asked.txt')):
        (tools / name).write_text(f"#!/bin/sh\n{line}\n", encoding="utf-8")
        (tools / name).chmod(0o755)
    monkeypatch.setenv("PATH", f"{tools}{os.pathsep}{os.environ['PATH']}")
    monkeypatch.setenv("PYTHONPATH", str(ROOT))
    monkeypatch.setenv("GITHUB_STEP_SUMMARY", str(tmp_path / "summary.md"))
    monkeypatch.setenv("BASE", "main")
    monkeypatch.setenv("NUMBER", "7")
    return tmp_path


def test_the_workflow_tells_what_changes_at_the_bench(wheel: zipfile.ZipFile, request_folder: Path) -> None:
    for step in steps(wheel):
        if "install" in step["run"]:
            continue
        done = subprocess.run(["sh", "-e", "-c", step["run"]], capture_output=True, text=True, check=False)
        assert done.returncode == 0, done.stderr
    told = (request_folder / "summary.md").read_text(encoding="utf-8")
    assert told.startswith("## Card rack: the working guide compared with origin/main")
    assert "wait 15 min, was 20 min **(weakened)**" in told
    assert (request_folder / "asked.txt").read_text(encoding="utf-8").split() == [
        "pr", "comment", "7", "--edit-last", "--create-if-none", "--body-file", "changes.md",
    ]  # fmt: skip
    assert told == (request_folder / "changes.md").read_text(encoding="utf-8")


def test_the_workflow_fails_where_a_guide_has_an_error(wheel: zipfile.ZipFile, request_folder: Path) -> None:
    write(request_folder / "guides" / "rack", ("length: 60 mm ± 1 mm", "length: 600 mm ± 1 mm"))
    (check,) = [step["run"] for step in steps(wheel) if "check" in step["run"]]
    done = subprocess.run(["sh", "-e", "-c", check], capture_output=True, text=True, check=False)
    assert done.returncode == 1 and "::error file=guides/rack/guide.yml" in done.stdout


def test_the_hooks_do_what_they_say(wheel: zipfile.ZipFile, request_folder: Path) -> None:
    hooks = {hook["id"]: hook for hook in yaml.safe_load(wheel.read(HOOKS))}
    assert list(hooks) == ["kitwright-check", "kitwright-strict"]
    for hook in hooks.values():
        assert (hook["language"], hook["pass_filenames"], hook["files"]) == ("python", False, "^guides/")
        name, *arguments = shlex.split(hook["entry"])
        assert name == "kitwright" and run(*arguments).exit_code == 0
    rack = request_folder / "guides" / "rack"
    write(rack, number=1, dated="2026-09-07")
    assert run("seal", "guides/rack").exit_code == 0
    (rack / "revisions" / "1" / "report.json").write_text("[1]", encoding="utf-8")
    for hook in hooks.values():
        assert run(*shlex.split(hook["entry"])[1:]).exit_code != 0
