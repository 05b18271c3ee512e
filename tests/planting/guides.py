"""The demonstration guides, and what was harvested from them, once for all tests of planting."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from builder.dryrun.kinds import VERBS
from builder.guide.model import Guide
from builder.guide.reader import read_guide
from builder.planting import KINDS
from builder.planting.run import Harvest, plant

ROOT = Path(__file__).parents[2]
NAMES = tuple(sorted(p.parent.name for p in (ROOT / "guides").glob("*/guide.yml")))


@cache
def guide(name: str) -> Guide:
    return read_guide(ROOT / "guides" / name, VERBS)


@cache
def harvest(name: str) -> Harvest:
    return plant(guide(name), KINDS)
