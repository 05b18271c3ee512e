"""One fault of each kind in copies of the demonstration guides: each is told by one leading finding."""

from __future__ import annotations

import pytest

from builder.checks.every import ALL, ASKED
from builder.checks.judge import check
from builder.findings import Finding
from builder.guide.model import Guide
from builder.guide.slips import NAMES
from builder.planting import KINDS
from builder.planting import run as planting
from builder.planting.report import as_data, as_text, summary
from builder.planting.run import MOST_LEADERS, Field, offered, pairs, plant
from tests.planting.guides import NAMES as GUIDES
from tests.planting.guides import guide, harvest

SPREAD = {"rolled-rocket": 397, "card-telescope": 199, "sail-cart": 97}  # every so many-th pair

# What cannot be planted in a guide that stands in its files, and why.
NOT_PLANTED = {
    "unreadable": "a file that is no text at all; nothing of it can be edited",
    "too-large": "a million signs, or sixty thousand lines: a limit, no slip",
    "too-deep": "brackets forty deep: a limit, no slip",
    "too-many": "hundreds of steps or routes: a limit, no slip",
    "pattern-size": "the one flat tool here that is cut along a pattern has a size that more reads",
    "cut-short": "thousands of actions: a limit, no slip",
}


@pytest.mark.parametrize("name", GUIDES)
def test_every_kind_that_fits_is_told_by_one_finding(name: str) -> None:
    found = harvest(name)
    assert [as_text(found)] * bool(found.missed) == []
    assert found.own == 0
    assert len(found.results) >= 60


def test_there_are_many_kinds_each_with_a_name_of_its_own() -> None:
    assert len({kind.name for kind in KINDS}) == len(KINDS) >= 60


def test_every_kind_has_a_place_in_some_guide() -> None:
    assert set.intersection(*(set(harvest(name).no_place) for name in GUIDES)) == set()


def test_every_kind_aims_at_a_check_that_there_is() -> None:
    known = {each.name for each in ALL} | set(NAMES)
    assert [kind.name for kind in KINDS if not set(kind.checks) <= known] == []


def test_every_check_is_aimed_at_or_says_why_not() -> None:
    aims = {check for kind in KINDS for check in kind.checks}
    assert {*NAMES, *(each.name for each in ALL)} - aims == set(NOT_PLANTED)


@pytest.mark.parametrize("name", GUIDES)
def test_planting_twice_gives_the_same(name: str) -> None:
    kinds = KINDS[::11]
    assert plant(guide(name), kinds) == plant(guide(name), kinds)


@pytest.mark.parametrize("name", GUIDES)
def test_two_faults_are_both_told(name: str) -> None:
    """A spread of the pairs; all of them: `kitwright plant --pairs`."""
    found = pairs(guide(name), KINDS, SPREAD[name])
    assert [result.kinds for result in found.missed] == []
    assert all(len(result.leaders) <= MOST_LEADERS for result in found.results)
    assert len(found.results) > 20


# Places other than the first of a guide, at which a kind once gave two leaders or none: guide, kind, place.
OTHER_PLACES = (
    # two glues in one step that takes too long; the wait after a step in which the glue has set already
    ("sail-cart", "step longer than the glue is open", "stripes"),
    ("card-telescope", "step longer than the glue is open", "band_on"),
    # the wait for what is never placed is waited all the same, and other glue sets in it
    ("sail-cart", "part never placed", "bearings"),
    # what the tool stands in the place of is on no kit
    ("sail-cart", "tool in place of a part", "telltale in tie"),
    # the place of a knot is looked up too
    ("sail-cart", "zone misspelt", "tie in"),
    # a note that says which way round something goes keeps its words
    ("sail-cart", "instruction in a note", "stripes"),
    ("sail-cart", "warning in a note", "stripes"),
    # where a part is on one route alone is not compared with the other
    ("rolled-rocket", "zone misspelt", "fin_root in mark"),
    # what was to hold the fins could not be read; a mask without a name covers nothing
    ("rolled-rocket", "tool not listed", "fin_jig"),
    ("rolled-rocket", "tool not listed", "rear_mask"),
    # what is done in free words begins with a command, known or not
    ("rolled-rocket", "wait told in words", "tie_up"),
    ("rolled-rocket", "condition after the action", "wadding_in"),
    # a name keeps the words by which the trade knows a tool
    ("rolled-rocket", "wrong size in a name", "dummy"),
    # a coat that nobody knows the cure of may dry still
    ("rolled-rocket", "label without a time", "spray"),
    # one step is optional, and several things rest on it
    ("rolled-rocket", "work that rests on an optional step", "canopy_cut"),
    # a mount is glued by the rings on it
    ("rolled-rocket", "glued and taken off", "mount_half"),
    ("rolled-rocket", "glue on the other face of the wall", "mount"),
    ("sail-cart", "glue on the other face of the wall", "mast_in"),
)


