"""Joints: how old they are, what they bear, and what keeps them steady. Every limit is tried on both sides.

The label of the kit's glue: working time 5 min = 300 s, tack 2 min = 120 s, set 30 min = 1800 s, full cure
24 h = 86 400 s. Glue ages from the start of the action that lays it to the end of the one that closes the
joint; a joint ages from the end of that action to the start of the next.
"""

from __future__ import annotations

import pytest

from builder.dryrun import needs as n
from builder.dryrun.effects import Close
from builder.dryrun.labels import label_times
from builder.dryrun.run import DryRun
from builder.findings import Place
from builder.guide.model import Thing, Value
from builder.quantities.sums import Sum, read_sum
from builder.quantities.units import Dimension
from tests.dryrun.built import built, needs, of, steps, unmet

GLUE = "{glue: tube, outside: rear_seat, with: pva, for: ring}"
SLIDE = "{slide: ring, over: tube, from: rear, to: rear_seat}"


def joined(*after: str, takes: str = "tube, ring, pva, brush", own: str = "") -> DryRun:
    """A ring glued onto a tube, the joint closed at 0 s, and then the actions."""
    return built(steps(takes, GLUE, SLIDE, *after, own=own))


@pytest.mark.parametrize(
    ("laying", "placing", "met"),
    [("0 s", "300 s", True), ("0 s", "301 s", False), ("60 s", "240 s", True), ("60 s", "241 s", False)],
)
def test_glue_is_open_as_long_as_its_label_says(laying: str, placing: str, met: bool) -> None:
    run = built(
        steps(
            "tube, ring, pva, brush",
            GLUE.replace("}", f", takes: {laying}}}"),
            SLIDE.replace("}", f", takes: {placing}}}"),
        )
    )
    (need,) = needs(run, n.Open)
    assert need.met is met
    assert of((need.age, need.limit)) == (int(laying[:-2]) + int(placing[:-2]), 300)


@pytest.mark.parametrize(
    ("waited", "doing", "lacks", "missing"),
    [
        # handling asks for set
        ("1799 s", '{do: "Twist the {handles}", handles: tube}', "set", 1),
        ("1800 s", '{do: "Twist the {handles}", handles: tube}', "", None),
        # loading asks for cured: 86 400 - 1800 = 84 600 s are missing when it has just set
        ("1800 s", '{do: "Pull the {loads}", loads: tube}', "cured", 84_600),
        ("86399 s", '{do: "Pull the {loads}", loads: tube}', "cured", 1),
        ("86400 s", '{do: "Pull the {loads}", loads: tube}', "", None),
        # paint asks for cured, sanding too
        ("86399 s", "{paint: tube, with: spray}", "cured", 1),
        ("86400 s", "{paint: tube, with: spray}", "", None),
        ("86399 s", "{sand: ring, edges: [front], with: block}", "cured", 1),
        ("86400 s", "{sand: ring, edges: [front], with: block}", "", None),
        # and so does a hole
        ("86399 s", "{drill: ring, at: middle of ring, with: bit}", "cured", 1),
        ("86400 s", "{drill: ring, at: middle of ring, with: bit}", "", None),
    ],
)
def test_what_a_joint_bears_at_which_age(waited: str, doing: str, lacks: str, missing: int | None) -> None:
    run = joined(
        f"{{wait for: ring, for: {waited}}}",
        doing,
        takes="tube, ring, pva, brush, spray, goggles, block, bit",
    )
    found = [need for need in needs(run.frames[-1], n.Bears) if not need.met]
    assert [(need.level, need.missing) for need in found] == ([(lacks, missing)] if lacks else [])


def test_a_joint_knows_when_it_sets_and_cures() -> None:
    run = built(steps("tube, ring, pva, brush", GLUE, SLIDE, time="4 min"))
    (joint,) = run.end.joints
    # two actions share 240 s; closed at 240, set at 240 + 1800, cured at 240 + 86 400
    assert of((joint.closed, joint.set_at, joint.cured_at)) == (240, 2040, 86_640)
    assert (joint.a, joint.b, joint.adhesive, joint.steady) == ("tube", "ring", "pva", "nested")
    assert run.end.wets == ()


LABELS = """
materials:
  quick: {name: white PVA glue, form: adhesive, adhesive: pva, amount: 5 mL, label: {LABEL}}
"""


