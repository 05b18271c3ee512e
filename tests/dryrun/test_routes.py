"""Routes, optional steps, repeats and shared steps: what is carried out, in which order, how often."""

from __future__ import annotations

import pytest

from builder.dryrun import needs as n
from builder.dryrun.effects import Make
from builder.dryrun.run import MOST_FRAMES, run_all
from builder.guide.reader import MOST_ROUTES
from tests.dryrun.built import built, fixture, guide_of, needs, of, steps, unmet


def choices(count: int, options: int = 2) -> str:
    """A guide with so many choices of so many options, each with a step of its own."""
    letters = "abcdefgh"[:options]
    lines = ["# takes: tube", "choices:"]
    for i in range(count):
        told = ", ".join(f"{x}: way {x}" for x in letters)
        lines.append(f"  c{i}: {{{told}}}")
    lines.append("steps:")
    for i in range(count):
        lines.append(f"  - choose: c{i}")
        for x in letters:
            look = "{verify: tube, shows: a straight tube, else: Choose another one.}"
            lines += [
                f"    {x}:",
                f"      - id: s{i}_{x}",
                "        title: Look at it",
                f"        actions: [{look}]",
            ]
    return "\n".join(lines) + "\n"


@pytest.mark.parametrize(("count", "options"), [(1, 2), (1, 3), (2, 2), (3, 2), (1, 8), (2, 4)])
def test_a_route_is_one_option_for_each_choice(count: int, options: int) -> None:
    guide = guide_of(choices(count, options)) if options**count <= MOST_ROUTES else None
    if guide is None:
        return
    runs = run_all(guide)
    assert len(runs) == options**count
    ways = [tuple(run.route.options.values()) for run in runs]
    assert len(set(ways)) == len(ways)
    for run in runs:
        wanted = [f"s{i}_{run.route.options[f'c{i}']}" for i in range(count)]
        assert [frame.step.id for frame in run.frames] == wanted


def test_a_guide_without_a_choice_has_one_route() -> None:
    guide = guide_of(steps("tube", "{verify: tube, shows: a, else: b.}"))
    assert [(route.name, dict(route.options)) for route in guide.routes] == [("the guide", {})]


def test_routes_do_not_share_a_bench() -> None:
    guide, (jig, marks) = fixture("rolled-rocket")
    assert [run.route.name for run in (jig, marks)] == ["with the jig", "without a jig"]
    assert "fin_jig" in jig.end.items and "fin_jig" not in marks.end.items
    assert "fin_lines" in marks.end.marks and "fin_lines" not in jig.end.marks
    assert guide.routes[0].steps != guide.routes[1].steps
    # and they end with the same kit, in the same places
    for item, seat in jig.end.seats.items():
        there = marks.end.seats[item]
        assert (seat.host, seat.side, seat.stretch, seat.angle) == (
            there.host,
            there.side,
            there.stretch,
            there.angle,
        )


def test_a_run_is_the_same_every_time() -> None:
    guide, runs = fixture("rolled-rocket")
    assert run_all(guide) == runs


OPTIONAL = """\
# takes: tube, card, scissors
parts:
  band: {form: ring, of: card, outside: 30 mm, inside: 22.4 mm}
steps:
  - id: make
    title: Cut the band
    optional: FIRST
    actions:
      - {cut: band, from: card, with: scissors}
  - id: use
    title: Slide it on
    optional: SECOND
    actions:
      - {slide: band, over: tube, from: rear, to: 10 mm from rear, fit: sliding}
"""


@pytest.mark.parametrize(
    ("first", "second", "lacking"),
    [("no", "no", []), ("yes", "no", ["Exists"]), ("yes", "yes", []), ("no", "yes", [])],
)
def test_what_rests_on_an_optional_step(first: str, second: str, lacking: list[str]) -> None:
    run = built(OPTIONAL.replace("FIRST", first).replace("SECOND", second))
    assert unmet(run) == lacking
    if lacking:
        assert [need.state for need in needs(run, n.Exists) if not need.met] == ["optional"]
    assert run.of_step("make")[-1].after.items["band"].cause.optional is (first == "yes")


