"""Small guides for the tests of the plan: written to a folder, read, run."""

from __future__ import annotations

from pathlib import Path

from builder.dryrun.kinds import VERBS
from builder.dryrun.run import DryRun, run_all
from builder.guide.model import Guide
from builder.guide.reader import read_guide

ROOT = Path(__file__).resolve().parents[2]

HEAD = """\
title: A test kit
revision: {number: 1, dated: 2026-11-02}
units: {first: in, second: mm, finest: 1/16 in}
"""


def guide_of(text: str, folder: Path) -> tuple[Guide, tuple[DryRun, ...]]:
    """A guide from its text, with the runs of its routes. What reading finds is the test's own affair."""
    path = folder / "guide.yml"
    path.write_text(HEAD + text, encoding="utf-8")
    guide = read_guide(path, VERBS)
    return guide, run_all(guide)


def demo(name: str) -> tuple[Guide, tuple[DryRun, ...]]:
    """One of the demonstration guides."""
    guide = read_guide(ROOT / "guides" / name / "guide.yml", VERBS)
    return guide, run_all(guide)


STICKS = """
materials:
  stick: {name: pine stick, form: rod, diameter: 1/4 in, length: 36 in, per: SHARE,
          sold: {pack: 5, price: 4.00 USD}}
tools:
  saw: {name: junior hacksaw, hazards: [blade], cuts away: 1/16 in}
parts:
  spar: {form: rod, of: stick, count: COUNT, length: LENGTH}
steps:
  - stage: Cut
  - id: cut
    title: Cut the spar
    time: 3 min
    actions:
      - {cut: spar, from: stick, with: saw}
finished: {is: spar, holds: all}
"""


def sticks(length: str, share: str = "class", count: int = 1) -> str:
    """A guide whose one part is so long, cut from 36 in sticks."""
    return STICKS.replace("LENGTH", length).replace("SHARE", share).replace("COUNT", str(count))
