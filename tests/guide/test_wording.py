"""The sentences that the tool words, compared with what an editor would write.

No outside source: each expected sentence was written by hand from the action, with the numbers of
`wording_kit`. Sums of zones are shown beside them.
"""

from __future__ import annotations

import re
from fractions import Fraction
from pathlib import Path

import pytest

from builder.guide import wording
from builder.guide.phrases import PHRASES
from builder.guide.wording import generated
from tests.guide.wording_kit import guide_of, last_action

PUT = "Put white PVA glue"

CUT = [
    ("{cut: fin, from: board, along: pattern, with: knife}",
     "Cut four fins from the fin board along the printed pattern with the craft knife."),
    ("{cut: fin, along: pattern, with: [knife, rule, mat]}",
     "Cut four fins from the fin board along the printed pattern with the craft knife and the steel rule on "
     "the "
     "cutting mat."),
    ("{cut: anchor, from: paper, with: scissors}",
     "Cut an anchor, 3 in (76.2 mm) by 1 in (25.4 mm), from the poster paper with the scissors."),
    ("{cut: tow, from: thread, with: scissors}",
     "Cut a tow cord, 3 in (76.2 mm) long, from the carpet thread with the scissors."),
    ("{cut: line, from: thread, with: scissors, leaves: 4 in}",
     "Cut eight shroud lines, each 16 in (406 mm) long, from the carpet thread with the scissors. This "
     "leaves 4 in "
     "(102 mm)."),
    ("{cut: tab, from: strip, with: scissors, leaves: nothing}",
     "Cut eight corner tabs, each 1 1/2 in (38.1 mm) long, from the wide tape with the scissors. Nothing is "
     "left "
     "over."),
    ("{cut: mast, from: dowel, with: saw}",
     "Saw a mast, 140 mm (5 1/2 in) long, from the 6 mm dowel with the junior hacksaw."),
    ("{cut: gauge, along: pattern, with: scissors}",
     "Cut a fin guide out of the printed pattern with the scissors."),
    ("{cut: [fin, canopy], along: pattern, leaves: [1 in x 4 in, 3 in x 11 in]}",
     "Cut four fins and a canopy along the printed pattern. This leaves 1 in (25.4 mm) by 4 in (102 mm), "
     "and 3 in "
     "(76.2 mm) by 11 in (279 mm)."),
]  # fmt: skip

MAKE = [
    ("{fold: anchor, over: tow}", "Fold the anchor over the tow cord."),
    ("{fold: anchor, at: [1 in from left, 2 3/4 in from left], with: rule}",
     "Fold the anchor at the lines 1 in (25.4 mm) from the left edge and 2 3/4 in (69.8 mm) from the left "
     "edge with "
     "the steel rule."),
    ("{drill: step, at: middle of step, with: drill, depth: through}",
     "Drill a hole right through the mast block, at the middle of the mast block, using the hand drill with "
     "a 6 mm "
     "bit."),
    ("{drill: sail, at: [low, high], with: punch}",
     # 10 mm = 0.394 in, 60 mm = 2.362 in
     "Punch two holes in the sail with the 8 mm hole punch: the low hole 10 mm (about 3/8 in) from the "
     "bottom edge and "
     "60 mm (2 3/8 in) from the left edge, and the high hole 10 mm (about 3/8 in) from the top edge and 60 "
     "mm (2 3/8 "
     "in) from the left edge."),
    ("{sand: fin, edges: [front, tip], not: [root], with: block}",
     "Sand the front and tip edges of the four fins with the sanding block. Leave the root edge as it is."),
    ("{sand: deck, edges: [left]}", "Sand the left edge of the deck."),
    ("{sand: mast, with: block}", "Sand the mast with the sanding block."),
    ("{roll: body.blank, around: former, with: pva, from turn: 2, makes: body}",
     "Roll the blank for the body round the 2 in dowel, with white PVA glue from the second turn on."),
    ("{wrap: gauge, around: body, at: flush with rear, fit: tight}",
     "Wrap the fin guide round the body, flush with the rear end. It should sit tight."),
    ("{wrap: anchor, around: mast, makes: lug, with: pva}",
     "Wrap the anchor round the mast to make the launch lug, with white PVA glue."),
    ("{paint: [body, fin], with: spray, not: [motor_tube, cone.shoulder], coats: 2}",
     "Paint the body and the four fins with acrylic spray paint, in two coats. Keep the motor tube and the "
     "shoulder of "
     "the nose cone bare."),
]  # fmt: skip

