"""More changes of one sign in the dry run that no other test would notice: bounds that meet, what is passed
over, what comes second. The arithmetic stands beside each number; there is no outside source."""

from __future__ import annotations

from fractions import Fraction as F

import pytest
from msgspec.structs import replace

from builder.dryrun import needs as n
from builder.dryrun import run as running
from builder.dryrun.cutting import from_sheet
from builder.dryrun.effects import Take
from builder.dryrun.joining import thickness_round
from builder.dryrun.kinds import VERBS
from builder.dryrun.run import DryRun, run_all
from builder.dryrun.shape import axes_of
from builder.dryrun.work import Work
from builder.guide.model import Guide, Thing
from builder.guide.reader import read
from tests.checks.examples_of import whole
from tests.dryrun.built import built, guide_of, needs, of, steps, unmet

SHAPES = """# takes: unfinished
parts:
  square: {form: slab, source: bought, thickness: 2 mm, outline: {rectangle: 10 mm x 10 mm}}
  fin: {form: slab, source: bought, thickness: 2 mm, outline: {root: 20 mm, tip: 10 mm, span: 20 mm, square edge: rear}}
  strap: {form: strip, source: bought, length: 60 mm, width: 9 mm, thickness: 1 mm}
steps: []
"""  # noqa: E501


def shape(name: str) -> Thing:
    return guide_of(SHAPES).things[name]


# -- cutting ------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("along", "across", "thing", "count", "kerf", "left"),
    [
        # two of 10 x 10 and a cut of 1 between: 2 x 10 + 1 = 21, on either side of the sheet
        (21, 10, "square", 2, 1, [()]),
        (20, 10, "square", 2, 1, []),
        (10, 21, "square", 2, 1, [()]),
        (10, 20, "square", 2, 1, []),
        # and another cut before what is left: 30 - 21 - 1 = 8 by 10
        (30, 10, "square", 2, 1, [((10, 8),)]),
        (10, 30, "square", 2, 1, [((10, 8),)]),
        # three in two rows: the place of the fourth is left, 10 x 10, its cuts being made already
        (21, 21, "square", 3, 1, [((10, 10),)]),
        # two fins of root 20 and tip 10, head to tail: 20 + 10 = 30 by 20
        (30, 20, "fin", 2, 0, [()]),
        (29, 20, "fin", 2, 0, []),
    ],
)
def test_what_comes_out_of_a_sheet(
    along: int, across: int, thing: str, count: int, kerf: int, left: list[tuple[tuple[int, int], ...]]
) -> None:
    found = from_sheet(F(along), F(across), shape(thing), count, F(kerf))
    assert of(sorted(set(found))) == left


def test_what_is_cut_from_stock_of_no_known_size_is_taken_all_the_same() -> None:
    """How large the felt is cannot be read, which is told; that it is used is known."""
    own = (
        "materials:\n  felt: {form: sheet, size: lots, thickness: 1 mm}\n"
        "parts:\n  dot: {form: disc, of: felt, diameter: 9 mm}\n"
    )
    guide = _read(steps("tube, scissors", "{cut: dot, from: felt, with: scissors}", own=own))
    assert guide.findings != ()
    run = run_all(guide)[0]
    assert [each.material for each in run.frames[0].effects if isinstance(each, Take)] == ["felt"]


# -- what goes over, and past --------------------------------------------------------------------------

CLIP = """
materials:
  masking: {form: strip, length: 100 mm, width: 20 mm}
parts:
  clip: {form: clip, source: bought, length: 30 mm, width: 3 mm, thickness: 1 mm}
  collar: {form: ring, source: bought, outside: 30 mm, inside: 22.4 mm, length: 10 mm, slots: clip, play: PLAY}
"""  # noqa: E501


def over_a_clip(play: str, to: str) -> DryRun:
    return built(
        steps(
            "tube",
            "{tape: clip, to: tube, at: 40 mm from rear, with: masking}",
            f"{{slide: collar, over: tube, from: rear, to: {to}, fit: sliding}}",
            own=CLIP.replace("PLAY", play),
        )
    )


