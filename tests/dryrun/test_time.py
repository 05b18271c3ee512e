"""The clock: how a step's time is spread, what takes and holds, what passes while nobody works."""

from __future__ import annotations

import pytest

from builder.dryrun import needs as n
from builder.dryrun.run import DAY, DryRun
from tests.dryrun.built import built, fixture, guide_of, needs, of, steps

LOOK = "{verify: tube, shows: a straight tube, else: Choose another one.}"


def seconds(run: DryRun) -> object:
    """How long each frame took."""
    return [frame.seconds for frame in run.frames]


@pytest.mark.parametrize(
    ("time", "actions", "expected"),
    [
        # 9 min over three: 3 min = 180 s each
        ("9 min", (LOOK, LOOK, LOOK), [180, 180, 180]),
        # `takes` is served first: 9 - 5 = 4 min over two, 120 s each
        ("9 min", (LOOK, "{verify: tube, shows: a, else: b., takes: 5 min}", LOOK), [120, 300, 120]),
        # all of it is spoken for: nothing is left for the third
        ("9 min", ("{verify: tube, shows: a, else: b., takes: 9 min}", LOOK), [540, 0]),
        # more is spoken for than there is: it is spent all the same
        ("9 min", ("{verify: tube, shows: a, else: b., takes: 10 min}", LOOK), [600, 0]),
        # no time is stated: the actions take none, but what takes its own
        ("", (LOOK, "{verify: tube, shows: a, else: b., takes: 30 s}"), [0, 30]),
        # shares need not be whole seconds: 1 min over seven
        ("1 min", (LOOK,) * 7, ["60/7"] * 7),
    ],
)
def test_a_steps_time_is_spread_over_its_actions(
    time: str, actions: tuple[str, ...], expected: list[int | str]
) -> None:
    from fractions import Fraction

    run = built(steps("tube", *actions, time=time))
    assert seconds(run) == [Fraction(each) for each in expected]


def test_a_hold_is_part_of_its_action_and_served_first() -> None:
    # 10 min: the hold takes 3, the glue and the fit of the second fin share 7, that is 210 s each
    run = built(
        steps(
            "tube, fin, pva, brush, ring",
            "{glue: fin, edge: root, with: pva, for: tube}",
            "{attach: fin, onto: tube, at: 10 mm from rear, angle: 0 deg, hold: 3 min}",
            "{slide: ring, over: tube, from: front, to: front_seat, fit: sliding}",
            time="10 min",
        )
    )
    assert seconds(run) == [210, 180, 210]
    # `takes` says it better than `hold`
    run = built(
        steps(
            "tube, fin, pva, brush",
            "{glue: fin, edge: root, with: pva, for: tube}",
            "{attach: fin, onto: tube, at: 10 mm from rear, angle: 0 deg, hold: 3 min, takes: 4 min}",
            time="10 min",
        )
    )
    assert seconds(run) == [360, 240]


REPEAT = """\
# takes: tube, pva, brush
parts:
  pin: {form: strip, source: bought, count: 4, length: 10 mm, width: 4 mm, thickness: 1 mm}
steps:
  - id: pins_on
    title: Glue the pins on
    time: 12 min
    actions:
      - repeat: pin
        around: tube
        actions:
          - {glue: pin, face: under, with: pva, for: tube}
          - {attach: pin, onto: tube, at: 20 mm from rear, angle: evenly}
      - {wait for: pin, until: set}
"""


def test_a_repeat_is_unfolded_on_the_clock() -> None:
    run = built(REPEAT)
    # 4 copies x 2 actions share 12 min: 90 s each; glue then attach, for each copy in turn
    names = [(frame.action.verb.word, frame.copy) for frame in run.frames]
    assert names == [(word, copy) for copy in (1, 2, 3, 4) for word in ("glue", "attach")] + [("wait for", 0)]
    assert [frame.seconds for frame in run.frames[:-1]] == [90] * 8
    closed = [joint.closed for joint in run.end.joints]
    # pin n is glued and attached by n x 180 s
    assert closed == [180, 360, 540, 720]
    # the last closes at 720 and is set 30 min = 1800 s later, which is the whole wait
    assert run.frames[-1].seconds == 1800
    assert of([(seat.child, seat.angle) for seat in run.end.seats.values()]) == [
        ("pin 1", 0),
        ("pin 2", 90),
        ("pin 3", 180),
        ("pin 4", 270),
    ]


def test_a_wait_takes_no_share_and_no_hands() -> None:
    run = built(REPEAT)
    end = run.end
    assert of((end.clock, end.active)) == (720 + 1800, 720)


