"""Faults that are planted, each alone, in a copy of the rocket guide.

A row: what it is, the edits (old text, new text; the old text stands once in the guide), the check that
must lead, and the text of the line where it must point (after the edit). `routes` names the routes
concerned; empty for all.
"""

from __future__ import annotations

from typing import NamedTuple


class Fault(NamedTuple):
    """One planted fault and the finding that it must give."""

    name: str
    edits: tuple[tuple[str, str], ...]
    check: str
    line: str
    routes: tuple[str, ...] = ()
    thing: str = ""  # what the edit lies in, so that pairs can be told apart
    file: str = ""  # of a shared step


JIG, MARKS = "with the jig", "without a jig"

THRUST_GLUE = """      - glue: motor_tube
        inside: thrust_seat
        with: pva
        for: thrust_ring
        say: Run a bead of {with}, as wide as a pencil line, round the inside of the {motor_tube} {place}, for the {for}.
"""
THRUST_IN = "      - {insert: thrust_ring, into: motor_tube, from: front, to: thrust_seat}     # no `say`: the tool words it\n"
REAR_GLUE = "      - {glue: motor_tube, outside: rear_seat, with: pva, for: rear_ring}\n"
REAR_ON = "      - {slide: rear_ring, over: motor_tube, from: rear, to: rear_line}\n"
FRONT_GLUE = "      - {glue: motor_tube, outside: front_seat, with: pva, for: front_ring}\n"
FRONT_ON = "      - {slide: front_ring, over: motor_tube, from: front, to: front_line}\n"
HOME_GLUE = "      - {glue: body, inside: where rear_ring will sit, with: pva, for: motor_mount}\n"
HOME_IN = "      - {insert: motor_mount, into: body, from: rear, to: flush with rear}\n"
LUG_MARK = "      - {mark: lug_line, onto: body, at: lug_seat, angle: 45 deg}\n"
LUG_GLUE = "      - {glue: lug, edge: side, with: pva, for: body}\n"
LUG_ON = "      - {attach: lug, onto: body, at: lug_line}\n"
ANCHOR_CUT = "      - {cut: anchor, from: paper, with: scissors}\n"

