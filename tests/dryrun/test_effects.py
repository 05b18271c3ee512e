"""The ten effects: each gives a new bench and leaves the given one alone; nothing else changes a bench."""

from __future__ import annotations

import ast
from fractions import Fraction
from functools import reduce
from pathlib import Path
from typing import get_args

import msgspec
import pytest

from builder.dryrun.bench import Bench, Cause, Coat, Hole, Item, Joint, Mark, Piece, Seat, Wet
from builder.dryrun.effects import (
    Close,
    Effect,
    Lay,
    Lift,
    Make,
    Paint,
    Pass,
    Place,
    Shape,
    Take,
    Wetten,
    apply,
)
from builder.findings import Place as Where
from tests.dryrun.built import fixture

DRYRUN = Path(__file__).resolve().parents[2] / "builder" / "dryrun"
AT = Where("guide.yml", 1, 1)
WHY = Cause("work.1", AT, "work")
F = Fraction


def item(key: str, folded: bool = False) -> Item:
    return Item(key, key, 1, WHY, folded)


def wet(host: str) -> Wet:
    return Wet(host, "outside", "pva", frozenset(("ring",)), F(0), WHY, AT, AT)


def joint(a: str, b: str) -> Joint:
    return Joint(a, b, "glue", F(0), WHY, "pva", "nested", "", F(1800), F(86400))


BEAD, OTHER_BEAD = wet("tube"), wet("ring")


def bench() -> Bench:
    """A bench with one of everything, made by effects alone."""
    made: tuple[Effect, ...] = (
        *(Make(item(key), WHY) for key in ("tube", "ring", "fin", "anchor")),
        Take("card", (Piece("card", F(300), F(200)),), WHY),
        Place(Seat("ring", "tube", "outside", WHY, (F(10), F(20)), home=False), WHY),
        Place(Seat("fin", "tube", "outside", WHY, (F(30), F(50))), WHY),
        Wetten(BEAD, WHY),
        Wetten(OTHER_BEAD, WHY),
        Close(joint("tube", "ring"), WHY),
        Close(joint("tube", "fin"), WHY),
        Lay(Mark("line", "tube", "outside", WHY, (F(5), F(5))), WHY),
        Paint(Coat("tube", "spray", F(60), WHY), WHY),
        Shape("ring", "hole", WHY, Hole("ring", "spot", F(4), WHY)),
        Pass(F(600), F(120), WHY),
    )
    return reduce(apply, made, Bench())


EVERY: tuple[Effect, ...] = (
    Take("card", (), WHY),
    Make(item("nose"), WHY),
    Shape("anchor", "folded", WHY),
    Lay(Mark("tick", "tube", "outside", WHY), WHY),
    Wetten(wet("fin"), WHY),
    Place(Seat("ring", "tube", "outside", WHY, (F(20), F(30))), WHY),
    Close(joint("fin", "ring"), WHY, BEAD),
    Paint(Coat("tube", "spray", F(99), WHY), WHY),
    Lift("ring", WHY),
    Pass(F(5), F(0), WHY),
)


def test_there_are_ten() -> None:
    assert len(get_args(Effect)) == 10
    assert {type(effect) for effect in EVERY} == set(get_args(Effect))


@pytest.mark.parametrize("effect", EVERY, ids=lambda e: type(e).__name__)
def test_an_effect_leaves_the_given_bench_alone(effect: Effect) -> None:
    before = bench()
    told = repr(before)
    after = apply(before, effect)
    assert repr(before) == told
    assert after != before
    assert apply(before, effect) == after, "the same effect twice on the same bench gives the same"


@pytest.mark.parametrize("effect", EVERY, ids=lambda e: type(e).__name__)
def test_an_effect_changes_its_own_fields_alone(effect: Effect) -> None:
    own = {
        Take: {"stock", "used"},
        Make: {"items"},
        Shape: {"items", "holes"},
        Lay: {"marks"},
        Wetten: {"wets"},
        Place: {"seats", "on"},
        Close: {"joints", "wets"},
        Paint: {"coats"},
        Lift: {"seats", "on", "joints", "wets"},
        Pass: {"clock", "active"},
    }
    before = bench()
    after = apply(before, effect)
    changed = {f for f in Bench.__struct_fields__ if getattr(before, f) != getattr(after, f)}
    assert changed and changed <= own[type(effect)]


def test_time_passes() -> None:
    after = apply(bench(), Pass(F(60), F(20), WHY))
    assert (after.clock, after.active) == (F(660), F(140))


def test_a_seat_is_taken_once_and_a_part_way_one_is_replaced() -> None:
    after = apply(bench(), Place(Seat("ring", "tube", "outside", WHY, (F(20), F(30))), WHY))
    assert [seat.child for seat in after.children("tube")] == ["fin", "ring"]
    assert after.seats["ring"].stretch == (F(20), F(30))
    moved = apply(after, Place(Seat("ring", "fin", "top", WHY), WHY))
    assert [seat.child for seat in moved.children("tube")] == ["fin"]
    assert [seat.child for seat in moved.children("fin")] == ["ring"]
    assert (moved.root("ring"), moved.below("tube")) == ("tube", ["tube", "fin", "ring"])


