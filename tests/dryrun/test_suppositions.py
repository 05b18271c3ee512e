"""What is missing is supposed and the run goes on: the least that meets a need, tagged, not judged again."""

from __future__ import annotations

import pytest

from builder.dryrun import needs as n
from tests.dryrun.built import built, needs, of, steps, unmet

RING = "parts:\n  band: {form: ring, of: card, outside: 30 mm, inside: 22.4 mm, length: 10 mm}\n"
SLIDE = "{slide: ring, over: tube, from: rear, to: rear_seat, fit: sliding}"
PULL = '{do: "Pull the {loads}", loads: tube}'

CASES = [
    # (what is missing, takes, actions, own, unmet needs, what is supposed)
    (
        "a part that nobody makes",
        "tube",
        ("{slide: band, over: tube, from: rear, to: rear_seat, fit: sliding}", PULL, PULL),
        RING.replace(", length: 10 mm", "").replace("of: card", "made by: teacher, length: 10 mm"),
        ["Exists"],
        ["Make"],
    ),
    (
        "glue or a fit",
        "tube, ring",
        ("{slide: ring, over: tube, from: rear, to: rear_seat}", PULL),
        "",
        ["Held"],
        ["Close"],
    ),
    (
        "a mark, and all that is lined up with it",
        "tube, ring, pencil, ruler",
        (
            "{slide: ring, over: tube, from: rear, to: line, fit: sliding}",
            "{mark: line, onto: tube, at: start of rear_seat, around: yes}",
        ),
        "",
        ["Marked"],
        ["Lay"],
    ),
    (
        "a jig, so that the fin stands in it all the same",
        "tube, fin, jig, ring, pva, brush",
        (
            "{glue: fin, edge: root, with: pva, for: tube}",
            "{attach: fin, onto: tube, at: 10 mm from rear, angle: 0 deg, held by: jig}",
            "{glue: tube, outside: front_seat, with: pva, for: ring}",
            "{slide: ring, over: tube, from: front, to: front_seat}",
            "{wait for: fin, until: set}",
            "{remove: jig, from: tube, towards: rear}",
        ),
        "",
        ["InPlace"],
        ["Place"],
    ),
    (
        "a former that was left inside",
        "card, former, scissors, rolled, pva",
        (
            "{cut: rolled.blank, from: card, with: scissors}",
            "{roll: rolled.blank, around: former, with: pva, makes: rolled}",
            "{wait for: rolled, until: set}",
            "{wait for: rolled, until: cured}",
        ),
        "",
        ["Out"],
        ["Lift"],
    ),
    (
        "a ring, where its fillet is run",
        "tube, ring, pva, brush",
        ("{glue: ring, fillet to: tube, with: pva}", "{glue: ring, fillet to: tube, with: pva}"),
        "",
        ["There"],
        ["Place"],
    ),
    (
        "reach, so that the glue was laid somehow",
        "tube, plug, pva, brush",
        (
            "{insert: stop, into: tube, from: rear, to: flush with rear, fit: tight}",
            "{insert: cover, into: tube, from: front, to: flush with front, fit: tight}",
            "{glue: tube, inside: bay, with: pva, for: plug}",
        ),
        "parts:\n  stop: {like: plug}\n  cover: {like: plug}\n",
        ["Bare"],
        ["Wetten"],
    ),
    (
        "stock",
        "tube, thread, scissors",
        ("{cut: line, from: thread, with: scissors}", "{tie: line, to: tube}"),
        "parts:\n  line: {form: cord, of: thread, length: 101 mm}\n",
        ["Stock"],
        ["Take"],
    ),
]


@pytest.mark.parametrize(
    ("takes", "actions", "own", "lacking", "supposed"), [c[1:] for c in CASES], ids=[c[0] for c in CASES]
)
def test_what_is_supposed(
    takes: str, actions: tuple[str, ...], own: str, lacking: list[str], supposed: list[str]
) -> None:
    run = built(steps(takes, *actions, own=own))
    assert unmet(run) == lacking
    every = [effect for frame in run.frames for effect in frame.supposed]
    assert [type(effect).__name__ for effect in every] == supposed
    assert all(effect.cause.supposed for effect in every)
    assert len(run.frames) == len(actions), "the run went on to its end"


