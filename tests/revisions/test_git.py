"""Guides compared with what they were at a git reference, in a repository of the test's own."""

from __future__ import annotations

import json
import os
import subprocess
from pathlib import Path

import pytest

from tests.revisions.rack import SHARED
from tests.revisions.shelf import bytes_of, lay_out, run, write


@pytest.fixture
def repository(git: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A repository whose branch `main` holds the first card rack, and whose work tree has a newer one."""
    monkeypatch.chdir(tmp_path)
    quiet = {**os.environ, "GIT_CONFIG_GLOBAL": os.devnull, "GIT_CONFIG_SYSTEM": os.devnull}
    rack = lay_out(tmp_path)

    def call(*arguments: str) -> None:
        who = ("-c", "user.name=A. Brook", "-c", "user.email=brook@example.org")
        subprocess.run([git, *who, *arguments], check=True, capture_output=True, env=quiet)

    call("init", "-b", "main")
    call("add", ".")
    call("commit", "-m", "The rack")
    call("tag", "first")
    write(rack, ("for: 20 min}", "for: 15 min}"), ("title: Saw the peg", "title: Saw the round peg"))
    return tmp_path


def test_markdown_for_a_pull_request(repository: Path) -> None:
    ran = run("compare", "--git", "main")
    assert ran.exit_code == 0, ran.output
    assert ran.output.splitlines()[:8] == [
        "## Card rack: the working guide compared with main",
        "",
        "2 changes: 1 safety (1 weakened), 1 wording.",
        "",
        "### Safety: what guards against harm",
        "",
        "- Step 11, Glue the peg on: wait 15 min, was 20 min **(weakened)**",
        "  - A class under way: **stop: tell the class before it goes on**",
    ]


@pytest.mark.parametrize("reference", ["main", "first", "HEAD"])
def test_any_reference(repository: Path, reference: str) -> None:
    ran = run("compare", "--git", reference, "guides/rack", "--format", "json")
    assert ran.exit_code == 0, ran.output
    assert json.loads(ran.output)["old"] == reference


def test_a_shared_step_as_it_was_there(repository: Path) -> None:
    shared = repository / "guides" / "common" / "leave.yml"
    shared.write_text(SHARED.replace("until: cured", "until: set"), encoding="utf-8")
    output = run("compare", "--git", "main").output
    assert "Leave the peg to cure: wait until set (30 min), was until cured (24 h)" in output


def test_nothing_is_written_to_the_repository(repository: Path) -> None:
    before = bytes_of(repository)
    assert run("compare", "--git", "main").exit_code == 0
    after = bytes_of(repository)
    assert before == after


@pytest.mark.parametrize(
    ("reference", "guide", "said"),
    [
        ("nowhere", "guides/rack", "git knows no nowhere"),
        ("--output=x", "guides/rack", "is not a git reference"),
        ("main", "guides/none", "there is no guide guides/none"),
    ],
)
def test_what_cannot_be_found(repository: Path, reference: str, guide: str, said: str) -> None:
    ran = run("compare", f"--git={reference}", guide)
    assert ran.exit_code == 2 and said in ran.output


def test_a_guide_that_was_not_there_yet(repository: Path) -> None:
    lay_out(repository / "more")
    ran = run("compare", "--git", "main", "more/guides/rack")
    assert ran.exit_code == 2 and "main has no guide more/guides/rack" in ran.output
    assert run("compare", "--git", "main").exit_code == 0


def test_outside_a_repository(tmp_path: Path, git: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("GIT_CEILING_DIRECTORIES", str(tmp_path.parent))
    lay_out(tmp_path)
    ran = run("compare", "--git", "main")
    assert ran.exit_code == 2 and "in no git repository" in ran.output
