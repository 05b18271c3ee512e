"""Faults of numbers: one finding for each, at the number or at the part of it that is wrong."""

from __future__ import annotations

import pytest

from builder.guide.numbers import MOST_CHAIN
from tests.guide.planting import Case, case, misplaced, planted, reading, spots, texts_of

KIT, MAIN = texts_of("marble-run")

CASES = (
    # what a writer types for a number, and may not
    case("a space missing in a mixed number", "length: 80 mm}", "length: ▸31/4 in}", "number"),
    case("a fraction that is not reduced", "length: 80 mm}", "length: ▸2/4 in}", "number"),
    case("hours or minutes", "    time: 12 min", "    time: ▸1:30", "number"),
    case("a decimal comma", "thickness: 3 mm}\n  string", 'thickness: "▸3,5 mm"}\n  string', "number"),
    case("a unit missing", "    time: 12 min", "    time: ▸12", "number"),
    case("a unit missing in a size", "board: {form: sheet, size: 210 mm x",
         "board: {form: sheet, size: ▸210 x", "number"),
    case("a unit that nobody knows", "length: 80 mm}", "length: 80 ▸mn}", "number"),
    case("a length where a time belongs", "    time: 12 min", "    time: ▸3 in", "number"),
    case("a time where a length belongs", "length: 80 mm}", "length: ▸80 min}", "number"),
    case("a sum that comes out as something else", "inside: tube.outside + gap,",
         "inside: ▸tube.outside * gap,", "number"),
    case("a length added to a time", "inside: tube.outside + gap,", "inside: tube.outside ▸+ pva.set,",
         "number"),
    case("a division by nothing", "gap: play * 2", "gap: play ▸/ 0", "number"),
    case("a bracket left open", "gap: play * 2", "gap: ▸(play * 2", "number"),
    case("negative stock", "string: {form: cord, length: 2 m}", "string: {form: cord, length: ▸-2 m}",
         "number"),
    case("a negative amount", "amount: 10 mL", "amount: ▸-10 mL", "number"),
    case("a sum that comes out below zero", "rest: tube.length - tube.mouth",
         "rest: ▸tube.mouth - tube.length", "number"),
    case("a tolerance below zero", "length: 200 mm ± 1 mm", "length: 200 mm ± ▸-1 mm", "number"),
    case("a tolerance that is a time", "length: 200 mm ± 1 mm", "length: 200 mm ± ▸1 min", "number"),
    case("a tolerance without its sign", "cut tolerance: ± 1 mm", "cut tolerance: ▸1 mm", "number"),
    case("a ruler without steps", "finest: 1 mm}", "finest: ▸0 mm}", "number"),
    case("a size of one length", "size: 210 mm x 297 mm, thickness: 3 mm", "size: ▸210 mm, thickness: 3 mm",
         "number"),
    case("a size of three lengths", "size: 210 mm x 297 mm, thickness: 3 mm",
         "size: ▸210 mm x 297 mm x 3 mm, thickness: 3 mm", "number"),
    case("a remainder of three lengths", "leaves: 140 mm}", "leaves: ▸1 mm x 2 mm x 3 mm}", "number"),
    case("a window that does not say which", 'recoat: "up to 1 h or from 48 h"', "recoat: ▸1 h", "number"),
    case("an angle that is a length", "from: top, to: flush with under}",
         "from: top, to: flush with under, takes: ▸1 mm}",
         "number"),
    case("knots that do not say where", "knots take: 20 mm each end", "knots take: ▸20 mm", "number"),
    case("knots that take a time", "knots take: 20 mm each end", "knots take: ▸20 min each end", "number"),
    case("a taper without a unit", "point: 0 mm to 22 mm", "point: 0 mm to ▸22", "number"),
    case("a hole at a time", "low: 20 mm from left and 60 mm from front",
         "low: 20 mm from left and ▸60 min from front", "number"),
    case("a stretch without a unit", "outside: 0 mm to 3 mm from foot", "outside: 0 mm to ▸3 from foot",
         "number"),
    case("a stretch over two lines", "outside: 0 mm to 3 mm from foot",
         "outside: 0 mm to\n         ▸3 from foot", "number"),
    case("a name in a number over two lines", "outside: 0 mm to 3 mm from foot",
         "outside: 0 mm to 3 mm\n         + ▸thicknes from foot", "unknown-name"),
    case("a point at a time", "[40 mm, 0 mm], [0 mm, 30 mm]", "[40 mm, ▸0 min], [0 mm, 30 mm]", "number"),
    # counts
    case("a count of none", "of: stick, count: 2, length", "of: stick, count: ▸0, length", "number"),
    case("a count with a unit", "of: stick, count: 2, length", "of: stick, count: ▸2 mm, length", "number"),
    case("a count below zero", "of: stick, count: 2, length", "of: stick, count: ▸-2, length", "number"),
    case("a thousand million", "of: stick, count: 2, length", "of: stick, count: ▸1000000000, length",
         "number"),
    case("turns that are no count", "turns: 4, overlap", "turns: ▸four, overlap", "number"),
    case("a pack of half a sheet", "sold: {pack: 50, price", "sold: {pack: ▸1/2, price", "number"),
    # names in sums
    case("a misspelt dimension", "gap: play * 2", "gap: ▸plya * 2", "unknown-name"),
    case("a misspelt field", "inside: tube.outside + gap", "inside: ▸tube.outsde + gap", "unknown-name"),
    case("a misspelt thing", "inside: tube.outside + gap", "inside: ▸tubee.outside + gap", "unknown-name"),
    case("a zone without its part", "rest: tube.length - tube.mouth", "rest: tube.length - ▸mouth",
         "unknown-name"),
    case("a number of a time without one", "gap: play * 2", "gap: play * 2 + 0 * ▸pencil.length",
         "unknown-name"),
    # sums that come back to themselves
    case("a dimension that is itself", "gap: play * 2", "gap: ▸gap * 2", "sum-cycle"),
    Case("two that wait for one another", (("play: {is: 0.5 mm,", "play: {is: ▸gap / 2,"),), ("sum-cycle",)),
    case("a size that is itself", "outline: {rectangle: 200 mm x 120 mm",
         "outline: {rectangle: 200 mm x ▸base.width * 2",
         "sum-cycle"),
    case("a diameter that is the widest of all", "point: 0 mm to 22 mm", "point: 0 mm to ▸cone.outside",
         "sum-cycle"),
    Case("by way of what is derived", (
        ("diameter: 20 mm, length: 250 mm", "diameter: ▸tube.outside, length: 250 mm"),), ("sum-cycle",)),
    Case("round three things", (
        ("outside: 40 mm, inside", "outside: ▸peg.length, inside"),
        ("count: 2, length: 80 mm}", "count: 2, length: loop.length}"),
        ("of: string, length: 300 mm", "of: string, length: ring.outside")), ("sum-cycle",)),
)  # fmt: skip


