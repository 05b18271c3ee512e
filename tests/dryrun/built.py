"""Small kits, built on paper: from a few lines of actions to the run of their one route."""

from __future__ import annotations

import textwrap
from fractions import Fraction
from functools import cache
from pathlib import Path
from typing import TypeVar

from builder.dryrun.kinds import VERBS
from builder.dryrun.needs import Need
from builder.dryrun.run import DryRun, Frame, run_all
from builder.guide.model import Guide
from builder.guide.reader import read, read_guide
from tests.checks.examples_of import whole

FOLDER = Path(__file__).parents[1] / "fixtures" / "guides"
INCH = Fraction(254, 10)

N = TypeVar("N", bound=Need)


def guide_of(text: str) -> Guide:
    """A guide with what its first line takes from the kit; reading it finds nothing."""
    if "tube" not in text:
        text = text.replace("# takes:", "# takes: unfinished,", 1)
    guide = read({"guide.yml": whole(text).text}, "guide.yml", VERBS, "built")
    told = [f.message for f in guide.findings]
    assert told == []
    return guide


def built(text: str) -> DryRun:
    """The run of the first route of a guide."""
    return run_all(guide_of(text))[0]


def steps(takes: str, *actions: str, time: str = "", own: str = "") -> str:
    """A guide of one step: what it takes, its actions one to a text, its time, and sections of its own."""
    spent = f"    time: {time}\n" if time else ""
    done = "".join(f"      - {action}\n" for action in actions)
    head = f"# takes: {takes}\n{textwrap.dedent(own)}steps:\n"
    return f"{head}  - id: work\n    title: Do the work\n{spent}    actions:\n{done}"


def needs(frames: DryRun | Frame, kind: type[N]) -> list[N]:
    """The needs of a kind, in order."""
    every = frames.frames if isinstance(frames, DryRun) else (frames,)
    return [need for frame in every for need in frame.needs if isinstance(need, kind)]


def unmet(frames: DryRun | Frame) -> list[str]:
    """The names of the needs that are not met, in order."""
    return [type(need).__name__ for need in needs(frames, Need) if not need.met]


@cache
def fixture(name: str) -> tuple[Guide, tuple[DryRun, ...]]:
    """A whole guide of the fixtures, with the runs of its routes."""
    guide = read_guide(FOLDER / f"{name}.yml", VERBS)
    return guide, run_all(guide)


def inches(*lengths: str) -> tuple[Fraction, ...]:
    """`1 1/2` -> 38.1 mm, exactly."""
    return tuple(sum((Fraction(part) for part in text.split()), Fraction(0)) * INCH for text in lengths)


def of(value: object) -> object:
    """A value that is compared with whole numbers (a type checker thinks that no fraction is one)."""
    return value
