"""Edits of a text by its nodes: each case shows the text before and after."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from builder.planting.sheet import (
    Edit,
    MappingNode,
    Node,
    ScalarNode,
    SequenceNode,
    Sheet,
    carried_out,
    pair_of,
    value_of,
)

TEXT = """\
parts:
  body: {form: tube, length: 20 mm}
  fin:
    form: slab
    count: 4      # of them
steps:
  - id: first
    actions:
      - {cut: fin, from: board}   # all
      - glue: fin
        edge: root
        for: body
      - note: It is wet.
  - id: second
    actions:
      - {wait for: fin, until: [set, dry]}
      - {sand: fin}
"""


def sheet() -> Sheet:
    return Sheet("guide.yml", TEXT)


def mapping(at: Sheet, *names: str) -> MappingNode:
    node = value_of(at.node, *names)
    assert isinstance(node, MappingNode)
    return node


def node(at: Sheet, *names: str) -> Node:
    found = value_of(at.node, *names)
    assert found is not None
    return found


def actions(at: Sheet, step: int) -> SequenceNode:
    steps = value_of(at.node, "steps")
    assert isinstance(steps, SequenceNode)
    found = value_of(steps.value[step], "actions")
    assert isinstance(found, SequenceNode)
    return found


def after(edits: tuple[Edit, ...]) -> str:
    texts = carried_out({"guide.yml": TEXT}, edits)
    assert texts is not None
    return texts["guide.yml"]


def words(at: Sheet) -> SequenceNode:
    found = value_of(actions(at, 1).value[0], "until")
    assert isinstance(found, SequenceNode)
    return found


CASES: tuple[tuple[str, Callable[[Sheet], tuple[Edit, ...]], str, str], ...] = (
    ("a value in braces", lambda s: (s.replace(node(s, "parts", "body", "length"), "9 mm"),),
     "length: 20 mm}", "length: 9 mm}"),
    ("a value on its own line keeps what is beside it",
     lambda s: (s.replace(node(s, "parts", "fin", "count"), "5"),),
     "count: 4      # of them", "count: 5      # of them"),
    ("the first pair in braces", lambda s: s.without_pair(mapping(s, "parts", "body"), "form"),
     "{form: tube, length: 20 mm}", "{length: 20 mm}"),
    ("the last pair in braces", lambda s: s.without_pair(mapping(s, "parts", "body"), "length"),
     "{form: tube, length: 20 mm}", "{form: tube}"),
    ("a pair on lines", lambda s: s.without_pair(mapping(s, "parts", "fin"), "count"),
     "    count: 4      # of them\n", ""),
    ("one more pair in braces", lambda s: (s.with_pair(mapping(s, "parts", "body"), "wall: 1 mm"),),
     "{form: tube, length", "{form: tube, wall: 1 mm, length"),
    ("one more pair on lines", lambda s: (s.with_pair(mapping(s, "parts", "fin"), "of: board"),),
     "    form: slab\n", "    form: slab\n    of: board\n"),
    ("a line of a list", lambda s: s.without_item(actions(s, 0), 0),
     "      - {cut: fin, from: board}   # all\n", ""),
    ("an item of several lines", lambda s: s.without_item(actions(s, 0), 1),
     "      - glue: fin\n        edge: root\n        for: body\n", ""),
    ("the first item between brackets", lambda s: s.without_item(words(s), 0), "[set, dry]", "[dry]"),
    ("the last item between brackets", lambda s: s.without_item(words(s), 1), "[set, dry]", "[set]"),
    ("two lines in each other's place", lambda s: s.swapped(actions(s, 0), 0, 1),
     "      - {cut: fin, from: board}   # all\n      - glue: fin\n        edge: root\n        for: body\n",
     "      - glue: fin\n        edge: root\n        for: body\n      - {cut: fin, from: board}   # all\n"),
    ("a line more, before another", lambda s: s.with_item(actions(s, 1), 1, "{paint: fin}"),
     "      - {sand: fin}\n", "      - {paint: fin}\n      - {sand: fin}\n"),
    ("a line more, at the end", lambda s: s.with_item(actions(s, 1), 2, "note: So."),
     "      - {sand: fin}\n", "      - {sand: fin}\n      - note: So.\n"),
)  # fmt: skip


@pytest.mark.parametrize(("name", "edit", "old", "new"), CASES, ids=[case[0] for case in CASES])
def test_an_edit_changes_only_its_own_text(
    name: str, edit: Callable[[Sheet], tuple[Edit, ...]], old: str, new: str
) -> None:
    assert TEXT.count(old) == 1
    assert after(edit(sheet())) == TEXT.replace(old, new)


def test_a_line_moves_to_another_list() -> None:
    at = sheet()
    text = after(at.moved(actions(at, 0), 1, actions(at, 1), 0))
    moved = "      - glue: fin\n        edge: root\n        for: body\n"
    first = TEXT.replace(moved, "")
    assert text == first.replace("      - {wait for", moved + "      - {wait for")


@pytest.mark.parametrize(
    "edits",
    [
        lambda s: s.without_pair(mapping(s, "parts", "fin"), "form"),  # a mapping on lines keeps its first
        lambda s: s.without_pair(mapping(s, "parts", "body"), "wall"),
        lambda s: s.with_item(words(s), 0, "cured"),
    ],
)
def test_what_cannot_be_edited_gives_no_edit(edits: Callable[[Sheet], tuple[Edit, ...]]) -> None:
    assert edits(sheet()) == ()


def test_edits_that_want_the_same_text_are_refused() -> None:
    texts = {"guide.yml": "abcdef"}
    one, two = Edit("guide.yml", 1, 4, "x"), Edit("guide.yml", 3, 5, "y")
    assert carried_out(texts, [one, two]) is None
    assert carried_out(texts, [Edit("guide.yml", 4, 5, "y"), one]) == {"guide.yml": "axyf"}


def test_a_node_is_found_by_its_keys() -> None:
    at = sheet()
    pair = pair_of(value_of(at.node, "parts", "fin"), "count")
    assert pair is not None and isinstance(pair[1], ScalarNode)
    assert pair[1].value == "4"
    assert value_of(at.node, "parts", "nose", "count") is None
