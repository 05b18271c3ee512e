"""Comparisons against a table of what must be told: none missing, none invented."""

from __future__ import annotations

from functools import cache

import msgspec
import pytest

from builder.dryrun.kinds import VERBS
from builder.guide.reader import read
from builder.revisions.change import FIELDS, KINDS, RANKS, STRENGTHENED, Change, Field, Rank, only
from builder.revisions.compare import applied, compare
from builder.revisions.edition import edition
from builder.revisions.tree import tree
from tests.revisions.rack import SHARED, Edits, edited, revised, revision
from tests.revisions.table import TABLE, Case


@cache
def changes_of(edits: Edits) -> tuple[Change, ...]:
    """The changes that edits of the rack make."""
    return compare(revision(), revised(*edits))


@cache
def changes_back(edits: Edits) -> tuple[Change, ...]:
    """The changes that take the edits back."""
    return compare(revised(*edits), revision())


def told(change: Change) -> str:
    """A change as the table writes it."""
    places = f" [{len(change.places)}]" if change.places else ""
    return f"{change.rank.value} {change.kind.value} {change.field.value}: {change.line}{places}"


def test_the_table_is_long_enough() -> None:
    assert len(TABLE) >= 60
    assert len({case.name for case in TABLE}) == len(TABLE)


@pytest.mark.parametrize("case", TABLE, ids=[case.name for case in TABLE])
def test_what_is_told(case: Case) -> None:
    changes = changes_of(case.edits)
    assert [told(change) for change in changes] == list(case.expected)


@pytest.mark.parametrize("case", TABLE, ids=[case.name for case in TABLE])
def test_changes_turn_the_older_guide_into_the_newer(case: Case) -> None:
    old, new = revision(), revised(*case.edits)
    assert tree(applied(changes_of(case.edits), old.facts)) == tree(new.facts)


@pytest.mark.parametrize("case", TABLE, ids=[case.name for case in TABLE])
def test_changes_turn_the_newer_guide_back(case: Case) -> None:
    old, new = revised(*case.edits), revision()
    assert tree(applied(changes_back(case.edits), old.facts)) == tree(new.facts)


@pytest.mark.parametrize("case", TABLE, ids=[case.name for case in TABLE])
def test_filters_part_the_list(case: Case) -> None:
    changes = changes_of(case.edits)
    for part in (
        [only(changes, ranks=(rank,)) for rank in RANKS],
        [only(changes, kinds=(kind,)) for kind in KINDS],
        [only(changes, fields=(field,)) for field in FIELDS],
    ):
        assert sorted(map(told, changes)) == sorted(told(change) for some in part for change in some)


# A knife and a hot wire each hurt in a way that the other does not; a caution that moves stands right before
# its work on neither way.
ONE_WAY = ("a hotter tool", "a caution moves after its step")


BOTH_WAYS = [case for case in TABLE if case.part == "safety" and case.name not in ONE_WAY]


@pytest.mark.parametrize("case", BOTH_WAYS, ids=[case.name for case in BOTH_WAYS])
def test_what_weakens_one_way_strengthens_the_other(case: Case) -> None:
    there = changes_of(case.edits)
    back = changes_back(case.edits)
    weaker = any(change.weakened for change in there)
    stronger = any(change.mark == STRENGTHENED for change in there)
    assert any(change.weakened for change in back) is stronger
    assert any(change.mark == STRENGTHENED for change in back) is weaker


LAY = """\
verbs:
  lay:
    stands for: slide
    about: A part goes over another without force.
    doing: laying
    sentence: "lay {what} {over} {from} {to}"
    says: [put]
    brings: {fit: sliding}
"""


def test_another_word_for_the_same_work_is_wording() -> None:
    """A verb of the library's own that stands for the verb that was there, and brings the fit that it had."""
    said = "{slide: bush, over: peg, from: left, to: flush with left, fit: sliding}"
    text = edited((said, said.replace("slide:", "lay:").replace(", fit: sliding", "")))
    texts = {"guides/rack/guide.yml": text, "guides/common/leave.yml": SHARED, "guides/common/verbs.yml": LAY}
    newer = edition(read(texts, "guides/rack/guide.yml", VERBS, "rack"), "the working guide")
    (change,) = compare(revision(), newer)
    assert (change.rank, change.field) == (Rank.WORDING, Field.NOTHING)
    assert change.text.startswith('Step 10, Push the bush onto the peg: "Lay the peg bush over the peg from')


def test_no_change_is_no_change_both_ways() -> None:
    cases = [case for case in TABLE if case.part == "no change"]
    assert len(cases) >= 8
    for case in cases:
        assert changes_back(case.edits) == ()


def test_the_words_of_a_free_action_are_told_as_they_are_read() -> None:
    """Never as they are written, with names in braces."""
    rack = "      - {verify: shelf, angle: 90 deg ± 2 deg, with: ruler, else: Glue it on again.}\n"
    free = '      - {{do: "{} the {{handles}}", handles: back}}\n'
    old, new = (revised((rack, rack + free.format(verb))) for verb in ("Look at", "Turn round"))
    lines = [change.line for change in compare(old, new)]
    assert lines == ['Step 15, Look it over: "Turn round the back.", was "Look at the back."']


def test_a_caution_that_the_tool_now_finds_in_an_old_step_is_told() -> None:
    """When it was sealed the tool did not know that to sand makes dust; nothing in the guide has changed."""
    now = revision()
    (step,) = (id for id, row in now.cautions.items() if any(caution.id == "dust" for caution in row))
    row = tuple(caution for caution in now.cautions[step] if caution.id != "dust")
    sealed = msgspec.structs.replace(now, cautions={**now.cautions, step: row})
    (change,) = compare(sealed, now)
    assert (change.rank, change.mark, change.about) == (Rank.SAFETY, STRENGTHENED, f"step {step}")
    assert '"Sanding makes fine dust."' in change.text
    assert compare(now, now) == ()
