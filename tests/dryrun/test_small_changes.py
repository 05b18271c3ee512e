"""What one changed sign in the code of the dry run would do to a bench: bounds that meet, the second of two,
what lies beside. Each test stands for a change that no other would notice."""

from __future__ import annotations

from fractions import Fraction as F

import pytest

from builder.checks.judge import check
from builder.dryrun import bench, effects
from builder.dryrun import needs as n
from builder.dryrun.kinds import KINDS, VERBS, Kind
from builder.dryrun.run import DryRun, Frame, run_all
from builder.dryrun.shape import axes_of, length_of, outside_of
from builder.guide.model import Guide
from builder.guide.reader import read
from tests.checks.examples_of import whole
from tests.dryrun.built import built, guide_of, needs, of, steps, unmet


def read_of(text: str) -> Guide:
    """A guide in which something may be wrong."""
    return read({"guide.yml": whole(text).text}, "guide.yml", VERBS, "built")


# -- verify, wait -----------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("stated", "met"),
    [
        # the plug stands out by 6.5 mm
        ("6.5 mm", True),
        ("6.4 mm", False),
        ("5.5 mm ± 1 mm", True),
        ("5.4 mm ± 1 mm", False),
        ("7.5 mm ± 1 mm", True),
        ("7.6 mm ± 1 mm", False),
    ],
)
def test_a_stated_measure_has_its_tolerance(stated: str, met: bool) -> None:
    run = built(
        steps(
            "tube, plug",
            "{insert: plug, into: tube, from: rear, leaving out: 6.5 mm, fit: tight}",
            f"{{verify: plug, sticks out: rear, by: {stated}, else: Push it in.}}",
        )
    )
    (need,) = needs(run, n.Measures)
    assert need.met is met


def test_a_wait_that_says_nothing_takes_no_time() -> None:
    """Neither the clock nor the hands move, forwards or back."""
    text = whole(steps("tube", "{wait for: tube}")).text
    (frame,) = run_all(read({"guide.yml": text}, "guide.yml", VERBS, "built"))[0].frames
    assert of((frame.seconds, frame.after.clock)) == (0, 0)


@pytest.mark.parametrize(
    ("stated", "met"),
    [("90 deg", True), ("87 deg ± 3 deg", True), ("86 deg ± 3 deg", False), ("80 deg", False)],
)
def test_what_is_set_on_stands_square(stated: str, met: bool) -> None:
    fin = "{attach: fin, onto: tube, at: 40 mm from rear, angle: 0 deg, fit: tight}"
    run = built(steps("tube, fin", fin, f"{{verify: fin, angle: {stated}, else: Bend it.}}"))
    assert [need.met for need in needs(run, n.Measures)] == [met]


# -- tape -------------------------------------------------------------------------------------------

TAPE = (
    "materials:\n  tape: {form: strip, length: 100 mm, width: 20 mm}\n"
    "parts:\n  tab: {form: strip, source: bought, length: 20 mm, width: 10 mm, thickness: 0.1 mm}\n"
    "  pin: {form: rod, source: bought, count: 2, diameter: 3 mm, length: 30 mm}\n"
    "  flag: {form: strip, source: bought, length: 30 mm, width: 10 mm, thickness: 1 mm}\n"
)


def test_what_is_taped_is_not_placed_already_and_neither_is_the_tape() -> None:
    once = "{tape: pin 1, to: tube, at: 10 mm from rear, with: tab}"
    run = built(steps("tube", once, once, own=TAPE))
    assert [need.child for need in needs(run, n.Free) if not need.met] == ["pin 1", "tab"]
    run = built(steps("tube", once, once.replace("pin 1", "pin 2"), own=TAPE))
    assert [need.child for need in needs(run, n.Free) if not need.met] == ["tab"]


def test_only_what_is_flat_lies_along_what_it_is_taped_to() -> None:
    """A flag of 30 mm lies along the tube from 10 mm on; how a pin lies nobody says."""
    run = built(
        steps(
            "tube",
            "{tape: pin 1, to: tube, at: 10 mm from rear, with: tape}",
            "{tape: flag, to: tube, at: 10 mm from rear, with: tape}",
            own=TAPE,
        )
    )
    seats = run.frames[-1].after.seats
    assert of((seats["pin 1"].stretch, seats["flag"].stretch)) == (None, (10, 40))


