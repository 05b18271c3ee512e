"""What a finding says word by word, and where a check stops looking: more changes of one sign that no example
of a check would notice. Numbers come from the arithmetic beside them; no outside source."""

from __future__ import annotations

from fractions import Fraction

import pytest

from builder.checks import reading_grade, same_place
from builder.checks.base import Look
from builder.checks.judge import _beside_slips, check
from builder.checks.similar_parts import silhouette
from builder.dryrun import needs as n
from builder.dryrun.kinds import VERBS
from builder.dryrun.run import run_all
from builder.findings import Finding, Place, Severity
from builder.guide.model import Guide
from builder.guide.reader import read
from tests.checks.examples_of import example, whole
from tests.checks.test_edges import changed, of
from tests.checks.test_small_changes import one_step, said, told


def guide_of(text: str) -> Guide:
    return read({"guide.yml": text}, "guide.yml", VERBS, "example")


# -- once, and each -----------------------------------------------------------------------------------


def test_a_way_that_is_blocked_twice_is_told_once() -> None:
    text = one_step(
        "tube, fin, lug, pva, brush",
        "{attach: fin 1, onto: tube, at: 10 mm from rear, angle: 0 deg, fit: tight}",
        "{attach: fin 2, onto: tube, at: 35 mm from rear, angle: 0 deg, fit: tight}",
        "{glue: lug, edge: side, with: pva, for: tube}",
        "{attach: lug, onto: tube, at: 60 mm from rear, angle: 0 deg, hold: 2 min}",
        time="5 min",
    ).replace("  fin:     {form: slab,", "  fin:     {form: slab, count: 2,")
    (message,) = said(text, "clear-way")
    # 3 / 25.4 = 0.118
    assert message == (
        "the way through the lug is blocked by the fin 1: a rod of 3 mm (0.118 in) does not pass"
    )


def test_each_of_two_forgotten_things_is_told() -> None:
    """The cord hangs on the lug, which is told with it; the nose lies by itself."""
    text = one_step(
        "tube, lug, cord, nose",
        "{tie: cord, to: lug}",
        "{verify: nose, shows: a round face, else: Take another one.}",
    )
    assert sorted(said(text, "not-in-kit")) == [
        "the lug is not on the finished tube, nor what sits on it",
        "the nose is not on the finished tube",
    ]


def test_a_stage_that_is_no_sum_on_two_routes_is_told_once() -> None:
    """2 min on each route, and 3 min are stated."""
    text = example("rejoin", "good").text.replace(
        "steps:\n", "steps:\n  - {stage: The ring, time: 3 min}\n", 1
    )
    (message,) = said(text, "step-time")
    assert message == 'the steps of "The ring" take 2 min together (the first way), not 3 min'


def test_the_text_after_one_in_a_step_that_waits_is_read_too() -> None:
    text = whole("""# takes: tube, ring, fin, pva, brush
steps:
  - id: fin_on
    title: Glue the fin on and let it dry
    time: 4 min
    actions:
      - {glue: fin, edge: root, with: pva, for: tube}
      - {attach: fin, onto: tube, at: 40 mm from rear, angle: 0 deg, hold: 2 min}
      - {wait for: fin, until: set}
  - id: ring_on
    title: Slide the ring on and let it dry
    time: 2 min
    actions:
      - {slide: ring, over: tube, from: rear, to: rear_seat, fit: sliding}
""").text
    line = text.splitlines().index("    title: Slide the ring on and let it dry") + 1
    assert [finding.place.line for finding in told(text, "wait-in-words")] == [line]


def test_all_that_want_a_tool_are_counted_and_two_are_named() -> None:
    marks = (f"{{mark: line_{i}, onto: tube, at: {i}0 mm from rear}}" for i in range(1, 6))
    (finding,) = told(one_step("tube, ruler", *marks), "tool-unlisted")
    assert [also.text for also in finding.also] == ["wanted here too"] * 2


# -- what is said -------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("zones", "off"),
    # 100 mm are the length; 0.5 mm is 0.3 of a sixteenth of an inch
    [
        ("tail: 10 mm, rest: 89.5 mm", "(0.5 mm (about 1/32 in) short)"),
        ("tail: 10 mm, rest: 90.5 mm", "too long)"),
    ],
)
def test_zones_are_too_long_by_less_than_a_millimetre(zones: str, off: str) -> None:
    (message,) = said(changed("zone-sum", "tail: 10 mm, rest: 80 mm", zones), "zone-sum")
    assert message.endswith(off.rpartition(" ")[2])


