"""A writer's sentences checked against their actions: one fault, one finding, at its place; no false alarm.

No outside source: the rules are the guide format's own.
"""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from builder.checks import (
    note_instruction,
    note_warning,
    say_direction,
    say_missing,
    say_number,
    say_reference,
    say_same,
    say_verb,
)
from builder.checks.base import Look
from builder.dryrun.kinds import VERBS
from builder.findings import Finding, Severity
from builder.guide.model import Guide
from builder.guide.reader import read_guide
from builder.guide.wording import Book, sentence, skeleton
from builder.guide.wording.directions import turned
from builder.guide.wording.saying import Say, has_verb, left_out, strangers
from tests.guide.test_wording import AFTER, ATTACH, CUT, GLUE, LOOK, MAKE, MARK, SEAT
from tests.guide.test_wording_prose import prose
from tests.guide.wording_kit import guide_of, last_action

CHECKS = (
    say_number,
    say_reference,
    say_missing,
    say_verb,
    say_direction,
    say_same,
    note_instruction,
    note_warning,
)


def findings(guide: Guide) -> Iterator[Finding]:
    """What the checks of words find."""
    for module in CHECKS:
        yield from module.CHECK.find(Look(guide, ()))


def names(guide: Guide) -> list[str]:
    return [finding.check for finding in findings(guide)]


def with_say(action: str, say: str, *before: str, repeat: str = "") -> Guide:
    return guide_of(*before, action.removesuffix("}") + f', say: "{say}"}}', repeat=repeat)


BEAD = "{glue: motor_tube, inside: thrust_seat, with: pva, for: thrust_ring}"
RING = "{insert: thrust_ring, into: motor_tube, from: front, to: thrust_seat}"
HALF = "{insert: motor_tube, into: body, from: rear, leaving out: 1 in}"
HOLD = "{attach: fin, onto: body, at: fin_root, hold: 3 min}"
OFF = "{remove: jig, from: body, towards: rear}"
LINE = "{mark: rear_line, onto: motor_tube, at: start of rear_seat, around: yes}"

FAULTS = [
    # a number
    (
        BEAD,
        "Run a 3 mm bead of {with} round the inside of the {motor_tube} {place}, for the {for}.",
        ["say-number"],
    ),
    (HOLD, "Press the {fin} onto the {body} {place} and hold it for 3 min.", ["say-number"]),
    (HOLD, "Press the two {fin} onto the {body} {place} and hold them for {hold}.", ["say-number"]),
    (HALF, "Push the {motor_tube} into the {body} from the rear end, leaving 1 in out.", ["say-number"]),
    # a reference
    (
        BEAD,
        "Run a bead of {with} round the inside of the {moter_tube} {place}, for the {for}.",
        ["say-reference"],
    ),
    (
        BEAD,
        "Run {with} round the inside of the {motor_tube} {place} with the {brush}, for the {for}.",
        ["say-reference"],
    ),
    (
        BEAD,
        "Run {with} round the inside of the {motor_tube} {place}, for the {for}, as {hold}.",
        ["say-reference"],
    ),
    # something left out
    (BEAD, "Run a bead of {with} round the inside of the {motor_tube}, for the {for}.", ["say-missing"]),
    (BEAD, "Run a bead round the inside of the {motor_tube}, for the {for}.", ["say-missing"]),
    (HOLD, "Press the {fin} onto the {body} {place}.", ["say-missing"]),
    (RING, "Push the {thrust_ring} into the {motor_tube} {place}.", ["say-missing"]),
    (OFF, "Take the {jig} off the {body}.", ["say-missing"]),
    (LINE, "Draw a line on the {motor_tube}, {place}.", ["say-missing"]),
    # another verb
    (BEAD, "Wipe {with} round the inside of the {motor_tube} {place}, for the {for}.", ["say-verb"]),
    (RING, "Cut the {thrust_ring} for the {motor_tube}, from the front end, {place}.", ["say-verb"]),
    (RING, "The {thrust_ring} is pushed into the {motor_tube} from the front end, {place}.", ["say-verb"]),
    # another end or side
    (RING, "Push the {thrust_ring} into the {motor_tube} from the rear end, {place}.", ["say-direction"]),
    (RING, "Push the {thrust_ring} into the rear end of the {motor_tube}, {place}.", ["say-direction"]),
    (
        BEAD,
        "Run a bead of {with} round the outside of the {motor_tube} {place}, for the {for}.",
        ["say-direction"],
    ),
    (OFF, "Take the {jig} off the {body} over the front end.", ["say-direction"]),
    (OFF, "Slide the {jig} onto the {body} over the rear end.", ["say-direction"]),
    (RING, "Push the {thrust_ring} out of the {motor_tube} from the front end, {place}.", ["say-direction"]),
    (
        "{slide: wheel, over: axle, from: left, to: wheel_l}",
        "Press the {wheel} over the {axle} from the right, {place}.",
        ["say-direction"],
    ),
    (
        "{glue: fin, edge: root, with: pva, for: body}",
        "Brush {with} along the tip edge of the {fin}, for the {for}.",
        ["say-direction"],
    ),
    (
        HOLD,
        "Press the {fin} onto the {body} {place} from the left end and hold it for {hold}.",
        ["say-direction"],
    ),
    # the tool's own sentence
    ("{fold: anchor, over: tow}", "Fold the {anchor} over the {tow}.", ["say-same"]),
    # two faults are two findings
    (
        RING,
        "Push the {thrust_ring} 3 mm into the {motor_tube} from the rear end, {place}.",
        ["say-number", "say-direction"],
    ),
]


