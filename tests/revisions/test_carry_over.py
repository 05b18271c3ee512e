"""Half-made kits carried over to another revision: expected by what a person would do at the bench."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path
from typing import NamedTuple

import pytest

from builder.dryrun.kinds import VERBS
from builder.guide.reader import load, read
from builder.revisions.carry_over import Plan, Unclear, carry_over
from builder.revisions.edition import Edition, edition
from tests.revisions.rack import Edits, revised, revision
from tests.revisions.shelf import lay_out, run, write

ROUTE = {"way": "block"}
SHELF: Edits = (("{rectangle: 120 mm x 40 mm", "{rectangle: 110 mm x 40 mm"),)
PEG: Edits = (("length: 60 mm ± 1 mm", "length: 58 mm ± 1 mm"), ("leaves: 239 mm", "leaves: 241 mm"))
SLOT: Edits = (("slot: 60 mm, middle: 40 mm", "slot: 56 mm, middle: 44 mm"),)
SAND: Edits = (
    (
        "  - id: cut_rest\n",
        "  - id: sand_back\n    title: Sand the back\n    time: 2 min\n    actions:\n"
        "      - {sand: back, edges: [left], with: sander}\n  - id: cut_rest\n",
    ),
)
OTHER_END: Edits = (("from: left, to: flush with left", "from: right, to: flush with right"),)
CURE: Edits = (("set: 30 min, full cure: 24 h}}\n  spray", "set: 30 min, full cure: 36 h}}\n  spray"),)
NO_BUSH: Edits = (
    ("      - {slide: bush, over: peg, from: left, to: flush with left, fit: sliding}\n",
     "      - {do: \"Look at the {handles}\", handles: peg}\n"),
    ("{wait for: bush,", "{wait for: back,"),
    ("left over: [hook]", "left over: [hook, bush]"),
)  # fmt: skip


class Case(NamedTuple):
    """A kit that is done until a step, the edits that make the newer revision, and what to do."""

    name: str
    step: str
    edits: Edits
    again: tuple[str, ...] = ()
    apart: tuple[str, ...] = ()
    todo: tuple[str, ...] = ()
    go_on: str = ""
    begin_again: bool = False


CASES = (
    Case("nothing has changed", "cut_rest", (), go_on="cut_peg"),
    Case("all is done", "look", ()),
    Case("a change of what is still to come", "cut_back", PEG, go_on="cut_rest"),
    Case("a part that lies about", "cut_rest", SHELF, ("shelf",), (), ("cut_rest",), "cut_peg"),
    Case("a part of which more is made", "cut_peg", PEG, ("peg",), (), ("cut_peg",), "smooth"),
    Case("a part with another on it", "bush_on", PEG, ("peg",), ("bush",), ("cut_peg", "bush_on"), "peg_on"),
    # the shelf is glued to the back: both go, and the cheeks and the peg stay good
    Case("a part that is glued", "block_set", SHELF, ("shelf", "back"), (),
         ("cut_back", "cut_rest", "smooth", "mark_back", "glue_block", "block_set"), "cheeks_on"),
    Case("a part to which all is glued", "peg_on", PEG, ("peg", "back", "shelf", "cheek 1", "cheek 2"),
         begin_again=True),
    Case("a mark at another place", "mark_back", SLOT, (), (), ("mark_back",), "glue_block"),
    Case("glued elsewhere", "peg_on", SLOT, ("shelf", "back", "cheek 1", "cheek 2", "peg"), begin_again=True),
    Case("a step that came in before", "smooth", SAND, (), (), ("sand_back",), "mark_back"),
    Case("a step that came in too late to matter", "cut_back", SAND, go_on="sand_back"),
    Case("slid on from the other end", "bush_on", OTHER_END, (), ("bush",), ("bush_on",), "peg_on"),
    Case("a part that belongs there no more", "bush_on", NO_BUSH, (), ("bush",), (), "peg_on"),
)  # fmt: skip


@pytest.mark.parametrize("case", CASES, ids=[case.name for case in CASES])
def test_what_to_do_with_the_kit(case: Case) -> None:
    plan = carry_over(revision(), revised(*case.edits), case.step, ROUTE)
    assert plan.begin_again is case.begin_again
    assert sorted(each.item for each in plan.again) == sorted(case.again)
    if not case.begin_again:
        assert plan.apart == case.apart
        assert tuple(each.step for each in plan.todo) == case.todo
        assert plan.go_on == case.go_on


def test_a_longer_cure_is_stood_out() -> None:
    # the label said 24 h, and says 36 h: 12 h are missing when the 24 h are over
    plan = carry_over(revision(), revised(*CURE), "peg_cure", ROUTE)
    assert plan == Plan(False, wait=Fraction(12 * 3600), go_on="coat")


def test_a_step_that_is_done_already_is_passed_over() -> None:
    step = (
        "  - id: bush_on\n    title: Push the bush onto the peg\n    time: 2 min\n    actions:\n"
        "      - {slide: bush, over: peg, from: left, to: flush with left, fit: sliding}\n"
    )
    stage = "  - {stage: Gluing, base: back}\n"
    plan = carry_over(revised((step, ""), (stage, step + stage)), revision(), "bush_on", ROUTE)
    assert plan == Plan(False, go_on="mark_back", skip=("bush_on",))


def test_the_route_is_minded() -> None:
    assert carry_over(revision(), revised(), "glue_eye", {"way": "eye"}).go_on == "eye_set"
    with pytest.raises(Unclear, match="has no step glue_eye on that route"):
        carry_over(revision(), revised(), "glue_eye", {"way": "block"})


def test_a_route_that_is_gone() -> None:
    gone = revised(("block: with a block, eye: by eye", "block: with a block"), (EYE, ""))
    with pytest.raises(Unclear, match="no longer has the route"):
        carry_over(revision(), gone, "glue_eye", {"way": "eye"})


EYE = """\
    eye:
      - id: glue_eye
        title: Glue the shelf by eye
        time: 9 min
        actions:
          - {glue: shelf, edge: back, with: pva, for: back}
          - {attach: shelf, onto: back, at: shelf_line, hold: 5 min, say: "Press the {shelf} onto the {back} at the {shelf_line} and hold it for {hold}."}
      - id: eye_set
        title: Let the shelf set
        actions:
          - {wait for: shelf, until: set, if missed: No harm.}
