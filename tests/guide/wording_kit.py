"""A small kit that every sentence of the wording's tests is about.

In inches, shown in millimetres too. Conversions that the expected sentences need, by 1 in = 25.4 mm, rounded
half to even (0.1 mm below 100 mm, 1 mm from there on):

    1/8 in = 3.175 -> 3.2    1/4 in = 6.35 -> 6.4     1/2 in = 12.7            1 in = 25.4
    2 1/2 in = 63.5          2 3/4 in = 69.85 -> 69.8  3 in = 76.2             4 in = 101.6 -> 102
    5 1/2 in = 139.7 -> 140  10 3/4 in = 273.05 -> 273 11 in = 279.4 -> 279    16 in = 406.4 -> 406
    30 mm = 1.181 in -> 1 3/16  60 mm = 2.362 -> 2 3/8  6.5 mm = 0.256 -> 1/4   140 mm = 5.512 -> 5 1/2
    10 mm = 0.394 -> about 3/8  50 mm = 1.969 -> about 1 15/16 (off by more than 1/64 in)
"""

from __future__ import annotations

import textwrap

from builder.dryrun.kinds import VERBS
from builder.guide.model import Action, Guide, Repeat
from builder.guide.reader import read

KIT = """
title: Small kit
units: {first: in, second: mm, finest: 1/16 in}
choices: {way: {one: with two clips, other: without}}
dimensions: {play: 0.020 in}
materials:
  board: {name: fin board, form: sheet, size: 8 in x 8 in, thickness: 1/16 in}
  paper: {name: poster paper, form: sheet, size: 14 in x 22 in, thickness: 0.010 in}
  thread: {name: carpet thread, form: cord, length: 12 ft}
  dowel: {name: 6 mm dowel, form: rod, diameter: 6 mm, length: 300 mm}
  clear: {name: clear tape, form: tape, amount: 12 in}
  strip: {name: wide tape, form: strip, length: 14 in, width: 3/4 in}
  pva: {name: white PVA glue, form: adhesive, adhesive: pva, amount: 20 mL, label: {set: 30 min}}
  spray: {name: acrylic spray paint, form: paint, paint: aerosol acrylic, amount: 60 mL, label: {dry: 30 min}}
tools:
  pencil: {name: pencil}
  angle: {name: straight angle}
  brush: {name: glue brush}
  knife: {name: craft knife, hazards: [blade]}
  rule: {name: steel rule}
  mat: {name: cutting mat}
  scissors: {name: scissors}
  saw: {name: junior hacksaw}
  punch: {name: 8 mm hole punch, diameter: 8 mm}
  drill: {name: hand drill with a 6 mm bit, diameter: 6 mm}
  bit: {name: 1/16 in bit in a pin vice, diameter: 1/16 in}
  block: {name: sanding block}
  stick: {name: long stick}
  former: {name: 2 in dowel, form: rod, diameter: 2 in, length: 14 in}
  jig: {name: fin jig, form: ring, inside: 2.2 in, outside: 6 in, length: 1/8 in, one per: 4 builders}
  gauge: {name: fin guide, form: strip, printed: yes, length: 6 in, width: 1 in}
  clamp: {name: clamp, count: 2}
  case: {name: spent motor case, form: rod, diameter: 18 mm, length: 70 mm}
parts:
  body:
    form: tube
    rolled: {of: paper, around: former, turns: 4, overlap: 1/4 in}
    length: 12 in
    zones:
      outside from rear:
        [tail: 1/4 in, fin_root: fin.root, lower: 1 1/2 in, lug_seat: lug.length, upper: 6 1/2 in]
      inside from rear: [mount: 2 1/2 in, thrust_seat: 1/4 in, bay: 8 in, ring_seat: 1/4 in, neck: 1 in]
  motor_tube:
    form: tube
    length: 2 3/4 in
    inside: 3/4 in
    wall: 1/32 in
    zones:
      outside from rear: [tail: 1/4 in, rear_seat: 1/8 in, rest: 2 3/8 in]
      inside from rear: [motor: 2 1/2 in, thrust_seat: 1/4 in]
  thrust_ring: {form: ring, source: bought, outside: 0.7 in, inside: 0.5 in, length: 1/4 in}
  rear_ring: {form: ring, source: bought, outside: 1.9 in, inside: 0.8 in, length: 1/8 in}
  front_ring: {like: rear_ring}
  fin: {form: slab, count: 4, of: board, pattern: fin,
        outline: {root: 2 1/4 in, tip: 1 in, span: 2 in, square edge: rear}}
  lug: {name: launch lug, form: tube, source: bought, length: 1 1/2 in, inside: 5/32 in, wall: 1/64 in}
  cone: {name: nose cone, form: turned, source: bought, length: 5 in,
         zones: {outside from tip: [point: 4 in, shoulder: 1 in]},
         diameters: {point: 0 in to 2 in, shoulder: 1.98 in}}
  eye: {name: screw eye, form: screw, source: bought, diameter: 1/16 in, length: 3/4 in}
  line: {name: shroud line, form: cord, count: 8, of: thread, length: 16 in}
  tow: {name: tow cord, form: cord, of: thread, length: 3 in}
  tab: {name: corner tab, form: strip, count: 8, of: strip, length: 1 1/2 in}
  anchor: {form: strip, of: paper, size: 3 in x 1 in, folds to: 1 in x 1 in}
  canopy: {form: regular polygon, sides: 8, across flats: 12 in, of: paper, pattern: canopy}
  deck:
    form: slab
    of: board
    outline: {rectangle: 200 mm x 120 mm, edges: [left, front, right, back], along: front to back}
    zones: {lengthwise from front: [overhang: 30 mm, between: 140 mm, far_part: 30 mm]}
  step: {name: mast block, form: slab, of: board, outline: {rectangle: 30 mm x 30 mm}}
  mast: {form: rod, of: dowel, length: 140 mm}
  axle:
    form: rod
    count: 2
    of: dowel
    length: 140 mm
    zones: {outside from left: [wheel_l: 6 mm, gap_l: 4 mm, seat: 120 mm, gap_r: 4 mm, wheel_r: 6 mm]}
  bearing: {form: tube, count: 2, length: 120 mm, inside: 6.5 mm, wall: 0.5 mm}
  wheel: {form: ring, count: 4, source: bought, outside: 50 mm, inside: 5.9 mm, length: 6 mm}
  sail: {form: slab, of: paper, outline: {rectangle: 180 mm x 200 mm, edges: [left, bottom, right, top]},
         holes: {low: 10 mm from bottom and 60 mm from left, high: 10 mm from top and 60 mm from left}}
steps:
"""


def guide_of(*actions: str, repeat: str = "", stage: str = "", title: str = "Do it", step: str = "") -> Guide:
    """The kit with one step of these actions; `repeat` is a repeat's own fields, round the last action."""
    lines = [f"  - {stage}"] if stage else []
    lines += [
        "  - id: it",
        f"    title: {title}",
        *(f"    {line}" for line in step.splitlines()),
        "    actions:",
    ]
    for i, action in enumerate(actions):
        if repeat and i == len(actions) - 1:
            lines += [f"      - {repeat}", "        actions:", f"          - {action}"]
        else:
            lines.append(textwrap.indent(f"- {action}", "      "))
    return read({"guide.yml": KIT + "\n".join(lines) + "\n"}, "guide.yml", VERBS, "kit")


def last_action(guide: Guide) -> Action:
    """The last action of a guide."""
    entry = list(guide.every_step())[-1].actions[-1]
    return entry.actions[-1] if isinstance(entry, Repeat) else entry


def last_repeat(guide: Guide) -> Repeat:
    """The repeat that the last step ends with."""
    entry = list(guide.every_step())[-1].actions[-1]
    assert isinstance(entry, Repeat)
    return entry
