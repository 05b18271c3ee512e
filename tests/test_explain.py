"""Explaining a number: where it was written, its sum, where it shows, what one step more or less would do.

The guide is the manual's example, a ring on a rod: 120 mm of handle, 10 mm of ring, 70 mm of tip.
"""

from __future__ import annotations

import re
from functools import cache
from pathlib import Path

import pytest
from click.testing import CliRunner

from builder.checks.judge import check
from builder.cli import main
from builder.dryrun.kinds import VERBS
from builder.dryrun.run import DryRun, run_all
from builder.explain import Explained, Slip, explained, numbers_of, slips
from builder.explain.numbers import meant
from builder.explain.shows import differing, drawings, pages, timed
from builder.explain.telling import report
from builder.guide.model import Guide
from builder.guide.reader import read
from builder.pages.manual import TEXT

FILE = "guides/stop/guide.yml"
WHOLE: str = next(
    b for b in re.findall(r"```yaml\n(.*?)```", TEXT.read_text("utf-8"), re.DOTALL) if b[:5] == "title"
)


def guide_of(text: str) -> tuple[Guide, tuple[DryRun, ...]]:
    guide = read({FILE: text}, FILE, VERBS, "stop")
    return guide, run_all(guide)


@cache
def stop() -> tuple[Guide, tuple[DryRun, ...]]:
    return guide_of(WHOLE)


def about(name: str, text: str = WHOLE) -> Explained:
    guide, runs = stop() if text == WHOLE else guide_of(text)
    return explained(guide, runs, numbers_of(guide), name)


def written_at(place: object) -> str:
    """The text of the guide at a place."""
    line, column = str(place).split(":")[-2:]
    return WHOLE.splitlines()[int(line) - 1][int(column) - 1 :]


# -- names ------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("asked", "names"),
    [
        ("ring.length", ["ring.length"]),
        ("rod.handle", ["rod.handle"]),
        (
            "120 mm",
            ["rod.handle", "rod.handle.end", "rod.stop.start"],
        ),  # where the handle ends, the ring begins
        ("12 cm", ["rod.handle", "rod.handle.end", "rod.stop.start"]),
        (
            "130 mm (5 1/8 in)",
            ["rod.stop.end", "rod.tip.start"],
        ),  # 120 + 10; 130 / 25.4 = 5.118, 5 1/8 = 5.125
        ("pva.full cure", ["pva.full_cure"]),
        ("2 min", ["pva.tack", "mark_stop.time"]),
        ("121 mm", []),
        ("no such thing", []),
    ],
)
def test_a_number_is_found_by_name_or_as_it_is_printed(asked: str, names: list[str]) -> None:
    guide, _ = stop()
    assert meant(asked, numbers_of(guide), guide) == names


def test_every_written_number_of_the_guide_has_a_name() -> None:
    guide, _ = stop()
    numbers = numbers_of(guide)
    assert {path for path in guide.paths if path not in ("units.finest",)} - {
        v.path for v in numbers.values()
    } == set()


# -- what is known of one -----------------------------------------------------------------------------------


def test_a_written_number_knows_its_place_and_what_comes_from_it() -> None:
    found = about("ring.length")
    assert found.written and written_at(found.value.at).startswith("10 mm}")
    assert {"rod.stop", "rod.stop.end", "rod.tip.start", "ring.thickness"} <= set(found.feeds)
    assert "rod.handle" not in found.feeds


def test_a_sum_knows_its_terms() -> None:
    text = WHOLE.replace("stop: ring.length", "stop: ring.length + gap - gap").replace(
        "materials:", "dimensions:\n  gap: {is: 2 mm, why: so that it slides}\nmaterials:"
    )
    found = about("rod.stop", text)
    assert [(term.name, term.shown) for term in found.terms] == [
        ("ring.length", "10 mm (about 3/8 in)"),
        ("gap", "2 mm (0.079 in)"),
    ]
    assert all(term.place is not None and term.place.file == FILE for term in found.terms)
    assert about("gap", text).value.why == "so that it slides"


def test_a_sum_with_a_tolerance_knows_its_terms() -> None:
    text = WHOLE.replace("length: 200 mm", "length: ring.length + 190 mm ± 1 mm")
    assert [term.name for term in about("rod.length", text).terms] == ["ring.length"]


def test_a_written_number_does_not_come_from_itself() -> None:
    assert about("ring.length").grounds == () and about("ring.length").terms == ()