@pytest.mark.parametrize(
    ("label", "set_at", "cured_at"),
    [
        ("working time: 5 min, set: 30 min, full cure: 24 h", 1800, 86_400),
        # what a label does not say (a finding of its own) is the least that the trade knows of white glue:
        # set 15 min, cured 8 h
        ("working time: 5 min, set: 30 min", 1800, 8 * 3600),
        ("working time: 5 min, full cure: 24 h", 15 * 60, 86_400),
        ("working time: 5 min", 15 * 60, 8 * 3600),
    ],
)
def test_a_label_that_says_less(label: str, set_at: int, cured_at: int) -> None:
    run = built(
        steps(
            "tube, ring, brush",
            GLUE.replace("pva", "quick"),
            SLIDE,
            '{do: "Pull the {loads}", loads: tube}',
            own=LABELS.replace("LABEL", label),
        )
    )
    (joint,) = run.frames[1].after.joints
    assert of((joint.set_at, joint.cured_at)) == (set_at, cured_at)
    assert "Bears" in unmet(run)


@pytest.mark.parametrize(
    ("kind", "label", "expected"),
    [
        # a kind that nobody knows: one of the two stands for both
        ("none such", "set: 30 min", (1800, 1800)),
        ("none such", "full cure: 24 h", (86_400, 86_400)),
        ("none such", "working time: 5 min", (None, None)),
        # never set after it is cured, nor cured before it is set
        ("pva", "full cure: 10 min", (600, 600)),
        ("pva", "set: 10 h", (36_000, 36_000)),
    ],
)
def test_times_that_are_supposed(kind: str, label: str, expected: tuple[int | None, int | None]) -> None:
    name, _, time = label.partition(": ")
    found = read_sum(time, Dimension.TIME)
    assert isinstance(found, Sum)
    at = Place("guide.yml", 1, 1)
    value = Value(found.plain, "", at)
    glue = Thing("quick", "quick", "material", "adhesive", at, values={name.replace(" ", "_"): value},
                 words={"adhesive": kind})  # fmt: skip
    assert label_times(glue) == expected


@pytest.mark.parametrize(("held", "steady"), [("119 s", ""), ("120 s", "held"), ("0 s", "")])
def test_what_is_held_until_it_tacks_is_steady(held: str, steady: str) -> None:
    run = built(
        steps(
            "tube, fin, ring, pva, brush",
            "{glue: fin, edge: root, with: pva, for: tube}",
            f"{{attach: fin, onto: tube, at: 10 mm from rear, angle: 0 deg, hold: {held}}}",
            "{glue: tube, outside: front_seat, with: pva, for: ring}",
        )
    )
    assert run.frames[1].after.joints[0].steady == steady
    bears = needs(run.frames[2], n.Bears)
    assert [(need.demand, need.met, need.level) for need in bears] == [
        ("carry", bool(steady), "" if steady else "steady")
    ]


def test_steady_is_enough_to_be_carried_and_not_to_be_worked_on() -> None:
    fins = """
    parts:
      wing:
        {form: slab, count: 2, source: bought, thickness: 1 mm, outline: {root: 9 mm, tip: 5 mm, span: 9 mm}}
    """

    def run(second: str) -> DryRun:
        return built(
            steps(
                "tube, pva, brush",
                "{glue: wing 1, edge: root, with: pva, for: tube}",
                "{attach: wing 1, onto: tube, at: 10 mm from rear, angle: 0 deg, hold: 2 min}",
                second,
                own=fins,
            )
        )

    assert unmet(run("{glue: wing 2, edge: root, with: pva, for: tube}")) == []
    assert unmet(run('{do: "Bend the {handles}", handles: wing 1}')) == ["Bears"]
    assert unmet(run('{do: "Bend the {handles}", handles: tube}')) == ["Bears"]


def test_in_a_jig_a_fin_is_steady_as_long_as_the_jig_is_there() -> None:
    def run(*between: str) -> DryRun:
        return built(
            steps(
                "tube, fin, jig, ring, pva, brush",
                "{slide: jig, over: tube, from: rear, to: 10 mm from rear, fit: sliding}",
                "{glue: fin, edge: root, with: pva, for: tube}",
                "{attach: fin, onto: tube, at: 10 mm from rear, angle: 0 deg, held by: jig}",
                *between,
                "{glue: tube, outside: front_seat, with: pva, for: ring}",
                "{slide: ring, over: tube, from: front, to: front_seat}",
            )
        )

    assert unmet(run()) == []
    assert unmet(run("{remove: jig, from: tube, towards: rear}")) == ["Steadied"]
    assert unmet(run("{wait for: fin, for: 1799 s}", "{remove: jig, from: tube, towards: rear}")) == [
        "Steadied"
    ]
    assert unmet(run("{wait for: fin, for: 1800 s}", "{remove: jig, from: tube, towards: rear}")) == []


