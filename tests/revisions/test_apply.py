"""Whatever is done to a guide: applying what a comparison reports turns the older one into the newer one."""

from __future__ import annotations

import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from builder.revisions.compare import applied, compare, edits_of
from builder.revisions.edits import Insert, Mismatch, Put, Take, apply, stays
from builder.revisions.tree import tree
from tests.revisions.rack import RACK, edited, revised, revision
from tests.revisions.table import TABLE

EDITS = [edit for case in TABLE for edit in case.edits]
NUMBER = re.compile(r"\b\d+(?= (?:mm|min|h|mL)\b)")


def entries(text: str) -> tuple[str, list[str], str]:
    """The text before the steps, its steps and stages without the choice, and the rest."""
    head, _, steps = text.partition("steps:\n")
    body, _, tail = steps.partition("finished:")
    found = re.split(r"(?m)^(?=  - )", body)[1:]
    return f"{head}steps:\n", found, f"finished:{tail}"


@st.composite
def texts(draw: st.DrawFn) -> str:
    """The rack after some edits of the table, other numbers, steps shuffled, doubled and left out."""
    text = RACK
    for old, new in draw(st.lists(st.sampled_from(EDITS), max_size=6)):
        if text.count(old) == 1:
            text = text.replace(old, new)
    if draw(st.booleans()):
        places = list(NUMBER.finditer(text))
        for match in reversed(draw(st.lists(st.sampled_from(places), max_size=3, unique=True))):
            text = text[: match.start()] + str(draw(st.integers(1, 99))) + text[match.end() :]
    if draw(st.booleans()):
        head, steps, tail = entries(text)
        steps = draw(st.permutations(steps)) if draw(st.booleans()) else steps
        gone = draw(st.integers(0, len(steps) - 1))
        twice = draw(st.integers(0, len(steps) - 1))
        again = re.sub(r"(?m)(?<=id: )(\w+)$", r"\1_again", steps[twice])
        text = head + "".join(steps[:gone] + steps[gone + 1 :] + [again]) + tail
    return text


@given(texts(), texts())
@settings(max_examples=40)
def test_applying_the_changes_gives_the_newer_guide(first: str, second: str) -> None:
    old, new = revision(first), revision(second)
    changes = compare(old, new)
    assert tree(applied(changes, old.facts)) == tree(new.facts)
    assert (changes == ()) == (tree(old.facts) == tree(new.facts))


def test_every_edit_belongs_to_one_change() -> None:
    head, steps, tail = entries(RACK)
    new = revision(head + "".join(reversed(steps)) + tail)
    changes = compare(revision(), new)
    edits = edits_of(changes)
    assert len(edits) == len(set(map(repr, edits)))
    assert all(change.edits for change in changes)
    for left_out in changes:
        rest = [change for change in changes if change is not left_out]
        try:
            assert tree(applied(rest, revision().facts)) != tree(new.facts)
        except (Mismatch, KeyError):
            continue


def test_a_change_does_not_fit_another_guide() -> None:
    changes = compare(revision(), revised(("price: 8.00 USD", "price: 9.00 USD")))
    with pytest.raises(Mismatch):
        applied(changes, revision(edited(("price: 8.00 USD", "price: 7.00 USD"))).facts)


@pytest.mark.parametrize(
    "edit",
    [
        Put(("guide", "title"), "Another", "Card rack"),
        Put(("guide", "subtitle"), "x", None),
        Take(("order",), "nowhere"),
        Insert(("order",), "cut_back", 0),
        Insert(("order",), "fresh", 99),
    ],
)
def test_edits_that_do_not_fit(edit: Put | Take | Insert) -> None:
    with pytest.raises(Mismatch):
        apply([edit], revision().facts)


@pytest.mark.parametrize(
    ("old", "new", "kept"),
    [
        ("abcd", "abcd", "abcd"),
        ("abcd", "acd", "acd"),
        ("abcd", "axbcd", "abcd"),
        ("abcd", "bcda", "bcd"),  # a went to the end: one moved, not three
        ("abcd", "dabc", "abc"),
        ("ab", "ba", "a"),  # the first of the new list has moved
        ("abcdef", "abfcde", "abcde"),
        ("abc", "xyz", ""),
        ("", "a", ""),
    ],
)
def test_as_few_as_possible_have_moved(old: str, new: str, kept: str) -> None:
    # by hand: the longest run of letters that stand in the same order in both
    assert stays(tuple(old), tuple(new)) == frozenset(kept)