FAULTS = (
    Fault("zone sum wrong by 1/16 in", (("lower: 1 1/2 in, lug_seat", "lower: 1 9/16 in, lug_seat"),),
          "zone-sum", "outside from rear: [tail: 1/4 in, fin_root", thing="body zones"),
    Fault("station beyond the part", (("from: rear, to: 1 in from rear, fit: sliding}", "from: rear, to: 13 in from rear, fit: sliding}"),),
          "station", "to: 13 in from rear", (JIG,), thing="jig_on"),
    Fault("two things in one place", ((FRONT_ON, FRONT_ON.replace("from: front, to: front_line", "from: rear, to: rear_line")),),
          "same-place", "slide: front_ring", thing="front_ring_on"),
    Fault("a clear way blocked", (("at: lug_seat, angle: 45 deg}", "at: lug_seat, angle: 90 deg}"),),
          "clear-way", "attach: lug", thing="lug_line"),
    Fault("ring larger than the tube", (("outside: body.inside - play, inside: motor_tube.over_seam", "outside: body.inside + play, inside: motor_tube.over_seam"),),
          "fit", "insert: motor_mount, into: body, from: rear, leaving out", thing="rear_ring"),
    Fault("ring so small that nothing holds it", (("thrust_ring: {form: ring, source: bought, outside: 0.710 in", "thrust_ring: {form: ring, source: bought, outside: 0.610 in"),),
          "fit", "insert: thrust_ring", thing="thrust_ring"),
    Fault("inner part longer than the room left", (("front_plug:  {name: front plug, form: rod, diameter: body.inside, length: 2 in}", "front_plug:  {name: front plug, form: rod, diameter: body.inside, length: 12 in}"),),
          "room-left", "insert: front_plug", thing="front_plug"),
    Fault("cut longer than the stock left", (("line:    {name: carpet thread, form: cord, length: 11 ft}", "line:    {name: carpet thread, form: cord, length: 10 ft}"),),
          "stock", "cut: shroud", thing="line"),
    Fault("stated remainder wrong", (("from: line, with: scissors, leaves: 4 in}", "from: line, with: scissors, leaves: 6 in}"),),
          "remainder", "cut: shroud", thing="shroud cut"),
    Fault("count used differs from count made", (("tab:         {name: corner tab, form: strip, count: 8", "tab:         {name: corner tab, form: strip, count: 7"),),
          "count", "tape: shroud", thing="tab"),
    Fault("part used before made", (
        (ANCHOR_CUT, ""), ("      - {cut: shock_cord, from: cord", "      - {cut: shock_cord, from: cord"),
        ("      - {fold: anchor, over: shock_cord}                                          # the cord's end is held between the folds\n",
         "      - {fold: anchor, over: shock_cord}\n" + ANCHOR_CUT)),
          "used-before-made", "glue: anchor, face: inside", thing="anchor_make"),
    Fault("part placed twice", ((LUG_ON, LUG_ON + LUG_ON.replace("lug_line}", "lug_line, fit: tight}")),),
          "placed-twice", "attach: lug, onto: body, at: lug_line, fit: tight", thing="lug_on twice"),
    Fault("part never used", (("  eye:         {name: screw eye", "  washer:      {form: ring, source: bought, outside: 1/2 in, inside: 1/8 in, length: 1/32 in}\n  eye:         {name: screw eye"),),
          "never-used", "washer:", thing="washer"),
    Fault("material listed and never used", (("  masking: {name: masking tape", "  ribbon:  {name: ribbon, form: cord, length: 2 ft}\n  masking: {name: masking tape"),),
          "never-used", "ribbon:", thing="ribbon"),
    Fault("tool used and not listed", (("  block:       {name: sanding block}\n", ""),),
          "unknown-name", "sand: fin", thing="block"),
    Fault("insert before glue", ((THRUST_GLUE + THRUST_IN, THRUST_IN + THRUST_GLUE),),
          "glue-order", "- glue: motor_tube", thing="thrust order"),
    Fault("glue too early", ((REAR_ON, "      - {do: Clear the table and wash the brush, takes: 20 min}\n" + REAR_ON),),
          "working-time", "slide: rear_ring", thing="rear_ring_on wait"),
    Fault("glue where the joint does not cover it", (("outside: rear_seat, with: pva, for: rear_ring", "outside: between, with: pva, for: rear_ring"),),
          "glue-covered", "outside: between", thing="rear_ring_on glue"),
    Fault("glue on a surface already inside", (
        ("  - id: mount_set\n    title: Let the body dry\n    actions:\n", "  - id: mount_set\n    title: Let the body dry\n    actions:\n      - {glue: motor_tube, outside: between, with: pva, for: lug}\n"),),
          "surface", "outside: between, with: pva, for: lug", thing="mount_set glue"),
    Fault("glue for one part and another placed", (("outside: rear_seat, with: pva, for: rear_ring", "outside: rear_seat, with: pva, for: lug"),),
          "glue-for-other", "for: lug}", thing="rear_ring_on for"),
    Fault("placed with neither glue nor fit", ((FRONT_GLUE, ""),),
          "held", "slide: front_ring", thing="front_ring_on glue"),
    Fault("joint loaded before cured", (("      - {wait for: eye, until: cured}\n", ""),),
          "joint-bears", "tie: shroud", thing="eye wait"),
    Fault("carried before steady", (("angle: evenly, hold: 3 min}", "angle: evenly}"),),
          "joint-steady", "attach: fin, onto: body, at: fin_lines", (MARKS,), thing="tack_fins hold"),
    Fault("painted before full cure", (("      - {wait for: lug, until: cured}", "      - {wait for: lug, until: set}"),),
          "coat-cured", "paint: [body, fin, lug, nose], with: spray, not: [motor_tube", thing="lug wait"),
    Fault("recoat inside the forbidden interval", (("      - {wait for: body, until: dry, if missed", "      - {wait for: body, for: 5 h, if missed"),),
          "recoat", "paint: [body, fin, lug, nose]", thing="coat_2 wait"),
    Fault("mark used before drawn", (
        (LUG_MARK + LUG_GLUE + LUG_ON, LUG_GLUE + LUG_ON + LUG_MARK),),
          "mark-order", "attach: lug", thing="lug_on order"),
    Fault("mark covered before use", (
        ("      - {mark: front_line, onto: motor_tube, at: start of front_seat, around: yes}\n",
         "      - {mark: front_line, onto: motor_tube, at: start of front_seat, around: yes}\n"
         "      - {mark: aim_line, onto: motor_tube, at: middle of rear_seat, around: yes}\n"),
        (FRONT_ON, FRONT_ON + "      - {mark: tail_line, onto: motor_tube, at: tail, along: aim_line}\n")),
          "mark-covered", "mark: tail_line", thing="aim_line"),
    Fault("mandrel left inside", (("      - {remove: dowel, from: tube, before: set}      # a rolled tube stands without its former\n", ""),),
          "former-out", "wait for: tube", thing="roll_tube", file="common/roll_tube.yml"),
    Fault("jig taken off before the joint is set", (
        ("          - {wait for: fin, until: set}\n          - {remove: fin_jig, from: body, towards: rear}", "          - {remove: fin_jig, from: body, towards: rear}"),),
          "jig-off", "remove: fin_jig", (JIG,), thing="jig_off wait"),
    Fault("step refers to what only the other route makes", (
        ("  - id: fillets\n    title: Run a fillet along each fin\n    time: 10 min\n    actions:\n",
         "  - id: fillets\n    title: Run a fillet along each fin\n    time: 10 min\n    actions:\n      - {mark: tail_mark, onto: body, at: tail, along: fin_ticks}\n"),),
          "mark-order", "along: fin_ticks}\n", (JIG,), thing="fillets mark"),
    Fault("routes that rejoin with different kits", (
        ("              - {attach: fin, onto: body, at: fin_lines, angle: evenly, hold: 3 min}", "              - {attach: fin, onto: body, at: 3/8 in to 2 5/8 in from rear, angle: evenly, hold: 3 min}"),
        ("          - {mark: fin_lines, onto: body, at: fin_root, along: fin_ticks, with: [pencil, angle]}\n", "")),
          "rejoin", "- choose: fin_alignment\n    jig:\n      - id: jig_on", thing="fin_lines place"),
    Fault("number typed in a say", (("as wide as a pencil line, round", "about 5 mm wide, round"),),
          "say-number", "say: Run a bead", thing="thrust say"),
    Fault("say with the opposite end", (("round the inside of the {motor_tube} {place}, for", "round the outside of the {motor_tube} {place}, for"),),
          "say-direction", "say: Run a bead", thing="thrust say"),
    Fault("a tool of a kind that nobody knows", (("  block:       {name: sanding block}\n", "  block:       {name: whirligig}\n"),),
          "hazard-unknown", "block:", thing="block"),
    Fault("a caution dropped without a reason", (("  - id: coat_1\n    title: First coat\n", "  - id: coat_1\n    title: First coat\n    without caution: spray\n"),),
          "caution-dropped", "without caution: spray", thing="coat_1"),
    Fault("a caution without one of its three parts", (
        ("  - id: coat_1\n    title: First coat\n", "  - id: coat_1\n    title: First coat\n    cautions: [{level: warning, hazard: The spray burns., avoidance: Keep it away from flames.}]\n"),),
          "caution-part", "cautions: [{level", thing="coat_1"),
    Fault("a warning hidden in a note", (("A skewed ring shows as a gap of light at its side.", "Careful, the blade is sharp and can cut a finger."),),
          "note-warning", "note: Careful", thing="thrust note"),
    Fault("protective gear not on the tool list", (("  goggles:     {name: eye protection, form: gear}                    # gear that a hazard asks for is on the list, or it is a finding\n", ""),),
          "gear-missing", "id: ", thing="goggles"),
    Fault("unknown reference", (("{glue: lug, edge: side, with: pva, for: body}", "{glue: lug, edge: side, with: pvaa, for: body}"),),
          "unknown-name", "with: pvaa", thing="lug_on with"),
    Fault("duplicate key", (("  brush:       {name: glue brush, reach: 4 in}", "  brush:       {name: glue brush, reach: 4 in, reach: 5 in}"),),
          "duplicate-key", "brush:", thing="brush"),
    Fault("alias", (
        ("diameter: 23/32 in, length: 6 in, one per: 4 builders}", "diameter: 23/32 in, length: 6 in, one per: &share 4 builders}"),
        ("comes off towards: rear, one per: 4 builders}", "comes off towards: rear, one per: *share}")),
          "alias", "one per: *share", thing="fin_jig share"),
    Fault("missing unit", (("anchor:      {form: strip, of: paper, size: 3 in x 1 in", "anchor:      {form: strip, of: paper, size: 3 x 1 in"),),
          "number", "anchor:", thing="anchor"),
    Fault("second glue bead one step later", (
        (HOME_GLUE, ""),
        ("  - id: mount_set\n    title: Let the body dry\n    actions:\n", "  - id: mount_set\n    title: Let the body dry\n    actions:\n" + HOME_GLUE)),
          "glue-order", "where rear_ring will sit", thing="mount_home glue"),
)  # fmt: skip
