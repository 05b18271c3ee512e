"""What a sentence does beside its words: for each kind some that do and as many that do not."""

from __future__ import annotations

from collections.abc import Callable, Iterable

import pytest

from builder.guide.wording.scan import Typed
from builder.guide.wording.tells import (
    commands_in,
    conditions_behind,
    references,
    repeats,
    too_long,
    vague,
    waits,
    whole_sentences,
)

Find = Callable[[str], Iterable[Typed]]

WAITS = (
    ("Press the fin on, then stop. Let it dry.", True),
    ("Leave the tube overnight", True),
    ("Hold it until the glue has set", True),
    ("Allow the paint to cure", True),
    ("Wait ten minutes", True),
    ("Put it aside until dry", True),
    ("Stand it up to dry", True),
    ("Now leave it until it hardens", True),
    ("Set the fin in a slot of the jig", False),
    ("Set the ring on its edge and press", False),
    ("Leave the root as it is", False),
    ("Let it run down a ramp", False),
    ("Press it down until it stays", False),
    ("A wet tube shrinks as it dries", False),
    ("Keep the set of rings together", False),
    ("Put the dry card on top", False),
    ("Wait for the adult", False),
)
CONDITIONS = (
    ("Push the nose off, unless the cord is wet", True),
    ("Cut it if it is too long", True),
    ("Slide it in when the glue is tacky", True),
    ("Carefully trim the edge if it shows", True),
    ("Take everything except when it is wet", True),
    ("Use the brush provided that it is clean", True),
    ("If it is too long, cut it", False),
    ("Unless the cord is wet, push the nose off", False),
    ("Check if it turns", False),
    ("See if the edge lies flat", False),
    ("Turn it as if it were a key", False),
    ("The clip springs back when it is lifted", False),
    ("Use the brush provided", False),
    ("Paint all except the root", False),
)
REFERENCES = (
    ("See step 7 for the rest", True),
    ("It looks as shown below", True),
    ("Look at the next page", True),
    ("Take part B", True),
    ("This is described above.", True),
    ("As before, keep it square", True),
    ("Go back to the previous step", True),
    ("Use the slot of Figure 2", True),
    ("The drawing overleaf shows it", True),
    ("Draw a line above the fin", False),
    ("The ring sits below the others", False),
    ("Measure it before you cut", False),
    ("It is shown above the fin", False),
    ("A part of the tube stays bare", False),
    ("Step back from the work", False),
    ("The next ring goes on", False),
    ("A picture of the sail", False),
    ("Each piece is the same", False),
    ("Letter each ring", False),
)
REPEATS = (
    ("Repeat for the other side", True),
    ("Turn it over and do the same on the back", True),
    ("Do this for each wheel", True),
    ("Glue the left one, and likewise the right one", True),
    ("Try again for the other end", True),
    ("Repeat until it fits", False),
    ("Use the same brush", False),
    ("Push it in again", False),
    ("Do it slowly", False),
    ("Both are the same", False),
)
AMOUNTS = (
    ("Put some glue on the root", True),
    ("Turn it a bit", True),
    ("Press it firmly", True),
    ("Sand it slightly", True),
    ("Use plenty of water", True),
    ("Wait a few moments", True),
    ("Spread a little paste on it", True),
    ("Put so little glue on it that nothing runs", False),
    ("Turn it a bit at a time until the slot is on top", False),
    ("Run a bead as wide as a pencil line", False),
    ("Some of the rings have a notch", False),
    ("Turn it about", False),
    ("Press the ring flat", False),
    ("Hold it by its rim", False),
)


def rows(find: Find, table: tuple[tuple[str, bool], ...]) -> list[tuple[Find, str, bool]]:
    """A table with its function."""
    return [(find, text, told) for text, told in table]


ALL = [
    *rows(waits, WAITS),
    *rows(conditions_behind, CONDITIONS),
    *rows(references, REFERENCES),
    *rows(repeats, REPEATS),
    *rows(vague, AMOUNTS),
]


@pytest.mark.parametrize(("find", "text", "told"), ALL, ids=lambda v: getattr(v, "__name__", str(v)))
def test_a_sentence(find: Find, text: str, told: bool) -> None:
    found = list(find(text))
    assert bool(found) is told, found
    for typed in found:
        assert text[typed.start :].startswith(typed.text)


def test_half_of_the_sentences_are_innocent() -> None:
    told = sum(told for _, _, told in ALL)
    assert len(ALL) >= 40
    assert abs(told - (len(ALL) - told)) <= len(ALL) // 5


def test_sentences_end_at_their_stops() -> None:
    """A decimal and a figure hold no stop."""
    assert [s.strip() for _, s in whole_sentences("Cut 1.5 in off. Turn it! Is it square?")] == [
        "Cut 1.5 in off", "Turn it", "Is it square",
    ]  # fmt: skip
    assert list(whole_sentences("")) == []


def test_a_long_sentence_among_short_ones() -> None:
    """Eleven words: it has a word more than ten."""
    text = "Turn it. One two three four five six seven eight nine ten eleven. Stop."
    assert list(too_long(text, 10)) == [(9, 11, "One two three four five six seven eight nine ten eleven")]
    assert list(too_long(text, 11)) == []
    assert list(too_long("1 2 3 4 5 6 7 8 9 10 11 12", 10)) == []  # figures are no words


def test_commands_begin_clauses() -> None:
    text = "Fold the end back, and tape it down, then press the fold flat"
    assert [word.text for word in commands_in(text)] == ["fold", "tape", "press"]
    assert [word.text for word in commands_in("The fold is taped and pressed")] == []