def _in_slot(need: n.Fits) -> bool:
    return "clip" in (need.inner, need.outer)


@pytest.mark.parametrize(
    ("play", "met"),
    # as little play as slides by hand: 0.05 mm
    [("0.04 mm", False), ("0.05 mm", True)],
)
def test_a_slot_has_play(play: str, met: bool) -> None:
    slots = [need for need in needs(over_a_clip(play, "50 mm from rear"), n.Fits) if _in_slot(need)]
    assert [need.met for need in slots] == [met]


@pytest.mark.parametrize(
    ("to", "passed"),
    # the clip lies from 40 mm to 40 + 30 = 70 mm, the collar is 10 mm long: what only touches is not passed
    [("29 mm from rear", 0), ("30 mm from rear", 0), ("31 mm from rear", 1), ("69 mm from rear", 1),
     ("70 mm from rear", 0)],
)  # fmt: skip
def test_a_ring_stands_over_a_clip_or_beside_it(to: str, passed: int) -> None:
    fits = [need for need in needs(over_a_clip("1 mm", to), n.Fits) if _in_slot(need)]
    assert len(fits) == passed


def test_what_goes_to_no_known_place_has_to_fit_all_the_same() -> None:
    """The plug is 20 mm thick, as the bore is wide: there is no play in it."""
    run = built(steps("tube, plug", "{insert: plug, into: tube, from: rear, to: nowhere, fit: sliding}"))
    assert unmet(run) == ["Named", "Fits"]


def test_how_wide_a_flat_thing_stands() -> None:
    """A slab that stands on a tube is as wide as it is thick; what lies on it, as it is wide."""
    assert of((thickness_round(shape("fin")), thickness_round(shape("strap")))) == (2, 9)


def test_what_sticks_out_stands_in_no_way_beyond_the_end() -> None:
    """The first plug sticks out by 5 mm, so that it takes -5 to 5 mm; the second comes from there and goes to
    0 to 10 mm. They would share a place; there is no way in the tube on which the first could stand."""
    own = "parts:\n  pin: {form: rod, source: bought, diameter: 20 mm, length: 10 mm, count: 2}\n"
    run = built(
        steps(
            "tube",
            "{insert: pin 1, into: tube, from: rear, leaving out: 5 mm, fit: tight}",
            "{insert: pin 2, into: tube, from: rear, to: flush with rear, fit: tight}",
            own=own,
        )
    )
    assert unmet(run) == ["Apart"]


DECK = """
parts:
  deck: {form: slab, source: bought, thickness: 2 mm, outline: {rectangle: 100 mm x 60 mm, edges: [left, front, right, back], along: left to right}}
  chip: {form: slab, source: bought, count: 2, thickness: 2 mm, outline: {rectangle: 10 mm x 10 mm}}
  straw: {form: tube, source: bought, length: 60 mm, inside: 4 mm, wall: 0.5 mm}
"""  # noqa: E501


@pytest.mark.parametrize(
    ("across", "apart"),
    # the first chip takes 20 to 30 mm across; the second, 10 mm wide too, touches it from either side
    [("10 mm", True), ("11 mm", False), ("29 mm", False), ("30 mm", True)],
)
def test_what_lies_side_by_side_may_touch(across: str, apart: bool) -> None:
    on = "{attach: chip %s, onto: deck, top: 30 mm from left and %s from front, fit: tight}"
    run = built(steps("tube", on % (1, "20 mm"), on % (2, across), own=DECK))
    assert unmet(run) == ([] if apart else ["Apart"])


def test_a_line_that_is_drawn_across_from_one_place_goes_the_whole_length() -> None:
    """20 mm from the front, from the left end (0) to the right one (100 mm)."""
    line = "{mark: line, onto: deck, top: 20 mm from front, across: yes}"
    mark = built(steps("tube, pencil, ruler", line, own=DECK)).end.marks["line"]
    assert of((mark.stretch, mark.across)) == ((0, 100), (20, 20))