def test_a_mark_that_is_drawn_only_later_is_told_so() -> None:
    assert said(example("mark-order", "bad").text, "mark-order") == [
        'the mark "line" is used before it is drawn'
    ]


@pytest.mark.parametrize(
    ("wait", "message"),
    [
        # the label: dry 30 min, recoat up to 1 h or from 48 h
        ("10 min", "goes on after 10 min, before the last is dry (30 min)"),
        ("5 h", "goes on after 5 h, in the time that its label forbids"),
    ],
)
def test_why_a_coat_is_not_allowed(wait: str, message: str) -> None:
    text = changed("recoat", "{wait for: tube, for: 5 h}", f"{{wait for: tube, for: {wait}}}")
    assert said(text, "recoat") == [f"the next coat of acrylic spray paint {message}"]


@pytest.mark.parametrize(
    ("count", "message"),
    [
        ("", "the line of 110 mm (about 4 5/16 in) cannot be cut"),
        (", count: 2", "2 of the line, 110 mm (about 4 5/16 in) each, cannot be cut"),
    ],
)
def test_how_many_cannot_be_cut(count: str, message: str) -> None:
    """110 mm are 4.33 in: 69.3 sixteenths, so 4 5/16."""
    text = changed("stock", "length: 110 mm", f"length: 110 mm{count}")
    assert said(text, "stock")[0].startswith(message)


@pytest.mark.parametrize(
    ("prose", "guess"),
    [
        # in a sentence of its own, what the action names is near, and not only things are
        ('say: "Slide the {ring} over the {tube} from the {frmo} to {to}."', "Did you mean {from}?"),
        ('say: "Slide the {rign} over the {tube} from the {from} to {to}."', "Did you mean {ring}?"),
    ],
)
def test_the_nearest_reference_of_a_sentence(prose: str, guess: str) -> None:
    text = one_step(
        "tube, ring", f"{{slide: ring, over: tube, from: rear, to: rear_seat, fit: tight, {prose}}}"
    )
    (finding,) = told(text, "say-reference")
    assert finding.mend == guess


def test_the_nearest_reference_of_a_note() -> None:
    """A note belongs to no action: any thing may be meant."""
    ring_on = "{slide: ring, over: tube, from: rear, to: rear_seat, fit: sliding}"
    (finding,) = told(one_step("tube, ring", ring_on, "note: The {rign} is round."), "say-reference")
    assert finding.mend == "Did you mean {ring}?"


def test_three_sizes_of_a_thing_are_named() -> None:
    """Length, bore, wall and the rod that passes: four sizes, of which three are enough."""
    own = (
        "parts:\n  strap: {name: 9 mm straw, form: tube, source: bought, length: 40 mm, inside: 4 mm, "
        "wall: 2 mm, clear way: 3 mm}\n"
    )
    on = "{attach: strap, onto: tube, at: 50 mm from rear, angle: 0 deg, fit: tight}"
    (message,) = said(one_step("tube", on, own=own), "name-size")
    assert message.partition("it has ")[2].count(" mm") == 3


def test_room_is_never_less_than_nothing() -> None:
    """What lies 3 mm beyond has left no room at all."""
    guide = guide_of(
        one_step("tube, ring", "{slide: ring, over: tube, from: rear, to: rear_seat, fit: tight}")
    )
    runs = run_all(guide)
    need = n.Apart(at=guide.at, met=False, child="ring", host="tube", other="", inside=False,
                   room=Fraction(-3), asked=Fraction(10))  # fmt: skip
    found = same_place.find(need, runs[0].frames[0], Look(guide, runs, runs[0]))
    assert found is not None
    assert found.message == (
        "the ring is 10 mm (about 3/8 in) long there, but the tube has room for only 0 mm (0 in)"
    )


def test_glue_on_the_other_face_is_told_so() -> None:
    text = one_step(
        "tube, plug, pva, brush",
        "{glue: tube, outside: 0 mm to 10 mm from rear, with: pva, for: plug}",
        "{insert: plug, into: tube, from: rear, to: flush with rear}",
    )
    assert [(f.check, f.message) for f in of(text)] == [
        (
            "held",
            "the glue for the plug and the tube does not lie where they meet: "
            "it is on the outside of the tube",
        )
    ]


# -- what counts ---------------------------------------------------------------------------------------


FIN = "form: slab, source: bought, thickness: 2 mm, outline"


