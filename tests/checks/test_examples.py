"""Every check has a failing and a mended example: the one is told at its line, the other not at all."""

from __future__ import annotations

import pytest

from builder.checks.every import ALL
from builder.findings import Severity, Sources, as_text, exit_status
from tests.checks.examples_of import FOLDER, example, kit, whole

NAMES = [check.name for check in ALL]


def test_every_check_has_its_examples_and_every_example_its_check() -> None:
    assert sorted(path.relative_to(FOLDER).as_posix() for path in FOLDER.rglob("*.yml")) == sorted(
        f"{name}/{kind}.yml" for name in NAMES for kind in ("bad", "good")
    )


@pytest.mark.parametrize("name", NAMES)
def test_the_failing_example_is_told_once_at_its_line(name: str) -> None:
    bad = example(name, "bad")
    told = bad.findings()
    shown = as_text(told, Sources({"guide.yml": bad.text}))
    assert [(f.check, f.place.line) for f in told] == [(name, bad.line)], shown
    assert told[0].why and told[0].mend
    check = next(c for c in ALL if c.name == name)
    assert told[0].severity is check.severity
    assert exit_status(told) == int(check.severity is Severity.ERROR)
    assert told[0].safety is check.safety


@pytest.mark.parametrize("name", NAMES)
def test_the_mended_example_has_no_finding(name: str) -> None:
    good = example(name, "good")
    assert as_text(good.findings(), Sources({"guide.yml": good.text})) == ""


def test_the_two_examples_of_a_check_differ_only_a_little() -> None:
    """What mends a fault is a few lines, so that the pair shows it. The most: a step added, or moved."""
    for name in NAMES:
        texts = ((FOLDER / name / f"{kind}.yml").read_text("utf-8") for kind in ("bad", "good"))
        bad, good = (text.splitlines() for text in texts)
        assert bad != good
        changed = {line.strip() for line in bad} ^ {line.strip() for line in good}
        assert len(changed - {"# here"}) <= 9, name


def test_an_example_takes_its_things_from_the_kit() -> None:
    taken = whole("# takes: tube, ring\nparts:\n  lug: {form: tube}\nsteps:\n  # here\n  - {id: a}\n")
    lines = taken.text.splitlines()
    assert lines[:4] == [
        "title: An example",
        "units: {first: mm, second: in, finest: 1 mm}",
        "finished: {is: tube, holds: all}",
        "parts:",
    ]
    assert lines[taken.line - 1] == "  - {id: a}"
    entries = [line for line in lines if line.startswith(("  tube", "  ring", "  lug"))]
    assert [line.split(":")[0].strip() for line in entries] == ["tube", "ring", "lug"]


def test_nothing_lies_in_the_kit_unused() -> None:
    firsts = [path.read_text("utf-8").partition("\n")[0] for path in FOLDER.rglob("*.yml")]
    taken = {word for first in firsts for word in first.removeprefix("# takes:").replace(",", " ").split()}
    assert {name for section in kit().values() for name in section} - taken == set()
