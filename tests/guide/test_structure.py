"""Faults of steps, actions, choices and shared steps: one finding for each, at its place."""

from __future__ import annotations

import pytest

from builder.guide.actions import MOST_ACTIONS
from builder.guide.reader import MOST_ROUTES
from builder.guide.steps import MOST_STEPS
from builder.guide.things import MOST_COPIES
from tests.guide.planting import Case, case, misplaced, planted, reading, spots, texts_of

KIT, MAIN = texts_of("marble-run")

GLUE = "      - {glue: peg 1 and 2, outside: 0 mm to 3 mm from foot, with: pva, for: base}\n"
INSERT = "          - {insert: peg, into: base, from: top, to: flush with under}\n"

CASES = (
    # one action is one thing done
    case("a dash missing between two actions",
         "      - {cut: peg, from: stick, with: scissors, leaves: 140 mm}\n",
         "      - cut: peg\n        from: stick\n        with: scissors\n        ▸wait for: base\n        "
         "until: set\n", "two-verbs"),
    case("two verbs in one pair of braces", GLUE,
         GLUE.replace("for: base}", "for: base, ▸insert: peg 1, into: base}"),
         "two-verbs"),
    case("two actions with the same fields", GLUE,
         GLUE.replace("for: base}", "for: base, ▸mark: spot, onto: base, with: pencil}"),
         "two-verbs"),
    case("a verb that comes second", INSERT,
         "          - {▸into: base, insert: peg, from: top, to: flush with under}\n", "verb-first"),
    case("a misspelt verb", INSERT, INSERT.replace("insert:", "▸insret:"), "unknown-verb"),
    case("another word for a verb", INSERT, INSERT.replace("insert:", "▸push:"), "unknown-verb"),
    case("a verb that nothing knows", GLUE, "      - {▸xylophone: peg}\n", "unknown-verb"),
    case("a field that a verb needs", GLUE,
         "      - ▸{glue: peg 1 and 2, outside: 0 mm to 3 mm from foot, for: base}\n",
         "missing-field"),
    case("a field of another verb", INSERT,
         INSERT.replace("to: flush with under", "to: flush with under, ▸until: set"), "unknown-key"),
    case("an action that is a text", GLUE, GLUE + "      - ▸Leave it to dry.\n", "shape"),
    case("actions that are no list",
         "    actions:\n      - {cut: base, from: board, along: pattern, with: scissors}\n"
         "      - {cut: peg, from: stick, with: scissors, leaves: 140 mm}\n      - note: Board bends better "
         "along its length.\n",
         "    actions: ▸{cut: base, from: board}\n", "shape"),
    case("a place that is none", INSERT, INSERT.replace("to: flush with under", "to: ▸1 mm from the foot"),
         "place"),
    case("a list where a place belongs", INSERT,
         INSERT.replace("to: flush with under", "to: [low, ▸[high]]"), "shape"),
    case("a list where an id belongs", "      - repeat: peg\n", "      - repeat: ▸[peg]\n", "shape"),
    case("a note with more to it", "- note: Board bends better along its length.",
         "- {note: Board bends better., ▸colour: blue}", "unknown-key"),
    case("a gentle touch without a reason", GLUE,
         GLUE.replace("for: base}", "for: base, gently: ▸{joints: [peg]}}"), "missing-field"),
    case("angles for a part that there is not", GLUE,
         GLUE + "      - {mark: ticks, onto: base, at: low, angle: ▸evenly for pge}\n",
         "unknown-name"),
    # steps
    case("a dash missing between two steps", "  - id: pegs_in", "    ▸id: pegs_in", "missing-dash"),
    case("a dash missing behind a stage", "  - stage: The ramp\n",
         "  - stage: The ramp\n    ▸id: look\n    title: Look\n    actions: []\n",
         "missing-dash"),
    case("two steps of one id", "  - id: pegs_in", "  - id: ▸cut_base", "duplicate-id"),
    case("a step without an id", "  - id: pegs_in\n    title", "  - ▸title", "missing-field"),
    case("a step without a title", "  - id: pegs_in\n    title: Glue the pegs in\n", "  - ▸id: pegs_in\n",
         "missing-field"),
    case("a step that is a text", "  - stage: The ramp\n", "  - stage: The ramp\n  - ▸Look around\n",
         "shape"),
    case("a time of unknown parts", "    time: 12 min", "    time: {each: 2 min, ▸setup: 10 min}",
         "unknown-key"),
    case("an optional step that is neither", "    time: 12 min", "    time: 12 min\n    optional: ▸perhaps",
         "word"),
    case("a caution that nobody wrote", "    time: 12 min", "    time: 12 min\n    cautions: [▸dragons]",
         "unknown-name"),
    case("a caution without its consequence", "    time: 12 min",
         "    time: 12 min\n    cautions: [▸{level: warning, hazard: It is hot., avoidance: Wait.}]",
         "caution-part"),
    case("a caution of an unknown level", "    time: 12 min",
         "    time: 12 min\n    cautions: [{level: ▸alarm, hazard: It is hot., consequence: It burns., "
         "avoidance: Wait.}]", "word"),
    case("a caution dropped, but which", "    time: 12 min",
         "    time: 12 min\n    without caution: ▸{why: it is covered}", "missing-field"),
    case("a picture without its words", "    time: 12 min", "    time: 12 min\n    picture: ▸grip.png",
         "picture-alt"),
    # repeats
    case("a repeat in a repeat", INSERT, "          - ▸{repeat: peg, actions: []}\n", "shape"),
    case("a repeat without actions",
         "      - repeat: peg\n        at: [low, high]\n        actions:\n" + INSERT,
         "      - ▸{repeat: peg, at: [low, high]}\n", "missing-field"),
    case("a repeat with its action beside it",
         "      - repeat: peg\n        at: [low, high]\n        actions:\n" + INSERT,
         "      - {repeat: peg, at: [low, high], ▸insert: peg, into: base, from: top, to: flush with "
         "under}\n", "shape"),
    # choices and routes
    case("an option left out",
         "  - choose: ramp\n    rolled:\n      - {use: roll_it, as: ramp, with: {work: tube, core: former, "
         "glue: pva}}\n    folded: []\n",
         "  - ▸choose: ramp\n    rolled:\n      - {use: roll_it, as: ramp, with: {work: tube, core: former, "
         "glue: pva}}\n",
         "missing-field"),
    case("a misspelt option", "    folded: []\n", "    ▸foldd: []\n", "unknown-name"),
    case("an option that is none", "    folded: []\n", "    folded: []\n    ▸xylophone: []\n",
         "unknown-name"),
    case("an option under a name that nothing resembles", "    folded: []\n", "    ▸xylophone: []\n",
         "unknown-name"),
    case("a misspelt choice", "  - choose: ramp\n", "  - choose: ▸rmap\n", "unknown-name"),
    case("a choice in a choice", "    folded: []\n",
         "    folded:\n      - ▸choose: ramp\n        rolled: []\n        folded: []\n", "shape"),
    # shared steps
    case("a misspelt shared step", "{use: roll_it, as", "{use: ▸rol_it, as", "unknown-name"),
    case("a shared step that there is not", "{use: roll_it, as", "{use: ▸xylophone, as", "unknown-name"),
    case("a parameter left out",
         "      - {use: roll_it, as: ramp, with: {work: tube, core: former, glue: pva}}",
         "      - ▸{use: roll_it, as: ramp, with: {work: tube, core: former}}", "missing-field"),
    case("no parameter at all",
         "      - {use: roll_it, as: ramp, with: {work: tube, core: former, glue: pva}}",
         "      - ▸{use: roll_it, as: ramp, with: {}}", "missing-field"),
    case("a misspelt parameter", "core: former, glue", "▸cor: former, glue", "unknown-name"),
    case("a parameter that it does not take", "glue: pva}}", "glue: pva, ▸xylophone: pva}}", "unknown-name"),
    case("a parameter of the wrong kind", "core: former, glue: pva", "core: ▸pva, glue: pva", "wrong-sort"),
    case("a parameter that names nothing", "core: former, glue: pva", "core: ▸xylophone, glue: pva",
         "unknown-name"),
    case("a shared step without a prefix", "{use: roll_it, as: ramp,", "▸{use: roll_it,", "missing-field"),
    # inside a shared file
    case("a misspelt id in a shared step", "around: core, with: glue", "around: core, with: ▸gleu",
         "unknown-name"),
    case("a misspelt key in a shared step", "from turn: 2, makes", "▸from trun: 2, makes", "unknown-key"),
    case("a number in a shared step", "    time: 6 min\n    actions:\n      - {roll",
         "    time: ▸6\n    actions:\n      - {roll", "number"),
    case("a kind that is none", "core: tool, glue: material}", "core: ▸instrument, glue: material}", "word"),
    case("a shared step that uses another", "  - id: roll\n",
         "  - {▸use: roll_it, as: again}\n  - id: roll\n", "shape"),
    case("a stage in a shared step", "  - id: roll\n", "  - ▸stage: Rolling\n  - id: roll\n", "shape"),
    case("an open brace in a shared file", "      - {remove: core, from: work, before: set}",
         "      - ▸{remove: core, from: work, before: set", "yaml"),
    case("a key of a shared file", "takes: {work", "▸takse: {work", "unknown-key"),
)  # fmt: skip


