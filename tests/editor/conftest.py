"""A folder with guides as a writer has it: the rocket, and what it shares with others."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from tests.editor.session import ROOT


@pytest.fixture(scope="session")
def library(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """guides/rolled-rocket, guides/sail-cart and guides/common, copied; a test changes nothing in it."""
    folder = tmp_path_factory.mktemp("library")
    for name in ("rolled-rocket", "sail-cart", "common"):
        shutil.copytree(ROOT / "guides" / name, folder / "guides" / name)
    return folder
