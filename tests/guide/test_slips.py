"""The table of the reader's checks is whole: each is made somewhere, and each has a case that it refuses."""

from __future__ import annotations

import re
from pathlib import Path

from builder.guide.slips import NAMES, SLIPS
from tests.guide import test_names, test_structure, test_text, test_values

HERE = Path(__file__).resolve().parent
ROOT = HERE.parents[1]


def test_every_check_of_the_reader_stands_in_the_table() -> None:
    made = set()
    for path in sorted((ROOT / "builder" / "guide").glob("*.py")):
        text = path.read_text(encoding="utf-8")
        made |= set(re.findall(r'(?:fault|error|Finding)\(\s*"([a-z-]+)"', text))
    assert made == set(NAMES)
    assert len(NAMES) == len(set(NAMES))


def test_every_row_is_told_whole() -> None:
    for slip in SLIPS:
        assert slip.what.endswith(".") and slip.why.endswith("."), slip.name
        assert slip.example and slip.mend and slip.example != slip.mend, slip.name


def test_every_check_has_a_case() -> None:
    rows = (*test_text.CASES, *test_names.CASES, *test_values.CASES, *test_structure.CASES)
    planted = {check for row in rows for check in row.checks}
    elsewhere = {"control-character", "too-large", "too-deep", "too-many", "unreadable"}
    tests = "".join(path.read_text(encoding="utf-8") for path in sorted(HERE.glob("test_*.py")))
    assert planted | elsewhere == set(NAMES)
    assert all(f'"{name}"' in tests for name in elsewhere)
