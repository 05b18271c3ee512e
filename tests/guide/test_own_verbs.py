"""Verbs of a library's own: read from a shared file, worded, built, checked, in schema and editor."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from click.testing import CliRunner
from jsonschema import Draft202012Validator

from builder.checks.judge import check
from builder.cli import main
from builder.dryrun.kinds import VERBS
from builder.editor.complete import completions
from builder.editor.hover import hover
from builder.editor.where import typing as typed_at
from builder.findings import Finding
from builder.guide.model import Guide
from builder.guide.reader import read
from builder.guide.wording import sentence
from builder.pages.manual import manual

MAIN, FILE = "guides/hub/guide.yml", "guides/common/verbs.yml"

GUIDE = """\
title: A wheel on an axle
units: {first: mm, second: in, finest: 1 mm}
parts:
  axle: {form: rod, source: bought, diameter: 4 mm, length: 100 mm}
  wheel: {form: ring, source: bought, outside: 40 mm, inside: 3.9 mm, length: 6 mm}
steps:
  - id: wheel_on
    title: Put the wheel on
    time: 4 min
    actions:
      - ACTION
finished: {is: axle, holds: all}
"""
PRESS = "{press: wheel, over: axle, from: left, to: 10 mm from left}"

ROWS = """\
verbs:
  press:
    stands for: slide
    about: A part goes over another by force.
    doing: pressing
    sentence: "press {what} hard {over} {from} {to}"
    says: [push, force]
    brings: {fit: tight}
