"""The glossary holds exactly the terms that a guide uses."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from builder.dryrun.kinds import VERBS
from builder.guide.glossary import Entry, glossary, spoken
from builder.guide.model import Guide
from builder.guide.reader import read, read_guide
from builder.trade.terms import TERMS, term
from builder.trade.words import plural

GUIDES = sorted((Path(__file__).parents[2] / "guides").glob("*/guide.yml"))
TEXT = """title: A rocket
units: {first: mm, second: in, finest: 1 mm}
terms:
  gizmo: {means: A thing that turns., never: [widget]}
  unused: {means: Nothing.}
  fin: {means: One of the four blades.}
parts:
  tube: {form: tube, source: bought, length: 100 mm, inside: 20 mm, wall: 1 mm}
  nose: {name: nose cone, form: rod, source: bought, diameter: 19.5 mm, length: 40 mm}
steps:
  - stage: Recovery
  - id: nose_in
    title: Put the {nose} in
    why: The gizmos sit behind the fins.
    actions:
      - {insert: nose, into: tube, from: front, fit: sliding}
      - note: Its shoulder is a tight fit.
finished: {is: tube, holds: all}
"""


def guide() -> Guide:
    return read({"guide.yml": TEXT}, "guide.yml", VERBS, "rocket")


def test_the_terms_that_are_used_and_no_others() -> None:
    """nose cone: in the title and the sentence; shoulder: in the note; gizmos and fins: the guide's own."""
    assert [(e.word, e.own) for e in glossary(guide())] == [
        ("fin", True), ("gizmo", True), ("nose cone", False), ("shoulder", False),
    ]  # fmt: skip
    assert glossary(guide())[0].means == "One of the four blades."


def test_a_page_hands_in_what_it_prints() -> None:
    assert glossary(guide(), ["Roll it round the former. Motor mounts follow."]) == (
        Entry("former", "A round rod that a tube is rolled round."),
        Entry("motor", next(t.means for t in TERMS if t.word == "motor")),
        Entry("motor mount", next(t.means for t in TERMS if t.word == "motor mount")),
    )
    assert glossary(guide(), ["The nose. Cone and foot."]) == ()  # no term runs over a stop
    assert glossary(guide(), ["finish, jigsaw, tippy"]) == ()  # no term is part of a word


@pytest.mark.parametrize("path", GUIDES, ids=lambda p: p.parent.name)
def test_every_entry_of_a_guide_stands_in_it(path: Path) -> None:
    """Independently: each term is found by a search for whole words, and each term so found is there."""
    read = read_guide(path, VERBS)
    whole = " ".join(spoken(read)).lower()

    def stands(word: str) -> bool:
        row = term(word)
        shapes = row.shapes if row is not None else (word, plural(word))
        return any(re.search(rf"(?<![a-z’]){re.escape(shape)}(?![a-z’])", whole) for shape in shapes)

    words = {entry.word for entry in glossary(read)}
    assert words
    assert words == {t.word for t in TERMS if stands(t.word)} | {t.word for t in read.terms if stands(t.word)}


def test_the_table_of_terms() -> None:
    """In order, once each, explained in a sentence; no term is a second name for another."""
    words = [t.word for t in TERMS]
    assert words == sorted(set(words))
    assert all(t.means[0].isupper() and t.means.endswith(".") for t in TERMS)
    refused = [other for t in TERMS for other in t.never]
    assert len(refused) == len(set(refused))
    assert set(refused).isdisjoint({shape for t in TERMS for shape in t.shapes})