REPEAT = """\
# takes: tube, pva, brush, pencil, ruler
parts:
  pin: {form: strip, source: bought, count: 3, length: 10 mm, width: 4 mm, thickness: 1 mm}
  cap: {form: strip, source: bought, count: 3, length: 10 mm, width: 4 mm, thickness: 1 mm}
steps:
  - id: pins_on
    title: Glue the pins on
    time: 6 min
    actions:
      - repeat: pin
        around: tube
        actions:
          - {attach: pin, onto: tube, at: 20 mm from rear, angle: evenly, fit: tight}
          - {attach: cap, onto: pin, top: 0 mm from left and 0 mm from front, fit: tight}
"""


def test_copies_pair_by_index_in_a_repeat() -> None:
    run = built(REPEAT)
    seats = run.end.seats
    assert {child: seats[child].host for child in ("cap 1", "cap 2", "cap 3")} == {
        "cap 1": "pin 1",
        "cap 2": "pin 2",
        "cap 3": "pin 3",
    }
    # evenly: 360 / 3
    assert [int(seats[f"pin {i}"].angle or 0) for i in (1, 2, 3)] == [0, 120, 240]


def test_a_repeat_over_stated_copies_takes_those() -> None:
    run = built(REPEAT.replace("- repeat: pin\n", "- repeat: pin 1 and 3\n"))
    assert [frame.copy for frame in run.frames] == [1, 1, 3, 3]
    assert "pin 2" not in run.end.seats


def test_one_place_for_each_copy() -> None:
    _, (run,) = fixture("wind-cart")
    places = [frame for frame in run.of_step("bearings") if frame.action.verb.word == "attach"]
    found = [(frame.copy, frame.after.seats[f"bearing {frame.copy}"].stretch) for frame in places]
    assert of(found) == [(1, (27, 33)), (2, (167, 173))]  # 30 - 3 and 170 - 3


def test_a_shared_step_is_carried_out_once_for_each_use() -> None:
    _, runs = fixture("rolled-rocket")
    for run in runs:
        ids = [step.id for step in run.route.steps if step.shared == "roll_tube"]
        assert ids == ["body_roll", "body_dry", "motor_roll", "motor_dry"]
        made = [run.of_step(f"{prefix}_roll")[0].effects[0] for prefix in ("body", "motor")]
        assert [effect.item.key for effect in made if isinstance(effect, Make)] == ["body", "motor_tube"]


def test_what_would_take_for_ever_is_cut_short() -> None:
    """200 copies of a part, and thirty times twice as many actions: more than the most frames."""
    act = "      - repeat: pin\n        actions:\n          - {verify: pin, shows: a, else: b.}\n"
    text = (
        "# takes: tube\nparts:\n  pin: {form: strip, source: bought, count: 200, length: 9 mm, width: 4 mm, "
        "thickness: 1 mm}\nsteps:\n  - id: look\n    title: Look\n    actions:\n" + act * 30
    )
    run = built(text)
    assert run.cut_short
    assert len(run.frames) == MOST_FRAMES
    assert not built(text.replace(act * 30, act)).cut_short
    # 200 copies x 25 actions = 5,000, which is not too many yet
    assert len(built(text.replace(act * 30, act * 25)).frames) == MOST_FRAMES
    assert not built(text.replace(act * 30, act * 25)).cut_short


def test_what_asks_without_end_is_cut_short(monkeypatch: pytest.MonkeyPatch) -> None:
    """Pins that are glued on one after another: each asks the wet joints of all those before it, so that the
    actions are few and what they ask grows with the square. The action that asks too often is the last."""
    pin = "{form: strip, source: bought, count: 20, length: 1 mm, width: 1 mm, thickness: 1 mm}"
    glue = "{glue: pin, face: under, with: pva, for: tube}"
    attach = "{attach: pin, onto: tube, at: 9 mm from rear, angle: evenly}"
    repeat = f"{{repeat: pin, around: tube, actions: [{glue}, {attach}]}}"
    text = steps("tube, pva, brush", repeat, time="4 min", own=f"parts:\n  pin: {pin}\n")
    whole_run = [len(frame.needs) for frame in built(text).frames]
    assert len(whole_run) == 2 * 20
    assert sum(whole_run) > 20 * 19 / 2
    monkeypatch.setattr("builder.dryrun.run.MOST_NEEDS", 100)
    run = built(text)
    asked = [len(frame.needs) for frame in run.frames]
    assert run.cut_short
    assert sum(asked[:-1]) < 100 <= sum(asked)
    assert asked == whole_run[: len(asked)]