@pytest.mark.parametrize("row", CASES, ids=lambda row: row.name)
def test_one_fault_is_one_finding(row: Case) -> None:
    texts, expected = planted(KIT, MAIN, row.edits, row.checks)
    found = reading(texts, MAIN).findings
    assert spots(found) == expected
    assert misplaced(found, texts) == []
    assert all(finding.why and finding.mend for finding in found)


HEAD = "title: Two cards\nunits: {first: mm, second: in, finest: 1 mm}\n"


@pytest.mark.parametrize(
    ("text", "check", "line", "column"),
    [
        ("", "shape", 1, 1),
        ("# nothing but a comment\n", "shape", 1, 1),
        ("just a sentence", "shape", 1, 1),
        ("- a\n- list\n", "shape", 1, 1),
        (HEAD, "missing-field", 1, 1),
        (HEAD + "steps: {id: first}\n", "shape", 3, 8),
        (HEAD + "steps: []\nparts: [a, b]\n", "shape", 4, 8),
        (HEAD + "steps:\n", "missing-value", 3, 1),
        (HEAD + "steps: []\nchoices: [a, b]\n", "shape", 4, 10),
        (HEAD + "steps: []\nrevision: 1\n", "shape", 4, 11),
        (HEAD + "steps: []\nfinished: body\n", "shape", 4, 11),
    ],
)
def test_guides_that_are_hardly_one(text: str, check: str, line: int, column: int) -> None:
    assert spots(reading({"guide.yml": text}, "guide.yml").findings) == [(check, "guide.yml", line, column)]


