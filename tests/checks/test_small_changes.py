"""What one changed sign in the code of a check would do to its findings: bounds that meet, words told
exactly, what comes second. Each test stands for a change that no example of the check would notice."""

from __future__ import annotations

import pytest

from builder.checks.judge import check
from builder.dryrun.kinds import VERBS
from builder.findings import Finding
from builder.guide.reader import read
from tests.checks.examples_of import example, whole
from tests.checks.test_edges import changed, of


def told(text: str, name: str) -> list[Finding]:
    """The leaders of one check."""
    return [finding for finding in of(text) if finding.check == name]


def said(text: str, name: str) -> list[str]:
    """What the leaders of one check say."""
    return [finding.message for finding in told(text, name)]


RING_ON = "{slide: ring, over: tube, from: rear, to: rear_seat, fit: sliding%s}"


def one_step(takes: str, *actions: str, own: str = "", time: str = "2 min") -> str:
    """A guide of one step."""
    done = "".join(f"      - {action}\n" for action in actions)
    return whole(f"# takes: {takes}\n{own}steps:\n  - id: work\n    title: Do it\n    time: {time}\n"
                 f"    actions:\n{done}").text  # fmt: skip


# -- words ------------------------------------------------------------------------------------------


def test_words_typed_at_two_places_are_two_faults() -> None:
    """What is typed is known by its place: a wait in words follows from what is typed there, and from nothing
    else."""
    say = ', say: "Slide the {ring} over the {tube} from the {from} to {to}, then let it dry."'
    text = one_step("tube, ring", RING_ON % say, "note: It looks as shown below.")
    assert len(said(text, "typed-reference")) == 1
    assert len(said(text, "wait-in-words")) == 1


def test_a_caution_with_two_steps_of_the_work_is_told_once() -> None:
    text = changed("caution-instruction", "Sand the ring first.", "Sand the ring first. Then glue the ring.")
    assert said(text, "caution-instruction") == ['the caution holds a step of the work: "sand ..."']


def test_a_claim_on_the_second_page_is_told() -> None:
    text = one_step("tube, ring", RING_ON % "").replace(
        "units:", "overview: overview.md\nscience: science.md\nunits:", 1
    )
    pages = {"overview.md": "# The ring\n", "science.md": "# Why\n\nThe edge is perfectly safe.\n"}
    guide = read({"guide.yml": text, **pages}, "guide.yml", VERBS, "example")
    found = [f for f in check(guide) if f.check == "claims-safe"]
    # "The edge is perfectly " are 22 signs
    assert [(f.place.file, f.place.line, f.place.column) for f in found] == [("science.md", 3, 23)]


@pytest.mark.parametrize(
    ("note", "before"),
    [
        ("Escape with the cap.", "Escape with the "),
        ("The caper is a cap.", "The caper is a "),
        ("A cap, a cap.", "A "),
    ],
)
def test_a_second_name_is_found_behind_a_word_that_only_holds_it(note: str, before: str) -> None:
    terms = "terms: {lid: {means: What closes the tube., never: [cap]}}\n"
    (finding,) = told(one_step("tube, ring", RING_ON % "", f"note: {note}", own=terms), "two-names")
    assert finding.place.column == len("      - note: ") + len(before) + 1


@pytest.mark.parametrize(("last", "judged"), [("Stop here.", True), ("Stop.", False)])
def test_a_grade_is_worked_out_from_a_hundred_words_on(last: str, judged: bool) -> None:
    """14 sentences of seven words are 98; two more are a hundred, one more is not. (Readability formulas were
    made with samples of a hundred words: from memory.)"""
    hard = "Longitudinal stability necessitates considerable precision during installation. "
    own = "audience: {ages: 12-15, reading grade: 7}\n"
    text = one_step("tube, ring", RING_ON % "", f'note: "{hard * 14}{last}"', own=own)
    assert bool(told(text, "reading-grade")) is judged


# -- places -----------------------------------------------------------------------------------------


def test_a_place_that_begins_at_the_end_and_is_too_long() -> None:
    """From 0 to 110 mm on a tube of 100 mm: 10 mm beyond it, at the far end."""
    place = "at: 0 mm to 110 mm from rear, angle: 0 deg"
    text = changed("station", "at: 101 mm from rear, around: yes", place)
    (message,) = said(text, "station")
    assert "lies 10 mm (" in message
    assert "beyond the tube, which is 100 mm (" in message