"""


def guide(action: str = PRESS, rows: str = ROWS) -> Guide:
    texts = {MAIN: GUIDE.replace("ACTION", action), FILE: rows}
    return read(texts, MAIN, VERBS, "hub")


def found(action: str = PRESS, rows: str = ROWS) -> list[Finding]:
    return check(guide(action, rows))


def test_it_is_built_as_the_verb_that_it_stands_for() -> None:
    assert found() == []
    (step,) = guide().every_step()
    (action,) = step.each_action()
    assert (action.verb.word, action.verb.kind, action.verb.root) == ("press", "seat", "slide")
    assert action.word("fit") == "tight"


def test_it_is_told_by_its_own_sentence() -> None:
    (step,) = guide().every_step()
    (action,) = step.each_action()
    assert sentence(action, guide()).text.startswith("Press the wheel hard over the axle from the left end")


def test_without_a_sentence_it_is_told_as_the_verb_that_it_stands_for() -> None:
    rows = "".join(line for line in ROWS.splitlines(True) if "sentence" not in line)
    made = guide(rows=rows)
    (action,) = next(iter(made.every_step())).each_action()
    assert sentence(action, made).text.startswith("Press the wheel over the axle from the left end")


def test_what_the_action_states_counts_more_than_what_the_verb_brings() -> None:
    """A tight fit of a 4 mm rod in a 3.9 mm hole; a running one needs play."""
    told = found(PRESS.replace("}", ", fit: running}"))
    assert [f.check for f in told] == ["fit"]
    assert told[0].place.file == MAIN


def test_a_fault_in_an_action_is_told_at_the_action() -> None:
    told = found(PRESS.replace("wheel", "whel"))
    assert [(f.check, f.place.line) for f in told] == [("unknown-name", 11)]


def test_its_other_words_may_tell_it() -> None:
    say = 'say: "Force the {press} over the {over} from the {from}, {place}."'
    assert found(PRESS.replace("}", f", {say}}}")) == []
    told = found(PRESS.replace("}", f", {say.replace('Force', 'Admire')}}}"))
    assert [f.check for f in told] == ["say-verb"]


def test_in_free_words_it_is_told_that_there_is_a_verb() -> None:
    both = PRESS + '\n      - {do: "Press the {handles} harder", handles: wheel}'
    assert [f.check for f in found(both)] == ["do-share"]


FAULTS = (
    # what is wrong, the edit, the check, the line of the shared file at which it is told
    ("a verb that the tool has", ("  press:", "  slide:"), "duplicate-id", 2),
    ("a word that is a field", ("  press:", "  fit:"), "duplicate-id", 2),
    ("a word of a note", ("  press:", "  tip:"), "duplicate-id", 2),
    ("no word", ("  press:", "  Press-2:"), "bad-id", 2),
    ("a verb that there is not", ("stands for: slide", "stands for: xylo"), "unknown-verb", 3),
    ("a verb of its own", ("stands for: slide", "stands for: press"), "unknown-verb", 3),
    ("nothing that it stands for", ("    stands for: slide\n", ""), "missing-field", 3),
    ("no participle", ("    doing: pressing\n", ""), "missing-field", 3),
    ("nothing about it", ("    about: A part goes over another by force.\n", ""), "missing-field", 3),
    ("a slot that is no field", ("{over}", "{ovr}"), "unknown-name", 6),
    ("a sentence without what", ("{what} hard", "it hard"), "word", 6),
    ("a sentence that begins with a slot", ('"press {what}', '"{what} press'), "word", 6),
    ("a field that it cannot bring", ("{fit: tight}", "{fitt: tight}"), "unknown-key", 8),
    ("a word that the field does not know", ("{fit: tight}", "{fit: tihgt}"), "word", 8),
    ("a thing of one guide", ("{fit: tight}", "{into: body}"), "wrong-sort", 8),
    ("a list", ("{fit: tight}", "{fit: [tight]}"), "shape", 8),
    ("a number that is none", ("{fit: tight}", "{hold: 3 mm}"), "number", 8),
    ("a key that there is not", ("says:", "sayes:"), "unknown-key", 7),
    ("twice", ("verbs:\n", "verbs:\n  press: {stands for: slide, about: A., doing: pressing}\n"),
     "duplicate-key", 3),
)  # fmt: skip


@pytest.mark.parametrize(("name", "edit", "code", "line"), FAULTS, ids=[f[0] for f in FAULTS])
def test_a_fault_in_a_row_is_told_once_at_it(name: str, edit: tuple[str, str], code: str, line: int) -> None:
    rows = ROWS.replace(*edit)
    assert rows != ROWS
    told = found("{slide: wheel, over: axle, from: left, to: 10 mm from left, fit: tight}", rows)
    assert [(f.check, f.place.file, f.place.line) for f in told] == [(code, FILE, line)]
    assert told[0].why and told[0].mend


def test_a_near_verb_is_guessed_and_used() -> None:
    told = found(rows=ROWS.replace("stands for: slide", "stands for: slied"))
    assert [(f.check, f.place.file) for f in told] == [("unknown-verb", FILE)]
    assert "`slide`" in told[0].mend


def test_two_files_with_one_verb() -> None:
    texts = {MAIN: GUIDE.replace("ACTION", PRESS), FILE: ROWS, "guides/common/words.yml": ROWS}
    told = check(read(texts, MAIN, VERBS, "hub"))
    assert [(f.check, f.also[0].place.file) for f in told] == [("duplicate-id", FILE)]


# -- schema, manual, editor ----------------------------------------------------------------------


def test_the_schema_of_a_library_knows_its_verbs(tmp_path: Path) -> None:
    (tmp_path / "verbs.yml").write_text(ROWS, "utf-8")
    made = CliRunner().invoke(main, ["schema", "--library", str(tmp_path)])
    schema = json.loads(made.output)
    judge = Draft202012Validator({"$ref": "#/$defs/single-action", "$defs": schema["$defs"]})
    good = {"press": "wheel", "over": "axle", "from": "left", "to": "10 mm from left"}
    assert [e.message for e in judge.iter_errors(good)] == []
    assert [list(e.path) for e in judge.iter_errors({**good, "fit": "tihgt"})] == [["fit"]]
    plain = json.loads(CliRunner().invoke(main, ["schema", "--library", str(tmp_path / "none")]).output)
    assert "verb-press" in schema["$defs"] and "verb-press" not in plain["$defs"]


def test_a_faulty_row_is_told_when_the_schema_is_written(tmp_path: Path) -> None:
    (tmp_path / "verbs.yml").write_text(ROWS.replace("stands for: slide", "stands for: xylo"), "utf-8")
    made = CliRunner().invoke(main, ["schema", "--library", str(tmp_path)])
    assert made.exit_code == 0
    assert "not a verb of the tool" in made.stderr
    assert '"verb-press"' not in made.stdout


def test_the_manual_lists_it() -> None:
    view = manual({**VERBS, **guide().own_verbs}, {})
    rows = [row for section in view.sections for row in section.verbs if row.word == "press"]
    assert len(rows) == 1
    assert rows[0].needs == "A part goes over another by force. At the bench it is: slide."


def test_the_editor_offers_it_and_its_fields() -> None:
    text = GUIDE.replace("ACTION", "{pre}")
    typing = typed_at(text, text.index("- {pre") + len("- {pre"))
    assert typing is not None
    assert "press" in [item.label for item in completions(guide(), typing)]
    text = GUIDE.replace("ACTION", "{press: wheel, ov}")
    typing = typed_at(text, text.index("wheel, ov") + len("wheel, ov"))
    assert typing is not None
    assert "over" in [item.label for item in completions(guide(), typing)]


def test_the_editor_tells_what_it_does() -> None:
    made = guide()
    lines = made.texts[MAIN].splitlines()
    line = next(i for i, text in enumerate(lines) if "press" in text)
    told = hover(made, (), MAIN, made.texts[MAIN], line, lines[line].index("press") + 2)
    assert told is not None and "A part goes over another by force." in told[0]