# -- glue -------------------------------------------------------------------------------------------


def test_glue_all_along_a_part_is_covered_from_its_first_millimetre() -> None:
    """The plug is 10 mm long and lies in the tube with all of it."""
    run = built(
        steps(
            "tube, plug, pva, brush",
            "{glue: plug, outside: 0 mm to 10 mm from rear, with: pva, for: tube}",
            "{insert: plug, into: tube, from: rear, to: flush with rear}",
        )
    )
    (need,) = needs(run, n.Covered)
    assert of((need.met, need.lo, need.hi)) == (True, 0, 10)
    assert of(need.wet.stretch) == (0, 10)


def test_the_glue_under_a_wrapped_band_is_judged_too() -> None:
    """The band is 20 mm wide and lies from 10 mm on, so it covers glue from 10 to 30 mm."""
    run = built(
        steps(
            "tube, pva, brush",
            "{glue: tube, outside: 10 mm to 30 mm from rear, with: pva, for: band}",
            "{wrap: band, around: tube, at: 10 mm from rear}",
            own="parts:\n  band: {form: strip, source: bought, size: 69 mm x 20 mm, thickness: 1 mm}\n",
        )
    )
    assert [need.met for need in needs(run, n.Covered)] == [True]


def test_a_part_that_is_glued_part_way_needs_no_more_glue_to_go_home() -> None:
    run = built(
        steps(
            "tube, plug, pva, brush",
            "{glue: tube, inside: 0 mm to 5 mm from rear, with: pva, for: plug}",
            "{insert: plug, into: tube, from: rear, leaving out: 5 mm}",
            "{insert: plug, into: tube, from: rear, to: flush with rear}",
        )
    )
    assert [need.met for need in needs(run, n.Held)] == [True, True]


def test_glue_for_what_sits_on_a_part_that_is_in_place_comes_too_late() -> None:
    """The fin is set on the ring, and the ring is on the tube: the fin has met the tube."""
    run = built(
        steps(
            "tube, ring, fin, pva, brush",
            "{slide: ring, over: tube, from: rear, to: rear_seat, fit: sliding}",
            "{attach: fin, onto: ring, at: 0 mm from rear, angle: 0 deg, fit: tight}",
            "{glue: tube, outside: middle, with: pva, for: fin}",
        )
    )
    assert [need.met for need in needs(run, n.NotYet)] == [False]


def test_the_thicker_of_two_rings_must_go_in_though_the_glue_is_for_the_other() -> None:
    """Rings of 19.8 and 20.4 mm on one core go into a tube of 20 mm; only the first is glued there."""
    rings = (
        "parts:\n  core: {form: tube, source: bought, length: 60 mm, inside: 8 mm, wall: 1 mm}\n"
        "  slim: {form: ring, source: bought, outside: 19.8 mm, inside: 10.2 mm, length: 5 mm}\n"
        "  wide: {form: ring, source: bought, outside: %s, inside: 10.2 mm, length: 5 mm}\n"
    )
    acts = (
        "{slide: slim, over: core, from: front, to: flush with front, fit: sliding}",
        "{slide: wide, over: core, from: rear, to: flush with rear, fit: sliding}",
        "{glue: tube, inside: where slim will sit, with: pva, for: core}",
        "{insert: core, into: tube, from: rear, to: flush with rear}",
    )
    for outside, met in (("20 mm", True), ("20.4 mm", False)):
        run = built(steps("tube, pva, brush", *acts, own=rings % outside))
        fits = {need.inner: need.met for need in needs(run.frames[-1], n.Fits)}
        assert fits == {"slim": True, "wide": met}


# -- places -----------------------------------------------------------------------------------------

DECK = (
    "parts:\n  deck: {form: slab, source: bought, thickness: 2 mm, outline: {rectangle: 100 mm x 60 mm, "
    "edges: [left, front, right, back]}}\n"
    "  block: {form: slab, source: bought, count: 2, thickness: 5 mm, outline: {rectangle: 20 mm x 20 mm}}\n"
)


