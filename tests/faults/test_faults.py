"""Each planted fault gives exactly one leading error, at the right line, on the routes concerned."""

from __future__ import annotations

import pytest

from tests.faults.planting import GUIDE, SHARED, clean, errors_of, findings_of, pairs, planted, wrong_with
from tests.faults.table import FAULTS, Fault


def test_the_guide_without_a_fault_has_no_finding() -> None:
    assert findings_of(clean()) == []


@pytest.mark.parametrize("fault", FAULTS, ids=lambda f: f.name)
def test_one_fault_one_leading_error(fault: Fault) -> None:
    texts = planted((fault,))
    assert texts is not None, "the guide no longer holds the text that this fault changes"
    findings = findings_of(texts)
    errors = errors_of(findings)
    assert [f.check for f in errors] == [fault.check]
    assert findings == errors
    error = errors[0]
    line = texts[SHARED if fault.file else GUIDE].splitlines()[error.place.line - 1]
    assert fault.line.split("\n")[0] in line
    assert error.routes == fault.routes
    assert error.why and error.mend


@pytest.mark.parametrize("pair", pairs()[::17], ids=lambda p: f"{p[0].name} + {p[1].name}")
def test_two_faults_are_both_told(pair: tuple[Fault, Fault]) -> None:
    """A spread of the pairs; all of them: `python -m tests.faults.planting`."""
    assert wrong_with(pair) == ""


def test_consequences_are_printed_beneath_their_leader() -> None:
    fault = next(f for f in FAULTS if f.name == "cut longer than the stock left")
    texts = planted((fault,))
    assert texts is not None
    assert [f.check for f in errors_of(findings_of(texts))[0].follows] == ["remainder"]