@pytest.mark.parametrize("row", CASES, ids=lambda row: row.name)
def test_one_fault_is_one_finding(row: Case) -> None:
    texts, expected = planted(KIT, MAIN, row.edits, row.checks)
    found = reading(texts, MAIN).findings
    assert spots(found) == expected
    assert misplaced(found, texts) == []
    assert all(finding.why and finding.mend for finding in found)


@pytest.mark.parametrize(
    ("old", "new", "mend"),
    [
        ("length: 80 mm}", "length: 31/4 in}", "3 1/4 in"),
        ("length: 80 mm}", "length: 2/4 in}", "1/2 in"),
        ("    time: 12 min", "    time: 1:30", "1 h 30 min"),
        ("    time: 12 min", "    time: 12", "12 min"),
        ("length: 80 mm}", "length: 80 inchs}", "inch"),
        ("gap: play * 2", "gap: plya * 2", "`play`"),
        ("inside: tube.outside + gap", "inside: tube.outsde + gap", "`tube.outside`"),
        ("inside: tube.outside + gap", "inside: tubee.outside + gap", "`tube.outside`"),
        ("knots take: 20 mm each end", "knots take: 20 mm", "`1 in each end`"),
    ],
)
def test_the_mend_says_what_to_type(old: str, new: str, mend: str) -> None:
    texts, _ = planted(KIT, MAIN, ((old, new),), ())
    finding, = reading(texts, MAIN).findings
    assert mend in finding.mend


def test_a_misspelt_name_is_read_as_the_nearest() -> None:
    texts, _ = planted(KIT, MAIN, (("gap: play * 2", "gap: plya * 2"),), ())
    assert reading(texts, MAIN).dimensions["gap"].base == 1


def test_a_cycle_names_its_way_and_its_other_places() -> None:
    texts, _ = planted(KIT, MAIN, (("play: {is: 0.5 mm,", "play: {is: gap / 2,"),), ())
    guide = reading(texts, MAIN)
    finding, = guide.findings
    assert "play -> gap -> play" in finding.message
    assert [(other.place.line, other.place.column) for other in finding.also] == [(11, 8)]
    assert guide.dimensions["gap"].quantity is None, "what waits for itself has no value"
    assert guide.things["ring"].mm("inside") is None, "and what reads it stays silent"