@pytest.mark.parametrize(
    ("left", "right", "paired"),
    [
        # root 30, tip 10: the tip's edge begins at 0 with the rear square, at 30 - 10 = 20 with the front
        ("square edge: rear", "square edge: front", True),
        ("square edge: rear", "square edge: rear", False),
        # swept by 20 it begins at 30 - 20 - 10 = 0, by 0 at 20, by 5 at 15, whose reflection is 5: by 15
        ("sweep: 20 mm", "square edge: front", True),
        ("sweep: 0 mm", "square edge: front", False),
        ("sweep: 5 mm", "sweep: 15 mm", True),
    ],
)
def test_a_fin_that_is_the_other_reflected(left: str, right: str, paired: bool) -> None:
    own = "".join(
        f"  {side}_fin: {{{FIN}: {{root: 30 mm, tip: 10 mm, span: 20 mm, {edge}}}, hand: {side}{more}}}\n"
        for side, edge, more in (("left", left, ""), ("right", right, ", mirror of: left_fin"))
    )
    on = (
        f"{{attach: {side}_fin, onto: tube, at: 50 mm from rear, angle: {turn} deg, fit: tight}}"
        for side, turn in (("left", 0), ("right", 180))
    )
    found = said(one_step("tube", *on, own="parts:\n" + own), "hand")
    assert (found == []) is paired


def test_what_is_buried_is_not_verified_any_more() -> None:
    """The nose is looked at only when the tube that it sits in has gone into another one."""
    own = "parts:\n  outer: {form: tube, source: bought, length: 100 mm, inside: 22.4 mm, wall: 1 mm}\n"
    text = whole(f"""# takes: tube, nose
{own}steps:
  - id: nose_in
    title: Put the nose in
    time: 2 min
    critical: yes
    actions:
      - {{insert: nose, into: tube, from: front, to: front_room, fit: tight}}
  - id: outer_on
    title: Put the tube away
    time: 2 min
    actions:
      - {{insert: tube, into: outer, from: rear, to: flush with rear, fit: sliding}}
      - {{verify: nose, shows: a straight nose, else: Push it straight.}}
finished: {{is: outer, holds: all}}
""").text
    assert said(text, "critical-unverified") == [
        "this step is critical, but nobody checks that the nose sits right"
    ]
    verified = "{verify: nose, shows: a straight nose, else: Push it straight.}"
    first = text.replace(f"      - {verified}\n", "").replace(
        "fit: tight}\n", f"fit: tight}}\n      - {verified}\n"
    )
    assert said(first, "critical-unverified") == []


def test_a_tool_that_was_put_on_loosely_is_left_on_too() -> None:
    on = "{attach: block, onto: tube, at: 50 mm from rear, angle: 0 deg, fit: loose}"
    assert said(one_step("tube, block", on), "never-removed") == [
        "the sanding block is still on the finished kit"
    ]


def test_routes_are_compared_before_the_next_step() -> None:
    """One route pushes the plug in part-way, the other not at all; the step after it pushes it home on both,
    and yet its builders hold different things."""
    text = whole("""# takes: tube, plug
choices: {way: {a: the first way, b: the second way}}
steps:
  - choose: way
    a:
      - id: begun
        title: Push the plug in a little
        time: 2 min
        actions:
          - {insert: plug, into: tube, from: front, leaving out: 5 mm, fit: tight}
    b:
      - id: looked_at
        title: Look at the plug
        time: 2 min
        actions:
          - {verify: plug, shows: a round plug, else: Take another one.}
  - id: home
    title: Push the plug home
    time: 2 min
    actions:
      - {insert: plug, into: tube, from: front, to: front_room, fit: tight}
""").text
    assert len(said(text, "rejoin")) == 1


def test_a_solid_part_has_no_bore() -> None:
    """A rod 20 mm thick is solid however thin the bore of a tube is that looks like it."""
    things = guide_of(one_step("tube, plug", "{insert: plug, into: tube, from: front, fit: tight}")).things
    assert silhouette(things["plug"]) == ("solid", (Fraction(20), Fraction(10), Fraction(0)))
    assert silhouette(things["tube"]) == ("hollow", (Fraction(22), Fraction(100), Fraction(20)))


@pytest.mark.parametrize(
    ("named", "wanted"),
    [
        # a ruler draws no line; a tool of an unknown kind may be the pencil
        ("ruler", ["to mark takes a pencil, and the tool list has none"]),
        ("whirligig", []),
    ],
)
def test_what_is_named_in_the_place_of_a_tool(named: str, wanted: list[str]) -> None:
    mark = "{mark: line, onto: tube, at: 10 mm from rear, with: tool}"
    own = f"tools:\n  tool: {{name: {named}, hazards: []}}\n"
    assert said(one_step("tube", mark, own=own), "tool-unlisted") == wanted