def test_a_fault_in_a_shared_step_is_told_once_with_all_its_uses() -> None:
    texts, expected = planted(KIT, MAIN, (
        ("around: core, with: glue", "around: core, with: ▸gleu"),
        ("  - {stage: The stand,",
         "  - {use: roll_it, as: spare, with: {work: tube, core: former, glue: pva}}\n"
                                   "  - {stage: The stand,"),
    ), ("unknown-name",))  # fmt: skip
    finding, = reading(texts, MAIN).findings
    assert spots([finding]) == expected
    uses = [(other.place.file, other.text) for other in finding.also]
    assert uses == [(MAIN, 'used here as "ramp"'), (MAIN, 'used here as "spare"')]


def test_a_parameter_that_stands_for_nothing_is_not_referred_to() -> None:
    """Why it means nothing is told where the step is used; the title must not tell it again."""
    texts, _ = planted(KIT, MAIN, (("work: tube, core: former", "core: former"),), ())
    guide = reading(texts, MAIN)
    assert [finding.check for finding in guide.findings] == ["missing-field"]
    roll = next(step for step in guide.routes[0].steps if step.id == "ramp_roll")
    assert [piece for piece in roll.title.pieces if not isinstance(piece, str)] == []


def test_one_prefix_for_two_uses() -> None:
    texts, expected = planted(KIT, MAIN, (
        ("  - {stage: The stand,",
         "  - {use: roll_it, as: ▸ramp, with: {work: tube, core: former, glue: pva}}\n"
                                   "  - {stage: The stand,"),), ("duplicate-id",))  # fmt: skip
    guide = reading(texts, MAIN)
    assert spots(guide.findings) == expected
    assert [step.id for step in guide.routes[0].steps][:2] == ["ramp_roll", "ramp_again_roll"]