def test_what_was_worked_out_is_found_as_it_is_rounded() -> None:
    """120.4 mm is measured off as 120 mm; what was typed is printed as it was typed."""
    guide, _ = guide_of(
        WHOLE.replace("handle: 120 mm", "handle: 120.4 mm").replace("tip: 70 mm", "tip: 69.6 mm")
    )
    assert meant("120 mm", numbers_of(guide), guide) == ["rod.handle.end", "rod.stop.start"]


@pytest.mark.parametrize(
    ("before", "after", "pairs"),
    [
        ("a 1 z", "a 2 z", [("1", "2")]),
        ("a 1 z", "a 1 2 z", [("", "2")]),  # one more, and all after it the same
        ("a 1 2 z", "a 2 z", [("1", "")]),
        ("a b", "a c", []),  # no number in it
        ("1 2", "1 2", []),
        ("1 5 1", "2 5 2", [("1", "2")]),
    ],
)
def test_what_differs(before: str, after: str, pairs: list[tuple[str, str]]) -> None:
    assert list(differing(before.split(), after.split())) == pairs


def test_a_number_that_was_worked_out_knows_where_it_comes_from() -> None:
    found = about("rod.tip.start")
    assert not found.written
    assert [term.name for term in found.grounds] == ["ring.length", "rod.handle"]


def test_the_steps_that_read_it() -> None:
    assert [used.step for used in about("rod.handle").steps] == ["mark_stop", "ring_on"]
    assert about("rod.handle").steps[0].routes == ()


# -- a slip -------------------------------------------------------------------------------------------------


def slips_of(name: str, text: str = WHOLE) -> dict[str, Slip]:
    guide, runs = stop() if text == WHOLE else guide_of(text)
    return {slip.sign: slip for slip in slips(guide, explained(guide, runs, numbers_of(guide), name))}


@pytest.mark.parametrize(("sign", "sum"), [("+", 201), ("-", 199)])  # 120 + 10 + 70 = 200, a step is 1 mm
def test_a_zone_one_step_off_does_not_close(sign: str, sum: int) -> None:
    slip = slips_of("rod.handle")[sign]
    assert slip.step == "1 mm" and slip.probe.written == f"120 mm {sign} 1 mm"
    (finding,) = slip.probe.found
    assert finding.check == "zone-sum" and f"{sum} mm" in finding.message


def test_what_no_check_tells_is_said_to_be_so() -> None:
    assert [slip.probe.found for slip in slips_of("ring.outside").values()] == [(), ()]


@pytest.mark.parametrize(
    ("name", "old", "new", "written"),
    [
        ("rod.length", "length: 200 mm", "length: 200 mm ± 1 mm",
         {"+": "200 mm + 1 mm ± 1 mm", "-": "200 mm - 1 mm ± 1 mm"}),
        ("rod.length", "length: 200 mm", 'length: "200 mm"',
         {"+": '"200 mm + 1 mm"', "-": '"200 mm - 1 mm"'}),
        ("pva.tack", "tack: 2 min", "tack: 2 min", {"+": "2 min + 1 min", "-": "2 min - 1 min"}),
        ("ring.count", "form: ring,", "form: ring, count: 1,", {"+": "2"}),  # one less would be none
        ("rod.tip", "tip: 70 mm", "tip: 70 mm, end: 0 mm", {"+": "70 mm + 1 mm", "-": "70 mm - 1 mm"}),
        ("rod.end", "tip: 70 mm", "tip: 70 mm, end: 0 mm", {"+": "0 mm + 1 mm"}),
        ("pva.amount", "amount: 5 mL", "amount: 5 mL", {"+": "5 mL + 1 mL", "-": "5 mL - 1 mL"}),
        ("rod.stop", "stop: ring.length", "stop: ring.length",
         {"+": "ring.length + 1 mm", "-": "ring.length - 1 mm"}),
    ],
)  # fmt: skip
def test_what_is_written_for_a_slip(name: str, old: str, new: str, written: dict[str, str]) -> None:
    text = WHOLE.replace(old, new, 1)
    found = slips_of(name, text)
    assert {sign: slip.probe.written for sign, slip in found.items()} == written
    for slip in found.values():  # it is one more number of the guide, and the rest is as it was
        changed = slip.probe.guide.texts[FILE]
        place = guide_of(text)[0].paths[name]
        before, after = text.splitlines(), changed.splitlines()
        head, tail = (
            before[place.line - 1][: place.column - 1],
            before[place.line - 1][place.column - 1 + place.length :],
        )
        assert after.pop(place.line - 1) == head + slip.probe.written + tail
        assert before.pop(place.line - 1) and before == after