def test_a_part_as_long_as_the_room_that_meets_another_is_not_too_long() -> None:
    """The ring is 10 mm long and so is its zone: it is the other ring that is in the way."""
    (finding,) = told(example("same-place", "bad").text, "same-place")
    assert finding.message == "the other would be where the ring is on the tube"
    assert told(example("same-place", "bad").text, "room-left") == []
    # inside: 90 mm are free before the plug, and the rod of 90 mm is put 5 mm too deep
    rod = "parts:\n  rod: {form: rod, source: bought, diameter: 20 mm, length: 90 mm}\n"
    first = "{insert: plug, into: tube, from: rear, to: flush with rear, fit: tight}"
    second = "{insert: rod, into: tube, from: front, to: 5 mm from rear, fit: tight}"
    text = one_step("tube, plug", first, second, own=rod)
    assert [f.check for f in of(text)] == ["same-place"]


def test_angles_are_told_to_a_tenth() -> None:
    text = changed("marks-count", "angle: 60 deg", "angle: 22.5 deg")
    text = text.replace("angle: 90 deg", "angle: 101.5 deg")
    assert said(text, "marks-count") == ["the fin goes to 22.5 deg, but the marks stand at 101.5 deg"]
    text = changed("marks-count", "angle: 60 deg", "angle: 120 deg")
    assert said(text, "marks-count") == ["the fin goes to 120 deg, but the marks stand at 90 deg"]


# -- fits -------------------------------------------------------------------------------------------


def test_what_is_told_of_a_glued_fit_that_is_too_tight_or_too_loose() -> None:
    """White glue bridges up to 0.5 mm of play and takes at least 0.1 mm (the trade's table)."""
    glued = ("{glue: tube, inside: bay, with: pva, for: core}",
             "{insert: core, into: tube, from: front, to: 20 mm from rear}")  # fmt: skip
    core = "parts:\n  core: {form: rod, source: bought, diameter: %s, length: 10 mm}\n"
    (thick,) = said(one_step("tube, pva, brush", *glued, own=core % "20.2 mm"), "fit")
    assert thick.startswith("the core is too thick for the tube: 20.2 mm in 20 mm, ")
    assert thick.endswith(" too much")
    (thin,) = said(one_step("tube, pva, brush", *glued, own=core % "17 mm"), "fit")
    # 20 - 17 = 3 mm of play are 1.5 mm all round
    assert thin.startswith("the core is too thin for the tube: 17 mm in 20 mm leaves 1.5 mm (")
    assert " all round, and the glue bridges " in thin


def test_what_is_told_of_a_sliding_fit_that_is_too_loose_or_too_tight() -> None:
    """A sliding fit has its range in the trade's table; a glue is not spoken of."""
    (tight,) = said(example("fit", "bad").text, "fit")
    assert "; a sliding fit needs a play of at least " in tight
    assert "too much" not in tight
    (loose,) = said(changed("fit", "inside: 21 mm", "inside: 26 mm"), "fit")
    assert "; a sliding fit has a play of at most " in loose
    assert "glue" not in loose


# -- the kit ----------------------------------------------------------------------------------------


def test_similar_parts_of_which_there_are_several_are_told() -> None:
    assert said(changed("similar-parts", "outside: 30 mm", "outside: 29 mm, count: 2"), "similar-parts")


def test_steps_that_ask_for_gear_are_all_named() -> None:
    """The finding stands at the first; the next three are named, and more would only be a list."""
    text = example("gear-missing", "bad").text
    at = text.index("  # here\n")
    step, tail = text[at:].split("finished:")
    steps = "".join(step.replace("id: saw", f"id: saw_{i}").replace("  # here\n", "") for i in range(5))
    (finding,) = told(text[:at] + steps + "finished:" + tail, "gear-missing")
    assert [also.text for also in finding.also] == [f"asked for here too (saw_{i})" for i in (1, 2, 3)]