def test_a_missing_wait_is_supposed_once_for_the_whole_assembly() -> None:
    run = built(
        steps(
            "tube, ring, pva, brush",
            GLUE,
            SLIDE,
            "{glue: tube, outside: front_seat, with: pva, for: other}",
            "{slide: other, over: tube, from: front, to: front_seat}",
            '{do: "Pull the {loads}", loads: tube}',
            '{do: "Pull the {loads} again", loads: tube}',
            own="parts:\n  other: {like: ring}\n",
        )
    )
    assert [len(needs(frame, n.Bears)) for frame in run.frames] == [0, 0, 1, 1, 2, 0]
    assert [len([x for x in needs(f, n.Bears) if not x.met]) for f in run.frames] == [0, 0, 0, 0, 2, 0]
    # the joints are cured as of that moment, the clock has not moved, the bench is otherwise the same
    assert all(joint.cured_at == run.frames[4].before.clock for joint in run.end.joints)
    assert run.end.clock == run.frames[4].before.clock
    # each older joint is an effect that was supposed
    pull = run.frames[4]
    changes = [(effect.instead, effect.joint) for effect in pull.supposed if isinstance(effect, Close)]
    assert tuple(old for old, _ in changes) == pull.before.joints
    assert tuple(new for _, new in changes) == pull.after.joints


def test_gently_lets_a_joint_be_and_only_that_one() -> None:
    gently = "gently: {joints: [ring], why: two fingers hold it}"
    run = joined(f'{{do: "Twist the {{handles}}", handles: tube, {gently}}}')
    assert unmet(run) == []
    run = joined(
        f'{{do: "Twist the {{handles}}", handles: tube, {gently.replace("ring", "nose")}}}',
        takes="tube, ring, nose, pva, brush",
    )
    assert unmet(run) == ["Bears"]


@pytest.mark.parametrize(
    ("between", "age", "met"),
    [("0 s", 1, True), ("1799 s", 1800, True), ("1800 s", 1801, False)],
)
def test_a_former_comes_out_before_its_tube_has_set(between: str, age: int, met: bool) -> None:
    run = built(
        steps(
            "card, former, scissors, rolled, pva",
            "{cut: rolled.blank, from: card, with: scissors}",
            "{roll: rolled.blank, around: former, with: pva, makes: rolled}",
            f"{{verify: scissors, shows: clean blades, else: Wipe them., takes: {between}}}",
            "{remove: former, from: rolled, before: set, takes: 1 s}",
        )
    )
    (need,) = needs(run, n.Before)
    assert of((need.age, need.limit, need.met)) == (age, 1800, met)


def test_a_fit_closes_a_joint_that_bears_everything_at_once() -> None:
    run = built(
        steps(
            "tube, ring",
            "{slide: ring, over: tube, from: rear, to: rear_seat, fit: sliding}",
            '{do: "Pull the {loads}", loads: all}',
        )
    )
    assert unmet(run) == []
    (joint,) = run.end.joints
    assert (joint.kind, joint.adhesive, joint.steady) == ("fit", "", "sliding")


def test_coats_and_when_the_next_may_follow() -> None:
    """Dry 30 min = 1800 s; recoat up to 1 h or from 48 h: allowed from dry to 3600 s, and from 172 800 s."""

    def state(waited: str) -> tuple[str, bool]:
        run = built(
            steps(
                "tube, spray, goggles",
                "{paint: tube, with: spray}",
                f"{{wait for: tube, for: {waited}}}",
                "{paint: tube, with: spray}",
            )
        )
        (need,) = needs(run, n.Recoat)
        return need.state, need.met

    assert state("1799 s") == ("early", False)
    assert state("1800 s") == ("", True)
    assert state("3600 s") == ("", True)
    assert state("3601 s") == ("late", False)
    assert state("172799 s") == ("late", False)
    assert state("172800 s") == ("", True)


