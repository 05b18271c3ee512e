"""The developers' page is true: its examples run, its paths exist, its rooms are the rooms."""

from __future__ import annotations

import importlib.util
import re
import sys
from collections.abc import Iterator
from fractions import Fraction
from pathlib import Path
from types import ModuleType

import click
import pytest

import builder.checks.every
import builder.checks.of_needs
import builder.dryrun.kinds
from builder.checks.base import Check
from builder.checks.every import ASKED
from builder.checks.judge import check
from builder.cli import main
from builder.dryrun.kinds import KINDS, VERBS, Kind, verbs_of
from builder.dryrun.run import DryRun, run, run_all
from builder.findings import Finding
from builder.guide.model import Guide
from builder.guide.reader import read
from builder.guide.wording import sentence, skeleton
from tests.checks.examples_of import whole
from tests.test_architecture import ROOMS

ROOT = Path(__file__).resolve().parents[1]
PAGE = (ROOT / "DEVELOPERS.md").read_text("utf-8")
BLOCKS = {match[2]: match[3] for match in re.finditer(r"(?ms)^```(python|yaml) ([^\n]+)\n(.*?)^```$", PAGE)}


@pytest.fixture
def modules(tmp_path: Path) -> Iterator[dict[str, ModuleType]]:
    """The files of the page, as modules under names of their own; gone again after the test."""
    made = {}
    for path in ("builder/dryrun/kinds/rivet.py", "builder/checks/long_hold.py"):
        file = tmp_path / Path(path).name
        file.write_text(BLOCKS[path], encoding="utf-8")
        name = f"worked_example_{file.stem}"
        spec = importlib.util.spec_from_file_location(name, file)
        assert spec is not None and spec.loader is not None
        module = sys.modules[name] = importlib.util.module_from_spec(spec)
        spec.loader.exec_module(module)
        made[file.stem] = module
    yield made
    for module in made.values():
        del sys.modules[module.__name__]


def row(block: str, names: dict[str, object]) -> object:
    """The value of a row of a table, as the page writes it."""
    return eval(BLOCKS[block].strip().rstrip(","), names)


def with_rivets(modules: dict[str, ModuleType], text: str) -> tuple[Guide, DryRun, list[Finding]]:
    """A guide of the new kind: read, run on its one route, checked."""
    new = row("row of KINDS", {"Kind": Kind, "rivet": modules["rivet"]})
    assert isinstance(new, Kind)
    kinds = (*KINDS, new)
    guide = read({"rivet.yml": text}, "rivet.yml", verbs_of(kinds), "rivet")
    by_name = {kind.name: kind for kind in kinds}
    (route,) = guide.routes
    here = run(guide, route, by_name)
    return guide, here, check(guide, run_all(guide, by_name))


def test_the_new_kind_of_action_builds_its_kit(modules: dict[str, ModuleType]) -> None:
    guide, here, findings = with_rivets(modules, BLOCKS["rivet.yml"])
    assert findings == []
    bench = here.end
    seat = bench.seats["strap"]
    # the strap is 20 x 10 mm, its middle 30 mm from the left and 25 mm from the front:
    # 30 - 10 = 20 to 30 + 10 = 40 mm along, 25 - 5 = 20 to 25 + 5 = 30 mm across
    assert (seat.host, seat.side) == ("deck", "top")
    assert (seat.stretch, seat.across) == ((Fraction(20), Fraction(40)), (Fraction(20), Fraction(30)))
    (joint,) = bench.joints
    assert (joint.a, joint.b, joint.kind, joint.steady) == ("strap", "deck", "rivet", "riveted")
    # four actions share 8 min, so that the rivet is closed at 8 min = 480 s, and is set at once
    assert (joint.closed, joint.set_at) == (Fraction(480), Fraction(480))
    assert {"strap.length", "strap.width"} <= here.frames[-1].reads


def test_the_new_kind_of_action_is_worded(modules: dict[str, ModuleType]) -> None:
    guide, here, _ = with_rivets(modules, BLOCKS["rivet.yml"])
    action = here.frames[-1].action
    told = sentence(action, guide).text
    assert f'"{told}"' in PAGE.replace("\n", " ")
    assert set(re.findall(r"\{(\w+)\}", skeleton(action))) == {"rivet", "to", "place", "with"}


@pytest.mark.parametrize(
    ("old", "new", "wanted"),
    [
        ("      - {punch: strap, at: middle of strap, with: punch}\n", "", "attachable"),
        ("30 mm from left and", "101 mm from left and", "station"),
        ("to: deck, at: strap_spot, with: setter}", "to: deck, with: setter}", "missing-field"),
        ("at: strap_spot, with: setter}", "at: strap_spit, with: setter}", "unknown-place"),
    ],
)
def test_the_new_kind_of_action_is_checked(
    modules: dict[str, ModuleType], old: str, new: str, wanted: str
) -> None:
    text = BLOCKS["rivet.yml"]
    assert text.count(old) == 1
    _, _, findings = with_rivets(modules, text.replace(old, new))
    assert [f.check for f in findings] == [wanted]