MARK = [
    ("{mark: rear_line, onto: motor_tube, at: start of rear_seat, around: yes}",
     "Draw the rear line round the motor tube, 1/4 in (6.4 mm) from the rear end."),
    ("{mark: deep_line, onto: body, inside: end of mount, around: yes, with: pencil}",
     "Draw the deep line round the inside of the body, 2 1/2 in (63.5 mm) from the rear end, with the "
     "pencil."),
    ("{mark: front_axle, onto: deck, under: end of overhang, across: yes}",
     "Draw the front axle line across the underside of the deck, 30 mm (1 3/16 in) from the front edge."),
    ("{mark: mast_spot, onto: deck, top: 60 mm from front and 30 mm from left}",
     "Mark the mast spot on the top of the deck, 60 mm (2 3/8 in) from the front edge and 30 mm (1 3/16 in) "
     "from the "
     "left edge."),
    ("{mark: nose_centre, onto: cone, at: middle of base}",
     "Mark the nose centre on the nose cone, in the middle of its base."),
    # tail + root + lower = 1/4 + 2 1/4 + 1 1/2 = 4 in; + 1 1/2 = 5 1/2 in
    ("{mark: lug_line, onto: body, at: lug_seat, angle: 45 deg}",
     "Draw the lug line along the body, at 45°, from 4 in (102 mm) to 5 1/2 in (140 mm) from the rear end."),
    ("{mark: fin_ticks, onto: body, at: 1 in from rear, angle: evenly for fin, from: gauge}",
     "Mark the four fin ticks on the body by the fin guide, evenly round it, 1 in (25.4 mm) from the rear "
     "end."),
]  # fmt: skip

GLUE = [
    ("{glue: motor_tube, inside: thrust_seat, with: pva, for: thrust_ring}",
     f"{PUT} inside the motor tube, from 2 1/2 in (63.5 mm) to 2 3/4 in (69.8 mm) from the rear end."),
    ("{glue: motor_tube, outside: rear_seat, with: [pva, brush], for: rear_ring}",
     # 1/4 + 1/8 = 3/8 in = 9.525 mm
     f"{PUT} on the outside of the motor tube, from 1/4 in (6.4 mm) to 3/8 in (9.5 mm) from the rear end, "
     f"with the "
     "glue brush."),
    ("{glue: body, inside: mount, with: pva, for: motor_tube}",
     f"{PUT} inside the body, over the first 2 1/2 in (63.5 mm) from the rear end."),
    ("{glue: body, inside: where front_ring will sit, with: pva, for: front_ring}",
     f"{PUT} inside the body, where the front ring will sit."),
    ("{glue: fin, edge: root, with: pva, for: body}", f"{PUT} on the root edge of the four fins."),
    ("{glue: lug, edge: side, with: pva, for: body}", f"{PUT} along one side of the launch lug."),
    ("{glue: eye, edge: shank, with: pva, for: cone}", f"{PUT} on the shank of the screw eye."),
    ("{glue: anchor, face: inside, with: pva, for: tow}", f"{PUT} on the inside face of the anchor."),
    ("{glue: step, face: under, with: pva, for: deck}", f"{PUT} on the underside of the mast block."),
    ("{glue: mast, outside: 0 mm to 6 mm from foot, with: pva, for: deck}",
     # 6 mm = 0.236 in -> 1/4
     f"{PUT} round the mast, over the first 6 mm (1/4 in) from the foot."),
    ("{glue: mast, outside: 10 mm to 30 mm from foot, with: pva, for: deck}",
     f"{PUT} round the mast, from 10 mm (about 3/8 in) to 30 mm (1 3/16 in) from the foot."),
    ("{glue: deck, top: 1 in from front, with: pva, for: step}",
     f"{PUT} on the top of the deck, 1 in (25.4 mm) from the front edge."),
    ("{glue: fin, fillet to: body, with: pva}",
     "Run a fillet of white PVA glue where each of the four fins meets the body."),
    ("{glue: [rear_ring, front_ring], fillet to: motor_tube, with: pva}",
     "Run a fillet of white PVA glue where the rear ring and the front ring meet the motor tube."),
]  # fmt: skip

