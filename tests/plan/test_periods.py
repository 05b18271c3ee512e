"""The periods of a class: what fits, what rests, what a paint's label forbids, what there is no plan for."""

from __future__ import annotations

from collections import Counter
from fractions import Fraction
from pathlib import Path

import pytest

from builder.dryrun.kinds import VERBS
from builder.dryrun.run import DryRun, run_all
from builder.guide.model import Guide
from builder.guide.reader import read_guide
from builder.pages.book import Chapter
from builder.pages.period_rows import periods_view
from builder.plan.class_plan import ClassPlan, plan_for
from builder.plan.periods import Periods
from builder.plan.settings import Class, class_of
from builder.plan.timetable import timetable_of
from tests.plan.guides import guide_of

GUIDES = Path(__file__).resolve().parents[2] / "guides"
FEEDER = Path(__file__).resolve().parents[1] / "fixtures" / "guides" / "bird-feeder"
HOUR = 3600
SETTINGS = {
    "builders": "24",
    "spares": "10%",
    "period": "45 min",
    "clearing": "10 min",
    "days": "Mon Wed Fri",
}


def case(name: str) -> tuple[Guide, DryRun]:
    guide = read_guide(GUIDES / name, VERBS)
    return guide, run_all(guide)[0]


def planned(name: str, **changed: str) -> tuple[Guide, DryRun, ClassPlan, Periods]:
    guide, run = case(name)
    plan = plan_for(guide, run, class_of(SETTINGS | changed))
    assert plan.periods is not None
    return guide, run, plan, plan.periods


@pytest.mark.parametrize(
    ("period", "clearing", "days", "usable", "third", "day"),
    [
        # Mon 0, Wed +2 days, Fri +4 days
        ("45 min", "10 min", "Mon Wed Fri", 35 * 60, 4 * 24 * HOUR, "Fri, week 1"),
        ("1 h", "", "Tue", 60 * 60, 14 * 24 * HOUR, "Tue, week 3"),
        ("50 min", "5 min", "fri, MONDAY", 45 * 60, 7 * 24 * HOUR, "Mon, week 2"),
        ("40 min", "", "", 40 * 60, 2 * 24 * HOUR, "Wed, week 1"),
    ],
)
def test_when_a_class_meets(period: str, clearing: str, days: str, usable: int, third: int, day: str) -> None:
    table = timetable_of(period, clearing, days)
    assert table is not None
    assert (table.usable, table.opening(2)) == (Fraction(usable), Fraction(third))
    assert table.day(2) == day


@pytest.mark.parametrize(
    ("period", "clearing", "days", "words"),
    [
        ("45", "", "", "period: write a time"),
        ("45 mm", "", "", "period: write a time"),
        ("2 days", "", "", "period: write a time"),
        ("20 min", "20 min", "", "clearing: it takes the whole period"),
        ("45 min", "", "Mon Holiday", 'days: "Holiday" is no day'),
        ("", "10 min", "", "period: write how long"),
    ],
)
def test_a_timetable_that_cannot_be_read_is_said(period: str, clearing: str, days: str, words: str) -> None:
    with pytest.raises(ValueError, match=words):
        timetable_of(period, clearing, days)


def test_a_class_without_a_timetable_has_no_periods() -> None:
    guide, run = case("sail-cart")
    assert plan_for(guide, run, Class(24)).periods is None


def test_a_budget_is_a_sum_of_money() -> None:
    budget = class_of({"builders": "4", "budget": "150.00 USD"}).budget
    assert budget is not None and budget.base == Fraction(150) and budget.unit == "USD"
    with pytest.raises(ValueError, match="budget: write a sum"):
        class_of({"builders": "4", "budget": "150 mm"})


@pytest.mark.parametrize("name", ["rolled-rocket", "card-telescope", "sail-cart"])
def test_every_step_is_done_once_and_no_period_is_overfull(name: str) -> None:
    _, run, plan, found = planned(name)
    assert found.trouble == ""
    steps = [step.id for step in run.route.steps if not step.stage.per_class]
    own = {id: own[-1].after.active - own[0].before.active for id in steps if (own := run.of_step(id))}
    rounds = {queue.step for queue in plan.times.queues if queue.step != queue.last}
    done: Counter[str] = Counter()
    for period in found.periods:
        assert period.seconds <= found.timetable.usable
        for entry in period.entries:
            if not entry.last:
                done[entry.step] += entry.turns if entry.of > 1 else 1
                assert entry.seconds == entry.turns * own[entry.step]
    turns = {queue.step: queue.turns for queue in plan.times.queues if queue.step not in rounds}
    assert {id: done[id] for id in steps} == {id: turns.get(id, done[id]) for id in steps}
    assert all(done[id] == 1 for id in steps if id not in turns)
    assert len(found.periods) >= found.least


def when(found: Periods, step: str) -> Fraction:
    """When the period of a step opens, in seconds after the first one opened."""
    number = next(p.number for p in found.periods if any(e.step == step and not e.last for e in p.entries))
    return found.timetable.opening(number - 1)