def test_gluing_all_and_then_attaching_all_is_another_thing() -> None:
    """Each lies open for 90 s where glue and part alternate; where all are glued first, the first lies open
    for the three other beads and its own attaching."""
    assert [need.age for need in needs(built(REPEAT), n.Open)] == [180] * 4
    glue = "- {glue: pin, face: under, with: pva, for: tube}"
    lines = REPEAT.replace(f"          {glue}\n", "").replace(
        "      - repeat", f"      {glue}\n      - repeat"
    )
    run = built(lines)
    # one glue of all and four attachings share 12 min: 144 s each. Glue is laid from 0 s, and the pins are
    # attached by 2, 3, 4 and 5 x 144 s
    assert [need.age for need in needs(run, n.Open)] == [288, 432, 576, 720]
    assert [need.met for need in needs(run, n.Open)] == [True, False, False, False]  # 5 min = 300 s


@pytest.mark.parametrize(
    ("wait", "expected"),
    [
        ("{wait for: ring, until: set}", 1800),
        ("{wait for: ring, until: cured}", 24 * 3600),
        ("{wait for: ring, for: 20 min}", 1200),
        # the longer of the two counts
        ("{wait for: ring, until: set, for: 20 min}", 1800),
        ("{wait for: ring, until: set, for: 40 min}", 2400),
        # waiting for the host waits for what sits on it
        ("{wait for: tube, until: set}", 1800),
    ],
)
def test_how_long_a_wait_is(wait: str, expected: int) -> None:
    run = built(
        steps(
            "tube, ring, pva, brush",
            "{glue: tube, outside: rear_seat, with: pva, for: ring}",
            "{slide: ring, over: tube, from: rear, to: rear_seat}",
            wait,
            time="2 min",
        )
    )
    assert run.frames[-1].seconds == expected


@pytest.mark.parametrize(
    ("until", "expected"),
    # the label of the kit's glue: set 30 min = 1800 s, full cure 24 h = 86 400 s; paint alone dries
    [("set", 1800), ("cured", 86_400), ("dry", 0)],
)
def test_a_wait_for_what_was_never_placed_is_waited_all_the_same(until: str, expected: int) -> None:
    """A placing that was lost takes no wait with it, on which other glue may count. It waits for nothing
    all the same, and that is told; on glue for something else nobody waits."""
    glue, wait = "{glue: tube, outside: rear_seat, with: pva, for: ring}", f"until: {until}}}"
    run = built(
        steps("tube, ring, pva, brush, plug", glue, f"{{wait for: plug, {wait}", f"{{wait for: ring, {wait}")
    )
    assert [frame.seconds for frame in run.frames[1:]] == [0, expected]
    assert [need.met for need in needs(run, n.Dries)] == [False, False]


def test_a_second_wait_waits_only_for_what_is_missing() -> None:
    run = built(
        steps(
            "tube, ring, pva, brush",
            "{glue: tube, outside: rear_seat, with: pva, for: ring}",
            "{slide: ring, over: tube, from: rear, to: rear_seat}",
            "{wait for: ring, until: set}",
            "{verify: tube, shows: a, else: b., takes: 10 min}",
            "{wait for: ring, until: cured}",
            "{wait for: ring, until: cured}",
        )
    )
    # 24 h - 30 min - 10 min = 84 000 s; and then nothing
    assert seconds(run) == [0, 0, 1800, 600, 24 * 3600 - 1800 - 600, 0]


def test_preparation_is_run_first_and_the_builders_clock_begins_after_it() -> None:
    guide, runs = fixture("rolled-rocket")
    for run in runs:
        prep = [frame.prep for frame in run.frames]
        assert prep == sorted(prep, reverse=True) and True in prep
        last, first = prep.count(True) - 1, prep.count(True)
        # a week lies between them, and the busy minutes are counted from nothing
        assert run.frames[first].before.clock == run.frames[last].after.clock + 7 * DAY
        assert run.frames[first].before.active == 0
    assert guide.routes


def test_the_clock_never_goes_back_and_frames_follow_one_another() -> None:
    for name in ("rolled-rocket", "wind-cart"):
        for run in fixture(name)[1]:
            before = run.start
            for frame in run.frames:
                if frame.before is not before:
                    assert frame.before.clock > before.clock and not frame.prep
                assert frame.after.clock >= frame.before.clock
                assert frame.after.active - frame.before.active <= frame.seconds
                before = frame.after


def test_the_time_of_a_step_is_the_time_of_its_frames() -> None:
    """Of every step with a time and no wait: the parts are together the whole."""
    for name in ("rolled-rocket", "wind-cart"):
        for run in fixture(name)[1]:
            for step in run.route.steps:
                frames = run.of_step(step.id)
                if step.time is None or step.time.base is None or not frames:
                    continue
                waits = [f for f in frames if f.action.verb.kind == "wait"]
                spent = sum(f.seconds for f in frames if f not in waits)
                own = sum(f.action.takes.base or 0 for f in frames if f.action.takes is not None)
                assert spent == max(step.time.base, own), step.id


def test_a_guide_of_waits_alone_takes_no_hands() -> None:
    guide = guide_of(steps("tube", "{wait for: tube, for: 1 h}", time="5 min"))
    from builder.dryrun.run import run_all

    (run,) = run_all(guide)
    assert of((run.end.clock, run.end.active)) == (3600, 0)
