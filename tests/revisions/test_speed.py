"""Comparing two guides of 60 steps takes at most three times as long as checking one of them."""

from __future__ import annotations

from builder.checks.judge import check
from builder.dryrun.kinds import VERBS
from builder.guide.model import Guide
from builder.guide.reader import load, read
from builder.revisions.compare import compare
from builder.revisions.edition import edition
from builder.revisions.printers import as_text
from tests.bench import GUIDE, best

TEXTS, MAIN, FOUND = load(GUIDE)


def reading(*edits: tuple[str, str]) -> Guide:
    """The guide of 60 steps after edits."""
    text = TEXTS[MAIN]
    for old, new in edits:
        assert old in text, old
        text = text.replace(old, new, 1)
    return read({**TEXTS, MAIN: text}, MAIN, VERBS, "sixty", list(FOUND))


def checked() -> object:
    """What `kitwright check` does."""
    return check(reading())


def compared() -> str:
    """What `kitwright compare` does: a number that shows at many places, a name, a shorter wait."""
    old = edition(reading(), "revision 1")
    new = edition(
        reading(("thickness: 0.010 in", "thickness: 0.012 in"), ("name: poster paper", "name: craft paper"),
                ("set: 30 min", "set: 25 min")), "revision 2",
    )  # fmt: skip
    changes = compare(old, new)
    assert len(changes) == 3
    return as_text(changes, new.guide.title, old.label, new.label)


def test_comparing_takes_at_most_three_checks() -> None:
    assert len(list(reading().every_step())) >= 60
    checked()
    compared()  # the first round reads modules
    # side by side, so that a busy machine slows both
    ratios = [best(compared, 1) / best(checked, 1) for _ in range(7)]
    assert sorted(ratios)[len(ratios) // 2] <= 3, ratios
