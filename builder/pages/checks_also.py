"""What the pages say of checks that share a file: the head of the file is about the first of them alone."""

from __future__ import annotations

from typing import NamedTuple


class Also(NamedTuple):
    """A title, and lines of a guide before and after they are mended (empty if no lines show it)."""

    title: str
    bad: str = ""
    good: str = ""


_SHUT = "- {insert: plug, into: tube, from: rear, to: flush with rear, fit: tight}\n"
_GLUED = (
    "- {glue: tube, outside: rear_seat, with: pva, for: ring}\n"
    "- {slide: ring, over: tube, from: rear, to: rear_seat}\n"
)
_RING_STEP = "- id: ring_cut\n  {}actions: [{{cut: ring, from: board, with: scissors}}]\n"
_RING_ON = "- id: ring_on\n  actions: [{slide: ring, over: tube, from: rear, to: rear_seat, fit: sliding}]"

ALSO = {
    "young-audience-ask": Also(
        "A glue or a paint that wants an adult beside young builders",
        "audience: {ages: 9-11, reading grade: 4}\n"
        "- id: ring_on          # with hot-melt glue\n  title: Slide the ring on",
        "- id: ring_on\n  title: Slide the ring on\n  who: adult helps",
    ),
    "count": Also(
        "More copies are used than there are",
        "tab: {form: strip, source: bought, count: 2}\n"
        "- repeat: line         # of which there are 3\n"
        "  actions: [{tape: line, to: tube, at: front, with: tab}]",
        "tab: {form: strip, source: bought, count: 3}",
    ),
    "rests-on-optional": Also(
        "A step rests on one that may be left out",
        _RING_STEP.format("optional: yes\n  ") + _RING_ON,
        _RING_STEP.format("") + _RING_ON,
    ),
    "other-route": Also(
        "A step uses what only another route makes",
        "- choose: way\n  a: [{id: ring_cut, actions: [{cut: ring, from: board, with: scissors}]}]\n  b: []\n"
        + _RING_ON,
        "- id: ring_cut         # before the choice\n  actions: [{cut: ring, from: board, with: scissors}]",
    ),
    "grain-unsaid": Also(
        "A part of grained stock does not say which way it runs",
        "board: {form: sheet, size: 100 mm x 40 mm, thickness: 2 mm}\n"
        "rib: {form: slab, of: board, outline: {rectangle: 90 mm x 30 mm}, grain: along length}",
        "board: {form: sheet, size: 100 mm x 40 mm, thickness: 2 mm, grain: along length}",
    ),
    "room-left": Also(
        "A part is longer than the room that is left for it",
        "rod: {form: rod, source: bought, diameter: 20 mm, length: 95 mm}   # the tube is 100 mm long\n"
        + _SHUT
        + "- {insert: rod, into: tube, from: front, to: flush with front, fit: tight}",
        "rod: {form: rod, source: bought, diameter: 20 mm, length: 90 mm}   # the plug takes 10 mm of it",
    ),
    "glue-swept": Also(
        "A part wipes off glue that was laid for another",
        "- {glue: tube, inside: rear_room, with: pva, for: plug}\n"
        "- {insert: inner, into: tube, from: rear, to: front_room, fit: tight}\n"
        "- {insert: plug, into: tube, from: rear, to: rear_room}",
        "- {glue: tube, inside: rear_room, with: pva, for: plug}\n"
        "- {insert: inner, into: tube, from: front, to: front_room, fit: tight}\n"
        "- {insert: plug, into: tube, from: rear, to: rear_room}",
    ),
    "out-of-reach": Also(
        "No hand and no tool reaches that far in",
        "brush: {name: glue brush, reach: 40 mm}\n"
        "- {glue: tube, inside: 45 mm to 55 mm from rear, with: pva, for: plug}",
        "brush: {name: glue brush, reach: 60 mm}",
    ),
    "mark-covered": Also(
        "A mark is used after it was covered",
        "- {mark: line, onto: tube, at: start of rear_seat, around: yes}\n"
        "- {slide: sleeve, over: tube, from: front, to: 5 mm from rear, fit: sliding}   # over the line\n"
        "- {slide: ring, over: tube, from: rear, to: line, fit: sliding}",
        "- {slide: sleeve, over: tube, from: front, to: 20 mm from rear, fit: sliding}",
    ),
    "glue-for-other": Also(
        "Glue is laid for one part, and another is placed",
        "- {glue: tube, outside: rear_seat, with: pva, for: other}\n"
        "- {slide: ring, over: tube, from: rear, to: rear_seat}",
        _GLUED.rstrip(),
    ),
    "joint-set": Also(
        "A joint is worked on before it has set",
        _GLUED + '- {do: "Twist the {handles} by its edge", handles: tube}',
        _GLUED + '- {wait for: ring, until: set}\n- {do: "Twist the {handles} by its edge", handles: tube}',
    ),
    "joint-steady": Also(
        "A joint is moved before it is steady",
        "- {attach: fin, onto: tube, at: 10 mm from rear, angle: 0 deg, hold: 1 min}   # it tacks in 2 min\n"
        "- {slide: ring, over: tube, from: front, to: front_seat}",
        "- {attach: fin, onto: tube, at: 10 mm from rear, angle: 0 deg, hold: 2 min}\n"
        "- {slide: ring, over: tube, from: front, to: front_seat}",
    ),
    "coat-cured": Also(
        "A joint is painted before it is cured",
        _GLUED + "- {wait for: ring, until: set}\n- {paint: tube, with: spray}",
        _GLUED + "- {wait for: ring, until: cured}\n- {paint: tube, with: spray}",
    ),
    "never-placed": Also(
        "A part that glue is laid for is never placed",
        "- {glue: tube, outside: rear_seat, with: pva, for: ring}   # and that is all of the ring",
        _GLUED.rstrip(),
    ),
    "finished-unsaid": Also(
        "The guide does not say what the finished kit is",
        "steps: [...]           # and no `finished`",
        "finished: {is: tube, holds: all}",
    ),
    "kit-unlisted": Also(
        "The finished kit carries a part that its list leaves out",
        "finished: {is: tube, holds: [plug]}   # a ring was put on too",
        "finished: {is: tube, holds: [plug, ring]}",
    ),
    "tool-left": Also(
        "A tool is left on the finished kit",
        "- {slide: jig, over: tube, from: rear, to: flush with rear, fit: sliding}\n"
        "- {remove: jig, from: tube, towards: rear}\n"
        "- {slide: jig, over: tube, from: rear, to: flush with rear, fit: sliding}   # the last time",
        "- {slide: jig, over: tube, from: rear, to: flush with rear, fit: sliding}\n"
        "- {remove: jig, from: tube, towards: rear}",
    ),
    "never-removed": Also(
        "A tool or a mask is put on and never taken off",
        "- {slide: jig, over: tube, from: rear, to: flush with rear, fit: sliding}",
        "- {slide: jig, over: tube, from: rear, to: flush with rear, fit: sliding}\n"
        "- {remove: jig, from: tube, towards: rear}",
    ),
    "drawing-size": Also("A drawing gives a size that is not between its ends"),
    "drawing-parts": Also("A drawing shows other parts than are there"),
    "drawing-words": Also("A drawing has lines or words that get lost"),
    "sealed": Also("A sealed revision is not as it was sealed"),
    "revision-number": Also(
        "Two different guides carry one number of a revision",
        "revision: {number: 2, dated: 2026-10-05}   # revision 2 is sealed, and other than this guide",
        "revision: {number: 3, dated: 2026-11-02}",
    ),
}
"""By name; every check that shares its file with others, but the one whose file it is."""
