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


KIT = """
choices: {way: {pressed: with the press, by_hand: by hand}}
materials:
  card:  {form: sheet, size: 10 in x 8 in, thickness: 1/16 in, per: class, sold: {pack: 4, price: 2.50 USD}}
  strip: {form: strip, length: 12 in, width: 1 in, per: 3 builders}
  bead:  {name: wooden bead, form: piece, amount: 3 pieces, sold: {pack: 20, price: 1.00 USD}}
  pva:   {name: white PVA glue, form: adhesive, adhesive: pva, amount: 5 mL,
          label: {working time: 5 min, tack: 2 min, set: 30 min, full cure: 24 h}}
tools:
  pencil:   {name: pencil}
  ruler:    {name: ruler, one per: 2 builders}
  brush:    {name: glue brush}
  scissors: {name: scissors, hazards: [scissors], one per: 3 builders}
  knife:    {name: craft knife, hazards: [blade], who: teacher}
  mat:      {name: cutting mat, one per: class}
  press:    {name: press, form: slab, made by: teacher, of: card, length: 4 in, width: 3 in,
             one per: 4 builders, hazards: []}
parts:
  disc:  {form: disc, made by: teacher, of: card, diameter: 2 in, length: card.thickness}
  base:  {form: slab, source: bought, outline: {rectangle: 4 in x 3 in}, thickness: 1/4 in,
          sold: {pack: 5, price: 3.00 USD}}
  tongue: {form: strip, of: strip, length: 3 in}
steps:
  - {stage: Before the class, who: teacher, per: class}
  - id: discs
    title: Cut the discs
    time: {set up: 5 min, each: 2 min}
    actions:
      - {cut: disc, from: card, along: pattern, with: [knife, mat]}
  - choose: way
    pressed:
      - id: presses
        title: Cut the presses
        time: {set up: 1 min, each: 3 min}
        actions:
          - {cut: press, from: card, with: [knife, mat]}
    by_hand: []
  - stage: Make
  - id: tongue_cut
    title: Cut the tongue
    time: 4 min
    actions:
      - {cut: tongue, from: strip, with: scissors}
  - id: line
    title: Draw a line
    time: 2 min
    actions:
      - {mark: middle, onto: base, at: 2 in from left}
  - id: stick
    title: Glue the disc on
    time: 6 min
    actions:
      - {glue: base, face: top, with: pva, for: disc}
      - {attach: disc, onto: base, at: middle of base}
      - {do: Thread the beads on, with: bead}
  - id: dry
    title: Let it dry
    actions:
      - {wait for: disc, until: set}
  - choose: way
    pressed:
      - id: pressing
        title: Press it
        time: 5 min
        actions:
          - {do: Lay the press on, with: press}
    by_hand: []
finished: {is: base, holds: all, left over: [tongue]}
"""
