"""The plan of a class for whole guides: the route's own things, shares, preparation, times, waits, queues."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pytest

from builder.dryrun.run import DryRun
from builder.guide.model import Guide
from builder.plan.class_plan import ClassPlan, plan_for
from builder.plan.settings import Class, Spares
from tests.plan.guides import KIT, demo, guide_of

MINUTE = Fraction(60)


@pytest.fixture(scope="module")
def kit(tmp_path_factory: pytest.TempPathFactory) -> tuple[Guide, tuple[DryRun, ...]]:
    return guide_of(KIT, tmp_path_factory.mktemp("kit"))


@pytest.fixture(scope="module")
def pressed(kit: tuple[Guide, tuple[DryRun, ...]]) -> ClassPlan:
    guide, runs = kit
    return plan_for(guide, runs[0], Class(10, Spares(Fraction(1, 10)), adults=2))


@pytest.fixture(scope="module")
def by_hand(kit: tuple[Guide, tuple[DryRun, ...]]) -> ClassPlan:
    guide, runs = kit
    return plan_for(guide, runs[1], Class(10, Spares(Fraction(1, 10))))


def test_materials_by_their_shares(pressed: ClassPlan) -> None:
    """10 builders and 10 % spares are 11 kits."""
    rows = {row.thing: row for row in pressed.materials}
    assert list(rows) == ["card", "strip", "bead", "pva", "base"]
    # strips: 11 kits in threes are 4 groups; a group's 3 tongues of 3 in come out of one 12 in strip
    assert (rows["strip"].shares, rows["strip"].units, rows["strip"].packs) == (4, 4, None)
    # beads: 11 x 3 = 33, 2 packs of 20, 7 left, 2 x 1.00
    beads = rows["bead"]
    assert (beads.units, beads.packs, beads.left) == (33, 2, 7)
    assert beads.cost is not None and beads.cost.base == 2
    # glue: 11 x 5 mL, sold by no pack
    assert rows["pva"].total is not None and rows["pva"].total.base == 55
    assert (rows["pva"].units, rows["pva"].cost) == (None, None)
    # bought bases: 11, 3 packs of 5, 4 left
    assert (rows["base"].units, rows["base"].packs, rows["base"].left) == (11, 3, 4)


def test_class_stock_holds_what_parts_and_shared_tools_take(pressed: ClassPlan, by_hand: ClassPlan) -> None:
    """11 discs of 2 in; with the press also 10 / 4 -> 3 presses of 4 x 3 in, out of 10 x 8 in."""
    card = {row.thing: row for row in pressed.materials}["card"]
    assert card.fitted is not None
    # three presses upright side by side take 9 x 4 and leave 10 x 4, which gives 5 x 2 = 10 discs and no 11th
    assert card.fitted.pieces == 2
    assert dict(card.fitted.from_first)["disc"] == 10
    assert dict(card.fitted.from_first)["press"] == 3
    # 16 + 36 sq in of 80: by area one sheet would do
    assert card.fitted.at_least == 1
    alone = {row.thing: row for row in by_hand.materials}["card"]
    # 5 x 4 discs fit a sheet
    assert alone.fitted is not None and alone.fitted.pieces == 1


def test_the_last_pack_is_paid_whole(pressed: ClassPlan) -> None:
    # card 1 pack of 4 at 2.50, beads 2 x 1.00, bases 3 x 3.00: 13.50
    assert [(sum_.base, sum_.unit) for sum_ in pressed.cost] == [(Fraction(27, 2), "USD")]
    assert pressed.unpriced == ("strip", "pva")


def test_tools_by_sharing(pressed: ClassPlan) -> None:
    """Ruler 10 / 2, scissors 10 / 3 -> 4, press 10 / 4 -> 3; the teacher's knife and the class's mat once."""
    counts = {row.thing: row.count for row in pressed.tools}
    assert counts == {"pencil": 10, "brush": 10, "ruler": 5, "scissors": 4, "press": 3, "knife": 1, "mat": 1}
    # one each first, the class's last
    assert [row.builders for row in pressed.tools] == [1, 1, 2, 3, 4, 0, 0]
    assert {row.thing: row.made_by for row in pressed.tools}["press"] == "teacher"


def test_gear_is_for_every_person(kit: tuple[Guide, tuple[DryRun, ...]]) -> None:
    guide, (run, _) = demo("rolled-rocket")
    plan = plan_for(guide, run, Class(10, adults=2))
    assert [(row.thing, row.count) for row in plan.gear] == [("goggles", 12)]
    # nothing in this kit asks for it
    assert plan_for(kit[0], kit[1][0], Class(10)).gear == ()


def test_only_what_the_route_uses(by_hand: ClassPlan, pressed: ClassPlan) -> None:
    assert "press" in pressed.used and "press" not in by_hand.used
    assert "presses" not in [row.step for row in by_hand.preparation]


def test_what_verbs_usually_take_is_used(by_hand: ClassPlan) -> None:
    assert by_hand.used["pencil"] == by_hand.used["ruler"] == ("line",)
    assert by_hand.used["brush"] == ("stick",)


def test_preparation(pressed: ClassPlan) -> None:
    """A disc for each of 11 kits: 5 + 11 x 2 = 27 min. A press for 4 of 10 builders: 1 + 3 x 3 = 10 min."""
    discs, presses = pressed.preparation
    assert (discs.step, discs.number, discs.seconds) == ("discs", 11, 27 * MINUTE)
    assert (presses.step, presses.number, presses.seconds) == ("presses", 3, 10 * MINUTE)
    assert [(made.thing, made.count) for row in pressed.preparation for made in row.made] == [
        ("disc", 11),
        ("press", 3),
    ]
    assert pressed.preparing == 37 * MINUTE


def test_times(pressed: ClassPlan, by_hand: ClassPlan) -> None:
    """Hands-on 4 + 2 + 6 (+ 5) min; the wait is 30 min less what passed since the joint closed (2 min)."""
    assert by_hand.times.whole.hands_on == 12 * MINUTE
    assert pressed.times.whole.hands_on == 17 * MINUTE
    (wait,) = pressed.times.waits
    assert (wait.step, wait.until, wait.labels) == ("dry", "set", ("pva",))
    assert wait.seconds == 28 * MINUTE
    assert wait.barred == ("work", "load", "coat")
    assert pressed.times.whole.waiting == wait.seconds
    assert pressed.times.whole.elapsed == 45 * MINUTE
    assert [each.stage.name for each in pressed.times.stages] == ["Make"]


def test_queues(pressed: ClassPlan) -> None:
    """10 builders: 4 scissors for 4 min in 3 turns, 5 rulers for 2 min in 2, 3 presses for 5 min in 4."""
    found = {each.tool: (each.stations, each.turns, each.seconds) for each in pressed.times.queues}
    assert found == {
        "scissors": (4, 3, 12 * MINUTE),
        "ruler": (5, 2, 4 * MINUTE),
        "press": (3, 4, 20 * MINUTE),
    }


def test_a_jig_is_busy_while_its_fins_set() -> None:
    guide, (run, _) = demo("rolled-rocket")
    plan = plan_for(guide, run, Class(24))
    (jig,) = [each for each in plan.times.queues if each.tool == "fin_jig"]
    steps = [run.of_step(step) for step in ("jig_on", "jig_fins", "jig_set", "jig_off")]
    busy = sum((frame.seconds for frames in steps for frame in frames), Fraction(0))
    assert (jig.step, jig.last, jig.turns) == ("jig_on", "jig_off", 2)
    assert jig.seconds == 2 * busy > 60 * MINUTE


def test_where_an_adult_helps() -> None:
    guide, (run, _) = demo("rolled-rocket")
    found = {row.step: row for row in plan_for(guide, run, Class(24)).times.help}
    assert found["cut_fins"].who == "adult helps"
    assert "spray" in found["coat_1"].hazards


def test_the_first_step_that_a_wait_holds_up() -> None:
    guide, (run, _) = demo("rolled-rocket")
    waits = {wait.step: wait for wait in plan_for(guide, run, Class(24)).times.waits}
    assert waits["coat_dry"].first == "coat_2"
    assert waits["body_dry"].first == "name_it"
    assert waits["mount_cure"].barred == ("load", "coat")


@pytest.mark.parametrize("name", ["rolled-rocket", "card-telescope"])
def test_a_larger_class_never_needs_less(name: str) -> None:
    guide, runs = demo(name)
    for run in runs:
        before = plan_for(guide, run, Class(1))
        for builders in (2, 7, 24, 60):
            plan = plan_for(guide, run, Class(builders))
            for less, more in zip(before.materials, plan.materials, strict=True):
                assert less.units is None or (more.units or 0) >= less.units
            assert all(a.count <= b.count for a, b in zip(before.tools, plan.tools, strict=True))
            assert plan.preparing >= before.preparing
            before = plan


def test_a_plan_of_nothing_known_is_no_error(tmp_path: Path) -> None:
    guide, runs = guide_of("materials:\n  card: {form: sheet, per: class}\nsteps: []\n", tmp_path)
    for run in runs:
        assert plan_for(guide, run, Class(5)).materials == ()