@pytest.mark.parametrize(("sums", "checks"), [(MOST_CHAIN - 1, []), (3 * MOST_CHAIN, ["too-deep"])])
def test_sums_may_rest_on_sums_but_not_without_end(sums: int, checks: list[str]) -> None:
    """Each names the one below it, so that the first is worked out last."""
    chain = "".join(f"  d{i}: d{i + 1}\n" for i in range(sums)) + f"  d{sums}: 1 mm\n"
    texts, _ = planted(KIT, MAIN, (("  gap: play * 2\n", f"  gap: play * 2\n{chain}"),), ())
    assert [finding.check for finding in reading(texts, MAIN).findings] == checks


def test_one_length_of_a_size_may_follow_from_the_other() -> None:
    texts, _ = planted(KIT, MAIN, (("rectangle: 200 mm x 120 mm", "rectangle: base.width * 2 - 40 mm x 120 "
                                                                  "mm"),), ())
    guide = reading(texts, MAIN)
    assert guide.findings == () and guide.things["base"].mm("length") == 200


def test_a_name_that_many_places_miss_is_one_finding() -> None:
    texts, expected = planted(KIT, MAIN, (
        ("  gap: play * 2\n", "  far: ▸gone * 2\n  further: gone * 3\n  gap: play * 2\n"),),
                              ("unknown-name",))  # fmt: skip
    finding, = reading(texts, MAIN).findings
    assert spots([finding]) == expected
    assert [other.place.line for other in finding.also] == [12]


@pytest.mark.parametrize(
    ("fault", "use", "check"),
    [
        # a tool is read before the part that it names, a dimension before both
        (("rolled: {of: paper,", "rolled: {▸xylophone: paper, of: paper,"),
         ("  ruler: {name: ruler}", "  ruler: {name: ruler, length: tube.outside}"), "unknown-key"),
        (("{of: paper, around: former, turns", "{of: paper, around: ▸xylophone, turns"),
         ("  gap: play * 2", "  gap: play * 2\n  round: tube.over_seam"), "unknown-name"),
        (("set: 30 min, full cure: 24 h}\n  varnish", "▸xylophone: 30 min, full cure: 24 h}\n  varnish"),
         ("  gap: play * 2", "  gap: play * 2\n  pause: pva.set"), "unknown-key"),
        (("ring: {form: ring, of: board", "ring: {form: ring, of: ▸xylophone"),
         ("  gap: play * 2", "  gap: play * 2\n  thick: ring.length"), "unknown-name"),
    ],
)  # fmt: skip
def test_what_a_fault_leaves_out_is_not_missed_elsewhere(fault: tuple[str, str], use: tuple[str, str],
                                                         check: str) -> None:  # fmt: skip
    texts, expected = planted(KIT, MAIN, (fault, use), (check,))
    assert spots(reading(texts, MAIN).findings) == expected


def test_two_ways_back_to_one_sum_are_one_finding() -> None:
    texts, expected = planted(KIT, MAIN, (
        ("  gap: play * 2\n", "  far: ▸near + side\n  near: far / 2\n  side: far / 3\n  gap: play * 2\n"),),
        ("sum-cycle",))  # fmt: skip
    assert spots(reading(texts, MAIN).findings) == expected


def test_a_number_in_a_sum_is_written_there() -> None:
    """What a sum reads: the numbers that it names, and its own place if a number is typed in it."""
    guide = reading(KIT, MAIN)
    assert guide.dimensions["gap"].reads == {"play", "gap"}  # play * 2
    assert guide.things["ring"].values["inside"].reads == {
        "former.diameter", "tube.turns", "paper.thickness", "play", "gap"}  # tube.outside + gap, no number


def test_what_can_only_be_derived_from_itself_is_no_cycle() -> None:
    """A wall from the outside and the inside, the inside from the wall and the outside: none is written."""
    texts, expected = planted(KIT, MAIN, (
        ("  loop: {form: cord", "  ▸bare: {form: tube, length: 10 mm, outside: 8 mm}\n  loop: {form: cord"),
        ), ("missing-field",))  # fmt: skip
    finding, = reading(texts, MAIN).findings
    assert spots([finding]) == expected
    assert "inside" in finding.message
