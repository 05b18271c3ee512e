"""A test skipped for lack of a component is a failure in CI, and only there."""

from __future__ import annotations

import os
import re
import subprocess
import sys
from pathlib import Path

import pytest

CONFTEST = Path(__file__).with_name("conftest.py")

SKIPPING = {
    "test_asks": 'import conftest\ndef test_it(): conftest.program("no-such-program")',
    "test_marked": 'import pytest\n@pytest.mark.skipif(True, reason="x is missing")\ndef test_it(): pass',
    "test_module": 'import pytest\npytest.importorskip("no_such_package")\ndef test_it(): pass',
}
HARMLESS = {
    "test_meant": 'import pytest\ndef test_it(): pytest.skip("not on this system")',
    "test_known": "import pytest\n@pytest.mark.xfail\ndef test_it(): assert False",
    "test_passes": "def test_it(): pass",
}


@pytest.mark.parametrize(("ci", "failing"), [("true", set(SKIPPING)), ("", set())])
def test_a_skip_fails_in_ci(tmp_path: Path, ci: str, failing: set[str]) -> None:
    (tmp_path / "conftest.py").write_text(CONFTEST.read_text(encoding="utf-8"), encoding="utf-8")
    for name, source in {**SKIPPING, **HARMLESS}.items():
        (tmp_path / f"{name}.py").write_text(source, encoding="utf-8")
    run = subprocess.run(
        [sys.executable, "-m", "pytest", "-rfE", "--continue-on-collection-errors", "--rootdir", "."],
        env={**os.environ, "CI": ci},
        cwd=tmp_path,
        capture_output=True,
        text=True,
        check=False,
    )
    assert set(re.findall(r"^(?:FAILED|ERROR) (\w+)\.py", run.stdout, re.MULTILINE)) == failing, run.stdout
    assert "no-such-program is missing" in run.stdout or not failing
