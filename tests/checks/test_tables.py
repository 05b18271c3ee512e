"""The tables of checks: names, reasons and mends, the page of each, who leads and what runs when."""

from __future__ import annotations

import sys
from collections import Counter
from pathlib import Path
from types import ModuleType

import pytest
from click.testing import CliRunner

from builder import checks
from builder.checks import GUIDE_CHECKS, ORDER, RUN_CHECKS, RUNS_CHECKS
from builder.checks.base import Check
from builder.checks.every import ALL, ALSO
from builder.checks.of_needs import NEED_CHECKS
from builder.cli import main
from builder.drawings.checks import CHECKS as DRAWING_CHECKS
from builder.dryrun.needs import Need
from builder.dryrun.placing import Named
from builder.guide.slips import NAMES
from builder.packet.proofs import PROOFS
from builder.revisions.checks import ALL as REVISION_CHECKS

PARTS = ("What:", "Why:", "Bad:", "Good:")


def module_of(check: Check) -> ModuleType:
    """The file that a check stands in."""
    return sys.modules[check.find.__module__]


def test_names_are_unique_and_can_be_typed() -> None:
    assert [name for name, times in Counter(c.name for c in ALL).items() if times > 1] == []
    assert all(check.name.replace("-", "").isalpha() and check.name.islower() for check in ALL)


@pytest.mark.parametrize("check", ALL, ids=lambda c: c.name)
def test_a_check_says_why_it_matters_and_how_to_mend_it(check: Check) -> None:
    for text in (check.why, check.mend):
        assert text and text[0].isupper() and text.rstrip()[-1] in ".`?"
    assert check.source


@pytest.mark.parametrize("check", ALL, ids=lambda c: c.name)
def test_the_page_of_a_check_has_its_parts_in_order(check: Check) -> None:
    page = module_of(check).__doc__ or ""
    title = page.partition("\n")[0]
    assert title.endswith(".") and title[0].isupper()
    starts = [page.find(f"\n{part}") for part in PARTS]
    assert -1 not in starts and starts == sorted(starts)
    bounds = [*starts[1:], len(page)]
    told = [page[a + 1 + len(part) : b].strip() for a, b, part in zip(starts, bounds, PARTS, strict=True)]
    assert all(told)
    assert told[2] != told[3], "the failing and the mended example are the same"


@pytest.mark.parametrize("check", ALL, ids=lambda c: c.name)
def test_the_command_explains_a_check(check: Check) -> None:
    told = CliRunner().invoke(main, ["checks", check.name])
    assert told.exit_code == 0
    assert told.output.startswith(f"{check.name} ({check.severity.value})\n")
    assert check.why in told.output and check.mend in told.output
    assert all(part in told.output for part in PARTS)


def test_the_command_lists_every_check() -> None:
    told = CliRunner().invoke(main, ["checks"])
    assert told.exit_code == 0
    groups = dict(part.split(":\n", 1) for part in told.output.split("\n\n"))
    names = {heading: [line.split()[0] for line in rows.splitlines()] for heading, rows in groups.items()}
    assert names.pop("Guide and dry run") == [check.name for check in ALL]
    assert names.pop("Reading the guide") == list(NAMES)
    rest = [name for each in names.values() for name in each]
    assert rest == [each.name for each in (*DRAWING_CHECKS, *REVISION_CHECKS)] + [
        each.id for each in PROOFS
    ]


@pytest.mark.parametrize(
    ("name", "says"),
    [
        ("unknown-name", "A name is that of nothing in the guide."),  # of reading
        ("drawing-size", "What: "),  # of drawings
        ("bars", "Mend: "),  # of a packet
        ("joint-set", "A joint is worked on before it has set."),  # a check that shares its file
    ],
)
def test_whatever_a_finding_has_in_brackets_is_explained(name: str, says: str) -> None:
    told = CliRunner().invoke(main, ["checks", name])
    assert (told.exit_code, told.output.partition(" ")[0]) == (0, name)
    assert says in told.output


def test_the_command_guesses_a_misspelt_check() -> None:
    told = CliRunner().invoke(main, ["checks", "zone-sun"])
    assert told.exit_code == 2
    assert "did you mean zone-sum?" in told.output


def test_every_file_of_a_check_stands_in_a_table() -> None:
    rows = (*GUIDE_CHECKS, *NEED_CHECKS, *RUN_CHECKS, *RUNS_CHECKS, *ALSO)
    assert rows == ALL
    defined = [
        value
        for name in dir(checks)
        if isinstance(module := getattr(checks, name), ModuleType)
        for value in vars(module).values()
        if isinstance(value, Check)
    ]
    assert sorted(check.name for check in defined) == sorted(check.name for check in rows)
    files = {path.stem for path in Path(checks.__file__).parent.glob("*.py")}
    helpers = {"__init__", "base", "every", "judge", "notices", "of_needs", "usage"}
    assert files - helpers == {module_of(check).__name__.rpartition(".")[2] for check in rows}


def test_a_check_stands_in_the_table_of_what_it_reads() -> None:
    tables = {"guide": GUIDE_CHECKS, "need": NEED_CHECKS, "run": RUN_CHECKS, "runs": RUNS_CHECKS}
    for reads, table in tables.items():
        assert {check.reads for check in table} == {reads}
    assert all((check.need is not None) is (check.reads == "need") for check in ALL)


def test_every_need_has_its_check() -> None:
    """A need that no check reads could go unmet without a word."""
    kinds = [need for need in Need.__subclasses__() if need.__module__.startswith("builder.")]
    assert Named in kinds
    read = {check.need for check in NEED_CHECKS}
    assert [need.__name__ for need in kinds if need not in read] == []


def test_the_order_names_checks_that_there_are() -> None:
    named = [name for names in ORDER for name in names]
    assert len(named) == len(set(named))
    assert set(named) - {check.name for check in ALL} == set(NAMES)
    assert ORDER[checks.BENCH_RANK] == ()