def test_a_number_that_was_worked_out_stands_nowhere_to_be_changed() -> None:
    assert slips_of("rod.tip.start") == {}


def test_findings_that_were_there_before_are_no_news() -> None:
    text = WHOLE.replace("tip: 70 mm", "tip: 71 mm")
    assert [f.check for f in check(guide_of(text)[0])] == ["zone-sum"]
    assert [slip.probe.found for slip in slips_of("rod.handle", text).values()] == [(), ()]


# -- where it shows -----------------------------------------------------------------------------------------


def test_the_drawings_and_pages_that_print_it() -> None:
    guide, runs = stop()
    other = slips_of("rod.handle")["+"].probe
    drawn = drawings(guide, runs, other.guide, other.runs, {"mark_stop": 1, "ring_on": 1})
    assert {shown.where for shown in drawn} >= {"mark_stop"}
    texts = [pair for shown in drawn for pair in shown.pairs]
    assert any("120" in before and "121" in after for before, after in texts)  # 120 + 1
    found = {shown.where: shown.pairs for shown in pages(guide, runs, other.guide, other.runs)}
    stage = found["stop/build/stage-1.html"]
    assert any("120 mm" in before and "121 mm" in after for before, after in stage)
    assert all(before != after for before, after in stage)


@pytest.mark.parametrize(
    ("name", "steps"),
    [("pva.full_cure", ["ring_on"]), ("mark_stop.time", ["mark_stop"]), ("ring.length", [])],
)
def test_the_steps_that_a_time_makes_longer(name: str, steps: list[str]) -> None:
    assert timed(stop()[1], slips_of(name)["+"].probe.runs) == steps


def test_a_price_shows_on_the_page_of_materials_alone() -> None:
    text = WHOLE.replace("amount: 5 mL,", "amount: 5 mL, sold: {pack: 1, price: 4.00 USD},")
    guide, runs = guide_of(text)
    other = slips_of("pva.price", text)["+"].probe
    found = {shown.where: shown.pairs for shown in pages(guide, runs, other.guide, other.runs)}
    assert list(found) == ["stop/build/materials.html"]
    # a class of 24 with a tenth more is 27 packs: 27 x 4 = 108, 27 x 5 = 135
    assert ("108.00 USD", "135.00 USD") in found["stop/build/materials.html"]


# -- the command --------------------------------------------------------------------------------------------


def told(name: str, quick: bool = False) -> str:
    return report(stop()[0], name, quick)


def test_the_report_of_a_written_number() -> None:
    text = told("rod.handle")
    lines = text.splitlines()
    assert lines[0].startswith("rod.handle: 120 mm (")
    assert lines[1].startswith(f"  written at {FILE}:") and "handle: 120 mm" in lines[2]
    for part in ("worked out from it:", "read in the steps:", "shown in the drawings of:",
                 "shown on the pages:", "if it were 1 mm more:", "if it were 1 mm less:",
                 "[zone-sum]"):  # fmt: skip
        assert part in text
    assert "if it were" not in told("rod.handle", quick=True)
    assert "no check would tell" in told("ring.outside")


def test_the_report_of_a_number_that_was_worked_out() -> None:
    text = told("rod.stop.end")
    assert "written nowhere" in text and "it comes from:" in text and "ring.length: 10 mm" in text
    assert "if it were" not in text


@pytest.fixture
def folder(tmp_path: Path) -> str:
    (tmp_path / "guide.yml").write_text(WHOLE, "utf-8")
    return str(tmp_path)


@pytest.mark.parametrize(
    ("asked", "status", "told"),
    [
        ("rod.handle", 0, "rod.handle: 120 mm"),
        ("120 mm", 0, "3 numbers of the guide are 120 mm"),
        ("rod.handel", 2, "did you mean rod.handle?"),
        ("121 mm", 2, 'holds no number "121 mm"'),
    ],
)
def test_the_command(folder: str, asked: str, status: int, told: str) -> None:
    ran = CliRunner().invoke(main, ["explain", folder, asked, "--quick"])
    assert ran.exit_code == status and told in ran.output


def test_a_guide_that_is_not_there() -> None:
    ran = CliRunner().invoke(main, ["explain", "no/such", "a.b"])
    assert ran.exit_code == 2 and "there is no guide" in ran.output
