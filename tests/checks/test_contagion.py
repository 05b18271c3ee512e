"""What nobody knows is not judged: counts that cannot be read, the stock of parts that were never cut, folds
that were never made. One fault, one leading finding.

No outside source: the rules are the project's own (DEVELOPERS.md, "How one fault becomes one finding").
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

import pytest

from builder.checks.judge import check
from builder.dryrun.kinds import VERBS
from builder.dryrun.needs import Leaves
from builder.dryrun.run import run_all
from builder.findings import Finding
from builder.guide.reader import load, read
from tests.checks.examples_of import whole

GUIDES = Path(__file__).resolve().parents[2] / "guides"
COUNT = re.compile(r"\bcount: (\d+)")


def leaders(texts: dict[str, str], main: str) -> list[Finding]:
    """The leading findings that nobody accepted."""
    return [f for f in check(read(texts, main, VERBS, "guide")) if f.accepted is None]


def counts() -> Iterator[tuple[str, int]]:
    """Every count that a guide states: its guide, and where it stands among the counts of it."""
    for guide in ("rolled-rocket", "sail-cart"):
        text = (GUIDES / guide / "guide.yml").read_text("utf-8")
        yield from ((guide, number) for number in range(len(COUNT.findall(text))))


def test_there_are_counts() -> None:
    assert len(list(counts())) >= 5


@pytest.mark.parametrize(("guide", "number"), list(counts()))
def test_a_count_that_cannot_be_read_is_told_once(guide: str, number: int) -> None:
    texts, main, _ = load(GUIDES / guide)
    text = texts[main]
    match = list(COUNT.finditer(text))[number]
    texts[main] = text[: match.start(1)] + "lots" + text[match.end(1) :]
    line = text.count("\n", 0, match.start()) + 1
    assert [(f.check, f.place.line) for f in leaders(texts, main)] == [("number", line)]


STOCK = """# takes: tube, scissors
materials:
  string: {form: cord, length: 300 mm}
parts:
  long:  {form: cord, of: string, length: 120 mm}
  short: {form: cord, of: string, length: 60 mm}
steps:
  - id: tied
    title: Tie them on
    time: 4 min
    actions:
      - {cut: long, from: string, with: scissors}
      - {tie: long, to: tube, knot: two half hitches}
      - {cut: short, from: string, with: scissors, leaves: 120 mm}
      - {tie: short, to: tube, knot: two half hitches}
"""


def test_what_a_part_that_was_never_cut_would_have_left_is_unknown() -> None:
    """300 - 120 - 60 = 120 mm are left; without the first cut it would be 240 mm, no second fault."""
    whole_kit = read({"guide.yml": whole(STOCK).text}, "guide.yml", VERBS, "guide")
    (run,) = run_all(whole_kit)
    assert [piece.along for piece in run.end.stock["string"]] == [120]
    lost = "".join(line for line in STOCK.splitlines(keepends=True) if "cut: long" not in line)
    guide = read({"guide.yml": whole(lost).text}, "guide.yml", VERBS, "guide")
    (run,) = run_all(guide)
    assert [need.met for frame in run.frames for need in frame.needs if isinstance(need, Leaves)] == [True]
    assert [f.check for f in check(guide)] == ["used-before-made"]


def test_a_part_that_is_named_on_the_kit_has_to_be_there() -> None:
    text = (Path(__file__).parent / "examples" / "kit-unlisted" / "good.yml").read_text("utf-8")
    lost = text.replace("cut: [ring, collar]", "cut: ring")
    lost = "".join(line for line in lost.splitlines(keepends=True) if "slide: collar" not in line)
    assert lost.count("collar") == 3  # declared, in the title, and on the list
    example = whole(lost)
    found = leaders({"guide.yml": example.text}, "guide.yml")
    told = [(f.check, f.message) for leader in found for f in (leader, *leader.follows)]
    assert ("not-in-kit", "the finished tube is said to hold the collar, which is not on it") in told
    assert len(found) == 1


def test_a_fold_that_is_left_out_is_told_once() -> None:
    texts, main, _ = load(GUIDES / "rolled-rocket")
    lines = texts[main].split("\n")
    start = next(i for i, line in enumerate(lines) if line.strip() == "- fold: anchor")
    indent = len(lines[start]) - len(lines[start].lstrip())
    end = next(i for i in range(start + 1, len(lines)) if len(lines[i]) - len(lines[i].lstrip()) <= indent)
    texts[main] = "\n".join([*lines[:start], *lines[end:]])
    (leader,) = leaders(texts, main)
    assert leader.check == "never-folded" and {"station", "glue-unmet"} <= {f.check for f in leader.follows}


UNSAID = """# takes: tube, ring, plug, fin, pva, brush, jig, unfinished
steps:
  - id: joined
    title: Join the ring
    time: 4 min
    actions:
      - {{glue: tube, outside: rear_seat, with: pva, for: ring}}
      - {{slide: ring, over: tube, from: rear, to: rear_seat}}
      - {{wait for: ring, until: set}}
      - {{attach: fin, onto: tube, at: 30 mm from rear, angle: 0 deg, fit: tight}}
      - {{slide: jig, over: tube, from: front, to: 80 mm from rear, fit: running}}
      - {{verify: plug, shows: a round face, else: Take another one.}}
{accepted}"""
ACCEPTED = """accepted:
  - {{check: finished-unsaid, at: {at}, why: The class takes it apart again., facts: {facts}}}
