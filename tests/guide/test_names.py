"""Faults of names, keys and things: one finding for each, at the word that is wrong."""

from __future__ import annotations

import pytest

from tests.guide.planting import Case, case, planted, reading, spots, texts_of

KIT, MAIN = texts_of("marble-run")

CASES = (
    # keys
    case("a key written twice", "length: 80 mm}", "length: 80 mm, ▸length: 90 mm}", "duplicate-key"),
    case("a section written twice", "\ntools:\n", "\n▸dimensions:\n  more: 1 mm\ntools:\n", "duplicate-key"),
    case("a part written twice", "  other_ring: {like", "  ▸ring: {like: other_ring}\n  other_ring: {like", "duplicate-key"),
    case("a chain written twice", "      lengthwise from left: [", "      lengthwise from left: [all_of_it: 200 mm]\n"
         "      ▸lengthwise from left: [", "duplicate-key"),
    case("a misspelt key", "pattern: ring}", "▸patern: ring}", "unknown-key"),
    case("a key that nothing knows", "pattern: ring}", "▸colour: blue}", "unknown-key"),
    case("a misspelt section", "\ntools:\n", "\n▸tols:\n", "unknown-key"),
    case("a misspelt unit key", "{first: mm,", "{▸frist: mm,", "unknown-key"),
    case("a key of a label", "{working time: 5 min,", "{▸worktime: 5 min,", "unknown-key"),
    case("a key of what is rolled", "turns: 4, overlap", "▸layers: 4, overlap", "unknown-key"),
    case("a key of an outline", "edges: [left, front, right, back], along", "▸egdes: [left, front, right, back], along",
         "unknown-key"),
    case("a key of a dimension", 'is: 0.5 mm, why: "slides by hand"', 'is: 0.5 mm, ▸because: "slides by hand"', "unknown-key"),
    case("a key of an action", "until: set, if missed: No harm.", "until: set, ▸if mised: No harm.", "unknown-key"),
    case("a key of a step", "    time: 12 min", "    ▸tiem: 12 min", "unknown-key"),
    case("a key of the finished kit", "finished: {is: base, holds", "finished: {is: base, ▸hold", "unknown-key"),
    case("a key of a revision", "by: Tannerfield Workshop}", "▸author: Tannerfield Workshop}", "unknown-key"),
    # values that are missing
    case("a comma in a text", "if missed: No harm.}", "if missed: No harm, ▸it may stand.}", "missing-value"),
    case("three commas in a text", "if missed: No harm.}", "if missed: No harm, ▸it may stand, dry, for days.}", "missing-value"),
    case("a decimal comma inside braces", "length: 80 mm}", "length: 80 mm, thickness: 1 mm, ▸5 mm}", "missing-value"),
    case("a field without a value", "pattern: ring}", "▸pattern}", "missing-value"),
    case("a required field without a value", "{form: cord, length: 2 m}", "{▸form, length: 2 m}", "missing-value"),
    case("a required field of an action", "{insert: peg, into: base, from: top", "{insert: peg, ▸into, from: top", "missing-value"),
    case("a dimension without a value", "  gap: play * 2", "  ▸gap:", "missing-value"),
    case("a zone without a length", "[foot: 20 mm, ring_seat", "[▸foot, ring_seat", "missing-value"),
    case("a title without a value", "title: Marble run", "▸title:", "missing-value"),
    # fields that are missing
    case("no form", "stick: {name: 6 mm dowel, form: rod, diameter", "▸stick: {name: 6 mm dowel, diameter", "missing-field"),
    case("no title", "title: Marble run\nrevision", "▸revision", "missing-field"),
    case("no ruler step", "units: {first: mm, second: in, finest: 1 mm}", "▸units: {first: mm, second: in}", "missing-field"),
    case("a revision without its date", "revision: {number: 1, dated: 2026-11-02, by", "▸revision: {number: 1, by", "missing-field"),
    Case("a tube without a length", (
        ("  tube:\n    form: tube\n", "  ▸tube:\n    form: tube\n"), ("    length: 200 mm ± 1 mm\n", "")), ("missing-field",)),
    case("a rod without a diameter", "  peg: {form: rod, of: stick, count", "  ▸peg: {form: rod, count", "missing-field"),
    case("a cord without a length", "string: {form: cord, length: 2 m}", "▸string: {form: cord}", "missing-field"),
    Case("a turned part without diameters", (
        ("  cone:\n", "  ▸cone:\n"), ("    diameters: {point: 0 mm to 22 mm, plug: tube.inside - play}\n", "")),
         ("missing-field",)),
    case("a zone without its diameter", "diameters: {point: 0 mm to 22 mm, plug: tube.inside - play}",
         "diameters: ▸{point: 0 mm to 22 mm}", "missing-field"),
    case("an outline without a shape", "outline: {points: [[0 mm, 0 mm], [40 mm, 0 mm], [0 mm, 30 mm]]}",
         "outline: ▸{along: left to right}", "missing-field"),
    case("a fin without a tip", "outline: {points: [[0 mm, 0 mm], [40 mm, 0 mm], [0 mm, 30 mm]]}",
         "outline: ▸{root: 40 mm, span: 30 mm}", "missing-field"),
    case("an outline of two points", "{points: [[0 mm, 0 mm], [40 mm, 0 mm], [0 mm, 30 mm]]}",
         "{points: ▸[[0 mm, 0 mm], [40 mm, 0 mm]]}", "shape"),
    case("a point of one length", "[[0 mm, 0 mm], [40 mm, 0 mm], [0 mm, 30 mm]]", "[[0 mm, 0 mm], [40 mm, 0 mm], ▸[0 mm], [0 mm, 30 mm]]",
         "shape"),
    # braces
    case("doubled braces for a number", "length: 80 mm}", "length: ▸{{ base.width }}}", "braces"),
    case("braces for a number", "length: 80 mm}", "length: ▸{base.width}}", "braces"),
    case("doubled braces for an id", "{insert: peg, into: base,", "{insert: peg, into: ▸{{ base }},", "braces"),
    case("doubled braces for a place", "from: top, to: flush with under}", "from: top, to: ▸{{ low }}}", "braces"),
    case("doubled braces in a text", "Cut the {base} and the pegs", "Cut the ▸{{base}} and the pegs", "braces"),
    case("doubled braces for a text", "  - id: pegs_in\n    title: Glue the pegs in", "  - id: pegs_in\n    title: ▸{{ base }}", "braces"),
    case("braces for a key", "  loop: {form", "  ▸{{ loop }}: {form", "braces"),
    # words
    case("a misspelt form", "flag: {form: slab", "flag: {form: ▸slap", "word"),
    case("a form that nothing knows", "flag: {form: slab, of: board", "flag: {form: ▸blob, of: board", "word"),
    case("a unit that cannot be shown", "units: {first: mm", "units: {first: ▸furlong", "word"),
    case("a share that says nothing", "per: 3 builders, sold", "per: ▸three builders, sold", "word"),
    case("a chain from nowhere", "outside from tip:", "▸outside:", "shape"),
    case("a chain from a misspelt end", "outside from tip:", "▸outside from tipp:", "word"),
    case("a chain on no side", "lengthwise from left:", "▸endwise from left:", "shape"),
    case("zones that are no list", "outside from tip: [point: 20 mm, plug: 10 mm]", "outside from tip: ▸{point: 20 mm, plug: 10 mm}",
         "shape"),
    case("zones without a chain", "      lengthwise from left: [near_half: 100 mm, far_half: 100 mm]",
         "      ▸- near_half: 100 mm", "shape"),
    # ids
    case("an id with a capital", "  loop: {form", "  ▸Loop: {form", "bad-id"),
    case("an id with a space", "  loop: {form", "  ▸long loop: {form", "bad-id"),
    case("an id that is a number of its own", "  gap: play * 2\n", "  gap: play * 2\n  ▸pi: 3\n", "bad-id"),
    case("one id in two sections", "  ruler: {name: ruler}", "  ruler: {name: ruler}\n  ▸board: {hazards: []}", "duplicate-id"),
    Case("a dimension and a part of one name", (
        ("  gap: play * 2\n", "  gap: play * 2\n  flag: 3 mm\n"), ("  flag: {form", "  ▸flag: {form")), ("duplicate-id",)),
    case("a sub-assembly with the name of a part", "makes: stand, base", "makes: ▸flag, base", "duplicate-id"),
    case("a zone twice in a chain", "[near_half: 100 mm, far_half: 100 mm]", "[near_half: 100 mm, ▸near_half: 100 mm]", "duplicate-id"),
    case("a zone with the name of a field", "[near_half: 100 mm, far_half: 100 mm]", "[near_half: 100 mm, ▸width: 100 mm]",
         "duplicate-id"),
    # references
    case("a material of a part", "loop: {form: cord, of: string", "loop: {form: cord, of: ▸strnig", "unknown-name"),
    case("a material that nothing resembles", "loop: {form: cord, of: string", "loop: {form: cord, of: ▸xylophone", "unknown-name"),
    case("a tool where a material belongs", "loop: {form: cord, of: string", "loop: {form: cord, of: ▸ruler", "wrong-sort"),
    case("a misspelt former", "around: former, turns", "around: ▸fromer, turns", "unknown-name"),
    case("a former that is a part", "around: former, turns", "around: ▸peg, turns", "wrong-sort"),
    case("a misspelt part to copy", "{like: ring, name", "{like: ▸rign, name", "unknown-name"),
    case("a part to copy that nothing resembles", "{like: ring, name", "{like: ▸xylophone, name", "unknown-name"),
    case("a material to copy", "{like: ring, name", "{like: ▸board, name", "wrong-sort"),
    case("a part that copies itself", "{like: ring, name", "{like: ▸other_ring, name", "like-cycle"),
    Case("two parts that copy one another", (("ring: {form: ring, of: board", "ring: {like: ▸other_ring, form: ring, of: board"),),
         ("like-cycle",)),
    case("a diameter of no zone", "diameters: {point: 0 mm to 22 mm, plug:", "diameters: {point: 0 mm to 22 mm, ▸plg:", "unknown-name"),
    case("a misspelt part in an action", "{insert: peg, into: base", "{insert: ▸pge, into: base", "unknown-name"),
    case("a misspelt material in an action", "from foot, with: pva, for: base}", "from foot, with: ▸pvaa, for: base}", "unknown-name"),
    case("a material where a part belongs", "from foot, with: pva, for: base}", "from foot, with: pva, for: ▸board}", "wrong-sort"),
    case("a copy that there is not", "{glue: peg 1 and 2, outside", "{glue: ▸peg 1 and 3, outside", "unknown-name"),
    case("a copy of what there is one of", "{wait for: peg, until", "{wait for: ▸base 2, until", "unknown-name"),
    case("a zone that there is not", "{wait for: peg, until", "{wait for: ▸cone.plugg, until", "unknown-name"),
    case("a misspelt end product", "finished: {is: base", "finished: {is: ▸bsae", "unknown-name"),
    case("an end product that is a tool", "finished: {is: base", "finished: {is: ▸ruler", "wrong-sort"),
    case("a misspelt base of a stage", "makes: stand, base: base}", "makes: stand, base: ▸baze}", "unknown-name"),
    case("a misspelt host", "      - repeat: peg\n", "      - repeat: peg\n        around: ▸bsae\n", "unknown-name"),
    case("a misspelt part to repeat", "repeat: peg", "repeat: ▸pge", "unknown-name"),
)  # fmt: skip


@pytest.mark.parametrize("row", CASES, ids=lambda row: row.name)
def test_one_fault_is_one_finding(row: Case) -> None:
    texts, expected = planted(KIT, MAIN, row.edits, row.checks)
    found = reading(texts, MAIN).findings
    assert spots(found) == expected
    assert all(finding.why and finding.mend for finding in found)