@pytest.mark.parametrize(
    ("along", "across", "free"),
    [
        # the first lies from 20 to 40 mm along and from 10 to 30 mm across; the second is 20 mm wide too
        (30, 40, True),  # beside it, touching
        (30, 39, False),
        (50, 20, True),  # behind it, touching
        (49, 20, False),
        (50, 40, True),
        (49, 39, False),
    ],
)
def test_two_blocks_on_a_deck(along: int, across: int, free: bool) -> None:
    place = "{attach: block %s, onto: deck, top: %s mm from left and %s mm from front, by: middle, fit: %s}"
    acts = (place % (1, 30, 20, "tight"), place % (2, along, across, "tight"))
    run = built(steps("tube", *acts, own=DECK))
    assert ("Apart" not in unmet(run)) is free
    assert unmet(run) == ([] if free else ["Apart"])
    seat = run.frames[0].after.seats["block 1"]
    assert of((seat.stretch, seat.across)) == ((20, 40), (10, 30))


def test_a_station_of_nought_is_the_end_itself() -> None:
    run = built(
        steps(
            "tube, fin, pencil, ruler",
            "{mark: line, onto: tube, at: 0 mm from rear, around: yes}",
            "{attach: fin, onto: tube, at: 0 mm from rear, angle: 0 deg, fit: tight}",
        )
    )
    assert of(run.frames[-1].after.marks["line"].stretch) == (0, 0)
    assert of(run.frames[-1].after.seats["fin"].stretch) == (0, 20)
    assert unmet(run) == []


@pytest.mark.parametrize(
    ("length", "lo", "stays"), [("100.5 mm", -0.5, False), ("100 mm", 0, True), ("99.5 mm", 0.5, True)]
)
def test_a_rod_pushed_in_from_the_front_may_not_stand_out(length: str, lo: float, stays: bool) -> None:
    """A tube of 100 mm, and a rod that is flush with its front."""
    run = built(
        steps(
            "tube",
            "{insert: rod, into: tube, from: front, to: flush with front, fit: tight}",
            own=f"parts:\n  rod: {{form: rod, source: bought, diameter: 20 mm, length: {length}}}\n",
        )
    )
    assert of(run.frames[-1].after.seats["rod"].stretch) == (lo, 100)
    assert ("Apart" not in unmet(run)) is stays


def test_a_part_that_stands_out_at_the_near_end_is_not_on_its_host() -> None:
    """Its middle at 2 mm from the rear, the fin of 20 mm begins 8 mm before the tube."""
    attach = "{attach: fin, onto: tube, at: 2 mm from rear, by: middle, angle: 0 deg, fit: tight}"
    run = built(steps("tube, fin", attach))
    (need,) = [need for need in needs(run, n.Station) if not need.met]
    assert of((need.lo, need.hi, need.length)) == (-8, 12, 100)


def test_what_goes_in_without_a_place_goes_in_just_so_far() -> None:
    """From the rear up to its own length; from the front the same; into a zone, up to where that begins."""
    for way, seat in (("from: rear", (0, 10)), ("from: front", (90, 100)), ("to: bay", (10, 20))):
        run = built(steps("tube, plug", f"{{insert: plug, into: tube, {way}, fit: tight}}"))
        assert of(run.frames[0].after.seats["plug"].stretch) == seat


def test_what_is_said_to_be_in_itself_ends() -> None:
    """The core goes into the tube, then the tube into the core; what is done to them then comes to an end."""
    own = ("parts:\n  core: {form: tube, source: bought, length: 60 mm, inside: 18 mm, wall: 1 mm}\n"
           "  pin: {form: rod, source: bought, diameter: 18 mm, length: 5 mm}\n")  # fmt: skip
    acts = (
        "{insert: core, into: tube, from: rear, to: flush with rear, fit: tight}",
        "{insert: tube, into: core, from: rear, to: flush with rear, fit: tight}",
        "{insert: pin, into: core, from: front, to: flush with front, fit: tight}",
        "{paint: [core, pin, tube], with: spray}",
    )
    guide = guide_of(steps("tube, spray", *acts, own=own))
    assert len(run_all(guide)[0].frames) == 4
    assert check(guide)