@pytest.mark.parametrize(
    ("own", "adhesive"),
    [
        ("", "pva"),  # the only one on the list
        (LABELS.replace("LABEL", "set: 30 min"), ""),  # one of two, and nothing is laid for the ring
    ],
)
def test_what_nothing_holds_is_supposed_to_be_glued_with_what_was_meant(own: str, adhesive: str) -> None:
    """So that a wait that is missing too is told, beneath: 24 h after closing it would be cured."""
    run = built(steps("tube, ring, pva, brush", SLIDE, '{do: "Pull the {loads}", loads: tube}', own=own))
    (joint,) = run.frames[0].after.joints
    assert joint.cause.supposed and joint.adhesive == adhesive
    assert joint.cured_at == (86_400 if adhesive else joint.closed)
    assert unmet(run) == (["Held", "Bears"] if adhesive else ["Held"])


PLATES = """
parts:
  deck:
    form: slab
    source: bought
    thickness: 3 mm
    outline: {rectangle: 100 mm x 60 mm, edges: [left, front, right, back], along: front to back}
    zones: {lengthwise from front: [nose: 20 mm, tail: 80 mm]}
  pad:
    form: slab
    source: bought
    thickness: 3 mm
    outline: {rectangle: 40 mm x 40 mm, edges: [left, front, right, back], along: front to back}
  chip: {form: slab, source: bought, thickness: 3 mm, outline: {rectangle: 4 mm x 4 mm}}
"""


@pytest.mark.parametrize(
    ("onto", "stretches"),
    [
        # on the glued plate: the chip takes 5 mm to 5 + 4 = 9 mm of it
        ("deck", [(5, 9)]),
        # on a pad that lies on the glued plate: 5 mm are counted on the pad and say nothing of the plate
        ("pad", []),
    ],
)
def test_what_lies_on_another_plate_is_not_measured_on_the_glued_one(
    onto: str, stretches: list[tuple[int, int]]
) -> None:
    run = built(
        steps(
            "pva, brush, tube",
            "{attach: pad, onto: deck, top: 50 mm from front and 20 mm from left, fit: tight}",
            "{glue: deck, top: tail, with: pva, for: chip}",
            f"{{attach: chip, onto: {onto}, top: 5 mm from front and 5 mm from left}}",
            own=PLATES,
        )
    )
    assert [of((need.lo, need.hi)) for need in needs(run, n.Covered)] == stretches
    assert [(joint.a, joint.b) for joint in run.end.joints if joint.adhesive] == [("deck", "chip")]


@pytest.mark.parametrize(
    ("takes", "glue", "placing", "lacks"),
    [
        # into a tube: its inner face meets the outer one of what goes in
        ("plug", "{glue: tube, inside: 0 mm to 10 mm from rear, with: pva, for: plug}", "in", []),
        ("plug", "{glue: tube, outside: 0 mm to 10 mm from rear, with: pva, for: plug}", "in", ["Held"]),
        ("plug", "{glue: plug, outside: 0 mm to 10 mm from rear, with: pva, for: tube}", "in", []),
        ("plug", "{glue: tube, with: pva, for: plug}", "in", []),  # nobody says where
        # over a tube: its outer face meets the inner one of what goes over
        ("ring", "{glue: tube, outside: rear_seat, with: pva, for: ring}", "over", []),
        ("ring", "{glue: tube, inside: 10 mm to 20 mm from rear, with: pva, for: ring}", "over", ["Held"]),
        ("ring", "{glue: ring, inside: 0 mm to 10 mm from rear, with: pva, for: tube}", "over", []),
        ("ring", "{glue: ring, outside: 0 mm to 10 mm from rear, with: pva, for: tube}", "over", ["Held"]),
    ],
)
def test_glue_meets_where_the_walls_do(takes: str, glue: str, placing: str, lacks: list[str]) -> None:
    """Glue on the other face of a wall holds nothing, and is taken for what was meant: it is told once."""
    placed = {"in": "{insert: plug, into: tube, from: rear, to: flush with rear}", "over": SLIDE}[placing]
    run = built(steps(f"tube, {takes}, pva, brush", glue, placed))
    assert unmet(run) == lacks
    assert run.end.wets == ()
    assert [joint.kind for joint in run.end.joints] == ["supposed" if lacks else "glue"]