def test_a_second_coat_keeps_out_of_the_time_that_the_label_forbids() -> None:
    """The label of the paint says: up to 1 h or from 48 h. The first coat dries for 30 min, so that 35 min do
    not hold both; two days later at the same hour it is less than 48 h since the coat was done."""
    guide, _, _, found = planned("rolled-rocket")
    assert 'recoat: "up to 1 h or from 48 h"' in guide.texts[guide.file]
    assert when(found, "coat_2") - when(found, "coat_1") > 48 * HOUR
    assert when(found, "open_up") - when(found, "coat_2") >= 24 * HOUR  # full cure: 24 h


def test_work_is_done_while_glue_dries_and_the_wait_is_kept() -> None:
    """The body's glue sets in 30 min, longer than what is left of its period: the name inside the body comes
    in a later one, and something else is done meanwhile."""
    _, run, _, found = planned("rolled-rocket")
    order = [step.id for step in run.route.steps]
    begun = [entry.step for period in found.periods for entry in period.entries]
    moved = [
        id for earlier, id in zip(begun, begun[1:], strict=False) if order.index(id) < order.index(earlier)
    ]
    assert moved  # something was pulled forward into a wait
    assert when(found, "name_it") > when(found, "body_roll")


def test_a_tool_that_stays_on_the_work_goes_round() -> None:
    """One fin jig for two builders: while it holds the fins of the one, the other has none."""
    _, _, plan, found = planned("rolled-rocket")
    queue = next(each for each in plan.times.queues if each.step == "jig_on")
    assert (queue.last, queue.turns) == ("jig_off", 2)
    (turn,) = [e for p in found.periods for e in p.entries if e.last]
    assert (turn.step, turn.last, turn.of) == ("jig_on", "jig_off", 2)


def test_a_wait_that_a_night_has_ended_is_no_lack_though_the_step_does_more() -> None:
    # The posts set in 30 min, and their step takes the jig off after them: the next period is two days on.
    guide = read_guide(FEEDER, VERBS)
    run = run_all(guide)[0]
    periods = plan_for(guide, run, class_of(SETTINGS)).periods
    assert periods is not None
    assert periods.trouble == ""
    done = [each.step for period in periods.periods for each in period.entries]
    assert set(done) == {step.id for step in run.route.steps if not step.stage.per_class}


def test_a_step_that_is_longer_than_a_period_is_named() -> None:
    _, _, _, found = planned("rolled-rocket", period="12 min", clearing="4 min")
    assert found.too_long and found.trouble
    assert not found.periods and not found.proven


def test_a_plan_that_the_work_alone_fills_is_proven() -> None:
    _, _, _, found = planned("sail-cart", builders="1", period="6 h", clearing="1 min")
    assert found.least == 1
    assert found.proven is (len(found.periods) == 1)


FRAGILE = """
materials:
  pva:
    {name: white glue, form: adhesive, adhesive: pva, amount: 5 mL,
     label: {working time: 20 min, set: 1 h, full cure: 24 h}}
tools:
  brush: {name: glue brush}
parts:
  tube: {form: tube, source: bought, length: 10 in, inside: 1 in, wall: 1/16 in}
  fin: {form: slab, source: bought, thickness: 1/8 in, outline: {root: 2 in, tip: 1 in, span: 2 in}}
steps:
  - id: fin_on
    title: Lean the fin on
    time: 15 min
    actions:
      - {glue: fin, edge: root, with: pva, for: tube, takes: 5 min}
      - {attach: fin, onto: tube, at: 1 in from rear, angle: 0 deg, takes: 10 min}
  - id: look
    title: Look along the tube
    time: 10 min
    actions:
      - {verify: fin, angle: 90 deg ± 3 deg, else: Lean it straight.}
  - id: fin_set
    title: Let it set
    actions:
      - {wait for: fin, until: set}
finished: {is: tube, holds: all}
"""


@pytest.mark.parametrize(
    ("period", "planned_for", "last", "told"),
    [
        # the fin only leans until it has set: 15 + 10 = 25 min before it is laid by, with its wait beginning
        ("25 min", 1, "", ""),
        ("24 min", 0, "look", "Step 1, Lean the fin on, and those up to step 2, Look along the tube, take "
         "25 min with its waits, and the work cannot be put away before. A period has 24 min of work."),
    ],
)  # fmt: skip
def test_what_cannot_be_put_away_has_to_fit_a_period(
    tmp_path: Path, period: str, planned_for: int, last: str, told: str
) -> None:
    guide, runs = guide_of(FRAGILE, tmp_path)
    plan = plan_for(guide, runs[0], class_of({"builders": "1", "period": period}))
    found = plan.periods
    assert found is not None
    assert (found.trouble, found.last) == (("fin_on", last) if last else ("", ""))
    assert found.together == (25 * 60 if last else 0)
    assert [[entry.step for entry in each.entries] for each in found.periods][:1] == (
        [["fin_on", "look"]] if planned_for else []
    )
    view = periods_view(Chapter(guide, runs[0], plan.group), plan, "class.html")
    assert view is not None
    assert view.trouble.endswith(told)
    assert bool(view.trouble) is bool(told)
