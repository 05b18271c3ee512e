"""What all tests share: nothing is left to chance, and nothing goes unseen where CI is set.

A test that needs a program that is no Python package asks for it by the fixture of that name, and is
skipped where it is missing. With CI in the environment such a skip is a failure: a check that silently
stopped running looks just like one that passes.
"""

from __future__ import annotations

import os
import shutil
from collections.abc import Generator

import pytest
from hypothesis import settings

# The same examples every time and on every machine; a slow one is no failure.
settings.register_profile("kitwright", derandomize=True, deadline=None, database=None)
settings.load_profile("kitwright")

# A skip with such a reason is meant (a test for another system), and stays one everywhere.
MEANT = "not on this system"


def program(*names: str) -> str:
    """The path of the first of these programs that is installed; skips the test if none is."""
    for name in names:
        path = shutil.which(name)
        if path is not None:
            return path
    pytest.skip(f"{names[0]} is missing")


@pytest.fixture(scope="session")
def chromium() -> str:
    """The path of a Chromium."""
    return program("chromium", "chromium-browser")


@pytest.fixture(scope="session")
def pdftoppm() -> str:
    """The path of the program that turns PDF pages into pictures."""
    return program("pdftoppm")


@pytest.fixture(scope="session")
def git() -> str:
    """The path of git."""
    return program("git")


def fail_a_skip(report: pytest.TestReport | pytest.CollectReport) -> None:
    """Turn a report of a skip for lack of something into one of a failure, if CI is set."""
    if not os.environ.get("CI") or report.outcome != "skipped" or hasattr(report, "wasxfail"):
        return
    reason = report.longrepr[2] if isinstance(report.longrepr, tuple) else str(report.longrepr)
    if MEANT not in reason:
        report.outcome = "failed"
        report.longrepr = f"a test may not be skipped in CI ({reason})"


@pytest.hookimpl(wrapper=True)
def pytest_runtest_makereport() -> Generator[None, pytest.TestReport, pytest.TestReport]:
    """See `fail_a_skip`: for one test."""
    report = yield
    fail_a_skip(report)
    return report


@pytest.hookimpl(wrapper=True)
def pytest_make_collect_report() -> Generator[None, pytest.CollectReport, pytest.CollectReport]:
    """See `fail_a_skip`: for a whole module."""
    report = yield
    fail_a_skip(report)
    return report
