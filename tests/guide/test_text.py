"""Slips of the text itself: one finding for each, at its place, and the rest is read all the same."""

from __future__ import annotations

import pytest

from builder.guide.nodes import MOST_CHARACTERS, MOST_NESTING, MOST_PIECES, ScalarNode, compose, inside
from tests.guide.planting import Case, case, misplaced, planted, reading, spots, texts_of

ROCKET, MAIN = texts_of("rolled-rocket.yml")

ALIASES = (
    ("body_dowel:  {name: 1 1/4 in dowel, form: rod, diameter: 1 1/4 in, length: 14 in, one per: 4 builders}",
     "body_dowel:  {name: 1 1/4 in dowel, form: rod, diameter: 1 1/4 in, length: 14 in, one per: &four 4 "
     "builders}"),
    ("diameter: 23/32 in, length: 6 in, one per: 4 builders}",
     "diameter: 23/32 in, length: 6 in, one per: ▸*four}"),
)  # fmt: skip

CASES = (
    # brackets and quotation marks: the loader gives up lines later, the finding stands at the opening one
    case("an open brace", "knife:       {name: craft knife, hazards: [blade], one per: 2 builders}",
         "knife:       ▸{name: craft knife, hazards: [blade], one per: 2 builders", "yaml"),
    case("an open brace of an entry over two lines",
         "pva:     {name: white PVA glue, form: adhesive, adhesive: pva, amount: 20 mL,\n"
         "            label: {working time: 5 min, tack: 2 min, set: 30 min, full cure: 24 h}}",
         "pva:     ▸{name: white PVA glue, form: adhesive, adhesive: pva, amount: 20 mL,\n"
         "            label: {working time: 5 min, tack: 2 min, set: 30 min, full cure: 24 h}", "yaml"),
    case("an open bracket", "knife:       {name: craft knife, hazards: [blade], one per",
         "knife:       {name: craft knife, hazards: ▸[blade, one per", "yaml"),
    case("the wrong closing sign", "{cut: motor_tube.blank, from: paper, with: scissors}",
         "▸{cut: motor_tube.blank, from: paper, with: scissors]", "yaml"),
    case("a brace too many", "{cut: motor_tube.blank, from: paper, with: scissors}",
         "{cut: motor_tube.blank, from: paper, with: scissors}▸}", "yaml"),
    case("an open quotation mark", 'why: "slides by hand, and white glue bridges the gap"}',
         'why: ▸"slides by hand, and white glue bridges the gap}', "yaml"),
    case("an open quotation mark on a line of its own", "title: Cut the blanks", 'title: ▸"Cut the blanks',
         "yaml"),
    case("an open single quotation mark", "title: Cut the blanks", "title: ▸'Cut the blanks", "yaml"),
    # commas and colons
    case("a comma missing at the end of a line", "adhesive: pva, amount: 20 mL,\n",
         "adhesive: pva, amount: 20 m▸L\n", "yaml"),
    case("a comma missing between two fields", "thickness: 0.010 in, sold: {pack: 50",
         "thickness: 0.010 in sold▸: {pack: 50", "yaml"),
    case("a colon in a title", "title: Cut the blanks", "title: Cut▸: the blanks", "yaml"),
    case("a colon in a text inside braces", "else: The thrust ring has slipped. Make",
         "else: The thrust ring has slipped▸: Make", "yaml"),
    case("a space missing behind a colon", "title: Cut the blanks", "title▸:Cut the blanks", "yaml"),
    case("a colon missing", "title: Cut the blanks", "▸title Cut the blanks", "yaml"),
    # what a text may not begin with or hold
    case("a brace in a text inside braces", "else: The thrust ring has slipped. Make",
         "else: The thrust ring ▸{dummy} slipped. Make", "yaml"),
    case("a text that begins with a brace", "say: Run a bead of {with}, as wide as a pencil line, round",
         "say: ▸{with} runs, as wide as a pencil line, round", "yaml"),
    case("a text that begins with a sign", "title: Cut the blanks", "title: ▸@ Cut the blanks", "yaml"),
    case("a backslash", "title: Cut the blanks", 'title: "Cut ▸\\qthe blanks"', "yaml"),
    # indentation
    case("a tab", "    title: Cut the blanks", "▸\ttitle: Cut the blanks", "yaml"),
    case("a line indented too little", "    title: Cut the blanks", "   ▸title: Cut the blanks", "yaml"),
    case("a line indented too far", "    title: Cut the blanks", "     title▸: Cut the blanks", "yaml"),
    case("an entry indented too far", "  - id: cut_paper", "   ▸- id: cut_paper", "yaml"),
    case("an entry indented too little", "  - id: cut_paper", " ▸- id: cut_paper", "yaml"),
    case("a dash missing", "      - {cut: body.blank, from", "      ▸{cut: body.blank, from", "yaml"),
    case("a dash without its space", "  - id: cut_paper", "  ▸-id: cut_paper", "yaml"),
    case("a second document", "\nchoices:\n", "\n▸---\nchoices:\n", "yaml"),
    # what YAML would let pass in silence
    case("a number behind the sign of a comment", "{sand: fin, edges", "{sand: fin ▸#2, edges", "comment"),
    case("the same at the end of a line", "        for: thrust_ring\n", "        for: thrust_ring ▸#1\n",
         "comment"),
    case("two of them on one line", "{wait for: fin, until: set}\n          - {remove: fin_jig",
         "{wait for: fin ▸#1 and #2, until: set}\n          - {remove: fin_jig", "comment"),
    Case("an alias", ALIASES, ("alias",)),
    Case("an alias of which there is no anchor", ALIASES[1:], ("alias",)),
    case("an anchor that nothing names", "per: &"[:5] + "3 builders,\n", "per: ▸&three 3 builders,\n",
         "alias"),
    case("an anchor before a key", "    title: Cut the blanks", "    ▸&t title: Cut the blanks", "alias"),
    case("a merge key", "  front_ring:  {like: rear_ring}", "  front_ring:  {<<: ▸*ring, like: rear_ring}",
         "alias"),
    case("a merge key without an alias", "  front_ring:  {like: rear_ring}",
         "  front_ring:  {▸<<: {length: 3 mm}, like: rear_ring}", "alias"),
    case("a tag", "title: Cut the blanks", "title: ▸!!str Cut the blanks", "tag"),
)  # fmt: skip