def test_nothing_goes_over_what_is_deep_inside_another() -> None:
    own = (
        "parts:\n  core: {form: rod, source: bought, diameter: 20 mm, length: 40 mm}\n"
        "  sleeve: {form: ring, source: bought, outside: 24 mm, inside: 20.4 mm, length: 5 mm}\n"
    )
    inside = "{insert: core, into: tube, from: rear, to: 30 mm from rear, fit: tight}"
    over = "{slide: sleeve, over: core, from: front, to: 5 mm from front, fit: sliding}"
    assert "Bare" in unmet(built(steps("tube", inside, over, own=own)))
    assert unmet(built(steps("tube", over, own=own))) == []


def test_the_middle_of_a_part() -> None:
    """Half of 100 along and half of 60 across a deck; half of 100 along a tube."""
    run = built(
        steps(
            "tube, pencil, ruler",
            "{mark: spot, onto: deck, top: middle of deck}",
            "{mark: line, onto: tube, at: middle of tube, around: yes}",
            own=DECK,
        )
    )
    marks = run.frames[-1].after.marks
    assert of((marks["spot"].stretch, marks["spot"].across)) == ((50, 50), (30, 30))
    assert of(marks["line"].stretch) == (50, 50)


def test_the_middle_of_what_lies_on_a_deck() -> None:
    """A block from 20 to 40 mm along and from 10 to 30 mm across has its middle at 30 and 20 mm."""
    place = "{attach: block %s, onto: deck, top: %s and 20 mm from front, by: middle, fit: tight}"
    run = built(
        steps(
            "tube, pencil, ruler",
            place % (1, "30 mm from left"),
            place % (2, "70 mm from left"),
            "{mark: spot, onto: deck, top: middle of block}",
            own=DECK,
        )
    )
    spot = run.frames[-1].after.marks["spot"]
    assert of((spot.stretch, spot.across)) == ((30, 30), (20, 20))


@pytest.mark.parametrize(
    "where", ["", "leaving out: 2 mm, ", "to: flush with rear, ", "to: 5 mm from rear, "]
)
@pytest.mark.parametrize("unknown", ["pipe", "pin"])
def test_what_has_no_known_length_is_pushed_in_all_the_same(where: str, unknown: str) -> None:
    """That the length cannot be worked out is the one fault; where the pin sits then is not known."""
    lengths = {"pipe": "60 mm", "pin": "10 mm", unknown: "no_number"}
    pipe = f"{{form: tube, source: bought, length: {lengths['pipe']}, inside: 8 mm, wall: 1 mm}}"
    pin = f"{{form: rod, source: bought, length: {lengths['pin']}, diameter: 8 mm}}"
    own = f"parts:\n  pipe: {pipe}\n  pin: {pin}\n"
    guide = read_of(steps("tube", f"{{insert: pin, into: pipe, from: rear, {where}fit: tight}}", own=own))
    assert [f.check for f in guide.findings] == ["unknown-name"]
    run = run_all(guide)[0]
    assert run.frames[-1].after.seats["pin"].host == "pipe"
    assert unmet(run) == []


def test_what_is_set_at_an_unknown_place_stands_in_no_way() -> None:
    """The misspelt place is one fault; where the stop stands then is not known, so it blocks no rod."""
    straw = "{form: tube, source: bought, length: 40 mm, inside: 4 mm, wall: 0.5 mm, clear way: 3 mm}"
    text = steps(
        "tube",
        "{attach: straw, onto: deck, top: 30 mm from left and 30 mm from front, by: middle, fit: tight}",
        "{attach: block, onto: deck, top: no_such_spot, by: middle, fit: tight}",
        own=DECK.replace("count: 2, ", "") + f"  straw: {straw}\n",
        time="2 min",
    )
    names = [each.check for f in check(read_of(text)) for each in (f, *f.follows)]
    assert "unknown-place" in names
    assert "clear-way" not in names


def test_a_straw_of_unknown_length_is_set_on_its_line_all_the_same() -> None:
    """That its length cannot be worked out is the one fault; where it lies is then not known."""
    text = steps(
        "tube, pencil, ruler",
        "{mark: line, onto: deck, top: 30 mm from left, across: yes}",
        "{attach: straw, onto: deck, top: line, fit: tight}",
        own=DECK + "  straw: {form: tube, source: bought, length: no_number, inside: 4 mm, wall: 0.5 mm}\n",
    )
    guide = read_of(text)
    assert [f.check for f in guide.findings] == ["unknown-name"]
    seat = run_all(guide)[0].frames[-1].after.seats["straw"]
    assert (seat.host, seat.stretch) == ("deck", None)