@pytest.mark.parametrize(("action", "say", "expected"), FAULTS)
def test_one_fault_is_one_finding(action: str, say: str, expected: list[str]) -> None:
    assert names(with_say(action, say)) == expected


INNOCENT = [
    (
        BEAD,
        "Run a bead of {with}, as wide as a pencil line, round the inside of the {motor_tube} {place}, "
        "for the {for}.",
    ),
    (BEAD, "With a long brush, gently spread {with} inside the {glue} {inside}, for the {for}."),
    (RING, "Push the {thrust_ring} into the {motor_tube} from the front end, {place}."),
    (RING, "Stand the {motor_tube} on its rear end, and slide the {thrust_ring} in from the front, {place}."),
    (RING, "Slide the {thrust_ring} into the {motor_tube} from the {from}, {to}."),
    (HALF, "Push the {motor_tube} into the {body} from the rear end, until {leaving out} is left outside."),
    (
        HOLD,
        "Press the {fin} onto the {body} {place}, and hold it for {hold} while you look along it from "
        "the rear end.",
    ),
    (OFF, "Pull the {jig} straight off the {body} over the rear end."),
    (LINE, "Draw a line round the {motor_tube}, {place}."),
    (
        "{cut: fin, from: board, along: pattern, with: knife}",
        "Cut {fin.count} {fin} from the {board} along the pattern with the {with}.",
    ),
    (
        "{tie: tow, to: eye, knot: overhand}",
        "Knot the {tow} to the {eye} with an overhand knot, and pull it tight.",
    ),
    (
        "{slide: wheel 1 and 3, over: axle, from: left, to: wheel_l}",
        "Press {wheel} over the {axle} from the left end, {place}, one after the other.",
    ),
    ("{wait for: body, until: set}", "Leave the {body} until it sets, right where it is."),
    (
        "{sand: fin, edges: [front, tip], not: [root], with: block}",
        "Round the front and tip edges of the {fin} with the {with}, but not the root edge.",
    ),
]


@pytest.mark.parametrize(("action", "say"), INNOCENT)
def test_a_good_sentence_is_let_pass(action: str, say: str) -> None:
    assert names(with_say(action, say)) == []


def test_a_mark_may_be_called_its_line() -> None:
    marks = (
        "{mark: fin_ticks, onto: body, at: 1 in from rear, angle: evenly for fin}",
        "{mark: fin_lines, onto: body, at: fin_root, along: fin_ticks}",
    )
    fin = "{attach: fin, onto: body, at: fin_lines, angle: evenly, hold: 3 min}"
    say = "Press the {fin} onto its line on the {body}, look along it from the rear, and hold it for {hold}."
    assert names(with_say(fin, say, *marks, repeat="repeat: fin\n        around: body")) == []


def test_one_sentence_may_tell_two_actions() -> None:
    both = (
        '{insert: case, into: motor_tube, from: rear, say: "Push the {case} into the {motor_tube} from '
        "the rear end, "
        'and take it out at the rear."}',
        "{remove: case, from: motor_tube, towards: rear, told above: yes}",
    )
    assert names(guide_of(*both)) == []
    apart = both[1].replace(", told above: yes", "")
    assert names(guide_of(both[0].replace("from the rear end, and", "and"), apart)) == []
    short = '{insert: case, into: motor_tube, from: rear, say: "Push the {case} in from the rear end."}'
    assert names(guide_of(short, both[1])) == ["say-missing"]


def test_names_with_numbers_may_stand() -> None:
    say = "Press the {fin} onto the {body} {place} beside fin 2 and the 2 in dowel, and hold it for {hold}."
    assert names(with_say(HOLD, say)) == []
    assert names(with_say(HOLD, say.replace("fin 2", "step 2"))) == ["say-number"]