"""


def _unsaid(accepted: str = "") -> list[Finding]:
    text = whole(UNSAID.format(accepted=accepted)).text
    return leaders({"guide.yml": text}, "guide.yml")


def test_what_hangs_together_is_the_kit_where_nobody_names_it() -> None:
    """The tube with its ring and fin is the most that hangs together; the plug is not on it, which only a
    word about the kit could make right; a tool that is left on it is wrong in any case."""
    found = {f.check: f for f in _unsaid()}
    assert sorted(found) == ["finished-unsaid", "never-removed"]
    assert [(f.check, f.severity.value) for f in found["finished-unsaid"].follows] == [
        ("not-in-kit", "warning")
    ]
    assert "the plug is not on what is built" in found["finished-unsaid"].follows[0].message
    assert found["never-removed"].message == "the fin jig is still on what is built"
    # accepted with a reason, nobody has to say what is left over; the tool is wrong all the same
    title = ACCEPTED.format(at="title", facts="00000000")
    facts = re.findall(r"facts: (\w{8})", _unsaid(title)[-1].follows[-1].mend)[0]
    assert [f.check for f in _unsaid(ACCEPTED.format(at="title", facts=facts))] == ["never-removed"]


@pytest.mark.parametrize("whole_field", [True, False], ids=["field", "lines"])
@pytest.mark.parametrize(
    ("guide", "step"),
    [
        ("rolled-rocket", "cut_paper"),  # its blanks are used later
        ("rolled-rocket", "mark_tube"),  # so are its lines
        ("rolled-rocket", "mount_home"),  # the rear ring lies open when paint flies
        ("rolled-rocket", "coat_1"),  # there is nothing that dries after it
        ("rolled-rocket", "open_up"),  # the mask and the plug stay on
        ("sail-cart", "deck_cut"),  # the teacher makes no deck
        ("sail-cart", "hole"),  # the mast has no hole to go into
        ("sail-cart", "axles_in"),  # nothing turns in the straws
        ("card-telescope", "join"),
    ],
)
def test_a_step_that_has_lost_its_actions_is_told_once(guide: str, step: str, whole_field: bool) -> None:
    """What nobody does any more may have been done in it, and is told beneath."""
    texts, main, _ = load(GUIDES / guide)
    lines = texts[main].splitlines(keepends=True)
    start = next(i for i, line in enumerate(lines) if line.strip().endswith(f"id: {step}"))
    first = next(i for i in range(start, len(lines)) if lines[i].strip() == "actions:")
    deep = len(lines[first]) - len(lines[first].lstrip())
    last = first + 1
    while len(lines[last]) - len(lines[last].lstrip()) > deep or not lines[last].strip():
        last += 1
    texts[main] = "".join(lines[: first if whole_field else first + 1] + lines[last:])
    (leader,) = leaders(texts, main)
    assert leader.check == ("missing-field" if whole_field else "missing-value")
    assert leader.follows != ()