@pytest.mark.parametrize(("name", "kind", "place"), OTHER_PLACES)
def test_a_fault_at_another_place_is_told_by_one_finding(name: str, kind: str, place: str) -> None:
    field = Field(guide(name))
    (of,) = (each for each in KINDS if each.name == kind)
    plants = [each for each in offered(of, field.ground, True) if place in each.at]
    assert plants
    for each in plants:
        found = field.findings((each,)) or []
        assert [f.check in of.checks for f in found] == [True], (each.at, found)


# Pairs of which one fault once hid the other.
HIDDEN = (
    # a weight on a part that is on no kit itself
    ("sail-cart", "part never placed", "jig, guide or mask left on"),
    # what is on the kit where nobody says which it is: the most that hangs together
    ("sail-cart", "finished kit not named", "jig, guide or mask left on"),
    ("sail-cart", "finished kit not named", "part left over"),
    # what carries others is placed by nobody, also where nobody says what the kit is
    ("rolled-rocket", "finished kit not named", "glue astray"),
    # a wait of other minutes, for glue that nothing meets
    ("card-telescope", "part never placed", "minutes typed for a label"),
    # a mask that was never put on does not come off either, where nobody knows what lies open
    ("rolled-rocket", "zone misspelt", "mask never put on"),
    # a station lies well beyond the part, also if that was made longer
    ("rolled-rocket", "part longer than its zones", "station beyond the part"),
    # a former that was left in is no wet glue
    ("card-telescope", "wait for what is dry", "former left in"),
)


@pytest.mark.parametrize(("name", "one", "two"), HIDDEN)
def test_neither_of_two_faults_hides_the_other(name: str, one: str, two: str) -> None:
    found = pairs(guide(name), [kind for kind in KINDS if kind.name in (one, two)])
    assert [result.verdict for result in found.results] == ["caught"]


# Pairs of which one edit lies in what the other one takes away, so that there is nothing to see of it.
MET = (
    # the place is written in the measure of a part whose zones no longer add up
    ("rolled-rocket", "zone a step of the ruler longer", "routes that part for good"),
    # without the brush nobody reaches the place at all
    ("rolled-rocket", "glue beside the joint", "usual tool not listed"),
    # the misspelt name is that of the mark, or lays what should have covered another one
    ("rolled-rocket", "mark never drawn", "mark misspelt"),
    ("rolled-rocket", "mark misspelt", "mark covered before its use"),
    # both speak of one tool of another route
    ("rolled-rocket", "thing of another route", "words of another route"),
    # what is left is left of the stock that lies the other way
    ("sail-cart", "remainder a step of the ruler off", "grain of the stock the other way"),
    # places in a tube are counted from its ends, and nobody knows how long it is
    ("card-telescope", "time where a length belongs", "two things in one place"),
    ("card-telescope", "time where a length belongs", "way from the closed end"),
    # the place is that of a part which is taken off again
    ("card-telescope", "two things in one place", "glued and taken off"),
)


@pytest.mark.parametrize(("name", "one", "two"), MET)
def test_edits_that_lie_in_one_thing_are_no_pair(name: str, one: str, two: str) -> None:
    assert pairs(guide(name), [kind for kind in KINDS if kind.name in (one, two)]).results == ()


def _without(*names: str):  # type: ignore[no-untyped-def]
    def checked(of: Guide, runs: object = None) -> list[Finding]:
        return check(of, checks=tuple(c for c in ASKED if c.name not in names))

    return checked


@pytest.mark.parametrize(
    ("kind", "check_name"),
    [
        ("zone a step of the ruler longer", "zone-sum"),
        ("part placed twice", "placed-twice"),
        ("gear not on the list", "gear-missing"),
        ("instruction in a note", "note-instruction"),
    ],
)
def test_a_check_that_is_taken_away_is_missed(
    kind: str, check_name: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(planting, "check", _without(check_name))
    found = plant(guide("sail-cart"), [k for k in KINDS if k.name == kind])
    assert [result.verdict for result in found.results] == ["missed"]


def test_more_than_the_fault_is_extra(monkeypatch: pytest.MonkeyPatch) -> None:
    def doubled(of: Guide, runs: object = None) -> list[Finding]:
        found = check(of)
        return [*found, *found]

    monkeypatch.setattr(planting, "check", doubled)
    found = plant(guide("sail-cart"), KINDS[:1])
    assert [result.verdict for result in found.results] == ["extra"]


def test_a_harvest_is_plain_data() -> None:
    data = as_data(harvest("sail-cart"))
    rows = data["rows"]
    assert isinstance(rows, list)
    assert data["planted"] == data["caught"] == len(rows)
    assert set(rows[0]) == {"kinds", "expected", "at", "verdict", "findings"}
    assert rows[0]["findings"][0]["place"].startswith("guides/sail-cart/guide.yml:")


def test_the_sum_names_kinds_without_a_place() -> None:
    text = summary(harvest("sail-cart"))
    assert text.startswith("Sail cart: ")
    assert "former left in" in text
