"""The demonstration guides and their dry runs, read once for all tests of drawings."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from builder.drawings.changes import Changes, changes
from builder.drawings.of_step import drawings_of
from builder.drawings.shapes import Drawing
from builder.dryrun.kinds import VERBS
from builder.dryrun.run import DryRun, Frame, run_all
from builder.guide.model import Guide
from builder.guide.reader import read_guide

ROOT = Path(__file__).parents[2]

NAMES = ("rolled-rocket", "card-telescope", "sail-cart")


@cache
def guide(name: str) -> Guide:
    return read_guide(ROOT / "guides" / name, VERBS)


@cache
def runs(name: str) -> tuple[DryRun, ...]:
    return run_all(guide(name))


@cache
def drawings(name: str, route: int) -> dict[str, Drawing]:
    return drawings_of(guide(name), runs(name)[route])


def frames(name: str, route: int) -> dict[str, list[Frame]]:
    """The frames of each step, in order."""
    found: dict[str, list[Frame]] = {}
    for frame in runs(name)[route].frames:
        found.setdefault(frame.step.id, []).append(frame)
    return found


def steps(name: str, route: int) -> dict[str, Changes]:
    return {step: changes(guide(name), own) for step, own in frames(name, route).items()}


ROUTES = [(name, i) for name in NAMES for i in range(len(runs(name)))]
"""Every route of every guide."""
