"""Time with nothing to do, and what goes out of sight unlooked at: told to the reviewer, and no findings."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pytest

from builder.checks.judge import check
from builder.checks.notices import idle, out_of_sight
from builder.dryrun.kinds import VERBS
from builder.dryrun.run import DryRun, run_all
from builder.guide.model import Guide
from builder.guide.reader import read, read_guide
from tests.checks.examples_of import whole

TWO_STRANDS = """# takes: tube, ring, pva, brush, card, scissors
parts:
  flag: {form: strip, of: card, length: 40 mm, width: 20 mm}
  liner: {form: tube, source: bought, length: 40 mm, inside: 15 mm, wall: 1 mm}
  bush: {form: ring, source: bought, outside: 14.8 mm, inside: 10 mm, length: 5 mm}
steps:
  - id: ring_on
    title: Glue the ring on
    time: 2 min
    actions:
      - {glue: tube, outside: rear_seat, with: pva, for: ring}
      - {slide: ring, over: tube, from: rear, to: rear_seat}
  - id: ring_set
    title: Let the ring set
    actions:
      - {wait for: tube, until: set}
  - id: flag_cut
    title: Cut the flag
    time: 2 min
    actions:
      - {cut: flag, from: card, with: scissors}
  - id: flag_on
    title: Fix the flag
    time: 2 min
    actions:
      - {attach: flag, onto: tube, at: 40 mm from rear, angle: 0 deg, fit: tight}
  - id: bush_in
    title: Put the bush in
    time: 1 min
    actions:
      - {insert: bush, into: liner, from: rear, to: flush with rear, fit: sliding}
  - id: liner_in
    title: Put the liner in
    time: 1 min
    actions:
      - {insert: liner, into: tube, from: rear, to: 30 mm from rear, fit: loose}
  - id: later
    title: Look again
    time: 1 min
    actions:
      - {verify: tube, shows: a straight flag, else: Straighten it.}
"""


def guide(text: str = TWO_STRANDS) -> Guide:
    return read({"guide.yml": whole(text).text}, "guide.yml", VERBS, "example")


def test_what_touches_nothing_wet_could_be_done_in_a_wait() -> None:
    """30 min by the label. The flag is cut apart from the tube, and so is the bush put in. Fixing the flag
    and putting the liner in are not, and the last look is at the tube."""
    (run,) = run_all(guide())
    (wait,) = idle(guide(), run)
    assert (wait.step, wait.seconds, wait.could) == ("ring_set", Fraction(1800), ("flag_cut", "bush_in"))


def test_a_short_wait_is_no_time_to_begin_something() -> None:
    short = guide(TWO_STRANDS.replace("until: set", "for: 9 min"))
    (run,) = run_all(short)
    assert idle(short, run) == ()


def test_what_uses_what_a_tied_step_makes_is_tied() -> None:
    """A flag on the liner can be fixed in the wait, and the bush put in after it; where the liner goes into
    the tube before them, both wait for the tube."""
    free = TWO_STRANDS.replace("onto: tube, at: 40 mm from rear", "onto: liner, at: 9 mm from rear")
    free = free.replace("length: 40 mm, width: 20 mm", "length: 4 mm, width: 4 mm")
    (run,) = run_all(guide(free))
    assert idle(guide(free), run)[0].could == ("flag_cut", "flag_on", "bush_in")
    head, _, tail = free.partition("  - id: flag_cut")
    liner = "  - id: liner_in" + tail.partition("  - id: liner_in")[2].partition("  - id: later")[0]
    first = guide(head + liner + "  - id: flag_cut" + tail.replace(liner, ""))
    assert idle(first, run_all(first)[0])[0].could == ("flag_cut",)


def test_what_goes_in_unlooked_at_is_told() -> None:
    (run,) = run_all(guide())
    (hidden,) = out_of_sight(guide(), run)
    assert (hidden.item, hidden.step) == ("bush", "liner_in")


@pytest.mark.parametrize("looked", ["bush, shows: an even edge", "liner, length: 40 mm ± 1 mm"])
def test_what_was_looked_at_in_time_is_not(looked: str) -> None:
    """The bush itself, or the liner that it sits in, before it goes in."""
    own = "to: flush with rear, fit: sliding}\n"
    seen = guide(TWO_STRANDS.replace(own, own + f"      - {{verify: {looked}, else: Do it again.}}\n"))
    (run,) = run_all(seen)
    assert out_of_sight(seen, run) == ()


def test_what_still_stands_out_is_in_sight() -> None:
    """A liner left half out keeps the bush at its rear end outside the tube."""
    half = "to: 20 mm from rear, by: front, fit: loose"
    out = guide(TWO_STRANDS.replace("to: 30 mm from rear, fit: loose", half))
    (run,) = run_all(out)
    assert out_of_sight(out, run) == ()


@pytest.mark.parametrize("path", sorted((Path(__file__).parents[2] / "guides").glob("*/guide.yml")), ids=str)
def test_notices_are_no_findings(path: Path) -> None:
    told = read_guide(path, VERBS)
    runs = run_all(told)
    assert any(idle(told, run) for run in runs)
    assert [finding for finding in check(told, runs) if finding.accepted is None] == []
    for run in runs:
        steps = [step.id for step in run.route.steps]
        for wait in idle(told, run):
            assert all(steps.index(step) > steps.index(wait.step) for step in wait.could)


def test_what_may_stand_out_is_not_out_of_sight() -> None:
    """A bush whose length cannot be worked out may stand out of the tube, and then it is seen."""
    text = whole(TWO_STRANDS).text
    assert [each.item for each in out_of_sight(*_run_of(text))] == ["bush"]
    unknown = text.replace("inside: 10 mm, length: 5 mm", "inside: 10 mm, length: no_number")
    assert out_of_sight(*_run_of(unknown)) == ()


def _run_of(text: str) -> tuple[Guide, DryRun]:
    guide = read({"guide.yml": text}, "guide.yml", VERBS, "example")
    return guide, run_all(guide)[0]