def test_a_name_that_holds_an_end_is_no_direction() -> None:
    say = "Slide the {rear_ring} over the {motor_tube} from the rear end, {place}, as the front ring was."
    ring = "{slide: rear_ring, over: motor_tube, from: rear, to: rear_seat}"
    assert names(with_say(ring, say)) == []


@pytest.mark.parametrize(
    ("text", "line", "expected"),
    [
        ("Press the ring for 3 min", "title", ["say-number"]),
        ("Glue the second ring", "title", []),
        ("Glue the {ring}", "title", ["say-reference"]),
        ("A ring that leans leaves a gap of 2 mm.", "note", ["say-number"]),
        ("Press the ring flat.", "note", ["note-instruction"]),
        ("Press the ring flat.", "tip", ["note-instruction"]),
        ("A skewed ring shows as a gap of light.", "note", []),
        ("The blade is sharp.", "note", ["note-warning"]),
        ("Keep your fingers clear of the blade.", "note", ["note-warning"]),
        ("The craft knife gets hot.", "note", ["note-warning"]),
        ("It is so because of {the_thing}.", "why", ["say-reference"]),
        ("Each ring gets its own glue.", "why", []),
    ],
)
def test_titles_and_notes(text: str, line: str, expected: list[str]) -> None:
    action = "{wait for: body, until: set}"
    if line == "title":
        guide = guide_of(action, title=f'"{text}"')
    elif line == "why":
        guide = guide_of(action, step=f'why: "{text}"')
    else:
        guide = guide_of(action, f'{line}: "{text}"')
    assert names(guide) == expected


@pytest.mark.parametrize(
    ("action", "expected"),
    [
        ("{wait for: body, until: set, if missed: Give it 20 min more.}", ["say-number"]),
        ("{wait for: body, until: set, if missed: No harm. It may stand for days.}", []),
        ("{wait for: body, until: set, if missed: Leave it until the label allows it.}", []),
        ("{verify: cone, slides out of: body, else: Sand the shoulder until it does.}", []),
        ("{verify: cone, slides out of: body, else: Sand half of it away.}", ["say-number"]),
        ('{verify: cone, slides out of: body, else: "Sand the {shoulder_of_it}."}', ["say-reference"]),
        ('{do: "Let the {handles} run for 2 m", handles: deck}', ["say-number"]),
        ('{do: "Let the {handles} run", handles: deck}', []),
    ],
)
def test_what_to_do_when_it_is_off(action: str, expected: list[str]) -> None:
    assert names(guide_of(action)) == expected


def test_a_finding_stands_at_its_word() -> None:
    guide = with_say(RING, "Push the {thrust_ring} into the {motor_tube} from the rear end, {place}.")
    (found,) = findings(guide)
    line = guide.texts["guide.yml"].splitlines()[found.place.line - 1]
    assert line[found.place.column - 1 :][: found.place.length] == "rear"
    assert found.severity is Severity.ERROR
    assert "front" in found.message and "front" in found.mend
    guide = guide_of("{wait for: body, until: set, if missed: Give it 20 min more.}")
    (found,) = findings(guide)
    line = guide.texts["guide.yml"].splitlines()[found.place.line - 1]
    assert line[found.place.column - 1 :][: found.place.length] == "20 min"


def test_severities() -> None:
    kinds = {module.CHECK.name: module.CHECK.severity for module in CHECKS}
    assert kinds.pop("say-same") is Severity.NOTE
    assert kinds.pop("note-instruction") is Severity.WARNING
    assert set(kinds.values()) == {Severity.ERROR}


SINGLE = [
    [row[0]] for row in (*CUT, *MAKE, *MARK, *GLUE, *SEAT, *ATTACH, *LOOK) if not row[0].startswith("{do")
]


@pytest.mark.parametrize("actions", [*SINGLE, *(row[0] for row in AFTER)], ids=str)
def test_every_skeleton_passes_the_checks(actions: list[str]) -> None:
    guide = guide_of(*actions)
    action = last_action(guide)
    book = Book(guide)
    say = Say(prose(skeleton(action)), (action,))
    assert [field.name for _, field in left_out(book, say)] == []
    assert strangers(book, say.prose, say.actions, strict=True) == []
    assert turned(book, say) == []
    assert has_verb(say)


def test_one_sentence_may_refer_to_the_fields_of_both_actions_that_it_tells() -> None:
    guide = read_guide("guides/rolled-rocket", VERBS)
    book = Book(guide)
    first = next(a for a in book.steps["open_up"].each_action())
    assert sentence(first, book).text == (
        "Peel the rear mask off the body, then draw the front plug out at the front end."
    )
