"""A slip of the hand gives one finding: lines of two guides left out, doubled, or swapped with the next.

What a lost line was to place is not there, not wet, not in the kit: one of these leads, and the others stand
beneath it. `python -m tests.checks.test_cascades` tries every line; the test takes a spread.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import NamedTuple

import pytest

from builder.checks.judge import check
from builder.dryrun.kinds import VERBS
from builder.findings import Severity
from builder.guide.reader import load, read

FOLDER = Path(__file__).parents[1] / "fixtures" / "guides"
SPREAD = {"rolled-rocket.yml": 5, "wind-cart.yml": 1}
LEFT_OUT, DOUBLED, SWAPPED = "left out", "doubled", "swapped with the next"

# The lines of a step share its minutes, so that one more or less changes how long glue lies open.
OF_THE_CLOCK = ("working-time", "step-time")

# (what was done, the line begins so) -> the checks that lead, where there are several
MORE = {
    # nothing says that the unfolded anchor is the reason why it reaches beyond the body
    (LEFT_OUT, "- {fold: anchor"): ("glue-unmet", "station"),
    # nor that the stick was to press it on
    (LEFT_OUT, "- {attach: anchor"): ("never-used", "never-placed"),
}


class Slip(NamedTuple):
    """One slip: in which guide, what was done to which line, and the text after it."""

    guide: str
    way: str
    line: str
    text: str

    @property
    def name(self) -> str:
        return f"{self.guide.partition('.')[0]}, {self.way}: {self.line[:60]}"


@cache
def source(name: str) -> tuple[dict[str, str], str]:
    """The texts of a guide, and the name of its own."""
    texts, main, _ = load(FOLDER / name)
    return texts, main


def indent(line: str) -> int:
    return len(line) - len(line.lstrip())


def blocks(name: str) -> list[tuple[int, int, int]]:
    """The actions of a guide as lines (first, end), with how far they are set in."""
    texts, main = source(name)
    lines = texts[main].split("\n")
    found = set()
    for step in read(texts, main, VERBS, "slip").every_step():
        for action in step.each_action():
            first = end = action.at.line - 1
            if action.at.file != main:
                continue
            while end == first or not lines[end].strip() or indent(lines[end]) > indent(lines[first]):
                end += 1
            found.add((first, end, indent(lines[first])))
    return sorted(found)


def slips(name: str) -> Iterator[Slip]:
    """Every slip of a guide. The one line of a list is not left out: then the list would be empty."""
    texts, main = source(name)
    lines = texts[main].split("\n")
    every = blocks(name)
    for number, (first, end, deep) in enumerate(every):
        line = lines[first].strip()
        alone = indent(lines[first - 1]) < deep and indent(lines[end]) < deep
        if not alone:
            yield Slip(name, LEFT_OUT, line, "\n".join(lines[:first] + lines[end:]))
        yield Slip(name, DOUBLED, line, "\n".join(lines[:end] + lines[first:]))
        if number + 1 < len(every) and every[number + 1][::2] == (end, deep):
            stop = every[number + 1][1]
            moved = lines[:first] + lines[end:stop] + lines[first:end] + lines[stop:]
            yield Slip(name, SWAPPED, line, "\n".join(moved))


def leaders(slip: Slip) -> tuple[str, ...]:
    """The errors that lead, without those of the clock where there are others."""
    texts, main = source(slip.guide)
    found = check(read({**texts, main: slip.text}, main, VERBS, "slip"))
    errors = tuple(f.check for f in found if f.severity is Severity.ERROR)
    return tuple(name for name in errors if name not in OF_THE_CLOCK) if len(errors) > 1 else errors


def wrong_with(slip: Slip) -> str:
    """What is wrong: more than one leader, or not those that are known."""
    known = next(
        (v for (way, start), v in MORE.items() if way == slip.way and slip.line.startswith(start)), None
    )
    led = leaders(slip)
    good = led == known if known is not None else len(led) <= 1
    return "" if good else f"{slip.name}: {led}"


SOME = tuple(slip for name, every in SPREAD.items() for slip in tuple(slips(name))[::every])


@pytest.mark.parametrize("slip", SOME, ids=lambda s: s.name)
def test_a_slip_gives_one_leader(slip: Slip) -> None:
    assert wrong_with(slip) == ""


def test_most_slips_are_noticed() -> None:
    """Leaving out what places, glues, cuts or waits for something is always told."""
    kept = ("mark", "sand", "verify", "do", "wait")  # another line may say the same, or nothing rests on it
    for slip in slips("wind-cart.yml"):
        verb = slip.line.lstrip("- {").partition(":")[0]
        if slip.way == LEFT_OUT and verb not in kept:
            assert leaders(slip), slip.name


if __name__ == "__main__":
    told = [text for name in SPREAD for slip in slips(name) if (text := wrong_with(slip))]
    print("\n".join(told))
    print(f"{sum(1 for name in SPREAD for _ in slips(name))} slips, {len(told)} with more than one leader")