SEAT = [
    ("{insert: thrust_ring, into: motor_tube, from: front, to: thrust_seat}",
     "Push the thrust ring into the motor tube from the front end, until it fills the thrust seat (flush "
     "with the front "
     "end)."),
    # mount + seat + bay = 2 1/2 + 1/4 + 8 = 10 3/4 in; + 1/4 = 11 in
    ("{insert: front_ring, into: body, from: front, to: ring_seat, with: stick}",
     "Push the front ring into the body from the front end with the long stick, until it fills the ring "
     "seat, from 10 "
     "3/4 in (273 mm) to 11 in (279 mm) from the rear end."),
    ("{insert: motor_tube, into: body, from: rear, to: mount}",  # no name for a place: the end tells it
     "Push the motor tube into the body from the rear end, until it is flush with the rear end."),
    ("{insert: motor_tube, into: body, from: rear, leaving out: 1 in}",
     "Push the motor tube into the body from the rear end, leaving 1 in (25.4 mm) standing out."),
    ("{insert: motor_tube, into: body, from: rear, to: flush with rear}",
     "Push the motor tube into the body from the rear end, until it is flush with the rear end."),
    ("{insert: case, into: motor_tube, from: rear, to: meets thrust_ring, fit: sliding}",
     "Push the spent motor case into the motor tube from the rear end, until it meets the thrust ring. It "
     "should slide "
     "by hand."),
    ("{insert: cone, into: body, from: front, to: meets front, fit: loose}",
     "Push the nose cone into the body from the front end, as far as it will go. It should lie loose."),
    ("{slide: jig, over: body, from: rear, to: 1 in from rear, fit: sliding}",
     "Slide the fin jig over the body from the rear end, until it is 1 in (25.4 mm) from the rear end. It "
     "should slide "
     "by hand."),
    ("{slide: rear_ring, over: motor_tube, from: rear, to: rear_seat, hold: 3 min}",
     "Slide the rear ring over the motor tube from the rear end, until it covers the rear seat, from 1/4 in "
     "(6.4 mm) to "
     "3/8 in (9.5 mm) from the rear end, and hold it there for 3 min."),
    # 6 + 4 = 10 mm is 0.394 in: computed, so to the nearest 1/16 in
    ("{insert: axle, into: bearing, from: left, to: seat, fit: running}",
     "Push the two axles into the two bearings, one into each, from the left end, until about 3/8 in (10.0 "
     "mm) of each "
     "stands out at the left end. They should turn freely."),
    ("{slide: wheel 1 and 3, over: axle, from: left, to: wheel_l, fit: tight}",
     "Slide wheels 1 and 3 over the two axles, one on each, from the left end, until each is flush with the "
     "left end. "
     "They should sit tight."),
    ("{insert: mast, into: deck, through: step, from: top, to: flush with under}",
     "Push the mast through the mast block into the deck from the top, until it is flush with the "
     "underside."),
    ("{slide: sail, over: mast, through: [low, high], from: top, to: [10 mm from foot, 60 mm from foot], "
     "fit: sliding}",
     "Slide the sail over the mast from the top, until the low hole is 10 mm (about 3/8 in) and the high "
     "hole is 60 mm "
     "(2 3/8 in) from the foot. It should slide by hand."),
    ("{slide: sail, over: mast, through: [low, high], from: top, to: [10 mm from foot, 60 mm from head]}",
     "Slide the sail over the mast from the top, until the low hole is 10 mm (about 3/8 in) from the foot "
     "and the "
     "high hole is 60 mm (2 3/8 in) from the head."),
    ("{insert: mast, into: lug, from: rear, to: middle of lug, by: middle}",
     "Push the mast into the launch lug from the rear end, until its middle is at the middle of the launch "
     "lug."),
    ("{slide: clamp, over: body, from: rear, to: middle of body, by: middle}",
     "Slide the two clamps over the body from the rear end, until the middle of each is at the middle of the "
     "body."),
    ("{insert: motor_tube, into: body, from: rear, to: 1/4 in to 3 in from rear}",
     "Push the motor tube into the body from the rear end, until it lies from 1/4 in (6.4 mm) to 3 in (76.2 "
     "mm) from the "
     "rear end."),
]  # fmt: skip