def test_a_part_that_was_supposed_may_be_made_later() -> None:
    run = built(
        steps(
            "tube, card, scissors",
            "{slide: band, over: tube, from: rear, to: 10 mm from rear, fit: sliding}",
            "{cut: band, from: card, with: scissors}",
            own="parts:\n  band: {form: ring, of: card, outside: 30 mm, inside: 22.4 mm}\n",
        )
    )
    assert unmet(run) == ["Exists"]
    assert run.frames[0].after.items["band"].cause.supposed
    assert not run.end.items["band"].cause.supposed
    # the sheet is cut then: 300 x 200 less 30 x 30
    assert sum(piece.along * (piece.across or 1) for piece in run.end.stock["card"]) == 300 * 200 - 30 * 30


def test_what_is_there_already_takes_no_stock_again() -> None:
    own = "parts:\n  line: {form: cord, of: thread, length: 60 mm}\n"
    cut = "{cut: line, from: thread, with: scissors, leaves: 40 mm}"
    run = built(steps("tube, thread, scissors", cut, cut, "{tie: line, to: tube}", own=own))
    assert unmet(run) == ["Fresh"]
    assert of([piece.along for piece in run.end.stock["thread"]]) == [40]


def test_a_mark_out_of_sight_gives_no_place() -> None:
    run = built(
        steps(
            "tube, ring, pencil, ruler",
            "{mark: line, onto: tube, at: middle of rear_seat, around: yes}",
            SLIDE,
            "{slide: other, over: tube, from: rear, to: line, fit: sliding}",
            own="parts:\n  other: {like: ring}\n",
        )
    )
    assert unmet(run) == ["Marked"]
    (need,) = needs(run.frames[-1], n.Marked)
    assert (need.state, need.other) == ("covered", "ring")
    assert run.end.seats["other"].stretch is None


def test_what_is_lined_up_with_a_mark_does_not_hide_it_from_itself() -> None:
    """Placed again at the same mark, a part is told once: it is in its place already."""
    on = "{attach: tag, onto: tube, at: line, fit: tight}"
    run = built(
        steps(
            "tube, pencil, ruler",
            "{mark: line, onto: tube, at: 30 mm from rear, angle: 0 deg}",
            on,
            on,
            own="parts:\n  tag: {form: slab, source: bought, thickness: 2 mm, outline: {disc: 9 mm}}\n",
        )
    )
    assert unmet(run) == ["Free"]


def test_a_supposed_joint_bears_everything() -> None:
    run = built(steps("tube, ring", "{slide: ring, over: tube, from: rear, to: rear_seat}", PULL))
    (joint,) = run.end.joints
    assert (joint.kind, joint.cause.supposed) == ("supposed", True)
    assert needs(run.frames[-1], n.Bears) == []


def test_glue_that_has_dried_in_the_open_meets_nothing_by_the_way() -> None:
    """A bead for a pin is left to dry; the tube goes into another much later, and the bead plays no part."""
    own = """
    parts:
      outer: {form: tube, source: bought, length: 200 mm, inside: 22.5 mm, wall: 1 mm}
      pin: {form: rod, source: bought, diameter: 3 mm, length: 5 mm}
    """
    run = built(
        steps(
            "tube, pva, brush",
            "{glue: tube, outside: middle, with: pva, for: pin}",
            "{tie: pin, to: outer}".replace("tie", "attach")
            .replace("to:", "onto:")
            .replace("}", ", at: 5 mm from rear, angle: 0 deg, fit: tight}"),
            "{wait for: tube, for: 1 h}",
            "{insert: tube, into: outer, from: rear, to: flush with rear, fit: sliding}",
            own=own,
        )
    )
    assert needs(run.frames[-1], n.Open) == []
    assert len(run.end.wets) == 1


def test_an_unknown_number_is_silent() -> None:
    """A length that could not be worked out has its own finding; nothing that reads it is judged."""
    from builder.dryrun.kinds import VERBS
    from builder.dryrun.run import run_all
    from builder.guide.reader import read
    from tests.checks.examples_of import whole

    text = whole(
        steps(
            "tube",
            SLIDE,
            own="parts:\n  ring: {form: ring, source: found, outside: 30 mm, inside: 23 mm, length: a}\n",
        )
    ).text
    guide = read({"guide.yml": text}, "guide.yml", VERBS, "built")
    assert [finding.check for finding in guide.findings] == ["unknown-name"]
    (run,) = run_all(guide)
    assert unmet(run) == []