def test_a_shared_file_that_nobody_uses_is_not_judged() -> None:
    texts = {**KIT, "other.yml": "shared: other\nsteps: {{{\n"}
    assert reading(texts, MAIN).findings == ()


def test_two_files_with_one_shared_step() -> None:
    texts = {**KIT, "other.yml": KIT["roll_it.yml"]}
    assert spots(reading(texts, MAIN).findings) == [("duplicate-id", "roll_it.yml", 2, 9)]


def test_both_actions_of_a_missing_dash_are_read() -> None:
    texts, _ = planted(KIT, MAIN, (
        (GLUE, GLUE.replace("for: base}", "for: base, mark: spot, onto: base, with: pencil}")),),
                       ())  # fmt: skip
    step = next(s for s in reading(texts, MAIN).routes[0].steps if s.id == "pegs_in")
    assert [action.verb.word for action in step.each_action()] == ["glue", "mark", "insert", "wait for"]


def test_another_word_for_a_verb_is_read_as_that_verb() -> None:
    texts, _ = planted(KIT, MAIN, ((INSERT, INSERT.replace("insert:", "push:")),), ())
    guide = reading(texts, MAIN)
    assert [finding.mend for finding in guide.findings] == ["Did you mean `insert`?"]
    step = next(s for s in guide.routes[0].steps if s.id == "pegs_in")
    assert [action.verb.word for action in step.each_action()] == ["glue", "insert", "wait for"]


def many(count: int, entry: str) -> str:
    """An entry, so many times, with its number."""
    return "".join(entry.replace("N", str(i)) for i in range(count))


@pytest.mark.parametrize(
    ("edit", "check", "line"),
    [
        (("  - stage: The ramp\n",
          "  - stage: The ramp\n" + many(MOST_STEPS + 9, "  - {id: sN, title: Look, actions: []}\n")),
         "too-many", None),
        (("      - note: Board",
          many(MOST_ACTIONS + 9, "      - {wait for: base, until: set}\n") + "      - note: Board"),
         "too-many", None),
        (("  ramp: {rolled: with a rolled ramp, folded: with a folded ramp}\n",
          "  ramp: {rolled: with a rolled ramp, folded: with a folded ramp"
          + many(MOST_ROUTES, ", oN: the way N") + "}\n"),
         "too-many", 7),
    ],
)  # fmt: skip
def test_limits_of_a_guide(edit: tuple[str, str], check: str, line: int | None) -> None:
    edits = [edit]
    if line is not None:  # every option has its steps
        edits.append(("    folded: []\n", "    folded: []\n" + many(MOST_ROUTES, "    oN: []\n")))
    texts, _ = planted({MAIN: KIT[MAIN], "roll_it.yml": KIT["roll_it.yml"]}, MAIN, tuple(edits), ())
    guide = reading(texts, MAIN)
    assert [finding.check for finding in guide.findings] == [check]
    assert line is None or guide.findings[0].place.line == line
    assert len(guide.routes) <= MOST_ROUTES


COUNTED = "title: A\nunits: {first: mm, second: in, finest: 1 mm}\nparts:\n%ssteps: []\n"


@pytest.mark.parametrize(
    ("counts", "lines", "kept"),
    [
        ((MOST_COPIES,), [], [MOST_COPIES]),
        ((MOST_COPIES + 1,), [4], [1]),  # and then one is built with
        ((MOST_COPIES, MOST_COPIES + 1, 2), [5], [MOST_COPIES, 1, 2]),
        # 5 x 200 copies and one of each other: 1,000 beyond the first of each are not reached by 5 x 199 + 5
        ((200, 200, 200, 200, 200, 6), [], [200, 200, 200, 200, 200, 6]),
        ((200, 200, 200, 200, 200, 7, 2, 1), [9], [200, 200, 200, 200, 200, 1, 1, 1]),  # told once
    ],
)
def test_limits_of_copies(counts: tuple[int, ...], lines: list[int], kept: list[int]) -> None:
    row = "  p%s: {form: cord, source: bought, length: 9 mm, count: %s}\n"
    rows = "".join(row % (i, count) for i, count in enumerate(counts))
    guide = reading({"guide.yml": COUNTED % rows}, "guide.yml")
    assert [(f.check, f.place.line) for f in guide.findings] == [("too-many", line) for line in lines]
    assert [thing.count for thing in guide.things.values()] == kept