ATTACH = [
    ("{attach: lug, onto: body, at: lug_seat}",
     "Set the launch lug on the body, from 4 in (102 mm) to 5 1/2 in (140 mm) from the rear end."),
    ("{attach: fin, onto: body, at: fin_root, angle: evenly, held by: jig}",
     "Set the four fins on the body, from 1/4 in (6.4 mm) to 2 1/2 in (63.5 mm) from the rear end, evenly "
     "round it, "
     "held by the fin jig."),
    ("{attach: anchor, onto: body, inside: 3 in to 4 in from rear, from: front, with: stick}",
     "Set the anchor on the inside of the body through the front end, from 3 in (76.2 mm) to 4 in (102 mm) "
     "from the "
     "rear end, with the long stick."),
    ("{attach: step, onto: deck, under: 30 mm from front and 60 mm from left, by: middle}",
     "Set the mast block on the underside of the deck, with its middle 30 mm (1 3/16 in) from the front "
     "edge and 60 mm "
     "(2 3/8 in) from the left edge."),
    ("{attach: lug, onto: body, at: 1/4 in from rear, angle: 90 deg, fit: tight}",
     "Set the launch lug on the body, 1/4 in (6.4 mm) from the rear end, at 90°. It should sit tight."),
    ("{screw: eye, into: cone, with: pencil}", "Turn the screw eye into the nose cone with the pencil."),
    ("{tie: tow, to: eye, knot: overhand}", "Tie the tow cord to the screw eye with an overhand knot."),
    ("{tie: tow, to: mast, at: 10 mm from head, knot: overhand}",
     "Tie the tow cord to the mast, 10 mm (about 3/8 in) from the head, with an overhand knot."),
    ("{tie: line, to: eye, knot: reef}", "Tie the eight shroud lines to the screw eye, each with a reef "
     "knot."),
    ("{tie: tow, to: [eye, mast]}", "Tie the tow cord to the screw eye and the mast."),
    ("{tape: gauge, to: body, at: rear, with: clear}", "Tape the fin guide to the body at the rear end with "
     "clear tape."),
    ("{tape: tow, to: body, at: flush with rear, with: clear}",
     "Tape the tow cord to the body, flush with the rear end, with clear tape."),
    ("{tape: tow, to: canopy, at: corner, with: clear}", "Tape the tow cord to the canopy at a corner with "
     "clear tape."),
    ("{attach: motor_tube, onto: body, at: rear_ring}", "Set the motor tube on the body at the rear ring."),
]  # fmt: skip

LOOK = [
    ("{verify: fin, angle: 90 deg ± 3 deg, else: Mend it.}",
     "Check that each of the four fins stands at 90°, give or take 3°."),
    ("{verify: axle, turns in: bearing, else: Mend it.}", "Check that each axle turns freely in its "
     "bearing."),
    ("{verify: cone, slides out of: body, else: Mend it.}", "Check that the nose cone slides out of the "
     "body."),
    ("{verify: mast, length: 140 mm ± 1 mm, else: Mend it.}",
     "Check that the mast is 140 mm (5 1/2 in) long, give or take 1 mm."),
    ("{verify: body, shows: a sharp edge, else: Mend it.}", "Check that the body shows a sharp edge."),
    ("{verify: mast, sticks out: rear, by: 1 in, else: Mend it.}",
     "Check that the mast sticks out at the rear end by 1 in (25.4 mm)."),
    ("{wait for: body, until: set}", "Let the body set."),
    ("{wait for: fin, until: cured}", "Let the four fins cure."),
    ("{wait for: body, until: dry, for: 20 min}", "Let the body dry for 20 min."),
    ("{wait for: body, for: 20 min}", "Let the body stand for 20 min."),
    ("{remove: case, from: motor_tube}", "Take the spent motor case from the motor tube."),
    ('{do: "Let the {handles} run down a ramp", handles: deck}', "Let the deck run down a ramp."),
    ('{do: "Pack the {puts} into the {into}", puts: [canopy, line], into: body.bay}',
     "Pack the canopy and shroud lines into the bay of the body."),
]  # fmt: skip


@pytest.mark.parametrize(("action", "expected"), (*CUT, *MAKE, *MARK, *GLUE, *SEAT, *ATTACH, *LOOK))
def test_a_sentence(action: str, expected: str) -> None:
    guide = guide_of(action)
    assert generated(last_action(guide), guide).text == expected