def test_a_tool_that_nobody_knows_may_be_the_one_that_is_wanted() -> None:
    """It is told first, and the missing pencil beneath it; a tool that everybody knows is none."""
    mark = "{mark: line, onto: tube, at: 10 mm from rear}"
    twice = "{mark: other, onto: tube, at: 20 mm from rear, with: odd}"
    found = of(one_step("tube, ruler", mark, twice, own="tools:\n  odd: {name: whirligig}\n"))
    assert [f.check for f in found if f.check == "tool-unlisted"] == []
    (leader,) = [f for f in found if f.check == "hazard-unknown"]
    assert "tool-unlisted" in [f.check for f in leader.follows]


@pytest.mark.parametrize("word", ["glue-pot", "paste brush", "gluepot"])
def test_a_refused_word_is_found_whatever_joins_its_parts(word: str) -> None:
    ring_on = "{slide: ring, over: tube, from: rear, to: rear_seat, fit: sliding}"
    own = f"terms:\n  brush: {{means: What the glue is laid with., never: [{word}]}}\n"
    text = one_step("tube, ring", ring_on, f"note: The {word} stands by.", own=own)
    assert said(text, "two-names") == [f'"{word}" is a second name for what this guide calls "brush"']


# -- lines of a slip ----------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("line", "doubted"),
    [(1, {"done:slide", "placed:ring"}), (2, {"done:glue", "placed:tube"}), (99, set())],
)
def test_what_stands_in_the_line_of_a_slip_is_doubted(line: int, doubted: set[str]) -> None:
    """The words of that line, and of no other: the first line counts, and one behind the last has none."""
    guide = guide_of(example("hand", "good").text)
    guide = _with_text(guide, "slide ring\nglue tube\n")
    slip = Finding("braces", Severity.ERROR, Place("guide.yml", line, 1), "a brace", "", "")
    beside = Finding("held", Severity.ERROR, Place("guide.yml", line, 9), "nothing holds it", "", "")
    first, second = _beside_slips([slip, beside], guide)
    watched = {"done:slide", "done:glue", "placed:ring", "placed:tube"}
    known = {fact for fact in first.suspects if fact in watched}
    assert known == {fact for fact in doubted if fact.partition(":")[2] in (*guide.things, "slide", "glue")}
    assert f"line:guide.yml:{line}" in first.suspects & second.rests_on


def _with_text(guide: Guide, text: str) -> Guide:
    from msgspec.structs import replace

    return replace(guide, texts={"guide.yml": text})


# -- the rough grade ----------------------------------------------------------------------------------


def test_only_a_text_that_may_be_too_hard_is_counted(monkeypatch: pytest.MonkeyPatch) -> None:
    """Counting word by word is slow: at the stated grade, by the rough one, it is not begun."""
    text = one_step("tube, ring", "{slide: ring, over: tube, from: rear, to: rear_seat, fit: sliding}")
    guide = guide_of(text.replace("units:", "audience: {reading grade: 6}\nunits:", 1))
    assert guide.audience["reading_grade"] == "6"
    counted: list[str] = []

    def measured(_: object) -> tuple[Fraction, int, str]:
        counted.append("counted")
        return Fraction(0), 0, ""

    monkeypatch.setattr(reading_grade, "measured", measured)
    monkeypatch.setattr(reading_grade, "roughly", lambda _: Fraction(6))
    check(guide)
    assert counted == []
    monkeypatch.setattr(reading_grade, "roughly", lambda _: Fraction(61, 10))
    check(guide)
    assert counted == ["counted"]


def test_whatever_stands_between_vowels_parts_them() -> None:
    """In 100 words without a stop, each with one group of vowels more in it than `o`: of all printable signs
    of ASCII only vowels go together with their neighbours."""
    one = reading_grade.roughly("o " * 100)
    for sign in map(chr, range(33, 127)):
        if sign.lower() not in "aeiouy.?!":
            assert reading_grade.roughly(f"o{sign}o " * 100) > one, sign


def test_nothing_is_no_size_that_a_name_could_mean() -> None:
    """A blade that takes nothing away has no size, and a name is not held against it."""
    mark = "{mark: line, onto: tube, at: 10 mm from rear, with: saw}"
    saw = "tools:\n  saw: {name: 3 mm saw, cuts away: %s}\n"
    assert said(one_step("tube", mark, own=saw % "0 mm"), "name-size") == []
    assert len(said(one_step("tube", mark, own=saw % "1 mm"), "name-size")) == 1


def test_what_is_made_later_is_told_so() -> None:
    assert said(example("used-before-made", "bad").text, "used-before-made") == [
        "the ring is used before it is made"
    ]