# -- shapes -----------------------------------------------------------------------------------------

SHAPES = """# takes: unfinished, card
parts:
  anchor: {form: strip, of: card, size: 60 mm x 20 mm, folds to: 20 mm x 20 mm}
  deck: {form: slab, source: bought, thickness: 2 mm, outline: {rectangle: 100 mm x 60 mm, edges: [left, front, right, back], along: front to back}}
  spindle: {form: turned, source: bought, length: 100 mm, zones: {outside from left: [thin: 40 mm, thick: 60 mm]}, diameters: {thin: 10 mm, thick: 30 mm}}
steps: []
"""  # noqa: E501


def test_a_part_is_as_long_as_it_is_until_it_is_folded() -> None:
    anchor = guide_of(SHAPES).things["anchor"]
    assert of(length_of(anchor)) == 60
    assert of(length_of(anchor, True)) == 20


def test_a_writer_says_which_way_is_lengthwise() -> None:
    assert axes_of(guide_of(SHAPES).things["deck"]) == (("front", "back"), ("left", "right"))
    turned = guide_of(SHAPES.replace("front to back", "right to left")).things["deck"]
    assert axes_of(turned) == (("right", "left"), ("front", "back"))


def test_a_stretch_is_as_thick_as_what_it_holds_and_not_as_what_it_touches() -> None:
    spindle = guide_of(SHAPES).things["spindle"]
    stretches = ((0, 40), (40, 100), (39, 41))
    assert of([outside_of(spindle, F(lo), F(hi)) for lo, hi in stretches]) == [10, 30, 30]


# -- the tables -------------------------------------------------------------------------------------

# kind: what its verb cannot do without, besides what it is done to
NEEDED = {
    "cut": "", "fold": "", "drill": "at", "sand": "", "roll": "around", "mark": "onto", "glue": "with",
    "seat": "", "attach": "onto", "screw": "into", "tie": "to", "tape": "to, with", "paint": "with",
    "remove": "from", "wait": "", "verify": "", "do": "",
}  # fmt: skip
# kind: what a sentence need not say, since no hand does it: a remainder, a fit, a size that is bought
UNTOLD = {
    "cut": "leaves", "drill": "size", "roll": "fit", "mark": "mark", "seat": "by, fit",
    "attach": "by, fit", "paint": "coats, not", "remove": "before", "wait": "if missed", "verify": "else",
}  # fmt: skip


@pytest.mark.parametrize("kind", KINDS, ids=lambda kind: kind.name)
def test_what_a_kind_of_action_needs_and_what_must_be_told(kind: Kind) -> None:
    needed = [field.name for field in kind.fields[1:] if field.required]
    assert kind.fields[0].required
    assert ", ".join(needed) == NEEDED[kind.name]
    untold = sorted(field.name for field in kind.fields if not field.told)
    assert ", ".join(untold) == UNTOLD.get(kind.name, "")


def records() -> list[type]:
    """Every record of the bench, of the needs and of the effects."""
    found: list[type] = [n.Need, *n.Need.__subclasses__(), DryRun, Frame]
    for room in (bench, effects):
        types = [each for each in vars(room).values() if isinstance(each, type)]
        found += [each for each in types if hasattr(each, "__struct_config__")]
    return list(dict.fromkeys(found))


@pytest.mark.parametrize("record", records(), ids=lambda record: record.__name__)
def test_what_is_recorded_cannot_be_changed(record: type) -> None:
    """Frames share their benches, so a bench that changed would change the past."""
    assert record.__struct_config__.frozen  # type: ignore[attr-defined]


@pytest.mark.parametrize("need", n.Need.__subclasses__(), ids=lambda need: need.__name__)
def test_a_need_is_made_by_the_names_of_its_fields(need: type[n.Need]) -> None:
    with pytest.raises(TypeError, match="positional"):
        need(None, True)  # type: ignore[arg-type, call-arg]