# What an action says also rests on what was done before it.
AFTER = [
    (["{mark: rear_line, onto: motor_tube, at: start of rear_seat, around: yes}",
      "{slide: rear_ring, over: motor_tube, from: rear, to: rear_line}"],
     "Slide the rear ring over the motor tube from the rear end, until its rear face is on the rear line."),
    (["{mark: front_line, onto: motor_tube, at: end of rear_seat, around: yes}",
      "{slide: front_ring, over: motor_tube, from: front, to: front_line}"],
     "Slide the front ring over the motor tube from the front end, until it meets the front line."),
    (["{mark: lug_line, onto: body, at: lug_seat}", "{attach: lug, onto: body, at: lug_line}"],
     "Set the launch lug on the body along the lug line."),
    (["{mark: mast_spot, onto: deck, top: 1 in from front}",
      "{attach: step, onto: deck, top: mast_spot, by: middle}"],
     "Set the mast block on the top of the deck, with its middle on the mast spot."),
    (["{mark: nose_centre, onto: cone, at: middle of base}",
      "{drill: cone, at: nose_centre, with: bit, depth: 1/2 in}"],
     "Drill a hole 1/2 in (12.7 mm) deep in the nose cone, at the nose centre, with the 1/16 in bit in a "
     "pin vice."),
    (["{mark: nose_centre, onto: cone, at: middle of base}", "{screw: eye, into: cone, at: nose_centre}"],
     "Turn the screw eye into the nose cone at the nose centre."),
    (["{mark: fin_ticks, onto: body, at: 1 in from rear, angle: evenly for fin}",
      "{mark: fin_lines, onto: body, at: fin_root, along: fin_ticks, with: [pencil, angle]}"],
     "Draw the four fin lines along the body through the fin ticks, from 1/4 in (6.4 mm) to 2 1/2 in (63.5 "
     "mm) from the "
     "rear end, with the pencil and the straight angle."),
    # four fins stand 90 deg apart: 45 deg lies halfway, 30 deg does not
    (["{attach: fin, onto: body, at: fin_root, angle: evenly for fin}",
      "{mark: lug_line, onto: body, at: lug_seat, angle: 45 deg}"],
     "Draw the lug line along the body, halfway between two fins (45° round), from 4 in (102 mm) to 5 1/2 "
     "in (140 mm) "
     "from the rear end."),
    (["{attach: fin, onto: body, at: fin_root, angle: evenly for fin}",
      "{attach: lug, onto: body, at: lug_seat, angle: 30 deg}"],
     "Set the launch lug on the body, from 4 in (102 mm) to 5 1/2 in (140 mm) from the rear end, 30° round "
     "from the "
     "first fin."),
    (["{insert: case, into: motor_tube, from: rear}", "{remove: case, from: motor_tube, towards: rear}"],
     "Take the spent motor case out of the motor tube at the rear end."),
    (["{slide: jig, over: body, from: rear}", "{remove: jig, from: body, towards: rear}"],
     "Take the fin jig off the body, over the rear end."),
    (["{roll: body.blank, around: former, makes: body}", "{remove: former, from: body, before: set}"],
     "Take the 2 in dowel out of the body before the glue sets."),
    (["{tape: gauge, to: body, at: rear, with: clear}", "{remove: gauge, from: body}"],
     "Take the fin guide off the body."),
    (["{insert: case, into: motor_tube, from: rear}",
      "{verify: case, sticks out: rear, by: 6.5 mm ± 1 mm, else: Mend it.}"],
     "Check that the spent motor case sticks out of the motor tube at the rear by 6.5 mm (1/4 in), give or "
     "take 1 mm."),
    (["{attach: fin, onto: body, at: fin_root}", "{verify: fin, angle: 90 deg ± 3 deg, else: Mend it.}"],
     "Check that each of the four fins stands at 90° to the body, give or take 3°."),
    (["{mark: cut_line, onto: paper, at: 1 in from left}", "{cut: tow, along: cut_line}"],
     "Cut a tow cord, 3 in (76.2 mm) long, from the carpet thread along the cut line."),
]  # fmt: skip


@pytest.mark.parametrize(("actions", "expected"), AFTER)
def test_a_sentence_after_others(actions: list[str], expected: str) -> None:
    guide = guide_of(*actions)
    assert generated(last_action(guide), guide).text == expected


ROUND_BODY = "repeat: fin\n        around: body"

