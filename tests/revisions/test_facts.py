"""Nothing that a guide says is left out of its facts."""

from __future__ import annotations

import msgspec
import pytest

from builder.guide import model, values
from builder.revisions.facts import facts_of
from tests.revisions.rack import RACK, guide, revision

# What each record holds, and what of it says nothing to a reader: where it was written, what was made of it.
HELD: dict[type[msgspec.Struct], tuple[str, str]] = {
    model.Guide: (
        "title units audience things choices dimensions entries finished cautions prose cut_tolerance terms "
        "accepted",
        # an edition's number and its signatures are no content; stages come with their steps, routes with the
        # choices, the shared steps with the steps that they bring
        "id file at revision stages where paths texts findings routes shared prose_files signed own_verbs",
    ),
    model.Step: (
        "id title stage actions time set_up who why notes optional critical cautions dropped picture",
        "at shared use_at where",
    ),
    model.Action: ("verb fields say takes told_above notes", "at path where spec"),
    model.Repeat: ("of actions around spots notes", "at path"),
    model.Stage: ("name makes base lying who per_class time", "at"),
    model.Caution: ("id level hazard consequence avoidance gear source", "at covers"),
    model.Dropped: ("hazard why", "at"),
    model.Picture: ("file alt", "at"),
    model.Choice: ("id options", "at"),
    model.Finished: ("what holds left_over", "at"),
    model.Term: ("word means never", "at"),
    model.Acceptance: ("check spot why facts", "at"),
    model.Note: ("kind text", "at"),
    values.Thing: (
        "id name sort form count values words refs chains outline holes tapers hazards share window",
        "at count_at where blank_of",
    ),
    values.Chain: ("side origin zones", "at path"),
    values.Zone: ("name length", "at lo hi reads"),
    values.Outline: ("shape edges words points values", "at"),
    values.Hole: ("name spot", "at"),
    values.Taper: ("zone first second", "at"),
}


@pytest.mark.parametrize("record", HELD, ids=lambda record: record.__name__)
def test_every_field_of_the_model_is_a_fact_or_left_out_on_purpose(record: type[msgspec.Struct]) -> None:
    held, left_out = HELD[record]
    assert sorted(record.__struct_fields__) == sorted([*held.split(), *left_out.split()])


def test_facts_do_not_know_where_they_were_written() -> None:
    moved = guide("# a line more\n\n" + RACK)
    assert facts_of(moved, revision().cautions).leaves == revision().facts.leaves