def test_a_teacher_s_stage_that_is_no_preparation_is_told_there() -> None:
    text = changed("preparation", "steps:\n", "steps:\n  - {stage: Before, who: teacher}\n"
                   "  - {id: cut_it, title: Cut it, time: 2 min, actions: [{cut: ring, from: card}]}\n"
                   "  - stage: The ring\n")  # fmt: skip
    (finding,) = told(text, "preparation")
    assert finding.message == 'the teacher makes the ring in the stage "Before", which is no preparation'
    assert finding.mend == "Write `per: class` in the stage."
    assert text.splitlines()[finding.place.line - 1].lstrip() == "- {stage: Before, who: teacher}"


def test_the_tool_of_an_adhesive_is_used_where_the_adhesive_is() -> None:
    """Hot melt takes a gun (the trade's table of usual tools), and nobody writes `with: gun` beside it."""
    own = ("materials:\n  melt: {name: hot glue, form: adhesive, adhesive: hot melt, amount: 1 piece}\n"
           "tools:\n  gun: {name: hot glue gun}\n")  # fmt: skip
    text = one_step("tube, fin", "{glue: fin, edge: root, with: melt, for: tube}",
                    "{attach: fin, onto: tube, at: 40 mm from rear, angle: 0 deg}", own=own)  # fmt: skip
    assert said(text, "never-used") == []
    assert said(text.replace("hot melt", "pva"), "never-used") == ['the tool "hot glue gun" is never used']


def test_where_a_part_is_on_each_route_is_told() -> None:
    text = changed("rejoin", "{slide: ring, over: tube, from: front, to: front_seat, fit: sliding}",
                   "{verify: ring, shows: a round ring, else: Take another one.}")  # fmt: skip
    (message,) = said(text, "rejoin")
    # the rear seat is from 10 to 20 mm; in 16ths of an inch 10 / 25.4 is 6.3 and 20 / 25.4 is 12.6
    assert message == (
        "the routes end with different kits: the first way, the ring sits on the tube from 10 mm (about "
        "3/8 in) to 20 mm (about 13/16 in); the second way, it lies loose"
    )
    look = "{verify: tube, shows: a bore, else: Wait.}"
    more = f"  - {{id: look, title: Look at it, time: 1 min, actions: [{look}]}}\n"
    (message,) = said(text.rstrip("\n") + "\n" + more, "rejoin")
    assert message.startswith("the routes rejoin with different kits: ")


# -- waits ------------------------------------------------------------------------------------------


def test_a_wait_for_nothing_is_told_although_another_step_had_to_suppose_something() -> None:
    """In the first step the fin's glue is missing, which is supposed; the second waits for a dry ring."""
    text = whole("""# takes: tube, ring, fin, pva
steps:
  - id: fin_on
    title: Set the fin on
    time: 2 min
    actions:
      - {attach: fin, onto: tube, at: 40 mm from rear, angle: 0 deg, hold: 2 min}
  - id: ring_on
    title: Slide the ring on
    time: 2 min
    actions:
      - {slide: ring, over: tube, from: rear, to: rear_seat, fit: sliding}
      - {wait for: ring, until: set}
""").text  # fmt: skip
    assert said(text, "nothing-dries") == ["nothing on the ring is wet, so there is nothing to wait for"]


@pytest.mark.parametrize("stated", ["20 min", "5 h"])
def test_a_wait_after_the_cure_is_not_held_against_the_label(stated: str) -> None:
    """When the wait before it ends, the glue is cured to the second."""
    glue = "{glue: fin, edge: root, with: pva, for: tube}"
    attach = "{attach: fin, onto: tube, at: 40 mm from rear, angle: 0 deg, hold: 2 min}"
    waits = ("{wait for: fin, until: cured}", f"{{wait for: fin, for: {stated}}}")
    text = one_step("tube, fin, pva, brush", glue, attach, *waits, time="5 min")
    assert said(text, "wait-differs") == []


@pytest.mark.parametrize(("short", "closes"), [("0.5 mm", True), ("0.501 mm", False)])
def test_a_wrap_may_be_off_by_half_a_step_of_the_ruler(short: str, closes: bool) -> None:
    """The ruler's step is 1 mm, so half of it is just good enough."""
    text = changed("wrap-closes", "length: 60 mm", f"length: pi * tube.outside - {short}")
    assert (said(text, "wrap-closes") == []) is closes