IN_A_REPEAT = [
    ("repeat: fin", [], "{glue: fin, edge: root, with: pva, for: body}", f"{PUT} on the root edge of the "
     f"fin."),
    (ROUND_BODY, [], "{attach: fin, onto: body, at: fin_root, angle: evenly, held by: jig}",
     "Set the fin on the body, from 1/4 in (6.4 mm) to 2 1/2 in (63.5 mm) from the rear end, held by the "
     "fin jig."),
    (ROUND_BODY,
     ["{mark: fin_ticks, onto: body, at: 1 in from rear, angle: evenly for fin}",
      "{mark: fin_lines, onto: body, at: fin_root, along: fin_ticks}"],
     "{attach: fin, onto: body, at: fin_lines, angle: evenly, hold: 3 min}",
     "Set the fin on the body along its line and hold it there for 3 min."),
    ("repeat: line\n        around: canopy corners", [], "{tape: line, to: canopy, at: corner, with: tab}",
     "Tape the shroud line to the canopy at its corner with a corner tab."),
    ("repeat: bearing\n        at: [front_axle, back_axle]",
     ["{mark: front_axle, onto: deck, under: end of overhang, across: yes}",
      "{mark: back_axle, onto: deck, under: start of far_part, across: yes}"],
     "{glue: deck, under: its mark, with: pva, for: bearing}",
     f"{PUT} on the underside of the deck along the line of the bearing."),
    ("repeat: bearing\n        at: [front_axle, back_axle]",
     ["{mark: front_axle, onto: deck, under: end of overhang, across: yes}",
      "{mark: back_axle, onto: deck, under: start of far_part, across: yes}"],
     "{attach: bearing, onto: deck, under: its mark}",
     "Set the bearing on the underside of the deck along its line."),
]  # fmt: skip


@pytest.mark.parametrize(("repeat", "before", "action", "expected"), IN_A_REPEAT)
def test_a_sentence_in_a_repeat(repeat: str, before: list[str], action: str, expected: str) -> None:
    guide = guide_of(*before, action, repeat=repeat)
    assert generated(last_action(guide), guide).text == expected


def test_one_copy_has_its_number() -> None:
    guide = guide_of("{glue: fin, edge: root, with: pva, for: body}", repeat="repeat: fin")
    assert generated(last_action(guide), guide, 2).text == f"{PUT} on the root edge of fin 2."


@pytest.mark.parametrize(
    ("share", "what", "expected"),
    [
        ("class", "rear_ring", "For each builder, cut a rear ring from the fin board."),
        ("class", "[rear_ring, front_ring]", "For each builder, cut a rear ring and a front ring from the "
         "fin board."),
        ("class", "jig", "For every four builders, cut a fin jig from the fin board."),
        ("class", "[rear_ring, jig]", "Cut a rear ring and a fin jig from the fin board."),
        ("builder", "rear_ring", "Cut a rear ring from the fin board."),
    ],
)
def test_a_preparation_tells_for_how_many(share: str, what: str, expected: str) -> None:
    stage = f"{{stage: Before the class, who: teacher, per: {share}}}"
    guide = guide_of(f"{{cut: {what}, from: board}}", stage=stage)
    assert generated(last_action(guide), guide).text == expected


@pytest.mark.parametrize(
    ("until", "seconds", "glues", "expected"),
    [
        ("set", 1800, ["pva"], "Let the body set: at least 30 min (by the label of the white PVA glue)."),
        ("cured", 86400, ["pva"], "Let the body cure: at least 24 h (by the label of the white PVA glue)."),
        ("dry", 1800, ["spray", "pva"],
         "Let the body dry: at least 30 min (by the labels of the acrylic spray paint and the white PVA "
         "glue)."),
        ("set", 5400, [], "Let the body set: at least 1 h 30 min."),
    ],
)  # fmt: skip
def test_a_wait_tells_its_length(until: str, seconds: int, glues: list[str], expected: str) -> None:
    guide = guide_of(f"{{wait for: body, until: {until}}}")
    told = generated(last_action(guide), guide, wait=Fraction(seconds), glues=glues)
    assert told.text == expected


def test_every_phrase_is_used_and_every_phrase_asked_for_is_there() -> None:
    folder = Path(str(wording.__file__)).parent
    source = "".join(path.read_text(encoding="utf-8") for path in sorted(folder.glob("*.py")))
    asked = set(re.findall(r'\.say\(\s*"([^"]+)"', source))
    assert asked - set(PHRASES) == set()
    written = set(re.findall(r'"([^"\n]+)"', source))
    made = re.compile(r"(each )?(long|across|sized)|holes? through|(its|part) (line|mark|place)")
    assert {key for key in PHRASES if key not in written and not made.fullmatch(key)} == set()