def test_without_its_row_the_verb_is_not_known(modules: dict[str, ModuleType]) -> None:
    guide = read({"rivet.yml": BLOCKS["rivet.yml"]}, "rivet.yml", VERBS, "rivet")
    assert "unknown-verb" in [f.check for f in guide.findings]


def checked(text: str, new: Check) -> tuple[list[Finding], int]:
    """What all checks and the new one say of an example, and the line that is marked in it."""
    example = whole(text)
    guide = read({"guide.yml": example.text}, "guide.yml", VERBS, "example")
    return check(guide, checks=(*ASKED, new)), example.line


def test_the_new_check_tells_its_failing_example_alone(modules: dict[str, ModuleType]) -> None:
    new = row("row of RUN_CHECKS", {"long_hold": modules["long_hold"]})
    assert isinstance(new, Check) and new.reads == "run"
    bad, line = checked(BLOCKS["tests/checks/examples/long-hold/bad.yml"], new)
    assert [(f.check, f.place.line) for f in bad] == [("long-hold", line)]
    assert bad[0].message == "the fin is held for 4 min; a hand keeps still for 3 min"
    assert bad[0].mend == new.mend
    good, _ = checked(BLOCKS["tests/checks/examples/long-hold/good.yml"], new)
    assert good == []


def test_the_page_of_the_new_check_has_its_parts(modules: dict[str, ModuleType]) -> None:
    told = modules["long_hold"].__doc__ or ""
    assert all(f"\n{part}" in told for part in ("What:", "Why:", "Bad:", "Good:"))


def test_a_run_can_be_looked_into(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(ROOT)
    exec(BLOCKS["look into a run"], {})
    told = capsys.readouterr().out
    # 1 1/2 in are left standing out of 2 3/4 in: from -1 1/2 in = -38.1 mm to 1 1/4 in = 31.75 mm
    assert "stretch=(Fraction(-381, 10), Fraction(127, 4))" in told


def test_the_rooms_are_those_of_the_rule() -> None:
    names: dict[str, object] = {}
    exec(BLOCKS["rooms"], names)
    assert names["ROOMS"] == ROOMS


def test_rooms_that_are_not_built_are_said_to_be() -> None:
    there = {path.name.removesuffix(".py") for path in (ROOT / "builder").iterdir()}
    missing = [room for room in ROOMS if room not in there]
    for room in missing:
        assert f"`{room}`" in PAGE
    if missing:
        assert "not built yet" in PAGE


def test_the_paths_of_the_page_exist() -> None:
    worked = ("long-hold", "rivet")
    paths = {
        path
        for path in re.findall(r"`((?:builder|tests|guides|theme)/[\w./-]*)`", PAGE)
        if not any(word in path for word in worked)
    }
    assert len(paths) > 30
    assert sorted(path for path in paths if not (ROOT / path).exists()) == []
    beside = re.findall(r"`(\w+\.py)`", PAGE)
    assert [name for name in beside if not (ROOT / "builder" / "dryrun" / name).exists()] == []


def test_the_names_of_the_page_exist() -> None:
    """A function that is said to be in a file is in it."""
    pairs = re.findall(r"`(\w+)(?:\([^`]*\))?` in\s+`((?:builder|tests)/[\w./]+\.py)`", PAGE)
    assert len(pairs) >= 10
    wrong = [
        (name, path)
        for name, path in pairs
        if not re.search(rf"(?m)^\s*(?:def|class) {name}\b|^{name}\b", (ROOT / path).read_text("utf-8"))
    ]
    assert wrong == []


def test_the_commands_of_the_page_exist() -> None:
    told = set(re.findall(r"(?m)^    kitwright (\w+)", PAGE))
    assert told and told <= set(main.list_commands(click.Context(main)))
    targets = set(re.findall(r"\bmake (\w+)\b", PAGE)) - {"leaders", "a"}
    made = re.findall(r"(?m)^(\w+):", (ROOT / "Makefile").read_text("utf-8"))
    assert {"test", "bench", "site", "serve"} <= targets
    assert targets <= set(made)


def test_the_tables_of_the_page_are_tables() -> None:
    assert isinstance(builder.dryrun.kinds.KINDS, tuple)
    tables = {
        builder.checks: ("GUIDE_CHECKS", "RUN_CHECKS", "RUNS_CHECKS", "ORDER"),
        builder.checks.of_needs: ("NEED_CHECKS",),
        builder.checks.every: ("ALSO",),
    }
    for module, names in tables.items():
        assert all(isinstance(getattr(module, name), tuple) for name in names)