@pytest.mark.parametrize("row", CASES, ids=lambda row: row.name)
def test_one_slip_is_one_finding(row: Case) -> None:
    texts, expected = planted(ROCKET, MAIN, row.edits, row.checks)
    guide = reading(texts, MAIN)
    assert spots(guide.findings) == expected
    assert misplaced(guide.findings, texts) == []
    assert all(finding.why and finding.mend for finding in guide.findings)
    assert "eye" in guide.things and len(guide.routes) == 2, "the rest is read all the same"


def test_slips_far_apart_are_findings_each() -> None:
    rows = [row for row in CASES if row.name in (
        "a comma missing between two fields", "an open brace", "a line indented too far", "a second document",
        "a merge key")]  # fmt: skip
    edits = tuple(edit for row in rows for edit in row.edits)
    texts, expected = planted(ROCKET, MAIN, edits, ("yaml", "yaml", "yaml", "alias", "yaml"))
    assert sorted(spots(reading(texts, MAIN).findings)) == sorted(expected)


@pytest.mark.parametrize(
    ("old", "new", "checks"),
    [
        ("    time: 10 min\n    actions:\n      - {cut: body",
         "     ▸tiem▸: 10 min\n    actions:\n      - {cut: body",
         ("unknown-key", "yaml")),
        ("      - {cut: body.blank, from: paper", "      ▸{cut: body.blank, from: ▸papre",
         ("yaml", "unknown-name")),
        ("    title: Cut the blanks", "▸\t▸titel: Cut the blanks", ("yaml", "unknown-key")),
        ("thickness: 0.010 in, sold: {pack: 50, price", "thickness: 0.010 in sold▸: {pack: 50, ▸pirce",
         ("yaml", "unknown-key")),
    ],
)  # fmt: skip
def test_a_mended_line_is_told_as_it_was_written(old: str, new: str, checks: tuple[str, ...]) -> None:
    """Another fault on a line that was mended stands at the column where the writer sees it."""
    texts, expected = planted(ROCKET, MAIN, ((old, new),), checks)
    found = spots(reading(texts, MAIN).findings)
    assert [spot for spot in found if spot in expected] == sorted(expected, key=lambda s: s[0] != "yaml")


@pytest.mark.parametrize(
    "line",
    [
        "title: Two tubes  # part 2 of 3, #2 is the other",
        "title: 'One tube #2'",
        'title: "One tube #2, and more"',
        "title: One tube  #2",
        "title: Stop! Go & see 2 * 2",
        "title: It's a fold, isn't it? That's all",
        "overview: >-\n  a block about tube #2\n  and no comment\ntitle: x",
        "title: A & B\nscience: C *d* e",
    ],
)
def test_what_is_no_slip(line: str) -> None:
    read = compose(line, "guide.yml")
    assert read.findings == []
    assert read.node is not None