def test_a_straw_lies_along_a_line_across_the_deck() -> None:
    """The line goes over the whole deck, from 0 to 60 mm; the straw, 5 mm thick and 60 mm long, lies on it
    from 50 - 2.5 to 50 + 2.5 mm and from 0 to 60 mm."""
    run = built(
        steps(
            "tube, pencil, ruler, pva, brush",
            "{mark: line, onto: deck, top: 50 mm from left, across: yes}",
            "{glue: deck, top: line, with: pva, for: straw}",
            "{attach: straw, onto: deck, top: line}",
            own=DECK,
        )
    )
    assert of(run.end.marks["line"].across) == (0, 60)
    seat = run.end.seats["straw"]
    assert of((seat.stretch, seat.across)) == ((F(95, 2), F(105, 2)), (0, 60))


@pytest.mark.parametrize(
    ("entry", "stretch"),
    # the shoulder, 30 mm from the tip on, is too thick for the bore of 20 mm and stops at the end: 70 mm of
    # 100 go in. From the rear it stops at 0, from the front at 100.
    [("rear", (-30, 70)), ("front", (30, 130))],
)
def test_a_shoulder_stops_at_the_end(entry: str, stretch: tuple[int, int]) -> None:
    own = """parts:
  cone:
    form: turned
    source: bought
    length: 100 mm
    zones: {outside from left: [head: 30 mm, neck: 70 mm]}
    diameters: {head: 30 mm, neck: 19.8 mm}
"""
    if entry == "front":
        own = own.replace("[head: 30 mm, neck: 70 mm]", "[neck: 70 mm, head: 30 mm]")
    run = built(
        steps(
            "tube", f"{{insert: cone, into: tube, from: {entry}, to: meets {entry}, fit: sliding}}", own=own
        )
    )  # noqa: E501
    assert of(run.end.seats["cone"].stretch) == stretch


@pytest.mark.parametrize(
    ("place", "bare"),
    # the plug is 10 mm long. Wholly inside, nothing goes over it; where it sticks out, something may
    [("flush with rear", False), ("flush with front", False)],
)
def test_nothing_goes_over_what_is_inside(place: str, bare: bool) -> None:
    end = place.rpartition(" ")[2]
    own = "parts:\n  cuff: {form: ring, source: bought, outside: 30 mm, inside: 20.4 mm, length: 2 mm}\n"
    over = "{slide: cuff, over: plug, from: front, to: flush with front, fit: sliding}"
    home = f"{{insert: plug, into: tube, from: {end}, to: {place}, fit: tight}}"
    run = built(steps("tube, plug", home, over, own=own))
    assert ("Bare" not in unmet(run)) is bare


@pytest.mark.parametrize("end", ["rear", "front"])
def test_something_goes_over_what_sticks_out(end: str) -> None:
    own = "parts:\n  cuff: {form: ring, source: bought, outside: 30 mm, inside: 20.4 mm, length: 2 mm}\n"
    out = f"{{insert: plug, into: tube, from: {end}, leaving out: 0.5 mm, fit: tight}}"
    over = "{slide: cuff, over: plug, from: front, to: flush with front, fit: sliding}"
    assert "Bare" not in unmet(built(steps("tube, plug", out, over, own=own)))


def test_an_adhesive_that_the_trade_does_not_know_fills_half_a_millimetre_on_each_side() -> None:
    """2 x 0.5 = 1 mm in all."""
    paste = "materials:\n  paste: {form: adhesive, adhesive: fish paste, amount: 5 mL, hazards: [], label: {working time: 5 min, set: 30 min, full cure: 24 h}}\n"  # noqa: E501
    run = built(
        steps(
            "tube, ring, brush",
            "{glue: tube, outside: rear_seat, with: paste, for: ring}",
            "{slide: ring, over: tube, from: rear, to: rear_seat}",
            own=paste,
        )
    )
    assert [need.high for need in needs(run, n.Fits)] == [1]


# -- glue -----------------------------------------------------------------------------------------------


