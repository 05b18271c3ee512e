"""Ranges of times on a label: whoever waits takes the longer time, whoever works the shorter one."""

from __future__ import annotations

import pytest

from tests.dryrun.built import guide_of, steps

# field, what the label says, the time that counts in seconds
RANGES = [
    ("set", "20-30 min", 30 * 60),
    ("set", "20 min to 1 h", 3600),
    ("full cure", "12 to 24 h", 24 * 3600),
    ("tack", "2-3 min", 3 * 60),
    ("dry", "15-20 min", 20 * 60),
    ("working time", "5-8 min", 5 * 60),
    ("working time", "up to 5 min", 5 * 60),
    ("set", "from 30 min", 30 * 60),
    ("set", "30 min", 30 * 60),
    ("set", "1 h - 15 min", 45 * 60),  # a sum: the second is the smaller
]


@pytest.mark.parametrize(("field", "said", "counts"), RANGES)
def test_the_careful_end(field: str, said: str, counts: int) -> None:
    label = (
        f"materials:\n  gum: {{form: adhesive, adhesive: pva, amount: 5 mL, label: {{{field}: {said}}}}}\n"
    )
    guide = guide_of(steps("tube, brush", "{do: Look at it, handles: tube}", own=label))
    value = guide.things["gum"].values[field.replace(" ", "_")]
    assert value.base == counts