def test_a_joint_takes_the_bead_that_made_it_and_no_other() -> None:
    after = apply(bench(), Close(joint("tube", "ring"), WHY, BEAD))
    assert after.wets == (OTHER_BEAD,)
    assert len(after.joints) == 3
    # a bead that looks the same is another bead
    twice = apply(apply(Bench(), Wetten(wet("tube"), WHY)), Wetten(wet("tube"), WHY))
    assert len(apply(twice, Close(joint("tube", "ring"), WHY, twice.wets[0])).wets) == 1


def test_a_joint_that_has_to_be_older_takes_the_place_of_the_younger() -> None:
    before = bench()
    ring, fin = before.joints
    older = msgspec.structs.replace(ring, set_at=F(600))
    after = apply(before, Close(older, WHY, instead=ring))
    assert after.joints == (older, fin) and after.wets == before.wets
    # one that looks the same is another joint
    assert apply(before, Close(older, WHY, instead=joint("tube", "ring"))).joints == before.joints


def test_the_teachers_busy_minutes_are_taken_back() -> None:
    before = bench()
    assert apply(before, Pass(F(60), -before.active, WHY)).active == 0


def test_what_is_lifted_leaves_its_joints_and_keeps_what_sits_on_it() -> None:
    stacked = apply(bench(), Place(Seat("anchor", "ring", "top", WHY), WHY))
    after = apply(stacked, Lift("ring", WHY))
    assert "ring" not in after.seats and after.seats["anchor"].host == "ring"
    assert [(j.a, j.b) for j in after.joints] == [("tube", "fin")]
    assert after.root("anchor") == "ring"
    # what sits nowhere cannot be lifted
    assert apply(after, Lift("ring", WHY)) == after


def test_glue_can_be_wiped_off() -> None:
    assert apply(bench(), Lift("", WHY, BEAD)).wets == (OTHER_BEAD,)


def test_what_was_folded_stays_folded_when_it_is_made_after_all() -> None:
    folded = apply(bench(), Shape("anchor", "folded", WHY))
    assert folded.items["anchor"].folded and not folded.items["tube"].folded
    assert apply(folded, Make(item("anchor"), WHY)).items["anchor"].folded


def test_a_new_coat_takes_the_place_of_the_last() -> None:
    after = apply(bench(), Paint(Coat("tube", "spray", F(99), WHY), WHY))
    assert [coat.at for coat in after.coats] == [99]


@pytest.mark.parametrize("name", ["rolled-rocket", "wind-cart"])
def test_the_frames_of_a_clean_guide_are_their_effects_and_nothing_else(name: str) -> None:
    for run in fixture(name)[1]:
        for frame in run.frames:
            assert frame.supposed == ()
            assert reduce(apply, frame.effects, frame.before) == frame.after, frame.action.path


@pytest.mark.parametrize("name", ["rolled-rocket", "wind-cart"])
def test_what_sits_on_what_follows_the_seats(name: str) -> None:
    for run in fixture(name)[1]:
        for frame in run.frames:
            told = {child: host for host, children in frame.after.on.items() for child in children}
            assert told == {seat.child: seat.host for seat in frame.after.seats.values()}


# Where a bench is made beside `apply`: the opening one.
BESIDE = {"run.py": 1}


def benches_made(path: Path) -> int:
    """How often a module makes a bench: `Bench(...)`, or `replace` with a bench as its first argument."""
    found = 0
    for node in ast.walk(ast.parse(path.read_text("utf-8"))):
        if not isinstance(node, ast.Call):
            continue
        name = getattr(node.func, "attr", getattr(node.func, "id", ""))
        first = node.args[0] if node.args else None
        about = getattr(first, "attr", getattr(first, "id", ""))
        found += name == "Bench" or (name == "replace" and about == "bench")
    return found


def test_nothing_else_makes_a_bench() -> None:
    made = {
        path.name: benches_made(path) for path in sorted(DRYRUN.rglob("*.py")) if path.name != "effects.py"
    }
    assert {name: count for name, count in made.items() if count} == BESIDE
    assert benches_made(DRYRUN / "effects.py") >= 10


def test_seats_that_are_said_to_go_round_are_climbed_once() -> None:
    """The ring sits on the tube, the fin on the ring, and then the tube is said to sit on the fin."""
    seats = [("ring", "tube"), ("fin", "ring"), ("tube", "fin")]
    round_about = bench()
    for child, host in seats:
        round_about = apply(round_about, Place(Seat(child, host, "outside", WHY, (F(0), F(10))), WHY))
    assert [each.child for each in round_about.upward("fin")] == ["fin", "ring", "tube"]
    assert [each.child for each in bench().upward("nothing")] == []