def test_what_would_be_where_another_is_covers_nothing() -> None:
    """One fault: the second ring is in the first one's place. That it is not over its glue there either is
    the same fault, and is not asked."""
    size = "outside: 30 mm, inside: 22.4 mm, length: 10 mm"
    own = f"parts:\n  hoop: {{form: ring, source: bought, {size}, count: 2}}\n"
    run = built(
        steps(
            "tube, pva, brush",
            "{slide: hoop 1, over: tube, from: front, to: rear_seat, fit: sliding}",
            "{glue: tube, outside: front_seat, with: pva, for: hoop 2}",
            "{slide: hoop 2, over: tube, from: front, to: rear_seat}",
            own=own,
        )
    )
    assert needs(run, n.Covered) == []


MISLAID = """# takes: tube, ring, fin, nose, plug, pva, brush
steps:
  - id: before
    title: Lay the glue
    time: 1 min
    actions:
      - {glue: nose, outside: 0 mm to 10 mm from rear, with: pva, for: plug}
  - id: work
    title: Set the fin on
    time: 3 min
    actions:
      - GLUE
      - {attach: fin, onto: tube, at: 40 mm from rear, angle: 0 deg, hold: 2 min}
"""


@pytest.mark.parametrize(
    ("glue", "other"),
    [
        # on the fin itself, for another part: probably meant for the tube
        ("{glue: fin, edge: root, with: pva, for: ring}", "fin"),
        # on the tube where the fin goes, for another part (the fin stands from 40 to 60 mm)
        ("{glue: tube, outside: 45 mm to 55 mm from rear, with: pva, for: ring}", "tube"),
        # elsewhere on the tube, or on neither of the two
        ("{glue: tube, outside: rear_seat, with: pva, for: ring}", ""),
        ("{glue: plug, outside: 0 mm to 10 mm from rear, with: pva, for: ring}", ""),
    ],
)
def test_glue_of_the_step_that_was_laid_for_another_part(glue: str, other: str) -> None:
    """Glue of an earlier step is none, whatever it stands before."""
    run = built(MISLAID.replace("GLUE", glue))
    (held,) = (need for need in needs(run, n.Held) if not need.met)
    assert (held.other.host if held.other is not None else "") == other


def test_the_adhesive_that_was_probably_meant() -> None:
    """Of two adhesives the one that the guide lays for this part elsewhere; by its label the joint sets."""
    epoxy = "materials:\n  epoxy: {form: adhesive, adhesive: epoxy, amount: 5 mL, label: {working time: 4 min, set: 10 min, full cure: 20 h}}\n"  # noqa: E501
    run = built(
        steps(
            "tube, ring, pva, brush",
            "{slide: ring, over: tube, from: rear, to: rear_seat}",
            "{glue: tube, outside: front_seat, with: epoxy, for: ring}",
            own=epoxy,
        )
    )
    assert [joint.adhesive for joint in run.frames[0].after.joints] == ["epoxy"]


# -- places ---------------------------------------------------------------------------------------------


def test_a_place_against_what_is_not_made_yet() -> None:
    """The washer is known, so that the place is a place; only nobody has made it."""
    own = "parts:\n  washer: {form: ring, of: card, outside: 20 mm, inside: 5 mm}\n"
    insert = "{insert: plug, into: tube, from: rear, to: meets washer, fit: tight}"
    run = built(
        steps("tube, plug, card, scissors", insert, "{cut: washer, from: card, with: scissors}", own=own)
    )
    assert "Exists" in unmet(run)
    assert "Named" not in unmet(run)


@pytest.mark.parametrize(("end", "size"), [("left", "length"), ("front", "width")])
def test_a_station_on_a_deck_rests_on_the_size_that_it_is_counted_on(end: str, size: str) -> None:
    """The deck is 100 mm from left to right and 60 mm from front to back."""
    run = built(steps("tube, pencil, ruler", f"{{mark: spot, onto: deck, top: 200 mm from {end}}}", own=DECK))
    (need,) = (need for need in needs(run, n.Station) if not need.met)
    deck = guide_of(f"# takes: unfinished\n{DECK.lstrip()}steps: []\n").things["deck"]
    assert need.reads & (deck.reads("length") | deck.reads("width")) == deck.reads(size)