@pytest.mark.parametrize(
    ("text", "check", "line", "column"),
    [
        ("a" * (MOST_CHARACTERS + 1), "too-large", 1, 1),
        ("a: [" + "b, " * MOST_PIECES + "]", "too-large", 1, 1),
        ("a:\n  " + "[" * (MOST_NESTING + 1) + "]" * (MOST_NESTING + 1), "too-deep", 2, 3 + MOST_NESTING),
        ("- " * 12 + "a", "too-deep", 1, 1),
        ("a: 1\n" + " " * 200 + "b: 1", "too-deep", 2, 1),
    ],
)
def test_limits_of_a_text(text: str, check: str, line: int, column: int) -> None:
    read = compose(text, "guide.yml")
    assert spots(read.findings) == [(check, "guide.yml", line, column)]
    assert read.node is None


@pytest.mark.parametrize(
    ("text", "line", "column", "science"),
    [
        ("title: a\nscience: b\x00c\n", 2, 11, "bc"),
        ("title: a\r\nscience: bc\x07\r\n", 2, 12, "bc"),
        ("science: b\u2028c", 1, 11, "bc"),
        ("science: b\x85c", 1, 11, "bc"),
        ("science: b\ufeffc", 1, 11, "bc"),
        ("science: bc\ud800", 1, 12, "bc"),
        ("\x1bscience: bc", 1, 1, "bc"),
        ("science\x07: b\x08c\ntitle: \x00", 1, 8, "bc"),
    ],
)
def test_an_invisible_sign_is_read_past(text: str, line: int, column: int, science: str) -> None:
    read = compose(text, "guide.yml")
    assert spots(read.findings) == [("control-character", "guide.yml", line, column)]
    assert read.node is not None
    assert {key.value: value.value for key, value in read.node.value}["science"] == science


def test_what_stands_behind_an_invisible_sign_is_placed_as_written() -> None:
    read = compose("a: {b: \x07c, d: e}", "guide.yml")
    assert read.node is not None
    inner = read.node.value[0][1].value
    assert inner[1][0].start_mark.column == "a: {b: \x07c, d: e}".index("d")


def test_an_invisible_sign_does_not_hide_another_slip() -> None:
    read = compose("title: \x07a\nb: [c\nd: e\n", "guide.yml")
    assert [f.check for f in read.findings] == ["yaml", "control-character"]


def test_the_other_invisible_signs_are_counted() -> None:
    assert "and 2 more in this file" in compose("a: \x07\x07\x07b", "guide.yml").findings[0].message


@pytest.mark.parametrize(
    "text",
    ["\ufefftitle: a", "title: a\r\nscience: b\r\n", "title: a\rscience: b", "a: " + "[" * 40 + "]" * 40],
)
def test_texts_of_other_systems(text: str) -> None:
    read = compose(text, "guide.yml")
    assert read.findings == [] and read.node is not None


def test_an_alias_is_told_once_with_its_other_places() -> None:
    text = "a: &x [1, 2]\nb: *x\nc: *x\n"
    finding, = compose(text, "guide.yml").findings
    assert (finding.place.line, finding.place.column, finding.place.length) == (2, 4, 2)
    assert [(other.place.line, other.place.column) for other in finding.also] == [(3, 4), (1, 4)]


def test_names_of_names_of_names_cost_nothing() -> None:
    """Each line names the one before nine times: 9 to the power of 30 if it were followed."""
    lines = ["a0: &a0 x"] + [f"a{i}: &a{i} [{', '.join([f'*a{i - 1}'] * 9)}]" for i in range(1, 31)]
    read = compose("\n".join(lines), "guide.yml")
    assert [finding.check for finding in read.findings] == ["alias"] * 31
    assert compose("a: &a [*a]", "guide.yml").node is not None


@pytest.mark.parametrize(
    ("text", "piece", "line", "column"),
    [
        ("a: one two", "two", 1, 8),
        ("a: 'one two'", "two", 1, 9),
        ('a: "one \\" two"', "two", 1, 12),
        ("a: >-\n  one\n  two", "two", 3, 3),
        ("a: one\n  two two", "two", 2, 3),
        ('a: "\\u0074wo"', "two", 1, 4),  # not there as it reads: the text's own place
    ],
)
def test_the_place_of_a_piece_of_a_text(text: str, piece: str, line: int, column: int) -> None:
    node = compose(text, "guide.yml").node
    assert node is not None
    scalar = node.value[0][1]
    assert isinstance(scalar, ScalarNode)
    place = inside(scalar, "guide.yml", scalar.value.index(piece), len(piece), text)
    assert (place.line, place.column) == (line, column)
