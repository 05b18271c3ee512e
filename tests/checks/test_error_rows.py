"""The ways in which a guide goes wrong, each with the checks that tell it.

A row: what goes wrong, and the checks of the guide that tell it, or the stage whose own tests or checks do.
"""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from builder.checks.every import ALL
from builder.drawings.checks import CHECKS as DRAWING_CHECKS

ROOT = Path(__file__).parents[2]

# number: (what, checks, where else it is told or tested)
ROWS: dict[int, tuple[str, tuple[str, ...], str]] = {
    1: ("used, missing from the list", ("used-before-made",), "reader: unknown-name"),
    2: ("listed, never used", ("never-used", "not-in-kit"), ""),
    3: ("used before it is made", ("used-before-made", "other-route", "mark-order"), ""),
    4: ("used again after being used up", ("made-twice", "placed-twice", "stock"), ""),
    5: ("counts differ", ("count", "not-in-kit", "say-number"), ""),
    6: ("made and never joined", ("not-in-kit",), ""),
    7: ("tool used and not listed, or the reverse", ("tool-unlisted", "never-used"), "reader: unknown-name"),
    8: ("stock too short", ("stock", "remainder"), ""),
    9: ("class total", ("say-number",), "test: outside/test_class_totals.py"),
    10: ("loaded or painted too soon", ("joint-bears", "joint-set", "joint-steady", "coat-cured"), ""),
    11: ("wait in words alone", ("wait-in-words",), ""),
    12: ("wait differs", ("wait-differs", "hold-short", "say-number"), ""),
    13: ("wait in the middle of a period", (), "test: plan/test_periods.py"),
    14: ("nothing said for a wait missed", ("missed-unsaid",), ""),
    15: ("minutes do not add up", ("step-time",), ""),
    16: ("preparation hidden in a name", ("prep-in-name", "preparation"), ""),
    17: ("a length wrong in one place", ("say-number", "zone-sum", "name-size", "measure"), ""),
    18: ("inch and metric disagree", ("name-size", "say-number"), ""),
    19: ("rounded pieces do not sum", ("chain-shown",), ""),
    20: ("mirrored", ("hand",), ""),
    21: ("drawing against geometry", (), "drawing: drawing-size"),
    22: ("printed at the wrong scale", (), "proof: bars, patterns, paper"),
    23: ("a wrap does not close", ("former-size", "wrap-closes"), ""),
    24: ("marks wrong for the count", ("marks-count",), ""),
    25: ("pattern leaves the page", (), "proof: patterns; test: drawings/test_sheets.py"),
    26: ("text on the back of a cut page", (), "proof: duplex"),
    27: ("lines look alike", (), "test: drawings/test_shapes.py"),
    28: ("hairlines vanish", (), "drawing: drawing-words"),
    29: ("figure shows the wrong parts", (), "drawing: drawing-parts"),
    30: ("the view turns", ("face-down",), "test: drawings/test_alternatives.py"),
    31: ("similar parts", ("similar-parts",), ""),
    32: ("a right way round", ("way-round",), ""),
    33: ("picture missing", ("picture-file",), "reader: picture-alt"),
    34: ("callouts differ", ("typed-reference",), "drawing: drawing-words"),
    35: ("two names, one name", ("two-names", "one-name"), ""),
    36: ("several actions in a sentence", ("say-several",), ""),
    37: ("condition after the action", ("say-condition",), ""),
    38: ("instruction in a note or a caution", ("note-instruction", "caution-instruction"), ""),
    39: ("reference that moves", ("typed-reference",), ""),
    40: ("repeat in words", ("repeat-in-words",), ""),
    41: ("routes mixed", ("route-words", "other-route"), "proof: words"),
    42: ("routes that do not rejoin, or skip a caution", ("rejoin", "caution-dropped"), ""),
    43: ("vague amount", ("say-vague",), ""),
    44: ("critical and never verified", ("critical-unverified", "else-missing"), ""),
    45: ("too long, too hard", ("say-long", "reading-grade"), ""),
    46: ("caution missing", ("caution-dropped", "hazard-unknown", "note-warning"), "proof: cautions"),
    47: ("signal word too weak", ("signal-word",), ""),
    48: ("gear not listed", ("gear-missing",), ""),
    49: ("adhesive not for the age", ("young-audience", "young-audience-ask", "label-times"), ""),
    50: ("more at a hazard than adults allow", (), "test: plan/test_class_plan.py"),
    51: ("translation or large print out of date", (), "out of scope: no translations, no large print"),
    52: ("split from its picture, folded away", (), "proof: whole, figures, words"),
}


def test_every_row_is_told_somewhere() -> None:
    assert list(ROWS) == list(range(1, 53))
    assert [number for number, (_, checks, other) in ROWS.items() if not checks and not other] == []


@pytest.mark.parametrize("number", ROWS, ids=lambda n: f"E{n}")
def test_the_checks_of_a_row_exist(number: int) -> None:
    what, checks, _ = ROWS[number]
    assert what
    assert set(checks) <= {check.name for check in ALL}


def _named(word: str) -> set[str]:
    """What the third column names after a word: `proof: bars, patterns`."""
    found = re.findall(rf"{word}: ([^;]+)", "; ".join(other for _, _, other in ROWS.values()))
    return {name.strip() for names in found for name in names.split(",")}


def test_what_is_told_of_drawings_print_and_plans_is_there() -> None:
    """Named by the checks and proofs of those rooms, or by the file of tests that holds it."""
    assert _named("drawing") <= {check.name for check in DRAWING_CHECKS}
    proofs = "".join(path.read_text("utf-8") for path in (ROOT / "builder/packet/proofs").glob("*.py"))
    assert [name for name in sorted(_named("proof")) if f'"{name}"' not in proofs] == []
    assert [name for name in sorted(_named("test")) if not (ROOT / "tests" / name).is_file()] == []


def test_what_is_read_is_told_by_the_reader() -> None:
    """A code of the reader stands in its source."""
    source = "".join(path.read_text("utf-8") for path in (ROOT / "builder" / "guide").glob("*.py"))
    codes = {code for _, _, other in ROWS.values() for code in re.findall(r"reader: ([a-z-]+)", other)}
    assert codes == {"unknown-name", "picture-alt"}
    assert [code for code in sorted(codes) if f'"{code}"' not in source] == []