@pytest.mark.parametrize(
    ("zones", "along", "across"),
    [
        ("", ("left", "right"), ("front", "back")),
        ("zones: {lengthwise from front: [low: 10 mm, high: 50 mm]}", ("front", "back"), ("left", "right")),
        ("zones: {lengthwise from back: [high: 50 mm, low: 10 mm]}", ("back", "front"), ("left", "right")),
    ],
)
def test_which_way_is_lengthwise(zones: str, along: tuple[str, str], across: tuple[str, str]) -> None:
    own = f"parts:\n  board: {{form: slab, source: bought, thickness: 2 mm, outline: {{rectangle: 60 mm x 60 mm}}, {zones}}}\n"  # noqa: E501
    things = guide_of(f"# takes: unfinished\n{own}steps: []\n").things
    assert axes_of(things["board"]) == (along, across)


def test_a_way_that_names_no_edges_is_none() -> None:
    own = "outline: {rectangle: 60 mm x 40 mm, along: north to south}"
    board = f"board: {{form: slab, source: bought, thickness: 2 mm, {own}}}"
    found = _read(f"# takes: unfinished\nparts:\n  {board}\nsteps: []\n")
    assert found.findings != ()
    assert axes_of(found.things["board"]) == (("left", "right"), ("front", "back"))


def _read(text: str) -> Guide:
    return read({"guide.yml": whole(text).text}, "guide.yml", VERBS, "small")


# -- time and stock ------------------------------------------------------------------------------------


def test_paint_dries_while_other_things_are_done() -> None:
    """The label: dry 30 min. After 10 min of other work, 20 min are missing."""
    run = built(
        steps(
            "tube, spray, goggles",
            "{paint: tube, with: spray, takes: 0 s}",
            "{do: Tidy the bench, takes: 10 min}",
            "{wait for: tube, until: dry}",
            time="10 min",
        )
    )
    assert run.frames[-1].seconds == 20 * 60


@pytest.mark.parametrize("lost", ["former", "rolled"])
def test_what_is_nowhere_is_not_rolled(lost: str) -> None:
    """A former or a tube that a guide names and does not have: the run goes on without it."""
    roll = "{roll: rolled.blank, around: former, makes: rolled, with: pva}"
    guide = guide_of(steps("unfinished, card, former, pva, brush, rolled, tube", roll))
    there = {name: thing for name, thing in guide.things.items() if name != lost}
    run = run_all(replace(guide, things=there))[0]
    assert [seat.child for seat in run.end.seats.values()] == []
    assert [seat.child for seat in run_all(guide)[0].end.seats.values()] == ["former"]


def test_a_run_is_broken_off_after_so_many_needs(monkeypatch: pytest.MonkeyPatch) -> None:
    """It is looked at before each action: with all the needs of the first, the second is not begun."""
    text = steps("tube", *("{verify: tube, shows: a tube, else: Look again.}",) * 2, own="")
    whole_run = built(text)
    first = len(whole_run.frames[0].needs)
    assert first > 0
    monkeypatch.setattr(running, "MOST_NEEDS", first)
    assert (len(built(text).frames), built(text).cut_short) == (1, True)
    monkeypatch.setattr(running, "MOST_NEEDS", first + 1)
    assert (len(built(text).frames), built(text).cut_short) == (2, False)


def test_what_paint_is_put_on_with_is_there(monkeypatch: pytest.MonkeyPatch) -> None:
    """All that `with` names is looked for on the bench, as with every other action."""
    asked: list[str] = []
    real = Work.field_items

    def field_items(work: Work, field: str) -> list[str]:
        asked.append(field)
        return real(work, field)

    monkeypatch.setattr(Work, "field_items", field_items)
    built(steps("tube, spray, goggles", "{paint: tube, with: spray}"))
    assert asked == ["what", "with"]