"""  # noqa: E501


# -- a real kit -----------------------------------------------------------------------------------

ROCKET = Path(__file__).resolve().parents[1] / "fixtures" / "guides" / "rolled-rocket.yml"


def rocket(*edits: tuple[str, str]) -> Edition:
    """The rocket of the fixtures after edits."""
    texts, main, findings = load(ROCKET)
    text = texts[main]
    for old, new in edits:
        assert old in text, old
        text = text.replace(old, new, 1)
    return edition(read({**texts, main: text}, main, VERBS, "rocket", findings), "revision 2")


LONGER_BODY: Edits = (
    ("length: 12 1/2 in ±", "length: 13 in ±"),
    ("upper: 7 in", "upper: 7 1/2 in"),
    ("bay: 7 in", "bay: 7 1/2 in"),
)


def test_a_longer_body_leaves_the_motor_mount_as_it_is() -> None:
    plan = carry_over(rocket(), rocket(*LONGER_BODY), "mount_dry", {"fin_alignment": "jig"})
    assert [each.item for each in plan.again] == ["body"]
    assert [each.step for each in plan.todo] == ["cut_paper", "body_roll", "body_dry"]


def test_a_longer_body_once_the_mount_is_in_it() -> None:
    plan = carry_over(rocket(), rocket(*LONGER_BODY), "mount_set", {"fin_alignment": "jig"})
    assert plan.begin_again


# -- the command ----------------------------------------------------------------------------------


@pytest.fixture
def rack(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A card rack with two sealed revisions, the second with a longer shelf, and a working third."""
    monkeypatch.chdir(tmp_path)
    rack = lay_out(tmp_path)
    assert run("seal", "guides/rack").exit_code == 0
    write(rack, *SHELF, number=2)
    assert run("seal", "guides/rack").exit_code == 0
    write(rack, *SHELF, ("for: 20 min}", "for: 25 min}"), number=3)
    return rack


@pytest.mark.parametrize(
    ("arguments", "status", "said"),
    [
        (("--from", "1", "--step", "2", "--to", "2"), 0, "Go on with step 3, Saw the peg."),
        (("--from", "1", "--step", "cut_rest"), 0, "shelf: its length is 110 mm"),
        (
            ("--from", "1", "--step", "12"),
            1,
            "Nor may it be finished by revision 1: what guards against harm",
        ),
        (
            ("--from", "1", "--step", "12", "--to", "2"),
            1,
            "It may also be finished by revision 1: no change since",
        ),
        (("--from", "1", "--step", "6", "--route", "eye", "--to", "2"), 0, "Glue the shelf by eye (again)"),
        (("--from", "1", "--step", "99"), 2, "revision 1 has no step 99"),
        (("--from", "7", "--step", "1"), 2, "has no sealed revision 7; it has 1, 2"),
        (("--from", "1", "--step", "1", "--route", "nails"), 2, "revision 1 has no option nails"),
    ],
)
def test_the_command(rack: Path, arguments: tuple[str, ...], status: int, said: str) -> None:
    ran = run("carry-over", "guides/rack", *arguments)
    assert ran.exit_code == status, ran.output
    assert said in ran.output


GUIDES = Path(__file__).resolve().parents[2] / "guides"


def two(name: str, *edits: tuple[str, str]) -> tuple[Edition, Edition]:
    """A demonstration guide before these edits were taken back, and as it is."""
    texts, main, found = load(GUIDES / name)
    text = texts[main]
    for now, then in edits:
        assert text.count(now) == 1, now
        text = text.replace(now, then)
    older, newer = (read({**texts, main: each}, main, VERBS, name, found) for each in (text, texts[main]))
    return edition(older, "revision 2"), edition(newer, "the working guide")


def test_a_ring_that_is_glued_in_stays_though_it_had_less_play() -> None:
    """The front, back and inner rings are in their places, and nothing goes past them any more; the three
    that lie on the table are cut to the newer play."""
    old, new = two("card-telescope", ("play:            {is: 0.020 in", "play:            {is: 0.016 in"))
    plan = carry_over(old, new, "inner_ring_in", {})
    assert [each.item for each in plan.again] == ["carrier", "eye_ring", "eye_cap"]
    assert (plan.begin_again, plan.todo, plan.go_on) == (False, (), "inner_ring_set")


def test_a_fin_of_another_outline_is_cut_again() -> None:
    old, new = two(
        "rolled-rocket",
        ("span: 2 in, sweep: 3/4 in}", "span: 2 in, square edge: rear}"),
        ("leaves: 1/4 in x 4 in", "leaves: 1/2 in x 4 in"),
    )
    plan = carry_over(old, new, "cut_fins", {"fin_alignment": "jig"})
    assert [each.item for each in plan.again] == [f"fin {copy}" for copy in (1, 2, 3, 4)]
    assert {each.why for each in plan.again} == {"its outline is another now"}
    assert ([todo.step for todo in plan.todo], plan.go_on) == (["cut_fins"], "sand_fins")
